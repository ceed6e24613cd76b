"""What the logbook teaches about a plane: everything together, ready to be printed."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from foamwright.flight.observations import OBSERVATIONS
from foamwright.logbook.adjust import adjustments_for, guesses_of
from foamwright.logbook.basis import Basis, basis_of
from foamwright.logbook.causes import odds, widths
from foamwright.logbook.doubts import contradictions
from foamwright.logbook.enquire import enquiries_for
from foamwright.logbook.evidence import Evidence, Seen, evidence_of
from foamwright.logbook.explain import explanations_of, state_of, symptoms_of
from foamwright.logbook.hidden import quantities_of, spreads_of
from foamwright.logbook.infer import Posterior, Progress, infer, interval
from foamwright.logbook.lesson import Learned, Lesson, Misfit
from foamwright.logbook.likelihood import all_shown, seen_chances
from foamwright.logbook.makers import makers_of
from foamwright.logbook.model import Log
from foamwright.logbook.outcomes import answers_of
from foamwright.logbook.readout import (
    READOUTS,
    Readout,
    amount_words,
    band_words,
    usual_reach,
    values_of,
)
from foamwright.logbook.verdict import ranked_causes, says_chance, verdict_of

if TYPE_CHECKING:
    from foamwright.plane import Plane

type Array = NDArray[np.float64]

# Share of the width before that must go before anything is said: one fault named leaves the rest
# careful, which alone takes up to half of it.
TELLING = 0.5
# What would tell a quantity that flights alone seldom do; common practice, no source.
TELLS = {
    "twist_difference": "measure both tips against the root",
    "twist_right": "measure that tip against the root",
    "twist_left": "measure that tip against the root",
    "tip_mass": "hang it up by nose and tail",
    "right_thrust": "measure the motor's angle from above",
    "down_thrust": "measure the motor's angle from the side",
    "cg_aft": "find where it balances",
    "stability": "the dive test",
    "decalage": "measure wing against stab",
    "drag": "pace a glide from a known height",
    "mass": "weigh it",
    "thrust": "weigh the pull on the bench",
    "current": "note minutes and charge put back",
    "throw_speed": "note what the launch did",
}
UNLIKELY = 0.04  # chance below which what was seen does not fit the rest
FAR = 2.6  # standard deviations of a reading, same


def learn(plane: Plane, log: Log, *, progress: Progress | None = None) -> Lesson:
    """What the flights, weighings and readings of a plane tell, what they cannot, and what to do.

    Args:
        plane: The plane as drawn, bench readings taken in. [-]
        log: Its logbook. [-]
        progress: Told a step and how much is done; None for silence. [-]

    Returns:
        The lesson.

    Raises:
        ModelError: The plane cannot be trimmed: nothing can be foreseen of it.

    Valid:
        As foresight.py: attached flow, small angles, one pilot's judgement.

    Source:
        Bayes's rule through the model of the plane; infer.py.

    Example:
        >>> learn(plane, Log()).causes[0].name
        'none'
    """
    basis = basis_of(plane)
    quantities = quantities_of(plane)
    spreads = spreads_of(quantities)
    evidence = evidence_of(plane, log, basis)
    left = infer(basis, evidence.seen, spreads=spreads, progress=progress)
    units = plane.design.units
    scales = widths(basis, spreads) * spreads
    told = [
        _learned(readout, left, usual_reach(readout, scales, odds()), units=units)
        for readout in READOUTS
    ]
    makers = makers_of(basis, evidence, spreads=spreads)
    causes = ranked_causes(left, makers)
    tests = enquiries_for(basis, left, spreads=spreads, makers=makers)
    symptoms = symptoms_of(evidence)
    explained = explanations_of(basis, left, symptoms, units=units, causes=causes, makers=makers)
    return Lesson(
        learned=tuple(sorted((x for x in told if x.told >= TELLING), key=lambda x: -x.told)),
        cannot_say=tuple(x for x in told if x.told < TELLING),
        causes=causes,
        verdict=verdict_of(causes, makers, left, spreads=spreads, units=units, tests=tests)
        if evidence.seen
        else "The logbook holds nothing yet that tells about the plane.",
        explanations=explained,
        tests=tests,
        adjustments=()
        if says_chance(causes, makers)
        else adjustments_for(
            plane,
            basis,
            guesses_of(left, makers.guesses),
            state=state_of(evidence),
            symptoms=symptoms,
            lead=causes[0].name if makers.abnormal else "",
        ),
        contradictions=contradictions(log, plane),
        misfits=tuple(_misfits(basis, evidence, left)),
        notes=tuple(_notes(evidence, left, plane)),
    )


def _learned(readout: Readout, left: Posterior, half: float, *, units: str) -> Learned:
    low, middle, high = interval(values_of(readout, left.samples), left.weights)
    told = max(1.0 - (high - low) / (2.0 * half), 0.0)
    if low > 0.0 or high < 0.0:
        told = max(told, TELLING)  # its place moved, even where its width did not shrink
    return Learned(
        name=readout.name,
        title=readout.title,
        dimension=readout.dimension,
        before=(-half, 0.0, half),
        after=(low, middle, high),
        told=told,
        words=_quantity_words(readout, (low, middle, high), told=told, units=units),
        ask=TELLS.get(readout.name, "") if told < TELLING else "",
    )


def _quantity_words(
    readout: Readout, band: tuple[float, float, float], *, told: float, units: str
) -> str:
    low, middle, high = band
    if told < TELLING:
        return f"{readout.title}: cannot say from what was seen"
    if low <= 0.0 <= high:
        ends = [amount_words(end, readout.dimension, units) for end in (low, high)]
        return f"{readout.title}: between {_minus(low)}{ends[0]} and {ends[1]}, so perhaps nothing"
    title = readout.title if middle > 0.0 else readout.opposite
    amount = amount_words(middle, readout.dimension, units)
    return f"{title}: {amount} ({band_words(band, readout.dimension, units)})"


def _minus(value: float) -> str:
    return "-" if value < 0.0 else ""


def _misfits(basis: Basis, evidence: Evidence, left: Posterior) -> list[Misfit]:
    """Things seen that the posterior itself finds unlikely."""
    found: list[Misfit] = []
    top = np.argsort(-left.weights)[:1500]
    samples, weights = left.samples[top], left.weights[top] / left.weights[top].sum()
    everything = all_shown(basis, samples, evidence.seen)
    questions = {item.key: item.question for item in OBSERVATIONS}
    for one in evidence.seen:
        if one.answer >= 0:
            chances = weights @ seen_chances(one, everything)
            if chances[one.answer] < UNLIKELY:
                best = answers_of(one.key)[int(np.argmax(chances))]
                found.append(
                    Misfit(one.number, f"{questions[one.key]} '{one.said}' (entry {one.number}): "
                           f"the rest makes '{best}' likely. A gust, or the wrong box?")
                )  # fmt: skip
        elif _far(one, everything[one.set], weights):
            found.append(
                Misfit(one.number, f"{one.said} (entry {one.number}) lies far from what the rest "
                       "makes likely. Measure again.")
            )  # fmt: skip
    return found


def _far(one: Seen, shown: dict[str, Array], weights: Array) -> bool:
    number = shown[one.shown]
    mean = float(weights @ number)
    spread = float(np.sqrt(weights @ (number - mean) ** 2 + one.noise**2))
    return abs(one.value - mean) > FAR * spread


def _notes(evidence: Evidence, left: Posterior, plane: Plane) -> list[str]:
    notes = [
        "Bands hold the truth in about 80 % of planes like this; see docs/physics/learning.md."
    ]
    if evidence.left_out:
        numbers = ", ".join(str(number) for number in evidence.left_out)
        notes.append(
            f"Left out, whole or in part, until corrected or confirmed: entries {numbers}."
        )
    if evidence.unused:
        names = ", ".join(evidence.unused)
        notes.append(f"Not used, as nothing unknown here answers for it: {names}.")
    if not left.settled or left.effective < 200.0:
        notes.append(
            f"The answer is rough: {left.effective:.0f} samples carry it. More flights will help."
        )
    if plane.learnt is not None:
        notes.append("Bench readings are taken in: thrust and current start from them.")
    return notes
