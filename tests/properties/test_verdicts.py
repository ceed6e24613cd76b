"""Margins grow towards the middle of their limits, whatever the limits are."""

from hypothesis import assume, given, settings
from hypothesis import strategies as st

from foamwright.checks.judge import margin_of, verdict_of
from foamwright.core.verdicts import Verdict

NUMBER = st.floats(-1e3, 1e3, allow_nan=False)
ORDER = {Verdict.FAILS: 0, Verdict.CLOSE: 1, Verdict.HOLDS: 2}


@settings(deadline=None)
@given(NUMBER, NUMBER, NUMBER)
def test_further_above_a_lower_limit_is_never_worse(low, value, more):
    assume(abs(low) > 1e-6)
    higher = margin_of(value + abs(more), low, None)
    assert higher >= margin_of(value, low, None)


@settings(deadline=None)
@given(NUMBER, NUMBER, NUMBER)
def test_further_below_an_upper_limit_is_never_worse(high, value, less):
    assume(abs(high) > 1e-6)
    assert margin_of(value - abs(less), None, high) >= margin_of(value, None, high)


@settings(deadline=None)
@given(NUMBER, st.floats(1e-3, 1e3), NUMBER)
def test_nearer_the_middle_is_never_worse(low, width, value):
    high = low + width
    nearer = 0.5 * (value + 0.5 * (low + high))
    assert margin_of(nearer, low, high) >= margin_of(value, low, high) - 1e-12


@settings(deadline=None)
@given(NUMBER, st.floats(1e-3, 1e3), NUMBER)
def test_inside_and_only_inside_does_not_fail(low, width, value):
    high = low + width
    assume(min(abs(value - low), abs(value - high)) > 1e-9)
    fails = verdict_of(margin_of(value, low, high)) is Verdict.FAILS
    assert fails == (not low <= value <= high)


@settings(deadline=None)
@given(st.floats(-2.0, 2.0), st.floats(0.0, 1.0))
def test_a_larger_margin_never_has_a_worse_verdict(margin, more):
    assert ORDER[verdict_of(margin + more)] >= ORDER[verdict_of(margin)]
