"""Bayes's rule over everything that is not known: what the logbook leaves of it.

Each cause has its own prior (one quantity may be far off, the others as careful building leaves
them). Its most likely place is found by Fisher scoring; a Gaussian there (Laplace) is what samples
are drawn from; each sample is then weighed by prior times likelihood over what it was drawn from,
so that the answer is Bayes's and not the Gaussian's.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from foamwright.logbook.basis import Basis
from foamwright.logbook.causes import CAUSES, odds, possible, widths
from foamwright.logbook.evidence import Seen
from foamwright.logbook.likelihood import log_likelihood, slopes_at

type Array = NDArray[np.float64]
type Progress = Callable[[str, float], None]

ROUNDS = 10
SETTLED = 1e-3  # in spreads
SAMPLES = 6000
BROADER = 1.15  # standard deviation of the samples drawn, over the Gaussian's: covers its tails
SEED = 20261125
ENOUGH = 400.0  # effective samples; below it a second draw follows


@dataclass(frozen=True, slots=True)
class Posterior:
    """What is left after everything seen.

    Attributes:
        samples: Guesses, one a row. [as hidden.py]
        weights: Of the samples, sum 1. [-]
        causes: Chance of each cause, in the order of CAUSES. [-]
        modes: Most likely guess under each cause. [as hidden.py]
        effective: Samples that the weights are worth. [-]
        settled: Whether every cause's most likely place was found.
    """

    samples: Array
    weights: Array
    causes: Array
    modes: Array
    effective: float
    settled: bool


def infer(
    basis: Basis,
    seen: Sequence[Seen],
    *,
    spreads: Array,
    samples: int = SAMPLES,
    progress: Progress | None = None,
) -> Posterior:
    """What everything seen leaves of what was not known.

    Args:
        basis: The plane as drawn. [-]
        seen: Things seen. [-]
        spreads: Of the quantities before. [as each]
        samples: To draw. [-]
        progress: Told a step and how much is done; None for silence. [-]

    Returns:
        Weighed samples and the chances of causes.

    Source:
        Laplace's method [TIERNEY-KADANE] and importance sampling; calibrated after [TALTS].

    Example:
        >>> from foamwright.logbook.basis import basis_of
        >>> from foamwright.logbook.hidden import quantities_of, spreads_of
        >>> left = infer(basis_of(plane), (), spreads=spreads_of(quantities_of(plane)))
        >>> float(left.causes[0].round(1))
        0.4
    """
    tell = progress or _silent
    wide = widths(basis, spreads)
    tell("most likely causes", 0.1)
    modes, hessians, settled = _modes(basis, seen, spreads, wide)
    heights = _heights(basis, modes, hessians, seen=seen, spreads=spreads, wide=wide)
    tell("sampling", 0.5)
    generator = np.random.default_rng(SEED)
    mixture = np.exp(heights - heights.max())
    mixture = 0.9 * mixture / mixture.sum() + 0.1 / len(mixture)
    found = _weighed(
        basis, seen, (modes, hessians, mixture), spreads=spreads, wide=wide,
        count=samples, generator=generator,
    )  # fmt: skip
    if found[3] < ENOUGH:
        tell("sampling more", 0.7)
        mixture = 0.7 * found[2] + 0.3 * mixture
        found = _weighed(
            basis, seen, (modes, hessians, mixture), spreads=spreads, wide=wide,
            count=4 * samples, generator=generator,
        )  # fmt: skip
    places, weights, causes, effective = found
    tell("done", 1.0)
    return Posterior(places * spreads, weights, causes, modes * spreads, effective, settled)


def laplace_of(
    basis: Basis, seen: Sequence[Seen], *, spreads: Array, wide: Array
) -> tuple[Array, Array, Array]:
    """Most likely place, curvature and log-evidence of every cause under any widths.

    Args:
        basis: The plane as drawn. [-]
        seen: Things seen. [-]
        spreads: Of the quantities before. [as each]
        wide: How far each cause lets each quantity be off, in spreads. [-]

    Returns:
        Standardised places, curvatures, and log-evidence with all causes alike before. [-]

    Source:
        Laplace's method [TIERNEY-KADANE].

    Example:
        >>> from foamwright.logbook.basis import basis_of
        >>> flat = np.ones((12, 18))
        >>> found = laplace_of(basis_of(plane), (), spreads=np.ones(18), wide=flat)
        >>> bool(np.allclose(found[2], 0.0))
        True
    """
    modes, hessians, _ = _modes(basis, seen, spreads, wide)
    heights = _heights(basis, modes, hessians, seen=seen, spreads=spreads, wide=wide)
    return modes, hessians, heights - np.log(odds())


def _silent(step: str, done: float) -> None:
    del step, done


def _modes(
    basis: Basis, seen: Sequence[Seen], spreads: Array, wide: Array
) -> tuple[Array, Array, bool]:
    """Most likely standardised guess of every cause and the curvature there."""
    places = np.zeros_like(wide)
    prior = np.einsum("ci,ij->cij", 1.0 / wide**2, np.eye(wide.shape[1]))
    if not seen:
        return places, prior, True
    fractions = np.array([1.0, 0.5, 0.2, 0.05])
    settled = False
    for _ in range(ROUNDS):
        slope = slopes_at(basis, places, seen, spreads=spreads)
        hessian = prior + slope.information
        force = slope.gradient - places / wide**2
        step = np.linalg.solve(hessian, force[..., None])[..., 0]
        tried = places[:, None, :] + fractions[None, :, None] * step[:, None, :]
        flat = tried.reshape(-1, wide.shape[1])
        heights = log_likelihood(basis, flat * spreads, seen).reshape(len(wide), -1)
        heights -= 0.5 * np.sum((tried / wide[:, None, :]) ** 2, axis=2)
        now = slope.value - 0.5 * np.sum((places / wide) ** 2, axis=1)
        best = np.argmax(heights, axis=1)
        rows = np.arange(len(wide))
        better = heights[rows, best] > now
        moved = np.where(better[:, None], tried[rows, best], places)
        settled = bool(np.abs(moved - places).max() < SETTLED)
        places = moved
        if settled:
            break
    final = slopes_at(basis, places, seen, spreads=spreads)
    return places, prior + final.information, settled


def _heights(
    basis: Basis,
    modes: Array,
    hessians: Array,
    *,
    seen: Sequence[Seen],
    spreads: Array,
    wide: Array,
) -> Array:
    """Laplace's log-evidence of every cause, its odds in."""
    values = log_likelihood(basis, modes * spreads, seen)
    values = values - 0.5 * np.sum((modes / wide) ** 2, axis=1) - np.log(wide).sum(axis=1)
    return values - 0.5 * np.linalg.slogdet(hessians)[1] + np.log(odds())


def _weighed(
    basis: Basis,
    seen: Sequence[Seen],
    proposal: tuple[Array, Array, Array],
    *,
    spreads: Array,
    wide: Array,
    count: int,
    generator: np.random.Generator,
) -> tuple[Array, Array, Array, float]:
    """Samples, their weights, chances of causes, effective number."""
    modes, hessians, mixture = proposal
    roots = np.linalg.cholesky(hessians)
    picks = np.repeat(np.arange(len(mixture)), generator.multinomial(count, mixture))
    noise = generator.standard_normal((count, wide.shape[1]))
    spread = np.linalg.solve(np.transpose(roots, (0, 2, 1)), np.eye(wide.shape[1]))
    places = modes[picks] + BROADER * np.einsum("nij,nj->ni", spread[picks], noise)
    drawn = np.stack(
        [
            np.log(mixture[c])
            + np.log(np.diag(roots[c])).sum()
            - 0.5 * np.sum(((places - modes[c]) @ roots[c]) ** 2, axis=1) / BROADER**2
            for c in range(len(mixture))
        ]
    )
    proposed = _summed(drawn) - wide.shape[1] * np.log(BROADER)
    priors = np.stack(
        [
            np.log(odds()[c])
            - np.log(wide[c]).sum()
            - 0.5 * np.sum((places / wide[c]) ** 2, axis=1)
            for c in range(len(CAUSES))
        ]
    )
    prior = _summed(priors)
    height = prior + log_likelihood(basis, places * spreads, seen) - proposed
    weights = np.exp(height - height.max()) * possible(places * spreads)
    weights /= weights.sum()
    causes = np.exp(priors - prior) @ weights
    return places, weights, causes, float(1.0 / np.sum(weights**2))


def _summed(logs: Array) -> Array:
    """Logarithm of the sum of exponentials over the first axis."""
    top = logs.max(axis=0)
    return top + np.log(np.exp(logs - top).sum(axis=0))


def interval(values: Array, weights: Array, *, share: float = 0.8) -> tuple[float, float, float]:
    """Low, middle and high of a quantity: between low and high lies a share of the weight.

    Args:
        values: One a sample. [any]
        weights: Of the samples, sum 1. [-]
        share: Between low and high. [-]

    Returns:
        Low, median, high. [as values]

    Source:
        Definition.

    Example:
        >>> interval(np.arange(101.0), np.full(101, 1 / 101))
        (9.6, 50.0, 90.4)
    """
    order = np.argsort(values)
    middle = np.cumsum(weights[order]) - 0.5 * weights[order]
    ends = np.interp([0.5 * (1.0 - share), 0.5, 0.5 * (1.0 + share)], middle, values[order])
    low, centre, high = (round(float(end), 12) for end in ends)
    return low, centre, high
