"""Checks of strength and stiffness."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from foamwright.checks.judge import Finding, Rule
from foamwright.checks.levers import Lever
from foamwright.checks.say import degrees, percent, say
from foamwright.checks.strength_levers import (
    attachment_levers,
    firewall_levers,
    joint_levers,
    pushrod_levers,
    spar_levers,
    stiffer_tail,
    tail_strength_levers,
    twist_levers,
)

if TYPE_CHECKING:
    from foamwright.plane import Plane
    from foamwright.strength.model import Failure

TIP_SHARE = 0.05  # of half the span of a tail surface: tip deflection; assumed
WING_TIP_SHARE = 0.15  # of the half span: wing tip deflection at the needed load; assumed
TWIST = math.radians(2.0)  # of the wing tip; assumed, about half the angle that trims 1.4 Vs
DIVERGENCE = 1.2  # over top speed; 14 CFR 23.629 asks 1.2 times the dive speed
SIDE_FAMILIES = ("negative", "landing", "fixing", "launch")
ATTACHMENT = ("bands", "bolts", "attachment")


def weakest(plane: Plane, family: str) -> Failure | None:
    """The weakest way to break of one family.

    Args:
        plane: The plane. [-]
        family: "wing", "joint", "attachment", "firewall", "tail", "pushrod", "flutter", "negative",
            "landing", "fixing" or "launch". [-]

    Returns:
        The failure; None where the strength room names none.

    Source:
        Definition.

    Example:
        >>> 16 < weakest(plane, "joint").load_factor < 25
        True
    """
    members = [failure for failure in plane.strength.failures if family_of(failure.id) == family]
    return min(members, key=lambda failure: failure.load_factor, default=None)


def family_of(failure_id: str) -> str:
    """Which check a way to break belongs to.

    Args:
        failure_id: Of the failure. [-]

    Returns:
        A family as `weakest` takes it. [-]

    Source:
        Definition.

    Example:
        >>> family_of("splice_joint_1"), family_of("fixing_horn_rudder")
        ('joint', 'fixing')
    """
    named = failure_id.partition("_")[0]
    if named in SIDE_FAMILIES:
        return named
    if "flutter" in failure_id:
        return "flutter"
    if "joint" in failure_id:
        return "joint"
    if failure_id.startswith(ATTACHMENT):
        return "attachment"
    return {"stab": "tail", "fin": "tail", "fuselage": "tail", "spar": "wing"}.get(named, named)


def unsaid(plane: Plane, family: str, *, low: float) -> Finding | None:
    """A finding that nothing can be said, where a figure is missing and no known failure decides.

    Args:
        plane: The plane. [-]
        family: As for weakest. [-]
        low: What is asked of the family. [-]

    Returns:
        The finding with the missing figure's name; None when all is known or it fails anyway.

    Source:
        Definition.

    Example:
        >>> unsaid(plane, "wing", low=6.0) is None
        True
    """
    known = weakest(plane, family)
    if known is not None and known.load_factor < low:
        return None
    words = [text for name, text in plane.strength.unsaid.items() if family_of(name) == family]
    return Finding(None, words[0], low=low) if words else None


def _load(plane: Plane, family: str, noun: str) -> Finding:
    strength, failure = plane.strength, weakest(plane, family)
    missing = unsaid(plane, family, low=strength.needed_load_factor)
    if missing is not None:
        return missing
    if failure is None:
        return Finding(None, f"The model names no way in which {noun} would break.")
    band = failure.load_factor_band
    return Finding(
        failure.load_factor,
        f"{noun[0].upper()}{noun[1:]} gives way at {failure.load_factor:.1f} g "
        f"({band.low:.1f} to {band.high:.1f} g; {failure.name}); pulling hard at top speed makes "
        f"{strength.manoeuvre_load_factor:.1f} g and a gust {strength.gust_load_factor:.1f} g.",
        low=strength.needed_load_factor,
    )


def _spar(plane: Plane) -> Finding:
    return _load(plane, "wing", "the wing")


def _joint(plane: Plane) -> Finding:
    return _load(plane, "joint", "the centre joint")


def _attachment(plane: Plane) -> Finding:
    if plane.design.wing.attachment.kind == "glued":
        failure = weakest(plane, "attachment")
        if failure is None:
            return Finding(None, "The wing is glued on; the model has no limit for that seat.")
    return _load(plane, "attachment", "the wing's hold on the fuselage")


def _firewall(plane: Plane) -> Finding:
    strength, failure = plane.strength, weakest(plane, "firewall")
    missing = unsaid(plane, "firewall", low=1.0)
    if missing is not None:
        return missing
    ratio = 1.0 + strength.firewall_margin
    how = f"; {failure.name}" if failure is not None else ""
    return Finding(
        ratio,
        f"The {plane.design.motor.firewall.stock} firewall holds {ratio:.1f} times what motor and "
        f"propeller ask of it{how}.",
        low=1.0,
    )


def family_finding(
    plane: Plane, family: str, noun: str, *, low: float, opening: str = "Weakest", of: str = ""
) -> Finding:
    """A family's weakest failure against what is asked of it, in the failure's own words.

    Args:
        plane: The plane. [-]
        family: Such as "tail" or "landing". [-]
        noun: What would give way, for the case that nothing can. [-]
        low: Least strength over load, or load factor. [-]
        opening: First words of the reason. [-]
        of: What the strength is a multiple of, in words. [-]

    Returns:
        The finding. [-]

    Source:
        Definition.

    Example:
        >>> family_finding(plane, "landing", "the plane", low=1.0).low
        1.0
    """
    failure = weakest(plane, family)
    missing = unsaid(plane, family, low=low)
    if missing is not None:
        return missing
    if failure is None:
        return Finding(None, f"The model names no way in which {noun} would give way.")
    band = failure.load_factor_band
    return Finding(
        failure.load_factor,
        f"{opening}: {failure.name} at {failure.load_factor:.1f}{of} ({band.low:.1f} to "
        f"{band.high:.1f}). {failure.why}",
        low=low,
    )


def _full_throw(plane: Plane, family: str, noun: str) -> Finding:
    opening, of = "Full throw at top speed", " times that load"
    return family_finding(plane, family, noun, low=1.0, opening=opening, of=of)


def _tail_strength(plane: Plane) -> Finding:
    return _full_throw(plane, "tail", "the tail or the fuselage behind the wing")


def _pushrods(plane: Plane) -> Finding:
    return _full_throw(plane, "pushrod", "a pushrod")


def _tail_stiffness(plane: Plane, table: str) -> Finding:
    if table == "fin" and plane.airframe.fin is None:
        return Finding(0.0, "A V-tail has no fin of its own.", high=TIP_SHARE)
    surface = plane.airframe.stab if table == "stab" else plane.airframe.fin
    assert surface is not None  # noqa: S101 -- narrowed above
    reach = 0.5 * surface.span if surface.mirrored else surface.span
    bend = plane.strength.stab_deflection if table == "stab" else plane.strength.fin_deflection
    return Finding(
        abs(bend) / reach,
        f"At top speed with full throw the tip of the {table} bends by "
        f"{say(plane, abs(bend), 'length')}, {percent(abs(bend) / reach)} of its reach; up to "
        f"{percent(TIP_SHARE)} is stiff.",
        high=TIP_SHARE,
    )


def _stab_stiffness(plane: Plane) -> Finding:
    return _tail_stiffness(plane, "stab")


def _fin_stiffness(plane: Plane) -> Finding:
    return _tail_stiffness(plane, "fin")


def _stab_levers(plane: Plane, finding: Finding) -> tuple[Lever, ...]:
    del finding
    return stiffer_tail(plane, "stab")


def _fin_levers(plane: Plane, finding: Finding) -> tuple[Lever, ...]:
    del finding
    return stiffer_tail(plane, "fin") if plane.design.fin is not None else ()


def _tip_bend(plane: Plane) -> Finding:
    half = 0.5 * plane.aero.span
    bend = plane.strength.tip_deflection
    return Finding(
        bend / half,
        f"At {plane.strength.needed_load_factor:.1f} g the wing tips bow up by "
        f"{say(plane, bend, 'length')}, {percent(bend / half)} of the half span; up to "
        f"{percent(WING_TIP_SHARE)} is sound.",
        high=WING_TIP_SHARE,
    )


def _twist(plane: Plane) -> Finding:
    twist = abs(plane.strength.wing_twist)
    return Finding(
        twist,
        f"Air loads at top speed twist the wing tip by {degrees(twist, digits=2)}; up to "
        f"{degrees(TWIST)} is not felt.",
        high=TWIST,
    )


def _divergence(plane: Plane) -> Finding:
    speed = plane.strength.divergence_speed
    stall = plane.aero.stall_speed
    top = max(plane.flight.performance.top_speed, 2.5 * stall)
    if speed is None:
        return Finding(
            None,
            "The twist stiffness of this wing is not known, so neither is the speed at which it "
            "would twist off; keep out of fast dives.",
            low=DIVERGENCE * top,
        )
    return Finding(
        speed,
        f"The wing would twist off at {say(plane, speed, 'speed')}; {DIVERGENCE:.1f} times the top "
        f"speed is {say(plane, DIVERGENCE * top, 'speed')}.",
        low=DIVERGENCE * top,
    )


STRENGTH_RULES = (
    Rule(
        "wing_load",
        "Load factor of the wing and its spar",
        "-",
        "at least the larger of the manoeuvre at top speed and the gust",
        "[CFR-23] 23.333, 23.341; strength docs/physics/strength.md",
        "wing spar",
        _spar,
        spar_levers,
    ),
    Rule(
        "joint_load",
        "Load factor of the centre joint",
        "-",
        "at least the larger of the manoeuvre at top speed and the gust",
        "[CFR-23] 23.333, 23.341; strength docs/physics/strength.md",
        "wing centre joint",
        _joint,
        joint_levers,
    ),
    Rule(
        "attachment_load",
        "Load factor of the rubber bands or bolts",
        "-",
        "at least the larger of the manoeuvre at top speed and the gust",
        "[CFR-23] 23.333, 23.341; strength docs/physics/strength.md",
        "wing saddle",
        _attachment,
        attachment_levers,
    ),
    Rule(
        "firewall",
        "Firewall",
        "-",
        "at least 1 (strength over load)",
        "plate bending and glue shear, docs/physics/strength.md",
        "firewall",
        _firewall,
        firewall_levers,
    ),
    Rule(
        "stab_stiffness",
        "Stiffness of the stab",
        "-",
        "tip bends by at most 5 % of its reach",
        "beam bending; limit assumed",
        "stab",
        _stab_stiffness,
        _stab_levers,
    ),
    Rule(
        "fin_stiffness",
        "Stiffness of the fin",
        "-",
        "tip bends by at most 5 % of its reach",
        "beam bending; limit assumed",
        "fin",
        _fin_stiffness,
        _fin_levers,
    ),
    Rule(
        "tail_strength",
        "Strength of tail and rear fuselage",
        "-",
        "at least 1 (strength over load at full throw and top speed)",
        "sandwich bending, docs/physics/strength.md",
        "stab, fin and rear fuselage",
        _tail_strength,
        tail_strength_levers,
    ),
    Rule(
        "pushrods",
        "Pushrods",
        "-",
        "at least 1 (buckling strength over load at full throw and top speed)",
        "Euler buckling, docs/physics/strength.md",
        "pushrods",
        _pushrods,
        pushrod_levers,
    ),
    Rule(
        "wing_bend",
        "Bow of the wing",
        "-",
        "tip bends by at most 15 % of the half span",
        "beam bending; limit assumed",
        "wing",
        _tip_bend,
        spar_levers,
    ),
    Rule(
        "wing_twist",
        "Twist of the wing",
        "rad",
        "at most 2 deg at the tip",
        "closed-cell torsion; limit assumed",
        "wing",
        _twist,
        twist_levers,
    ),
    Rule(
        "divergence",
        "Speed at which the wing twists off (divergence)",
        "m/s",
        "at least 1.2 times the top speed, or 3 times stall speed",
        "[CFR-23] 23.629, from memory",
        "wing",
        _divergence,
        twist_levers,
    ),
)
