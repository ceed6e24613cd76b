"""Many builds of one design: the share of them that hold, and what to measure first."""

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from foamwright.core.errors import ModelError
from foamwright.design.model import Design
from foamwright.parts.model import PartsList
from foamwright.shape.model import Airframe
from foamwright.stock.model import Stock
from foamwright.strength.analyse import IN_G
from foamwright.strength.cases import (
    MODEL_DOUBT,
    TENTH,
    drawn,
    main_doubts,
    one_at_a_time,
    sampled,
    spread,
)
from foamwright.strength.failures import collect_failures
from foamwright.strength.model import LoadCase
from foamwright.strength.named import figures_of

type Array = NDArray[np.float64]

BUILDS = 8000  # a share is then known to half a point


@dataclass(frozen=True, slots=True)
class SampledStrength:
    """First failure of wing, joint and hold in many builds.

    Attributes:
        limits: Load factor of the first failure, one a build. [-]
        first: Failure id -> share of builds in which it comes first. [-]
        doubts: Figure -> share of the spread that it makes, largest first. [-]
    """

    limits: Array
    first: dict[str, float]
    doubts: tuple[tuple[str, float], ...]

    def share(self, needed: float) -> float:
        """Share of builds that hold a load factor. [-]."""
        return float(np.mean(self.limits >= needed))


def sample_failures(
    design: Design,
    airframe: Airframe,
    stock: Stock,
    *,
    draws: Array,
    doubts: Array,
    loads: LoadCase,
    parts: PartsList | None = None,
) -> dict[str, Array]:
    """Every way to break in many builds, the doubt of its formula on top.

    Args:
        design: The design. [-]
        airframe: Its shape. [-]
        stock: The stock tables. [-]
        draws: Standard normal, a row for each of `figures_of`, a column a build. [-]
        doubts: Standard normal, at least a row for each failure. [-]
        loads: Numbers of the plane, with the masses of the builds. [-]
        parts: Everything the plane is made of, for the splices of the skins. [-]

    Returns:
        Failure id -> load factor or strength over load, one a build; failures that rest on a
        figure that stock lacks are left out. [-]

    Source:
        Monte Carlo propagation, JCGM 101.

    Example:
        >>> sample_failures(design, airframe, stock, draws=z, doubts=d,
        ...     loads=loads)["bands"].mean()  # doctest: +SKIP
        9.7
    """
    # Scales are taken against the first build, which must be the typical one.
    typical = np.zeros((draws.shape[0], 1))
    figures = drawn(figures_of(design, stock), np.concatenate([typical, draws], axis=1))
    first = replace(
        loads,
        masses=_led_by(loads.mass, loads.masses),
        wing_masses=_led_by(loads.wing_mass, loads.wing_masses),
    )
    collected = collect_failures(design, airframe, stock, figures=figures, loads=first, parts=parts)
    found: dict[str, Array] = {}
    for each, doubt in zip(collected.found, doubts, strict=False):
        values = np.broadcast_to(each.values, (draws.shape[1] + 1,))[1:]
        if np.all(np.isfinite(values)):
            found[each.id] = values * np.exp(MODEL_DOUBT / TENTH * doubt)
    return found


def _led_by(typical: float, column: Array | None) -> Array | None:
    return None if column is None else np.concatenate([[[typical]], column])


def sample_strength(
    design: Design,
    airframe: Airframe,
    stock: Stock,
    *,
    loads: LoadCase,
    builds: int = BUILDS,
    seed: int = 0,
) -> SampledStrength:
    """Draw builds from the bands of stock and see which hold.

    Every figure on its own, the doubt of the formulas on top; the same seed gives the same builds.

    Args:
        design: The design. [-]
        airframe: Its shape. [-]
        stock: The stock tables. [-]
        loads: Numbers of the plane. [-]
        builds: How many. [-]
        seed: Of the draw. [-]

    Returns:
        The builds' first failures, and which figure to measure first.

    Raises:
        ModelError: Stock lacks a figure that the wing rests on.

    Source:
        Monte Carlo propagation, JCGM 101; first-order shares, JCGM 100.

    Example:
        >>> sample_strength(design, airframe, stock, loads=loads).share(6.0)  # doctest: +SKIP
        0.52
    """
    bands = figures_of(design, stock)
    figures = sampled(bands, builds, seed=seed)
    found = collect_failures(design, airframe, stock, figures=figures, loads=loads).found
    in_g = [f for f in found if f.id.startswith(IN_G) and np.all(np.isfinite(f.values))]
    if not any(f.id.startswith("wing") for f in in_g):
        raise ModelError("The builds cannot be sampled: stock lacks figures of the board.")
    table = np.array([np.broadcast_to(f.values, (builds,)) for f in in_g])
    doubt = spread(len(in_g), builds, seed=seed + 1)
    table = table * np.exp(MODEL_DOUBT / TENTH * doubt)
    which = np.bincount(table.argmin(axis=0), minlength=len(in_g)) / builds
    one = one_at_a_time(bands)
    again = collect_failures(design, airframe, stock, figures=one, loads=loads).found
    lowest = np.min([f.values for f in again if f.id in {g.id for g in in_g}], axis=0)
    return SampledStrength(
        limits=table.min(axis=0),
        first={f.id: float(w) for f, w in zip(in_g, which, strict=True) if w > 0.0},
        doubts=tuple(main_doubts(lowest, tuple(bands))),
    )
