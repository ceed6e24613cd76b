"""The phugoid from the state matrix against Lanchester's closed form.

A light plane answers slower than Lanchester's, which pitches without delay: the stiffness is that
of the static margin, the inertia that of the manoeuvre margin, so the period grows with the square
root of their ratio (Zw Mq - V Mw over -V Mw; [ETKIN-REID] sec. 6.3, from memory).
"""

import math

import pytest

from foamwright.core.air import GRAVITY
from foamwright.flight.modes import lanchester_period, longitudinal_modes
from foamwright.flight.motion import Condition, LongitudinalDerivatives, longitudinal_matrix


@pytest.mark.parametrize("lift", [0.35, 0.6, 0.9])
@pytest.mark.parametrize("mass", [0.25, 0.6, 1.2])
@pytest.mark.parametrize("margin", [0.08, 0.15])
def test_period_is_near_lanchester(lift, mass, margin):
    """8 %: the closed form leaves out drag and the change of angle of attack."""
    density, area, span, chord = 1.225, 0.24, 1.2, 0.2
    speed = math.sqrt(mass * GRAVITY / (0.5 * density * lift * area))
    drag = 0.05 + 0.07 * lift**2
    condition = Condition(
        mass=mass,
        speed=speed,
        density=density,
        area=area,
        span=span,
        chord=chord,
        inertia=(0.02 * mass, 0.03 * mass, 0.05 * mass),
    )
    derivatives = LongitudinalDerivatives(
        axial_speed=-2.0 * drag,
        axial_alpha=lift - 0.14 * lift * 4.9,
        normal_speed=0.0,
        normal_alpha=-(4.9 + drag),
        normal_pitch_rate=0.0,
        normal_alpha_rate=0.0,
        pitch_speed=0.0,
        pitch_alpha=-4.9 * margin,
        pitch_pitch_rate=-3.0,
        pitch_alpha_rate=-1.0,
    )
    _, slow = longitudinal_modes(longitudinal_matrix(condition, derivatives))
    relative_mass = 2.0 * mass / (density * area * chord)
    manoeuvre = margin + 3.0 / (2.0 * relative_mass)
    expected = lanchester_period(speed) * math.sqrt(manoeuvre / margin)
    assert slow.period == pytest.approx(expected, rel=0.08)
