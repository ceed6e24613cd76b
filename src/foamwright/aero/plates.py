"""Flat plates and blunt edges: the tail surfaces, and what raw foam costs."""

import math

import numpy as np
from numpy.typing import NDArray

type Array = NDArray[np.float64]

PLATE_SLOPE = (
    5.8  # 1/rad, thin plates at Re 60 000 to 200 000; Pelletier & Mueller 2000, read off by others
)
PLATE_LIFT_MAX = 0.75  # -, two-dimensional thin plate, gentle stall; same, +-0.1
LAMINAR_SHARE = 0.5  # of a hand-cut plate that stays laminar; assumed


def laminar_friction(reynolds: float) -> float:
    """Skin friction of a smooth plate, laminar, one side.

    Cf = 1.328/sqrt(Re).

    Args:
        reynolds: On length. [-]

    Returns:
        Cf. [-]

    Source:
        Blasius; reproduced in tests/validation/test_drag.py.

    Example:
        >>> round(laminar_friction(1e5), 4)
        0.0042
    """
    return 1.328 / math.sqrt(max(reynolds, 1e3))


def turbulent_friction_mean(reynolds: float) -> float:
    """Skin friction of a plate, turbulent from its front edge, one side.

    Cf = 0.455/(log10 Re)^2.58.

    Args:
        reynolds: On length. [-]

    Returns:
        Cf. [-]

    Source:
        Prandtl & Schlichting; reproduced in tests/validation/test_drag.py.

    Example:
        >>> round(turbulent_friction_mean(2e5), 5)
        0.00615
    """
    return 0.455 / math.log10(max(reynolds, 1e3)) ** 2.58


def base_drag(height_ratio: float, fore_drag: float) -> float:
    """Drag of a blunt trailing edge across the flow, on chord.

    Cd = 0.135 (h/c)/(Cd0/(h/c))^(1/3).

    Args:
        height_ratio: Height of the edge over chord. [-]
        fore_drag: Drag of the section without it, on chord. [-]

    Returns:
        Extra drag coefficient on chord. [-]

    Source:
        [HOERNER] ch. 3 eq. 35 (from memory); reproduced in tests/validation/test_drag.py.

    Example:
        >>> round(base_drag(0.028, 0.020), 4)
        0.0042
    """
    if height_ratio <= 0.0:
        return 0.0
    return 0.135 * height_ratio / (max(fore_drag, 1e-4) / height_ratio) ** (1.0 / 3.0)


def base_drag_body(height_ratio: float, fore_drag: float) -> float:
    """Drag coefficient on base area of a blunt-ended body.

    Cd = 0.029/sqrt(Cd_fore), both on base area; here scaled to a reference area.

    Args:
        height_ratio: Base area over reference area. [-]
        fore_drag: Fore-body drag on the reference area. [-]

    Returns:
        Extra drag coefficient on the reference area. [-]

    Source:
        [HOERNER] ch. 3 eq. 36 (from memory).

    Example:
        >>> round(base_drag_body(1.0, 0.25), 3)
        0.058
    """
    if height_ratio <= 0.0:
        return 0.0
    return 0.029 * height_ratio / math.sqrt(max(fore_drag, 1e-6) / height_ratio)


def plate_drag(thickness_ratio: float, trailing_ratio: float, reynolds: float) -> float:
    """Drag of a thin plate at no lift, on chord.

    Two sides of friction, half laminar, with (1 + 2 t/c), plus the blunt edge.

    Args:
        thickness_ratio: [-]
        trailing_ratio: Height of the trailing edge over chord. [-]
        reynolds: On chord. [-]

    Returns:
        Drag coefficient. [-]

    Source:
        Friction lines above; [HOERNER] ch. 3.

    Example:
        >>> round(plate_drag(0.0193, 0.0193, 140e3), 4)
        0.0138
    """
    mix = LAMINAR_SHARE * laminar_friction(reynolds)
    mix += (1.0 - LAMINAR_SHARE) * turbulent_friction_mean(reynolds)
    skin = 2.0 * mix * (1.0 + 2.0 * thickness_ratio)
    return skin + base_drag(trailing_ratio, skin)


def plate_curves(
    thickness_ratio: float, trailing_ratio: float, *, reynolds: Array, alpha: Array
) -> tuple[Array, Array, Array]:
    """Lift, drag and moment of a flat plate.

    Straight lift line that bends over into a plateau; from 4 to 10 degrees the suction at the
    nose is
    lost and drag grows to lift times tan(alpha).

    Args:
        thickness_ratio: [-]
        trailing_ratio: Height of the trailing edge over chord. [-]
        reynolds: On chord, rising. [-]
        alpha: Rising. [rad]

    Returns:
        Lift, drag and quarter-chord moment, each (Re, n). [-]

    Valid:
        Plates 2 to 6 % thick, Re 40 000 to 400 000; the plateau +-0.1.

    Source:
        Pelletier & Mueller, J. Aircraft 37(5), 2000 (trend); [SHELDAHL] at 45 degrees.

    Example:
        >>> angles = np.radians([0.0, 4.0])
        >>> lift, _, _ = plate_curves(0.03, 0.03, reynolds=np.array([1e5]), alpha=angles)
        >>> lift.round(2)
        array([[0. , 0.4]])
    """
    line = PLATE_SLOPE * np.sin(alpha)
    # One smooth corner of order 6 between the line and the plateau, then up to the 45 degree value.
    bent = line / (1.0 + np.abs(line / PLATE_LIFT_MAX) ** 6) ** (1.0 / 6.0)
    far = np.clip((np.abs(alpha) - 0.35) / (math.pi / 4.0 - 0.35), 0.0, 1.0)
    lift = bent + np.sign(alpha) * (1.08 - PLATE_LIFT_MAX) * far
    lost = np.clip((np.degrees(np.abs(alpha)) - 4.0) / 6.0, 0.0, 1.0)
    suction = lost * lost * (3.0 - 2.0 * lost)
    extra = np.abs(lift * np.tan(alpha)) * suction
    rest = np.array([plate_drag(thickness_ratio, trailing_ratio, float(re)) for re in reynolds])
    back = -0.25 * np.abs(lift) * np.sign(alpha) * 0.6 * suction
    shape = (len(reynolds), len(alpha))
    return (
        np.broadcast_to(lift, shape).copy(),
        rest[:, None] + extra,
        np.broadcast_to(back, shape).copy(),
    )


def low_aspect_lift(aspect_ratio: float, alpha: float) -> float:
    """Lift of a thin flat wing of low aspect ratio, edge vortices included.

    CL = a sin cos² + pi cos sin², a after Helmbold.

    Args:
        aspect_ratio: [-]
        alpha: [rad]

    Returns:
        Lift coefficient. [-]

    Valid:
        Aspect ratio 0.5 to 3, before the stall.

    Source:
        Polhamus, NASA TN D-3767; reproduced in tests/validation/test_drag.py.

    Example:
        >>> round(low_aspect_lift(2.0, math.radians(10.0)), 2)
        0.53
    """
    slope = 2.0 * math.pi * aspect_ratio / (2.0 + math.sqrt(aspect_ratio**2 + 4.0))
    sine, cosine = math.sin(alpha), math.cos(alpha)
    return slope * sine * cosine**2 + math.pi * cosine * sine**2
