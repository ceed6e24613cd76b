"""What the choice says of the present parts against what the plane's performance says."""

from pathlib import Path

import numpy as np
import pytest

import foamwright
from foamwright.flight.choice import Option, rank_options
from foamwright.flight.mission import Leg, endurance_over_speed, fly_mission

EXAMPLES = sorted((Path(__file__).parents[2] / "examples").glob("*.toml"))
BAND = 0.03  # both solve the same balance; one takes coarser steps of airspeed


@pytest.fixture(scope="module", params=EXAMPLES, ids=[path.stem for path in EXAMPLES])
def plane(request):
    return foamwright.load(request.param)


def test_agreement(plane):
    mass = plane.balance.all_up_mass
    row = rank_options(
        [Option("as it is", plane.train, mass)], plane.aero, mass=mass, density=plane.air.density
    )[0]
    flight = plane.flight.performance
    assert row.static_thrust == pytest.approx(plane.power.static_thrust, rel=1e-6)
    assert row.current == pytest.approx(plane.power.full_throttle_current, rel=1e-6)
    assert row.current_band.high == pytest.approx(
        plane.power.full_throttle_current_band.high, rel=1e-6
    )
    assert row.climb_rate == pytest.approx(flight.climb_rate, rel=BAND)
    assert row.top_speed == pytest.approx(flight.top_speed, rel=BAND)
    assert row.level_stick == pytest.approx(flight.level_throttle, abs=0.02)
    assert row.endurance == pytest.approx(flight.endurance, rel=0.05)


def test_mission_of_cruise_alone_lasts_the_endurance(plane):
    mass, density = plane.balance.all_up_mass, plane.air.density
    speeds = np.array([1.4 * plane.aero.stall_speed])
    level = [Leg("cruise", "level", None)]
    flown = fly_mission(plane.aero, plane.train, mass, density=density, legs=level)
    times, _ = endurance_over_speed(plane.aero, plane.train, mass, speeds=speeds, density=density)
    # one cuts the flight into five voltages, the other takes the middle one
    assert flown.duration == pytest.approx(times[0], rel=BAND)
