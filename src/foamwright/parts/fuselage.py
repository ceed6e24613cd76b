"""A laminated profile fuselage: core, sides, shoulders at the saddle, built-up nose."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from foamwright.design.model import Design
from foamwright.parts.joints import LETTERS, split_places
from foamwright.parts.material import BoardWork
from foamwright.parts.model import Line, LineKind, Source
from foamwright.parts.openings import SideCut
from foamwright.parts.piece import Flat, Piece, mirrored
from foamwright.parts.side_joints import Splice, joint_covers, joint_tapes
from foamwright.parts.side_view import SideView, between, view_at
from foamwright.shape.body import nose_length, saddle_range
from foamwright.shape.model import Airframe
from foamwright.stock.model import TapeStock

X = np.array([1.0, 0.0, 0.0])
Z = np.array([0.0, 0.0, 1.0])

type Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class SideWork:
    """What all layers of the fuselage share.

    Attributes:
        design: The design.
        airframe: Its shape.
        board: Its board.
        cuts: What is cut through layers.
        words: For the builder, on what found no room.
        tape: Over the joints; None for none.
    """

    design: Design
    airframe: Airframe
    board: BoardWork
    cuts: tuple[SideCut, ...]
    words: tuple[str, ...]
    tape: TapeStock | None


def profile_fuselage(work: SideWork, view: SideView) -> list[Piece]:
    """Layers of a laminated profile.

    Layers to the left and right of the middle are mirror images; each is drawn on the face that
    looks outwards.

    Args:
        work: What all layers share. [-]
        view: Side view with the seats cut out. [-]

    Returns:
        Full-length layers, shoulder layers, nose layers, and what covers their joints.

    Raises:
        DesignError: A layer cannot be split with staggered joints.

    Source:
        Common practice: three layers, about seven at the saddle, nose built up behind the firewall.

    Example:
        >>> len(profile_fuselage(work, view))  # doctest: +SKIP
        14
    """
    design, board = work.design, work.board
    body, thickness = design.fuselage, board.thickness
    marks = fuselage_marks(design, work.airframe, view)
    split = body.length > board.longest
    pieces: list[Piece] = []
    avoid: tuple[float, ...] = ()
    joints: list[float] = []
    holes = hole_ranges(work.cuts)
    for layer in range(body.layers):
        y = (layer + 0.5 - 0.5 * body.layers) * thickness
        twin = body.layers - 1 - layer
        if not split and y > 1e-9:
            name = f"fuselage-{twin + 1}"
            first = next(piece for piece in pieces if piece.id == name)
            other = mirrored(first, id=f"fuselage-{layer + 1}", side="right")
            pieces.append(replace(other, name=_name(layer, body.layers)))
            continue
        own = view_at(view, abs(y))
        cuts = split_places(
            body.length, board.longest, avoid=avoid, keep_out=holes, field="fuselage.length"
        )
        avoid = (*avoid, *cuts) if len(avoid) < 3 else cuts
        for index, (a, b) in enumerate(pairwise([0.0, *cuts, body.length])):
            letter = LETTERS[index] if cuts else ""
            half = f", {_stretch(index, len(cuts) + 1)}" if cuts else ""
            piece = _layer(
                work,
                f"fuselage-{layer + 1}{letter}",
                _name(layer, body.layers) + half,
                y=y,
                view=own,
                ends=(a, b),
                lines=_inside(marks, a, b),
            )
            pieces.append(replace(piece, kind="fuselage profile layer", fold_along=(1.0, 0.0)))
        joints += cuts
        if layer in (0, body.layers - 1):
            splice = Splice(layer, y, cuts, _covered(work))
            pieces += joint_covers(board, own, splice, cuts=[cut.ring for cut in work.cuts])
    nose, (front, back) = nose_length(design), saddle_range(design)
    pieces += _build_up(work, "nose", view, layers=body.nose_layers, ends=(0.0, nose))
    start = max(front, nose) if body.nose_layers >= body.saddle_layers else front
    if back - start > 0.01:
        pieces += _build_up(work, "shoulder", view, layers=body.saddle_layers, ends=(start, back))
    if work.tape is not None:
        pieces += joint_tapes(work.tape, view, places=joints)
    return pieces


def hole_ranges(cuts: Sequence[SideCut]) -> tuple[tuple[float, float], ...]:
    """Stretches of the fuselage with a hole or slot, which no joint should cross.

    Args:
        cuts: What is cut through the sides. [-]

    Returns:
        (front, back) of each. [m]

    Source:
        Definition.

    Example:
        >>> hole_ranges(())
        ()
    """
    return tuple((float(cut.ring[:, 0].min()), float(cut.ring[:, 0].max())) for cut in cuts)


def _name(layer: int, layers: int) -> str:
    return f"fuselage profile layer {layer + 1} of {layers}"


def _stretch(index: int, pieces: int) -> str:
    """Say which piece of a split layer it is, counted from the nose."""
    halves = ("front half", "rear half")
    return halves[index] if pieces == 2 else f"piece {index + 1} from the nose"


def _covered(work: SideWork) -> tuple[tuple[float, float], ...]:
    """Stretches along which nose or shoulder layers lie outside the full-length ones."""
    body = work.design.fuselage
    found: list[tuple[float, float]] = []
    if body.nose_layers >= body.layers + 2:
        found.append((0.0, nose_length(work.design)))
    if body.saddle_layers >= body.layers + 2:
        found.append(saddle_range(work.design))
    return tuple(found)


def _build_up(
    work: SideWork, name: str, view: SideView, *, layers: int, ends: tuple[float, float]
) -> list[Piece]:
    """Extra layers outside the full-length ones, shared out left and right in mirrored pairs."""
    core, thickness = work.design.fuselage.layers, work.board.thickness
    extra = max(layers - core, 0)
    right: list[Piece] = []
    left: list[Piece] = []
    for index in range((extra + 1) // 2):
        y = -(0.5 * core + index + 0.5) * thickness
        piece = _layer(
            work,
            f"fuselage-{name}-{index + 1}-left",
            f"fuselage {name} layer",
            y=y,
            view=view_at(view, -y),
            ends=ends,
        )
        other = mirrored(piece, id=f"fuselage-{name}-{index + 1}-right", side="right")
        paired = index < extra // 2
        right.append(other if paired else replace(other, mirrored_of=""))
        left += [piece] if paired else []
    return [*left, *right]


def _layer(
    work: SideWork,
    id: str,
    name: str,
    *,
    y: float,
    view: SideView,
    ends: tuple[float, float],
    lines: tuple[Line, ...] = (),
) -> Piece:
    """One layer as seen from the left; right-hand ones are turned over by mirroring."""
    board, ring = work.board, between(view, *ends)
    cuts = tuple(
        cut.ring
        for cut in work.cuts
        if (not cut.middle_only or abs(y) < 1e-9)
        and cut.ring[:, 0].max() > ends[0]
        and cut.ring[:, 0].min() < ends[1]
    )
    notes = ["Glue paper to paper under weights."]
    if abs(y) < 1e-9:
        side = ""
        notes.insert(0, "Drawn from the left, nose to the left.")
    else:
        side = "left" if y < 0.0 else "right"
        notes.insert(0, "The drawn face looks outwards.")
    piece = Piece(
        id=id,
        name=name,
        kind=name,
        stock=board.name,
        source=Source.BOARD,
        ring=ring,
        areal_mass=board.areal_mass,
        thickness=board.thickness,
        flats=(Flat(ring, np.array([0.0, -abs(y), 0.0]), X, Z, board.thickness),),
        lines=lines,
        side="left" if side else "",
        fold_along=None,
        notes=" ".join([*notes, *work.words]),
        cuts=cuts,
    )
    return replace(mirrored(piece, id=id, side="right"), mirrored_of="") if y > 1e-9 else piece


def fuselage_marks(design: Design, airframe: Airframe, view: SideView) -> tuple[Line, ...]:
    """Pencil lines of the side view: datum, wing, mean chord, tail.

    The two marks on the mean chord are geometry, not a balance: where the plane must balance is
    known only once everything is weighed.

    Args:
        design: The design. [-]
        airframe: Its shape. [-]
        view: Side view with the saddle. [-]

    Returns:
        The marks.

    Source:
        Common practice.

    Example:
        >>> [mark.label for mark in fuselage_marks(design, airframe, view)]
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
    upright(wing.mean_chord_x + 0.25 * wing.mean_chord, "25 % mean chord")
    upright(wing.mean_chord_x + 0.33 * wing.mean_chord, "33 % mean chord")
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
