"""Every finding on a real plane comes with a change that, applied, really mends it."""

from pathlib import Path

import pytest

import foamwright
from foamwright.checks.changes import changes_for
from foamwright.checks.judge import check_of, finding_of
from foamwright.checks.run import RULES, verdicts
from foamwright.core.verdicts import Verdict

EXAMPLES = sorted((Path(__file__).resolve().parents[2] / "examples").glob("*.toml"))
EXAMPLES = [path for path in EXAMPLES if path.name != "stock.toml"]
BY_ID = {rule.id: rule for rule in RULES}


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_findings_on_the_examples_are_mended(path):
    plane = foamwright.load(path)
    checks = plane.checks
    assert len(checks) >= 32
    for check in checks:
        if check.verdict not in (Verdict.FAILS, Verdict.CLOSE):
            assert check.changes == (), check.id
            continue
        assert check.changes, f"no change for {check.id}: {check.why}"
        for change in check.changes:
            changed = plane.with_values(change.values)
            after = {one.id: one for one in verdicts(changed)}
            assert after[check.id].verdict is Verdict.HOLDS, change.words
            assert after[check.id].margin == pytest.approx(change.margin, abs=1e-9)
            mass = changed.balance.all_up_mass - plane.balance.all_up_mass
            assert mass == pytest.approx(change.mass_change, abs=1e-12)


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_every_check_of_the_examples_is_complete(path):
    for check in verdicts(foamwright.load(path)):
        assert check.why.endswith("."), check.why
        assert check.source, check.id
        assert check.place, check.id
        assert (check.margin is None) == (check.verdict is Verdict.CANNOT_SAY), check.id


TAIL_LEAD = {"extra.0.name": "lead", "extra.0.mass": 0.06, "extra.0.position": 0.85}
LARGE = {"propeller.diameter": 0.2794, "propeller.pitch": 0.1778}
SPOILED = [
    ("stab_too_small", {"stab.span": 0.2, "stab.chord": 0.08}, "tail_volume_horizontal"),
    ("fin_too_small", {"fin.span": 0.06}, "tail_volume_vertical"),
    ("tail_heavy", TAIL_LEAD, "static_margin"),
    ("tail_heavy", TAIL_LEAD, "cg_range"),
    ("thin_firewall", {"motor.firewall.stock": "birch ply 1/16 in"}, "firewall"),
    ("no_joint_tape", {"wing.joint.tape": None}, "joint_load"),
    ("two_bands", {"wing.attachment.bands": 2}, "attachment_load"),
    ("large_propeller", LARGE, "motor_current"),
    ("large_propeller", LARGE, "controller_current"),
    ("small_propeller", {"propeller.diameter": 0.127, "propeller.pitch": 0.0762}, "static_thrust"),
    ("fine_pitch", {"propeller.pitch": 0.0508, "propeller.diameter": 0.2032}, "pitch_speed"),
    ("tiny_pack", {"pack.capacity": 360.0, "pack.mass": 0.015}, "endurance"),
    ("no_elevator", {"stab.up": 0.04, "stab.down": 0.04}, "elevator_throw"),
    ("upthrust", {"motor.down_thrust": -0.05}, "down_thrust"),
    ("one_board", {"board.count": 1}, "boards"),
    ("heavy_board", {"board.mass": 0.6, "pilot.level": "beginner"}, "wing_loading"),
    ("storm", {"field.wind": 9.0}, "wind"),
    ("long_pushrods", {f"servo.{n}.rod_support": 0.6 for n in range(4)}, "pushrods"),
]


@pytest.fixture(scope="module")
def trainer():
    path = next(path for path in EXAMPLES if path.stem == "brindle-cob")
    plane = foamwright.load(path)
    plane.results()
    return plane


@pytest.mark.parametrize(("name", "values", "check_id"), SPOILED, ids=lambda v: str(v)[:24])
def test_a_spoiled_trainer_is_mended(trainer, name, values, check_id):
    plane, rule = trainer.with_values(values), BY_ID[check_id]
    assert check_of(rule, finding_of(rule, plane)).verdict is Verdict.FAILS, name
    checks = verdicts(plane)
    changes = changes_for(rule, plane, checks, verdicts=verdicts)
    assert changes, name
    for change in changes:
        mended = check_of(rule, finding_of(rule, plane.with_values(change.values)))
        assert mended.verdict is Verdict.HOLDS, change.words
        assert change.margin > 0.05
