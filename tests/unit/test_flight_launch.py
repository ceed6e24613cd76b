"""The hand launch against a general-purpose integrator and by reasoning."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

from foamwright.core.air import GRAVITY
from foamwright.flight.curves import ThrustTable
from foamwright.flight.launch import hand_launch, usual_throw_speed
from plane_samples import AERO, replaced

DENSITY, MASS = 1.225, 0.56
POLAR = replaced(AERO, drag_zero=0.05, drag_lift_factor=0.07, lift_at_drag_min=0.0)


def table(static, slope=0.15):
    speed = np.linspace(0.0, 25.0, 60)
    thrust = static - slope * speed
    zero = 0.0 * speed
    return ThrustTable(speed, thrust, thrust, zero, zero, zero, speed < 0.0, zero, zero)


def launch(throw, static=4.0, mass=MASS, height=1.8, aero=POLAR):
    return hand_launch(
        aero,
        mass,
        table=table(static),
        density=DENSITY,
        throw_speed=throw,
        throw_height=height,
    )


def integrated_drop(throw, static):
    """The same path by scipy's adaptive Runge-Kutta rule, written down from the docs page."""
    stall, most, area = POLAR.stall_speed, 0.9 * POLAR.lift_max, POLAR.wing_area
    weight = MASS * GRAVITY

    def rates(time, state):
        speed, path, _ = state
        pressure = 0.5 * DENSITY * speed**2 * area
        wanted = weight * math.cos(path) / pressure
        wanted += max(-2.0 * path, 0.0) * MASS * speed / pressure
        trim = POLAR.lift_max / 1.4**2
        lift = trim if time < 0.4 else min(max(wanted, 0.0), most)
        drag = pressure * (0.05 + 0.07 * lift**2)
        thrust = static - 0.15 * speed
        return (
            (thrust - drag) / MASS - GRAVITY * math.sin(path),
            (pressure * lift - weight * math.cos(path)) / (MASS * speed),
            speed * math.sin(path),
        )

    def flies(time, state):
        ready = time > 0.4 and state[0] >= 1.15 * stall
        return -1.0 if ready and state[1] >= -0.02 else 1.0

    flies.terminal = True
    path = solve_ivp(rates, (0.0, 6.0), (throw, 0.0, 0.0), max_step=0.005, events=flies)
    return -float(path.y[2].min())


@pytest.mark.parametrize(("throw", "static"), [(5.0, 3.5), (6.5, 3.0), (8.0, 2.5)])
def test_path_agrees_with_a_general_integrator(throw, static):
    drop = integrated_drop(throw, static)
    assert launch(throw, static).height_lost == pytest.approx(drop, rel=0.05, abs=0.02)


def test_thrown_fast_enough_it_hardly_sinks():
    result = launch(9.0)
    assert result.deficit == 0.0
    assert result.height_lost < 0.4
    assert result.flies


def test_thrown_far_too_slow_without_thrust_it_falls():
    result = launch(3.0, static=0.3)
    assert result.height_lost > 1.8
    assert not result.flies


def test_a_plane_that_can_never_fly_falls_as_a_stone():
    """Almost no lift: after 15 m of fall the search ends and says so."""
    result = launch(6.0, aero=replaced(POLAR, lift_max=0.02, stall_speed=44.0))
    assert result.height_lost >= 15.0
    assert not result.flies


def test_usual_throw_by_hand():
    """6.5 (0.25/0.5)^-0.21 = 6.5 * 1.1567 = 7.52; a 50 g plane is held at 8."""
    assert usual_throw_speed(0.25) == pytest.approx(7.52, abs=0.01)
    assert usual_throw_speed(0.05) == 8.0


@settings(deadline=None, max_examples=40)
@given(st.floats(3.0, 9.0), st.floats(0.2, 2.0), st.floats(1.5, 5.0))
def test_a_faster_throw_never_loses_more_height(throw, more, static):
    assert launch(throw + more, static).height_lost <= launch(throw, static).height_lost + 0.03


@settings(deadline=None, max_examples=40)
@given(st.floats(3.0, 9.0), st.floats(1.5, 4.0), st.floats(0.2, 2.0))
def test_more_thrust_never_loses_more_height(throw, static, more):
    stronger = launch(throw, static + more).height_lost
    assert stronger <= launch(throw, static).height_lost + 0.03
