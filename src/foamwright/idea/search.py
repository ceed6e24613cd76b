"""The search: generations of candidates, builds of the best drawn, what was found kept."""

from __future__ import annotations

import time
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass

import numpy as np

from foamwright.design.new_sizes import KINDS
from foamwright.idea.aims import AIMS
from foamwright.idea.evolve import Member, Pools, children, first_rows, kept
from foamwright.idea.problem import Case, Problem, problem_of
from foamwright.idea.score import Score
from foamwright.idea.shares import Guess, learnt
from foamwright.idea.state import State
from foamwright.idea.task import Drawn, Row
from foamwright.idea.trade import trade_values
from foamwright.idea.workers import Crew

FIRST = 36  # rows of the first generation, besides those by the trade
BROOD = 8  # children for each aim and generation
DRAWN = 4  # candidates whose builds are drawn in a generation; even, so that two cores share them
SEED_SPANS = (1.0, 0.85)  # of the longest span, for planes by the trade to start from
NEARBY = 5  # shaken copies of each of those
SHAKEN = 0.12  # by so much, one standard deviation of each gene


@dataclass(frozen=True, slots=True)
class Progress:
    """How a search stands.

    Attributes:
        generation: Generations done. [-]
        evaluations: Planes computed. [-]
        elapsed: Time spent, earlier runs included. [s]
        rate: Planes computed a second, this run. [1/s]
        met: Planes met that pass every check. [-]
        best: Best of each aim that passes every check at the wished share; None when none does.
        share: Of the builds of the first of these, those that pass; None when none is known. [-]
    """

    generation: int
    evaluations: int
    elapsed: float
    rate: float
    met: int
    best: tuple[Score | None, ...]
    share: float | None


def search(
    case: Case,
    crew: Crew,
    *,
    state: State,
    seconds: float = 60.0,
    generations: int | None = None,
    progress: Callable[[Progress], bool] = lambda _: True,
) -> State:
    """Search until the time is up, so many generations are done, or it is told to stop.

    Args:
        case: The bench and wishes. [-]
        crew: Who computes. [-]
        state: Where to begin; changed as the search goes, whole after every generation. [-]
        seconds: Time for this run. [s]
        generations: Of this run; None leaves it to the time. [-]
        progress: Told after every generation; False stops the search. [-]

    Returns:
        The same state. [-]

    Raises:
        DesignError: The bench can drive nothing.

    Source:
        Differential evolution [STORN] under several aims, feasibility rules [DEB].

    Example:
        >>> with crew_of(case, jobs=1) as crew:
        ...     search(case, crew, state=State(), generations=0).evaluations  # doctest: +SKIP
        90
    """
    problem = problem_of(case)
    begin, before, done = time.monotonic(), state.elapsed, 0
    counted = state.evaluations
    while generations is None or done < generations or not state.scores:
        if not state.scores:
            rows = seeds(problem, state.seed)
        else:
            state.generation += 1
            rows = children(
                _pools(state, _guess(state), problem),
                BROOD,
                seed=state.seed,
                generation=state.generation,
            )
            done += 1
        _generation(problem, state, crew, [tuple(row) for row in rows.tolist()])
        spent = time.monotonic() - begin
        state.elapsed = before + spent
        rate = (state.evaluations - counted) / max(spent, 1e-9)
        going = progress(progress_of(problem, state, rate))
        if not going or spent >= seconds:
            break
    return state


def seeds(problem: Problem, seed: int) -> np.ndarray:
    """Rows of the first generation: planes by the trade, shaken copies of them, and others.

    Args:
        problem: The bench and wishes. [-]
        seed: Same seed, same rows. [-]

    Returns:
        Rows. [-]

    Source:
        Common practice; Latin hypercube [MCKAY].

    Example:
        >>> len(seeds(problem, 1)) >= 60
        True
    """
    rng = np.random.default_rng([seed, 7])
    most = next(gene.high for gene in problem.genes if gene.name == "span")
    rows = [first_rows(FIRST, len(problem.genes), seed=seed)]
    kind = KINDS[problem.wishes.wish.kind]
    known = {
        "aspect": kind.aspect,
        "length_share": kind.length,
        "nose_share": kind.nose,
        "stab_share": kind.stab,
        "fin_share": kind.fin,
        "pack_share": kind.pack * kind.nose,
    }
    for share in SEED_SPANS:
        by_trade = trade_values(problem, span=share * most)
        for values in (by_trade, by_trade | known):
            row = problem.shares(values)
            near = row + SHAKEN * rng.standard_normal((NEARBY, len(row)))
            rows.append(np.clip(np.vstack([row, near]), 0.0, 1.0))
    return np.vstack(rows)


def _generation(problem: Problem, state: State, crew: Crew, rows: list[Row]) -> None:
    """Compute one generation; the state is changed only once all of it is there."""
    found = [each for each in crew.work("score", rows) if isinstance(each, Score)]
    state.evaluations += len(found)
    state.met += sum(score.passes for score in found)
    known = state.scores | {score.shares: score for score in found}
    pools = _kept(state, problem, known, found)
    chosen = _to_draw(state, pools, known)
    if chosen:
        many = [each for each in crew.work("draw", chosen) if isinstance(each, Drawn)]
        state.drawn.update(zip(chosen, many, strict=True))
    members = {member.shares for pool in pools for member in pool}
    state.scores = {row: s for row, s in known.items() if row in members or row in state.drawn}
    state.pools = tuple(tuple(member.shares for member in pool) for pool in pools)


def _guess(state: State) -> Guess:
    return learnt([(state.scores[row], many) for row, many in state.drawn.items()])


def _kept(state: State, problem: Problem, known: dict[Row, Score], found: Sequence[Score]) -> Pools:
    guess = _guess(state)
    old = [[known[row] for row in pool] for pool in state.pools] or [[] for _ in AIMS]
    drawn = [known[row] for row in state.drawn]
    pools = tuple(tuple(_members(state, problem, guess, pool)) for pool in old)
    return kept(pools, list(_members(state, problem, guess, [*found, *drawn])))


def _pools(state: State, guess: Guess, problem: Problem) -> Pools:
    return tuple(
        tuple(_members(state, problem, guess, [state.scores[row] for row in pool]))
        for pool in state.pools
    )


def _members(
    state: State, problem: Problem, guess: Guess, scores: Iterable[Score]
) -> Iterable[Member]:
    wished = problem.wishes.wish.share_least
    for score in scores:
        if not score.passes:
            yield Member(score.shares, (score.shortfall,) * len(AIMS), (0.0,) * len(AIMS))
            continue
        share = share_of(state, guess, score)
        short = max(wished - share, 0.0)
        costs = tuple(aim.cost(score.figures, share) for aim in AIMS)
        yield Member(score.shares, (short,) * len(AIMS), costs)


def share_of(state: State, guess: Guess, score: Score) -> float:
    """Share of builds that pass: drawn when it was, else guessed.

    Args:
        state: The search. [-]
        guess: What was learnt. [-]
        score: The candidate. [-]

    Returns:
        Share. [-]

    Source:
        Definition.

    Example:
        >>> share_of(State(), Guess(), Score((0.5,), 0.0, 0.0))
        1.0
    """
    many = state.drawn.get(score.shares)
    return guess.share(score.margins) if many is None else many.share


def _to_draw(state: State, pools: Pools, known: dict[Row, Score]) -> list[Row]:
    """The best of the pools that pass and whose builds were not drawn yet, taken in turns."""
    chosen: list[Row] = []
    for place in range(max((len(pool) for pool in pools), default=0)):
        for pool in pools:
            if place >= len(pool) or len(chosen) >= DRAWN:
                continue
            row = pool[place].shares
            if known[row].passes and row not in state.drawn and row not in chosen:
                chosen.append(row)
    return chosen


def progress_of(problem: Problem, state: State, rate: float = 0.0) -> Progress:
    """How a search stands.

    Args:
        problem: The bench and wishes. [-]
        state: The search. [-]
        rate: Planes computed a second. [1/s]

    Returns:
        The figures that a face shows. [-]

    Source:
        Definition.

    Example:
        >>> progress_of(problem, State()).met
        0
    """
    sure = sure_ones(problem, state)
    best = tuple(
        min(sure, key=lambda s: aim.cost(s.figures, state.drawn[s.shares].share), default=None)
        for aim in AIMS
    )
    share = None if best[0] is None else state.drawn[best[0].shares].share
    return Progress(
        state.generation, state.evaluations, state.elapsed, rate, state.met, best, share
    )


def sure_ones(problem: Problem, state: State) -> list[Score]:
    """Candidates that pass every check and wish, at the wished share of builds that were drawn.

    Args:
        problem: The bench and wishes. [-]
        state: The search. [-]

    Returns:
        The candidates, in the order they were met. [-]

    Source:
        Definition.

    Example:
        >>> sure_ones(problem, State())
        []
    """
    wished = problem.wishes.wish.share_least
    return [
        state.scores[row]
        for row, many in state.drawn.items()
        if many.share >= wished and state.scores[row].passes
    ]
