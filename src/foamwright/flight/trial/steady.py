"""Steady flight at the test: trims at three speeds, the slowest, the best climb and glide."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from foamwright.core.air import GRAVITY
from foamwright.flight.simulation.craft import Craft
from foamwright.flight.simulation.loads import loads_on
from foamwright.flight.simulation.state import THROTTLE
from foamwright.flight.simulation.trim import Steady, steady_flight
from foamwright.flight.trial.setting import CRUISE, FAST, SLOW, Setting

type Array = NDArray[np.float64]

GLIDES = (1.1, 1.25, 1.4, 1.6, 1.8)  # of the stall speed, where the best glide is looked for
CLIMBS = (1.2, 1.4, 1.7, 2.1)  # where the best climb is looked for
SLOWEST = (0.96, 1.0, 1.05, 1.1, 1.2)  # where the slowest level flight is looked for


@dataclass(frozen=True, slots=True)
class Trims:
    """Level flight at one speed for n builds.

    Attributes:
        ratio: Of the stall speed as drawn. [-]
        speed: [m/s]
        throttle: Stick. [-]
        elevator: Up from where the stick is centred. [rad]
        aileron: Right. [rad]
        rudder: Right. [rad]
        found: Whether it flies so. [-]
    """

    ratio: float
    speed: Array
    throttle: Array
    elevator: Array
    aileron: Array
    rudder: Array
    found: NDArray[np.bool_]


@dataclass(frozen=True, slots=True)
class SteadyFlights:
    """What steady flight shows.

    Attributes:
        trims: Slow, cruise, fast.
        slowest: Slowest level flight found. [m/s]
        slowest_throttle: Stick there. [-]
        glide: Best ratio. [-]
        glide_speed: [m/s]
    """

    trims: tuple[Trims, ...]
    slowest: Array
    slowest_throttle: Array
    glide: Array
    glide_speed: Array


def _trims(craft: Craft, ratio: float, steady: Steady) -> Trims:
    s, travel = steady.sticks, craft.travel
    up = np.where(s[:, 2] > 0.0, travel[2], travel[3])
    roll = 0.5 * (travel[0] + travel[1])
    yaw = np.where(s[:, 3] > 0.0, travel[5], travel[4])
    return Trims(
        ratio=ratio,
        speed=steady.speed,
        throttle=s[:, 0],
        elevator=up * s[:, 2],
        aileron=roll * s[:, 1],
        rudder=yaw * s[:, 3],
        found=steady.found,
    )


def steady_flights(setting: Setting) -> SteadyFlights:
    """Trim at three speeds, find the slowest level flight and the best glide.

    Args:
        setting: Of the test flight. [-]

    Returns:
        The figures.

    Source:
        steady_flight.

    Example:
        >>> bool(flown.steady.glide[0] > 5.0)
        True
    """
    craft, stall = setting.flown, setting.drawn.stall_speed
    levels = {ratio: steady_flight(craft, ratio * stall, throttle=None) for ratio in (SLOW, FAST)}
    levels[CRUISE] = setting.own
    trims = tuple(_trims(craft, ratio, levels[ratio]) for ratio in (SLOW, CRUISE, FAST))
    count = setting.count
    slowest, stick = np.full(count, np.nan), np.full(count, np.nan)
    for ratio in reversed(SLOWEST):
        level = (
            levels[SLOW] if ratio == SLOW else steady_flight(craft, ratio * stall, throttle=None)
        )
        slowest = np.where(level.found, level.speed, slowest)
        stick = np.where(level.found, level.sticks[:, 0], stick)
    best, speed = _best_glide(craft, stall)
    return SteadyFlights(trims, slowest, stick, best, speed)


def _best_glide(craft: Craft, stall: float) -> tuple[Array, Array]:
    best, speed = np.zeros(craft.count), np.full(craft.count, np.nan)
    for ratio in GLIDES:
        glide = steady_flight(craft, ratio * stall)
        value = np.where(glide.found, -1.0 / np.tan(np.minimum(glide.path, -1e-3)), 0.0)
        speed = np.where(value > best, glide.speed, speed)
        best = np.maximum(best, value)
    return best, speed


def best_glide(drawn: Craft) -> float:
    """Best glide ratio of the plane as drawn.

    Args:
        drawn: One build. [-]

    Returns:
        [-]

    Source:
        steady_flight.

    Example:
        >>> best_glide(plane.craft) > 5.0
        True
    """
    return float(_best_glide(drawn, drawn.stall_speed)[0][0])


def best_climb(setting: Setting) -> Array:
    """Best rate of climb at full power, drag and thrust as in level flight at the same speed.

    Rate = V (T cos - D)/W with the wing carrying the weight: how climb is told everywhere else;
    a plane that can hang on its propeller climbs as fast as that.

    Args:
        setting: Of the test flight. [-]

    Returns:
        One a build. [m/s]

    Source:
        Excess power, any text on performance.

    Example:
        >>> bool(flown.climb[0] > 1.0)
        True
    """
    craft = setting.flown
    best = np.zeros(setting.count)
    for ratio in CLIMBS:
        speed = ratio * setting.drawn.stall_speed
        level = setting.own if ratio == CRUISE else steady_flight(craft, speed, throttle=None)
        needed = _pull(craft, level.state, np.clip(level.sticks[:, 0], 0.0, 1.0))
        full = _pull(craft, level.state, np.ones(setting.count))
        rate = level.speed * (full - needed) / (craft.builds.mass * GRAVITY)
        best = np.maximum(best, np.where(np.isfinite(rate), rate, 0.0))
    return best


def _pull(craft: Craft, state: Array, throttle: Array) -> Array:
    now = state.copy()
    now[:, THROTTLE] = throttle
    moved = np.array(now[:, 7:13])
    return loads_on(craft, now, moved).push[:, 0]
