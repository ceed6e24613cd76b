"""Slipstream, full circle, hinge gaps, fins on bodies, stall with an aileron down."""

import math
from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest

from airframes import rows, trainer
from foamwright.aero.analyse import analyse
from foamwright.aero.bodies import fin_end_plate
from foamwright.aero.flaps import hinge_share, turn_share, worked_turn
from foamwright.aero.full_circle import section_at
from foamwright.aero.lattice import solve_lattice
from foamwright.aero.sections import outline_polar, polar_at, section_polars
from foamwright.aero.slipstream import blade_yaw, slipstream_of
from foamwright.core.air import air_at
from foamwright.core.errors import ModelError
from foamwright.shape.reference import clark_y

AIR = air_at()
FRAME = trainer()


@pytest.fixture(scope="module")
def polar():
    upper, lower, _ = clark_y()
    return outline_polar(rows(upper), rows(lower))


def test_momentum_theory_by_hand():
    """D 0.2286 m, A 0.04104 m², T 4 N, 10 m/s, 1.2 kg/m³: 100 + 162.4 = 16.2² m²/s²."""
    frame = replace(FRAME, propeller_diameter=0.2286)
    found = slipstream_of(frame, 4.0, speed=10.0, density=1.2)
    assert found.speed_ratio * 10.0 == pytest.approx(16.2, abs=0.01)
    assert found.radius < 0.1143
    assert 1.0 < found.tail_pressure < found.speed_ratio**2


def test_no_thrust_no_slipstream():
    found = slipstream_of(FRAME, 0.0, speed=10.0, density=1.2)
    assert (found.speed_ratio, found.tail_pressure, found.lift_gain) == pytest.approx((1, 1, 1))


def test_a_tail_out_of_the_tube_feels_nothing():
    high = replace(FRAME, thrust_point=(0.0, 0.0, 0.6))
    assert slipstream_of(high, 4.0, speed=10.0, density=1.2).tail_pressure == pytest.approx(1.0)


def test_the_down_going_blade_pulls_harder():
    values = [
        blade_yaw(9.0, a, pitch_speed=18.0, radius=0.11, density=1.2) for a in (-0.1, 0.0, 0.1)
    ]
    assert values[0] == -values[2]
    assert values[1] == 0.0 < values[2]


@pytest.mark.parametrize(
    ("degrees", "lift", "drag"), [(45.0, 1.08, 1.08), (90.0, 0.0, 1.80)]
)  # fmt: skip
def test_any_section_is_a_plate_far_beyond_the_stall(reproduce, polar, degrees, lift, drag):
    found = section_at(polar, 2e5, math.radians(degrees))
    assert found.lift[0] == pytest.approx(lift, abs=0.108)
    assert found.drag[0] == pytest.approx(drag, rel=0.10)
    assert not found.validated[0]
    assert "flat plate" in found.note


def test_the_circle_closes_without_a_jump(polar):
    angles = np.radians(np.linspace(-180.0, 180.0, 1441))
    found = section_at(polar, 1.2e5, angles)
    for values in (found.lift, found.drag, found.moment):
        assert np.isfinite(values).all()
        inside = np.abs(np.diff(values))
        assert inside.max() < 0.12
    assert found.lift[0] == pytest.approx(found.lift[-1], abs=1e-9)
    assert (found.drag > 0.0).all()


def test_inside_the_table_it_is_the_table(polar):
    row = polar_at(polar, 1.2e5)
    found = section_at(polar, 1.2e5, row.alpha)
    assert found.lift == pytest.approx(row.lift)
    assert found.drag == pytest.approx(row.drag)
    assert found.validated[np.argmin(abs(row.alpha))]


def test_outside_reynolds_numbers_are_flagged_and_nonsense_refused(polar):
    assert "extrapolated" in section_at(polar, 9e5, 0.0).note
    assert not section_at(polar, 2e4, 0.0).validated[0]
    with pytest.raises(ModelError, match="finite"):
        section_at(polar, 1e5, math.nan)
    with pytest.raises(ModelError, match="positive"):
        section_at(polar, -1.0, 0.0)


def test_gaps_and_large_turns_cost_effect():
    assert hinge_share(0.0) > hinge_share(0.01) > hinge_share(0.03) == hinge_share(0.1) > 0.4
    assert turn_share(0.1) == 1.0 > turn_share(0.4) > turn_share(0.9) > 0.4
    turns = [worked_turn(a) for a in np.linspace(0.0, 1.0, 50)]
    assert all(b > a for a, b in pairwise(turns))


def test_a_body_under_the_fin_gives_it_more_slope():
    alone = replace(FRAME, fin=replace(FRAME.fin, sits_on_body=False))
    assert fin_end_plate(alone) == 1.0
    assert 1.0 < fin_end_plate(FRAME) < fin_end_plate(
        replace(FRAME, body=replace(FRAME.body, build="box"))
    ) < 1.6  # fmt: skip


def result(frame):
    return analyse(
        frame,
        solve_lattice(frame),
        section_polars(frame, AIR),
        air=AIR,
        mass=0.654,
        cg=(0.285, 0.0, 0.0),
    )


def test_stall_with_an_aileron_down():
    plane = result(FRAME)
    assert 0.0 < plane.aileron_stall_start < 1.0
    assert "full aileron" in plane.aileron_stall_words
    wing = replace(FRAME.wing, controls=())
    without = result(replace(FRAME, wing=wing))
    assert without.aileron_stall_start is None
    assert without.aileron_stall_words == ""


def test_an_outboard_aileron_moves_the_stall_out():
    """A lowered outer aileron loads the tip: the stall on that side begins further out."""
    (aileron,) = FRAME.wing.controls
    outer = replace(aileron, start=0.55, end=0.95, down=0.35)
    flat = replace(FRAME.wing.panels[0], root_twist=0.03, tip_twist=0.03)
    wing = replace(FRAME.wing, controls=(outer,), panels=(flat,))
    plane = result(replace(FRAME, wing=wing))
    assert plane.aileron_stall_start > plane.stall_start
