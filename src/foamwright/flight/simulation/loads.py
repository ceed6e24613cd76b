"""Forces and moments of air and propeller on the plane."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from foamwright.aero.flaps import KEPT, TURNS
from foamwright.aero.polar import PAST_STALL
from foamwright.aero.slipstream import BLADE_CHORD, BLADE_SLOPE, FIN_SWIRL
from foamwright.flight.simulation.craft import Craft
from foamwright.flight.simulation.lattice_forces import attached_forces
from foamwright.flight.simulation.propulsion import thrust_from
from foamwright.flight.simulation.state import AILERON, CHARGE, STALL, THROTTLE
from foamwright.flight.simulation.strip_loads import StripState, strip_loads
from foamwright.flight.simulation.turning import cross

type Array = NDArray[np.float64]

PLAY_ANGLE = 0.02  # rad, over which a loose surface goes from one end of its play to the other
FLOAT_SHARE = 0.5  # hinge moment per incidence over that per deflection, thin aerofoil; ratio


@dataclass(frozen=True, slots=True)
class Loads:
    """Forces and what goes along.

    Attributes:
        force: Air and propeller, body axes. [N]
        moment: About the CG, body axes. [N m]
        gyro: Momentum of the propeller, body axes. [kg m²/s]
        push: Thrust, torque, speed, current. [N], [N m], [rad/s], [A]
        strips: What the strips do.
        lift: Lift coefficient of the whole plane. [-]
        drag: Drag, propeller left out. [N]
    """

    force: Array
    moment: Array
    gyro: Array
    push: Array
    strips: StripState
    lift: Array
    drag: Array


def loads_on(craft: Craft, state: Array, moved: Array) -> Loads:
    """Forces and moments of air and propeller about the CG.

    Args:
        craft: The plane. [-]
        state: One row a member. [SI]
        moved: Motion of the CG through the air, (n, 6). [m/s], [rad/s]

    Returns:
        The loads.

    Source:
        docs/physics/flight-simulation.md.

    Example:
        >>> from foamwright.flight.simulation.state import start_state
        >>> at = start_state(plane.craft.strip_count, speed=9.0, height=10.0, alpha=0.05)
        >>> bool(0.3 < loads_on(plane.craft, at, at[:, 7:13]).lift[0] < 1.0)
        True
    """
    b, w = craft.builds, craft.whole
    motion = np.array(moved)
    motion[:, :3] += cross(moved[:, 3:], b.reference)
    speed = np.sqrt((motion[:, :3] ** 2).sum(axis=1))
    push, axial = _propeller(craft, state, motion)
    far = np.sqrt(axial**2 + 2.0 * np.maximum(push[:, 0], 0.0) / (w.density * craft.screw.disc))
    turns = deflections(craft, state, motion)
    air = _attached(craft, motion, turns, far=far, axial=axial, push=push)
    strips = strip_loads(
        craft, motion, turns, stalled=state[:, STALL], jet=far - axial, speed=speed
    )
    total = w.density * strips.force
    total += air
    lift, drag = _drag(craft, motion, total, speed)
    force = total[:, :3] - (drag / np.maximum(speed, 1e-6))[:, None] * motion[:, :3]
    moment = total[:, 3:]
    thrust, twist, gyro = _thrust_loads(craft, motion, push, axial)
    force = force + thrust
    moment = moment + twist
    # about the true CG
    moment = moment + cross(b.reference, force)
    return Loads(force, moment, gyro, push, strips, lift, drag)


def deflections(craft: Craft, state: Array, motion: Array) -> Array:
    """Worked deflections of right and left aileron, elevator and rudder.

    Args:
        craft: The plane. [-]
        state: One row a member. [SI]
        motion: Through the air. [m/s], [rad/s]

    Returns:
        Down, down, down, left positive, large ones eased as foamwright.aero.flaps. [rad]

    Source:
        Definition; free play: the surface lies at the end that the air pushes it to.

    Example:
        >>> from foamwright.flight.simulation.state import start_state
        >>> at = start_state(plane.craft.strip_count, speed=9.0, height=10.0, alpha=0.05)
        >>> deflections(plane.craft, at, at[:, 7:13]).shape
        (1, 4)
    """
    b, travel = craft.builds, craft.travel
    s = state[:, AILERON : AILERON + 3]
    right, left = np.maximum(s, 0.0), np.maximum(-s, 0.0)
    angle = np.empty((len(state), 4))
    angle[:, 0] = b.neutral[:, 0] - travel[0] * right[:, 0] + travel[1] * left[:, 0]
    angle[:, 1] = -b.neutral[:, 0] + travel[1] * right[:, 0] - travel[0] * left[:, 0]
    angle[:, 2] = b.neutral[:, 1] - travel[2] * right[:, 1] + travel[3] * left[:, 1]
    angle[:, 3] = b.neutral[:, 2] + travel[4] * left[:, 2] - travel[5] * right[:, 2]
    if np.any(b.slop):
        ahead = np.maximum(np.abs(motion[:, 0]), 1.0)
        lift = np.stack([motion[:, 2]] * 3 + [-motion[:, 1]], axis=1) / ahead[:, None]
        angle -= 0.5 * b.slop[:, None] * np.tanh((angle + FLOAT_SHARE * lift) / PLAY_ANGLE)
    return angle * np.interp(np.abs(angle), TURNS, KEPT)


def _propeller(craft: Craft, state: Array, motion: Array) -> tuple[Array, Array]:
    """Thrust and the like, and the airspeed along the shaft."""
    b, screw = craft.builds, craft.screw
    hub = motion[:, :3] + cross(motion[:, 3:], screw.hub)
    axial = np.maximum((hub * b.axis).sum(axis=1), 0.0)
    factor = np.broadcast_to(b.pack_factor, axial.shape)
    push = thrust_from(
        craft.thrust, axial, state[:, THROTTLE], depth=state[:, CHARGE], resistance_factor=factor
    )
    scale = np.stack([b.motor_factor, b.motor_factor, np.ones_like(b.motor_factor),
                      b.motor_factor], axis=1)  # fmt: skip
    return push * scale, axial


def _attached(
    craft: Craft, motion: Array, turns: Array, *, far: Array, axial: Array, push: Array
) -> Array:
    """Attached flow, fuselage and swirl, about the design's CG; no drag along the wind."""
    w, screw = craft.whole, craft.screw
    datum = np.array(motion)
    datum[:, :3] += cross(motion[:, 3:], w.datum)
    ahead = datum[:, 0]
    share = screw.immersed
    jet = np.empty((len(motion), len(share), 2))
    jet[:, :, 0] = ahead[:, None] + share * (far - axial)[:, None]
    jet[:, :, 1] = (ahead * np.abs(ahead))[:, None] + share * (far**2 - axial**2)[:, None]
    across = np.zeros_like(turns)
    across[:, 0] = 0.5 * (turns[:, 0] - turns[:, 1])
    across[:, 1:3] = turns[:, 2:4]
    found, yaw = attached_forces(craft.lattice, datum, across, jet=jet)
    found *= w.density
    found += _swirl(craft, jet, far=far, axial=axial, torque=push[:, 1])
    found[:, 3:] += cross(np.broadcast_to(w.datum, (len(motion), 3)), found[:, :3])
    speed2 = np.maximum((motion[:, :3] ** 2).sum(axis=1), 1e-9)
    along = (found[:, :3] * motion[:, :3]).sum(axis=1) / speed2
    found[:, :3] -= along[:, None] * motion[:, :3]
    found[:, 5] += w.density * yaw
    half = 0.5 * w.density
    u, v, z = motion[:, 0], motion[:, 1], motion[:, 2]
    square = u * np.abs(u)
    found[:, 1] += half * (w.body_side * u * v - w.body_cross[0] * v * np.abs(v) * np.abs(v)
                           / np.sqrt(speed2))  # fmt: skip
    found[:, 2] -= half * w.body_cross[1] * z * np.abs(z) * np.abs(z) / np.sqrt(speed2)
    found[:, 3] += half * w.wing_height_roll * w.area * w.span * u * v
    # sections and elevator in the slipstream feel its pressure, as their lift does
    faster = jet[:, :, 1] - (ahead * np.abs(ahead))[:, None]
    stab = min(1, faster.shape[1] - 1)
    pitch = w.section_moment * (square + faster[:, 0])
    pitch = pitch + w.elevator_moment * turns[:, 2] * (square + faster[:, stab])
    found[:, 4] += half * (w.area * w.chord * pitch + w.body_pitch * u * z)
    found[:, 5] += half * w.body_yaw * u * v
    return found


def _swirl(craft: Craft, jet: Array, *, far: Array, axial: Array, torque: Array) -> Array:
    """What the turning slipstream does to the fin, about the datum: it pushes the tail right."""
    screw, density = craft.screw, craft.whole.density
    through = 0.5 * (far + axial)
    arm = 2.0 * screw.radius / 3.0
    turning = torque / np.maximum(density * screw.disc * through * arm, 1e-6)
    speed = screw.swirl * FIN_SWIRL * screw.swirled * turning
    return -density * (speed * jet[:, -1, 0])[:, None] * craft.lattice.upright


def _drag(craft: Craft, motion: Array, total: Array, speed: Array) -> tuple[Array, Array]:
    """Lift coefficient, and drag by the plane's polar at it."""
    w = craft.whole
    u, z = motion[:, 0], motion[:, 2]
    pressure = 0.5 * w.density * speed * speed * w.area
    plane = np.sqrt(np.maximum(u * u + z * z, 1e-9))
    lift = (total[:, 0] * z - total[:, 2] * u) / plane / np.maximum(pressure, 1e-9)
    held = np.clip(lift, -w.lift_max, w.lift_max)
    past = np.maximum(np.abs(held) - 0.92 * w.lift_max, 0.0)
    polar = w.drag_zero * craft.builds.drag_factor + PAST_STALL * past**2
    polar = polar + w.drag_factor * (held - w.drag_bucket) ** 2
    return lift, polar * pressure


def _thrust_loads(
    craft: Craft, motion: Array, push: Array, axial: Array
) -> tuple[Array, Array, Array]:
    """Force, moment about the design's CG, and momentum of the propeller."""
    screw, axis = craft.screw, craft.builds.axis
    force = push[:, :1] * axis
    moment = cross(np.broadcast_to(screw.hub, (len(push), 3)), force)
    moment = moment - (screw.swirl * screw.torque_kept * push[:, 1:2]) * axis
    hub = motion[:, :3] + cross(motion[:, 3:], screw.hub)
    pitch_speed = screw.pitch * push[:, 2] / (2.0 * np.pi)
    gain = screw.blades * craft.whole.density * BLADE_SLOPE * BLADE_CHORD * screw.radius**3 / 8.0
    blades = screw.swirl * gain * np.maximum(2.0 * pitch_speed - axial, 0.0)
    # The down-going right blade pulls harder: nose left; the same turned by 90 deg for a sideslip.
    across = hub - axial[:, None] * axis
    moment[:, 2] -= blades * across[:, 2]
    moment[:, 1] += blades * across[:, 1]
    gyro = (screw.swirl * screw.inertia * push[:, 2])[:, None] * axis
    return force, moment, gyro
