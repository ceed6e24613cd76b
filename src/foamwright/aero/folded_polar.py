"""Polars of sections folded from board, where each change of size makes another outline.

The coupled layer takes a second an outline, too long for a plane that is being drawn. So its
answers for 150 folded sections of usual sizes are kept as straight-line fits over the outline's
heights: zero-lift angle, largest lift, and lift, drag and moment at steps from zero lift.
An outline unlike those goes through the layer itself.
"""

import json
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from foamwright.aero.refine import (
    COUPLED_REYNOLDS,
    KEPT_PAST,
    Branch,
    coupled_branch,
    coupled_grid,
    curve_of,
    one_way_branch,
    slower,
)
from foamwright.aero.viscous import Curve, section_curve
from foamwright.aero.vortex_panels import panel_flow

type Array = NDArray[np.float64]

DATA = Path(__file__).with_name("folded_sections.json")  # by tools/fit_folded_sections.py
UPPER_PLACES = (0.02, 0.05, 0.1, 0.15, 0.2, 0.27, 0.35, 0.45, 0.6, 0.8)  # x/c of the heights
LOWER_PLACES = (0.03, 0.1, 0.3, 0.6)
OFFSETS = np.radians(np.arange(-6.0, 18.1, 1.5))  # from zero lift, where figures are fitted
NEAR_MOST = 0.8  # of the largest lift, above which a fitted row is stretched to reach it
FARTHEST = 3.5  # standard deviations that a feature may lie off the fitted sections' mean


@dataclass(frozen=True, slots=True)
class _Fit:
    """Straight-line fits: figure = factors . (1, (feature - mean) / spread)."""

    mean: Array
    spread: Array
    factors: Array


def folded_features(points: Array) -> Array:
    """What the fits are taken over: heights of both sides, thickness and camber with squares.

    Args:
        points: Tail, underside, nose, upper side, tail. [-]

    Returns:
        Features. [-]

    Source:
        Definition.

    Example:
        >>> folded_features(np.array([(1, 0), (0.3, -0.02), (0, 0), (0.3, 0.1), (1, 0)])).shape
        (19,)
    """
    nose = int(points[:, 0].argmin())
    lower, upper = points[: nose + 1][::-1], points[nose:]
    stations = np.linspace(0.02, 0.98, 97)
    top, bottom = (np.interp(stations, *side.T) for side in (upper, lower))
    thickness, camber = float((top - bottom).max()), float(np.abs(0.5 * (top + bottom)).max())
    return np.array(
        [
            *np.interp(UPPER_PLACES, *upper.T),
            *np.interp(LOWER_PLACES, *lower.T),
            thickness,
            camber,
            thickness * thickness,
            thickness * camber,
            camber * camber,
        ]
    )


def folded_figures(branch: Branch) -> Array:
    """What is fitted: zero-lift angle, largest lift, and figures at OFFSETS from zero lift.

    Args:
        branch: One Reynolds number of the coupled layer.

    Returns:
        The two; then lift, ln of drag, moment at OFFSETS. [rad, -]

    Source:
        Definition.

    Example:
        >>> folded_figures(branch).shape  # doctest: +SKIP
        (53,)
    """
    places = branch.zero + OFFSETS
    rows = (branch.lift, np.log(branch.drag), branch.moment)
    way = [np.interp(places, branch.alpha, row) for row in rows]
    return np.concatenate([[branch.zero, branch.lift.max()], *way])


def branch_of(figures: Array) -> Branch:
    """The branch that figures describe.

    Args:
        figures: As `folded_figures` gives them. [rad, -]

    Returns:
        The branch, to a little beyond its stall.

    Source:
        Definition.

    Example:
        >>> line = np.minimum(5.0 * OFFSETS, 1.2)
        >>> branch = branch_of(np.concatenate([[-0.05, 1.3], line, 0.0 * line - 4.0, 0.0 * line]))
        >>> float(branch.lift.max().round(3))
        1.3
    """
    zero, most = figures[:2].tolist()
    lift, drag, moment = figures[2:].reshape(3, -1)
    share = lift / float(lift.max())
    stretch = most / float(lift.max()) - 1.0
    lift = lift * (1.0 + stretch * np.clip((share - NEAR_MOST) / (1.0 - NEAR_MOST), 0.0, 1.0))
    stall = int(lift.argmax())
    past = np.flatnonzero(lift[stall:] < KEPT_PAST * lift[stall])
    use = slice(stall + int(past[0]) if len(past) else len(lift))
    return Branch(zero + OFFSETS[use], lift[use], np.exp(drag[use]), moment[use], stall)


@lru_cache(maxsize=1)
def _fit() -> _Fit:
    stored = json.loads(DATA.read_text(encoding="utf-8"))
    return _Fit(*(np.array(stored[name]) for name in ("mean", "spread", "factors")))


def folded_curve(points: Array, reynolds: Array) -> Curve:
    """Section curve of a folded section.

    Args:
        points: Corner points with rounded creases: tail, underside, nose, upper side, tail. [-]
        reynolds: Of the rows. [-]

    Returns:
        The curve.

    Valid:
        Folded sections 6 to 14 % thick; others take the coupled layer's own second.

    Source:
        coupled.py; scatter of the fits in docs/physics/aero.md, checked in
        tests/agreement/test_section_methods.py.

    Example:
        >>> folded_curve(points, np.array([2e5])).lift.shape  # doctest: +SKIP
        (1, 17)
    """
    fit = _fit()
    off = (folded_features(points) - fit.mean) / fit.spread
    if np.abs(off).max() > FARTHEST:
        rows = _solved(points)
    else:
        rows = [branch_of(row) for row in fit.factors @ np.append(1.0, off)]
    least = COUPLED_REYNOLDS[0]
    return curve_of(
        [
            rows[COUPLED_REYNOLDS.index(number)]
            if number in COUPLED_REYNOLDS
            else slower(rows[0], least / number)
            for number in reynolds.tolist()
        ]
    )


def _solved(points: Array) -> list[Branch]:
    """All rows by the coupled layer, the one-way layer's where that finds none."""
    polar = coupled_grid(points)
    found = [coupled_branch(polar, row) for row in range(len(COUPLED_REYNOLDS))]
    if all(branch is not None for branch in found):
        return [branch for branch in found if branch is not None]
    curve = section_curve(panel_flow(points), np.array(COUPLED_REYNOLDS))
    return [branch or one_way_branch(curve, row) for row, branch in enumerate(found)]
