"""Everything the flight room says about a plane."""

import numpy as np

from foamwright.aero.model import AeroResult
from foamwright.balance.model import Balance
from foamwright.core.air import GRAVITY, Air
from foamwright.flight.curves import thrust_table
from foamwright.flight.derive import condition_of, lateral_of, longitudinal_of
from foamwright.flight.handling import (
    kinetic_energy,
    spiral_parameter,
    thrust_arm,
    thrust_pitch,
    wind_limit,
)
from foamwright.flight.launch import hand_launch
from foamwright.flight.model import FlightResult, Mode
from foamwright.flight.modes import modes_from_derivatives
from foamwright.flight.performance import Level, level_duty, level_flight, performance_of
from foamwright.power.model import PowerResult
from foamwright.shape.model import Airframe


def analyse(
    airframe: Airframe,
    aero: AeroResult,
    power: PowerResult,
    balance: Balance,
    *,
    air: Air,
    throw_speed: float | None,
    throw_height: float,
) -> FlightResult:
    """Performance, natural motions, hand launch and wind limit.

    Args:
        airframe: The shape. [-]
        aero: The plane's aerodynamics about its CG. [-]
        power: Static answers with the power train. [-]
        balance: Mass properties. [-]
        air: At the field. [-]
        throw_speed: None takes the usual one for the mass. [m/s]
        throw_height: Of the hand above the ground. [m]

    Returns:
        The result.

    Valid:
        Steady flight and small motions in still air.

    Source:
        See the functions it calls; docs/physics/flight.md.

    Example:
        >>> analyse(airframe, aero, power, balance, air=air, throw_speed=None,
        ...     throw_height=1.8).performance.level_throttle  # doctest: +SKIP
        0.41
    """
    mass, density = balance.all_up_mass, air.density
    speed, drag, duty = level_duty(aero, power, mass, density=density)
    table = thrust_table(power, aero.stall_speed, cruise_duty=min(duty, 1.0), density=density)
    level = level_flight(power, table, speed=speed, drag=drag, duty=duty)
    performance = performance_of(aero, power, mass, density=density, table=table, level=level)
    pressure = 0.5 * density * level.speed**2
    arm = thrust_arm(airframe, balance.cg)
    full = _full_thrust(performance.speeds, performance.thrust, level.speed)
    return FlightResult(
        performance=performance,
        modes=_modes(aero, balance, level, density=density, arm=arm),
        spiral_parameter=spiral_parameter(
            airframe,
            aero,
            balance.cg[0],
            lift=mass * GRAVITY / (pressure * aero.wing_area),
        ),
        launch=hand_launch(
            aero,
            mass,
            table=table,
            density=density,
            throw_speed=throw_speed,
            throw_height=throw_height,
        ),
        wind_limit=wind_limit(level.speed),
        thrust_pitch=thrust_pitch(full, arm, aero=aero, pressure=pressure),
        kinetic_energy=kinetic_energy(mass, max(performance.top_speed, level.speed)),
    )


def _full_thrust(speeds: tuple[float, ...], thrust: tuple[float, ...], speed: float) -> float:
    return float(np.interp(speed, speeds, thrust))


def _modes(
    aero: AeroResult, balance: Balance, level: Level, *, density: float, arm: float
) -> tuple[Mode, ...]:
    condition = condition_of(aero, balance, speed=level.speed, density=density)
    pressure = 0.5 * density * level.speed**2 * aero.wing_area
    longitudinal = longitudinal_of(
        aero,
        condition,
        drag=level.drag / pressure,
        thrust_slope=level.slope,
        thrust_arm=arm,
        thrust=level.thrust,
    )
    return modes_from_derivatives(condition, longitudinal, lateral_of(aero))
