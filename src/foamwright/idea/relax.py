"""When nothing passes: which wishes collide, and the least that opens a solution."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from foamwright.checks.mass import CUBE_LOADING, WING_LOADING
from foamwright.checks.stall import STALL_LIMIT
from foamwright.core.units import format_value
from foamwright.idea.evolve import Member, Pools, children, kept
from foamwright.idea.problem import Case, Problem, problem_of, span_bounds
from foamwright.idea.score import Score
from foamwright.idea.search import BROOD, seeds
from foamwright.idea.task import Drawn, Row, answer
from foamwright.idea.wishes import Wishes
from foamwright.idea.workers import Crew

GENERATIONS = 14  # of the search for relaxations
LEVELS = ("beginner", "returning", "experienced")
PILOT = ("stall_speed", "all_up_mass", "wing_loading", "cube_loading")
POWER = ("static_thrust", "climb", "level_throttle", "motor_current", "controller_current",
         "pack_current", "pitch_speed", "endurance", "first_timer")  # fmt: skip
# Wish -> the checks that it alone sets limits of; what they miss by is what it must give way.
CHECKS_OF: dict[str, tuple[str, ...]] = {
    "board.count": ("boards",),
    "field.wind": ("wind",),
    "pilot.level": PILOT,
    "bench": POWER,
}
GIVES_WAY = ("span_most", "mass_most", "stall_most", "endurance_least", "boards_most",
             "build_time", *CHECKS_OF)  # fmt: skip
HEAVY = 0.5  # of all-up mass that a power set may weigh; common practice is 30 to 45 %
COSTLY = {"bench": 2.0, "pilot.level": 1.5, "board.count": 1.0}  # harder to give; assumed


@dataclass(frozen=True, slots=True)
class Relaxation:
    """Wishes that give way, and a plane that then passes every check.

    Attributes:
        amounts: Wish -> by how much of its limit it gives way. [-]
        words: The same in the builder's words.
        score: The plane, computed with the wishes as relaxed.
        share: Of its builds, those that pass. [-]
    """

    amounts: dict[str, float]
    words: str
    score: Score
    share: float


@dataclass(frozen=True, slots=True)
class Collision:
    """Why nothing passes.

    Attributes:
        words: Which wishes collide, in one sentence.
        colliding: Those of which each alone would open a solution by giving way.
        relaxations: Smallest first.
    """

    words: str
    colliding: tuple[str, ...]
    relaxations: tuple[Relaxation, ...]


def misses(problem: Problem, score: Score) -> tuple[dict[str, float], float]:
    """What a plane misses, told apart: by wish, and what no wish can mend.

    Args:
        problem: The bench and wishes. [-]
        score: A plane computed to the end. [-]

    Returns:
        Wish -> by how much of its limit it is missed, and the summed shortfall of other checks. [-]

    Source:
        Definition.

    Example:
        >>> misses(problem, Score((0.5,), 0.1, 0.1, margins={"wind": -0.1}))
        ({'field.wind': 0.1}, 0.0)
    """
    found = dict(score.wishes)
    if "span_most" not in found and score.figures:
        beyond = score.figures["span"] / span_bounds(problem.wishes)[1] - 1.0 - 2e-3
        found |= {"span_most": beyond} if beyond > 0.0 else {}
    rest = score.checks_shortfall
    for wish, checks in CHECKS_OF.items():
        missed = [-score.margins[check] for check in checks if score.margins.get(check, 0.0) < 0.0]
        if missed:
            found[wish] = max(missed)
            rest -= sum(min(each, 1.0) for each in missed)
    return found, max(rest, 0.0) if rest > 1e-9 else 0.0


def collide(
    case: Case,
    crew: Callable[[Case], Crew],
    *,
    seed: int = 1,
    generations: int = GENERATIONS,
    say: Callable[[str], None] = lambda _: None,
) -> Collision:
    """Search for the least that wishes must give way for a plane to pass.

    One pool looks for the least sum of all; each other lets one wish alone give way.

    Args:
        case: The bench and wishes. [-]
        crew: Case -> who computes it. [-]
        seed: Same seed, same answer. [-]
        generations: Of the search. [-]
        say: Told how it goes on. [-]

    Returns:
        Colliding wishes and relaxations, each tried on the plane that it opens. [-]

    Source:
        Constraint relaxation by the same evolution, one aim a wish.

    Example:
        >>> collide(case, crew, generations=2).colliding  # doctest: +SKIP
        ('wish.span_most', 'wish.mass_most')
    """
    wide = Case(case.wishes, case.stock_file, stretched=True)
    problem = problem_of(wide)
    worker = crew(wide)
    known: dict[Row, Score] = {}
    pools: Pools = tuple(() for _ in range(len(GIVES_WAY) + 1))
    rows = seeds(problem, seed)
    for generation in range(1, generations + 2):
        found = worker.work("score", [tuple(row) for row in rows.tolist()])
        scores = [each for each in found if isinstance(each, Score)]
        known |= {score.shares: score for score in scores}
        pools = kept(pools, [_member(problem, score) for score in scores])
        say(f"nothing passes; looking for what must give way, {generation} of {generations + 1}")
        rows = children(pools, max(2, BROOD // 2), seed=seed, generation=generation)
    return _told(problem, [[known[m.shares] for m in pool[:3]] for pool in pools])


def _member(problem: Problem, score: Score) -> Member:
    if not score.figures:
        lost = (10.0 + score.shortfall,) * (len(GIVES_WAY) + 1)
        return Member(score.shares, lost, (0.0,) * len(lost))
    missed, rest = misses(problem, score)
    total = sum(missed.values())
    cost = sum(COSTLY.get(wish, 1.0) * math.sqrt(amount) for wish, amount in missed.items())
    short = [rest, *(rest + total - missed.get(wish, 0.0) for wish in GIVES_WAY)]
    costs = [cost, *(missed.get(wish, 0.0) for wish in GIVES_WAY)]
    return Member(score.shares, tuple(_clean(value) for value in short), tuple(costs))


def _clean(value: float) -> float:
    return 0.0 if value < 1e-9 else value


def _told(problem: Problem, pools: Sequence[Sequence[Score]]) -> Collision:
    found: list[Relaxation] = []
    for number, pool in enumerate(pools):
        for score in pool[:1]:
            amounts, rest = misses(problem, score) if score.figures else ({}, 1.0)
            alone = number > 0 and set(amounts) != {GIVES_WAY[number - 1]}
            if rest > 0.0 or alone or any(set(r.amounts) == set(amounts) for r in found):
                continue
            words = relaxed_words(problem, score, amounts)
            found.append(Relaxation(amounts, words, score, _share(problem, score, amounts)))
    found.sort(key=lambda r: sum(COSTLY.get(w, 1.0) * a for w, a in r.amounts.items()))
    single = tuple(wish for r in found for wish in r.amounts if len(r.amounts) == 1)
    words = f"{_sentence(problem.wishes, found, single)} {_oversize(problem, pools)}".strip()
    return Collision(words, single, tuple(found))


def _oversize(problem: Problem, pools: Sequence[Sequence[Score]]) -> str:
    """Power meant for a larger plane, said so."""
    lightest = min(gear.mass for gear in problem.gear)
    masses = [s.figures["mass"] for pool in pools for s in pool[:1] if s.figures]
    limit = problem.wishes.wish.mass_most or max(masses, default=0.0)
    if lightest <= HEAVY * limit:
        return ""
    said = format_value(lightest, "mass", problem.wishes.units)
    return (
        f"Motor, controller, propeller and pack weigh {said} at least, "
        f"{100 * lightest / limit:.0f} % of the whole: they are meant for a larger plane."
    )


def _share(problem: Problem, score: Score, amounts: Mapping[str, float]) -> float:
    """Share of builds that pass once the wishes have given way."""
    relaxed = relaxed_wishes(problem.wishes, score, amounts)
    case = Case(relaxed, problem.stock_file, stretched=True)
    # Bounds of the span, and with them its gene, follow from the wishes.
    row = relaxed_row(problem, problem_of(case), score)
    many = answer(case, "draw", [row])[0]
    return many.share if isinstance(many, Drawn) else 0.0


def relaxed_wishes(wishes: Wishes, score: Score, amounts: Mapping[str, float]) -> Wishes:
    """The wishes with those that give way relaxed as far as a plane needs.

    Args:
        wishes: As they were. [-]
        score: The plane that they open. [-]
        amounts: Wish -> by how much of its limit it gives way. [-]

    Returns:
        New wishes. [-]

    Source:
        Definition.

    Example:
        >>> round(relaxed_wishes(wishes, found, {"field.wind": 0.25}).field.wind, 1)
        2.8
    """
    figures = score.figures
    keys = {
        "span_most": figures.get("span"),
        "mass_most": figures.get("mass"),
        "stall_most": figures.get("stall_speed"),
        "endurance_least": figures.get("endurance"),
    }
    changed = {key: value for key, value in keys.items() if key in amounts}
    if "boards_most" in amounts:
        changed["boards_most"] = int(figures["boards"])  # type: ignore[assignment]
    if "build_time" in amounts:
        changed["build_time"] = (wishes.wish.build_time or 0.0) * (1.0 + amounts["build_time"])
    new: dict[str, object] = {"wish": wishes.wish.model_copy(update=changed)}
    if "field.wind" in amounts:
        new["field"] = wishes.field.model_copy(update={"wind": _calmer(wishes, amounts)})
    if "board.count" in amounts:
        boards = max(int(figures["boards"]), wishes.board.count)
        new["board"] = wishes.board.model_copy(update={"count": boards})
    if "pilot.level" in amounts:
        level = _level(figures)
        new["pilot"] = wishes.pilot.model_copy(update={"level": level or "experienced"})
    return wishes.model_copy(update=new)


def _calmer(wishes: Wishes, amounts: Mapping[str, float]) -> float:
    return math.floor(10.0 * wishes.field.wind / (1.0 + amounts["field.wind"])) / 10.0


def _level(figures: Mapping[str, float]) -> str | None:
    """The least skilled pilot who copes with stall speed and loadings."""
    mass, area = figures["mass"], figures["area"]
    return next(
        (
            level
            for level in LEVELS
            if figures["stall_speed"] <= STALL_LIMIT[level]
            and mass / area <= WING_LOADING[level]
            and mass / area**1.5 <= CUBE_LOADING[level]
        ),
        None,
    )


def _sentence(wishes: Wishes, found: Sequence[Relaxation], single: Sequence[str]) -> str:
    if found and not found[0].amounts:
        return "On looking longer a plane was found that passes as wished: search on."
    if not found:
        return (
            "No plane was found that passes every check, whichever wish gives way; the bench is "
            "too far from any plane of this kind."
        )
    if not single:
        smallest = " and ".join(name_of(wish) for wish in found[0].amounts)
        return f"No single wish can open a solution; {smallest} must give way together."
    if len(single) == 1:
        return f"It is {name_of(single[0])} that no plane of this bench meets."
    listed = ", ".join(name_of(wish) for wish in single[:-1])
    return f"{listed} and {name_of(single[-1])} collide: any one of them giving way opens a plane."


def name_of(wish: str) -> str:
    """A wish in the builder's words.

    Args:
        wish: Its key. [-]

    Returns:
        Words. [-]

    Source:
        Definition.

    Example:
        >>> name_of("mass_most")
        'the mass limit'
    """
    return {
        "span_most": "the span that fits the car",
        "mass_most": "the mass limit",
        "stall_most": "the stall speed",
        "endurance_least": "the flying time",
        "boards_most": "the boards that may be used",
        "build_time": "the time for building",
        "board.count": "the boards on the bench",
        "field.wind": "the wind",
        "pilot.level": "the pilot's level",
        "bench": "motor, propeller and pack",
    }[wish]


def relaxed_words(problem: Problem, score: Score, amounts: dict[str, float]) -> str:
    """What must give way, in the builder's words.

    Args:
        problem: The bench and wishes. [-]
        score: The plane that it opens. [-]
        amounts: Wish -> by how much of its limit it gives way. [-]

    Returns:
        One sentence. [-]

    Source:
        Definition.

    Example:
        >>> relaxed_words(problem, found, {"field.wind": 0.25})
        'Fly in 2.8 m/s of wind instead of 3.6 m/s.'
    """
    pieces = [_one(problem.wishes, score, wish, amount) for wish, amount in amounts.items()]
    text = ", and ".join(pieces)
    return f"{text[0].upper()}{text[1:]}." if text else "Nothing has to give way."


def _one(wishes: Wishes, score: Score, wish: str, amount: float) -> str:
    wished, figures = wishes.wish, score.figures

    def say(value: float, dimension: str) -> str:
        return format_value(value, dimension, "metric" if dimension == "speed" else wishes.units)

    if wish == "pilot.level":
        fit = _level(figures) or "more skilled"
        return f"let a pilot fly it who is {fit} instead of {wishes.pilot.level}"
    if wish == "bench":
        return f"find power that gives {100 * amount:.0f} % more (see the checks it fails)"
    if wish == "field.wind":
        calmer = _calmer(wishes, {wish: amount})
        return f"fly in {say(calmer, 'speed')} of wind instead of {say(wishes.field.wind, 'speed')}"
    count = wished.boards_most if wish == "boards_most" else wishes.board.count
    texts = {
        "span_most": lambda: (
            f"allow a span of {say(figures['span'], 'length')} instead of "
            f"{say(span_bounds(wishes)[1], 'length')}"
        ),
        "mass_most": lambda: (
            f"allow {say(figures['mass'], 'mass')} instead of "
            f"{say(wished.mass_most or 0.0, 'mass')}"
        ),
        "stall_most": lambda: (
            f"allow a stall speed of {say(figures['stall_speed'], 'speed')} instead of "
            f"{say(wished.stall_most or 0.0, 'speed')}"
        ),
        "endurance_least": lambda: (
            f"be content with {figures['endurance'] / 60:.1f} min instead of "
            f"{(wished.endurance_least or 0.0) / 60:.1f} min"
        ),
        "build_time": lambda: (
            f"take {(wished.build_time or 0.0) * (1 + amount) / 3600:.1f} h for building instead "
            f"of {(wished.build_time or 0.0) / 3600:.1f} h"
        ),
    }
    if wish in texts:
        return texts[wish]()
    return f"use {figures['boards']:.0f} boards instead of {count}"


def relaxed_row(problem: Problem, narrow: Problem, score: Score) -> Row:
    """The genes of a plane of one problem in those of another with other wishes.

    Args:
        problem: The one that the plane was found in. [-]
        narrow: The other. [-]
        score: The plane. [-]

    Returns:
        Genes, those beyond the bounds at the bounds. [-]

    Source:
        Definition.

    Example:
        >>> len(relaxed_row(problem, problem, found)) == len(problem.genes)
        True
    """
    return tuple(narrow.shares(problem.values(np.array(score.shares))).tolist())
