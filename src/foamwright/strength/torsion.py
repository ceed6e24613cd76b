"""Twist of closed cells, of slit ones, and of solid rectangles."""

import math

import numpy as np
from numpy.typing import NDArray

type Array = NDArray[np.float64]
type Number = float | Array


def closed_cell_constant(area: Number, flexibility: Number) -> Number:
    """Torsion constant of a thin closed cell, 4 A² / integral(ds / t).

    With ds / (G t) in place of ds / t it is the torsional stiffness G J.

    Args:
        area: Enclosed by the walls' middle line. [m²]
        flexibility: Sum of wall length over thickness. [-]

    Returns:
        Torsion constant, or stiffness. [m⁴ or N m²]

    Source:
        [BREDT]; reproduced in tests/validation/test_torsion.py.

    Example:
        >>> round(closed_cell_constant(0.1 * 0.02, 0.24 / 0.13e-3) * 1e12, 2)
        8666.67
    """
    return 4.0 * area**2 / flexibility


def shear_flow(torque: Number, area: Number) -> Number:
    """Shear force per length in the wall of a closed cell, T / (2 A).

    Args:
        torque: [N m]
        area: Enclosed by the walls' middle line. [m²]

    Returns:
        Shear flow. [N/m]

    Source:
        [BREDT]; reproduced in tests/validation/test_torsion.py.

    Example:
        >>> shear_flow(0.5, 0.002)
        125.0
    """
    return torque / (2.0 * area)


def open_section_constant(length: Number, thickness: Number) -> Number:
    """Torsion constant of a thin wall that does not close, b t³ / 3.

    Args:
        length: Of the wall's middle line. [m]
        thickness: [m]

    Returns:
        Torsion constant. [m⁴]

    Source:
        [ROARK] table 10.7; reproduced in tests/validation/test_torsion.py.

    Example:
        >>> round(open_section_constant(0.24, 0.13e-3) * 1e12, 5)
        0.17576
    """
    return length * thickness**3 / 3.0


def rectangle_factor(ratio: float) -> float:
    """Factor of a solid rectangle's torsion constant, J = factor a b³ with a the longer side.

    Saint-Venant's series: (1 - 192 b / (pi⁵ a) sum(tanh(n pi a / 2 b) / n⁵)) / 3, n odd.

    Args:
        ratio: Longer over shorter side. [-]

    Returns:
        Factor. [-]

    Source:
        [GOODIER] art. 109; reproduced in tests/validation/test_torsion.py.

    Example:
        >>> round(rectangle_factor(2.0), 4)
        0.2287
    """
    series = sum(math.tanh(0.5 * n * math.pi * ratio) / n**5 for n in range(1, 22, 2))
    return (1.0 - 192.0 * series / (math.pi**5 * ratio)) / 3.0


def laminate_torsion(
    width: Number, *, shear_modulus: Number, face_thickness: Number, heights: tuple[float, ...]
) -> Number:
    """Torsional stiffness of a flat stack of papers held apart by foam, 4 b sum(G t z²).

    Args:
        width: Of the stack. [m]
        shear_modulus: Of the paper. [Pa]
        face_thickness: Of one paper. [m]
        heights: Of every paper above the middle of the stack. [m]

    Returns:
        G J. [N m²]

    Valid:
        Much wider than thick; foam stiff enough in shear to keep the papers together.

    Source:
        Plate twist, G J = 4 D66 b; [GOODIER].

    Example:
        >>> round(laminate_torsion(0.1, shear_modulus=1.5e9, face_thickness=0.13e-3,
        ...     heights=(-0.0023, 0.0023)), 3)
        0.825
    """
    return 4.0 * width * shear_modulus * face_thickness * sum(z * z for z in heights)
