"""From the hand to the stick that the servos follow."""

import numpy as np
from numpy.typing import NDArray

type Array = NDArray[np.float64]


def with_expo(stick: Array | float, share: float) -> Array:
    """Soften a stick about its middle; full stick stays full.

    s' = (1 - e) s + e s³.

    Args:
        stick: -1 to 1. [-]
        share: Of expo, 0 to 1. [-]

    Returns:
        What the servo is told. [-]

    Source:
        Common practice of radio makers: the cubic is the usual curve; from memory.

    Example:
        >>> with_expo(np.array([-1.0, 0.5, 1.0]), 0.5).tolist()
        [-1.0, 0.3125, 1.0]
    """
    given = np.asarray(stick, dtype=float)
    return (1.0 - share) * given + share * given**3
