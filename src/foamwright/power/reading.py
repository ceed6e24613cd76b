"""A bench reading, and what a bench run answers."""

from dataclasses import dataclass

from foamwright.core.bands import Band
from foamwright.power.model import PowerTrain


@dataclass(frozen=True, slots=True)
class Reading:
    """What was read at one throttle with the plane held still; None where it was not read.

    Attributes:
        voltage: At the pack's terminals, under load. [V]
        current: From the pack. [A]
        speed: Of the propeller or the shaft. [rad/s]
        thrust: [N]
        throttle: Duty ratio, 1 is full. [-]
        rest_voltage: Of the pack just before. [V]
        propeller: Whether the propeller was on.
    """

    voltage: float | None = None
    current: float | None = None
    speed: float | None = None
    thrust: float | None = None
    throttle: float = 1.0
    rest_voltage: float | None = None
    propeller: bool = True


@dataclass(frozen=True, slots=True)
class Compared:
    """One figure read beside the model.

    Attributes:
        reading: Place of the reading, from 0.
        name: "voltage", "current", "speed" or "thrust".
        read: As read, SI.
        before: By the model before the readings, SI.
        after: By the model after them, SI.
        surprise: Standard deviations between read and before. [-]
    """

    reading: int
    name: str
    read: float
    before: float
    after: float
    surprise: float


@dataclass(frozen=True, slots=True)
class BenchResult:
    """What bench readings teach.

    Attributes:
        train: Constants with the bands that are left.
        compared: Every figure read beside the model.
        contradictions: Figures that do not go together, in words.
        thrust_band: Static thrust, full throttle, full pack. [N]
        current_band: Pack current of the same. [A]
        advice: Which further reading narrows these most, in words; best first.
    """

    train: PowerTrain
    compared: tuple[Compared, ...]
    contradictions: tuple[str, ...]
    thrust_band: Band
    current_band: Band
    advice: tuple[str, ...]
