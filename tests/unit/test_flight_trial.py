"""The test flight on paper: faults in words, answers of the card, left and right alike."""

import json
from dataclasses import replace

import numpy as np
import pytest

import foamwright
from foamwright.cli import main
from foamwright.cli.fly import flown_card
from foamwright.core.errors import ModelError
from foamwright.flight.observations import OBSERVATIONS
from foamwright.flight.simulation.flaws import Flaws
from foamwright.flight.trial.card import told
from foamwright.flight.trial.faults import FAULTS, faults_of
from foamwright.flight.trial.let_go import rolls
from foamwright.flight.trial.setting import setting_of


def test_faults_add_up():
    flaws = faults_of(["cg=10 mm", "drag=-20%", "left-twist = 2 deg"])
    assert flaws.cg_shift_aft == pytest.approx(0.01)
    assert flaws.drag_factor == pytest.approx(0.8)
    assert flaws.left_twist == pytest.approx(np.radians(2.0))


def test_every_fault_has_a_field():
    assert {fault.field for fault in FAULTS.values()} <= set(Flaws.__slots__)


@pytest.mark.parametrize(
    ("said", "helps"),
    [
        ("twist=2deg", "left-twist"),
        ("left-twist", "NAME=VALUE"),
        ("cg=10", "unit"),
        ("cg=5 m", "beyond what a build gets wrong"),
        ("mass=heavy", "mass"),
    ],
)
def test_a_fault_that_is_none_is_told(said, helps):
    with pytest.raises(ModelError, match=helps):
        faults_of([said])


def test_a_warp_and_its_mirror_image_roll_alike():
    plane = foamwright.load("examples/tansy-drift.toml")
    still = replace(plane.craft.screw, swirl=0.0)
    left, right = np.radians([[0.0, 2.0, 0.0], [0.0, 0.0, 2.0]])
    flown = plane.flawed(Flaws(left_twist=left, right_twist=right))
    seen = rolls(setting_of(replace(plane.craft, screw=still), replace(flown, screw=still)))
    for value in (seen.slow, seen.fast, seen.glide):
        # The plane itself is not quite the same on both sides: thrust line and servos.
        assert value[1] - value[0] == pytest.approx(value[0] - value[2], rel=0.1)
        assert value[1] - value[0] > 0.05


@pytest.mark.slow
def test_every_tick_is_an_answer_of_the_card(capsys):
    plane = foamwright.load("examples/sixpence.toml")
    ticks = told(flown_card(plane, ())).ticks
    answers = {item.key: item.answers for item in OBSERVATIONS}
    assert set(answers) - set(ticks) == {"after"}
    assert all(said in answers[key] for key, said in ticks.items())
    assert main(["fly", "examples/sixpence.toml", "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["ticks"] == dict(ticks)


def test_a_wrong_fault_ends_the_command(capsys):
    assert main(["fly", "examples/sixpence.toml", "--fault", "cg=5 m"]) == 2
    assert "beyond what a build gets wrong" in capsys.readouterr().err
