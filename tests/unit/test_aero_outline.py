"""Outlines as they come: closed or blunt tails, rounded figures, loops, and what is refused."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from foamwright.aero.outline import check_outline, sides_of
from foamwright.aero.sections import outline_polar, polar_at
from foamwright.core.errors import ModelError


def four_digit(camber, place, thickness, *, tail=0.0):
    """Wing section of the four-digit family, NACA Report 460; `tail` opens the trailing edge."""
    x = 0.5 * (1.0 - np.cos(np.linspace(0.0, math.pi, 41)))
    half = 0.2969 * np.sqrt(x) - 0.126 * x - 0.3516 * x**2 + 0.2843 * x**3 - 0.1036 * x**4
    half = 5.0 * thickness * half + 0.5 * tail * x
    front = camber / place**2 * (2.0 * place * x - x * x)
    back = camber / (1.0 - place) ** 2 * (1.0 - 2.0 * place + 2.0 * place * x - x * x)
    line = np.where(x < place, front, back)
    return tuple(zip(x, line + half, strict=True)), tuple(zip(x, line - half, strict=True))


@settings(deadline=None, max_examples=6)
@given(
    camber=st.floats(0.0, 0.07),
    place=st.floats(0.3, 0.5),
    thickness=st.floats(0.05, 0.16),
    tail=st.sampled_from([-1e-5, 0.0, 1e-5, 0.003, 0.02]),
)
def test_any_ordinary_section_gets_a_finite_table(camber, place, thickness, tail):
    table = outline_polar(*four_digit(camber, place, thickness, tail=tail))
    for values in (table.lift, table.drag, table.moment, table.lift_max, table.zero_lift_angle):
        assert np.isfinite(values).all()
    assert (np.array(table.drag) > 0.0).all()
    assert 0.3 < polar_at(table, 2e5).lift_max < 2.0


def test_a_symmetric_section_lifts_nothing_at_no_angle():
    """And its largest lift at Re 200 000 lies near 1.0 (12 % thick, common knowledge)."""
    table = outline_polar(*four_digit(0.0, 0.4, 0.12))
    assert np.degrees(table.zero_lift_angle) == pytest.approx(0.0, abs=0.05)
    row = polar_at(table, 2e5)
    assert np.interp(-0.06, row.alpha, row.lift) == pytest.approx(
        -np.interp(0.06, row.alpha, row.lift), abs=0.01
    )
    assert 0.85 < row.lift_max < 1.2


def test_a_symmetric_section_is_its_own_mirror_image():
    table = outline_polar(*four_digit(0.0, 0.4, 0.09))
    for reynolds in (40e3, 70e3, 1e5, 3e5):
        row = polar_at(table, reynolds)
        below, above = row.alpha < 0.0, (row.alpha > 0.0) & (row.alpha < 0.36)
        assert np.allclose(row.lift[below], -row.lift[above][::-1])
        assert np.allclose(row.drag[below], row.drag[above][::-1])
        assert np.allclose(row.moment[below], -row.moment[above][::-1])


def test_a_folded_section_is_not_called_compared():
    table = outline_polar(*four_digit(0.03, 0.4, 0.1), smooth=True)
    assert not table.validated
    assert "no section with creases" in table.note


def test_a_polar_has_no_spikes():
    """From degree to degree the lift turns by less than 0.2, between the stalls."""
    for outline in (four_digit(0.0, 0.4, 0.06), four_digit(0.06, 0.4, 0.09)):
        table = outline_polar(*outline)
        for lift in np.array(table.lift)[1:]:
            turn = np.abs(np.diff(lift, 2))
            start = int(np.searchsorted(table.alpha, math.radians(-6.0)))
            assert turn[start : int(lift.argmax())].max() < 0.2


def test_a_thin_cambered_plate_lifts_like_one():
    """4 % camber, 2 % thick, Re 100 000: largest lift 1.1 (Pelletier & Mueller, from memory)."""
    x = np.linspace(0.0, 1.0, 41)
    half, line = (
        0.01 * np.minimum(1.0, np.sqrt(20.0 * x)) * np.minimum(1.0, 6.0 * (1.0 - x)),
        0.16 * x * (1.0 - x),
    )
    upper, lower = (tuple(zip(x, line + sign * half, strict=True)) for sign in (1.0, -1.0))
    table = outline_polar(upper, lower)
    assert polar_at(table, 1e5).lift_max == pytest.approx(1.1, abs=0.1)
    assert -6.0 < np.degrees(table.zero_lift_angle[4]) < -1.0
    assert not table.validated


def test_a_loop_becomes_two_sides():
    upper, lower = four_digit(0.03, 0.4, 0.1)
    turned = (
        np.array([*upper[::-1], *lower[1:]]) @ np.array([[0.8, 0.6], [-0.6, 0.8]]) * 250.0 + 7.0
    )
    for loop in (turned, turned[::-1]):
        found = sides_of([(float(x), float(y)) for x, y in loop])
        assert np.allclose(found[0], upper, atol=2e-3)
        assert np.allclose(found[1], lower, atol=2e-3)


@pytest.mark.parametrize(
    ("change", "words"),
    [
        (lambda u, low: (low, u), "swap them"),
        (lambda u, low: (u[::-1], low[::-1]), "open at its tail"),
        (lambda u, low: (u, tuple((x, y - 0.05) for x, y in low)), "open at its nose"),
        (lambda u, low: (u, tuple((x, y - 0.2 * x) for x, y in low)), "open at its tail"),
        (lambda u, low: (u, u), "no thickness"),
        (lambda u, low: (u[:2], low), "at least three"),
        (lambda u, low: (((0.0, 0.0), (0.5, math.nan), (1.0, 0.0)), low), "finite"),
        (lambda u, low: (u, tuple((x, y + 0.2 * (x > 0.5)) for x, y in low)), "crosses itself"),
        (lambda u, low: ((*u[:12], u[5], *u[12:]), low), "crosses itself"),
    ],
)
def test_what_is_no_section_is_refused_in_words(change, words):
    with pytest.raises(ModelError, match=words):
        check_outline(*change(*four_digit(0.03, 0.4, 0.1)))


def test_a_loop_of_nonsense_is_refused():
    with pytest.raises(ModelError, match="six finite points"):
        sides_of([(0.0, 0.0), (1.0, math.inf)])
