"""What is worth asking now: only what is not known yet and what an answer would change."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from foamwright.core.units import format_value
from foamwright.flight.observations import OBSERVATIONS
from foamwright.logbook.model import Log

if TYPE_CHECKING:
    from foamwright.plane import Plane


@dataclass(frozen=True, slots=True)
class Question:
    """One thing to ask.

    Attributes:
        kind: Of the entry it makes.
        what: Of the entry; "" for flights.
        key: That the answer goes to.
        words: The question, with what is expected.
    """

    kind: str
    what: str
    key: str
    words: str


def open_questions(plane: Plane, log: Log) -> tuple[Question, ...]:
    """What has not been weighed or measured since the plane was last changed, weightiest first.

    Mass and CG decide whether it flies; twist and thrust angles what it does; throws how it feels.

    Args:
        plane: The plane. [-]
        log: All entries. [-]

    Returns:
        Questions. [-]

    Source:
        Common practice, no source.

    Example:
        >>> open_questions(plane, Log())[0].what  # doctest: +SKIP
        'all-up'
    """
    units = plane.design.units
    changed = max((entry.number for entry in log.of("repair")), default=0)

    def known(kind: str, what: str) -> bool:
        return any(entry.number > changed for entry in log.of(kind, what))

    def mass(value: float) -> str:
        return format_value(value, "mass", units)

    def length(value: float) -> str:
        return format_value(value, "length", units)

    band = plane.balance.mass_band
    asked = [
        Question("weighed", "all-up", "mass", "All-up mass, pack in (expected "
                 f"{mass(band.low)} to {mass(band.high)})"),
        Question("measured", "cg", "value", "CG aft of the nose (designed "
                 f"{length(plane.balance.cg[0])})"),
        Question("measured", "pack position", "value", "Middle of the pack aft of the nose "
                                                       "(designed "
                 f"{length(plane.design.pack.position)})"),
    ]  # fmt: skip
    asked += [
        Question("measured", f"twist {side}", "value",
                 f"Twist of the {side} tip against the root, nose up positive, such as '-1.5 deg'")
        for side in ("right", "left")
    ]  # fmt: skip
    if not log.of("flight"):
        asked += [
            Question("weighed", "sheet", "mass", "One whole sheet of the board"),
            Question("weighed", "wing", "mass", "Wing, ready to fly"),
            Question("measured", "down thrust", "value", "Down thrust as built (designed "
                     f"{format_value(plane.design.motor.down_thrust, 'angle')})"),
        ]  # fmt: skip
    return tuple(question for question in asked if not known(question.kind, question.what))


def flight_questions(log: Log) -> tuple[Question, ...]:
    """What to ask after a flight: conditions, then ticks that were not good or never given.

    A tick that was good in each of the last two flights is not asked again.

    Args:
        log: All entries. [-]

    Returns:
        Questions. [-]

    Source:
        Definition.

    Example:
        >>> flight_questions(Log())[0].key
        'minutes'
    """
    asked = [
        Question("flight", "", "minutes", "Minutes in the air"),
        Question("flight", "", "back", "Charge put back, such as '640 mAh'"),
        Question("flight", "", "wind", "Wind, such as '2 m/s' or '5 mph'"),
    ]
    last = log.of("flight")[-2:]
    for item in OBSERVATIONS:
        settled = len(last) == 2 and all(e.said.get(item.key) == item.good for e in last)
        if not settled:
            words = f"{item.question}: {', '.join(item.answers)}"
            asked.append(Question("flight", "", item.key, words))
    asked += [
        Question(
            "flight",
            "",
            f"trim_{name}",
            f"{name.capitalize()} trim used in level flight, such as '2 deg' ({way} is positive)",
        )
        for name, way in (
            ("elevator", "trailing edge down"),
            ("aileron", "rolling right"),
            ("rudder", "nose right"),
        )
    ]
    asked.append(Question("flight", "", "note", "Anything else"))
    return tuple(asked)
