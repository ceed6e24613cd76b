"""Likelihood of everything seen, for many guesses at once, and its slopes."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from foamwright.logbook.basis import Basis
from foamwright.logbook.causes import within_possible
from foamwright.logbook.evidence import Seen
from foamwright.logbook.foresight import AS_DRAWN, Set, foresee
from foamwright.logbook.hidden import COLUMN
from foamwright.logbook.launch_foresight import foresee_launch
from foamwright.logbook.outcomes import needs_of, reading_chance, tick_chances, with_told

type Array = NDArray[np.float64]

NUDGE = 0.02  # of a spread, for slopes
LAUNCHED = frozenset({"sink", "bank", "pitch"})
LEAST = 1e-300  # keeps a logarithm finite


def shown_in(
    basis: Basis,
    hidden: Array,
    state: Set = AS_DRAWN,
    *,
    wanted: Collection[str] | None = None,
    sink: Array | None = None,
) -> dict[str, Array]:
    """Everything that guesses would show in one state, hidden quantities themselves in.

    Args:
        basis: The plane as drawn. [-]
        hidden: Guesses, one a row. [as hidden.py]
        state: Trims, pack moved, repairs, wind. [-]
        wanted: Only these names; None for all. [-]
        sink: Of the throw, where it is known already; None works it out. [-]

    Returns:
        Name -> one value a guess. [any]

    Source:
        foresight.py, launch_foresight.py.

    Example:
        >>> from foamwright.logbook.basis import basis_of
        >>> "sink" in shown_in(basis_of(plane), np.zeros((1, 18)))
        True
    """
    moved = within_possible(hidden)
    if state.cg_shift or state.mass_ratio != 1.0:
        moved = moved.copy()
        moved[:, COLUMN["cg_aft"]] += state.cg_shift
        moved[:, COLUMN["mass"]] += state.mass_ratio - 1.0
    shown = with_told(basis, foresee(basis, moved, state, wanted=wanted))
    if wanted is None or not LAUNCHED.isdisjoint(wanted):
        shown.update(foresee_launch(basis, moved, state, sink=sink))
    shown.update({name: hidden[:, column] for name, column in COLUMN.items()})
    return shown


def all_shown(basis: Basis, hidden: Array, seen: Sequence[Seen]) -> dict[Set, dict[str, Array]]:
    """What guesses would show in every state that something was seen in.

    Args:
        basis: The plane as drawn. [-]
        hidden: Guesses, one a row. [as hidden.py]
        seen: Things seen. [-]

    Returns:
        State -> name -> one value a guess. [any]

    Source:
        Definition.

    Example:
        >>> from foamwright.logbook.basis import basis_of
        >>> all_shown(basis_of(plane), np.zeros((1, 18)), ())
        {}
    """
    states: dict[Set, set[str]] = {}
    for one in seen:
        needed = needs_of(one.key, one.shown)
        for state in (one.set, one.also):
            if state is not None:
                states.setdefault(state, set()).update(needed)
    return {state: shown_in(basis, hidden, state, wanted=names) for state, names in states.items()}


def log_likelihood(basis: Basis, hidden: Array, seen: Sequence[Seen]) -> Array:
    """Log-likelihood of everything seen for every guess.

    Args:
        basis: The plane as drawn. [-]
        hidden: Guesses, one a row. [as hidden.py]
        seen: Things seen. [-]

    Returns:
        One a guess. [-]

    Source:
        Independent errors; outcomes.py.

    Example:
        >>> from foamwright.logbook.basis import basis_of
        >>> float(log_likelihood(basis_of(plane), np.zeros((1, 18)), ())[0])
        0.0
    """
    total = np.zeros(len(hidden))
    everything = all_shown(basis, hidden, seen)
    for one in seen:
        if one.answer >= 0:
            chance = seen_chances(one, everything)[:, one.answer]
        else:
            chance = reading_chance(one.value, one.noise, everything[one.set][one.shown])
        total += np.log(np.maximum(chance, LEAST))
    return total


def seen_chances(one: Seen, everything: Mapping[Set, Mapping[str, Array]]) -> Array:
    """Chance of each answer to a tick, half and half where it may be of either of two states.

    Args:
        one: The tick. [-]
        everything: State -> what is shown in it. [any]

    Returns:
        One row a guess, one column an answer. [-]

    Source:
        outcomes.py.

    Example:
        >>> tick = Seen(1, "stall", "drops left", answer=0)
        >>> seen_chances(tick, {AS_DRAWN: {"stall": np.array([0.0])}}).shape
        (1, 3)
    """
    chances = tick_chances(one.key, everything[one.set])
    if one.also is None:
        return chances
    return 0.5 * (chances + tick_chances(one.key, everything[one.also]))


@dataclass(frozen=True, slots=True)
class Slope:
    """Log-likelihood near some guesses.

    Attributes:
        value: One a guess. [-]
        gradient: By standardised quantity. [-]
        information: Fisher information by the same. [-]
    """

    value: Array
    gradient: Array
    information: Array


def slopes_at(basis: Basis, places: Array, seen: Sequence[Seen], *, spreads: Array) -> Slope:
    """Gradient and expected information of the log-likelihood at some places.

    Central differences of what would be shown; a tick gives sum(dp dp / p), a reading dx dx / s².

    Args:
        basis: The plane as drawn. [-]
        places: Standardised guesses, one a row. [-]
        seen: Things seen. [-]
        spreads: Of the quantities. [as each]

    Returns:
        Value, gradient and information.

    Source:
        Fisher scoring.

    Example:
        >>> from foamwright.logbook.basis import basis_of
        >>> spots = np.zeros((2, 18))
        >>> slopes_at(basis_of(plane), spots, (), spreads=np.ones(18)).gradient.shape
        (2, 18)
    """
    count, size = places.shape
    nudges = np.concatenate([np.zeros((1, size)), NUDGE * np.eye(size), -NUDGE * np.eye(size)])
    points = (places[:, None, :] + nudges[None]).reshape(-1, size) * spreads
    everything = all_shown(basis, points, seen)
    value, gradient = np.zeros(count), np.zeros((count, size))
    information = np.zeros((count, size, size))
    for one in seen:
        here, slope, info = _one(one, everything, (count, size))
        value += here
        gradient += slope
        information += info
    return Slope(value, gradient, information)


def _one(
    one: Seen, everything: Mapping[Set, Mapping[str, Array]], shape: tuple[int, int]
) -> tuple[Array, Array, Array]:
    count, size = shape
    if one.answer >= 0:
        chances = seen_chances(one, everything).reshape(count, 2 * size + 1, -1)
        middle = np.maximum(chances[:, 0], 1e-9)
        change = (chances[:, 1 : size + 1] - chances[:, size + 1 :]) / (2.0 * NUDGE)
        info = np.einsum("cia,cja,ca->cij", change, change, 1.0 / middle)
        return (
            np.log(middle[:, one.answer]),
            change[:, :, one.answer] / middle[:, one.answer, None],
            info,
        )
    number = everything[one.set][one.shown].reshape(count, 2 * size + 1)
    change = (number[:, 1 : size + 1] - number[:, size + 1 :]) / (2.0 * NUDGE * one.noise)
    off = (one.value - number[:, 0]) / one.noise
    chance = reading_chance(one.value, one.noise, number[:, 0])
    # A slip pulls less: its share of the likelihood takes the weight.
    usual = np.exp(-0.5 * np.minimum(off * off, 1400.0)) / np.maximum(chance, LEAST)
    weight = np.clip(usual, 0.04, 1.0)
    info = weight[:, None, None] * change[:, :, None] * change[:, None, :]
    return np.log(np.maximum(chance, LEAST)), (weight * off)[:, None] * change, info
