"""Values far outside what the design and its board can give: doubted until they are confirmed."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

from foamwright.core.units import format_value
from foamwright.logbook.causes import CG_SHARE, SHARES
from foamwright.logbook.model import Contradiction, Entry, Log

if TYPE_CHECKING:
    from foamwright.plane import Plane

MANY = 2.5  # times how far a fault of builders' size is off, beyond which a value is doubted
AGAIN = 0.05  # relative: a second reading as near as that confirms the first
COMES_TO = 0.15  # relative: parts weighed by themselves that come so near to the whole confirm it
STOCK = 0.6  # relative: a sheet or a pack is never so far from what its design says; assumed
# rad: no built angle, twist beyond the drawn one, or trim is larger; assumed.
ANGLE, TRIM, THROW = math.radians(10.0), math.radians(25.0), math.radians(60.0)
THROW_LENGTH = 0.08  # m at a trailing edge; assumed
TIMES = 3.0  # as long, as far, as fast or as much current as was computed, or a third; assumed
WINDIEST = 20.0  # m/s, gale: nobody flies foam
PARTS = ("wing", "fuselage", "tail", "pack")


@dataclass(frozen=True, slots=True)
class Expected:
    """What a value of an entry should be near.

    Attributes:
        key: Of the entry.
        name: Of the thing, for people.
        middle: As computed or drawn. [as the value]
        low: Lowest that is not doubted. [as the value]
        high: Highest. [as the value]
        dimension: "mass", "length", "angle", "speed"; words are told as said for others.
        confirm: What would confirm it.
    """

    key: str
    name: str
    middle: float
    low: float
    high: float
    dimension: str
    confirm: str


def unlikely_entries(plane: Plane, log: Log) -> Iterator[Contradiction]:
    """Values that neither the design, its board nor a fault as builders meet it can give.

    Args:
        plane: The plane as drawn. [-]
        log: All entries. [-]

    Returns:
        One a value that nothing confirms; only that value is left out. [-]

    Source:
        MANY and the other constants, assumed.

    Example:
        >>> list(unlikely_entries(plane, Log()))
        []
    """
    for entry in log.entries:
        for one in _expected(plane, log, entry):
            value = _value(entry, one.key)
            if value is None or one.low <= value <= one.high:
                continue
            if not _confirmed(log, entry, one.key, value):
                yield Contradiction((entry.number,), _words(plane, entry, one), (one.key,))


def _value(entry: Entry, key: str) -> float | None:
    values = entry.values
    if key == "back" and values.get("minutes", 0.0) > 0.0 and "back" in values:
        return values["back"] / values["minutes"]
    if key == "glide_distance" and values.get("glide_height", 0.0) > 0.0 and key in values:
        return values[key] / values["glide_height"]
    return None if key in ("back", "glide_distance") else values.get(key)


def _confirmed(log: Log, entry: Entry, key: str, value: float) -> bool:
    """Whether it was read once more, or parts weighed by themselves come to it."""
    alike = (
        other
        for other in log.of(entry.kind, entry.said.get("what", ""))
        if other.number != entry.number
    )
    for other in alike:
        second = _value(other, key)
        if second is not None and abs(second - value) <= AGAIN * abs(value):
            return True
    if entry.kind == "weighed" and entry.said.get("what") == "all-up":
        masses = {what: log.of("weighed", what)[-1].values["mass"]
                  for what in PARTS if log.of("weighed", what)}  # fmt: skip
        if len(masses) >= 2 and "wing" in masses and "fuselage" in masses:
            return abs(sum(masses.values()) - value) <= COMES_TO * value
    return False


def _expected(plane: Plane, log: Log, entry: Entry) -> Iterator[Expected]:
    what = entry.said.get("what", "")
    if entry.kind == "weighed":
        yield from _weighed(plane, what)
    elif entry.kind == "measured":
        yield from _measured(plane, log, entry, what)
    elif entry.kind == "flight":
        yield from _flown(plane)
    elif entry.kind == "heard":
        top = plane.flight.performance.top_speed
        yield Expected("airspeed", "airspeed of the fly-by", top, top / TIMES, top * TIMES, "speed",
                       "record it once more")  # fmt: skip


def _weighed(plane: Plane, what: str) -> Iterator[Expected]:
    again = "weigh it once more"
    if what == "all-up":
        mass, share = plane.balance.all_up_mass, MANY * SHARES["mass"]
        yield Expected("mass", "all-up", mass, mass * (1.0 - share), mass * (1.0 + share), "mass",
                       f"{again}, or weigh {', '.join(PARTS)} by themselves")  # fmt: skip
    elif what in ("sheet", "pack"):
        mass = plane.design.board.mass if what == "sheet" else plane.train.pack.mass.typical
        if mass:
            yield Expected("mass", what, mass, mass * (1.0 - STOCK), mass * (1.0 + STOCK), "mass",
                           again)  # fmt: skip


def _measured(plane: Plane, log: Log, entry: Entry, what: str) -> Iterator[Expected]:
    again = "measure it once more"
    if what == "cg":
        reach = MANY * CG_SHARE * plane.aero.mean_chord
        place = plane.balance.cg[0] + _pack_moved(plane, log, entry)
        yield Expected("value", "CG", place, place - reach, place + reach, "length", again)
    elif what.startswith("throw"):
        limit = THROW if entry.values["value"] and _is_angle(entry) else THROW_LENGTH
        yield Expected("value", what, 0.0, -limit, limit,
                       "angle" if limit == THROW else "length", again)  # fmt: skip
    elif what.startswith("tip height"):
        reach = 0.25 * plane.aero.span
        yield Expected("value", what, 0.0, -reach, reach, "length", again)
    elif what != "pack position":
        drawn = _drawn(plane, what)
        yield Expected("value", what, drawn, drawn - ANGLE, drawn + ANGLE, "angle", again)


def _drawn(plane: Plane, what: str) -> float:
    """Angle as drawn; washout is trailing edge up, so its twist is negative."""
    design = plane.design
    twist = -sum(panel.washout for panel in design.wing.panel)
    return {"down thrust": design.motor.down_thrust, "right thrust": design.motor.right_thrust,
            "wing incidence": design.wing.incidence}.get(what, twist)  # fmt: skip


def _is_angle(entry: Entry) -> bool:
    return "deg" in entry.said["value"] or "rad" in entry.said["value"]


def _pack_moved(plane: Plane, log: Log, entry: Entry) -> float:
    """Shift of the CG by the pack, as last measured before an entry."""
    before = [e for e in log.of("measured", "pack position") if e.number < entry.number]
    if not before:
        return 0.0
    moved = before[-1].values["value"] - plane.design.pack.position
    return moved * plane.train.pack.mass.typical / plane.balance.all_up_mass


def _flown(plane: Plane) -> Iterator[Expected]:
    flown, again = plane.flight.performance, "note it once more"
    longest = TIMES * max(flown.endurance, plane.design.pack.capacity / flown.level_current)
    yield Expected("minutes", "time in the air", flown.endurance, 0.0, longest, "time", again)
    current, most = flown.level_current, 1.5 * plane.power.full_throttle_current
    yield Expected("back", "charge put back over the time in the air", current, current / TIMES,
                   most, "current", again)  # fmt: skip
    ratio = flown.glide_ratio
    yield Expected("glide_distance", "glide over its height", ratio, ratio / TIMES, TIMES * ratio,
                   "", again)  # fmt: skip
    yield Expected("wind", "wind", 0.0, 0.0, WINDIEST, "speed", again)
    for name in ("elevator", "aileron", "rudder"):
        yield Expected(f"trim_{name}", f"{name} trim", 0.0, -TRIM, TRIM, "angle", again)


def _words(plane: Plane, entry: Entry, one: Expected) -> str:
    def told(value: float) -> str:
        if one.dimension == "time":
            return f"{value / 60.0:.0f} min"
        if one.dimension == "current":
            return f"{value:.2g} A"
        if not one.dimension:
            return f"{value:.1f}"
        return format_value(value, one.dimension, plane.design.units)

    said = entry.said[one.key]
    if one.key == "back":
        said = f"{said} in {entry.said['minutes']} min"
    elif one.key == "glide_distance":
        said = f"{said} from {entry.said['glide_height']}"
    line = f", line {entry.line} of the logbook" if entry.line else ""
    return (
        f"{one.name} {said} (entry {entry.number}{line}) is far from what the design, its board "
        f"and a fault of the usual size can give: {told(one.low)} to {told(one.high)}, about "
        f"{told(one.middle)}. It is left out until you confirm or correct it. If it is right, "
        f"{one.confirm}; if not: foamwright log FILE --correct '{entry.number}.{one.key}=...'."
    )
