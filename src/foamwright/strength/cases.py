"""Doubted figures, varied together: one column of builds, each row a set of figures that may be."""

from collections.abc import Mapping
from dataclasses import dataclass
from statistics import NormalDist

import numpy as np
from numpy.typing import NDArray

from foamwright.core.bands import Band

type Array = NDArray[np.float64]

TENTH = 1.2815515655446004  # standard deviations from the middle to where one in ten lies outside
# What the formulas leave out: dents, creases, uneven glue, curved panels; assumed, a factor of 1.3
# each way on top of the doubt of every figure.
MODEL_DOUBT = 0.26


@dataclass(frozen=True, slots=True)
class Figures:
    """Values of every doubted figure in several builds.

    Attributes:
        values: Name -> one value a build, as a column (builds, 1).
        builds: Number of builds; the first is the typical one.
        missing: Names of figures that nobody has given.
    """

    values: Mapping[str, Array]
    builds: int
    missing: tuple[str, ...]

    def __getitem__(self, name: str) -> Array:
        """Column of a figure."""
        return self.values[name]


def one_at_a_time(bands: Mapping[str, Band]) -> Figures:
    """The typical build, then every figure at its low and at its high end with the others typical.

    Args:
        bands: Name -> band. [any]

    Returns:
        1 + 2 n builds.

    Source:
        First-order propagation of uncertainty, JCGM 100 (GUM) 5.1.2, by differences.

    Example:
        >>> one_at_a_time({"a": Band(1.0, 2.0, 4.0)})["a"].ravel().tolist()
        [2.0, 1.0, 4.0]
    """
    builds = 1 + 2 * len(bands)
    values: dict[str, Array] = {}
    for row, (name, band) in enumerate(bands.items()):
        column = np.full((builds, 1), band.typical)
        column[1 + 2 * row] = band.low
        column[2 + 2 * row] = band.high
        values[name] = column
    return Figures(values, builds, _missing(bands))


def spread(figures: int, builds: int, *, seed: int) -> Array:
    """Standard normal draws, each figure's spread evenly over its curve; the first build is zero.

    Latin hypercube: every figure takes the middles of equal slices of the curve, in an order of its
    own, so that shares settle sooner than with free draws.

    Args:
        figures: How many. [-]
        builds: How many. [-]
        seed: Same seed, same draws. [-]

    Returns:
        Draws (figures, builds). [-]

    Source:
        McKay, Beckman & Conover 1979 (from memory).

    Example:
        >>> spread(1, 3, seed=0)[0, 0]
        np.float64(0.0)
    """
    curve = NormalDist()
    slices = np.array([curve.inv_cdf((k + 0.5) / (builds - 1)) for k in range(builds - 1)])
    order = np.random.default_rng(seed).permuted(np.tile(slices, (figures, 1)), axis=1)
    return np.concatenate([np.zeros((figures, 1)), order], axis=1)


def sampled(bands: Mapping[str, Band], builds: int, *, seed: int = 0) -> Figures:
    """Many builds, every figure drawn from its band on its own; the first build is the typical one.

    Two half normal curves, one in ten below the low and one in ten above the high end.

    Args:
        bands: Name -> band. [any]
        builds: How many, at least 2. [-]
        seed: Same seed, same builds. [-]

    Returns:
        The builds.

    Source:
        Definition of the bands.

    Example:
        >>> sampled({"a": Band(1.0, 2.0, 4.0)}, 3)["a"].shape
        (3, 1)
    """
    return drawn(bands, spread(len(bands), builds, seed=seed))


def drawn(bands: Mapping[str, Band], draws: Array) -> Figures:
    """Builds from draws that somebody else has made, one row a figure.

    On a log scale: a figure that may be half may be double, and none is below zero.

    Args:
        bands: Name -> band. [any]
        draws: Standard normal (figures, builds). [-]

    Returns:
        The builds.

    Source:
        Definition of the bands.

    Example:
        >>> drawn({"a": Band(1.0, 2.0, 4.0)}, np.array([[0.0, 1.2815515655446004]]))["a"].ravel()
        array([2., 4.])
    """
    values: dict[str, Array] = {}
    for (name, band), draw in zip(bands.items(), draws[:, :, None], strict=True):
        low, high = np.log(band.typical / band.low), np.log(band.high / band.typical)
        values[name] = band.typical * np.exp(draw / TENTH * np.where(draw < 0.0, low, high))
    return Figures(values, draws.shape[1], _missing(bands))


def _missing(bands: Mapping[str, Band]) -> tuple[str, ...]:
    return tuple(name for name, band in bands.items() if band.typical != band.typical)


def band_of(results: Array, *, source: str, doubt: float = MODEL_DOUBT) -> Band:
    """Band of a positive result from its values in the builds of `one_at_a_time`.

    Every figure's effect as a ratio to the typical result, effects combined as root-sum-square of
    their logarithms, with the doubt of the formula itself.

    Args:
        results: One a build, typical first. [any]
        source: Of the formula. [-]
        doubt: Of the formula, as a logarithm. [-]

    Returns:
        Low, typical and high. [any]

    Source:
        JCGM 100 (GUM) 5.1.2, on the logarithm.

    Example:
        >>> band_of(np.array([2.0, 1.0, 4.0]), source="", doubt=0.0)
        Band(low=1.0, typical=2.0, high=4.0, source='')
    """
    flat = results.ravel()
    typical = float(flat[0])
    if typical <= 0.0:
        return Band(0.0, max(typical, 0.0), 0.0, source)
    ratios = np.log(np.maximum(flat[1:], 1e-12 * typical) / typical).reshape(-1, 2)
    down = np.minimum(ratios.min(axis=1), 0.0)
    up = np.maximum(ratios.max(axis=1), 0.0)
    low = float(np.exp(-np.sqrt(np.sum(down**2) + doubt**2)))
    high = float(np.exp(np.sqrt(np.sum(up**2) + doubt**2)))
    return Band(typical * low, typical, typical * high, source)


def main_doubts(results: Array, names: tuple[str, ...]) -> list[tuple[str, float]]:
    """Which figures widen a result most, as shares of its spread.

    Args:
        results: One a build of `one_at_a_time`. [any]
        names: Of its figures, in order. [-]

    Returns:
        (name, share of the variance of the logarithm), largest first. [-]

    Source:
        JCGM 100 (GUM) 5.1.2, on the logarithm.

    Example:
        >>> main_doubts(np.array([2.0, 1.0, 4.0, 2.0, 2.0]), ("a", "b"))
        [('a', 1.0), ('b', 0.0)]
    """
    flat = results.ravel()
    ratios = np.log(np.maximum(flat[1:], 1e-300) / flat[0]).reshape(-1, 2)
    effects = (0.5 * (ratios.max(axis=1) - ratios.min(axis=1))) ** 2
    total = float(effects.sum()) or 1.0
    shares = zip(names, (effects / total).tolist(), strict=True)
    return sorted(shares, key=lambda pair: -pair[1])
