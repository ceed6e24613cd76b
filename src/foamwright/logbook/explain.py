"""Which unknowns make what was seen: the symptom with each of them taken away."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from foamwright.flight.observations import OBSERVATIONS
from foamwright.logbook.basis import Basis
from foamwright.logbook.causes import CAUSES, PLACE
from foamwright.logbook.evidence import Evidence, Seen
from foamwright.logbook.foresight import Set
from foamwright.logbook.hidden import COLUMN
from foamwright.logbook.infer import Posterior, interval
from foamwright.logbook.lesson import Explanation, RankedCause
from foamwright.logbook.likelihood import shown_in
from foamwright.logbook.makers import Makers, taken_away
from foamwright.logbook.outcomes import SCALES
from foamwright.logbook.readout import READOUTS, Readout, amount_words, band_words, values_of
from foamwright.logbook.verdict import ALIKE, RULED_OUT, SEEN_ALONE, TOLD_BY, cause_words

if TYPE_CHECKING:
    from collections.abc import Sequence

type Array = NDArray[np.float64]

GOOD = {item.key: item.good for item in OBSERVATIONS}
QUESTION = {item.key: item.question for item in OBSERVATIONS}
TRIMS = ("trim_aileron", "trim_rudder", "trim_elevator")
FEELABLE_TRIM = 0.0175  # rad, one degree: less is not worth explaining; assumed
MOSTLY = 0.5  # of a symptom from which the cause named first makes it
ALL = 0.95  # of a symptom, told as all of it
SHARE = 0.2  # of a symptom that makes a quantity worth naming
# Sums that explain better than their parts; parts that a sum holds are not named again.
EXPLAINS = ("twist_difference", "tip_mass", "right_thrust", "down_thrust", "stability", "decalage",
            "drag", "mass", "thrust", "current", "throw_speed", "lift_max")  # fmt: skip


def symptoms_of(evidence: Evidence) -> tuple[Seen, ...]:
    """What was last seen and was not as it should be.

    Args:
        evidence: All that was seen. [-]

    Returns:
        Ticks other than the good one, trims of more than a degree; the latest of each.

    Source:
        Definition.

    Example:
        >>> symptoms_of(Evidence(()))
        ()
    """
    last: dict[str, Seen] = {}
    for one in evidence.seen:
        last[one.key] = one
    ticks = [one for key, one in last.items() if one.answer >= 0 and one.said != GOOD[key]]
    trims = [last[key] for key in TRIMS if key in last and abs(last[key].value) > FEELABLE_TRIM]
    return (*ticks, *trims)


def explanations_of(
    basis: Basis,
    left: Posterior,
    symptoms: Sequence[Seen],
    *,
    units: str,
    causes: Sequence[RankedCause] = (),
    makers: Makers | None = None,
) -> tuple[Explanation, ...]:
    """For every symptom what makes it: the cause named first where it does, else one quantity.

    Args:
        basis: The plane as drawn. [-]
        left: After everything seen. [-]
        symptoms: What was not as it should be. [-]
        units: "metric" or "inch". [-]
        causes: Most likely first. [-]
        makers: What makes the abnormal; None for none. [-]

    Returns:
        Symptoms with the same cause together; those of the cause named first lead.

    Source:
        Difference of foresight at the most likely guess of a cause, and at the mean guess, with
        and without it.

    Example:
        >>> explanations_of(basis, left, (), units="metric")  # doctest: +SKIP
        ()
    """
    led: list[Explanation] = []
    rest = list(symptoms)
    first = next((cause for cause in causes if cause.name != "none"), None)
    if makers is not None and makers.abnormal and first and first.chance >= SEEN_ALONE:
        likely = [c for c in causes if c.name != "none" and c.chance >= RULED_OUT]
        shares = {c.name: [_share(basis, makers, c, one) for one in symptoms] for c in likely}
        group = [
            (one, share)
            for one, share in zip(symptoms, shares[first.name], strict=True)
            if share >= MOSTLY
        ]
        rest = [one for one in symptoms if all(one is not other for other, _ in group)]
        if group:
            places = [row for row, share in enumerate(shares[first.name]) if share >= MOSTLY]
            rivals = [
                c for c in likely
                if c is not first and all(shares[c.name][row] >= MOSTLY for row in places)
            ]  # fmt: skip
            led.append(_led(group, first, rivals, units))
    return (*led, *_by_quantity(basis, left, rest, units))


def _share(basis: Basis, makers: Makers, ranked: RankedCause, one: Seen) -> float:
    """Share of a symptom, beyond the plane as drawn, that goes when a cause is taken away."""
    place = PLACE[ranked.name]
    there = makers.modes[place : place + 1]
    rows = np.concatenate([there, taken_away(there, CAUSES[place]), np.zeros_like(there)])
    shown = _row(one, shown_in(basis, rows, one.also or one.set))
    with_it, without, drawn = (_wrong_way(one, shown[0]) * shown).tolist()
    return (with_it - without) / (with_it - drawn) if with_it > drawn else 0.0


def _led(
    group: Sequence[tuple[Seen, float]],
    first: RankedCause,
    rivals: Sequence[RankedCause],
    units: str,
) -> Explanation:
    """Symptoms of the cause named first; what else may make them stands beside it."""
    quantity = cause_words(first, units)
    seen = "; ".join(dict.fromkeys(_symptom_words(one) for one, _ in group))
    words = f"{seen}: {quantity} ({100 * first.chance:.0f} %)"
    for rival in rivals[:1]:
        words += f", or {cause_words(rival, units)} ({100 * rival.chance:.0f} %)"
        if first.chance < ALIKE * rival.chance:
            words += ", not told apart yet"
    low, _, high = first.amount
    return Explanation(
        name=TOLD_BY[first.name],
        numbers=tuple(dict.fromkeys(one.number for one, _ in group)),
        keys=tuple(one.key for one, _ in group),
        share=min(share for _, share in group),
        words=words,
        sure=not low <= 0.0 <= high,
        quantity=quantity,
    )


def _by_quantity(
    basis: Basis, left: Posterior, symptoms: Sequence[Seen], units: str
) -> tuple[Explanation, ...]:
    """Symptoms by the quantity of the mean guess that makes most of each."""
    mean = (left.weights @ left.samples)[None, :]
    chosen = [readout for readout in READOUTS if readout.name in EXPLAINS]
    without = np.concatenate([mean, *(_without(mean, readout) for readout in chosen)])
    groups: dict[str, list[tuple[Seen, float]]] = {}
    for one in symptoms:
        shown = shown_in(basis, without, one.also or one.set)
        row = _row(one, shown)
        change = (row[0] - row[1:]) * _wrong_way(one, row[0])
        total = float(np.sum(np.maximum(change, 0.0)))
        best = int(np.argmax(change))
        if total <= 0.0 or change[best] < SHARE * total:
            continue
        groups.setdefault(chosen[best].name, []).append((one, float(change[best] / total)))
    found = [_worded(name, group, left, units) for name, group in groups.items()]
    return tuple(sorted(found, key=lambda one: -len(one.numbers)))


def _without(mean: Array, readout: Readout) -> Array:
    row = mean.copy()
    for name in readout.parts:
        row[0, COLUMN[name]] = 0.0
    return row


def _row(one: Seen, shown: Mapping[str, Array]) -> Array:
    if one.key == "launch":
        name = (
            "sink" if one.said == "sank" else "bank" if one.said.startswith("rolled") else "pitch"
        )
        return shown[name]
    return shown[SCALES[one.key].shown if one.key in SCALES else one.shown]


def _wrong_way(one: Seen, value: float) -> float:
    """Sign that makes more of the symptom positive."""
    if one.key == "launch":
        return -1.0 if one.said in ("rolled left", "nosed down") else 1.0
    if one.key in SCALES:
        answers = SCALES[one.key].answers
        return 1.0 if one.answer > answers.index(GOOD[one.key]) else -1.0
    return 1.0 if value >= 0.0 else -1.0


def _worded(name: str, group: list[tuple[Seen, float]], left: Posterior, units: str) -> Explanation:
    readout = next(one for one in READOUTS if one.name == name)
    low, middle, high = interval(values_of(readout, left.samples), left.weights)
    title = readout.title if middle >= 0.0 else readout.opposite
    seen = "; ".join(dict.fromkeys(_symptom_words(one) for one, _ in group))
    share = min(part for _, part in group)
    sure = not low <= 0.0 <= high
    amount = amount_words(middle, readout.dimension, units)
    band = band_words((low, middle, high), readout.dimension, units)
    quantity = f"{title}, {amount} ({band})" if sure else title
    explained = "all" if share >= ALL else f"at least {100 * share:.0f} %"
    words = f"{seen}: {quantity}" if sure else f"{seen}: perhaps {title}, but it may be chance"
    return Explanation(
        name=name,
        numbers=tuple(dict.fromkeys(one.number for one, _ in group)),
        keys=tuple(one.key for one, _ in group),
        share=share,
        words=f"{words}; it makes {explained} of what was seen",
        sure=sure,
        quantity=quantity,
    )


def _symptom_words(one: Seen) -> str:
    if one.key in QUESTION:
        return f"{QUESTION[one.key]} {one.said}".replace(": it ", ": ")
    return f"{one.key.removeprefix('trim_').capitalize()} trim {one.said}"


def state_of(evidence: Evidence) -> Set:
    """As the plane last stood, trims at neutral, calm.

    Args:
        evidence: All that was seen. [-]

    Returns:
        The state.

    Source:
        Definition.

    Example:
        >>> state_of(Evidence(())).mass_ratio
        1.0
    """
    if not evidence.seen:
        return Set()
    last = evidence.seen[-1].set
    return Set(cg_shift=last.cg_shift, mass_ratio=last.mass_ratio)
