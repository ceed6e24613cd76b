"""Sections: hand-worked numbers and what is refused."""

import math

import numpy as np
import pytest
from scipy.interpolate import CubicHermiteSpline
from shapely import LineString, Polygon

from foamwright.core.errors import DesignError
from foamwright.shape.folded import NEUTRAL, FoldedRecipe, folded_section
from foamwright.shape.layered import layered_section
from foamwright.shape.outline import measure, target_distance
from foamwright.shape.reference import clark_y
from foamwright.shape.skin import SkinProblem, bend_skin


def recipe(**values):
    base = {
        "creases": (0.10, 0.20),
        "spread": True,
        "bevel": None,
        "spar_height": 0.010,
        "spar_width": 0.0254,
        "spar_position": 0.27,
        "target": "clark-y",
    }
    return FoldedRecipe(**(base | values))


def refolded_length(section, thickness):
    """Skin path plus what each fold adds, measured by a general-purpose geometry library."""
    extra = sum(NEUTRAL[line.kind] * thickness * line.angle for line in section.lines)
    return LineString(section.skin_path).length + extra


def curve(skin):
    """The skin's cubics, from its points and slopes."""
    first = np.concatenate([[True], np.diff(skin.x) > 0.0])
    return CubicHermiteSpline(skin.x[first], skin.z[first], skin.slope[first])


def test_a_little_bent_skin_is_the_textbook_beam():
    # Clamped-clamped beam, one end turned by m: w = m x (1 - x/L)^2, at x = L/4: m L 9/64. The
    # beam holds for small slopes: at 0.01 its own error is of the order of slope^2.
    skin = bend_skin(SkinProblem((0.0, 0.0, 0.01), (0.9, 0.0, 0.0), (), (), 0.005))
    assert curve(skin)(0.225) == pytest.approx(0.01 * 0.9 * 9 / 64, rel=1e-3)


def test_skin_arc_length_is_that_of_its_curve():
    skin = bend_skin(SkinProblem((0.0, 0.0, 0.5), (1.0, 0.0, 0.0), (), (), 0.005))
    x = np.linspace(0.0, 1.0, 200001)
    z = curve(skin)(x)
    fine = np.hypot(np.diff(x), np.diff(z)).sum()
    assert skin.arc[-1] == pytest.approx(fine, abs=2e-6)


def test_skin_rests_on_its_supports_and_turns_at_its_creases():
    skin = bend_skin(
        SkinProblem(
            (0.0, 0.0, 0.4), (0.2, 0.0, -0.2), ((0.05, 0.012), (0.08, 0.012)), (0.02,), 0.005
        )
    )
    assert np.interp(0.05, skin.x, skin.z) == pytest.approx(0.012, abs=1e-9)
    assert np.interp(0.08, skin.x, skin.z) == pytest.approx(0.012, abs=1e-9)
    assert len(skin.kinks) == 1
    assert skin.kinks[0] > 0.0


def test_default_folded_section_by_hand():
    # 190 mm chord, 5 mm board, two flat 1 in strips. Table to top of the skin over the spar:
    # 4 boards = 20 mm = 10.5 % of chord; the chord line is tilted, so the thickness is near that.
    section = folded_section(recipe(), 0.19, 0.005)
    assert section.thickness_ratio == pytest.approx(0.105, abs=0.002)
    # The nose circle's middle is 5 mm up, the tail's 0.5 mm: atan(4.5 / 185).
    assert section.bottom_angle == pytest.approx(math.atan(4.5 / 184.95), rel=1e-3)
    assert section.trailing_thickness_ratio == pytest.approx(1.0 / 190)
    assert section.upper[0] == pytest.approx((0.0, 0.0), abs=1e-12)
    assert section.lower[-1][0] == pytest.approx(1.0, abs=1e-3)


def test_spar_box_is_the_strips():
    section = folded_section(recipe(), 0.19, 0.005)
    x0, z0, x1, z1 = section.spar_box
    # In the frame of the chord line, tilted by 1.4 deg: lengths of the diagonal stay.
    assert math.hypot(x1 - x0, z1 - z0) == pytest.approx(math.hypot(0.0254, 0.010), rel=1e-9)


@pytest.mark.parametrize("creases", [(), (0.1,), (0.1, 0.2), (0.1, 0.2, 0.36)])
def test_blank_keeps_its_length(creases):
    section = folded_section(recipe(creases=creases), 0.19, 0.005)
    assert refolded_length(section, 0.005) == pytest.approx(section.blank_length, abs=5e-5)


def test_lines_run_from_the_bottom_trailing_edge():
    section = folded_section(recipe(), 0.19, 0.005)
    places = [line.at for line in section.lines]
    assert places == sorted(places)
    assert [line.kind for line in section.lines][:2] == ["bevel", "fold"]
    fold = section.lines[1]
    # The wrapped paper: one board thickness of radius times the turn.
    assert fold.width == pytest.approx(0.005 * fold.angle)


def test_outline_does_not_cross_itself():
    section = folded_section(recipe(), 0.15, 0.005)
    assert Polygon([*section.lower, *section.upper[::-1]]).is_valid


@pytest.mark.parametrize(
    ("values", "chord", "words"),
    [
        ({"spar_height": 0.030}, 0.19, "steeper than it can be folded"),
        ({"spar_position": 0.05}, 0.19, "the room inside the section"),
        ({"bevel": 0.25}, 0.19, "wing.bevel is 250 mm"),
        ({"creases": (0.95,), "spread": False}, 0.19, "creases must lie between"),
        ({"target": "unheard of"}, 0.19, "known targets are clark-y"),
        ({}, 0.04, "needs at least 60 mm"),
    ],
)
def test_impossible_sections_say_why(values, chord, words):
    with pytest.raises(DesignError, match=words):
        folded_section(recipe(**values), chord, 0.005)


def test_plate_is_symmetrical():
    section = layered_section("plate", 0.1, 0.005)
    assert section.thickness_ratio == pytest.approx(0.05)
    assert section.camber_ratio == pytest.approx(0.0, abs=1e-12)
    assert section.bottom_angle == 0.0


def test_stepped_thickness_is_its_layers():
    # Three layers of 5 mm on 170 mm, square to a chord line tilted by about 1.6 deg.
    section = layered_section("stepped", 0.17, 0.005, steps=(0.5, 0.75))
    assert section.thickness_ratio == pytest.approx(15 / 170, rel=2e-3)
    assert Polygon([*section.lower, *section.upper[:0:-1]]).is_valid


@pytest.mark.parametrize("steps", [(1.2,), (0.02,), (0.5, 0.51)])
def test_impossible_steps_say_why(steps):
    with pytest.raises(DesignError, match=r"wing\.steps"):
        layered_section("stepped", 0.17, 0.005, steps=steps)


def test_target_distance_of_a_shifted_section():
    upper, lower, _ = clark_y()
    shift = np.array([0.0, 0.01])
    rms, largest = target_distance("clark-y", upper + shift, lower + shift)
    assert (rms, largest) == pytest.approx((0.01, 0.01))
    assert target_distance("none", upper, lower) == (None, None)


def test_measure_of_an_ellipse():
    x = 0.5 * (1 - np.cos(np.linspace(0, np.pi, 401)))
    z = 0.06 * np.sqrt(np.clip(1 - (2 * x - 1) ** 2, 0, None))
    size = measure(np.column_stack([x, z]), np.column_stack([x, -z]))
    assert size.thickness == pytest.approx(0.12, rel=1e-3)
    assert size.camber == pytest.approx(0.0, abs=1e-12)
