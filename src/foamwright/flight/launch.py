"""A hand launch, integrated as the path of a point mass."""

import math
from bisect import bisect_right

import numpy as np

from foamwright.aero.model import AeroResult
from foamwright.aero.polar import drag_coefficient
from foamwright.core.air import GRAVITY
from foamwright.flight.curves import ThrustTable
from foamwright.flight.model import Launch

FLYING = 1.15  # of stall speed, needed before the pilot can turn; common practice, no source
REACTION = 0.4  # s from release to hand on the stick; assumed
TRIM_SPEED = 1.4  # of stall speed, what the elevator is set to at release
USABLE_LIFT = 0.9  # of the largest lift coefficient: a pilot who does not stall it; assumed
TYPICAL_THROW = 6.5  # m/s for a 0.5 kg plane thrown standing; common practice, no source
TYPICAL_MASS = 0.5  # kg
MASS_EXPONENT = -0.21  # heavier planes leave the hand slower; common practice, no source
FASTEST_THROW = 8.0  # m/s, upper end of standing throws; common practice, no source
STEP = 0.04  # s
LONGEST = 8.0  # s looked at
DEEPEST = 15.0  # m looked at
LEVEL = -0.02  # rad, path that counts as level: the pull-up only creeps towards zero
LIFTS = 16  # points in the drag table

type Curve = tuple[list[float], list[float]]


def usual_throw_speed(mass: float) -> float:
    """Speed of an adult's standing overhand throw of a plane held by its fuselage.

    V = 6.5 m/s (m / 0.5 kg)^-0.21, not above 8 m/s.

    Args:
        mass: All-up. [kg]

    Returns:
        Speed of the plane as it leaves the hand. [m/s]

    Valid:
        0.2 to 1.5 kg; a few running steps add about 2 m/s.

    Source:
        Common practice, no source (5 to 8 m/s for 0.3 to 1 kg).

    Example:
        >>> round(usual_throw_speed(0.5), 2)
        6.5
    """
    return min(TYPICAL_THROW * (mass / TYPICAL_MASS) ** MASS_EXPONENT, FASTEST_THROW)


def hand_launch(
    aero: AeroResult,
    mass: float,
    *,
    table: ThrustTable,
    density: float,
    throw_speed: float | None,
    throw_height: float,
) -> Launch:
    """Level throw at three-quarter throttle in still air.

    For 0.4 s the elevator stays at its trim for 1.4 times stall speed; then the pilot levels the
    plane with at most 90 % of the largest lift. Path of a point mass:
    m dV/dt = T - D - m g sin(path), m V d(path)/dt = L - m g cos(path).

    Args:
        aero: The plane's aerodynamics. [-]
        mass: All-up. [kg]
        table: Thrust over airspeed. [-]
        density: Air. [kg/m³]
        throw_speed: None takes the usual one for the mass. [m/s]
        throw_height: Of the hand above the ground. [m]

    Returns:
        What the throw gives and the height lost before flying speed.

    Valid:
        Wings level, no wind; a headwind counts in full towards the throw speed.

    Source:
        Newton's law; second-order steps of 0.04 s, see tests/unit/test_flight_launch.py.

    Example:
        >>> hand_launch(aero, 0.5, table=table, density=1.225, throw_speed=7.0,
        ...     throw_height=1.8).flies  # doctest: +SKIP
        True
    """
    thrown = usual_throw_speed(mass) if throw_speed is None else throw_speed
    flying = FLYING * aero.stall_speed
    lost = _height_lost(aero, mass, table=table, density=density, start=thrown)
    return Launch(
        throw_speed=thrown,
        flying_speed=flying,
        deficit=max(flying - thrown, 0.0),
        height_lost=lost,
        flies=lost < throw_height,
    )


def _height_lost(
    aero: AeroResult, mass: float, *, table: ThrustTable, density: float, start: float
) -> float:
    """Lowest point before the plane both flies and no longer sinks."""
    flying = FLYING * aero.stall_speed
    rate = _forces(aero, mass, table=table, density=density)
    speed, path, height, time = start, 0.0, 0.0, 0.0
    lowest = 0.0
    while time < LONGEST and height > -DEEPEST:
        if speed >= flying and path >= LEVEL and time >= REACTION:
            return abs(lowest)
        first = rate(speed, path, time)
        middle = (speed + 0.5 * STEP * first[0], path + 0.5 * STEP * first[1])
        second = rate(middle[0], middle[1], time + 0.5 * STEP)
        height += STEP * middle[0] * math.sin(middle[1])
        speed, path = max(speed + STEP * second[0], 0.5), path + STEP * second[1]
        time += STEP
        lowest = min(lowest, height)
    return max(abs(lowest), DEEPEST)


def _forces(aero: AeroResult, mass: float, *, table: ThrustTable, density: float):  # noqa: ANN202 -- a closure of plain floats, typed at its def
    """Change of speed and path angle; plain floats, for this runs a few hundred times."""
    pressure_area = 0.5 * density * aero.wing_area
    most = USABLE_LIFT * aero.lift_max
    trim = aero.lift_max / TRIM_SPEED**2
    lifts = np.linspace(0.0, most, LIFTS)
    drags = np.asarray(drag_coefficient(aero, lifts))
    drag_curve: Curve = (lifts.tolist(), drags.tolist())
    thrust_curve: Curve = (table.speed.tolist(), table.launch.tolist())
    weight = mass * GRAVITY

    def rate(speed: float, path: float, time: float) -> tuple[float, float]:
        pressure = pressure_area * speed * speed
        wanted = weight * math.cos(path) / pressure
        if path < 0.0:  # pull up towards level within about half a second
            wanted += -2.0 * path * mass * speed / pressure
        lift = trim if time < REACTION else min(max(wanted, 0.0), most)
        along = _at(thrust_curve, speed) - pressure * _at(drag_curve, lift)
        turn = pressure * lift - weight * math.cos(path)
        return along / mass - GRAVITY * math.sin(path), turn / (mass * max(speed, 0.5))

    return rate


def _at(curve: Curve, x: float) -> float:
    """Straight-line interpolation; the end value beyond the ends."""
    xs, ys = curve
    if x <= xs[0]:
        return ys[0]
    if x >= xs[-1]:
        return ys[-1]
    index = bisect_right(xs, x)
    share = (x - xs[index - 1]) / (xs[index] - xs[index - 1])
    return ys[index - 1] + share * (ys[index] - ys[index - 1])
