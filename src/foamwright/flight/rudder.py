"""Turning on rudder alone: yaw makes sideslip, dihedral makes it roll."""

import math
from dataclasses import dataclass

from foamwright.aero.flaps import worked_turn
from foamwright.aero.model import AeroResult
from foamwright.core.air import GRAVITY
from foamwright.shape.model import Airframe

BANK = math.radians(30.0)  # bank of an ordinary turn
QUICK, SLOW = 1.5, 4.0  # s to that bank: lively, and too slow to fly with; common practice


@dataclass(frozen=True, slots=True)
class RudderTurn:
    """Full rudder, ailerons neutral.

    Attributes:
        sideslip: Steady. [rad]
        roll_rate: Steady, into the turn positive. [rad/s]
        bank_time: From level to 30 degrees; None when it never banks that way. [s]
        turn_radius: Of a level turn at that bank. [m]
        words: One sentence.
    """

    sideslip: float
    roll_rate: float
    bank_time: float | None
    turn_radius: float
    words: str


def rudder_turn(
    airframe: Airframe, aero: AeroResult, *, speed: float, roll_inertia: float, density: float
) -> RudderTurn | None:
    """Roll rate and time to bank with full rudder.

    beta = -Cn_r d/Cn_beta; p b/2V = -(Cl_beta beta + Cl_r d)/Cl_p; the bank starts late by the
    roll's lag and half a swing of the tail.

    Args:
        airframe: The shape. [-]
        aero: The plane's aerodynamics. [-]
        speed: True airspeed. [m/s]
        roll_inertia: About the fuselage line. [kg m²]
        density: Air. [kg/m³]

    Returns:
        The turn; None without a rudder or where the nose does not follow the wind.

    Valid:
        Steady values of two degrees of freedom; time +-30 %.

    Source:
        Balance of yaw and roll, any stability text.

    Example:
        >>> rudder_turn(frame, aero, speed=8.0, roll_inertia=0.01, density=1.2)  # doctest: +SKIP
    """
    surfaces = (airframe.fin, airframe.stab)
    controls = [c for s in surfaces if s is not None for c in s.controls if c.name == "rudder"]
    d = aero.derivatives
    if not controls or d.yaw_beta <= 0.0:
        return None
    # Right rudder: trailing edge right, negative.
    turn = -worked_turn(controls[0].down)
    slip = -d.yaw_rudder * turn / d.yaw_beta
    rate = -(d.roll_beta * slip + d.roll_rudder * turn) / min(d.roll_roll_rate, -1e-3)
    roll_rate = rate * 2.0 * speed / aero.span
    flow = 0.5 * density * speed * aero.wing_area * aero.span**2
    lag = roll_inertia / (0.5 * flow * -min(d.roll_roll_rate, -1e-3))
    time = BANK / roll_rate + lag if roll_rate > 1e-3 else None
    radius = speed**2 / (GRAVITY * math.tan(BANK))
    return RudderTurn(slip, roll_rate, time, radius, _words(time, slip))


def _words(time: float | None, slip: float) -> str:
    if time is None:
        return "rudder alone does not bank it into the turn: more dihedral, or ailerons."
    kind = "quickly" if time < QUICK else ("slowly" if time > SLOW else "well")
    return (
        f"full rudder slips it {abs(math.degrees(slip)):.0f} deg and banks it {kind}: 30 deg after "
        f"{time:.1f} s."
    )
