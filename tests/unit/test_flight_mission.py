"""A flight in legs: charge adds up, reserve is kept, what cannot be flown is said."""

from dataclasses import replace

import numpy as np
import pytest

from foamwright.core.bands import Band
from foamwright.core.errors import ModelError
from foamwright.flight.mission import (
    USUAL,
    Leg,
    cutoff_share,
    endurance_over_speed,
    fly_mission,
)
from foamwright.power.pack import pack_of
from plane_samples import AERO, POWER

MASS, DENSITY = 0.56, 1.225
TRAIN = POWER.train


def test_charge_adds_up_and_the_reserve_stays():
    flight = fly_mission(AERO, TRAIN, MASS, density=DENSITY)
    assert [leg.name for leg in flight.legs] == ["climb", "cruise", "land"]
    assert sum(leg.charge for leg in flight.legs) == pytest.approx(flight.charge)
    assert all(leg.charge == pytest.approx(leg.current * leg.duration) for leg in flight.legs)
    assert flight.left == pytest.approx(0.2, abs=0.005)
    assert flight.charge_back == pytest.approx(flight.charge / 0.98)
    assert 3.70 < flight.rest_cell_voltage < 3.80  # 80 % drawn: 3.73 V in the table
    assert flight.duration == pytest.approx(sum(leg.duration for leg in flight.legs))
    assert flight.first_timer < flight.duration


def test_climb_gains_and_landing_loses_height():
    climb, cruise, land = fly_mission(AERO, TRAIN, MASS, density=DENSITY).legs
    assert climb.height > 0.0
    assert climb.stick == 1.0
    assert cruise.height == 0.0
    assert land.height == pytest.approx(-60.0)
    assert climb.current > cruise.current > land.current


def test_a_bigger_pack_flies_longer_in_proportion():
    double = replace(TRAIN, pack=replace(TRAIN.pack, capacity=2 * TRAIN.pack.capacity))
    one, two = (
        fly_mission(AERO, train, MASS, density=DENSITY, legs=[Leg("cruise", "level", None)])
        for train in (TRAIN, double)
    )
    assert two.duration == pytest.approx(2 * one.duration, rel=0.01)


@pytest.mark.parametrize(
    ("extra", "match"),
    [
        ({"legs": [Leg("climb", "full", 3600.0)]}, "take .* mAh; the pack gives"),
        ({"legs": [Leg("a", "level", None), Leg("b", "level", None)]}, "Only one leg"),
        ({"legs": [Leg("a", "level", -1.0)]}, "less than no time"),
        ({"reserve": 1.2}, "Reserve is 1.2"),
    ],
)
def test_refused(extra, match):
    with pytest.raises(ModelError, match=match):
        fly_mission(AERO, TRAIN, MASS, density=DENSITY, **extra)


def test_too_heavy_to_stay_up():
    with pytest.raises(ModelError, match="does not hold level flight"):
        fly_mission(AERO, TRAIN, 20.0, density=DENSITY, legs=USUAL[1:])


def test_cutoff_comes_early_with_a_tired_pack():
    tired = replace(TRAIN, pack=replace(pack_of(3, 4680.0), resistance=Band.exact(0.25)))
    good = cutoff_share(TRAIN, density=DENSITY)
    worn = cutoff_share(tired, density=DENSITY)
    assert worn is not None
    assert good is None or worn < good
    assert fly_mission(AERO, tired, MASS, density=DENSITY).notes


def test_endurance_over_speed_peaks_and_falls():
    speeds = np.array([1.2, 1.6, 2.2, 9.0]) * AERO.stall_speed
    times, current = endurance_over_speed(AERO, TRAIN, MASS, speeds=speeds, density=DENSITY)
    assert times[2] < times[1]
    assert times[3] == current[3] == 0.0  # faster than it can
    assert times[0] == pytest.approx(0.8 * TRAIN.pack.capacity / current[0])
