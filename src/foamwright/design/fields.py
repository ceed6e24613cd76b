"""Field types of the design file: text with a unit in, SI floats inside."""

from typing import Annotated

from pydantic import BeforeValidator, Field

from foamwright.core.units import parse


def _quantity(dimension: str) -> BeforeValidator:
    return BeforeValidator(lambda value: parse(value, dimension))


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
type Fraction = Annotated[float, Field(ge=0.0, le=1.0)]
