"""Published sections that a foam section is compared with."""

import math
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

# x, upper, lower in per cent of chord above the flat bottom; [NACA-TR-431] ordinates of the
# Clark-Y section, as reprinted in the section tables of the time.
CLARK_Y_ORDINATES = (
    (0.0, 3.5, 3.5),
    (1.25, 5.45, 1.93),
    (2.5, 6.5, 1.47),
    (5.0, 7.9, 0.93),
    (7.5, 8.85, 0.63),
    (10.0, 9.6, 0.42),
    (15.0, 10.69, 0.15),
    (20.0, 11.36, 0.03),
    (30.0, 11.7, 0.0),
    (40.0, 11.4, 0.0),
    (50.0, 10.52, 0.0),
    (60.0, 9.15, 0.0),
    (70.0, 7.35, 0.0),
    (80.0, 5.22, 0.0),
    (90.0, 2.8, 0.0),
    (95.0, 1.49, 0.0),
    (100.0, 0.12, 0.0),
)
TARGETS = ("clark-y", "none")


@lru_cache(maxsize=4)
def clark_y() -> tuple[NDArray[np.float64], NDArray[np.float64], float]:
    """Clark-Y turned and scaled to its straight leading-to-trailing-edge line.

    Args: none.

    Returns:
        Upper and lower points (rows of x/c, z/c) and the angle of the flat bottom against
        that line. [-], [-], [rad]

    Source:
        [NACA-TR-431] table of ordinates; reproduced in tests/validation/test_clark_y.py.

    Example:
        >>> upper, lower, angle = clark_y()
        >>> round(float(upper[:, 1].max()), 3)
        0.093
    """
    table = np.array(CLARK_Y_ORDINATES) / 100.0
    rise = table[0, 1] - 0.5 * (table[-1, 1] + table[-1, 2])
    angle = math.atan(rise)
    length = math.hypot(1.0, rise)
    turn = np.array([[math.cos(angle), -math.sin(angle)], [math.sin(angle), math.cos(angle)]])
    nose = np.array([0.0, table[0, 1]])
    upper = (table[:, (0, 1)] - nose) @ turn.T / length
    lower = (table[:, (0, 2)] - nose) @ turn.T / length
    return upper, lower, angle
