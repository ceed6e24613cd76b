"""Names and places of the numbers that make up the state of flight.

One row a member. Ground axes: x along the heading that counts as ahead, y right, z down; height is
minus z. Body axes at the CG: x forward, y right, z down. The quaternion turns body to ground.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

type Array = NDArray[np.float64]

POSITION = slice(0, 3)  # m, ground axes
QUATERNION = slice(3, 7)  # scalar first
VELOCITY = slice(7, 10)  # m/s over ground, body axes
RATES = slice(10, 13)  # rad/s: roll right, pitch up, yaw right
AILERON, ELEVATOR, RUDDER = 13, 14, 15  # where the servos stand: stick, right, up, right positive
THROTTLE = 16  # stick that the propeller has caught up with
CHARGE = 17  # of the pack drawn over its capacity
RIGID = 18  # numbers before the strips
STALL = slice(18, None)  # lift coefficient that each strip lost by separation

STICKS = ("throttle", "roll", "pitch", "yaw")  # columns of the sticks
STICK_THROTTLE, STICK_ROLL, STICK_PITCH, STICK_YAW = 0, 1, 2, 3


@dataclass(frozen=True, slots=True)
class Attitude:
    """Angles of the body against the ground.

    Attributes:
        bank: Right wing down positive. [rad]
        pitch: Nose up positive. [rad]
        heading: Right of ahead. [rad]
    """

    bank: Array
    pitch: Array
    heading: Array


def quaternion_of(bank: Array | float, pitch: Array | float, heading: Array | float) -> Array:
    """Quaternion of a bank, a pitch angle and a heading.

    Args:
        bank: Right wing down positive. [rad]
        pitch: Nose up positive. [rad]
        heading: Right of ahead. [rad]

    Returns:
        Scalar first, one row each. [-]

    Source:
        [ETKIN-REID] sec. 4.4, turns about z, y, x.

    Example:
        >>> quaternion_of(0.0, 0.0, 0.0).tolist()
        [[1.0, 0.0, 0.0, 0.0]]
    """
    angles = np.broadcast_arrays(*(np.atleast_1d(a).astype(float) for a in (bank, pitch, heading)))
    (cb, cp, ch), (sb, sp, sh) = (
        [turn(0.5 * angle) for angle in angles] for turn in (np.cos, np.sin)
    )
    return np.stack(
        [
            cb * cp * ch + sb * sp * sh,
            sb * cp * ch - cb * sp * sh,
            cb * sp * ch + sb * cp * sh,
            cb * cp * sh - sb * sp * ch,
        ],
        axis=1,
    )


def attitude_of(state: Array) -> Attitude:
    """Bank, pitch and heading of states.

    Args:
        state: One row a member, or times first. [SI]

    Returns:
        The angles; straight up or down the bank is what the quaternion leaves.

    Source:
        [ETKIN-REID] sec. 4.4.

    Example:
        >>> at_rest = np.zeros((1, 18)); at_rest[:, 3:7] = quaternion_of(0.1, 0.2, 0.3)
        >>> round(float(attitude_of(at_rest).pitch[0]), 3)
        0.2
    """
    w, x, y, z = (state[..., 3 + k] for k in range(4))
    return Attitude(
        bank=np.arctan2(2.0 * (w * x + y * z), 1.0 - 2.0 * (x * x + y * y)),
        pitch=np.arcsin(np.clip(2.0 * (w * y - x * z), -1.0, 1.0)),
        heading=np.arctan2(2.0 * (w * z + x * y), 1.0 - 2.0 * (y * y + z * z)),
    )


def rotation_of(state: Array) -> Array:
    """Matrix that turns body axes to ground axes, one a row of states.

    Args:
        state: One row a member. [SI]

    Returns:
        (n, 3, 3). [-]

    Source:
        [ETKIN-REID] sec. 4.4.

    Example:
        >>> at_rest = np.zeros((1, 18)); at_rest[:, 3] = 1.0
        >>> rotation_of(at_rest)[0].tolist()
        [[1.0, 0.0, 0.0], [0.0, 1.0, 0.0], [0.0, 0.0, 1.0]]
    """
    w, x, y, z = (state[:, 3 + k] for k in range(4))
    matrix = np.empty((len(state), 3, 3))
    matrix[:, 0, 0] = 1.0 - 2.0 * (y * y + z * z)
    matrix[:, 0, 1] = 2.0 * (x * y - w * z)
    matrix[:, 0, 2] = 2.0 * (x * z + w * y)
    matrix[:, 1, 0] = 2.0 * (x * y + w * z)
    matrix[:, 1, 1] = 1.0 - 2.0 * (x * x + z * z)
    matrix[:, 1, 2] = 2.0 * (y * z - w * x)
    matrix[:, 2, 0] = 2.0 * (x * z - w * y)
    matrix[:, 2, 1] = 2.0 * (y * z + w * x)
    matrix[:, 2, 2] = 1.0 - 2.0 * (x * x + y * y)
    return matrix


def start_state(
    strips: int,
    *,
    speed: Array | float,
    height: Array | float = 0.0,
    attitude: tuple[Array | float, Array | float, Array | float] = (0.0, 0.0, 0.0),
    alpha: Array | float = 0.0,
    beta: Array | float = 0.0,
    throttle: Array | float = 0.0,
) -> Array:
    """States of planes that are let go: surfaces neutral, flow attached, pack full.

    Args:
        strips: Strips of the craft, `craft.strip_count`. [-]
        speed: Over ground. [m/s]
        height: Of the CG above the ground. [m]
        attitude: Bank, pitch, heading. [rad]
        alpha: Angle of the nose above the way it moves. [rad]
        beta: It moves towards the right of its nose by this. [rad]
        throttle: Stick that the propeller already follows. [-]

    Returns:
        One row a member. [SI]

    Source:
        Definition.

    Example:
        >>> start_state(4, speed=8.0, height=1.8).shape
        (1, 22)
    """
    arrays = [np.atleast_1d(np.asarray(a, dtype=float)) for a in
              (speed, height, *attitude, alpha, beta, throttle)]  # fmt: skip
    speed_, height_, bank, pitch, heading, alpha_, beta_, stick = np.broadcast_arrays(*arrays)
    state = np.zeros((len(speed_), RIGID + strips))
    state[:, 2] = -height_
    state[:, QUATERNION] = quaternion_of(bank, pitch, heading)
    state[:, 7] = speed_ * np.cos(alpha_) * np.cos(beta_)
    state[:, 8] = speed_ * np.sin(beta_)
    state[:, 9] = speed_ * np.sin(alpha_) * np.cos(beta_)
    state[:, THROTTLE] = stick
    return state
