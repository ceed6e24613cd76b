"""The plane's drag polar for those above: drag from lift, with the rise past the stall."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

from foamwright.aero.model import AeroResult

type Array = NDArray[np.float64]

PAST_STALL = 8.0  # extra CD per (CL - 0.92 CLmax)², so that drag steepens near the stall; assumed


def drag_coefficient(result: AeroResult, lift_coefficient: ArrayLike) -> Array:
    """Drag coefficient of the plane at lift coefficients.

    CD = CD0 + k (CL - CL0)², steeper above 92 % of the largest lift.

    Args:
        result: The plane's aerodynamics.
        lift_coefficient: One or many. [-]

    Returns:
        Drag coefficients, same shape. [-]

    Valid:
        0.2 to 1 times the largest lift; above it the drag is extrapolated, never cut.

    Source:
        Fit of the strip drag, drag.py.

    Example:
        >>> drag_coefficient(result, 0.5)  # doctest: +SKIP
        array(0.06)
    """
    lift = np.asarray(lift_coefficient, dtype=float)
    past = np.maximum(lift - 0.92 * result.lift_max, 0.0)
    plain = result.drag_zero + result.drag_lift_factor * (lift - result.lift_at_drag_min) ** 2
    return np.asarray(plain + PAST_STALL * past**2)


def lift_drag(result: AeroResult, lift_coefficient: ArrayLike) -> Array:
    """Lift over drag at lift coefficients.

    Args:
        result: The plane's aerodynamics.
        lift_coefficient: One or many. [-]

    Returns:
        Ratio, same shape. [-]

    Source:
        `drag_coefficient`.

    Example:
        >>> lift_drag(result, 0.5)  # doctest: +SKIP
        array(8.1)
    """
    return np.asarray(
        np.asarray(lift_coefficient, dtype=float) / drag_coefficient(result, lift_coefficient)
    )
