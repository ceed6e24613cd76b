"""What the air does to a thing that gives: divergence, twist, flutter."""

import math

import numpy as np
from numpy.typing import NDArray

type Array = NDArray[np.float64]
type Number = float | Array

SEA_LEVEL_PRESSURE = 101325.0  # Pa, ISO 2533
HEAT_RATIO = 1.4  # of air
CONTROL_SHARE = 0.6  # what a real hinged flap gives of thin-aerofoil theory, common practice


def divergence_arm(
    root_stiffness: float, *, speed: float, area: float, lift_slope: float, density: float
) -> float:
    """How far behind the lift the twist axis may lie before a rigid wing on a root spring diverges.

    e = K / (rho V² S a / 2).

    Args:
        root_stiffness: Moment per angle of the root K. [N m/rad]
        speed: [m/s]
        area: [m²]
        lift_slope: [1/rad]
        density: Air. [kg/m³]

    Returns:
        Distance. [m]

    Source:
        [MEGSON] torsional divergence; reproduced in tests/validation/test_aeroelastic.py.

    Example:
        >>> round(divergence_arm(
        ...     1.93e6, speed=350.0, area=30.0, lift_slope=3.5, density=1.226), 3)
        0.245
    """
    return root_stiffness / (0.5 * density * speed**2 * area * lift_slope)


def divergence_speed(
    torsional_stiffness: Number,
    *,
    half_span: float,
    chord: float,
    arm: float,
    slope: float,
    density: float,
) -> Number:
    """Speed at which an even, unswept wing twists off, by strips.

    q = (pi / (2 s))² G J / (c e a), V = sqrt(2 q / rho).

    Args:
        torsional_stiffness: G J. [N m²]
        half_span: s. [m]
        chord: Mean chord c. [m]
        arm: Lift ahead of the twist axis e. [m]
        slope: Lift slope of the section. [1/rad]
        density: Air. [kg/m³]

    Returns:
        Speed. [m/s]

    Valid:
        Strip theory: on the safe side, as it takes no tip loss.

    Source:
        [BISPLINGHOFF] Aeroelasticity ch. 8.

    Example:
        >>> round(divergence_speed(
        ...     20.0, half_span=0.5, chord=0.2, arm=0.03, slope=6.28, density=1.225))
        92
    """
    pressure = (0.5 * math.pi / half_span) ** 2 * torsional_stiffness / (chord * arm * slope)
    return np.sqrt(2.0 * pressure / density)


def flutter_speed(
    shear_modulus: Number,
    *,
    aspect_ratio: float,
    taper: float,
    thickness_ratio: float,
    sound: float,
    pressure: float = SEA_LEVEL_PRESSURE,
) -> Number:
    """Speed at which a fin of plate flutters, a rule of thumb.

    (V / a)² = G / (psi_0 AR³ / ((t/c)³ (AR + 2)) (lambda + 1) / 2 * p), psi_0 = 24 eps kappa / pi
    with the axis a quarter chord behind the lift.

    Args:
        shear_modulus: Effective G of the plate. [Pa]
        aspect_ratio: Of one panel, its own span over chord. [-]
        taper: Tip over root chord. [-]
        thickness_ratio: Thickness over chord. [-]
        sound: Speed of sound. [m/s]
        pressure: Of the air. [Pa]

    Returns:
        Speed. [m/s]

    Valid:
        A rule, 30 % either way; a control surface with play flutters sooner.

    Source:
        [TN4197]; reproduced in tests/validation/test_aeroelastic.py.

    Example:
        >>> round(float(flutter_speed(
        ...     0.23e9, aspect_ratio=1.2, taper=0.6, thickness_ratio=0.025, sound=340.3)), 1)
        59.6
    """
    constant = 24.0 * 0.25 * HEAT_RATIO / math.pi * pressure  # 39.3 psi in the publication
    shape = aspect_ratio**3 / (thickness_ratio**3 * (aspect_ratio + 2.0)) * (taper + 1.0) / 2.0
    return sound * np.sqrt(shear_modulus / (constant * shape))


def flap_effectiveness(chord_fraction: float) -> float:
    """Change of incidence that a degree of plain flap is worth.

    tau = 1 - (theta - sin theta) / pi, cos theta = 2 E - 1.

    Args:
        chord_fraction: Flap chord over chord E. [-]

    Returns:
        Effectiveness. [-]

    Source:
        [GLAUERT] R&M 1095; reproduced in tests/validation/test_hinges.py.

    Example:
        >>> round(flap_effectiveness(0.25), 4)
        0.609
    """
    angle = math.acos(2.0 * chord_fraction - 1.0)
    return 1.0 - (angle - math.sin(angle)) / math.pi


def flap_moment(chord_fraction: float) -> float:
    """Pitching moment about the quarter chord from a plain flap, -sin t (1 - cos t) / 2 per radian.

    Args:
        chord_fraction: Flap chord over chord. [-]

    Returns:
        Moment coefficient per radian; nose-down is negative. [1/rad]

    Source:
        [GLAUERT] R&M 1095; the flap's theta here is measured from the leading edge.

    Example:
        >>> round(flap_moment(0.2), 2)
        -0.64
    """
    angle = math.acos(2.0 * chord_fraction - 1.0)
    return -0.5 * math.sin(angle) * (1.0 - math.cos(angle))
