"""Balance left to right: roll rate and clay by hand."""

from dataclasses import replace
from pathlib import Path

import pytest

import foamwright
from foamwright.checks.changes import changes_for
from foamwright.checks.mass import MASS_RULES
from foamwright.checks.run import verdicts
from foamwright.checks.side_balance import side_balance, side_roll_rate, tip_clay
from foamwright.core.verdicts import Verdict

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"


@pytest.fixture(scope="module")
def trainer():
    return foamwright.load(EXAMPLES / "brindle-cob.toml")


def heavy_right(plane):
    return plane.with_values(
        {
            "extra.0.name": "camera",
            "extra.0.mass": 0.08,
            "extra.0.position": plane.balance.cg[0],
            "extra.0.side": 0.2,
        }
    )


def test_the_rate_by_hand(trainer):
    derivatives = replace(trainer.aero.derivatives, roll_roll_rate=-0.5)
    plane = trainer.with_results(
        balance=replace(trainer.balance, all_up_mass=0.7, cg=(0.28, 0.005, 0.0)),
        aero=replace(
            trainer.aero, derivatives=derivatives, trim_speed=9.0, wing_area=0.25, span=1.2
        ),
        air=replace(trainer.air, density=1.225),
    )
    # m g y = 0.03432 N m; q S b = 49.61 * 0.3 = 14.88 N m; p = 15 * 0.002306 / 0.5 = 0.0692 rad/s.
    assert side_roll_rate(plane) == pytest.approx(0.0692, rel=2e-3)


def test_clay_in_the_light_tip_levels_it(trainer):
    mass, side = tip_clay(trainer)
    assert side < 0.0 < trainer.balance.cg[1]
    level = trainer.with_values(
        {
            "extra.0.name": "clay",
            "extra.0.mass": mass,
            "extra.0.position": trainer.balance.cg[0],
            "extra.0.side": side,
        }
    )
    assert level.balance.cg[1] == pytest.approx(0.0, abs=1e-6)
    assert "hangs level" in side_balance(level).why


def test_a_heavy_side_is_told_with_what_mends_it(trainer):
    plane = heavy_right(trainer)
    rule = next(rule for rule in MASS_RULES if rule.id == "side_balance")
    found = verdicts(plane)
    check = next(check for check in found if check.id == rule.id)
    assert check.verdict is Verdict.FAILS
    assert "of clay in the left wing tip levels it" in check.why
    changes = changes_for(rule, plane, found, verdicts=verdicts)
    changed = plane.with_values(changes[0].values)
    assert next(c for c in verdicts(changed) if c.id == rule.id).verdict is Verdict.HOLDS
