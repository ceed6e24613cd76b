"""Every factor of the unit table against a general units library."""

import pytest

from foamwright.core.unit_table import ALIASES, UNITS
from foamwright.core.units import parse

PINT = {
    "in": "inch",
    "ft": "foot",
    "lb": "pound",
    "oz": "ounce",
    "deg": "degree",
    "kn": "knot",
    "mph": "mile / hour",
    "km/h": "km / hour",
    "ft/s": "foot / second",
    "Kv": "revolution / minute / volt",
    "rpm/V": "revolution / minute / volt",
    "mohm": "milliohm",
    "g/m2": "g / m**2",
    "g/dm2": "g / dm**2",
    "kg/m2": "kg / m**2",
    "oz/ft2": "ounce / foot**2",
    "g/in2": "g / inch**2",
    "kg/m3": "kg / m**3",
    "g/cm3": "g / cm**3",
    "lb/ft3": "pound / foot**3",
    "gf": "gram_force",
    "kgf": "kilogram_force",
    "ozf": "ounce_force",
    "N m": "newton * meter",
    "kgf cm": "kilogram_force * cm",
    "gf cm": "gram_force * cm",
    "ozf in": "ounce_force * inch",
    "h": "hour",
    "C": "coulomb",
    "%": "percent",
}
SI = {
    "length": "m",
    "mass": "kg",
    "angle": "radian",
    "speed": "m / s",
    "charge": "coulomb",
    "current": "ampere",
    "voltage": "volt",
    "resistance": "ohm",
    "kv": "radian / second / volt",
    "power": "watt",
    "areal mass": "kg / m**2",
    "density": "kg / m**3",
    "force": "newton",
    "torque": "newton * meter",
    "time": "second",
    "pressure": "pascal",
    "fraction": "dimensionless",
}


@pytest.fixture(scope="module")
def library():
    import pint

    return pint.UnitRegistry(autoconvert_offset_to_baseunit=True)


@pytest.mark.parametrize(
    ("dimension", "unit"),
    [(d, u) for d, units in UNITS.items() if d in SI for u in units if u],
)
def test_factor(library, dimension, unit):
    theirs = library.Quantity(1.0, PINT.get(unit, unit)).to(SI[dimension]).magnitude
    assert UNITS[dimension][unit] == pytest.approx(theirs, rel=1e-12)
    assert parse(f"3 {unit}", dimension) == pytest.approx(3 * theirs, rel=1e-12)


@pytest.mark.parametrize("degrees", [-40.0, 0.0, 15.0, 98.6])
@pytest.mark.parametrize("unit", ["degC", "degF"])
def test_temperature(library, degrees, unit):
    theirs = library.Quantity(degrees, unit).to("kelvin").magnitude
    assert parse(f"{degrees} {unit}", "temperature") == pytest.approx(theirs, rel=1e-12)


def test_every_alias_leads_to_a_unit():
    for dimension, names in ALIASES.items():
        assert set(names.values()) <= set(UNITS[dimension])
        assert not set(names) & set(UNITS[dimension])
