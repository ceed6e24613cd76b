"""Verdicts of every check on a typed-in plane."""

import math
import re

import pytest

from foamwright.checks.build import splices
from foamwright.checks.control import rudder_roll_rate
from foamwright.checks.judge import Finding, Rule, check_of, finding_of, margin_of, verdict_of
from foamwright.checks.rules import between
from foamwright.checks.run import RULES, verdicts
from foamwright.core.errors import ModelError
from foamwright.core.verdicts import Verdict
from foamwright.flight.powered import PowerTrim
from foamwright.parts.model import PartsList
from foamwright.plane import Plane
from foamwright.stock.load import load_stock
from plane_samples import (
    AERO,
    AIR,
    AIRFRAME,
    BALANCE,
    FLIGHT,
    LAYOUT,
    PARTS,
    POWER,
    STRENGTH,
    TRAIN,
    band,
    design,
    failure,
    part,
    replaced,
)


@pytest.fixture(scope="module")
def stock():
    return load_stock(None)


@pytest.fixture
def plane_of(stock):
    """A plane whose results are typed in."""

    def make(written=None, **results):
        plane = Plane(written or design(), stock, None)
        plane.__dict__.update(
            air=AIR,
            airframe=AIRFRAME,
            aero=AERO,
            balance=BALANCE,
            train=TRAIN,
            power=POWER,
            flight=FLIGHT,
            strength=STRENGTH,
            parts=PARTS,
            layout=LAYOUT,
        )
        plane.__dict__.update(results)
        return plane

    return make


def named(plane):
    return {check.id: check for check in verdicts(plane)}


def test_the_sample_holds(plane_of):
    found = {check.id: check.why for check in verdicts(plane_of()) if check.verdict != "holds"}
    assert found == {}


def test_there_are_enough_checks_and_each_has_its_own_id():
    assert len(RULES) >= 36
    assert len({rule.id for rule in RULES}) == len(RULES)
    assert len({rule.title for rule in RULES}) == len(RULES)


def test_every_check_is_complete(plane_of):
    for check in verdicts(plane_of()):
        assert check.source, check.id
        assert check.place, check.id
        assert check.title, check.id
        assert check.unit, check.id
        assert re.search(r"\d", check.why) or check.id == "adverse_yaw", check.why
        assert check.why.endswith("."), check.why


def test_a_value_outside_its_limits_fails_and_inside_does_not(plane_of):
    for check in verdicts(plane_of()):
        if check.value is None:
            continue
        inside = (check.low is None or check.value >= check.low) and (
            check.high is None or check.value <= check.high
        )
        assert inside == (check.verdict is not Verdict.FAILS), check.id


@pytest.mark.parametrize(
    ("value", "low", "high", "margin"),
    [
        (12.0, 10.0, None, 0.2),  # 2 above a limit of 10
        (12.0, None, 10.0, -0.2),
        (0.12, 0.05, 0.20, 0.07 / 0.15),  # nearer to 0.05, width 0.15
        (0.22, 0.05, 0.20, -0.02 / 0.15),
        (-0.5, -1.0, None, 0.5),
        (1.0, None, None, None),
    ],
)
def test_margin(value, low, high, margin):
    found = margin_of(value, low, high)
    assert found == margin or found == pytest.approx(margin)


def test_an_empty_range_fails():
    """Forward limit behind the aft limit: no CG is allowed."""
    assert verdict_of(margin_of(0.3, 0.31, 0.30)) is Verdict.FAILS


def test_what_the_physics_cannot_answer_is_said(plane_of):
    def refuses(plane):
        raise ModelError("The section is not known.")

    rule = Rule("x", "X", "-", "", "assumed", "wing", refuses, lambda plane, finding: ())
    check = check_of(rule, finding_of(rule, plane_of()))
    assert check.verdict is Verdict.CANNOT_SAY
    assert "The section is not known." in check.why


def test_a_number_that_is_none_is_not_passed_on(plane_of):
    rule = Rule(
        "x",
        "X",
        "-",
        "",
        "assumed",
        "wing",
        lambda plane: Finding(math.nan, "Words.", high=1.0),
        lambda plane, finding: (),
    )
    check = check_of(rule, finding_of(rule, plane_of()))
    assert (check.verdict, check.value, check.margin) == (Verdict.CANNOT_SAY, None, None)


@pytest.mark.parametrize(
    ("check_id", "result", "changes"),
    [
        ("stall_speed", "aero", {"stall_speed": 7.5}),
        ("all_up_mass", "aero", {"stall_speed": 7.5}),
        ("stall_place", "aero", {"stall_start": 0.9}),
        ("static_margin", "aero", {"static_margin": 0.01}),
        ("static_margin", "aero", {"static_margin": 0.3}),
        ("cg_range", "aero", {"cg_forward": 0.29}),
        ("tail_volume_horizontal", "aero", {"tail_volume_horizontal": 0.2}),
        ("tail_volume_vertical", "aero", {"tail_volume_vertical": 0.01}),
        ("trim_elevator", "aero", {"trim_elevator": -0.15}),
        ("roll_rate", "aero", {"roll_rate": 0.5}),
        ("adverse_yaw", "aero", {"adverse_yaw": -0.6}),
        ("pack_reach", "balance", {"cg_front": 0.30}),
        ("side_balance", "balance", {"cg": (0.285, 0.02, 0.0)}),
        ("balance_scatter", "balance", {"cg_front": 0.284}),
        ("motor_current", "power", {"full_throttle_current": 17.0}),
        ("controller_current", "power", {"full_throttle_current": 17.0}),
        ("pack_current", "power", {"full_throttle_current": 27.0}),
        ("firewall", "strength", {"firewall_margin": -0.2}),
        ("stab_stiffness", "strength", {"stab_deflection": 0.03}),
        ("fin_stiffness", "strength", {"fin_deflection": -0.03}),
        ("wing_bend", "strength", {"tip_deflection": 0.2}),
        ("wing_twist", "strength", {"wing_twist": -0.06}),
        ("divergence", "strength", {"divergence_speed": 12.0}),
        ("servo_torque", "strength", {"servo_loads": {"rudder": 0.9}}),
        ("joint_load", "strength", {"needed_load_factor": 5.5}),
        ("wing_load", "strength", {"failures": (failure("wing_top_buckling", 3.0),)}),
        ("attachment_load", "strength", {"failures": (failure("bands", 3.0),)}),
        ("tail_strength", "strength", {"failures": (failure("fuselage_bending", 0.8),)}),
        ("pushrods", "strength", {"failures": (failure("pushrod_rudder", 0.8),)}),
        ("thrust_line", "flight", {"thrust_pitch": 0.2}),
        ("boards", "layout", {"boards_used": 5}),
        ("parts_fit", "layout", {"unplaced": ("wing-skin-1-right",)}),
    ],
)
def test_a_bad_value_fails_its_check(plane_of, check_id, result, changes):
    samples = {
        "aero": AERO,
        "balance": BALANCE,
        "power": POWER,
        "strength": STRENGTH,
        "flight": FLIGHT,
        "layout": LAYOUT,
    }
    plane = plane_of(**{result: replaced(samples[result], **changes)})
    assert named(plane)[check_id].verdict is Verdict.FAILS


@pytest.mark.parametrize(
    ("check_id", "changes"),
    [
        ("static_thrust", {"thrust_weight": 0.4}),
        ("pitch_speed", {"pitch_speed_ratio": 1.5}),
        ("climb", {"climb_rate": 0.3}),
        ("level_throttle", {"level_throttle": 0.9}),
        ("level_throttle", {"level_throttle": None}),
        ("endurance", {"endurance": 120.0}),
        ("first_timer", {"endurance": 120.0}),
    ],
)
def test_bad_performance_fails(plane_of, check_id, changes):
    flight = replaced(FLIGHT, performance=replaced(FLIGHT.performance, **changes))
    assert named(plane_of(flight=flight))[check_id].verdict is Verdict.FAILS


@pytest.mark.parametrize(
    ("mode", "changes", "check_id"),
    [
        (4, {"real": 0.5}, "spiral"),
        (0, {"damping": 0.1}, "short_period"),
        (1, {"real": 0.2}, "phugoid"),
        (2, {"damping": 0.02}, "dutch_roll"),
    ],
)
def test_bad_motions_fail(plane_of, mode, changes, check_id):
    modes = list(FLIGHT.modes)
    modes[mode] = replaced(modes[mode], **changes)
    flight = replaced(FLIGHT, modes=tuple(modes))
    assert named(plane_of(flight=flight))[check_id].verdict is Verdict.FAILS


def test_a_plane_without_ailerons_needs_dihedral(plane_of):
    """CL = 5.492 N/(42.2 Pa 0.24 m²) = 0.542; 5 x 0.542 x 1.2 m/0.55 m = 5.92 deg."""
    wing = {"position": 0.22, "panel": [{"span": 0.6, "chord": 0.2}]}
    check = named(plane_of(design(wing=wing)))["dihedral"]
    assert check.verdict is Verdict.FAILS
    assert check.low == pytest.approx(math.radians(5.92), rel=2e-3)


def test_a_small_tail_is_told_by_how_much(plane_of):
    """Margin 0.02 of 4.5/rad, 0.6 of it by the tail: 5 % needs (0.225 - 0.09 + 0.6)/0.6 = 1.225."""
    slopes = replaced(AERO.derivatives, pitch_alpha=-0.09)
    aero = replaced(
        AERO,
        derivatives=slopes,
        lift_slope=4.5,
        tail_pitch_alpha=-0.6,
        tail_volume_horizontal=0.40,
    )
    check = named(plane_of(aero=aero))["tail_volume_horizontal"]
    assert check.verdict is Verdict.FAILS
    assert check.low == pytest.approx(0.49, rel=1e-6)
    assert "18 % too small" in check.why


def test_thrust_angles_are_judged_by_what_power_does(plane_of):
    """Wanted 3 deg give or take 1; no throw counted; half a degree of cutting."""
    trim = PowerTrim(
        speed=8.3,
        elevator_change=0.02,
        nose_up=0.03,
        down_thrust=math.radians(3.0),
        nose_left=0.02,
        right_thrust=math.radians(9.0),
        words="",
        down_spread=math.radians(1.0),
        right_spread=math.radians(1.0),
    )
    found = named(plane_of(flight=replaced(FLIGHT, power_trim=trim)))
    assert found["down_thrust"].low == pytest.approx(math.radians(1.5))
    assert found["down_thrust"].high == pytest.approx(math.radians(4.5))
    assert found["right_thrust"].verdict is Verdict.FAILS
    assert "9.0 deg" in found["right_thrust"].why


def test_a_tip_that_drops_under_its_aileron_fails(plane_of):
    aero = replaced(
        AERO, aileron_stall_start=0.8, aileron_stall_words="it drops.", aileron_drops=True
    )
    assert named(plane_of(aero=aero))["stall_place"].verdict is Verdict.FAILS


def test_rudder_roll_rate(plane_of):
    """beta = 0.05 * 0.192/0.06 = 0.16; p b/2V = (0.05*0.16 - 0.005*0.192)/0.45 = 0.015644."""
    plane = plane_of()
    expected = 0.015644 * 2 * 8.3 / 1.2
    assert rudder_roll_rate(plane) == pytest.approx(expected, rel=1e-3)


def test_cautions_never_fail(plane_of):
    for mass in (0.05, 0.0999, 0.101, 0.2, 0.249, 0.251, 0.9, 5.0):
        balance = replaced(BALANCE, all_up_mass=mass, mass_band=band(mass))
        check = named(plane_of(balance=balance))["rule_mass"]
        assert check.verdict in (Verdict.HOLDS, Verdict.CLOSE)
        assert "Check your authority and club" in check.why
        assert "November 2026" in check.why


def test_close_to_a_threshold_is_close(plane_of):
    balance = replaced(BALANCE, all_up_mass=0.255, mass_band=band(0.255))
    assert named(plane_of(balance=balance))["rule_mass"].verdict is Verdict.CLOSE


def test_between():
    assert between(0.25, (0.1, 0.25)) == (0.25, None)  # at the threshold counts as over it


def test_splices_are_found_where_the_pieces_meet():
    parts = (
        part("spar-strip-1-1a-right", 0.40, 0.025),
        part("spar-strip-1-1b-right", 0.35, 0.025, at=(0.0, 0.40, 0.0)),
        part("spar-strip-1-2-right", 0.75, 0.025),
        part("fuselage-1a", 0.5, 0.1, along=(1.0, 0.0, 0.0)),
        part("fuselage-1b", 0.5, 0.1, at=(0.5, 0.0, 0.0), along=(1.0, 0.0, 0.0)),
    )
    found = splices(parts)
    assert found["wing"]["spar-strip-1-1"] == pytest.approx([0.40])
    assert found["fuselage"]["fuselage-1"] == pytest.approx([0.5])


def test_joints_too_near_fail(plane_of):
    parts = PartsList(
        (
            part("spar-strip-1-1a-right", 0.40, 0.025),
            part("spar-strip-1-1b-right", 0.35, 0.025, at=(0.0, 0.40, 0.0)),
            part("spar-strip-1-2a-right", 0.43, 0.025),
            part("spar-strip-1-2b-right", 0.32, 0.025, at=(0.0, 0.43, 0.0)),
        ),
        (),
    )
    check = named(plane_of(parts=parts))["joints_staggered"]
    assert check.verdict is Verdict.FAILS
    assert check.value == pytest.approx(0.03)


def test_sentences_speak_the_units_of_the_design(plane_of):
    metric = named(plane_of())["stall_speed"].why
    inch = named(plane_of(design(units="inch")))["stall_speed"].why
    assert metric != inch
