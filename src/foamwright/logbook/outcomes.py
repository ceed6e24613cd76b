"""How likely each answer of a pilot or an instrument is, given what a guess would show."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from foamwright.flight.observations import OBSERVATIONS, SIDES
from foamwright.flight.trial import limits
from foamwright.logbook.basis import Basis

type Array = NDArray[np.float64]

LAPSE = 0.03  # of ticks land anywhere: wrong box, gust; assumed
SLIP = 0.03  # of readings are off by several times their error; assumed
SLIP_WIDTH = 5.0  # times the usual error
SLOWEST_CLIMB = 0.2  # m/s; what climbs less does not climb
STAYS_UP = -0.02  # rad; a path that never falls below that of the glide: the nose came up; assumed
# rad of elevator that the throw lacks or has too much; whole flights nose over from about 0.2 and
# pitch up from about 0.09 (flight/trial).
NOSES_DOWN, PITCHES_UP = 0.13, 0.09
# rad between the tips at 70 % span; in whole flights 2 to 3 deg of twist seldom drop a wing, 4 do.
DROPS = 0.04
LOGISTIC = 1.702  # makes the logistic curve follow the normal one within 0.01


@dataclass(frozen=True, slots=True)
class Scale:
    """How a pilot's answer follows from one number.

    Attributes:
        shown: Name of the number in foresight.
        limits: Between answers, rising. [as shown]
        noise: One standard deviation of the pilot's judgement. [as shown]
        answers: From low to high.
    """

    shown: str
    limits: tuple[float, ...]
    noise: float
    answers: tuple[str, ...]


# What a pilot can tell apart by eye; common practice, no source.
SCALES: Mapping[str, Scale] = {
    "roll_slow": Scale("roll_slow", (-limits.ROLL, limits.ROLL), 0.06, SIDES),
    "roll_fast": Scale("roll_fast", (-limits.ROLL, limits.ROLL), 0.06, SIDES),
    "roll_glide": Scale("roll_glide", (-limits.ROLL, limits.ROLL), 0.06, SIDES),
    "yaw_power": Scale("yaw_power", (-limits.SWING, limits.SWING), 0.10, SIDES),
    "power_on": Scale("power_on", (limits.DIVES_WITH_POWER, limits.CLIMBS_HARD), 0.12,
                      ("dives", "climbs gently", "climbs hard")),
    "power_off": Scale("power_off", (STAYS_UP, -limits.DIVES_WHEN_CUT), 0.05,
                       ("noses up", "glides", "dives")),
    "dive_test": Scale("margin", (0.015, 0.05, 0.22), 0.03,
                       ("tucks under", "holds", "eases out", "pulls out hard")),
    "pitch_feel": Scale("feel", (-0.7, 0.6), 0.35, ("twitchy", "good", "soggy")),
    "stall": Scale("stall", (-DROPS, DROPS), 0.02,
                   ("drops left", "mushes straight", "drops right")),
    "climb": Scale("climb_felt", (math.log(limits.POOR_CLIMB), math.log(limits.STRONG_CLIMB)), 0.6,
                   ("poor", "good", "very strong")),
    "glide": Scale("glide_told", (math.log(limits.POOR_GLIDE), math.log(limits.FLAT_GLIDE)), 0.12,
                   ("like a brick", "as told", "flatter")),
}  # fmt: skip
LAUNCH = next(item.answers for item in OBSERVATIONS if item.key == "launch")
SILENT = ("roll_feel", "waves", "after")  # ticks that no quantity of hidden.py answers for


def tick_chances(key: str, shown: Mapping[str, Array]) -> Array:
    """Chance of each answer to one question of the test card, for every guess.

    A number judged with normal error against limits; a few ticks land anywhere.

    Args:
        key: Of the question. [-]
        shown: From foresight. [any]

    Returns:
        One row a guess, one column an answer of `answers_of`. [-]

    Source:
        Ordinal logit; limits common practice, no source.

    Example:
        >>> tick_chances("stall", {"stall": np.array([0.2])})[0].round(2)
        array([0.01, 0.01, 0.98])
    """
    chances = _launch(shown) if key == "launch" else _ordinal(SCALES[key], shown)
    return (1.0 - LAPSE) * chances + LAPSE / chances.shape[1]


def answers_of(key: str) -> tuple[str, ...]:
    """Answers in the order of the columns of `tick_chances`.

    Args:
        key: Of the question. [-]

    Returns:
        Words.

    Source:
        foamwright.flight.observations.

    Example:
        >>> answers_of("stall")[0]
        'drops left'
    """
    return LAUNCH if key == "launch" else SCALES[key].answers


def _ordinal(scale: Scale, shown: Mapping[str, Array]) -> Array:
    value = shown[scale.shown]
    steps = [np.clip(LOGISTIC * (limit - value) / scale.noise, -30.0, 30.0)
             for limit in scale.limits]  # fmt: skip
    under = [1.0 / (1.0 + np.exp(-step)) for step in steps]
    edges = np.stack([np.zeros_like(value), *under, np.ones_like(value)], axis=1)
    return np.diff(edges, axis=1)


def _launch(shown: Mapping[str, Array]) -> Array:
    """The strongest of what may go wrong wins; limits common practice, no source."""
    sink, bank, pitch = shown["sink"], shown["bank"], shown["pitch"]
    pulls = np.stack(
        [
            np.zeros_like(sink),
            5.0 * (sink - 0.9),
            (-pitch - NOSES_DOWN) / 0.03,  # the hand on the stick catches less than that
            (pitch - PITCHES_UP) / 0.02,
            (-bank - 0.35) / 0.08,
            (bank - 0.35) / 0.08,
        ],
        axis=1,
    )
    raised = np.exp(np.clip(pulls, -12.0, 12.0))
    return raised / raised.sum(axis=1, keepdims=True)


def reading_chance(value: float, noise: float, shown: Array) -> Array:
    """Likelihood of a reading for every guess, up to a factor.

    Normal error, with a small share of slips five times as wide.

    Args:
        value: As read. [any]
        noise: One standard deviation of the reading. [as value]
        shown: What each guess would show. [as value]

    Returns:
        One a guess. [-]

    Source:
        Contaminated normal distribution, a standard robust error model.

    Example:
        >>> reading_chance(1.0, 0.1, np.array([1.0, 2.0])).round(3)
        array([0.976, 0.001])
    """
    off = (value - shown) / noise
    wide = off / SLIP_WIDTH
    usual = (1.0 - SLIP) * np.exp(-0.5 * np.minimum(off * off, 1400.0))
    return usual + SLIP / SLIP_WIDTH * np.exp(-0.5 * np.minimum(wide * wide, 1400.0))


def needs_of(key: str, shown: str = "") -> tuple[str, ...]:
    """Names in foresight that a tick or a reading rests on.

    Args:
        key: Of the tick. [-]
        shown: Of the reading; "" for ticks. [-]

    Returns:
        Names.

    Source:
        Definition.

    Example:
        >>> needs_of("glide")
        ('glide',)
    """
    if shown:
        return (shown,)
    if key == "launch":
        return ("sink", "bank", "pitch")
    name = SCALES[key].shown
    return ({"glide_told": "glide", "climb_felt": "climb"}.get(name, name),)


def with_told(basis: Basis, shown: Mapping[str, Array]) -> dict[str, Array]:
    """The same with the glide against what the card tells, and the climb as a pilot feels it.

    Args:
        basis: The plane as drawn. [-]
        shown: From foresight. [any]

    Returns:
        Name -> one value a guess. [any]

    Source:
        Definition.

    Example:
        >>> from foamwright.logbook.basis import basis_of
        >>> seen = {"glide": np.log(np.array([8.0])), "climb": np.array([3.0])}
        >>> told = with_told(basis_of(plane), seen)
        >>> -0.1 < float(told["glide_told"][0]) < 0.1
        True
    """
    found = dict(shown)
    if "glide" in shown:
        found["glide_told"] = shown["glide"] - np.log(basis.glide_ratio)
    if "climb" in shown:
        found["climb_felt"] = np.log(np.maximum(shown["climb"], SLOWEST_CLIMB))
    return found
