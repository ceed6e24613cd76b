"""Many builds of one parts list: spread of mass and CG, and what to weigh first."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from foamwright.balance.mass import doubts_of
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
