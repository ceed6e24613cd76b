"""Checks of mass and balance."""

from __future__ import annotations

from typing import TYPE_CHECKING

from foamwright.checks.judge import Finding, Rule
from foamwright.checks.levers import Lever, length_lever, listed
from foamwright.checks.say import loading, percent, say
from foamwright.checks.shape_levers import (
    ballast_lever,
    board_mass_lever,
    capacity_lever,
    pack_lever,
    tail_levers,
    wing_chord_lever,
    wing_position_lever,
    wing_span_lever,
)
from foamwright.checks.side_balance import side_balance, side_levers
from foamwright.checks.stall import STALL_LIMIT

if TYPE_CHECKING:
    from foamwright.plane import Plane

WING_LOADING = {"beginner": 3.0, "returning": 4.0, "experienced": 6.0}  # kg/m², common practice
CUBE_LOADING = {"beginner": 7.0, "returning": 10.0, "experienced": 13.0}  # kg/m³, common practice
FIRST_MARGIN = (0.12, 0.20)  # static margin for a first flight; common practice, no source


def _all_up_mass(plane: Plane) -> Finding:
    balance, aero = plane.balance, plane.aero
    limit = STALL_LIMIT[plane.design.pilot.level]
    carried = balance.all_up_mass * (limit / aero.stall_speed) ** 2
    low, high = balance.mass_band.low, balance.mass_band.high
    return Finding(
        balance.all_up_mass,
        f"It weighs {say(plane, balance.all_up_mass, 'mass')} with the pack in "
        f"({say(plane, low, 'mass')} to {say(plane, high, 'mass')} by the scatter of board and "
        f"glue); the wing carries {say(plane, carried, 'mass')} before it stalls faster than "
        f"{say(plane, limit, 'speed')}.",
        high=carried,
    )


def _wing_loading(plane: Plane) -> Finding:
    value = plane.balance.all_up_mass / plane.aero.wing_area
    limit = WING_LOADING[plane.design.pilot.level]
    return Finding(
        value,
        f"{loading(plane, value)} on the wing; up to {loading(plane, limit)} suits a "
        f"{plane.design.pilot.level} pilot.",
        high=limit,
    )


def _cube_loading(plane: Plane) -> Finding:
    value = plane.balance.all_up_mass / plane.aero.wing_area**1.5
    limit = CUBE_LOADING[plane.design.pilot.level]
    # 1 oz/ft³ is 1.001 kg/m³: the number is the same in both.
    shown = "oz/ft³" if plane.design.units == "inch" else "kg/m³, the same in oz/ft³"
    return Finding(
        value,
        f"Mass over area to the power 1.5 is {value:.1f} ({shown}); up to "
        f"{limit:.0f} suits a {plane.design.pilot.level} pilot. It knows nothing of Reynolds "
        "number: small planes stall earlier than it says.",
        high=limit,
    )


def _lighter(plane: Plane, finding: Finding) -> tuple[Lever, ...]:
    del finding
    return listed(
        wing_span_lever(plane),
        wing_chord_lever(plane),
        board_mass_lever(plane),
        capacity_lever(plane, bigger=False),
    )


def _cg(plane: Plane) -> Finding:
    aero, cg = plane.aero, plane.balance.cg[0]
    chord, lead = aero.mean_chord, aero.mean_chord_x
    return Finding(
        cg,
        f"It balances {say(plane, cg, 'length')} behind the nose, at "
        f"{percent((cg - lead) / chord)} "
        f"of the mean chord; allowed is {say(plane, aero.cg_forward, 'length')} (full elevator "
        "just "
        f"holds the stall) to {say(plane, aero.cg_aft, 'length')} (static margin 5 %).",
        low=aero.cg_forward,
        high=aero.cg_aft,
    )


def _balance_levers(plane: Plane, finding: Finding) -> tuple[Lever, ...]:
    forward = _too_far_aft(finding)
    return listed(
        pack_lever(plane, forward=forward),
        wing_position_lever(plane, aft=forward),
        *(tail_levers(plane, "stab", bigger=True)),
        capacity_lever(plane, bigger=forward),
        ballast_lever(plane, nose=forward),
    )


def _too_far_aft(finding: Finding) -> bool:
    if finding.value is None or finding.low is None or finding.high is None:
        return True
    return finding.value > 0.5 * (finding.low + finding.high)


def _pack_reach(plane: Plane) -> Finding:
    aero, balance = plane.aero, plane.balance
    travel = balance.pack_back - balance.pack_front
    shift = balance.cg_back - balance.cg_front
    if travel <= 0.0 or shift <= 0.0:
        return Finding(None, "The tray leaves the pack no way to slide.")
    aft = aero.neutral_point_x - FIRST_MARGIN[0] * aero.mean_chord
    front = max(aero.neutral_point_x - FIRST_MARGIN[1] * aero.mean_chord, aero.cg_forward)
    wanted = min(max(balance.cg[0], front), aft)
    place = balance.pack_front + (wanted - balance.cg_front) * travel / shift
    inch = plane.design.units == "inch"
    slide = 0.0254 if inch else 0.01
    per = say(plane, slide * shift / travel, "length")
    return Finding(
        place,
        f"For the first flight the CG should be {say(plane, wanted, 'length')} behind the nose; "
        f"that puts the middle of the pack at {say(plane, place, 'length')}, and the tray goes "
        "from "
        f"{say(plane, balance.pack_front, 'length')} to {say(plane, balance.pack_back, 'length')} "
        f"({say(plane, slide, 'length')} of pack moves the CG {per}).",
        low=balance.pack_front,
        high=balance.pack_back,
    )


def _reach_levers(plane: Plane, finding: Finding) -> tuple[Lever, ...]:
    needs_forward = not _too_far_aft(finding)
    tray = (
        length_lever(
            plane, "pack.tray_front", "tray front at", to=0.02, start=plane.balance.pack_front
        )
        if needs_forward
        else length_lever(
            plane,
            "pack.tray_back",
            "tray back at",
            to=0.7 * plane.design.fuselage.length,
            start=plane.balance.pack_back,
        )
    )
    return listed(
        wing_position_lever(plane, aft=needs_forward),
        tray,
        *(tail_levers(plane, "stab", bigger=True) if needs_forward else ()),
        capacity_lever(plane, bigger=needs_forward),
        ballast_lever(plane, nose=needs_forward),
    )


def _scatter(plane: Plane) -> Finding:
    balance = plane.balance
    tail_heavy = balance.cg_x_band.high - balance.cg[0]
    nose_heavy = balance.cg[0] - balance.cg_x_band.low
    forward, back = balance.cg[0] - balance.cg_front, balance.cg_back - balance.cg[0]
    floor = 1e-6  # m, so that a pack at its stop gives a large number and not a division by zero
    value = max(tail_heavy / max(forward, floor), nose_heavy / max(back, floor))
    return Finding(
        min(value, 99.0),
        f"Scatter of board, glue and parts moves the CG {say(plane, tail_heavy, 'length')} aft or "
        f"{say(plane, nose_heavy, 'length')} forward; sliding the pack takes back "
        f"{say(plane, forward, 'length')} and {say(plane, back, 'length')}.",
        high=1.0,
    )


def _scatter_levers(plane: Plane, finding: Finding) -> tuple[Lever, ...]:
    del finding
    balance = plane.balance
    ahead = balance.cg[0] - balance.cg_front < balance.cg_back - balance.cg[0]
    return listed(
        length_lever(plane, "pack.tray_front", "tray front at", to=0.02, start=balance.pack_front)
        if ahead
        else length_lever(
            plane,
            "pack.tray_back",
            "tray back at",
            to=0.7 * plane.design.fuselage.length,
            start=balance.pack_back,
        ),
        pack_lever(plane, forward=not ahead),
    )


MASS_RULES = (
    Rule(
        "all_up_mass",
        "All-up mass",
        "kg",
        "what the wing carries at the stall speed limit of the pilot's level",
        "common practice, no source",
        "whole plane",
        _all_up_mass,
        _lighter,
    ),
    Rule(
        "wing_loading",
        "Wing loading",
        "kg/m²",
        "at most 3.0 (beginner), 4.0 (returning), 6.0 (experienced)",
        "common practice, no source",
        "wing",
        _wing_loading,
        _lighter,
    ),
    Rule(
        "cube_loading",
        "Wing cube loading",
        "kg/m³",
        "at most 7 (beginner), 10 (returning), 13 (experienced)",
        "common practice, no source (bands from memory)",
        "wing",
        _cube_loading,
        _lighter,
    ),
    Rule(
        "cg_range",
        "Balance point against its range",
        "m",
        "from where full elevator just holds the stall to a static margin of 5 %",
        "[ETKIN-REID] sec. 2.3; aft limit common practice, no source",
        "wing, balance point",
        _cg,
        _balance_levers,
    ),
    Rule(
        "pack_reach",
        "Pack tray reaches the balance point",
        "m",
        "front to back of the tray, for a static margin of 12 to 20 % and the forward CG limit",
        "statics; 12 to 20 % for a first flight common practice, no source",
        "pack tray",
        _pack_reach,
        _reach_levers,
    ),
    Rule(
        "balance_scatter",
        "Tray takes up the scatter of a build",
        "-",
        "at most 1 (CG shift by scatter over what sliding the pack takes back)",
        "statics; bands of the stock tables",
        "pack tray",
        _scatter,
        _scatter_levers,
    ),
    Rule(
        "side_balance",
        "Balance left to right",
        "m",
        "at most 1 % of the span, and what 15 % of the roll control holds in level flight",
        "roll balance with [ETKIN-REID] derivatives; 1 % common practice, share assumed",
        "wing tips",
        side_balance,
        side_levers,
    ),
)
