"""One full-throttle reading on two cells foretells half stick on three, against bench readings."""

import math

import pytest

from foamwright.power.bench import learn_from_bench
from foamwright.power.model import PowerTrain
from foamwright.power.motor import motor_from_label
from foamwright.power.operate import operate
from foamwright.power.pack import pack_of
from foamwright.power.propeller import propeller_of
from foamwright.power.reading import Reading
from foamwright.power.stick import duty_of

RPM = math.pi / 30.0
GRAM = 9.80665e-3  # N
SOURCE = "[BENCH-5IN] open bench set, 5x4 in propeller of two blades, air 1.19 kg/m³ assumed"
# Kv on the label, mass in g (from memory, by size); volts, amps, rpm, pull in g at full throttle on
# 7.4 V; the same at pulse 1525 us (stick 0.525) on 11.1 V
READINGS = [
    ("2205, 2600 Kv", 2600, 28, (7.189, 7.711, 15418, 275.2), (11.028, 4.303, 12748, 187.3)),
    ("2206, 2450 Kv", 2450, 31, (7.219, 7.413, 15415, 266.9), (11.021, 3.928, 13060, 193.7)),
    ("2206, 2000 Kv", 2000, 31, (7.333, 3.467, 11594, 152.5), (11.066, 1.802, 10121, 115.0)),
    ("1804, 2400 Kv", 2400, 17, (7.281, 4.949, 13176, 201.7), (11.068, 2.283, 10939, 136.1)),
    ("unstated, 2400 Kv", 2400, 25, (7.225, 6.623, 14660, 239.9), (11.058, 3.792, 12600, 177.8)),
]
# 90th percentile over the 38 such pairs of the set; from the label alone 46, 10 and 18 %
AMPS, TURNS, PULL = 0.15, 0.05, 0.08


@pytest.mark.parametrize("row", READINGS, ids=[row[0] for row in READINGS])
def test_foretold(reproduce, row):
    name, kv, grams, taught, asked = row
    train = PowerTrain(
        motor_from_label(kv * RPM, grams / 1000.0),
        propeller_of("electric", 0.127, pitch=0.1016),
        pack_of(2, 5400.0),
        0.008,
        30.0,
    )
    volts, amps, rpm, pull = taught
    reading = Reading(volts, amps, rpm * RPM, pull * GRAM, rest_voltage=7.4)
    result = learn_from_bench(train, [reading], density=1.19)
    assert result.contradictions == ()
    learnt = result.train
    # a supply holds its volts: no pack resistance, and a pack whose rest voltage is the volts read
    cells = pack_of(3, 5400.0, resistance=1e-6)
    scale = asked[0] / (3 * 4.20)
    supplied = PowerTrain(learnt.motor, learnt.propeller, cells, learnt.controller_resistance, 30.0)
    point = operate(supplied, 0.0, duty_of(0.525) * scale, density=1.19, depth_of_discharge=0.0)
    for words, ours, printed, rel in (
        ("rpm", point.speed / RPM, asked[2], TURNS),
        ("pull (g)", point.thrust / GRAM, asked[3], PULL),
    ):
        reproduce(f"{name}: {words}", computed=ours, printed=printed, rel=rel, source=SOURCE)
    motor_amps = point.torque * learnt.motor.kv.typical + learnt.motor.no_load_current.typical
    duty = duty_of(0.525)
    drawn = duty * motor_amps / (1.0 - 0.32 * (1.0 - duty))  # the room's own controller loss
    reproduce(f"{name}: amps", computed=drawn, printed=asked[1], rel=AMPS, source=SOURCE)
