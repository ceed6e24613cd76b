"""Answers of the power train that need no airframe."""

import math
from dataclasses import replace

import numpy as np

from foamwright.core.bands import Band
from foamwright.power.circuit import Circuit, circuit_of
from foamwright.power.model import PowerResult, PowerTrain
from foamwright.power.operate import map_of, refuse_outside

ONE_IN_TEN = 1.2816  # standard deviations that leave one build in ten outside; normal distribution


def analyse(train: PowerTrain, *, density: float) -> PowerResult:
    """Static thrust, current and pitch speed at full throttle on a rested full pack.

    The bands move one constant at a time to its low and high value and add the changes in squares.

    Args:
        train: The power train.
        density: Air density. [kg/m³]

    Returns:
        Static answers with bands and notes.

    Valid:
        Propellers of the fitted set; others are noted.

    Source:
        [DRELA-MOTOR], [UIUC-PROP]; bands by first-order propagation.

    Example:
        >>> analyse(train, density=1.225).static_thrust  # doctest: +SKIP
    """
    refuse_outside(np.zeros(1), np.zeros(1), density)
    circuit = varied_circuit(train, circuit_of(train, density, depth_of_discharge=0.0))
    count = circuit.kv.size
    state = map_of(circuit, np.zeros(count), np.ones(count), trusted=train.propeller.in_fit_range)
    speed = float(state.speed[0])
    return PowerResult(
        train=train,
        static_thrust=float(state.thrust[0]),
        static_thrust_band=band_of_varied(state.thrust),
        full_throttle_current=float(state.current[0]),
        full_throttle_current_band=band_of_varied(state.current),
        full_throttle_power=float(state.electric_power[0]),
        static_speed=speed,
        pitch_speed=train.propeller.pitch * speed / (2.0 * math.pi),
        notes=_notes(train, bool(state.extrapolated[0])),
    )


def varied_circuit(train: PowerTrain, circuit: Circuit) -> Circuit:
    """The circuit as arrays: typical first, then each constant low and high in turn.

    Args:
        train: The power train.
        circuit: Its typical constants.

    Returns:
        Thirteen circuits in one.

    Source:
        Definition.

    Example:
        >>> varied_circuit(train, circuit).kv.size  # doctest: +SKIP
        13
    """
    motor, pack, propeller = train.motor, train.pack, train.propeller
    offset = train.controller_resistance
    kv = np.full(13, motor.kv.typical)
    resistance = np.full(13, motor.resistance.typical + offset)
    idle = np.full(13, motor.no_load_current.typical)
    inner = np.full(13, pack.resistance.typical)
    thrust, power = np.zeros(13), np.zeros(13)
    kv[1:3] = motor.kv.low, motor.kv.high
    resistance[3:5] = motor.resistance.low + offset, motor.resistance.high + offset
    idle[5:7] = motor.no_load_current.low, motor.no_load_current.high
    inner[7:9] = pack.resistance.low, pack.resistance.high
    thrust[9:11] = np.array([-1.0, 1.0]) * ONE_IN_TEN * propeller.thrust_spread
    power[11:13] = np.array([-1.0, 1.0]) * ONE_IN_TEN * propeller.power_spread
    parameters = np.tile(circuit.parameters, (13, 1))
    parameters[:, 0] += thrust
    parameters[:, 6] += power
    return replace(
        circuit,
        parameters=parameters,
        kv=kv,
        resistance=resistance,
        no_load_current=idle,
        pack_resistance=inner,
    )


def band_of_varied(values: np.ndarray) -> Band:
    """Band of an answer from the thirteen circuits: changes added in squares.

    Args:
        values: Answers in the order of varied_circuit. [any]

    Returns:
        Band. [any]

    Source:
        First-order propagation of independent errors.

    Example:
        >>> band_of_varied(np.array([5.0, 4.0, 6.0] + [5.0] * 10)).high
        6.0
    """
    typical = values[0]
    changes = values[1:].reshape(-1, 2) - typical
    down = math.sqrt(float(np.sum(np.min(changes, axis=1).clip(max=0.0) ** 2)))
    up = math.sqrt(float(np.sum(np.max(changes, axis=1).clip(min=0.0) ** 2)))
    return Band(
        max(float(typical) - down, 0.0), float(typical), float(typical) + up, "propagated bands"
    )


def _notes(train: PowerTrain, extrapolated: bool) -> tuple[str, ...]:
    notes: list[str] = []
    propeller = train.propeller
    if not propeller.in_fit_range:
        notes.append(
            f"The propeller ({propeller.kind}, {propeller.diameter / 0.0254:.3g} x "
            f"{propeller.pitch / 0.0254:.3g} in) lies outside the measured set; its curves are "
            "extrapolated and the bands widened."
        )
    elif extrapolated:
        notes.append(
            "The propeller turns faster than any of the measured set; its growth is faded."
        )
    if propeller.blades > 2:
        notes.append(
            f"The {propeller.blades}-blade propeller is scaled from two blades, on few readings."
        )
    if not propeller.line:
        notes.append("The blade line of the propeller is not stated; the spread covers its kind.")
    return tuple(notes)
