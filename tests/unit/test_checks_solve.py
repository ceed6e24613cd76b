"""The search along a lever, and levers in builder's measures."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from foamwright.checks.levers import grid
from foamwright.checks.solve import MOST_TRIES, first_enough


def counted(function):
    """The function, and the list of what it was asked."""
    asked = []

    def ask(index):
        asked.append(index)
        return function(index)

    return ask, asked


@settings(deadline=None, max_examples=200)
@given(
    count=st.integers(1, 300),
    slope=st.floats(0.001, 0.2),
    curve=st.floats(0.6, 1.6),
    present=st.floats(-1.0, 0.04),
)
def test_the_first_enough_of_a_growing_margin(count, slope, curve, present):
    def margin(index):
        return present + slope * (index + 1) ** curve

    ask, asked = counted(margin)
    solved = first_enough(ask, count, present=present, wanted=0.07)
    assert len(asked) <= MOST_TRIES
    assert len(set(asked)) == len(asked)
    enough = [index for index in range(count) if margin(index) >= 0.07]
    if not enough:
        assert solved is None or not solved.enough
    elif solved is not None and solved.enough:
        assert margin(solved.index) >= 0.07
        if solved.tries < MOST_TRIES:
            assert solved.index == enough[0]
    else:
        assert len(asked) == MOST_TRIES  # only for want of tries


def test_a_lever_that_makes_it_worse_is_given_up_at_once():
    ask, asked = counted(lambda index: -0.1 - 0.02 * index)
    assert first_enough(ask, 40, present=-0.05, wanted=0.07) is None
    assert len(asked) <= 4


def test_settings_that_are_not_possible_are_walked_round():
    """Nothing beyond the 8th setting can be built; the 6th is enough."""
    ask, _ = counted(lambda index: None if index > 7 else -0.3 + 0.07 * index)
    solved = first_enough(ask, 60, present=-0.4, wanted=0.07)
    assert solved is not None
    assert solved.index == 6
    assert solved.enough


def test_not_enough_gives_the_best_seen():
    solved = first_enough(lambda index: -0.3 + 0.01 * index, 10, present=-0.4, wanted=0.07)
    assert solved is not None
    assert not solved.enough
    assert solved.index == 9


def test_a_margin_that_peaks_is_found_before_its_peak():
    """As with a range: too little, enough, too much."""
    ask, _ = counted(lambda index: 0.3 - 0.04 * abs(index - 12))
    solved = first_enough(ask, 60, present=-0.22, wanted=0.07)
    assert solved is not None
    assert solved.enough


@pytest.mark.parametrize(
    ("start", "end", "step", "first", "last"),
    [
        (0.203, 0.25, 0.005, 0.205, 0.25),  # next whole step above
        (0.203, 0.15, 0.005, 0.2, 0.15),  # next whole step below
        (0.2, 0.25, 0.005, 0.205, 0.25),  # the present value itself is not offered
        (0.1905, 0.3, 0.00635, 0.19685, 0.29845),  # 7 1/2 in to 7 3/4 in and on to 11 3/4 in
    ],
)
def test_grid_holds_builders_measures(start, end, step, first, last):
    values = grid(start, end, step)
    assert values[0] == pytest.approx(first)
    assert values[-1] == pytest.approx(last)
    assert all(abs(value / step - round(value / step)) < 1e-6 for value in values)
