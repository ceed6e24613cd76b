"""Entries that contradict one another or the plane: which, and why."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from typing import TYPE_CHECKING

from foamwright.core.errors import DesignError
from foamwright.core.units import format_value
from foamwright.logbook.model import Contradiction, Entry, Log
from foamwright.logbook.unlikely import unlikely_entries

if TYPE_CHECKING:
    from foamwright.plane import Plane

SCALE = 0.003  # kg, two readings of a kitchen scale; common practice
SHARE = 0.02  # of a mass, glue and dew between two weighings; assumed
PLACE = 0.006  # m, two readings of the CG on finger tips; common practice
TWIST = 0.02  # rad, two readings of a twist by eye and ruler; assumed
OVERFULL = 1.15  # charge put back over what is printed, charger's losses counted; assumed
SIDES = {"left": "right", "right": "left"}
OPPOSED = {"twitchy": "soggy", "soggy": "twitchy", "tucks under": "pulls out hard",
           "pulls out hard": "tucks under", "drops left": "drops right",
           "drops right": "drops left", "like a brick": "flatter", "flatter": "like a brick",
           **SIDES}  # fmt: skip
LENGTHS = ("cg", "pack position", "tip height right", "tip height left")
CHANGES = ("repair",)  # kinds after which a plane may well be another


def refuse_impossible(plane: Plane, entry: Entry) -> None:
    """Refuse what this plane cannot be: a CG or pack outside it, a mass beyond all reason.

    Args:
        plane: The plane. [-]
        entry: About to be kept. [-]

    Raises:
        DesignError: It cannot be.

    Source:
        Geometry; masses beyond a tenth to ten times the computed one are slips of the unit.

    Example:
        >>> refuse_impossible(plane, entry)  # doctest: +SKIP
    """
    units, length = plane.design.units, plane.design.fuselage.length
    what, value = entry.said.get("what", ""), entry.values.get("value")
    if what in ("cg", "pack position") and value is not None and not 0.0 <= value <= length:
        words = "CG" if what == "cg" else "pack's middle"
        raise DesignError(
            words,
            f"{format_value(value, 'length', units)} aft of the nose",
            f"the plane reaches from 0 to {format_value(length, 'length', units)}",
            "Measure from the nose, at the firewall, aft.",
        )
    mass = entry.values.get("mass")
    if entry.kind == "weighed" and what == "all-up" and mass is not None:
        computed = plane.balance.all_up_mass
        if not 0.1 * computed <= mass <= 10 * computed:
            raise DesignError(
                "all-up",
                format_value(mass, "mass", units),
                f"the design weighs about {format_value(computed, 'mass', units)}",
                "Check the unit.",
            )


def contradictions(log: Log, plane: Plane | None = None) -> tuple[Contradiction, ...]:
    """Pairs of entries that cannot both be right, and entries that cannot be.

    Args:
        log: All entries. [-]
        plane: For capacity and masses; None leaves these out. [-]

    Returns:
        Each with the numbers of its entries. [-]

    Source:
        Tolerances: see the constants.

    Example:
        >>> contradictions(Log())
        ()
    """
    found = [*_repeated(log), *_sum_of_parts(log), *_ticks(log), *_days(log)]
    if plane is not None:
        found += _against_plane(log, plane)
    return tuple(found)


def _between(log: Log, first: Entry, second: Entry) -> bool:
    """Whether something that may have changed the plane stands between two entries."""
    return any(
        entry.kind in CHANGES and first.number < entry.number < second.number
        for entry in log.entries
    )


def _repeated(log: Log) -> Iterator[Contradiction]:
    """The same thing weighed or measured twice, with nothing done between."""
    groups: dict[tuple[str, str], list[Entry]] = {}
    for entry in log.entries:
        if entry.kind in ("weighed", "measured"):
            groups.setdefault((entry.kind, entry.said["what"]), []).append(entry)
    for (kind, what), entries in groups.items():
        key = "mass" if kind == "weighed" else "value"
        for first, second in pairwise(entries):
            one, two = first.values[key], second.values[key]
            allowed = max(SCALE, SHARE * one) if kind == "weighed" else _allowed(what)
            if abs(one - two) > allowed and not _between(log, first, second):
                if what == "cg" and _pack_moved(log, first, second):
                    continue
                yield Contradiction(
                    (first.number, second.number),
                    f"{what}: {first.said[key]} in entry {first.number}, {second.said[key]} "
                    f"in entry "
                    f"{second.number}, and nothing was changed between. Correct the wrong one."
                    f"{_how(second, key)}",
                )


def _how(entry: Entry, key: str) -> str:
    """How a value is put right."""
    line = f" (it begins on line {entry.line})" if entry.line else ""
    return f" To correct entry {entry.number}{line}: foamwright log FILE --correct " + (
        f"'{entry.number}.{key}=...'."
    )


def _allowed(what: str) -> float:
    """Angles as they are read by eye; lengths as with a ruler."""
    return PLACE if what in LENGTHS or what.startswith("throw") else TWIST


def _pack_moved(log: Log, first: Entry, second: Entry) -> bool:
    return any(
        entry.said.get("what") == "pack position" and first.number < entry.number < second.number
        for entry in log.entries
    )


def _sum_of_parts(log: Log) -> Iterator[Contradiction]:
    """Wing, fuselage and tail together cannot weigh more than all."""
    last: dict[str, Entry] = {}
    for entry in log.of("weighed"):
        last[entry.said["what"]] = entry
    whole = last.get("all-up")
    if whole is None:
        return
    for what, entry in last.items():
        if what not in ("all-up", "sheet") and entry.values["mass"] > whole.values["mass"]:
            yield Contradiction(
                (entry.number, whole.number),
                f"{what} weighs {entry.said['mass']} in entry {entry.number}, more than the "
                f"whole plane "
                f"with {whole.said['mass']} in entry {whole.number}.",
            )
    pieces = [last[what] for what in ("wing", "fuselage", "tail", "pack") if what in last]
    together = sum(entry.values["mass"] for entry in pieces)
    if len(pieces) > 1 and together > whole.values["mass"] + SCALE * len(pieces):
        yield Contradiction(
            (*(entry.number for entry in pieces), whole.number),
            f"{', '.join(entry.said['what'] for entry in pieces)} together weigh "
            f"{format_value(together, 'mass')}, more than the whole plane with "
            f"{whole.said['mass']} in entry {whole.number}.",
        )


def _ticks(log: Log) -> Iterator[Contradiction]:
    """Flights that saw the opposite of one another with nothing changed between."""
    flights = log.of("flight")
    for first, second in pairwise(flights):
        touched = any(
            first.number < entry.number < second.number and entry.kind != "flight"
            for entry in log.entries
        )
        trimmed = any(key.startswith("trim_") for key in second.said)
        if touched or trimmed:
            continue
        for key, answer in first.said.items():
            if answer in OPPOSED and second.said.get(key) == OPPOSED[answer]:
                yield Contradiction(
                    (first.number, second.number),
                    f"{key}: '{answer}' in entry {first.number}, '{second.said[key]}' in entry "
                    f"{second.number}, and nothing was changed between.{_how(second, key)}",
                    (key,),
                )


def _days(log: Log) -> Iterator[Contradiction]:
    for first, second in pairwise(log.entries):
        if first.when and second.when and second.when < first.when:
            yield Contradiction(
                (first.number, second.number),
                f"Entry {second.number} is of {second.when}, before entry {first.number} of "
                f"{first.when}.",
            )


def _against_plane(log: Log, plane: Plane) -> Iterator[Contradiction]:
    named: set[int] = set()
    for doubt in _impossible(log, plane):
        named.update(doubt.numbers)
        yield doubt
    rest = (one for one in unlikely_entries(plane, log) if not named.issuperset(one.numbers))
    yield from rest


def _impossible(log: Log, plane: Plane) -> Iterator[Contradiction]:
    capacity = plane.design.pack.capacity
    for entry in log.entries:
        try:
            refuse_impossible(plane, entry)
        except DesignError as error:
            key = "mass" if entry.kind == "weighed" else "value"
            words = f"Entry {entry.number}: {error}{_how(entry, key)}"
            yield Contradiction((entry.number,), words, (key,))
        back = entry.values.get("back")
        if back is not None and back > OVERFULL * capacity:
            yield Contradiction(
                (entry.number,),
                f"Entry {entry.number}: the charger put back {back / 3.6:.0f} mAh, the pack holds "
                f"{capacity / 3.6:.0f} mAh.{_how(entry, 'back')}",
                ("back",),
            )
