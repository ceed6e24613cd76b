"""Read-outs of a state of flight, the notes taken from them, and a softened stick."""

import math
from pathlib import Path

import numpy as np
import pytest

import foamwright
from foamwright.flight.gauges import gauges_of, stall_angles
from foamwright.flight.notes import Watch
from foamwright.flight.simulation.state import CHARGE, STALL, start_state
from foamwright.flight.simulation.trim import steady_flight
from foamwright.flight.sticks import with_expo

EXAMPLES = Path(__file__).parents[2] / "examples"
STILL = np.zeros(3)


@pytest.fixture(scope="module")
def plane():
    return foamwright.load(EXAMPLES / "brindle-cob.toml")


def seen(craft, state, wind=STILL):
    return gauges_of(craft, state, wind, stalls=stall_angles(craft))


def test_speed_height_and_pack_are_read_off(plane):
    state = start_state(plane.craft.strip_count, speed=8.0, height=10.0)
    state[0, CHARGE] = 0.25
    read = seen(plane.craft, state, np.array([-3.0, 0.0, 0.0]))
    assert read.airspeed[0] == pytest.approx(11.0)  # 8 over the grass into a wind of 3
    assert read.pack_left[0] == pytest.approx(0.75)
    bottom = plane.craft.touch.points[:, 2].max()  # the lowest point below the CG, level
    assert read.lowest[0] == pytest.approx(10.0 - bottom)


def test_the_lowest_point_of_a_banked_plane_is_its_wing_tip(plane):
    state = start_state(
        plane.craft.strip_count, speed=8.0, height=5.0, attitude=(math.pi / 2, 0.0, 0.0)
    )
    # On its side the right tip hangs half a span below the middle line.
    across = plane.craft.touch.points[:, 1].max()
    assert seen(plane.craft, state).lowest[0] == pytest.approx(5.0 - across)


def test_level_flight_carries_the_weight_and_nears_the_stall_as_it_slows(plane):
    craft = plane.craft
    margins = []
    for factor in (1.8, 1.4, 1.15):
        found = steady_flight(craft, factor * craft.stall_speed, throttle=None)
        assert found.found[0]
        read = seen(craft, found.state)
        # The air and the propeller hold the weight; the body is pitched by a few degrees.
        lean = math.cos(float(found.alpha[0]))
        assert read.load_factor[0] == pytest.approx(lean, abs=0.05)
        margins.append(float(read.stall_margin[0]))
        assert not read.separated.any()
    assert margins == sorted(margins, reverse=True)
    assert margins[-1] > 0.0


@pytest.mark.parametrize("name", ["brindle-cob", "tansy-drift", "sixpence", "farrowlight"])
def test_at_the_stall_speed_of_the_aerodynamics_no_angle_is_left(name):
    """The margin is read off strips, the stall speed comes from the whole wing's lift."""
    craft = foamwright.load(EXAMPLES / f"{name}.toml").craft
    slow, fast = (steady_flight(craft, factor * craft.stall_speed) for factor in (1.01, 1.5))
    left, plenty = (float(seen(craft, s.state).stall_margin[0]) for s in (slow, fast))
    assert math.radians(-4.0) < left < math.radians(5.0)
    assert plenty > left + math.radians(6.0)


def watch(plane, state, **changes):
    craft = plane.craft
    made = Watch(craft, "metric", plane.strength.limit_load_factor, **changes)
    return made, made.start(float(seen(craft, state).airspeed[0]), tuple(state[0, :3]))


def test_a_slow_throw_is_noted_as_a_deficit(plane):
    craft = plane.craft
    slow = start_state(craft.strip_count, speed=0.8 * craft.stall_speed, height=1.8)
    [note] = watch(plane, slow)[1]
    # Flying speed is 1.15 stall speeds: 0.35 of one is missing.
    missing = 0.35 * craft.stall_speed
    assert f"{missing:.1f} m/s below flying speed" in note.words
    fast = start_state(craft.strip_count, speed=1.3 * craft.stall_speed, height=1.8)
    assert watch(plane, fast)[1] == []


def test_the_lowest_point_of_a_throw_is_noted_once_it_climbs(plane):
    craft = plane.craft
    state = start_state(craft.strip_count, speed=9.0, height=1.8)
    eye, _ = watch(plane, state)
    found = []
    for k, height in enumerate((1.6, 1.2, 1.1, 1.3, 1.5, 1.8)):
        state[0, 2] = -height
        found += eye.see(0.1 * k, state, seen(craft, state))
    assert [note.kind for note in found] == ["lowest"]
    assert found[0].at[2] == pytest.approx(-1.1)


def test_the_place_where_a_stall_begins_is_named(plane):
    craft = plane.craft
    state = start_state(craft.strip_count, speed=7.0, height=20.0)
    eye, _ = watch(plane, state, from_hand=False)
    strips = craft.strips
    tip = (strips.surface == 0) & (strips.side < 0) & (strips.place > 0.75)
    state[0, STALL][tip] = -0.9
    [note] = eye.see(1.0, state, seen(craft, state))
    assert "at the left wing's tip" in note.words
    assert eye.see(1.1, state, seen(craft, state)) == []  # the same stall
    state[0, STALL] = 0.0
    eye.see(3.0, state, seen(craft, state))
    state[0, STALL][strips.surface == 0] = -0.9
    [again] = eye.see(4.5, state, seen(craft, state))
    assert "on both wings" in again.words


@pytest.mark.parametrize(
    ("sinking", "bank", "begins"),
    [(0.8, 0.0, "Touched down with the"), (4.0, 0.0, "Struck the ground with the"),
     (1.0, 0.9, "Struck the ground with the right wing tip")],
)  # fmt: skip
def test_a_landing_and_a_crash_are_told_apart(plane, sinking, bank, begins):
    craft = plane.craft
    bottom = craft.touch.points[:, 2].max() if not bank else 0.2
    state = start_state(craft.strip_count, speed=7.0, height=bottom, attitude=(bank, 0.0, 0.0))
    eye, _ = watch(plane, state)
    # Down is z in ground axes; banked, it is shared between z and y of the body.
    state[0, 8], state[0, 9] = sinking * math.sin(bank), sinking * math.cos(bank)
    words = eye.over(2.0, state, seen(craft, state))
    if not words:  # it slides until it rests
        state[0, 7] = 0.1
        words = eye.over(3.0, state, seen(craft, state))
    assert words.startswith(begins)


def test_numbers_that_run_away_end_the_flight(plane):
    state = start_state(plane.craft.strip_count, speed=9.0, height=20.0)
    eye, _ = watch(plane, state)
    read = seen(plane.craft, state)
    assert eye.over(1.0, state, read) == ""
    state[0, 7] = 120.0
    assert "ran away" in eye.over(1.0, state, read)


def test_expo_keeps_the_ends_and_softens_the_middle():
    assert with_expo(1.0, 0.35) == 1.0
    # slope at the middle is 1 - e
    assert (with_expo(0.001, 0.35) / 0.001) == pytest.approx(0.65, abs=1e-4)
