"""A starting file with a motor of one's own: what goes with it must not burn it."""

import pytest

from foamwright.core.errors import DesignErrors
from foamwright.design.new import KINDS, Answers
from foamwright.flight.suited import suited_set
from foamwright.opening import load_text
from foamwright.starting import start_design
from foamwright.stock.load import load_stock

STOCK = load_stock()
# the design of a plane whose wing has 0.23 m² flies with motors of about 25 to 80 g
FITTING = ("outrunner 22 mm 1400 Kv", "outrunner 22 mm long 1250 Kv", "outrunner 28 mm 1000 Kv")


def opened(tmp_path, answers):
    started = start_design(answers, tmp_path / "wren.toml")
    return started, load_text(started.text, tmp_path / "wren.toml")


@pytest.mark.parametrize("motor", sorted(STOCK.motors))
def test_no_motor_of_stock_is_burnt(tmp_path, motor):
    started, plane = opened(tmp_path, Answers("Reed Wren", motor=motor))
    amps, train = plane.power.full_throttle_current, plane.train
    assert plane.design.motor.stock == motor
    assert amps <= train.motor.max_current.typical
    assert amps <= 0.8 * train.controller_current  # four fifths of its label, as the check has it
    if motor in FITTING:
        assert not started.notes
        assert plane.power.static_thrust > 0.6 * plane.balance.all_up_mass * 9.80665


@pytest.mark.parametrize("kind", sorted(KINDS))
def test_centre_of_gravity_stays(tmp_path, kind):
    motor = "outrunner 22 mm 1800 Kv" if kind == "small flyer" else "outrunner 28 mm 800 Kv"
    _, usual = opened(tmp_path, Answers("Reed Wren", kind))
    started, plane = opened(tmp_path, Answers("Reed Wren", kind, motor=motor))
    assert not started.notes
    assert plane.balance.cg[0] == pytest.approx(usual.balance.cg[0], abs=0.004)  # place in 5 mm


def test_what_was_said_is_kept(tmp_path):
    answers = Answers("Reed Wren", motor="outrunner 28 mm 800 Kv", cells=4, capacity=1800 * 3.6)
    _, plane = opened(tmp_path, answers)
    pack = plane.design.pack
    assert (pack.cells, pack.capacity) == (4, pytest.approx(1800 * 3.6))


def test_a_motor_far_too_small_is_told(tmp_path):
    started, plane = opened(
        tmp_path, Answers("Reed Wren", motor="outrunner 13 mm 3100 Kv", cells=1)
    )
    assert any("Nothing in stock makes this motor suit" in note for note in started.notes)
    assert plane.power.full_throttle_current < plane.train.motor.max_current.typical


def test_unknown_motor(tmp_path):
    with pytest.raises(DesignErrors, match="outrunner 29"):
        start_design(Answers("Reed Wren", motor="outrunner 29 mm"), tmp_path / "wren.toml")


def test_kind_wanted_goes_first(tmp_path):
    plane = opened(tmp_path, Answers("Reed Wren"))[1]
    chosen = suited_set(
        plane.train,
        plane.aero,
        mass=plane.balance.all_up_mass,
        density=plane.air.density,
        kind="folding",
        controllers=STOCK.controllers,
    )
    assert chosen.propeller.kind == "folding"
    assert not chosen.faults


@pytest.mark.parametrize("kind", sorted(KINDS))
def test_usual_power_suits_every_kind(tmp_path, kind):
    plane = opened(tmp_path, Answers("Reed Wren", kind))[1]
    train = plane.train
    assert plane.power.full_throttle_current <= train.motor.max_current.typical
    assert plane.power.full_throttle_current <= 0.8 * train.controller_current
