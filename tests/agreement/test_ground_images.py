"""Ground effect by a lattice solved anew against the images of the free-flight circulation."""

import math
from itertools import pairwise

import pytest

from airframes import trainer
from foamwright.aero.ground import images_at, lowest_point, near_ground
from foamwright.aero.lattice import solve_lattice, solve_surfaces
from foamwright.aero.mesh import Fineness
from foamwright.aero.planforms import plain_wing
from foamwright.aero.wing import wing_figures
from foamwright.core.errors import ModelError


@pytest.mark.parametrize("vee", [0.0, 0.6])
@pytest.mark.parametrize("clearance", [0.05, 0.1, 0.25, 0.6])
def test_images_meet_the_lattice(clearance, vee):
    frame = trainer(vee=vee)
    ground = lowest_point(frame) - clearance * frame.wing.span
    full = near_ground(frame, frame.wing.panels[0].root[2] - ground)
    quick = images_at(solve_lattice(frame), ground)
    assert quick.downwash_left == pytest.approx(full.downwash_left, abs=0.07)
    assert 1.0 / (1.0 - quick.upwash) == pytest.approx(full.lift_ratio, abs=0.03)
    assert quick.tail_ratio == pytest.approx(full.tail_ratio, abs=0.03)


def test_lower_is_stronger_and_high_up_is_free():
    frame = trainer()
    rows = [near_ground(frame, share * frame.wing.span) for share in (0.1, 0.2, 0.5, 1.0, 20.0)]
    for low, high in pairwise(rows):
        assert low.lift_ratio > high.lift_ratio > 1.0 - 1e-4
        assert low.induced_ratio < high.induced_ratio < 1.0 + 1e-4
        assert low.downwash_left < high.downwash_left < 1.0 + 1e-4
    assert rows[-1].induced_ratio == pytest.approx(1.0, abs=1e-3)


@pytest.mark.parametrize("height", [0.1, 0.25, 0.6])
def test_lift_and_drag_gain_by_the_same_upwash(height):
    """1/a falls by sigma/(pi A), sigma the share the drag loses, and by the section's own image.

    In two dimensions a thin plate lifts 1 + (c/4h)² times as much near the ground, first term of
    the series in c/h (thin-aerofoil theory with one image).
    """
    aspect = 9.0
    wing = plain_wing(span=aspect, chords=(1.27, 0.73))
    free, near = (
        wing_figures(wing, solve_surfaces([wing], [Fineness(16, 4)], ground=ground))
        for ground in (None, -height * aspect)
    )
    sigma = 1.0 - near.induced_factor / free.induced_factor
    gained = (1.0 / free.lift_slope - 1.0 / near.lift_slope) * math.pi * wing.aspect_ratio
    section = 0.5 * wing.aspect_ratio * (wing.mean_chord / (4.0 * height * aspect)) ** 2
    assert gained == pytest.approx(sigma + section, rel=0.05)


def test_ground_above_the_plane_is_refused():
    frame = trainer()
    with pytest.raises(ModelError, match="would touch"):
        near_ground(frame, 0.01)
    wing = plain_wing(span=1.0, chords=(0.2, 0.2))
    with pytest.raises(ModelError, match="below every surface"):
        solve_surfaces([wing], [Fineness(4, 2)], ground=0.1)
