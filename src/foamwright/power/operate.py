"""The power train at given airspeeds and throttles; throttle is the controller's duty ratio."""

import math

import numpy as np

from foamwright.core.errors import ModelError
from foamwright.power.circuit import (
    Circuit,
    balance_speed,
    circuit_of,
    controller_efficiency,
    turning,
)
from foamwright.power.curves import FLOW_HIGH, FLOW_LOW, LINEAR_FROM, Array
from foamwright.power.model import PowerMap, PowerPoint, PowerTrain

FLOW_MARGIN = 0.4  # ln(n D²) beyond the fastest measured flow that still counts as inside


def operate(
    train: PowerTrain,
    airspeed: float,
    throttle: float,
    *,
    density: float,
    depth_of_discharge: float = 0.2,
) -> PowerPoint:
    """The power train at one airspeed and throttle.

    Args:
        train: The power train.
        airspeed: Along the shaft, 0 or more. [m/s]
        throttle: Duty ratio, 0 to 1. [-]
        density: Air density. [kg/m³]
        depth_of_discharge: Drawn charge over capacity. [-]

    Returns:
        Thrust, current, speed and powers; thrust is negative where the propeller windmills.

    Valid:
        Steady state; a controller that lets the motor run free when it is not driven.

    Raises:
        ModelError: Negative airspeed, throttle outside 0 to 1, density not above zero.

    Source:
        [DRELA-MOTOR], [UIUC-PROP]; reproduced in tests/validation/test_motor.py.

    Example:
        >>> operate(train, 8.0, 0.5, density=1.225).thrust  # doctest: +SKIP
    """
    grid = power_map(
        train,
        np.array([airspeed], dtype=float),
        np.array([throttle], dtype=float),
        density=density,
        depth_of_discharge=depth_of_discharge,
    )
    return PowerPoint(
        thrust=float(grid.thrust[0, 0]),
        current=float(grid.current[0, 0]),
        voltage=float(grid.voltage[0, 0]),
        speed=float(grid.speed[0, 0]),
        torque=float(grid.torque[0, 0]),
        shaft_power=float(grid.shaft_power[0, 0]),
        electric_power=float(grid.electric_power[0, 0]),
        efficiency=float(grid.efficiency[0, 0]),
        advance_ratio=float(grid.advance_ratio[0, 0]),
        extrapolated=bool(grid.extrapolated[0, 0]),
    )


def power_map(
    train: PowerTrain,
    airspeeds: Array,
    throttles: Array,
    *,
    density: float,
    depth_of_discharge: float = 0.2,
) -> PowerMap:
    """The power train over a grid of airspeeds and throttles.

    Args:
        train: The power train.
        airspeeds: Along the shaft, 0 or more. [m/s]
        throttles: Duty ratios, 0 to 1. [-]
        density: Air density. [kg/m³]
        depth_of_discharge: Drawn charge over capacity. [-]

    Returns:
        Arrays with airspeeds along rows and throttles along columns.

    Valid:
        As operate.

    Raises:
        ModelError: Negative airspeed, throttle outside 0 to 1, density not above zero.

    Source:
        [DRELA-MOTOR], [UIUC-PROP].

    Example:
        >>> power_map(train, speeds, throttles, density=1.225).thrust  # doctest: +SKIP
    """
    rows, columns = np.atleast_1d(airspeeds).astype(float), np.atleast_1d(throttles).astype(float)
    refuse_outside(rows, columns, density)
    circuit = circuit_of(train, density, depth_of_discharge=depth_of_discharge)
    airspeed, duty = rows[:, np.newaxis], columns[np.newaxis, :]  # what depends on one stays small
    return map_of(circuit, airspeed, duty, trusted=train.propeller.in_fit_range)


def map_of(circuit: Circuit, airspeed: Array, duty: Array, *, trusted: bool) -> PowerMap:
    """The balance of a circuit on arrays of airspeed and duty, no input checks.

    Args:
        circuit: Constants.
        airspeed: [m/s]
        duty: Duty ratio. [-]
        trusted: Whether the propeller lies inside the fitted set. [-]

    Returns:
        Arrays of the shape of airspeed.

    Source:
        [DRELA-MOTOR], [UIUC-PROP].

    Example:
        >>> map_of(circuit, airspeed, duty, trusted=True)  # doctest: +SKIP
    """
    speed, motor_current = balance_speed(circuit, airspeed, duty)
    moving = speed > 0.0
    state = turning(circuit, airspeed, np.where(moving, speed, 1.0))
    current = duty * motor_current / controller_efficiency(duty, circuit.controller_loss)
    voltage = circuit.open_voltage - circuit.pack_resistance * current
    # a freewheeling propeller turns against the idle torque of the motor, which no pack pays for
    torque = np.where(moving & (motor_current > 0.0), np.maximum(state.torque, 0.0), 0.0)
    still = -0.5 * circuit.density * airspeed**2 * circuit.still_drag_area
    thrust = np.where(moving, state.thrust, still)
    electric = voltage * current
    useful = np.where(electric > 0.0, electric, 1.0)
    span = np.exp(circuit.parameters[..., 2] + circuit.parameters[..., 3] * state.flow)
    beyond = moving & (state.advance_ratio > LINEAR_FROM * span)
    fast = moving & ((state.flow > FLOW_HIGH + _fade(FLOW_MARGIN)) | (state.flow <= FLOW_LOW))
    return PowerMap(
        airspeed=airspeed[:, 0] if airspeed.ndim == 2 else airspeed,
        throttle=duty[0] if duty.ndim == 2 else duty,
        thrust=thrust,
        current=current,
        voltage=voltage,
        speed=speed,
        torque=torque,
        shaft_power=torque * speed,
        electric_power=electric,
        efficiency=np.where(electric > 0.0, thrust * airspeed / useful, 0.0),
        advance_ratio=np.where(moving, state.advance_ratio, 0.0),
        extrapolated=beyond | fast | (not trusted),
    )


def thrust_at(
    train: PowerTrain,
    airspeeds: Array,
    *,
    throttle: float,
    density: float,
    depth_of_discharge: float = 0.2,
) -> Array:
    """Thrust over airspeed at one throttle.

    Args:
        train: The power train.
        airspeeds: Along the shaft, 0 or more. [m/s]
        throttle: Duty ratio, 0 to 1. [-]
        density: Air density. [kg/m³]
        depth_of_discharge: Drawn charge over capacity. [-]

    Returns:
        Thrust, negative where the propeller windmills. [N]

    Valid:
        As operate.

    Source:
        [DRELA-MOTOR], [UIUC-PROP].

    Example:
        >>> thrust_at(train, np.array([0.0, 8.0]), throttle=0.5, density=1.225)  # doctest: +SKIP
    """
    grid = power_map(
        train,
        airspeeds,
        np.array([throttle]),
        density=density,
        depth_of_discharge=depth_of_discharge,
    )
    return grid.thrust[:, 0]


def throttle_for_thrust(
    train: PowerTrain,
    airspeeds: Array,
    thrusts: Array,
    *,
    density: float,
    depth_of_discharge: float = 0.2,
) -> Array:
    """Throttle that gives a thrust at an airspeed.

    The propeller speed follows from the thrust, torque and current from the speed, the duty from
    the voltage balance.

    Args:
        train: The power train.
        airspeeds: Along the shaft, 0 or more. [m/s]
        thrusts: Wanted, 0 or more; of the shape of airspeeds. [N]
        density: Air density. [kg/m³]
        depth_of_discharge: Drawn charge over capacity. [-]

    Returns:
        Duty ratio; above 1 where the train cannot give the thrust. [-]

    Valid:
        As operate; values above 1 only tell that it cannot.

    Raises:
        ModelError: Negative airspeed or thrust, density not above zero.

    Source:
        [DRELA-MOTOR], [UIUC-PROP].

    Example:
        >>> throttle_for_thrust(train, speeds, drag, density=1.225)  # doctest: +SKIP
    """
    airspeed, thrust = np.broadcast_arrays(
        np.asarray(airspeeds, dtype=float), np.asarray(thrusts, dtype=float)
    )
    refuse_outside(airspeed, np.array([0.0]), density)
    if np.min(thrust) < 0.0:
        raise ModelError("Thrust must be zero or more to find a throttle for it.")
    circuit = circuit_of(train, density, depth_of_discharge=depth_of_discharge)
    return duty_for(circuit, airspeed, thrust)


def duty_for(circuit: Circuit, airspeed: Array, thrust: Array) -> Array:
    """Duty ratio that gives a thrust, for one or many circuits, no input checks.

    Args:
        circuit: Constants.
        airspeed: [m/s]
        thrust: [N]

    Returns:
        Duty ratio; above 1 where the train cannot give the thrust. [-]

    Source:
        [DRELA-MOTOR], [UIUC-PROP].

    Example:
        >>> duty_for(circuit, np.array(8.0), np.array(1.0))  # doctest: +SKIP
    """
    speed = _speed_for(circuit, airspeed, thrust)
    current = circuit.no_load_current + circuit.kv * turning(circuit, airspeed, speed).torque
    need = speed / circuit.kv + np.maximum(current, 0.0) * circuit.resistance
    duty = need / circuit.open_voltage
    for _ in range(30):
        efficiency = controller_efficiency(np.minimum(duty, 1.0), circuit.controller_loss)
        sag = circuit.pack_resistance * current * duty**2 / efficiency
        duty = np.minimum((need + sag) / circuit.open_voltage, 9.0)
    return duty


def _speed_for(circuit: Circuit, airspeed: Array, thrust: Array) -> Array:
    """Propeller speed for a thrust; thrust grows with speed beyond the windmilling range."""
    zero = np.exp(circuit.parameters[..., 2]) * circuit.diameter
    low = 2.0 * math.pi * airspeed / zero * 0.6 + 1e-3
    high = low + 1e4
    for _ in range(45):
        middle = 0.5 * (low + high)
        short = turning(circuit, airspeed, middle).thrust < thrust
        low, high = np.where(short, middle, low), np.where(short, high, middle)
    return 0.5 * (low + high)


def refuse_outside(airspeeds: Array, throttles: Array, density: float) -> None:
    """Refuse what the model cannot answer.

    Args:
        airspeeds: [m/s]
        throttles: [-]
        density: [kg/m³]

    Raises:
        ModelError: Negative airspeed, throttle outside 0 to 1, density not above zero.

    Source:
        Definition.

    Example:
        >>> refuse_outside(np.array([8.0]), np.array([0.5]), 1.225)
    """
    if not (np.all(np.isfinite(airspeeds)) and np.all(np.isfinite(throttles))):
        raise ModelError("Airspeed and throttle must be numbers.")
    if airspeeds.size == 0 or throttles.size == 0:
        raise ModelError("At least one airspeed and one throttle are needed.")
    if np.min(airspeeds) < 0.0:
        raise ModelError(
            f"Airspeed is {np.min(airspeeds):g} m/s; the propeller curves begin at 0 m/s."
        )
    if np.min(throttles) < 0.0 or np.max(throttles) > 1.0:
        wrong = np.min(throttles) if np.min(throttles) < 0.0 else np.max(throttles)
        raise ModelError(f"Throttle is {wrong:g}; it must be 0 to 1.")
    if not density > 0.0:
        raise ModelError(f"Air density is {density:g} kg/m³; it must be above zero.")


def _fade(margin: float) -> float:
    """Reynolds measure above the measured range after fading, see propeller.flow_measure."""
    return 0.5 * (1.0 - math.exp(-margin / 0.5))
