"""Where the pack, and if need be the wing, must sit for the plane to balance."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from foamwright.plane import Plane

FOREMOST, REARMOST = 0.20, 0.05  # static margin at the ends of what is allowed; as the checks
KEPT_FREE = 0.08  # of the tray, at each end, for a pack that weighs otherwise; assumed
NEAR = 0.1  # of the way between the limits, by which the CG may be off their middle; assumed
WING_MOVES = 0.5  # of the wing's way by which it gains on the CG; mean of sample planes


def balanced(plane: Plane, step: float) -> Plane:
    """The plane with its pack where the CG lies about midway between its limits.

    x_pack += (x_wanted - x_cg) m / m_pack, left alone when near enough. When that is beyond the
    tray, the wing is moved once by what is left over and the pack is placed anew.

    Args:
        plane: The plane. [-]
        step: Places are rounded to this. [m]

    Returns:
        The plane with pack, and perhaps wing, moved. [-]

    Source:
        Moments about the CG; the middle of the range leaves most room for the scatter of a build.

    Example:
        >>> 0.08 < balanced(plane, 0.00635).aero.static_margin < 0.16
        True
    """
    wanted, near = _wanted_place(plane)
    front, back = _tray(plane)
    place = plane.design.pack.position
    if abs(wanted - place) <= near and front <= place <= back:
        return plane
    inside = min(max(wanted, front), back)
    beyond = wanted - inside
    if abs(beyond) > step:
        share = plane.train.pack.mass.typical / plane.balance.all_up_mass
        # A pack wanted further forward than it can go asks for the wing further aft.
        moved = -beyond * share / WING_MOVES
        place = round((plane.design.wing.position + moved) / step) * step
        place = min(max(place, 0.25 * plane.design.wing.position, step), _furthest(plane))
        plane = plane.with_values({"wing.position": place, "pack.position": _in(inside, step)})
        wanted, near = _wanted_place(plane)
        front, back = _tray(plane)
        inside = min(max(wanted, front), back)
    place = _in(inside, step)
    if abs(place - plane.design.pack.position) < 0.5 * step:
        return plane
    return plane.with_values({"pack.position": place})


def _in(place: float, step: float) -> float:
    return max(round(place / step) * step, step)


def _furthest(plane: Plane) -> float:
    design = plane.design
    tail = min(design.stab.position, design.fin.position if design.fin else design.stab.position)
    return tail - 1.2 * plane.airframe.wing.panels[0].root_chord


def _tray(plane: Plane) -> tuple[float, float]:
    front, back = plane.balance.pack_front, plane.balance.pack_back
    free = KEPT_FREE * (back - front)
    return front + free, back - free


def _wanted_place(plane: Plane) -> tuple[float, float]:
    """Where the pack's middle should be, and how far off it may be."""
    aero, balance = plane.aero, plane.balance
    rearmost = aero.neutral_point_x - REARMOST * aero.mean_chord
    foremost = max(aero.neutral_point_x - FOREMOST * aero.mean_chord, aero.cg_forward)
    middle = 0.5 * (foremost + rearmost)
    share = balance.all_up_mass / plane.train.pack.mass.typical
    near = NEAR * max(rearmost - foremost, 0.0) * share
    return plane.design.pack.position + (middle - balance.cg[0]) * share, near
