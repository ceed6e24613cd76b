"""Pieces of the aerodynamics that can be worked out by hand."""

import math

import numpy as np
import pytest

from airframes import clark_section, plate, trainer
from foamwright.aero.bodies import body_effect, wing_height_effect
from foamwright.aero.closures import entrainment_shape, laminar_shape, shape_of_entrainment
from foamwright.aero.mesh import Fineness, covered, mesh_of
from foamwright.aero.outline import check_outline, fair_steps, panel_points
from foamwright.aero.plates import base_drag, plate_curves
from foamwright.aero.sections import outline_polar, polar_at, polar_of
from foamwright.aero.thin import flap_moment, hinge_moment_slopes, thin_section
from foamwright.aero.vortex import far_wash, horseshoe
from foamwright.aero.vortex_panels import lift_and_moment, panel_flow
from foamwright.aero.wing import bare_wing, plain_wing
from foamwright.core.errors import ModelError


def test_horseshoe_far_behind():
    """Far behind, at the middle of a pair 2 m apart: two vortices of 1/(2 pi), down together."""
    point = np.array([[1e4, 0.0, 0.0]])
    _, y, z = horseshoe(point, np.array([[0.0, -1.0, 0.0]]), np.array([[0.0, 1.0, 0.0]]))
    assert z[0, 0] == pytest.approx(-1.0 / math.pi, rel=1e-4)
    assert y[0, 0] == pytest.approx(0.0, abs=1e-9)


def test_horseshoe_bound_part():
    """One metre ahead of the middle of a bound vortex 2 m long, legs going the other way."""
    point = np.array([[-1.0, 0.0, 0.0]])
    _, _, z = horseshoe(point, np.array([[0.0, -1.0, 0.0]]), np.array([[0.0, 1.0, 0.0]]))
    # Bound: (cos 45 + cos 45)/(4 pi) up; legs: 2 (1 - cos 45)/(4 pi) down.
    expected = (math.sqrt(2.0) - 2.0 * (1.0 - math.sqrt(0.5))) / (4.0 * math.pi)
    assert z[0, 0] == pytest.approx(expected, rel=1e-6)


def test_far_wash_of_a_pair():
    _, z = far_wash(np.zeros((1, 2)), np.array([[-0.5, 0.0]]), np.array([[0.5, 0.0]]))
    assert z[0, 0] == pytest.approx(-2.0 / math.pi)  # 2 * 1/(2 pi 0.5)


def test_mesh_covers_the_wing():
    frame = trainer()
    mesh = mesh_of([frame.wing], [Fineness(16, 5)])
    area = 2.0 * float((mesh.strips.chord * mesh.strips.width).sum())
    assert area == pytest.approx(frame.wing.area, rel=1e-9)
    share = covered(mesh.strips, 0, frame.wing.controls[0])
    length = 2.0 * float((share * mesh.strips.width).sum())
    # 0.09 to 0.95 of the half span
    assert length == pytest.approx(0.86 * 1.168, rel=0.01)


def test_flat_plate_by_panels_and_thin_theory():
    """A 6 % Joukowski-like thin section has a slope near 2 pi (1 + 0.77 t/c)."""
    theta = np.linspace(0.0, math.pi, 41)
    x = 0.5 * (1.0 - np.cos(theta))
    half = 0.05 * (2.969 * np.sqrt(x) - 1.26 * x - 3.516 * x**2 + 2.843 * x**3 - 1.036 * x**4)
    points = panel_points(
        tuple(zip(x, 0.6 * half, strict=True)), tuple(zip(x, -0.6 * half, strict=True))
    )
    lift, moment = lift_and_moment(panel_flow(points), np.radians([0.0, 4.0]))
    slope = float(lift[1] - lift[0]) / math.radians(4.0)
    assert slope == pytest.approx(2.0 * math.pi * (1.0 + 0.77 * 0.006), rel=0.05)
    assert lift[0] == pytest.approx(0.0, abs=1e-3)
    assert moment[1] == pytest.approx(0.0, abs=0.01)


def test_circular_arc_zero_lift():
    """A circular arc of 4 % camber: alpha0 = -2 f, cm = -pi f (thin theory)."""
    x = np.linspace(0.0, 1.0, 101)
    arc = tuple(zip(x, 4.0 * 0.04 * x * (1.0 - x), strict=True))
    zero, moment = thin_section(arc, arc)
    assert zero == pytest.approx(-0.08, rel=0.01)
    assert moment == pytest.approx(-math.pi * 0.04, rel=0.01)


def test_flap_moment_of_a_quarter_flap():
    """Hinge at x/c 0.75: cos h = -0.5, sin h = 0.866: -0.5 * 0.866 * 1.5."""
    assert flap_moment(0.25) == pytest.approx(-0.6495, rel=1e-3)


def test_whole_chord_flap_is_a_wing():
    """A flap of the whole chord: its hinge moment per deflection is that per incidence."""
    by_alpha, by_flap = hinge_moment_slopes(0.999)
    # Moment of 2 pi about the leading edge: quarter chord arm.
    assert by_alpha == pytest.approx(-2.0 * math.pi * 0.25, rel=0.02)
    assert by_flap == pytest.approx(by_alpha, rel=0.05)


def test_closures_invert():
    shapes = np.array([1.3, 1.5, 1.8, 2.2])
    assert shape_of_entrainment(entrainment_shape(shapes)) == pytest.approx(shapes, rel=0.03)
    assert laminar_shape(np.array(0.0)) == pytest.approx(2.61)


def test_steps_are_bridged():
    upper = [(0.0, 0.0), (0.02, 0.03), (0.5, 0.055), (0.502, 0.03), (0.6, 0.028), (1.0, 0.01)]
    side, height = fair_steps(upper)
    assert height == pytest.approx(0.025)
    assert len(side) == 4  # the two points in the step's lee are gone
    assert fair_steps([(0.0, 0.0), (0.5, 0.05), (1.0, 0.0)])[1] == 0.0


def test_blunt_edge_of_nothing():
    assert base_drag(0.0, 0.02) == 0.0


def test_plate_is_odd_in_alpha():
    lift, drag, _ = plate_curves(
        0.04, 0.04, reynolds=np.array([1e5]), alpha=np.radians([-12.0, -5.0, 0.0, 5.0, 12.0])
    )
    assert lift[0] == pytest.approx(-lift[0, ::-1])
    assert drag[0] == pytest.approx(drag[0, ::-1])


def test_polar_goes_on_past_the_stall():
    polar = polar_of(clark_section())
    table = polar_at(polar, 1.5e5)
    assert np.isfinite([table.lift, table.drag, table.moment]).all()
    assert table.lift[-1] < table.lift_max
    assert table.drag[-1] > 0.2
    assert not table.extrapolated
    assert polar_at(polar, 2.5e4).extrapolated


def test_thick_section_is_flagged():
    x = np.linspace(0.0, 1.0, 41)
    half = 0.2 * np.sqrt(x) * (1.0 - x)
    polar = outline_polar(tuple(zip(x, half, strict=True)), tuple(zip(x, -half, strict=True)))
    assert not polar.validated
    assert "outside the range" in polar.note


def test_plates_by_formula():
    assert "by formula" in polar_of(plate()).note


@pytest.mark.parametrize(
    ("upper", "lower", "words"),
    [
        (((0, 0), (0.5, 0.0), (1, 0)), ((0, 0), (0.5, 0.0), (1, 0)), "no thickness"),
        (((0, 0), (0.3, 0.1), (1, 0)), ((0, 0), (0.3, 0.02), (0.7, 0.2), (1, 0)), "crosses itself"),
        (((0, 0.1), (0.3, 0.1), (1, 0)), ((0, -0.1), (0.3, -0.1), (1, 0)), "open at its nose"),
        (((0, 0), (0.3, 0.1), (0.8, 0)), ((0, 0), (0.3, -0.02), (1, 0)), "open at its tail"),
        (((0, 0), (1, 0)), ((0, 0), (1, 0)), "three finite points"),
    ],
)
def test_impossible_outlines(upper, lower, words):
    with pytest.raises(ModelError, match=words):
        check_outline(upper, lower)


def test_impossible_wings():
    with pytest.raises(ModelError, match="positive span"):
        plain_wing(span=-1.0, chords=(0.2, 0.2))
    with pytest.raises(ModelError, match="rising from 0 to 1"):
        plain_wing(span=1.0, chords=(0.2, 0.2), places=(0.0, 0.0))
    with pytest.raises(ModelError, match="83 degrees"):
        plain_wing(span=1.0, chords=(0.2, 0.2), sweep=45.0)
    with pytest.raises(ModelError, match="must be a number"):
        plain_wing(span=1.0, chords=(0.2, math.nan))
    with pytest.raises(ModelError, match="only the tip's may be 0"):
        plain_wing(span=1.0, chords=(0.0, 0.2))
    with pytest.raises(ModelError, match="must be positive"):
        polar_at(polar_of(plate()), -1.0)


def test_washout_moves_the_zero_lift_angle():
    """3 degrees of linear washout on a rectangle: zero lift between 1/3 and 1/2 of it."""
    wing = bare_wing(span=6.0, chords=(1.0, 1.0), twist=(0.0, -math.radians(3.0)))
    assert 1.0 < math.degrees(wing.zero_lift_angle) < 1.5


def test_fuselage_upsets_and_high_wing_rights():
    frame = trainer()
    effect = body_effect(frame, downwash=0.4)
    assert effect.pitch > 0.0 > effect.side
    assert wing_height_effect(frame) < 0.0
