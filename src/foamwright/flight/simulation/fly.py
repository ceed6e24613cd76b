"""Whole flights: many members at once, a pilot at the sticks, until each has ended."""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from foamwright.core.errors import ModelError
from foamwright.flight.simulation.advance import STEP, advance, advance_on
from foamwright.flight.simulation.craft import Craft
from foamwright.flight.simulation.rate import state_rate

type Array = NDArray[np.float64]
type Which = NDArray[np.intp]
# time, states of those still flying, which members they are -> sticks (n, 4)
type Pilot = Callable[[float, Array, Which], Array]
# the same -> wind (n, 3 or 6) or one for all
type Weather = Callable[[float, Array, Which], Array]
# time, states, which -> why each of them ends now, 0 for flying on
type Ending = Callable[[float, Array, Which], NDArray[np.intp]]

FLYING, GROUND, DIVERGED, OTHER = 0, 1, 2, 3
FASTEST, QUICKEST_SPIN = 90.0, 120.0  # m/s and rad/s beyond which nothing of foam has ever been


@dataclass(frozen=True, slots=True)
class Path:
    """Flights of n members.

    Attributes:
        times: Of the samples. [s]
        states: (sample, member, number); after a member's end its last state. [SI]
        sticks: (sample, member, 4). [-]
        ended: Time of each member's end; the last time for those that fly on. [s]
        why: 0 flies on, 1 ground, 2 diverged, 3 and up: what the ending function said. [-]
        final: Last state of each member. [SI]
    """

    times: Array
    states: Array
    sticks: Array
    ended: Array
    why: NDArray[np.intp]
    final: Array

    @property
    def height(self) -> Array:
        """Height of the CG above the ground [m], (sample, member)."""
        return -self.states[:, :, 2]


def calm(time: float, state: Array, which: Which) -> Array:
    """No wind.

    Args:
        time: [s]
        state: [SI]
        which: [-]

    Returns:
        Three zeros. [m/s]

    Source:
        Definition.

    Example:
        >>> calm(0.0, np.zeros((1, 18)), np.array([0])).tolist()
        [0.0, 0.0, 0.0]
    """
    del time, state, which
    return np.zeros(3)


def hands_off(time: float, state: Array, which: Which) -> Array:
    """Sticks centred, throttle closed.

    Args:
        time: [s]
        state: [SI]
        which: [-]

    Returns:
        Four zeros a member. [-]

    Source:
        Definition.

    Example:
        >>> hands_off(0.0, np.zeros((1, 18)), np.array([0])).tolist()
        [[0.0, 0.0, 0.0, 0.0]]
    """
    del time, which
    return np.zeros((len(state), 4))


def on_ground(time: float, state: Array, which: Which) -> NDArray[np.intp]:
    """Ends a flight when the CG is at the ground.

    Args:
        time: [s]
        state: [SI]
        which: [-]

    Returns:
        1 at the ground, else 0. [-]

    Source:
        Definition.

    Example:
        >>> on_ground(0.0, np.zeros((1, 18)), np.array([0])).tolist()
        [1]
    """
    del time, which
    return np.where(state[:, 2] >= 0.0, GROUND, FLYING)


def never(time: float, state: Array, which: Which) -> NDArray[np.intp]:
    """Ends no flight: the ground carries the plane.

    Args:
        time: [s]
        state: [SI]
        which: [-]

    Returns:
        Zeros. [-]

    Source:
        Definition.

    Example:
        >>> never(0.0, np.zeros((1, 18)), np.array([0])).tolist()
        [0]
    """
    del time, which
    return np.zeros(len(state), dtype=np.intp)


def fly(
    craft: Craft,
    state: Array,
    pilot: Pilot = hands_off,
    *,
    duration: float,
    weather: Weather = calm,
    ending: Ending = on_ground,
    step: float = STEP,
    every: int = 5,
) -> Path:
    """Fly members until each ends or the time is up.

    Args:
        craft: The plane: one build for all, or one a member. [-]
        state: Where they start, one row a member. [SI]
        pilot: Sticks from time and states, asked before every step.
        duration: [s]
        weather: Wind from time and states.
        ending: Says when a member has ended.
        step: [s]
        every: Steps between kept samples. [-]

    Returns:
        Their paths. A member whose numbers run away ends as diverged, at its last sound state.

    Raises:
        ModelError: Step or duration that cannot be flown.

    Valid:
        As state_rate.

    Source:
        advance.py.

    Example:
        >>> from foamwright.flight.simulation.state import start_state
        >>> at = start_state(plane.craft.strip_count, speed=9.0, height=1.8)
        >>> bool(fly(plane.craft, at, duration=6.0).ended[0] > 0.5)
        True
    """
    if not (0.0 < step <= 0.02 and duration > 0.0 and every >= 1):
        raise ModelError(f"A step of {step:g} s over {duration:g} s cannot be flown: 0 to 0.02 s.")
    count, steps = len(state), max(1, round(duration / step))
    which = np.arange(count)
    now, own = np.array(state, dtype=float), craft
    before = np.zeros_like(now)
    kept = np.arange(0, steps + 1, every)
    states = np.empty((len(kept), *now.shape))
    sticks = np.zeros((len(kept), count, 4))
    final, last = now.copy(), np.zeros((count, 4))
    ended, why = np.full(count, steps * step), np.zeros(count, dtype=np.intp)

    def drop(gone: NDArray[np.bool_], time: float, reason: NDArray[np.intp] | int) -> None:
        nonlocal which, now, before, own
        if not gone.any():
            return
        ended[which[gone]], why[which[gone]] = time, reason
        which, now, before = which[~gone], now[~gone], before[~gone]
        own = own if own.count == 1 else own.take(~gone)

    for k in range(steps + 1):
        time = k * step
        reason = ending(time, now, which)
        drop(reason != FLYING, time, reason[reason != FLYING])
        if len(which):
            last[which] = pilot(time, now, which)
        if k % every == 0:
            states[k // every], sticks[k // every] = final, last
        if not len(which):
            states[k // every :], sticks[k // every :] = final, last
            break
        if k == steps:
            break
        wind = weather(time, now, which)
        now, before = _step(
            own, now, before, sticks=last[which], wind=wind, step=step, first=k == 0
        )
        drop(_ran_away(now), time, DIVERGED)
        final[which] = now
    return Path(np.asarray(kept * step, dtype=np.float64), states, sticks, ended, why, final)


def _step(
    craft: Craft,
    state: Array,
    before: Array,
    *,
    sticks: Array,
    wind: Array,
    step: float,
    first: bool,
) -> tuple[Array, Array]:
    if first:
        rate = state_rate(craft, state, sticks, wind)
        return advance(craft, state, sticks, wind, step=step), rate
    return advance_on(craft, state, before, sticks=sticks, wind=wind, step=step)


def _ran_away(state: Array) -> NDArray[np.bool_]:
    speed = np.abs(state[:, 7:10]).max(axis=1)
    spin = np.abs(state[:, 10:13]).max(axis=1)
    return ~(np.isfinite(state).all(axis=1) & (speed < FASTEST) & (spin < QUICKEST_SPIN))
