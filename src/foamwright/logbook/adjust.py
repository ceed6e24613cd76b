"""What to change on the plane now, solved so that the test card comes out good."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from foamwright.flight.observations import OBSERVATIONS
from foamwright.logbook.actions import Action, actions_of
from foamwright.logbook.basis import Basis
from foamwright.logbook.evidence import Seen
from foamwright.logbook.foresight import Set
from foamwright.logbook.hidden import COLUMN
from foamwright.logbook.infer import Posterior
from foamwright.logbook.lesson import Adjustment, Effect
from foamwright.logbook.likelihood import shown_in
from foamwright.logbook.outcomes import answers_of, needs_of, tick_chances

if TYPE_CHECKING:
    from foamwright.plane import Plane

type Array = NDArray[np.float64]

JUDGED = ("launch", "roll_slow", "roll_fast", "roll_glide", "yaw_power", "power_on", "power_off",
          "dive_test", "pitch_feel", "stall")  # fmt: skip
NEEDED = frozenset({"trim_elevator", *(name for key in JUDGED for name in needs_of(key))})
SINKS = ("throw", "throttle")  # actions that change how deep a throw sinks
GOOD = {item.key: item.good for item in OBSERVATIONS}
QUESTION = {item.key: item.question for item in OBSERVATIONS}
TRIM = "trim"  # pseudo question: the elevator's trim stays small
SMALL_TRIM = 0.052  # rad, three degrees: what a linkage takes without losing throw; assumed
FEW = 250  # samples that are enough to judge a change
ONE_THING = 0.8  # of planes that show something have one thing off; assumed
# Cause -> the action that takes it away rather than what it does.
CURES = {"twist": "untwist", "tip_mass": "tip_mass", "right_thrust": "right_thrust",
         "down_thrust": "down_thrust", "cg": "pack", "incidence": "stab_incidence",
         "thrust": "throttle", "throw": "throw"}  # fmt: skip
LAST = ("throttle",)  # actions that only hide a fault, unless it is their own
NEARLY = 0.7  # of the best action's gain from which the cure of the cause named first is taken
# Least gain in the number of good answers that is worth a first and a further change; assumed.
WORTH, FURTHER = 0.10, 0.25
SLIGHT = 0.02  # of a good answer that a larger amount must add to be taken; assumed
BELIEVED = 0.6  # chance of the good answer from which a symptom was a stray tick; assumed
TOLD = 0.05  # change of a chance that is told
MOST = 3


def good_chances(
    basis: Basis, hidden: Array, *, state: Set, sink: Array | None = None
) -> dict[str, Array]:
    """Chance of the good answer to every question that a change could move, guess by guess.

    Args:
        basis: The plane as drawn. [-]
        hidden: Guesses, one a row. [as hidden.py]
        state: Trims, pack, repairs, wind. [-]
        sink: Of the throw, where it is known already; None works it out. [-]

    Returns:
        Key -> one chance a guess. [-]

    Source:
        outcomes.py.

    Example:
        >>> from foamwright.logbook.basis import basis_of
        >>> float(good_chances(basis_of(plane), np.zeros((1, 18)), state=Set())["stall"][0]) > 0.5
        True
    """
    shown = shown_in(basis, hidden, state, wanted=NEEDED, sink=sink)
    found = {key: tick_chances(key, shown)[:, answers_of(key).index(GOOD[key])] for key in JUDGED}
    found[TRIM] = (np.abs(shown["trim_elevator"]) < SMALL_TRIM).astype(float)
    return found


def adjustments_for(
    plane: Plane,
    basis: Basis,
    guesses: Array,
    *,
    state: Set,
    symptoms: Sequence[Seen],
    lead: str = "",
) -> tuple[Adjustment, ...]:
    """Changes that make the test card come out better, found one after another.

    The action and amount that add most good answers to what was seen, less what others would lose,
    are taken (the smallest amount that is as good); then the rest are asked again, and at the end
    each amount once more with the others in place.

    Args:
        plane: The plane. [-]
        basis: Its figures. [-]
        guesses: What the plane may be like, all as likely, one a row. [as hidden.py]
        state: As it last flew, trims at neutral. [-]
        symptoms: What was seen and was not good: only this is worth mending. [-]
        lead: Cause named first, whose own cure goes before others that do nearly as well. [-]

    Returns:
        At most three; none without symptoms.

    Source:
        Expected share of good answers over the posterior.

    Example:
        >>> adjustments_for(plane, basis, guesses, state=Set(), symptoms=())  # doctest: +SKIP
    """
    hidden, now = guesses, _means(basis, guesses, state)
    asked = frozenset(
        key
        for one in symptoms
        for key in questions_of(one.key)
        if key != TRIM or abs(one.value) > SMALL_TRIM
    )
    wanted = frozenset(key for key in asked if now.get(key, 1.0) < BELIEVED)
    if not wanted:
        return ()
    aim = Aim(state, wanted, CURES.get(lead, ""))
    offered = [a for a in actions_of(plane, basis) if a.name not in LAST or a.name == aim.cure]
    chosen = _chosen(offered, basis, hidden, aim)
    found: list[Adjustment] = []
    for action, amount in chosen:
        hidden = moved(hidden, action, amount)
        after = _means(basis, hidden, state)
        effects = tuple(
            Effect(key, QUESTION.get(key, "Elevator trim stays small"), now[key], after[key])
            for key in now
            if abs(after[key] - now[key]) >= TOLD
        )
        found.append(Adjustment(action.name, amount, action.words(amount), effects))
        now = after
    return tuple(found)


def _means(basis: Basis, hidden: Array, state: Set) -> dict[str, float]:
    return {k: float(v.mean()) for k, v in good_chances(basis, hidden, state=state).items()}


@dataclass(frozen=True, slots=True)
class Aim:
    """What actions are to reach.

    Attributes:
        state: As it last flew, trims at neutral.
        wanted: Questions that are to turn good.
        cure: Action that goes before others that do nearly as well; "" for none.
    """

    state: Set
    wanted: frozenset[str]
    cure: str


def _chosen(
    actions: list[Action], basis: Basis, hidden: Array, aim: Aim
) -> list[tuple[Action, float]]:
    """Actions one after another, then each amount once more with the others in place."""
    chosen: list[tuple[Action, float]] = []
    while actions and len(chosen) < MOST:
        best = _best(actions, basis, hidden, aim, worth=FURTHER if chosen else WORTH)
        if best is None:
            break
        action, amount = best
        hidden = moved(hidden, action, amount)
        actions.remove(action)
        chosen.append((action, amount))
    for place, (action, amount) in enumerate(chosen[:-1]):
        without = moved(hidden, action, -amount)
        best = _best([action], basis, without, aim, worth=WORTH)
        again = 0.0 if best is None else best[1]
        chosen[place] = (action, again)
        hidden = moved(without, action, again)
    return [(action, amount) for action, amount in chosen if amount]


def questions_of(key: str) -> tuple[str, ...]:
    """Questions that a symptom stands for: a roll trim is a roll at all speeds.

    Args:
        key: Of the symptom. [-]

    Returns:
        Keys of questions.

    Source:
        Definition.

    Example:
        >>> questions_of("stall")
        ('stall',)
    """
    if key in ("trim_aileron", "trim_rudder"):
        return ("roll_slow", "roll_fast", "roll_glide")
    return (TRIM,) if key == "trim_elevator" else (key,)


def guesses_of(left: Posterior, single: Array) -> Array:
    """What a plane may be like: mostly one thing off, for the rest anything that is left.

    Args:
        left: After everything seen. [-]
        single: Guesses with one thing off, from makers.py; may have no rows. [as hidden.py]

    Returns:
        All as likely, one a row. [as hidden.py]

    Source:
        Definition; the share is assumed.

    Example:
        >>> guesses_of(left, makers.guesses).shape[1]  # doctest: +SKIP
        18
    """
    generator = np.random.default_rng(7)
    few = FEW if not len(single) else round(len(single) * (1.0 - ONE_THING) / ONE_THING)
    picked = left.samples[generator.choice(len(left.weights), few, p=left.weights)]
    return np.concatenate([single, picked])


def moved(hidden: Array, action: Action, amount: float) -> Array:
    """Guesses after an action.

    Args:
        hidden: Guesses, one a row. [as hidden.py]
        action: What is changed. [-]
        amount: How much. [as the action]

    Returns:
        Guesses, one a row. [as hidden.py]

    Source:
        Definition.

    Example:
        >>> from foamwright.logbook.basis import basis_of
        >>> right = actions_of(plane, basis_of(plane))[1]
        >>> float(moved(np.zeros((1, 18)), right, 0.1)[0, COLUMN["right_thrust"]])
        0.1
    """
    after = hidden.copy()
    for name, factor in action.parts.items():
        after[:, COLUMN[name]] += factor * amount
    return after


def _best(
    actions: list[Action], basis: Basis, hidden: Array, aim: Aim, *, worth: float
) -> tuple[Action, float] | None:
    """The action and amount that gain most; None where nothing is worth the work."""
    choices = [(a, v) for a in actions for v in a.amounts.tolist() if abs(v) > 1e-12]
    total = _gains(choices, basis, hidden, aim)
    if not choices or total.max() < worth:
        return None
    top = choices[int(np.argmax(total))][0]
    own = np.array([a.name == aim.cure for a, _ in choices])
    if own.any() and total[own].max() >= max(NEARLY * total.max(), worth):
        top = next(a for a in actions if a.name == aim.cure)
    mine = np.array([a is top for a, _ in choices])
    # The smallest amount that does as well.
    near = mine & (total >= total[mine].max() - SLIGHT)
    row = min((abs(choices[row][1]), row) for row in np.flatnonzero(near).tolist())[1]
    return top, choices[row][1]


def _gains(choices: list[tuple[Action, float]], basis: Basis, hidden: Array, aim: Aim) -> Array:
    """Good answers that each choice adds to what was seen, less what others would lose."""
    sink = shown_in(basis, hidden, aim.state, wanted=("sink",))["sink"]
    now = _means(basis, hidden, aim.state)
    means = np.zeros((len(choices), len(now)))
    for sinks in (True, False):
        rows = [row for row, (a, _) in enumerate(choices) if (a.name in SINKS) == sinks]
        if not rows:
            continue
        everything = np.concatenate([moved(hidden, *choices[row]) for row in rows])
        known = None if sinks else np.tile(sink, len(rows))
        chances = good_chances(basis, everything, state=aim.state, sink=known)
        for column, key in enumerate(now):
            means[rows, column] = chances[key].reshape(len(rows), -1).mean(axis=1)
    gains = means - np.array(list(now.values()))
    sought = np.array([key in aim.wanted for key in now])
    # What was seen is to be mended; what was not seen counts only where it would get worse.
    return np.asarray(
        gains[:, sought].sum(axis=1) + np.minimum(gains[:, ~sought], 0.0).sum(axis=1),
        dtype=np.float64,
    )
