"""Where a part may lie on a board, and whether a layout is sound."""

import math
from collections import Counter
from collections.abc import Sequence

import numpy as np
import shapely
from shapely import Polygon

from foamwright.parts.model import Part, Source
from foamwright.sheets.model import Bench, Layout, Placement

TOLERANCE = 2e-6  # m, rounding of coordinates that a layout may carry; a knife cuts to 3e-4 m
HALF_TURN = math.pi
QUARTER_TURN = math.pi / 2


def board_parts(parts: Sequence[Part]) -> tuple[Part, ...]:
    """Pick the parts that are cut from board, in their order.

    Args:
        parts: All parts of the plane. [-]

    Returns:
        Those with source BOARD. [-]

    Source:
        Definition.

    Example:
        >>> board_parts(())
        ()
    """
    return tuple(part for part in parts if part.source is Source.BOARD)


def turned(
    outline: Polygon, angle: float, dx: float = 0.0, dy: float = 0.0, *, mirrored: bool = False
) -> Polygon:
    """Turn an outline about the origin of its flat frame, then move it.

    x' = x cos a - y sin a + dx; y' = x sin a + y cos a + dy; with -x for x when mirrored.

    Args:
        outline: Flat outline. [m]
        angle: Counter-clockwise. [rad]
        dx: Move along the board's long side. [m]
        dy: Move along the board's short side. [m]
        mirrored: Whether it is turned over first. [-]

    Returns:
        The outline as it lies. [m]

    Source:
        Definition.

    Example:
        >>> from shapely import box
        >>> [round(value, 9) for value in turned(box(0, 0, 2, 1), math.pi / 2, dx=1).bounds]
        [0.0, 0.0, 1.0, 2.0]
    """
    cosine, sine = math.cos(angle), math.sin(angle)
    over = -1.0 if mirrored else 1.0
    matrix = np.array([[over * cosine, over * sine], [-sine, cosine]])
    return shapely.transform(outline, lambda points: points @ matrix + np.array((dx, dy)))


def turned_size(outline: Polygon, angle: float) -> tuple[float, float]:
    """Length and width of the upright box round a turned outline.

    Args:
        outline: Flat outline. [m]
        angle: Counter-clockwise. [rad]

    Returns:
        Box length and width. [m]

    Source:
        Definition.

    Example:
        >>> from shapely import box
        >>> [round(value, 6) for value in turned_size(box(0, 0, 2, 1), math.pi / 2)]
        [1.0, 2.0]
    """
    points = shapely.get_coordinates(outline.exterior)
    cosine, sine = math.cos(angle), math.sin(angle)
    along = points[:, 0] * cosine - points[:, 1] * sine
    across = points[:, 0] * sine + points[:, 1] * cosine
    return float(np.ptp(along)), float(np.ptp(across))


def allowed_angles(part: Part, bench: Bench) -> tuple[float, ...]:
    """List the ways a part may be turned so that it fits and its folds follow the grain.

    A part with a fold direction lies with it along the grain, either way round; only when it does
    not fit a whole board so may it lie across. A part with none may lie in any of four square ways.

    Args:
        part: The part. [-]
        bench: The boards. [-]

    Returns:
        Angles, counter-clockwise; empty when the part fits no way. [rad]

    Source:
        Folds along the grain crease cleaner: common practice, no source.

    Example:
        >>> allowed_angles(example_part(), Bench(0.7, 0.5, 0.003, 0.006))  # doctest: +SKIP
        (0.0, 3.141592653589793)
    """

    def fits(angle: float, sizes: Sequence[tuple[float, float]]) -> bool:
        box = turned_size(part.outline, angle)
        return any(fits_size(box, size, bench.margin) for size in sizes)

    quarter = (QUARTER_TURN, 3 * QUARTER_TURN)
    if part.fold_along is None:
        base, turns = 0.0, (0.0, HALF_TURN, *quarter)
    else:
        base = -math.atan2(part.fold_along[1], part.fold_along[0])
        turns = (0.0, HALF_TURN) if fits(base, bench.sizes[:1]) else (0.0, HALF_TURN, *quarter)
    return tuple((base + turn) % (2 * math.pi) for turn in turns if fits(base + turn, bench.sizes))


def fits_size(box: tuple[float, float], size: tuple[float, float], margin: float) -> bool:
    """Whether an upright box fits a board inside its margin.

    Args:
        box: Length and width of the box. [m]
        size: Length and width of the board. [m]
        margin: Least distance to its edge. [m]

    Returns:
        True when it fits. [-]

    Source:
        Definition.

    Example:
        >>> fits_size((0.7, 0.5), (0.762, 0.508), 0.006)
        False
    """
    return all(side <= room - 2 * margin + TOLERANCE for side, room in zip(box, size, strict=True))


def placed_outline(part: Part, placement: Placement) -> Polygon:
    """Outline of a part where its placement says.

    Args:
        part: The part. [-]
        placement: Its placement; the outline in it is not looked at. [-]

    Returns:
        The outline as it lies. [m]

    Source:
        Definition.

    Example:
        >>> placed_outline(part, placement).equals(placement.outline)
        True
    """
    return turned(
        part.outline, placement.angle, placement.dx, placement.dy, mirrored=placement.mirrored
    )


def leftover_area(layout: Layout) -> float:
    """Largest clean strip left on the last whole board, cut straight across or straight along.

    Args:
        layout: A layout. [-]

    Returns:
        Area of the strip. [m²]

    Source:
        Definition: what a builder would keep for the next plane.

    Example:
        >>> leftover_area(Layout((), 0, 0.7, 0.5, 0.003, 0.006, 0.0, "draft"))
        0.0
    """
    if layout.boards_used == 0:
        return 0.0
    last = layout.boards_used - 1
    bounds = [p.outline.bounds for p in layout.placements if p.board == last]
    right = max(bound[2] for bound in bounds)
    top = max(bound[3] for bound in bounds)
    across = (layout.board_length - right) * layout.board_width
    along = (layout.board_width - top) * layout.board_length
    return max(across, along, 0.0)


def better(one: Layout, other: Layout) -> bool:
    """Whether one layout beats another: more parts placed, fewer whole boards, then more left over.

    With no whole board used, the one that uses less area of off-cuts is better.

    Args:
        one: A layout. [-]
        other: The layout it is held against. [-]

    Returns:
        True when the first is better. [-]

    Source:
        Definition.

    Example:
        >>> empty = Layout((), 0, 0.7, 0.5, 0.003, 0.006, 0.0, "draft")
        >>> better(empty, empty)
        False
    """
    return _rank(one) < _rank(other)


def _rank(layout: Layout) -> tuple[int, int, float]:
    spare = leftover_area(layout) - sum(length * width for length, width in layout.offcuts) * 1e-3
    return len(layout.unplaced), layout.boards_used, -spare


def make_layout(
    placements: Sequence[Placement],
    bench: Bench,
    *,
    method: str,
    offcuts: Sequence[tuple[float, float]] = (),
    unplaced: Sequence[str] = (),
) -> Layout:
    """Put placements together as a layout with its board count and fill.

    fill = sum of part areas / area of the boards and off-cuts used.

    Args:
        placements: One per part placed; off-cuts have the highest board numbers. [-]
        bench: The boards. [-]
        method: "draft" or "search". [-]
        offcuts: Length and width of the off-cuts used, in the order of their numbers. [m]
        unplaced: Ids of the parts that fit no board. [-]

    Returns:
        The layout. [-]

    Source:
        Definition.

    Example:
        >>> make_layout((), Bench(0.7, 0.5, 0.003, 0.006), method="draft").boards_used
        0
    """
    boards = 1 + max((placement.board for placement in placements), default=-1) - len(offcuts)
    area = sum(placement.outline.area for placement in placements)
    used = boards * bench.length * bench.width + sum(along * across for along, across in offcuts)
    return Layout(
        placements=tuple(placements),
        boards_used=boards,
        board_length=bench.length,
        board_width=bench.width,
        gap=bench.gap,
        margin=bench.margin,
        fill=area / used if used else 0.0,
        method=method,
        unplaced=tuple(unplaced),
        offcuts=tuple(offcuts),
    )


def verify_layout(layout: Layout, parts: Sequence[Part]) -> tuple[str, ...]:
    """Everything that is wrong with a layout, in words; empty when it is sound.

    Each board part lies exactly once (or is listed as fitting no board), keeps its area and shape,
    stays inside its board less the margin, keeps the gap to every other part, keeps its fold
    direction, and is turned over only when both its faces are alike.

    Args:
        layout: The layout to judge. [-]
        parts: All parts of the plane; those not cut from board are passed over. [-]

    Returns:
        Faults found. [-]

    Source:
        Definition.

    Example:
        >>> verify_layout(Layout((), 0, 0.7, 0.5, 0.003, 0.006, 0.0, "draft"), ())
        ()
    """
    wanted = {part.id: part for part in board_parts(parts)}
    faults = _count_faults(layout, wanted)
    for placement in layout.placements:
        part = wanted.get(placement.part_id)
        if part is not None:
            faults += _shape_faults(layout, placement, part)
    for board in range(len(layout.sizes)):
        faults += _gap_faults(layout, board)
    return tuple(faults)


def _count_faults(layout: Layout, wanted: dict[str, Part]) -> list[str]:
    found = Counter(placement.part_id for placement in layout.placements)
    found.update(layout.unplaced)
    faults = [f"{id_} lies {found[id_]} times, not once" for id_ in wanted if found[id_] != 1]
    faults += [f"{id_} is not a part of this plane" for id_ in found if id_ not in wanted]
    used = {placement.board for placement in layout.placements}
    if used != set(range(len(layout.sizes))):
        faults.append(f"boards {sorted(used)} are used but {len(layout.sizes)} are counted")
    return faults


def _shape_faults(layout: Layout, placement: Placement, part: Part) -> list[str]:
    faults: list[str] = []
    expected = placed_outline(part, placement)
    if not expected.equals_exact(placement.outline, TOLERANCE):
        faults.append(f"{part.id} does not lie where its angle and shift say")
    low = layout.margin - TOLERANCE
    left, bottom, right, top = placement.outline.bounds
    sizes = layout.sizes
    length, width = sizes[placement.board] if placement.board < len(sizes) else (0.0, 0.0)
    if min(left, bottom) < low or right > length - low or top > width - low:
        faults.append(f"{part.id} runs over the edge of board {placement.board + 1}")
    if placement.mirrored and not part.either_face:
        faults.append(f"{part.id} is turned over, though its faces differ")
    bench = Bench(
        layout.board_length, layout.board_width, layout.gap, layout.margin, layout.offcuts
    )
    turns = [abs(placement.angle - angle) % (2 * math.pi) for angle in allowed_angles(part, bench)]
    if not any(min(turn, 2 * math.pi - turn) < 1e-6 for turn in turns):
        faults.append(f"{part.id} is turned against its fold direction")
    return faults


def _overlap(one: Polygon, other: Polygon) -> bool:
    """Whether parts without a gap lie in each other by more than the rounding of their edges."""
    return one.intersection(other).area > TOLERANCE * min(one.length, other.length)


def _gap_faults(layout: Layout, board: int) -> list[str]:
    placed = [placement for placement in layout.placements if placement.board == board]
    if len(placed) < 2:
        return []
    outlines = [placement.outline for placement in placed]
    tree = shapely.STRtree(outlines)
    reach = max(layout.gap - TOLERANCE, 0.0)
    pairs = tree.query(outlines, predicate="dwithin", distance=reach)
    faults: list[str] = []
    for one, other in zip(*(pairs.tolist()), strict=True):
        if one >= other:
            continue
        apart = outlines[one].distance(outlines[other])
        touching = reach == 0.0 and _overlap(outlines[one], outlines[other])
        if apart < reach or touching:
            faults.append(
                f"{placed[one].part_id} and {placed[other].part_id} on board {board + 1} are "
                f"{apart * 1000:.3f} mm apart, not {layout.gap * 1000:.3f} mm"
            )
    return faults
