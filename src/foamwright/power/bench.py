"""Bench readings of a whole power train: what they teach, which contradict, which to take next.

Motor, pack and propeller constants are one vector with a Gaussian prior from their bands and from
the left-out propellers; each figure read is a measurement of it. The most likely vector is found by
Gauss's steps, and the band that is left follows from the slopes.
"""

import math
from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from foamwright.core.bands import Band
from foamwright.core.errors import DesignError, ModelError
from foamwright.power.circuit import (
    balance_speed,
    circuit_of,
    controller_efficiency,
    turning,
)
from foamwright.power.contradictions import CONTRADICTS, contradictions_of
from foamwright.power.curves import PARAMETERS, Array
from foamwright.power.model import MotorConstants, PowerTrain
from foamwright.power.pack import rest_voltage
from foamwright.power.reading import BenchResult, Compared, Reading
from foamwright.power.sharpen import covariance_of, moved

ONE_IN_TEN = 1.2816
# relative error of one figure, one standard deviation: instrument and model; assumed
ERRORS = {"voltage": 0.01, "current": 0.03, "speed": 0.012, "thrust": 0.03}
REST_ERROR = 0.2  # V per cell when the rest voltage is not read: from full to storage; assumed
PART_THROTTLE_ERROR = 0.03  # more on the current below full throttle; assumed
DUTY_ERROR = 0.02  # of the duty ratio below full throttle: sticks of controllers differ; assumed
# of the controller's loss at part throttle: [BENCH-5IN] 0.32, [BENCH-LAB] next to none
LOSS_ERROR = 0.16
MOST_LOSS = 0.7  # of the same, so that no step of the search leaves what can be
HALF = Reading(throttle=0.5)  # about level flight
EXACT = 0.005  # spread given to a constant that the builder typed as measured
ROUNDS = 4
NUDGE = 1e-4
MOTOR = ("kv", "resistance", "no_load_current")
PACK = 3  # place of the pack's resistance; the propeller's parameters follow
LOSS = (
    PACK + 1 + len(PARAMETERS)
)  # place of the controller's loss; the duty of each reading follows
FIXED = LOSS + 1
CURVE = slice(PACK + 1, LOSS)
SAID = {  # word, unit and its size in SI
    "voltage": ("volts", "V", 1.0),
    "current": ("amps", "A", 1.0),
    "speed": ("rpm", "rpm", math.pi / 30.0),
    "thrust": ("thrust", "N", 1.0),
    "rest_voltage": ("rest", "V", 1.0),
}


def learn_from_bench(
    train: PowerTrain, readings: Sequence[Reading], *, density: float, advise: bool = True
) -> BenchResult:
    """Motor, propeller and pack after bench readings.

    Args:
        train: The power train as from labels and stock.
        readings: One or more, the plane held still. [-]
        density: Air density. [kg/m³]
        advise: Whether the advice is worked out, half of the time it takes. [-]

    Returns:
        The sharpened train, every figure beside the model, contradictions, and advice.

    Valid:
        Steady readings at rest; a motor and propeller of the kinds that the bands cover.

    Raises:
        DesignError: A reading not above zero, or one without any figure.
        ModelError: No reading at all.

    Source:
        Bayes's rule for a nearly linear model; priors [BENCH-5IN], [MOTOR-51], [UIUC-PROP].

    Example:
        >>> learn_from_bench(train, [Reading(current=18.0)], density=1.2)  # doctest: +SKIP
    """
    if not readings:
        raise ModelError("No bench reading was given.")
    for place, reading in enumerate(readings):
        _refuse(place, reading)
    prior = _prior(train, len(readings))
    before, noise, names = _predicted(train, np.zeros(len(prior)), readings, density=density)
    read = np.log([_value(readings[place], name) for place, name in names])
    slopes = _slopes(train, np.zeros(len(prior)), readings, density=density)[1]
    known = np.diag(slopes @ prior @ slopes.T)
    wide = np.sqrt(known + noise**2)
    # a figure further off than contradicts counts as one that just does: it must not turn the
    # motor into another one
    heard = np.sqrt(np.maximum(noise**2, ((read - before) / CONTRADICTS) ** 2 - known))
    state, covariance = _most_likely(
        train, prior, readings, read=read, noise=heard, density=density
    )
    after = _predicted(train, state, readings, density=density)[0]
    compared = tuple(
        Compared(
            place,
            name,
            float(np.exp(read[i])),
            float(np.exp(before[i])),
            float(np.exp(after[i])),
            float((read[i] - before[i]) / wide[i]),
        )
        for i, (place, name) in enumerate(names)
    )
    middle = _wanted(train, state, density)
    gained = _slopes_wanted(train, state, density)
    left = np.sqrt(np.diag(gained @ covariance @ gained.T))
    return BenchResult(
        train=_train_of(train, state, covariance),
        compared=compared,
        contradictions=contradictions_of(compared, read - after, noise, names=names),
        thrust_band=_band(middle[0], left[0]),
        current_band=_band(middle[1], left[1]),
        advice=_advice(train, state, covariance, density=density) if advise else (),
    )


def first_advice(train: PowerTrain, *, density: float) -> tuple[str, ...]:
    """Which bench reading would teach most about a train that nothing was read of yet.

    Args:
        train: The power train as from labels and stock. [-]
        density: Air density. [kg/m³]

    Returns:
        Readings in words, the most useful first. [-]

    Source:
        As learn_from_bench.

    Example:
        >>> first_advice(train, density=1.2)[0]  # doctest: +SKIP
        'volts, amps, rpm and thrust at full throttle: narrows the band ...'
    """
    prior = _prior(train, 0)
    return _advice(train, np.zeros(len(prior)), prior, density=density)


def carried_over(train: PowerTrain, learnt: tuple[PowerTrain, PowerTrain]) -> PowerTrain:
    """What was learnt of one train, carried over to another for the parts that are the same.

    Args:
        train: As from labels and stock.
        learnt: The train of the bench run as from labels and stock, and after the readings. [-]

    Returns:
        The train with motor, propeller and pack as learnt where their labels agree.

    Source:
        Definition.

    Example:
        >>> carried_over(train, (train, learnt_train)) == learnt_train  # doctest: +SKIP
        True
    """
    label, after = learnt
    same = all(
        getattr(train, name) == getattr(label, name)
        for name in ("controller_resistance", "controller_current", "motor")
    )
    return replace(
        train,
        motor=after.motor if train.motor == label.motor else train.motor,
        propeller=after.propeller if train.propeller == label.propeller else train.propeller,
        pack=after.pack if train.pack == label.pack else train.pack,
        controller_loss=after.controller_loss if same else train.controller_loss,
    )


def _refuse(place: int, reading: Reading) -> None:
    for name, (word, unit, size) in SAID.items():
        value = getattr(reading, name)
        if value is not None and not (math.isfinite(value) and value > 0.0):
            raise DesignError(
                f"reading {place + 1}.{word}", f"{value / size:g} {unit}", "it must be above zero"
            )
    if not 0.0 < reading.throttle <= 1.0:
        raise DesignError(
            f"reading {place + 1}.throttle", f"{reading.throttle:g}", "it must be above 0, up to 1"
        )
    if all(getattr(reading, name) is None for name in ERRORS):
        raise DesignError(
            f"reading {place + 1}", "empty", "volts, amps, rpm or thrust must be among it"
        )
    if reading.thrust is not None and not reading.propeller:
        raise DesignError(
            f"reading {place + 1}.thrust", f"{reading.thrust:.3g} N", "no propeller gives no thrust"
        )


def _value(reading: Reading, name: str) -> float:
    return float(getattr(reading, name))


def _spread(band: Band) -> float:
    if not band.low > 0.0:
        return EXACT
    return max(math.log(band.high / band.low) / (2.0 * ONE_IN_TEN), EXACT)


def _prior(train: PowerTrain, readings: int) -> Array:
    motor = train.motor
    spreads = [_spread(getattr(motor, name)) for name in MOTOR] + [_spread(train.pack.resistance)]
    prior = np.diag([0.0] * LOSS + [LOSS_ERROR**2] + [DUTY_ERROR**2] * readings)
    prior[: PACK + 1, : PACK + 1] = np.diag(np.square(spreads))
    prior[CURVE, CURVE] = covariance_of(train.propeller)
    return prior


def _predicted(
    train: PowerTrain, states: Array, readings: Sequence[Reading], *, density: float
) -> tuple[Array, Array, list[tuple[int, str]]]:
    """Logarithm of every figure that was read, its error, and which it is; a state a row."""
    values: list[Array] = []
    noise: list[float] = []
    names: list[tuple[int, str]] = []
    for place, reading in enumerate(readings):
        model = _at(train, states, reading, density=density, place=FIXED + place)
        for name, error in ERRORS.items():
            if getattr(reading, name) is None:
                continue
            more = PART_THROTTLE_ERROR if name == "current" and reading.throttle < 1.0 else 0.0
            if name == "voltage" and reading.rest_voltage is None:
                more = REST_ERROR * train.pack.cells / float(model["voltage"].flat[0])
            values.append(np.log(np.maximum(model[name], 1e-9)))
            noise.append(math.hypot(error, more))
            names.append((place, name))
    return np.stack(values, axis=-1), np.array(noise), names


def _at(
    train: PowerTrain,
    states: Array,
    reading: Reading,
    *,
    density: float,
    place: int | None = None,
) -> dict[str, Array]:
    """The train in each state at the reading's throttle; a voltage that was read drives it.

    Place is where the states hold the error of the reading's duty.
    """
    motor, pack = train.motor, train.pack
    kv, resistance, idle, inner = (
        band.typical * np.exp(states[..., i])
        for i, band in enumerate(
            (motor.kv, motor.resistance, motor.no_load_current, pack.resistance)
        )
    )
    circuit = circuit_of(train, density, depth_of_discharge=0.0)
    rested = reading.rest_voltage or float(rest_voltage(0.0)) * pack.cells
    driven = reading.voltage
    circuit = replace(
        circuit,
        parameters=circuit.parameters + states[..., CURVE],
        kv=kv,
        resistance=resistance + train.controller_resistance,
        no_load_current=idle,
        open_voltage=np.array(rested if driven is None else driven),
        pack_resistance=inner if driven is None else np.zeros(()),
        density=density if reading.propeller else 1e-6,
        controller_loss=_loss(train, states),
    )
    duty = np.full(kv.shape, reading.throttle)
    if reading.throttle < 1.0 and place is not None and place < states.shape[-1]:
        # an open throttle is open: only a stick part of the way is not sure
        duty = np.clip(duty + states[..., place], 0.01, 1.0)
    speed, through = balance_speed(circuit, np.zeros(kv.shape), duty)
    current = through * duty / controller_efficiency(duty, circuit.controller_loss)
    used = reading.current if reading.current is not None else current
    thrust = turning(circuit, np.zeros(kv.shape), np.maximum(speed, 1.0)).thrust
    voltage = rested - inner * used
    return {"voltage": voltage, "current": current, "speed": speed, "thrust": thrust}


def _loss(train: PowerTrain, states: Array) -> Array:
    return np.clip(train.controller_loss + states[..., LOSS], 0.0, MOST_LOSS)


def _nudged(state: Array) -> Array:
    """The state, then it with each of its numbers nudged, a row each."""
    return np.vstack([state, state + NUDGE * np.eye(len(state))])


def _slopes(
    train: PowerTrain, state: Array, readings: Sequence[Reading], *, density: float
) -> tuple[Array, Array]:
    """What the model says of every figure, and how that moves with each number of the state."""
    values = _predicted(train, _nudged(state), readings, density=density)[0]
    return values[0], ((values[1:] - values[0]) / NUDGE).T


def _most_likely(
    train: PowerTrain,
    prior: Array,
    readings: Sequence[Reading],
    *,
    read: Array,
    noise: Array,
    density: float,
) -> tuple[Array, Array]:
    state = np.zeros(len(prior))
    covariance = prior
    for _ in range(ROUNDS):
        model, slopes = _slopes(train, state, readings, density=density)
        seen = slopes @ prior @ slopes.T + np.diag(noise**2)
        gain = prior @ slopes.T @ np.linalg.inv(seen)
        state = gain @ (read - model + slopes @ state)
        covariance = prior - gain @ slopes @ prior
    return state, covariance


def _wanted(train: PowerTrain, states: Array, density: float) -> Array:
    full = _at(train, states, Reading(), density=density)
    half = _at(train, states, HALF, density=density)
    return np.log(np.stack([full["thrust"], full["current"], half["current"]], axis=-1))


def _slopes_wanted(train: PowerTrain, state: Array, density: float) -> Array:
    values = _wanted(train, _nudged(state), density)
    return ((values[1:] - values[0]) / NUDGE).T


def _band(middle: float, spread: float) -> Band:
    low, high = math.exp(middle - ONE_IN_TEN * spread), math.exp(middle + ONE_IN_TEN * spread)
    return Band(low, math.exp(middle), high, "bench readings")


def _train_of(train: PowerTrain, state: Array, covariance: Array) -> PowerTrain:
    left = np.sqrt(np.maximum(np.diag(covariance), 0.0))

    def after(band: Band, place: int) -> Band:
        return _band(math.log(band.typical) + float(state[place]), float(left[place]))

    motor: MotorConstants = replace(
        train.motor, **{name: after(getattr(train.motor, name), i) for i, name in enumerate(MOTOR)}
    )
    return replace(
        train,
        motor=motor,
        pack=replace(train.pack, resistance=after(train.pack.resistance, PACK)),
        propeller=moved(train.propeller, state[CURVE], covariance[CURVE, CURVE]),
        controller_loss=float(_loss(train, state)),
    )


def _advice(
    train: PowerTrain, state: Array, covariance: Array, *, density: float
) -> tuple[str, ...]:
    """Further readings by how much each narrows thrust and current at full and half throttle."""
    state = np.append(state[:FIXED], 0.0)  # the duty of the reading to come
    kept, covariance = covariance[:FIXED, :FIXED], np.zeros((FIXED + 1, FIXED + 1))
    covariance[:FIXED, :FIXED], covariance[FIXED, FIXED] = kept, DUTY_ERROR**2
    full, part, free = (
        {name: float(value) for name, value in _at(train, state, plan, density=density).items()}
        for plan in (Reading(), HALF, Reading(propeller=False))
    )
    volts = train.pack.cells * float(rest_voltage(0.0))
    plans = {
        "volts, amps, rpm and thrust at full throttle": Reading(
            full["voltage"], full["current"], full["speed"], full["thrust"]
        ),
        "volts and amps at full throttle": Reading(full["voltage"], full["current"]),
        "amps at full throttle": Reading(current=full["current"]),
        "rpm at full throttle": Reading(speed=full["speed"]),
        "thrust at full throttle": Reading(thrust=full["thrust"]),
        "volts, amps and rpm at half throttle": Reading(
            part["voltage"], part["current"], part["speed"], throttle=HALF.throttle
        ),
        "volts, amps and rpm without the propeller": Reading(
            volts, free["current"], free["speed"], propeller=False
        ),
    }
    wanted = _slopes_wanted(train, state, density)
    now = wanted @ covariance @ wanted.T
    gains: list[tuple[float, str]] = []
    for words, plan in plans.items():
        _, noise, _ = _predicted(train, state, [plan], density=density)
        slopes = _slopes(train, state, [plan], density=density)[1]
        seen = slopes @ covariance @ slopes.T + np.diag(noise**2)
        taken = covariance @ slopes.T @ np.linalg.inv(seen) @ slopes @ covariance
        then = wanted @ (covariance - taken) @ wanted.T
        gains.append((1.0 - math.sqrt(float(np.trace(then) / np.trace(now))), words))
    gains.sort(reverse=True)
    return tuple(
        f"{words}: narrows the band of thrust and current by {100 * gain:.0f} %"
        for gain, words in gains
        if gain > 0.05
    )
