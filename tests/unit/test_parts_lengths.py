"""Sticks cut from stock lengths: hand-worked plans."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from foamwright.parts.lengths import SAW, first_fit, stick_plans


def test_off_cuts_serve_the_short_pieces():
    # 0.6 leaves 0.298 of 0.9 m, which takes 0.29; 0.5 leaves 0.398, which takes 0.3 and then 0.09.
    assert first_fit([0.29, 0.6, 0.09, 0.5, 0.3], 0.9) == [[1, 0], [3, 4, 2]]
    assert first_fit([], 0.9) == []
    assert first_fit([0.9, 0.9], 0.9) == [[0], [1]]


def test_a_piece_longer_than_a_stick_takes_several():
    assert first_fit([1.0], 0.3) == [[0], [], [], []]


@settings(deadline=None, max_examples=100)
@given(st.lists(st.floats(0.02, 0.9), max_size=20))
def test_every_piece_lies_in_one_stick_with_room(pieces):
    sticks = first_fit(pieces, 0.9)
    assert sorted(n for stick in sticks for n in stick) == list(range(len(pieces)))
    for stick in sticks:
        assert sum(pieces[n] for n in stick) + SAW * (len(stick) - 1) <= 0.9 + 1e-6
    # No two sticks could be one: the fuller rule of first fit.
    assert len(sticks) <= 2 * sum(p + SAW for p in pieces) / 0.9 + 1


def test_the_trainers_dowels_come_from_one_stick(cob):
    plans = {plan.stock: plan for plan in stick_plans(cob.parts.parts, cob.stock)}
    dowel = plans["hardwood dowel 1/4 in"]
    # Two of 9 in in the wing, two across the fuselage of 2 23/32 in: 0.6 m of a 0.9 m stick.
    assert len(dowel.sticks) == 1
    assert len(dowel.sticks[0]) == 4
    total = 2 * 9 * 0.0254 + sum(
        max(p.outline.bounds[2] - p.outline.bounds[0], 0)
        for p in cob.parts.parts if p.id.startswith("wing-dowel")
    )  # fmt: skip
    assert dowel.left[0] == pytest.approx(dowel.length - total - 4 * SAW, abs=1e-4)
