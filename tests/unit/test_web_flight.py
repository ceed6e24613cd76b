"""The live flight beside the page: its clock, its messages, the shapes it draws."""

import asyncio
import json
import math
import time
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import numpy as np
import pytest

import foamwright
from foamwright.core.errors import ModelError
from foamwright.flight.simulation.flaws import Flaws
from foamwright.web.flight_loop import FIELDS, LiveFlight, Pin, Sticks, _Line
from foamwright.web.flight_model import CraftModel, Setup
from foamwright.web.flight_shapes import STRIPS, shapes_of

EXAMPLES = Path(__file__).parents[2] / "examples"


@pytest.fixture(scope="module")
def plane():
    return foamwright.load(EXAMPLES / "brindle-cob.toml")


class Model:
    """Counts steps; lands after four seconds."""

    step = 0.005

    def __init__(self):
        self.steps, self.told = 0, Sticks()

    def start(self):
        self.steps = 0
        return 0.6

    def advance(self, sticks, steps):
        self.steps += steps
        self.told = sticks

    def packet(self):
        return np.full(len(FIELDS), self.steps * self.step, dtype=np.float32)

    def pins(self):
        return [Pin(1.0, (1.0, 2.0, 3.0), "seen")] if self.steps > 200 else []

    def over(self):
        return "down" if self.steps > 800 else ""


def drain(line, found):
    while not line.queue.empty():
        found.append(line.queue.get_nowait())


def sorted_out(found):
    words = [json.loads(news) for news in found if isinstance(news, str)]
    return words, [news for news in found if isinstance(news, bytes)]


async def joined(flight, seconds, *messages):
    """Look on for a while; the messages are sent first."""
    line = _Line(asyncio.get_running_loop())
    await asyncio.to_thread(flight.join, line)
    for message in messages:
        flight.heed(message)
    end, found = time.monotonic() + seconds, []
    while time.monotonic() < end and flight.flying:
        await asyncio.sleep(0.02)
        drain(line, found)
    thread = flight._thread
    await asyncio.to_thread(flight.leave, line)
    assert not thread.is_alive()
    await asyncio.sleep(0)
    drain(line, found)
    return sorted_out(found)


def test_the_clock_drives_it_and_the_thread_ends_with_the_page():
    flight = LiveFlight(Model())
    # in a thread of its own: another test may have left a loop running in this one
    asked = {"do": "throw"}, {"sticks": [0.5, 0.0, 1.0, -2.0]}
    with ThreadPoolExecutor(1) as pool:
        watched = pool.submit(lambda: asyncio.run(joined(flight, 10.0, *asked)))
        words, packets = watched.result()
    assert flight.model.told == Sticks(0.5, 0.0, 1.0, -1.0)  # kept within its travel
    assert any(news.get("over") == "down" for news in words)
    assert any(news.get("pin", {}).get("words") == "seen" for news in words)
    times = [float(np.frombuffer(packet, "<f4")[0]) for packet in packets]
    assert times[-1] > 4.0
    assert all(len(packet) == 4 * len(FIELDS) for packet in packets)


def test_slow_motion_and_pause_hold_the_clock():
    now = [0.0]
    flight = LiveFlight(Model(), clock=lambda: now[0])
    flight.heed({"do": "pace", "value": 0.25})
    flight.heed({"do": "pace", "value": 40})  # no such pace
    assert flight.pace == 0.25
    flight.heed({"do": "throw"})
    assert flight.flying
    flight.heed({"do": "pause", "on": True})
    assert flight.paused
    flight.heed({"do": "again"})
    assert not flight.flying
    assert not flight.paused


@pytest.mark.parametrize(
    "message", [None, [], "throw", {"sticks": "1234"}, {"sticks": [1, 2]}, {"do": 7},
                {"sticks": [float("nan"), 0, 0, 0]}, {"sticks": [None, 0, 0, 0]}]
)  # fmt: skip
def test_messages_without_sense_change_nothing(message):
    flight = LiveFlight(Model())
    flight.heed(message)
    assert flight.sticks == Sticks()
    assert not flight.flying


def test_the_hand_s_throw_flies_and_a_stick_rolls_it(plane):
    model = CraftModel(plane, Setup(from_hand=True, speed=8.0))
    for _ in range(60):
        model.advance(Sticks(roll=0.6, throttle=0.75), 3)
    moment = dict(zip(FIELDS, model.packet().tolist(), strict=True))
    assert moment["t"] == pytest.approx(0.9)
    assert moment["aileronRight"] < 0.0 < moment["aileronLeft"]  # right one up: it rolls right
    # The left wing of the body, turned to the ground, points up.
    assert 2.0 * (moment["qy"] * moment["qz"] + moment["qw"] * moment["qx"]) > 0.2
    assert all(math.isfinite(value) for value in moment.values())


def test_a_warped_left_wing_rolls_it_right(plane):
    bent = Flaws(left_twist=math.radians(3.0))
    model = CraftModel(plane, Setup(from_hand=False, speed=8.0, flaws=bent))
    true = CraftModel(plane, Setup(from_hand=False, speed=8.0))
    banks = []
    for one in (model, true):
        for _ in range(60):
            one.advance(Sticks(throttle=0.5), 3)
        m = dict(zip(FIELDS, one.packet().tolist(), strict=True))
        banks.append(2.0 * (m["qy"] * m["qz"] + m["qw"] * m["qx"]))
    assert banks[0] > banks[1] + 0.1


def test_rudder_steers_where_there_are_no_ailerons():
    drift = foamwright.load(EXAMPLES / "tansy-drift.toml")
    model = CraftModel(drift, Setup(from_hand=False, speed=7.0))
    for _ in range(20):
        model.advance(Sticks(roll=1.0, throttle=0.5), 3)
    moment = dict(zip(FIELDS, model.packet().tolist(), strict=True))
    assert moment["rudder"] < -0.1  # trailing edge right


def test_wind_from_ahead_adds_to_the_airspeed_of_a_throw(plane):
    calm, windy = (CraftModel(plane, Setup(True, 8.0, wind=wind)) for wind in (0.0, 3.0))
    speed = FIELDS.index("airspeed")
    gain = windy.packet()[speed] - calm.packet()[speed]
    assert gain == pytest.approx(3.0, abs=0.15)  # 3 m/s at 2 m, a little less at the hand


def test_a_wind_beyond_flying_speed_is_refused_with_the_range(plane):
    with pytest.raises(ModelError, match="more than this plane flies"):
        CraftModel(plane, Setup(True, 8.0, wind=11.0))


@pytest.mark.parametrize("name", [path.stem for path in sorted(EXAMPLES.glob("*.toml"))])
def test_shapes_are_whole_and_as_large_as_the_plane(name):
    plane = foamwright.load(EXAMPLES / f"{name}.toml")
    shapes = shapes_of(plane)
    points = np.concatenate([np.asarray(solid["points"]) for solid in shapes["solids"]])
    span = plane.airframe.wing.span
    assert np.ptp(points[:, 1]) == pytest.approx(span, abs=0.01)
    assert np.isfinite(points).all()
    for solid in shapes["solids"]:
        faces = solid["above"] + solid["below"]
        assert max(max(face) for face in faces) < len(solid["points"])
    strips = {tuple(solid["strip"]) for solid in shapes["solids"] if "strip" in solid}
    assert strips == {(side, k) for side in ("left", "right") for k in range(STRIPS)}


def test_hinged_parts_turn_the_way_of_their_sign(plane):
    """Turned about its hinge by a positive angle an edge goes down, a rudder's to the left."""
    for solid in shapes_of(plane)["solids"]:
        if "hinge" not in solid:
            continue
        points, hinge = np.asarray(solid["points"]), np.asarray(solid["hinge"])
        axis = (hinge[1] - hinge[0]) / np.linalg.norm(hinge[1] - hinge[0])
        edge = points[points[:, 0].argmin()] - hinge[0]
        moved = np.cross(axis, edge)
        way = moved[1] if solid["name"] == "rudder" else -moved[2]
        assert way > 0.5 * np.linalg.norm(moved)
