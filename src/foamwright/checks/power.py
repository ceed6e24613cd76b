"""Checks of the power train and of level flight, climb and endurance."""

from __future__ import annotations

from typing import TYPE_CHECKING

from foamwright.checks.judge import Finding, Rule
from foamwright.checks.levers import Lever, listed
from foamwright.checks.power_levers import (
    cells_lever,
    controller_lever,
    diameter_lever,
    less_current,
    more_thrust,
    motor_lever,
    pitch_lever,
)
from foamwright.checks.say import degrees, minutes, percent, say
from foamwright.checks.shape_levers import board_mass_lever, capacity_lever

if TYPE_CHECKING:
    from foamwright.plane import Plane

HAND_LAUNCH_THRUST = 0.6  # thrust over weight; common practice, no source
ROLLING_THRUST = 0.35  # same, with an undercarriage; common practice, no source
CONTROLLER_SHARE = 0.8  # of the rating on the label; common practice, no source
PITCH_SPEED = (2.0, 4.5)  # over stall speed; 2.5 to 3 is usual; common practice, no source
CLIMB = 1.5  # m/s; assumed, clears a 10 m tree in 60 m from a start at 9 m/s
THROTTLE = 0.65  # stick in level flight; common practice, no source
ENDURANCE = 300.0  # s; common practice, no source
FIRST_TIMER = 0.7  # of the capacity for a first flight; common practice, no source
USED = 0.8  # of the capacity, in endurance
TIMER = 180.0  # s, shortest first flight worth the walk; assumed


def _static_thrust(plane: Plane) -> Finding:
    ratio = plane.flight.performance.thrust_weight
    wheels = plane.design.gear is not None
    limit = ROLLING_THRUST if wheels else HAND_LAUNCH_THRUST
    band = plane.power.static_thrust_band
    start = "a rolling start" if wheels else "a hand launch"
    return Finding(
        ratio,
        f"Static thrust is {say(plane, plane.power.static_thrust, 'thrust')} "
        f"({say(plane, band.low, 'thrust')} to {say(plane, band.high, 'thrust')}), "
        f"{ratio:.2f} of the weight; {start} wants at least {limit:.2f}.",
        low=limit,
    )


def _thrust_levers(plane: Plane, finding: Finding) -> tuple[Lever, ...]:
    del finding
    return (*more_thrust(plane), *listed(board_mass_lever(plane)))


def _motor_current(plane: Plane) -> Finding:
    band, motor = plane.power.full_throttle_current_band, plane.train.motor
    return Finding(
        plane.power.full_throttle_current,
        f"Full throttle on the bench draws {plane.power.full_throttle_current:.1f} A "
        f"({band.low:.1f} to {band.high:.1f} A); the motor stands "
        f"{motor.max_current.typical:.0f} A.",
        high=motor.max_current.typical,
    )


def _motor_levers(plane: Plane, finding: Finding) -> tuple[Lever, ...]:
    del finding
    return (*listed(motor_lever(plane)), *less_current(plane))


def _controller_current(plane: Plane) -> Finding:
    rating = plane.train.controller_current
    return Finding(
        plane.power.full_throttle_current,
        f"Full throttle draws {plane.power.full_throttle_current:.1f} A; "
        f"{percent(CONTROLLER_SHARE)} "
        f"of the controller's {rating:.0f} A is {CONTROLLER_SHARE * rating:.1f} A.",
        high=CONTROLLER_SHARE * rating,
    )


def _controller_levers(plane: Plane, finding: Finding) -> tuple[Lever, ...]:
    del finding
    return (*listed(controller_lever(plane)), *less_current(plane))


def _pack_current(plane: Plane) -> Finding:
    limit = plane.train.pack.max_current.typical
    rating = plane.design.pack.discharge_rating
    hours = plane.train.pack.capacity / 3600.0
    because = (
        f"{limit / hours:.0f} C, since no discharge rating is stated"
        if rating is None
        else f"{limit / hours:.0f} C of the {rating:.0f} C on the label are believed"
    )
    return Finding(
        plane.power.full_throttle_current,
        f"Full throttle draws {plane.power.full_throttle_current:.1f} A; the pack gives "
        f"{limit:.0f} A without harm ({because}).",
        high=limit,
    )


def _pack_levers(plane: Plane, finding: Finding) -> tuple[Lever, ...]:
    del finding
    return (*listed(capacity_lever(plane, bigger=True)), *less_current(plane))


def _pitch_speed(plane: Plane) -> Finding:
    ratio = plane.flight.performance.pitch_speed_ratio
    low, high = PITCH_SPEED
    return Finding(
        ratio,
        f"Pitch times revolutions gives {say(plane, plane.power.pitch_speed, 'speed')}, "
        f"{ratio:.1f} times the stall speed; 2.5 to 3 is usual, {low:.1f} to {high:.1f} works.",
        low=low,
        high=high,
    )


def _pitch_levers(plane: Plane, finding: Finding) -> tuple[Lever, ...]:
    more = finding.value is None or finding.value < 0.5 * sum(PITCH_SPEED)
    return listed(
        pitch_lever(plane, more=more),
        cells_lever(plane, more=more),
        diameter_lever(plane, bigger=not more),
    )


def _climb(plane: Plane) -> Finding:
    performance = plane.flight.performance
    return Finding(
        performance.climb_rate,
        f"Best climb is {say(plane, performance.climb_rate, 'speed')} at "
        f"{say(plane, performance.climb_speed, 'speed')}, steepest path "
        f"{degrees(performance.climb_angle, digits=0)}; at least {say(plane, CLIMB, 'speed')} "
        "clears the trees.",
        low=CLIMB,
    )


def _level_throttle(plane: Plane) -> Finding:
    performance = plane.flight.performance
    speed = say(plane, performance.level_speed, "speed")
    if performance.level_throttle is None:
        return Finding(
            None,
            f"Full throttle does not hold level flight at {speed} half way through the pack.",
            high=THROTTLE,
            impossible=True,
        )
    return Finding(
        performance.level_throttle,
        f"Level flight at {speed} takes {percent(performance.level_throttle)} of the stick and "
        f"{performance.level_current:.1f} A; a third to a half is usual, above {percent(THROTTLE)} "
        "little is left to climb with.",
        high=THROTTLE,
    )


def _endurance(plane: Plane) -> Finding:
    performance = plane.flight.performance
    return Finding(
        performance.endurance,
        f"Level flight at {performance.level_current:.1f} A lasts "
        f"{minutes(performance.endurance)} with 20 % of the pack kept in reserve; "
        f"{minutes(ENDURANCE)} makes a flight.",
        low=ENDURANCE,
    )


def _endurance_levers(plane: Plane, finding: Finding) -> tuple[Lever, ...]:
    del finding
    return listed(
        capacity_lever(plane, bigger=True),
        pitch_lever(plane, more=True),
        diameter_lever(plane, bigger=True),
        board_mass_lever(plane),
    )


def _timer(plane: Plane) -> Finding:
    time = plane.flight.performance.endurance * FIRST_TIMER / USED
    return Finding(
        time,
        f"Set the timer of the first flight to {minutes(time)} ({percent(FIRST_TIMER)} of the pack "
        "in level flight; full throttle takes less); then weigh what the charger puts back.",
        low=TIMER,
    )


POWER_RULES = (
    Rule(
        "static_thrust",
        "Static thrust",
        "-",
        "at least 0.60 of the weight for a hand launch, 0.35 with wheels",
        "common practice, no source",
        "propeller",
        _static_thrust,
        _thrust_levers,
    ),
    Rule(
        "motor_current",
        "Current against the motor",
        "A",
        "at most the motor's continuous limit",
        "stock table of motors, common practice",
        "motor",
        _motor_current,
        _motor_levers,
    ),
    Rule(
        "controller_current",
        "Current against the speed controller",
        "A",
        "at most 80 % of its rating",
        "common practice, no source",
        "speed controller",
        _controller_current,
        _controller_levers,
    ),
    Rule(
        "pack_current",
        "Current against the pack",
        "A",
        "at most 65 % of the discharge rating on the label, 20 C where none is stated",
        "common practice, no source",
        "pack",
        _pack_current,
        _pack_levers,
    ),
    Rule(
        "pitch_speed",
        "Pitch speed against stall speed",
        "-",
        "2.0 to 4.5 times the stall speed",
        "common practice, no source",
        "propeller",
        _pitch_speed,
        _pitch_levers,
    ),
    Rule(
        "climb",
        "Climb",
        "m/s",
        "at least 1.5",
        "force balance, docs/physics/flight.md; limit assumed",
        "whole plane",
        _climb,
        _thrust_levers,
    ),
    Rule(
        "level_throttle",
        "Throttle in level flight",
        "-",
        "at most 0.65 of the stick",
        "common practice, no source",
        "throttle stick",
        _level_throttle,
        _thrust_levers,
    ),
    Rule(
        "endurance",
        "Flying time",
        "s",
        "at least 300",
        "common practice, no source",
        "pack",
        _endurance,
        _endurance_levers,
    ),
    Rule(
        "first_timer",
        "Timer of the first flight",
        "s",
        "at least 180",
        "70 % of the pack, common practice, no source; limit assumed",
        "transmitter timer",
        _timer,
        _endurance_levers,
    ),
)
