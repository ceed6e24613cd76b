"""Ratios and power by size that a starting design is made from: common practice, no source.

Noses are shorter and tails smaller than the usual lists have them (15 % of the span, 20 to 25 % of
the wing): built of layered board, planes by those lists come out nose-heavy with a modern motor.
"""

from dataclasses import dataclass

from foamwright.core.unit_table import INCH

MILLIAMPERE_HOUR = 3.6  # A s


@dataclass(frozen=True, slots=True)
class Kind:
    """Ratios of one kind of plane.

    Attributes:
        words: What it is, for the first line of the file.
        span: When the builder names none. [m]
        aspect: Span over mean chord. [-]
        build: Of the wing.
        controls: "ailerons" or "rudder", when the builder names none.
        length: Fuselage length over span. [-]
        nose: Wing leading edge aft of the nose, over span. [-]
        pack: Middle of the pack aft of the nose, over `nose`. [-]
        stab: Stab area over wing area. [-]
        fin: Fin area over wing area. [-]
        layers: Of a profile fuselage.
        propeller: Blade family.
    """

    words: str
    span: float
    aspect: float
    build: str
    controls: str
    length: float
    nose: float
    pack: float
    stab: float
    fin: float
    layers: int
    propeller: str


KINDS = {
    "trainer": Kind(
        words="an aileron trainer",
        span=1.17,
        aspect=6.0,
        build="folded",
        controls="ailerons",
        length=0.77,
        nose=0.13,
        pack=0.9,
        stab=0.165,
        fin=0.09,
        layers=3,
        propeller="electric",
    ),
    "slow flyer": Kind(
        words="a slow flyer",
        span=1.3,
        aspect=6.5,
        build="folded",
        controls="rudder",
        length=0.72,
        nose=0.122,
        pack=1.06,
        stab=0.168,
        fin=0.1,
        layers=2,
        propeller="slow flight",
    ),
    "small flyer": Kind(
        words="a small flyer",
        span=0.78,
        aspect=4.6,
        build="stepped",
        controls="rudder",
        length=0.77,
        nose=0.17,
        pack=0.55,
        stab=0.215,
        fin=0.1,
        layers=1,
        propeller="direct drive",
    ),
    "glider": Kind(
        words="a motor glider",
        span=1.5,
        aspect=8.0,
        build="folded",
        controls="rudder",
        length=0.68,
        nose=0.105,
        pack=1.06,
        stab=0.143,
        fin=0.09,
        layers=2,
        propeller="folding",
    ),
    "sport": Kind(
        words="a sport plane",
        span=1.05,
        aspect=5.2,
        build="folded",
        controls="ailerons",
        length=0.81,
        nose=0.13,
        pack=0.95,
        stab=0.17,
        fin=0.1,
        layers=3,
        propeller="sport",
    ),
}


@dataclass(frozen=True, slots=True)
class PowerSize:
    """What turns the propeller of a plane of one size.

    Attributes:
        largest: Wing area up to which it serves. [m²]
        motor: Stock name.
        controller: Stock name.
        diameter: Of the propeller. [m]
        pitch: Of the propeller. [m]
        cells: Of the pack. [-]
        capacity: Of the pack. [A s]
        servo: Stock name.
    """

    largest: float
    motor: str
    controller: str
    diameter: float
    pitch: float
    cells: int
    capacity: float
    servo: str


POWER = (
    PowerSize(
        largest=0.15,
        motor="outrunner 18 mm 2300 Kv",
        controller="controller 10 A",
        diameter=6 * INCH,
        pitch=3 * INCH,
        cells=2,
        capacity=450 * MILLIAMPERE_HOUR,
        servo="servo 5 g",
    ),
    PowerSize(
        largest=0.2,
        motor="outrunner 22 mm 1000 Kv",
        controller="controller 20 A",
        diameter=8 * INCH,
        pitch=4 * INCH,
        cells=3,
        capacity=850 * MILLIAMPERE_HOUR,
        servo="servo 9 g",
    ),
    PowerSize(
        largest=0.3,
        motor="outrunner 22 mm long 950 Kv",
        controller="controller 30 A",
        diameter=9 * INCH,
        pitch=4.5 * INCH,
        cells=3,
        capacity=1300 * MILLIAMPERE_HOUR,
        servo="servo 9 g",
    ),
    PowerSize(
        largest=0.4,
        motor="outrunner 28 mm 1000 Kv",
        controller="controller 30 A",
        diameter=10 * INCH,
        pitch=5 * INCH,
        cells=3,
        capacity=1800 * MILLIAMPERE_HOUR,
        servo="servo 9 g",
    ),
    PowerSize(
        largest=99.0,
        motor="outrunner 35 mm 900 Kv",
        controller="controller 60 A",
        diameter=12 * INCH,
        pitch=6 * INCH,
        cells=3,
        capacity=3000 * MILLIAMPERE_HOUR,
        servo="servo 17 g",
    ),
)
