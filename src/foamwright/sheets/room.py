"""Finding clear room for words on a part, so that they touch neither its edge nor its lines."""

import math
from collections.abc import Iterable

import numpy as np
import shapely
from shapely import Polygon
from shapely.geometry.base import BaseGeometry

from foamwright.shape.model import Point

EDGE_CLEARANCE = 0.0008  # m between words and a line
GRID_CELLS = 20_000  # of the grid that is searched: a few milliseconds
TRIES = 16  # spots proved on the true shape before a size is given up


def free_room(outline: Polygon, obstacles: Iterable[BaseGeometry]) -> BaseGeometry:
    """Area of a part that words may use.

    The outline drawn in by the clearance, less a strip of the clearance along every obstacle.

    Args:
        outline: The part as it lies. [m]
        obstacles: Lines and boxes already taken. [m]

    Returns:
        The free area. [m]

    Source:
        Definition.

    Example:
        >>> from shapely import box
        >>> round(free_room(box(0, 0, 0.1, 0.1), []).area, 6)
        0.009683
    """
    free: BaseGeometry = outline.buffer(-EDGE_CLEARANCE, join_style="mitre")
    taken = [obstacle.buffer(EDGE_CLEARANCE, quad_segs=2) for obstacle in obstacles]
    return free.difference(shapely.union_all(taken)) if taken else free


def text_box(at: Point, length: float, height: float, angle: float) -> Polygon:
    """Box round a line of words.

    Args:
        at: Its middle. [m]
        length: Along the reading direction. [m]
        height: Across it. [m]
        angle: Reading direction. [rad]

    Returns:
        The box. [m]

    Source:
        Definition.

    Example:
        >>> text_box((0.0, 0.0), 0.04, 0.01, 0.0).bounds
        (-0.02, -0.005, 0.02, 0.005)
    """
    cosine, sine = math.cos(angle), math.sin(angle)
    half, tall = length / 2, height / 2
    corners = ((-half, -tall), (half, -tall), (half, tall), (-half, tall))
    return Polygon(
        [(at[0] + u * cosine - v * sine, at[1] + u * sine + v * cosine) for u, v in corners]
    )


def long_direction(outline: Polygon) -> float:
    """Find the direction of the long side of the smallest rectangle round an outline.

    Args:
        outline: As it lies. [m]

    Returns:
        Direction. [rad]

    Source:
        Definition.

    Example:
        >>> from shapely import box
        >>> abs(math.cos(long_direction(box(0, 0, 2, 1))))
        1.0
    """
    corners = shapely.get_coordinates(outline.minimum_rotated_rectangle)
    sides = np.diff(corners[:3], axis=0)
    x, y = sides[int(np.argmax(np.hypot(sides[:, 0], sides[:, 1])))]
    return math.atan2(float(y), float(x))


def find_spot(free: BaseGeometry, length: float, height: float, angle: float) -> Point | None:
    """Place a box where it lies wholly in a free area, as near its middle as can be.

    The area is turned level and laid over with a grid; a running sum tells at once for every cell
    whether a box round it is free. The spot found is then proved on the true shape.

    Args:
        free: Area that may be used. [m]
        length: Of the box, along the reading direction. [m]
        height: Of the box. [m]
        angle: Reading direction. [rad]

    Returns:
        Middle of the box; None where it fits nowhere. [m]

    Source:
        Summed-area table, a general method.

    Example:
        >>> from shapely import box
        >>> [round(value, 2) for value in find_spot(box(0, 0, 0.2, 0.1), 0.1, 0.02, 0.0)]
        [0.1, 0.05]
    """
    if free.is_empty:
        return None
    cosine, sine = math.cos(angle), math.sin(angle)
    level = shapely.transform(free, lambda p: p @ np.array([[cosine, -sine], [sine, cosine]]))
    left, bottom, right, top = level.bounds
    if right - left < length or top - bottom < height:
        return None
    for u, v in _search(level, (length, height)):
        found = (u * cosine - v * sine, u * sine + v * cosine)
        if free.covers(text_box(found, length * 0.999, height * 0.999, angle)):
            return found
    return None


def _search(level: BaseGeometry, size: tuple[float, float]) -> list[Point]:
    left, bottom, right, top = level.bounds
    finest = math.sqrt((right - left) * (top - bottom) / GRID_CELLS)
    step = max(min(size) / 3, finest)
    xs = np.arange(left + step / 2, right, step)
    ys = np.arange(bottom + step / 2, top, step)
    shapely.prepare(level)
    grid_x, grid_y = np.meshgrid(xs, ys)
    inside = shapely.contains_xy(level, grid_x, grid_y)
    sums = np.zeros((len(ys) + 1, len(xs) + 1), dtype=np.int64)
    sums[1:, 1:] = inside.cumsum(axis=0).cumsum(axis=1)
    # One cell more than the box spans, so that its border lies inside as well.
    wide, tall = math.ceil(size[0] / step) + 1, math.ceil(size[1] / step) + 1
    if wide > len(xs) or tall > len(ys):
        wide, tall = min(wide, len(xs)), min(tall, len(ys))
    count = sums[tall:, wide:] - sums[:-tall, wide:] - sums[tall:, :-wide] + sums[:-tall, :-wide]
    rows, columns = np.nonzero(count == wide * tall)
    x = left + (columns + wide / 2) * step
    y = bottom + (rows + tall / 2) * step
    middle = level.centroid
    away = (x - middle.x) ** 2 + (y - middle.y) ** 2
    order = np.lexsort((x, y, np.round(away, 9)))[:: max(1, len(x) // TRIES)][:TRIES]
    return [(float(x[index]), float(y[index])) for index in order]
