"""Three to five really different proposals out of what a search found."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

import numpy as np

from foamwright.idea.aims import AIMS
from foamwright.idea.launch import launch_share
from foamwright.idea.limits import Limit, limits_of
from foamwright.idea.problem import Problem
from foamwright.idea.score import Score, candidate
from foamwright.idea.search import sure_ones
from foamwright.idea.state import State
from foamwright.idea.task import Drawn
from foamwright.plane import Plane

MOST, LEAST = 5, 3
APART = 1.0  # of `distance`: at least one difference that a builder would notice
CLOSER = 0.35  # the same, when there are not three proposals otherwise
# What a builder would notice, as a factor or a count: the unit of each axis; common practice.
NOTICED = {"span": 1.08, "area": 1.12, "mass": 1.12, "stall_speed": 1.06, "endurance": 1.15}
NOTICED_SHARE = 0.15
OTHERWISE = "another way"  # title of a proposal that is not the best at its aim
NOTICED_ASPECT = 1.0
# Figures by which proposals are ranked -> (words when best, words when worst, larger is better).
GOOD_AND_BAD: dict[str, tuple[str, str, bool]] = {
    "boards": ("takes the fewest boards", "takes the most boards", False),
    "stall_speed": ("flies slowest", "flies fastest at the stall", False),
    "endurance": ("flies longest", "flies shortest", True),
    "share": ("forgives most in building", "forgives least in building", True),
    "mass": ("is lightest", "is heaviest", False),
    "span": ("packs smallest", "takes most room in the car", False),
    "climb_rate": ("climbs best", "climbs least", True),
    "level_speed": ("copes with the most wind", "copes with the least wind", True),
    "launch_drop": ("is easiest to throw", "sinks most after the throw", False),
}


@dataclass(frozen=True, slots=True)
class Proposal:
    """One complete design.

    Attributes:
        letter: A, B, C and so on.
        title: The aim that it serves best.
        score: What it is worth.
        drawn: Many builds of it.
        good: What it is good at, in words.
        bad: What it is bad at, in words.
        limits: Why it is not better still, computed.
        plane: The plane.
        values: What was chosen.
        launch_share: Of simulated hand launches, those that fly away; None when not known. [-]
    """

    letter: str
    title: str
    score: Score
    drawn: Drawn
    good: str
    bad: str
    limits: tuple[Limit, ...]
    plane: Plane
    values: dict[str, object]
    launch_share: float | None = None


def distance(one: Score, other: Score, *, shares: tuple[float, float], problem: Problem) -> float:
    """How different two planes are to a builder.

    Root of the sum of squares over the axes: span, area, mass, stall speed and flying time by
    factors, aspect ratio, boards, share of builds, and 1 each for other controls, another build or
    other gear.

    Args:
        one: A plane. [-]
        other: Another. [-]
        shares: Of builds that pass, of both. [-]
        problem: The bench and wishes. [-]

    Returns:
        1 is a difference that one notices. [-]

    Source:
        Definition.

    Example:
        >>> distance(found, found, shares=(0.5, 0.5), problem=problem)
        0.0
    """
    first, second = one.figures, other.figures
    axes = [
        math.log(first[name] / max(second[name], 1e-9)) / math.log(unit)
        for name, unit in NOTICED.items()
    ]
    aspects = [each["span"] ** 2 / each["area"] for each in (first, second)]
    axes.append((aspects[0] - aspects[1]) / NOTICED_ASPECT)
    axes.append(first["boards"] - second["boards"])
    axes.append((shares[0] - shares[1]) / NOTICED_SHARE)
    chosen = [problem.values(np.array(each.shares)) for each in (one, other)]
    axes += [float(chosen[0][name] != chosen[1][name]) for name in ("controls", "build", "gear")]
    return math.sqrt(sum(axis * axis for axis in axes))


def choose(problem: Problem, state: State, *, most: int = MOST) -> list[tuple[str, Score]]:
    """The best of each aim that are far enough apart, the all-rounder first.

    Args:
        problem: The bench and wishes. [-]
        state: The search. [-]
        most: How many. [-]

    Returns:
        Aim and candidate; fewer than three only when no more differ. [-]

    Source:
        Greedy choice by distance.

    Example:
        >>> choose(problem, State())
        []
    """
    sure = sure_ones(problem, state)
    if not sure:
        return []
    chosen: list[tuple[str, Score]] = []
    for apart in (APART, CLOSER):
        for aim in AIMS:
            by_cost = sorted(sure, key=lambda s: aim.cost(s.figures, state.drawn[s.shares].share))
            if len(chosen) >= (most if apart == APART else min(LEAST, most)) or not by_cost:
                break
            if any(title == aim.name for title, _ in chosen):
                continue
            far = next(
                (s for s in by_cost[:10] if _apart(problem, state, s, chosen) >= apart), None
            )
            if far is not None:
                chosen.append((aim.name, far))
    return chosen


def _apart(
    problem: Problem, state: State, score: Score, chosen: Sequence[tuple[str, Score]]
) -> float:
    own = state.drawn[score.shares].share
    return min(
        (
            distance(score, other, shares=(own, state.drawn[other.shares].share), problem=problem)
            for _, other in chosen
        ),
        default=math.inf,
    )


def proposals(
    problem: Problem,
    state: State,
    *,
    most: int = MOST,
    say: Callable[[str], None] = lambda _: None,
) -> tuple[Proposal, ...]:
    """Proposals with what is good and bad of each and why it is not better still.

    Args:
        problem: The bench and wishes. [-]
        state: The search. [-]
        most: How many. [-]
        say: Told what goes on. [-]

    Returns:
        Three to five, fewer when no more differ; none when nothing passes. [-]

    Source:
        Definition.

    Example:
        >>> proposals(problem, State())
        ()
    """
    chosen = choose(problem, state, most=most)
    made: list[Proposal] = []
    for number, (title, score) in enumerate(chosen):
        letter = "ABCDEFGH"[number]
        say(f"looking at what limits proposal {letter}")
        plane = candidate(problem, np.array(score.shares))
        made.append(
            Proposal(
                letter=letter,
                title=title,
                score=score,
                drawn=state.drawn[score.shares],
                good="",
                bad="",
                limits=limits_of(problem, state, score),
                plane=plane,
                values=problem.values(np.array(score.shares)),
                launch_share=launch_share(plane),
            )
        )
    return tuple(_told(each, made) for each in made)


def compared(proposal: Proposal) -> dict[str, float]:
    """The figures of a proposal, the share of builds among them.

    Args:
        proposal: The proposal. [-]

    Returns:
        Name -> value, SI. [any]

    Source:
        Definition.

    Example:
        >>> compared(proposal)["boards"]  # doctest: +SKIP
        3.0
    """
    return proposal.score.figures | {"share": proposal.drawn.share}


def _told(proposal: Proposal, all_of_them: Sequence[Proposal]) -> Proposal:
    """Say what a proposal is best and worst at among the others."""
    tables = [compared(each) for each in all_of_them]
    own = compared(proposal)
    good: list[str] = []
    bad: list[str] = []
    for name, (best, worst, larger) in GOOD_AND_BAD.items():
        values = [table[name] for table in tables]
        if max(values) - min(values) <= 0.02 * abs(max(values)):
            continue
        ends = (max(values), min(values)) if larger else (min(values), max(values))
        if own[name] == ends[0]:
            good.append(best)
        elif own[name] == ends[1]:
            bad.append(worst)
    words = next(aim.words for aim in AIMS if aim.name == proposal.title)
    title = proposal.title
    for name, (best, _, larger) in GOOD_AND_BAD.items():
        top = (max if larger else min)(table[name] for table in tables)
        if best == words and own[name] != top:
            # A short search: another proposal is better still at what this one was chosen for.
            title, words = OTHERWISE, "is another way to meet the wishes"
    return replace(
        proposal,
        title=title,
        good="; ".join(good[:3]) or words,
        bad="; ".join(bad[:3]) or "nothing stands out",
    )
