"""Dihedral, spiral parameter, thrust line and the sorting of motions."""

import math

import numpy as np
import pytest

from foamwright.flight.handling import (
    equivalent_dihedral,
    spiral_parameter,
    thrust_arm,
    thrust_pitch,
)
from foamwright.flight.modes import lateral_modes, longitudinal_modes
from foamwright.flight.motion import turned_inertia
from plane_samples import AERO, AIRFRAME, panel, replaced, surface


def test_a_plain_v_is_its_own_equivalent():
    assert equivalent_dihedral(AIRFRAME.wing) == pytest.approx(math.atan2(0.021, 0.6))


def test_polyhedral_by_hand():
    """Equal chords, flat inner and 10 deg outer half: 0.5² to 1² - 0.5², so 0.75 * 10 deg."""
    rise = 0.5 * math.tan(math.radians(10.0))
    wing = surface(
        "wing",
        (
            panel((0.2, 0.0, 0.0), (0.2, 0.5, 0.0), 0.2),
            panel((0.2, 0.5, 0.0), (0.2, 1.0, rise), 0.2),
        ),
        mirrored=True,
        x=0.2,
        chord=0.2,
        area=0.4,
        span=2.0,
    )
    assert math.degrees(equivalent_dihedral(wing)) == pytest.approx(7.5)


def test_spiral_parameter_by_hand():
    """Arm 0.8 + 0.25*0.14 - 0.285 = 0.55; 0.55/1.2 * 2.0046 deg / 0.5 = 1.8375."""
    value = spiral_parameter(AIRFRAME, AERO, 0.285, lift=0.5)
    assert value == pytest.approx(1.8375, rel=1e-3)


def test_a_high_motor_pitches_the_nose_down():
    high = replaced(AIRFRAME, thrust_point=(0.0, 0.0, 0.05))
    assert thrust_arm(high, (0.3, 0.0, 0.0)) == pytest.approx(-0.05)


def test_down_thrust_pitches_the_nose_down():
    """2 deg down, 0.3 m ahead of the CG: arm -0.3 sin 2 deg = -0.01047."""
    angle = math.radians(2.0)
    axis = (-math.cos(angle), 0.0, -math.sin(angle))
    turned = replaced(AIRFRAME, thrust_point=(0.0, 0.0, 0.0), thrust_axis=axis)
    assert thrust_arm(turned, (0.3, 0.0, 0.0)) == pytest.approx(-0.01047, abs=1e-5)


def test_thrust_pitch_by_hand():
    """5 N * -0.01 m / (50 Pa * 0.24 m² * 0.2 m) = -0.020833."""
    value = thrust_pitch(5.0, -0.01, aero=AERO, pressure=50.0)
    assert value == pytest.approx(-0.020833, rel=1e-4)


def test_turning_inertia_keeps_its_invariants():
    """Trace and determinant of a tensor do not change by turning."""
    (roll, pitch, yaw), product = turned_inertia((0.012, 0.016, 0.027), 0.001, alpha=0.2)
    assert pitch == 0.016
    assert roll + yaw == pytest.approx(0.039)
    assert roll * yaw - product**2 == pytest.approx(0.012 * 0.027 - 0.001**2)


def block(*pairs):
    """A matrix with given eigenvalues: (re, im) swinging pairs or lone roots."""
    matrix = np.zeros((4, 4))
    at = 0
    for pair in pairs:
        if isinstance(pair, tuple):
            real, imag = pair
            matrix[at : at + 2, at : at + 2] = [[real, imag], [-imag, real]]
            at += 2
        else:
            matrix[at, at] = pair
            at += 1
    return matrix


def test_two_pairs_are_sorted_by_magnitude():
    short, slow = longitudinal_modes(block((-0.1, 0.8), (-6.0, 5.0)))
    assert (short.real, short.imag) == pytest.approx((-6.0, 5.0))
    assert slow.period == pytest.approx(2 * math.pi / 0.8)
    assert slow.time_to_half == pytest.approx(math.log(2) / 0.1)


def test_an_overdamped_short_period_does_not_swing():
    """Roots -3 and -12: damping ratio 15/(2*6) = 1.25."""
    short, _ = longitudinal_modes(block(-12.0, -3.0, (-0.1, 0.8)))
    assert short.period is None
    assert short.damping == pytest.approx(1.25)
    assert short.real == pytest.approx(-3.0)


def test_a_plane_that_runs_away_in_pitch():
    short, slow = longitudinal_modes(block(-9.0, 1.5, (-0.2, 0.5)))
    assert short.damping == -1.0
    assert short.time_to_half == pytest.approx(-math.log(2) / 1.5)
    assert "not flyable" in short.feel
    assert slow.imag == pytest.approx(0.5)


def test_a_pair_between_two_lone_roots_stays_together():
    short, slow = longitudinal_modes(block(-9.0, (-0.5, 3.0), 0.02))
    assert short.imag == pytest.approx(3.0)
    assert slow.period is None


def test_lateral_motions_are_named():
    dutch, roll, spiral = lateral_modes(block((-0.8, 4.0), -14.0, 0.1))
    assert dutch.damping == pytest.approx(0.8 / math.hypot(0.8, 4.0))
    assert roll.real == pytest.approx(-14.0)
    assert spiral.time_to_half == pytest.approx(-math.log(2) / 0.1)
    assert spiral.feel.startswith("a bank left alone tightens slowly")


def test_all_lone_roots_are_named_too():
    dutch, roll, spiral = lateral_modes(block(-14.0, -3.0, -2.0, -0.1))
    assert roll.real == pytest.approx(-14.0)
    assert spiral.real == pytest.approx(-0.1)
    assert dutch.period is None
