"""What the test flight on paper answers."""

from collections.abc import Mapping
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Figure:
    """One number of a manoeuvre.

    Attributes:
        title: What it is.
        value: [as dimension]; None: cannot say.
        dimension: As foamwright.core.units, and "distance", "share", "ratio", "rate" (rad/s).
    """

    title: str
    value: float | None
    dimension: str


@dataclass(frozen=True, slots=True)
class Manoeuvre:
    """One manoeuvre as flown.

    Attributes:
        name: Short stable name.
        title: On the card.
        figures: Its numbers.
        seen: The sentence that a builder at the field would say.
        ticks: Question of the test card -> answer, the form that the logbook keeps.
    """

    name: str
    title: str
    figures: tuple[Figure, ...]
    seen: str
    ticks: Mapping[str, str]


@dataclass(frozen=True, slots=True)
class TestFlight:
    """A whole test flight of one build.

    Attributes:
        manoeuvres: In the order of the card.
        ticks: All answers together.
        notes: What was assumed, and what cannot be said.
    """

    __test__ = False  # not a class of tests

    manoeuvres: tuple[Manoeuvre, ...]
    ticks: Mapping[str, str]
    notes: tuple[str, ...]
