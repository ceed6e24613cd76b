"""What a plane would show in flight for every guess of what is off, all guesses at once.

Roll, yaw and pitch are the flight simulation's, linear in small faults (responses.py); glide, climb
and current follow from the polar and the thrust table. Angles in radians, right positive.
"""

from __future__ import annotations

from collections.abc import Callable, Collection
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from foamwright.core.air import GRAVITY
from foamwright.logbook.basis import Basis
from foamwright.logbook.hidden import COLUMN
from foamwright.logbook.linear import at

type Array = NDArray[np.float64]

OUTER = 0.7  # of the half span: where a dropped wing stalls; assumed


@dataclass(frozen=True, slots=True)
class Set:
    """What was known to be set when something was seen.

    Attributes:
        aileron: Trim, rolls right. [rad]
        rudder: Trim, nose right. [rad]
        elevator: Trim beyond what the plane as drawn needs, down, at a launch. [rad]
        cg_shift: Of the CG, aft, since the plane was as drawn: pack moved, repairs. [m]
        mass_ratio: All-up over as drawn: repairs. [-]
        wind: On the nose at launch. [m/s]
    """

    aileron: float = 0.0
    rudder: float = 0.0
    elevator: float = 0.0
    cg_shift: float = 0.0
    mass_ratio: float = 1.0
    wind: float = 0.0


AS_DRAWN = Set()


@dataclass(frozen=True, slots=True)
class Flight:
    """One steady state for every guess.

    Attributes:
        speed: [m/s]
        pressure: Dynamic, times wing area. [N]
        lift: Coefficient. [-]
        drag: [N]
        thrust: Of the propeller. [N]
    """

    speed: Array
    pressure: Array
    lift: Array
    drag: Array
    thrust: Array


def _of(hidden: Array, name: str) -> Array:
    return hidden[:, COLUMN[name]]


def stall_speed(basis: Basis, hidden: Array) -> Array:
    """Level stall speed of every guess.

    Vs = Vs0 sqrt(mass ratio / lift ratio).

    Args:
        basis: The plane as drawn. [-]
        hidden: Guesses, one a row. [as hidden.py]

    Returns:
        [m/s]

    Source:
        Lift equals weight.

    Example:
        >>> from foamwright.logbook.basis import basis_of
        >>> float(stall_speed(basis_of(plane), np.zeros((1, 18)))[0]) == plane.aero.stall_speed
        True
    """
    return basis.aero.stall_speed * np.sqrt(
        (1.0 + _of(hidden, "mass")) / (1.0 + _of(hidden, "lift_max"))
    )


def flight_at(
    basis: Basis, hidden: Array, speed: Array, *, power: str = "level", off_level: float = 1.0
) -> Flight:
    """Forces at a speed with the power off, at level flight's, or full.

    Args:
        basis: The plane as drawn. [-]
        hidden: Guesses, one a row. [as hidden.py]
        speed: One a guess. [m/s]
        power: "off", "level", "launch" or "full". [-]
        off_level: Share of the weight that lift carries. [-]

    Returns:
        The state.

    Source:
        Force balance; polar of the aerodynamics with its drag at zero lift times the factor.

    Example:
        >>> from foamwright.logbook.basis import basis_of
        >>> here = flight_at(basis_of(plane), np.zeros((1, 18)), np.array([9.0]))
        >>> bool(here.thrust[0] == here.drag[0])
        True
    """
    aero, table = basis.aero, basis.table
    pressure = 0.5 * basis.density * speed**2 * aero.wing_area
    weight = basis.mass * GRAVITY * (1.0 + _of(hidden, "mass"))
    lift = off_level * weight / pressure
    zero = aero.drag_zero * (1.0 + _of(hidden, "drag"))
    drag = pressure * (zero + aero.drag_lift_factor * (lift - aero.lift_at_drag_min) ** 2)
    full = np.interp(speed, table.speed, table.full) * (1.0 + _of(hidden, "thrust"))
    if power == "full":
        thrust = full
    elif power == "launch":
        thrust = np.interp(speed, table.speed, table.launch) * (1.0 + _of(hidden, "thrust"))
    elif power == "level":
        thrust = np.minimum(drag, np.maximum(full, 0.0))
    else:
        thrust = np.interp(speed, table.speed, table.off)
    return Flight(speed, pressure, lift, drag, thrust)


def margin_of(basis: Basis, hidden: Array) -> Array:
    """Static margin of every guess.

    Args:
        basis: The plane as drawn. [-]
        hidden: Guesses, one a row. [as hidden.py]

    Returns:
        Over the mean chord. [-]

    Source:
        Definition.

    Example:
        >>> from foamwright.logbook.basis import basis_of
        >>> drawn = margin_of(basis_of(plane), np.zeros((1, 18)))
        >>> float(drawn[0]) == plane.aero.static_margin
        True
    """
    shift = (_of(hidden, "neutral_point") - _of(hidden, "cg_aft")) / basis.aero.mean_chord
    return basis.aero.static_margin + shift


def _climb(basis: Basis, hidden: Array, stall: Array) -> Array:
    """Best rate of climb over a few speeds."""
    weight = basis.mass * GRAVITY * (1.0 + _of(hidden, "mass"))
    rates = []
    for ratio in (1.2, 1.4, 1.7, 2.1):
        here = flight_at(basis, hidden, ratio * stall, power="full")
        rates.append(here.speed * (here.thrust - here.drag) / weight)
    return np.asarray(np.stack(rates).max(axis=0), dtype=np.float64)


def _glide(basis: Basis, hidden: Array, stall: Array) -> Array:
    """Best glide ratio over a few speeds, propeller as it is with the stick closed."""
    weight = basis.mass * GRAVITY * (1.0 + _of(hidden, "mass"))
    best = np.zeros(len(hidden))
    for ratio in (1.1, 1.25, 1.4, 1.6, 1.8):
        here = flight_at(basis, hidden, ratio * stall, power="off")
        best = np.maximum(best, weight / np.maximum(here.drag - here.thrust, 1e-6))
    return best


def _top_speed(basis: Basis, hidden: Array) -> Array:
    """Fastest crossing of full thrust and drag, straight between grid speeds."""
    grid = np.linspace(1.2, 5.0, 40) * basis.aero.stall_speed
    excess = np.empty((len(grid), len(hidden)))
    for row, speed in enumerate(grid.tolist()):
        here = flight_at(basis, hidden, np.full(len(hidden), speed), power="full")
        excess[row] = here.thrust - here.drag
    enough = excess >= 0.0
    last = np.where(enough.any(axis=0), len(grid) - 1 - np.argmax(enough[::-1], axis=0), 0)
    after = np.minimum(last + 1, len(grid) - 1)
    column = np.arange(len(hidden))
    high, low = excess[last, column], excess[after, column]
    share = np.clip(high / np.maximum(high - low, 1e-9), 0.0, 1.0)
    return grid[last] + share * (grid[after] - grid[last])


def foresee(
    basis: Basis,
    hidden: Array,
    trims: Set = AS_DRAWN,
    *,
    wanted: Collection[str] | None = None,
) -> dict[str, Array]:
    """What each guess would show a pilot, as plain numbers under short names.

    Args:
        basis: The plane as drawn. [-]
        hidden: Guesses, one a row. [as hidden.py]
        trims: Aileron and rudder as they were set. [-]
        wanted: Only these names; None for all. [-]

    Returns:
        Name -> one value a guess. [any]

    Valid:
        Attached flow, small angles; the launch as a point mass.

    Source:
        Functions of this module, responses.py and launch_foresight.py.

    Example:
        >>> from foamwright.logbook.basis import basis_of
        >>> seen = foresee(basis_of(plane), np.zeros((1, 18)))
        >>> abs(float(seen["roll_glide"][0])) < 0.1
        True
    """
    asked: dict[str, Callable[[], Array]] = {
        **_handling(basis, hidden, trims),
        **_performance(basis, hidden),
    }
    return {name: ask() for name, ask in asked.items() if wanted is None or name in wanted}


def _handling(basis: Basis, hidden: Array, trims: Set) -> dict[str, Callable[[], Array]]:
    answers = basis.responses
    drawn = max(basis.aero.static_margin, 0.01)

    def alone(name: str) -> Callable[[], Array]:
        linear = getattr(answers, name)
        return lambda: at(linear, hidden, aileron=trims.aileron, rudder=trims.rudder)

    def plain(name: str) -> Callable[[], Array]:
        return lambda: at(getattr(answers, name), hidden)

    twist = _of(hidden, "twist_right") - _of(hidden, "twist_left")
    return {
        **{name: alone(name) for name in ("roll_slow", "roll_fast", "roll_glide")},
        **{
            name: plain(name)
            for name in ("yaw_power", "power_on", "power_off", "trim_aileron", "trim_rudder")
        },
        "trim_elevator": lambda: at(answers.trim_elevator, hidden) + _of(hidden, "trim_model"),
        "margin": lambda: margin_of(basis, hidden),
        "feel": lambda: np.log(np.maximum(margin_of(basis, hidden), 0.01) / drawn),
        "stall": lambda: OUTER * twist,
    }


def _performance(basis: Basis, hidden: Array) -> dict[str, Callable[[], Array]]:
    stall = stall_speed(basis, hidden)

    def pull() -> Array:
        speed = basis.level_speed * np.sqrt(1.0 + _of(hidden, "mass"))
        here = flight_at(basis, hidden, speed)
        return np.log(np.maximum(here.drag / _level_pull(basis), 1e-3))

    def current() -> Array:
        grown = basis.current_growth * pull() + _of(hidden, "current")
        return np.log(basis.level_current) + grown

    def asked_of_motor() -> Array:
        return np.exp(pull()) / np.maximum(1.0 + _of(hidden, "thrust"), 0.1)

    return {
        "climb": lambda: _climb(basis, hidden, stall),
        "glide": lambda: np.log(_glide(basis, hidden, stall)),
        "current": current,
        "throttle": lambda: basis.level_stick + basis.stick_growth * (asked_of_motor() - 1.0),
        "top_speed": lambda: np.log(_top_speed(basis, hidden)),
    }


def _level_pull(basis: Basis) -> float:
    none = np.zeros((1, len(COLUMN)))
    return float(flight_at(basis, none, np.array([basis.level_speed])).drag[0])
