"""Packing true outlines in milliseconds: parts and boards as cells, boards as one long integer.

A board's cells are the bits of one integer, row after row. Shifting and or-ing it finds, for all
places at once, where a part would hit what lies there; the lowest bit left free is the place lowest
and farthest left.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely import Polygon

from foamwright.sheets.model import Bench

STEP = 0.004  # m, side of a cell: a finer one packs little tighter and takes longer
MERGED = 2  # cells, by which neighbouring rows may differ and still be taken together
GROW = 1.02  # the eight-sided curve round a corner must not cut into the gap
EDGE = 1e-9  # of a cell, rounding
ROUNDING = 1e-7  # m, a smaller gap is none

type Run = tuple[int, int, int, int]  # first row, rows, first column, column after the last
type Spot = tuple[int, float, tuple[float, float]]  # board, angle, where the part's box begins [m]


@dataclass(frozen=True, slots=True)
class Cells:
    """A part turned one way, with half the gap round it, as cells.

    Attributes:
        angle: How it is turned. [rad]
        runs: Stretches of cells. [-]
        columns: Width of the box round it. [-]
        rows: Height of the box round it. [-]
    """

    angle: float
    runs: tuple[Run, ...]
    columns: int
    rows: int


@dataclass(slots=True)
class _Board:
    """A board as cells; a set bit is taken."""

    columns: int
    rows: int
    taken: int = 0
    places: dict[tuple[int, int], int] = field(default_factory=dict[tuple[int, int], int])


def part_cells(outline: Polygon, angle: float, gap: float) -> Cells:
    """Lay an outline over cells, row by row, from its leftmost to its rightmost point.

    Args:
        outline: The part as it is turned; holes and bays that no row sees are filled. [m]
        angle: How it is turned. [rad]
        gap: Least distance between parts, half of which is added all round. [m]

    Returns:
        Its cells. [-]

    Source:
        Definition.

    Example:
        >>> from shapely import box
        >>> part_cells(box(0, 0, 0.0395, 0.0195), 0.0, 0.0).runs
        ((0, 5, 0, 10),)
    """
    grown = Polygon(outline.exterior)
    if gap > ROUNDING:
        grown = grown.buffer(0.5 * GROW * gap, quad_segs=4)
    corners = shapely.get_coordinates(grown.exterior)
    corners = (corners - corners.min(axis=0)) / STEP
    rows = max(1, int(np.ceil(corners[:, 1].max() - EDGE)))
    low, high = _extents(corners, rows)
    first = np.floor(low + EDGE).astype(int).tolist()
    after = np.ceil(high - EDGE).astype(int).tolist()
    return Cells(angle, _merged(first, after), max(after), rows)


def _extents(
    corners: NDArray[np.float64], rows: int
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Leftmost and rightmost point in each row: from corners, and where edges leave the row."""
    low, high = np.full(rows, np.inf), np.full(rows, -np.inf)
    x, y = corners[:, 0], corners[:, 1]
    for row in (np.floor(y), np.ceil(y) - 1):  # a corner on a border belongs to both its rows
        index = np.clip(row.astype(int), 0, rows - 1)
        np.minimum.at(low, index, x)
        np.maximum.at(high, index, x)
    rise = np.diff(y)
    steep = np.abs(rise) > EDGE
    borders = np.arange(1, rows)
    share = (borders - y[:-1][steep, None]) / rise[steep, None]
    across = x[:-1][steep, None] + share * np.diff(x)[steep, None]
    inside = (share >= 0.0) & (share <= 1.0)
    left = np.where(inside, across, np.inf).min(axis=0, initial=np.inf)
    right = np.where(inside, across, -np.inf).max(axis=0, initial=-np.inf)
    for part in (slice(0, rows - 1), slice(1, rows)):
        low[part] = np.minimum(low[part], left)
        high[part] = np.maximum(high[part], right)
    return low, high


def _merged(first: list[int], after: list[int]) -> tuple[Run, ...]:
    """Rows that are nearly alike as one stretch: fewer to look at, a little room lost."""
    runs: list[Run] = []
    start, left, right = 0, first[0], after[0]
    for row in range(1, len(first)):
        near = abs(first[row] - first[start]) <= MERGED and abs(after[row] - after[start]) <= MERGED
        if near:
            left, right = min(left, first[row]), max(right, after[row])
            continue
        runs.append((start, row - start, left, right))
        start, left, right = row, first[row], after[row]
    runs.append((start, len(first) - start, left, right))
    return tuple(runs)


def pack_cells(
    ordered: Iterable[tuple[str, Sequence[Cells]]],
    bench: Bench,
    offcuts: Sequence[tuple[float, float]],
    *,
    most: int,
) -> dict[str, Spot] | None:
    """Put each part, in order, lowest and then farthest left on the first board with room.

    Args:
        ordered: Id of each part and its cells, turned each way that is allowed. [-]
        bench: The boards. [-]
        offcuts: Off-cuts, in the order in which they are used up; they have the first numbers. [m]
        most: Whole boards from which on it gives up. [-]

    Returns:
        Id -> board, angle, lower left corner of its box inside the margin; None: it gave up. [-]

    Source:
        Bottom-left placement, a general method; cells as bits.

    Example:
        >>> from shapely import box
        >>> cells = [part_cells(box(0, 0, 0.2, 0.1), 0.0, 0.003)]
        >>> bench = Bench(0.762, 0.508, 0.003, 0.006)
        >>> pack_cells([("a", cells)], bench, (), most=2)
        {'a': (0, 0.0, (0.0, 0.0))}
    """
    boards = [_board(size, bench) for size in offcuts]
    spots: dict[str, Spot] = {}
    for id_, ways in ordered:
        for number in range(len(offcuts) + most):
            if number == len(boards):
                boards.append(_board((bench.length, bench.width), bench))
            found = _lowest(boards[number], ways)
            if found is not None:
                place, cells = found
                boards[number].taken |= _stamp(cells, boards[number].columns) << place
                row, column = divmod(place, boards[number].columns)
                spots[id_] = (number, cells.angle, (column * STEP, row * STEP))
                break
        else:
            return None
    return spots


def _board(size: tuple[float, float], bench: Bench) -> _Board:
    """The gap that parts carry round them may lie over the margin."""
    room = [side - 2 * bench.margin + GROW * bench.gap for side in size]
    columns, rows = (max(0, int(side / STEP + EDGE)) for side in room)
    return _Board(columns, rows)


def _lowest(board: _Board, ways: Sequence[Cells]) -> tuple[int, Cells] | None:
    """Place at which the part's far corner lies lowest, of all ways to turn it."""
    best: tuple[int, int, Cells] | None = None
    for cells in ways:
        if cells.columns > board.columns or cells.rows > board.rows:
            continue
        free = _places(board, cells) & ~_hits(board, cells)
        if not free:
            continue
        place = (free & -free).bit_length() - 1
        far = place + cells.rows * board.columns + cells.columns
        if best is None or far < best[0]:
            best = (far, place, cells)
    return None if best is None else (best[1], best[2])


def _places(board: _Board, cells: Cells) -> int:
    """Bits of all places at which the box lies on the board."""
    size = (cells.columns, cells.rows)
    if size not in board.places:
        row = (1 << (board.columns - cells.columns + 1)) - 1
        rows = board.rows - cells.rows + 1
        ones = ((1 << board.columns * rows) - 1) // ((1 << board.columns) - 1)
        board.places[size] = row * ones
    return board.places[size]


def _hits(board: _Board, cells: Cells) -> int:
    """Bits of all places at which the part would lie on what is taken."""
    level: dict[int, int] = {}
    hits = 0
    for first, rows, left, right in cells.runs:
        long = right - left
        if long not in level:
            level[long] = _spread(board.taken, long, 1)
        hits |= _spread(level[long] >> (first * board.columns + left), rows, board.columns)
    return hits


def _spread(bits: int, count: int, stride: int) -> int:
    """Or of the bits shifted down by 0, 1, ... count - 1 strides, by doubling."""
    done = 1
    while done * 2 <= count:
        bits |= bits >> (done * stride)
        done *= 2
    if count > done:
        bits |= bits >> ((count - done) * stride)
    return bits


def _stamp(cells: Cells, columns: int) -> int:
    bits = 0
    for first, rows, left, right in cells.runs:
        row = ((1 << (right - left)) - 1) << left
        for index in range(first, first + rows):
            bits |= row << (index * columns)
    return bits
