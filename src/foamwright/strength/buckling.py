"""Where thin things bow out: pushrods and panels between supports."""

import math

import numpy as np
from numpy.typing import NDArray

type Array = NDArray[np.float64]
type Number = float | Array

SIMPLY_SUPPORTED = 4.0  # [TIMOSHENKO]: long plate, both edges free to turn


def panel_buckling_load(
    stiffness: Number, width: Number, *, coefficient: float = SIMPLY_SUPPORTED
) -> Number:
    """Load per width at which a long panel between two supported edges buckles, k pi² D / b².

    Args:
        stiffness: Bending stiffness per width D. [N m]
        width: Between the supports b. [m]
        coefficient: 4 when the edges may turn, 6.97 when clamped. [-]

    Returns:
        Compressive load per width. [N/m]

    Valid:
        Panels longer than wide, flat, without shear give; a curved one holds more.

    Source:
        [TIMOSHENKO] elastic stability; [ROARK] table 15.2; reproduced in
        tests/validation/test_buckling.py.

    Example:
        >>> round(panel_buckling_load(0.24018, 0.119), 1)
        669.6
    """
    return coefficient * math.pi**2 * stiffness / width**2


def euler_load(stiffness: Number, length: Number) -> Number:
    """Load at which a rod between two pins buckles, pi² E I / L².

    Args:
        stiffness: Bending stiffness E I. [N m²]
        length: Free length. [m]

    Returns:
        Compressive load. [N]

    Valid:
        Slender and straight rods.

    Source:
        [ROARK] ch. 15; reproduced in tests/validation/test_buckling.py.

    Example:
        >>> round(euler_load(207e9 * math.pi * 0.00119**4 / 64, 0.12), 2)
        13.97
    """
    return math.pi**2 * stiffness / length**2
