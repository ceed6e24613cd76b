"""Quantities within sentences: written once, spoken in the units of the plane.

A room that knows no design writes its sentences in metric, with a no-break space between a number
and its unit; a stock's name ("music wire 1.2 mm") has an ordinary one and stays as it is.
"""

import re

from foamwright.core.unit_table import CELSIUS_ZERO, SHOWN, UNITS
from foamwright.core.units import format_value

GLUED = "\u00a0"  # between a number and its unit
_SHOWN = {shown: unit for unit, shown in SHOWN.items() if shown not in ("g", "kg", "oz", "lb")}
_SPOKEN = {"mm": "length", "m": "distance", "g": "mass", "N": "force", "N m": "torque",
           "N mm": "torque", "m/s": "speed", "cm²": "area", "°C": "temperature"}  # fmt: skip
_NUMBER = r"(-?\d+(?:\.\d+)?)"
_QUANTITY = re.compile(
    rf"(?:{_NUMBER}( to | x ))?{_NUMBER}{GLUED}(N mm|N m|m/s|cm²|°C|mm|m|g|N)(?![\w²])"
)
_NEWTON_MILLIMETRE = 0.001  # N m


def in_units(text: str, units: str) -> str:
    """A sentence with its quantities in the units that a design speaks.

    Args:
        text: A sentence in metric; its quantities have a no-break space before their unit. [-]
        units: "metric" or "inch". [-]

    Returns:
        The sentence, with ordinary spaces. [-]

    Source:
        Definition.

    Example:
        >>> in_units(f"music wire 1.2 mm free over 150{GLUED}mm bows at 8.9{GLUED}N", "inch")
        'music wire 1.2 mm free over 5 29/32 in bows at 32 oz'
    """
    if GLUED not in text:
        return text
    if units == "inch":
        text = _QUANTITY.sub(_spoken, text)
    return text.replace(GLUED, " ")


def _spoken(found: re.Match[str]) -> str:
    last = _one(float(found[3]), found[4])
    if found[1] is None:
        return last
    first, unit = _one(float(found[1]), found[4]).rsplit(" ", 1)
    return f"{first if last.endswith(f' {unit}') else f'{first} {unit}'}{found[2]}{last}"


def _one(number: float, unit: str) -> str:
    dimension = _SPOKEN[unit]
    if unit == "°C":
        return format_value(number + CELSIUS_ZERO, dimension, "inch")
    factor = _NEWTON_MILLIMETRE if unit == "N mm" else UNITS[dimension][_SHOWN.get(unit, unit)]
    return format_value(number * factor, dimension, "inch")
