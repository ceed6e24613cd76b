"""Spiral parameter, wind limit and the moment of the thrust."""

import math

from foamwright.aero.model import AeroResult
from foamwright.shape.model import Airframe, LiftingSurface, Vector

WIND_SHARE = 0.4  # of trim speed: wind in which an average pilot still copes; common practice


def equivalent_dihedral(wing: LiftingSurface) -> float:
    """Plain V dihedral that rolls as much in a sideslip as the wing's panels.

    Mean of the panel dihedrals weighted with chord times distance from the middle.

    Args:
        wing: The wing. [-]

    Returns:
        Equivalent dihedral of each half. [rad]

    Valid:
        Unswept wings, strip theory.

    Source:
        Strip theory; same idea as the equivalent dihedral angle of sailplane practice.

    Example:
        >>> round(equivalent_dihedral(wing), 3)
        0.035
    """
    total = moment = 0.0
    for panel in wing.panels:
        inner, outer = panel.root[1], panel.tip[1]
        width = outer - inner
        middle = 0.5 * (inner + outer)
        # chord varies straight: integral of c y dy by Simpson's rule is exact
        weight = (width / 6.0) * (
            panel.root_chord * inner
            + 2.0 * (panel.root_chord + panel.tip_chord) * middle
            + panel.tip_chord * outer
        )
        moment += weight * math.atan2(panel.tip[2] - panel.root[2], width)
        total += weight
    return moment / total if total > 0.0 else 0.0


def spiral_parameter(airframe: Airframe, aero: AeroResult, cg_x: float, *, lift: float) -> float:
    """Drela's spiral parameter.

    B = (tail arm / span) (dihedral in degrees / CL); above 5 the plane levels itself, near 5 it
    is neutral.

    Args:
        airframe: The shape. [-]
        aero: The plane's aerodynamics. [-]
        cg_x: Centre of gravity. [m]
        lift: Lift coefficient. [-]

    Returns:
        B. [-]

    Valid:
        Ordinary layouts with a fin behind the wing.

    Source:
        [DRELA-SPIRAL], from memory.

    Example:
        >>> 1.2 < spiral_parameter(airframe, aero, 0.3, lift=0.6) < 1.9
        True
    """
    fin = airframe.fin if airframe.fin is not None else airframe.stab
    arm = fin.quarter_chord_x - cg_x
    return arm / aero.span * math.degrees(equivalent_dihedral(airframe.wing)) / lift


def wind_limit(trim_speed: float) -> float:
    """Mean wind in which an average pilot can fly the plane.

    Args:
        trim_speed: Comfortable level speed. [m/s]

    Returns:
        40 % of the trim speed; beginners less, experienced pilots more. [m/s]

    Source:
        Common practice, no source (35 to 50 %).

    Example:
        >>> wind_limit(9.0)
        3.6
    """
    return round(WIND_SHARE * trim_speed, 12)


def thrust_arm(airframe: Airframe, cg: Vector) -> float:
    """Nose-up moment about the CG that one newton of thrust makes.

    Args:
        airframe: The shape. [-]
        cg: Centre of gravity. [m]

    Returns:
        Arm; negative for a thrust line above the CG. [m]

    Source:
        Cross product.

    Example:
        >>> round(thrust_arm(airframe, (0.3, 0.0, 0.0)), 3)
        -0.01
    """
    ahead, _, up = (p - c for p, c in zip(airframe.thrust_point, cg, strict=True))
    axis = airframe.thrust_axis
    return up * axis[0] - ahead * axis[2]


def thrust_pitch(thrust: float, arm: float, *, aero: AeroResult, pressure: float) -> float:
    """Pitching moment coefficient of the thrust about the CG, nose-up positive.

    Args:
        thrust: [N]
        arm: From thrust_arm. [m]
        aero: The plane's aerodynamics. [-]
        pressure: Dynamic pressure. [Pa]

    Returns:
        Coefficient on wing area and mean chord. [-]

    Source:
        Definition.

    Example:
        >>> -0.027 < thrust_pitch(5.0, -0.01, aero=aero, pressure=50.0) < -0.018
        True
    """
    return thrust * arm / (pressure * aero.wing_area * aero.mean_chord)


def kinetic_energy(mass: float, speed: float) -> float:
    """Energy of motion.

    Args:
        mass: [kg]
        speed: [m/s]

    Returns:
        m V²/2. [J]

    Source:
        Definition.

    Example:
        >>> kinetic_energy(0.5, 12.0)
        36.0
    """
    return 0.5 * mass * speed**2
