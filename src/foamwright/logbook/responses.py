"""How the flight simulation answers to small faults: roll and pitch in steady states of flight.

The one function of state of flight/simulation is asked at steady states of the plane as drawn, with
every unknown, the angles, the roll rate and the controls nudged both ways; what is left is linear.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from foamwright.core.air import GRAVITY
from foamwright.core.errors import ModelError
from foamwright.flight.simulation.rate import state_rate
from foamwright.flight.simulation.state import (
    AILERON,
    ELEVATOR,
    QUATERNION,
    RATES,
    RUDDER,
    THROTTLE,
    VELOCITY,
    quaternion_of,
)
from foamwright.flight.simulation.trim import steady_flight
from foamwright.flight.trial.let_go import ROLL_WATCH
from foamwright.flight.trial.setting import CRUISE, FAST, SLOW
from foamwright.logbook.hidden import COLUMN, NAMES
from foamwright.logbook.linear import Linear, Responses
from foamwright.logbook.nudges import FLAWED, Nudge, flaws_of
from foamwright.logbook.throttled import throttled_of

if TYPE_CHECKING:
    from foamwright.plane import Plane

type Array = NDArray[np.float64]

STATES = ("slow", "fast", "glide", "level", "launch")
LAUNCH_STICK = 0.75
NUDGES = ("alpha", "beta", "roll", "yaw", "aileron", "elevator", "rudder")
SMALL = {"alpha": 0.01, "beta": 0.02, "roll": 0.05, "yaw": 0.05, "aileron": 0.02, "elevator": 0.02,
         "rudder": 0.02}  # fmt: skip
HEIGHT, HIGH = 2, 1000.0  # ground axes point down; far from the ground
WEAK_RUDDER = 1e-3  # rad/s² per stick; below it the rudder turns nothing


@dataclass(frozen=True, slots=True)
class _Asked:
    """Accelerations of one state: as drawn, and by unknown and nudge."""

    speed: float
    drawn: Array  # (6)
    unknown: Array  # (18, 6)
    nudged: dict[str, Array]  # (6)


def responses_of(plane: Plane, spreads: Array, *, throw_speed: float) -> Responses:
    """Ask the simulation once for all that foresight needs of it.

    Args:
        plane: The plane as drawn. [-]
        spreads: Of the unknowns, the size of their nudges. [as each]
        throw_speed: As assumed. [m/s]

    Returns:
        The answers.

    Raises:
        ModelError: It does not fly straight and level at 1.2 to 2 times its stall speed.

    Valid:
        Small faults: a few degrees, a tenth of the chord.

    Source:
        state_rate of flight/simulation, central differences.

    Example:
        >>> from foamwright.logbook.hidden import quantities_of, spreads_of
        >>> answers = responses_of(plane, spreads_of(quantities_of(plane)), throw_speed=6.0)
        >>> bool(answers.roll_glide.slopes[COLUMN["twist_left"]] > 0.0)
        True
    """
    asked = _ask(plane, spreads, throw_speed)
    craft = plane.craft
    travel = craft.travel
    roll_stick = max(0.5 * float(travel[0] + travel[1]), 1e-9)
    yaw_stick = max(0.5 * float(travel[4] + travel[5]), 1e-9)
    sticks = (roll_stick, yaw_stick)
    up = max(float(travel[2]), 1e-9)
    rolls = {name: _roll_off(asked[name], sticks) for name in ("slow", "fast", "glide", "launch")}
    has_aileron = bool(travel[0] + travel[1] > 0.0)
    level = asked["level"]
    trim = _elevator(level, up)
    shown = throttled_of(plane, spreads)
    start = craft.elevator_trim + float(plane_elevator(plane))
    none = Linear(0.0, np.zeros(len(NAMES)))
    return Responses(
        roll_slow=rolls["slow"],
        roll_fast=rolls["fast"],
        roll_glide=rolls["glide"],
        roll_launch=rolls["launch"],
        yaw_power=shown.swing,
        power_on=shown.rise,
        power_off=shown.drop,
        trim_elevator=Linear(start + trim.base, trim.slopes),
        trim_aileron=_straight(level, "aileron", roll_stick) if has_aileron else none,
        trim_rudder=none if has_aileron else _straight(level, "rudder", yaw_stick),
        launch_pitch=_elevator(asked["launch"], up),
    )


def plane_elevator(plane: Plane) -> float:
    """Elevator down in level flight at 1.4 times stall speed, from where the stick is centred.

    Args:
        plane: The plane. [-]

    Returns:
        [rad]

    Source:
        steady_flight.

    Example:
        >>> abs(plane_elevator(plane)) < 0.1
        True
    """
    steady = steady_flight(plane.craft, CRUISE * plane.aero.stall_speed, throttle=None)
    return -float(steady.sticks[0, 2]) * float(plane.craft.travel[2])


def _ask(plane: Plane, spreads: Array, throw_speed: float) -> dict[str, _Asked]:
    states = _steady(plane, throw_speed)
    rows = _rows(spreads)
    count = len(rows)
    craft = plane.flawed(flaws_of(rows * len(states)))
    stack = np.concatenate([_nudged(state, rows) for state in states.values()])
    sticks = np.stack(
        [stack[:, THROTTLE], stack[:, AILERON], stack[:, ELEVATOR], stack[:, RUDDER]], axis=1
    )
    rate = state_rate(craft, stack, sticks, np.zeros(3))
    pulls = np.concatenate([rate[:, VELOCITY], rate[:, RATES]], axis=1).reshape(-1, count, 6)
    return {
        name: _differences(pull, rows, state)
        for (name, state), pull in zip(states.items(), pulls, strict=True)
    }


def _rows(spreads: Array) -> list[Nudge]:
    """What is nudged in each row, and how far."""
    rows: list[Nudge] = [("", 0.0)]
    for name in (*FLAWED, "tip_mass"):
        step = float(spreads[COLUMN[name]])
        rows += [(name, step), (name, -step)]
    for name in NUDGES:
        rows += [(name, SMALL[name]), (name, -SMALL[name])]
    return rows


def _nudged(state: Array, rows: list[Nudge]) -> Array:
    stack = np.repeat(state[None, :], len(rows), axis=0)
    place = {"aileron": AILERON, "elevator": ELEVATOR, "rudder": RUDDER}
    for row, (name, step) in enumerate(rows):
        if name in place:
            stack[row, place[name]] += step
        elif name in ("roll", "yaw"):
            stack[row, RATES.start + (0 if name == "roll" else 2)] += step
        elif name in ("alpha", "beta"):
            stack[row, VELOCITY] = _turned(stack[row, VELOCITY], name, step)
    return stack


def _turned(velocity: Array, name: str, step: float) -> Array:
    u, v, w = velocity.tolist()
    c, s = np.cos(step), np.sin(step)
    if name == "alpha":
        return np.array([u * c - w * s, v, w * c + u * s])
    return np.array([u * c - v * s, v * c + u * s, w])


def _differences(pull: Array, rows: list[Nudge], state: Array) -> _Asked:
    unknown = np.zeros((len(NAMES), 6))
    nudged: dict[str, Array] = {}
    for row in range(1, len(rows), 2):
        name, step = rows[row]
        slope = (pull[row] - pull[row + 1]) / (2.0 * step)
        if name in COLUMN:
            unknown[COLUMN[name]] = slope
        else:
            nudged[name] = slope
    return _Asked(float(np.linalg.norm(state[VELOCITY])), pull[0], unknown, nudged)


def _steady(plane: Plane, throw_speed: float) -> dict[str, Array]:
    """States of the plane as drawn, wings level, roll and yaw sticks centred."""
    craft, stall = plane.craft, plane.aero.stall_speed
    level = steady_flight(craft, np.array([SLOW, FAST, CRUISE]) * stall, throttle=None)
    glide = steady_flight(craft, CRUISE * stall, throttle=0.0)
    if not (level.found[[0, 2]].all() and glide.found.all()):
        raise ModelError(
            "The flight simulation finds no steady flight of this plane as drawn; "
            "mend what 'foamwright check' finds first."
        )
    fast = level.state[1] if level.found[1] else level.state[2]
    cruise = centred(level.state[2])
    thrown = cruise.copy()
    thrown[VELOCITY] *= throw_speed / (CRUISE * stall)
    thrown[THROTTLE] = LAUNCH_STICK
    states = (centred(level.state[0]), centred(fast), centred(glide.state[0]), cruise, thrown)
    return dict(zip(STATES, states, strict=True))


def centred(state: Array) -> Array:
    """A state with roll and yaw sticks centred, no sideslip, wings level, high up.

    Args:
        state: One row of a steady flight. [SI]

    Returns:
        The state. [SI]

    Source:
        Definition.

    Example:
        >>> state = steady_flight(plane.craft, 9.0).state[0]
        >>> float(centred(state)[VELOCITY][1])
        0.0
    """
    made = state.copy()
    made[HEIGHT] = -HIGH
    u, v, w = made[VELOCITY].tolist()
    made[VELOCITY] = (np.sqrt(u * u + v * v), 0.0, w)
    path = made[QUATERNION]
    pitch = np.arcsin(np.clip(2.0 * (path[0] * path[2] - path[1] * path[3]), -1.0, 1.0))
    made[QUATERNION] = quaternion_of(0.0, float(pitch), 0.0)[0]
    made[[AILERON, RUDDER]] = 0.0
    made[RATES] = 0.0
    return made


SIDE, SINK, ROLL, PITCH, YAW = 1, 2, 3, 4, 5  # columns of the accelerations


def _solved(asked: _Asked, rows: tuple[int, int], columns: tuple[str, str]) -> tuple[Array, Array]:
    """Two unknown nudges that make two accelerations vanish: as drawn, and by hidden quantity."""
    matrix = np.array([[asked.nudged[name][row] for name in columns] for row in rows])
    inverse = np.linalg.inv(matrix)
    return -inverse @ asked.drawn[list(rows)], -(inverse @ asked.unknown[:, list(rows)].T)


def _left_alone(asked: _Asked, sticks: tuple[float, float], seconds: float) -> tuple[Array, Array]:
    """Bank and heading a while after the sticks are let go: drawn, unknowns, aileron, rudder.

    v' = Yv v + Yp p + Yr r + g bank, p' and r' likewise, bank' = p, heading' = r; every column of
    forcing runs side by side.
    """
    n = asked.nudged
    side = [SIDE, ROLL, YAW]
    system = np.zeros((5, 5))
    system[:3, 0] = n["beta"][side] / asked.speed
    system[:3, 1], system[:3, 2] = n["roll"][side], n["yaw"][side]
    system[0, 3], system[3, 1], system[4, 2] = GRAVITY, 1.0, 1.0
    by_stick = [
        n[name][side] / travel if travel > 1e-6 else np.zeros(3)
        for name, travel in zip(("aileron", "rudder"), sticks, strict=True)
    ]
    forcing = np.zeros((5, 3 + len(NAMES)))
    forcing[:3] = np.column_stack([asked.drawn[side], asked.unknown[:, side].T, *by_stick])
    steps = 60
    step = seconds / steps
    x = np.zeros_like(forcing)
    for _ in range(steps):
        first = system @ x + forcing
        second = system @ (x + 0.5 * step * first) + forcing
        third = system @ (x + 0.5 * step * second) + forcing
        fourth = system @ (x + step * third) + forcing
        x = x + step / 6.0 * (first + 2.0 * second + 2.0 * third + fourth)
    return x[3], x[4]


def _linear(row: Array) -> Linear:
    return Linear(float(row[0]), row[1:-2], float(row[-2]), float(row[-1]))


def _roll_off(asked: _Asked, sticks: tuple[float, float]) -> Linear:
    """Mean roll rate over the first second or so."""
    return _linear(_left_alone(asked, sticks, ROLL_WATCH)[0] / ROLL_WATCH)


def _elevator(asked: _Asked, up: float) -> Linear:
    """Elevator down that makes the vertical and the pitch acceleration vanish at that speed."""
    base, slopes = _solved(asked, (SINK, PITCH), ("alpha", "elevator"))
    return Linear(-float(base[1]) * up, -slopes[1] * up)


def _straight(asked: _Asked, name: str, travel: float) -> Linear:
    """Trim of one stick that stops the roll, sideslip going along."""
    if abs(float(asked.nudged[name][[ROLL, YAW]].max(initial=0.0))) < WEAK_RUDDER:
        return Linear(0.0, np.zeros(len(NAMES)))
    base, slopes = _solved(asked, (ROLL, YAW), ("beta", name))
    return Linear(float(base[1]) * travel, slopes[1] * travel)
