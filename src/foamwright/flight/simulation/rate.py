"""The one function of state: how fast everything changes."""

import numpy as np
from numpy.typing import NDArray

from foamwright.core.air import GRAVITY
from foamwright.flight.simulation.craft import Craft
from foamwright.flight.simulation.ground import ground_loads
from foamwright.flight.simulation.loads import loads_on
from foamwright.flight.simulation.state import (
    AILERON,
    CHARGE,
    QUATERNION,
    RATES,
    STALL,
    STICK_PITCH,
    STICK_ROLL,
    STICK_THROTTLE,
    STICK_YAW,
    THROTTLE,
    VELOCITY,
    rotation_of,
)
from foamwright.flight.simulation.turning import cross, quaternion_rate, times

type Array = NDArray[np.float64]

SERVO_LAG = 0.03  # s, a servo slows down before it is there; assumed
SPOOL = 0.12  # s, propeller behind the stick, small outrunner; assumed, 0.08 to 0.2
GROUND_NEAR = 0.75  # of the span: nothing can touch from higher up


def state_rate(craft: Craft, state: Array, sticks: Array, wind: Array) -> Array:
    """Rate of change of the state of flight.

    m (dV/dt + w x V) = F + m g; I dw/dt + w x (I w + h) = M; quaternion, position, servos,
    propeller, charge and the separation of every strip go along.

    Args:
        craft: The plane, one build for all rows or one a row. [-]
        state: One row a member, see state.py. [SI]
        sticks: Throttle 0 to 1; roll right, pitch up, yaw right -1 to 1, (n, 4) or (4). [-]
        wind: Of the air over ground, ground axes (down positive), (n, 3) or (3); with six numbers
            also the turning of the air in body axes. [m/s], [rad/s]

    Returns:
        Same shape as state. [SI/s]

    Valid:
        Rigid plane, any attitude; docs/physics/flight-simulation.md says where forces are assumed.

    Source:
        [ETKIN-REID] ch. 4 for the motion; docs/physics/flight-simulation.md for the forces.

    Example:
        >>> from foamwright.flight.simulation.state import start_state
        >>> at = start_state(plane.craft.strip_count, speed=9.0, height=10.0)
        >>> state_rate(plane.craft, at, np.zeros(4), np.zeros(3)).shape == at.shape
        True
    """
    stick = np.broadcast_to(sticks, (len(state), 4))
    turn = rotation_of(state)
    moved = motion_through_air(state, turn, wind)
    loads = loads_on(craft, state, moved)
    b = craft.builds
    spin, velocity = state[:, RATES], state[:, VELOCITY]
    force, moment = loads.force, loads.moment
    if float(state[:, 2].max()) > -GROUND_NEAR * craft.whole.span:
        touch = ground_loads(craft, state, turn)
        force, moment = force + touch[0], moment + touch[1]
    pull = force / b.mass[:, None] + GRAVITY * turn[:, 2, :]
    speed_rate = pull - cross(spin, velocity)
    # through the air, not over ground: the wind turns in body axes as the plane does
    moment = moment + _lag_moment(craft, moved, pull - cross(spin, moved[:, :3]))
    momentum = times(b.inertia, spin) + loads.gyro
    spin_rate = times(b.inverse, moment - cross(spin, momentum))
    rate = np.empty_like(state)
    rate[:, 0:3] = times(turn, velocity)
    rate[:, QUATERNION] = quaternion_rate(state[:, QUATERNION], spin)
    rate[:, VELOCITY] = speed_rate
    rate[:, RATES] = spin_rate
    servo = state[:, AILERON : AILERON + 3]
    wanted = np.clip(stick[:, [STICK_ROLL, STICK_PITCH, STICK_YAW]], -1.0, 1.0)
    most = b.servo_rate[:, None]
    rate[:, AILERON : AILERON + 3] = np.clip((wanted - servo) / SERVO_LAG, -most, most)
    rate[:, THROTTLE] = (np.clip(stick[:, STICK_THROTTLE], 0.0, 1.0) - state[:, THROTTLE]) / SPOOL
    rate[:, CHARGE] = loads.push[:, 3] / craft.thrust.capacity
    rate[:, STALL] = loads.strips.stall_rate
    return rate


def motion_through_air(state: Array, turn: Array, wind: Array) -> Array:
    """Velocity and rates of the CG through the air.

    Args:
        state: One row a member. [SI]
        turn: Body to ground. [-]
        wind: As state_rate. [m/s], [rad/s]

    Returns:
        (n, 6), body axes. [m/s], [rad/s]

    Source:
        Definition.

    Example:
        >>> at = np.zeros((1, 18)); at[0, 3] = 1.0; at[0, 7] = 8.0
        >>> float(motion_through_air(at, np.eye(3)[None], np.array([-2.0, 0.0, 0.0]))[0, 0])
        10.0
    """
    moved = np.array(state[:, 7:13])
    blowing = np.broadcast_to(wind, (len(state), np.shape(wind)[-1]))
    if np.any(blowing):
        moved[:, :3] -= np.einsum("nij,ni->nj", turn, blowing[:, :3])
        if blowing.shape[1] == 6:
            moved[:, 3:] -= blowing[:, 3:]
    return moved


def _lag_moment(craft: Craft, moved: Array, speed_rate: Array) -> Array:
    """Pitching moment of the downwash that reaches the tail late."""
    w = craft.whole
    u, z = moved[:, 0], moved[:, 2]
    speed = np.maximum(np.sqrt(u * u + z * z), 2.0)
    turning = (speed_rate[:, 2] * u - speed_rate[:, 0] * z) / speed * np.maximum(u / speed, 0.0)
    moment = np.zeros((len(moved), 3))
    moment[:, 1] = 0.25 * w.density * w.area * w.chord**2 * w.pitch_alpha_rate * turning
    return moment
