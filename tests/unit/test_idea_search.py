"""The search over real planes: the same answer on any crew, stop and go on, a known best."""

import itertools

import numpy as np
import pytest

from foamwright.core.errors import DesignError
from foamwright.idea import search as searching
from foamwright.idea.evolve import Member, children, first_rows, kept
from foamwright.idea.problem import problem_of
from foamwright.idea.score import score
from foamwright.idea.state import State, load_state, save_state
from foamwright.idea.trade import trade_values
from foamwright.idea.workers import crew_of
from idea_samples import PASSES, case_of

SMALL = (("FIRST", 4), ("NEARBY", 0), ("BROOD", 1), ("DRAWN", 1))


@pytest.fixture(autouse=True)
def small(monkeypatch):
    """A dozen planes a generation, so that the tests are quick."""
    for name, value in SMALL:
        monkeypatch.setattr(searching, name, value)


def searched(state, *, generations, jobs=1, progress=lambda _: True):
    case = case_of("ostermyr")
    with crew_of(case, jobs=jobs) as crew:
        return searching.search(
            case, crew, state=state, seconds=600.0, generations=generations, progress=progress
        )


@pytest.fixture(scope="module")
def two_generations():
    heard = []
    with pytest.MonkeyPatch.context() as patch:
        for name, value in SMALL:
            patch.setattr(searching, name, value)
        found = searched(
            State(seed=5), generations=2, progress=lambda now: heard.append(now) or True
        )
    return found, heard


def test_same_answer_on_any_number_of_workers(two_generations):
    first, _ = two_generations
    other = searched(State(seed=5), generations=2, jobs=2)
    assert other.pools == first.pools
    assert other.scores == first.scores
    assert other.drawn == first.drawn


def test_stopped_and_taken_up_again(two_generations, tmp_path):
    first, _ = two_generations
    stopped = searched(State(seed=5), generations=9, progress=lambda now: now.generation < 1)
    assert stopped.generation == 1
    save_state(stopped, tmp_path / "search.json", wishes="x")
    again = load_state(tmp_path / "search.json", wishes="x")
    assert searched(again, generations=1).pools == first.pools
    assert again.evaluations == first.evaluations


def test_progress_tells_how_it_stands(two_generations):
    _, heard = two_generations
    assert [now.generation for now in heard] == [0, 1, 2]
    assert heard[1].evaluations > heard[0].evaluations > 0
    assert heard[0].rate > 0.0


def test_a_search_for_other_wishes_is_not_taken_up(tmp_path):
    file = tmp_path / "search.json"
    save_state(State(), file, wishes="these")
    with pytest.raises(DesignError, match="bench and wishes must be the same to go on"):
        load_state(file, wishes="others")
    file.write_text("{}", encoding="utf-8")
    with pytest.raises(DesignError, match="it must be a search that `foamwright idea` kept"):
        load_state(file, wishes="these")


@pytest.mark.slow
def test_best_of_a_grid_is_found():
    """Two choices left open: every plane of a 9 x 9 grid against the evolution, within 1 %."""
    case = case_of("ostermyr")
    problem = problem_of(case)
    names = [gene.name for gene in problem.genes]
    base = problem.shares(trade_values(problem) | PASSES)
    open_ones = [names.index("span"), names.index("aspect")]

    def member(pair):
        row = base.copy()
        row[open_ones] = pair
        found = score(problem, row)
        cost = found.figures.get("stall_speed", 99.0)
        return Member(tuple(map(float, pair)), (found.shortfall,), (cost,))

    grid = [member(pair) for pair in itertools.product(np.linspace(0.0, 1.0, 9), repeat=2)]
    best = min(each.costs[0] for each in grid if each.shortfalls[0] <= 0.0)
    pools = kept(((),), [member(row) for row in first_rows(12, 2, seed=1)], size=8)
    for generation in range(1, 9):
        rows = children(pools, 8, seed=1, generation=generation)
        pools = kept(pools, [member(row) for row in rows], size=8)
    assert pools[0][0].shortfalls == (0.0,)
    assert pools[0][0].costs[0] <= 1.01 * best
