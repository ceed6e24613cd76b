"""Laws that hold for any plane: mirror symmetry, scale, tail size, linearity."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from airframes import plate, surface, trainer
from foamwright.aero.analyse import analyse
from foamwright.aero.lattice import solve_lattice, solve_surfaces
from foamwright.aero.mesh import Fineness
from foamwright.aero.response import State, forces_in, response_of
from foamwright.aero.sections import section_polars
from foamwright.core.air import air_at

FEW = settings(max_examples=12, deadline=None)
AIR = air_at()
spans = st.floats(0.30, 0.50)
angles = st.floats(-0.1, 0.1)


def answer(frame, cg=(0.28, 0.0, 0.0)):
    solution = solve_lattice(frame)
    wing = frame.wing
    gains = np.ones(len(solution.surfaces))
    return response_of(solution, gains=gains, sizes=(wing.area, wing.span, wing.mean_chord), cg=cg)


@FEW
@given(alpha=angles, beta=angles, tail=spans)
def test_mirrored_flow_gives_mirrored_forces(alpha, beta, tail):
    response = answer(trainer(tail_span=tail))
    left = forces_in(response, State(alpha, beta), 0.05)
    right = forces_in(response, State(alpha, -beta), 0.05)
    assert left.lift == pytest.approx(right.lift, abs=1e-9)
    assert left.pitch == pytest.approx(right.pitch, abs=1e-9)
    assert left.roll == pytest.approx(-right.roll, abs=1e-9)
    assert left.yaw == pytest.approx(-right.yaw, abs=1e-9)
    assert left.side == pytest.approx(-right.side, abs=1e-9)


@FEW
@given(scale=st.floats(0.3, 3.0))
def test_inviscid_coefficients_do_not_know_size(scale):
    small, large = answer(trainer()), answer(trainer(scale=scale), (0.28 * scale, 0.0, 0.0))
    state = State(0.06, 0.02)
    first, second = forces_in(small, state, 0.05), forces_in(large, state, 0.05)
    for name in ("lift", "drag", "side", "roll", "pitch", "yaw"):
        assert getattr(first, name) == pytest.approx(getattr(second, name), rel=1e-6, abs=1e-9)


@FEW
@given(first=spans, more=st.floats(1.02, 1.4))
def test_more_tail_more_margin(first, more):
    def margin(span):
        frame = trainer(tail_span=span)
        polars = section_polars(frame, AIR)
        return analyse(
            frame, solve_lattice(frame), polars, air=AIR, mass=0.6, cg=(0.28, 0.0, 0.0)
        ).static_margin

    assert margin(first * more) > margin(first)


@FEW
@given(alpha=angles, other=angles, aspect=st.floats(3.0, 12.0), sweep=st.floats(0.0, 0.5))
def test_lift_is_linear(alpha, other, aspect, sweep):
    wing = surface(
        "wing", (0.0, 0.0, 0.0), span=aspect, chords=(1.0, 0.7), section=plate(1.0), sweep=sweep
    )
    solution = solve_surfaces([wing], [Fineness(10, 3)])
    (case,) = solution.select("alpha")
    slope = 2.0 * solution.forces[case, 0, 0, 2]
    assert slope * (alpha + other) == pytest.approx(slope * alpha + slope * other, abs=1e-12)
    assert 0.0 < slope / wing.area < 2.0 * math.pi


@FEW
@given(density=st.floats(0.9, 1.3), mass=st.floats(0.3, 1.0))
def test_stall_speed_goes_with_the_root_of_loading(density, mass):
    frame = trainer()
    solution, polars = solve_lattice(frame), section_polars(frame, AIR)
    light = analyse(frame, solution, polars, air=AIR, mass=mass, cg=(0.28, 0.0, 0.0))
    heavy = analyse(frame, solution, polars, air=AIR, mass=1.5 * mass, cg=(0.28, 0.0, 0.0))
    ratio = heavy.stall_speed / light.stall_speed
    # A little less than the root: the heavier plane flies at a larger Reynolds number.
    assert 0.93 * math.sqrt(1.5) < ratio < 1.02 * math.sqrt(1.5)
    assert density > 0.0
