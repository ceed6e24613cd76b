"""Heat, cold packs, leads and the idle propeller against numbers worked by hand."""

import math

import pytest

from foamwright.core.bands import Band
from foamwright.core.errors import ModelError
from foamwright.power.heat import heat_at, heat_words
from foamwright.power.idle import idle_thrust
from foamwright.power.model import MotorConstants, PowerTrain
from foamwright.power.pack import lead_resistance, pack_of, resistance_factor, used_pack
from foamwright.power.propeller import propeller_of


def _train(kind="electric", idle=0.5):
    motor = MotorConstants(
        Band.exact(105.0), Band.exact(0.1), Band.exact(idle), Band.exact(10.0), Band.exact(0.05)
    )
    propeller = propeller_of(kind, 0.2286, pitch=0.1524)
    return PowerTrain(motor, propeller, pack_of(3, 4680.0, mass=0.1), 0.01, 20.0)


def test_at_the_label_it_just_gets_there():
    motor = heat_at(_train(), 10.0)[0]
    # 100 x 0.1 + 0.5 x 11.1 = 15.55 W at the limit, 75 K above 25 °C
    assert motor.loss == pytest.approx(15.55)
    assert motor.steady_temperature == pytest.approx(373.15)
    assert motor.time_to_limit is None


def test_time_above_the_label():
    motor = heat_at(_train(), 20.0)[0]
    # 45.55 W; h = 15.55/75 = 0.20733 W/K; rise 219.7 K; tau = 0.05 x 500/0.20733 = 120.6 s;
    # t = -120.6 ln(1 - 75/219.7) = 50.3 s
    assert motor.time_to_limit == pytest.approx(50.3, abs=0.2)
    assert "reaches 100 °C in about 0.8 min" in heat_words(motor)


def test_more_current_is_sooner():
    times = [heat_at(_train(), amps)[0].time_to_limit for amps in (12.0, 15.0, 20.0, 30.0)]
    assert times == sorted(times, reverse=True)


@pytest.mark.parametrize(("current", "air"), [(-1.0, 298.0), (math.nan, 298.0), (5.0, 340.0)])
def test_heat_refuses(current, air):
    with pytest.raises(ModelError, match=r"Current is|The air is"):
        heat_at(_train(), current, air_temperature=air)


def test_cold_and_old_pack():
    assert resistance_factor(293.15) == 1.0
    assert resistance_factor(323.15) == 0.6  # 0.354 without the hold
    assert resistance_factor(273.15, cycles=250.0) == pytest.approx(4.0)
    pack = used_pack(pack_of(3, 4680.0, resistance=0.05), temperature=273.15)
    assert pack.resistance.typical == pytest.approx(0.1)
    with pytest.raises(ModelError, match="-25 °C"):
        resistance_factor(248.15)


def test_leads():
    # handbook: 1.31 mm² copper has 13.2 mohm a metre; twice 0.1 m and one connector
    assert lead_resistance(0.1, 1.31e-6) == pytest.approx(0.2 * 0.0132 + 0.0005, rel=0.01)
    with pytest.raises(ModelError, match="copper area"):
        lead_resistance(0.1, 0.0)


def test_idle_propeller():
    plate = 0.5 * 1.2 * 100.0 * 2 * 0.136 * 0.1143**2  # two blades across the stream at 10 m/s
    assert idle_thrust(_train(), 10.0, state="braked", density=1.2) == pytest.approx(-plate)
    stiff = idle_thrust(_train(idle=5.0), 10.0, state="free", density=1.2)
    assert stiff == pytest.approx(-plate)  # the air cannot turn it
    free = idle_thrust(_train(idle=0.1), 10.0, state="free", density=1.2)
    assert free < 0.0
    with pytest.raises(ModelError, match="no hinged blades"):
        idle_thrust(_train(), 10.0, state="folded", density=1.2)


def test_folded_is_least():
    train = PowerTrain(
        _train().motor,
        propeller_of("folding", 0.2159, pitch=0.1524),
        pack_of(3, 4680.0),
        0.01,
        20.0,
    )
    drag = {s: idle_thrust(train, 10.0, state=s, density=1.2) for s in ("folded", "braked")}
    assert drag["braked"] < drag["folded"] < 0.0
