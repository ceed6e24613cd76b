"""Fixed steps in time: one state to the next, and the quicker rule for whole flights."""

import numpy as np
from numpy.typing import NDArray

from foamwright.flight.simulation.craft import Craft
from foamwright.flight.simulation.rate import state_rate
from foamwright.flight.simulation.state import QUATERNION

type Array = NDArray[np.float64]

STEP = 0.01  # s; halving it changes a launch share by less than a point, see docs


def advance(craft: Craft, state: Array, sticks: Array, wind: Array, *, step: float = STEP) -> Array:
    """The state one step later, sticks and wind held.

    Midpoint rule: x(t + h) = x + h f(x + h f(x)/2).

    Args:
        craft: The plane. [-]
        state: One row a member. [SI]
        sticks: As state_rate. [-]
        wind: As state_rate. [m/s]
        step: At most 0.012. [s]

    Returns:
        The new state, quaternions of unit length. [SI]

    Valid:
        Second order; stable up to 0.012 s: the strips' separation is no quicker than 0.02 s.

    Source:
        Runge-Kutta of second order, any text.

    Example:
        >>> from foamwright.flight.simulation.state import start_state
        >>> at = start_state(plane.craft.strip_count, speed=9.0, height=10.0)
        >>> bool(advance(plane.craft, at, np.zeros(4), np.zeros(3))[0, 0] > 0.08)
        True
    """
    first = state_rate(craft, state, sticks, wind)
    second = state_rate(craft, state + 0.5 * step * first, sticks, wind)
    return _unit(state + step * second)


def advance_on(
    craft: Craft, state: Array, before: Array, *, sticks: Array, wind: Array, step: float = STEP
) -> tuple[Array, Array]:
    """The state one step later from this rate and the one of the step before: half the work.

    Adams and Bashforth's second rule: x(t + h) = x + h (3 f - f_before)/2.

    Args:
        craft: The plane. [-]
        state: One row a member. [SI]
        before: Rate one step ago; its very rows. [SI/s]
        sticks: As state_rate. [-]
        wind: As state_rate. [m/s]
        step: The same as the step before, at most 0.012. [s]

    Returns:
        The new state, and the rate that becomes `before`. [SI]

    Valid:
        Second order; stable up to 0.012 s.

    Source:
        Two-step Adams-Bashforth rule, any text.

    Example:
        >>> from foamwright.flight.simulation.state import start_state
        >>> at = start_state(plane.craft.strip_count, speed=9.0, height=10.0)
        >>> first = state_rate(plane.craft, at, np.zeros(4), np.zeros(3))
        >>> advance_on(plane.craft, at, first, sticks=np.zeros(4), wind=np.zeros(3))[0].shape
        (1, 41)
    """
    rate = state_rate(craft, state, sticks, wind)
    return _unit(state + step * (1.5 * rate - 0.5 * before)), rate


def _unit(state: Array) -> Array:
    turn = state[:, QUATERNION]
    turn /= np.sqrt((turn * turn).sum(axis=1))[:, None]
    return state
