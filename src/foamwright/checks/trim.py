"""Checks of trim and thrust line."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from foamwright.checks.judge import Finding, Rule
from foamwright.checks.levers import Lever, angle_lever, length_lever, listed
from foamwright.checks.say import degrees, say
from foamwright.checks.shape_levers import pack_lever

if TYPE_CHECKING:
    from foamwright.plane import Plane

TRIM_SHARE = 0.5  # of the throw used up by trim at level speed; assumed
THRUST_SHARE = 0.4  # of the throw needed to hold full thrust; assumed
DOWN_THRUST = (0.0, math.radians(5.0))  # common practice, no source: 0 to 3, rudder-only to 5 deg
RIGHT_THRUST = (0.0, math.radians(4.0))  # common practice, no source: 0 to 3 deg is usual
USUAL_THRUST_ANGLE = math.radians(2.0)  # down and right; common practice, no source


def _trim(plane: Plane) -> Finding:
    value, stab = plane.aero.trim_elevator, plane.design.stab
    low, high = -TRIM_SHARE * stab.up, TRIM_SHARE * stab.down
    way = "up" if value < 0.0 else "down"
    return Finding(
        value,
        f"Level flight at {say(plane, plane.aero.trim_speed, 'speed')} without power takes "
        f"{degrees(abs(value))} of {way} elevator; more than half the throw "
        f"({degrees(-low)} up, {degrees(high)} down) leaves too little to fly with.",
        low=low,
        high=high,
    )


def _trim_levers(plane: Plane, finding: Finding) -> tuple[Lever, ...]:
    stab = plane.design.stab
    too_much_up = finding.value is not None and finding.value < 0.0
    # too much up elevator is mended by a stab set more nose-down (trailing edge up)
    shift = math.radians(-5.0 if too_much_up else 5.0)
    return listed(
        angle_lever(plane, "stab.incidence", "stab incidence", to=stab.incidence + shift),
        angle_lever(
            plane, "wing.incidence", "wing incidence", to=plane.design.wing.incidence - shift
        ),
        pack_lever(plane, forward=not too_much_up),
    )


def _thrust_line(plane: Plane) -> Finding:
    aero, flight = plane.aero, plane.flight
    limit = THRUST_SHARE * min(plane.design.stab.up, plane.design.stab.down)
    powered = flight.power_trim
    if powered is None:
        held = abs(flight.thrust_pitch / aero.derivatives.pitch_elevator)
        wanted = ""
    else:
        held = abs(powered.elevator_change)
        wanted = (
            f"; {degrees(powered.down_thrust)} of down thrust would leave the trim alone "
            f"(slipstream on the tail counted)"
        )
    way = "up" if _nose_up(plane) else "down"
    return Finding(
        held,
        f"Full thrust at level speed pitches the nose {way}; {degrees(held)} of elevator holds it, "
        f"and up to {degrees(limit)} is comfortable{wanted}.",
        high=limit,
    )


def _nose_up(plane: Plane) -> bool:
    """Whether full power lifts the nose: down elevator holds it."""
    powered = plane.flight.power_trim
    return plane.flight.thrust_pitch > 0.0 if powered is None else powered.elevator_change > 0.0


def _thrust_line_levers(plane: Plane, finding: Finding) -> tuple[Lever, ...]:
    del finding
    nose_up = _nose_up(plane)
    height = plane.design.motor.height
    end = math.radians(5.0) if nose_up else 0.0
    return listed(
        angle_lever(plane, "motor.down_thrust", "down thrust", to=end),
        length_lever(
            plane, "motor.height", "thrust line at", to=height + (0.04 if nose_up else -0.04)
        ),
    )


def _angle_in(value: float, limits: tuple[float, float], name: str, reason: str) -> Finding:
    low, high = limits
    return Finding(
        value,
        f"{name} is {degrees(value)}; {degrees(low, digits=0)} to {degrees(high, digits=0)} is "
        f"usual, {reason}.",
        low=low - math.radians(0.5),
        high=high,
    )


def _down_thrust(plane: Plane) -> Finding:
    return _angle_in(
        plane.design.motor.down_thrust,
        DOWN_THRUST,
        "Down thrust",
        "a little keeps the nose down when power comes on",
    )


def _right_thrust(plane: Plane) -> Finding:
    return _angle_in(
        plane.design.motor.right_thrust,
        RIGHT_THRUST,
        "Right thrust",
        "a little stops the left turn under power" + _turn_at_full(plane),
    )


def _turn_at_full(plane: Plane) -> str:
    """What full power would want, as the model finds it, +-2 degrees."""
    powered = plane.flight.power_trim
    if powered is None:
        return ""
    return f" (at full power {degrees(powered.right_thrust)} would cancel it, give or take 2 deg)"


def _down_levers(plane: Plane, finding: Finding) -> tuple[Lever, ...]:
    del finding
    return listed(angle_lever(plane, "motor.down_thrust", "down thrust", to=USUAL_THRUST_ANGLE))


def _right_levers(plane: Plane, finding: Finding) -> tuple[Lever, ...]:
    del finding
    return listed(angle_lever(plane, "motor.right_thrust", "right thrust", to=USUAL_THRUST_ANGLE))


TRIM_RULES = (
    Rule(
        "trim_elevator",
        "Elevator in level flight",
        "rad",
        "at most half the throw either way",
        "assumed",
        "stab",
        _trim,
        _trim_levers,
    ),
    Rule(
        "thrust_line",
        "Pitch with power (thrust line)",
        "rad",
        "elevator to hold full thrust at most 40 % of the throw",
        "moment balance with slipstream on the tail; limit assumed",
        "motor",
        _thrust_line,
        _thrust_line_levers,
    ),
    Rule(
        "down_thrust",
        "Down thrust",
        "rad",
        "0 to 5 deg, half a degree of upthrust allowed for cutting",
        "common practice, no source",
        "firewall",
        _down_thrust,
        _down_levers,
    ),
    Rule(
        "right_thrust",
        "Right thrust",
        "rad",
        "0 to 4 deg, half a degree of left thrust allowed for cutting",
        "common practice, no source",
        "firewall",
        _right_thrust,
        _right_levers,
    ),
)
