"""Ranking of propellers and the place of another pack, on a typed-in plane."""

import time
from dataclasses import replace

import pytest

from foamwright.core.bands import Band
from foamwright.core.errors import DesignError
from foamwright.flight.candidates import (
    Seat,
    motor_options,
    propeller_label,
    propeller_options,
)
from foamwright.flight.choice import Option, place_of_pack, rank_options
from foamwright.power.operate import operate
from foamwright.power.pack import pack_of
from foamwright.power.propeller import propeller_of
from foamwright.stock.load import load_stock
from foamwright.stock.propellers import propellers_in_stock
from plane_samples import AERO, POWER

MASS, DENSITY = 0.56, 1.225


def options():
    return [
        Option(
            entry.name,
            replace(
                POWER.train,
                propeller=propeller_of(
                    entry.kind, entry.diameter, pitch=entry.pitch, blades=entry.blades
                ),
            ),
            MASS,
        )
        for entry in propellers_in_stock()
    ]


def rank(**extra):
    return rank_options(options(), AERO, mass=MASS, density=DENSITY, **extra)


def test_every_option_is_ranked_and_faultless_ones_come_first():
    ranked = rank()
    assert {row.name for row in ranked} == {entry.name for entry in propellers_in_stock()}
    with_faults = [bool(row.faults) for row in ranked]
    assert with_faults == sorted(with_faults)
    clean = [row.score for row in ranked if not row.faults]
    assert clean == sorted(clean, reverse=True)


def test_amps_name_what_gives_out():
    hungry = max(rank(), key=lambda row: row.current)
    assert hungry.current > POWER.train.motor.max_current.typical
    assert any("the motor stands" in words for words in hungry.faults)
    assert hungry.current_band.low < hungry.current < hungry.current_band.high


def test_row_is_what_the_single_train_gives():
    row = rank()[0]
    train = next(option.train for option in options() if option.name == row.name)
    point = operate(train, 0.0, 1.0, density=DENSITY, depth_of_discharge=0.0)
    assert row.static_thrust == pytest.approx(point.thrust, rel=1e-6)
    assert row.current == pytest.approx(point.current, rel=1e-6)


@pytest.mark.parametrize(
    ("aim", "name", "sign"),
    [
        ("launch", "thrust_weight", -1),
        ("climb", "climb_rate", -1),
        ("endurance", "endurance", -1),
        ("amps", "current", 1),
    ],
)
def test_aims(aim, name, sign):
    clean = [sign * getattr(row, name) for row in rank(aim=aim) if not row.faults]
    assert clean == sorted(clean)


def test_a_rolling_start_asks_less():
    thrown = {row.name: row for row in rank()}
    rolled = {row.name: row for row in rank(wheels=True)}
    assert all(len(rolled[n].faults) <= len(thrown[n].faults) for n in thrown)


def test_heavier_needs_more():
    light, heavy = (
        rank_options([Option("same", POWER.train, mass)], AERO, mass=MASS, density=DENSITY)[0]
        for mass in (MASS, 1.3 * MASS)
    )
    assert heavy.climb_rate < light.climb_rate
    assert heavy.endurance < light.endurance
    assert heavy.thrust_weight == pytest.approx(light.thrust_weight / 1.3)


def test_pack_that_balances_nowhere():
    train = replace(POWER.train, pack=pack_of(3, 4680.0))
    row = rank_options(
        [Option("pack", train, MASS, place=-0.02, tray=(0.05, 0.3))],
        AERO,
        mass=MASS,
        density=DENSITY,
    )[0]
    assert any("70 mm ahead of where the tray reaches" in words for words in row.faults)


def test_place_of_pack():
    # CG 250 mm; 100 g at 50 mm pulls 20 g m; 200 g pulls the same at 100 mm before the CG
    assert place_of_pack(0.25, pack_mass=0.1, pack_place=0.05, new_mass=0.2) == pytest.approx(0.15)


def test_nothing_to_rank():
    assert rank_options([], AERO, mass=MASS, density=DENSITY) == ()


def test_sixty_propellers_in_a_second():
    assert len(options()) >= 60
    start = time.perf_counter()
    rank()
    assert time.perf_counter() - start < 1.0


def test_own_propeller_goes_in_as_it_is():
    own = POWER.train.propeller
    weighed = replace(own, mass=Band.exact(0.031), thrust_scale=1.2)
    train = replace(POWER.train, propeller=weighed)
    label = propeller_label(own)
    row = next(option for option in propeller_options(train, MASS) if option.name == label)
    assert row.train.propeller is weighed
    assert row.mass == pytest.approx(MASS)


def test_own_propeller_that_stock_does_not_hold_is_tried():
    strange = propeller_of("electric", 0.2413, pitch=0.1397, blades=3)  # 9.5x5.5x3
    options = propeller_options(replace(POWER.train, propeller=strange), MASS)
    assert options[-1].name == "electric 9.5x5.5x3"
    assert options[-1].train.propeller is strange


def test_heavier_motor_moves_the_pack_back():
    # 20 g more at 0.01 m, 0.24 m ahead of the CG: a pack of 0.1 kg goes back 48 mm
    pack = replace(POWER.train.pack, mass=Band.exact(0.1))
    motor = replace(POWER.train.motor, mass=Band.exact(0.05))
    train = replace(POWER.train, pack=pack, motor=motor)
    heavy = replace(next(iter(load_stock().motors.values())), mass=Band.exact(0.07))
    seat = Seat(cg=0.25, pack=0.15, motor=0.01, tray=(0.05, 0.18))
    label = propeller_label(train.propeller)
    options = motor_options(train, MASS, motors={"heavy": heavy}, seat=seat)
    option = next(each for each in options if each.name == f"heavy + {label}")
    assert option.place == pytest.approx(0.198)
    row = rank_options([option], AERO, mass=MASS, density=DENSITY)[0]
    assert any("18 mm behind where the tray reaches" in words for words in row.faults)


@pytest.mark.parametrize(
    ("typed", "name", "line"),
    [
        ("DD 5x3", "direct drive 5x3", ""),
        ("SF 8 x 4.3", "slow flight 8x4.3", ""),
        ("thin electric 9.5x5x3", "electric 9.5x5x3", ""),
        ("electric C 9x6", "electric C 9x6", "C"),
        ("E 9x6", "electric 9x6", ""),
    ],
)
def test_words_of_the_trade_are_understood(typed, name, line):
    option = propeller_options(POWER.train, MASS, names=[typed])[0]
    assert (option.name, option.train.propeller.line) == (name, line)


def test_a_propeller_that_cannot_be_read():
    with pytest.raises(DesignError, match=r'"electric nine".*such as "electric 9x6"'):
        propeller_options(POWER.train, MASS, names=["electric nine"])
