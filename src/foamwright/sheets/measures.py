"""Where the lines, holes and corners of a part lie, measured from its left end and lower edge."""

import math
from dataclasses import dataclass

import shapely
from shapely import Polygon

from foamwright.parts.model import Line, Part
from foamwright.shape.model import Point
from foamwright.sheets.place import turned
from foamwright.sheets.words import length_words

LEVEL = 2e-4  # m, by which the ends of a level line may differ
CORNERS_MOST = 14  # outlines with more corners are curves: no list of corners helps
TAG_PLACES = (0.5, 0.42, 0.58, 0.34)  # along a line, where its number may stand

type Places = tuple[tuple[float, ...], tuple[float, ...]]


@dataclass(frozen=True, slots=True)
class PartMeasures:
    """Measures of one part in words.

    Attributes:
        lines: One sentence a line, numbered from 1.
        tags: For each line, the places (x, y) at which its number may stand. [m]
        others: Holes, then corners.
    """

    lines: tuple[str, ...]
    tags: tuple[Places, ...]
    others: tuple[str, ...]


def measures_of(part: Part, turn: float, units: str) -> PartMeasures:
    """Measure a part as it is drawn.

    Args:
        part: The part. [-]
        turn: How its flat frame is turned in the drawing, counter-clockwise. [rad]
        units: "metric" or "inch". [-]

    Returns:
        The measures. [-]

    Source:
        Definition.

    Example:
        >>> measures_of(part, 0.0, "metric").lines[0]
        '1 fold, nose fold: 199 mm up, from 0 mm to 584 mm'
    """
    flat = turned(part.outline, turn)
    left, bottom, _, _ = flat.bounds
    outline = turned(part.outline, turn, -left, -bottom)
    lines: list[str] = []
    tags: list[Places] = []
    for number, line in enumerate(part.lines, 1):
        points = _lie(line.points, turn, (-left, -bottom))
        lines.append(f"{number} {_line_words(line, points, units)}")
        tags.append(_tag_places(points))
    others = [*_hole_words(outline, units), *_corner_words(outline, units)]
    return PartMeasures(tuple(lines), tuple(tags), tuple(others))


def _lie(points: tuple[Point, ...], turn: float, move: Point) -> tuple[Point, ...]:
    cosine, sine = math.cos(turn), math.sin(turn)
    return tuple(
        (x * cosine - y * sine + move[0], x * sine + y * cosine + move[1]) for x, y in points
    )


def _line_words(line: Line, points: tuple[Point, ...], units: str) -> str:
    name = f"{line.kind.value}, {line.label}" if line.label else line.kind.value
    (x0, y0), (x1, y1) = points[0], points[-1]
    if len(points) > 3 and (x0, y0) == (x1, y1):
        xs, ys = zip(*points[:-1], strict=True)
        across = length_words(max(xs) - min(xs), units)
        middle = ((max(xs) + min(xs)) / 2, (max(ys) + min(ys)) / 2)
        return f"{name}: {across} across, middle at {_at(middle, units)}"
    if len(points) == 2 and abs(y1 - y0) < LEVEL:
        return f"{name}: {length_words((y0 + y1) / 2, units)} up{_reach(x0, x1, units)}"
    if len(points) == 2 and abs(x1 - x0) < LEVEL:
        return f"{name}: {length_words((x0 + x1) / 2, units)} along{_reach(y0, y1, units)}"
    return f"{name}: " + " to ".join(_at(point, units) for point in points)


def _reach(one: float, other: float, units: str) -> str:
    low, high = sorted((one, other))
    return f", from {length_words(low, units)} to {length_words(high, units)}"


def _at(point: Point, units: str) -> str:
    return f"{length_words(point[0], units)} along, {length_words(point[1], units)} up"


def _tag_places(points: tuple[Point, ...]) -> Places:
    (x0, y0), (x1, y1) = points[0], points[-1]
    if points[0] == points[-1]:
        (x1, y1) = points[len(points) // 2]
    return (
        tuple(x0 + share * (x1 - x0) for share in TAG_PLACES),
        tuple(y0 + share * (y1 - y0) for share in TAG_PLACES),
    )


def _hole_words(outline: Polygon, units: str) -> list[str]:
    words: list[str] = []
    for ring in outline.interiors:
        left, bottom, right, top = ring.bounds
        size = f"{length_words(right - left, units)} × {length_words(top - bottom, units)}"
        middle = ((left + right) / 2, (bottom + top) / 2)
        words.append(f"hole {size}, middle at {_at(middle, units)}")
    return words


def _corner_words(outline: Polygon, units: str) -> list[str]:
    """Corners in order, unless the outline is a plain rectangle or a curve."""
    ring = shapely.get_coordinates(shapely.get_exterior_ring(outline.simplify(1e-5)))[:-1]
    if len(ring) > CORNERS_MOST:
        return ["curved outline: take it from the full-size sheet"]
    left, bottom, right, top = outline.bounds
    area = Polygon(ring).area
    if len(ring) == 4 and math.isclose(area, (right - left) * (top - bottom), rel_tol=1e-6):
        return []
    unit = " in" if units == "inch" else " mm"
    pairs = [tuple(length_words(float(v), units).removesuffix(unit) for v in at) for at in ring]
    corners = ", ".join(f"({along}; {up})" for along, up in pairs)
    name = "inches" if units == "inch" else "millimetres"
    return [f"corners (along; up) in {name}: {corners}"]
