"""Who throws, how the plane leaves the hand, and how differently each time."""

from dataclasses import dataclass, replace
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from foamwright.core.errors import ModelError
from foamwright.core.units import format_value
from foamwright.flight.launch import usual_throw_speed
from foamwright.flight.simulation.craft import Craft
from foamwright.flight.simulation.flaws import Flaws
from foamwright.flight.simulation.state import RATES, VELOCITY, rotation_of, start_state

type Array = NDArray[np.float64]

RUN_UP = 2.0  # m/s that a few running steps add; common practice, no source
FASTEST_HAND = 15.0  # m/s; a javelin leaves at 30, a model held by its fuselage at half of that
BEHIND = 1.6  # times the spread of turning when pushed from behind instead of held below; assumed


@dataclass(frozen=True, slots=True)
class Thrower:
    """The throw and its spread, one standard deviation each.

    Attributes:
        speed: Over ground, standing. [m/s]
        speed_spread: Relative. [-]
        angle: Way of the hand above level. [rad]
        angle_spread: [rad]
        attack: Nose above the way of the hand. [rad]
        attack_spread: [rad]
        slip_spread: Nose beside the way of the hand. [rad]
        bank: Right wing down. [rad]
        bank_spread: [rad]
        heading_spread: Off the wind. [rad]
        turning_spread: Roll, pitch and yaw rate left by the hand. [rad/s]
        height: Of the hand. [m]
        height_spread: [m]
        run_up: Added by running steps. [m/s]
        hold: "below" the wing, or pushed from "behind", which turns the plane more.
    """

    speed: float
    speed_spread: float = 0.08  # all spreads here: assumed, an adult who has thrown before
    angle: float = 0.05
    angle_spread: float = 0.07
    attack: float = 0.04
    attack_spread: float = 0.06
    slip_spread: float = 0.05
    bank: float = 0.0
    bank_spread: float = 0.10
    heading_spread: float = 0.10
    turning_spread: float = 0.25
    height: float = 1.8
    height_spread: float = 0.10
    run_up: float = 0.0
    hold: Literal["below", "behind"] = "below"


@dataclass(frozen=True, slots=True)
class Releases:
    """Throws as they happened, one row each.

    Attributes:
        speed: Over ground. [m/s]
        angle: Way above level. [rad]
        attack: Nose above the way. [rad]
        slip: Way right of the nose. [rad]
        bank: [rad]
        heading: Nose right of the wind. [rad]
        height: [m]
        rates: Roll, pitch, yaw. [rad/s]
    """

    speed: Array
    angle: Array
    attack: Array
    slip: Array
    bank: Array
    heading: Array
    height: Array
    rates: Array


def thrower_for(mass: float, *, speed: float | None = None, height: float = 1.8) -> Thrower:
    """The usual thrower for a plane's mass.

    Args:
        mass: All-up. [kg]
        speed: As the design file says; None takes the usual one. [m/s]
        height: Of the hand. [m]

    Returns:
        A standing throw, held below the wing.

    Source:
        foamwright.flight.launch.usual_throw_speed; spreads assumed.

    Example:
        >>> round(thrower_for(0.5).speed, 1)
        6.5
    """
    return Thrower(speed=usual_throw_speed(mass) if speed is None else speed, height=height)


def both_speeds(speed: float) -> str:
    """A speed as both kinds of builders say it, for messages that know no plane.

    Args:
        speed: [m/s]

    Returns:
        Text. [-]

    Source:
        Definition.

    Example:
        >>> both_speeds(15.0)
        '15 m/s (33.6 mph)'
    """
    return f"{format_value(speed, 'speed')} ({format_value(speed, 'speed', 'inch')})"


def refuse_throw(thrower: Thrower) -> None:
    """Refuse a throw that no hand makes.

    Args:
        thrower: The throw. [-]

    Raises:
        ModelError: Speed, angle or height outside what a hand does.

    Source:
        Common practice, no source.

    Example:
        >>> refuse_throw(Thrower(6.0))
    """
    total = thrower.speed + thrower.run_up
    if not 1.0 <= total <= FASTEST_HAND:
        raise ModelError(
            f"A throw at {both_speeds(total)} is no throw by hand: 5 to 8 m/s standing "
            f"(11 to 18 mph), about {both_speeds(RUN_UP)} more with a run, "
            f"{both_speeds(FASTEST_HAND)} at the very most."
        )
    if not -0.6 <= thrower.angle <= 1.1:
        raise ModelError(
            f"A throw at {np.degrees(thrower.angle):.0f} deg to level makes no sense: level to "
            "10 deg up is usual, -34 to 63 deg can be asked."
        )
    if not 0.3 <= thrower.height <= 5.0:
        raise ModelError(f"A hand at {thrower.height:.1f} m: 0.3 to 5 m makes sense.")


def releases_of(thrower: Thrower, count: int, seed: int) -> Releases:
    """Throw many times.

    Args:
        thrower: Who. [-]
        count: Throws. [-]
        seed: Of the random numbers; the same throws come back. [-]

    Returns:
        The throws.

    Raises:
        ModelError: A throw that no hand makes.

    Source:
        Normal spreads, cut at three standard deviations; assumed.

    Example:
        >>> releases_of(Thrower(6.0), 3, 1).speed.shape
        (3,)
    """
    refuse_throw(thrower)
    draw = np.clip(np.random.default_rng(seed).standard_normal((10, count)), -3.0, 3.0)
    wild = BEHIND if thrower.hold == "behind" else 1.0
    return Releases(
        speed=thrower.speed * (1.0 + thrower.speed_spread * draw[0]) + thrower.run_up,
        angle=thrower.angle + thrower.angle_spread * draw[1],
        attack=thrower.attack + thrower.attack_spread * draw[2],
        slip=wild * thrower.slip_spread * draw[3],
        bank=thrower.bank + thrower.bank_spread * draw[4],
        heading=thrower.heading_spread * draw[5],
        height=np.maximum(thrower.height + thrower.height_spread * draw[6], 0.2),
        rates=(wild * thrower.turning_spread * draw[7:10]).T,
    )


def thrown_state(craft: Craft, releases: Releases, *, throttle: Array | float) -> Array:
    """State of flight at the moment the hand lets go.

    Args:
        craft: The plane. [-]
        releases: The throws. [-]
        throttle: Stick, set before the throw. [-]

    Returns:
        One row a throw. [SI]

    Source:
        Definition.

    Example:
        >>> thrown_state(plane.craft, releases_of(Thrower(6.0), 3, 1), throttle=0.7).shape[0]
        3
    """
    r = releases
    state = start_state(
        craft.strip_count,
        speed=r.speed,
        height=r.height,
        attitude=(r.bank, r.angle + r.attack, r.heading),
        throttle=throttle,
    )
    # The way of the hand does not bank with the plane: level it, then see it from the body.
    way = r.heading + r.slip
    ground = r.speed[:, None] * np.stack(
        [np.cos(way) * np.cos(r.angle), np.sin(way) * np.cos(r.angle), -np.sin(r.angle)], axis=1
    )
    state[:, VELOCITY] = np.einsum("nij,ni->nj", rotation_of(state), ground)
    state[:, RATES] = r.rates
    return state


@dataclass(frozen=True, slots=True)
class BuildSpread:
    """How far a first build is from its design, one standard deviation each; assumed.

    Attributes:
        twist: Warp of each wing at its tip. [rad]
        cg_aft: Balance found with finger tips. [m]
        cg_right: Lateral balance. [m]
        mass: Relative. [-]
        drag: Relative. [-]
        motor: Thrust at a stick, relative. [-]
        thrust_angle: Down and right. [rad]
        elevator: Setting before the first trim flight. [rad]
        aileron: Same. [rad]
        rudder: Same. [rad]
        slop: Free play of every surface, the same for all. [rad]
    """

    twist: float = 0.009
    cg_aft: float = 0.003
    cg_right: float = 0.0015
    mass: float = 0.03
    drag: float = 0.10
    motor: float = 0.05
    thrust_angle: float = 0.012
    elevator: float = 0.020
    aileron: float = 0.012
    rudder: float = 0.020
    slop: float = 0.012


def builds_of(spread: BuildSpread, count: int, seed: int) -> Flaws:
    """As many builds of one design, each a little different.

    Args:
        spread: How different. [-]
        count: Builds. [-]
        seed: Of the random numbers. [-]

    Returns:
        Their flaws.

    Source:
        Normal spreads, cut at three standard deviations; assumed.

    Example:
        >>> builds_of(BuildSpread(), 5, 1).count
        5
    """
    draw = np.clip(np.random.default_rng(seed).standard_normal((12, count)), -3.0, 3.0)
    return Flaws(
        left_twist=spread.twist * draw[0],
        right_twist=spread.twist * draw[1],
        cg_shift_aft=spread.cg_aft * draw[2],
        cg_shift_right=spread.cg_right * draw[3],
        mass_factor=1.0 + spread.mass * draw[4],
        drag_factor=1.0 + spread.drag * draw[5],
        motor_factor=1.0 + spread.motor * draw[6],
        thrust_down_error=spread.thrust_angle * draw[7],
        thrust_right_error=spread.thrust_angle * draw[8],
        elevator_neutral=spread.elevator * draw[9],
        aileron_neutral=spread.aileron * draw[10],
        rudder_neutral=spread.rudder * draw[11],
        slop=np.full(count, spread.slop),
    )


def added(flaws: Flaws, more: Flaws) -> Flaws:
    """Flaws on top of flaws: angles, shifts and masses add up, factors multiply.

    Args:
        flaws: Of n builds. [-]
        more: The same change for all. [-]

    Returns:
        Both together.

    Source:
        Definition.

    Example:
        >>> added(Flaws(mass_factor=1.1), Flaws(mass_factor=0.9)).mass_factor.round(2).tolist()
        [0.99]
    """
    first, second = flaws.spread(), more.spread()
    made = {
        name: getattr(first, name) * getattr(second, name)
        if name.endswith("_factor")
        else getattr(first, name) + getattr(second, name)
        for name in Flaws.__slots__
    }
    return replace(first, **made)
