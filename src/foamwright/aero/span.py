"""Lift along the wing's span, from the lattice."""

import numpy as np

from foamwright.aero.lattice import LatticeSolution


def wing_lift_shape(
    solution: LatticeSolution, lift: float
) -> tuple[tuple[float, ...], tuple[float, ...]]:
    """Lift per span along the half wing at one lift coefficient, twist and washout taken in.

    Circulation = that of the twist + alpha times that of one radian, alpha such that the wing makes
    the lift wanted: CL = 4 sum(circulation width) / S.

    Args:
        solution: Unit solutions of the plane. [-]
        lift: Lift coefficient of the wing. [-]

    Returns:
        Middles of the strips as fractions of the half span, rising [-], and lift per span over
        dynamic pressure there [m].

    Valid:
        Attached flow; camber is taken as alike along the span, so it only shifts alpha.

    Source:
        [KP] ch. 12; against [SCHRENK] in tests/agreement/test_span_load_methods.py.

    Example:
        >>> wing_lift_shape(plane.lattice, 1.1)[0][0]  # doctest: +SKIP
        0.04
    """
    strips = solution.mesh.strips
    wing = strips.surface == 0
    (alpha_case,) = solution.select("alpha", 0)
    (twist_case,) = solution.select("twist", 0)
    per, twist = solution.circulation[alpha_case][wing], solution.circulation[twist_case][wing]
    width = strips.width[wing] * np.abs(strips.across[wing, 1])
    area = 2.0 * float(strips.chord[wing] @ width)
    alpha = (0.25 * lift * area - float(twist @ width)) / float(per @ width)
    load = 2.0 * np.maximum(twist + alpha * per, 0.0)
    order = np.argsort(strips.place[wing])
    return tuple(strips.place[wing][order].tolist()), tuple(load[order].tolist())
