"""Checks of stall, launch and wind."""

from __future__ import annotations

from typing import TYPE_CHECKING

from foamwright.checks.judge import Finding, Rule
from foamwright.checks.levers import Lever, Step, angle_lever, grid, listed, together
from foamwright.checks.power_levers import diameter_lever
from foamwright.checks.say import percent, say
from foamwright.checks.shape_levers import (
    board_mass_lever,
    capacity_lever,
    wing_chord_lever,
    wing_span_lever,
)

if TYPE_CHECKING:
    from foamwright.plane import Plane

STALL_LIMIT = {"beginner": 7.0, "returning": 8.5, "experienced": 10.5}  # m/s, common practice
STALL_PLACE = 0.65  # of the half span: where the stall may begin; common practice, no source
LAUNCH_SHARE = 0.8  # of the throw height that the launch may use up; assumed
WIND_SHARE = {"beginner": 0.35, "returning": 0.4, "experienced": 0.5}  # of trim speed, practice
RUN_UP = 2.0  # m/s gained by a few running steps; common practice, no source


def _stall_speed(plane: Plane) -> Finding:
    aero = plane.aero
    limit = STALL_LIMIT[plane.design.pilot.level]
    spread = aero.uncertainty.get("stall_speed")
    give = f" (give or take {say(plane, spread, 'speed')})" if spread else ""
    return Finding(
        aero.stall_speed,
        f"It stalls at {say(plane, aero.stall_speed, 'speed')}{give} with a largest lift "
        f"coefficient of {aero.lift_max:.2f}; a {plane.design.pilot.level} pilot should stay below "
        f"{say(plane, limit, 'speed')}.",
        high=limit,
    )


def _more_wing(plane: Plane, finding: Finding) -> tuple[Lever, ...]:
    del finding
    return listed(
        wing_chord_lever(plane),
        wing_span_lever(plane),
        board_mass_lever(plane),
        capacity_lever(plane, bigger=False),
    )


def _stall_place(plane: Plane) -> Finding:
    aero = plane.aero
    place, more = aero.stall_start, ""
    if aero.aileron_stall_words:
        more = f" And {aero.aileron_stall_words}"
    if aero.aileron_drops and aero.aileron_stall_start is not None:
        place = max(place, aero.aileron_stall_start)
    return Finding(
        place,
        f"The wing stalls first at {percent(aero.stall_start)} of the half span "
        f"({aero.stall_words.rstrip('.')}); outside {percent(STALL_PLACE)} it drops a wing.{more}",
        high=STALL_PLACE,
    )


def _washout_levers(plane: Plane, finding: Finding) -> tuple[Lever, ...]:
    del finding
    last = len(plane.design.wing.panel) - 1
    tip = plane.design.wing.panel[last]
    steps: list[Step] = []
    if tip.tip_chord is not None:
        steps = [
            Step(
                {f"wing.panel.{last}.tip_chord": value},
                f"wing tip chord {say(plane, value, 'length')} instead of "
                f"{say(plane, tip.tip_chord, 'length')}",
            )
            for value in grid(tip.tip_chord, 1.6 * tip.tip_chord, 0.005)
        ]
    return listed(
        angle_lever(plane, f"wing.panel.{last}.washout", "washout", to=0.0873),
        together("wing tip chord", steps),
    )


def _launch(plane: Plane) -> Finding:
    launch = plane.flight.launch
    height = plane.design.pilot.throw_height
    assumed = "" if plane.design.pilot.throw_speed is not None else " (usual for its mass)"
    result = (
        f"it sinks {say(plane, launch.height_lost, 'distance')} before it flies"
        if launch.flies or launch.height_lost < height * 3.0
        else "it does not get flying before the ground"
    )
    return Finding(
        launch.height_lost,
        f"Thrown level at {say(plane, launch.throw_speed, 'speed')}{assumed} with three-quarter "
        f"throttle and no wind, {result}; it needs {say(plane, launch.flying_speed, 'speed')}, and "
        f"{say(plane, LAUNCH_SHARE * height, 'distance')} of the hand's "
        f"{say(plane, height, 'distance')} may be used up.",
        high=LAUNCH_SHARE * height,
    )


def _launch_levers(plane: Plane, finding: Finding) -> tuple[Lever, ...]:
    present = plane.flight.launch.throw_speed
    faster = together(
        "throw",
        [
            Step(
                {"pilot.throw_speed": value},
                f"throw at {say(plane, value, 'speed')} (a few running steps) instead of "
                f"{say(plane, present, 'speed')}",
            )
            for value in grid(present, present + RUN_UP, 0.5)
        ],
    )
    return listed(faster, diameter_lever(plane, bigger=True), *_more_wing(plane, finding))


def _wind(plane: Plane) -> Finding:
    level = plane.flight.performance.level_speed
    share = WIND_SHARE[plane.design.pilot.level]
    limit = share * level
    wind = plane.design.field.wind
    return Finding(
        wind,
        f"The usual wind at {plane.design.field.name} is {say(plane, wind, 'speed')}; a "
        f"{plane.design.pilot.level} pilot copes with {percent(share)} of the level speed of "
        f"{say(plane, level, 'speed')}, which is {say(plane, limit, 'speed')}.",
        high=limit,
    )


def _wind_levers(plane: Plane, finding: Finding) -> tuple[Lever, ...]:
    del finding
    present = plane.design.field.wind
    calmer = together(
        "wind",
        [
            Step(
                {"field.wind": value},
                f"fly in {say(plane, value, 'speed')} of wind instead of "
                f"{say(plane, present, 'speed')}",
            )
            for value in grid(present, 0.0, 0.5)
        ],
    )
    return listed(calmer, wing_span_lever(plane, longer=False))


STALL_RULES = (
    Rule(
        "stall_speed",
        "Stall speed",
        "m/s",
        "at most 7.0 (beginner), 8.5 (returning), 10.5 (experienced)",
        "common practice, no source",
        "wing",
        _stall_speed,
        _more_wing,
    ),
    Rule(
        "stall_place",
        "Where the wing stalls first",
        "-",
        "inside 65 % of the half span; with an aileron down too, where that comes much earlier",
        "common practice, no source",
        "wing, outer panels",
        _stall_place,
        _washout_levers,
    ),
    Rule(
        "launch",
        "Launch against a hand throw",
        "m",
        "height lost at most 80 % of the height of the hand",
        "point-mass path, docs/physics/flight.md; limit assumed",
        "hand launch",
        _launch,
        _launch_levers,
    ),
    Rule(
        "wind",
        "Wind at the field",
        "m/s",
        "at most 35 % (beginner), 40 % (returning), 50 % (experienced) of level speed",
        "common practice, no source",
        "field",
        _wind,
        _wind_levers,
    ),
)
