"""Flat plates: uniform load, a central push, and a central couple."""

import math

import numpy as np
from numpy.typing import NDArray

type Number = float | NDArray[np.float64]

# [ROARK] table 11.4 case 1a, all edges simply supported, nu = 0.3: a/b, beta (stress), alpha
UNIFORM_RATIOS = (1.0, 1.2, 1.4, 1.6, 1.8, 2.0, 3.0, 4.0, 5.0)
UNIFORM_STRESS = (0.2874, 0.3762, 0.4530, 0.5172, 0.5688, 0.6102, 0.7134, 0.7410, 0.7476)
UNIFORM_DEFLECTION = (0.0444, 0.0616, 0.0770, 0.0906, 0.1017, 0.1110, 0.1335, 0.1400, 0.1417)
# [ROARK] table 11.4 case 1b, load on a small circle in the middle: a/b, beta, alpha
POINT_RATIOS = (1.0, 1.2, 1.4, 1.6, 1.8, 2.0)
POINT_STRESS = (0.435, 0.650, 0.789, 0.875, 0.927, 0.958)
POINT_DEFLECTION = (0.1267, 0.1478, 0.1621, 0.1715, 0.1770, 0.1805)
POISSON = 0.3  # of the tables


def _table(ratio: float, ratios: tuple[float, ...], values: tuple[float, ...]) -> float:
    return float(np.interp(ratio, ratios, values))


def uniform_stress(pressure: float, *, long: float, short: float, thickness: float) -> float:
    """Largest stress of a rectangular plate on four free-turning edges, beta q b² / t².

    Args:
        pressure: [Pa]
        long: Longer side. [m]
        short: Shorter side. [m]
        thickness: [m]

    Returns:
        Stress at the middle. [Pa]

    Valid:
        Deflection under half the thickness.

    Source:
        [ROARK] table 11.4 case 1a; reproduced in tests/validation/test_plates.py.

    Example:
        >>> round(uniform_stress(5e3, long=0.08, short=0.04, thickness=1.59e-3) / 1e6, 3)
        1.931
    """
    beta = _table(long / short, UNIFORM_RATIOS, UNIFORM_STRESS)
    return beta * pressure * short**2 / thickness**2


def uniform_deflection(
    pressure: float, *, long: float, short: float, thickness: float, modulus: float
) -> float:
    """Mid deflection of a rectangular plate on four free-turning edges, alpha q b⁴ / (E t³).

    Args:
        pressure: [Pa]
        long: Longer side. [m]
        short: Shorter side. [m]
        thickness: [m]
        modulus: [Pa]

    Returns:
        Deflection. [m]

    Valid:
        Deflection under half the thickness.

    Source:
        [ROARK] table 11.4 case 1a; reproduced in tests/validation/test_plates.py.

    Example:
        >>> round(1e3 * uniform_deflection(
        ...     5e3, long=0.048, short=0.04, thickness=1.59e-3, modulus=9.5e9), 4)
        0.0206
    """
    alpha = _table(long / short, UNIFORM_RATIOS, UNIFORM_DEFLECTION)
    return alpha * pressure * short**4 / (modulus * thickness**3)


def push_stress(
    force: float, *, long: float, short: float, thickness: Number, pad: float
) -> Number:
    """Largest stress of a plate pushed in its middle.

    sigma = 3 W / (2 pi t²) ((1 + nu) ln(2 b / (pi r0)) + beta).

    Args:
        force: [N]
        long: Longer side. [m]
        short: Shorter side. [m]
        thickness: [m]
        pad: Radius of the loaded circle r0. [m]

    Returns:
        Stress. [Pa]

    Valid:
        Pad larger than half the thickness and well inside the plate.

    Source:
        [ROARK] table 11.4 case 1b; reproduced in tests/validation/test_plates.py.

    Example:
        >>> round(push_stress(
        ...     54.0, long=0.036, short=0.036, thickness=1.59e-3, pad=0.009) / 1e6, 2)
        16.83
    """
    beta = _table(long / short, POINT_RATIOS, POINT_STRESS)
    spread = (1.0 + POISSON) * math.log(2.0 * short / (math.pi * pad))
    return 3.0 * force / (2.0 * math.pi * thickness**2) * (spread + beta)


def push_deflection(
    force: float, *, long: float, short: float, thickness: float, modulus: float
) -> float:
    """Deflection in the middle of a plate pushed there, alpha W b² / (E t³).

    Args:
        force: [N]
        long: Longer side. [m]
        short: Shorter side. [m]
        thickness: [m]
        modulus: [Pa]

    Returns:
        Deflection. [m]

    Source:
        [ROARK] table 11.4 case 1b; reproduced in tests/validation/test_plates.py.

    Example:
        >>> round(1e3 * push_deflection(
        ...     54.0, long=0.036, short=0.036, thickness=1.59e-3, modulus=9.5e9), 4)
        0.2322
    """
    alpha = _table(long / short, POINT_RATIOS, POINT_DEFLECTION)
    return alpha * force * short**2 / (modulus * thickness**3)


def couple_stress(moment: float, *, radius: float, pad: float, thickness: Number) -> Number:
    """Largest radial stress of a round plate whose stiff middle is tilted by a couple.

    Plate with w = (A r + B r³ + C / r + D r ln r) cos(theta), rim free to turn, middle rigid;
    sigma = 6 m / t² at the edge of the middle.

    Args:
        moment: Couple on the middle. [N m]
        radius: Of the supported rim. [m]
        pad: Radius of the stiff middle. [m]
        thickness: [m]

    Returns:
        Stress. [Pa]

    Valid:
        Poisson's ratio 0.3, small deflections, pad smaller than the rim.

    Source:
        Plate equation solved here; [ROARK] table 11.2 has the same case (trunnion-loaded plate).

    Example:
        >>> round(couple_stress(1.0, radius=0.02, pad=0.008, thickness=0.002) / 1e6, 1)
        25.8
    """
    a, b, nu = 1.0, pad / radius, POISSON

    def radial_moment(r: float) -> list[float]:
        # Mr / (-D cos) of the four terms: w'' + nu (w' / r - w / r²)
        return [
            0.0,
            6.0 * r + nu * 2.0 * r,
            2.0 / r**3 * (1.0 - nu),
            (1.0 + nu) / r,
        ]

    # Tilt phi of the rigid middle is 1: w = r and w' = 1 at its edge.
    matrix = np.array(
        [
            [b, b**3, 1.0 / b, b * math.log(b)],
            [1.0, 3.0 * b**2, -1.0 / b**2, math.log(b) + 1.0],
            [a, a**3, 1.0 / a, 0.0],
            radial_moment(a),
        ]
    )
    terms = np.linalg.solve(matrix, np.array([b, 1.0, 0.0, 0.0]))
    # The couple that the rim's reactions carry is 4 pi D times the r ln r term, whatever the edges.
    couple = 4.0 * math.pi * abs(float(terms[3]))
    edge = abs(float(np.dot(radial_moment(b), terms)))
    return 6.0 * edge * moment / (couple * radius * thickness**2)
