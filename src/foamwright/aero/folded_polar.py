"""Drag of sections folded from board: the one-way layer's, set right by a mean ratio."""

import math

import numpy as np
from numpy.typing import NDArray

from foamwright.aero.refine import COUPLED_REYNOLDS

type Array = NDArray[np.float64]

# Coupled over one-way drag of sections folded from board, where each change of size makes
# another outline: mean over seven such sections 9 to 10.5 % thick, which scatter by 3 to 6 %,
# by 10 % at the ends.
# Rows at 61 000, 90 000, 135 000, 200 000 and 400 000 columns at FOLDED_LIFT.
FOLDED_LIFT = (0.0, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1.0, 1.1)
FOLDED_RATIO = (
    (1.05, 1.06, 1.06, 1.06, 1.06, 1.06, 1.05, 1.02, 0.99, 0.96, 0.94, 0.93),
    (1.17, 1.28, 1.34, 1.36, 1.34, 1.29, 1.20, 1.09, 0.98, 0.90, 0.86, 0.86),
    (1.24, 1.40, 1.50, 1.48, 1.38, 1.26, 1.18, 1.10, 1.02, 0.96, 0.93, 0.94),
    (1.33, 1.49, 1.56, 1.52, 1.39, 1.25, 1.18, 1.12, 1.06, 1.02, 1.03, 1.05),
    (1.40, 1.52, 1.55, 1.50, 1.41, 1.29, 1.18, 1.12, 1.09, 1.12, 1.19, 1.25),
)


def folded_drag(reynolds: Array, lift: Array, drag: Array) -> Array:
    """Drag table of a folded section: the mean ratio of such sections laid on.

    Args:
        reynolds: Of the rows. [-]
        lift: One-way, (Re, angle). [-]
        drag: One-way, (Re, angle). [-]

    Returns:
        Drag, (Re, angle). [-]

    Valid:
        Folded sections 8 to 12 % thick; lift from 0 to 1.1, fading to the one-way drag outside.

    Source:
        FOLDED_RATIO.

    Example:
        >>> folded_drag(np.array([2e5]), np.array([[0.7]]), np.array([[0.02]])).shape
        (1, 1)
    """
    rows = np.log(COUPLED_REYNOLDS[1:])
    columns = (-0.3, *FOLDED_LIFT, 1.4)
    factor = np.ones_like(drag)
    for k, number in enumerate(np.log(reynolds)):
        held = [
            float(np.interp(number, rows, column)) for column in zip(*FOLDED_RATIO, strict=True)
        ]
        factor[k] = np.interp(lift[k], columns, (1.0, *held, 1.0))
    share = np.interp(np.log(reynolds), [math.log(45e3), math.log(61e3)], [0.0, 1.0])
    return drag * factor ** share[:, None]
