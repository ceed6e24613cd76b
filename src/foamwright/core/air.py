"""The standard atmosphere near the ground."""

import math
from dataclasses import dataclass

from foamwright.core.unit_table import GRAVITY

GAS_CONSTANT = 287.05287  # J/(kg K), ISO 2533
SEA_LEVEL_PRESSURE = 101325.0  # Pa, ISO 2533
SEA_LEVEL_TEMPERATURE = 288.15  # K, ISO 2533
LAPSE_RATE = -0.0065  # K/m, ISO 2533, up to 11 km
SUTHERLAND_CONSTANT = 110.4  # K, ISO 2533
SUTHERLAND_BETA = 1.458e-6  # kg/(m s K^0.5), ISO 2533


@dataclass(frozen=True, slots=True)
class Air:
    """State of the air at the field.

    Attributes:
        density: [kg/m³]
        viscosity: Dynamic viscosity. [Pa s]
        pressure: [Pa]
        temperature: [K]
        speed_of_sound: [m/s]
    """

    density: float
    viscosity: float
    pressure: float
    temperature: float
    speed_of_sound: float


def air_at(altitude: float = 0.0, temperature: float | None = None) -> Air:
    """Air at a field, from its height and, if known, the day's temperature.

    Pressure follows the standard atmosphere: p = p0 (1 + L h / T0)^(-g/(R L)); density = p/(R T).

    Args:
        altitude: Height above sea level. [m]
        temperature: Temperature of the day; None takes the standard one. [K]

    Returns:
        State of the air.

    Valid:
        -500 m to 11 000 m; beyond that the formula extrapolates and is not checked.

    Source:
        [ISO2533] formulas for the troposphere; reproduced in tests/validation/test_isa.py.

    Example:
        >>> round(air_at(1000.0).density, 4)
        1.1116
    """
    standard = SEA_LEVEL_TEMPERATURE + LAPSE_RATE * altitude
    exponent = -GRAVITY / (GAS_CONSTANT * LAPSE_RATE)
    pressure = SEA_LEVEL_PRESSURE * (standard / SEA_LEVEL_TEMPERATURE) ** exponent
    actual = standard if temperature is None else temperature
    return Air(
        density=pressure / (GAS_CONSTANT * actual),
        viscosity=SUTHERLAND_BETA * actual**1.5 / (actual + SUTHERLAND_CONSTANT),
        pressure=pressure,
        temperature=actual,
        speed_of_sound=math.sqrt(1.4 * GAS_CONSTANT * actual),
    )
