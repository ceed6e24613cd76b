"""Checks of loads that are not a pull-up: pushed, landed, thrown, fluttering, small fixings."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from foamwright.checks.judge import Finding, Rule
from foamwright.checks.levers import Lever
from foamwright.checks.side_levers import fixing_levers, grip_levers
from foamwright.checks.strength import family_finding, weakest
from foamwright.checks.strength_levers import (
    attachment_levers,
    joint_levers,
    spar_levers,
    stiffer_tail,
    tail_strength_levers,
    twist_levers,
)
from foamwright.strength.loads import negative_load_factor

if TYPE_CHECKING:
    from foamwright.plane import Plane

FLUTTER = 1.3  # over top speed: the rule is good to 30 %, [TN4197]


def _negative(plane: Plane) -> Finding:
    needed = negative_load_factor(plane.strength.needed_load_factor)
    return family_finding(plane, "negative", "the wing bent down", low=needed)


def _landing(plane: Plane) -> Finding:
    return family_finding(plane, "landing", "the plane in a firm landing", low=1.0)


def _launch_grip(plane: Plane) -> Finding:
    return family_finding(plane, "launch", "the fuselage in the hand", low=1.0)


def _fixings(plane: Plane) -> Finding:
    return family_finding(plane, "fixing", "a dowel, horn, hinge or strap", low=1.0)


def _flutter(plane: Plane) -> Finding:
    found = family_finding(plane, "flutter", "wing or tail in flutter", low=FLUTTER)
    return replace(found, why=f"{found.why} A loose hinge or a heavy trailing edge buzzes earlier.")


def _negative_levers(plane: Plane, finding: Finding) -> tuple[Lever, ...]:
    return (*joint_levers(plane, finding), *spar_levers(plane, finding))


def _landing_levers(plane: Plane, finding: Finding) -> tuple[Lever, ...]:
    failure = weakest(plane, "landing")
    if failure is not None and failure.id == "landing_fuselage":
        return tail_strength_levers(plane, finding)
    if failure is not None and failure.id == "landing_bands":
        return attachment_levers(plane, finding)
    return _negative_levers(plane, finding)


def _flutter_levers(plane: Plane, finding: Finding) -> tuple[Lever, ...]:
    failure = weakest(plane, "flutter")
    if failure is not None and failure.id.startswith("stab"):
        return stiffer_tail(plane, "stab")
    if failure is not None and failure.id.startswith("fin"):
        return stiffer_tail(plane, "fin") if plane.design.fin is not None else ()
    return twist_levers(plane, finding)


SIDE_RULES = (
    Rule(
        "flutter",
        "Flutter of wing and tail",
        "-",
        "at least 1.3 times the top speed by the rule for plates",
        "[TN4197], good to 30 %",
        "wing, stab and fin",
        _flutter,
        _flutter_levers,
    ),
    Rule(
        "negative_load",
        "Load factor of the wing bent down",
        "-",
        "at least 0.4 of what is asked of it right side up",
        "[CFR-23] 23.337(b), from memory",
        "wing spar and centre joint",
        _negative,
        _negative_levers,
    ),
    Rule(
        "landing_load",
        "Firm belly landing and skid",
        "-",
        "at least 1 (strength over load at 1.5 m/s of sink, 10 mm to stop)",
        "kinematics; sink speed and distances common practice, no source",
        "wing, saddle and rear fuselage",
        _landing,
        _landing_levers,
    ),
    Rule(
        "launch_grip",
        "Grip of the throwing hand",
        "-",
        "at least 1 (what the board bears over what the fingers squeeze)",
        "kinematics; friction from memory",
        "fuselage under the wing",
        _launch_grip,
        grip_levers,
    ),
    Rule(
        "fixings",
        "Dowels, horns, hinges and pack strap",
        "-",
        "at least 1 (strength over load)",
        "statics, docs/physics/strength.md",
        "dowels, horns, hinges, pack strap",
        _fixings,
        fixing_levers,
    ),
)
