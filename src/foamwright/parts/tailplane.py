"""Stab, elevator, fin, rudder, their stiffeners and horns."""

import math
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from foamwright.design.model import Design, TailSurface
from foamwright.parts.joints import split_places
from foamwright.parts.material import BoardWork, entry, rod_areal_mass
from foamwright.parts.model import Line, LineKind, Source
from foamwright.parts.piece import Flat, Piece, mirrored, pair, rectangle
from foamwright.shape.model import Airframe, LiftingPanel
from foamwright.shape.planform import panel_length
from foamwright.shape.surfaces import hinge_chords
from foamwright.stock.model import Stock

HINGE_GAP = 0.001  # m; common practice: below 1 mm, taped
HORN_HEIGHT = 0.010  # m of horn beyond the hole used; assumed

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


def _hinge_lines(hinge: Array, thickness: float, *, moved: bool) -> tuple[Line, ...]:
    if not moved:
        return ()
    low = hinge - np.array([0.0, HINGE_GAP + thickness])
    return (Line(LineKind.BEVEL, _points(low), "hinge bevel 45°"),)


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
        >>> len(tail_pieces(design, airframe, board, stock))  # doctest: +SKIP
        4
    """
    halves = _halves(design.stab, airframe.stab.panels[0], board, "stab")
    flat_stab = design.stab.dihedral == 0.0 and design.tail.kind != "V"
    whole = design.stab.span <= board.longest
    pieces: list[Piece] = []
    for half in halves:
        pieces += [_joined(half)] if flat_stab and whole else pair(half)
    if airframe.fin is not None and design.fin is not None:
        pieces += _halves(design.fin, airframe.fin.panels[0], board, "fin")
        pieces += _stiffeners(design.fin, airframe.fin.panels[0], stock, "fin", sides=1)
    pieces += _stiffeners(design.stab, airframe.stab.panels[0], stock, "stab", sides=2)
    return pieces


def _halves(surface: TailSurface, panel: LiftingPanel, board: BoardWork, field: str) -> list[Piece]:
    """Fixed and hinged pieces of one side, layer by layer."""
    split_places(panel_length(panel), board.longest, field=f"{field}.span")
    fixed, moved, hinge = _rings(surface, panel, field)
    out = _outward(panel)
    control = "elevator" if field == "stab" else "rudder"
    names = (
        ("V-tail half", "ruddervator")
        if field == "stab" and surface.dihedral > 0.35
        else (field, control)
    )
    twist = panel.root_twist
    normal = np.array([0.0, -out[2], out[1]])
    aft = math.cos(twist) * np.array([1.0, 0.0, 0.0]) - math.sin(twist) * normal
    pieces: list[Piece] = []
    for ring, name, hinged in ((fixed, names[0], False), (moved, names[1], True)):
        for layer in range(surface.layers):
            offset = (layer + 0.5 - 0.5 * surface.layers) * board.thickness
            suffix = f"-{layer + 1}" if surface.layers > 1 else ""
            tail = "-right" if field == "stab" else ""
            pieces.append(
                Piece(
                    id=f"{name.replace(' ', '-').lower()}{suffix}{tail}",
                    name=name,
                    kind=name,
                    stock=board.name,
                    source=Source.BOARD,
                    ring=ring,
                    areal_mass=board.areal_mass,
                    thickness=board.thickness,
                    flats=(
                        Flat(
                            ring, np.array(panel.root) + offset * normal, out, -aft, board.thickness
                        ),
                    ),
                    lines=_hinge_lines(hinge, board.thickness, moved=hinged),
                    notes="Hinge: tape or kept paper along the straight edge." if hinged else "",
                )
            )
    return pieces


def _joined(half: Piece) -> Piece:
    """A right half and its mirror image as one piece across the centre."""
    flat, ring = half.flats[0], _both(half.ring)
    lines = tuple(
        replace(line, points=(*((-u, v) for u, v in line.points[::-1]), *line.points[1:]))
        for line in half.lines
    )
    middle = [v for u, v in half.ring.tolist() if abs(u) < 1e-9]
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
