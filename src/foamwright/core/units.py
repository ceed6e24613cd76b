"""Units at the edges: text with a unit in, SI inside, and back to the builder's words.

The table is in core.unit_table; docs/decisions/0004-units.md says why it is closed.
"""

import math
import re

from foamwright.core.errors import FoamwrightError
from foamwright.core.nearest import nearest_names
from foamwright.core.unit_table import (
    ALIASES,
    CELSIUS_ZERO,
    COMPOUND,
    EXAMPLES,
    FAHRENHEIT_ZERO,
    FOOT,
    GRAVITY,
    IMPERIAL,
    INCH,
    LARGEST,
    LIMITS,
    METRIC,
    OUNCE,
    SHOWN,
    UNITS,
)

_NUMBER = r"(?:\d+[ -]+\d+/\d+|\d+/\d+|(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?)"
_ONE = re.compile(rf"([+-]?{_NUMBER})\s*(.*)")
_TWO = rf"([+-]?)({_NUMBER})\s*([a-z'’′]+)\s+({_NUMBER})\s*([a-z\"'”″]+)"
METRES = 3.0  # below it a bare length may be metres as well
FINE = 1.0  # mm; from there a tenth is finer than any ruler
CLOSE_ENOUGH = 0.08  # of a small length, between what it is and the mark of a ruler; assumed
COARSE = {
    "deg": 200, "mph": 200, "m/s": 200, "degC": 200, "degF": 200, "g/dm2": 200, "oz/ft2": 200,
    "A": 200, "V": 200, "oz": 200, "g": 20, "m": 9.95, "ft": 9.95,
}  # fmt: skip
TENTHS = ("deg", "mph", "m/s", "degC", "degF", "m", "ft")  # where hundredths say nothing
# Unit -> from how much on (SI) the next larger one.
LARGER = {"mm": (10.0, "m"), "in": (20 * FOOT, "ft"), "g": (10.0, "kg"), "mohm": (1.0, "ohm"),
          "s": (600.0, "min"), "MPa": (1e9, "GPa"), "ozf": (64 * OUNCE * GRAVITY, "lbf"),
          "ozf in": (100 * OUNCE * GRAVITY * INCH, "lbf in")}  # fmt: skip
_LONGEST = 60  # characters; no value of a design is as long
_COMMA = re.compile(r"(\d),(\d+)")
_WRITTEN = str.maketrans(
    {"\u2212": "-", "\u00a0": " ", "\u202f": " ", "²": "2", "³": "3", "·": " ", "\u2126": "Ω"}
    | {sign: f" {text}" for sign, text in {"½": "1/2", "¼": "1/4", "¾": "3/4", "⅛": "1/8"}.items()}
)


class UnitError(FoamwrightError, ValueError):
    """A value that cannot be read: what was found, what is accepted, how to mend it."""

    def __init__(self, got: str, allowed: str, fix: str) -> None:
        self.got, self.allowed, self.fix = got, allowed, fix
        super().__init__(f"{got}; {allowed}. {fix}".rstrip())


def parse(value: object, dimension: str) -> float:
    """Turn a text with a unit into SI.

    Args:
        value: Text such as "7 1/2 in", "3 ft 10 in", "2200 mAh", "15 °C". [any]
        dimension: A key of UNITS, such as "length". [-]

    Returns:
        The value in SI. [any]

    Raises:
        UnitError: No unit, an unknown unit, a unit of something else, no number, or an absurd one.

    Source:
        Factors: definitions, see UNITS; compared with a units library in tests/agreement.

    Example:
        >>> parse("7 1/2 in", "length")
        0.1905
        >>> round(parse("59 degF", "temperature"), 2)
        288.15
    """
    if isinstance(value, bool) or not isinstance(value, (str, int, float)):
        raise UnitError(_shown(value), _kind(dimension), _fix(7, dimension))
    if not isinstance(value, str):
        return _bare(as_float(value), value, dimension)
    text = " ".join(value.translate(_WRITTEN).split())
    return checked(_read(text, value, dimension), dimension, value)


def _read(text: str, got: str, dimension: str) -> float:
    shown = _shown(got)
    if _COMMA.search(text) and len(text) <= _LONGEST:
        raise UnitError(shown, "a decimal comma is not read", _fix_comma(text))
    one = _ONE.fullmatch(text) if len(text) <= _LONGEST else None
    if not one:
        raise UnitError(shown, _kind(dimension), _fix(7, dimension))
    number = _number(one[1], shown, dimension)
    unit = _known(one[2], dimension)
    if unit is None:
        compound = _compound(text, shown, dimension)
        return _wrong_unit(one[1], one[2], shown, dimension) if compound is None else compound
    if dimension == "temperature":
        return _kelvin(number, unit)
    return _tidy(number * UNITS[dimension][unit])


def _compound(text: str, shown: str, dimension: str) -> float | None:
    """Two units one after the other, such as feet and inches."""
    two = re.fullmatch(_TWO, text)
    if two is None or dimension not in ("length", "mass", "time"):
        return None
    large, small = _known(two[3], dimension), _known(two[5], dimension)
    if large is None or small is None or (large, small) not in COMPOUND:
        return None
    total = _number(two[2], shown, dimension) * UNITS[dimension][large]
    total += _number(two[4], shown, dimension) * UNITS[dimension][small]
    return _tidy(-total if two[1] == "-" else total)


def as_float(value: float) -> float:
    """A number as a float, however large an integer it is.

    Args:
        value: A float or an integer. [any]

    Returns:
        The float; infinite when the integer is beyond all floats. [any]

    Source:
        Definition.

    Example:
        >>> as_float(10**400)
        inf
    """
    try:
        return float(value)
    except OverflowError:  # an integer beyond all floats
        return math.inf


def _number(text: str, shown: str, dimension: str) -> float:
    sign = -1.0 if text.startswith("-") else 1.0
    body = text.lstrip("+-")
    if "/" not in body:
        return sign * float(body)
    whole, _, fraction = body.replace("-", " ").rpartition(" ")
    top, bottom = fraction.split("/")
    if int(bottom) == 0:
        raise UnitError(shown, "a fraction over zero has no value", _fix(7, dimension))
    return sign * (int(whole or 0) + int(top) / int(bottom))


def _kelvin(number: float, unit: str) -> float:
    if unit == "degC":
        return _tidy(number + CELSIUS_ZERO)
    if unit == "degF":
        return _tidy((number + FAHRENHEIT_ZERO) * 5 / 9)
    return number


def _tidy(value: float) -> float:
    """Drop the last-bit noise of a decimal factor: 9 mm is 0.009, not 0.009000000000000001."""
    return float(f"{value:.15g}")


def _known(unit: str, dimension: str) -> str | None:
    unit = unit.strip()
    if unit in UNITS[dimension]:
        return unit
    return ALIASES.get(dimension, {}).get(unit)


def _bare(number: float, got: object, dimension: str) -> float:
    if "" in UNITS[dimension]:
        return checked(number, dimension, got)
    raise UnitError(_shown(got), f"{_article(dimension)} needs its unit", _fix(number, dimension))


def _wrong_unit(number: str, unit: str, shown: str, dimension: str) -> float:
    names = [name for name in UNITS[dimension] if name]
    accepted = f"{_article(dimension)} is written in {_listed(names) if names else 'no unit'}"
    if not unit:
        raise UnitError(
            shown,
            f"{_article(dimension)} needs its unit",
            _fix(float(_number(number, shown, dimension)), dimension),
        )
    others = [other for other in UNITS if other != dimension and _known(unit, other)]
    if others:
        accepted = f"{unit} is a unit of {others[0]}, and {accepted}"
        raise UnitError(
            shown, accepted, _fix(_number(number, shown, dimension), dimension, same=False)
        )
    near = _nearest(unit, dimension)
    fix = (
        f'Write "{number} {near}".' if near else _fix(_number(number, shown, dimension), dimension)
    )
    raise UnitError(shown, accepted, fix)


def _nearest(unit: str, dimension: str) -> str | None:
    names = {name.lower(): name for name in UNITS[dimension] if name}
    names |= {alias.lower(): name for alias, name in ALIASES.get(dimension, {}).items()}
    low = unit.lower()
    found = nearest_names(low, names, cutoff=0.5)
    found.sort(key=lambda name: name[0] != low[0])  # of the nearest, one that starts alike
    return names[found[0]] if found else None


def checked(value: float, dimension: str, got: object = None) -> float:
    """Refuse a number that no plane can have: not finite, or absurdly large.

    Args:
        value: In SI. [any]
        dimension: A key of UNITS. [-]
        got: What was read, for the error message; None for the value itself. [any]

    Returns:
        The same value. [any]

    Raises:
        UnitError: It is not finite, beyond the limit of its dimension, or below absolute zero.

    Source:
        Limits: assumed, LIMITS.

    Example:
        >>> checked(0.19, "length")
        0.19
    """
    got = value if got is None else got
    limit = LIMITS.get(dimension, LARGEST)
    if not math.isfinite(value):
        raise UnitError(_shown(got), "it must be a finite number", _fix(7, dimension))
    if abs(value) > limit:
        largest = format_value(limit, dimension) if dimension in LIMITS else "any in this trade"
        raise UnitError(_shown(got), f"that is beyond {largest}", "Check the number and its unit.")
    if dimension == "temperature" and value < 0.0:
        raise UnitError(
            _shown(got), "that is below absolute zero", "Check the number and its unit."
        )
    return value


def _shown(got: object) -> str:
    text = f'"{got}"' if isinstance(got, str) else str(got)
    text = text.lower() if isinstance(got, bool) else text
    return text if len(text) <= 60 else f"{text[:57]}..."


def _article(dimension: str) -> str:
    if dimension == "kv":
        return "a motor's Kv"
    return f"an {dimension}" if dimension[0] in "aeiou" else f"a {dimension}"


def _kind(dimension: str) -> str:
    return f"{_article(dimension)} is a number with its unit"


def _listed(names: list[str]) -> str:
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} or {names[-1]}"


def _fix(number: float, dimension: str, *, same: bool = True) -> str:
    first, second = EXAMPLES.get(dimension, ("", ""))
    if not first:
        return 'Write "35 %" or 0.35.' if dimension == "fraction" else "Write a plain number."
    if not math.isfinite(number) or abs(number) > LARGEST:
        number = 7  # nothing near what was written makes sense: an example
    if second and abs(number) > {"length": 72, "mass": 36}.get(dimension, LARGEST):
        first, second = second, first
    if dimension == "length" and abs(number) < METRES:  # metres, inches and millimetres all may be
        return f'Write "{number:.10g} m", "{number:.10g} in" or "{number:.10g} mm".'
    texts = [f'"{number:.10g} {first}"']
    if second:
        si = parse(f"{number:.10f} {first}", dimension) if _fits(number, first, dimension) else None
        if same and si is not None:
            texts.append(f'"{_in_unit(si, second, dimension)}"')
        else:
            texts.append(f'"{number:.10g} {second}"')
    return f"Write {' or '.join(texts)}."


def _fits(number: float, unit: str, dimension: str) -> bool:
    return abs(number) * UNITS[dimension][unit] < LIMITS.get(dimension, LARGEST)


def _in_unit(value: float, unit: str, dimension: str) -> str:
    if dimension == "temperature":
        number = value - CELSIUS_ZERO if unit == "degC" else value * 9 / 5 - FAHRENHEIT_ZERO
    else:
        number = value / UNITS[dimension][unit]
    return f"{float(f'{number:.4g}'):.10g} {unit}"


def _fix_comma(text: str) -> str:
    point = _COMMA.sub(r"\1.\2", text)
    if re.search(r"\d,\d{3}(?!\d)", text):
        return f'Write "{text.replace(",", "")}", or "{point}" if the comma is a decimal point.'
    return f'Write "{point}".'


def format_value(
    value: float, dimension: str, system: str = "metric", *, precise: bool = False
) -> str:
    """SI in the builder's words, which `parse` reads back.

    Args:
        value: In SI. [any]
        dimension: A key of UNITS, such as "length". [-]
        system: "metric" or "inch". [-]
        precise: Keep all digits that matter, for writing into a design file. [-]

    Returns:
        Text such as "362 mm" or "14 1/4 in": whole millimetres or 1/32 in where that is near
        enough, three digits otherwise. [-]

    Source:
        Definition.

    Example:
        >>> format_value(0.36195, "length", "inch")
        '14 1/4 in'
        >>> format_value(0.36195, "length")
        '362 mm'
    """
    unit = (IMPERIAL if system == "inch" else METRIC)[dimension]
    unit = _sized(value, unit)
    if not math.isfinite(value):
        return "not known"
    if unit == "in":
        return _inches(value / INCH, precise=precise)
    if dimension == "temperature":
        number = value - CELSIUS_ZERO if unit == "degC" else value * 9 / 5 - FAHRENHEIT_ZERO
    else:
        number = value / UNITS[dimension][unit]
    text = _precise(number) if precise else _plain(number, unit)
    return f"{text} {SHOWN.get(unit, unit)}".rstrip()


def _sized(value: float, unit: str) -> str:
    """A neighbouring unit where the usual one would give unhandy numbers."""
    size = abs(value)
    limit, other = LARGER.get(unit, (math.inf, unit))
    if size >= limit:
        return other
    return "kPa" if unit == "MPa" and 0.0 < size < 1e6 else unit


def _precise(number: float) -> str:
    text = f"{number:.8g}"
    return text if "e" not in text else f"{number:.14f}".rstrip("0").rstrip(".")


def _plain(number: float, unit: str) -> str:
    size = abs(number)
    decimals = 0 if size >= 20 else 1 if size >= 10 else 2
    if 0 < size < 0.5 and unit not in TENTHS:
        decimals = min(6, 2 - math.floor(math.log10(size)) - 1)
    elif unit in COARSE:
        decimals = 0 if size >= COARSE[unit] else 1
    elif unit == "mm" and size >= FINE:
        decimals = min(decimals, 1)
    text = f"{number:.{decimals}f}"
    if "." in text:
        text = text.rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


def _inches(number: float, *, precise: bool) -> str:
    size = abs(number)
    below = 64 if size < 0.25 and not precise else 32  # a ruler's finest marks
    parts = round(size * below)
    allowed = 1e-6 if precise else 1 / 63 if below == 32 else CLOSE_ENOUGH * size
    if abs(size - parts / below) > allowed:
        return f"{_precise(number) if precise else _short(number)} in"
    sign = "-" if number < 0 and parts else ""
    whole, rest = divmod(parts, below)
    if not rest:
        return f"{sign}{whole} in"
    shared = math.gcd(rest, below)
    fraction = f"{rest // shared}/{below // shared}"
    return f"{sign}{whole} {fraction} in" if whole else f"{sign}{fraction} in"


def _short(number: float) -> str:
    return f"{number:.3f}".rstrip("0").rstrip(".") if abs(number) >= 5e-4 else f"{number:.2g}"
