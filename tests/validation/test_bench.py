"""Known motor on measured volts against bench readings of small motors."""

import math

import numpy as np
import pytest

from foamwright.power.circuit import Circuit, balance_speed, controller_efficiency, turning
from foamwright.power.stick import duty_of

RPM = math.pi / 30.0
SOURCE = "[BENCH-5IN] open bench set of 5 in propellers, 7.4 V"
# Kv label and its measured share, R of motor, leads and controller, I0 as fitted to the whole
# set; CT and CP of the propeller likewise (air 1.19 kg/m³ assumed);
# then one reading: volts, amps, rpm, thrust g.
READINGS = [
    ("2205, 2600 Kv, 5x4, 2 blades",
     2600 * 1.000, 0.151, 1.29, 0.1305, 0.0562, 7.189, 7.711, 15418, 275.2),
    ("2204, 2300 Kv, 5x4, 2 blades",
     2300 * 0.977, 0.289, 0.56, 0.1305, 0.0562, 7.314, 4.698, 13185, 200.6),
    ("2206, 2000 Kv, 5x4.5, 2 blades",
     2000 * 0.968, 0.354, 0.51, 0.1487, 0.0711, 7.318, 3.868, 11481, 172.8),
    ("2206, 2450 Kv, 5x4.5, 3 blades",
     2450 * 1.005, 0.129, 1.43, 0.1650, 0.0854, 7.171, 9.685, 14581, 314.4),
    ("1804, 2400 Kv, 5x4, 4 blades",
     2400 * 0.993, 0.343, 0.78, 0.1947, 0.1072, 7.214, 7.077, 11520, 231.7),
    ("2205, 2400 Kv, 5x4.5, 3 blades",
     2400 * 0.986, 0.225, 0.74, 0.1650, 0.0854, 7.234, 7.194, 13323, 256.4),
]  # fmt: skip


def _circuit(kv, resistance, idle, thrust, power, volts):
    flat = [math.log(thrust), 0.0, 0.0, 0.0, 0.0, 0.0, math.log(power), 0.0, 0.0, 0.0, 0.0]
    return Circuit(
        parameters=np.array(flat),
        diameter=0.127,
        density=1.19,
        kv=np.array(kv * RPM),
        resistance=np.array(resistance),
        no_load_current=np.array(idle),
        open_voltage=np.array(volts),
        pack_resistance=np.array(0.0),
        still_drag_area=0.0,
        folds=False,
    )


@pytest.mark.parametrize("row", READINGS, ids=[row[0] for row in READINGS])
def test_full_throttle(reproduce, row):
    name, kv, resistance, idle, thrust, power, volts, amps, rpm, grams = row
    circuit = _circuit(kv, resistance, idle, thrust, power, volts)
    speed, current = balance_speed(circuit, np.array(0.0), np.array(1.0))
    newton = turning(circuit, np.array(0.0), speed).thrust
    # the 90th percentile asked of a known motor and propeller
    reproduce(f"{name}: rpm", computed=speed / RPM, printed=rpm, rel=0.025, source=SOURCE)
    reproduce(f"{name}: current (A)", computed=current, printed=amps, rel=0.06, source=SOURCE)
    reproduce(
        f"{name}: thrust (g)", computed=newton / 9.80665e-3, printed=grams, rel=0.05, source=SOURCE
    )


# The same motors at stick 0.335 and 0.525 (pulse 1335 and 1525 µs): volts, amps, rpm.
PART = [
    (READINGS[0], 0.335, 7.391, 1.657, 6585),
    (READINGS[0], 0.525, 7.358, 2.942, 9086),
    (READINGS[2], 0.335, 7.420, 0.701, 5056),
    (READINGS[2], 0.525, 7.401, 1.300, 6961),
]


@pytest.mark.parametrize(("motor", "stick", "volts", "amps", "rpm"), PART)
def test_part_throttle(reproduce, motor, stick, volts, amps, rpm):
    name, kv, resistance, idle, thrust, power, *_ = motor
    circuit = _circuit(kv, resistance, idle, thrust, power, volts)
    duty = np.array(duty_of(stick))
    speed, current = balance_speed(circuit, np.array(0.0), duty)
    drawn = duty * current / controller_efficiency(duty)
    words = f"{name}, stick {stick:g}"
    # one controller: its stick map and loss scatter by this much over the set
    reproduce(f"{words}: rpm", computed=speed / RPM, printed=rpm, rel=0.05, source=SOURCE)
    reproduce(f"{words}: current (A)", computed=drawn, printed=amps, rel=0.25, source=SOURCE)


# Median of measured over ideal input at motor volts over pack volts, 234 readings of the same set.
@pytest.mark.parametrize(("duty", "share"), [(0.3, 0.80), (0.5, 0.84), (0.7, 0.92), (0.9, 0.99)])
def test_controller(reproduce, duty, share):
    reproduce(
        f"controller efficiency at duty {duty:g}",
        computed=controller_efficiency(np.array(duty)),
        printed=share,
        near=0.05,  # between the 10th and 90th percentile of the readings
        source=SOURCE,
    )
