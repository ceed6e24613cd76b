"""What bevels and holes take off a part: for its mass, and for its solid."""

import math
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely import Polygon

from foamwright.parts.model import Line, LineKind
from foamwright.shape.model import Point

type Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Shaving:
    """The strip beyond a bevel line, slanted from nothing at the line to its depth at the edge.

    Attributes:
        ring: Rectangle beyond the line, its first two corners on the line. [m]
        depth: How much of the thickness is gone along its far side; negative: from the drawn
            face. [m]
    """

    ring: Array
    depth: float


def shavings(outline: Polygon, lines: tuple[Line, ...]) -> tuple[Shaving, ...]:
    """Strips that the bevel lines with a depth slant away.

    Each straight stretch of such a line has the nearer part of the outline beyond it.

    Args:
        outline: Flat outline. [m]
        lines: Of the part. [-]

    Returns:
        One strip a stretch.

    Source:
        Geometry.

    Example:
        >>> from shapely import box
        >>> line = Line(LineKind.BEVEL, ((0.0, 0.03), (0.2, 0.03)), depth=0.005)
        >>> [round(v, 3) for v in shavings(box(0, 0, 0.2, 0.035), (line,))[0].ring[2].tolist()]
        [0.2, 0.035]
    """
    found: list[Shaving] = []
    slanted = [line for line in lines if line.kind is LineKind.BEVEL and line.depth]
    if not slanted:
        return ()
    corners = shapely.get_coordinates(outline.exterior)
    for line in slanted:
        for start, end in pairwise(np.array(line.points)):
            length = math.dist(start.tolist(), end.tolist())
            across = np.array([start[1] - end[1], end[0] - start[0]]) / length
            along = (end - start) / length
            beside = (corners - start) @ along
            # A bent hinge has other edges far along: only corners beside this stretch count.
            near = corners[(beside > -0.02 * length) & (beside < 1.02 * length)]
            away = (near - start) @ across
            high, low = float(away.max(initial=0.0)), float(away.min(initial=0.0))
            reach = low if -low < high else high
            step = reach * across
            found.append(Shaving(np.array([start, end, end + step, start + step]), line.depth))
    return tuple(found)


def holes_of(lines: tuple[Line, ...]) -> list[Polygon]:
    """Small holes that are drawn as closed cut lines: for screws, pins, wire.

    Args:
        lines: Of the part. [-]

    Returns:
        One polygon a hole. [m]

    Source:
        Definition.

    Example:
        >>> holes_of(())
        []
    """
    return [Polygon(line.points) for line in lines if _is_hole(line)]


def _is_hole(line: Line) -> bool:
    points = line.points
    return line.kind is LineKind.CUT and len(points) > 3 and points[0] == points[-1]


def _shoelace(points: tuple[Point, ...]) -> float:
    return 0.5 * sum(u * y - x * v for (u, v), (x, y) in pairwise(points))


def share_left(outline: Polygon, lines: tuple[Line, ...], thickness: float) -> float:
    """Share of a part's flat mass that is left after its bevels and small holes are cut.

    A bevel takes what its slope does over the strip beyond it; a closed cut line takes all within.

    Args:
        outline: Flat outline. [m]
        lines: Of the part. [-]
        thickness: [m]

    Returns:
        Share. [-]

    Valid:
        Paper and foam are taken in the proportion in which they make up the board: exact for a
        bevel to a feather edge on a board with both papers.

    Source:
        Geometry.

    Example:
        >>> from shapely import box
        >>> line = Line(LineKind.BEVEL, ((0.0, 0.03), (0.2, 0.03)), depth=0.005)
        >>> round(share_left(box(0, 0, 0.2, 0.035), (line,), 0.005), 4)
        0.9286
    """
    gone = sum(abs(_shoelace(line.points)) for line in lines if _is_hole(line))
    for strip in shavings(outline, lines):
        beyond = Polygon(strip.ring).intersection(outline)
        if beyond.is_empty:
            continue
        # The depth grows evenly from the line: its mean is the depth at the middle of the area.
        out = strip.ring[3] - strip.ring[0]
        middle = np.array(beyond.centroid.coords[0]) - strip.ring[0]
        share = float(middle @ out) / float(out @ out)
        gone += share * abs(strip.depth) / thickness * float(beyond.area)
    return 1.0 - gone / float(outline.area)
