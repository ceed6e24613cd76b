"""Holes for aileron servos in the wing's pieces, right and left."""

from collections.abc import Callable
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from foamwright.parts.piece import Piece, pair
from foamwright.parts.wing_run import Span, WingOpening, WingRun

ROOM = 0.003  # m between a servo's hole and spar, bevel or hinge; assumed

type Array = NDArray[np.float64]
type Mapper = Callable[[float, float], tuple[float, float]]


def room_behind(run: WingRun, opening: WingOpening) -> tuple[float, float]:
    """Between what distances behind the leading edge a servo's hole may lie.

    Args:
        run: The wing. [-]
        opening: The hole. [-]

    Returns:
        Behind spar or nose, ahead of bevel or aileron. [m], [m]

    Source:
        Geometry.

    Example:
        >>> [round(x, 4) for x in room_behind(run, run.openings[0])]
        [0.0688, 0.1558]
    """
    frame = next(f for f in run.frames if opening.place <= f.start + f.length + 1e-9)
    chord, wing = frame.station(opening.place).chord, run.design.wing
    low = 2.0 * run.board.thickness
    if wing.build != "stepped" and wing.spar.strips > 0:
        wide = wing.spar.strip_width
        wide = wide if wing.spar.laid == "flat" else wing.spar.strips * run.board.thickness
        low = wing.spar.position * chord + 0.5 * wide
    bevel = next((line.at for line in frame.panel.section.lines if line.kind == "bevel"), 0.0)
    moved = run.aileron.chord + run.board.thickness if run.aileron is not None else 0.0
    return low + ROOM, chord - max(bevel, moved) - ROOM


def opened_pair(run: WingRun, span: Span, piece: Piece, *, at: Mapper) -> list[Piece]:
    """A wing piece and its mirror image with the holes that fall on each.

    Args:
        run: The wing. [-]
        span: The stretch that the piece covers. [-]
        piece: The right one. [-]
        at: From a place along the half span and a distance behind the leading edge to the piece's
            flat frame. [m]

    Returns:
        Right and left; only mirror images of each other when their holes are.

    Source:
        Definition.

    Example:
        >>> opened_pair(run, span, piece, at=blank.below)  # doctest: +SKIP
        [Piece(...), Piece(...)]
    """
    cuts: dict[int, list[Array]] = {1: [], -1: []}
    words: list[str] = []
    for opening in run.openings:
        if not span.start - 1e-9 <= opening.place < span.end:
            continue
        low, high = room_behind(run, opening)
        if opening.behind - 0.5 * opening.long < low or opening.behind + 0.5 * opening.long > high:
            words.append(f"No room to let the {opening.label} in: glue it on the outside.")
            continue
        ring = _ring(opening, at)
        for side in (1, -1):
            if opening.side in (0, side):
                cuts[side].append(ring)
    notes = " ".join([piece.notes, *dict.fromkeys(words)]).strip()
    right, left = pair(replace(piece, cuts=tuple(cuts[1]), notes=notes))
    alike = len(cuts[1]) == len(cuts[-1]) and all(
        np.allclose(a, b) for a, b in zip(cuts[1], cuts[-1], strict=True)
    )
    if not alike:
        flip = np.array([-1.0, 1.0])
        left = replace(left, cuts=tuple(cut[::-1] * flip for cut in cuts[-1]), mirrored_of="")
    return [right, left]


def _ring(opening: WingOpening, at: Mapper) -> Array:
    half_span, half_chord = 0.5 * opening.wide, 0.5 * opening.long
    inner, outer = opening.place - half_span, opening.place + half_span
    if opening.side == 0:
        inner, outer = -half_span, half_span
    front, back = opening.behind - half_chord, opening.behind + half_chord
    corners = ((inner, back), (outer, back), (outer, front), (inner, front))
    return np.array([at(place, behind) for place, behind in corners])
