"""What a plane would show in flight for every guess of what is off, all guesses at once.

Steady states of small-angle flight about the plane as drawn; angles in radians, right positive.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from foamwright.core.air import GRAVITY
from foamwright.logbook.basis import Basis
from foamwright.logbook.hidden import COLUMN

type Array = NDArray[np.float64]

SLOW = 1.2  # of the stall speed: slow flight of the test card
FAST = 2.0  # of the stall speed: fast flight of the test card
GLIDE = 1.4  # of the stall speed: glide
WARP_SHARE = 0.95  # of the roll damping that is the wing's; the rest is the tail's; assumed
WARP_YAW = 0.125  # yaw over roll times lift coefficient of a wing with twisted panels; assumed
WARP_LIFT = 0.4  # of the tip's twist that counts as incidence of the whole wing; assumed
OUTER = 0.7  # of the half span: where a dropped wing stalls; assumed


@dataclass(frozen=True, slots=True)
class Set:
    """What was known to be set when something was seen.

    Attributes:
        aileron: Trim, rolls right. [rad]
        rudder: Trim, nose right. [rad]
        cg_shift: Of the CG, aft, since the plane was as drawn: pack moved, repairs. [m]
        mass_ratio: All-up over as drawn: repairs. [-]
        wind: On the nose at launch. [m/s]
    """

    aileron: float = 0.0
    rudder: float = 0.0
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
        torque: Of its shaft. [N m]
    """

    speed: Array
    pressure: Array
    lift: Array
    drag: Array
    thrust: Array
    torque: Array


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
    torque_full = np.interp(speed, table.speed, table.full_torque) * (1.0 + _of(hidden, "thrust"))
    if power == "full":
        thrust = full
    elif power == "launch":
        thrust = np.interp(speed, table.speed, table.launch) * (1.0 + _of(hidden, "thrust"))
    elif power == "level":
        thrust = np.minimum(drag, np.maximum(full, 0.0))
    else:
        thrust = np.interp(speed, table.speed, table.off)
    turning = np.where(full > 1e-6, np.maximum(thrust, 0.0) / np.maximum(full, 1e-6), 0.0)
    return Flight(speed, pressure, lift, drag, thrust, torque_full * np.minimum(turning, 1.0))


def side_moments(
    basis: Basis, hidden: Array, here: Flight, *, trims: Set = AS_DRAWN
) -> tuple[Array, Array]:
    """Roll and yaw moment coefficients, hands off, before the plane answers with roll and slip.

    Twisted panels: the antisymmetric tip twist acts as a roll rate whose helix angle it is. Tip
    mass: m g y. Power: torque, thrust beside its line, blades and swirl as drawn.

    Args:
        basis: The plane as drawn. [-]
        hidden: Guesses, one a row. [as hidden.py]
        here: The state. [-]
        trims: Aileron and rudder as they were set. [-]

    Returns:
        Right wing down, nose right. [-]

    Source:
        Strip theory for the twist; moment balance.

    Example:
        >>> from foamwright.logbook.basis import basis_of
        >>> basis, none = basis_of(plane), np.zeros((1, 18))
        >>> glide = flight_at(basis, none, np.array([9.0]), power="off")
        >>> abs(float(side_moments(basis, none, glide)[0][0])) < 1e-4
        True
    """
    d, span = basis.aero.derivatives, basis.aero.span
    helix = 0.5 * (_of(hidden, "twist_left") - _of(hidden, "twist_right"))
    warp = -WARP_SHARE * d.roll_roll_rate * helix
    tip = _of(hidden, "tip_mass") * GRAVITY * 0.5 * span / (here.pressure * span)
    roll = warp + tip - here.torque / (here.pressure * span)
    full = np.interp(basis.level_speed, basis.table.speed, basis.table.full)
    share = np.maximum(here.thrust, 0.0) / max(float(full), 1e-6)
    side = basis.right_thrust + _of(hidden, "right_thrust") + _of(hidden, "yaw_model")
    turning = np.maximum(here.thrust, 0.0) * basis.ahead * side - basis.yaw_left * share
    yaw = turning / (here.pressure * span) - WARP_YAW * here.lift * warp
    roll = roll + abs(d.roll_aileron) * trims.aileron
    return roll, yaw + abs(d.yaw_rudder) * trims.rudder


def roll_off(basis: Basis, hidden: Array, here: Flight, *, trims: Set = AS_DRAWN) -> Array:
    """Roll rate that a plane settles to in a second when left alone.

    Slip follows the yaw at once, roll damping holds the rate:
    Clb b + Clp p = -Cl, Cnb b + Cnp p = -Cn.

    Args:
        basis: The plane as drawn. [-]
        hidden: Guesses, one a row. [as hidden.py]
        here: The state. [-]
        trims: Aileron and rudder as they were set. [-]

    Returns:
        To the right. [rad/s]

    Valid:
        The first second or two, before bank and spiral come in.

    Source:
        Moment balance; linear derivatives at trim.

    Example:
        >>> from foamwright.logbook.basis import basis_of
        >>> basis, none = basis_of(plane), np.zeros((1, 18))
        >>> here = flight_at(basis, none, np.array([9.0]))
        >>> roll_off(basis, none, here).shape
        (1,)
    """
    d = basis.aero.derivatives
    roll, yaw = side_moments(basis, hidden, here, trims=trims)
    determinant = d.roll_beta * d.yaw_roll_rate - d.roll_roll_rate * d.yaw_beta
    rate = (d.yaw_beta * roll - d.roll_beta * yaw) / determinant
    return rate * 2.0 * here.speed / basis.aero.span


def _trims(basis: Basis, hidden: Array, here: Flight) -> dict[str, Array]:
    """Aileron or rudder trim that stops the roll, elevator trim for level flight."""
    d = basis.aero.derivatives
    roll, yaw = side_moments(basis, hidden, here)
    slip = -yaw / d.yaw_beta
    found: dict[str, Array] = {}
    if d.roll_aileron != 0.0:
        found["trim_aileron"] = -(roll + d.roll_beta * slip) / abs(d.roll_aileron)
    if d.yaw_rudder != 0.0:
        # Slip that holds the roll by dihedral, and the rudder that holds the slip.
        wanted = -roll / min(d.roll_beta, -0.02)
        found["trim_rudder"] = (
            slip * 0.0 if d.roll_aileron != 0.0 else -(yaw + d.yaw_beta * wanted)
        ) / abs(d.yaw_rudder)
    found["trim_elevator"] = basis.trim_elevator + _trim_change(basis, hidden, here.lift)
    return found


def _trim_change(basis: Basis, hidden: Array, lift: Array) -> Array:
    """Elevator more (trailing edge down) than drawn, for the same lift."""
    aero, d = basis.aero, basis.aero.derivatives
    shift = (_of(hidden, "cg_aft") - _of(hidden, "neutral_point")) / aero.mean_chord
    twisted = WARP_LIFT * 0.5 * (_of(hidden, "twist_left") + _of(hidden, "twist_right"))
    decalage = _of(hidden, "stab_incidence") - _of(hidden, "wing_incidence") - twisted
    moment = shift * lift + basis.tail_power * decalage
    return -moment / d.pitch_elevator + _of(hidden, "trim_model")


def _power_pitch(basis: Basis, hidden: Array) -> tuple[Array, Array]:
    """Elevator from level power to full, and from none to level power."""
    aero, d = basis.aero, basis.aero.derivatives
    speed = np.full(len(hidden), basis.level_speed)
    full = flight_at(basis, hidden, speed, power="full")
    level = flight_at(basis, hidden, speed)
    lowered = _of(hidden, "down_thrust") + _of(hidden, "pitch_model")
    moment = -full.thrust * basis.ahead * lowered / (full.pressure * aero.mean_chord)
    change = basis.pitch_change * (1.0 + _of(hidden, "thrust")) - moment / d.pitch_elevator
    share = np.clip(level.thrust / np.maximum(full.thrust, 1e-6), 0.0, 1.0)
    return change * (1.0 - share), change * share


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
        >>> round(float(margin_of(basis_of(plane), np.zeros((1, 18)))[0]), 3)
        0.156
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
    return np.max(rates, axis=0)


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


def foresee(basis: Basis, hidden: Array, trims: Set = AS_DRAWN) -> Mapping[str, Array]:
    """What each guess would show a pilot, as plain numbers under short names.

    Args:
        basis: The plane as drawn. [-]
        hidden: Guesses, one a row. [as hidden.py]
        trims: Aileron and rudder as they were set. [-]

    Returns:
        Name -> one value a guess. [any]

    Valid:
        Attached flow, small angles; the launch as a point mass.

    Source:
        Functions of this module and of launch_foresight.py.

    Example:
        >>> from foamwright.logbook.basis import basis_of
        >>> seen = foresee(basis_of(plane), np.zeros((1, 18)))
        >>> abs(float(seen["roll_glide"][0])) < 0.01
        True
    """
    stall = stall_speed(basis, hidden)
    level = 1.0 + _of(hidden, "mass")
    here = flight_at(basis, hidden, basis.level_speed * np.sqrt(level))
    fast = flight_at(basis, hidden, FAST * stall)
    slow = flight_at(basis, hidden, SLOW * stall)
    off = flight_at(basis, hidden, GLIDE * stall, power="off")
    full = flight_at(basis, hidden, here.speed, power="full")
    wanted = basis.right_wanted * (full.thrust > 0.0)
    opened, closed = _power_pitch(basis, hidden)
    margin = margin_of(basis, hidden)
    pull = np.log(np.maximum(here.drag / _level_pull(basis), 1e-3))
    twist = _of(hidden, "twist_right") - _of(hidden, "twist_left")
    return {
        "roll_slow": roll_off(basis, hidden, slow, trims=trims),
        "roll_fast": roll_off(basis, hidden, fast, trims=trims),
        "roll_glide": roll_off(basis, hidden, off, trims=trims),
        "yaw_power": basis.right_thrust + _of(hidden, "right_thrust") + _of(hidden, "yaw_model")
        - wanted,
        "power_on": opened,
        "power_off": closed,
        "margin": margin,
        "feel": np.log(np.maximum(margin, 0.01) / max(basis.aero.static_margin, 0.01)),
        "stall": OUTER * twist,
        "climb": _climb(basis, hidden, stall),
        "glide": np.log(_glide(basis, hidden, stall)),
        "current": np.log(basis.level_current) + basis.current_growth * pull
        + _of(hidden, "current"),
        "throttle": basis.level_stick + basis.stick_growth * (np.exp(pull) - 1.0),
        "top_speed": np.log(_top_speed(basis, hidden)),
        **_trims(basis, hidden, here),
    }  # fmt: skip


def _level_pull(basis: Basis) -> float:
    none = np.zeros((1, len(COLUMN)))
    return float(flight_at(basis, none, np.array([basis.level_speed])).drag[0])
