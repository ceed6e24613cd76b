"""Why a proposal is not better still: each dimension pushed on, and what then gives way."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from foamwright.checks.run import RULES
from foamwright.core.unit_table import UNITS
from foamwright.idea.problem import Case, Problem, problem_of
from foamwright.idea.score import Score
from foamwright.idea.shares import Guess, learnt
from foamwright.idea.state import State
from foamwright.idea.task import Row, answer

# Gene -> (factor, what it is called); small steps that a builder would think of.
PUSHES: tuple[tuple[str, float, str], ...] = (
    ("span", 1.06, "a longer span"),
    ("span", 0.94, "a shorter span"),
    ("aspect", 0.92, "a wider chord"),
    ("aspect", 1.08, "a narrower chord"),
    ("length_share", 1.06, "a longer fuselage"),
    ("length_share", 0.94, "a shorter fuselage"),
    ("stab_share", 0.9, "a smaller stab"),
    ("strip_share", 0.8, "a narrower spar"),
)
GAINS: dict[str, tuple[str, str, bool]] = {
    "boards": ("boards", "count", False),
    "stall_speed": ("stall speed", "speed", False),
    "endurance": ("flying time", "time", True),
}
WORTH = 0.006  # share of a figure from which a gain is told
SHOWN = 4  # sentences a proposal
WISH_WORDS = {
    "span_most": "be longer than fits the car",
    "mass_most": "be heavier than wished",
    "stall_most": "stall faster than wished",
    "endurance_least": "fly shorter than wished",
    "boards_most": "take more boards than wished",
    "build_time": "take longer to build than wished",
}
TITLES = {rule.id: rule.title[0].lower() + rule.title[1:] for rule in RULES}


@dataclass(frozen=True, slots=True)
class Limit:
    """One step beyond a proposal, computed.

    Attributes:
        words: The sentence.
        gene: What was pushed.
        factor: By how much. [-]
        broken: Checks and wishes that it breaks.
        share: Of builds that would pass, about. [-]
    """

    words: str
    gene: str
    factor: float
    broken: tuple[str, ...]
    share: float


def limits_of(problem: Problem, state: State, found: Score) -> tuple[Limit, ...]:
    """Push every main dimension of a proposal a step on and see what gives way.

    Args:
        problem: The bench and wishes. [-]
        state: The search. [-]
        found: The proposal. [-]

    Returns:
        Steps that would gain something but break something, at most four. [-]

    Source:
        The whole plane computed anew for each step.

    Example:
        >>> len(limits_of(problem, State(), found)) <= 4
        True
    """
    values = problem.values(np.array(found.shares))
    case = Case(problem.wishes, problem.stock_file, stretched=True)
    wide = problem_of(case)
    rows = [_row(wide, values, gene, factor) for gene, factor, _ in PUSHES]
    scores = answer(case, "score", rows)
    guess = learnt([(state.scores[row], many) for row, many in state.drawn.items()])
    limits = [
        limit
        for push, score in zip(PUSHES, scores, strict=True)
        if isinstance(score, Score)
        and (limit := _limit(problem, found, score, push, (guess, state)))
    ]
    return tuple(limits[:SHOWN])


def _row(problem: Problem, values: Mapping[str, object], gene: str, factor: float) -> Row:
    pushed = dict(values) | {gene: float(values[gene]) * factor}  # type: ignore[arg-type]
    return tuple(problem.shares(pushed).tolist())


def _limit(
    problem: Problem,
    found: Score,
    pushed: Score,
    push: tuple[str, float, str],
    known: tuple[Guess, State],
) -> Limit | None:
    gene, factor, words = push
    guess, state = known
    if not pushed.figures:
        return None
    gained = _gain(found.figures, pushed.figures, problem.wishes.units)
    if not gained:
        return None
    many = state.drawn.get(found.shares)
    before = max(guess.share(found.margins), 1e-3)
    share = guess.share(pushed.margins) / before * (many.share if many else before)
    share = min(share, 1.0)
    broken = [check for check, margin in pushed.margins.items() if margin < 0.0]
    costs = [WISH_WORDS[key] for key in pushed.wishes]
    if "boards" in broken or pushed.figures["boards"] > found.figures["boards"]:
        costs.append(f"need {_board(pushed.figures['boards'])}")
    costs += [f'fail the check "{TITLES[check]}"' for check in broken if check != "boards"][:2]
    if not costs and share < problem.wishes.wish.share_least:
        costs.append(f"pass in only about {100 * share:.0f} % of builds")
    if not costs:
        return None
    text = f"{words[0].upper()}{words[1:]} would bring {gained}, but would {_and(costs[:3])}."
    return Limit(text, gene, factor, (*pushed.wishes, *broken), share)


def _board(count: float) -> str:
    names = {1: "first", 2: "second", 3: "third", 4: "fourth", 5: "fifth", 6: "sixth"}
    number = int(count)
    return f"a {names[number]} board" if number in names else f"{number} boards"


def _and(words: list[str]) -> str:
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"


def _gain(before: Mapping[str, float], after: Mapping[str, float], units: str) -> str:
    """The largest gain in words; empty when there is none."""
    best, words = WORTH, ""
    for name, (title, dimension, larger) in GAINS.items():
        change = (after[name] - before[name]) / before[name] * (1.0 if larger else -1.0)
        if change > best:
            best = change
            words = f"{title} of {_shown(after[name], dimension, units)}"
            words += f" instead of {_shown(before[name], dimension, units)}"
    return words


def _shown(value: float, dimension: str, units: str) -> str:
    if dimension == "count":
        return f"{value:.0f}"
    if dimension == "time":
        return f"{value / 60.0:.1f} min"
    return f"{value / UNITS['speed']['mph']:.1f} mph" if units == "inch" else f"{value:.2f} m/s"
