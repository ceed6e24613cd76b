"""Foam board as a sandwich: stiffness, shear, stress in the papers, wrinkling."""

import numpy as np
from numpy.typing import NDArray

type Array = NDArray[np.float64]
type Number = float | Array

WRINKLING_DESIGN = 0.5  # [HOFF]: coefficient for design
WRINKLING_THEORY = 0.91  # [HOFF]: perfect faces


def sandwich_stiffness(
    *,
    face_modulus: Number,
    face_thickness: Number,
    core_modulus: Number,
    core_thickness: Number,
) -> Number:
    """Bending stiffness per width of a board with both papers on.

    D/b = Ef tf d² / 2 + Ef tf³ / 6 + Ec c³ / 12, with d = c + tf.

    Args:
        face_modulus: Of the paper. [Pa]
        face_thickness: Of one paper. [m]
        core_modulus: Of the foam. [Pa]
        core_thickness: Of the foam. [m]

    Returns:
        Stiffness per width. [N m]

    Source:
        [ALLEN] eq. 2.1; [ZENKERT] ch. 3; reproduced in tests/validation/test_sandwich.py.

    Example:
        >>> round(sandwich_stiffness(face_modulus=3.5e9, face_thickness=0.13e-3,
        ...     core_modulus=8e6, core_thickness=4.5e-3), 3)
        4.939
    """
    d = core_thickness + face_thickness
    faces = face_modulus * face_thickness * (d**2 / 2.0 + face_thickness**2 / 6.0)
    return faces + core_modulus * core_thickness**3 / 12.0


def one_face_stiffness(
    *,
    face_modulus: Number,
    face_thickness: Number,
    core_modulus: Number,
    core_thickness: Number,
) -> Number:
    """Bending stiffness per width of a board with one paper peeled, about its own neutral axis.

    Transformed section of two layers: D/b = I1 + I2 + A1 A2 d² / (A1 + A2), each times its modulus.

    Args:
        face_modulus: Of the paper left. [Pa]
        face_thickness: Of it. [m]
        core_modulus: Of the foam. [Pa]
        core_thickness: Of the foam. [m]

    Returns:
        Stiffness per width. [N m]

    Source:
        Parallel-axis rule for two layers, any text on strength of materials.

    Example:
        >>> round(one_face_stiffness(face_modulus=3.5e9, face_thickness=0.13e-3,
        ...     core_modulus=8e6, core_thickness=4.5e-3), 4)
        0.2402
    """
    face, core = face_modulus * face_thickness, core_modulus * core_thickness
    d = 0.5 * (core_thickness + face_thickness)
    own = face * face_thickness**2 / 12.0 + core * core_thickness**2 / 12.0
    return own + face * core / (face + core) * d**2


def bare_stiffness(*, core_modulus: Number, core_thickness: Number) -> Number:
    """Bending stiffness per width of foam with both papers peeled, E c³ / 12.

    Args:
        core_modulus: [Pa]
        core_thickness: [m]

    Returns:
        Stiffness per width. [N m]

    Source:
        Strip beam, any text; reproduced in tests/validation/test_sandwich.py.

    Example:
        >>> round(bare_stiffness(core_modulus=8e6, core_thickness=4.5e-3), 5)
        0.06075
    """
    return core_modulus * core_thickness**3 / 12.0


def shear_stiffness(
    *, core_shear_modulus: Number, width: Number, core_thickness: Number, face_thickness: Number
) -> Number:
    """Shear stiffness of a sandwich strip, U = G b d² / c.

    Args:
        core_shear_modulus: [Pa]
        width: Of the strip. [m]
        core_thickness: [m]
        face_thickness: Of one paper. [m]

    Returns:
        Shear stiffness. [N]

    Source:
        [ALLEN]; [ZENKERT]; ASTM D7250; reproduced in tests/validation/test_sandwich.py.

    Example:
        >>> round(shear_stiffness(core_shear_modulus=3e6, width=0.05, core_thickness=4.5e-3,
        ...     face_thickness=0.13e-3), 1)
        714.6
    """
    d = core_thickness + face_thickness
    return core_shear_modulus * width * d**2 / core_thickness


def three_point_deflection(force: float, span: float, *, stiffness: float, shear: float) -> float:
    """Deflection at mid-span of a strip over two supports, loaded in the middle.

    w = P L³ / (48 D) + P L / (4 U).

    Args:
        force: [N]
        span: Between the supports. [m]
        stiffness: Bending stiffness D of the strip. [N m²]
        shear: Shear stiffness U of the strip. [N]

    Returns:
        Deflection. [m]

    Source:
        [ALLEN]; ASTM C393, D7250.

    Example:
        >>> round(1000 * three_point_deflection(2.0, 0.3, stiffness=0.246946, shear=714.6), 2)
        4.77
    """
    return force * span**3 / (48.0 * stiffness) + force * span / (4.0 * shear)


def three_point_facing_stress(
    force: float, span: float, *, width: float, core_thickness: float, face_thickness: float
) -> float:
    """Stress in the papers of a strip over two supports, loaded in the middle.

    sigma = P L / (2 t (d + c) b), with d the whole thickness.

    Args:
        force: [N]
        span: Between the supports. [m]
        width: Of the strip. [m]
        core_thickness: [m]
        face_thickness: Of one paper. [m]

    Returns:
        Stress. [Pa]

    Source:
        ASTM C393/C393M; reproduced in tests/validation/test_sandwich.py.

    Example:
        >>> round(three_point_facing_stress(2.0, 0.3, width=0.05, core_thickness=4.5e-3,
        ...     face_thickness=0.13e-3) / 1e6, 3)
        4.984
    """
    both = 2.0 * core_thickness + 2.0 * face_thickness
    return force * span / (2.0 * face_thickness * both * width)


def wrinkling_stress(
    face_modulus: Number,
    core_modulus: Number,
    *,
    core_shear_modulus: Number,
    coefficient: float = WRINKLING_DESIGN,
) -> Number:
    """Stress at which a paper on foam wrinkles, k (Ef Ec Gc)^(1/3).

    Args:
        face_modulus: Of the paper. [Pa]
        core_modulus: Of the foam, through its thickness. [Pa]
        core_shear_modulus: Of the foam. [Pa]
        coefficient: 0.5 for design, 0.91 for perfect faces. [-]

    Returns:
        Stress in the paper. [Pa]

    Source:
        [HOFF]; [ZENKERT]; reproduced in tests/validation/test_sandwich.py.

    Example:
        >>> round(wrinkling_stress(3.5e9, 8e6, core_shear_modulus=3e6) / 1e6, 2)
        21.9
    """
    return coefficient * (face_modulus * core_modulus * core_shear_modulus) ** (1.0 / 3.0)
