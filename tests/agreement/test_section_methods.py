"""Section model against thin-aerofoil theory."""

import math

import numpy as np
import pytest

from foamwright.aero.folded_polar import folded_curve
from foamwright.aero.outline import panel_points
from foamwright.aero.refine import (
    COUPLED_REYNOLDS,
    coupled_branch,
    coupled_grid,
    one_way_branch,
    refined_curve,
)
from foamwright.aero.sections import outline_polar, polar_at
from foamwright.aero.thin import thin_section
from foamwright.aero.viscous import section_curve
from foamwright.aero.vortex_panels import lift_and_moment, panel_flow
from foamwright.shape.folded import FoldedRecipe, folded_section
from foamwright.shape.reference import clark_y
from section_outlines import GM15_LOWER, GM15_UPPER, SD7003_LOWER, SD7003_UPPER


def rows(points):
    return tuple((float(x), float(z)) for x, z in points)


OUTLINES = {
    "Clark-Y": (rows(clark_y()[0]), rows(clark_y()[1])),
    "GM15": (GM15_UPPER, GM15_LOWER),
    "SD7003": (SD7003_UPPER, SD7003_LOWER),
}


@pytest.mark.parametrize("name", OUTLINES)
def test_inviscid_panels(name):
    """Zero-lift angle within 0.4°, moment within 0.015, slope 2 pi (1 + 0.77 t/c) within 3 %."""
    upper, lower = OUTLINES[name]
    zero, moment = thin_section(upper, lower)
    lift, twist = lift_and_moment(panel_flow(panel_points(upper, lower)), np.array([zero, 0.05]))
    slope = float(lift[1] - lift[0]) / (0.05 - zero)
    assert float(lift[0]) / slope == pytest.approx(0.0, abs=math.radians(0.4))
    assert float(twist[0]) == pytest.approx(moment, abs=0.015)
    thickness = max(np.interp(0.3, *np.array(upper).T) - np.interp(0.3, *np.array(lower).T), 0.0)
    assert slope == pytest.approx(2.0 * math.pi * (1.0 + 0.77 * thickness), rel=0.03)


def test_both_layers_agree_where_neither_has_a_bubble():
    """Clark-Y at Re 400 000, lift 0.3 to 0.7: transition runs ahead of separation; within 15 %."""
    upper, lower = OUTLINES["Clark-Y"]
    points = panel_points(upper, lower)
    numbers = np.array([4e5])
    curve = section_curve(panel_flow(points), numbers)
    fitted, refined = one_way_branch(curve, 0), refined_curve(points, numbers, curve)
    places = np.linspace(0.3, 0.7, 9)
    end = int(refined.stall[0]) + 1
    found = np.interp(places, refined.lift[0, :end], refined.drag[0, :end])
    assert found == pytest.approx(np.interp(places, fitted.lift, fitted.drag), rel=0.15)


@pytest.mark.parametrize("name", OUTLINES)
def test_viscous_at_the_largest_reynolds_number(name):
    """At Re 400 000 the real section keeps 75 to 100 % of the slope, and its zero within 0.7°.

    The strongly cambered one loses more: measured, its zero lies 1.0° off already [UIUC-1].
    """
    upper, lower = OUTLINES[name]
    zero, _ = thin_section(upper, lower)
    polar = polar_at(outline_polar(upper, lower), 4e5)
    low, high = np.interp(np.radians([1.0, 5.0]), polar.alpha, polar.lift)
    share = (high - low) / math.radians(4.0) / (2.0 * math.pi)
    assert 0.75 < share < 1.0
    start, end = np.searchsorted(polar.alpha, np.radians([-8.0, 3.0]))
    own = float(np.interp(0.0, polar.lift[start:end], polar.alpha[start:end]))
    assert own == pytest.approx(zero, abs=math.radians(1.3 if name == "GM15" else 0.7))


def test_a_folded_section_gets_what_the_layer_itself_finds():
    """Fits against the layer: zero 0.9°, largest lift 0.13, lift 0.08, drag 25 % up to lift 0.8.

    About two and a half times the scatter of sections left out of the fits.
    """
    recipe = FoldedRecipe(
        creases=(0.10, 0.20),
        spread=True,
        bevel=None,
        spar_height=0.010,
        spar_width=0.0254,
        spar_position=0.27,
        target="clark-y",
    )
    section = folded_section(recipe, 0.19, 0.005)
    points = panel_points(section.upper, section.lower, smooth=True)
    polar = coupled_grid(points)
    fitted = folded_curve(points, np.array(COUPLED_REYNOLDS))
    for row in range(1, len(COUPLED_REYNOLDS)):
        branch, end = coupled_branch(polar, row), int(fitted.lift[row].argmax()) + 1
        alpha, lift, drag = fitted.alpha[row, :end], fitted.lift[row, :end], fitted.drag[row, :end]
        zero = float(np.interp(0.0, lift, alpha))
        assert zero == pytest.approx(branch.zero, abs=math.radians(0.9))
        assert lift[-1] == pytest.approx(branch.lift.max(), abs=0.13)
        way = np.radians([1.0, 3.0, 5.0, 7.0])
        assert np.interp(zero + way, alpha, lift) == pytest.approx(
            np.interp(branch.zero + way, branch.alpha, branch.lift), abs=0.08
        )
        assert np.interp(zero + way, alpha, drag) == pytest.approx(
            np.interp(branch.zero + way, branch.alpha, branch.drag), rel=0.25
        )
