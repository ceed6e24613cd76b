"""Steady flight of the same function of state: glide, level flight, climb and turn."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from foamwright.core.air import GRAVITY
from foamwright.core.errors import ModelError
from foamwright.flight.simulation.craft import Craft
from foamwright.flight.simulation.rate import state_rate
from foamwright.flight.simulation.state import (
    AILERON,
    CHARGE,
    QUATERNION,
    RATES,
    RIGID,
    STALL,
    THROTTLE,
    VELOCITY,
    quaternion_of,
)
from foamwright.flight.simulation.strip_loads import LAG, QUICKEST

type Array = NDArray[np.float64]

TURNS = 40  # Newton's steps at most
SETTLE = 8  # rounds in which the strips' separation follows the angles
CLOSE = 1e-6  # m/s², rad/s²
NUDGE = 1e-5


@dataclass(frozen=True, slots=True)
class Steady:
    """Steady flight, one row a member; angles and sticks mean nothing where it was not found.

    Attributes:
        state: Ready to fly on from, at height 0. [SI]
        sticks: Throttle, roll, pitch, yaw that hold it. [-]
        speed: Airspeed. [m/s]
        alpha: [rad]
        beta: Wind from the right. [rad]
        path: Climb angle; negative sinks. [rad]
        bank: [rad]
        turn_rate: Of the heading, right. [rad/s]
        found: Whether it was found and needs no more stick than there is.
        residual: Largest acceleration left. [m/s²], [rad/s²]
    """

    state: Array
    sticks: Array
    speed: Array
    alpha: Array
    beta: Array
    path: Array
    bank: Array
    turn_rate: Array
    found: NDArray[np.bool_]
    residual: Array


def steady_flight(
    craft: Craft,
    speed: Array | float,
    *,
    throttle: Array | float | None = 0.0,
    bank: Array | float = 0.0,
    path: Array | float = 0.0,
) -> Steady:
    """Steady straight or turning flight at given speeds.

    With a throttle the climb angle follows; with None the throttle follows that holds `path`.
    Six accelerations vanish; unknown are angle of attack, path or throttle, elevator, rudder, the
    aileron (without ailerons the sideslip), and in a turn its rate, straight ahead the bank.

    Args:
        craft: The plane, one build or as many as speeds. [-]
        speed: Airspeed. [m/s]
        throttle: Stick; None: the one that holds `path`. [-]
        bank: Of a turn, right; 0 flies straight ahead, banked as little as that takes. [rad]
        path: Climb angle where the throttle is None. [rad]

    Returns:
        The steady states; look at `found`.

    Valid:
        Attached flow or a stall that settles; rates of a steady turn.

    Source:
        Newton's method on state_rate.

    Example:
        >>> bool(steady_flight(plane.craft, 9.0).path[0] < 0.0)
        True
    """
    ask = np.broadcast_arrays(
        np.atleast_1d(np.asarray(speed, dtype=float)),
        np.atleast_1d(np.nan if throttle is None else np.asarray(throttle, dtype=float)),
        np.atleast_1d(np.asarray(bank, dtype=float)),
        np.atleast_1d(np.asarray(path, dtype=float)),
        np.zeros(craft.count),
    )
    airspeed, stick, lean, climb = (np.array(a, dtype=float) for a in ask[:4])
    if not (np.isfinite(airspeed).all() and np.all(airspeed > 0.5)):
        raise ModelError("Steady flight needs an airspeed above 0.5 m/s.")
    free = throttle is None
    asked = _Asked(craft, airspeed, stick, lean, climb, free_throttle=free)
    return _solve(asked)


@dataclass(frozen=True, slots=True)
class _Asked:
    craft: Craft
    speed: Array
    stick: Array
    bank: Array
    path: Array
    free_throttle: bool

    @property
    def aileron(self) -> bool:
        return bool(self.craft.travel[0] > 0.0 or self.craft.travel[1] > 0.0)


def _start(asked: _Asked) -> Array:
    """Alpha, path or throttle, pitch and yaw stick, roll stick or beta, bank or turn rate."""
    x = np.zeros((len(asked.speed), 6))
    x[:, 0] = 0.08
    x[:, 1] = 0.4 if asked.free_throttle else -0.1
    turning = asked.bank != 0.0
    x[:, 5] = np.where(turning, GRAVITY * np.tan(asked.bank) / asked.speed, 0.0)
    return x


def _set(asked: _Asked, x: Array) -> tuple[Array, Array, dict[str, Array]]:
    """State and sticks of the unknowns."""
    count = len(x)
    turning = asked.bank != 0.0
    beta = np.zeros(count) if asked.aileron else x[:, 4]
    roll = x[:, 4] if asked.aileron else np.zeros(count)
    path = asked.path if asked.free_throttle else x[:, 1]
    throttle = x[:, 1] if asked.free_throttle else asked.stick
    bank = np.where(turning, asked.bank, x[:, 5])
    rate = np.where(turning, x[:, 5], 0.0)
    alpha = x[:, 0]
    pitch = _pitch_angle(path, alpha, beta, bank)
    state = np.zeros((count, RIGID + asked.craft.strip_count))
    state[:, QUATERNION] = quaternion_of(bank, pitch, np.zeros(count))
    state[:, VELOCITY] = asked.speed[:, None] * np.stack(
        [np.cos(alpha) * np.cos(beta), np.sin(beta), np.sin(alpha) * np.cos(beta)], axis=1
    )
    state[:, RATES] = rate[:, None] * np.stack(
        [-np.sin(pitch), np.sin(bank) * np.cos(pitch), np.cos(bank) * np.cos(pitch)], axis=1
    )
    sticks = np.stack([throttle, roll, x[:, 2], x[:, 3]], axis=1)
    state[:, AILERON : AILERON + 3] = sticks[:, 1:]
    state[:, THROTTLE] = throttle
    state[:, 2] = -1e3
    more = {"alpha": alpha, "beta": beta, "path": path, "bank": bank, "rate": rate}
    return state, sticks, more


def _pitch_angle(path: Array, alpha: Array, beta: Array, bank: Array) -> Array:
    """Pitch angle that gives a climb angle: sin(path) = a sin(pitch) - b cos(pitch)."""
    a = np.cos(alpha) * np.cos(beta)
    b = np.sin(bank) * np.sin(beta) + np.cos(bank) * np.sin(alpha) * np.cos(beta)
    size = np.hypot(a, b)
    return np.arcsin(np.clip(np.sin(path) / size, -1.0, 1.0)) + np.arctan2(b, a)


def _accelerations(asked: _Asked, x: Array, stalled: Array, *, settle: int) -> tuple[Array, Array]:
    state, sticks, _ = _set(asked, x)
    state[:, STALL] = stalled
    calm = np.zeros(3)
    for _ in range(settle):
        rate = state_rate(asked.craft, state, sticks, calm)
        state[:, STALL] += 0.6 * rate[:, STALL] * _time(asked)
    rate = state_rate(asked.craft, state, sticks, calm)
    return np.concatenate([rate[:, VELOCITY], rate[:, RATES]], axis=1), state[:, STALL]


def _time(asked: _Asked) -> Array:
    chord = asked.craft.strips.chord
    return np.maximum(LAG * chord / asked.speed[:, None], QUICKEST)


def _solve(asked: _Asked) -> Steady:
    x = _start(asked)
    stalled = np.zeros((len(x), asked.craft.strip_count))
    value, stalled = _accelerations(asked, x, stalled, settle=SETTLE)
    for _ in range(TURNS):
        slope = np.empty((len(x), 6, 6))
        for k in range(6):
            nudged = x.copy()
            nudged[:, k] += NUDGE
            moved, _ = _accelerations(asked, nudged, stalled, settle=2)
            here, _ = (value, None) if k else _accelerations(asked, x, stalled, settle=2)
            value = here
            slope[:, :, k] = (moved - value) / NUDGE
        flat = np.abs(np.linalg.det(slope)) < 1e-12
        slope[flat] += 1e-3 * np.eye(6)
        step = np.linalg.solve(slope, -value[..., None])[..., 0]
        step = np.clip(step, -0.2, 0.2)
        x = x + step
        value, stalled = _accelerations(asked, x, stalled, settle=SETTLE)
        if float(np.abs(value).max()) < CLOSE:
            break
    return _told(asked, x, value, stalled)


def _told(asked: _Asked, x: Array, value: Array, stalled: Array) -> Steady:
    state, sticks, more = _set(asked, x)
    state[:, STALL], state[:, 2], state[:, CHARGE] = stalled, 0.0, 0.0
    residual = np.abs(value).max(axis=1)
    reach = (np.abs(sticks[:, 1:]) <= 1.0 + 1e-9).all(axis=1)
    reach &= (sticks[:, 0] <= 1.0 + 1e-9) & (sticks[:, 0] >= -1e-9)
    found = np.isfinite(residual) & (residual < 1e-3) & reach
    return Steady(
        state=state,
        sticks=sticks,
        speed=asked.speed,
        alpha=more["alpha"],
        beta=more["beta"],
        path=more["path"],
        bank=more["bank"],
        turn_rate=more["rate"],
        found=found,
        residual=residual,
    )
