"""A laminated profile fuselage: core, sides, shoulders at the saddle, built-up nose."""

from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from foamwright.design.model import Design
from foamwright.parts.joints import LETTERS, split_places
from foamwright.parts.material import BoardWork
from foamwright.parts.model import Line, LineKind, Source
from foamwright.parts.piece import Flat, Piece
from foamwright.parts.side_view import SideView, between
from foamwright.shape.body import nose_length, saddle_range
from foamwright.shape.model import Airframe

X = np.array([1.0, 0.0, 0.0])
Z = np.array([0.0, 0.0, 1.0])

type Array = NDArray[np.float64]


def profile_fuselage(
    design: Design, airframe: Airframe, board: BoardWork, view: SideView
) -> list[Piece]:
    """Layers of a laminated profile.

    Args:
        design: The design. [-]
        airframe: Its shape. [-]
        board: Its board. [-]
        view: Side view with the saddle. [-]

    Returns:
        Full-length layers, shoulder layers and nose layers.

    Raises:
        DesignError: A layer cannot be split with staggered joints.

    Source:
        Common practice: three layers, about seven at the saddle, nose built up behind the firewall.

    Example:
        >>> len(profile_fuselage(design, airframe, board, view))  # doctest: +SKIP
        14
    """
    body, thickness = design.fuselage, board.thickness
    marks = fuselage_marks(design, airframe, view)
    pieces: list[Piece] = []
    avoid: tuple[float, ...] = ()
    for layer in range(body.layers):
        y = (layer + 0.5 - 0.5 * body.layers) * thickness
        cuts = split_places(body.length, board.longest, avoid=avoid, field="fuselage.length")
        avoid = (*avoid, *cuts) if len(avoid) < 3 else cuts
        for index, (a, b) in enumerate(pairwise([0.0, *cuts, body.length])):
            letter = LETTERS[index] if cuts else ""
            name = f"fuselage profile layer {layer + 1} of {body.layers}"
            pieces.append(
                _layer(
                    f"fuselage-{layer + 1}{letter}",
                    name + (f", {_stretch(index, len(cuts) + 1)}" if cuts else ""),
                    "fuselage profile layer",
                    y,
                    between(view, a, b),
                    board,
                    _inside(marks, a, b),
                )
            )
    nose, (front, back) = nose_length(design), saddle_range(design)
    pieces += _build_up("nose", body.nose_layers, design, board, view=view, ends=(0.0, nose))
    start = max(front, nose) if body.nose_layers >= body.saddle_layers else front
    if back - start > 0.01:
        pieces += _build_up(
            "shoulder", body.saddle_layers, design, board, view=view, ends=(start, back)
        )
    return pieces


def _stretch(index: int, pieces: int) -> str:
    """Say which piece of a split layer it is, counted from the nose."""
    halves = ("front half", "rear half")
    return halves[index] if pieces == 2 else f"piece {index + 1} from the nose"


def _build_up(
    name: str,
    layers: int,
    design: Design,
    board: BoardWork,
    *,
    view: SideView,
    ends: tuple[float, float],
) -> list[Piece]:
    """Extra layers outside the full-length ones, shared out left and right."""
    core = design.fuselage.layers
    extra = max(layers - core, 0)
    pieces: list[Piece] = []
    counts = ((1.0, (extra + 1) // 2, "right"), (-1.0, extra // 2, "left"))
    for sign, count, side in counts:
        for index in range(count):
            y = sign * (0.5 * core + index + 0.5) * board.thickness
            pieces.append(
                _layer(
                    f"fuselage-{name}-{index + 1}-{side}",
                    f"fuselage {name} layer",
                    f"fuselage {name} layer",
                    y,
                    between(view, *ends),
                    board,
                    (),
                )
            )
    return pieces


def _layer(
    id: str,
    name: str,
    kind: str,
    y: float,
    ring: Array,
    board: BoardWork,
    lines: tuple[Line, ...],
) -> Piece:
    return Piece(
        id=id,
        name=name,
        kind=kind,
        stock=board.name,
        source=Source.BOARD,
        ring=ring,
        areal_mass=board.areal_mass,
        thickness=board.thickness,
        flats=(Flat(ring, np.array([0.0, y, 0.0]), X, Z, board.thickness),),
        lines=lines,
        fold_along=None,
        notes="Drawn from the left, nose to the left. Glue paper to paper under weights.",
    )


def fuselage_marks(design: Design, airframe: Airframe, view: SideView) -> tuple[Line, ...]:
    """Pencil lines of the side view: datum, wing, balance, tail.

    Args:
        design: The design. [-]
        airframe: Its shape. [-]
        view: Side view with the saddle. [-]

    Returns:
        The marks.

    Source:
        Common practice.

    Example:
        >>> [mark.label for mark in fuselage_marks(design, airframe, view)]  # doctest: +SKIP
        ['fuselage line', ...]
    """
    wing, stab = airframe.wing, design.stab
    length = design.fuselage.length
    lines = [Line(LineKind.MARK, ((0.0, 0.0), (length, 0.0)), "fuselage line")]

    def upright(x: float, label: str) -> None:
        if 0.0 < x < length:
            low = float(np.interp(x, view.bottom[:, 0], view.bottom[:, 1]))
            high = float(np.interp(x, view.top[:, 0], view.top[:, 1]))
            lines.append(Line(LineKind.MARK, ((x, low), (x, high)), label))

    upright(wing.panels[0].root[0], "wing leading edge")
    upright(wing.panels[0].root[0] + wing.panels[0].root_chord, "wing trailing edge")
    upright(wing.mean_chord_x + 0.25 * wing.mean_chord, "25 % of mean chord")
    upright(wing.mean_chord_x + 0.33 * wing.mean_chord, "33 % of mean chord")
    upright(stab.position, "stab leading edge")
    upright(stab.position + stab.hinge * stab.chord, "elevator hinge")
    if design.fin is not None:
        upright(design.fin.position, "fin leading edge")
    return tuple(lines)


def _inside(marks: tuple[Line, ...], start: float, end: float) -> tuple[Line, ...]:
    """Marks that fall on a stretch, long ones cut to it."""
    kept: list[Line] = []
    for mark in marks:
        (x0, z0), (x1, z1) = mark.points
        low, high = max(min(x0, x1), start), min(max(x0, x1), end)
        if high < low or (x0 == x1 and not start <= x0 <= end):
            continue
        points = ((low, z0), (high, z1)) if x0 != x1 else mark.points
        kept.append(Line(mark.kind, points, mark.label))
    return tuple(kept)
