"""Many builds of one parts list: spread of mass and CG, and what to weigh first."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from foamwright.balance.mass import PACK, band_of, doubts_of, flies_with
from foamwright.balance.moments import lumps_of
from foamwright.parts.model import PartsList

type Array = NDArray[np.float64]

BUILDS = 8000
TENTH = 1.2815515655446004  # standard deviations from the middle to where one in ten lies outside


@dataclass(frozen=True, slots=True)
class SampledBalance:
    """Mass and CG of many builds.

    Attributes:
        mass: All-up, one a build. [kg]
        cg_x: Centre of gravity aft of the nose, one a build. [m]
        narrowed: Stock or thing -> how much narrower the CG's spread becomes once it is weighed,
            as a share of the spread, largest first. [-]
    """

    mass: Array
    cg_x: Array
    narrowed: tuple[tuple[str, float], ...]

    def share(self, front: float, back: float) -> float:
        """Share of builds whose CG lies between two places. [-]."""
        return float(np.mean((self.cg_x >= front) & (self.cg_x <= back)))


@dataclass(frozen=True, slots=True)
class Weighing:
    """How masses of one plane go with what it is made of, ready to be drawn many times.

    Attributes:
        names: Stock name, or id of a thing of its own; one row of everything below.
        lighter: Change of (all-up mass, its moment about the nose, wing mass, pack mass) with the
            stock at its low end. [kg, kg m]
        heavier: The same at its high end. [kg, kg m]
        typical: The four of the typical plane. [kg, kg m]
    """

    names: tuple[str, ...]
    lighter: Array
    heavier: Array
    typical: Array

    @property
    def moves(self) -> NDArray[np.bool_]:
        """Whether each has a band at all."""
        return np.asarray(np.any((self.lighter != 0.0) | (self.heavier != 0.0), axis=1))

    def draw(self, draws: Array) -> Array:
        """The four [kg, kg m] in every build, from draws (names, builds) in standard deviations."""
        low = np.clip(-draws, 0.0, None) / TENTH
        high = np.clip(draws, 0.0, None) / TENTH
        return self.typical[:, None] + self.lighter.T @ low + self.heavier.T @ high


def weighing_of(parts: PartsList) -> Weighing:
    """How mass, balance, wing and pack go with every stock and every thing of its own.

    Args:
        parts: Everything the plane is made of. [-]

    Returns:
        Changes at the low and high end of each.

    Raises:
        ModelError: A part has no place.

    Source:
        Definition; all pieces of one stock go up and down together.

    Example:
        >>> weighing_of(parts).names[0]
        'light display board'
    """
    lumps = lumps_of(parts.parts, parts.items)
    things = (*parts.parts, *parts.items)
    bands = [band_of(thing, m) for thing, m in zip(things, lumps.mass.tolist(), strict=True)]
    groups: dict[str, int] = {}
    group = [groups.setdefault(thing.stock or thing.id, len(groups)) for thing in things]
    names = [thing.id for thing in things]
    x = lumps.middle[:, 0]
    wing = np.array([flies_with(name, "wing") for name in names], dtype=float)
    pack = np.array([name == PACK for name in names], dtype=float)
    weights = np.column_stack([np.ones_like(x), x, wing, pack])
    member = np.zeros((len(groups), len(things)))
    member[group, np.arange(len(things))] = 1.0
    low, high = (
        np.array([getattr(band, end) for band in bands]) - lumps.mass for end in ("low", "high")
    )
    return Weighing(
        tuple(groups),
        member @ (low[:, None] * weights),
        member @ (high[:, None] * weights),
        lumps.mass @ weights,
    )


def sample_balance(parts: PartsList, *, builds: int = BUILDS, seed: int = 0) -> SampledBalance:
    """Draw builds: every stock lighter or heavier within its band, all its pieces together.

    Args:
        parts: Everything the plane is made of. [-]
        builds: How many. [-]
        seed: Same seed, same builds. [-]

    Returns:
        Mass and CG of every build, and what to weigh first.

    Raises:
        ModelError: A part has no place.

    Source:
        Monte Carlo propagation, JCGM 101, two half normal curves a band.

    Example:
        >>> sample_balance(parts).share(0.055, 0.070)  # doctest: +SKIP
        0.93
    """
    lumps = lumps_of(parts.parts, parts.items)
    total = float(lumps.mass.sum())
    cg = float(lumps.mass @ lumps.middle[:, 0]) / total
    doubt = doubts_of(parts, lumps, cg_x=cg)
    draw = np.random.default_rng(seed).standard_normal((builds, len(doubt.names))) / TENTH
    low = draw < 0.0
    change = np.where(low, -draw * doubt.lighter, draw * doubt.heavier)
    # Each shift is a moment over the changed mass; moments add, so take them back to moments.
    down = doubt.shift_lighter * (total + doubt.lighter)
    up = doubt.shift_heavier * (total + doubt.heavier)
    moment = np.where(low, -draw * down, draw * up)
    mass = total + change.sum(axis=1)
    spread = (0.5 * (np.abs(down) + np.abs(up))) ** 2
    whole = float(spread.sum())
    rows: list[tuple[str, float]] = []
    if whole > 0.0:
        left = np.sqrt(np.clip(whole - spread, 0.0, None) / whole)
        rows = list(zip(doubt.names, (1.0 - left).tolist(), strict=True))
    return SampledBalance(
        mass=mass,
        cg_x=cg + moment.sum(axis=1) / mass,
        narrowed=tuple(sorted(rows, key=lambda row: -row[1])),
    )
