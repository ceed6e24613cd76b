"""Natural motions from tables of coefficients as textbooks print them.

Roskam: Airplane Flight Dynamics and Automatic Flight Controls, part I, airplane A (four-seat
propeller airplane, cruise); Nelson: Flight Stability and Automatic Control, 2nd ed., appendix B and
example 5.3. Inputs and answers from memory.
"""

import math

import pytest

from foamwright.flight.modes import modes_from_derivatives
from foamwright.flight.motion import Condition, LateralDerivatives
from foamwright.flight.textbook import Textbook, longitudinal_from

FOOT = 0.3048  # m, exact
POUND = 0.45359237  # kg, exact
SLUG_FOOT2 = 14.593903 * FOOT**2  # kg m²
SLUG_FOOT3 = 14.593903 / FOOT**3  # kg/m³


def american(pounds, feet_second, slugs, *, sizes, inertia):
    area, span, chord = sizes
    return Condition(
        mass=pounds * POUND,
        speed=feet_second * FOOT,
        density=slugs * SLUG_FOOT3,
        area=area * FOOT**2,
        span=span * FOOT,
        chord=chord * FOOT,
        inertia=tuple(SLUG_FOOT2 * value for value in inertia),
    )


@pytest.fixture
def four_seater():
    condition = american(
        2650.0, 220.1, 0.00205, sizes=(174.0, 36.0, 4.9), inertia=(948.0, 1346.0, 1967.0)
    )
    table = Textbook(
        lift=0.307, drag=0.032, lift_alpha=4.41, drag_alpha=0.121, pitch_alpha=-0.613,
        lift_pitch_rate=3.9, pitch_pitch_rate=-12.4, lift_alpha_rate=1.7, pitch_alpha_rate=-7.27,
        thrust_speed=-0.096 + 2.0 * 0.032,
    )  # fmt: skip
    lateral = LateralDerivatives(
        side_beta=-0.393, side_roll_rate=-0.075, side_yaw_rate=0.214,
        roll_beta=-0.0923, roll_roll_rate=-0.484, roll_yaw_rate=0.0798,
        yaw_beta=0.0587, yaw_roll_rate=-0.0278, yaw_yaw_rate=-0.0937,
    )  # fmt: skip
    return condition, longitudinal_from(table), lateral


def test_four_seater(reproduce, four_seater):
    modes = {mode.name: mode for mode in modes_from_derivatives(*four_seater)}
    for name, frequency, damping in (
        ("short period", 5.27, 0.844),
        ("phugoid", 0.171, 0.129),
        ("Dutch roll", 3.245, 0.2066),
    ):
        mode = modes[name]
        source = "[ROSKAM-DYN] airplane A, cruise, from memory"
        reproduce(
            f"four-seat airplane, {name}, natural frequency, rad/s",
            computed=math.hypot(mode.real, mode.imag),
            printed=frequency,
            rel=0.01,
            source=source,
        )
        reproduce(
            f"four-seat airplane, {name}, damping ratio",
            computed=mode.damping,
            printed=damping,
            rel=0.01,
            source=source,
        )
    for name, lasts, rel in (("roll", 0.077, 0.01), ("spiral", 55.9, 0.10)):
        reproduce(
            f"four-seat airplane, {name}, time constant, s",
            computed=-1.0 / modes[name].real,
            printed=lasts,
            rel=rel,
            source="[ROSKAM-DYN] airplane A, cruise, from memory",
        )


@pytest.fixture
def general_aviation():
    condition = american(
        2750.0, 176.0, 0.002377, sizes=(184.0, 33.4, 5.7), inertia=(1048.0, 3000.0, 3530.0)
    )
    table = Textbook(
        lift=0.41, drag=0.05, lift_alpha=4.44, drag_alpha=0.33, pitch_alpha=-0.683,
        pitch_pitch_rate=-9.96, pitch_alpha_rate=-4.36,
    )  # fmt: skip
    lateral = LateralDerivatives(
        side_beta=-0.564, side_roll_rate=0.0, side_yaw_rate=0.0,
        roll_beta=-0.074, roll_roll_rate=-0.410, roll_yaw_rate=0.107,
        yaw_beta=0.071, yaw_roll_rate=-0.0575, yaw_yaw_rate=-0.125,
    )  # fmt: skip
    return condition, longitudinal_from(table), lateral


def test_general_aviation(reproduce, general_aviation):
    modes = {mode.name: mode for mode in modes_from_derivatives(*general_aviation)}
    for name, part, printed, rel in (
        ("short period", "real", -2.51, 0.01),
        ("phugoid", "imag", 0.213, 0.01),
        ("Dutch roll", "real", -0.487, 0.01),
        ("Dutch roll", "imag", 2.335, 0.01),
        ("roll", "real", -8.435, 0.01),
        ("spiral", "real", -0.00877, 0.10),
    ):
        reproduce(
            f"GA airplane from its table, {name}, {part}",
            computed=getattr(modes[name], part),
            printed=printed,
            rel=rel,
            source="[NELSON] ch. 4, ex. 5.3, from memory",
        )
