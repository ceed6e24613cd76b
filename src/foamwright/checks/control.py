"""Checks of controls and servos."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from foamwright.checks.judge import Finding, Rule
from foamwright.checks.levers import (
    FIVE_MILLIMETRES,
    HALF_DEGREE,
    Lever,
    Step,
    angle_lever,
    choice_lever,
    grid,
    length_lever,
    listed,
    together,
    value_at,
)
from foamwright.checks.say import degrees, percent, say
from foamwright.checks.shape_levers import dihedral_lever, pack_lever, tail_levers
from foamwright.core.air import GRAVITY

if TYPE_CHECKING:
    from foamwright.plane import Plane

STALL_ELEVATOR = 1.0  # elevator needed at the stall over full up throw
ROLL_RATE = math.radians(45.0)  # 1/s with ailerons, trainer; common practice, no source
RUDDER_ROLL_RATE = math.radians(25.0)  # 1/s by rudder and dihedral; assumed
WRONG_SLIP = math.radians(10.0)  # sideslip by full aileron near the stall; assumed
LEAST_THROW = math.radians(5.0)  # below which slop in linkage and servo counts; common practice
ELEVATOR_THROW = math.radians(25.0)  # most; 10 to 12 deg is usual to start with, common practice
AILERON_THROW = math.radians(25.0)  # most; 12 to 15 deg is usual to start with, common practice
RUDDER_THROW = math.radians(40.0)  # most; 20 to 25 deg is usual to start with, common practice
SERVO_SHARE = 0.6  # of the rated moment; common practice, no source (half to two thirds)


def _elevator_per_lift(plane: Plane) -> float:
    """Change of trim elevator with lift coefficient, TE down positive. [rad]."""
    d = plane.aero.derivatives
    return -d.pitch_alpha / (d.pitch_elevator * d.lift_alpha - d.pitch_alpha * d.lift_elevator)


def _stall_elevator(plane: Plane) -> float:
    """Elevator that holds the stall, TE down positive. [rad]."""
    aero = plane.aero
    pressure = 0.5 * plane.air.density * aero.trim_speed**2 * aero.wing_area
    trim_lift = plane.balance.all_up_mass * GRAVITY / pressure
    return aero.trim_elevator + (aero.lift_max - trim_lift) * _elevator_per_lift(plane)


def _elevator(plane: Plane) -> Finding:
    aero, up = plane.aero, plane.design.stab.up
    at_stall = _stall_elevator(plane)
    return Finding(
        -at_stall,
        f"Holding the stall takes {degrees(-at_stall)} of up elevator "
        f"({degrees(-aero.trim_elevator)} up at level speed); the throw is {degrees(up)}.",
        high=STALL_ELEVATOR * up,
    )


def _elevator_levers(plane: Plane, finding: Finding) -> tuple[Lever, ...]:
    del finding
    return listed(
        angle_lever(plane, "stab.up", "up elevator", to=math.radians(25.0)),
        pack_lever(plane, forward=False),
        angle_lever(
            plane,
            "stab.incidence",
            "stab incidence",
            to=plane.design.stab.incidence - math.radians(4.0),
        ),
        *tail_levers(plane, "stab", bigger=True),
    )


def _roll_rate(plane: Plane) -> Finding:
    aero = plane.aero
    if plane.design.wing.aileron is not None:
        return Finding(
            aero.roll_rate,
            f"Full aileron at {say(plane, aero.trim_speed, 'speed')} rolls at "
            f"{degrees(aero.roll_rate, digits=0)}/s; at least {degrees(ROLL_RATE, digits=0)}/s "
            "answers the stick.",
            low=ROLL_RATE,
        )
    rate = rudder_roll_rate(plane)
    return Finding(
        rate,
        f"Full rudder at {say(plane, aero.trim_speed, 'speed')} skids it and the dihedral rolls it "
        f"at {degrees(rate, digits=0)}/s; at least {degrees(RUDDER_ROLL_RATE, digits=0)}/s "
        "turns it.",
        low=RUDDER_ROLL_RATE,
    )


def rudder_roll_rate(plane: Plane) -> float:
    """Roll rate that full rudder brings about through sideslip and dihedral, wings near level.

    Yaw balance gives the sideslip, roll balance the rate:
    beta = -Cn_rudder delta / Cn_beta, p b/2V = -(Cl_beta beta + Cl_rudder delta)/Cl_p.

    Args:
        plane: The plane. [-]

    Returns:
        Magnitude. [rad/s]

    Valid:
        Steady sideslip, small angles; the first instant rolls slower.

    Source:
        Moment balance with [ETKIN-REID] derivatives.

    Example:
        >>> 0.8 < rudder_roll_rate(plane) < 1.2
        True
    """
    aero, d = plane.aero, plane.aero.derivatives
    fin = plane.design.fin if plane.design.fin is not None else plane.design.stab
    throw = min(fin.up, fin.down)
    if d.yaw_beta <= 0.0 or d.roll_roll_rate >= 0.0:
        return 0.0
    slip = -d.yaw_rudder * throw / d.yaw_beta
    rate = -(d.roll_beta * slip + d.roll_rudder * throw) / d.roll_roll_rate
    return abs(rate) * 2.0 * aero.trim_speed / aero.span


def _roll_levers(plane: Plane, finding: Finding) -> tuple[Lever, ...]:
    del finding
    aileron = plane.design.wing.aileron
    if aileron is None:
        table = "fin" if plane.design.fin is not None else "stab"
        throws = _throws(plane, table, "rudder throw", to=math.radians(35.0))
        return listed(throws, dihedral_lever(plane, more=True))
    fitted = next((c for c in plane.airframe.wing.controls if c.name == "aileron"), None)
    chord = fitted.chord if fitted is not None else 0.03
    return listed(
        _throws(plane, "wing.aileron", "aileron throw", to=math.radians(25.0)),
        length_lever(plane, "wing.aileron.chord", "aileron chord", to=2.0 * chord, start=chord),
    )


def _throws(plane: Plane, table: str, name: str, *, to: float) -> Lever | None:
    """Both throws of a surface by the same angle."""
    up, down = float(value_at(plane, f"{table}.up")), float(value_at(plane, f"{table}.down"))
    steps = [
        Step(
            {f"{table}.up": value, f"{table}.down": max(down + value - up, HALF_DEGREE)},
            f"{name} {degrees(value)} instead of {degrees(up)}",
        )
        for value in grid(up, to, HALF_DEGREE)
    ]
    return together(name, steps)


def _adverse_yaw(plane: Plane) -> Finding:
    aileron, d = plane.design.wing.aileron, plane.aero.derivatives
    if aileron is None:
        return Finding(0.0, "It has no ailerons, so none to yaw it the wrong way.", high=WRONG_SLIP)
    if d.yaw_beta <= 0.0:
        return Finding(None, "Its nose does not follow the wind, so the sideslip has no end.")
    throw = 0.5 * (aileron.up + aileron.down)
    # adverse_yaw is negative when the nose swings away from the turn
    slip = -plane.aero.adverse_yaw * abs(d.roll_aileron) * throw / d.yaw_beta
    way = "away from" if slip > 0.0 else "into"
    return Finding(
        slip,
        f"Near the stall full aileron swings the nose {degrees(abs(slip))} {way} the turn "
        f"(yaw is {percent(abs(plane.aero.adverse_yaw))} of the rolling moment); up to "
        f"{degrees(WRONG_SLIP)} away from it needs no rudder.",
        high=WRONG_SLIP,
    )


def _yaw_levers(plane: Plane, finding: Finding) -> tuple[Lever, ...]:
    del finding
    if plane.design.wing.aileron is None:
        return ()
    return listed(
        *(tail_levers(plane, "fin", bigger=True) if plane.design.fin is not None else ()),
        _throws(plane, "wing.aileron", "aileron throw", to=math.radians(8.0)),
    )


def _elevator_throw(plane: Plane) -> Finding:
    need = max(-_stall_elevator(plane), LEAST_THROW)
    return _throw_in(
        plane.design.stab.up,
        (min(need, 0.9 * ELEVATOR_THROW), ELEVATOR_THROW),
        "Up elevator",
        f"holding the stall takes {degrees(-_stall_elevator(plane))}, 10 to 12 deg is usual to "
        "start with",
    )


def _throw_levers(plane: Plane, finding: Finding) -> tuple[Lever, ...]:
    del finding
    return listed(angle_lever(plane, "stab.up", "up elevator", to=math.radians(12.0)))


def _throw_in(value: float, limits: tuple[float, float], name: str, usual: str) -> Finding:
    low, high = limits
    return Finding(
        value,
        f"{name} is {degrees(value)}; {usual}, {degrees(low)} to {degrees(high)} can be flown.",
        low=low,
        high=high,
    )


def _aileron_throw(plane: Plane) -> Finding:
    if plane.design.wing.aileron is None:
        fin = plane.design.fin if plane.design.fin is not None else plane.design.stab
        return _throw_in(
            fin.up,
            (_needed_throw(fin.up, rudder_roll_rate(plane), RUDDER_ROLL_RATE), RUDDER_THROW),
            "Rudder",
            f"{degrees(RUDDER_ROLL_RATE, digits=0)}/s of roll sets the least, 20 to 25 deg is "
            "usual to start with",
        )
    up = plane.design.wing.aileron.up
    return _throw_in(
        up,
        (_needed_throw(up, plane.aero.roll_rate, ROLL_RATE), AILERON_THROW),
        "Up aileron",
        f"{degrees(ROLL_RATE, digits=0)}/s of roll sets the least, 12 to 15 deg is usual to start "
        "with",
    )


def _needed_throw(throw: float, rate: float, least: float) -> float:
    """Throw that rolls at the least rate, in proportion."""
    return max(throw * least / max(rate, 1e-3), LEAST_THROW)


def _roll_throw_levers(plane: Plane, finding: Finding) -> tuple[Lever, ...]:
    del finding
    if plane.design.wing.aileron is not None:
        return listed(_throws(plane, "wing.aileron", "aileron throw", to=math.radians(14.0)))
    table = "fin" if plane.design.fin is not None else "stab"
    return listed(_throws(plane, table, "rudder throw", to=math.radians(22.0)))


def _servo_torque(plane: Plane) -> Finding:
    loads = plane.strength.servo_loads
    if not loads:
        return Finding(None, "The design names no servos, so none can be judged.")
    role = max(loads, key=lambda name: loads[name])
    return Finding(
        loads[role],
        f"The {role} servo needs {percent(loads[role])} of its rated moment at top speed; up to "
        f"{percent(SERVO_SHARE)} leaves room for friction and a tired pack.",
        high=SERVO_SHARE,
    )


def _servo_levers(plane: Plane, finding: Finding) -> tuple[Lever, ...]:
    del finding
    loads = plane.strength.servo_loads
    role = max(loads, key=lambda name: loads[name])
    levers: list[Lever | None] = []
    for index, servo in enumerate(plane.design.servo):
        if servo.role != role or servo.stock not in plane.stock.servos:
            continue
        had = plane.stock.servos[servo.stock].torque.typical
        stronger = sorted(
            (entry for entry in plane.stock.servos.values() if entry.torque.typical > had),
            key=lambda entry: entry.torque.typical,
        )
        levers.append(
            choice_lever(
                plane, f"servo.{index}.stock", role, options=[entry.name for entry in stronger]
            )
        )
        steps = [
            Step(
                {f"servo.{index}.arm": value},
                f"{role} servo arm {say(plane, value, 'length')} instead of "
                f"{say(plane, servo.arm, 'length')}",
            )
            for value in grid(servo.arm, FIVE_MILLIMETRES, 0.001)
        ]
        levers.append(together("servo arm", steps))
    return listed(*levers)


CONTROL_RULES = (
    Rule(
        "elevator_authority",
        "Elevator at the stall",
        "rad",
        "at most the full up throw",
        "[ETKIN-REID] sec. 2.5, trim by linear derivatives",
        "elevator",
        _elevator,
        _elevator_levers,
    ),
    Rule(
        "roll_rate",
        "Roll rate",
        "rad/s",
        "at least 45 deg/s with ailerons, 25 deg/s by rudder",
        "common practice, no source; by rudder assumed",
        "ailerons, or rudder and dihedral",
        _roll_rate,
        _roll_levers,
    ),
    Rule(
        "adverse_yaw",
        "Ailerons yaw the wrong way",
        "rad",
        "sideslip by full aileron near the stall at most 10 deg away from the turn",
        "yaw balance with [ETKIN-REID] derivatives; limit assumed",
        "ailerons and fin",
        _adverse_yaw,
        _yaw_levers,
    ),
    Rule(
        "elevator_throw",
        "Elevator throw",
        "rad",
        "what holds the stall, at least 5 deg; at most 25 deg",
        "trim by linear derivatives; 5 and 25 deg common practice, no source",
        "elevator",
        _elevator_throw,
        _throw_levers,
    ),
    Rule(
        "roll_throw",
        "Aileron throw, or rudder throw without ailerons",
        "rad",
        "what the least roll rate asks for, at least 5 deg; aileron at most 25, rudder 40 deg",
        "roll balance; 5, 25 and 40 deg common practice, no source",
        "ailerons or rudder",
        _aileron_throw,
        _roll_throw_levers,
    ),
    Rule(
        "servo_torque",
        "Servo moment",
        "-",
        "at most 60 % of the rated moment at top speed",
        "common practice, no source",
        "servos",
        _servo_torque,
        _servo_levers,
    ),
)
