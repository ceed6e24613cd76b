"""Stab, elevator, fin, rudder, their stiffeners and horns."""

import math
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from foamwright.design.model import Design, TailSurface
from foamwright.parts.horns import horn_marks
from foamwright.parts.joints import split_places
from foamwright.parts.material import BoardWork, entry, rod_areal_mass
from foamwright.parts.model import Line, LineKind, Source
from foamwright.parts.piece import Flat, Piece, mirrored, on_part, pair, rectangle
from foamwright.parts.tail_tabs import fin_pins, fin_tab, stab_slots, top_tab
from foamwright.shape.model import Airframe, LiftingPanel
from foamwright.shape.planform import panel_length
from foamwright.shape.surfaces import hinge_chords
from foamwright.stock.model import Stock

FIXED_AND_HINGED = {"stab": ("stab", "elevator"), "fin": ("fin", "rudder")}
RELIEF = 0.002  # m between a swung elevator and the rudder; common practice
HINGE_GAP = 0.001  # m; common practice: below 1 mm, taped

type Array = NDArray[np.float64]


def _outward(panel: LiftingPanel) -> Array:
    step = np.array(panel.tip) - np.array(panel.root)
    step[0] = 0.0
    return step / math.sqrt(float(step @ step))


def _rings(surface: TailSurface, panel: LiftingPanel, field: str) -> tuple[Array, Array, Array]:
    """Fixed and hinged outline, and the ends of the hinge; u out, v forward from the root."""
    length = panel_length(panel)
    lead = panel.tip[0] - panel.root[0]
    inner, outer = hinge_chords(surface, length, field)
    hinge = np.array([[0.0, inner - panel.root_chord], [length, outer - panel.tip_chord - lead]])
    gap = np.array([0.0, HINGE_GAP])
    tail = np.array([[0.0, -panel.root_chord], [length, -panel.tip_chord - lead]])
    fixed = np.vstack([hinge[0], hinge[1], [length, -lead], [0.0, 0.0]])
    moved = np.vstack([tail[0], tail[1], hinge[1] - gap, hinge[0] - gap])
    return fixed, moved, hinge


def _with_tabs(ring: Array, design: Design, airframe: Airframe) -> Array:
    """The fin's fixed outline with its tabs at foot and tip."""
    if airframe.fin is None:
        return ring
    root, length = airframe.fin.panels[0].root, airframe.fin.span
    rows: list[list[float]] = ring.tolist()
    foot, top = fin_tab(design, airframe), top_tab(design, airframe)
    if top is not None:
        a, b = root[0] - top.end, root[0] - top.start
        stab = airframe.stab.panels[0].section
        high = length + stab.thickness_ratio * stab.chord
        rows[2:2] = [[length, a], [high, a], [high, b], [length, b]]
    if foot is not None:
        a, b, low = root[0] - foot.end, root[0] - foot.start, foot.low - root[2]
        rows += [[0.0, b], [low, b], [low, a], [0.0, a]]
    return np.array(rows)


def _with_relief(ring: Array, design: Design, airframe: Airframe) -> Array:
    """The rudder's outline, slanted where the elevator would strike it."""
    fin, stab = airframe.fin, design.stab
    if fin is None or design.fin is None or design.tail.kind == "V":
        return ring
    root = fin.panels[0].root
    top = design.tail.kind == "T"
    apart = root[2] - airframe.stab.panels[0].root[2] if not top else 0.0
    hinge = root[0] - (stab.position + stab.hinge * stab.chord)
    end = root[0] - (stab.position + stab.chord)
    if not 0.0 <= apart < 0.03 or end >= ring[-2 if top else -1, 1]:
        return ring
    rise = math.sin(stab.down if top else stab.up)

    def clear(v: float) -> float:
        return max(0.0, (hinge - v) * rise + RELIEF) if v <= hinge else 0.0

    rows = ring.tolist()
    tail, front = (rows[1], rows[2]) if top else (rows[0], rows[3])
    kink = [[0.0, hinge]] if tail[1] < hinge < front[1] else []
    marks = [tail, *kink, front]
    length = fin.span
    cut = [[length - clear(v) if top else clear(v), v] for _, v in marks]
    return np.array([rows[0], *cut, rows[3]] if top else [*cut[:1], rows[1], rows[2], *cut[:0:-1]])


def _hinge_lines(hinge: Array, thickness: float, *, moved: bool) -> tuple[Line, ...]:
    if not moved:
        return ()
    low = hinge - np.array([0.0, HINGE_GAP + thickness])
    return (Line(LineKind.BEVEL, _points(low), "hinge bevel 45°", depth=thickness),)


def _points(array: Array) -> tuple[tuple[float, float], ...]:
    return tuple((u, v) for u, v in array.tolist())


def _both(ring: Array) -> Array:
    """Join a right half with its mirror image across u = 0 into one outline."""
    left = ring[::-1] * np.array([-1.0, 1.0])
    right = [row for row in ring.tolist() if row[0] > 1e-9]
    inner = [row for row in ring.tolist() if row[0] <= 1e-9]
    other = [row for row in left.tolist() if row[0] < -1e-9]
    # Counter-clockwise from the tail corner: right half's tip, the nose, the left half.
    return np.array([inner[0], *right, inner[-1], *other])


def tail_pieces(design: Design, airframe: Airframe, board: BoardWork, stock: Stock) -> list[Piece]:
    """Every piece of the tail.

    Args:
        design: The design. [-]
        airframe: Its shape. [-]
        board: Its board. [-]
        stock: The stock tables. [-]

    Returns:
        Stab, elevator, fin, rudder, in layers, and stiffeners.

    Raises:
        DesignError: Stock has no such stiffener, or a piece cannot be split.

    Source:
        Definition of the design file; hinge bevels are common practice.

    Example:
        >>> len(tail_pieces(design, airframe, board, stock))
        6
    """
    halves = _halves(design, airframe, board, "stab")
    flat_stab = design.stab.dihedral == 0.0 and design.tail.kind != "V"
    whole = design.stab.span <= board.longest
    pieces: list[Piece] = []
    for half in halves:
        pieces += [_joined(half)] if flat_stab and whole else pair(half)
    if airframe.fin is not None and design.fin is not None:
        pieces += _halves(design, airframe, board, "fin")
        pieces += fin_pins(design, airframe, stock)
        pieces += _stiffeners(design.fin, airframe.fin.panels[0], stock, "fin", sides=1)
    pieces += _stiffeners(design.stab, airframe.stab.panels[0], stock, "stab", sides=2)
    return pieces


def _halves(design: Design, airframe: Airframe, board: BoardWork, field: str) -> list[Piece]:
    """Fixed and hinged pieces of one side, layer by layer."""
    surface = design.stab if field == "stab" else design.fin
    laid = airframe.stab if field == "stab" else airframe.fin
    if surface is None or laid is None:
        return []
    panel = laid.panels[0]
    split_places(panel_length(panel), board.longest, field=f"{field}.span")
    fixed, moved, hinge = _rings(surface, panel, field)
    vee = field == "stab" and design.tail.kind == "V"
    names = ("V-tail half", "ruddervator") if vee else FIXED_AND_HINGED[field]
    frame = _frame(panel)
    pieces: list[Piece] = []
    for ring, name, hinged in ((fixed, names[0], False), (moved, names[1], True)):
        for layer in range(surface.layers):
            middle = 2 * layer == surface.layers - 1
            shape, cuts = ring, ()
            if field == "fin":
                shape = _with_relief(ring, design, airframe) if hinged else ring
                shape = _with_tabs(shape, design, airframe) if middle and not hinged else shape
            elif not hinged:
                cuts = stab_slots(design, airframe, board.thickness)
            suffix = f"-{layer + 1}" if surface.layers > 1 else ""
            tail = "-right" if field == "stab" else ""
            lines = _hinge_lines(hinge, board.thickness, moved=hinged)
            if field == "fin":
                lines = tuple(kept for line in lines for kept in on_part(shape, line))
            if hinged:
                lines += horn_marks(design, airframe, field)
            pieces.append(
                Piece(
                    id=f"{name.replace(' ', '-').lower()}{suffix}{tail}",
                    name=name,
                    kind=name,
                    stock=board.name,
                    source=Source.BOARD,
                    ring=shape,
                    areal_mass=board.areal_mass,
                    thickness=board.thickness,
                    flats=(_laid(shape, panel, frame, layer - 0.5 * (surface.layers - 1), board),),
                    lines=lines,
                    fold_along=(1.0, 0.0),
                    notes=_notes(design, surface, board, hinged=hinged, field=field),
                    cuts=cuts,
                )
            )
    return pieces


def _frame(panel: LiftingPanel) -> tuple[Array, Array, Array]:
    """Outwards, forwards and square to both."""
    out, twist = _outward(panel), panel.root_twist
    normal = np.array([0.0, -out[2], out[1]])
    aft = math.cos(twist) * np.array([1.0, 0.0, 0.0]) - math.sin(twist) * normal
    return out, -aft, normal


def _laid(
    ring: Array,
    panel: LiftingPanel,
    frame: tuple[Array, Array, Array],
    level: float,
    board: BoardWork,
) -> Flat:
    out, forward, normal = frame
    origin = np.array(panel.root) + level * board.thickness * normal
    return Flat(ring, origin, out, forward, board.thickness)


def _notes(
    design: Design, surface: TailSurface, board: BoardWork, *, hinged: bool, field: str
) -> str:
    if hinged:
        return "Hinge: tape or kept paper along the straight edge."
    if field == "fin":
        return "Tabs go into their slots square to the stab."
    if design.tail.kind == "V":
        angle = math.degrees(surface.dihedral)
        return f"Bevel the root edge {angle:.0f}°; the halves meet in the V."
    if design.stab.span > board.longest:
        return "The halves butt on the centre line: tape both faces, stiffener across the joint."
    return ""


def _joined(half: Piece) -> Piece:
    """A right half and its mirror image as one piece across the centre."""
    flat, ring = half.flats[0], _both(half.ring)
    lines = tuple(
        replace(line, points=tuple((-u, v) for u, v in line.points))
        if line.kind is LineKind.MARK  # the elevator's horn, on the left
        else replace(line, points=(*((-u, v) for u, v in line.points[::-1]), *line.points[1:]))
        for line in half.lines
    )
    middle = [v for u, v in half.ring.tolist() if abs(u) < 1e-9]
    if not middle:
        middle = half.ring[:, 1].tolist()
    centre = Line(LineKind.MARK, ((0.0, min(middle)), (0.0, max(middle))), "centre line")
    return replace(
        half,
        id=half.id.removesuffix("-right"),
        ring=ring,
        flats=(replace(flat, ring=ring),),
        lines=(*lines, centre),
    )


def _stiffeners(
    surface: TailSurface, panel: LiftingPanel, stock: Stock, field: str, *, sides: int
) -> list[Piece]:
    """A stick, rod or tape along the span, just ahead of the hinge line."""
    name = surface.stiffener
    if name is None or surface.stiffener_extent <= 0.0:
        return []
    if name in stock.tapes:
        tape = stock.tapes[name]
        width, height, areal, source = tape.width, 0.0001, tape.areal_mass, Source.TAPE
    else:
        rod = entry(stock.rods, name, f"{field}.stiffener")
        width, height, areal, source = rod.width, rod.height, rod_areal_mass(rod), Source.LENGTH
    length = surface.stiffener_extent * panel_length(panel)
    out = _outward(panel)
    normal = np.array([0.0, -out[2], out[1]])
    forward = np.array([-1.0, 0.0, 0.0])
    behind = 0.5 * surface.hinge * surface.chord
    ring = rectangle(length, width)
    origin = (
        np.array(panel.root)
        - (behind + 0.5 * width) * forward
        + (0.5 * (panel.section.thickness_ratio * panel.section.chord + height)) * normal
    )
    right = Piece(
        id=f"{field}-stiffener-right" if sides == 2 else f"{field}-stiffener",
        name=f"{field} stiffener",
        kind=f"{field} stiffener",
        stock=name,
        source=source,
        ring=ring,
        areal_mass=areal,
        thickness=height,
        flats=(Flat(ring, origin, out, forward, height),),
        notes="Let into the board or taped on." if source is Source.LENGTH else "",
    )
    if sides == 1:
        return [right]
    return [
        replace(right, side="right"),
        mirrored(right, id=f"{field}-stiffener-left", side="left"),
    ]
