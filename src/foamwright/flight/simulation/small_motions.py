"""Small motions about steady flight, from differences of the one function of state."""

import numpy as np
from numpy.typing import NDArray

from foamwright.flight.simulation.craft import Craft
from foamwright.flight.simulation.rate import state_rate
from foamwright.flight.simulation.state import (
    QUATERNION,
    RATES,
    VELOCITY,
    attitude_of,
    quaternion_of,
)
from foamwright.flight.simulation.trim import Steady

type Array = NDArray[np.float64]

NUDGE = 1e-5
ALOFT = -1e3  # m, down: far from any ground


def small_motion_matrix(craft: Craft, steady: Steady, member: int = 0) -> Array:
    """State matrix of speed ahead, heave, pitch rate, pitch; slip, roll rate, yaw rate, bank.

    Surfaces, propeller speed and the separation of the strips are held.

    Args:
        craft: The plane, one build. [-]
        steady: Steady flight. [-]
        member: Which of them. [-]

    Returns:
        Eight by eight, body axes. [SI]

    Source:
        Central differences of state_rate.

    Example:
        >>> from foamwright.flight.simulation.trim import steady_flight
        >>> matrix = small_motion_matrix(plane.craft, steady_flight(plane.craft, 9.0))
        >>> bool(np.linalg.eigvals(matrix).real.min() < -10.0)
        True
    """
    columns: list[Array] = []
    for k in range(8):
        ends: list[Array] = []
        for sign in (1.0, -1.0):
            shift = np.zeros(8)
            shift[k] = sign * NUDGE
            ends.append(_rates(craft, steady, member, shift))
        columns.append((ends[0] - ends[1]) / (2.0 * NUDGE))
    return np.stack(columns, axis=1)


def _rates(craft: Craft, steady: Steady, member: int, shift: Array) -> Array:
    state = steady.state[member : member + 1].copy()
    state[:, 2] = ALOFT
    state[0, VELOCITY] += shift[[0, 4, 1]]
    state[0, RATES] += shift[[5, 2, 6]]
    look = attitude_of(state)
    bank, pitch = look.bank + shift[7], look.pitch + shift[3]
    state[:, QUATERNION] = quaternion_of(bank, pitch, look.heading)
    rate = state_rate(craft, state, steady.sticks[member], np.zeros(3))[0]
    p, q, r = state[0, RATES].tolist()
    (sine, cosine), slope = (f(float(bank[0])) for f in (np.sin, np.cos)), np.tan(float(pitch[0]))
    pitching = q * cosine - r * sine
    banking = p + slope * (q * sine + r * cosine)
    return np.array([rate[7], rate[9], rate[11], pitching, rate[8], rate[10], rate[12], banking])
