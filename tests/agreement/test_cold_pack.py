"""The cold pack against Arrhenius's law for a resistance that is thermally activated."""

import math

import pytest

from foamwright.power.pack import resistance_factor

GAS = 8.314462618  # J/(mol K), CODATA 2018
# Activation energies told of the resistance of lithium cells, J/mol; from memory.
LEAST, MOST = 20e3, 35e3


@pytest.mark.parametrize("celsius", [-10.0, 0.0, 5.0, 10.0, 15.0, 25.0])
def test_cold(celsius):
    kelvin = celsius + 273.15
    step = (1.0 / kelvin - 1.0 / 293.15) / GAS
    bounds = sorted((math.exp(LEAST * step), math.exp(MOST * step)))
    assert bounds[0] * 0.99 < resistance_factor(kelvin) < bounds[1] * 1.01
