"""Power trains of any usual make: nothing comes from nothing, more throttle gives more."""

import math
from dataclasses import replace

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from foamwright.core.bands import Band
from foamwright.power.model import MotorConstants, PowerTrain
from foamwright.power.operate import power_map
from foamwright.power.pack import pack_of
from foamwright.power.propeller import SOLD_KINDS, propeller_of

THROTTLES = np.linspace(0.0, 1.0, 12)
SPEEDS = np.array([0.0, 3.0, 8.0, 15.0, 30.0])


@st.composite
def trains(draw):
    kv = draw(st.floats(700, 2600)) * math.pi / 30.0
    diameter = draw(st.floats(0.12, 0.30))
    motor = MotorConstants(
        Band.exact(kv),
        Band.exact(draw(st.floats(0.03, 0.4))),
        Band.exact(draw(st.floats(0.2, 2.0))),
        Band.exact(20.0),
        Band.exact(0.05),
    )
    propeller = propeller_of(
        draw(st.sampled_from(SOLD_KINDS)),
        diameter,
        pitch=diameter * draw(st.floats(0.35, 1.0)),
        blades=draw(st.integers(2, 4)),
    )
    pack = pack_of(draw(st.integers(1, 4)), draw(st.floats(1000.0, 9000.0)))
    return PowerTrain(motor, propeller, pack, 0.008, 20.0)


def _map(train):
    return power_map(train, SPEEDS, THROTTLES, density=1.2)


@settings(deadline=None, max_examples=60)
@given(trains())
def test_balance_of_power(train):
    grid = _map(train)
    for name in ("thrust", "current", "voltage", "speed", "torque", "efficiency", "advance_ratio"):
        assert np.all(np.isfinite(getattr(grid, name))), name
    assert np.all(grid.current >= 0.0)
    assert np.all(grid.voltage > 0.0)
    slack = 1e-6 * (1.0 + grid.electric_power)
    assert np.all(grid.shaft_power <= grid.electric_power + slack)
    pushing = grid.thrust > 0.0
    useful = grid.thrust * SPEEDS[:, None]
    assert np.all(useful[pushing] <= grid.shaft_power[pushing] + slack[pushing])


@settings(deadline=None, max_examples=60)
@given(trains())
def test_more_throttle_gives_more(train):
    """Up to the pack's greatest power: below half its rest voltage more throttle gives less."""
    grid = _map(train)
    able = grid.voltage[:, 1:] > 0.5 * grid.voltage[:, :1]
    assert np.all(np.diff(grid.speed, axis=1)[able] >= -1e-6)
    pushing = able & (grid.thrust[:, :-1] > 0.0)
    pushing[0] = able[0]
    assert np.all(np.diff(grid.thrust, axis=1)[pushing] >= -1e-9)
    assert np.all(np.diff(grid.current, axis=1)[pushing] >= -1e-9)


@settings(deadline=None, max_examples=40)
@given(trains())
def test_faster_air_takes_thrust(train):
    grid = _map(train)
    full = grid.thrust[:, -1]
    # a steep propeller is stalled at rest and may gain a little before it loses
    assert np.all(np.diff(full) < 0.12 * full[0])
    assert full[-1] < full[0]


@settings(deadline=None, max_examples=40)
@given(trains())
def test_thicker_air_and_worse_pack(train):
    # at rest: thicker air slows the propeller; a pack of more resistance gives less thrust
    rest, full = np.array([0.0]), np.array([1.0])
    thin, thick = (power_map(train, rest, full, density=rho) for rho in (1.0, 1.2))
    assert thick.speed[0, 0] <= thin.speed[0, 0]
    worse = replace(train, pack=replace(train.pack, resistance=Band.exact(0.3)))
    assert power_map(worse, rest, full, density=1.2).thrust[0, 0] <= thick.thrust[0, 0]
