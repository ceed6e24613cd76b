"""A board as a drawing: every line and word in place, for whichever writer puts it on paper."""

import math
from collections.abc import Sequence

import numpy as np
import shapely
from shapely import LineString, Polygon

from foamwright.parts.model import LineKind, Part
from foamwright.shape.model import Point
from foamwright.sheets.label import PartSheet, label_part
from foamwright.sheets.model import Drawing, Layout, Placement, Stroke, Text
from foamwright.sheets.styles import BEVEL_STEP, BEVEL_TICK
from foamwright.sheets.words import PartWords, key_words, part_words


def board_drawings(layout: Layout, parts: Sequence[Part], *, units: str) -> tuple[Drawing, ...]:
    """Draw every board of a layout at true size, lower left corner at the origin.

    Args:
        layout: Where the parts lie. [-]
        parts: All parts of the plane, so that "1 of 2" counts right. [-]
        units: "metric" or "inch". [-]

    Returns:
        One drawing a board. [-]

    Source:
        Definition.

    Example:
        >>> board_drawings(Layout((), 0, 0.7, 0.5, 0.003, 0.006, 0.0, "draft"), (), units="metric")
        ()
    """
    by_id = {part.id: part for part in parts}
    words = part_words(parts, units)
    return tuple(
        _board_drawing(layout, board, by_id, words, units) for board in range(len(layout.sizes))
    )


def board_name(layout: Layout, board: int) -> str:
    """Name of a board of a layout.

    Args:
        layout: The layout. [-]
        board: From 0. [-]

    Returns:
        Such as "Board 1 of 3" or "Off-cut 1 of 2". [-]

    Source:
        Definition.

    Example:
        >>> board_name(Layout((), 3, 0.7, 0.5, 0.003, 0.006, 0.7, "draft"), 0)
        'Board 1 of 3'
    """
    piece = board - layout.boards_used
    if piece < 0:
        return f"Board {board + 1} of {layout.boards_used}"
    return f"Off-cut {piece + 1} of {len(layout.offcuts)}"


def part_strokes(part: Part, placement: Placement) -> list[Stroke]:
    """Lines of one part as it lies: outline, holes and inner lines.

    Args:
        part: The part. [-]
        placement: Where it lies. [-]

    Returns:
        Its strokes, outline first. [-]

    Source:
        Definition.

    Example:
        >>> part_strokes(part, placement)[0].kind
        'cut'
    """
    strokes = ring_strokes(placement.outline, part.id)
    for line in part.lines:
        points = _lie(line.points, placement)
        closed = len(points) > 3 and points[0] == points[-1]
        strokes.append(Stroke(line.kind.value, points[:-1] if closed else points, closed, part.id))
        if line.kind is LineKind.BEVEL:
            strokes += _bevel_ticks(points, part.id)
    return strokes


def ring_strokes(outline: Polygon, part_id: str = "") -> list[Stroke]:
    """Closed cut lines round an outline and its holes.

    Args:
        outline: As it lies. [m]
        part_id: Id of the part. [-]

    Returns:
        The strokes, outer ring first. [-]

    Source:
        Definition.

    Example:
        >>> from shapely import box
        >>> len(ring_strokes(box(0, 0, 1, 1))[0].points)
        4
    """
    strokes: list[Stroke] = []
    for ring in (outline.exterior, *outline.interiors):
        corners = shapely.get_coordinates(ring)[:-1]
        strokes.append(Stroke("cut", _points(corners), closed=True, part=part_id))
    return strokes


def _points(corners: np.ndarray) -> tuple[Point, ...]:
    return tuple((float(x), float(y)) for x, y in corners)


def _lie(points: Sequence[Point], placement: Placement) -> tuple[Point, ...]:
    cosine, sine = math.cos(placement.angle), math.sin(placement.angle)
    over = -1.0 if placement.mirrored else 1.0
    return tuple(
        (
            over * x * cosine - y * sine + placement.dx,
            over * x * sine + y * cosine + placement.dy,
        )
        for x, y in points
    )


def _bevel_ticks(points: Sequence[Point], part_id: str) -> list[Stroke]:
    """Short slanted ticks along a bevel line: it is known from the others at a glance."""
    line = LineString(points)
    ticks: list[Stroke] = []
    for index in range(int(line.length / BEVEL_STEP)):
        at = (index + 0.5) * BEVEL_STEP
        here, ahead = line.interpolate(at), line.interpolate(min(at + 1e-4, line.length))
        angle = math.atan2(ahead.y - here.y, ahead.x - here.x) + math.pi / 4
        half = BEVEL_TICK / 2
        step = (half * math.cos(angle), half * math.sin(angle))
        ends = (
            (here.x - step[0], here.y - step[1]),
            (here.x + step[0], here.y + step[1]),
        )
        ticks.append(Stroke("note", ends, part=part_id))
    return ticks


def _board_drawing(
    layout: Layout, board: int, parts: dict[str, Part], words: dict[str, PartWords], units: str
) -> Drawing:
    length, width = layout.sizes[board]
    edge = ((0.0, 0.0), (length, 0.0), (length, width), (0.0, width))
    strokes = [Stroke("board", edge, closed=True)]
    texts: list[Text] = []
    key: list[str] = []
    placed = [placement for placement in layout.placements if placement.board == board]
    for placement in placed:
        part = parts[placement.part_id]
        strokes += part_strokes(part, placement)
        sheet = part_sheet(part, placement)
        fold = _lie_direction(part.fold_along, placement)
        outcome = label_part(sheet, words[part.id], fold=fold, units=units, number=len(key) + 1)
        if outcome != "block":
            mark = f"{len(key) + 1}" if outcome == "number" else "unmarked"
            key.append(f"{mark}: {key_words(words[part.id])}")
        strokes += sheet.strokes
        texts += sheet.texts
    return Drawing(
        name=board_name(layout, board),
        length=length,
        width=width,
        strokes=tuple(strokes),
        texts=tuple(texts),
        key=tuple(key),
        part_ids=tuple(placement.part_id for placement in placed),
    )


def part_sheet(part: Part, placement: Placement) -> PartSheet:
    """Lay a part out for writing on.

    Args:
        part: The part. [-]
        placement: Where it lies. [-]

    Returns:
        The part as it lies, nothing written yet. [-]

    Source:
        Definition.

    Example:
        >>> part_sheet(part, placement).texts
        []
    """
    lines = [(LineString(_lie(line.points, placement)), line.label) for line in part.lines]
    return PartSheet(part.id, placement.outline, lines)


def _lie_direction(direction: Point | None, placement: Placement) -> Point | None:
    if direction is None:
        return None
    cosine, sine = math.cos(placement.angle), math.sin(placement.angle)
    along = -direction[0] if placement.mirrored else direction[0]
    return along * cosine - direction[1] * sine, along * sine + direction[1] * cosine
