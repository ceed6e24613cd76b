"""Proposals, what limits them, what collides, what matters, against what can be reasoned out."""

import numpy as np
import pytest

import foamwright
from foamwright.checks.run import verdicts
from foamwright.core.verdicts import Verdict
from foamwright.idea import relax
from foamwright.idea import search as searching
from foamwright.idea.aims import AIMS
from foamwright.idea.limits import limits_of
from foamwright.idea.outcome import Plan, concluded
from foamwright.idea.problem import Case, problem_of
from foamwright.idea.propose import distance, proposals
from foamwright.idea.relax import misses, relaxed_words
from foamwright.idea.score import Score, candidate, score
from foamwright.idea.sensitivity import reach_of, sensitivity
from foamwright.idea.shares import Guess, learnt
from foamwright.idea.state import State
from foamwright.idea.task import Drawn, answer
from foamwright.idea.trade import trade_plane, trade_values
from foamwright.idea.workers import crew_of
from foamwright.idea.write import design_text
from foamwright.opening import load_text
from idea_samples import PASSES, WISHES, case_of

COB = WISHES.parent / "brindle-cob.toml"
SMALL = {"span": 0.92, "aspect": 5.1}
LARGE = {"span": 1.2, "aspect": 6.0}


@pytest.fixture(scope="module")
def problem():
    return problem_of(case_of("ostermyr"))


@pytest.fixture(scope="module")
def state(problem):
    """A search that met two planes, one small and one large, both drawn."""
    base = trade_values(problem) | PASSES
    rows = [tuple(problem.shares(base | each).tolist()) for each in (SMALL, LARGE)]
    case = case_of("ostermyr")
    scores = answer(case, "score", rows)
    drawn = answer(case, "draw", [each.shares for each in scores], builds=200)
    return State(
        scores={each.shares: each for each in scores},
        drawn=dict(zip((each.shares for each in scores), drawn, strict=True)),
        pools=tuple(tuple(each.shares for each in scores) for _ in AIMS),
    )


@pytest.fixture(scope="module")
def made(problem, state):
    return proposals(problem, state)


def test_both_are_proposed_as_they_differ(made, problem, state):
    assert [each.letter for each in made] == ["A", "B"]
    shares = tuple(each.drawn.share for each in made)
    assert distance(made[0].score, made[1].score, shares=shares, problem=problem) > 1.0
    assert {each.score.shares for each in made} == set(state.scores)


def test_what_is_shown_passes_every_check(made):
    for each in made:
        bad = [c.id for c in verdicts(each.plane) if c.verdict is Verdict.FAILS]
        assert bad == []
        assert each.drawn.share >= 0.2


def test_the_larger_flies_slower_and_is_told_so(made):
    by_span = sorted(made, key=lambda each: each.score.figures["span"])
    assert by_span[0].score.figures["stall_speed"] > by_span[1].score.figures["stall_speed"]
    assert "flies slowest" in by_span[1].good
    assert "takes most room in the car" in by_span[1].bad


def test_design_file_is_the_same_plane(made):
    text = design_text(made[0])
    plane = load_text(text, "a.toml")
    assert plane.balance.all_up_mass == pytest.approx(made[0].score.figures["mass"], rel=1e-5)
    assert plane.aero.stall_speed == pytest.approx(made[0].score.figures["stall_speed"], rel=1e-5)
    lines = [line for line in text.splitlines() if " = " in line and not line.startswith("#")]
    told = [line for line in lines if "# " in line or line.startswith(("name", "notes"))]
    assert told == lines  # every figure says where it came from


def test_a_longer_span_than_fits_the_car_is_what_limits(problem, state):
    """At the longest span the push must break that wish and no other bound of the search."""
    base = trade_values(problem) | PASSES | {"span": 1.27, "aspect": 6.0, "length_share": 0.72}
    found = score(problem, problem.shares(base))
    limits = limits_of(problem, state, found)
    longer = [each for each in limits if each.gene == "span" and each.factor > 1.0]
    assert longer
    assert "span_most" in longer[0].broken
    assert "longer than fits the car" in longer[0].words


def test_no_plane_has_a_shortfall_of_nothing_but_those_that_pass(problem):
    """Passing and a shortfall of zero are the same thing; the checks themselves agree."""
    rng = np.random.default_rng(2)
    for _ in range(3):
        shares = rng.random(len(problem.genes))
        found = score(problem, shares)
        if not found.figures:
            assert found.shortfall > 0.0
            continue
        plane = candidate(problem, shares)
        fails = [c.id for c in verdicts(plane) if c.verdict is Verdict.FAILS]
        assert (found.checks_shortfall > 0.0) == bool(fails)


def test_the_pack_is_where_the_cg_lies_amid_its_limits(problem, state):
    for found in state.scores.values():
        aero = candidate(problem, np.array(found.shares)).aero
        assert 0.09 < aero.static_margin < 0.16


def test_plane_by_the_trade_balances_at_28_percent():
    """Where the tray reaches: CG at 28 % of the mean chord to within a step of the pack."""
    problem = problem_of(case_of("cobb-hollow"))
    plane = trade_plane(problem, trade_values(problem))
    aero = plane.aero
    place = (plane.balance.cg[0] - aero.mean_chord_x) / aero.mean_chord
    step = problem.step * plane.train.pack.mass.typical / plane.balance.all_up_mass
    assert place == pytest.approx(0.28, abs=0.6 * step / aero.mean_chord)


def test_what_is_missed_is_told_apart(problem):
    found = Score((0.5,), 0.5, 0.5, {"mass_most": 0.1}, {"wind": -0.2, "spiral": -0.3})
    assert misses(problem, found) == ({"mass_most": 0.1, "field.wind": 0.2}, pytest.approx(0.3))


def test_relaxation_in_words(state):
    found = next(iter(state.scores.values()))
    problem = problem_of(case_of("ostermyr", boards_most=2, mass_most=0.4))
    words = relaxed_words(problem, found, {"boards_most": 0.5, "mass_most": 0.2})
    boards = f"{found.figures['boards']:.0f}"
    assert words.startswith(f"Use {boards} boards instead of 2, and allow 4")
    assert words.endswith("g instead of 400 g.")


def test_power_is_that_of_the_planes_own_gear():
    """Two benches one after the other: neither gets the other's pack."""
    for name, capacity in (("lindmere", 450), ("pell-wharf", 1300)):
        problem = problem_of(case_of(name))
        plane = candidate(problem, problem.shares(trade_values(problem)))
        assert plane.power is not None
        assert plane.train.pack.capacity == pytest.approx(3.6 * capacity)


def test_guess_is_the_normal_share_of_each_check():
    """One check, one standard deviation inside: 84.1 % of builds; two alike go as their power."""
    guess = Guess({"launch": 0.1}, 1.0)
    assert guess.share({"launch": 0.1}) == pytest.approx(0.8413, abs=1e-4)
    assert Guess({"launch": 0.1}, 0.5).share({"launch": 0.1}) == pytest.approx(
        0.8413**0.5, abs=1e-4
    )


def test_guess_learns_the_spread():
    found = Score((0.5,), 0.0, 0.0, margins={"launch": 0.1})
    many = Drawn(0.84, {"launch": 0.1}, {"launch": 0.84})
    assert learnt([(found, many)] * 3).share({"launch": 0.1}) == pytest.approx(0.84, abs=0.01)


def test_slope_of_the_static_margin_is_the_mass_ratio():
    """Pack aft by dx moves the CG by dx m_pack / m: margin over width 0.15, statics."""
    plane = foamwright.load(COB)
    found = sensitivity(plane, keys=("pack.position",), ranges=False)
    slope = found.slopes[0, found.checks.index("static_margin")]
    pack, mass = plane.train.pack.mass.typical, plane.balance.all_up_mass
    expected = found.steps[0] * pack / mass / plane.aero.mean_chord / 0.15
    # The margin counts from the nearer limit, and this plane lies nearer to too much stability.
    assert slope == pytest.approx(expected, rel=0.05)


def test_range_ends_where_a_check_fails():
    plane = foamwright.load(COB)
    reach = reach_of(plane, "wing.panel.0.dihedral")
    assert reach.high_check == "dihedral"
    assert np.degrees(reach.high) == pytest.approx(6.0, abs=0.1)  # most with ailerons


def test_no_wish_gives_way_where_something_passes(problem, state):
    case = Case(problem.wishes)
    outcome = concluded(problem, case, state, Plan(jobs=1))
    assert outcome.collision is None
    assert len(outcome.proposals) == 2


@pytest.mark.slow
def test_wishes_that_collide(monkeypatch):
    """Gear for 200 g at 120 g: the mass must give way, and the plane shown then passes."""
    case = case_of("lindmere", mass_most=0.12)
    monkeypatch.setattr(relax, "BROOD", 2)
    monkeypatch.setattr(searching, "FIRST", 12)
    with crew_of(Case(case.wishes, None, stretched=True), jobs=1) as crew:
        found = relax.collide(case, lambda _: crew, generations=2)
    assert found.relaxations
    least = found.relaxations[0]
    assert "mass_most" in least.amounts
    assert f"{1000 * least.score.figures['mass']:.0f} g instead of 120 g" in least.words
    relaxed = problem_of(
        Case(relax.relaxed_wishes(case.wishes, least.score, least.amounts), None, stretched=True)
    )
    stretched = problem_of(Case(case.wishes, None, stretched=True))
    row = relax.relaxed_row(stretched, relaxed, least.score)
    assert relax.misses(relaxed, score(relaxed, np.array(row))) == ({}, 0.0)
