"""Near the ground: the glide toss, and the landing."""

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from foamwright.flight.simulation.fly import Which, fly
from foamwright.flight.simulation.ground import lowest_of
from foamwright.flight.simulation.state import (
    QUATERNION,
    THROTTLE,
    attitude_of,
    quaternion_of,
    rotation_of,
)
from foamwright.flight.simulation.trim import steady_flight
from foamwright.flight.trial.setting import Setting, level_wings, path_angle

type Array = NDArray[np.float64]

TOSS_AIM = 10.0  # m ahead on the ground; common practice, no source
APPROACH = 1.3  # of the stall speed; common practice, no source
APPROACH_HEIGHT = 6.0  # m
FLARE = 1.2  # m, lowest point: where the pilot begins to pull
FLARE_UP = 1.6  # stick per radian that the path is steeper than wanted
WANTED = -0.03  # rad, path wanted in the flare


@dataclass(frozen=True, slots=True)
class Toss:
    """A glide toss, motor off.

    Attributes:
        distance: Along the throw. [m]
        aside: To the right. [m]
        rise: Above the hand. [m]
        time: In the air. [s]
        ratio: Distance over height lost. [-]
        steep: Path as it reaches the grass. [rad]
    """

    distance: Array
    aside: Array
    rise: Array
    time: Array
    ratio: Array
    steep: Array


def glide_toss(setting: Setting, height: float) -> Toss:
    """Throw at trim speed, a little down at a point ahead, hands off.

    Args:
        setting: Of the test flight. [-]
        height: Of the hand. [m]

    Returns:
        Where it lands.

    Source:
        The simulation; the aim is common practice, no source.

    Example:
        >>> bool(flown.toss.distance[0] > 5.0)
        True
    """
    glide = setting.glide
    state = setting.start(glide, height)
    look = attitude_of(state)
    down = -math.atan2(height, TOSS_AIM)
    more = np.full(setting.count, down) - path_angle(state)
    state[:, QUATERNION] = quaternion_of(0.0 * look.bank, look.pitch + more, 0.0 * look.bank)
    state[:, [13, 15]] = 0.0
    sticks = setting.hold(glide, 0.0)

    def pilot(time: float, now: Array, which: Which) -> Array:
        del time, now
        return sticks[which].copy()

    path = fly(
        setting.flown,
        state,
        pilot,
        duration=12.0,
        ending=setting.touches,
        every=5,
    )
    fallen = height + path.final[:, 2]
    distance = path.final[:, 0]
    return Toss(
        distance=distance,
        aside=path.final[:, 1],
        rise=np.maximum(path.height.max(axis=0) - height, 0.0),
        time=path.ended,
        ratio=distance / np.maximum(fallen, 0.3),
        steep=path_angle(path.final),
    )


@dataclass(frozen=True, slots=True)
class Landing:
    """A landing without power.

    Attributes:
        speed: At touch-down, over ground. [m/s]
        sink: [m/s]
        pitch: Nose up. [rad]
        float_distance: From the flare's beginning. [m]
        full_stick: Whether the elevator was right back. [-]
    """

    speed: Array
    sink: Array
    pitch: Array
    float_distance: Array
    full_stick: NDArray[np.bool_]


def landing(setting: Setting) -> Landing:
    """Glide in at 1.3 times stall speed and flare.

    Args:
        setting: Of the test flight. [-]

    Returns:
        How it touches down.

    Source:
        The simulation.

    Example:
        >>> bool(flown.landing.sink[0] < 1.5)
        True
    """
    steady = steady_flight(setting.flown, APPROACH * setting.drawn.stall_speed)
    state = setting.start(setting.glide, APPROACH_HEIGHT)
    state[steady.found] = steady.state[steady.found]
    state[:, 2] = -APPROACH_HEIGHT
    state[:, THROTTLE] = 0.0
    base = np.where(steady.found[:, None], steady.sticks, setting.trims(0.0))
    began = np.full(setting.count, np.nan)
    most = np.zeros(setting.count)

    def pilot(time: float, now: Array, which: Which) -> Array:
        del time
        low = lowest_of(setting.flying(which), now, rotation_of(now))
        sticks = base[which].copy()
        flare = low < FLARE
        new = flare & np.isnan(began[which])
        began[which[new]] = now[new, 0]
        pull = FLARE_UP * (WANTED - path_angle(now)) * np.clip((FLARE - low) / FLARE + 0.4, 0, 1)
        sticks[:, 2] = np.where(flare, np.clip(sticks[:, 2] + 3.0 * pull, -0.5, 1.0), sticks[:, 2])
        most[which] = np.maximum(most[which], sticks[:, 2])
        return level_wings(setting.gains, now, sticks)

    path = fly(
        setting.flown,
        state,
        pilot,
        duration=20.0,
        ending=setting.touches,
        every=5,
    )
    final = path.final
    ground = np.einsum("nij,nj->ni", rotation_of(final), final[:, 7:10])
    return Landing(
        speed=np.hypot(ground[:, 0], ground[:, 1]),
        sink=ground[:, 2],
        pitch=attitude_of(final).pitch,
        float_distance=final[:, 0] - began,
        full_stick=most >= 1.0,
    )
