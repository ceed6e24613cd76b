"""Lattice against lifting line against the low-aspect formula, and neutral point by two ways."""

import math

import numpy as np
import pytest

from airframes import trainer
from foamwright.aero.lattice import solve_lattice, solve_surfaces
from foamwright.aero.mesh import Fineness
from foamwright.aero.response import State, forces_in, response_of
from foamwright.aero.second import (
    downwash_datcom,
    helmbold_slope,
    lifting_line,
    neutral_point_algebra,
    tail_volume,
)
from foamwright.aero.wing import bare_wing, plain_wing


@pytest.mark.parametrize("aspect", [3.0, 4.0, 5.0, 6.0, 8.0, 10.0, 12.0])
def test_lift_slope(aspect):
    """Lifting line is high and worst at low aspect ratio; Helmbold is fitted to elliptic wings."""
    lattice = bare_wing(span=aspect, chords=(1.0, 1.0)).lift_slope
    line = lifting_line(aspect, lambda y: 0.0 * y + 1.0).lift_slope
    assert 1.0 < line / lattice < 1.0 + 0.55 / aspect
    assert helmbold_slope(aspect) / lattice == pytest.approx(1.06, abs=0.035)


@pytest.mark.parametrize("taper", [0.4, 0.7, 1.0])
@pytest.mark.parametrize("aspect", [5.0, 8.0, 12.0])
def test_induced_factor(aspect, taper):
    """Both find the penalty small; the lifting surface lies below the lifting line."""
    lattice = bare_wing(span=aspect * 0.5 * (1 + taper), chords=(1.0, taper)).induced_factor
    line = lifting_line(aspect * 0.5 * (1 + taper), lambda y: 1.0 - (1.0 - taper) * np.abs(y)).delta
    assert -0.002 < lattice - 1.0 < line + 0.005
    assert lattice - 1.0 == pytest.approx(line, abs=0.05)  # largest at AR 12 untapered


@pytest.mark.parametrize("aspect", [4.0, 6.0, 9.0, 12.0])
def test_roll_damping(aspect):
    """Lifting line overstates it: by a fifth at aspect ratio 6."""
    lattice = bare_wing(span=aspect, chords=(1.0, 1.0)).roll_damping
    line = lifting_line(aspect, lambda y: 0.0 * y + 1.0).roll_damping
    assert 1.0 < line / lattice < 1.0 + 1.3 / aspect


@pytest.mark.parametrize("tail_span", [0.30, 0.38, 0.46])
@pytest.mark.parametrize("tail_x", [0.62, 0.70, 0.79])
def test_neutral_point(tail_span, tail_x):
    """Lattice against tail-volume algebra with the mean of two downwashes."""
    frame = trainer(tail_span=tail_span, tail_x=tail_x)
    solution = solve_lattice(frame)
    force = sum(2.0 * solution.forces[c, 0].sum(axis=0) for c in solution.select("alpha"))
    ours = -force[4] / force[2]
    wing, stab = frame.wing, frame.stab
    alone = 2.0 * solution.forces[solution.select("alpha", 0)[0], 0]
    own = 2.0 * solution.forces[solution.select("alpha", 1)[0], 0]
    centre = -alone[0, 4] / alone[0, 2]
    arm = stab.quarter_chord_x - centre
    aspect = wing.aspect_ratio
    wash = downwash_datcom(aspect, taper=1.0, arm=arm / wing.span, height=0.03 / wing.span)
    lattice_wash = -alone[1, 2] / own[1, 2]
    assert wash == pytest.approx(lattice_wash, abs=0.09)
    algebra = neutral_point_algebra(
        wing_centre=centre / wing.mean_chord,
        wing_slope=alone[0, 2] / wing.area,
        tail_slope=own[1, 2] / stab.area,
        volume=tail_volume(stab.area, arm, wing_area=wing.area, length=wing.mean_chord),
        downwash=0.5 * (wash + lattice_wash),
    )
    # The algebra leaves the tail's lift out of the plane's slope: put it in.
    share = 1.0 + own[1, 2] / alone[0, 2] * (1.0 - lattice_wash)
    algebra = centre / wing.mean_chord + (algebra - centre / wing.mean_chord) / share
    assert ours / wing.mean_chord == pytest.approx(algebra, abs=0.03)
    assert math.isfinite(ours)


@pytest.mark.parametrize("aspect", [5.0, 6.0, 8.0])
def test_roll_due_to_sideslip_of_a_lifting_straight_wing(aspect):
    """Lattice against -(k (0.71 taper + 0.29)/AR + 0.05)/2 per CL (Weissinger; from memory)."""
    frame = plain_wing(span=aspect, chords=(1.0, 1.0))
    solution = solve_surfaces([frame], [Fineness(14, 4)])
    response = response_of(
        solution, gains=np.ones(1), sizes=(aspect, aspect, 1.0), cg=(0.25, 0.0, 0.0)
    )
    force = forces_in(response, State(0.1, 0.05), 0.0)
    published = -0.5 * (1.0 / aspect + 0.05)
    assert force.roll / 0.05 / force.lift == pytest.approx(published, rel=0.35)
