"""Tabs and slots that join fin, stab and fuselage."""

from dataclasses import dataclass

from foamwright.design.model import Design
from foamwright.shape.body import height_at, side_outline
from foamwright.shape.model import Airframe
from foamwright.shape.surfaces import hinge_chords

TAB_INSET = 0.008  # m of a tab's ends from the edges beside it; assumed
TAB_SHORTEST = 0.02  # m; a shorter one guides nothing; assumed
TAB_DEEP = 0.02  # m into the fuselage; common practice
TAB_SHARE = 0.5  # of the fuselage's depth, at most; assumed


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
        >>> top_tab(design, airframe) is None  # doctest: +SKIP
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
        >>> hinged_at_tip(design, airframe)  # doctest: +SKIP
        0.04
    """
    if design.fin is None or airframe.fin is None:
        return 0.0
    return hinge_chords(design.fin, airframe.fin.span, "fin")[1]
