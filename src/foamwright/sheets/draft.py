"""A quick layout: upright boxes round the parts, packed into the free rectangles of the boards."""

import math
import random
from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
import shapely

from foamwright.parts.model import Part
from foamwright.sheets.model import Layout, Placement
from foamwright.sheets.place import (
    allowed_angles,
    board_parts,
    make_layout,
    turned,
    turned_size,
)
from foamwright.stock.load import board_of

if TYPE_CHECKING:
    from foamwright.plane import Plane

GAP = 0.003  # m between parts, room for the knife; common practice, no source
MARGIN = 0.006  # m to the board's edge, which is often dented; common practice, no source
SHAKES = 12  # shaken orders tried, about 0.3 ms each
SEED = 216  # any fixed number: the draft is the same every time
ROUNDING = 1e-9  # m, so that parts that fill a board to the last bit still fit

type Rectangle = tuple[float, float, float, float]  # left, bottom, right, top
type Way = tuple[float, float, float]  # angle, box length, box width
type Spots = dict[str, tuple[int, float, tuple[float, float]]]  # id -> board, angle, corner

ORDERS: tuple[Callable[[Way], tuple[float, ...]], ...] = (
    lambda way: (-max(way[1], way[2]), -min(way[1], way[2])),
    lambda way: (-way[1] * way[2], -max(way[1], way[2])),
    lambda way: (-min(way[1], way[2]), -max(way[1], way[2])),
)


def draft_layout(
    parts: tuple[Part, ...],
    board_length: float,
    board_width: float,
    *,
    gap: float = GAP,
    margin: float = MARGIN,
) -> Layout:
    """Lay the parts out in a few milliseconds, the same way every time.

    Each part takes the upright box round it. Boxes go, largest first, into the free rectangle that
    they fill best (best short side); several orders are tried, some shaken a little, and the one
    with fewest boards is kept.

    Args:
        parts: All parts of the plane; those not cut from board are passed over. [-]
        board_length: Long side of the board. [m]
        board_width: Short side of the board. [m]
        gap: Least distance between parts. [m]
        margin: Least distance to the board's edge. [m]

    Returns:
        The layout; parts that fit no board are named in its `unplaced`. [-]

    Valid:
        An upper bound: a search over the true outlines may save a board.

    Source:
        Maximal free rectangles, a general method of bin packing [JYLANKI].

    Example:
        >>> draft_layout((), 0.762, 0.508).boards_used
        0
    """
    wanted = board_parts(parts)
    length, width = board_length - 2 * margin, board_width - 2 * margin
    ways = {part.id: _ways(part, length, width) for part in wanted}
    fitting = [part for part in wanted if ways[part.id]]
    unplaced = tuple(part.id for part in wanted if not ways[part.id])
    area = sum(part.outline.area for part in fitting)
    room = _Room(length + gap, width + gap, gap, math.ceil(area / max(length * width, ROUNDING)))
    spots = _best_packing({part.id: ways[part.id] for part in fitting}, room)
    return make_layout(
        [_placed(part, *spots[part.id], margin) for part in fitting],
        (board_length, board_width),
        gap=gap,
        margin=margin,
        method="draft",
        unplaced=unplaced,
    )


def layout_of(plane: "Plane") -> Layout:
    """Lay out a plane's board parts on the boards that its design names, quickly.

    Args:
        plane: The plane. [-]

    Returns:
        The layout. [-]

    Source:
        Definition.

    Example:
        >>> layout_of(plane).boards_used  # doctest: +SKIP
        3
    """
    board = board_of(plane.design.board, plane.stock)
    return draft_layout(plane.parts.parts, board.length, board.width)


@dataclass(frozen=True, slots=True)
class _Room:
    """Usable board, each box standing for its part with the gap on two sides."""

    length: float
    width: float
    gap: float
    least: int  # boards that the areas alone need


def _best_packing(ways: dict[str, tuple[Way, ...]], room: _Room) -> Spots:
    """Try every order, then orders shaken a little, until no fewer boards can be had."""
    best: tuple[tuple[int, float], Spots] | None = None
    orders = [sorted(ways, key=lambda id_: (*order(ways[id_][0]), id_)) for order in ORDERS]
    shaker = random.Random(SEED)  # noqa: S311 -- shakes a packing order, guards nothing
    for turn in range(len(orders) + SHAKES):
        ordered = orders[turn] if turn < len(orders) else _shaken(orders[0], shaker)
        spots = _pack([(id_, ways[id_]) for id_ in ordered], (room.length, room.width), room.gap)
        score = _score(spots, ways, room)
        if best is None or score < best[0]:
            best = (score, spots)
        if best[0][0] <= room.least:
            break
    return {} if best is None else best[1]


def _shaken(ordered: list[str], shaker: random.Random) -> list[str]:
    """Move a few boxes to other places in the order, most of them near the front."""
    shaken = list(ordered)
    for _ in range(1 + len(shaken) // 12):
        moved = shaken.pop(shaker.randrange(len(shaken)))
        shaken.insert(shaker.randrange(len(shaken) + 1), moved)
    return shaken


def _score(spots: Spots, ways: dict[str, tuple[Way, ...]], room: _Room) -> tuple[int, float]:
    """Boards used, then how little of the last board is left clean."""
    boards = 1 + max((board for board, _, _ in spots.values()), default=-1)
    right = top = 0.0
    for id_, (board, angle, corner) in spots.items():
        if board == boards - 1:
            _, along, across = next(way for way in ways[id_] if way[0] == angle)
            right, top = max(right, corner[0] + along), max(top, corner[1] + across)
    return boards, min(right / room.length, top / room.width)


def _ways(part: Part, length: float, width: float) -> tuple[Way, ...]:
    """Angles worth trying: of two that give the same box, only the first."""
    found: list[Way] = []
    for angle in allowed_angles(part, length, width):
        size = turned_size(part.outline, angle)
        if not any(abs(size[0] - way[1]) + abs(size[1] - way[2]) < ROUNDING for way in found):
            found.append((angle, *size))
    return tuple(found)


def _placed(
    part: Part, board: int, angle: float, corner: tuple[float, float], margin: float
) -> Placement:
    flat = turned(part.outline, angle)
    left, bottom, _, _ = flat.bounds
    dx, dy = margin + corner[0] - left, margin + corner[1] - bottom
    outline = shapely.transform(flat, lambda points: points + np.array((dx, dy)))
    return Placement(part.id, board, angle, dx, dy, outline)


def _pack(
    ordered: list[tuple[str, tuple[Way, ...]]], room: tuple[float, float], gap: float
) -> Spots:
    """Part id -> (board, angle, corner)."""
    boards: list[list[Rectangle]] = []
    spots: Spots = {}
    for part_id, ways in ordered:
        chosen = _first_board(boards, ways, gap)
        if chosen is None:
            boards.append([(0.0, 0.0, room[0], room[1])])
            spot = _best_spot(boards[-1], ways, gap)
            if spot is None:  # a rounding away from the full board: every way was seen to fit
                spot = (0.0, ways[0], (0.0, 0.0))
            chosen = (len(boards) - 1, spot[1], spot[2])
        board, way, corner = chosen
        taken = (corner[0], corner[1], corner[0] + way[1] + gap, corner[1] + way[2] + gap)
        boards[board] = _split(boards[board], taken)
        spots[part_id] = (board, way[0], corner)
    return spots


def _first_board(
    boards: list[list[Rectangle]], ways: tuple[Way, ...], gap: float
) -> tuple[int, Way, tuple[float, float]] | None:
    for index, free in enumerate(boards):
        spot = _best_spot(free, ways, gap)
        if spot is not None:
            return index, spot[1], spot[2]
    return None


def _best_spot(
    free: list[Rectangle], ways: tuple[Way, ...], gap: float
) -> tuple[float, Way, tuple[float, float]] | None:
    """Free rectangle in which least is left beside the box."""
    best: tuple[tuple[float, float, float, float], Way, tuple[float, float]] | None = None
    for way in ways:
        along, across = way[1] + gap - ROUNDING, way[2] + gap - ROUNDING
        for left, bottom, right, top in free:
            spare_along, spare_across = right - left - along, top - bottom - across
            if spare_along < 0.0 or spare_across < 0.0:
                continue
            short, long = min(spare_along, spare_across), max(spare_along, spare_across)
            score = (short, long, left, bottom)
            if best is None or score < best[0]:
                best = (score, way, (left, bottom))
    return None if best is None else (best[0][0], best[1], best[2])


def _split(free: list[Rectangle], taken: Rectangle) -> list[Rectangle]:
    """Free rectangles after one box is taken: each keeps the largest pieces beside the box."""
    left, bottom, right, top = taken
    kept: list[Rectangle] = []
    pieces: list[Rectangle] = []
    for rectangle in free:
        x0, y0, x1, y1 = rectangle
        if left >= x1 or right <= x0 or bottom >= y1 or top <= y0:
            kept.append(rectangle)
            continue
        if left > x0:
            pieces.append((x0, y0, left, y1))
        if right < x1:
            pieces.append((right, y0, x1, y1))
        if bottom > y0:
            pieces.append((x0, y0, x1, bottom))
        if top < y1:
            pieces.append((x0, top, x1, y1))
    for index, piece in enumerate(pieces):
        x0, y0, x1, y1 = piece
        covered = any(r[0] <= x0 and r[1] <= y0 and r[2] >= x1 and r[3] >= y1 for r in kept) or any(
            r[0] <= x0
            and r[1] <= y0
            and r[2] >= x1
            and r[3] >= y1
            and (r != piece or other < index)
            for other, r in enumerate(pieces)
            if other != index
        )
        if not covered:
            kept.append(piece)
    return kept
