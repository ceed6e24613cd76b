"""Measures of a section's outline."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from foamwright.core.errors import DesignError
from foamwright.shape.reference import TARGETS, clark_y

STATIONS = 0.5 * (1.0 - np.cos(np.linspace(0.0, np.pi, 81)))[1:-1]

type Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class OutlineSize:
    """Thickness and camber of an outline.

    Attributes:
        thickness: Largest thickness over chord. [-]
        camber: Largest height of the mean line over chord, with its sign. [-]
    """

    thickness: float
    camber: float


def measure(upper: Array, lower: Array) -> OutlineSize:
    """Largest thickness and camber, both measured square to the chord line.

    Args:
        upper: Rows of (x/c, z/c), nose to tail. [-]
        lower: Same for the underside. [-]

    Returns:
        Thickness and camber. [-]

    Source:
        Definition (British convention: square to the chord line).

    Example:
        >>> top = np.array([[0.0, 0.0], [0.5, 0.1], [1.0, 0.0]])
        >>> round(measure(top, top * [1.0, 0.0]).camber, 3)
        0.05
    """
    over = np.interp(STATIONS, upper[:, 0], upper[:, 1])
    under = np.interp(STATIONS, lower[:, 0], lower[:, 1])
    mean = 0.5 * (over + under)
    return OutlineSize(float((over - under).max()), float(mean[np.abs(mean).argmax()]))


def target_distance(target: str, upper: Array, lower: Array) -> tuple[float | None, float | None]:
    """Distance of an outline to its target section, both on their own chord lines.

    Args:
        target: "clark-y" or "none". [-]
        upper: Rows of (x/c, z/c). [-]
        lower: Same for the underside. [-]

    Returns:
        Root mean square and largest distance over the published stations; None without target. [-]

    Raises:
        DesignError: No such target.

    Source:
        [NACA-TR-431] ordinates of the Clark-Y.

    Example:
        >>> target_distance("clark-y", clark_y()[0], clark_y()[1])
        (0.0, 0.0)
    """
    name = target.strip().lower()
    if name not in TARGETS:
        raise DesignError(
            "wing.target", target, f"known targets are {', '.join(TARGETS)}", 'Use "clark-y".'
        )
    if name == "none":
        return None, None
    top, bottom, _ = clark_y()
    return outline_distance(top, bottom, upper=upper, lower=lower)


def outline_distance(
    target_upper: Array, target_lower: Array, *, upper: Array, lower: Array
) -> tuple[float, float]:
    """Distance of an outline to another, both on their own chord lines.

    Args:
        target_upper: Rows of (x/c, z/c), nose to tail. [-]
        target_lower: Same for the underside. [-]
        upper: Of the outline that is measured. [-]
        lower: Same for its underside. [-]

    Returns:
        Root mean square and largest distance over the target's stations. [-], [-]

    Source:
        Definition.

    Example:
        >>> top, bottom, _ = clark_y()
        >>> outline_distance(top, bottom, upper=top, lower=bottom)
        (0.0, 0.0)
    """
    # The nose point is common to both by construction: it would only dilute the mean.
    gaps = np.concatenate(
        [
            np.interp(side[1:, 0], made[:, 0], made[:, 1]) - side[1:, 1]
            for side, made in ((target_upper, upper), (target_lower, lower))
        ]
    )
    return float(np.sqrt(np.mean(gaps**2))), float(np.abs(gaps).max())


def outline_of(points: Array) -> tuple[Array, Array]:
    """Split a section's coordinates into two sides on the straight leading-to-trailing-edge line.

    Args:
        points: Rows of (x, z), from the trailing edge round the nose and back, either way. [any]

    Returns:
        Upper and lower side, nose to tail, scaled to a chord of 1. [-], [-]

    Raises:
        DesignError: They do not run round a section.

    Source:
        The nose is the point farthest from the middle of the trailing edge.

    Example:
        >>> over, under = outline_of(np.array([[1, 0], [0.5, 0.1], [0, 0], [0.5, -0.02], [1, 0]]))
        >>> over.tolist()
        [[0.0, 0.0], [0.5, 0.1], [1.0, 0.0]]
    """
    rows = np.asarray(points, dtype=float)
    if rows.ndim != 2 or rows.shape[1] != 2 or len(rows) < 5 or not np.isfinite(rows).all():
        raise DesignError(
            "wing.target",
            f"{len(rows)} points"
            if rows.ndim == 2 or not rows.size
            else f"rows of shape {rows.shape}",
            "a section needs at least five points of two finite numbers, round it once",
            "Begin and end at the trailing edge.",
        )
    tail = 0.5 * (rows[0] + rows[-1])
    nose = int(np.argmax(np.hypot(*(rows - tail).T)))
    along = tail - rows[nose]
    chord = float(np.hypot(*along))
    if not 0 < nose < len(rows) - 1 or float(np.hypot(*(rows[0] - rows[-1]))) > 0.2 * chord:
        raise DesignError(
            "wing.target",
            f"{len(rows)} points",
            "they must run from the trailing edge round the nose and back to it",
            "Begin and end at the trailing edge.",
        )
    axis = along / chord
    away = (rows - rows[nose]) / chord
    turned = np.column_stack([away @ axis, away @ np.array([-axis[1], axis[0]])])
    turned[nose] = 0.0
    sides = [turned[: nose + 1][::-1], turned[nose:]]
    sides.sort(key=lambda side: -float(np.trapezoid(side[:, 1], side[:, 0])))
    for side in sides:
        if np.any(np.diff(side[:, 0]) < 0.0):
            raise DesignError(
                "wing.target",
                "coordinates that double back",
                "each side must run from the nose to the tail without turning back",
                "Leave out the points that do.",
            )
    return sides[0], sides[1]
