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
BLUNTEST = 0.15  # of the chord, tail beyond which an outline counts as open; assumed
SAME = 5e-4  # of the chord: tail points closer than this are one; listed figures are rounded
THINNEST = 1e-3  # of the chord squared, least area of a section; thinner ones are plates
SMOOTHING = 2.0  # rounds creases over a few per cent of the chord, as the layer sees them; assumed


def check_outline(upper: Points, lower: Points) -> None:
    """Refuse an outline that is no section.

    Args:
        upper: Nose to tail, chord fractions. [-]
        lower: Same. [-]

    Raises:
        ModelError: Too few points, open, swapped, no thickness, or crossing itself.

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
    stations = np.linspace(0.02, 0.98, 49)
    heights = np.interp(stations, top[:, 0], top[:, 1])
    heights -= np.interp(stations, bottom[:, 0], bottom[:, 1])
    if (heights < 0.0).mean() > 0.9:
        raise ModelError("The section's upper side lies below its lower side: swap them.")
    loop = Polygon(_loop(top, bottom))
    if loop.area < THINNEST:
        raise ModelError("The section has no thickness; ask the plate formulas instead.")
    if not loop.is_valid:
        raise ModelError("The section's outline crosses itself.")
    if abs(top[-1, 1] - bottom[-1, 1]) > BLUNTEST:
        raise ModelError(
            f"The section is open at its tail: both ends stand {100.0 * BLUNTEST:.0f} % of the "
            "chord or more apart there."
        )


def _loop(top: Array, bottom: Array) -> Array:
    """Both sides as one loop, points that fall together taken once.

    Printed coordinates are rounded: tails may cross by some 1e-5 of the chord.
    """
    top, bottom = top.copy(), bottom.copy()
    if abs(top[-1, 1] - bottom[-1, 1]) < SAME:
        top[-1] = bottom[-1] = 0.5 * (top[-1] + bottom[-1])
    whole = np.vstack([top, bottom[::-1]])
    apart = np.hypot(*np.diff(whole, axis=0, append=whole[:1]).T) > 0.02 * SAME
    return whole[apart]


def sides_of(loop: Points) -> tuple[tuple[tuple[float, float], ...], ...]:
    """Upper and lower side of an outline that is given as one loop from the tail round the nose.

    The chord line runs from the middle of the tail to the point farthest from it; the result is
    turned and scaled so that it lies from 0 to 1. Either sense of going round is taken.

    Args:
        loop: From the tail round the nose back to the tail, any scale. [any]

    Returns:
        Upper and lower side, nose to tail, chord fractions. [-]

    Raises:
        ModelError: Fewer than six finite points.

    Source:
        Definition; the order in which coordinates are usually listed.

    Example:
        >>> loop = [(100, 0), (50, 6), (20, 5), (0, 0), (20, -3), (50, -3), (100, 0)]
        >>> upper, lower = sides_of(loop)
        >>> upper[0], upper[-1], lower[1]
        ((0.0, 0.0), (1.0, 0.0), (0.2, -0.03))
    """
    points = np.array(loop, dtype=float)
    if len(points) < 6 or not np.isfinite(points).all():
        raise ModelError("An outline needs at least six finite points from tail to tail.")
    tail = 0.5 * (points[0] + points[-1])
    nose = int(np.argmax(np.hypot(*(points - tail).T)))
    chord = tail - points[nose]
    along = chord / float(chord @ chord)
    moved = points - points[nose]
    turned = np.column_stack([moved @ along, moved @ np.array([-along[1], along[0]])])
    first, second = turned[: nose + 1][::-1] + 0.0, turned[nose:] + 0.0
    if first[:, 1].mean() < second[:, 1].mean():
        first, second = second, first

    def rows(side: Array) -> tuple[tuple[float, float], ...]:
        return tuple((round(float(x), 9), round(float(y), 9)) for x, y in side)

    return rows(first), rows(second)


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
