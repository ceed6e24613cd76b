"""Natural motions of textbook airplanes, and of one small research airplane.

Nelson: Flight Stability and Automatic Control, 2nd ed., appendix B (general aviation airplane)
and the worked examples of chapters 4 and 5; figures from memory, confirmed in part against public
copies. Etkin and Reid: Dynamics of Flight, 3rd ed., secs. 6.2 and 6.7 (large jet transport, tables
6.1 and 6.6). Research airplane: open flight-identified model of a 1.27 m electric trainer, Univ.
of Minnesota UAV laboratory (Dorobantu, Murch, Mettler, Balas, Journal of Aircraft 50(4), 2013).
"""

import numpy as np
import pytest

from foamwright.core.air import GRAVITY
from foamwright.flight.modes import (
    lanchester_period,
    lateral_modes,
    longitudinal_modes,
    modes_from_derivatives,
)
from foamwright.flight.motion import (
    Condition,
    LateralDerivatives,
    LongitudinalDerivatives,
    lateral_matrix,
    longitudinal_matrix,
)

FOOT = 0.3048  # m, exact
POUND = 0.45359237  # kg, exact
SLUG_FOOT2 = 14.593903 * FOOT**2  # kg m²
SLUG_FOOT3 = 14.593903 / FOOT**3  # kg/m³


def _named(modes):
    return {mode.name: mode for mode in modes}


@pytest.fixture
def general_aviation():
    """Nelson appendix B, sea level, 176 ft/s; his matrices leave CZq and CZ alpha rate out."""
    condition = Condition(
        mass=2750.0 * POUND,
        speed=176.0 * FOOT,
        density=0.002377 * SLUG_FOOT3,
        area=184.0 * FOOT**2,
        span=33.4 * FOOT,
        chord=5.7 * FOOT,
        inertia=(1048.0 * SLUG_FOOT2, 3000.0 * SLUG_FOOT2, 3530.0 * SLUG_FOOT2),
    )
    longitudinal = LongitudinalDerivatives(
        axial_speed=-2 * 0.05,
        axial_alpha=0.41 - 0.33,
        normal_speed=0.0,
        normal_alpha=-(4.44 + 0.05),
        normal_pitch_rate=0.0,
        normal_alpha_rate=0.0,
        pitch_speed=0.0,
        pitch_alpha=-0.683,
        pitch_pitch_rate=-9.96,
        pitch_alpha_rate=-4.36,
    )
    lateral = LateralDerivatives(
        side_beta=-0.564,
        side_roll_rate=0.0,
        side_yaw_rate=0.0,
        roll_beta=-0.074,
        roll_roll_rate=-0.410,
        roll_yaw_rate=0.107,
        yaw_beta=0.071,
        yaw_roll_rate=-0.0575,
        yaw_yaw_rate=-0.125,
    )
    return condition, longitudinal, lateral


def test_general_aviation_longitudinal(reproduce, general_aviation):
    modes = _named(modes_from_derivatives(*general_aviation))
    short, slow = modes["short period"], modes["phugoid"]
    for quantity, computed, printed in (
        ("GA airplane, short period, real part", short.real, -2.51),
        ("GA airplane, short period, imaginary part", short.imag, 2.59),
        ("GA airplane, phugoid, real part", slow.real, -0.0171),
        ("GA airplane, phugoid, imaginary part", slow.imag, 0.213),
        ("GA airplane, phugoid period, s", slow.period, 29.5),
    ):
        reproduce(quantity, computed=computed, printed=printed, rel=0.01, source="[NELSON] ch. 4")


@pytest.fixture
def transport():
    """Etkin and Reid tables 6.1 and 6.6, 40 000 ft, Mach 0.8."""
    condition = Condition(
        mass=2.83176e6 / GRAVITY,
        speed=235.9,
        density=0.3045,
        area=511.0,
        span=59.64,
        chord=8.324,
        inertia=(0.247e8, 0.449e8, 0.673e8),
        inertia_xz=-0.212e7,
    )
    longitudinal = LongitudinalDerivatives(
        axial_speed=-0.1080,
        axial_alpha=0.2193,
        normal_speed=-0.1060,
        normal_alpha=-4.920,
        normal_pitch_rate=-5.921,
        normal_alpha_rate=5.896,
        pitch_speed=0.1043,
        pitch_alpha=-1.023,
        pitch_pitch_rate=-23.92,
        pitch_alpha_rate=-6.314,
    )
    lateral = LateralDerivatives(
        side_beta=-0.8771,
        side_roll_rate=0.0,
        side_yaw_rate=0.0,
        roll_beta=-0.2797,
        roll_roll_rate=-0.3295,
        roll_yaw_rate=0.3040,
        yaw_beta=0.1946,
        yaw_roll_rate=-0.04073,
        yaw_yaw_rate=-0.2737,
    )
    return condition, longitudinal, lateral


def test_transport(reproduce, transport):
    modes = _named(modes_from_derivatives(*transport))
    for name, part, printed, rel in (
        ("short period", "real", -0.3719, 0.01),
        ("short period", "imag", 0.8875, 0.01),
        ("phugoid", "real", -0.003289, 0.01),
        ("phugoid", "imag", 0.06723, 0.01),
        ("phugoid", "period", 93.4, 0.01),
        ("Dutch roll", "real", -0.033011, 0.01),
        ("Dutch roll", "imag", 0.94655, 0.01),
        ("roll", "real", -0.56248, 0.01),
        ("spiral", "real", -0.0072973, 0.01),
    ):
        reproduce(
            f"jet transport, {name}, {part}",
            computed=getattr(modes[name], part),
            printed=printed,
            rel=rel,
            source="[ETKIN-REID] secs. 6.2, 6.7",
        )


def test_transport_lateral_matrix(reproduce, transport):
    """Printed in feet; angles and seconds are the same."""
    ours = lateral_matrix(transport[0], transport[2])
    for quantity, computed, printed in (
        ("jet transport, Yv/m", ours[0, 0], -0.0558),
        ("jet transport, roll by sideslip speed, 1/(ft s)", ours[1, 0] * FOOT, -0.003865),
        ("jet transport, roll damping", ours[1, 1], -0.4342),
        ("jet transport, yaw by sideslip speed, 1/(ft s)", ours[2, 0] * FOOT, 0.001086),
        ("jet transport, yaw damping", ours[2, 2], -0.1458),
    ):
        reproduce(
            quantity, computed=computed, printed=printed, rel=0.01, source="[ETKIN-REID] eq. 6.7,1"
        )


@pytest.fixture
def trainer():
    """1.27 m electric trainer, 17 m/s; derivatives and inertia of its flight model."""
    condition = Condition(
        mass=1.959,
        speed=17.0,
        density=1.2133,  # ISO 2533 at 100 m
        area=0.3097,
        span=1.27,
        chord=0.25,
        inertia=(0.07151, 0.08636, 0.15364),
        inertia_xz=0.014,
    )
    longitudinal = LongitudinalDerivatives(
        axial_speed=-2 * 0.0447,
        axial_alpha=0.354 - 2 * 0.354 * 4.58 / (np.pi * 5.208 * 0.75),
        normal_speed=0.0,
        normal_alpha=-(4.58 + 0.0447),
        normal_pitch_rate=-6.1639,
        normal_alpha_rate=0.0,
        pitch_speed=0.0,
        pitch_alpha=-0.7230,
        pitch_pitch_rate=-13.5664,
        pitch_alpha_rate=0.0,
    )
    lateral = LateralDerivatives(
        side_beta=-0.4889,
        side_roll_rate=-0.0375,
        side_yaw_rate=0.1500,
        roll_beta=-0.0545,
        roll_roll_rate=-0.4496,
        roll_yaw_rate=0.1086,
        yaw_beta=0.0723,
        yaw_roll_rate=0.1180,
        yaw_yaw_rate=-0.1833,
    )
    return condition, longitudinal, lateral


def test_trainer_from_derivatives(reproduce, trainer):
    """6 %: the printed poles come from a linearised simulation with trim and engine."""
    modes = _named(modes_from_derivatives(*trainer))
    for quantity, computed, printed in (
        ("1.27 m trainer, short period, real part", modes["short period"].real, -11.7),
        ("1.27 m trainer, short period, imaginary part", modes["short period"].imag, 10.0),
        ("1.27 m trainer, roll", modes["roll"].real, -16.1),
    ):
        reproduce(
            quantity, computed=computed, printed=printed, rel=0.06, source="[UMN-UAV] open model"
        )
    assert abs(modes["spiral"].real) < 0.05


def test_trainer_from_matrices(reproduce):
    longitudinal = np.array(
        [
            [-0.5945, 0.8081, -0.8912, -9.791],
            [-0.7369, -7.56, 15.72, -0.5396],
            [1.048, -7.405, -15.81, 0.0],
            [0.0, 0.0, 1.0, 0.0],
        ]
    )
    lateral = np.array(
        [
            [-0.8726, 0.8968, -16.82, 9.791],
            [-2.757, -16.09, 3.368, 0.0],
            [1.708, 0.514, -2.775, 0.0],
            [0.0, 1.0, 0.05511, 0.0],
        ]
    )
    short, _ = longitudinal_modes(longitudinal)
    _, roll, _ = lateral_modes(lateral)
    for quantity, computed, printed in (
        ("1.27 m trainer, matrix route, short period, real part", short.real, -11.7),
        ("1.27 m trainer, matrix route, short period, imaginary part", short.imag, 10.0),
        ("1.27 m trainer, matrix route, short period damping ratio", short.damping, 0.759),
        ("1.27 m trainer, matrix route, roll", roll.real, -16.1),
    ):
        reproduce(
            quantity, computed=computed, printed=printed, rel=0.005, source="[UMN-UAV] open model"
        )


def test_lanchester(reproduce):
    """sqrt(2) pi V/g, the classical result; at 774 ft/s Etkin and Reid work out 107 s."""
    reproduce(
        "phugoid of the transport by Lanchester's formula, s",
        computed=lanchester_period(235.9),
        printed=107.0,
        rel=0.005,
        source="[ETKIN-REID] sec. 6.3, from memory",
    )


def test_matrix_route_agrees_with_printed_dimensional_derivatives(reproduce, general_aviation):
    ours = longitudinal_matrix(general_aviation[0], general_aviation[1])
    for quantity, computed, printed in (
        ("GA airplane, Xu, 1/s", ours[0, 0], -0.0450),
        ("GA airplane, Xw, 1/s", ours[0, 1], 0.0360),
        ("GA airplane, Zu, 1/s", ours[1, 0], -0.3693),
        ("GA airplane, Zw, 1/s", ours[1, 1], -2.0218),
    ):
        reproduce(
            quantity, computed=computed, printed=printed, rel=0.01, source="[NELSON] table 4.2"
        )
