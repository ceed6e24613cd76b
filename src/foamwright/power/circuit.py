"""The balance of torque and voltage between propeller, motor, controller and pack, on arrays."""

import math
from dataclasses import dataclass

import numpy as np

from foamwright.power.curves import Array, coefficients_of, zero_power_ratio
from foamwright.power.model import CONTROLLER_LOSS, PowerTrain, PropellerConstants
from foamwright.power.pack import rest_voltage
from foamwright.power.propeller import flow_measure, parameters_of

BLADE_AREA = 0.136  # of one blade over R²; mean chord 0.17 R from 0.2 R outwards, [UIUC-PROP]
STILL_BLADE_DRAG = 1.0  # between 0.8 and 1.17, see still_drag_area
MOST_STEPS = 60
CONVERGED = 1e-9  # relative step of the speed


@dataclass(frozen=True, slots=True)
class Circuit:
    """Constants of one or more trains side by side; each field is a number or an array.

    Attributes:
        parameters: Curve parameters, one row each. [-]
        diameter: [m]
        density: Air. [kg/m³]
        kv: [rad/(s V)]
        resistance: Motor, leads and controller. [ohm]
        no_load_current: [A]
        open_voltage: Whole pack at rest. [V]
        pack_resistance: [ohm]
        still_drag_area: Drag area of the propeller at rest, 0 when it folds. [m²]
        folds: Whether the blades fold back when no current flows.
        controller_loss: Share of the power lost at part throttle, over 1 - duty. [-]
    """

    parameters: Array
    diameter: Array
    density: float
    kv: Array
    resistance: Array
    no_load_current: Array
    open_voltage: Array
    pack_resistance: Array
    still_drag_area: Array
    folds: bool
    controller_loss: Array | float = CONTROLLER_LOSS


@dataclass(frozen=True, slots=True)
class Turning:
    """What the propeller does at given speeds.

    Attributes:
        thrust: [N]
        torque: [N m]
        advance_ratio: [-]
        flow: Reynolds measure. [-]
    """

    thrust: Array
    torque: Array
    advance_ratio: Array
    flow: Array


def circuit_of(train: PowerTrain, density: float, *, depth_of_discharge: float) -> Circuit:
    """Typical constants of a train as one circuit.

    Args:
        train: The power train.
        density: Air density. [kg/m³]
        depth_of_discharge: Drawn charge over capacity. [-]

    Returns:
        The circuit.

    Source:
        Definition.

    Example:
        >>> circuit_of(train, 1.225, depth_of_discharge=0.2)  # doctest: +SKIP
    """
    folds = train.propeller.kind == "folding"
    return Circuit(
        parameters=parameters_of(train.propeller),
        diameter=np.array(train.propeller.diameter),
        density=density,
        kv=np.array(train.motor.kv.typical),
        resistance=np.array(train.motor.resistance.typical + train.controller_resistance),
        no_load_current=np.array(train.motor.no_load_current.typical),
        open_voltage=np.array(train.pack.cells * rest_voltage(depth_of_discharge)),
        pack_resistance=np.array(train.pack.resistance.typical),
        still_drag_area=np.array(0.0 if folds else still_drag_area(train.propeller)),
        folds=folds,
        controller_loss=np.array(train.controller_loss),
    )


def still_drag_area(propeller: PropellerConstants) -> float:
    """Drag area of a propeller at rest across the stream.

    Blades of mean chord 0.17 R from 0.2 R to the tip, as plates across the stream.

    Args:
        propeller: Constants.

    Returns:
        Drag over dynamic pressure. [m²]

    Source:
        Mean chord of the blades of [UIUC-PROP]; drag coefficient 1.0 on it, between a stopped
        propeller's 0.8 [RAYMER] and a plate's 1.17 [HOERNER], both from memory; no measurement.

    Example:
        >>> still_drag_area(propeller)  # doctest: +SKIP
        0.0036
    """
    return propeller.blades * BLADE_AREA * (0.5 * propeller.diameter) ** 2 * STILL_BLADE_DRAG


def turning(circuit: Circuit, airspeed: Array, speed: Array) -> Turning:
    """Thrust and torque of the propeller.

    T = CT rho n² D⁴, Q = CP rho n² D⁵/(2 pi).

    Args:
        circuit: Constants.
        airspeed: [m/s]
        speed: Of the propeller, above zero. [rad/s]

    Returns:
        Thrust, torque and where on the curves.

    Source:
        Definition of the coefficients.

    Example:
        >>> turning(circuit, np.array(0.0), np.array(700.0))  # doctest: +SKIP
    """
    turns = speed / (2.0 * math.pi)
    advance = airspeed / (turns * circuit.diameter)
    flow = flow_measure(speed, circuit.diameter)
    thrust, power = coefficients_of(circuit.parameters, advance, flow)
    pressure = circuit.density * turns**2 * circuit.diameter**4
    return Turning(
        thrust=thrust * pressure,
        torque=power * pressure * circuit.diameter / (2.0 * math.pi),
        advance_ratio=advance,
        flow=flow,
    )


def controller_efficiency(duty: Array, controller_loss: Array | float = CONTROLLER_LOSS) -> Array:
    """Share of the electric power that reaches the motor, switching losses taken off.

    eff = 1 - 0.32 (1 - duty); the ohmic loss is counted apart.

    Args:
        duty: Share of the time that the pack is on the motor, 0 to 1. [-]
        controller_loss: In place of 0.32, where a reading tells it. [-]

    Returns:
        Efficiency. [-]

    Valid:
        Duty 0.2 to 1.

    Source:
        [BENCH-5IN] median within 0.05; tests/validation/test_bench.py.

    Example:
        >>> round(float(controller_efficiency(np.array(0.5))), 2)
        0.84
    """
    return 1.0 - controller_loss * (1.0 - duty)


def freewheel_speed(circuit: Circuit, airspeed: Array) -> Array:
    """Speed at which the air just overcomes the idle torque of the motor, no current flowing.

    Args:
        circuit: Constants.
        airspeed: [m/s]

    Returns:
        Speed, 0 where the propeller stands still. [rad/s]

    Source:
        Torque balance; straight continuation of the power curve beyond the measured points.

    Example:
        >>> freewheel_speed(circuit, np.array(8.0))  # doctest: +SKIP
    """
    c = circuit.parameters
    zero_advance = np.exp(c[..., 2]) * zero_power_ratio(c)
    idle_torque = circuit.no_load_current / circuit.kv
    free = 2.0 * math.pi * np.maximum(airspeed, 1e-6) / (zero_advance * circuit.diameter)
    high, low = 1.2 * free, 0.45 * free
    spins = turning(circuit, airspeed, 0.5 * free).torque + idle_torque < 0.0
    low = np.where(spins, 0.5 * free, low)
    for _ in range(26):
        middle = 0.5 * (low + high)
        driven = turning(circuit, airspeed, middle).torque + idle_torque < 0.0
        low, high = np.where(driven, middle, low), np.where(driven, high, middle)
    return np.where(spins, 0.5 * (low + high), 0.0)


def balance_speed(circuit: Circuit, airspeed: Array, duty: Array) -> tuple[Array, Array]:
    """Speed and motor current at which torque and voltage balance.

    omega/Kv + I (R + Rpack duty²/eff) = duty Voc, I = I0 + Kv Q(omega, V).

    Args:
        circuit: Constants.
        airspeed: [m/s]
        duty: Share of the time that the pack is on the motor, 0 to 1. [-]

    Returns:
        Speed [rad/s] and motor current [A]; the current is 0 where the propeller freewheels.

    Source:
        [DRELA-MOTOR] with the pack and the controller in series; reproduced in
        tests/validation/test_motor.py.

    Example:
        >>> balance_speed(circuit, np.array(0.0), np.array(1.0))  # doctest: +SKIP
    """
    drive = duty * circuit.open_voltage
    efficiency = controller_efficiency(duty, circuit.controller_loss)
    loss = circuit.resistance + circuit.pack_resistance * duty**2 / efficiency
    free = np.zeros(()) if circuit.folds else freewheel_speed(circuit, airspeed)
    # a rotor at rest needs this much to start; below it the current only warms the winding
    powered = drive > np.maximum(free / circuit.kv, circuit.no_load_current * loss)
    low = np.where(powered, free, 0.0)
    high = np.where(powered, np.maximum(circuit.kv * drive, free) * (1.0 + 1e-9), 1.0)
    speed = _root(circuit, airspeed, drive, loss=loss, low=low, high=high)
    current = circuit.no_load_current + circuit.kv * turning(circuit, airspeed, speed).torque
    return np.where(powered, speed, free), np.where(powered, np.maximum(current, 0.0), 0.0)


def _root(
    circuit: Circuit, airspeed: Array, drive: Array, *, loss: Array, low: Array, high: Array
) -> Array:
    """Newton's steps on the voltage balance, halving the bracket where a step leaves it."""

    def excess(speed: Array) -> Array:
        torque = turning(circuit, airspeed, speed).torque
        current = circuit.no_load_current + circuit.kv * torque
        return speed / circuit.kv + current * loss - drive

    speed = high
    for _ in range(MOST_STEPS):
        value = excess(speed)
        slope = (excess(speed * (1.0 + 1e-6)) - value) / (speed * 1e-6)
        low, high = np.where(value < 0.0, speed, low), np.where(value < 0.0, high, speed)
        step = speed - value / np.where(slope > 0.0, slope, 1.0)
        inside = (slope > 0.0) & (step > low) & (step < high)
        following = np.where(inside, step, 0.5 * (low + high))
        moved = np.max(np.abs(following - speed) / following)
        speed = following
        if moved < CONVERGED:
            break
    return speed
