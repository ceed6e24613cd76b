"""The one function of state: signs that can be told by reasoning, bad input, and frames."""

import math
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

import foamwright
from derivative_craft import airless, bare
from foamwright.core.air import GRAVITY
from foamwright.core.errors import ModelError
from foamwright.flight.simulation.advance import advance
from foamwright.flight.simulation.flaws import Flaws
from foamwright.flight.simulation.fly import DIVERGED, fly, never
from foamwright.flight.simulation.propulsion import thrust_from
from foamwright.flight.simulation.rate import state_rate
from foamwright.flight.simulation.state import (
    CHARGE,
    RATES,
    RIGID,
    STALL,
    THROTTLE,
    VELOCITY,
    attitude_of,
    quaternion_of,
    rotation_of,
    start_state,
)
from foamwright.flight.simulation.thrower import Thrower, refuse_throw, thrower_for
from foamwright.flight.simulation.throws import Launch, refuse_launch, throw
from foamwright.flight.simulation.trim import steady_flight
from foamwright.flight.simulation.wind import windy

EXAMPLES = Path(__file__).parents[2] / "examples"
CALM = np.zeros(3)
ROLL, PITCH, YAW = 10, 11, 12


@pytest.fixture(scope="module")
def plane():
    return foamwright.load(EXAMPLES / "brindle-cob.toml")


@pytest.fixture(scope="module")
def steady(plane):
    return steady_flight(plane.craft, plane.craft.trim_speed, throttle=None)


def answer(craft, steady, *, sticks=(0.0, 0.0, 0.0, 0.0), after=0.12):
    """Rates of turn a moment after a change from steady level flight, less those without it."""
    found = []
    for extra in (np.zeros(4), np.array(sticks)):
        state = steady.state[:1].copy()
        state[:, 2] = -100.0
        for _ in range(round(after / 0.01)):
            state = advance(craft, state, steady.sticks[0] + extra, CALM, step=0.01)
        found.append(state[0, RATES])
    return found[1] - found[0]


@pytest.mark.parametrize(
    ("stick", "axis"), [((0, 0.4, 0, 0), 0), ((0, 0, 0.4, 0), 1), ((0, 0, 0, 0.4), 2)]
)
def test_sticks_turn_the_way_they_are_named(plane, steady, stick, axis):
    """Right, up, right."""
    assert answer(plane.craft, steady, sticks=stick)[axis] > 0.05


@pytest.mark.parametrize(
    ("flaws", "axis", "sign"),
    [
        (Flaws(left_twist=0.02), 0, 1),  # left wing lifts more: rolls right
        (Flaws(right_twist=0.02), 0, -1),
        (Flaws(right_tip_mass=0.02), 0, 1),  # heavy right tip drops
        (Flaws(cg_shift_right=-0.005), 0, -1),
        (Flaws(aileron_neutral=0.02), 0, -1),  # right aileron down lifts the right wing
        (Flaws(elevator_neutral=0.02), 1, -1),  # elevator down: nose down
        (Flaws(cg_shift_aft=0.01), 1, 1),
        (Flaws(stab_incidence_error=0.01), 1, -1),  # stab lifts the tail
        (Flaws(thrust_down_error=0.05), 1, -1),
        (Flaws(thrust_right_error=0.05), 2, 1),
        (Flaws(rudder_neutral=0.03), 2, -1),  # trailing edge left: nose left
        (Flaws(fin_error=0.02), 2, -1),  # leading edge right pushes the tail right
    ],
)
def test_flaws_turn_it_the_way_they_should(plane, steady, flaws, axis, sign):
    found = []
    for craft in (plane.craft, plane.flawed(flaws)):
        state = steady.state[:1].copy()
        state[:, 2] = -100.0
        for _ in range(15):
            state = advance(craft, state, steady.sticks[0], CALM, step=0.01)
        found.append(state[0, RATES])
    assert sign * (found[1] - found[0])[axis] > 1e-3


def test_power_rolls_and_yaws_left(plane):
    """Torque of a right-turning propeller, its blades at an angle of attack and its swirl."""
    craft = plane.craft
    state = start_state(craft.strip_count, speed=7.0, height=100.0, alpha=0.12, throttle=1.0)
    quiet = replace(craft, screw=replace(craft.screw, swirl=0.0))
    with_all, without = (
        state_rate(c, state, np.array([1.0, 0, 0, 0]), CALM)[0] for c in (craft, quiet)
    )
    assert (with_all - without)[ROLL] < -0.5
    assert (with_all - without)[YAW] < -0.1


def test_gyroscope_turns_a_pitch_up_into_a_yaw_right(plane):
    """Momentum ahead, nose going up: -w x h = -(q h) about z with its sign: q (x) h (ahead)."""
    craft = plane.craft
    state = start_state(craft.strip_count, speed=9.0, height=100.0, throttle=1.0)
    more = replace(craft, screw=replace(craft.screw, inertia=10.0 * craft.screw.inertia))
    state[0, RATES] = (0.0, 1.0, 0.0)
    sticks = np.array([1.0, 0, 0, 0])
    change = state_rate(more, state, sticks, CALM) - state_rate(craft, state, sticks, CALM)
    turning = thrust_from(
        craft.thrust, np.array([9.0]), np.ones(1), depth=np.zeros(1), resistance_factor=np.ones(1)
    )[0, 2]
    expected = 9.0 * craft.screw.inertia * turning * craft.builds.axis[0, 0] * 1.0
    assert change[0, YAW] * craft.builds.inertia[0, 2, 2] == pytest.approx(expected, rel=0.05)


def test_tip_mass_by_hand(plane):
    """20 g at the right tip: CG moves m y/(M + m) to the right, mass and roll inertia grow."""
    craft, added = plane.craft, 0.02
    heavy = plane.flawed(Flaws(right_tip_mass=added))
    mass = craft.builds.mass[0]
    tip = plane.airframe.wing.panels[-1].tip[1] - plane.balance.cg[1]
    assert heavy.builds.mass[0] == pytest.approx(mass + added)
    assert -heavy.builds.reference[0, 1] == pytest.approx(added * tip / (mass + added))
    grown = heavy.builds.inertia[0, 2, 2] - craft.builds.inertia[0, 2, 2]
    reduced = mass * added / (mass + added)
    assert grown == pytest.approx(reduced * tip**2, rel=0.1)  # the arm ahead adds a little


def test_steady_turn_by_hand(plane):
    """Rate of turn g tan(bank)/V of coordinated flight; thrust and sideslip shift it 4 %."""
    speed = 1.5 * plane.craft.stall_speed
    found = steady_flight(plane.craft, speed, throttle=None, bank=0.6)
    assert bool(found.found[0])
    expected = GRAVITY * math.tan(0.6) / speed
    assert float(found.turn_rate[0]) == pytest.approx(expected, rel=0.04)


def test_steady_state_stays(plane, steady):
    """Flown on for half a second nothing moves but the place."""
    state = steady.state[:1].copy()
    state[:, 2] = -100.0
    after = state
    for _ in range(50):
        after = advance(plane.craft, after, steady.sticks[0], CALM, step=0.01)
    assert np.allclose(after[0, VELOCITY], state[0, VELOCITY], atol=0.02)
    assert np.allclose(after[0, RATES], 0.0, atol=0.01)


def test_full_up_elevator_stalls_and_drops(plane):
    craft = bare(plane.craft)
    start = steady_flight(craft, craft.trim_speed).state
    start[:, 2] = -60.0
    flown = fly(
        craft, start, lambda t, s, w: np.array([[0.0, 0.0, min(1.0, 0.3 * t), 0.0]]),
        duration=6.0, every=1,
    )  # fmt: skip
    wing = craft.strips.surface == 0
    lost = flown.states[:, 0, STALL][:, wing]
    assert lost.min() < -0.3
    speed = np.linalg.norm(flown.states[:, 0, VELOCITY], axis=1)
    assert speed.min() < 1.05 * craft.stall_speed


def test_inner_strips_of_a_washed_out_wing_stall_first(plane):
    craft = replace(bare(plane.flawed(Flaws(left_twist=-0.05, right_twist=-0.05))))
    strips = craft.strips
    state = start_state(craft.strip_count, speed=7.0, height=100.0, alpha=0.25)
    for _ in range(6):
        state[:, STALL] += 0.02 * state_rate(craft, state, np.zeros(4), CALM)[:, STALL]
    wing = (strips.surface == 0) & (strips.side > 0)
    lost = state[0, STALL][wing]
    assert lost[strips.place[wing] < 0.5].min() < lost[strips.place[wing] > 0.9].min()


def test_charge_is_current_times_time(plane):
    craft = plane.craft
    state = start_state(craft.strip_count, speed=9.0, height=500.0, throttle=1.0)
    rate = state_rate(craft, state, np.array([1.0, 0, 0, 0]), CALM)
    drawn = thrust_from(
        craft.thrust, np.array([9.0]), np.ones(1), depth=np.zeros(1), resistance_factor=np.ones(1)
    )[0, 3]
    assert rate[0, CHARGE] * plane.train.pack.capacity == pytest.approx(drawn, rel=0.02)


def test_an_empty_or_weak_pack_pulls_less(plane):
    craft, one = plane.craft, np.ones(1)

    def pull(depth, factor):
        found = thrust_from(
            craft.thrust, 5.0 * one, one, depth=depth * one, resistance_factor=factor * one
        )
        return found[0, 0]

    assert pull(0.0, 1.0) > pull(0.7, 1.0) > pull(0.79, 1.5)


def test_steady_wind_only_carries_the_plane_along(plane, steady):
    """The same flight seen from the moving air (Galilei)."""
    wind = np.array([-3.0, 1.5, 0.5])
    start = steady.state[:1].copy()
    start[:, 2] = -100.0
    blown = start.copy()
    blown[:, VELOCITY] += np.einsum("nij,i->nj", rotation_of(start), wind)
    sticks = np.tile([0.5, 0.1, 0.1, 0.0], (1, 1))
    craft = plane.craft
    finals = [
        fly(
            craft, state, lambda t, s, w: sticks, duration=2.0, ending=never,
            weather=lambda t, s, w, air=air: air,
        ).final[0]
        for state, air in ((start, CALM), (blown, wind))
    ]  # fmt: skip
    assert np.allclose(finals[1][:3] - finals[0][:3], 2.0 * wind, atol=5e-3)


def test_what_runs_away_is_stopped_with_sound_numbers(plane):
    craft = plane.craft
    state = np.repeat(start_state(craft.strip_count, speed=9.0, height=50.0), 2, axis=0)
    state[1, RATES] = (100.0, 0.0, 0.0)

    def pilot(time, now, which):
        now[which == 1, 7] += 30.0  # somebody's fault
        return np.zeros((len(now), 4))

    flown = fly(craft, state, pilot, duration=2.0)
    assert flown.why[1] == DIVERGED
    assert flown.ended[1] < 1.0
    assert np.isfinite(flown.states).all()
    assert flown.why[0] != DIVERGED


@pytest.mark.parametrize("step", [0.0, 0.5, -0.01])
def test_a_step_that_cannot_be_flown_is_refused(plane, step):
    state = start_state(plane.craft.strip_count, speed=9.0)
    with pytest.raises(ModelError, match="cannot be flown"):
        fly(plane.craft, state, duration=1.0, step=step)


@pytest.mark.parametrize(
    ("thrower", "said"),
    [
        (Thrower(40.0), "5 to 8 m/s standing"),
        (Thrower(0.2), "no throw by hand"),
        (Thrower(7.0, angle=1.5), "makes no sense"),
        (Thrower(7.0, height=20.0), "0.3 to 5 m"),
    ],
)
def test_throws_that_no_hand_makes_are_refused(thrower, said):
    with pytest.raises(ModelError, match=said):
        refuse_throw(thrower)


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({"wind": 12.0}, "more than this plane flies"),
        ({"throttle": 1.3}, "0 to 100 %"),
        ({"wind": -1.0}, "makes sense"),
    ],
)
def test_launches_that_make_no_sense_are_refused(plane, changes, said):
    launch = replace(Launch(thrower_for(0.65)), **changes)
    with pytest.raises(ModelError, match=said):
        throw(plane.craft, launch, 10, 1)


def test_no_pack_is_said_plainly(plane):
    empty = replace(plane.craft, thrust=replace(plane.craft.thrust, capacity=0.0))
    with pytest.raises(ModelError, match="no pack"):
        refuse_launch(empty, Launch(thrower_for(0.65)), 10)


def test_flaws_of_different_lengths_are_refused():
    with pytest.raises(ModelError, match="cg_shift_aft has 2 values"):
        Flaws(left_twist=np.zeros(3), cg_shift_aft=np.zeros(2)).spread()
    with pytest.raises(ModelError, match="finite"):
        Flaws(left_twist=math.nan).spread()


def test_angles_come_back_out_of_the_quaternion():
    rng = np.random.default_rng(1)
    bank, pitch, heading = rng.uniform(-1.4, 1.4, (3, 50))
    state = np.zeros((50, RIGID))
    state[:, 3:7] = quaternion_of(bank, pitch, heading)
    look = attitude_of(state)
    for found, given in ((look.bank, bank), (look.pitch, pitch), (look.heading, heading)):
        assert np.allclose(found, given, atol=1e-12)


def test_wind_of_a_seed_is_the_same_and_blows_from_ahead():
    one, two = (windy(4.0, 20, 3, airspeed=9.0, span=1.2) for _ in range(2))
    where = np.zeros((20, 18))
    where[:, 2] = -2.0
    first, second = (w(1.0, where, np.arange(20)) for w in (one, two))
    assert np.array_equal(first, second)
    assert first[:, 0].mean() == pytest.approx(-4.0, abs=0.8)


def test_loose_linkage_floats_up_with_the_wing(plane):
    """Free play lets the elevator float with the air: up elevator at a positive angle of attack."""
    from foamwright.flight.simulation.loads import deflections

    loose = plane.flawed(Flaws(slop=0.03))
    state = start_state(loose.strip_count, speed=9.0, alpha=0.1)
    motion = state[:, 7:13]
    tight = deflections(plane.craft, state, motion)
    assert deflections(loose, state, motion)[0, 2] < tight[0, 2]


def test_no_air_no_forces_but_weight(plane):
    craft = airless(plane.craft)
    state = start_state(craft.strip_count, speed=9.0, height=50.0)
    rate = state_rate(craft, state, np.zeros(4), CALM)
    assert np.allclose(rate[0, VELOCITY], (0.0, 0.0, GRAVITY), atol=1e-9)
    assert rate[0, THROTTLE] == 0.0
