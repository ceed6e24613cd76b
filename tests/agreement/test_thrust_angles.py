"""Down and right thrust that leave the trim alone: moment balance against the simulation.

The simulation knows nothing of thrust angles that null anything: from its own glide at the speed
that is flown full throttle is given, and the angles are sought at which neither nose nor wing
moves, the torque held by ailerons or, without them, by sideslip.
"""

import math
from pathlib import Path

import numpy as np
import pytest

import foamwright
from foamwright.flight.simulation.flaws import Flaws
from foamwright.flight.simulation.rate import state_rate
from foamwright.flight.simulation.state import AILERON, RATES, THROTTLE, VELOCITY
from foamwright.flight.simulation.trim import steady_flight

EXAMPLES = sorted((Path(__file__).parents[2] / "examples").glob("*.toml"))
ALOFT = -1e3  # m, down


def turning(plane, glide, angles):
    """Roll, pitch and yaw acceleration at full throttle; right, down, and what holds the torque."""
    right, down, hold = angles
    craft = plane.flawed(Flaws(thrust_right_error=right, thrust_down_error=down))
    state = glide.state.copy()
    state[:, 2], state[:, THROTTLE] = ALOFT, 1.0
    if plane.craft.travel[0] > 0.0:
        state[:, AILERON] += hold
    else:
        state[0, VELOCITY] += glide.speed[0] * np.array([0.0, hold, 0.0])
    sticks = np.array([1.0, *state[0, AILERON : AILERON + 3]])
    return state_rate(craft, state, sticks, np.zeros(3))[0, RATES]


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda p: p.stem)
def test_both_want_the_same_angles(path):
    """0.8 degrees: a Newton search in three unknowns against two formulas."""
    plane = foamwright.load(path)
    told = plane.flight.power_trim
    glide = steady_flight(plane.craft, told.speed, throttle=0.0)
    found = np.zeros(3)
    for _ in range(6):
        here = turning(plane, glide, found)
        slope = [(turning(plane, glide, found + 1e-4 * row) - here) / 1e-4 for row in np.eye(3)]
        found -= np.linalg.solve(np.transpose(slope), here)
    x, y, z = plane.airframe.thrust_axis
    right, down = math.atan2(y, -x) + found[0], math.atan2(-z, -x) + found[1]
    near = math.radians(0.8)
    assert told.right_thrust == pytest.approx(right, abs=near)
    assert told.down_thrust == pytest.approx(down, abs=near)
    assert abs(told.right_thrust - right) < told.right_spread
    assert abs(told.down_thrust - down) < told.down_spread
