"""The examples are what their comments say: five that hold, and one that fails."""

from pathlib import Path

import pytest

import foamwright
from foamwright.checks.run import verdicts
from foamwright.core.verdicts import Verdict
from foamwright.design.load import read_design
from foamwright.design.new import KINDS, Answers, new_design_text

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"
GOOD = ["brindle-cob", "tansy-drift", "sixpence", "farrowlight", "quillon-b"]


def failing(path):
    checks = verdicts(foamwright.load(path))
    return {check.id for check in checks if check.verdict is Verdict.FAILS}


@pytest.mark.parametrize("name", GOOD)
def test_good_planes_hold(name):
    assert failing(EXAMPLES / f"{name}.toml") == set()


def test_quillon_fails_where_its_comments_say():
    failed = failing(EXAMPLES / "quillon-a.toml")
    assert {"dihedral", "joint_load", "firewall", "motor_current", "wind"} <= failed


def test_sixpence_stays_below_250_grams():
    assert foamwright.load(EXAMPLES / "sixpence.toml").balance.all_up_mass < 0.25


def test_farrowlight_is_spliced():
    design = read_design(EXAMPLES / "farrowlight.toml").design
    assert sum(panel.span for panel in design.wing.panel) * 2 == pytest.approx(1.5)
    parts = foamwright.load(EXAMPLES / "farrowlight.toml").parts.parts
    assert len([part for part in parts if "spar strip" in part.name]) > 4


@pytest.mark.parametrize("kind", KINDS)
def test_starting_files_hold(kind, tmp_path):
    file = tmp_path / "new.toml"
    file.write_text(new_design_text(Answers("Reed Wren", kind)), encoding="utf-8")
    assert failing(file) == set()
