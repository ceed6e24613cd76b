"""Which unknowns make what was seen: the symptom with each of them taken away."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from foamwright.flight.observations import OBSERVATIONS
from foamwright.logbook.basis import Basis
from foamwright.logbook.evidence import Evidence, Seen
from foamwright.logbook.foresight import Set
from foamwright.logbook.hidden import COLUMN
from foamwright.logbook.infer import Posterior, interval
from foamwright.logbook.lesson import Explanation
from foamwright.logbook.likelihood import shown_in
from foamwright.logbook.outcomes import SCALES
from foamwright.logbook.readout import READOUTS, Readout, amount_words, values_of

if TYPE_CHECKING:
    from collections.abc import Sequence

type Array = NDArray[np.float64]

GOOD = {item.key: item.good for item in OBSERVATIONS}
QUESTION = {item.key: item.question for item in OBSERVATIONS}
TRIMS = ("trim_aileron", "trim_rudder", "trim_elevator")
FEELABLE_TRIM = 0.0175  # rad, one degree: less is not worth explaining; assumed
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
    basis: Basis, left: Posterior, symptoms: Sequence[Seen], *, units: str
) -> tuple[Explanation, ...]:
    """For every symptom the quantities that make it, by what is left when each is taken away.

    Args:
        basis: The plane as drawn. [-]
        left: After everything seen. [-]
        symptoms: What was not as it should be. [-]
        units: "metric" or "inch". [-]

    Returns:
        Symptoms with the same cause together.

    Source:
        Difference of foresight at the mean guess with and without each quantity.

    Example:
        >>> explanations_of(basis, left, (), units="metric")  # doctest: +SKIP
        ()
    """
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
    near, far = (
        amount_words(end, readout.dimension, units) for end in sorted((abs(low), abs(high)))
    )
    amount = amount_words(middle, readout.dimension, units)
    quantity = f"{title}, {amount} ({near} to {far})" if sure else title
    words = f"{seen}: {quantity}" if sure else f"{seen}: perhaps {title}, but it may be chance"
    return Explanation(
        name=name,
        numbers=tuple(dict.fromkeys(one.number for one, _ in group)),
        keys=tuple(one.key for one, _ in group),
        share=share,
        words=f"{words}; at least {100 * share:.0f} % of it",
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
