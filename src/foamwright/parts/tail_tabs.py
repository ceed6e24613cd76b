"""Tabs and slots that join fin, stab and fuselage."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from foamwright.design.model import Design
from foamwright.parts.pegs import PIN_LENGTH, PIN_ROD, peg
from foamwright.parts.piece import Piece, rectangle
from foamwright.shape.body import height_at, side_outline
from foamwright.shape.model import Airframe
from foamwright.shape.surfaces import hinge_chords
from foamwright.stock.model import Stock

TAB_INSET = 0.008  # m of a tab's ends from the edges beside it; assumed
TAB_SHORTEST = 0.02  # m; a shorter one guides nothing; assumed
TAB_DEEP = 0.02  # m into the fuselage; common practice
TAB_SHARE = 0.5  # of the fuselage's depth, at most; assumed

type Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Tab:
    """A tab of the fin and the slots it goes through.

    Attributes:
        start: Its front. [m]
        end: Its back. [m]
        low: Its lower edge, z. [m]
        through_stab: Whether it passes through the stab on its way.
    """

    start: float
    end: float
    low: float
    through_stab: bool

    @property
    def length(self) -> float:
        """From front to back [m]."""
        return self.end - self.start


def fin_tab(design: Design, airframe: Airframe) -> Tab | None:
    """Tab at the fin's foot, into the middle layer of a profile or through the top of a box.

    Args:
        design: The design. [-]
        airframe: Its shape. [-]

    Returns:
        The tab; None where nothing could hold one: no fin, an even number of layers, too short a
        foot, or a fin that stands clear of the fuselage.

    Source:
        Common practice: tabs and slots rather than butt joints.

    Example:
        >>> fin_tab(design, airframe)  # doctest: +SKIP
        Tab(start=0.79, end=0.84, low=-0.002, through_stab=True)
    """
    fin, surface, body = design.fin, airframe.fin, design.fuselage
    if fin is None or surface is None or fin.layers % 2 == 0:
        return None
    if body.build == "profile" and body.layers % 2 == 0:
        return None
    foot = surface.panels[0].root[2]
    start = fin.position + TAB_INSET
    end = min(fin.position + fin.hinge * fin.chord, body.length) - TAB_INSET
    through = _stab_under_fin(design, airframe)
    if through:
        stab = design.stab
        start = max(start, stab.position + TAB_INSET)
        end = min(end, stab.position + stab.hinge * stab.chord - TAB_INSET)
    if end - start < TAB_SHORTEST:
        return None
    outline = side_outline(design)
    ends = [height_at(outline, x) for x in (start, end)]
    thick = airframe.stab.panels[0].section.thickness_ratio * airframe.stab.panels[0].section.chord
    seat = min(*(top for _, top in ends), foot - thick if through else foot)
    if foot - seat > 0.03:
        return None
    deep = min(TAB_DEEP, TAB_SHARE * (seat - max(low for low, _ in ends)))
    return Tab(start, end, seat - deep, through) if deep > 0.004 else None


def _stab_under_fin(design: Design, airframe: Airframe) -> bool:
    """Whether the stab lies between fin and fuselage."""
    if design.tail.kind != "plain" or airframe.fin is None or design.fin is None:
        return False
    stab, fin = design.stab, design.fin
    level, foot = airframe.stab.panels[0].root[2], airframe.fin.panels[0].root[2]
    overlap = min(fin.position + fin.chord, stab.position + stab.chord) - max(
        fin.position, stab.position
    )
    return overlap > 0.0 and 0.0 < foot - level < 0.02


def top_tab(design: Design, airframe: Airframe) -> Tab | None:
    """Tab at the fin's tip that carries the stab of a T-tail.

    Args:
        design: The design. [-]
        airframe: Its shape. [-]

    Returns:
        The tab, its lower edge at the fin's tip; None for other tails or too little overlap.

    Source:
        Common practice.

    Example:
        >>> top_tab(design, airframe) is None
        True
    """
    if design.tail.kind != "T" or airframe.fin is None or design.fin is None:
        return None
    fin, stab = airframe.fin.panels[0], design.stab
    hinge = fin.tip[0] + fin.tip_chord - hinged_at_tip(design, airframe)
    start = max(fin.tip[0], stab.position) + TAB_INSET
    end = min(hinge, stab.position + stab.hinge * stab.chord) - TAB_INSET
    if end - start < TAB_SHORTEST or design.fin.layers % 2 == 0:
        return None
    return Tab(start, end, fin.tip[2], True)


def hinged_at_tip(design: Design, airframe: Airframe) -> float:
    """Chord of the rudder at the fin's tip.

    Args:
        design: The design. [-]
        airframe: Its shape. [-]

    Returns:
        Chord. [m]

    Source:
        Definition of the hinge line.

    Example:
        >>> round(hinged_at_tip(design, airframe), 4)
        0.0426
    """
    if design.fin is None or airframe.fin is None:
        return 0.0
    return hinge_chords(design.fin, airframe.fin.span, "fin")[1]


def stab_slots(design: Design, airframe: Airframe, thickness: float) -> tuple[Array, ...]:
    """Slots in the stab for the fin's tab, across the centre line.

    Args:
        design: The design. [-]
        airframe: Its shape. [-]
        thickness: Of the board, as wide as the slot. [m]

    Returns:
        Rings: u to the right, v forward from the leading edge at the root. [m]

    Source:
        Geometry.

    Example:
        >>> stab_slots(design, airframe, 0.005)  # doctest: +SKIP
        (array([[-0.0025, -0.07], ...]),)
    """
    foot, top = fin_tab(design, airframe), top_tab(design, airframe)
    tab = top if top is not None else foot
    if tab is None or not tab.through_stab:
        return ()
    front = airframe.stab.panels[0].root[0]
    at = (-0.5 * thickness, front - tab.end)
    return (rectangle(thickness, tab.length, at=at),)


def fin_pins(design: Design, airframe: Airframe, stock: Stock) -> list[Piece]:
    """Skewers that hold a fin which no tab can hold.

    Args:
        design: The design. [-]
        airframe: Its shape. [-]
        stock: The stock tables. [-]

    Returns:
        Two pins, half in the fin and half below it; none with a tab or without skewers in stock.

    Source:
        Common practice.

    Example:
        >>> fin_pins(design, airframe, stock)
        []
    """
    rod = stock.rods.get(PIN_ROD)
    if rod is None or airframe.fin is None or design.fin is None:
        return []
    if fin_tab(design, airframe) is not None:
        return []
    fin, root = design.fin, airframe.fin.panels[0].root
    half = np.array([0.0, 0.0, 0.5 * PIN_LENGTH])
    middles = [
        np.array([root[0] + share * fin.hinge * fin.chord, 0.0, root[2]]) for share in (0.25, 0.75)
    ]
    return [
        peg(
            rod,
            f"fin-pin-{number + 1}",
            (middle - half, middle + half),
            name="fin pin",
            notes="Half in the fin's foot, half in the fuselage, with glue.",
        )
        for number, middle in enumerate(middles)
    ]
