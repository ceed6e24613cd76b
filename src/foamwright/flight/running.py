"""What a running propeller does to the derivatives: faster air on the tail, a force at the nose.

The change of thrust with speed is in derive.py.
"""

import math
from dataclasses import dataclass, replace

from foamwright.aero.model import AeroResult
from foamwright.aero.slipstream import BLADE_CHORD, BLADE_SLOPE, slipstream_of
from foamwright.flight.motion import Condition, LateralDerivatives, LongitudinalDerivatives
from foamwright.shape.model import Airframe

TAIL_OF_DAMPING = 0.9  # of the pitch damping that is the stab's; common for ordinary layouts
HUB = 0.2  # of the radius, where blades begin; assumed
STEP = 0.01  # of the speed, for slopes


@dataclass(frozen=True, slots=True)
class Running:
    """The propeller's part in the derivatives at one steady flight.

    Attributes:
        tail_speed: Mean speed on the stab over the stream's. [-]
        tail_speed_slope: Its change with the logarithm of the speed, throttle held. [-]
        tail_pressure_slope: Same of the dynamic pressure there over the stream's. [-]
        fin_speed: Mean speed on the fin over the stream's. [-]
        normal_slope: Force across the shaft per angle of the stream to it. [N/rad]
        ahead: Propeller before the CG. [m]
        fin_arm: Fin's quarter chord behind the CG. [m]
    """

    tail_speed: float
    tail_speed_slope: float
    tail_pressure_slope: float
    fin_speed: float
    normal_slope: float
    ahead: float
    fin_arm: float


def normal_force_slope(speed: float, *, pitch_speed: float, pitch: float, radius: float,
                       density: float, blades: int = 2) -> float:  # fmt: skip
    """Force across the shaft of a propeller per angle of the stream to it.

    The cross stream speeds one side's blades up and slows the other's; turned by the inflow angle
    V/(Omega r) and averaged over a turn: N = B rho a c V² (2 Vp - V) ln(R/r0)/(4 Omega).

    Args:
        speed: True airspeed. [m/s]
        pitch_speed: Pitch times turns a second. [m/s]
        pitch: Of the propeller, one turn. [m]
        radius: Of the propeller. [m]
        density: Air. [kg/m³]
        blades: Number. [-]

    Returns:
        Slope. [N/rad]

    Valid:
        Small angles, blades not stalled; blade chord 13 % of the radius assumed, so +-50 %.

    Source:
        Blade elements averaged over a turn; derived here, as aero/slipstream.py's `blade_yaw`.

    Example:
        >>> round(normal_force_slope(9.0, pitch_speed=18.0, pitch=0.12, radius=0.11,
        ...                          density=1.2), 3)
        0.16
    """
    if pitch_speed <= 0.0 or pitch <= 0.0:
        return 0.0
    turning = 2.0 * math.pi * pitch_speed / pitch
    chord = BLADE_CHORD * radius
    gain = blades * density * BLADE_SLOPE * chord / 4.0
    return gain * speed**2 * max(2.0 * pitch_speed - speed, 0.0) * math.log(1.0 / HUB) / turning


def running_at(
    airframe: Airframe,
    cg_x: float,
    *,
    speed: float,
    density: float,
    thrust: tuple[float, float],
    pitch: tuple[float, float],
) -> Running:
    """The propeller's part at one speed and throttle.

    Args:
        airframe: The shape. [-]
        cg_x: Centre of gravity. [m]
        speed: True airspeed. [m/s]
        density: Air. [kg/m³]
        thrust: Thrust, and its change with airspeed at fixed throttle. [N], [N s/m]
        pitch: Of the propeller, one turn, and that times turns a second. [m], [m/s]

    Returns:
        The part.

    Valid:
        Propeller at the nose; slipstream +-30 %.

    Source:
        Momentum theory, aero/slipstream.py; `normal_force_slope`.

    Example:
        >>> running_at(frame, 0.28, speed=9.0, density=1.2, thrust=(0.9, -0.1),
        ...            pitch=(0.15, 14.0)).tail_speed > 1.0
        True
    """
    pull, slope = thrust
    faster = speed * (1.0 + STEP)
    here = slipstream_of(airframe, pull, speed=speed, density=density)
    there = slipstream_of(airframe, pull + slope * STEP * speed, speed=faster, density=density)
    tail = airframe.fin if airframe.fin is not None else airframe.stab
    return Running(
        tail_speed=here.tail_speed,
        tail_speed_slope=(there.tail_speed - here.tail_speed) / STEP,
        tail_pressure_slope=(there.tail_pressure - here.tail_pressure) / STEP,
        fin_speed=here.fin_speed,
        normal_slope=normal_force_slope(
            speed,
            pitch_speed=pitch[1],
            pitch=pitch[0],
            radius=0.5 * airframe.propeller_diameter,
            density=density,
        ),
        ahead=cg_x - airframe.thrust_point[0],
        fin_arm=tail.quarter_chord_x - cg_x,
    )


def with_propeller(
    longitudinal: LongitudinalDerivatives,
    lateral: LateralDerivatives,
    *,
    aero: AeroResult,
    condition: Condition,
    running: Running,
) -> tuple[LongitudinalDerivatives, LateralDerivatives]:
    """Derivatives of the gliding plane with slipstream on the tail and the propeller's own force.

    Args:
        longitudinal: Without them. [-]
        lateral: Without them. [-]
        aero: The plane's aerodynamics. [-]
        condition: The steady flight. [-]
        running: The propeller's part.

    Returns:
        Both sets with the propeller.

    Source:
        Superposition; a force N ahead of the CG turns nose-up with alpha and into the sideslip.

    Example:
        >>> with_propeller(lon, lat, aero=aero, condition=c, running=r)  # doctest: +SKIP
    """
    c, r = condition, running
    push = r.normal_slope / (0.5 * c.density * c.speed**2 * c.area)
    arm, wide = r.ahead / c.chord, r.ahead / c.span
    # A stream across meets the speed of the slipstream, not its pressure.
    more, more_fin = r.tail_speed - 1.0, r.fin_speed - 1.0
    turned = aero.tail_pitch - aero.tail_own_pitch
    damping = 1.0 + more * TAIL_OF_DAMPING
    fin, fin_arm = more_fin * aero.fin_yaw_beta, r.fin_arm / c.span
    pitch = replace(
        longitudinal,
        normal_alpha=longitudinal.normal_alpha - push,
        pitch_speed=longitudinal.pitch_speed
        + turned * r.tail_speed_slope
        + aero.tail_own_pitch * r.tail_pressure_slope,
        pitch_alpha=longitudinal.pitch_alpha + more * aero.tail_pitch_alpha + push * arm,
        pitch_pitch_rate=longitudinal.pitch_pitch_rate * damping - 2.0 * push * arm**2,
        pitch_alpha_rate=longitudinal.pitch_alpha_rate * r.tail_speed,
    )
    side = replace(
        lateral,
        side_beta=lateral.side_beta - push - fin / max(fin_arm, 0.1),
        yaw_beta=lateral.yaw_beta + fin - push * wide,
        yaw_yaw_rate=lateral.yaw_yaw_rate - 2.0 * fin * fin_arm - 2.0 * push * wide**2,
    )
    return pitch, side
