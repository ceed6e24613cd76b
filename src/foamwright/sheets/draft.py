"""A quick layout: first upright boxes round the parts, then, if that may save a board, outlines."""

import math
import random
from collections.abc import Callable
from dataclasses import dataclass, field
from functools import lru_cache
from typing import TYPE_CHECKING

import numpy as np
import shapely

from foamwright.parts.model import Part
from foamwright.sheets.model import Bench, Layout, Placement
from foamwright.sheets.place import (
    allowed_angles,
    board_parts,
    make_layout,
    turned,
    turned_size,
)
from foamwright.sheets.raster import Cells, pack_cells, part_cells
from foamwright.sheets.rectangles import ROUNDING, Room, Spot, Way, pack_free, pack_shelves

if TYPE_CHECKING:
    from foamwright.plane import Plane

GAP = 0.003  # m between parts, room for the knife; common practice, no source
MARGIN = 0.006  # m to the board's edge, which is often dented; common practice, no source
SHAKES = 12  # shaken orders tried, about 0.3 ms each
HOPEFUL = 0.85  # of the usable area: tighter than that, quick packing of outlines does not come
SEED = 216  # any fixed number: the draft is the same every time

type Spots = dict[str, Spot]
type Ways = dict[str, tuple[Way, ...]]
type Score = tuple[int, int, float]

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
    """Lay the parts out on boards of one size; see `draft_on`.

    Args:
        parts: All parts of the plane; those not cut from board are passed over. [-]
        board_length: Long side of the board. [m]
        board_width: Short side of the board. [m]
        gap: Least distance between parts. [m]
        margin: Least distance to the board's edge. [m]

    Returns:
        The layout; parts that fit no board are named in its `unplaced`. [-]

    Source:
        As `draft_on`.

    Example:
        >>> draft_layout((), 0.762, 0.508).boards_used
        0
    """
    return draft_on(parts, Bench(board_length, board_width, gap, margin))


def draft_on(parts: tuple[Part, ...], bench: Bench) -> Layout:
    """Lay the parts out in a few milliseconds, the same way every time.

    First each part takes the upright box round it. Boxes go, largest first, onto the first off-cut
    or board with room, into the free rectangle that they fill best; several orders are tried, some
    shaken a little, and shelves too. When the areas alone need fewer boards than the best of these,
    the outlines themselves are packed on a grid of 4 mm, largest first, as low and as far left as
    they go. The one with fewest whole boards is kept.

    Args:
        parts: All parts of the plane; those not cut from board are passed over. [-]
        bench: The boards; off-cuts are used first. [-]

    Returns:
        The layout; parts that fit no board are named in its `unplaced`. [-]

    Valid:
        An upper bound: a search may save a board, or leave more of the last one.

    Source:
        Maximal free rectangles, a general method of bin packing [JYLANKI]; shelves by first fit
        with decreasing height [COFFMAN]; bottom-left placement on a grid.

    Example:
        >>> draft_on((), Bench(0.762, 0.508, 0.003, 0.006)).boards_used
        0
    """
    wanted = board_parts(parts)
    ways = {part.id: found for part in wanted if (found := _ways(part, bench))}
    area = sum(part.outline.area for part in wanted if part.id in ways)
    offcuts = sorted(bench.offcuts, key=lambda size: (size[0] * size[1], size))
    room = _room(bench, offcuts, area)
    spots = _best_packing(ways, room)
    boards = max((board for board, _, _ in spots.values()), default=-1) + 1 - len(offcuts)
    if boards > room.least and area < HOPEFUL * _usable_area(bench, boards - 1):
        tighter = _outlines_packed(wanted, ways, bench, offcuts, boards - 1)
        spots = tighter if tighter is not None else spots
    numbers = _numbers(spots, len(offcuts))
    return make_layout(
        [
            _placed(part, numbers, spots[part.id], bench.margin)
            for part in wanted
            if part.id in spots
        ],
        bench,
        method="draft",
        offcuts=[offcuts[board] for board in numbers if board < len(offcuts)],
        unplaced=tuple(part.id for part in wanted if part.id not in spots),
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
        >>> layout_of(plane).boards_used
        4
    """
    parts, bench = plane.parts.parts, bench_of(plane)
    kinds = tuple((p.id, p.outline.wkb, p.fold_along, p.either_face) for p in board_parts(parts))
    return _remembered(_Job(kinds, bench, parts))


@dataclass(frozen=True, slots=True)
class _Job:
    """What a draft depends on, and the parts to make it from."""

    kinds: tuple[object, ...]
    bench: Bench
    parts: tuple[Part, ...] = field(compare=False)


@lru_cache(maxsize=8)
def _remembered(job: _Job) -> Layout:
    """A plane changed in what bears on no part keeps its draft: it takes 20 ms to make."""
    return draft_on(job.parts, job.bench)


def bench_of(plane: "Plane") -> Bench:
    """The boards and off-cuts that a plane's design names.

    Args:
        plane: The plane. [-]

    Returns:
        The boards. [-]

    Source:
        Definition.

    Example:
        >>> bench_of(plane).length
        0.762
    """
    board = plane.design.board
    pieces = [(piece.length, piece.width) for piece in board.offcut for _ in range(piece.count)]
    return Bench(board.length, board.width, board.gap, board.margin, tuple(pieces))


def _room(bench: Bench, offcuts: list[tuple[float, float]], area: float) -> Room:
    def inside(size: tuple[float, float]) -> tuple[float, float]:
        """Room for boxes that carry a gap on two sides."""
        away = bench.gap - 2 * bench.margin
        return size[0] + away, size[1] + away

    whole = _usable_area(bench, 1) - _usable_area(bench, 0)
    rest = max(area - _usable_area(bench, 0), 0.0)
    return Room(
        whole=inside((bench.length, bench.width)),
        offcuts=tuple(map(inside, offcuts)),
        gap=bench.gap,
        least=math.ceil(rest / max(whole, ROUNDING) - ROUNDING),
    )


def _usable_area(bench: Bench, boards: int) -> float:
    """Area inside the margins of all off-cuts and so many whole boards."""
    sizes = [*bench.offcuts, *((bench.length, bench.width) for _ in range(boards))]
    away = 2 * bench.margin
    return sum(max(long - away, 0.0) * max(wide - away, 0.0) for long, wide in sizes)


def _best_packing(ways: Ways, room: Room) -> Spots:
    """Try every order, then orders shaken a little, until no fewer boards can be had."""
    best: tuple[Score, Spots] | None = None
    orders = [sorted(ways, key=lambda id_: (*order(ways[id_][0]), id_)) for order in ORDERS]
    heights = sorted(ways, key=lambda id_: (-ways[id_][0][2], -ways[id_][0][1], id_))
    shaker = random.Random(SEED)  # noqa: S311 -- shakes a packing order, guards nothing
    for turn in range(len(orders) + 1 + SHAKES):
        if turn == len(orders):
            spots = pack_shelves([(id_, ways[id_]) for id_ in heights], room)
        else:
            ordered = orders[turn] if turn < len(orders) else _shaken(orders[0], shaker)
            spots = pack_free([(id_, ways[id_]) for id_ in ordered], room)
        score = _score(spots, len(ways), room)
        if best is None or score < best[0]:
            best = (score, spots)
        if best[0][0] == 0 and best[0][1] <= room.least:
            break
    return {} if best is None else best[1]


def _outlines_packed(
    wanted: tuple[Part, ...],
    ways: Ways,
    bench: Bench,
    offcuts: list[tuple[float, float]],
    most: int,
) -> Spots | None:
    """Pack the outlines on at most so many whole boards, largest first; None when it fails."""
    cells: dict[bytes, list[Cells]] = {}
    ordered: list[tuple[str, list[Cells]]] = []
    for part in sorted(wanted, key=lambda part: (-part.outline.area, part.id)):
        if part.id not in ways:
            continue
        angles = allowed_angles(part, bench)
        kind = part.outline.wkb + repr(angles).encode()
        if kind not in cells:
            cells[kind] = [part_cells(turned(part.outline, a), a, bench.gap) for a in angles]
        ordered.append((part.id, cells[kind]))
    found = pack_cells(ordered, bench, offcuts, most=most)
    if found is None:
        return None
    return {
        id_: (board, (angle, 0.0, 0.0), corner) for id_, (board, angle, corner) in found.items()
    }


def _shaken(ordered: list[str], shaker: random.Random) -> list[str]:
    """Move a few boxes to other places in the order, most of them near the front."""
    shaken = list(ordered)
    for _ in range(1 + len(shaken) // 12):
        moved = shaken.pop(shaker.randrange(len(shaken)))
        shaken.insert(shaker.randrange(len(shaken) + 1), moved)
    return shaken


def _score(spots: Spots, wanted: int, room: Room) -> Score:
    """Boxes left over, whole boards used, then how little of the last board is left clean."""
    last = max((board for board, _, _ in spots.values()), default=-1)
    right = top = 0.0
    for board, (_, along, across), corner in spots.values():
        if board == last:
            right, top = max(right, corner[0] + along), max(top, corner[1] + across)
    boards = max(0, last + 1 - len(room.offcuts))
    return wanted - len(spots), boards, min(right / room.whole[0], top / room.whole[1])


def _numbers(spots: Spots, offcuts: int) -> dict[int, int]:
    """Board as packed -> its number: whole boards first, then the off-cuts that are used."""
    used = sorted({board for board, _, _ in spots.values()})
    ordered = [b for b in used if b >= offcuts] + [b for b in used if b < offcuts]
    return {board: number for number, board in enumerate(ordered)}


def _ways(part: Part, bench: Bench) -> tuple[Way, ...]:
    """Angles worth trying: of two that give the same box, only the first."""
    found: list[Way] = []
    for angle in allowed_angles(part, bench):
        size = turned_size(part.outline, angle)
        if not any(abs(size[0] - way[1]) + abs(size[1] - way[2]) < ROUNDING for way in found):
            found.append((angle, *size))
    return tuple(found)


def _placed(part: Part, numbers: dict[int, int], spot: Spot, margin: float) -> Placement:
    board, (angle, _, _), corner = spot
    flat = turned(part.outline, angle)
    left, bottom, _, _ = flat.bounds
    dx, dy = margin + corner[0] - left, margin + corner[1] - bottom
    outline = shapely.transform(flat, lambda points: points + np.array((dx, dy)))
    return Placement(part.id, numbers[board], angle, dx, dy, outline)
