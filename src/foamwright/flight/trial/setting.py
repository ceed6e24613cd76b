"""Where every manoeuvre of the test flight starts: the plane trimmed as drawn, and the builds."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from foamwright.core.errors import ModelError
from foamwright.flight.gauges import StallAngles, stall_angles
from foamwright.flight.simulation.craft import Craft
from foamwright.flight.simulation.fly import (
    FLYING,
    GROUND,
    Ending,
    Path,
    Pilot,
    Which,
    fly,
    on_ground,
)
from foamwright.flight.simulation.ground import lowest_of
from foamwright.flight.simulation.hands import Gains, gains_for
from foamwright.flight.simulation.state import attitude_of, rotation_of
from foamwright.flight.simulation.trim import Steady, steady_flight

type Array = NDArray[np.float64]

SLOW, CRUISE, FAST = 1.2, 1.4, 2.0  # of the stall speed: the three speeds of the card
HIGH = 300.0  # m, where nothing touches the ground
SEES_LATE = 0.2  # s, pilot that keeps the wings level in a test


@dataclass(frozen=True, slots=True)
class Setting:
    """One test flight of n builds side by side.

    Attributes:
        drawn: The plane as drawn, one build.
        flown: The builds that are flown.
        stalls: Where each strip lets go.
        gains: Of the pilot who keeps the wings level.
        slow: Level flight of the plane as drawn at 1.2 times its stall speed.
        level: At 1.4 times.
        fast: At twice, or where its power ends below that, diving.
        glide: Power off at 1.4 times.
        own: Level flight of each build at 1.4 times the drawn stall speed, as its pilot trims it.
    """

    drawn: Craft
    flown: Craft
    stalls: StallAngles
    gains: Gains
    slow: Steady
    level: Steady
    fast: Steady
    glide: Steady
    own: Steady

    @property
    def count(self) -> int:
        """Builds [-]."""
        return self.flown.count

    @property
    def rolls(self) -> bool:
        """Whether the plane has ailerons."""
        return bool(self.drawn.travel[0] + self.drawn.travel[1] > 0.0)

    def start(self, steady: Steady, height: float = HIGH) -> Array:
        """States of all builds at a steady state of the plane as drawn, at a height [m]."""
        state = np.repeat(steady.state, self.count, axis=0)
        state[:, 2] = -height
        return state

    def trimmed(self, height: float = HIGH) -> Array:
        """States of all builds in level flight as their pilots trimmed them, at a height [m]."""
        state = self.start(self.level, height)
        found = self.own.found
        state[found] = self.own.state[found]
        state[:, 2] = -height
        return state

    def trims(self, throttle: float | None = None) -> Array:
        """Sticks of all builds in level flight as trimmed; as drawn where it cannot be [-]."""
        found = self.own.found[:, None]
        sticks = np.where(found, self.own.sticks, self.hold(self.level))
        if throttle is not None:
            sticks[:, 0] = throttle
        return sticks

    def hold(self, steady: Steady, throttle: float | None = None) -> Array:
        """Sticks of all builds that hold the plane as drawn, its wings' trim left out [-]."""
        sticks = np.repeat(steady.sticks, self.count, axis=0)
        sticks[:, 1] = 0.0
        sticks[:, 3] = 0.0
        if throttle is not None:
            sticks[:, 0] = throttle
        return sticks

    def flying(self, which: Which) -> Craft:
        """The builds that still fly, by index [-]."""
        return self.flown if self.count == 1 else self.flown.take(which)

    def touches(self, time: float, state: Array, which: Which) -> NDArray[np.intp]:
        """Ends a flight when the lowest point of the plane is at the ground."""
        del time
        low = lowest_of(self.flying(which), state, rotation_of(state))
        return np.where(low <= 0.0, GROUND, FLYING)

    def fly(
        self,
        state: Array,
        pilot: Pilot,
        duration: float,
        *,
        every: int = 2,
        ending: Ending = on_ground,
    ) -> Path:
        """Fly all builds high up for a time [s], or until the ending says so."""
        return fly(self.flown, state, pilot, duration=duration, every=every, ending=ending)


def setting_of(drawn: Craft, flown: Craft) -> Setting:
    """Trim the plane as drawn for the test flight.

    Args:
        drawn: Without flaws. [-]
        flown: With those that are to be flown. [-]

    Returns:
        The setting.

    Raises:
        ModelError: The plane as drawn flies neither level nor in a glide.

    Source:
        steady_flight.

    Example:
        >>> setting_of(plane.craft, plane.craft).count
        1
    """
    stall = drawn.stall_speed
    slow, level, fast = (
        steady_flight(drawn, ratio * stall, throttle=None) for ratio in (SLOW, CRUISE, FAST)
    )
    glide = steady_flight(drawn, CRUISE * stall)
    if not fast.found[0]:
        fast = steady_flight(drawn, FAST * stall)
    for steady, what in ((level, "level"), (glide, "in a glide"), (slow, "slowly")):
        if not steady.found[0]:
            raise ModelError(
                f"No test flight on paper: the plane does not fly {what} as drawn; "
                "mend what `foamwright check` finds first."
            )
    return Setting(
        drawn=drawn,
        flown=flown,
        stalls=stall_angles(drawn),
        gains=gains_for(drawn, SEES_LATE, speed=SLOW * stall),
        slow=slow,
        level=level,
        fast=fast,
        glide=glide,
        own=steady_flight(flown, CRUISE * stall, throttle=None),
    )


def held(sticks: Array) -> Pilot:
    """Sticks that do not move.

    Args:
        sticks: One row a build. [-]

    Returns:
        A pilot for `fly`.

    Source:
        Definition.

    Example:
        >>> held(np.zeros((1, 4)))(0.0, np.zeros((1, 18)), np.array([0])).tolist()
        [[0.0, 0.0, 0.0, 0.0]]
    """

    def pilot(time: float, state: Array, which: Which) -> Array:
        del time, state
        return sticks[which].copy()

    return pilot


def level_wings(gains: Gains, state: Array, sticks: Array, bank: Array | float = 0.0) -> Array:
    """Add what keeps the wings at a bank.

    Args:
        gains: Of the pilot. [-]
        state: One row a build. [SI]
        sticks: As held otherwise; changed in place. [-]
        bank: Wanted, right. [rad]

    Returns:
        The sticks. [-]

    Source:
        Proportional to bank and roll rate, as foamwright.flight.simulation.hands.

    Example:
        >>> gains = Gains(1.0, 0.1, 1.0, 0.1, 0.2)
        >>> at = np.zeros((1, 18)); at[0, 3] = 1.0
        >>> level_wings(gains, at, np.zeros((1, 4))).tolist()
        [[0.0, 0.0, 0.0, 0.0]]
    """
    off = attitude_of(state).bank - bank
    roll = state[:, 10]
    sticks[:, 1] = np.clip(sticks[:, 1] - gains.bank * off - gains.roll * roll, -1.0, 1.0)
    sticks[:, 3] = np.clip(sticks[:, 3] - gains.yaw * off - gains.yaw_roll * roll, -1.0, 1.0)
    return sticks


def path_angle(states: Array) -> Array:
    """Climb angle of states over ground.

    Args:
        states: Times and builds first. [SI]

    Returns:
        [rad]

    Source:
        Definition.

    Example:
        >>> at = np.zeros((1, 18)); at[0, 3] = 1.0; at[0, 7] = 9.0
        >>> abs(float(path_angle(at)[0]))
        0.0
    """
    w, x, y, z = (states[..., 3 + k] for k in range(4))
    u, v, q = states[..., 7], states[..., 8], states[..., 9]
    down = 2.0 * (x * z - w * y) * u + 2.0 * (y * z + w * x) * v + (1.0 - 2.0 * (x * x + y * y)) * q
    speed = np.sqrt(u * u + v * v + q * q)
    return np.arcsin(np.clip(-down / np.maximum(speed, 1e-9), -1.0, 1.0))
