"""Field types of the design file: text with a unit in, SI floats inside.

In a file a bare number where a unit is needed is an error. In Python (no validation context) a float is SI.
"""

from typing import Annotated

from pydantic import BeforeValidator, Field, ValidationInfo

from foamwright.core.units import parse

FROM_FILE = "file"  # validation context of values that a person wrote


def _quantity(dimension: str) -> BeforeValidator:
    def read(value: object, info: ValidationInfo) -> float:
        if info.context != FROM_FILE and isinstance(value, (float, int)):
            return float(value)
        return parse(value, dimension)

    return BeforeValidator(read)


type Length = Annotated[float, _quantity("length")]
type Mass = Annotated[float, _quantity("mass")]
type Angle = Annotated[float, _quantity("angle")]
type Speed = Annotated[float, _quantity("speed")]
type Temperature = Annotated[float, _quantity("temperature")]
type Capacity = Annotated[float, _quantity("charge")]
type Current = Annotated[float, _quantity("current")]
type Voltage = Annotated[float, _quantity("voltage")]
type Resistance = Annotated[float, _quantity("resistance")]
type Kv = Annotated[float, _quantity("kv")]
type Fraction = Annotated[float, _quantity("fraction"), Field(ge=0.0, le=1.0)]
