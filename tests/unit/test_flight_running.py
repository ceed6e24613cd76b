"""Slipstream on the tail and the propeller's own force in the derivatives."""

from dataclasses import replace

import pytest

from airframes import trainer
from foamwright.flight.derive import condition_of, lateral_of, longitudinal_of
from foamwright.flight.running import Running, normal_force_slope, running_at, with_propeller
from plane_samples import AERO, BALANCE

STILL = Running(1.0, 0.0, 0.0, 1.0, 0.0, 0.28, 0.5)
CONDITION = condition_of(AERO, BALANCE, speed=8.3, density=1.225)
PITCH = longitudinal_of(AERO, CONDITION, drag=0.06, thrust_slope=-0.1, thrust_arm=0.0, thrust=0.6)
SIDE = lateral_of(AERO)


def run(running, aero=AERO):
    return with_propeller(PITCH, SIDE, aero=aero, condition=CONDITION, running=running)


def test_a_still_propeller_changes_nothing():
    assert run(STILL) == (PITCH, SIDE)


def test_its_force_unsettles():
    pitch, side = run(replace(STILL, normal_slope=0.3))
    assert pitch.pitch_alpha > PITCH.pitch_alpha
    assert side.yaw_beta < SIDE.yaw_beta
    assert pitch.pitch_pitch_rate < PITCH.pitch_pitch_rate


def test_faster_air_on_the_tail_settles():
    aero = replace(AERO, tail_pitch_alpha=-0.6, fin_yaw_beta=0.07)
    pitch, side = run(replace(STILL, tail_speed=1.5, fin_speed=1.5), aero)
    assert pitch.pitch_alpha == pytest.approx(PITCH.pitch_alpha - 0.3)
    assert side.yaw_beta == pytest.approx(SIDE.yaw_beta + 0.035)
    assert side.yaw_yaw_rate < SIDE.yaw_yaw_rate


def test_normal_force_by_hand():
    """c 14.3 mm; 2 x 1.2 x 5 x 0.0143/4 x 81 x 27 x ln 5/(2 pi 18/0.12) = 0.160 N/rad."""
    found = normal_force_slope(9.0, pitch_speed=18.0, pitch=0.12, radius=0.11, density=1.2)
    assert found == pytest.approx(0.160, abs=0.001)
    assert normal_force_slope(9.0, pitch_speed=0.0, pitch=0.12, radius=0.11, density=1.2) == 0.0


def test_thrust_that_falls_with_speed_takes_wind_off_the_tail():
    found = running_at(
        trainer(), 0.28, speed=9.0, density=1.2, thrust=(2.0, -0.2), pitch=(0.15, 20.0)
    )
    assert found.tail_speed > 1.0
    assert found.tail_pressure_slope < 0.0
    assert found.normal_slope > 0.0
