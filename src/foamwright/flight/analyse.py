"""Everything the flight room says about a plane."""

import math
from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from foamwright.aero.model import AeroResult
from foamwright.balance.model import Balance
from foamwright.core.air import GRAVITY, Air
from foamwright.flight.curves import MIDDLE_OF_FLIGHT, ThrustTable, level_drag, thrust_table
from foamwright.flight.derive import condition_of, lateral_of, longitudinal_of
from foamwright.flight.gusts import gust_response, gust_wind_limit
from foamwright.flight.handling import (
    kinetic_energy,
    spiral_parameter,
    thrust_arm,
    thrust_pitch,
    wind_limit,
)
from foamwright.flight.launch import hand_launch
from foamwright.flight.mode_spread import with_spread
from foamwright.flight.model import FlightResult, Mode
from foamwright.flight.modes import modes_from_derivatives
from foamwright.flight.performance import Level, level_duty, level_flight, performance_of
from foamwright.flight.powered import (
    Loaded,
    PoweredTrim,
    Propulsion,
    power_trim,
    trim_with_power,
)
from foamwright.flight.rudder import rudder_turn
from foamwright.flight.running import Running, running_at, with_propeller
from foamwright.power.model import PowerResult
from foamwright.power.operate import throttle_for_thrust
from foamwright.power.stick import stick_of
from foamwright.shape.model import Airframe

SWEEP = np.linspace(1.1, 2.5, 8)  # speeds of a trim sweep over stall speed, house definition


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
        >>> found = analyse(airframe, aero, power, balance, air=air, throw_speed=None,
        ...     throw_height=1.8)
        >>> 0.2 < found.performance.level_throttle < 0.6
        True
    """
    mass, density = balance.all_up_mass, air.density
    speed, drag, duty = level_duty(aero, power, mass, density=density)
    table = thrust_table(power, aero.stall_speed, cruise_duty=min(duty, 1.0), density=density)
    level = level_flight(power, table, speed=speed, drag=drag, duty=duty)
    performance = performance_of(aero, power, mass, density=density, table=table, level=level)
    pressure = 0.5 * density * level.speed**2
    arm = thrust_arm(airframe, balance.cg)
    full = _full_thrust(performance.speeds, performance.thrust, level.speed)
    push = _full_push(table, power, level.speed)
    running = _running(airframe, balance, level, push=push, density=density)
    return FlightResult(
        performance=performance,
        modes=_modes(aero, balance, level, density=density, arm=arm, running=running),
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
        power_trim=power_trim(
            Loaded(airframe, aero, mass, balance.cg, density),
            push,
            speed=level.speed,
        ),
        rudder_turn=rudder_turn(
            airframe, aero, speed=level.speed, roll_inertia=balance.inertia[0], density=density
        ),
        gusts=gust_response(
            aero, mass, speed=level.speed, wind=wind_limit(level.speed), density=density
        ),
        gust_limit=gust_wind_limit(aero, mass, speed=level.speed, density=density)[0],
    )


def _full_push(table: ThrustTable, power: PowerResult, speed: float) -> Propulsion:
    """The propeller at full throttle at one airspeed."""
    thrust, torque, turning = (
        float(np.interp(speed, table.speed, values))
        for values in (table.full, table.full_torque, table.full_speed)
    )
    return Propulsion(thrust, torque, turning / (2.0 * math.pi), power.train.propeller.pitch)


def trim_sweep(
    airframe: Airframe,
    aero: AeroResult,
    power: PowerResult,
    balance: Balance,
    *,
    air: Air,
    speeds: Sequence[float] | None = None,
) -> tuple[PoweredTrim, ...]:
    """Elevator and throttle for level flight over the speed range, thrust line and slipstream in.

    Args:
        airframe: The shape. [-]
        aero: The plane's aerodynamics about its CG. [-]
        power: Static answers with the power train. [-]
        balance: Mass properties. [-]
        air: At the field. [-]
        speeds: Rising; None takes eight from 1.1 to 2.5 times stall speed. [m/s]

    Returns:
        One trim a speed; throttle None, and the thrust still that of level flight, where full
        throttle does not hold it.

    Valid:
        From stall speed upwards.

    Source:
        powered.py; throttle by the power room.

    Example:
        >>> 0.25 < trim_sweep(frame, aero, power, balance, air=air)[0].throttle < 0.39
        True
    """
    mass, density = balance.all_up_mass, air.density
    asked = np.array(speeds if speeds is not None else SWEEP * aero.stall_speed, dtype=float)
    drag = np.asarray(level_drag(aero, mass, speed=asked, density=density))
    duties = throttle_for_thrust(
        power.train, asked, drag, density=density, depth_of_discharge=MIDDLE_OF_FLIGHT
    )
    plane = Loaded(airframe, aero, mass, balance.cg, density)
    trims: list[PoweredTrim] = []
    for speed, pull, duty in zip(asked.tolist(), drag.tolist(), duties.tolist(), strict=True):
        trim = trim_with_power(plane, Propulsion(pull), speed=speed)
        trims.append(replace(trim, throttle=stick_of(duty) if duty <= 1.0 else None))
    return tuple(trims)


def _full_thrust(speeds: tuple[float, ...], thrust: tuple[float, ...], speed: float) -> float:
    return float(np.interp(speed, speeds, thrust))


def _running(
    airframe: Airframe, balance: Balance, level: Level, *, push: Propulsion, density: float
) -> Running:
    """The propeller in level flight; its turns from those at full throttle.

    Blade elements: thrust goes with Vp (Vp - V), Vp being pitch times turns a second.
    """
    speed, full = level.speed, push.pitch * push.turns
    rate = max(full - speed, 1e-3) * full / max(push.thrust, 1e-3)
    pitch_speed = 0.5 * (speed + math.sqrt(speed**2 + 4.0 * max(level.thrust, 0.0) * rate))
    return running_at(
        airframe,
        balance.cg[0],
        speed=speed,
        density=density,
        thrust=(level.thrust, level.slope),
        pitch=(push.pitch, pitch_speed),
    )


def _modes(
    aero: AeroResult,
    balance: Balance,
    level: Level,
    *,
    density: float,
    arm: float,
    running: Running,
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
    both = with_propeller(
        longitudinal, lateral_of(aero), aero=aero, condition=condition, running=running
    )
    return with_spread(
        modes_from_derivatives(condition, *both), condition, *both, doubts=aero.derivative_spread
    )
