"""Motor, pack and controller against worked answers of the three-constant model."""

import math

import numpy as np
import pytest

from foamwright.power.circuit import Circuit, balance_speed, turning
from foamwright.power.motor import best_efficiency, motor_current, motor_efficiency, motor_speed
from foamwright.power.pack import pack_of, rest_voltage

RPM = math.pi / 30.0
KV, OHMS, IDLE, VOLTS = 1000.0 * RPM, 0.090, 0.80, 11.1
# Worked from the equations of Drela, First-Order DC Electric Motor Model (2007), exact algebra:
# current A, rpm, torque N m, shaft power W, efficiency
WORKED = [(10.0, 10200, 0.08785, 93.84, 0.8454), (15.0, 9750, 0.1356, 138.4, 0.8315)]
DRELA = "[DRELA-MOTOR] equations, worked by hand"


@pytest.mark.parametrize(("amps", "rpm", "torque", "power", "efficiency"), WORKED)
def test_motor(reproduce, amps, rpm, torque, power, efficiency):
    share = motor_efficiency(VOLTS, amps, resistance=OHMS, no_load_current=IDLE)
    speed = motor_speed(VOLTS, amps, kv=KV, resistance=OHMS)
    for words, ours, printed in (
        ("rpm", speed / RPM, rpm),
        ("shaft power (W)", torque * speed, power),
        ("current from torque (A)", motor_current(torque, kv=KV, no_load_current=IDLE), amps),
        ("efficiency", share, efficiency),
    ):  # fmt: skip
        reproduce(
            f"{words} at {amps:g} A, 11.1 V", computed=ours, printed=printed, rel=1e-3, source=DRELA
        )


def test_best_efficiency(reproduce):
    current, efficiency = best_efficiency(VOLTS, resistance=OHMS, no_load_current=IDLE)
    reproduce(
        "current of best efficiency (A)", computed=current, printed=9.933, rel=1e-3, source=DRELA
    )
    reproduce("best efficiency", computed=efficiency, printed=0.8454, rel=1e-3, source=DRELA)


# Worked by hand: 12.0 V open, pack 0.040, controller 0.010, motor 1000 Kv 0.090 ohm 0.8 A,
# 1.225 kg/m³, at rest, constant static CT and CP as measured at the University of Illinois
# (Brandt & Selig, vol. 1).
# name, diameter in, CT, CP, rpm, A, thrust N, shaft W, pack V
END_TO_END = [
    ("slow flight 8x3.8", 8.0, 0.1143, 0.0481, 10445, 11.11, 7.234, 107.7, 11.56),
    ("thin electric 9x6", 9.0, 0.1169, 0.0516, 9554, 17.47, 9.915, 159.3, 11.30),
]


@pytest.mark.parametrize("row", END_TO_END, ids=[row[0] for row in END_TO_END])
def test_end_to_end(reproduce, row):
    name, inches, thrust, power, rpm, amps, newton, watts, volts = row
    flat = [math.log(thrust), 0.0, 0.0, 0.0, 0.0, 0.0, math.log(power), 0.0, 0.0, 0.0, 0.0]
    circuit = Circuit(
        parameters=np.array(flat),
        diameter=inches * 0.0254,
        density=1.225,
        kv=np.array(KV),
        resistance=np.array(0.100),
        no_load_current=np.array(0.8),
        open_voltage=np.array(12.0),
        pack_resistance=np.array(0.040),
        still_drag_area=0.0,
        folds=False,
    )
    speed, current = balance_speed(circuit, np.array(0.0), np.array(1.0))
    state = turning(circuit, np.array(0.0), speed)
    source = "worked by hand from [DRELA-MOTOR] and [UIUC-PROP] static coefficients"
    for words, ours, printed in (
        ("rpm", speed / RPM, rpm),
        ("current (A)", current, amps),
        ("thrust (N)", state.thrust, newton),
        ("shaft power (W)", state.torque * speed, watts),
        ("pack voltage (V)", 12.0 - 0.040 * current, volts),
    ):
        reproduce(f"{name}: {words}", computed=ours, printed=printed, rel=1e-3, source=source)


@pytest.mark.parametrize(
    ("drawn", "volts"), [(0.0, 4.20), (0.25, 3.98), (0.5, 3.84), (0.95, 3.61), (1.0, 3.27)]
)
def test_rest_voltage(reproduce, drawn, volts):
    source = "[REST-TABLE] community table of resting voltages"
    reproduce(
        f"rest voltage of a cell, {100 * drawn:g} % drawn (V)",
        computed=rest_voltage(drawn),
        printed=volts,
        rel=1e-6,
        source=source,
    )


# Common practice, no source: masses of small packs on a kitchen scale.
@pytest.mark.parametrize(
    ("cells", "milliamp_hours", "grams"), [(2, 850, 52), (3, 1300, 112), (3, 2200, 180)]
)
def test_pack_mass(reproduce, cells, milliamp_hours, grams):
    mass = pack_of(cells, milliamp_hours * 3.6).mass.typical
    reproduce(
        f"mass of a {cells}-cell {milliamp_hours} mAh pack (g)",
        computed=1000 * mass,
        printed=grams,
        rel=0.10,  # spread between makes
        source="common practice, no source",
    )
