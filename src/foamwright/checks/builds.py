"""Many builds of one plane: the share that passes each check, and what to measure first.

Every band of the stock is drawn at once. Masses, balance, wing loading, stall, static margin, tray,
every way to break, static thrust and currents are computed for each build; what else moves is
taken along the line through its values at the ends of a few main doubts.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from foamwright.balance.sample import weighing_of
from foamwright.checks.built import Doubts, full_margins, power_of_builds
from foamwright.checks.narrowing import Narrowing, narrowings
from foamwright.checks.rules import REGULATION_RULES
from foamwright.checks.surface import Surface, driven, surface_of
from foamwright.core.errors import ModelError
from foamwright.strength.cases import spread
from foamwright.strength.named import figures_of

if TYPE_CHECKING:
    from foamwright.plane import Plane

type Array = NDArray[np.float64]

BUILDS = 2000  # a share is then known to about a point
FEWEST, MOST = 100, 200_000
CAUTIONS = frozenset(rule.id for rule in REGULATION_RULES)
FAILURES = 80  # rows of formula doubt, more than there are ways to break
# Doubts of the models, in standard deviations of aero.uncertainty.
MODELS = ("lift_max", "neutral_point_x", "drag_zero")
POWER = ("kv", "resistance", "no_load_current", "pack_resistance", "thrust", "power")


@dataclass(frozen=True, slots=True)
class Share:
    """How a check fares in many builds.

    Attributes:
        id: Of the check.
        share: Of the builds in which it passes (holds or is close). [-]
        how: "full" when computed in every build, "line" when along a line, "fixed" when nothing
            that is drawn moves it.
    """

    id: str
    share: float
    how: str


@dataclass(frozen=True, slots=True)
class Builds:
    """Many builds of one plane.

    Attributes:
        count: How many. [-]
        seed: Same seed, same builds. [-]
        shares: Of every check that can be said.
        all_pass: Share of builds in which all of those pass. [-]
        mass: Low (one in ten below), middle and high. [kg]
        cg_x: The same. [m]
        narrowings: What to measure, that which settles most first.
    """

    count: int
    seed: int
    shares: tuple[Share, ...]
    all_pass: float
    mass: tuple[float, float, float]
    cg_x: tuple[float, float, float]
    narrowings: tuple[Narrowing, ...]

    def share(self, check: str) -> float | None:
        """Share [-] of one check; None when it cannot be said."""
        return next((each.share for each in self.shares if each.id == check), None)


def builds_of(plane: Plane, *, count: int = BUILDS, seed: int = 0) -> Builds:
    """Draw builds from every band of the stock and see which checks they pass.

    Args:
        plane: The plane. [-]
        count: How many, 100 to 200 000. [-]
        seed: Same seed, same builds. [-]

    Returns:
        Shares, spread of mass and balance, and what to measure first.

    Raises:
        ModelError: Too few or too many builds, or a plane that cannot be computed.

    Valid:
        Doubts of different figures are independent; pieces of one stock go together.

    Source:
        Monte Carlo propagation, JCGM 101, on a Latin hypercube.

    Example:
        >>> builds_of(plane).share("static_margin")  # doctest: +SKIP
        0.97
    """
    doubts, margins, ways = _margins(plane, count, seed)
    passes = {check: margin >= 0.0 for check, margin in margins.items()}
    shares = [Share(check, float(np.mean(passes[check])), ways[check]) for check in margins]
    mass, moment = doubts.masses[0], doubts.masses[1]
    return Builds(
        count=count,
        seed=seed,
        shares=tuple(shares),
        all_pass=float(np.mean(np.all(list(passes.values()), axis=0))),
        mass=_three(mass),
        cg_x=_three(moment / mass),
        narrowings=narrowings(doubts, passes),
    )


def margins_of_builds(plane: Plane, *, count: int = BUILDS, seed: int = 0) -> dict[str, Array]:
    """Margin of every check in many builds.

    Args:
        plane: The plane. [-]
        count: How many, 100 to 200 000. [-]
        seed: Same seed, same builds. [-]

    Returns:
        Check id -> margin, one a build. [-]

    Raises:
        ModelError: Too few or too many builds, or a plane that cannot be computed.

    Source:
        As `builds_of`.

    Example:
        >>> margins_of_builds(plane, count=100)["stall_speed"].shape
        (100,)
    """
    return _margins(plane, count, seed)[1]


def _margins(
    plane: Plane, count: int, seed: int
) -> tuple[Doubts, dict[str, Array], dict[str, str]]:
    if not FEWEST <= count <= MOST:
        raise ModelError(f"{count} builds are asked for; {FEWEST} to {MOST} can be drawn.")
    doubts = _drawn(plane, count, seed)
    surface = surface_of(plane, [*MODELS, *(f"power.{name}" for name in POWER)])
    full = full_margins(plane, doubts, driven(surface, doubts))
    margins: dict[str, Array] = {}
    ways: dict[str, str] = {}
    for check, margin, moved in surface.margins(doubts):
        # Cautions say where a plane stands between thresholds and never fail.
        margins[check] = np.abs(margin) if check in CAUTIONS else full.get(check, margin)
        ways[check] = "full" if check in full else "line" if moved else "fixed"
    return doubts, margins, ways


def _three(values: Array) -> tuple[float, float, float]:
    low, middle, high = np.quantile(values, (0.1, 0.5, 0.9)).tolist()
    return low, middle, high


def _drawn(plane: Plane, count: int, seed: int) -> Doubts:
    weighing = weighing_of(plane.parts)
    figures = figures_of(plane.design, plane.stock)
    names = (
        *(f"mass.{name}" for name in weighing.names),
        *(f"figure.{name}" for name in figures),
        *(f"model.{name}" for name in MODELS),
        *(f"power.{name}" for name in POWER),
        *(f"formula.{row}" for row in range(FAILURES)),
    )
    draws = spread(len(names), count + 1, seed=seed)[:, 1:]
    rows = {name: row for row, name in enumerate(names)}
    masses = weighing.draw(draws[: len(weighing.names)])
    thrust, current = power_of_builds(plane, {n: draws[rows[f"power.{n}"]] for n in POWER})
    widths = {f"mass.{n}": bool(w) for n, w in zip(weighing.names, weighing.moves, strict=True)}
    widths |= {f"figure.{name}": band.high > band.low for name, band in figures.items()}
    return Doubts(rows, draws, masses, weighing.typical, thrust, current, widths)


__all__ = ["BUILDS", "Builds", "Narrowing", "Share", "Surface", "builds_of", "margins_of_builds"]
