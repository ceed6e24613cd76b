"""Trim with the propeller running: elevator and throttle over speed, and the thrust line.

The tail stands in the slipstream, the thrust acts beside the CG; thrust, torque and turns of the
propeller come in as plain numbers.
"""

import math
from dataclasses import dataclass

from foamwright.aero.model import AeroResult
from foamwright.aero.slipstream import (
    FIN_SWIRL,
    FIN_SWIRL_SPREAD,
    SWIRL_KEPT,
    Slipstream,
    blade_yaw,
    slipstream_of,
)
from foamwright.core.air import GRAVITY
from foamwright.flight.handling import thrust_arm
from foamwright.shape.model import Airframe, Vector

BLADE_SPREAD = 0.5  # of the down-going blade's moment: blade chord and slope; assumed
HELD_SPREAD = 0.4  # of what holds the torque: share of the swirl that the wing takes out; assumed
WASH_SPREAD = 0.5  # of the slipstream's moment on the stab; assumed
WING_SPREAD = 0.5  # of the slipstream's moment on the wing; assumed
LINE_SPREAD = 0.004  # m, height of the CG against the thrust line as built; assumed
FEW = math.radians(0.5)  # a thrust angle this close to the wanted one is as good as cut; assumed


@dataclass(frozen=True, slots=True)
class Propulsion:
    """The propeller at one moment, as plain numbers.

    Attributes:
        thrust: [N]
        torque: Of the shaft. [N m]
        turns: Of the propeller. [1/s]
        pitch: Of the propeller, one turn. [m]
    """

    thrust: float
    torque: float = 0.0
    turns: float = 0.0
    pitch: float = 0.0


GLIDE = Propulsion(0.0)


@dataclass(frozen=True, slots=True)
class PoweredTrim:
    """Trim at one speed and thrust, wings level.

    Attributes:
        speed: [m/s]
        alpha: Of the fuselage line. [rad]
        elevator: Trailing edge down positive. [rad]
        throttle: Stick, 0 to 1; None where full throttle does not hold level flight, and where
            nobody asked. [-]
        thrust: [N]
        tail_pressure: Dynamic pressure on the stab over the stream's. [-]
    """

    speed: float
    alpha: float
    elevator: float
    throttle: float | None
    thrust: float
    tail_pressure: float


@dataclass(frozen=True, slots=True)
class PowerTrim:
    """From glide to full power at one speed.

    Attributes:
        speed: [m/s]
        elevator_change: Full power less glide, trailing edge down positive. [rad]
        nose_up: Pitching moment that comes with power at the glide's trim. [N m]
        down_thrust: Down from the fuselage line at which power leaves the trim alone. [rad]
        nose_left: Yawing moment of blades, swirl and torque at full power. [N m]
        right_thrust: Right of the fuselage line at which power does not turn the plane. [rad]
        words: One sentence.
        down_spread: Of down_thrust, one-sided, as far as the model cannot know it. [rad]
        right_spread: Of right_thrust, likewise. [rad]
        down_per_elevator: Down thrust that does as much as an elevator turned by one radian. [-]
        right_per_rudder: Right thrust that does as much as a rudder turned by one radian. [-]
    """

    speed: float
    elevator_change: float
    nose_up: float
    down_thrust: float
    nose_left: float
    right_thrust: float
    words: str
    down_spread: float = 0.0
    right_spread: float = 0.0
    down_per_elevator: float = 0.0
    right_per_rudder: float = 0.0


@dataclass(frozen=True, slots=True)
class Loaded:
    """A plane with its mass in its air, for the questions of this module.

    Attributes:
        airframe: The shape.
        aero: Its aerodynamics about its CG.
        mass: All-up. [kg]
        cg: Centre of gravity. [m]
        density: Air. [kg/m³]
    """

    airframe: Airframe
    aero: AeroResult
    mass: float
    cg: Vector
    density: float


def _stream(plane: Loaded, push: Propulsion, speed: float) -> Slipstream:
    return slipstream_of(
        plane.airframe, push.thrust, speed=speed, density=plane.density, torque=push.torque
    )


def trim_with_power(plane: Loaded, push: Propulsion, *, speed: float) -> PoweredTrim:
    """Angle of attack and elevator that hold lift and pitch at one speed and thrust.

    Two linear equations: lift (with the wing's share of the slipstream) carries the weight less the
    thrust's upward part; pitch of plane, slipstream on wing and tail and thrust line cancel. In the
    slipstream the stab's own setting counts with the pressure, the stream across with the speed.

    Args:
        plane: The plane with its mass. [-]
        push: The propeller. [-]
        speed: True airspeed. [m/s]

    Returns:
        The trim; throttle is left at None.

    Valid:
        Attached flow, small angles; slipstream +-30 %.

    Source:
        Moment balance; slipstream by momentum theory, aero/slipstream.py.

    Example:
        >>> trim_with_power(plane, Propulsion(2.0), speed=9.0).elevator  # doctest: +SKIP
        0.02
    """
    aero, d = plane.aero, plane.aero.derivatives
    wash = _stream(plane, push, speed)
    flow = 0.5 * plane.density * speed**2 * aero.wing_area
    more, own = wash.tail_speed - 1.0, wash.tail_pressure - wash.tail_speed
    arm = thrust_arm(plane.airframe, plane.cg)
    # Lift: a (alpha - alpha0) + b (elevator - trim) = want; pitch: c .. + e .. = -rest.
    lift_now = aero.lift_max / (aero.trim_speed / aero.stall_speed) ** 2
    weight = plane.mass * GRAVITY / flow
    tilt = -plane.airframe.thrust_axis[2]
    a = d.lift_alpha * wash.lift_gain + push.thrust / flow
    b = d.lift_elevator * wash.tail_pressure
    upward = push.thrust / flow * (aero.trim_alpha - tilt)
    want = weight - lift_now * wash.lift_gain - upward
    gain = wash.lift_gain - 1.0
    c = d.pitch_alpha + more * aero.tail_pitch_alpha + gain * aero.wing_pitch_alpha
    e = d.pitch_elevator * wash.tail_pressure
    rest = more * aero.tail_pitch + own * aero.tail_own_pitch + gain * aero.wing_pitch
    rest += push.thrust * arm / (flow * aero.mean_chord)
    determinant = a * e - b * c
    alpha = (want * e + b * rest) / determinant
    elevator = (-a * rest - c * want) / determinant
    return PoweredTrim(
        speed=speed,
        alpha=aero.trim_alpha + alpha,
        elevator=aero.trim_elevator + elevator,
        throttle=None,
        thrust=push.thrust,
        tail_pressure=wash.tail_pressure,
    )


def power_trim(plane: Loaded, full: Propulsion, *, speed: float) -> PowerTrim:
    """Trim change from glide to full power, and the thrust angles that take it away.

    Down thrust: the angle at which thrust line and slipstream on the tail leave no moment at the
    glide's trim. Right thrust: the angle whose yaw cancels the down-going blade, the swirl on the
    fin, and what holds the torque (ailerons with their adverse yaw, or sideslip on the dihedral);
    of the torque only that share which the wing does not take out of the swirl.

    Args:
        plane: The plane with its mass. [-]
        full: The propeller at full throttle at that speed, turning right. [-]
        speed: The speed that is flown. [m/s]

    Returns:
        Moments and angles.

    Valid:
        Propeller at the nose; the spreads say how far slipstream and swirl are not known.

    Source:
        Momentum theory and blade elements, aero/slipstream.py; moment balance.

    Example:
        >>> power_trim(plane, Propulsion(5.0, 0.05, 150.0, 0.15), speed=9.0)  # doctest: +SKIP
    """
    aero = plane.aero
    glide = trim_with_power(plane, GLIDE, speed=speed)
    powered = trim_with_power(plane, full, speed=speed)
    flow = 0.5 * plane.density * speed**2 * aero.wing_area
    d = aero.derivatives
    wash = _stream(plane, full, speed)
    bent = d.pitch_elevator * (glide.elevator - aero.trim_elevator)
    tail = aero.tail_pitch + aero.tail_pitch_alpha * (glide.alpha - aero.trim_alpha) + bent
    # Faster air turns the stream at the stab the less: only its own setting feels the pressure.
    by_tail = (wash.tail_speed - 1.0) * tail
    by_tail += (wash.tail_pressure - wash.tail_speed) * (aero.tail_own_pitch + bent)
    by_tail *= flow * aero.mean_chord
    wing = aero.wing_pitch + aero.wing_pitch_alpha * (glide.alpha - aero.trim_alpha)
    by_wing = (wash.lift_gain - 1.0) * wing * flow * aero.mean_chord
    arm = thrust_arm(plane.airframe, plane.cg)
    nose_up = by_tail + by_wing + full.thrust * arm
    ahead = max(plane.cg[0] - plane.airframe.thrust_point[0], 1e-3)
    pull = max(full.thrust, 1e-6)
    axis = plane.airframe.thrust_axis
    down = math.atan2(-axis[2], -axis[0]) + nose_up / (pull * ahead)
    causes = _nose_left(plane, full, wash=wash, alpha=glide.alpha, speed=speed)
    left = sum(causes)
    beside = plane.airframe.thrust_point[1] - plane.cg[1]
    # Thrust passing right of the CG turns the nose left.
    right = (left + full.thrust * beside) / (pull * ahead)
    change = powered.elevator - glide.elevator
    return PowerTrim(
        speed=speed,
        elevator_change=change,
        nose_up=nose_up,
        down_thrust=down,
        nose_left=left,
        right_thrust=right,
        words=_words(nose_up, change, (down, right), axis),
        down_spread=math.hypot(
            WASH_SPREAD * by_tail, WING_SPREAD * by_wing, LINE_SPREAD * full.thrust
        )
        / (pull * ahead),
        right_spread=_spread_of(causes) / (pull * ahead),
        down_per_elevator=abs(d.pitch_elevator)
        * wash.tail_pressure
        * flow
        * aero.mean_chord
        / (pull * ahead),
        right_per_rudder=abs(d.yaw_rudder) * wash.fin_pressure * flow * aero.span / (pull * ahead),
    )


def _spread_of(causes: tuple[float, float, float]) -> float:
    """One-sided, of blades, swirl and held torque together."""
    blades, swirl, held = causes
    return math.hypot(
        BLADE_SPREAD * blades, FIN_SWIRL_SPREAD / FIN_SWIRL * swirl, HELD_SPREAD * held
    )


def _nose_left(
    plane: Loaded, full: Propulsion, *, wash: Slipstream, alpha: float, speed: float
) -> tuple[float, float, float]:
    """Blades, swirl on the fin, and what it takes to hold the torque that the plane feels."""
    aero, d = plane.aero, plane.aero.derivatives
    flow = 0.5 * plane.density * speed**2 * aero.wing_area * aero.span
    blades = blade_yaw(
        speed,
        alpha + plane.airframe.thrust_axis[2],
        pitch_speed=full.pitch * full.turns,
        radius=0.5 * plane.airframe.propeller_diameter,
        density=plane.density,
    )
    across = wash.swirl * wash.speed_ratio
    swirl = aero.fin_yaw_beta * wash.fin_speed * wash.swirled * across * flow
    felt = SWIRL_KEPT * full.torque
    if d.roll_aileron != 0.0:
        held = -aero.adverse_yaw * felt
    else:
        settling = d.yaw_beta + (wash.fin_speed - 1.0) * aero.fin_yaw_beta
        held = settling / max(-d.roll_beta, 0.02) * felt
    return blades, swirl, held


def _words(nose_up: float, change: float, wanted: tuple[float, float], axis: Vector) -> str:
    down, right = (math.degrees(angle) for angle in wanted)
    has_down, has_right = math.atan2(-axis[2], -axis[0]), math.atan2(axis[1], -axis[0])
    close = abs(wanted[0] - has_down) < FEW and abs(wanted[1] - has_right) < FEW
    way = "up" if nose_up > 0.0 else "down"
    end = (
        "as it is cut"
        if close
        else f"it is cut with {math.degrees(has_down):.1f} and {math.degrees(has_right):.1f}"
    )
    return (
        f"full power turns the nose {way}: {abs(math.degrees(change)):.1f} deg of "
        f"{'down' if change > 0.0 else 'up'} elevator hold it; {down:.1f} deg down and {right:.1f} "
        f"deg right thrust would leave the trim alone ({end})."
    )
