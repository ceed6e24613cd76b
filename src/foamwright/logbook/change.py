"""What to change in the next version: learned values as data, what flights and checks ask for."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from foamwright.core.errors import DesignErrors
from foamwright.core.units import format_value, parse
from foamwright.design.change import read_value
from foamwright.design.keys import dimension_at, split
from foamwright.logbook.evidence import trusted
from foamwright.logbook.hidden import ONE_IN_TEN, quantities_of, spreads_of
from foamwright.logbook.naming import key_title
from foamwright.logbook.readout import READOUTS, amount_words, band_words, usual_spread
from foamwright.logbook.verdict import TOLD_BY

if TYPE_CHECKING:
    from foamwright.design.change import Value
    from foamwright.logbook.lesson import Adjustment, Learned, Lesson
    from foamwright.logbook.model import Log
    from foamwright.plane import Plane

type Values = Mapping[str, float | str]

LEAST_MASS, LEAST_CG = 0.01, 0.001  # relative, m: less is not worth writing
WASHOUT = math.radians(1.5)  # what makes unequal twist matter less at the stall; common practice
# Learned quantity -> the adjustment that would see to it, and what to do on the bench.
BUILT = {
    "twist_difference": ("untwist", "take so much out now (bend, warm gently or re-glue); glue "
                         "both halves of a new wing on the same flat table, weighed down, and "
                         "measure both tips before the joint: within 0.5 deg of one another"),
    "tip_mass": ("tip_mass", "hang it up by nose and tail and add so much at the light tip"),
    "right_thrust": ("right_thrust", "measure the motor's angle from above and turn it so much "
                     "back with washers"),
    "down_thrust": ("down_thrust", "measure the motor's angle from the side and turn it so much "
                    "back with washers"),
    "decalage": ("stab_incidence", "measure wing against stab and shim the stab by so much"),
    "cg_aft": ("pack", "balance it again and move the pack until the CG is where it was drawn"),
}  # fmt: skip
DATA = 0.5  # chance from which the cause named first is written as data by its amount alone
CLEAR = 0.5  # of a band's reach by which it must stay clear of zero: 95 % rather than 80
LEADS = 0.3  # chance from which the cause named first is something to do, whatever its amount
# Learned quantity -> those that it may be taken for.
RIVALS = {"twist_difference": ("tip_mass",), "tip_mass": ("twist_difference",)}
NEW_WING = ("twist_difference", "tip_mass")  # of what is made new
NOT_EXCLUDED = 0.05  # chance from which a rival is ruled out on the bench


@dataclass(frozen=True, slots=True)
class NextChange:
    """One change for the next version.

    Attributes:
        kind: "learned" (data), "flown" (asked for by flights), "build" (to do on the bench: no
            figure of the design holds it) or "check" (mends a finding).
        values: Dotted design key -> new value, SI or text. [any]
        words: From what to what.
        reason: Why.
        effect: What is expected of it.
        action: Short stable name of what is done on the bench or at the field; "" for none.
        amount: Of the action. [as the action]
    """

    kind: str
    values: Mapping[str, float | str]
    words: str
    reason: str
    effect: str
    action: str = ""
    amount: float = 0.0


def value_words(plane: Plane, key: str, value: float | str | None) -> str:
    """A design value as the builder would write it.

    Args:
        plane: For its units. [-]
        key: Dotted. [-]
        value: SI or text. [any]

    Returns:
        Words.

    Source:
        Definition.

    Example:
        >>> value_words(plane, "motor.right_thrust", 0.05236)
        '3 deg'
    """
    dimension = dimension_at(split(key))
    if value is None:
        return "left out"
    if dimension is None or isinstance(value, str):
        return f"{value:.3g}" if isinstance(value, float) else str(value)
    return format_value(float(value), dimension, plane.design.units)


def _as_written(plane: Plane, key: str, value: float) -> float:
    """A value with the four digits that a scale shows, in the plane's units; shares as they are."""
    dimension = dimension_at(split(key))
    if dimension is None or dimension == "fraction":
        return value
    if dimension == "length":
        return parse(format_value(value, dimension, plane.design.units), dimension)
    number, unit = format_value(value, dimension, plane.design.units, precise=True).split(" ", 1)
    return parse(f"{float(number):.4g} {unit}", dimension)


def _value_now(plane: Plane, key: str) -> Value:
    """Value of a key; None where a change adds a row that the design does not have yet."""
    try:
        return read_value(plane.design, key)
    except DesignErrors:
        return None


def from_to(plane: Plane, values: Values) -> str:
    """New values of a design, each named for people with its key, and what they are now.

    Args:
        plane: For its values and units. [-]
        values: Dotted key -> new value, SI or text. [any]

    Returns:
        Words.

    Source:
        Definition.

    Example:
        >>> from_to(plane, {"motor.right_thrust": 0.0698132})
        'right thrust of the motor (motor.right_thrust): 2 deg -> 4 deg'
    """
    pieces = [
        f"{key_title(key)} ({key}): {value_words(plane, key, _value_now(plane, key))} -> "
        f"{value_words(plane, key, new)}"
        for key, new in values.items()
    ]
    return ", ".join(pieces)


def learned_changes(plane: Plane, log: Log, lesson: Lesson) -> tuple[NextChange, ...]:
    """Learned values that are sure enough to be written into the design as data.

    Args:
        plane: The plane that was flown. [-]
        log: Its logbook. [-]
        lesson: What it taught. [-]

    Returns:
        Changes of kind "learned".

    Source:
        Medians of the lesson whose band leaves zero out.

    Example:
        >>> from foamwright.logbook.learn import learn
        >>> from foamwright.logbook.model import Log
        >>> learned_changes(plane, Log(), learn(plane, Log()))
        ()
    """
    told = {one.name: one for one in lesson.learned}
    told.update(_led_by(lesson, plane.design.units))
    now, mass = plane.design.learned, plane.balance.all_up_mass
    found: list[NextChange] = list(_weighed_parts(plane, trusted(log, plane)[1]))

    def take(name: str, key: str, value: float) -> None:
        one, value = told[name], _as_written(plane, key, value)
        band = band_words(one.after, one.dimension, plane.design.units)
        found.append(
            NextChange(
                "learned",
                {key: value},
                from_to(plane, {key: value}),
                f"learned: {one.words}",
                f"every figure of the new version counts with it; 80 % sure of {band}",
            )
        )

    if _sure(told.get("mass"), LEAST_MASS):
        take("mass", "learned.mass", round(now.mass + told["mass"].after[1] * mass, 4))
    if _sure(told.get("cg_aft"), LEAST_CG):
        take("cg_aft", "learned.cg", round(now.cg + told["cg_aft"].after[1], 4))
    for name in ("drag", "thrust", "current"):
        if _sure(told.get(name), 0.03):
            factor = getattr(now, name) * (1.0 + told[name].after[1])
            take(name, f"learned.{name}", round(factor, 3))
    if _sure(told.get("throw_speed"), 0.3):
        thrown = plane.flight.launch.throw_speed + told["throw_speed"].after[1]
        take("throw_speed", "pilot.throw_speed", round(thrown, 1))
    return tuple(found)


def _led_by(lesson: Lesson, units: str) -> dict[str, Learned]:
    """The quantity named first, by as much as it is if it is the one thing."""
    first = lesson.causes[0]
    name = TOLD_BY.get(first.name, "")
    known = next((x for x in (*lesson.learned, *lesson.cannot_say) if x.name == name), None)
    if known is None or first.chance < DATA or not lesson.explanations:
        return {}
    ends = [amount_words(abs(end), known.dimension, units) for end in first.amount]
    words = (
        f"{first.title}, named first ({100 * first.chance:.0f} %): {ends[1]} if it is that alone"
    )
    return {name: replace(known, after=first.amount, words=words)}


def _sure(one: Learned | None, least: float) -> bool:
    """Whether a band stays clear of zero by half of what it reaches to either side."""
    if one is None:
        return False
    low, middle, high = one.after
    return abs(middle) >= least and (
        low - CLEAR * (middle - low) > 0.0 or high + CLEAR * (high - middle) < 0.0
    )


def _weighed_parts(plane: Plane, log: Log) -> tuple[NextChange, ...]:
    """A weighed sheet and a weighed pack are data of the design itself."""
    found: list[NextChange] = []
    for what, key in (("sheet", "board.mass"), ("pack", "pack.mass")):
        weighed = log.of("weighed", what)
        if not weighed:
            continue
        value = _as_written(plane, key, weighed[-1].values["mass"])
        before = read_value(plane.design, key)
        if isinstance(before, float) and abs(value / before - 1.0) < LEAST_MASS:
            continue
        values = {key: value}
        found.append(
            NextChange("learned", values, from_to(plane, values),
                       f"learned: the {what} was weighed (entry {weighed[-1].number})",
                       "replaces the figure of stock")
        )  # fmt: skip
    return tuple(found)


def flown_changes(plane: Plane, lesson: Lesson) -> tuple[NextChange, ...]:
    """Changes that the flights ask for: in figures of the design, or to do on the bench.

    Angles and places are for the fuselage and tail that flew: they are kept, a wing is made new.

    Args:
        plane: The plane that was flown. [-]
        lesson: What it taught. [-]

    Returns:
        Changes of kind "flown" and "build".

    Source:
        Adjustments of the lesson, and the cause named first.

    Example:
        >>> from foamwright.logbook.learn import learn
        >>> from foamwright.logbook.model import Log
        >>> flown_changes(plane, learn(plane, Log()))
        ()
    """
    found = [_adjusted(plane, lesson, change) for change in lesson.adjustments]
    stalls = any("stall" in one.keys for one in lesson.explanations)
    if stalls and any(one.action == "untwist" for one in found):
        found += _washout(plane, lesson)
    done = {one.action for one in found}
    found += _first_cause(plane, lesson, done)
    return tuple(found)


def _adjusted(plane: Plane, lesson: Lesson, change: Adjustment) -> NextChange:
    """An adjustment as a figure of the design, or as something to do."""
    values = _values_for(plane, change)
    reason = f"flights: {_because(lesson, change)}"
    words = from_to(plane, values) if values else _to_do(change)
    return NextChange(
        "flown" if values else "build", values or {}, words, reason, _effect(change),
        change.name, change.amount,
    )  # fmt: skip


def _washout(plane: Plane, lesson: Lesson) -> list[NextChange]:
    """Washout where unequal twist made a wing drop and the design has next to none."""
    panels = plane.design.wing.panel
    if sum(panel.washout for panel in panels) >= 0.7 * WASHOUT:
        return []
    key = f"wing.panel.{len(panels) - 1}.washout"
    values = {key: panels[-1].washout + WASHOUT}
    reason = next(one.words for one in lesson.explanations if "stall" in one.keys)
    return [NextChange("flown", values, from_to(plane, values), f"flights: {reason}",
                       _later_stall(plane, values))]  # fmt: skip


def _first_cause(plane: Plane, lesson: Lesson, done: set[str]) -> list[NextChange]:
    """The cause named first where nothing above sees to it, and what tells its rivals from it."""
    first, units = lesson.causes[0], plane.design.units
    lead = TOLD_BY.get(first.name, "")
    if first.chance < LEADS or lead not in BUILT or not lesson.explanations:
        return []
    found: list[NextChange] = []
    if BUILT[lead][0] not in done:
        if not _beyond_care(plane, lead, first.amount):
            return []
        found.append(_alone(lesson, lead, units))
    chances = {TOLD_BY.get(cause.name): cause for cause in lesson.causes}
    for other in RIVALS.get(lead, ()):
        rival, (action, words) = chances[other], BUILT[other]
        if rival.chance >= NOT_EXCLUDED and action not in done and lead in NEW_WING:
            found.append(
                NextChange("build", {}, f"rule out {rival.title} too: {words}",
                           f"flights: {rival.title} is not excluded "
                           f"({100 * rival.chance:.0f} %)",
                           "whichever of the two it was, the new wing is free of both", action)
            )  # fmt: skip
    return found


def _beyond_care(plane: Plane, name: str, amount: tuple[float, float, float]) -> bool:
    """Whether an amount leaves zero out and is more than careful building leaves."""
    readout = next(one for one in READOUTS if one.name == name)
    usual = ONE_IN_TEN * usual_spread(readout, spreads_of(quantities_of(plane)))
    low, middle, high = amount
    return abs(middle) > usual and (low > 0.0 or high < 0.0)


def _alone(lesson: Lesson, lead: str, units: str) -> NextChange:
    """The cause named first, by as much as it would be if it were the one thing."""
    first = lesson.causes[0]
    dimension = next(one.dimension for one in READOUTS if one.name == lead)
    middle = amount_words(first.amount[1], dimension, units)
    action, words = BUILT[lead]
    return NextChange(
        "build", {}, f"{first.title}, {middle} if it is that alone: {words}",
        f"flights: {lesson.verdict}",
        f"what was seen goes with it in {100 * first.chance:.0f} %; measure before and after",
        action,
    )  # fmt: skip


def _values_for(plane: Plane, change: Adjustment) -> Values | None:
    """New design values for an adjustment; None where the design has no figure for it."""
    design = plane.design
    if change.name == "pack":
        return {"pack.position": design.pack.position + change.amount}
    if change.name == "right_thrust":
        return {"motor.right_thrust": design.motor.right_thrust + change.amount}
    if change.name == "down_thrust":
        return {"motor.down_thrust": design.motor.down_thrust + change.amount}
    if change.name == "stab_incidence":
        return {"stab.incidence": design.stab.incidence + change.amount}
    return None


def _to_do(change: Adjustment) -> str:
    words = {
        "untwist": "glue both halves of the new wing on the same flat table, weighed down, and "
        "measure the twist of both tips before the joint: within 0.5 deg of one another",
        "tip_mass": "hang the new plane by nose and tail before the first flight; if it leans, "
        f"{change.words}",
    }
    return words.get(change.name, change.words)


def _later_stall(plane: Plane, values: Values) -> str:
    """What washout does to the place where the stall starts."""
    after = plane.with_values(values).aero.stall_words.rstrip(".")
    return f"stall before: {plane.aero.stall_words.rstrip('.')}; then: {after}"


def _because(lesson: Lesson, change: Adjustment) -> str:
    """The explanation of the question that it helps most."""
    for effect in sorted(change.effects, key=lambda one: one.before - one.after):
        for one in lesson.explanations:
            asked = {"trim" if key == "trim_elevator" else key for key in one.keys}
            if effect.key in asked:
                return one.words
    return change.words


def _effect(change: Adjustment) -> str:
    better = [effect for effect in change.effects if effect.after > effect.before]
    return "; ".join(
        f"{e.question}: good in {100 * e.after:.0f} % (was {100 * e.before:.0f} %)" for e in better
    )
