"""Bench readings: they move the constants towards themselves, and what cannot be is named."""

import math

import pytest

from foamwright.core.bands import Band
from foamwright.core.errors import DesignError, ModelError
from foamwright.power.bench import learn_from_bench
from foamwright.power.model import MotorConstants, PowerTrain
from foamwright.power.motor import motor_from_label
from foamwright.power.operate import operate
from foamwright.power.pack import pack_of
from foamwright.power.propeller import propeller_of
from foamwright.power.reading import Reading

RPM = math.pi / 30.0


def _train():
    return PowerTrain(
        motor_from_label(1000 * RPM, 0.05),
        propeller_of("slow flight", 0.2286, pitch=0.1194),
        pack_of(3, 4680.0),
        0.006,
        30.0,
    )


def _read(train, throttle=1.0):
    point = operate(train, 0.0, throttle, density=1.2, depth_of_discharge=0.0)
    return Reading(point.voltage, point.current, point.speed, point.thrust, throttle, 12.6)


def test_readings_of_the_model_itself_change_nothing_but_the_bands():
    result = learn_from_bench(_train(), [_read(_train())], density=1.2)
    before, after = _train().motor, result.train.motor
    assert after.kv.typical == pytest.approx(before.kv.typical, rel=0.005)
    assert after.resistance.typical == pytest.approx(before.resistance.typical, rel=0.02)
    assert after.resistance.high / after.resistance.low < (
        before.resistance.high / before.resistance.low
    )
    assert result.train.propeller.thrust_spread < 0.05 < _train().propeller.thrust_spread
    assert result.contradictions == ()


def _other():
    motor = MotorConstants(
        Band.exact(960 * RPM), Band.exact(0.14), Band.exact(0.7), Band.exact(20.0), Band.exact(0.05)
    )
    propeller = propeller_of("slow flight", 0.2286, pitch=0.1194, line="A")
    return PowerTrain(motor, propeller, pack_of(3, 4680.0), 0.006, 30.0)


def test_readings_of_another_train_are_followed():
    truth = _other()
    result = learn_from_bench(_train(), [_read(truth)], density=1.2)
    point = operate(truth, 0.0, 1.0, density=1.2, depth_of_discharge=0.0)
    assert result.thrust_band.low < point.thrust < result.thrust_band.high
    assert result.current_band.low < point.current < result.current_band.high
    assert result.thrust_band.typical == pytest.approx(point.thrust, rel=0.03)


def test_run_without_propeller_tells_kv():
    free = Reading(voltage=11.0, current=0.7, speed=960 * RPM * 10.9, propeller=False)
    motor = learn_from_bench(_train(), [free], density=1.2).train.motor
    assert motor.kv.typical == pytest.approx(960 * RPM, rel=0.02)
    assert motor.no_load_current.typical == pytest.approx(0.7, rel=0.1)


def test_part_throttle_reading_is_taken():
    result = learn_from_bench(_train(), [_read(_train(), 0.6)], density=1.2)
    assert result.contradictions == ()


def test_one_figure_alone_is_enough_and_advice_is_given():
    result = learn_from_bench(_train(), [Reading(current=14.0)], density=1.2)
    assert result.advice
    assert all("narrows the band" in words for words in result.advice)
    gains = [int(words.split("by ")[1].split()[0]) for words in result.advice]
    assert gains == sorted(gains, reverse=True)


def test_contradiction_names_the_figure():
    good = _read(_train())
    wrong = Reading(good.voltage, good.current, 2.0 * good.speed, good.thrust)
    result = learn_from_bench(_train(), [wrong], density=1.2)
    assert any("Reading 1: the rpm" in words for words in result.contradictions)


@pytest.mark.parametrize(
    ("reading", "match"),
    [
        (Reading(), "reading 1 is empty; volts, amps, rpm or thrust must be among it"),
        (Reading(current=-2.0), r"reading 1\.amps is -2 A; it must be above zero"),
        (Reading(current=9.0, throttle=-0.5), r"reading 1\.throttle is -0.5"),
        (Reading(thrust=2.0, propeller=False), "no propeller gives no thrust"),
    ],
)
def test_refused(reading, match):
    with pytest.raises(DesignError, match=match):
        learn_from_bench(_train(), [reading], density=1.2)


def test_no_reading():
    with pytest.raises(ModelError, match="No bench reading"):
        learn_from_bench(_train(), [], density=1.2)


def test_a_figure_a_tenth_of_the_truth_is_named_and_bends_nothing_far():
    # a scale read in ounces, say: 590 g written as 59
    train = _train()
    good = _read(train)
    wrong = Reading(good.voltage, good.current, good.speed, 0.1 * good.thrust, 1.0, 12.6)
    result = learn_from_bench(train, [wrong], density=1.2)
    assert any("the thrust is -9" in words for words in result.contradictions)
    assert 0.8 * good.thrust < result.thrust_band.typical < 1.1 * good.thrust
    for band in (result.thrust_band, result.current_band):
        assert 0.0 < band.low < band.typical < band.high < math.inf


def test_a_tachometer_set_to_one_blade_is_recognised():
    train = _train()
    point = operate(train, 0.0, 1.0, density=1.2, depth_of_discharge=0.0)
    result = learn_from_bench(train, [Reading(speed=2.0 * point.speed)], density=1.2)
    assert "another number of blades" in result.contradictions[0]
    assert "half of it" in result.contradictions[0]


def test_the_wrong_one_of_two_readings_is_named():
    train = _train()
    good = _read(train)
    wrong = Reading(current=3.0 * good.current)
    words = learn_from_bench(train, [good, wrong], density=1.2).contradictions
    assert [text.split(":")[0] for text in words] == ["Reading 2"]
