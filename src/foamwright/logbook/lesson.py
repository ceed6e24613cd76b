"""What learning answers: everything ready to be printed, nothing left to compute."""

from __future__ import annotations

from dataclasses import dataclass

from foamwright.logbook.model import Contradiction


@dataclass(frozen=True, slots=True)
class Learned:
    """One quantity after everything seen.

    Attributes:
        name: Short stable name.
        title: In trade words, what a positive value means.
        dimension: "angle", "length", "mass", "speed", "share".
        before: Low, middle and high before anything was seen; 80 % lie between. [as dimension]
        after: The same after. [as dimension]
        told: Share of the width before that the logbook took away, 0 to 1. [-]
        words: One sentence with numbers, or "cannot say ...".
        ask: What would tell it, where the logbook does not; "" for nothing that it takes in.
    """

    name: str
    title: str
    dimension: str
    before: tuple[float, float, float]
    after: tuple[float, float, float]
    told: float
    words: str
    ask: str = ""


@dataclass(frozen=True, slots=True)
class RankedCause:
    """A fault that may stand behind what was seen.

    Attributes:
        name: Short stable name.
        title: In trade words, its side in.
        chance: That it makes what was seen; with nothing abnormal, that it is far off. [-]
        before: The same before anything was seen. [-]
        amount: Low, middle and high if it is. [as the quantity]
        words: One sentence.
    """

    name: str
    title: str
    chance: float
    before: float
    amount: tuple[float, float, float]
    words: str


@dataclass(frozen=True, slots=True)
class Explanation:
    """What makes symptoms.

    Attributes:
        name: Of the quantity.
        numbers: Of the entries that saw them.
        keys: Of the questions or trims.
        share: Least share of one of the symptoms that it makes, by the mean guess. [-]
        words: One sentence.
        sure: Whether the band of the quantity leaves zero out.
        quantity: The quantity with its band, in words.
    """

    name: str
    numbers: tuple[int, ...]
    keys: tuple[str, ...]
    share: float
    words: str
    sure: bool
    quantity: str


@dataclass(frozen=True, slots=True)
class NextTest:
    """Something to do that would tell causes apart.

    Attributes:
        key: Of the logbook that takes its outcome in.
        title: What to do.
        bits: Expected to be learned about which cause it is. [bit]
        right: Chance that the cause named first is then the right one. [-]
    """

    key: str
    title: str
    bits: float
    right: float


@dataclass(frozen=True, slots=True)
class Effect:
    """Chance of the good answer to a question of the test card.

    Attributes:
        key: Of the question.
        question: On the card.
        before: [-]
        after: [-]
    """

    key: str
    question: str
    before: float
    after: float


@dataclass(frozen=True, slots=True)
class Adjustment:
    """Something to change on the plane now.

    Attributes:
        name: Short stable name.
        amount: Solved for. [as the quantity]
        words: What to do, with numbers.
        effects: What it does to the questions that it moves.
    """

    name: str
    amount: float
    words: str
    effects: tuple[Effect, ...]


@dataclass(frozen=True, slots=True)
class Misfit:
    """Something seen that the rest makes unlikely.

    Attributes:
        number: Of the entry.
        words: What was seen and what was to be expected.
    """

    number: int
    words: str


@dataclass(frozen=True, slots=True)
class Lesson:
    """What the logbook of a plane teaches.

    Attributes:
        learned: Quantities that it tells something about, most told first.
        cannot_say: Quantities that it tells nothing about.
        causes: Most likely first, "careful building alone" among them.
        verdict: One or two sentences.
        explanations: Symptoms, and what makes them.
        tests: What to do next, most telling first.
        adjustments: What to change now, in the order in which they were found to help.
        contradictions: Of entries, left out until corrected.
        misfits: Entries that the rest makes unlikely.
        notes: On how far all this may be trusted.
    """

    learned: tuple[Learned, ...]
    cannot_say: tuple[Learned, ...]
    causes: tuple[RankedCause, ...]
    verdict: str
    explanations: tuple[Explanation, ...]
    tests: tuple[NextTest, ...]
    adjustments: tuple[Adjustment, ...]
    contradictions: tuple[Contradiction, ...]
    misfits: tuple[Misfit, ...]
    notes: tuple[str, ...]
