"""Propeller, motor and pack as tables over airspeed, stick and charge, read by index."""

from dataclasses import dataclass, replace
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from foamwright.core.bands import Band
from foamwright.power.model import PowerTrain
from foamwright.power.operate import power_map
from foamwright.power.stick import duty_of

type Array = NDArray[np.float64]

STICKS = np.array([0.0, 0.001, 0.1, 0.2, 0.335, 0.43, 0.525, 0.65, 0.75, 0.875, 1.0])
DEPTHS = (0.0, 0.3, 0.8)  # of discharge
AIRSPEEDS = 45  # so that the jump from a standing to a turning idle propeller stays narrow
WORSE = 2.0  # pack resistance factor at which a second table stands
WHAT = ("thrust", "torque", "speed", "current")


@dataclass(frozen=True, slots=True)
class ThrustGrid:
    """Thrust, torque, turning speed and current of one power train.

    Attributes:
        airspeed: Even steps from 0. [m/s]
        stick: Rising, 0 to 1. [-]
        depth: Of discharge, rising. [-]
        table: (depth, airspeed, stick, 4): thrust [N], torque [N m], speed [rad/s], current [A].
        weaker: Its change per unit of pack resistance factor. [same]
        capacity: Of the pack. [A s]
    """

    airspeed: Array
    stick: Array
    depth: Array
    table: Array
    weaker: Array
    capacity: float


def thrust_grid(train: PowerTrain, *, density: float, fastest: float) -> ThrustGrid:
    """Tabulate a power train once.

    Args:
        train: The power train. [-]
        density: Air. [kg/m³]
        fastest: Airspeed that the table reaches; beyond it the last value is held. [m/s]

    Returns:
        The tables.

    Valid:
        As foamwright.power.operate; the motor in its steady state.

    Source:
        foamwright.power.operate, [DRELA-MOTOR], [UIUC-PROP].

    Example:
        >>> thrust_grid(train, density=1.2, fastest=25.0).table.shape
        (3, 45, 11, 4)
    """
    speeds = np.linspace(0.0, fastest, AIRSPEEDS)
    duties = np.array([duty_of(float(stick)) for stick in STICKS])
    pack = train.pack
    weak = replace(
        train, pack=replace(pack, resistance=Band.exact(WORSE * pack.resistance.typical))
    )

    def of(power: PowerTrain, depth: float) -> Array:
        grid = power_map(power, speeds, duties, density=density, depth_of_discharge=depth)
        return np.stack([getattr(grid, name) for name in WHAT], axis=-1)

    table = np.stack([of(train, depth) for depth in DEPTHS])
    one = of(weak, DEPTHS[1]) - table[1]
    weaker = np.broadcast_to(one, table.shape)
    return ThrustGrid(
        speeds, STICKS, np.array(DEPTHS), table, weaker / (WORSE - 1.0), pack.capacity
    )


def thrust_from(
    grid: ThrustGrid, airspeed: Array, stick: Array, *, depth: Array, resistance_factor: Array
) -> Array:
    """Thrust, torque, turning speed and current, straight between the points of the tables.

    Args:
        grid: The tables. [-]
        airspeed: Along the shaft; backwards counts as none. [m/s]
        stick: 0 to 1. [-]
        depth: Of discharge. [-]
        resistance_factor: Of the pack. [-]

    Returns:
        One row a member: thrust [N], torque [N m], speed [rad/s], current [A].

    Source:
        Linear interpolation.

    Example:
        >>> grid = thrust_grid(train, density=1.2, fastest=25.0)
        >>> one = np.ones(1)
        >>> bool(thrust_from(grid, 8 * one, one, depth=0 * one, resistance_factor=one)[0, 0] > 1.0)
        True
    """
    step = grid.airspeed[1]
    place = np.clip(airspeed / step, 0.0, len(grid.airspeed) - 1.001)
    i = place.astype(np.intp)
    s = (place - i)[:, None]
    held = np.clip(stick, 0.0, 1.0)
    j = np.clip(np.searchsorted(grid.stick, held, side="right") - 1, 0, len(grid.stick) - 2)
    t = ((held - grid.stick[j]) / (grid.stick[j + 1] - grid.stick[j]))[:, None]
    drawn = np.clip(depth, 0.0, grid.depth[-1])
    worse = (resistance_factor - 1.0)[:, None]
    plain = not np.any(worse)
    low, high = float(drawn.min()), float(drawn.max())
    none = None if plain else worse
    if high == low:
        # All packs are drawn alike: mix the tables once, not every member.
        k, d = _depth(grid, np.array(low))
        table = (1.0 - d) * grid.table[k] + d * grid.table[k + 1]
        return _read(table, grid.weaker[k], i, j, shares=(s, t), worse=none)
    deep, d = _depth(grid, drawn)
    d, first = d[:, None], int(deep.min())
    reads = [
        _read(grid.table[k], grid.weaker[k], i, j, shares=(s, t), worse=none)
        for k in range(first, int(deep.max()) + 2)
    ]
    below, above = reads[0], reads[1]
    for later, (now, after) in enumerate(pairwise(reads[1:]), first + 1):
        beyond = deep[:, None] >= later
        below, above = np.where(beyond, now, below), np.where(beyond, after, above)
    return (1.0 - d) * below + d * above


def _depth(grid: ThrustGrid, drawn: Array) -> tuple[NDArray[np.intp], Array]:
    k = np.clip(np.searchsorted(grid.depth, drawn, side="right") - 1, 0, len(grid.depth) - 2)
    return k, (drawn - grid.depth[k]) / (grid.depth[k + 1] - grid.depth[k])


def _read(
    table: Array,
    weaker: Array,
    i: NDArray[np.intp],
    j: NDArray[np.intp],
    *,
    shares: tuple[Array, Array],
    worse: Array | None,
) -> Array:
    """One table at (i, j) and its three neighbours, mixed by shares."""
    s, t = shares

    def corner(i: NDArray[np.intp], j: NDArray[np.intp]) -> Array:
        value = table[i, j]
        return value if worse is None else value + worse * weaker[i, j]

    low = (1.0 - t) * corner(i, j) + t * corner(i, j + 1)
    high = (1.0 - t) * corner(i + 1, j) + t * corner(i + 1, j + 1)
    return (1.0 - s) * low + s * high
