"""From entries of the logbook to things seen, each with its error and the state it was seen in."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from foamwright.logbook.doubts import contradictions
from foamwright.logbook.foresight import AS_DRAWN, Set
from foamwright.logbook.model import Entry, Log
from foamwright.logbook.outcomes import LAUNCH, SCALES, SILENT

if TYPE_CHECKING:
    from foamwright.logbook.basis import Basis
    from foamwright.plane import Plane

# One standard deviation of a reading; common practice, no source, unless said.
SCALE_READING = 0.002  # kg, kitchen scale
CG_READING = 0.0025  # m, on finger tips
ANGLE_READING = math.radians(0.6)  # by ruler and eye
TRIM_READING = math.radians(0.8)  # of a trim read off the surface; flights are never quite level
CURRENT_READING = 0.12  # relative, minutes and charge: flights are never all level
GLIDE_READING = 0.10  # relative, distance paced and height guessed
STICK_READING = 0.07  # of the stick's way
PASS_READING = 0.03  # relative, a fly-by that has not yet reached its speed
FULL_STICK = 0.9  # from here on a fly-by counts as at full throttle
ANGLES = {"twist right": ("twist_right", 0.0), "twist left": ("twist_left", 0.0),
          "down thrust": ("down_thrust", 0.0), "right thrust": ("right_thrust", 0.0),
          "wing incidence": ("wing_incidence", 0.0)}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Seen:
    """One thing seen.

    Attributes:
        number: Of the entry.
        key: Of the entry, such as "roll_slow" or "cg".
        said: In the builder's words.
        set: The state it was seen in.
        shown: Name of the number in foresight or of the hidden quantity; "" for ticks.
        value: Read; 0 for ticks. [as shown]
        noise: One standard deviation of the reading; 0 for ticks. [as shown]
        answer: Column of the tick; -1 for readings.
        also: Another state it may have been seen in; None for none.
    """

    number: int
    key: str
    said: str
    set: Set = AS_DRAWN
    shown: str = ""
    value: float = 0.0
    noise: float = 0.0
    answer: int = -1
    also: Set | None = None


@dataclass(frozen=True, slots=True)
class Evidence:
    """All that was seen.

    Attributes:
        seen: In the order of the logbook.
        left_out: Entry numbers that contradict one another and are left out until corrected.
        unused: Keys that no hidden quantity answers for.
    """

    seen: tuple[Seen, ...]
    left_out: tuple[int, ...] = ()
    unused: tuple[str, ...] = ()


def evidence_of(plane: Plane, log: Log, basis: Basis) -> Evidence:
    """Everything in the logbook that says something about what nobody knows.

    Args:
        plane: The plane as drawn. [-]
        log: Its entries. [-]
        basis: The plane's figures. [-]

    Returns:
        Things seen; both sides of a contradiction are left out and named.

    Source:
        Definition.

    Example:
        >>> from foamwright.logbook.basis import basis_of
        >>> from foamwright.logbook.model import Log
        >>> evidence_of(plane, Log(), basis_of(plane)).seen
        ()
    """
    doubted, log = trusted(log, plane)
    seen: list[Seen] = []
    unused: set[str] = set()
    state = AS_DRAWN
    for entry in log.entries:
        state = _changed(plane, state, entry)
        if entry.kind == "flight":
            seen += _flight(entry, basis, state)
            unused |= {key for key in entry.said if key in SILENT}
        else:
            seen += _read(plane, entry, basis, state)
    return Evidence(tuple(seen), tuple(sorted(doubted)), tuple(sorted(unused)))


def trusted(log: Log, plane: Plane) -> tuple[frozenset[int], Log]:
    """A logbook without what is in doubt: whole entries, or single values of them.

    Args:
        log: All entries. [-]
        plane: The plane as drawn. [-]

    Returns:
        Numbers of entries of which something is left out, and the rest. [-]

    Source:
        doubts.py.

    Example:
        >>> from foamwright.logbook.model import Log
        >>> trusted(Log(), plane)[0]
        frozenset()
    """
    doubts = contradictions(log, plane)
    whole = {number for doubt in doubts if not doubt.keys for number in doubt.numbers}
    keys = {(number, key) for doubt in doubts for number in doubt.numbers for key in doubt.keys}
    kept: list[Entry] = []
    for entry in log.entries:
        left = {key for number, key in keys if number == entry.number}
        if entry.number in whole or left & {"mass", "value"}:
            continue
        kept.append(
            replace(
                entry,
                said={key: words for key, words in entry.said.items() if key not in left},
                values={key: value for key, value in entry.values.items() if key not in left},
            )
        )
    return frozenset(whole | {number for number, _ in keys}), Log(tuple(kept), log.notes)


def _changed(plane: Plane, state: Set, entry: Entry) -> Set:
    """The state after an entry that says that something was moved or mended."""
    mass, pack = plane.balance.all_up_mass, plane.train.pack.mass.typical
    if entry.kind == "measured" and entry.said.get("what") == "pack position":
        moved = entry.values["value"] - plane.design.pack.position
        return Set(cg_shift=moved * pack / mass, mass_ratio=state.mass_ratio)
    if entry.kind == "repair" and "mass" in entry.values:
        added = entry.values["mass"] / mass
        arm = entry.values.get("place", plane.balance.cg[0]) - plane.balance.cg[0]
        return Set(cg_shift=state.cg_shift + added * arm, mass_ratio=state.mass_ratio + added)
    return state


def _read(plane: Plane, entry: Entry, basis: Basis, state: Set) -> Iterator[Seen]:
    what, number = entry.said.get("what", ""), entry.number
    words = f"{what} {entry.said.get('mass') or entry.said.get('value', '')}".strip()

    def reading(shown: str, value: float, noise: float) -> Seen:
        return Seen(number, what or entry.kind, words, state, shown, value, noise)

    if entry.kind == "weighed" and what == "all-up":
        mass = entry.values["mass"]
        yield reading("mass", mass / basis.mass - state.mass_ratio, SCALE_READING / basis.mass)
    elif entry.kind == "measured":
        value = entry.values["value"]
        if what == "cg":
            yield reading("cg_aft", value - basis.cg_x - state.cg_shift, CG_READING)
        elif what in ANGLES:
            yield reading(ANGLES[what][0], value - drawn_angle(plane, what), ANGLE_READING)
    elif entry.kind == "heard" and entry.values.get("throttle", 0.0) >= FULL_STICK:
        speed = entry.values.get("airspeed")
        if speed:
            off = math.hypot(entry.values["spread"] / speed, PASS_READING)
            heard = f"fly-by {entry.said['airspeed']}"
            yield Seen(number, "fly-by", heard, state, "top_speed", math.log(speed), off)


def drawn_angle(plane: Plane, what: str) -> float:
    """The angle as it was drawn; washout is trailing edge up, so its twist is negative.

    Args:
        plane: The plane. [-]
        what: As measured. [-]

    Returns:
        [rad]

    Source:
        The design.

    Example:
        >>> drawn_angle(plane, "right thrust") == plane.design.motor.right_thrust
        True
    """
    design = plane.design
    if what.startswith("twist"):
        return -sum(panel.washout for panel in design.wing.panel)
    return {"down thrust": design.motor.down_thrust, "right thrust": design.motor.right_thrust,
            "wing incidence": design.wing.incidence}[what]  # fmt: skip


def _flight(entry: Entry, basis: Basis, state: Set) -> Iterator[Seen]:
    values, said, number = entry.values, entry.said, entry.number
    trimmed = Set(
        aileron=values.get("trim_aileron", 0.0),
        rudder=values.get("trim_rudder", 0.0),
        cg_shift=state.cg_shift,
        mass_ratio=state.mass_ratio,
        wind=values.get("wind", 0.0),
    )
    for key, answer in said.items():
        if key == "launch":
            # Trims found in flight were not set at the first throw.
            thrown = replace(trimmed, aileron=0.0, rudder=0.0)
            yield Seen(number, key, answer, thrown, answer=LAUNCH.index(answer))
        elif key in SCALES:
            column = SCALES[key].answers.index(answer)
            # Whether a roll was seen before or after it was trimmed out, the entry does not say.
            neutral = replace(trimmed, aileron=0.0, rudder=0.0)
            also = neutral if key.startswith("roll") and neutral != trimmed else None
            yield Seen(number, key, answer, trimmed, answer=column, also=also)
    for key in ("trim_elevator", "trim_aileron", "trim_rudder"):
        if key in values and _has(basis, key):
            yield Seen(number, key, said[key], state, key, values[key], TRIM_READING)
    yield from _figures(entry, basis, state)


def _has(basis: Basis, key: str) -> bool:
    """Whether a trim stands alone: with ailerons nobody trims a roll on the rudder."""
    roll = basis.aero.derivatives.roll_aileron
    return {"trim_elevator": True, "trim_aileron": roll != 0.0, "trim_rudder": roll == 0.0}[key]


def _figures(entry: Entry, basis: Basis, state: Set) -> Iterator[Seen]:
    values, said, number = entry.values, entry.said, entry.number
    if values.get("minutes", 0.0) > 0.0 and values.get("back", 0.0) > 0.0:
        mean = values["back"] / values["minutes"]
        words = f"{said['back']} back after {said['minutes']} min"
        yield Seen(number, "back", words, state, "current", math.log(mean), CURRENT_READING)
    if values.get("glide_height", 0.0) > 0.0 and values.get("glide_distance", 0.0) > 0.0:
        ratio = values["glide_distance"] / values["glide_height"]
        off = math.hypot(GLIDE_READING, 0.5 * values.get("wind", 0.0) / basis.level_speed)
        words = f"glide {said['glide_distance']} from {said['glide_height']}"
        yield Seen(number, "glide_distance", words, state, "glide", math.log(ratio), off)
    if "throttle" in values:
        words = f"throttle {said['throttle']}"
        yield Seen(number, "throttle", words, state, "throttle", values["throttle"], STICK_READING)
