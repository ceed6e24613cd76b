"""A section's outline made ready for the panel method: checked, smoothed, respaced."""

import math
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray
from shapely.geometry import Polygon

from foamwright.core.errors import ModelError

type Array = NDArray[np.float64]
type Points = Sequence[tuple[float, float]]

PANELS = 96
STEP_REACH = 6.0  # step heights behind a step until the flow is back on the surface [HOERNER]
SMOOTHING = 2.0  # rounds creases over a few per cent of the chord, as the layer sees them; assumed


def check_outline(upper: Points, lower: Points) -> None:
    """Refuse an outline that is no section.

    Args:
        upper: Nose to tail, chord fractions. [-]
        lower: Same. [-]

    Raises:
        ModelError: Too few points, open, no thickness, or crossing itself.

    Source:
        Definition.

    Example:
        >>> check_outline([(0, 0), (0.3, 0.1), (1, 0)], [(0, 0), (0.3, -0.02), (1, 0)])
    """
    top, bottom = np.array(upper, dtype=float), np.array(lower, dtype=float)
    if (
        len(top) < 3
        or len(bottom) < 3
        or not (np.isfinite(top).all() and np.isfinite(bottom).all())
    ):
        raise ModelError("A section needs at least three finite points on each side.")
    if math.dist(top[0], bottom[0]) > 0.02:
        raise ModelError("The section is open at its nose: upper and lower side must meet there.")
    if abs(top[-1, 0] - 1.0) > 0.02 or abs(bottom[-1, 0] - 1.0) > 0.02:
        raise ModelError("The section is open at its tail: both sides must run from x/c = 0 to 1.")
    loop = Polygon(np.vstack([top, bottom[:0:-1]]))
    if loop.area < 1e-3:
        raise ModelError("The section has no thickness; ask the plate formulas instead.")
    if not loop.is_valid:
        raise ModelError("The section's outline crosses itself.")


def fair_steps(upper: Points) -> tuple[Array, float]:
    """Bridge steps of the upper side by the line along which the flow comes back to the surface.

    Args:
        upper: Nose to tail, chord fractions. [-]

    Returns:
        The bridged side and the sum of the step heights over chord. [-], [-]

    Source:
        Reattachment about six step heights behind a backward step [HOERNER].

    Example:
        >>> side, height = fair_steps([(0, 0), (0.5, 0.05), (0.501, 0.025), (1, 0.025)])
        >>> round(height, 3)
        0.025
    """
    points = np.array(upper, dtype=float)
    total = 0.0
    run, fall = np.diff(points[:, 0]), -np.diff(points[:, 1])
    steps = np.flatnonzero((fall > 0.008) & (fall > 3.0 * run))
    keep = np.ones(len(points), dtype=bool)
    for index in steps:
        height = float(fall[index])
        total += height
        back = points[index, 0] + STEP_REACH * height
        inside = (np.arange(len(points)) > index) & (points[:, 0] < back)
        inside[-1] = False
        keep &= ~inside
    return points[keep], total


def _spline(knots: Array, values: Array, places: Array) -> Array:
    """Natural cubic spline through several columns at once."""
    gap = np.diff(knots)
    count = len(knots)
    inner = np.arange(1, count - 1)
    matrix = np.eye(count)
    matrix[inner, inner - 1], matrix[inner, inner + 1] = gap[:-1], gap[1:]
    matrix[inner, inner] = 2.0 * (gap[:-1] + gap[1:])
    right = np.zeros_like(values)
    right[1:-1] = 6.0 * np.diff(np.diff(values, axis=0) / gap[:, None], axis=0)
    bend = np.linalg.solve(matrix, right)
    index = np.clip(np.searchsorted(knots, places) - 1, 0, count - 2)
    width = gap[index][:, None]
    a, b = (knots[index + 1] - places)[:, None] / width, (places - knots[index])[:, None] / width
    cubic = (a**3 - a) * bend[index] + (b**3 - b) * bend[index + 1]
    return np.asarray(a * values[index] + b * values[index + 1] + cubic * width**2 / 6.0)


def panel_points(upper: Points, lower: Points, *, smooth: bool = False) -> Array:
    """Corner points of the panels: tail, underside, nose, upper side, tail.

    Args:
        upper: Nose to tail, chord fractions. [-]
        lower: Same. [-]
        smooth: Round creases over a few panels.

    Returns:
        Points (n, 2). [-]

    Source:
        Natural cubic spline on arc length; smoothing by penalised second differences.

    Example:
        >>> panel_points([(0, 0), (0.3, 0.1), (1, 0)], [(0, 0), (0.3, -0.02), (1, 0)]).shape
        (97, 2)
    """
    top, bottom = np.array(upper, dtype=float), np.array(lower, dtype=float)
    loop = np.vstack([bottom[::-1], top[1:]])
    keep = np.concatenate([[True], np.hypot(*np.diff(loop, axis=0).T) > 1e-5])
    loop = loop[keep]
    arc = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(loop, axis=0).T))])
    nose = arc[int(np.argmin(loop[:, 0]))]
    beta = np.linspace(0.0, math.pi, PANELS // 2 + 1)
    # From the tail to the nose: crowded at both ends, more so at the nose.
    share = 0.6 * 0.5 * (1.0 - np.cos(beta)) + 0.4 * np.sin(0.5 * beta)
    places = np.concatenate([nose * share, nose + (arc[-1] - nose) * (1.0 - share[::-1])[1:]])
    if smooth:
        # Straight facets between creases: follow them, then round the corners.
        points = np.column_stack([np.interp(places, arc, loop[:, k]) for k in range(2)])
        second = np.diff(np.eye(len(points)), 2, axis=0)
        rounded = np.linalg.solve(np.eye(len(points)) + SMOOTHING * second.T @ second, points)
        rounded[[0, -1]] = points[[0, -1]]
        return np.asarray(rounded, dtype=np.float64)
    return _spline(arc, loop, places)
