"""A propeller by blade elements and momentum: the second method beside the fitted curves.

Blade shapes are the means over a blade line of measured propellers; the section is one generic thin
cambered one. It is there to guard the fit (tests/agreement) and to scale with blade count, not to
replace it.
"""

import math

import numpy as np

from foamwright.core.errors import ModelError
from foamwright.power.curves import Array

STATIONS = np.arange(0.20, 0.951, 0.05)  # r/R
# chord over radius, and blade angle less the angle of the printed pitch in degrees, at STATIONS;
# means of the measured geometry of each line, [UIUC-PROP]
# fmt: off
BLADES = {
    ("slow flight", "A"): (
        (
            0.1340, 0.1570, 0.1771, 0.1941, 0.2079, 0.2180, 0.2246, 0.2273,
            0.2264, 0.2211, 0.2124, 0.1996, 0.1821, 0.1610, 0.1350, 0.0939,
        ),
        (
            -9.68, -4.70, -1.95, -0.43, 0.21, 0.22, 0.04, -0.20,
            -0.40, -0.58, -0.80, -1.01, -1.25, -1.53, -1.91, -2.42,
        ),
    ),
    ("slow flight", "B"): (
        (
            0.1147, 0.1372, 0.1618, 0.1855, 0.2048, 0.2183, 0.2265, 0.2303,
            0.2295, 0.2238, 0.2142, 0.2005, 0.1828, 0.1620, 0.1360, 0.0948,
        ),
        (
            -22.19, -15.86, -11.36, -8.00, -5.45, -3.55, -2.17, -1.19,
            -0.55, -0.27, -0.16, -0.13, -0.16, -0.23, -0.44, -0.81,
        ),
    ),
    ("electric", "A"): (
        (
            0.1491, 0.1708, 0.1870, 0.1961, 0.1999, 0.1992, 0.1943, 0.1860,
            0.1747, 0.1613, 0.1463, 0.1304, 0.1143, 0.0987, 0.0840, 0.0633,
        ),
        (
            -1.14, 1.57, 1.38, 0.97, 0.64, 0.53, 0.49, 0.47,
            0.51, 0.54, 0.57, 0.59, 0.64, 0.56, 0.43, 0.08,
        ),
    ),
    ("electric", "B"): (
        (
            0.1533, 0.1590, 0.1643, 0.1677, 0.1717, 0.1757, 0.1783, 0.1780,
            0.1747, 0.1683, 0.1593, 0.1477, 0.1363, 0.1247, 0.1133, 0.0933,
        ),
        (
            -11.41, -4.60, -1.52, -0.29, 0.31, 0.67, 0.89, 0.89,
            0.79, 0.66, 0.57, 0.56, 0.71, 0.81, 0.91, 1.72,
        ),
    ),
    ("electric", "C"): (
        (
            0.1569, 0.1561, 0.1573, 0.1576, 0.1559, 0.1530, 0.1496, 0.1460,
            0.1419, 0.1376, 0.1330, 0.1270, 0.1199, 0.1097, 0.0939, 0.0643,
        ),
        (
            -1.79, 3.94, 5.07, 4.41, 3.50, 2.64, 1.89, 1.37,
            1.00, 0.68, 0.39, 0.12, -0.17, -0.44, -0.72, -0.65,
        ),
    ),
    ("direct drive", "A"): (
        (
            0.1787, 0.1810, 0.1810, 0.1807, 0.1793, 0.1770, 0.1740, 0.1707,
            0.1663, 0.1610, 0.1537, 0.1460, 0.1367, 0.1257, 0.1120, 0.0933,
        ),
        (
            -18.76, -12.32, -7.62, -4.22, -2.04, -0.92, -0.51, -0.35,
            -0.48, -0.68, -0.85, -0.95, -1.01, -1.31, -1.93, -3.03,
        ),
    ),
}
# fmt: on
LIFT_SLOPE = 5.7  # 1/rad, thin section at Re 50 000; thin airfoil theory less a tenth, assumed
ZERO_LIFT_DEGREES = {
    ("slow flight", "A"): -5.3,
    ("slow flight", "B"): -3.0,
    ("electric", "A"): -3.6,
    ("electric", "B"): -5.5,
    ("electric", "C"): -2.0,
    ("direct drive", "A"): -1.5,
}  # of the section from the chord, read back from the zero-thrust advance ratios of each line
LIFT_MAX = 1.5  # smooth limit of the attached lift, spinning blades stall late; assumed
DRAG_MIN = 0.040  # at Re 50 000; assumed, thin sections at 30 000 to 60 000 have 0.02 to 0.04
DRAG_REYNOLDS = 50000.0
DRAG_EXPONENT = -0.4  # of the least drag with Reynolds number; assumed
DRAG_LIFT = 0.03  # drag growth with (lift - 0.5)²; assumed
PLATE_NORMAL = 1.98  # normal force of a stalled section over sin(angle), a plate; [HOERNER]
PLATE_CAMBER = 0.6  # lift that a cambered section keeps beyond stall; assumed
STALL_RANGE = math.radians(6.0)  # over which stall sets in; assumed
HALVINGS = 40


def blade_coefficients(
    shape: tuple[str, str],
    diameter: float,
    *,
    pitch: float,
    blades: int,
    advance_ratio: float,
    speed: float,
    viscosity: float = 1.461e-5,
) -> tuple[float, float]:
    """Thrust and power coefficient by blade elements with momentum inflow and tip loss.

    At each station the inflow v solves 4 pi r F (V + v) v = B c/2 W² (cl cos phi - cd sin phi).

    Args:
        shape: Kind and line of the blade, a key of BLADES.
        diameter: [m]
        pitch: Printed pitch. [m]
        blades: [-]
        advance_ratio: V/(n D), 0 or more. [-]
        speed: Of the propeller. [rad/s]
        viscosity: Kinematic, of the air. [m²/s]

    Returns:
        CT and CP. [-]

    Valid:
        Within 25 % of the fit for CT and 35 % for CP at rest; no swirl, and an assumed section.

    Raises:
        ModelError: No blade shape for this kind and line.

    Source:
        Glauert's blade-element momentum theory with Prandtl's tip loss, from memory; shapes
        [UIUC-PROP].

    Example:
        >>> thrust, power = blade_coefficients(
        ...     ("slow flight", "A"),
        ...     0.254,
        ...     pitch=0.11938,
        ...     blades=2,
        ...     advance_ratio=0.0,
        ...     speed=680.0,
        ... )
        >>> 0.09 < thrust < 0.17
        True
    """
    if shape not in BLADES:
        raise ModelError(f"There is no measured blade shape for {shape[0]} {shape[1]}.")
    chord_ratio, offset = (np.array(row) for row in BLADES[shape])
    zero_lift = math.radians(ZERO_LIFT_DEGREES[shape])
    radius = 0.5 * diameter
    place = STATIONS * radius
    chord = chord_ratio * radius
    angle = np.arctan(pitch / (2.0 * math.pi * place)) + np.radians(offset)
    forward = advance_ratio * speed / (2.0 * math.pi) * diameter
    low, high = np.zeros_like(place) - 0.5 * forward, np.full_like(place, 0.6 * speed * radius)
    low = np.maximum(low, -0.5 * forward)
    for _ in range(HALVINGS):
        middle = 0.5 * (low + high)
        axial, _ = _loads(
            forward + middle,
            speed * place,
            chord,
            angle=angle,
            zero_lift=zero_lift,
            viscosity=viscosity,
        )
        loss = _tip_loss(STATIONS, forward + middle, speed * place, blades=blades)
        momentum = 4.0 * math.pi * place * loss * (forward + middle) * middle
        more = blades * axial > momentum
        low, high = np.where(more, middle, low), np.where(more, high, middle)
    inflow = 0.5 * (low + high)
    axial, tangential = _loads(
        forward + inflow,
        speed * place,
        chord,
        angle=angle,
        zero_lift=zero_lift,
        viscosity=viscosity,
    )
    # load falls to nothing at the tip and the hub fairing; per unit density
    edges = np.concatenate(([0.15 * radius], place, [radius]))
    thrust = np.trapezoid(np.concatenate(([0.0], blades * axial, [0.0])), edges)
    torque = np.trapezoid(np.concatenate(([0.0], blades * tangential * place, [0.0])), edges)
    turns = speed / (2.0 * math.pi)
    return (
        float(thrust / (turns**2 * diameter**4)),
        float(2.0 * math.pi * torque / (turns**2 * diameter**5)),
    )


def _loads(
    axial_speed: Array,
    turning_speed: Array,
    chord: Array,
    *,
    angle: Array,
    zero_lift: float,
    viscosity: float,
) -> tuple[Array, Array]:
    """Axial and tangential force of one blade per unit span and density."""
    flow = np.arctan2(axial_speed, turning_speed)
    speed = np.hypot(axial_speed, turning_speed)
    lift, drag = section_coefficients(angle - flow, speed * chord / viscosity, zero_lift=zero_lift)
    pressure = 0.5 * speed**2 * chord
    return (
        pressure * (lift * np.cos(flow) - drag * np.sin(flow)),
        pressure * (lift * np.sin(flow) + drag * np.cos(flow)),
    )


def section_coefficients(
    incidence: Array, reynolds: Array, *, zero_lift: float = math.radians(-3.0)
) -> tuple[Array, Array]:
    """Lift and drag of the generic thin cambered section.

    Attached: cl = slope (alpha - alpha0), cd = cd0 (Re/50000)^-0.4 + 0.03 (cl - 0.5)²; beyond
    stall a plate.

    Args:
        incidence: From the chord. [rad]
        reynolds: [-]
        zero_lift: Incidence of no lift. [rad]

    Returns:
        cl and cd. [-]

    Valid:
        Re 20 000 to 150 000; the constants are assumed.

    Source:
        Assumed; see the constants.

    Example:
        >>> lift, drag = section_coefficients(np.array(0.05), np.array(50000.0))
        >>> round(float(lift), 2)
        0.58
    """
    attached = LIFT_SLOPE * (incidence - zero_lift)
    excess = np.abs(attached) / LIFT_MAX
    stalled = 1.0 / (1.0 + np.exp(-(excess - 1.0) * LIFT_MAX / LIFT_SLOPE / (STALL_RANGE / 4.0)))
    normal = PLATE_NORMAL * np.sin(incidence)
    plate_lift = normal * np.cos(incidence) + PLATE_CAMBER * np.sign(attached) * (
        1.0 - np.abs(np.sin(incidence))
    )
    plate_drag = np.abs(normal * np.sin(incidence))
    least = DRAG_MIN * (np.maximum(reynolds, 1000.0) / DRAG_REYNOLDS) ** DRAG_EXPONENT
    drag = least + DRAG_LIFT * (np.clip(attached, -1.5, 1.5) - 0.5) ** 2
    return (
        (1.0 - stalled) * attached + stalled * plate_lift,
        (1.0 - stalled) * drag + stalled * np.maximum(plate_drag, drag),
    )


def _tip_loss(ratio: Array, axial_speed: Array, turning_speed: Array, *, blades: int) -> Array:
    sine = np.maximum(np.sin(np.arctan2(axial_speed, turning_speed)), 0.02)
    exponent = 0.5 * blades * (1.0 - ratio) / (ratio * sine)
    return 2.0 / math.pi * np.arccos(np.clip(np.exp(-exponent), 0.0, 0.999999))
