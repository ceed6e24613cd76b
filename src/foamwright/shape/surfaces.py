"""Wing, stab and fin as rows of straight-tapered panels."""

import math
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from foamwright.core.errors import DesignError
from foamwright.design.model import Aileron, Design, TailSurface
from foamwright.shape.body import Outline, height_at, root_chord
from foamwright.shape.model import ControlSurface, LiftingPanel, LiftingSurface, Vector
from foamwright.shape.planform import panel_length, planform, trapezoid_area
from foamwright.shape.section import plate_section, wing_section

AILERON_SHARE = 0.18  # of the mean chord, when the design gives no chord; common practice
TIP_CLEAR = 0.02  # m between aileron and wing tip, when the design gives no end; common practice
OUTBOARD_START = 0.5  # of the half span, for outboard ailerons without a start; common practice


def wing_chords(design: Design) -> tuple[tuple[float, float], ...]:
    """Root and tip chord of every wing panel, with what the design leaves out filled in.

    Args:
        design: The design. [-]

    Returns:
        (root, tip) a panel. [m]

    Source:
        Definition of the design file.

    Example:
        >>> wing_chords(design)  # doctest: +SKIP
        ((0.19, 0.19),)
    """
    chords: list[tuple[float, float]] = []
    inner = root_chord(design)
    for panel in design.wing.panel:
        root = inner if panel.chord is None else panel.chord
        tip = root if panel.tip_chord is None else panel.tip_chord
        chords.append((root, tip))
        inner = tip
    return tuple(chords)


def _underside(design: Design, outline: Outline, chord: float) -> float:
    """Height of the wing's underside at its leading edge on the centre line."""
    wing = design.wing
    if wing.height is not None:
        return wing.height
    fall = math.tan(wing.incidence)
    places = np.linspace(wing.position, wing.position + chord, 9)
    lift = (places - wing.position) * fall
    side = 1 if wing.place == "high" else 0
    edge = np.array([height_at(outline, float(x))[side] for x in places])
    # High: let in until it touches all along. Low: flush or proud, so that nothing hides below it.
    return float((edge + lift).min())


def build_wing(design: Design, outline: Outline, board_thickness: float) -> LiftingSurface:
    """The wing in its place.

    Args:
        design: The design. [-]
        outline: Side view of the fuselage, which carries it when no height is given. [-]
        board_thickness: [m]

    Returns:
        The wing.

    Raises:
        DesignError: Its section or ailerons are not possible.

    Source:
        Definition of the design file.

    Example:
        >>> build_wing(design, outline, 0.005).span  # doctest: +SKIP
        1.168
    """
    wing, chords = design.wing, wing_chords(design)
    first = wing_section(wing, chords[0][0], board_thickness)
    bottom = first.bottom_angle
    # The chord line starts above the flat bottom; the last lower point lies on that bottom.
    tail_x, tail_z = first.lower[-1]
    rise = first.chord * (tail_x * math.sin(bottom) - tail_z * math.cos(bottom))
    at: Vector = (wing.position, 0.0, _underside(design, outline, chords[0][0]) + rise)
    twist = wing.incidence + bottom
    panels: list[LiftingPanel] = []
    for panel, (root, tip) in zip(wing.panel, chords, strict=True):
        end = (
            at[0] + panel.span * math.tan(panel.sweep),
            at[1] + panel.span * math.cos(panel.dihedral),
            at[2] + panel.span * math.sin(panel.dihedral),
        )
        section = wing_section(wing, 0.5 * (root + tip), board_thickness, taper=(root, tip))
        outer = twist - panel.washout
        panels.append(LiftingPanel(at, end, root, tip, twist, outer, section))
        at, twist = end, outer
    controls = (_aileron(wing.aileron, panels),) if wing.aileron is not None else ()
    return _surface("wing", panels, controls, mirrored=True, sits_on_body=False)


def aileron_extent(aileron: Aileron, half_span: float) -> tuple[float, float]:
    """Inner and outer end of an aileron along the half span.

    Args:
        aileron: The design's aileron. [-]
        half_span: Along the panels. [m]

    Returns:
        Start and end from the centre line. [m], [m]

    Raises:
        DesignError: No length is left between them.

    Source:
        Common practice for what the design leaves out.

    Example:
        >>> aileron_extent(Aileron.model_construct(kind="strip", start=0.04, end=0.5), 0.58)
        (0.04, 0.5)
    """
    start = aileron.start
    if aileron.kind == "outboard" and "start" not in aileron.model_fields_set:
        start = OUTBOARD_START * half_span
    end = half_span - TIP_CLEAR if aileron.end is None else aileron.end
    if end > half_span + 1e-9 or end - start < 0.03:
        raise DesignError(
            "wing.aileron.end",
            f"{1000 * end:.0f}\u00a0mm (start {1000 * start:.0f}\u00a0mm)",
            f"an aileron must be at least 30 mm long and end within the half span of "
            f"{1000 * half_span:.0f}\u00a0mm",
            "Change start or end.",
        )
    return start, min(end, half_span)


def _aileron(aileron: Aileron, panels: list[LiftingPanel]) -> ControlSurface:
    lengths = [panel_length(panel) for panel in panels]
    half = sum(lengths)
    start, end = aileron_extent(aileron, half)
    mean = planform(panels).area / half
    chord = AILERON_SHARE * mean if aileron.chord is None else aileron.chord
    edges = np.concatenate([[0.0], np.cumsum(lengths)])
    local = [chord_at(panels, edges, s) for s in np.linspace(start, end, 9).tolist()]
    if not 0.0 < chord < 0.5 * min(local):
        raise DesignError(
            "wing.aileron.chord",
            f"{1000 * chord:.0f}\u00a0mm",
            f"it must be less than half the smallest chord there, {500 * min(local):.0f}\u00a0mm",
            f"Use {1000 * AILERON_SHARE * mean:.0f}\u00a0mm.",
        )
    span = end - start
    return ControlSurface(
        name="aileron",
        start=start / half,
        end=end / half,
        chord_fraction=chord / (sum(local) / len(local)),
        chord=chord,
        span=2.0 * span,
        area=2.0 * span * chord,
        up=aileron.up,
        down=aileron.down,
        gap_sealed=aileron.gap_sealed,
    )


def chord_at(panels: Sequence[LiftingPanel], edges: NDArray[np.float64], place: float) -> float:
    """Chord at a distance along the half span.

    Args:
        panels: Root outwards. [-]
        edges: Distances of the panel ends, from 0. [m]
        place: Distance along the panels. [m]

    Returns:
        Chord. [m]

    Source:
        Straight taper.

    Example:
        >>> chord_at(panels, edges, 0.3)  # doctest: +SKIP
        0.19
    """
    index = min(int(np.searchsorted(edges[1:], place)), len(panels) - 1)
    panel = panels[index]
    share = (place - float(edges[index])) / float(edges[index + 1] - edges[index])
    return panel.root_chord + share * (panel.tip_chord - panel.root_chord)


def hinge_chords(surface: TailSurface, length: float, field: str) -> tuple[float, float]:
    """Hinged chord at root and tip of a tail surface.

    The hinge line runs square to the root where it stays between 0.2 and 0.9 of the tip chord;
    else it joins the same fraction at root and tip.

    Args:
        surface: The design's stab or fin. [-]
        length: Root to tip of one panel. [m]
        field: Its key, for errors. [-]

    Returns:
        Root and tip. [m], [m]

    Raises:
        DesignError: Nothing is left to hinge.

    Source:
        Common practice: a straight hinge square to the fuselage lets both halves swing as one.

    Example:
        >>> surface = TailSurface.model_construct(chord=0.1, tip_chord=None, sweep=0.0, hinge=0.6)
        >>> [round(c, 3) for c in hinge_chords(surface, 0.2, "stab")]
        [0.04, 0.04]
    """
    tip = surface.chord if surface.tip_chord is None else surface.tip_chord
    if not 0.2 <= surface.hinge <= 0.95:
        raise DesignError(
            f"{field}.hinge",
            f"{surface.hinge:.2f}",
            "the hinge line must lie at 0.2 to 0.95 of the root chord",
            "Use 0.65.",
        )
    forward = surface.hinge * surface.chord - length * math.tan(surface.sweep)
    at_tip = forward / tip
    share = at_tip if 0.2 <= at_tip <= 0.9 else surface.hinge
    return (1.0 - surface.hinge) * surface.chord, (1.0 - share) * tip


def _control(
    name: str, surface: TailSurface, length: float, sides: int, field: str
) -> ControlSurface:
    tip_chord = surface.chord if surface.tip_chord is None else surface.tip_chord
    inner, outer = hinge_chords(surface, length, field)
    area = sides * trapezoid_area(inner, outer, length)
    whole = sides * trapezoid_area(surface.chord, tip_chord, length)
    return ControlSurface(
        name=name,
        start=0.0,
        end=1.0,
        chord_fraction=area / whole,
        chord=0.5 * (inner + outer),
        span=sides * length,
        area=area,
        up=surface.up,
        down=surface.down,
        gap_sealed=surface.gap_sealed,
    )


def _plate_panel(
    surface: TailSurface, root: Vector, length: float, board_thickness: float, *, rise: float
) -> LiftingPanel:
    """One flat panel; `rise` is its angle above the horizontal, pi/2 for a fin."""
    tip_chord = surface.chord if surface.tip_chord is None else surface.tip_chord
    thickness = surface.layers * board_thickness
    tip = (
        root[0] + length * math.tan(surface.sweep),
        root[1] + length * math.cos(rise) if rise < 1.57 else root[1],
        root[2] + length * math.sin(rise),
    )
    section = plate_section(0.5 * (surface.chord + tip_chord), thickness)
    twist = surface.incidence
    return LiftingPanel(root, tip, surface.chord, tip_chord, twist, twist, section)


def build_tail(
    design: Design, outline: Outline, board_thickness: float
) -> tuple[LiftingSurface, LiftingSurface | None]:
    """Stab and fin in their places; the fin is None for a V-tail.

    Args:
        design: The design. [-]
        outline: Side view of the fuselage. [-]
        board_thickness: [m]

    Returns:
        Stab and fin.

    Raises:
        DesignError: A fin is missing, or a hinge does not fit.

    Source:
        Definition of the design file.

    Example:
        >>> build_tail(design, outline, 0.005)[0].area  # doctest: +SKIP
        0.045
    """
    stab, fin, kind = design.stab, design.fin, design.tail.kind
    half = 0.5 * stab.span
    thickness = stab.layers * board_thickness
    top = min(height_at(outline, x)[1] for x in (stab.position, stab.position + stab.chord))
    seat = top + 0.5 * thickness
    if kind == "V":
        at = (stab.position, 0.0, seat if stab.height is None else stab.height)
        panel = _plate_panel(stab, at, half, board_thickness, rise=stab.dihedral)
        controls = tuple(_control(name, stab, half, 2, "stab") for name in ("elevator", "rudder"))
        return _surface("stab", [panel], controls, mirrored=True, sits_on_body=True), None
    if fin is None:
        raise DesignError(
            "fin", "missing", "only a V-tail goes without a fin", 'Add a [fin], or tail.kind = "V".'
        )
    foot = height_at(outline, fin.position + 0.5 * fin.chord)[1]
    if kind == "plain" and fin.position < stab.position + stab.chord:
        foot = max(foot, seat + 0.5 * thickness) if stab.height is None else foot
    fin_at = (fin.position, 0.0, foot if fin.height is None else fin.height)
    if kind == "T":
        seat = fin_at[2] + fin.span + 0.5 * thickness
    stab_at = (stab.position, 0.0, seat if stab.height is None else stab.height)
    flat = _plate_panel(stab, stab_at, half, board_thickness, rise=stab.dihedral)
    upright = _plate_panel(fin, fin_at, fin.span, board_thickness, rise=0.5 * math.pi)
    return (
        _surface(
            "stab",
            [flat],
            (_control("elevator", stab, half, 2, "stab"),),
            mirrored=True,
            sits_on_body=False,
        ),
        _surface(
            "fin",
            [upright],
            (_control("rudder", fin, fin.span, 1, "fin"),),
            mirrored=False,
            sits_on_body=True,
        ),
    )


def _surface(
    name: str,
    panels: list[LiftingPanel],
    controls: tuple[ControlSurface, ...],
    *,
    mirrored: bool,
    sits_on_body: bool,
) -> LiftingSurface:
    size = planform(panels, upright=not mirrored)
    sides = 2 if mirrored else 1
    area, span = sides * size.area, sides * size.reach
    return LiftingSurface(
        name=name,
        panels=tuple(panels),
        mirrored=mirrored,
        controls=controls,
        area=area,
        span=span,
        mean_chord=size.mean_chord,
        mean_chord_x=size.mean_chord_x,
        aspect_ratio=span**2 / area,
        sits_on_body=sits_on_body,
    )
