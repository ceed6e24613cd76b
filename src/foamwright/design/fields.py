"""Field types of the design file: text with a unit in, SI floats inside.

In a file a bare number where a unit is needed is an error. In Python, where no validation context
is given, a number is SI already.
"""

import math
from typing import Annotated, TypeAliasType

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field, ValidationInfo

from foamwright.core.units import as_float, checked, parse

FROM_FILE = "file"  # validation context of values that a person wrote


class Section(BaseModel):
    """Base of every table in the design file: frozen, no unknown keys.

    Tables are built when first read, which the whole design does for all of them at once; a default
    table is therefore made by `model_construct`, which needs no validator.
    """

    model_config = ConfigDict(frozen=True, extra="forbid", defer_build=True)


def _quantity(dimension: str) -> BeforeValidator:
    def read(value: object, info: ValidationInfo) -> float:
        if info.context == FROM_FILE or isinstance(value, bool):
            return parse(value, dimension)
        if isinstance(value, (float, int)):
            return checked(as_float(value), dimension, value)
        return parse(value, dimension)

    return BeforeValidator(read)


def _no_thing(value: object) -> object:
    """TOML has no word for "nothing", so a person writes "none"."""
    return None if value == "none" else value


type OrNone = Annotated[str | None, BeforeValidator(_no_thing)]
type Length = Annotated[float, _quantity("length")]
type Mass = Annotated[float, _quantity("mass")]
type Angle = Annotated[float, _quantity("angle")]
type Speed = Annotated[float, _quantity("speed")]
type Temperature = Annotated[float, _quantity("temperature")]
type Capacity = Annotated[float, _quantity("charge")]
type Current = Annotated[float, _quantity("current")]
type Voltage = Annotated[float, _quantity("voltage")]
type Resistance = Annotated[float, _quantity("resistance")]
type Duration = Annotated[float, _quantity("time")]
type Kv = Annotated[float, _quantity("kv")]
type Fraction = Annotated[float, _quantity("fraction"), Field(ge=0.0, le=1.0)]

DIMENSIONS: dict[TypeAliasType, str] = {
    Length: "length",
    Mass: "mass",
    Angle: "angle",
    Speed: "speed",
    Temperature: "temperature",
    Capacity: "charge",
    Current: "current",
    Voltage: "voltage",
    Resistance: "resistance",
    Duration: "time",
    Kv: "kv",
    Fraction: "fraction",
}


def degrees(angle: float) -> float:
    """An angle of a limit or default, as the trade says it, in SI.

    Args:
        angle: [deg]

    Returns:
        The angle. [rad]

    Source:
        Definition.

    Example:
        >>> round(degrees(1.5), 5)
        0.02618
    """
    return math.radians(angle)
