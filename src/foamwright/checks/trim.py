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
HOLD_SHARE = 0.15  # of the throw that may hold what a thrust angle leaves at full power; assumed
USUAL_DOWN = math.radians(5.0)  # common practice, no source: 0 to 3, rudder-only to 5 deg
USUAL_RIGHT = math.radians(4.0)  # common practice, no source: 0 to 3 deg is usual
CUT = math.radians(0.5)  # to which a firewall can be cut; common practice, no source


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


def _angle_near(
    cut: float, wanted: float, *, band: tuple[float, float], name: str, reason: str
) -> Finding:
    """A thrust angle against the one that leaves the trim alone at full power."""
    spread, held = band
    room = spread + held + CUT
    return Finding(
        cut,
        f"{name} is {degrees(cut)}. {reason} {degrees(wanted)} (give or take {degrees(spread)}), "
        f"and 15 % of the throw holds {degrees(held)} more or less; 0 to 3 deg is usual.",
        low=wanted - room,
        high=wanted + room,
    )


def _usual(cut: float, name: str, most: float) -> Finding:
    """Without the propeller's figures there is only what is usual."""
    return Finding(
        cut,
        f"{name} is {degrees(cut)}; the propeller's pull is not known, 0 to "
        f"{degrees(most, digits=0)} is usual.",
        low=-CUT,
        high=most,
    )


def _down_thrust(plane: Plane) -> Finding:
    cut, powered = plane.design.motor.down_thrust, plane.flight.power_trim
    if powered is None:
        return _usual(cut, "Down thrust", USUAL_DOWN)
    throw = HOLD_SHARE * min(plane.design.stab.up, plane.design.stab.down)
    return _angle_near(
        cut,
        powered.down_thrust,
        band=(powered.down_spread, throw * powered.down_per_elevator),
        name="Down thrust",
        reason="Full power at level speed leaves the pitch trim alone with",
    )


def _right_thrust(plane: Plane) -> Finding:
    cut, powered = plane.design.motor.right_thrust, plane.flight.power_trim
    if powered is None:
        return _usual(cut, "Right thrust", USUAL_RIGHT)
    fin = plane.design.fin if plane.design.fin is not None else plane.design.stab
    throw = HOLD_SHARE * min(fin.up, fin.down)
    return _angle_near(
        cut,
        powered.right_thrust,
        band=(powered.right_spread, throw * powered.right_per_rudder),
        name="Right thrust",
        reason="Blades, swirl on the fin and torque at full power are cancelled by",
    )


def _down_levers(plane: Plane, finding: Finding) -> tuple[Lever, ...]:
    del finding
    powered = plane.flight.power_trim
    wanted = powered.down_thrust if powered is not None else 0.0
    return listed(angle_lever(plane, "motor.down_thrust", "down thrust", to=wanted))


def _right_levers(plane: Plane, finding: Finding) -> tuple[Lever, ...]:
    del finding
    powered = plane.flight.power_trim
    wanted = powered.right_thrust if powered is not None else 0.0
    return listed(angle_lever(plane, "motor.right_thrust", "right thrust", to=wanted))


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
        "what leaves the pitch trim alone at full power, give or take what the model cannot know, "
        "15 % of the elevator's throw and 0.5 deg of cutting",
        "moment balance with slipstream on the tail; share of the throw assumed",
        "firewall",
        _down_thrust,
        _down_levers,
    ),
    Rule(
        "right_thrust",
        "Right thrust",
        "rad",
        "what cancels blades, swirl and torque at full power, give or take what the model cannot "
        "know, 15 % of the rudder's throw and 0.5 deg of cutting",
        "moment balance with swirl and torque; share of the throw assumed",
        "firewall",
        _right_thrust,
        _right_levers,
    ),
)
