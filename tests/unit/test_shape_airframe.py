"""Surfaces and body: hand-worked numbers and what is refused."""

import math

import pytest

import foam_samples as samples
from foamwright.core.errors import DesignErrors
from foamwright.design.model import Aileron, Fuselage, FuselageStation, Gear, Tail
from foamwright.shape.airframe import build_airframe
from foamwright.shape.body import build_body, height_at
from foamwright.shape.model import LiftingPanel
from foamwright.shape.planform import planform
from foamwright.shape.section import plate_section


def plan(rows):
    section = plate_section(0.2, 0.005)
    return planform([LiftingPanel(a, b, c, d, 0.0, 0.0, section) for a, b, c, d in rows])


def test_two_panels_by_hand():
    # Inner 0.2 m wide, chord 0.3; outer 0.4 m wide, 0.3 to 0.1, leading edge swept back 0.2.
    size = plan([((0, 0, 0), (0, 0.2, 0), 0.3, 0.3), ((0, 0.2, 0), (0.2, 0.6, 0), 0.3, 0.1)])
    assert size.area == pytest.approx(0.06 + 0.08)
    # Integral c2: 0.2*0.09 + 0.4*(0.09+0.03+0.01)/3 = 0.018 + 0.017333; over 0.14.
    assert size.mean_chord == pytest.approx(0.0353333 / 0.14, rel=1e-5)
    # Integral x c: 0 + 0.4*(0 + 0.2*(0.3 + 0.2))/6 = 0.0066667; over 0.14.
    assert size.mean_chord_x == pytest.approx(0.0066667 / 0.14, rel=1e-4)
    assert size.reach == pytest.approx(0.6)


def test_dihedral_shortens_the_span_not_the_area():
    wing = samples.wing((samples.panel(0.5, 0.2, dihedral=0.2),))
    plane = build_airframe(samples.design(wing=wing), 0.005)
    assert plane.wing.area == pytest.approx(0.2)
    assert plane.wing.span == pytest.approx(math.cos(0.2))
    assert plane.wing.aspect_ratio == pytest.approx(math.cos(0.2) ** 2 / 0.2)


def test_incidence_is_of_the_flat_bottom_and_washout_adds_up():
    wing = samples.wing(
        (samples.panel(0.3, 0.19, washout=0.01), samples.panel(0.2, None, washout=0.02)),
        incidence=0.03,
    )
    inner, outer = build_airframe(samples.design(wing=wing), 0.005).wing.panels
    assert inner.root_twist == pytest.approx(0.03 + inner.section.bottom_angle)
    assert outer.tip_twist == pytest.approx(inner.root_twist - 0.03)
    assert outer.root == inner.tip


def test_high_wing_sits_in_the_top_line():
    # Fuselage 90 mm high, symmetrical, flat along the wing: the underside starts at 45 mm and the
    # leading edge lies one nose radius (a board) above it.
    plane = build_airframe(samples.design(), 0.005)
    assert plane.wing.panels[0].root[2] == pytest.approx(0.045 + 0.005, abs=2e-4)


def test_elevator_by_hand():
    # Chord 0.12 constant, hinge at 0.65: 0.042 by the span.
    plane = build_airframe(
        samples.design(stab=samples.tail(position=0.75, span=0.4, chord=0.12)), 0.005
    )
    elevator = plane.stab.controls[0]
    assert elevator.area == pytest.approx(0.042 * 0.4)
    assert elevator.chord_fraction == pytest.approx(0.35)
    assert (elevator.name, elevator.span) == ("elevator", 0.4)


def test_tails():
    high = build_airframe(samples.design(tail=Tail(kind="T")), 0.005)
    assert high.stab.panels[0].root[2] > high.fin.panels[0].tip[2]
    vee = build_airframe(
        samples.design(
            tail=Tail(kind="V"),
            fin=None,
            stab=samples.tail(position=0.75, span=0.4, chord=0.12, dihedral=0.6),
        ),
        0.005,
    )
    assert vee.fin is None
    assert [c.name for c in vee.stab.controls] == ["elevator", "rudder"]
    assert vee.stab.span == pytest.approx(0.4 * math.cos(0.6))


def test_strip_aileron_by_hand():
    # Half span 0.5842: from 40 mm to 20 mm short of the tip; 18 % of 197 mm.
    aileron = build_airframe(samples.design(), 0.005).wing.controls[0]
    assert aileron.chord == pytest.approx(0.18 * 0.197)
    assert aileron.span == pytest.approx(2 * (0.5842 - 0.02 - 0.04))


def test_body_areas_by_hand():
    # One layer everywhere, a straight taper 100 to 50 mm over 1 m: side 0.075 m2.
    body = Fuselage.model_construct(
        length=1.0,
        layers=1,
        saddle_layers=1,
        nose_layers=1,
        station=(
            FuselageStation.model_construct(x=0.0, bottom=-0.05, top=0.05),
            FuselageStation.model_construct(x=1.0, bottom=-0.025, top=0.025),
        ),
    )
    made = build_body(samples.design(fuselage=body), 0.005)
    assert made.side_area == pytest.approx(0.075)
    assert made.frontal_area == pytest.approx(0.1 * 0.005)
    # Two sides, top and bottom, both ends.
    assert made.wetted_area == pytest.approx(2 * 0.075 + 2 * 0.005 + 0.005 * 0.15)


def test_profile_is_thicker_at_nose_and_saddle():
    body = build_body(samples.design(), 0.005)
    widths = {round(s.x, 3): s.width for s in body.stations}
    assert widths[0.0] == pytest.approx(0.035)
    assert widths[0.2] == pytest.approx(0.035)
    assert widths[0.914] == pytest.approx(0.015)


def test_height_between_stations():
    outline = ((0.0, -0.02, 0.04), (0.5, -0.04, 0.06))
    assert height_at(outline, 0.25) == pytest.approx((-0.03, 0.05))
    assert height_at(outline, 2.0) == (-0.04, 0.06)


def test_thrust_axis():
    axis = build_airframe(samples.design(), 0.005).thrust_axis
    assert math.hypot(*axis) == pytest.approx(1.0)
    assert axis[0] < 0 < axis[1]  # forward and to the right
    assert axis[2] < 0  # and down


def test_gear_area_by_hand():
    gear = Gear.model_construct(position=0.2, track=0.16, height=0.15, wheel_diameter=0.05)
    # Two legs of hypot(80, 150) = 170 mm by 2 mm, two wheels 50 by 12 mm.
    area = build_airframe(samples.design(gear=gear), 0.005).gear_area
    assert area == pytest.approx(2 * 0.170 * 0.002 + 2 * 0.05 * 0.012)


def test_all_errors_come_together():
    bad = samples.design(
        wing=samples.wing(aileron=Aileron.model_construct(chord=0.15)),
        stab=samples.tail(position=0.75, span=0.4, chord=0.12, hinge=0.05),
    )
    with pytest.raises(DesignErrors) as caught:
        build_airframe(bad, 0.005)
    assert [e.field for e in caught.value.errors] == ["wing.aileron.chord", "stab.hinge"]


@pytest.mark.parametrize(
    ("rows", "words"),
    [
        ([(0.0, -0.05, 0.05), (0.0, -0.05, 0.05)], "nose to tail"),
        ([(0.0, 0.05, -0.05), (0.914, -0.05, 0.05)], "must lie above the bottom"),
        ([(0.0, -0.05, 0.05), (0.5, -0.05, 0.05)], "the last at the fuselage length"),
    ],
)
def test_impossible_stations_say_why(rows, words):
    stations = tuple(FuselageStation.model_construct(x=x, bottom=b, top=t) for x, b, t in rows)
    body = Fuselage.model_construct(length=0.914, station=stations)
    with pytest.raises(DesignErrors, match=words):
        build_airframe(samples.design(fuselage=body), 0.005)


def test_missing_fin_and_chord_say_why():
    with pytest.raises(DesignErrors, match="only a V-tail goes without a fin"):
        build_airframe(samples.design(fin=None), 0.005)
    with pytest.raises(DesignErrors, match="needs a chord"):
        build_airframe(samples.design(wing=samples.wing((samples.panel(0.5, None),))), 0.005)
