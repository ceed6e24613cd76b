"""A simple pilot: hands off for a while after the throw, then level wings and a shallow climb."""

from dataclasses import dataclass, fields

import numpy as np
from numpy.typing import NDArray

from foamwright.flight.simulation.advance import STEP, advance
from foamwright.flight.simulation.craft import Craft
from foamwright.flight.simulation.rate import state_rate
from foamwright.flight.simulation.state import RATES, VELOCITY, attitude_of, start_state

type Array = NDArray[np.float64]
type Which = NDArray[np.intp]

DELAYS = {"beginner": 0.8, "returning": 0.6, "experienced": 0.4}  # s, release to hand on the stick
SEES_LATE = {"beginner": 0.30, "returning": 0.24, "experienced": 0.18}  # s, eye to thumb; assumed
RUDDER_TRIED = 0.4  # of the stick, to feel how the plane rolls with the rudder
RUDDER_TIMES = (0.5, 0.8)  # s after which its bank is read
PATIENCE = 1.2  # s after which a steady bank has doubled what the pilot gives; assumed
PUSHES = 0.5  # rad of bank, most that he holds against so; assumed
FELT_AT = 1.1  # of the stall speed, where the plane's answer is felt
LEAST_ROLL = 0.3  # rad/s at full rudder; a plane that rolls less is not held up by it
RUDDER_WITH = 0.15  # of the aileron stick that goes to the rudder as well; assumed
STRAIGHT = 0.6  # bank per heading off the way it was thrown; assumed
LEAN = 0.25  # rad, most bank that a pilot takes to come back so low; assumed
STIFFEST = 2.0  # stick per radian that any pilot gives; assumed
GAINS = {"beginner": 0.8, "returning": 0.9, "experienced": 1.0}  # firmness; assumed


@dataclass(frozen=True, slots=True)
class Hands:
    """What a pilot does after the throw.

    Attributes:
        reaction: From the release to the hand on the stick. [s]
        reaction_spread: Relative. [-]
        delay: From seeing to moving, all the time. [s]
        firmness: Factor on what he gives. [-]
        climb: Pitch angle that he wants to see. [rad]
        climb_spread: [rad]
        most: Largest stick he gives. [-]
    """

    reaction: float = 0.6
    reaction_spread: float = 0.25
    delay: float = 0.24
    firmness: float = 0.9
    climb: float = 0.12
    climb_spread: float = 0.05
    most: float = 0.7


def hands_of(level: str) -> Hands:
    """The pilot of a level of practice.

    Args:
        level: "beginner", "returning" or "experienced". [-]

    Returns:
        Reaction, delay and firmness.

    Source:
        Assumed; a simple reaction to something seen takes 0.2 to 0.25 s (from memory).

    Example:
        >>> hands_of("beginner").reaction
        0.8
    """
    return Hands(reaction=DELAYS[level], delay=SEES_LATE[level], firmness=GAINS[level])


@dataclass(frozen=True, slots=True)
class Gains:
    """Stick per radian and per radian a second, fitted to the plane's own answer.

    Attributes:
        bank: [1/rad]
        roll: [s/rad]
        pitch: [1/rad]
        pitch_rate: [s/rad]
        yaw: Rudder per bank. [1/rad]
        yaw_roll: Rudder per roll rate, where there are no ailerons. [s/rad]
        speed: Airspeed at which they were felt; faster the pilot gives less. [m/s]
    """

    bank: float
    roll: float
    pitch: float
    pitch_rate: float
    yaw: float
    yaw_roll: float = 0.0
    speed: float = 1e3


def answers_of(craft: Craft, speed: float) -> tuple[float, float]:
    """Rolling and pitching that a full stick would settle to, first build, as it starts.

    Rate of turn = moment of the stick over damping, both from state_rate.

    Args:
        craft: The plane. [-]
        speed: Airspeed. [m/s]

    Returns:
        Roll and pitch rate at full stick. [rad/s]

    Source:
        Differences of state_rate.

    Example:
        >>> answers_of(plane.craft, 9.0)[0] > 1.0
        True
    """
    one = craft.take(np.array([0]))
    state = np.repeat(
        start_state(craft.strip_count, speed=speed, height=100.0, alpha=0.05), 5, axis=0
    )
    state[1, 13], state[2, 14], state[3, 10], state[4, 11] = 0.5, 0.5, 0.2, 0.2
    rate = state_rate(one, state, np.zeros(4), np.zeros(3))[:, 10:12]
    more = rate[1:] - rate[0]
    roll = 2.0 * more[0, 0] / max(-5.0 * more[2, 0], 1e-3)
    pitch = 2.0 * more[1, 1] / max(-5.0 * more[3, 1], 1e-3)
    return float(roll), float(pitch)


def rudder_answer(craft: Craft, speed: float, *, throttle: float = 0.0) -> tuple[float, float]:
    """How a plane rolls with the rudder, first build.

    It yaws first, the dihedral rolls it later: bank = rate (time - lag), read at two times.

    Args:
        craft: The plane. [-]
        speed: Airspeed. [m/s]
        throttle: Stick; the slipstream makes the rudder strong. [-]

    Returns:
        Roll rate at full rudder [rad/s] and the lag [s].

    Source:
        The simulation, with and without rudder.

    Example:
        >>> rate, lag = rudder_answer(plane.craft, 9.0)
        >>> 0.0 < lag < 0.6
        True
    """
    one = craft.take(np.array([0]))
    state = start_state(
        craft.strip_count, speed=np.full(2, speed), height=100.0, alpha=0.05, throttle=throttle
    )
    sticks = np.zeros((2, 4))
    sticks[:, 0], sticks[1, 3] = throttle, RUDDER_TRIED
    banks: list[float] = []
    first, last = (round(time / STEP) for time in RUDDER_TIMES)
    for k in range(last):
        state = advance(one, state, sticks, np.zeros(3))
        if k + 1 in (first, last):
            bank = attitude_of(state).bank
            banks.append(float(bank[1] - bank[0]) / RUDDER_TRIED)
    rate = (banks[1] - banks[0]) / (RUDDER_TIMES[1] - RUDDER_TIMES[0])
    if rate < LEAST_ROLL:
        return max(rate, 0.0), RUDDER_TIMES[0]
    return rate, float(np.clip(RUDDER_TIMES[1] - banks[1] / rate, 0.0, RUDDER_TIMES[0]))


def gains_for(craft: Craft, delay: float, *, speed: float, throttle: float = 0.0) -> Gains:
    """What a pilot who sees late can give without making it swing.

    Gain times the plane's answer times delay is a third: a bank or a wrong pitch angle is gone in
    about three delays. The rudder's own lag counts with the delay.

    Args:
        craft: The plane. [-]
        delay: From seeing to moving. [s]
        speed: Airspeed at which the plane's answer is taken. [m/s]
        throttle: Stick at which it is. [-]

    Returns:
        The gains.

    Source:
        Crossover model of manual control in its simplest form, McRuer (from memory).

    Example:
        >>> gains_for(plane.craft, 0.24, speed=9.0).bank > 0.0
        True
    """
    quick = 1.0 / (3.0 * max(delay, 0.05))
    roll, pitch = answers_of(craft, speed)
    up = min(quick / max(pitch, 0.3), STIFFEST)
    pull = {"pitch": up, "pitch_rate": 0.5 * delay * up, "speed": speed}
    if roll > LEAST_ROLL:
        bank = min(quick / roll, STIFFEST)
        return Gains(bank=bank, roll=0.5 * delay * bank, yaw=RUDDER_WITH * bank, **pull)
    rate, lag = rudder_answer(craft, speed, throttle=throttle)
    late = delay + lag
    yaw = min(1.0 / (3.0 * max(late, 0.05) * max(rate, LEAST_ROLL)), STIFFEST)
    return Gains(bank=0.0, roll=0.0, yaw=yaw, yaw_roll=0.5 * late * yaw, **pull)


def felt_gains(craft: Craft, delay: float, throttles: Array) -> Array:
    """Gains of the pilots of many throws, by the throttle of each; felt on the first build.

    Args:
        craft: The plane; its first build is the one that was felt. [-]
        delay: From seeing to moving. [s]
        throttles: Stick of each throw, to the nearest tenth. [-]

    Returns:
        One row a throw: the fields of Gains in their order. [SI]

    Source:
        `gains_for`.

    Example:
        >>> felt_gains(plane.craft, 0.24, np.array([0.7, 0.72])).shape
        (2, 7)
    """
    tenths = np.round(10.0 * np.asarray(throttles)).astype(int)
    speed = FELT_AT * craft.stall_speed
    names = [field.name for field in fields(Gains)]
    rows = np.empty((len(tenths), len(names)))
    for tenth in np.unique(tenths).tolist():
        gains = gains_for(craft, delay, speed=speed, throttle=0.1 * tenth)
        rows[tenths == tenth] = [getattr(gains, name) for name in names]
    return rows


class Pilot:
    """Hands with a memory of what they saw: one object a flight of n members."""

    def __init__(
        self, gains: Array, hands: Hands, throttle: Array, draw: Array, *, step: float
    ) -> None:
        """Ready for a flight.

        Args:
            gains: As `felt_gains`. [SI]
            hands: The pilot. [-]
            throttle: Stick of each member. [-]
            draw: Normal numbers, (2, n): reaction and wanted climb. [-]
            step: Of the flight. [s]
        """
        self._gains = gains
        self._hands = hands
        self._throttle = throttle
        self._reaction = hands.reaction * np.maximum(1.0 + hands.reaction_spread * draw[0], 0.3)
        self._climb = hands.climb + hands.climb_spread * draw[1]
        self._late = max(1, round(hands.delay / step))
        self._seen = np.zeros((self._late, 5, len(throttle)))
        self._heading = np.zeros(len(throttle))
        self._pushed = np.zeros(len(throttle))
        self._step = step
        self._count = 0

    def __call__(self, time: float, state: Array, which: Which) -> Array:
        """Sticks [-] at a time [s] for the members that still fly."""
        place = self._count % self._late
        seen = self._seen[place][:, which] if self._count >= self._late else None
        look = attitude_of(state)
        rates = state[:, RATES]
        self._seen[place][:, which] = (
            look.bank,
            look.pitch,
            rates[:, 0],
            rates[:, 1],
            look.heading,
        )
        if self._count == 0:
            self._heading[which] = look.heading
        self._count += 1
        sticks = np.zeros((len(which), 4))
        sticks[:, 0] = self._throttle[which]
        if seen is None:
            return sticks
        most = self._hands.most
        by_bank, by_roll, by_pitch, by_turn, rudder, rudder_roll, felt = self._gains[which].T
        bank, pitch, roll, turn, heading = seen
        ahead = self._heading[which]
        bank = bank - np.clip(-STRAIGHT * (heading - ahead), -LEAN, LEAN)
        moved = np.sqrt((state[:, VELOCITY] ** 2).sum(axis=1))
        used = np.minimum(felt / np.maximum(moved, 1.0), 1.0)
        firm = self._hands.firmness * used * (time >= self._reaction[which])
        want = self._climb[which] - pitch
        # What keeps coming back the pilot holds against for good, within a second or two.
        pushed = self._pushed[which] + self._step / PATIENCE * np.where(firm > 0.0, bank, 0.0)
        self._pushed[which] = np.clip(pushed, -PUSHES, PUSHES)
        bank = bank + self._pushed[which]
        sticks[:, 1] = np.clip(firm * (-by_bank * bank - by_roll * roll), -most, most)
        sticks[:, 2] = np.clip(firm * (by_pitch * want - by_turn * turn), -most, most)
        sticks[:, 3] = np.clip(-firm * (rudder * bank + rudder_roll * roll), -most, most)
        return sticks
