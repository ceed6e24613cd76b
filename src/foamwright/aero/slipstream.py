"""What a running propeller does to wing and tail: faster air, swirl, and a push off the middle.

Thrust, torque and speed of the propeller come in as plain numbers.
"""

import math
from dataclasses import dataclass

import numpy as np

from foamwright.shape.model import Airframe, LiftingSurface

TAIL_KEPT = 0.8  # of the slipstream's extra pressure left at the tail after mixing; assumed
WING_SHARE = 0.5  # of the strip-theory lift gain a narrow jet gives a wing; assumed, +-0.15
BLADE_SLOPE = 5.0  # 1/rad, lift slope of a small blade's section; assumed
BLADE_CHORD = 0.13  # mean chord over radius, small electric propellers; assumed, 0.10 to 0.17
# Of the swirl's angular momentum left behind a wing that cuts the tube in two, and so of the torque
# that the plane feels: a turning half circle against a whole one, 2 x 0.298 a⁴ / (pi/2 a⁴), torsion
# constants [ROARK]. A wing of short chord leaves more.
SWIRL_KEPT = 0.38
FIN_SWIRL = 0.25  # of the swirl that a fin on the body meets: 0 in a cut tube, 0.38 once it closes
FIN_SWIRL_SPREAD = 0.15  # one-sided


@dataclass(frozen=True, slots=True)
class Slipstream:
    """The slipstream at one speed and thrust.

    Attributes:
        speed_ratio: Speed far behind the propeller over flying speed. [-]
        radius: There. [m]
        tail_pressure: Mean dynamic pressure on the stab over the stream's. [-]
        fin_pressure: Same on the fin. [-]
        tail_speed: Mean speed on the stab over the stream's: what a stream across, and the
            downwash, meet there. [-]
        fin_speed: Same on the fin. [-]
        lift_gain: Wing lift with power over that without. [-]
        swirl: Mean angle of the swirl at the fin, propeller turning right. [rad]
        fin_share: Share of the fin's height inside the slipstream. [-]
        swirled: The part of it above the thrust line less the part below: the swirl turns round.
            [-]
    """

    speed_ratio: float
    radius: float
    tail_pressure: float
    fin_pressure: float
    tail_speed: float
    fin_speed: float
    lift_gain: float
    swirl: float
    fin_share: float
    swirled: float


def slipstream_of(
    airframe: Airframe, thrust: float, *, speed: float, density: float, torque: float = 0.0
) -> Slipstream:
    """Slipstream by momentum theory, and the share of each surface that lies in it.

    V_far² = V² + 2 T/(rho A); the tube shrinks as the speed grows; swirl = Q/(rho A V R 2/3) over
    the far speed.

    Args:
        airframe: The plane.
        thrust: Of the propeller; negative counts as none. [N]
        speed: True airspeed. [m/s]
        density: Air. [kg/m³]
        torque: Of the shaft. [N m]

    Returns:
        Speeds, pressures and swirl.

    Valid:
        Propeller ahead of the wing; mixing and blockage by assumed factors, +-30 % of the gain.

    Source:
        Rankine-Froude momentum theory [GLAUERT-AIRSCREW]; Smelt & Davies (from memory) for wings.

    Example:
        >>> slipstream_of(airframe, 3.0, speed=9.0, density=1.2).tail_pressure  # doctest: +SKIP
        1.6
    """
    disc = 0.25 * math.pi * airframe.propeller_diameter**2
    pull = max(thrust, 0.0)
    far = math.sqrt(speed * speed + 2.0 * pull / (density * disc))
    through = 0.5 * (speed + far)
    radius = 0.5 * airframe.propeller_diameter * math.sqrt(through / far)
    extra = (far / speed) ** 2 - 1.0
    stab, fin = airframe.stab, airframe.fin
    wet_tail = _immersed(airframe, stab, radius)
    upright = stab if fin is None else fin
    share = _immersed(airframe, upright, radius)
    wet = min(2.0 * radius / airframe.wing.span, 1.0)
    arm = airframe.propeller_diameter / 3.0
    turning = torque / (density * disc * through * arm) if torque else 0.0
    return Slipstream(
        speed_ratio=far / speed,
        radius=radius,
        tail_pressure=1.0 + TAIL_KEPT * extra * wet_tail,
        fin_pressure=1.0 + TAIL_KEPT * extra * share,
        tail_speed=1.0 + TAIL_KEPT * (far / speed - 1.0) * wet_tail,
        fin_speed=1.0 + TAIL_KEPT * (far / speed - 1.0) * share,
        lift_gain=1.0 + WING_SHARE * extra * wet,
        swirl=FIN_SWIRL * turning / far,
        fin_share=share,
        swirled=_immersed(airframe, upright, radius, signed=True),
    )


def _immersed(
    airframe: Airframe, surface: LiftingSurface, radius: float, *, signed: bool = False
) -> float:
    """Share of a surface's span inside the tube, the thrust line carried straight back.

    Signed: what lies below the line counts against what lies above.
    """
    x, axis = surface.quarter_chord_x, airframe.thrust_axis
    back = (x - airframe.thrust_point[0]) / min(axis[0], -1e-6)
    line = airframe.thrust_point[2] + axis[2] * back
    places = np.linspace(0.0, 1.0, 21)
    panels = surface.panels
    y = panels[0].root[1] + places * (panels[-1].tip[1] - panels[0].root[1])
    z = panels[0].root[2] + places * (panels[-1].tip[2] - panels[0].root[2])
    inside = y * y + (z - line) ** 2 < radius * radius
    return float((inside * np.sign(z - line) if signed else inside).mean())


def blade_yaw(speed: float, alpha: float, *, pitch_speed: float, radius: float, density: float,
              blades: int = 2) -> float:  # fmt: skip
    """Yawing moment of a propeller at an angle of attack: the down-going blade pulls harder.

    N = B rho a c V alpha (2 Vp - V) R²/8 for blades set to the pitch Vp/n, turning right.

    Args:
        speed: True airspeed. [m/s]
        alpha: Of the shaft. [rad]
        pitch_speed: Pitch times turns a second. [m/s]
        radius: Of the propeller. [m]
        density: Air. [kg/m³]
        blades: Number. [-]

    Returns:
        Nose-left moment, propeller turning right as seen from behind. [N m]

    Valid:
        Small angles, blades not stalled; blade chord 13 % of the radius assumed.

    Source:
        Blade elements averaged over a turn; derived here.

    Example:
        >>> round(blade_yaw(9.0, 0.1, pitch_speed=18.0, radius=0.11, density=1.2), 4)
        0.0063
    """
    chord = BLADE_CHORD * radius
    gain = blades * density * BLADE_SLOPE * chord / 8.0
    return gain * speed * alpha * max(2.0 * pitch_speed - speed, 0.0) * radius * radius
