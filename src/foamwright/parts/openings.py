"""What is cut out of the sides of the fuselage: servo holes, dowel holes, tail slots."""

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from foamwright.design.model import Design
from foamwright.parts.linkage import is_tail_servo, servo_place, servo_size
from foamwright.parts.piece import rectangle
from foamwright.parts.rounds import round_ring
from foamwright.parts.side_view import SideView, stab_seat
from foamwright.parts.tail_tabs import fin_tab
from foamwright.shape.model import Airframe
from foamwright.stock.model import Stock

SERVO_EASE = 0.0005  # m of play around a servo; common practice
SERVO_EDGE = 0.006  # m of board to leave above and below a servo; assumed
DOWEL_AWAY = 0.012  # m ahead of and behind the wing; common practice
DOWEL_DEEP = 3.0  # board thicknesses of a dowel below the edge; common practice

type Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class SideCut:
    """Something cut through layers of the fuselage, drawn in the side view.

    Attributes:
        label: In trade words.
        ring: Rows (x, z). [m]
        middle_only: Whether only the layer in the plane of symmetry is cut.
    """

    label: str
    ring: Array
    middle_only: bool = False


def depth_at(view: SideView, x: float) -> tuple[float, float]:
    """Bottom and top of the side view at a place, seats cut out.

    Args:
        view: The side view. [-]
        x: Aft of the nose. [m]

    Returns:
        Bottom and top. [m], [m]

    Source:
        Straight lines between points.

    Example:
        >>> [round(x, 4) for x in depth_at(view, 0.1)]
        [-0.0401, 0.0401]
    """
    low = float(np.interp(x, view.bottom[:, 0], view.bottom[:, 1]))
    return low, float(np.interp(x, view.top[:, 0], view.top[:, 1]))


def servo_cuts(
    design: Design, airframe: Airframe, stock: Stock, view: SideView
) -> tuple[tuple[SideCut, ...], tuple[str, ...]]:
    """Holes for the tail servos of a profile fuselage, pushed in from the side up to their lugs.

    Args:
        design: The design. [-]
        airframe: Its shape. [-]
        stock: The stock tables. [-]
        view: Side view. [-]

    Returns:
        Holes; and words on the servos that find no room.

    Source:
        Common practice.

    Example:
        >>> servo_cuts(design, airframe, stock, view)[1]
        ()
    """
    cuts: list[SideCut] = []
    words: list[str] = []
    for number, servo in enumerate(design.servo):
        if not is_tail_servo(servo):
            continue
        x, _, z = servo_place(number, design, airframe, view=view)
        long, thick, _ = servo_size(servo, stock)
        long, thick = long + 2.0 * SERVO_EASE, thick + 2.0 * SERVO_EASE
        ring = rectangle(long, thick, at=(x - 0.5 * long, z - 0.5 * thick))
        ends = [depth_at(view, u) for u in (ring[0, 0], ring[1, 0])]
        room = min(e[1] for e in ends) - ring[2, 1], ring[0, 1] - max(e[0] for e in ends)
        inside = ring[0, 0] > 0.01 and ring[1, 0] < design.fuselage.length - 0.01
        if inside and min(room) >= SERVO_EDGE - 1e-9:
            cuts.append(SideCut(f"{servo.role} servo", ring))
        else:
            words.append(f"No room to let the {servo.role} servo in: glue it on the outside.")
    return tuple(cuts), tuple(words)


def dowel_places(
    design: Design, view: SideView, thickness: float
) -> tuple[tuple[float, float], ...]:
    """Where the dowels of a banded wing cross the fuselage.

    Args:
        design: The design. [-]
        view: Side view. [-]
        thickness: Of the board. [m]

    Returns:
        (x, z) of the front and the rear one; none unless the wing is on bands. [m]

    Source:
        Common practice.

    Example:
        >>> dowel_places(design, view, 0.005)  # doctest: +SKIP
        ((0.188, 0.03), (0.409, 0.025))
    """
    if design.wing.attachment.kind != "bands":
        return ()
    high = design.wing.place == "high"
    places: list[tuple[float, float]] = []
    for x in (view.wing_front - DOWEL_AWAY, view.wing_back + DOWEL_AWAY):
        x = min(max(x, 0.01), design.fuselage.length - 0.01)
        low, top = depth_at(view, x)
        # Never below the middle: a dowel there would no longer pull the wing onto its seat.
        into = min(DOWEL_DEEP * thickness, 0.5 * (top - low))
        places.append((x, top - into if high else low + into))
    return tuple(places)


def tail_cuts(design: Design, airframe: Airframe, view: SideView) -> tuple[SideCut, ...]:
    """Slot of the fin's tab, room for the rudder, slot of a stab that lies inside the fuselage.

    Args:
        design: The design. [-]
        airframe: Its shape. [-]
        view: Side view. [-]

    Returns:
        The cuts.

    Source:
        Geometry.

    Example:
        >>> tail_cuts(design, airframe, view)  # doctest: +SKIP
        (SideCut(...),)
    """
    length = design.fuselage.length
    cuts: list[SideCut] = []
    high = float(view.top[:, 1].max()) + 0.05
    tab = fin_tab(design, airframe)
    if tab is not None and airframe.fin is not None and design.fin is not None:
        foot = airframe.fin.panels[0].root[2]
        front, hinge = (
            design.fin.position,
            design.fin.position + design.fin.hinge * design.fin.chord,
        )
        cuts.append(
            SideCut(
                "fin slot", rectangle(tab.length, high - tab.low, at=(tab.start, tab.low)), True
            )
        )
        if front < length:
            wide = min(hinge, length + 0.01) - front
            cuts.append(SideCut("fin", rectangle(wide, high - foot, at=(front, foot)), True))
        if hinge < length:
            low = foot - 0.001
            cuts.append(
                SideCut("rudder", rectangle(length + 0.01 - hinge, high - low, at=(hinge, low)))
            )
    if design.tail.kind == "plain" and stab_seat(design, airframe) is None:
        cuts += _stab_slot(design, airframe, view)
    return tuple(cuts)


def _stab_slot(design: Design, airframe: Airframe, view: SideView) -> list[SideCut]:
    panel, stab = airframe.stab.panels[0], design.stab
    thick = panel.section.thickness_ratio * panel.section.chord
    start, level, end = panel.root[0], panel.root[2], design.fuselage.length
    low, top = depth_at(view, min(start, end))
    if start >= end - 0.01 or not low < level - 0.5 * thick < level + 0.5 * thick < top:
        return []
    hinge = min(start + stab.hinge * stab.chord, end)
    swing = math.sin(max(stab.up, stab.down)) * (end + 0.01 - hinge) + thick
    ring = np.array(
        [
            [start, level - 0.5 * thick],
            [hinge, level - 0.5 * thick],
            [end + 0.01, level - 0.5 * thick - swing],
            [end + 0.01, level + 0.5 * thick + swing],
            [hinge, level + 0.5 * thick],
            [start, level + 0.5 * thick],
        ]
    )
    return [SideCut("stab slot", ring)]


def side_cuts(
    design: Design, airframe: Airframe, stock: Stock, *, view: SideView, thickness: float
) -> tuple[tuple[SideCut, ...], tuple[str, ...]]:
    """Everything cut out of the sides of the fuselage.

    Args:
        design: The design. [-]
        airframe: Its shape. [-]
        stock: The stock tables. [-]
        view: Side view. [-]
        thickness: Of the board. [m]

    Returns:
        The cuts; and words for the builder on what found no room.

    Source:
        Common practice and geometry.

    Example:
        >>> side_cuts(design, airframe, stock, view=view, thickness=0.005)  # doctest: +SKIP
    """
    cuts: list[SideCut] = []
    words: tuple[str, ...] = ()
    if design.fuselage.build == "profile":
        found, words = servo_cuts(design, airframe, stock, view)
        cuts += found
    rod = stock.rods.get(design.wing.attachment.dowel)
    if rod is not None:
        cuts += [
            SideCut("wing dowel", round_ring(x, z, rod.width))
            for x, z in dowel_places(design, view, thickness)
        ]
    return (*cuts, *tail_cuts(design, airframe, view)), words
