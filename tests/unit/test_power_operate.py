"""The power train at a point: hand-worked balances, still propellers, refusals."""

import math

import numpy as np
import pytest

from foamwright.core.bands import Band
from foamwright.core.errors import DesignError, ModelError
from foamwright.power.analyse import analyse
from foamwright.power.model import MotorConstants, PowerTrain
from foamwright.power.motor import best_efficiency, motor_efficiency, motor_from_label
from foamwright.power.operate import operate, power_map, throttle_for_thrust, thrust_at
from foamwright.power.pack import pack_of, rest_voltage
from foamwright.power.propeller import propeller_of
from foamwright.power.stick import duty_of, stick_of

RPM = math.pi / 30.0


@pytest.fixture
def train():
    exact = Band.exact
    return PowerTrain(
        motor=MotorConstants(
            Band(1340 * RPM, 1400 * RPM, 1410 * RPM),
            Band(0.075, 0.105, 0.16),
            Band(0.6, 0.9, 1.3),
            Band(14, 17, 22),
            exact(0.052),
        ),
        propeller=propeller_of("slow flight", 0.2286, pitch=0.1194),
        pack=pack_of(2, 3060.0),
        controller_resistance=0.008,
        controller_current=20.0,
    )


def test_voltages_add_up(train):
    # pack 8.04 V less its own drop; the duty share of it less the motor's drop is omega/Kv
    point = operate(train, 5.0, 0.6, density=1.225)
    assert point.voltage == pytest.approx(8.04 - train.pack.resistance.typical * point.current)
    motor_current = 0.9 + 1400 * RPM * point.torque
    back = 0.6 * point.voltage - motor_current * (0.105 + 0.008)
    assert point.speed / (1400 * RPM) == pytest.approx(back, rel=1e-6)
    # and the pack pays the motor's power over the controller's 1 - 0.32 * 0.4 = 0.872
    assert point.electric_power == pytest.approx(0.6 * point.voltage * motor_current / 0.872)
    assert point.shaft_power == pytest.approx(point.torque * point.speed)


def test_closed_throttle(train):
    still = operate(train, 0.0, 0.0, density=1.225)
    assert (still.thrust, still.current, still.speed) == (0.0, 0.0, 0.0)
    gliding = operate(train, 6.0, 0.0, density=1.225)
    # two plates of 0.136 R²: 0.5 * 1.225 * 36 * 2 * 0.136 * 0.1143² = 0.0784 N
    assert gliding.thrust == pytest.approx(-0.0784, rel=0.01)
    diving = operate(train, 25.0, 0.0, density=1.225)
    assert diving.thrust < -1.0
    assert diving.speed > 100.0
    assert diving.extrapolated


def test_folding_blades_fold(train):
    folding = PowerTrain(
        train.motor, propeller_of("folding", 0.2159, pitch=0.1524), train.pack, 0.008, 20.0
    )
    assert operate(folding, 25.0, 0.0, density=1.225).thrust == 0.0
    assert operate(folding, 5.0, 1.0, density=1.225).thrust > 3.0


def test_map_matches_points(train):
    speeds, throttles = np.array([0.0, 7.0, 14.0]), np.array([0.3, 0.8])
    grid = power_map(train, speeds, throttles, density=1.1, depth_of_discharge=0.5)
    for i, speed in enumerate(speeds):
        for j, throttle in enumerate(throttles):
            point = operate(train, speed, throttle, density=1.1, depth_of_discharge=0.5)
            assert grid.thrust[i, j] == pytest.approx(point.thrust, rel=1e-6, abs=1e-9)
            assert grid.current[i, j] == pytest.approx(point.current, rel=1e-6, abs=1e-9)
    row = thrust_at(train, speeds, throttle=0.8, density=1.1, depth_of_discharge=0.5)
    assert row == pytest.approx(grid.thrust[:, 1], rel=1e-6)


def test_throttle_for_thrust_turns_back(train):
    speeds = np.array([4.0, 8.0, 11.0])
    thrust = thrust_at(train, speeds, throttle=0.55, density=1.225)
    again = throttle_for_thrust(train, speeds, thrust, density=1.225)
    assert again == pytest.approx([0.55] * 3, rel=1e-4)
    assert throttle_for_thrust(train, np.array([8.0]), np.array([90.0]), density=1.225)[0] > 1.0


def test_bands_enclose_and_are_noted(train):
    result = analyse(train, density=1.225)
    for value, band in (
        (result.static_thrust, result.static_thrust_band),
        (result.full_throttle_current, result.full_throttle_current_band),
    ):
        assert band.low < value == band.typical < band.high
    assert result.pitch_speed == pytest.approx(0.1194 * result.static_speed / (2 * math.pi))
    assert any("blade line" in note for note in result.notes)
    outside = PowerTrain(
        train.motor, propeller_of("electric", 0.4, pitch=0.2), train.pack, 0.008, 20.0
    )
    wide = analyse(outside, density=1.225)
    assert any("outside the measured set" in note for note in wide.notes)


@pytest.mark.parametrize(
    ("airspeed", "throttle", "density", "match"),
    [
        (8.0, -0.1, 1.2, "Throttle is -0.1; it must be 0 to 1"),
        (8.0, 1.5, 1.2, "Throttle is 1.5"),
        (-2.0, 0.5, 1.2, "Airspeed is -2 m/s"),
        (8.0, 0.5, 0.0, "Air density is 0"),
        (math.nan, 0.5, 1.2, "must be numbers"),
    ],
)
def test_refused(train, airspeed, throttle, density, match):
    with pytest.raises(ModelError, match=match):
        operate(train, airspeed, throttle, density=density)


def test_refused_elsewhere(train):
    with pytest.raises(ModelError, match="Depth of discharge"):
        operate(train, 8.0, 0.5, density=1.2, depth_of_discharge=1.2)
    with pytest.raises(ModelError, match="Thrust must be zero or more"):
        throttle_for_thrust(train, np.array([8.0]), np.array([-1.0]), density=1.2)
    with pytest.raises(ModelError, match="At least one"):
        power_map(train, np.array([]), np.array([0.5]), density=1.2)
    with pytest.raises(ModelError, match="Kv and a mass above zero"):
        motor_from_label(0.0, 0.05)
    with pytest.raises(ModelError, match="above zero"):
        motor_efficiency(0.0, 1.0, resistance=0.1, no_load_current=0.5)
    with pytest.raises(DesignError, match=r"pack\.cells is 9; packs have 1 to 6 cells"):
        pack_of(9, 4680.0)
    with pytest.raises(DesignError, match=r"pack\.capacity is 10 mAh"):
        pack_of(3, 36.0)
    with pytest.raises(DesignError, match=r"pack\.resistance"):
        pack_of(3, 4680.0, resistance=0.0)


def test_motor_from_label_by_hand():
    # 1000 Kv, 55 g: R = 5.88e5 * 1000^-1.454 * 55^-1.221 = 0.1915 ohm, times 1.5
    motor = motor_from_label(1000 * RPM, 0.055)
    assert motor.resistance.typical == pytest.approx(0.1915 * 1.5, rel=0.01)
    assert motor.resistance.low < motor.resistance.typical < motor.resistance.high
    assert motor.max_current.typical == pytest.approx(1.6e-3 * 1000**0.736 * 55**0.997, rel=1e-6)


def test_best_efficiency_is_best():
    best, peak = best_efficiency(8.0, resistance=0.1, no_load_current=0.8)
    assert best == pytest.approx(8.0)  # sqrt(8 * 0.8 / 0.1)
    for current in (0.9 * best, 1.1 * best):
        assert motor_efficiency(8.0, current, resistance=0.1, no_load_current=0.8) < peak


def test_rest_voltage_between_points():
    assert rest_voltage(0.225) == pytest.approx(4.0)  # half way from 4.02 to 3.98


def test_pack_rating_by_hand():
    # 30 C on 1.3 Ah: 65 % real = 19.5 C = 25.35 A; unrated 20 C = 26 A; 200 C capped at 50 C = 65 A
    assert pack_of(3, 4680.0, rating=30).max_current.typical == pytest.approx(25.35)
    assert pack_of(3, 4680.0).max_current.typical == pytest.approx(26.0)
    assert pack_of(3, 4680.0, rating=200).max_current.typical == pytest.approx(65.0)
    # 3 cells of 18 mohm Ah over 1.3 Ah, and 5 mohm of leads
    assert pack_of(3, 4680.0).resistance.typical == pytest.approx(3 * 0.018 / 1.3 + 0.005)


def test_stick():
    assert duty_of(0.0) == 0.0
    assert duty_of(1.0) == stick_of(1.0) == 1.0
    assert stick_of(0.05) == 0.0
    assert stick_of(duty_of(0.4)) == pytest.approx(0.4)
