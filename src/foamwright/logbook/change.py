"""What to change in the next version: learned values as data, what flights and checks ask for."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from foamwright.checks.changes import changes_for
from foamwright.checks.run import RULES, verdicts
from foamwright.core.errors import DesignErrors, FoamwrightError
from foamwright.core.units import format_value
from foamwright.core.verdicts import GRAVEST_FIRST, Verdict
from foamwright.design.change import read_value
from foamwright.design.keys import dimension_of, owner_of, split
from foamwright.logbook.readout import READOUTS, amount_words
from foamwright.logbook.verdict import TOLD_BY

if TYPE_CHECKING:
    from foamwright.core.verdicts import Change, Check
    from foamwright.design.change import Value
    from foamwright.logbook.lesson import Adjustment, Learned, Lesson
    from foamwright.logbook.model import Log
    from foamwright.plane import Plane

type Values = Mapping[str, float | str]

LEAST_MASS, LEAST_CG = 0.01, 0.001  # relative, m: less is not worth writing
ROUNDS = 14  # findings mended at most
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
LEADS = 0.4  # chance from which the cause named first is something to do, whatever its amount
# Learned quantity -> those that it may be taken for.
RIVALS = {"twist_difference": ("tip_mass",), "tip_mass": ("twist_difference",),
          "cg_aft": ("decalage",), "decalage": ("cg_aft",)}  # fmt: skip


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
    """

    kind: str
    values: Mapping[str, float | str]
    words: str
    reason: str
    effect: str


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
    found = owner_of(split(key))
    dimension = dimension_of(*found) if found else None
    if value is None:
        return "left out"
    if dimension is None or isinstance(value, str):
        return f"{value:.3g}" if isinstance(value, float) else str(value)
    return format_value(float(value), dimension, plane.design.units)


def _value_now(plane: Plane, key: str) -> Value:
    """Value of a key; None where a change adds a row that the design does not have yet."""
    try:
        return read_value(plane.design, key)
    except DesignErrors:
        return None


def _from_to(plane: Plane, values: Values) -> str:
    pieces = [
        f"{key} {value_words(plane, key, _value_now(plane, key))} -> {value_words(plane, key, new)}"
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
    now, mass = plane.design.learned, plane.balance.all_up_mass
    found: list[NextChange] = list(_weighed_parts(plane, log))

    def take(name: str, key: str, value: float) -> None:
        one = told[name]
        low, high = (amount_words(abs(end), one.dimension, plane.design.units)
                     for end in sorted((one.after[0], one.after[2]), key=abs))  # fmt: skip
        found.append(
            NextChange(
                "learned",
                {key: value},
                _from_to(plane, {key: value}),
                f"learned: {one.words}",
                f"every figure of the new version counts with it; 80 % sure of {low} to {high}",
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


def _sure(one: Learned | None, least: float) -> bool:
    if one is None:
        return False
    low, middle, high = one.after
    return (low > 0.0 or high < 0.0) and abs(middle) >= least


def _weighed_parts(plane: Plane, log: Log) -> tuple[NextChange, ...]:
    """A weighed sheet and a weighed pack are data of the design itself."""
    found: list[NextChange] = []
    for what, key in (("sheet", "board.mass"), ("pack", "pack.mass")):
        weighed = log.of("weighed", what)
        if not weighed:
            continue
        value = weighed[-1].values["mass"]
        before = read_value(plane.design, key)
        if isinstance(before, float) and abs(value / before - 1.0) < LEAST_MASS:
            continue
        values = {key: value}
        found.append(
            NextChange("learned", values, _from_to(plane, values),
                       f"learned: the {what} was weighed (entry {weighed[-1].number})",
                       "replaces the figure of stock")
        )  # fmt: skip
    return tuple(found)


def flown_changes(plane: Plane, lesson: Lesson) -> tuple[tuple[NextChange, ...], tuple[str, ...]]:
    """Changes that the flights ask for, and what no figure of the design can hold.

    Angles and places are for the fuselage and tail that flew: they are kept, a wing is made new.

    Args:
        plane: The plane that was flown. [-]
        lesson: What it taught. [-]

    Returns:
        Changes of kind "flown", and words for the builder.

    Source:
        Adjustments of the lesson.

    Example:
        >>> from foamwright.logbook.learn import learn
        >>> from foamwright.logbook.model import Log
        >>> flown_changes(plane, learn(plane, Log()))
        ((), ())
    """
    found: list[NextChange] = []
    remarks: list[str] = []
    built, told = _built_changes(lesson, plane.design.units)
    for change in lesson.adjustments:
        values = _values_for(plane, change)
        if change.name not in told and (values is None or change.name == "untwist"):
            remarks.append(_remark(change))
        if values is None:
            continue
        effect = _later_stall(plane, values) if change.name == "untwist" else _effect(change)
        found.append(
            NextChange("flown", values, _from_to(plane, values),
                       f"flights: {_because(lesson, change)}", effect)
        )  # fmt: skip
    return (*found, *built), tuple(remarks)


def _built_changes(lesson: Lesson, units: str) -> tuple[tuple[NextChange, ...], frozenset[str]]:
    """What was learned and made symptoms, and no other change sees to; their actions."""
    solved = {change.name for change in lesson.adjustments} - {"untwist", "tip_mass"}
    first = lesson.causes[0]
    leads = first.chance >= LEADS and TOLD_BY.get(first.name) in BUILT
    lead = TOLD_BY.get(first.name, "") if leads else ""
    found: list[NextChange] = []
    told: set[str] = set()
    for one in lesson.explanations:
        if not one.sure or one.name not in BUILT or BUILT[one.name][0] in solved:
            continue
        action, words = BUILT[one.name]
        other = one.name != lead and lead in RIVALS.get(one.name, ())
        before = f"only once {first.title} is ruled out: " if other else ""
        seen = one.words.split(f": {one.quantity}")[0]
        found.append(
            NextChange("build", {}, f"{before}{one.quantity}: {words}", f"flights: {one.words}",
                       f"at least {100 * one.share:.0f} % of this goes with it: {seen}")
        )  # fmt: skip
        told.add(action)
    if lead and BUILT[lead][0] not in solved | told:
        found.insert(0, _alone(lesson, lead, units))
        told.add(BUILT[lead][0])
    return tuple(found), frozenset(told)


def _alone(lesson: Lesson, lead: str, units: str) -> NextChange:
    """The cause named first, by as much as it would be if it were the one thing."""
    first = lesson.causes[0]
    dimension = next(one.dimension for one in READOUTS if one.name == lead)
    middle = amount_words(first.amount[1], dimension, units)
    return NextChange(
        "build", {}, f"{first.title}, {middle} if it is that alone: {BUILT[lead][1]}",
        f"flights: {lesson.verdict}",
        f"what was seen goes with it in {100 * first.chance:.0f} %; measure before and after",
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
    last = len(design.wing.panel) - 1
    washout = sum(panel.washout for panel in design.wing.panel)
    if change.name == "untwist" and washout < 0.7 * WASHOUT:
        return {f"wing.panel.{last}.washout": design.wing.panel[last].washout + WASHOUT}
    return None


def _remark(change: Adjustment) -> str:
    words = {
        "untwist": "Glue both halves of the new wing on the same flat table, weighed down, and "
        "measure the twist of both tips before the joint: within 0.5 deg of one another.",
        "tip_mass": "Hang the new plane by nose and tail before the first flight; if it leans, "
        f"{change.words}.",
    }
    return words.get(change.name, f"{change.words[0].upper()}{change.words[1:]}.")


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


def mending_changes(
    plane: Plane, *, progress: Callable[[str, float], None] | None = None
) -> tuple[tuple[NextChange, ...], Plane]:
    """Solved changes for what checks find on a plane, one after another, every check re-run.

    The gravest finding's first change that lowers the number of failing checks, or keeps it with
    fewer close ones, is taken; then the rest are asked again.

    Args:
        plane: The plane as it would be. [-]
        progress: Told a step and how much is done. [-]

    Returns:
        Changes of kind "check", and the plane with them.

    Source:
        foamwright.checks.

    Example:
        >>> mending_changes(plane)[0]
        ()
    """
    found: list[NextChange] = []
    hopeless: set[str] = set()
    for turn in range(ROUNDS):
        checks = verdicts(plane)
        failing = [c for c in checks if c.verdict is Verdict.FAILS and c.id not in hopeless]
        if not failing:
            break
        if progress:
            progress(f"mending {failing[0].title}", turn / ROUNDS)
        taken = _first_that_helps(plane, failing[0], checks)
        if taken is None:
            hopeless.add(failing[0].id)
            continue
        found.append(_mended(plane, failing[0], taken))
        plane = plane.with_values(taken.values)
    return tuple(found), plane


def _score(checks: tuple[Check, ...]) -> tuple[int, ...]:
    return tuple(sum(c.verdict is v for c in checks) for v in GRAVEST_FIRST[:2])


def _first_that_helps(plane: Plane, check: Check, checks: tuple[Check, ...]) -> Change | None:
    rule = next(rule for rule in RULES if rule.id == check.id)
    now = _score(checks)
    for change in changes_for(rule, plane, checks, verdicts=verdicts):
        try:
            if _score(verdicts(plane.with_values(change.values))) < now:
                return change
        except FoamwrightError:
            continue
    return None


def _mended(plane: Plane, check: Check, change: Change) -> NextChange:
    return NextChange(
        "check", change.values, _from_to(plane, change.values),
        f"check: {check.title} fails: {check.why}", change.words,
    )  # fmt: skip
