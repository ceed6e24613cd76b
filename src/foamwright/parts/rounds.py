"""Round holes as polygons and polylines."""

import math

import numpy as np
from numpy.typing import NDArray

HOLE_POINTS = 16

type Array = NDArray[np.float64]


def circle(u: float, v: float, across: float) -> tuple[tuple[float, float], ...]:
    """Closed polyline of a round hole.

    Args:
        u: Middle. [m]
        v: Middle. [m]
        across: Diameter. [m]

    Returns:
        13 points, the last equal to the first. [m]

    Source:
        Geometry.

    Example:
        >>> len(circle(0.0, 0.0, 0.003))
        13
    """
    radius, turn = 0.5 * across, 2.0 * math.pi / 12.0
    points = [(u + radius * math.cos(turn * k), v + radius * math.sin(turn * k)) for k in range(12)]
    return (*points, points[0])


def round_ring(x: float, z: float, across: float) -> Array:
    """Ring of a round hole with the area of the circle.

    Args:
        x: Middle. [m]
        z: Middle. [m]
        across: Diameter of the circle. [m]

    Returns:
        Corners of a polygon of the same area. [m]

    Source:
        Geometry.

    Example:
        >>> round_ring(0.0, 0.0, 0.006).shape
        (16, 2)
    """
    turn = 2.0 * math.pi * np.arange(HOLE_POINTS) / HOLE_POINTS
    # A polygon through the circle's own points would be too tight for a round dowel.
    radius = 0.5 * across * math.sqrt(2.0 * math.pi / HOLE_POINTS / math.sin(turn[1]))
    return np.column_stack([x + radius * np.cos(turn), z + radius * np.sin(turn)])
