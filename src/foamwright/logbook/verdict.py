"""The headline of a lesson: which one thing makes what was seen, or which two may."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import numpy as np
from numpy.typing import NDArray

from foamwright.logbook.causes import CAUSES, PLACE, amount_of, odds
from foamwright.logbook.infer import Posterior, interval
from foamwright.logbook.lesson import NextTest, RankedCause
from foamwright.logbook.makers import Makers, before_any
from foamwright.logbook.readout import READOUTS, amount_words, band_words, usual_spread, values_of

type Array = NDArray[np.float64]

ONE_IN_TEN = 1.2816
ALIKE = 1.25  # times the next one's chance from which a cause is named alone
SEEN_ALONE = 0.3  # least chance of the first for it to be named at all
RULED_OUT = 0.05  # chance below which a rival is said not to be it
CHANCE = "chance, or several small things"
# The readout that tells how much of a cause there is.
TOLD_BY = {"twist": "twist_difference", "tip_mass": "tip_mass", "right_thrust": "right_thrust",
           "down_thrust": "down_thrust", "cg": "cg_aft", "incidence": "decalage", "drag": "drag",
           "mass": "mass", "thrust": "thrust", "current": "current",
           "throw": "throw_speed"}  # fmt: skip


def _pair(one: str, other: str) -> frozenset[str]:
    return frozenset((one, other))


# What is easily taken for one another, and what tells them apart; common practice, no source.
APART: Mapping[frozenset[str], str] = {
    _pair("twist", "tip_mass"): "hang it up by nose and tail: only a heavy wing leans; twist "
    "shows against a flat table, and rolls the more the faster it flies",
    _pair("twist", "right_thrust"): "close the throttle: twist rolls on, thrust stops",
    _pair("tip_mass", "right_thrust"): "close the throttle: a heavy wing rolls on, and leans "
    "when hung up by nose and tail",
    _pair("cg", "incidence"): "measure where it balances, then the angle of wing against "
    "stab; at another speed the trim of a wrong angle stays, in a dive let go only the CG changes "
    "how hard it pulls out",
    _pair("cg", "down_thrust"): "close the throttle: the CG's trim stays, the thrust line's "
    "goes",
    _pair("thrust", "down_thrust"): "weigh the pull on the bench; then measure the motor's "
    "angle",
    _pair("drag", "thrust"): "glide with the power off: drag stays, the motor is out of it",
    _pair("drag", "mass"): "weigh it",
}  # fmt: skip


def ranked_causes(left: Posterior, makers: Makers) -> tuple[RankedCause, ...]:
    """Causes, most likely first; "none" leads only where nothing abnormal was noted.

    Args:
        left: After everything seen. [-]
        makers: What makes the abnormal. [-]

    Returns:
        One a cause; without anything abnormal, chances that it is far off.

    Source:
        makers.py; infer.py.

    Example:
        >>> ranked_causes(left, makers)[0].name  # doctest: +SKIP
        'twist'
    """
    seen = bool(makers.abnormal)
    chances = makers.chances if seen else left.causes
    before, order = odds(), np.argsort(-chances, kind="stable").tolist()
    if seen:
        before = before_any()
        if order[0] == PLACE["none"]:
            order[0], order[1] = order[1], order[0]
    return tuple(
        _ranked(
            place,
            left,
            chance=float(chances[place]),
            before=float(before[place]),
            alone=makers.amounts[place] if seen else None,
        )
        for place in order
    )


def _ranked(
    place: int, left: Posterior, *, chance: float, before: float, alone: Array | None
) -> RankedCause:
    cause, seen = CAUSES[place], alone is not None
    if alone is None:
        band = interval(amount_of(cause, left.samples), left.weights)
        middle = float(amount_of(cause, left.modes[place : place + 1])[0])
    else:
        low, middle, high = alone.tolist()
        band = (low, middle, high)
    if cause.wide:
        title = cause.names[0 if middle >= 0.0 else 1]
    else:
        title = CHANCE if seen else cause.title
    return RankedCause(cause.name, title, chance, before, band, f"{title}: {100.0 * chance:.0f} %")


def cause_words(cause: RankedCause, units: str) -> str:
    """A cause with how much of it there is if it is the one thing.

    Args:
        cause: Other than "none". [-]
        units: "metric" or "inch". [-]

    Returns:
        Words.

    Source:
        Definition.

    Example:
        >>> cause_words(cause, "metric")  # doctest: +SKIP
        'left wing heavy, 12 g (8 g to 16 g)'
    """
    readout = next(one for one in READOUTS if one.name == TOLD_BY[cause.name])
    middle = cause.amount[1]
    amount = amount_words(middle, readout.dimension, units)
    return f"{cause.title}, {amount} ({band_words(cause.amount, readout.dimension, units)})"


def says_chance(causes: Sequence[RankedCause], makers: Makers) -> bool:
    """Whether chance makes what was abnormal at least as well as any one fault.

    Args:
        causes: From ranked_causes. [-]
        makers: What makes the abnormal. [-]

    Returns:
        Whether nothing should be changed before it is flown again.

    Source:
        SEEN_ALONE, assumed.

    Example:
        >>> says_chance(causes, makers)  # doctest: +SKIP
        False
    """
    first = max((cause.chance for cause in causes if cause.name != "none"), default=0.0)
    none = next(cause.chance for cause in causes if cause.name == "none")
    return bool(makers.abnormal) and first < SEEN_ALONE and none >= first


def verdict_of(
    causes: Sequence[RankedCause],
    makers: Makers,
    left: Posterior,
    *,
    spreads: Array,
    units: str,
    tests: Sequence[NextTest],
) -> str:
    """One or two sentences on what makes what was seen.

    Args:
        causes: From ranked_causes. [-]
        makers: What makes the abnormal. [-]
        left: After everything seen. [-]
        spreads: Of the quantities before. [as each]
        units: "metric" or "inch". [-]
        tests: What could be done next, best first. [-]

    Returns:
        Words.

    Source:
        Definition.

    Example:
        >>> verdict_of(causes, makers, left, spreads=spreads, units="metric", tests=())
        ... # doctest: +SKIP
    """
    faults = [cause for cause in causes if cause.name != "none"]
    first, second = faults[0], faults[1]
    if not makers.abnormal:
        return (
            "Nothing was noted that the plane as drawn would not show: careful building alone is "
            f"enough (first of the faults: {first.title}, {100 * first.chance:.0f} %)."
        )
    none = next(cause.chance for cause in causes if cause.name == "none")
    if says_chance(causes, makers):
        return (
            f"Cannot say: what was seen may be chance ({100 * none:.0f} %); first of the faults: "
            f"{first.title} ({100 * first.chance:.0f} %). Fly it again before changing anything."
        )
    if first.chance < ALIKE * second.chance:
        return (
            f"Cannot say which: {first.title} ({100 * first.chance:.0f} %) and {second.title} "
            f"({100 * second.chance:.0f} %) explain alike what was seen. To tell them apart: "
            f"{_apart(first, second, tests)}."
        )
    words = f"{first.title} ({100 * first.chance:.0f} %)"
    if none >= first.chance:
        words = f"Perhaps chance ({100 * none:.0f} %); of the faults first {words}"
    else:
        words = f"Most likely {words}"
    words += _amount(first, left, spreads, units=units)
    return f"{words}{_rival(first, faults, tests)}"


def _amount(first: RankedCause, left: Posterior, spreads: Array, *, units: str) -> str:
    """How much, and whether careful building leaves as much."""
    readout = next(one for one in READOUTS if one.name == TOLD_BY[first.name])
    low, _, high = interval(values_of(readout, left.samples), left.weights)
    words = cause_words(first, units).removeprefix(first.title)
    if low <= 0.0 <= high:
        return f"{words} if it is that alone"
    usual = ONE_IN_TEN * usual_spread(readout, spreads)
    extra = "more than" if abs(first.amount[1]) > usual else "no more than"
    return f"{words}, {extra} careful building leaves"


def _rival(first: RankedCause, faults: Sequence[RankedCause], tests: Sequence[NextTest]) -> str:
    """The causes it is easily taken for: one not excluded and how to settle it, others not it."""
    rivals = [one for one in faults[1:] if frozenset((first.name, one.name)) in APART]
    titles = {cause.name: cause.title for cause in CAUSES}
    out = [titles[one.name] for one in rivals if one.chance < RULED_OUT]
    hardly = f"; hardly from {' or '.join(out)}" if out else ""
    if not rivals or rivals[0].chance < RULED_OUT:
        return f"{hardly}."
    near = rivals[0]
    return (
        f"{hardly}. Not excluded: {near.title} ({100 * near.chance:.0f} %); to tell them apart: "
        f"{_apart(first, near, tests)}."
    )


def _apart(first: RankedCause, second: RankedCause, tests: Sequence[NextTest]) -> str:
    known = APART.get(frozenset((first.name, second.name)))
    if known:
        return known
    return tests[0].title if tests else "measure both"
