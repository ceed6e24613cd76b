"""How a throw ends: what is watched on the way, and the name that it gets."""

import math

import numpy as np
from numpy.typing import NDArray

from foamwright.core.air import GRAVITY
from foamwright.flight.simulation.craft import Craft
from foamwright.flight.simulation.fly import DIVERGED, FLYING, GROUND, Path
from foamwright.flight.simulation.state import VELOCITY, attitude_of, rotation_of
from foamwright.flight.simulation.wind import SampledWind

type Array = NDArray[np.float64]
type Which = NDArray[np.intp]

ENDS = ("flew away", "sank", "stalled", "rolled", "dived", "diverged")
AWAY, SANK, STALLED, ROLLED, DIVED, RAN_AWAY = range(6)
TOO_MUCH_BANK = math.radians(50.0)  # beyond, a launch is lost this low; common practice, no source
TOO_STEEP = math.radians(-25.0)  # nose below level
STALL_SHARE = 0.35  # of the wing's area separated counts as stalled
STALL_TIME = 0.15  # s for which it has to last
LOST_LIFT = -0.15  # lift coefficient lost by separation on a strip that counts
OUT_OF_HAND = math.radians(75.0)  # bank at the end that no longer counts as flying away
LOSING = 0.15  # m/s of height and speed together, lost low down at the end: it will come down
LOOKS_BACK = 1.5  # s over which that is judged
SAFE_HEIGHT = 3.0  # m, above which it may still lose a little


class Watch:
    """Looks at every step, notes what went wrong first, and ends a flight at the ground."""

    def __init__(self, craft: Craft, count: int, *, step: float, duration: float) -> None:
        """Ready for a flight.

        Args:
            craft: The plane. [-]
            count: Throws. [-]
            step: Of the flight. [s]
            duration: Of the flight. [s]
        """
        self._points = craft.touch.points
        wing = craft.strips.surface == 0
        area = np.where(wing, craft.strips.chord * craft.strips.width, 0.0)
        self._area = area / area.sum()
        self._step = step
        self._from = duration - LOOKS_BACK
        self.since = 0.0
        self.energy = np.zeros(count)
        self.rolled, self.dived, self.stalled = (np.full(count, np.inf) for _ in range(3))
        self.stall_time = np.zeros(count)
        self.slowest, self.lowest = np.full(count, np.inf), np.full(count, np.inf)
        self.bank, self.separated = np.zeros(count), np.zeros(count)
        self.weather: SampledWind | None = None
        self._looks = 0

    def __call__(self, time: float, state: Array, which: Which) -> Which:
        """Why each flight ends now [-], 0 for flying on, at a time [s]."""
        look = attitude_of(state)
        self._first(self.rolled, np.abs(look.bank) > TOO_MUCH_BANK, time, which)
        self._first(self.dived, look.pitch < TOO_STEEP, time, which)
        share = (state[:, 18:] < LOST_LIFT) @ self._area
        self.stall_time[which] += np.where(share > STALL_SHARE, self._step, 0.0)
        self._first(self.stalled, self.stall_time[which] > STALL_TIME, time, which)
        more = np.abs(look.bank) > np.abs(self.bank[which])
        self.bank[which] = np.where(more, look.bank, self.bank[which])
        self.separated[which] = np.maximum(self.separated[which], share)
        turn = rotation_of(state)
        low = -(state[:, 2] + (turn[:, 2, :] @ self._points.T).max(axis=1))
        self.lowest[which] = np.minimum(self.lowest[which], low)
        if self.since == 0.0 and time >= self._from:
            self.since = LOOKS_BACK
            self.energy[which] = energy_height(state)
        self._looks += 1
        if self._looks % 5 == 1:
            self._airspeed(time, state, which, turn)
        return np.where(low <= 0.0, GROUND, FLYING)

    def _airspeed(self, time: float, state: Array, which: Which, turn: Array) -> None:
        air = state[:, 7:10]
        if self.weather is not None:
            wind = self.weather(time, state, which)[:, :3]
            air = air - np.einsum("nij,ni->nj", turn, wind)
        speed = np.sqrt((air * air).sum(axis=1))
        self.slowest[which] = np.minimum(self.slowest[which], speed)

    @staticmethod
    def _first(times: Array, now: NDArray[np.bool_], time: float, which: Which) -> None:
        times[which] = np.where(now & np.isinf(times[which]), time, times[which])


def energy_height(state: Array) -> Array:
    """Height and speed together, as the height that both are worth.

    E = h + V²/2g.

    Args:
        state: One row a member. [SI]

    Returns:
        Energy height. [m]

    Source:
        Definition.

    Example:
        >>> at = np.zeros((1, 18)); at[0, 2] = -2.0; at[0, 7] = 9.80665
        >>> energy_height(at).round(3).tolist()
        [6.903]
    """
    speed2 = (state[:, VELOCITY] ** 2).sum(axis=1)
    return np.asarray(-state[:, 2] + 0.5 * speed2 / GRAVITY)


def ends_of(path: Path, watch: Watch) -> NDArray[np.intp]:
    """What went wrong first names the end; nothing but the ground: it sank.

    Args:
        path: The flights. [-]
        watch: What was seen on the way. [-]

    Returns:
        Index into ENDS. [-]

    Source:
        House definitions, see the constants above.

    Example:
        >>> ends_of(path, watch)  # doctest: +SKIP
    """
    first_seen = np.stack([watch.stalled, watch.rolled, watch.dived])
    kinds = np.array([STALLED, ROLLED, DIVED])
    first = first_seen.argmin(axis=0)
    down = np.where(np.isfinite(first_seen.min(axis=0)), kinds[first], SANK)
    # not losing height and speed together, or high enough to see what comes
    losing = energy_height(path.final) - watch.energy < -LOSING * watch.since
    slow = losing & (-path.final[:, 2] < SAFE_HEIGHT)
    end = np.where(slow, SANK, AWAY)
    lost = np.abs(attitude_of(path.final).bank) > OUT_OF_HAND
    end = np.where(lost, ROLLED, end)
    end = np.where(path.why == GROUND, down, end)
    return np.where(path.why == DIVERGED, RAN_AWAY, end)
