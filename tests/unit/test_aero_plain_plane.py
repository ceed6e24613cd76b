"""Planes from dimensions alone, derivatives at a chosen speed, and the axes they are given in."""

import math
from dataclasses import asdict

import pytest

from foamwright.aero.analyse import analyse, derivatives_at
from foamwright.aero.batch import Variant, analyse_all
from foamwright.aero.handling import in_body_axes
from foamwright.aero.lattice import solve_lattice
from foamwright.aero.plain_plane import Flap, PlainSurface, plain_airframe
from foamwright.aero.sections import section_polars
from foamwright.core.air import air_at
from foamwright.core.errors import ModelError

AIR = air_at()
BODY = [(0.0, -0.03, 0.03, 0.05), (0.9, -0.01, 0.01, 0.02)]
WING = PlainSurface(
    1.2, (0.2, 0.2), at=(0.2, 0.0, 0.05), incidence=0.03, washout=0.02, flap=Flap(0.2, 0.3)
)
STAB = PlainSurface(0.4, (0.12, 0.12), at=(0.8, 0.0, 0.0), flap=Flap(0.3))
FIN = PlainSurface(0.15, (0.15, 0.10), at=(0.78, 0.0, 0.0), flap=Flap(0.4))


def frame(**changes):
    parts = {"wing": WING, "stab": STAB, "fin": FIN, "body": BODY, **changes}
    return plain_airframe(parts["wing"], parts["stab"], fin=parts["fin"], body=parts["body"])


def at(speed, shape=None):
    shape = shape or frame()
    return derivatives_at(
        shape, solve_lattice(shape), section_polars(shape, AIR),
        air=AIR, mass=0.6, cg=(0.27, 0.0, 0.0), speed=speed,
    )  # fmt: skip


def test_sizes_come_through():
    shape = frame()
    assert shape.wing.area == pytest.approx(0.24)
    assert shape.wing.mean_chord_x == pytest.approx(0.2)
    assert shape.fin.area == pytest.approx(0.15 * 0.125)
    assert shape.fin.panels[0].tip == pytest.approx((0.78, 0.0, 0.15))
    assert shape.wing.panels[0].tip_twist == pytest.approx(0.01)
    assert shape.stab.controls[0].area == pytest.approx(0.4 * 0.3 * 0.12)
    # Ailerons on 70 % of both halves; side view and skin of a plain taper by hand.
    assert shape.wing.controls[0].span == pytest.approx(0.84)
    assert shape.body.side_area == pytest.approx(0.9 * 0.5 * (0.06 + 0.02))
    assert shape.body.wetted_area == pytest.approx(0.9 * ((0.06 + 0.05) + (0.02 + 0.02)))


def test_at_trim_speed_it_says_what_the_whole_result_says():
    (whole,) = analyse_all([Variant(frame(), 0.6, (0.27, 0.0, 0.0))], air=AIR)
    found, alpha = at(whole.trim_speed)
    assert alpha == pytest.approx(whole.trim_alpha, abs=1e-9)
    for name, value in asdict(whole.derivatives).items():
        assert getattr(found, name) == pytest.approx(value, rel=1e-6, abs=1e-9)


def test_faster_is_flatter():
    (_, slow), (_, fast) = at(9.0), at(14.0)
    assert fast < slow


def test_turning_the_axes_there_and_back():
    found, alpha = at(9.0)
    back = in_body_axes(in_body_axes(found, alpha), -alpha)
    for name, value in asdict(found).items():
        assert getattr(back, name) == pytest.approx(value, rel=1e-9, abs=1e-12)
    # A rolling moment straight along the wind is a mixture along the fuselage, and nothing is lost.
    body = in_body_axes(found, 0.2)
    assert math.hypot(body.roll_beta, body.yaw_beta) == pytest.approx(
        math.hypot(found.roll_beta, found.yaw_beta)
    )
    # What all axes share: the trace of the damping.
    assert body.roll_roll_rate + body.yaw_yaw_rate == pytest.approx(
        found.roll_roll_rate + found.yaw_yaw_rate
    )


def test_vee_tail():
    vee = PlainSurface(
        0.42, (0.12, 0.12), at=(0.8, 0.0, 0.0), dihedral=math.radians(35.0), flap=Flap(0.3)
    )
    found, _ = at(9.0, frame(stab=vee, fin=None))
    assert found.yaw_beta > 0.0 > found.yaw_rudder
    assert found.pitch_elevator < 0.0


def test_impossible_planes():
    with pytest.raises(ModelError, match="two cross-sections"):
        frame(body=BODY[:1])
    with pytest.raises(ModelError, match="height and width"):
        frame(body=[(0.0, 0.0, 0.0, 0.1), (1.0, 0.0, 0.1, 0.1)])
    with pytest.raises(ModelError, match="must run outwards"):
        frame(stab=PlainSurface(0.4, (0.12, 0.12), flap=Flap(0.3, 0.8, 0.2)))
    with pytest.raises(ModelError, match="stalls at"):
        at(2.0)
    shape = frame(stab=PlainSurface(0.4, (0.12, 0.12), at=(0.8, 0.0, 0.0)))
    with pytest.raises(ModelError, match="no effect"):
        analyse(
            shape, solve_lattice(shape), section_polars(shape, AIR),
            air=AIR, mass=0.6, cg=(0.27, 0.0, 0.0),
        )  # fmt: skip
