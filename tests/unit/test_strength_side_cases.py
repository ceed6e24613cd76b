"""A worked case for each way to break that is not a pull-up, by hand beside it."""

import math
from dataclasses import replace

import numpy as np
import pytest
from shapely import box

from foamwright.core.bands import Band
from foamwright.parts.model import Facet, Item, Part, PartsList, Source
from foamwright.strength.cases import one_at_a_time
from foamwright.strength.fixings import dowels, grip_hold, hinge_hold, horn_hold, strap_hold
from foamwright.strength.heat import over_temperature
from foamwright.strength.landing import boom_ratio, landing_load_factor, skid_ratio
from foamwright.strength.lightest import lightest_cures, wing_holds
from foamwright.strength.loads import negative_load_factor, propeller_inertia
from foamwright.strength.named import figures_of
from foamwright.strength.side_cases import joint_places
from sample_wing import STOCK, airframe_of, design, limits, loads, strength

PLAN = design()
FIGURES = one_at_a_time(figures_of(PLAN, STOCK))


def test_a_wing_bent_down_by_hand():
    # Same section upside down: bottom fibre 4.8 + 5 mm from the axis instead of 15.6 - 4.8 mm.
    found = limits(strength())
    # axis 4.8 mm, bottom -5.0 mm: 9.8 mm against 10.8 mm on top: 9.2 g * 10.8 / 9.8 = 10.2 g.
    assert found["negative_wing"] == pytest.approx(
        found["wing_top_crushing"] * 10.8 / 9.8, rel=0.05
    )
    # With the tips down the tape does not pull: seam and brace alone.
    assert found["negative_centre"] < found["centre_joint"]
    assert negative_load_factor(6.0) == pytest.approx(2.4)


def test_a_landing_by_hand():
    # 1.5 m/s in 10 mm: 2.25 / (2 * 0.01 * 9.80665) = 11.47 g.
    assert landing_load_factor() == pytest.approx(11.4718, rel=1e-4)
    # A wing that sags 1 mm a g: n (10 + n) = 114.7 mm: n = (-10 + sqrt(100 + 4 * 114.7)) / 2.
    by_hand = (-10.0 + math.sqrt(100.0 + 4.0 * 114.718)) / 2.0
    assert landing_load_factor(0.001) == pytest.approx(by_hand, rel=1e-4)


def test_a_heavier_wing_lands_harder():
    light, heavy = (limits(strength(wing_mass=m)) for m in (0.1, 0.25))
    assert heavy["landing_wing"] < light["landing_wing"]


def test_the_boom_in_a_landing_by_hand():
    # 40 g of servo 250 mm behind the trailing edge at 390 mm: 0.04 * 0.25 * 9.80665 * 11.4718.
    servo = Item("servo", "servo", "", Band.exact(0.04), (0.64, 0.0, 0.0), (0.02, 0.01, 0.02))
    ratios, why = boom_ratio(PLAN, airframe_of(PLAN), PartsList((), (servo,)), figures=FIGURES)
    assert "1.12\u00a0N m" in why
    assert ratios[0] > 1.0
    ahead = replace(servo, at=(0.1, 0.0, 0.0))
    assert boom_ratio(PLAN, airframe_of(PLAN), PartsList((), (ahead,)), figures=FIGURES) is None


def test_a_skid_by_hand():
    # 6.2 m/s over 1 m: 1.96 g on 0.15 kg: 2.88 N; 40 N of bands hold 0.4 * 40 = 16 N: 5.55 times.
    ratios, why = skid_ratio(np.array([40.0]), loads=loads(), lands_at=6.2)
    assert ratios[0] == pytest.approx(16.0 / 2.883, rel=2e-3)
    assert "a crash knocks it off" in why  # 16 N / 1.47 N = 10.9 g against 102 g
    _, tight = skid_ratio(np.array([400.0]), loads=loads(), lands_at=6.2)
    assert "use fewer" in tight


def test_dowels_by_hand():
    # 25 N on a 6.35 mm dowel in 7 layers of 4.76 mm: foam 0.12 MPa, papers 14 of 0.13 mm, 10 MPa:
    # 6.35e-3 * (0.12e6 * 33.32e-3 + 10e6 * 14 * 0.13e-3) = 25.4 + 115.6 = 141 N.
    bearing, bending = dowels(PLAN, STOCK, figures=FIGURES, pull=np.array([25.0]), faces=2)
    assert bearing.ratios[0] == pytest.approx(141.0 / 25.0, rel=0.01)
    # sigma pi d³ / 32 = 80 MPa * 2.514e-8 m³ = 2.01 N m over 12.5 N * 10 mm.
    strong = STOCK.rods["hardwood dowel 1/4 in"].strength.typical
    holds = strong * math.pi * 0.00635**3 / 32.0
    assert bending.ratios[0] == pytest.approx(holds / 0.125, rel=1e-3)


def test_horn_and_hinge_by_hand():
    # 20 N mm over 2/3 of 20 mm: 1.5 N. Rim 32 mm: paper 28 MPa * 0.13 mm, foam 0.18 MPa * 4.76 mm.
    hold = (28e6 * 0.13e-3 + 0.18e6 * 4.76e-3) * 0.032
    assert horn_hold(0.02, FIGURES, faces=2)[0] == pytest.approx(hold / 1.5, rel=1e-3)
    frame = airframe_of(PLAN)
    control = frame.stab.controls[0]
    ratios, load = hinge_hold(frame.stab, control, FIGURES, pressure=150.0)
    length = (control.end - control.start) * 0.36
    flap = control.chord_fraction * frame.stab.mean_chord
    assert load == pytest.approx(150.0 * length * flap, rel=1e-6)
    assert ratios[0] == pytest.approx(0.5 * 28e6 * 0.13e-3 * length / load, rel=1e-6)


def test_the_strap_by_hand():
    # 70 kPa * 20 mm * 40 mm = 56 N; 0.1 kg upside down at 2.4 g and its weight: 3.33 N.
    strap = strap_hold(loads(pack_mass=0.1), needed=6.0, builds=1)
    assert strap.ratios[0] == pytest.approx(56.0 / (0.1 * 9.80665 * 3.4), rel=1e-3)
    assert strap_hold(loads(), needed=6.0, builds=1) is None


def test_the_grip_by_hand():
    # 8 m/s over 1.2 m: 2.72 g along and 1 g down on 0.5 kg, and 6 N of thrust.
    grip = grip_hold(loads(throw_speed=8.0), figures=FIGURES, faces=2)
    force = 0.5 * 9.80665 * math.hypot(2.71924, 1.0) + 6.0
    rim = 2.0 * math.sqrt(math.pi * 0.001)
    holds = 0.12e6 * 0.001 + 0.18e6 * 4.76e-3 * rim
    assert grip.ratios[0] == pytest.approx(holds / (force / 0.8), rel=1e-3)
    assert grip_hold(loads(), figures=FIGURES, faces=2) is None


def test_torque_and_gyroscopic_moment_pull_at_the_firewall():
    turning = {"shaft_speed": 900.0, "propeller_mass": 0.013, "propeller_diameter": 0.2286}
    calm = limits(strength(**turning))["firewall_flight"]
    hard = limits(strength(**turning, shaft_torque=0.2))["firewall_flight"]
    heavy = limits(strength(**{**turning, "propeller_mass": 0.05}))["firewall_flight"]
    assert hard < calm
    assert heavy < calm
    # 13 g, 9 in: 0.013 * 0.2286² / 12 = 5.66e-5 kg m².
    assert propeller_inertia(0.013, 0.2286) == pytest.approx(5.661e-5, rel=1e-3)


def skin(letter, start, end):
    outline = box(0.0, 0.0, end - start, 0.19)
    facet = Facet(outline, (0.2, start, 0.05), (0.0, 1.0, 0.0), (1.0, 0.0, 0.0), 0.005)
    name = f"wing-skin-1{letter}-right"
    return Part(
        name, "skin", "skin", "right", "light display board", Source.BOARD, outline, (), (facet,),
        Band.exact(0.3), 0.005,
    )  # fmt: skip


def test_a_spliced_skin_is_a_joint():
    parts = PartsList((skin("a", 0.0, 0.3), skin("b", 0.3, 0.5)), ())
    joints = joint_places(PLAN, airframe_of(PLAN), parts)
    assert [joint.id for joint in joints] == ["centre_joint", "splice_joint_1"]
    assert joints[1].place == pytest.approx(0.3, abs=1e-3)
    assert not joints[1].braced


def test_heat_takes_glue_away_for_good():
    curves = over_temperature(
        PLAN, airframe_of(PLAN), STOCK, loads=loads(), temperatures=(296.15, 323.15, 338.15, 348.15)
    )
    for name, values in curves.items():
        assert list(values) == sorted(values, reverse=True), name
    assert curves["centre_joint"][-1] < 0.5 * curves["centre_joint"][0]


def test_the_lightest_cure_holds_and_nothing_lighter_does():
    weak = design(wing__spar={"strips": 1, "strip_width": "12 mm"})
    frame, needed = airframe_of(weak), 9.0
    before = wing_holds(weak, frame, STOCK, loads=loads())
    assert before < needed
    first, second = lightest_cures(weak, frame, STOCK, loads=loads(), needed=needed)
    assert first.mass <= second.mass
    assert min(first.load_factor, second.load_factor) >= needed
    (easy, *_) = lightest_cures(weak, frame, STOCK, loads=loads(), needed=before + 0.1)
    assert easy.mass <= first.mass
    assert lightest_cures(weak, frame, STOCK, loads=loads(), needed=500.0) == ()


def test_pressed_tape_does_not_help():
    tape = {"kind": "mesh tape", "place": "skin top"}
    under = {"kind": "mesh tape", "place": "skin bottom"}
    bare, top, bottom = (
        strength(design(wing__reinforcement=r)).tip_deflection for r in ([], [tape], [under])
    )
    assert top == pytest.approx(bare, rel=2e-3)
    assert bottom < bare


def test_more_than_a_pull_up_is_looked_at():
    found = limits(strength(throw_speed=7.0, pack_mass=0.1))
    for name in (
        "negative_wing", "negative_centre", "landing_wing", "landing_centre", "landing_bands",
        "fixing_dowel_bearing", "fixing_dowel_bending", "fixing_horn_elevator",
        "fixing_hinge_elevator", "fixing_pack_strap", "launch_grip", "flutter_wing",
    ):  # fmt: skip
        assert found[name] > 0.0, name
