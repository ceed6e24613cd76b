"""Balance left to right: what it does in the air, and what levels it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from foamwright.balance.mass import tip_ballast
from foamwright.checks.control import rudder_roll_rate
from foamwright.checks.judge import Finding
from foamwright.checks.levers import Lever, length_lever, listed
from foamwright.checks.say import degrees, percent, say
from foamwright.checks.shape_levers import added_mass_lever
from foamwright.checks.trim import HOLD_SHARE
from foamwright.core.unit_table import GRAVITY, OUNCE

if TYPE_CHECKING:
    from foamwright.plane import Plane

SIDE_SHARE = 0.01  # of the span: CG off the middle line; common practice, no source
MOST_CLAY = 0.05  # of the all-up mass; more wants another place for what is heavy
TIP_INSET = 0.02  # m from the tip to the middle of the clay
LEAST_CLAY = 0.0005  # kg; a kitchen scale shows no less


def side_roll_rate(plane: Plane) -> float:
    """Roll rate when the stick is let go at level speed, from a CG off the middle line.

    The weight's moment against roll damping, with no sideslip yet:
    p = 2 V / b * m g y / (q S b |Cl_p|).

    Args:
        plane: The plane. [-]

    Returns:
        Magnitude; infinite when nothing damps the roll. [rad/s]

    Valid:
        Wings near level, small rates; twist and thrust left out.

    Source:
        Moment balance with [ETKIN-REID] derivatives.

    Example:
        >>> import math
        >>> 4.5 < math.degrees(side_roll_rate(plane)) < 7
        True
    """
    aero = plane.aero
    damping = -aero.derivatives.roll_roll_rate
    if damping <= 0.0:
        return float("inf")
    pressure = 0.5 * plane.air.density * aero.trim_speed**2
    moment = plane.balance.all_up_mass * GRAVITY * abs(plane.balance.cg[1])
    roll = moment / (pressure * aero.wing_area * aero.span)
    return 2.0 * aero.trim_speed / aero.span * roll / damping


def tip_clay(plane: Plane) -> tuple[float, float]:
    """Clay in the light wing tip that levels a plane, and where it goes.

    Args:
        plane: The plane. [-]

    Returns:
        Mass [kg] and place to the right [m].

    Source:
        `tip_ballast` of foamwright.balance.

    Example:
        >>> mass, side = tip_clay(plane)
        >>> round(1000 * mass, 1), round(side, 2)
        (6.2, -0.56)
    """
    reach = 0.5 * plane.airframe.wing.span - TIP_INSET
    left = tip_ballast(plane.balance, half_span=reach)
    return abs(left), -reach if left > 0.0 else reach


def side_balance(plane: Plane) -> Finding:
    """How far the CG lies off the middle line, and what the stick holds.

    Args:
        plane: The plane. [-]

    Returns:
        The finding.

    Source:
        Roll balance; limits common practice and assumed.

    Example:
        >>> round(side_balance(plane).value, 4)
        0.0052
    """
    side = plane.balance.cg[1]
    rate = side_roll_rate(plane)
    ailerons = plane.design.wing.aileron is not None
    full = plane.aero.roll_rate if ailerons else rudder_roll_rate(plane)
    share = rate / full if full > 0.0 else float("inf")
    limit = SIDE_SHARE * plane.aero.span
    if share > 0.0:
        limit = min(limit, abs(side) * HOLD_SHARE / share)
    way = "right" if side > 0.0 else "left"
    clay, _ = tip_clay(plane)
    words = f"The CG lies {say(plane, abs(side), 'length')} to the {way} of the middle"
    if clay < LEAST_CLAY:
        return Finding(abs(side), f"{words}: it hangs level.", high=limit)
    stick = "aileron" if ailerons else "rudder"
    light = "left" if side > 0.0 else "right"
    return Finding(
        abs(side),
        f"{words}: let go in level flight it begins to roll {way} at {degrees(rate)}/s, and "
        f"{percent(share)} of the {stick} throw holds it; up to {say(plane, limit, 'length')} is "
        f"trimmed out without notice. {say(plane, clay, 'mass')} of clay in the {light} wing tip "
        "levels it.",
        high=limit,
    )


def side_levers(plane: Plane, finding: Finding) -> tuple[Lever, ...]:
    """Servos and extras nearer to the middle or on the other side, then clay in the light tip.

    Args:
        plane: The plane. [-]
        finding: What the check found; the levers do not depend on it. [-]

    Returns:
        Levers.

    Source:
        Common practice, no source.

    Example:
        >>> [lever.name for lever in side_levers(plane, finding)]
        ['clay in the left wing tip']
    """
    del finding
    design, heavy = plane.design, plane.balance.cg[1]
    levers = [
        length_lever(plane, f"{table}.{index}.side", f"{name} off the middle by", to=-entry.side)
        for table, entries in (("servo", design.servo), ("extra", design.extra))
        for index, entry in enumerate(entries)
        for name in (getattr(entry, "name", "") or f"{getattr(entry, 'role', '')} servo",)
        if entry.side * heavy > 0.0 and not getattr(entry, "role", "").startswith("aileron")
    ]
    return listed(*levers, _clay_lever(plane))


def _clay_lever(plane: Plane) -> Lever | None:
    _, side = tip_clay(plane)
    light = "left" if side < 0.0 else "right"
    x, _, z = plane.balance.cg
    return added_mass_lever(
        plane,
        f"clay in the {light} wing tip",
        {"position": x, "side": side, "height": z},
        share=MOST_CLAY,
        step=0.001 if plane.design.units == "metric" else 0.05 * OUNCE,
        where=", abreast of the balance point",
    )
