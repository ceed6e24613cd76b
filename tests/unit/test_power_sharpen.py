"""A static reading moves a propeller towards itself, and is refused when it cannot be."""

import numpy as np
import pytest

from foamwright.core.errors import ModelError
from foamwright.power.propeller import propeller_coefficients, propeller_of
from foamwright.power.sharpen import sharpen_propeller

SPEED, DENSITY = 700.0, 1.2


def _label():
    return propeller_of("slow flight", 0.2286, pitch=0.1524)


def _static(propeller):
    thrust, power = propeller_coefficients(propeller, np.array(0.0), speed=np.array(SPEED))
    pressure = DENSITY * (SPEED / (2 * np.pi)) ** 2 * 0.2286**4
    return float(thrust) * pressure, float(power) * pressure * 0.2286 / (2 * np.pi)


@pytest.mark.parametrize("factor", [0.9, 1.1])
def test_moves_most_of_the_way(factor):
    thrust, torque = (factor * value for value in _static(_label()))
    sharp = sharpen_propeller(_label(), speed=SPEED, density=DENSITY, thrust=thrust, torque=torque)
    again = _static(sharp)
    assert again[0] == pytest.approx(thrust, rel=0.02)
    assert again[1] == pytest.approx(torque, rel=0.02)
    assert sharp.thrust_spread < 0.03 < _label().thrust_spread
    assert sharp.advance_spread < _label().advance_spread


def test_thrust_alone_also_tells_of_power():
    thrust, _ = _static(_label())
    sharp = sharpen_propeller(_label(), speed=SPEED, density=DENSITY, thrust=1.1 * thrust)
    assert sharp.power_scale > 1.0
    assert sharp.power_spread < _label().power_spread


# University of Illinois propeller data, slow flight line A 9x6 at 6540 rpm
def test_reading_finds_the_line():
    speed = 6540 * np.pi / 30
    pressure = 1.2 * (6540 / 60) ** 2 * 0.2286**4
    sharp = sharpen_propeller(
        _label(),
        speed=speed,
        density=1.2,
        thrust=0.1597 * pressure,
        torque=0.0851 * pressure * 0.2286 / (2 * np.pi),
    )
    assert sharp.advance_scale > 1.02  # printed 0.905 against 0.85 for the mean of the kind


def test_contradiction_is_named():
    thrust, _ = _static(_label())
    with pytest.raises(ModelError, match=r"The thrust read is \+200 % off"):
        sharpen_propeller(_label(), speed=SPEED, density=DENSITY, thrust=3.0 * thrust)


@pytest.mark.parametrize("reading", [{}, {"thrust": 0.0}, {"torque": float("nan")}])
def test_refused(reading):
    with pytest.raises(ModelError, match="A static reading needs rpm"):
        sharpen_propeller(_label(), speed=SPEED, density=DENSITY, **reading)
