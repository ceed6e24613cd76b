"""A folded box fuselage: sides, bottom, top and formers."""

import math
from dataclasses import dataclass, replace
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from foamwright.design.model import Design
from foamwright.parts.estimates import pack_size
from foamwright.parts.fuselage import SideWork, fuselage_marks, hole_ranges
from foamwright.parts.joints import LETTERS, split_places
from foamwright.parts.material import BoardWork
from foamwright.parts.model import Line, LineKind, Source
from foamwright.parts.piece import Flat, Piece, mirrored, rectangle
from foamwright.parts.side_joints import Splice, joint_covers, joint_tapes
from foamwright.parts.side_view import SideView, between, view_at
from foamwright.parts.wing_frame import unit
from foamwright.shape.body import nose_length, saddle_range

X = np.array([1.0, 0.0, 0.0])
Y = np.array([0.0, 1.0, 0.0])
Z = np.array([0.0, 0.0, 1.0])

LEAST_TOP = 0.02  # m; a shorter piece of top is left out; assumed
HATCH_ROOM = 0.01  # m ahead of and behind the pack, for fingers; common practice
HATCH_PLAY = 0.0005  # m at each end of the hatch; common practice
HATCH_SHARE = 0.6  # of the pack's length: a shorter hatch lets no pack through; assumed
HATCH_NOTE = (
    "Lifts off over the pack: do not glue it in. Tape its front edge as a hinge and hold the rear "
    "with tape, a magnet or a band."
)
RIM = 0.010  # m of board left round a former's opening; common practice
LEAST_OPENING = 0.010  # m; a smaller one is not drawn; assumed

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
    length, cuts = design.fuselage.length, _side_cuts(work)
    pieces = _sides(work, view=view, widths=widths, cuts=cuts)
    shell = _Shell(board, widths, cuts)
    joints, made = _skin("bottom", view.bottom, (0.0, length), shell, up=1.0)
    pieces += made
    shell = replace(shell, avoid=(*cuts, *joints))
    for label, ends in _tops(design, view):
        pieces += _skin(label, view.top, ends, shell, up=-1.0)[1]
    return [*pieces, *_formers(work, view, widths)]


def _tops(design: Design, view: SideView) -> list[tuple[str, tuple[float, float]]]:
    """Stretches of the top: fixed ones, and the hatch over the pack."""
    length, hatch = design.fuselage.length, hatch_range(design, view)
    low = design.wing.place == "low"
    front = length if low else view.wing_front
    stretches: list[tuple[str, tuple[float, float]]] = []
    if hatch is None:
        stretches.append(("top" if low else "top front", (0.0, front)))
    else:
        stretches.append(("top front", (0.0, hatch[0])))
        stretches.append(("hatch", (hatch[0] + HATCH_PLAY, hatch[1] - HATCH_PLAY)))
        stretches.append(("top middle", (hatch[1], front)))
    if not low:
        stretches.append(("top rear", (view.wing_back, length)))
    else:
        stretches = [("top rear" if t == "top middle" else t, ends) for t, ends in stretches]
    return [(label, ends) for label, ends in stretches if ends[1] - ends[0] > LEAST_TOP]


def hatch_range(design: Design, view: SideView) -> tuple[float, float] | None:
    """From where to where the top of a box lifts off over the pack.

    Args:
        design: The design. [-]
        view: Side view with the saddle. [-]

    Returns:
        Front and back; None where the pack lies under the wing and is reached by taking that off,
        or where no hatch as long as 60 % of the pack finds room. [m]

    Source:
        Common practice.

    Example:
        >>> [round(x, 4) for x in hatch_range(design, view)]
        [0.0901, 0.1524]
    """
    long, middle = pack_size(design.pack)[0], design.pack.position
    low = design.wing.place == "low"
    end = design.fuselage.length - 0.02 if low else view.wing_front
    start = max(LEAST_TOP, min(nose_length(design), middle - 0.5 * long - HATCH_ROOM))
    back = min(middle + 0.5 * long + HATCH_ROOM, end)
    back = end if end - back < LEAST_TOP and not low else back
    return (start, back) if back - start >= HATCH_SHARE * long and middle < end else None


def _side_cuts(work: SideWork) -> tuple[float, ...]:
    length = work.design.fuselage.length
    bend = min(saddle_range(work.design)[1], length)
    holes = hole_ranges(work.cuts)
    return split_places(
        length, work.board.longest, avoid=(bend,), keep_out=holes, field="fuselage.length"
    )


def _sides(
    work: SideWork, *, view: SideView, widths: Array, cuts: tuple[float, ...]
) -> list[Piece]:
    design, airframe, board = work.design, work.airframe, work.board
    length, bend = design.fuselage.length, min(saddle_range(design)[1], design.fuselage.length)
    marks = fuselage_marks(design, airframe, view)
    out = 0.5 * float(np.interp(0.5 * sum(saddle_range(design)), *widths.T)) - board.thickness
    tail_out = 0.5 * float(np.interp(design.stab.position, *widths.T)) - board.thickness
    view = view_at(view, max(out, 0.0), tail_out=max(tail_out, 0.0))
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


@dataclass(frozen=True, slots=True)
class _Shell:
    """What bottom and top of the box share."""

    board: BoardWork
    widths: Array
    avoid: tuple[float, ...]  # joints of the other walls


def _skin(
    label: str, line: Array, ends: tuple[float, float], shell: _Shell, *, up: float
) -> tuple[list[float], list[Piece]]:
    """Unroll a strip that follows a line of the side view between the sides; its joints, too."""
    board, widths = shell.board, shell.widths
    inside = line[(line[:, 0] > ends[0] + 1e-6) & (line[:, 0] < ends[1] - 1e-6), 0]
    stops = widths[(widths[:, 0] > ends[0] + 1e-6) & (widths[:, 0] < ends[1] - 1e-6), 0]
    cuts = split_places(
        ends[1] - ends[0],
        0.98 * board.longest,
        avoid=tuple(j - ends[0] for j in shell.avoid if ends[0] < j < ends[1]),
        field="fuselage.length",
    )
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
                notes=HATCH_NOTE if label == "hatch" else "Fits between the sides.",
            )
        )
    return joints.tolist(), pieces


def _bends(places: Array, heights: Array, run: Array, wide: Array) -> tuple[Line, ...]:
    slopes = np.diff(heights) / np.diff(places)
    lines: list[Line] = []
    for k, turn in enumerate(np.diff(slopes), start=1):
        if abs(math.atan(turn)) > 0.02:
            u, v = float(run[k]), float(wide[k])
            lines.append(Line(LineKind.SCORE, ((u, -v), (u, v)), "bend"))
    return tuple(lines)


def _formers(work: SideWork, view: SideView, widths: Array) -> list[Piece]:
    design, board = work.design, work.board
    pieces: list[Piece] = []
    spots = {
        "nose former": _clear_of_dowels(work, nose_length(design)),
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
        opening = _opening(wide, high - low)
        pieces.append(
            Piece(
                id=f"fuselage-former-{name.removesuffix(' former').replace(' ', '-')}",
                name=name,
                kind=name,
                stock=board.name,
                source=Source.BOARD,
                ring=ring,
                areal_mass=board.areal_mass,
                thickness=board.thickness,
                flats=(flat,),
                notes="Square across the fuselage; leads and rods go through the opening."
                if opening
                else "Square across the fuselage; pierce it for leads and rods.",
                cuts=opening,
                either_face=board.papers != 1,
            )
        )
    return pieces


def _opening(wide: float, tall: float) -> tuple[Array, ...]:
    """The opening of a former, where its rim leaves room for one."""
    inner = wide - 2.0 * RIM, tall - 2.0 * RIM
    return (rectangle(*inner, at=(RIM, RIM)),) if min(inner) >= LEAST_OPENING else ()


def _clear_of_dowels(work: SideWork, x: float) -> float:
    """A former's place moved forward where a wing dowel would run through its plane."""
    reach = 0.5 * work.board.thickness + 0.001
    for cut in work.cuts:
        low, high = float(cut.ring[:, 0].min()), float(cut.ring[:, 0].max())
        if cut.label == "wing dowel" and low - reach < x < high + reach:
            return low - reach
    return x
