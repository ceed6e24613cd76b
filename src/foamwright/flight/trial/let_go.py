"""Hands off: what rolls, what the throttle does, what a dive does, what waves."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from foamwright.core.air import GRAVITY
from foamwright.flight.simulation.state import THROTTLE, attitude_of
from foamwright.flight.trial.setting import CRUISE, Setting, held, level_wings, path_angle

type Array = NDArray[np.float64]

ROLL_WATCH = 1.2  # s that a pilot watches a roll; assumed
SWING_WATCH = 1.5  # s that he watches the nose after opening the throttle; assumed
OPENED = 0.25  # more stick than level flight needs when the throttle is opened for the test
POWER_WATCH = 3.0  # s
SETTLED = 0.05  # rad from the glide's own angle: it glides again
DIVE = 0.52  # rad, 30 degrees down
DIVE_SPEED = 2.0  # of the stall speed
DIVE_WATCH = 2.0  # s
WAVE_WATCH, WAG_WATCH = 14.0, 4.0  # s
SLOWED = 0.12  # rad nose up that starts the waves
SIDEWAYS = 0.09  # rad of sideslip that starts the wag


@dataclass(frozen=True, slots=True)
class Rolls:
    """Roll hands off, right positive.

    Attributes:
        slow: Level at 1.2 times stall speed. [rad/s]
        fast: At twice. [rad/s]
        glide: Power off. [rad/s]
    """

    slow: Array
    fast: Array
    glide: Array


def rolls(setting: Setting) -> Rolls:
    """Let go of the sticks slow, fast and gliding.

    Args:
        setting: Of the test flight. [-]

    Returns:
        Bank gained over the time watched.

    Source:
        The simulation; ROLL_WATCH assumed.

    Example:
        >>> abs(float(flown.rolls.slow[0])) < 0.2
        True
    """
    found: list[Array] = []
    for steady in (setting.slow, setting.fast, setting.glide):
        state = setting.start(steady)
        state[:, 13] = 0.0
        state[:, 15] = 0.0
        path = setting.fly(state, held(setting.hold(steady)), ROLL_WATCH)
        bank = attitude_of(path.final).bank - attitude_of(state).bank
        found.append(bank / ROLL_WATCH)
    return Rolls(*found)


@dataclass(frozen=True, slots=True)
class PowerOn:
    """Throttle opened from level flight, pitch let go.

    Attributes:
        swing: Of the nose at full power, right. [rad]
        pitch: Most that the nose rose; negative fell. [rad]
        path: Climb angle at the end. [rad]
        height: Gained. [m]
        slowest: Least speed over that before. [-]
        fastest: Largest. [-]
    """

    swing: Array
    pitch: Array
    path: Array
    height: Array
    slowest: Array
    fastest: Array


def power_on(setting: Setting) -> PowerOn:
    """Open the throttle from level flight and watch.

    Args:
        setting: Of the test flight. [-]

    Returns:
        Swing, pitch, climb.

    Source:
        The simulation.

    Example:
        >>> bool(flown.opened.height[0] > 0.0)
        True
    """
    state = setting.trimmed()
    full = setting.fly(state, held(setting.trims(1.0)), SWING_WATCH)
    swing = attitude_of(full.final).heading - attitude_of(state).heading
    stick = min(float(setting.level.sticks[0, 0]) + OPENED, 1.0)
    sticks = setting.trims(stick)

    def pilot(time: float, now: Array, which: NDArray[np.intp]) -> Array:
        return level_wings(setting.gains, now, sticks[which].copy())

    path = setting.fly(state, pilot, POWER_WATCH)
    look = attitude_of(path.states)
    speed = np.sqrt((path.states[..., 7:10] ** 2).sum(axis=2))
    rise = look.pitch - look.pitch[0]
    most = np.take_along_axis(rise, np.abs(rise).argmax(axis=0)[None], axis=0)[0]
    return PowerOn(
        swing=swing,
        pitch=most,
        path=path_angle(path.final),
        height=path.height[-1] - path.height[0],
        slowest=(speed / speed[0]).min(axis=0),
        fastest=(speed / speed[0]).max(axis=0),
    )


@dataclass(frozen=True, slots=True)
class PowerOff:
    """Throttle closed in level flight, hands off but for the wings.

    Attributes:
        drop: Height lost until it glides. [m]
        time: Until then. [s]
        steepest: Path on the way. [rad]
        first: Of the nose in the first second, up positive. [rad]
    """

    drop: Array
    time: Array
    steepest: Array
    first: Array


def power_off(setting: Setting) -> PowerOff:
    """Close the throttle in level flight and watch until it glides.

    Args:
        setting: Of the test flight. [-]

    Returns:
        What is lost before it glides.

    Source:
        The simulation.

    Example:
        >>> bool(flown.closed.drop[0] > 0.0)
        True
    """
    state = setting.trimmed()
    sticks = setting.trims(0.0)

    def pilot(time: float, now: Array, which: NDArray[np.intp]) -> Array:
        return level_wings(setting.gains, now, sticks[which].copy())

    path = setting.fly(state, pilot, 8.0)
    angle = path_angle(path.states)
    last = angle[len(angle) // 2 :].mean(axis=0)
    lowest = angle.argmin(axis=0)
    place = np.arange(len(angle))[:, None]
    again = (place >= lowest) & (angle >= last - SETTLED)
    at = np.where(again.any(axis=0), again.argmax(axis=0), len(angle) - 1)
    column = np.arange(setting.count)
    second = round(1.0 / (path.times[1] - path.times[0]))
    pitch = attitude_of(path.states).pitch
    return PowerOff(
        drop=path.height[0] - path.height[at, column],
        time=path.times[at],
        steepest=angle.min(axis=0),
        first=pitch[second] - pitch[0],
    )


@dataclass(frozen=True, slots=True)
class Dive:
    """A shallow dive, power off, stick let go.

    Attributes:
        change: Of the path in the time watched, up positive. [rad]
        load: Largest load factor. [-]
        lost: Height until level; what was lost in all where it never was. [m]
    """

    change: Array
    load: Array
    lost: Array


def dive(setting: Setting) -> Dive:
    """Point the nose 30 degrees down at twice the stall speed and let go.

    Args:
        setting: Of the test flight. [-]

    Returns:
        How it comes out.

    Source:
        The simulation.

    Example:
        >>> bool(flown.dive.load[0] > 1.0)
        True
    """
    state = setting.trimmed()
    state = _pitched(state, -DIVE - path_angle(state))
    state[:, 7:10] *= DIVE_SPEED / CRUISE
    state[:, THROTTLE] = 0.0
    sticks = setting.trims(0.0)

    def pilot(time: float, now: Array, which: NDArray[np.intp]) -> Array:
        return level_wings(setting.gains, now, sticks[which].copy())

    path = setting.fly(state, pilot, 6.0)
    angle = path_angle(path.states)
    watched = round(DIVE_WATCH / (path.times[1] - path.times[0]))
    speed_now = np.sqrt((path.states[..., 7:10] ** 2).sum(axis=2))
    turn = np.gradient(angle, path.times, axis=0)
    load = np.cos(angle) + speed_now * turn / GRAVITY
    level = angle >= 0.0
    at = np.where(level.any(axis=0), level.argmax(axis=0), len(angle) - 1)
    return Dive(
        change=angle[watched] - angle[0],
        load=load.max(axis=0),
        lost=path.height[0] - path.height[at, np.arange(setting.count)],
    )


@dataclass(frozen=True, slots=True)
class Waves:
    """What a push starts.

    Attributes:
        period: Of the slow wave; nan where there is none. [s]
        kept: Share of the slow wave left a wave later; nan. [-]
        wag_period: Of the tail; nan. [s]
        wag_kept: Share of the tail's wag left a wag later; 0 where it does not wag. [-]
    """

    period: Array
    kept: Array
    wag_period: Array
    wag_kept: Array


def waves(setting: Setting) -> Waves:
    """Nudge the nose up, and sideways, and watch what comes after.

    Args:
        setting: Of the test flight. [-]

    Returns:
        Periods and how much is left each time.

    Source:
        The simulation; logarithmic decrement.

    Example:
        >>> bool(flown.waves.period[0] > 2.0)
        True
    """
    sticks = setting.trims()

    def keep(time: float, now: Array, which: NDArray[np.intp]) -> Array:
        return level_wings(setting.gains, now, sticks[which].copy())

    state = _pitched(setting.trimmed(), np.full(setting.count, SLOWED))
    path = setting.fly(state, keep, WAVE_WATCH, every=5)
    period, kept = _decrement(path.times, path_angle(path.states), skip=0.5)
    state = setting.trimmed()
    speed = state[:, 7].copy()
    state[:, 7], state[:, 8] = speed * np.cos(SIDEWAYS), speed * np.sin(SIDEWAYS)
    path = setting.fly(state, held(sticks), WAG_WATCH, every=2)
    wag_period, wag_kept = _decrement(path.times, path.states[:, :, 12], skip=0.1)
    return Waves(period, kept, wag_period, np.nan_to_num(wag_kept))


def _pitched(state: Array, more: Array) -> Array:
    """States with path and nose turned up together, wings level."""
    from foamwright.flight.simulation.state import QUATERNION, quaternion_of

    look = attitude_of(state)
    state = state.copy()
    state[:, QUATERNION] = quaternion_of(look.bank, look.pitch + more, look.heading)
    return state


def _decrement(times: Array, values: Array, *, skip: float) -> tuple[Array, Array]:
    """Period and what is left after one, from the turning points of each column."""
    period = np.full(values.shape[1], np.nan)
    kept = np.full(values.shape[1], np.nan)
    first = int(np.searchsorted(times, skip))
    for k in range(values.shape[1]):
        column = values[first:, k]
        slope = np.diff(column)
        turns = np.flatnonzero(slope[1:] * slope[:-1] < 0.0) + 1
        if len(turns) < 3:
            continue
        tops = column[turns]
        swings = np.abs(np.diff(tops))
        if swings[0] < 1e-3:
            continue
        period[k] = 2.0 * float(np.mean(np.diff(times[first + turns])[:4]))
        kept[k] = float(swings[1] / swings[0]) ** 2
    return period, kept
