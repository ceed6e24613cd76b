"""Lift slopes that the lattice gives each surface, alike and opposite on both sides."""

import numpy as np
from numpy.typing import NDArray

from foamwright.aero.lattice import LatticeSolution
from foamwright.aero.response import BASE
from foamwright.shape.model import LiftingSurface

type Array = NDArray[np.float64]


def inviscid_slopes(solution: LatticeSolution, surfaces: list[LiftingSurface]) -> Array:
    """Lift slope of each surface to its own incidence, on its own area.

    Args:
        solution: The unit solutions.
        surfaces: In the solution's order.

    Returns:
        One a surface. [1/rad]

    Source:
        Definition.

    Example:
        >>> inviscid_slopes(solution, [wing, stab]).round(1)  # doctest: +SKIP
        array([4.2, 3. ])
    """
    slopes = np.zeros(len(surfaces))
    for number, surface in enumerate(surfaces):
        if surface.mirrored:
            (case,) = solution.select("alpha", number)
            force = solution.forces[case, BASE, number, 2]
        else:
            (case,) = solution.select("beta", number)
            force = -solution.forces[case, BASE, number, 1]
        slopes[number] = 2.0 * abs(float(force)) / surface.area
    return slopes


def rolling_slopes(solution: LatticeSolution, ideal: Array) -> Array:
    """Lift slope that strips would need to damp a roll as the lattice does.

    Loads opposite left and right induce more: less of the section's own slope is felt.

    Args:
        solution: The unit solutions.
        ideal: Slopes for loads alike on both sides. [1/rad]

    Returns:
        One a surface; that of a surface in the middle as it was. [1/rad]

    Source:
        Strip theory turned round: a = M/(sum of c y² dy), M per unit roll rate over speed.

    Example:
        >>> rolling_slopes(solution, ideal).round(1)  # doctest: +SKIP
        array([2.6, 1.6])
    """
    slopes = ideal.copy()
    strips = solution.mesh.strips
    y, z = strips.middle.T
    lever = y * strips.normal[:, 2] - z * strips.normal[:, 1]
    weight = strips.chord * strips.width * lever**2
    for number in range(len(ideal)):
        cases = solution.select("roll", number)
        mine = strips.surface == number
        if solution.select("alpha", number) and cases:
            moment = abs(float(solution.forces[cases[0], BASE, number, 3]))
            slopes[number] = moment / max(float(weight[mine].sum()), 1e-12)
    return slopes
