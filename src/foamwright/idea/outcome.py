"""The whole way from wishes to proposals, for any face: progress, stop, go on."""

from __future__ import annotations

import contextlib
import hashlib
from collections.abc import Callable, Generator
from dataclasses import dataclass
from pathlib import Path

from foamwright.idea.problem import Case, Problem, problem_of
from foamwright.idea.propose import MOST, Proposal, proposals
from foamwright.idea.relax import Collision, collide
from foamwright.idea.search import Progress, search, sure_ones
from foamwright.idea.state import State, load_state, save_state
from foamwright.idea.workers import Crew, crew_of


@dataclass(frozen=True, slots=True)
class Plan:
    """How to search.

    Attributes:
        seconds: Time for the search; drawing conclusions takes a little more. [s]
        generations: Generations of this run; None leaves it to the time. [-]
        seed: Same seed and generations, same answer. [-]
        jobs: Cores; None takes all. [-]
        cluster: Address of a Dask scheduler; None has none.
        state_file: Where the search is kept after every few generations; None keeps it nowhere.
        go_on: Take up the search in the state file.
        most: Proposals. [-]
    """

    seconds: float = 60.0
    generations: int | None = None
    seed: int = 1
    jobs: int | None = None
    cluster: str | None = None
    state_file: Path | None = None
    go_on: bool = False
    most: int = MOST


@dataclass(frozen=True, slots=True)
class Outcome:
    """What came of a search.

    Attributes:
        proposals: Three to five, fewer when no more differ; none when nothing passes.
        collision: Why nothing passes; None when something does.
        best_share: Largest share of builds that pass of any plane that passes; 0 for none. [-]
        holding_back: Of that plane, checks that pass in fewest builds, with their share. [-]
        state: The search as it stands.
        evaluations: Planes computed, all runs. [-]
        elapsed: Time spent, all runs. [s]
    """

    proposals: tuple[Proposal, ...]
    collision: Collision | None
    best_share: float
    holding_back: tuple[tuple[str, float], ...]
    state: State
    evaluations: int
    elapsed: float


KEEP_EVERY = 10  # generations between two savings of the state


def mark_of(case: Case) -> str:
    """A mark by which a kept search is known to belong to wishes and what is searched.

    Args:
        case: The bench and wishes. [-]

    Returns:
        Sixteen digits. [-]

    Source:
        SHA-256.

    Example:
        >>> len(mark_of(case))
        16
    """
    genes = [(gene.name, gene.low, gene.high) for gene in problem_of(case).genes]
    text = f"{genes} {case.wishes.model_dump_json()} {case.stock_file}"
    if case.stock_file is not None:
        text += Path(case.stock_file).read_text(encoding="utf-8", errors="replace")
    return hashlib.sha256(text.encode()).hexdigest()[:16]


def find_ideas(
    case: Case,
    plan: Plan,
    *,
    progress: Callable[[Progress], bool] = lambda _: True,
    say: Callable[[str], None] = lambda _: None,
) -> Outcome:
    """Search, then draw up proposals, or say which wishes collide.

    Args:
        case: The bench and wishes. [-]
        plan: How to search. [-]
        progress: Told after every generation; False stops the search, and what it has so far is
            drawn up. [-]
        say: Told in words what goes on. [-]

    Returns:
        What came of it. [-]

    Raises:
        DesignError: The bench can drive nothing, or the state file cannot be taken up.

    Source:
        docs/physics/search.md.

    Example:
        >>> find_ideas(case, Plan(generations=0, jobs=1)).evaluations  # doctest: +SKIP
        78
    """
    problem = problem_of(case)
    state = _begun(case, plan)

    def told(now: Progress) -> bool:
        if plan.state_file is not None and now.generation % KEEP_EVERY == 0:
            save_state(state, plan.state_file, wishes=mark_of(case))
        return progress(now)

    with crew_of(case, jobs=plan.jobs, cluster=plan.cluster, say=say) as crew:
        search(
            case,
            crew,
            state=state,
            seconds=plan.seconds,
            generations=plan.generations,
            progress=told,
        )
    if plan.state_file is not None:
        save_state(state, plan.state_file, wishes=mark_of(case))
    return concluded(problem, case, state, plan, say=say)


def _begun(case: Case, plan: Plan) -> State:
    if plan.go_on and plan.state_file is not None:
        return load_state(plan.state_file, wishes=mark_of(case))
    return State(seed=plan.seed)


def concluded(
    problem: Problem,
    case: Case,
    state: State,
    plan: Plan,
    *,
    say: Callable[[str], None] = lambda _: None,
) -> Outcome:
    """Draw up what a search found.

    Args:
        problem: The bench and wishes. [-]
        case: The same, as workers get them. [-]
        state: The search. [-]
        plan: How many proposals, and who computes. [-]
        say: Told in words what goes on. [-]

    Returns:
        Proposals, or why there are none. [-]

    Source:
        Definition.

    Example:
        >>> concluded(problem, case, state, Plan(jobs=1)).proposals  # doctest: +SKIP
    """
    passing = [many for row, many in state.drawn.items() if state.scores[row].passes]
    surest = max(passing, key=lambda many: many.share, default=None)
    best = surest.share if surest else 0.0
    weakest = sorted(surest.shares.items(), key=lambda item: item[1])[:3] if surest else []
    made: tuple[Proposal, ...] = ()
    collision = None
    if sure_ones(problem, state):
        made = proposals(problem, state, most=plan.most, say=say)
    elif best == 0.0:
        with contextlib.ExitStack() as held:

            def crew(wide: Case) -> Crew:
                return held.enter_context(_local(wide, plan, say))

            collision = collide(case, crew, seed=plan.seed, say=say)
    return Outcome(made, collision, best, tuple(weakest), state, state.evaluations, state.elapsed)


@contextlib.contextmanager
def _local(case: Case, plan: Plan, say: Callable[[str], None]) -> Generator[Crew]:
    with crew_of(case, jobs=plan.jobs, cluster=plan.cluster, say=say) as crew:
        yield crew
