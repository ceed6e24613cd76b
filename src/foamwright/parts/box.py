"""A folded box fuselage: sides, bottom, top and formers."""

import math
from dataclasses import replace
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from foamwright.design.model import Design
from foamwright.parts.fuselage import SideWork, fuselage_marks
from foamwright.parts.joints import LETTERS, split_places
from foamwright.parts.material import BoardWork
from foamwright.parts.model import Line, LineKind, Source
from foamwright.parts.piece import Flat, Piece, mirrored, rectangle
from foamwright.parts.side_joints import Splice, joint_covers, joint_tapes
from foamwright.parts.side_view import SideView, between
from foamwright.parts.wing_frame import unit
from foamwright.shape.body import nose_length, saddle_range

X = np.array([1.0, 0.0, 0.0])
Y = np.array([0.0, 1.0, 0.0])
Z = np.array([0.0, 0.0, 1.0])

type Array = NDArray[np.float64]


def box_fuselage(work: SideWork, view: SideView) -> list[Piece]:
    """Pieces of a box fuselage.

    Args:
        work: What all sides share. [-]
        view: Side view with the saddle. [-]

    Returns:
        Sides, bottom, top ahead of and behind the wing, formers, and what covers the joints.

    Raises:
        DesignError: A side cannot be split on this board.

    Source:
        Common practice.

    Example:
        >>> len(box_fuselage(work, view))  # doctest: +SKIP
        9
    """
    design, board = work.design, work.board
    rows = [(station.x, station.width) for station in work.airframe.body.stations]
    widths = np.array(rows)
    pieces = _sides(work, view=view, widths=widths)
    length = design.fuselage.length
    pieces += _skin("bottom", view.bottom, (0.0, length), board, widths=widths, up=1.0)
    gaps = [(0.0, view.wing_front), (view.wing_back, length)]
    if design.wing.place == "low":
        gaps = [(0.0, length)]
    for number, ends in enumerate(gaps):
        if ends[1] - ends[0] > 0.02:
            label = "top" if len(gaps) == 1 else ("top front", "top rear")[number]
            pieces += _skin(label, view.top, ends, board, widths=widths, up=-1.0)
    return [*pieces, *_formers(design, board, view, widths)]


def _sides(work: SideWork, *, view: SideView, widths: Array) -> list[Piece]:
    design, airframe, board = work.design, work.airframe, work.board
    length, bend = design.fuselage.length, min(saddle_range(design)[1], design.fuselage.length)
    marks = fuselage_marks(design, airframe, view)
    cuts = split_places(length, board.longest, avoid=(bend,), field="fuselage.length")
    pieces: list[Piece] = []
    for index, (a, b) in enumerate(pairwise([0.0, *cuts, length])):
        letter = f"-{LETTERS[index]}" if cuts else ""
        flats: list[Flat] = []
        edges = [a, bend, b] if a + 1e-6 < bend < b - 1e-6 else [a, b]
        for c, d in pairwise(edges):
            y = 0.5 * np.interp([c, d], widths[:, 0], widths[:, 1]) - 0.5 * board.thickness
            along = unit(np.array([d - c, float(y[1] - y[0]), 0.0]))
            origin = np.array([c, float(y[0]), 0.0]) - c * along
            flats.append(Flat(between(view, c, d), origin, along, Z, board.thickness))
        lines = [m for m in marks if all(a <= x <= b for x, _ in m.points)]
        if len(edges) == 3:
            lines.append(_upright(view, bend, LineKind.SCORE, "bend inwards"))
        right = Piece(
            id=f"fuselage-side{letter}-right",
            name="fuselage side",
            kind=f"fuselage side{letter.replace('-', ' ')}",
            stock=board.name,
            source=Source.BOARD,
            side="right",
            ring=between(view, a, b),
            areal_mass=board.areal_mass,
            thickness=board.thickness,
            flats=tuple(flats),
            lines=tuple(lines),
            notes="Drawn on the inside face.",
            cuts=tuple(
                cut.ring
                for cut in work.cuts
                if not cut.middle_only and cut.ring[:, 0].max() > a and cut.ring[:, 0].min() < b
            ),
        )
        pieces += [right, mirrored(right, id=f"fuselage-side{letter}-left", side="left")]
    for number, place in enumerate(cuts):
        y = 0.5 * float(np.interp(place, widths[:, 0], widths[:, 1])) - 1.5 * board.thickness
        pieces += _inner_doubler(work, view, place, number=number, y=y)
    if work.tape is not None:
        pieces += joint_tapes(work.tape, view, places=cuts)
    return pieces


def _inner_doubler(
    work: SideWork, view: SideView, place: float, *, number: int, y: float
) -> list[Piece]:
    """A doubler on the inside of each side, across its joint."""
    splice = Splice(number, y - work.board.thickness, (place,), ())
    (piece,) = joint_covers(work.board, view, splice, cuts=[cut.ring for cut in work.cuts])
    right = replace(piece, notes="Glued inside, over the joint.")
    return [right, mirrored(right, id=right.id.removesuffix("right") + "left", side="left")]


def _upright(view: SideView, x: float, kind: LineKind, label: str) -> Line:
    low = float(np.interp(x, view.bottom[:, 0], view.bottom[:, 1]))
    high = float(np.interp(x, view.top[:, 0], view.top[:, 1]))
    return Line(kind, ((x, low), (x, high)), label)


def _skin(
    label: str,
    line: Array,
    ends: tuple[float, float],
    board: BoardWork,
    *,
    widths: Array,
    up: float,
) -> list[Piece]:
    """Unroll a strip that follows a line of the side view between the sides."""
    inside = line[(line[:, 0] > ends[0] + 1e-6) & (line[:, 0] < ends[1] - 1e-6), 0]
    stops = widths[(widths[:, 0] > ends[0] + 1e-6) & (widths[:, 0] < ends[1] - 1e-6), 0]
    cuts = split_places(ends[1] - ends[0], 0.98 * board.longest, field="fuselage.length")
    joints = np.array([c + ends[0] for c in cuts])
    marks: Array = np.concatenate([np.array(ends), inside, stops, joints])
    places: Array = np.array(sorted({round(x, 6) for x in marks.tolist()}))
    heights = np.interp(places, line[:, 0], line[:, 1]) + up * 0.5 * board.thickness
    half = 0.5 * np.interp(places, widths[:, 0], widths[:, 1]) - board.thickness
    arc = np.concatenate([[0.0], np.cumsum(np.hypot(np.diff(places), np.diff(heights)))])
    pieces: list[Piece] = []
    breaks = [0, *(int(np.argmin(np.abs(places - j))) for j in joints), len(places) - 1]
    for number, (i, j) in enumerate(pairwise(breaks)):
        run, wide = arc[i : j + 1] - arc[i], half[i : j + 1]
        ring = np.vstack([np.column_stack([run, -wide]), np.column_stack([run, wide])[::-1]])
        flats: list[Flat] = []
        for k in range(j - i):
            a, b = i + k, i + k + 1
            along = unit(np.array([places[b] - places[a], 0.0, heights[b] - heights[a]]))
            origin = np.array([places[a], 0.0, heights[a]]) - run[k] * along
            quad = np.array(
                [
                    [run[k], -wide[k]],
                    [run[k + 1], -wide[k + 1]],
                    [run[k + 1], wide[k + 1]],
                    [run[k], wide[k]],
                ]
            )
            flats.append(Flat(quad, origin, along, Y, board.thickness))
        tag = f" {LETTERS[number]}" if len(joints) else ""
        name = f"fuselage {label}"
        pieces.append(
            Piece(
                id=f"{name}{tag}".replace(" ", "-"),
                name=name,
                kind=f"{name}{tag}",
                stock=board.name,
                source=Source.BOARD,
                ring=ring,
                areal_mass=board.areal_mass,
                thickness=board.thickness,
                flats=tuple(flats),
                lines=_bends(places[i : j + 1], heights[i : j + 1], run, wide),
                notes="Fits between the sides.",
            )
        )
    return pieces


def _bends(places: Array, heights: Array, run: Array, wide: Array) -> tuple[Line, ...]:
    slopes = np.diff(heights) / np.diff(places)
    lines: list[Line] = []
    for k, turn in enumerate(np.diff(slopes), start=1):
        if abs(math.atan(turn)) > 0.02:
            u, v = float(run[k]), float(wide[k])
            lines.append(Line(LineKind.SCORE, ((u, -v), (u, v)), "bend"))
    return tuple(lines)


def _formers(design: Design, board: BoardWork, view: SideView, widths: Array) -> list[Piece]:
    pieces: list[Piece] = []
    spots = {
        "nose former": nose_length(design),
        "front wing former": view.wing_front,
        "rear wing former": view.wing_back,
    }
    for name, x in spots.items():
        if not 0.01 < x < design.fuselage.length - 0.01:
            continue
        low = float(np.interp(x, view.bottom[:, 0], view.bottom[:, 1])) + board.thickness
        # At the saddle's ends the lower of the two heights on either side fits.
        near = [float(np.interp(x + e, view.top[:, 0], view.top[:, 1])) for e in (-1e-4, 1e-4)]
        high = min(near) - board.thickness
        wide = float(np.interp(x, widths[:, 0], widths[:, 1])) - 2.0 * board.thickness
        if high - low < 0.005 or wide < 0.005:
            continue
        ring = rectangle(wide, high - low)
        flat = Flat(ring, np.array([x, -0.5 * wide, low]), Y, Z, board.thickness)
        pieces.append(
            Piece(
                id=name.replace(" ", "-"),
                name=name,
                kind=name,
                stock=board.name,
                source=Source.BOARD,
                ring=ring,
                areal_mass=board.areal_mass,
                thickness=board.thickness,
                flats=(flat,),
                notes="Square across the fuselage; open it for leads and rods.",
            )
        )
    return pieces
