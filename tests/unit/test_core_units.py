"""Units: text with a unit in, SI inside, and back."""

import math

import pytest

from foamwright.core.units import UNITS, UnitError, checked, format_value, parse
from foamwright.core.words import in_units


@pytest.mark.parametrize(
    ("text", "dimension", "si"),
    [
        ("46 in", "length", 1.1684),  # 46 x 0.0254
        ('46"', "length", 1.1684),
        ("7 1/2 in", "length", 0.1905),
        ("7-1/2 in", "length", 0.1905),
        ("7½ in", "length", 0.1905),
        ("3/16 in", "length", 0.0047625),
        ("-3/16 in", "length", -0.0047625),
        ("3 ft 10 in", "length", 1.1684),
        ("3' 10\"", "length", 1.1684),
        ("9 mm", "length", 0.009),
        ("1.5 m", "length", 1.5),
        (".5 m", "length", 0.5),
        ("1e2 mm", "length", 0.1),
        ("1 lb", "mass", 0.45359237),
        ("1 lb 8 oz", "mass", 0.680388555),  # 24/16 lb
        ("2200 mAh", "charge", 7920.0),
        ("180 deg", "angle", math.pi),
        ("36 km/h", "speed", 10.0),
        ("10 mph", "speed", 4.4704),
        ("15 °C", "temperature", 288.15),
        ("15 C", "temperature", 288.15),
        ("59 degF", "temperature", 288.15),
        ("0 K", "temperature", 0.0),
        ("120 mohm", "resistance", 0.12),
        ("120 mΩ", "resistance", 0.12),
        ("300 rpm/V", "kv", 10 * math.pi),
        ("1 kgf cm", "torque", 0.0980665),
        ("100 g/m2", "areal mass", 0.1),
        ("100 g/m²", "areal mass", 0.1),
        ("35 %", "fraction", 0.35),
        ("0.35", "fraction", 0.35),
        (0.35, "fraction", 0.35),
        ("1 min 30 s", "time", 90.0),
    ],
)
def test_parse(text, dimension, si):
    assert parse(text, dimension) == pytest.approx(si, rel=1e-14, abs=1e-300)


@pytest.mark.parametrize(
    ("value", "dimension", "message"),
    [
        (46, "length", '46; a length needs its unit. Write "46 in" or "1168 mm".'),
        ("46", "length", '"46"; a length needs its unit. Write "46 in" or "1168 mm".'),
        (1168, "length", '1168; a length needs its unit. Write "1168 mm" or "45.98 in".'),
        (2.5, "angle", '2.5; an angle needs its unit. Write "2.5 deg".'),
        (
            "46 oz",
            "length",
            '"46 oz"; oz is a unit of mass, and a length is written in mm, cm, m, in or ft. '
            'Write "46 in" or "46 mm".',
        ),
        (
            "46 im",
            "length",
            '"46 im"; a length is written in mm, cm, m, in or ft. Write "46 in".',
        ),
        (
            "1300 mah",
            "charge",
            '"1300 mah"; a charge is written in mAh, Ah or C. Write "1300 mAh".',
        ),
        ("1,5 m", "length", '"1,5 m"; a decimal comma is not read. Write "1.5 m".'),
        (
            "1,168 mm",
            "length",
            '"1,168 mm"; a decimal comma is not read. '
            'Write "1168 mm", or "1.168 mm" if the comma is a decimal point.',
        ),
        (
            "1/0 in",
            "length",
            '"1/0 in"; a fraction over zero has no value. Write "7 in" or "177.8 mm".',
        ),
        (
            "",
            "length",
            '""; a length is a number with its unit. Write "7 in" or "177.8 mm".',
        ),
        (
            "nan in",
            "length",
            '"nan in"; a length is a number with its unit. Write "7 in" or "177.8 mm".',
        ),
        ("1e9 m", "length", '"1e9 m"; that is beyond 10000 m. Check the number and its unit.'),
        (
            "1/" + "9" * 5000 + " m",
            "length",
            f'"1/{"9" * 54}...; a length is a number with its unit. Write "7 in" or "177.8 mm".',
        ),
        (10**400, "fraction", f'1{"0" * 56}...; it must be a finite number. Write "35 %" or 0.35.'),
        ("1e999 m", "length", '"1e999 m"; it must be a finite number. Write "7 in" or "177.8 mm".'),
        (
            float("nan"),
            "fraction",
            'nan; it must be a finite number. Write "35 %" or 0.35.',
        ),
        (
            "-300 degC",
            "temperature",
            '"-300 degC"; that is below absolute zero. Check the number and its unit.',
        ),
        (
            True,
            "mass",
            'true; a mass is a number with its unit. Write "7 oz" or "198.4 g".',
        ),
        (
            "7" * 80 + " m",
            "length",
            f'"{"7" * 56}...; a length is a number with its unit. Write "7 in" or "177.8 mm".',
        ),
    ],
)
def test_refusals(value, dimension, message):
    with pytest.raises(UnitError) as caught:
        parse(value, dimension)
    assert str(caught.value) == message


@pytest.mark.parametrize(
    ("value", "dimension", "metric", "inch"),
    [
        (0.36195, "length", "362 mm", "14 1/4 in"),
        (1.1684, "length", "1168 mm", "46 in"),
        (0.0047625, "length", "4.8 mm", "3/16 in"),
        (0.0012, "length", "1.2 mm", "3/64 in"),
        (0.003, "length", "3 mm", "1/8 in"),
        (0.0002, "length", "0.2 mm", "0.008 in"),
        (1.8, "distance", "1.8 m", "5.9 ft"),
        (43.0, "distance", "43 m", "141 ft"),
        (0.0016, "area", "16 cm²", "2.48 in²"),
        (8.8, "force", "8.8 N", "32 oz"),
        (41.0, "force", "41 N", "9.22 lb"),
        (8.8, "thrust", "897 g", "32 oz"),
        (0.12, "torque", "1.22 kg cm", "17 oz in"),
        (2.23, "torque", "23 kg cm", "19.7 lb in"),
        (0.22, "speed", "0.2 m/s", "0.5 mph"),
        (0.013, "length", "13 mm", "1/2 in"),
        (0.0, "length", "0 mm", "0 in"),
        (-0.0254, "length", "-25 mm", "-1 in"),
        (120.0, "length", "120 m", "394 ft"),
        (0.6549, "mass", "655 g", "23.1 oz"),
        (0.0085, "mass", "8.5 g", "0.3 oz"),
        (math.radians(1.5), "angle", "1.5 deg", "1.5 deg"),
        (6.4, "speed", "6.4 m/s", "14.3 mph"),
        (288.15, "temperature", "15 °C", "59 °F"),
        (4680.0, "charge", "1300 mAh", "1300 mAh"),
        (18.25, "current", "18.2 A", "18.2 A"),
        (0.12, "resistance", "120 mohm", "120 mohm"),
        (0.27, "fraction", "27 %", "27 %"),
        (2.85, "areal mass", "28.5 g/dm²", "9.3 oz/ft²"),
        (450.0, "time", "450 s", "450 s"),
        (2.5, "money", "2.5", "2.5"),
    ],
)
def test_format(value, dimension, metric, inch):
    assert format_value(value, dimension) == metric
    assert format_value(value, dimension, "inch") == inch


def test_format_never_says_not_a_number():
    assert format_value(float("nan"), "length") == "not known"
    assert format_value(math.inf, "temperature", "inch") == "not known"


def test_every_dimension_can_be_said_and_refused():
    for dimension in UNITS:
        value = 300.0 if dimension == "temperature" else 0.5
        assert parse(format_value(value, dimension), dimension) == pytest.approx(value, rel=0.01)
        with pytest.raises(UnitError):
            parse("7 furlongs", dimension)


def test_checked_refuses_what_no_plane_has():
    with pytest.raises(UnitError, match="beyond 10000 m"):
        checked(1e5, "length")
    with pytest.raises(UnitError, match="finite"):
        checked(math.inf, "force")


def test_a_bare_number_is_offered_in_the_units_it_may_be_meant_in():
    with pytest.raises(UnitError, match=r'Write "1.1 m", "1.1 in" or "1.1 mm"'):
        parse("1.1", "length")
    with pytest.raises(UnitError, match='Write "652 g" or "23 oz"'):
        parse("652", "mass")


def test_quantities_in_a_sentence_speak_the_units_of_the_design():
    # 150 mm = 5 29/32 in (5.906); 8.9 N = 32.0 oz (1 oz of pull = 0.278 N); 49 m/s = 109.6 mph.
    said = "music wire 1.2 mm over 150\u00a0mm bows at 8.9\u00a0N, at 49\u00a0m/s, 8.1 g"
    assert (
        in_units(said, "metric") == "music wire 1.2 mm over 150 mm bows at 8.9 N, at 49 m/s, 8.1 g"
    )
    assert in_units(said, "inch") == (
        "music wire 1.2 mm over 5 29/32 in bows at 32 oz, at 109.6 mph, 8.1 g"
    )
    assert (
        in_units("300\u00a0N mm, 50\u00a0°C, 16\u00a0cm²", "inch") == "42 oz in, 122 °F, 2.48 in²"
    )
