"""The whole plane: signs, trim, limits and words."""

import math

import numpy as np
import pytest

from airframes import trainer
from foamwright.aero.analyse import analyse
from foamwright.aero.lattice import solve_lattice
from foamwright.aero.polar import drag_coefficient, lift_drag
from foamwright.aero.sections import section_polars
from foamwright.core.air import GRAVITY, air_at
from foamwright.core.errors import ModelError

AIR = air_at()


def result(frame=None, *, mass=0.654, cg=(0.285, 0.0, 0.0)):
    frame = frame or trainer()
    return analyse(
        frame, solve_lattice(frame), section_polars(frame, AIR), air=AIR, mass=mass, cg=cg
    )


@pytest.fixture(scope="module")
def plane():
    return result()


def test_stall_speed_carries_the_weight(plane):
    pressure = 0.5 * AIR.density * plane.stall_speed**2
    assert pressure * plane.wing_area * plane.lift_max == pytest.approx(0.654 * GRAVITY, rel=1e-9)
    assert plane.trim_speed == pytest.approx(1.4 * plane.stall_speed)
    assert 0.85 < plane.lift_max < 1.25


def test_drag_table_adds_up(plane):
    assert sum(i.coefficient for i in plane.drag_items) == pytest.approx(plane.drag_zero)
    assert all(i.coefficient >= 0.0 and i.source for i in plane.drag_items)
    assert 0.02 < plane.drag_zero < 0.08
    assert 5.0 < plane.max_lift_drag < 14.0


def test_polar_gives_the_best_glide_back(plane):
    lift = np.linspace(0.1, 0.9 * plane.lift_max, 400)
    assert lift_drag(plane, lift).max() == pytest.approx(plane.max_lift_drag, rel=1e-3)
    assert drag_coefficient(plane, 1.2 * plane.lift_max) > drag_coefficient(plane, plane.lift_max)


def test_signs_of_the_derivatives(plane):
    d = plane.derivatives
    positive = (
        "lift_alpha",
        "lift_pitch_rate",
        "lift_elevator",
        "drag_alpha",
        "yaw_beta",
        "roll_yaw_rate",
        "side_rudder",
    )
    negative = (
        "pitch_alpha",
        "pitch_pitch_rate",
        "pitch_alpha_rate",
        "pitch_elevator",
        "side_beta",
        "roll_beta",
        "roll_roll_rate",
        "roll_aileron",
        "yaw_yaw_rate",
        "yaw_rudder",
        "yaw_roll_rate",
    )
    assert all(getattr(d, name) > 0.0 for name in positive)
    assert all(getattr(d, name) < 0.0 for name in negative)


def test_static_margin_and_cg_range(plane):
    chord = plane.mean_chord
    assert plane.static_margin == pytest.approx((plane.neutral_point_x - 0.285) / chord)
    assert plane.cg_aft == pytest.approx(plane.neutral_point_x - 0.05 * chord)
    assert plane.cg_forward < plane.cg_aft


def test_moving_the_cg_moves_the_margin_not_the_neutral_point(plane):
    moved = result(cg=(0.295, 0.0, 0.0))
    assert moved.neutral_point_x == pytest.approx(plane.neutral_point_x, abs=0.002)
    assert moved.static_margin == pytest.approx(plane.static_margin - 0.01 / 0.197, abs=0.01)
    # Nose-heavier needs more up elevator.
    assert plane.trim_elevator < moved.trim_elevator


def test_adverse_yaw_and_roll_rate(plane):
    assert plane.adverse_yaw < 0.0
    assert math.radians(40.0) < plane.roll_rate < math.radians(250.0)


def test_hinge_moments_fit_small_servos(plane):
    assert set(plane.hinge_moments) == {"elevator", "rudder", "aileron"}
    # 9 g servos hold about 0.15 N m: a trainer must not need more.
    assert all(0.001 < moment < 0.15 for moment in plane.hinge_moments.values())


def test_weak_elevator_limits_the_lift():
    nose_heavy = result(cg=(0.18, 0.0, 0.0))
    assert any("Full up elevator" in note for note in nose_heavy.notes)
    assert nose_heavy.lift_max < nose_heavy.lift_max_untrimmed
    assert nose_heavy.cg_forward > 0.18


def test_hopelessly_nose_heavy_is_said():
    hopeless = result(cg=(0.02, 0.0, 0.0))
    assert any("mean nothing" in note for note in hopeless.notes)
    assert math.isfinite(hopeless.stall_speed)


def test_vee_tail():
    vee = result(trainer(vee=math.radians(35.0), tail_span=0.46))
    assert vee.derivatives.yaw_beta > 0.0
    assert vee.derivatives.yaw_rudder < 0.0
    assert vee.derivatives.pitch_elevator < 0.0
    assert vee.tail_volume_vertical > 0.0


def test_uncertainty_is_given(plane):
    for name, spread in plane.uncertainty.items():
        assert spread > 0.0
        assert math.isfinite(getattr(plane, name))
    for name in type(plane.derivatives).__slots__:
        assert plane.derivative_spread[name] >= 0.05 * abs(getattr(plane.derivatives, name))


def test_no_mass_is_refused():
    with pytest.raises(ModelError, match="weight must be positive"):
        result(mass=0.0)
