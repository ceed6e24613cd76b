"""Which one thing makes what was seen, whether or not it is more than careful building leaves.

Each fault in turn is taken to be the one thing that is off, as far as builders meet it, the rest
built carefully; what is abnormal is then asked again with that fault taken away. A fault counts as
far as it fits everything seen and as far as nothing else makes more of what was abnormal.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from foamwright.logbook.basis import Basis
from foamwright.logbook.causes import CAUSES, PLACE, Cause, amount_of, widths
from foamwright.logbook.evidence import Evidence, Seen
from foamwright.logbook.foresight import Set
from foamwright.logbook.hidden import COLUMN, NAMES
from foamwright.logbook.infer import laplace_of
from foamwright.logbook.likelihood import all_shown, log_likelihood, seen_chances
from foamwright.logbook.outcomes import reading_chance

type Array = NDArray[np.float64]

# The model's error acts as the builder's does, and is told with it.
TOGETHER = {"right_thrust": "yaw_model", "down_thrust": "pitch_model", "cg": "neutral_point",
            "incidence": "trim_model"}  # fmt: skip
COMMON = {"twist": 1.5}  # warped wings are met more often than others; common practice, no source
DRAWS = 120  # guesses under each fault
NEAR = 0.5  # of the first fault's chance from which another is reckoned with in changes
PICKED = 300  # guesses that changes are judged by
BROADER = 1.15  # standard deviation of guesses drawn, over the Gaussian's: covers its tails
SEED = 9
EXPLAINS = 0.5  # least gain in log-likelihood by which a fault makes something
STRAY = 1e-4  # least chance of an answer, so that one of them does not outweigh the rest
UNLIKELY_AS_DRAWN = 0.3  # chance of an answer on the plane as drawn, below which it is abnormal
TRIM_OFF = 0.0175  # rad from the plane as drawn: less is not felt; assumed
FAR = 2.0  # errors of a reading from the plane as drawn
LEAST_MASS = 0.02  # relative, one error of a weighing's meaning: stock varies as much


@dataclass(frozen=True, slots=True)
class Makers:
    """What makes what was abnormal.

    Attributes:
        abnormal: Latest answers that the plane as drawn would not give.
        chances: That each cause makes them, in the order of CAUSES; first: chance alone, or
            several small things. [-]
        amounts: Low, middle and high of each cause if it is the one thing; 80 % lie between.
            [as the quantity]
        modes: Most likely guess under each cause. [as hidden.py]
        samples: Guesses under each cause, as many of each, cause after cause. [as hidden.py]
        guesses: What the plane may be like if one thing is off, each cause as often as its
            chance; no rows where nothing is abnormal. [as hidden.py]
    """

    abnormal: tuple[Seen, ...]
    chances: Array
    amounts: Array
    modes: Array
    samples: Array
    guesses: Array


def abnormal_in(basis: Basis, evidence: Evidence) -> tuple[Seen, ...]:
    """The latest of each thing seen that the plane as drawn would not show.

    Args:
        basis: The plane as drawn. [-]
        evidence: All that was seen. [-]

    Returns:
        Ticks, trims and readings.

    Source:
        Definition; limits assumed.

    Example:
        >>> from foamwright.logbook.basis import basis_of
        >>> abnormal_in(basis_of(plane), Evidence(()))
        ()
    """
    last = {one.key: one for one in evidence.seen}
    everything = all_shown(basis, np.zeros((1, len(NAMES))), tuple(last.values()))
    return tuple(one for one in last.values() if _abnormal(one, everything))


def _abnormal(one: Seen, everything: dict[Set, dict[str, Array]]) -> bool:
    if one.answer >= 0:
        chances = seen_chances(one, everything)[0]
        return bool(chances[one.answer] < UNLIKELY_AS_DRAWN and np.argmax(chances) != one.answer)
    off = abs(one.value - float(everything[one.set][one.shown][0]))
    if one.key.startswith("trim"):
        return off > TRIM_OFF
    return off > FAR * max(one.noise, LEAST_MASS if one.shown == "mass" else 0.0)


def makers_of(basis: Basis, evidence: Evidence, *, spreads: Array) -> Makers:
    """The chance of each fault that it is what makes the abnormal.

    Args:
        basis: The plane as drawn. [-]
        evidence: All that was seen. [-]
        spreads: Of the quantities before. [as each]

    Returns:
        Chances, sum 1; all on "none" where nothing is abnormal.

    Valid:
        One thing off; Laplace's method, good to a few hundredths.

    Source:
        Bayes's rule over faults of builders' size, all alike before [TIERNEY-KADANE].

    Example:
        >>> from foamwright.logbook.basis import basis_of
        >>> float(makers_of(basis_of(plane), Evidence(()), spreads=np.ones(18)).chances[0])
        1.0
    """
    abnormal = abnormal_in(basis, evidence)
    if not abnormal:
        none, nobody = np.zeros((len(CAUSES), len(NAMES))), np.zeros((0, len(NAMES)))
        return Makers((), np.eye(len(CAUSES))[0], np.zeros((len(CAUSES), 3)), none, nobody, nobody)
    wide = widths(basis, spreads)
    wide[PLACE["none"]] = np.minimum(wide, 1.0).min(axis=0)  # chance: nothing off at all
    modes, hessians, heights = laplace_of(basis, evidence.seen, spreads=spreads, wide=wide)
    noise = np.random.default_rng(SEED).standard_normal((DRAWS, wide.shape[1], 1))
    spread = np.linalg.inv(np.linalg.cholesky(hessians)).transpose(0, 2, 1)
    places = modes[:, None, :] + (spread[:, None] @ noise[None])[..., 0]
    samples = places.reshape(-1, wide.shape[1]) * spreads
    gains = _gains(basis, abnormal, samples)
    best = np.argmax(gains, axis=0).reshape(len(CAUSES), DRAWS)
    made = (gains.max(axis=0) > EXPLAINS).reshape(best.shape)
    own = np.array([np.mean((best[c] + 1 == c) & made[c]) for c in range(len(CAUSES))])
    own[0] = float(np.mean(~made[0]))
    scores = np.exp(heights - heights.max()) * (own + 1e-6) * before_any()
    amounts = np.array(
        [
            np.quantile(amount_of(cause, places[row] * spreads), (0.1, 0.5, 0.9))
            for row, cause in enumerate(CAUSES)
        ]
    )
    chances = scores / scores.sum()
    guesses = _guesses(basis, evidence.seen, (modes, hessians, _leading(chances)), spreads, wide)
    return Makers(abnormal, chances, amounts, modes * spreads, samples, guesses)


def before_any() -> Array:
    """Chance of each cause to make something before anything is seen.

    Returns:
        One a cause, sum 1. [-]

    Source:
        COMMON; all others alike, assumed.

    Example:
        >>> round(float(before_any().sum()), 12)
        1.0
    """
    each = np.array([COMMON.get(cause.name, 1.0) for cause in CAUSES])
    return each / each.sum()


def _leading(chances: Array) -> Array:
    """Chances of the first fault and of those that come near it: what is changed goes by these."""
    faults = np.where(np.arange(len(chances)) > 0, chances, 0.0)
    near = np.where(faults >= NEAR * faults.max(), faults, 0.0)
    return near / near.sum()


def _guesses(
    basis: Basis,
    seen: Sequence[Seen],
    found: tuple[Array, Array, Array],
    spreads: Array,
    wide: Array,
) -> Array:
    """Guesses under each cause as often as its chance, weighed so that they are Bayes's."""
    modes, hessians, chances = found
    generator = np.random.default_rng(SEED)
    counts = generator.multinomial(PICKED, chances)
    rows = np.flatnonzero(counts)
    noise = generator.standard_normal((len(rows), PICKED, wide.shape[1]))
    spread = np.linalg.inv(np.linalg.cholesky(hessians[rows]))
    places = modes[rows, None, :] + BROADER * np.einsum("cij,cni->cnj", spread, noise)
    flat = places.reshape(-1, wide.shape[1]) * spreads
    heights = log_likelihood(basis, flat, seen).reshape(len(rows), PICKED)
    heights += 0.5 * np.sum(noise**2, axis=2)
    heights -= 0.5 * np.sum((places / wide[rows, None, :]) ** 2, axis=2)
    weights = np.exp(heights - heights.max(axis=1, keepdims=True))
    weights /= weights.sum(axis=1, keepdims=True)
    return np.concatenate(
        [
            places[place, generator.choice(PICKED, counts[row], p=weights[place])] * spreads
            for place, row in enumerate(rows.tolist())
        ]
    )


def taken_away(hidden: Array, cause: Cause) -> Array:
    """Guesses with one cause mended, and the model's error that acts as it does.

    Args:
        hidden: Guesses, one a row. [as hidden.py]
        cause: Which. [-]

    Returns:
        Guesses, one a row. [as hidden.py]

    Source:
        Definition.

    Example:
        >>> float(taken_away(np.ones((1, 18)), CAUSES[PLACE["drag"]]).sum())
        17.0
    """
    without = hidden.copy()
    names = (*cause.wide, *([TOGETHER[cause.name]] if cause.name in TOGETHER else ()))
    without[:, [COLUMN[name] for name in names]] = 0.0
    return without


def _gains(basis: Basis, abnormal: Sequence[Seen], hidden: Array) -> Array:
    """Log-likelihood of the abnormal that goes with each fault: one row a fault."""
    rows = [hidden, *(taken_away(hidden, cause) for cause in CAUSES[1:])]
    everything = all_shown(basis, np.concatenate(rows), abnormal)
    total = np.zeros(len(rows) * len(hidden))
    for one in abnormal:
        if one.answer >= 0:
            chance = seen_chances(one, everything)[:, one.answer]
        else:
            chance = reading_chance(one.value, one.noise, everything[one.set][one.shown])
        total += np.log(np.maximum(chance, STRAY))
    heights = total.reshape(len(rows), -1)
    return heights[0] - heights[1:]
