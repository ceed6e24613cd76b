"""Faults flown on purpose against the symptoms that builders tell of (common practice)."""

from dataclasses import replace

import numpy as np
import pytest

import foamwright
from foamwright.cli.fly import flown_card
from foamwright.flight.simulation.flaws import NO_FLAWS, Flaws
from foamwright.flight.simulation.hands import hands_of
from foamwright.flight.simulation.thrower import thrower_for
from foamwright.flight.simulation.throws import Launch, throw
from foamwright.flight.trial.let_go import rolls, waves
from foamwright.flight.trial.rolling import rolling
from foamwright.flight.trial.setting import setting_of
from foamwright.flight.trial.symptoms import SYMPTOMS, shown_by

# What does not show as a tick on every plane; docs/physics/symptoms.md says why.
ONLY_MOVES = {8: "tansy-drift", 9: "", 10: "", 13: "", 16: ""}


@pytest.fixture(scope="module", params=["tansy-drift", "brindle-cob"])
def shown(request):
    plane = foamwright.load(f"examples/{request.param}.toml")
    return {row.symptom.number: row for row in shown_by(flown_card(plane, (), table=True))}


@pytest.mark.slow
@pytest.mark.parametrize("number", [row.number for row in SYMPTOMS])
def test_a_fault_shows_its_symptom(shown, number):
    row = shown[number]
    assert row.moved, f"{row.symptom.flaw}: the figures do not move that way"
    if number not in ONLY_MOVES:
        assert row.ticked, f"{row.symptom.flaw}: {dict(row.changed)}"


def _setting(name, flaws=NO_FLAWS, values=None):
    plane = foamwright.load(f"examples/{name}.toml").with_values(values or {})
    return setting_of(plane.craft, plane.flawed(flaws))


def test_a_warp_rolls_more_when_fast_and_a_heavy_tip_when_slow():
    """Row 6: warp grows with speed squared, weight does not."""
    setting = _setting(
        "tansy-drift",
        Flaws(left_twist=np.radians([0.0, 2.0, 0.0]), right_tip_mass=np.array([0.0, 0.0, 0.02])),
    )
    seen = rolls(setting)
    slow, fast = seen.slow - seen.slow[0], seen.fast - seen.fast[0]
    assert fast[1] > 1.3 * slow[1] > 0.0
    assert slow[2] > 1.1 * fast[2] > 0.0


def test_full_throttle_and_a_weak_throw_roll_left():
    """Row 4: torque hardly changes with speed, damping and ailerons do."""
    plane = foamwright.load("examples/brindle-cob.toml")
    thrower = thrower_for(plane.balance.all_up_mass)
    exact = {name: 0.0 for name in thrower.__slots__ if name.endswith("_spread")}
    idle = replace(hands_of("beginner"), reaction=5.0, reaction_spread=0.0, climb_spread=0.0)

    def bank(stick, speed):
        launch = Launch(replace(thrower, speed=speed, **exact), hands=idle, throttle=stick,
                        duration=0.8)  # fmt: skip
        flaws = Flaws(thrust_right_error=-plane.design.motor.right_thrust)
        return float(throw(plane.flawed(flaws), launch, 1, 0, workers=1).bank[0])

    assert bank(1.0, 4.5) < bank(0.6, 7.5)
    assert bank(1.0, 4.5) < 0.0


def test_a_smaller_fin_wags_longer():
    """Row 18: little yaw stiffness against the dihedral."""
    usual = waves(_setting("tansy-drift"))
    span = foamwright.load("examples/tansy-drift.toml").design.fin.span
    small = waves(_setting("tansy-drift", values={"fin.span": 0.75 * span}))
    assert small.wag_period[0] > 1.1 * usual.wag_period[0]


def test_little_dihedral_does_not_roll_with_the_rudder():
    """Row 19."""
    usual = rolling(_setting("tansy-drift"))
    flat = {"wing.panel.0.dihedral": 0.0, "wing.panel.1.dihedral": np.radians(2.0)}
    assert rolling(_setting("tansy-drift", values=flat)).right[0] > 1.5 * usual.right[0]
