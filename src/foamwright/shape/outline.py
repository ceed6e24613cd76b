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
    # The nose point is common to both by construction: it would only dilute the mean.
    gaps = np.concatenate(
        [
            np.interp(top[1:, 0], upper[:, 0], upper[:, 1]) - top[1:, 1],
            np.interp(bottom[1:, 0], lower[:, 0], lower[:, 1]) - bottom[1:, 1],
        ]
    )
    return float(np.sqrt(np.mean(gaps**2))), float(np.abs(gaps).max())
