"""Torque, gyroscopic moment and shock of the motor, energy, hinge moments and small masses.

R. C. Hibbeler, Engineering Mechanics: Dynamics, 14th ed., problem 21-67; H. Glauert, R&M 1095
(1927); Megson; Volkersen 1938; NATO AEP-83 threshold; kinematics and units.
"""

import math

import pytest

from foamwright.aero.thin import hinge_moment_slopes
from foamwright.core.units import parse
from foamwright.flight.handling import kinetic_energy
from foamwright.strength.aeroelastic import divergence_arm
from foamwright.strength.joint import volkersen_peak
from foamwright.strength.loads import gyroscopic_moment, shaft_torque, stopping_load_factor

GLAUERT = "Glauert R&M 1095, integrated (from memory)"


def test_gyroscopic_moment(reproduce):
    # The book prints 328 N m for 15 kg of 0.3 m radius of gyration in a turn of 80 m at 200 km/h.
    reproduce(
        "gyroscopic moment of a 15 kg propeller at 350 rad/s in a turn, N m",
        computed=gyroscopic_moment(15.0 * 0.3**2, 350.0, 200.0 / 3.6 / 80.0),
        printed=328.0,
        rel=1.6e-3,
        source="Hibbeler, Dynamics, 14th ed., problem 21-67",
    )


def test_torque(reproduce):
    # 80 W at 9000 rpm: a motor of Kv = omega / (U - I R) that turns 10 A (less 1 A) into it.
    omega = 9000 * math.pi / 30
    reproduce(
        "torque of 80 W at 9000 rpm, N m",
        computed=shaft_torque(10.0, 1.0, kv=9.0 * omega / 80.0),
        printed=0.0848826,
        rel=1e-3,
        source="power over speed, any text",
    )


def test_shock_and_energy(reproduce):
    # 55 g stopped with 100 g: the stopping distance is that of 10 m/s, V² / (2 * 100 g).
    distance = 10.0**2 / (2.0 * 100.0 * 9.80665)
    reproduce(
        "force on the firewall of 55 g stopped with 100 g, N",
        computed=stopping_load_factor(10.0, distance) * 9.80665 * 0.055,
        printed=53.9366,
        rel=1e-3,
        source="F = m a",
    )
    reproduce(
        "energy of 0.5 kg at 16.25 m/s, J",
        computed=kinetic_energy(0.5, 16.25),
        printed=66.0156,
        rel=1e-3,
        source="NATO AEP-83, threshold of 66 J",
    )


@pytest.mark.parametrize(
    ("share", "alpha", "flap"),
    [
        (0.20, -0.499381, -0.922876),
        (0.25, -0.565347, -0.943608),
        (0.30, -0.627407, -0.965404),
    ],
)
def test_hinge_moments(reproduce, share, alpha, flap):
    by_alpha, by_flap = hinge_moment_slopes(share)
    words = f"hinge moment of a {100 * share:.0f} % flap per radian of"
    reproduce(f"{words} incidence", computed=by_alpha, printed=alpha, rel=1e-2, source=GLAUERT)
    reproduce(f"{words} deflection", computed=by_flap, printed=flap, rel=1e-2, source=GLAUERT)


def test_divergence_in_full_figures(reproduce):
    reproduce(
        "twist axis behind the lift of a wing on a root spring, worked to six figures, m",
        computed=divergence_arm(1.93e6, speed=350.0, area=30.0, lift_slope=3.5, density=1.226),
        printed=0.244777,
        rel=1e-3,
        source="Megson, Aircraft Structures, divergence example",
    )


def test_longer_lap_to_six_figures(reproduce):
    glue = {"glue_modulus": 1e9, "glue_thickness": 0.2e-3, "stiffness": 70e9 * 2e-3}
    short, long = (volkersen_peak(lap, **glue) / lap for lap in (0.025, 0.050))
    reproduce(
        "peak of a 25 mm over a 50 mm lap of 2 mm aluminium, six figures",
        computed=short / long,
        printed=1.00251,
        rel=1e-4,
        source="Volkersen 1938, coth ratio",
    )


def test_units_of_servos_and_tapes(reproduce):
    reproduce(
        "1 kgf cm in N m",
        computed=parse("1 kgf cm", "torque"),
        printed=0.0980665,
        rel=1e-9,
        source="standard gravity, ISO 80000-3",
    )
