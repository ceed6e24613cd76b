"""Turning in: how quickly it rolls both ways, and which way the nose goes first."""

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from foamwright.flight.simulation.state import QUATERNION, attitude_of, quaternion_of
from foamwright.flight.trial.setting import Setting, held

type Array = NDArray[np.float64]

BANK = math.radians(30.0)  # from one side to the other
LONGEST = 5.0  # s
FIRST = 0.6  # s in which the nose may swing out of the turn


@dataclass(frozen=True, slots=True)
class Rolling:
    """Rolling from 30 degrees one way to 30 the other with full stick.

    Attributes:
        right: Time to the right; the time tried where it never gets there. [s]
        left: Same to the left. [s]
        adverse: Most that the nose swung out of the turn, mean of both ways. [rad]
        reached: Whether it got there both ways. [-]
    """

    right: Array
    left: Array
    adverse: Array
    reached: NDArray[np.bool_]


def rolling(setting: Setting) -> Rolling:
    """Roll both ways with full aileron, or full rudder where there is none.

    Args:
        setting: Of the test flight. [-]

    Returns:
        Times and the swing of the nose.

    Source:
        The simulation.

    Example:
        >>> bool(flown.rolling.reached[0])
        True
    """
    times, swings = [], []
    for way in (1.0, -1.0):
        state = setting.trimmed()
        look = attitude_of(state)
        state[:, QUATERNION] = quaternion_of(np.full(setting.count, -way * BANK), look.pitch, 0.0)
        sticks = setting.trims()
        sticks[:, 1 if setting.rolls else 3] = way

        path = setting.fly(state, held(sticks), LONGEST, every=2)
        seen = attitude_of(path.states)
        there = way * seen.bank >= BANK
        times.append(np.where(there.any(axis=0), path.times[there.argmax(axis=0)], LONGEST))
        swings.append(_swing(setting, sticks, way))
    return Rolling(
        right=times[0],
        left=times[1],
        adverse=0.5 * (swings[0] + swings[1]),
        reached=(times[0] < LONGEST) & (times[1] < LONGEST),
    )


def _swing(setting: Setting, sticks: Array, way: float) -> Array:
    """Most that the nose goes the wrong way, wings level at first; a bank would turn it anyway."""
    path = setting.fly(setting.trimmed(), held(sticks), FIRST, every=1)
    heading = attitude_of(path.states).heading
    return (-way * (heading - heading[0])).max(axis=0)
