"""Small motions about steady flight: the inputs and the two state matrices.

Axes are stability axes: x forward along the path, y right, z down. Angles in radians.
"""

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from foamwright.core.air import GRAVITY

type Matrix = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Condition:
    """The plane and its steady flight.

    Attributes:
        mass: All-up. [kg]
        speed: True airspeed. [m/s]
        density: Air. [kg/m³]
        area: Reference area. [m²]
        span: Reference span. [m]
        chord: Reference chord. [m]
        inertia: About the CG in stability axes: (roll, pitch, yaw). [kg m²]
        inertia_xz: Product of inertia in the same axes, positive as the integral of x z dm. [kg m²]
        path_angle: Climb angle of the steady flight. [rad]
    """

    mass: float
    speed: float
    density: float
    area: float
    span: float
    chord: float
    inertia: tuple[float, float, float]
    inertia_xz: float = 0.0
    path_angle: float = 0.0

    @property
    def weight_coefficient(self) -> float:
        """Weight over dynamic pressure times area [-]."""
        return self.mass * GRAVITY / (0.5 * self.density * self.speed**2 * self.area)


@dataclass(frozen=True, slots=True)
class LongitudinalDerivatives:
    """Change of force and moment coefficients with speed, angle of attack and pitch rate.

    Speed change is made dimensionless with the speed, rates with chord/(2 V).

    Attributes:
        axial_speed: d CX / d(u/V), weight terms left out. [-]
        axial_alpha: d CX / d alpha = CL - CD_alpha. [1/rad]
        normal_speed: d CZ / d(u/V), weight terms left out. [-]
        normal_alpha: d CZ / d alpha = -(CL_alpha + CD). [1/rad]
        normal_pitch_rate: d CZ / d(q c/2V) = -CL_q. [-]
        normal_alpha_rate: d CZ / d(alpha_rate c/2V). [-]
        pitch_speed: d Cm / d(u/V). [-]
        pitch_alpha: d Cm / d alpha. [1/rad]
        pitch_pitch_rate: d Cm / d(q c/2V). [-]
        pitch_alpha_rate: d Cm / d(alpha_rate c/2V). [-]
    """

    axial_speed: float
    axial_alpha: float
    normal_speed: float
    normal_alpha: float
    normal_pitch_rate: float
    normal_alpha_rate: float
    pitch_speed: float
    pitch_alpha: float
    pitch_pitch_rate: float
    pitch_alpha_rate: float


@dataclass(frozen=True, slots=True)
class LateralDerivatives:
    """Change of side force, roll and yaw coefficients with sideslip, roll rate and yaw rate.

    Sideslip in radians; rates are made dimensionless with span/(2 V).

    Attributes:
        side_beta: [1/rad]
        side_roll_rate: [-]
        side_yaw_rate: [-]
        roll_beta: [1/rad]
        roll_roll_rate: [-]
        roll_yaw_rate: [-]
        yaw_beta: [1/rad]
        yaw_roll_rate: [-]
        yaw_yaw_rate: [-]
    """

    side_beta: float
    side_roll_rate: float
    side_yaw_rate: float
    roll_beta: float
    roll_roll_rate: float
    roll_yaw_rate: float
    yaw_beta: float
    yaw_roll_rate: float
    yaw_yaw_rate: float


def longitudinal_matrix(condition: Condition, derivatives: LongitudinalDerivatives) -> Matrix:
    """State matrix of speed, heave, pitch rate and pitch angle.

    d/dt (u, w, q, theta) = A (u, w, q, theta), with Zu = -rho V S CW cos(path) + rho V S CZu / 2.

    Args:
        condition: The plane and its steady flight. [-]
        derivatives: Dimensionless derivatives in stability axes. [-]

    Returns:
        Four by four matrix. [SI]

    Valid:
        Small motions, rigid plane, steady air; the mass of air that moves along is left out unless
        it is put into normal_alpha_rate.

    Source:
        [ETKIN-REID] eq. 4.9,18 and table 4.4; reproduced in tests/validation/test_modes.py.

    Example:
        >>> longitudinal_matrix(condition, derivatives).shape  # doctest: +SKIP
        (4, 4)
    """
    c, d = condition, derivatives
    flow = 0.5 * c.density * c.speed * c.area
    slow = 0.5 * flow * c.chord
    lag = 0.25 * c.density * c.area * c.chord
    cosine, sine = math.cos(c.path_angle), math.sin(c.path_angle)
    weight = 2.0 * flow * c.weight_coefficient
    x_u, x_w = weight * sine + flow * d.axial_speed, flow * d.axial_alpha
    z_u, z_w = -weight * cosine + flow * d.normal_speed, flow * d.normal_alpha
    z_q, z_rate = slow * d.normal_pitch_rate, lag * d.normal_alpha_rate
    m_u, m_w = flow * c.chord * d.pitch_speed, flow * c.chord * d.pitch_alpha
    m_q, m_rate = slow * c.chord * d.pitch_pitch_rate, lag * c.chord * d.pitch_alpha_rate
    heavy = c.mass - z_rate
    heave = np.array([z_u, z_w, z_q + c.mass * c.speed, -c.mass * GRAVITY * sine]) / heavy
    pitch = (np.array([m_u, m_w, m_q, 0.0]) + m_rate * heave) / c.inertia[1]
    surge = [x_u / c.mass, x_w / c.mass, 0.0, -GRAVITY * cosine]
    return np.array([surge, heave.tolist(), pitch.tolist(), [0.0, 0.0, 1.0, 0.0]])


def lateral_matrix(condition: Condition, derivatives: LateralDerivatives) -> Matrix:
    """State matrix of sideways speed, roll rate, yaw rate and bank.

    d/dt (v, p, r, phi) = A (v, p, r, phi).

    Args:
        condition: The plane and its steady flight. [-]
        derivatives: Dimensionless derivatives in stability axes. [-]

    Returns:
        Four by four matrix. [SI]

    Valid:
        Small motions, rigid plane, steady air.

    Source:
        [ETKIN-REID] eq. 4.9,19 and table 4.5; reproduced in tests/validation/test_modes.py.

    Example:
        >>> lateral_matrix(condition, derivatives).shape
        (4, 4)
    """
    c, d = condition, derivatives
    flow = 0.5 * c.density * c.speed * c.area
    half = 0.5 * c.span
    side = flow * np.array([d.side_beta, half * d.side_roll_rate, half * d.side_yaw_rate])
    turn = flow * c.span * np.array([1.0, half, half])
    roll = turn * np.array([d.roll_beta, d.roll_roll_rate, d.roll_yaw_rate])
    yaw = turn * np.array([d.yaw_beta, d.yaw_roll_rate, d.yaw_yaw_rate])
    moments = np.array([[c.inertia[0], -c.inertia_xz], [-c.inertia_xz, c.inertia[2]]])
    spin = np.linalg.solve(moments, np.vstack([roll, yaw]))
    matrix = np.zeros((4, 4))
    matrix[0, :3] = side / c.mass
    matrix[0, 2] -= c.speed
    matrix[0, 3] = GRAVITY * math.cos(c.path_angle)
    matrix[1:3, :3] = spin
    matrix[3, 1:3] = 1.0, math.tan(c.path_angle)
    return matrix


def turned_inertia(
    inertia: tuple[float, float, float], inertia_xz: float, *, alpha: float
) -> tuple[tuple[float, float, float], float]:
    """Moments of inertia turned from the fuselage line to the path.

    Args:
        inertia: About the CG, along the fuselage: (roll, pitch, yaw). [kg m²]
        inertia_xz: Integral of x z dm along the fuselage. [kg m²]
        alpha: Angle of the fuselage line above the path. [rad]

    Returns:
        Moments (roll, pitch, yaw) and product in stability axes. [kg m²]

    Source:
        [ETKIN-REID] eq. 4.5,11 (turn of a tensor).

    Example:
        >>> turned_inertia((0.02, 0.03, 0.045), 0.0, alpha=0.0)[0]
        (0.02, 0.03, 0.045)
    """
    roll, pitch, yaw = inertia
    cosine, sine = math.cos(alpha), math.sin(alpha)
    cross = 2.0 * inertia_xz * sine * cosine
    along = roll * cosine**2 + yaw * sine**2 - cross
    up = roll * sine**2 + yaw * cosine**2 + cross
    product = inertia_xz * (cosine**2 - sine**2) + (roll - yaw) * sine * cosine
    return (along, pitch, up), product
