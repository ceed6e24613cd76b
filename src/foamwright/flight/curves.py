"""Thrust and drag over airspeed: the tables that performance and launch read from."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from foamwright.aero.model import AeroResult
from foamwright.aero.polar import drag_coefficient
from foamwright.core.air import GRAVITY
from foamwright.power.model import PowerResult
from foamwright.power.operate import power_map
from foamwright.power.stick import duty_of

type Array = NDArray[np.float64]

MIDDLE_OF_FLIGHT = 0.4  # depth of discharge half way through the usable charge
LAUNCH_STICK = 0.75  # three-quarter throttle at a hand launch; common practice, no source
POINTS = (
    28  # airspeeds in the tables; thrust and drag are smooth, so interpolation errs below 0.5 %
)
FASTEST = 1.4  # of the pitch speed; cambered blades pull up to a third beyond it


@dataclass(frozen=True, slots=True)
class ThrustTable:
    """Thrust over airspeed at three sticks.

    Attributes:
        speed: Rising from 0. [m/s]
        full: Full throttle. [N]
        launch: Three-quarter stick. [N]
        off: Stick closed: minus the drag of the propeller. [N]
        cruise: At the stick of level flight. [N]
        cruise_current: From the pack, at the same. [A]
        extrapolated: Whether full throttle lies outside the propeller's fitted range.
        full_torque: Of the shaft at full throttle. [N m]
        full_speed: Of the propeller there. [rad/s]
    """

    speed: Array
    full: Array
    launch: Array
    off: Array
    cruise: Array
    cruise_current: Array
    extrapolated: NDArray[np.bool_]
    full_torque: Array
    full_speed: Array


def thrust_table(
    power: PowerResult, stall_speed: float, *, cruise_duty: float, density: float
) -> ThrustTable:
    """Thrust from standstill to beyond the pitch speed, half way through the usable charge.

    Args:
        power: Static answers with the train. [-]
        stall_speed: The table reaches at least to three times it. [m/s]
        cruise_duty: Duty ratio in level flight. [-]
        density: Air. [kg/m³]

    Returns:
        The table.

    Source:
        foamwright.power.operate.

    Example:
        >>> 6.2 < float(thrust_table(power, 6.0, cruise_duty=0.5, density=1.225).full[0]) < 9.8
        True
    """
    top = max(3.0 * stall_speed, FASTEST * power.pitch_speed)
    speed = np.linspace(0.0, top, POINTS)
    duties = np.array([0.0, duty_of(LAUNCH_STICK), 1.0, cruise_duty])
    grid = power_map(
        power.train, speed, duties, density=density, depth_of_discharge=MIDDLE_OF_FLIGHT
    )
    return ThrustTable(
        speed=speed,
        full=grid.thrust[:, 2],
        launch=grid.thrust[:, 1],
        off=grid.thrust[:, 0],
        cruise=grid.thrust[:, 3],
        cruise_current=grid.current[:, 3],
        extrapolated=grid.extrapolated[:, 2],
        full_torque=grid.torque[:, 2],
        full_speed=grid.speed[:, 2],
    )


def level_drag(
    aero: AeroResult, mass: float, *, speed: Array, density: float, tilt: Array | float = 1.0
) -> Array:
    """Drag where lift carries the weight.

    D = q S CD(CL), CL = m g tilt / (q S).

    Args:
        aero: The plane's aerodynamics. [-]
        mass: All-up. [kg]
        speed: True airspeed, above zero. [m/s]
        density: Air. [kg/m³]
        tilt: Share of the weight that lift carries (cosine of the path angle). [-]

    Returns:
        Drag. [N]

    Valid:
        At and above stall speed; below it the drag of a stalled wing is larger.

    Source:
        Definition; polar by foamwright.aero.polar.

    Example:
        >>> level_drag(aero, 0.5, speed=np.array([9.0]), density=1.225)  # doctest: +SKIP
    """
    pressure = 0.5 * density * speed**2 * aero.wing_area
    lift = mass * GRAVITY * tilt / pressure
    return pressure * np.asarray(drag_coefficient(aero, lift))


def value_and_slope(x: float, table: Array, values: Array) -> tuple[float, float]:
    """Value and slope of a tabled curve, by the parabola through the three nearest points.

    Args:
        x: Where. [any]
        table: Rising. [any]
        values: Of the same length. [any]

    Returns:
        Value and slope. [any]

    Valid:
        Inside the table.

    Source:
        Lagrange interpolation.

    Example:
        >>> x = np.array([0.0, 1.0, 2.0, 3.0])
        >>> [round(found, 6) for found in value_and_slope(1.5, x, x**2)]
        [2.25, 3.0]
    """
    middle = int(np.clip(np.argmin(np.abs(table - x)), 1, len(table) - 2))
    (a, b, c), (fa, fb, fc) = (curve[middle - 1 : middle + 2].tolist() for curve in (table, values))
    first, second = (fb - fa) / (b - a), (fc - fb) / (c - b)
    bend = (second - first) / (c - a)
    return fa + first * (x - a) + bend * (x - a) * (x - b), first + bend * (2.0 * x - a - b)
