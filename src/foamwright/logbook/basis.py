"""What foresight starts from: one plane's figures as plain numbers and tables."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from foamwright.core.air import GRAVITY
from foamwright.flight.curves import MIDDLE_OF_FLIGHT, ThrustTable, level_drag, thrust_table
from foamwright.flight.launch import usual_throw_speed
from foamwright.flight.performance import level_duty
from foamwright.flight.powered import Loaded, Propulsion, trim_with_power
from foamwright.power.operate import power_map, throttle_for_thrust
from foamwright.power.stick import stick_of

if TYPE_CHECKING:
    from foamwright.aero.model import AeroResult
    from foamwright.plane import Plane

type Array = NDArray[np.float64]

MORE_PULL = 1.2  # thrust ratio over which the growth of current and stick with thrust is taken


@dataclass(frozen=True, slots=True)
class Basis:
    """One plane as drawn, nothing off.

    Attributes:
        aero: Its aerodynamics about its CG.
        table: Thrust over airspeed.
        mass: All-up. [kg]
        density: Air. [kg/m³]
        cg_x: Centre of gravity. [m]
        ahead: Of the propeller before the CG. [m]
        tail_power: Pitching moment per incidence of the stab. [1/rad]
        right_thrust: As drawn. [rad]
        right_wanted: At full power and level speed. [rad]
        yaw_left: Nose-left moment at full power that is not the torque's. [N m]
        pitch_change: Elevator from glide to full power at level speed. [rad]
        trim_elevator: Level, power on. [rad]
        level_speed: [m/s]
        level_current: [A]
        current_growth: Relative current per relative thrust near level flight. [-]
        level_stick: 0 to 1; above 1 where it cannot hold level. [-]
        stick_growth: Stick per relative thrust near level flight. [-]
        glide_ratio: As told. [-]
        throw_speed: As assumed. [m/s]
        throw_height: [m]
        capacity: Of the pack. [A s]
    """

    aero: AeroResult
    table: ThrustTable
    mass: float
    density: float
    cg_x: float
    ahead: float
    tail_power: float
    right_thrust: float
    right_wanted: float
    yaw_left: float
    pitch_change: float
    trim_elevator: float
    level_speed: float
    level_current: float
    current_growth: float
    level_stick: float
    stick_growth: float
    glide_ratio: float
    throw_speed: float
    throw_height: float
    capacity: float


def basis_of(plane: Plane) -> Basis:
    """The figures that foresight needs of a plane.

    Args:
        plane: The plane. [-]

    Returns:
        The basis.

    Raises:
        ModelError: The plane cannot be trimmed, or has no mass.

    Source:
        The rooms aero, power, flight.

    Example:
        >>> basis_of(plane).glide_ratio > 5.0
        True
    """
    aero, power, balance, density = plane.aero, plane.power, plane.balance, plane.air.density
    mass, frame = balance.all_up_mass, plane.airframe
    speed, drag, duty = level_duty(aero, power, mass, density=density)
    table = thrust_table(power, aero.stall_speed, cruise_duty=min(duty, 1.0), density=density)
    turn = plane.flight.power_trim
    assert turn is not None  # noqa: S101 - every plane has one
    loaded = Loaded(frame, aero, mass, balance.cg, density)
    torque = float(np.interp(speed, table.speed, table.full_torque))
    sticks, growth = _growth(plane, duty, speed=speed, pull=drag)
    axis = frame.thrust_axis
    return Basis(
        aero=aero,
        table=table,
        mass=mass,
        density=density,
        cg_x=balance.cg[0],
        ahead=max(balance.cg[0] - frame.thrust_point[0], 1e-3),
        tail_power=aero.tail_pitch_alpha / max(1.0 - aero.downwash_slope, 0.2),
        right_thrust=math.atan2(axis[1], -axis[0]),
        right_wanted=turn.right_thrust,
        yaw_left=turn.nose_left - _held(aero, torque),
        pitch_change=turn.elevator_change,
        trim_elevator=trim_with_power(loaded, Propulsion(drag), speed=speed).elevator,
        level_speed=speed,
        level_current=plane.flight.performance.level_current,
        current_growth=growth,
        level_stick=sticks[0],
        stick_growth=(sticks[1] - sticks[0]) / (MORE_PULL - 1.0),
        glide_ratio=plane.flight.performance.glide_ratio,
        throw_speed=plane.design.pilot.throw_speed or usual_throw_speed(mass),
        throw_height=plane.design.pilot.throw_height,
        capacity=plane.design.pack.capacity,
    )


def _held(aero: AeroResult, torque: float) -> float:
    """The part of the nose-left moment that stands for holding the torque, as powered.py has it."""
    d = aero.derivatives
    if d.roll_aileron != 0.0:
        return -aero.adverse_yaw * torque
    return d.yaw_beta / max(-d.roll_beta, 0.02) * torque


def _growth(
    plane: Plane, duty: float, *, speed: float, pull: float
) -> tuple[tuple[float, float], float]:
    """Sticks for level flight and for a fifth more thrust; current over thrust, as a power."""
    density = plane.air.density
    asked = np.array([pull, MORE_PULL * pull])
    duties = throttle_for_thrust(
        plane.train,
        np.full(2, speed),
        asked,
        density=density,
        depth_of_discharge=MIDDLE_OF_FLIGHT,
    )
    able = np.clip(duties, 1e-3, 1.0)
    grid = power_map(
        plane.train,
        np.array([speed]),
        able,
        density=density,
        depth_of_discharge=MIDDLE_OF_FLIGHT,
    )
    current = np.maximum(grid.current[0], 1e-3)
    growth = float(np.log(current[1] / current[0]) / math.log(MORE_PULL))
    sticks = stick_of(min(duty, 1.0)), stick_of(float(able[1]))
    return sticks, growth if growth > 0.5 else 1.25


def weight_of(basis: Basis) -> float:
    """Weight of the plane as drawn.

    Args:
        basis: The plane. [-]

    Returns:
        [N]

    Source:
        Definition.

    Example:
        >>> round(weight_of(basis_of(plane)), 1)
        6.6
    """
    return basis.mass * GRAVITY


def drag_at(basis: Basis, speed: Array) -> Array:
    """Drag in level flight as drawn.

    Args:
        basis: The plane. [-]
        speed: [m/s]

    Returns:
        [N]

    Source:
        foamwright.flight.curves.

    Example:
        >>> drag_at(basis_of(plane), np.array([9.0])).shape
        (1,)
    """
    return np.asarray(level_drag(basis.aero, basis.mass, speed=speed, density=basis.density))
