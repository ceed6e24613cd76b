"""Words, arrows and edge lengths on one part, placed clear of its lines and of each other."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, field
from itertools import pairwise

import numpy as np
import shapely
from shapely import LineString, Polygon
from shapely.geometry.base import BaseGeometry
from shapely.prepared import prep

from foamwright.core.unit_table import INCH
from foamwright.shape.model import Point
from foamwright.sheets.metrics import CAP_HEIGHT, words_length
from foamwright.sheets.model import Stroke, Text
from foamwright.sheets.room import find_spot, free_room, long_direction, text_box
from foamwright.sheets.words import FULL, MEDIUM, SHORT, PartWords, block_lines, length_words

LINE_STEP = 1.3  # line spacing over type size
POINT = INCH / 72  # m
LEVELS = (
    (FULL, (14, 11, 9)),
    (MEDIUM, (10, 8.5, 7)),
    (SHORT, (9, 7, 6, 5.5)),
)  # type sizes, points; below 5.5 a tired eye at arm's length loses it
NUMBER_SIZES = (8, 6.5, 5)  # points, call-out numbers
LINE_SIZES = (8, 6.5, 5.5)  # points, words beside a line
EDGE_SIZES = (7.5, 6.5, 5.5)  # points, edge lengths
EDGE_LEAST = 0.035  # m, shorter edges carry no length
EDGES_MOST = 4
CORNERS_MOST = 10  # outlines with more corners are curves: only their overall size is written
OFFSET = 0.0012  # m between a line and the words beside it


@dataclass(slots=True)
class PartSheet:
    """One part as it lies, with what has been written on it so far.

    Attributes:
        part_id: Id of the part.
        outline: As it lies. [m]
        lines: Its inner lines as they lie, with their labels.
        strokes: Arrows and ticks drawn.
        texts: Words written.
        taken: Boxes of those.
    """

    part_id: str
    outline: Polygon
    lines: Sequence[tuple[LineString, str]]
    strokes: list[Stroke] = field(default_factory=list)
    texts: list[Text] = field(default_factory=list)
    taken: list[BaseGeometry] = field(default_factory=list)

    @property
    def free(self) -> BaseGeometry:
        """Room still clear."""
        return free_room(self.outline, [*(line for line, _ in self.lines), *self.taken])

    def write(self, words: str, box: Polygon, text: Text) -> None:
        """Put words down and keep their box clear of later ones.

        Args:
            words: What it says, for empty words nothing is put down. [-]
            box: The room they take. [m]
            text: The words in place. [-]

        Source:
            Definition.

        Example:
            >>> sheet.write("CG", box, text)  # doctest: +SKIP
        """
        if words:
            self.texts.append(text)
            self.taken.append(box)


def label_part(
    sheet: PartSheet, words: PartWords, *, fold: Point | None, units: str, number: int
) -> str:
    """Write on one part: words beside its lines, its label with the fold arrow, edge lengths.

    Args:
        sheet: The part as it lies; written on. [-]
        words: What it may carry. [-]
        fold: Direction of folds and grain as it lies; None when free. [-]
        units: "metric" or "inch". [-]
        number: Call-out number to use when it is too small for words. [-]

    Returns:
        "block" when it carries its label, "number" when only the number, "" when not even that. [-]

    Source:
        Definition.

    Example:
        >>> label_part(sheet, words, fold=None, units="metric", number=1)  # doctest: +SKIP
        'block'
    """
    _line_words(sheet)
    for angle in _reading_angles(sheet.outline):
        if _block(sheet, words, fold, angle):
            _edge_words(sheet, units)
            return "block"
    return _number(sheet, number)


def _reading_angles(outline: Polygon) -> tuple[float, ...]:
    """Reading directions to try: level when the part is wide enough, else along it."""
    along = upright(long_direction(outline))
    left, bottom, right, top = outline.bounds
    level = right - left >= 0.8 * (top - bottom)
    return (0.0, along) if level else (along, 0.0)


def upright(angle: float) -> float:
    """Turn a direction so that words along it read from below or from the right.

    Args:
        angle: Any direction. [rad]

    Returns:
        The same line's direction in (-90°, 90°]. [rad]

    Source:
        Drawing practice, as in ISO 129-1.

    Example:
        >>> upright(math.pi)
        0.0
    """
    turned = math.remainder(angle, math.pi)
    return math.pi / 2 if abs(turned + math.pi / 2) < 1e-9 else turned + 0.0


def _block(sheet: PartSheet, words: PartWords, fold: Point | None, angle: float) -> bool:
    free = sheet.free
    for level, sizes in LEVELS:
        lines = block_lines(words, level)
        for points in sizes:
            size = points * POINT
            arrow = _arrow_room(fold, angle, size, len(lines)) if level != SHORT else (0.0, 0.0)
            long = max(
                words_length(line, size, bold=index == 0) for index, line in enumerate(lines)
            )
            height = (len(lines) - 1) * LINE_STEP * size + size * 1.05
            spot = find_spot(free, long + arrow[0], height + arrow[1], angle)
            if spot is not None:
                _put_block(sheet, lines, size, angle, spot, (long, height), arrow, fold)
                return True
    return False


def _arrow_room(fold: Point | None, angle: float, size: float, lines: int) -> tuple[float, float]:
    """Extra length and height that the fold arrow asks for beside the words."""
    if fold is None:
        return 0.0, 0.0
    across = abs(math.sin(math.atan2(fold[1], fold[0]) - angle))
    if across < 0.2:
        return 0.0, 1.2 * size
    return 1.6 * size + (1 - across) * lines * size, 0.0


def _put_block(
    sheet: PartSheet,
    lines: Sequence[str],
    size: float,
    angle: float,
    spot: Point,
    extent: tuple[float, float],
    arrow: tuple[float, float],
    fold: Point | None,
) -> None:
    cosine, sine = math.cos(angle), math.sin(angle)

    def at(u: float, v: float) -> Point:
        return spot[0] + u * cosine - v * sine, spot[1] + u * sine + v * cosine

    long, height = extent
    middle_u, middle_v = -arrow[0] / 2, arrow[1] / 2
    for index, line in enumerate(lines):
        v = middle_v + height / 2 - size * 0.525 - index * LINE_STEP * size
        sheet.texts.append(
            Text(line, at(middle_u, v), size, angle, bold=index == 0, part=sheet.part_id)
        )
    box = text_box(spot, long + arrow[0], height + arrow[1], angle)
    sheet.taken.append(box)
    if fold is None or arrow == (0.0, 0.0):
        return
    if arrow[0] == 0.0:
        centre, reach = at(0.0, -height / 2 + size * 0.05), min(long, 12 * size) / 2
    else:
        centre, reach = at(long / 2 + size * 0.5, 0.0), height / 2
    _arrow(sheet, centre, fold, reach, size)


def _arrow(sheet: PartSheet, centre: Point, fold: Point, reach: float, size: float) -> None:
    """A two-headed arrow along the fold direction."""
    norm = math.hypot(*fold)
    u, v = fold[0] / norm, fold[1] / norm
    tips = [(centre[0] + s * reach * u, centre[1] + s * reach * v) for s in (-1, 1)]
    sheet.strokes.append(Stroke("note", tuple(tips), part=sheet.part_id))
    barb = min(0.45 * size, reach / 2)
    for tip, sign in zip(tips, (1, -1), strict=True):
        for side in (-0.35, 0.35):
            end = (
                tip[0] + sign * barb * u - side * barb * v,
                tip[1] + sign * barb * v + side * barb * u,
            )
            sheet.strokes.append(Stroke("note", (tip, end), part=sheet.part_id))


def _line_words(sheet: PartSheet) -> None:
    """Write each inner line's label along its longest straight run."""
    for line, words in sheet.lines:
        if not words:
            continue
        for points in LINE_SIZES:
            if _beside(sheet, line, words, points * POINT, sheet.free):
                break
        else:  # no clear room: better over another line than left out
            _beside(sheet, line, words, LINE_SIZES[-1] * POINT, sheet.outline)


def _beside(
    sheet: PartSheet, line: LineString, words: str, size: float, room: BaseGeometry
) -> bool:
    start, end = _longest_run(np.asarray(line.coords))
    run = math.hypot(end[0] - start[0], end[1] - start[1])
    if run == 0.0:
        return False
    angle = upright(math.atan2(end[1] - start[1], end[0] - start[0]))
    normal = (-math.sin(angle), math.cos(angle))
    long = words_length(words, size)
    clear = prep(room)
    for fraction in (0.5, 0.3, 0.7, 0.15, 0.85, 0.06, 0.94):
        for side in (1, -1):
            shift = side * (OFFSET + 0.55 * size)
            at = (
                float(start[0] + fraction * (end[0] - start[0]) + shift * normal[0]),
                float(start[1] + fraction * (end[1] - start[1]) + shift * normal[1]),
            )
            box = text_box(at, long, size, angle)
            if clear.covers(box):
                sheet.write(words, box, Text(words, at, size, angle, part=sheet.part_id))
                return True
    return False


def _longest_run(points: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    lengths = np.hypot(*np.diff(points, axis=0).T)
    index = int(np.argmax(lengths))
    return points[index], points[index + 1]


def _edge_words(sheet: PartSheet, units: str) -> None:
    """Write the length of each long straight edge once, just inside it."""
    ring = shapely.get_coordinates(shapely.get_exterior_ring(sheet.outline.simplify(1e-5)))
    if len(ring) - 1 > CORNERS_MOST:
        return
    written: list[tuple[float, float]] = []
    edges = sorted(pairwise(ring), key=lambda e: -float(np.hypot(*(e[1] - e[0]))))
    for start, end in edges:
        length = float(np.hypot(*(end - start)))
        angle = upright(math.atan2(end[1] - start[1], end[0] - start[0]))
        known = any(abs(length - a) < 5e-4 and abs(angle - b) < 0.02 for a, b in written)
        if length < EDGE_LEAST or known or len(written) == EDGES_MOST:
            continue
        written.append((length, angle))
        line, words = LineString([start, end]), length_words(length, units)
        for points in EDGE_SIZES:
            if _beside(sheet, line, words, points * POINT, sheet.free):
                break


def _number(sheet: PartSheet, number: int) -> str:
    words = str(number)
    for points in NUMBER_SIZES:
        size = points * POINT
        long, height = words_length(words, size, bold=True), size * CAP_HEIGHT
        for angle in _reading_angles(sheet.outline):
            spot = find_spot(sheet.free, long, height, angle)
            if spot is not None:
                box = text_box(spot, long, height, angle)
                text = Text(words, spot, size, angle, bold=True, part=sheet.part_id)
                sheet.write(words, box, text)
                return "number"
    return ""
