"""Throws by reasoning: mirror images, more speed, same seed, half the step."""

from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import foamwright
from foamwright.flight.simulation.build_craft import build_craft, with_flaws
from foamwright.flight.simulation.flaws import Flaws
from foamwright.flight.simulation.fly import fly
from foamwright.flight.simulation.hands import Hands
from foamwright.flight.simulation.state import attitude_of, start_state
from foamwright.flight.simulation.thrower import (
    BuildSpread,
    Releases,
    Thrower,
    builds_of,
    thrower_for,
    thrown_state,
)
from foamwright.flight.simulation.throws import AWAY, Launch, throw

EXAMPLES = Path(__file__).parents[2] / "examples"
MIRROR = np.array([1.0, -1.0, 1.0])


@pytest.fixture(scope="module")
def plane():
    return foamwright.load(EXAMPLES / "tansy-drift.toml")


@pytest.fixture(scope="module")
def mirrored(plane):
    """The same plane with everything in the middle, and no propeller effects."""
    rooms, axis = plane.rooms, np.array(plane.airframe.thrust_axis)
    axis[1] = 0.0
    point, cg = plane.airframe.thrust_point, plane.balance.cg
    frame = replace(
        plane.airframe,
        thrust_axis=tuple((axis / np.linalg.norm(axis)).tolist()),
        thrust_point=(point[0], 0.0, point[2]),
    )
    middle = replace(rooms, airframe=frame, balance=replace(plane.balance, cg=(cg[0], 0.0, cg[2])))
    craft = build_craft(middle)
    return replace(craft, screw=replace(craft.screw, swirl=0.0)), middle


@given(
    bank=st.floats(-0.4, 0.4),
    slip=st.floats(-0.2, 0.2),
    twist=st.floats(-0.03, 0.03),
    roll=st.floats(-1.0, 1.0),
)
@settings(deadline=None, max_examples=8)
def test_a_left_error_mirrors_a_right_one(mirrored, bank, slip, twist, roll):
    """Path y, bank and heading change sign, all else stays."""
    one = np.ones(1)
    paths = []
    for sign in (1.0, -1.0):
        left, right = (twist, 0.0) if sign > 0 else (0.0, twist)
        craft = with_flaws(*mirrored, Flaws(left_twist=left, right_twist=right))
        release = Releases(
            speed=7.0 * one, angle=0.05 * one, attack=0.05 * one, slip=sign * slip * one,
            bank=sign * bank * one, heading=0.0 * one, height=3.0 * one,
            rates=np.array([[sign * roll, 0.1, 0.0]]),
        )  # fmt: skip
        state = thrown_state(craft, release, throttle=0.6)
        sticks = np.array([[0.6, 0.0, 0.05, 0.0]])
        paths.append(
            fly(craft, state, lambda t, s, w, k=sticks: k[: len(s)], duration=1.2, every=120)
        )
    first, second = (p.final[0] for p in paths)
    assert first[:3] == pytest.approx(second[:3] * MIRROR, abs=1e-6)
    looks = [attitude_of(p.final) for p in paths]
    assert float(looks[0].bank[0]) == pytest.approx(-float(looks[1].bank[0]), abs=1e-6)


@given(throttle=st.floats(0.25, 0.6), seed=st.integers(0, 1000))
@settings(deadline=None, max_examples=3)
def test_more_speed_never_lowers_the_share_below_the_stall(plane, throttle, seed):
    """With the same luck; 4 points for throws at the edge that speed makes rear up."""
    stall = plane.aero.stall_speed
    shares = []
    for share in (0.6, 0.8, 1.0):
        launch = Launch(Thrower(share * stall), throttle=throttle)
        thrown = throw(plane.craft, launch, 60, seed, workers=1)
        shares.append(float((thrown.end == AWAY).mean()))
    assert shares[1] >= shares[0] - 0.04
    assert shares[2] >= shares[1] - 0.04


@given(seed=st.integers(0, 10_000))
@settings(deadline=None, max_examples=2)
def test_same_seed_same_throws(plane, seed):
    launch = Launch(thrower_for(0.5), throttle=0.5, wind=2.0)
    craft = plane.flawed(builds_of(BuildSpread(), 30, seed))
    first, second = (throw(craft, launch, 30, seed, workers=1) for _ in range(2))
    assert np.array_equal(first.path.states, second.path.states)
    assert np.array_equal(first.end, second.end)


def test_processes_change_nothing(plane):
    launch = Launch(thrower_for(0.5), throttle=0.45)
    one, two = (throw(plane.craft, launch, 40, 3, workers=n) for n in (1, 2))
    assert np.array_equal(one.end, two.end)
    assert np.allclose(one.final_height, two.final_height, atol=1e-9)


def test_half_the_step_changes_the_share_by_less_than_a_point(plane):
    """At a throttle where about half fly away, so that the share could move most."""
    shares = []
    for step in (0.01, 0.005):
        launch = Launch(thrower_for(0.5), Hands(), throttle=0.33, duration=5.0, step=step)
        thrown = throw(plane.flawed(builds_of(BuildSpread(), 400, 5)), launch, 400, 11)
        shares.append(float((thrown.end == AWAY).mean()))
    assert 0.2 < shares[0] < 0.8
    assert abs(shares[1] - shares[0]) < 0.01


def test_a_light_plane_and_a_heavy_one(plane):
    """The heavier build of two never flies away more often."""
    shares = []
    for factor in (0.85, 1.0, 1.2):
        craft = plane.flawed(Flaws(mass_factor=factor))
        thrown = throw(craft, Launch(thrower_for(0.5), throttle=0.38), 120, 4, workers=1)
        shares.append(float((thrown.end == AWAY).mean()))
    assert shares[0] >= shares[1] >= shares[2]


def test_at_rest_on_the_ground_it_stays(plane):
    """Springs, damping and friction: put down gently it neither sinks in nor wanders."""
    from foamwright.flight.simulation.fly import never

    craft = plane.craft
    state = start_state(craft.strip_count, speed=0.0, height=0.15)
    flown = fly(craft, state, duration=4.0, ending=never, step=0.005, every=200)
    last = flown.final[0]
    assert np.linalg.norm(last[7:10]) < 0.05
    assert -0.05 < -last[2] < 0.25
    assert np.hypot(last[0], last[1]) < 0.3
