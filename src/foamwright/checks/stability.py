"""Checks of stability and of the natural motions."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from foamwright.checks.judge import Finding, Rule
from foamwright.checks.levers import Lever, angle_lever, length_lever, listed
from foamwright.checks.say import degrees, percent, say
from foamwright.checks.shape_levers import (
    ballast_lever,
    dihedral_lever,
    pack_lever,
    tail_levers,
    wing_position_lever,
)
from foamwright.core.air import GRAVITY
from foamwright.flight.handling import equivalent_dihedral

if TYPE_CHECKING:
    from foamwright.flight.model import Mode
    from foamwright.plane import Plane

STATIC_MARGIN = (0.05, 0.20)  # of the mean chord; common practice, no source
TAIL_VOLUME = (0.35, 0.75)  # horizontal; common practice, lists from 0.3 to 0.7
LEAST_TAIL = 0.25  # horizontal volume below which no tail damps pitch well; common practice
FIN_VOLUME = (0.02, 0.06)  # vertical; common practice, lists from 0.02 to 0.05
WEATHERCOCK = 0.03  # 1/rad, yaw per sideslip; common practice, no source (lists 0.03 to 0.1)
LOW_WING = 1.33  # dihedral of a low over that of a high wing: 8 to 6 deg; common practice
DIHEDRAL_WITH_AILERONS = math.radians(6.0)  # most; 0 to 3 deg is usual; common practice
SPIRAL_DOUBLE = 4.0  # s, shortest time to double a bank; [MIL-F-8785C] level 3 of large planes
SPIRAL_NEUTRAL = 5.0  # Drela's parameter where the spiral is neutral
SHORT_PERIOD = 0.30  # damping ratio; [MIL-F-8785C] level 1
DUTCH_ROLL = 0.08  # damping ratio; [MIL-F-8785C] level 1
PHUGOID_SLOWEST = 8.0  # s, growing phugoid below which it cannot be flown; assumed


def _mode(plane: Plane, name: str) -> Mode:
    return next(mode for mode in plane.flight.modes if mode.name == name)


def _static_margin(plane: Plane) -> Finding:
    aero = plane.aero
    low, high = STATIC_MARGIN
    spread = aero.uncertainty.get("static_margin")
    give = f" (give or take {percent(spread)})" if spread else ""
    return Finding(
        aero.static_margin,
        f"The CG lies {percent(aero.static_margin)}{give} of the mean chord ahead of the neutral "
        f"point ({say(plane, aero.neutral_point_x, 'length')} behind the nose); {percent(low)} to "
        f"{percent(high)} is good, 12 % and more for a first flight.",
        low=low,
        high=high,
    )


def _margin_levers(plane: Plane, finding: Finding) -> tuple[Lever, ...]:
    more = finding.value is None or finding.value < 0.5 * sum(STATIC_MARGIN)
    return listed(
        pack_lever(plane, forward=more),
        *tail_levers(plane, "stab", bigger=more),
        wing_position_lever(plane, aft=more),
        ballast_lever(plane, nose=more),
    )


def _tail_volume(plane: Plane) -> Finding:
    aero, high = plane.aero, TAIL_VOLUME[1]
    value = aero.tail_volume_horizontal
    share = _needed_share(
        -aero.derivatives.pitch_alpha,
        -aero.tail_pitch_alpha,
        need=STATIC_MARGIN[0] * aero.lift_slope,
    )
    if share is None:
        return Finding(
            value,
            f"Stab area times arm over wing area times chord is {value:.2f}; "
            f"{TAIL_VOLUME[0]:.2f} to {high:.2f} is usual.",
            low=TAIL_VOLUME[0],
            high=high,
        )
    need = max(share * value, LEAST_TAIL)
    return Finding(
        value,
        f"Stab area times arm over wing area times chord is {value:.2f}; with this balance point "
        f"{percent(STATIC_MARGIN[0])} static margin asks for {need:.2f}, so the stab is "
        f"{_how_much(value, need)}. {TAIL_VOLUME[0]:.2f} to {high:.2f} is usual.",
        low=need,
        high=high,
    )


def _needed_share(whole: float, surface: float, *, need: float) -> float | None:
    """Size of a surface over its present one at which a derivative is just what is needed.

    The rest of the plane stays, the surface's part grows with its area.
    """
    return None if surface <= 0.0 else (need - (whole - surface)) / surface


def _how_much(value: float, need: float) -> str:
    """In words, such as "18 % too small"."""
    if value < need:
        return f"{percent(1.0 - value / need)} too small"
    return f"{percent(value / need - 1.0)} bigger than that"


def _tail_volume_levers(plane: Plane, finding: Finding) -> tuple[Lever, ...]:
    bigger = finding.value is None or finding.value < 0.5 * sum(TAIL_VOLUME)
    return listed(*tail_levers(plane, "stab", bigger=bigger))


def _fin_volume(plane: Plane) -> Finding:
    aero, high = plane.aero, FIN_VOLUME[1]
    value = aero.tail_volume_vertical
    share = _needed_share(aero.derivatives.yaw_beta, aero.fin_yaw_beta, need=WEATHERCOCK)
    if share is None:
        return Finding(
            value,
            f"Fin area times arm over wing area times span is {value:.3f}; {FIN_VOLUME[0]:.2f} to "
            f"{high:.2f} is usual.",
            low=FIN_VOLUME[0],
            high=high,
        )
    need = max(share * value, 0.5 * FIN_VOLUME[0])
    return Finding(
        value,
        f"Fin area times arm over wing area times span is {value:.3f}; to follow the wind against "
        f"the fuselage's pull it takes {need:.3f}, so the fin is {_how_much(value, need)}. "
        f"{FIN_VOLUME[0]:.2f} to {high:.2f} is usual.",
        low=need,
        high=high,
    )


def _fin_levers(plane: Plane, finding: Finding) -> tuple[Lever, ...]:
    bigger = finding.value is None or finding.value < 0.5 * sum(FIN_VOLUME)
    return _bigger_fin(plane, bigger=bigger)


def _bigger_fin(plane: Plane, *, bigger: bool) -> tuple[Lever, ...]:
    if plane.design.fin is not None:
        return listed(*tail_levers(plane, "fin", bigger=bigger))
    more = math.radians(50.0) if bigger else math.radians(20.0)
    return listed(
        angle_lever(plane, "stab.dihedral", "V angle of each half", to=more),
        *tail_levers(plane, "stab", bigger=bigger),
    )


def _dihedral(plane: Plane) -> Finding:
    value = equivalent_dihedral(plane.airframe.wing)
    if plane.design.wing.aileron is not None:
        return Finding(
            value,
            f"It has ailerons; its dihedral works like a plain V of {degrees(value)}, and more "
            "than "
            f"{degrees(DIHEDRAL_WITH_AILERONS)} only fights them.",
            high=DIHEDRAL_WITH_AILERONS,
        )
    need = _dihedral_needed(plane)
    return Finding(
        value,
        f"Without ailerons the rudder must roll it and nothing else levels it: the dihedral works "
        f"like a plain V of {degrees(value)}. With this tail arm, span and level speed a "
        f"{plane.design.wing.place} wing rights itself from {degrees(need)} on (spiral parameter "
        f"{SPIRAL_NEUTRAL:.0f}); 6 to 8 deg is usual.",
        low=need,
    )


def _dihedral_needed(plane: Plane) -> float:
    """Dihedral at which the spiral is neutral: B = 5, more on a low wing."""
    aero, fin = plane.aero, plane.airframe.fin
    tail = fin if fin is not None else plane.airframe.stab
    arm = max(tail.quarter_chord_x - plane.balance.cg[0], 0.1 * aero.span)
    speed = plane.flight.performance.level_speed
    pressure = 0.5 * plane.air.density * speed**2
    lift = plane.balance.all_up_mass * GRAVITY / (pressure * aero.wing_area)
    need = math.radians(SPIRAL_NEUTRAL * lift * aero.span / arm)
    return need if plane.design.wing.place == "high" else LOW_WING * need


def _dihedral_levers(plane: Plane, finding: Finding) -> tuple[Lever, ...]:
    del finding
    return listed(dihedral_lever(plane, more=plane.design.wing.aileron is None))


def _spiral(plane: Plane) -> Finding:
    mode, value = _mode(plane, "spiral"), plane.flight.spiral_parameter
    limit = math.log(2.0) / SPIRAL_DOUBLE
    if mode.real > 0.0:
        motion = f"a bank left alone doubles in {-mode.time_to_half:.1f} s"
    else:
        motion = f"a bank left alone halves in {mode.time_to_half:.1f} s"
    return Finding(
        mode.real,
        f"At {say(plane, plane.flight.performance.level_speed, 'speed')} {motion}; it must not "
        f"double faster than in {SPIRAL_DOUBLE:.0f} s. The spiral parameter is {value:.1f} "
        f"({SPIRAL_NEUTRAL:.0f} is neutral, more levels itself).",
        high=limit,
    )


def _spiral_levers(plane: Plane, finding: Finding) -> tuple[Lever, ...]:
    del finding
    return listed(dihedral_lever(plane, more=True), *_bigger_fin(plane, bigger=False))


def _swing(mode: Mode) -> str:
    if mode.period is None:
        return "does not swing"
    return f"swings once in {mode.period:.1f} s"


def _short_period(plane: Plane) -> Finding:
    mode = _mode(plane, "short period")
    return Finding(
        mode.damping,
        f"After a gust the nose {_swing(mode)} with damping ratio {mode.damping:.2f}; at least "
        f"{SHORT_PERIOD:.2f} ({mode.feel}).",
        low=SHORT_PERIOD,
    )


def _pitch_damping_levers(plane: Plane, finding: Finding) -> tuple[Lever, ...]:
    runaway = finding.value is not None and finding.value < 0.0
    return listed(
        pack_lever(plane, forward=runaway),
        *tail_levers(plane, "stab", bigger=True),
        length_lever(
            plane, "stab.position", "stab leading edge at", to=plane.design.stab.position + 0.2
        ),
    )


def _phugoid(plane: Plane) -> Finding:
    mode = _mode(plane, "phugoid")
    limit = math.log(2.0) / PHUGOID_SLOWEST
    grows = mode.real > 0.0
    fate = (
        f"doubles in {-mode.time_to_half:.0f} s"
        if grows
        else f"halves in {mode.time_to_half:.0f} s"
    )
    return Finding(
        mode.real,
        f"Left alone, the slow wave of speed and height {_swing(mode)} and {fate} (damping ratio "
        f"{mode.damping:.2f}); it must not double faster than in {PHUGOID_SLOWEST:.0f} s.",
        high=limit,
    )


def _phugoid_levers(plane: Plane, finding: Finding) -> tuple[Lever, ...]:
    del finding
    return listed(
        pack_lever(plane, forward=True),
        *tail_levers(plane, "stab", bigger=True),
        angle_lever(plane, "motor.down_thrust", "down thrust", to=math.radians(4.0)),
    )


def _dutch_roll(plane: Plane) -> Finding:
    mode = _mode(plane, "Dutch roll")
    return Finding(
        mode.damping,
        f"After a kick the tail {_swing(mode)} with damping ratio {mode.damping:.2f}; at least "
        f"{DUTCH_ROLL:.2f} ({mode.feel}).",
        low=DUTCH_ROLL,
    )


def _dutch_levers(plane: Plane, finding: Finding) -> tuple[Lever, ...]:
    del finding
    return listed(*_bigger_fin(plane, bigger=True), dihedral_lever(plane, more=False))


STABILITY_RULES = (
    Rule(
        "static_margin",
        "Static margin",
        "-",
        "5 to 20 % of the mean chord",
        "common practice, no source; neutral point [ETKIN-REID] sec. 2.3",
        "balance point",
        _static_margin,
        _margin_levers,
    ),
    Rule(
        "tail_volume_horizontal",
        "Stab size and arm (horizontal tail volume)",
        "-",
        "what a static margin of 5 % asks for, at least 0.25; at most 0.75",
        "moment balance [ETKIN-REID] sec. 2.3; 0.25 and 0.75 common practice (lists 0.3 to 0.7)",
        "stab",
        _tail_volume,
        _tail_volume_levers,
    ),
    Rule(
        "tail_volume_vertical",
        "Fin size and arm (vertical tail volume)",
        "-",
        "what a yaw stiffness of 0.03 per radian asks for, at least 0.01; at most 0.06",
        "yaw balance; 0.03 and 0.06 common practice, no source (lists give volumes 0.02 to 0.05)",
        "fin",
        _fin_volume,
        _fin_levers,
    ),
    Rule(
        "dihedral",
        "Dihedral or ailerons to roll with",
        "rad",
        "without ailerons a neutral spiral (parameter 5), a third more on a low wing; with them "
        "at most 6 deg",
        "[DRELA-SPIRAL], from memory; low wing and 6 deg common practice",
        "wing",
        _dihedral,
        _dihedral_levers,
    ),
    Rule(
        "spiral",
        "Spiral",
        "1/s",
        "a bank doubles in no less than 4 s",
        "[MIL-F-8785C] par. 3.3.1.3, level 3, from memory; parameter [DRELA-SPIRAL]",
        "wing dihedral and fin",
        _spiral,
        _spiral_levers,
    ),
    Rule(
        "short_period",
        "Pitch damping (short period)",
        "-",
        "damping ratio at least 0.30",
        "[MIL-F-8785C] par. 3.2.2.1.2, level 1, from memory",
        "stab",
        _short_period,
        _pitch_damping_levers,
    ),
    Rule(
        "phugoid",
        "Slow waves (phugoid)",
        "1/s",
        "doubles in no less than 8 s",
        "[MIL-F-8785C] par. 3.2.1.2 asks 55 s at level 3, from memory; 8 s assumed",
        "whole plane",
        _phugoid,
        _phugoid_levers,
    ),
    Rule(
        "dutch_roll",
        "Tail wagging (Dutch roll)",
        "-",
        "damping ratio at least 0.08",
        "[MIL-F-8785C] par. 3.3.1.1, level 1, from memory",
        "fin",
        _dutch_roll,
        _dutch_levers,
    ),
)
