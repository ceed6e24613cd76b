"""Answers of the flight simulation to small faults, linear in all that is off."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

type Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Linear:
    """One answer, linear in everything that is not known and in what is set.

    Attributes:
        base: Of the plane as drawn. [any]
        slopes: By unknown, in the order of NAMES. [any]
        aileron: By aileron trim, rolling right. [1/rad]
        rudder: By rudder trim, nose right. [1/rad]
    """

    base: float
    slopes: Array
    aileron: float = 0.0
    rudder: float = 0.0


@dataclass(frozen=True, slots=True)
class Responses:
    """Every answer.

    Attributes:
        roll_slow: Roll rate hands off, right. [rad/s]
        roll_fast: Same, fast. [rad/s]
        roll_glide: Same, power off. [rad/s]
        roll_launch: Same, as it leaves the hand. [rad/s]
        yaw_power: Turn of the nose, right, that full power adds to level's. [rad]
        power_on: Most that the nose rises with a quarter of the stick more. [rad]
        power_off: Steepest path below that of the glide once the throttle is closed. [rad]
        trim_elevator: Elevator down in level flight, from faired. [rad]
        trim_aileron: Aileron that holds level flight straight, right; 0 without. [rad]
        trim_rudder: Rudder that does, right; 0 with ailerons. [rad]
        launch_pitch: Elevator down that the throw would need. [rad]
    """

    roll_slow: Linear
    roll_fast: Linear
    roll_glide: Linear
    roll_launch: Linear
    yaw_power: Linear
    power_on: Linear
    power_off: Linear
    trim_elevator: Linear
    trim_aileron: Linear
    trim_rudder: Linear
    launch_pitch: Linear


def at(linear: Linear, hidden: Array, *, aileron: float = 0.0, rudder: float = 0.0) -> Array:
    """An answer for every guess.

    Args:
        linear: Which. [-]
        hidden: Guesses, one a row. [as hidden.py]
        aileron: Trim, rolling right. [rad]
        rudder: Trim, nose right. [rad]

    Returns:
        One a guess. [any]

    Source:
        Definition.

    Example:
        >>> float(at(Linear(1.0, np.ones(18)), np.zeros((1, 18)))[0])
        1.0
    """
    fixed = linear.base + linear.aileron * aileron + linear.rudder * rudder
    return fixed + hidden @ linear.slopes
