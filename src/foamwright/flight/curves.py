"""Thrust and drag over airspeed: the tables that performance and launch read from."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from foamwright.aero.model import AeroResult
from foamwright.aero.polar import drag_coefficient
from foamwright.core.air import GRAVITY
from foamwright.power.model import PowerResult, PowerTrain
from foamwright.power.operate import power_map
from foamwright.power.stick import duty_of

type Array = NDArray[np.float64]

PART_USED = 0.2  # share of the pack drawn when climb and top speed are judged; 1 is empty
LAUNCH_STICK = 0.75  # three-quarter throttle at a hand launch; common practice, no source
POINTS = (
    28  # airspeeds in the tables; thrust and drag are smooth, so interpolation errs below 0.5 %
)
FASTEST = 1.15  # of the pitch speed, beyond which no thrust is left


@dataclass(frozen=True, slots=True)
class ThrustTable:
    """Thrust over airspeed at three sticks.

    Attributes:
        speed: Rising from 0. [m/s]
        full: Full throttle. [N]
        launch: Three-quarter stick. [N]
        off: Stick closed: minus the drag of the propeller. [N]
        extrapolated: Whether full throttle lies outside the propeller's fitted range.
    """

    speed: Array
    full: Array
    launch: Array
    off: Array
    extrapolated: NDArray[np.bool_]


def thrust_table(power: PowerResult, stall_speed: float, *, density: float) -> ThrustTable:
    """Thrust from standstill to beyond the pitch speed.

    Args:
        power: Static answers with the train. [-]
        stall_speed: The table reaches at least to three times it. [m/s]
        density: Air. [kg/m³]

    Returns:
        The table.

    Source:
        foamwright.power.operate.

    Example:
        >>> thrust_table(power, 6.0, density=1.225).full[0]  # doctest: +SKIP
    """
    top = max(3.0 * stall_speed, FASTEST * power.pitch_speed)
    speed = np.linspace(0.0, top, POINTS)
    sticks = np.array([0.0, duty_of(LAUNCH_STICK), 1.0])
    grid = power_map(power.train, speed, sticks, density=density, depth_of_discharge=PART_USED)
    return ThrustTable(
        speed=speed,
        full=grid.thrust[:, 2],
        launch=grid.thrust[:, 1],
        off=grid.thrust[:, 0],
        extrapolated=grid.extrapolated[:, 2],
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


def thrust_slope(
    train: PowerTrain, speed: float, duty: float, *, density: float, depth_of_discharge: float
) -> tuple[float, float, float]:
    """Thrust, its change with airspeed and the current, at fixed throttle.

    Args:
        train: The power train. [-]
        speed: True airspeed. [m/s]
        duty: Duty ratio of the controller. [-]
        density: Air. [kg/m³]
        depth_of_discharge: Drawn charge over capacity. [-]

    Returns:
        Thrust [N], slope [N s/m], pack current [A].

    Source:
        Central difference over 4 % of the speed.

    Example:
        >>> thrust_slope(train, 9.0, 0.5, density=1.225, depth_of_discharge=0.4)  # doctest: +SKIP
    """
    speeds = speed * np.array([0.98, 1.0, 1.02])
    grid = power_map(
        train, speeds, np.array([duty]), density=density, depth_of_discharge=depth_of_discharge
    )
    rise = float(grid.thrust[2, 0] - grid.thrust[0, 0]) / float(speeds[2] - speeds[0])
    return float(grid.thrust[1, 0]), rise, float(grid.current[1, 0])
