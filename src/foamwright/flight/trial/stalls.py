"""Stalls: straight and in a turn, where they begin and what they cost."""

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from foamwright.flight.gauges import gauges_of
from foamwright.flight.simulation.fly import FLYING, OTHER, Which
from foamwright.flight.simulation.state import attitude_of
from foamwright.flight.simulation.trim import Steady, steady_flight
from foamwright.flight.trial.setting import Setting, level_wings

type Array = NDArray[np.float64]

PULL = 0.16  # full stick a second: slow, as in a stall test
FIRST_SPEED = 1.3  # of the stall speed, where the pull begins
GONE = 0.5  # of the strips of one wing half: the wing has let go
FULL_STICK = 1.0  # s that the stick is held back when nothing breaks
WATCH = 1.2  # s that the wing is left alone after the break
FLIES_AGAIN = 1.2  # of the stall speed
LONGEST = 14.0  # s
TURN = math.radians(45.0)
TURN_SPEED = 1.7  # of the stall speed; 45 degrees stalls at 1.19


@dataclass(frozen=True, slots=True)
class Stall:
    """A stall test of n builds.

    Attributes:
        speed: At the break. [m/s]
        drop: Bank that the wing dropped in the time watched, right positive. [rad]
        lost: Height from the break until it flies again, or to the end. [m]
        place: Where it began, share of the half span. [-]
        side: 1 right, -1 left, 0 both. [-]
        broke: Whether a wing let go before the stick was right back. [-]
    """

    speed: Array
    drop: Array
    lost: Array
    place: Array
    side: Array
    broke: NDArray[np.bool_]


class _Puller:
    """Pulls slowly, keeps the wings where they are until the break, then leaves them alone."""

    def __init__(self, setting: Setting, base: Array, bank: float) -> None:
        self.setting, self.base, self.bank = setting, base, bank
        count = setting.count
        self.broken = np.full(count, np.inf)
        self.full = np.full(count, np.inf)
        self.place, self.side = np.full(count, np.nan), np.zeros(count)
        self.speed, self.drop = np.full(count, np.nan), np.zeros(count)
        self.height, self.lost = np.zeros(count), np.full(count, np.nan)
        self.first = np.zeros(count, dtype=bool)
        self.from_bank = np.zeros(count)

    def __call__(self, time: float, state: Array, which: Which) -> Array:
        self._watch(time, state, which)
        sticks = self.base[which].copy()
        broken = self.broken[which]
        pulled = np.minimum(time, broken)
        sticks[:, 2] = np.minimum(sticks[:, 2] + PULL * pulled, 1.0)
        self.full[which] = np.where(
            (sticks[:, 2] >= 1.0) & np.isinf(self.full[which]), time, self.full[which]
        )
        after = time - broken
        sticks[:, 2] = np.where(after > 0.4, self.base[which, 2], sticks[:, 2])
        given = level_wings(self.setting.gains, state, sticks.copy(), self.bank)
        alone = (after >= 0.0) & (after < WATCH)
        late = level_wings(self.setting.gains, state, sticks.copy())
        given = np.where((after >= WATCH)[:, None], late, given)
        return np.where(alone[:, None], sticks, given)

    def over(self, time: float, state: Array, which: Which) -> NDArray[np.intp]:
        """Ends a test once the plane flies again and the wing has been watched."""
        del state
        done = ~np.isnan(self.lost[which]) & (time > self.broken[which] + WATCH)
        return np.where(done, OTHER, FLYING)

    def _watch(self, time: float, state: Array, which: Which) -> None:
        craft = self.setting.flying(which)
        seen = gauges_of(craft, state, np.zeros(3), stalls=self.setting.stalls)
        strips = craft.strips
        bank = attitude_of(state).bank
        halves = [strips.surface == 0, strips.surface == 0]
        shares = [
            seen.separated[:, half & (strips.side == side)].mean(axis=1)
            for half, side in zip(halves, (-1, 1), strict=True)
        ]
        self._note_place(seen.separated & halves[0], which)
        gone = np.maximum(*shares) >= GONE
        held = time - self.full[which] > FULL_STICK
        now = (gone | held) & np.isinf(self.broken[which])
        at = which[now]
        self.broken[at], self.speed[at] = time, seen.airspeed[now]
        self.height[at], self.from_bank[at] = -state[now, 2], bank[now]
        self.first[at] = gone[now]
        watching = (time >= self.broken[which]) & (time < self.broken[which] + WATCH)
        moved = _turned(bank - self.from_bank[which])
        most = np.abs(moved) > np.abs(self.drop[which])
        self.drop[which] = np.where(watching & most, moved, self.drop[which])
        flies = seen.airspeed > FLIES_AGAIN * self.setting.drawn.stall_speed
        flies &= (time > self.broken[which] + 0.4) & np.isnan(self.lost[which])
        flies &= np.abs(bank) < 1.0
        back = which[flies]
        self.lost[back] = self.height[back] + state[flies, 2]

    def _note_place(self, gone: NDArray[np.bool_], which: Which) -> None:
        strips = self.setting.drawn.strips
        new = gone.any(axis=1) & np.isnan(self.place[which])
        for row in np.flatnonzero(new):
            there = gone[row]
            self.place[which[row]] = strips.place[there].mean()
            self.side[which[row]] = np.sign(strips.side[there].sum())


def _turned(angle: Array) -> Array:
    return (angle + np.pi) % (2.0 * np.pi) - np.pi


def stall_straight(setting: Setting) -> Stall:
    """Power off, wings level, pull slowly until it breaks; then let the wings alone.

    Args:
        setting: Of the test flight. [-]

    Returns:
        The stall.

    Source:
        The simulation.

    Example:
        >>> abs(float(flown.straight.drop[0])) < 1.0
        True
    """
    speed = FIRST_SPEED * setting.drawn.stall_speed
    return _stall(setting, steady_flight(setting.flown, speed), 0.0)


def stall_turning(setting: Setting) -> Stall:
    """The same in a right turn banked 45 degrees, power as level flight needs it there.

    Args:
        setting: Of the test flight. [-]

    Returns:
        The stall; a positive drop goes on into the turn.

    Source:
        The simulation.

    Example:
        >>> bool(flown.turning.speed[0] > flown.straight.speed[0])
        True
    """
    speed = TURN_SPEED * setting.drawn.stall_speed
    return _stall(setting, steady_flight(setting.flown, speed, throttle=None, bank=TURN), TURN)


def _stall(setting: Setting, steady: Steady, bank: float) -> Stall:
    state = setting.trimmed()
    state[steady.found] = steady.state[steady.found]
    state[:, 2] = -300.0
    base = np.where(steady.found[:, None], steady.sticks, setting.trims(0.0))
    puller = _Puller(setting, base, bank)
    path = setting.fly(state, puller, LONGEST, every=10, ending=puller.over)
    ended = path.height[-1]
    return Stall(
        speed=puller.speed,
        drop=puller.drop,
        lost=np.where(np.isnan(puller.lost), puller.height - ended, puller.lost),
        place=puller.place,
        side=puller.side,
        broke=puller.first,
    )
