"""Section drag of the one-way layer, set right by the layer that shapes its own pressure.

The one-way layer has an answer everywhere, stall and bursting bubbles included, but its bubbles are
fitted; the coupled layer is not fitted, but has no answer there. So the ratio of their drags at the
same lift, where the coupled one is settled and attached, is smoothed over lift and Reynolds number
and laid on the one-way drag; away from settled cases it fades to one.
"""

import math

import numpy as np
from numpy.typing import NDArray

from foamwright.aero.coupled import CoupledPolar, coupled_polar
from foamwright.aero.coupled_panels import mass_influence, sharp_tail

type Array = NDArray[np.float64]

COUPLED_REYNOLDS = (61e3, 90e3, 135e3, 200e3, 400e3)
COUPLED_ALPHA = tuple(math.radians(-4.5 + 1.5 * k) for k in range(10))
LIFT_WIDTH, REYNOLDS_WIDTH = 0.12, 0.30  # of the smoothing, in Cl and in ln Re; assumed
FADE = 0.1  # weight of a ratio of one against a settled case at the spot; assumed
LEVEL = 1.04  # measured drag over the coupled layer's: mean of three sections [UIUC-1], [UIUC-3]
LARGEST_RATIO = 0.5  # of the logarithm of a drag ratio that is believed; assumed
LEAST_SLOPE = 2.0  # 1/rad, lift slope below which a settled case is no longer attached; assumed
# Share of the ratio that is laid on: where bubbles stay open the fitted layer does better.
TRUST = ((45e3, 0.0), (61e3, 0.3), (90e3, 1.0))
# The same ratio for sections folded from board, where each small change of size makes another
# outline: mean over seven such sections 9 to 10.5 % thick, which scatter by 3 to 6 %, by 10 % at
# the ends.
# Made by tools/folded_ratio.py; rows at COUPLED_REYNOLDS, columns at FOLDED_LIFT.
FOLDED_LIFT = (0.0, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1.0, 1.1)
FOLDED_RATIO = (
    (1.05, 1.06, 1.06, 1.06, 1.06, 1.06, 1.05, 1.02, 0.99, 0.96, 0.94, 0.93),
    (1.17, 1.28, 1.34, 1.36, 1.34, 1.29, 1.20, 1.09, 0.98, 0.90, 0.86, 0.86),
    (1.24, 1.40, 1.50, 1.48, 1.38, 1.26, 1.18, 1.10, 1.02, 0.96, 0.93, 0.94),
    (1.33, 1.49, 1.56, 1.52, 1.39, 1.25, 1.18, 1.12, 1.06, 1.02, 1.03, 1.05),
    (1.40, 1.52, 1.55, 1.50, 1.41, 1.29, 1.18, 1.12, 1.09, 1.12, 1.19, 1.25),
)


def _attached(polar: CoupledPolar, row: int) -> list[int]:
    """Settled cases of one Reynolds number on the attached branch, lift rising with the angle."""
    good = np.flatnonzero(polar.settled[row])
    if len(good) == 0:
        return []
    start = int(np.abs(good - good[len(good) // 2]).argmin())
    kept = [int(good[start])]
    for way in (range(start + 1, len(good)), range(start - 1, -1, -1)):
        at = int(good[start])
        for k in way:
            new = int(good[k])
            turn = COUPLED_ALPHA[new] - COUPLED_ALPHA[at]
            if (polar.lift[row, new] - polar.lift[row, at]) / turn < LEAST_SLOPE:
                break
            kept.append(new)
            at = new
    return sorted(kept)


def drag_ratios(points: Array, reynolds: Array, lift: Array, drag: Array) -> Array:
    """Coupled over one-way drag at the same lift, wherever the coupled layer is settled.

    Args:
        points: Corner points: tail, underside, nose, upper side, tail. [-]
        reynolds: Of the one-way rows. [-]
        lift: One-way, (Re, angle). [-]
        drag: One-way, (Re, angle). [-]

    Returns:
        Rows of ln Re, lift and ln of the ratio. [-]

    Source:
        coupled.py.

    Example:
        >>> drag_ratios(points, reynolds, lift, drag).shape[1]  # doctest: +SKIP
        3
    """
    flow = mass_influence(sharp_tail(points))
    polar = coupled_polar(flow, np.array(COUPLED_ALPHA), np.array(COUPLED_REYNOLDS))
    found: list[tuple[float, float, float]] = []
    for i, number in enumerate(COUPLED_REYNOLDS):
        row = int(np.abs(reynolds - number).argmin())
        end = int(lift[row].argmax()) + 1
        start = int(lift[row, :end].argmin())
        branch = np.maximum.accumulate(lift[row, start:end])
        for j in _attached(polar, i):
            here = float(polar.lift[i, j])
            if not branch[0] < here < branch[-1]:
                continue
            fitted = float(np.interp(here, branch, drag[row, start:end]))
            ratio = math.log(LEVEL * float(polar.drag[i, j]) / fitted)
            found.append((math.log(number), here, max(-LARGEST_RATIO, min(LARGEST_RATIO, ratio))))
    return np.array(found).reshape(-1, 3)


def laid_on(cases: Array, reynolds: Array, lift: Array) -> Array:
    """Factor on the drag at every place of a table.

    Args:
        cases: Rows of ln Re, lift and ln of the drag ratio. [-]
        reynolds: Of the table's rows. [-]
        lift: The table, (Re, angle). [-]

    Returns:
        Factors of the same shape. [-]

    Source:
        Gaussian weights; a weight of its own stands for a ratio of one.

    Example:
        >>> case = np.array([[math.log(2e5), 0.5, 0.2]])
        >>> laid_on(case, np.array([2e5]), np.array([[0.5, 3.0]])).round(3)
        array([[1.199, 1.   ]])
    """
    near = (np.log(reynolds)[:, None, None] - cases[:, 0]) / REYNOLDS_WIDTH
    close = (lift[:, :, None] - cases[:, 1]) / LIFT_WIDTH
    weight = np.exp(-0.5 * (near**2 + close**2))
    mean = (weight * cases[:, 2]).sum(-1) / (weight.sum(-1) + FADE)
    places, trust = zip(*TRUST, strict=True)
    share = np.interp(np.log(reynolds), np.log(places), trust)
    return np.exp(share[:, None] * mean)


def refined_drag(points: Array, reynolds: Array, lift: Array, drag: Array) -> Array:
    """Drag table of the one-way layer with the coupled layer's ratio laid on.

    Args:
        points: Corner points: tail, underside, nose, upper side, tail. [-]
        reynolds: Of the rows; those of the coupled layer are among them. [-]
        lift: One-way, (Re, angle). [-]
        drag: One-way, (Re, angle). [-]

    Returns:
        Drag, (Re, angle). [-]

    Valid:
        Re 61 000 to 400 000; below 45 000 and past the stall it is the one-way drag.

    Source:
        coupled.py and viscous.py; reproduced in tests/validation/test_sections.py.

    Example:
        >>> refined_drag(points, reynolds, lift, drag).shape == drag.shape  # doctest: +SKIP
        True
    """
    cases = drag_ratios(points, reynolds, lift, drag)
    return drag * laid_on(cases, reynolds, lift) if len(cases) else drag


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
        FOLDED_RATIO; checked against `refined_drag` in tests/agreement/test_section_methods.py.

    Example:
        >>> folded_drag(np.array([2e5]), np.array([[0.7]]), np.array([[0.02]])).shape
        (1, 1)
    """
    rows = np.log(COUPLED_REYNOLDS)
    columns = (-0.3, *FOLDED_LIFT, 1.4)
    factor = np.ones_like(drag)
    for k, number in enumerate(np.log(reynolds)):
        held = [
            float(np.interp(number, rows, column)) for column in zip(*FOLDED_RATIO, strict=True)
        ]
        factor[k] = np.interp(lift[k], columns, (1.0, *held, 1.0))
    share = np.interp(np.log(reynolds), [math.log(45e3), math.log(61e3)], [0.0, 1.0])
    return drag * factor ** share[:, None]
