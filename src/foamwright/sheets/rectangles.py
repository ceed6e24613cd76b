"""Packing upright boxes onto boards: into free rectangles, or onto shelves by first fit."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

ROUNDING = 1e-9  # m, so that parts that fill a board to the last bit still fit

type Rectangle = tuple[float, float, float, float]  # left, bottom, right, top
type Way = tuple[float, float, float]  # angle, box length, box width
type Spot = tuple[int, Way, tuple[float, float]]  # board, way, lower left corner
type Ordered = Sequence[tuple[str, tuple[Way, ...]]]


@dataclass(frozen=True, slots=True)
class Room:
    """Usable boards; each box stands for its part with the gap on two sides.

    Off-cuts carry the first board numbers, whole boards those after them, as many as are needed.

    Attributes:
        whole: Length and width of a whole board inside its margin, and a gap more. [m]
        offcuts: The same of each off-cut. [m]
        gap: Least distance between parts. [m]
        least: Whole boards that the areas alone need. [-]
    """

    whole: tuple[float, float]
    offcuts: tuple[tuple[float, float], ...]
    gap: float
    least: int


def pack_free(ordered: Ordered, room: Room) -> dict[str, Spot]:
    """Put each box, in order, onto the first board with room, where it fills a free space best.

    Args:
        ordered: Id and possible ways of each box. [-]
        room: The boards. [-]

    Returns:
        Id -> board, way, corner; a box that fits nowhere is left out. [-]

    Source:
        Maximal free rectangles, best short side fit [JYLANKI].

    Example:
        >>> pack_free([("a", ((0.0, 0.2, 0.1),))], Room((0.7, 0.5), (), 0.003, 1))
        {'a': (0, (0.0, 0.2, 0.1), (0.0, 0.0))}
    """
    boards = [[(0.0, 0.0, *size)] for size in room.offcuts]
    spots: dict[str, Spot] = {}
    for id_, ways in ordered:
        chosen = _first_board(boards, ways, room.gap)
        if chosen is None:
            fresh = [(0.0, 0.0, *room.whole)]
            spot = _best_spot(fresh, ways, room.gap)
            if spot is None:  # too large for a whole board, and the off-cut that takes it is full
                continue
            boards.append(fresh)
            chosen = (len(boards) - 1, spot[1], spot[2])
        board, way, corner = chosen
        taken = (
            corner[0],
            corner[1],
            corner[0] + way[1] + room.gap,
            corner[1] + way[2] + room.gap,
        )
        boards[board] = _split(boards[board], taken)
        spots[id_] = chosen
    return spots


def pack_shelves(ordered: Ordered, room: Room) -> dict[str, Spot]:
    """Put each box, in order, onto the first shelf that takes it; open shelves one over the other.

    Args:
        ordered: Id and possible ways of each box; highest first packs best. [-]
        room: The boards. [-]

    Returns:
        Id -> board, way, corner; a box that fits nowhere is left out. [-]

    Source:
        First fit with decreasing height [COFFMAN], shelves put onto boards by first fit.

    Example:
        >>> pack_shelves([("a", ((0.0, 0.2, 0.1),))], Room((0.7, 0.5), (), 0.003, 1))
        {'a': (0, (0.0, 0.2, 0.1), (0.0, 0.0))}
    """
    sizes = list(room.offcuts)
    shelves: list[list[list[float]]] = [[] for _ in sizes]  # per board: bottom, height, length used
    spots: dict[str, Spot] = {}
    for id_, ways in ordered:
        chosen = next(filter(None, _shelf_spots(shelves, sizes, ways, room.gap)), None)
        if chosen is None:
            sizes.append(room.whole)
            shelves.append([])
            chosen = next(filter(None, _shelf_spots(shelves, sizes, ways, room.gap)), None)
        if chosen is None:
            sizes.pop()
            shelves.pop()
            continue
        spots[id_] = chosen
    return spots


def _shelf_spots(
    shelves: list[list[list[float]]],
    sizes: list[tuple[float, float]],
    ways: tuple[Way, ...],
    gap: float,
) -> Iterator[Spot | None]:
    """Try board by board, way by way; the first spot handed out is taken."""
    for board, (size, rows) in enumerate(zip(sizes, shelves, strict=True)):
        for way in ways:
            yield _shelf_spot(board, size, rows, way, gap)


def _shelf_spot(
    board: int, size: tuple[float, float], rows: list[list[float]], way: Way, gap: float
) -> Spot | None:
    long, tall = way[1] + gap, way[2] + gap
    for row in rows:
        if tall <= row[1] + ROUNDING and row[2] + long <= size[0] + ROUNDING:
            row[2] += long
            return board, way, (row[2] - long, row[0])
    bottom = rows[-1][0] + rows[-1][1] if rows else 0.0
    if bottom + tall > size[1] + ROUNDING or long > size[0] + ROUNDING:
        return None
    rows.append([bottom, tall, long])
    return board, way, (0.0, bottom)


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
