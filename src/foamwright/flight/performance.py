"""Level flight, climb, glide and endurance."""

from dataclasses import dataclass

import numpy as np

from foamwright.aero.model import AeroResult
from foamwright.core.air import GRAVITY
from foamwright.flight.curves import (
    MIDDLE_OF_FLIGHT,
    Array,
    ThrustTable,
    level_drag,
    value_and_slope,
)
from foamwright.flight.model import Performance
from foamwright.power.model import PowerResult
from foamwright.power.operate import throttle_for_thrust
from foamwright.power.pack import rest_voltage
from foamwright.power.stick import stick_of

CRUISE = 1.4  # of stall speed: comfortable level flight; common practice, no source
USED_SHARE = 0.8  # of the pack's capacity, 20 % kept in reserve; common practice, no source
RADIO_CURRENT = 0.25  # A, receiver and a few small servos at work; common practice, no source


@dataclass(frozen=True, slots=True)
class Level:
    """Level flight at one speed.

    Attributes:
        speed: [m/s]
        drag: [N]
        duty: Duty ratio; above 1 when the power train cannot hold level flight. [-]
        thrust: At that duty or, where it cannot, at full throttle. [N]
        slope: Change of thrust with airspeed at that throttle. [N s/m]
        current: From the pack. [A]
        power: Electric. [W]
    """

    speed: float
    drag: float
    duty: float
    thrust: float
    slope: float
    current: float
    power: float


def level_duty(
    aero: AeroResult, power: PowerResult, mass: float, *, density: float
) -> tuple[float, float, float]:
    """Throttle that holds level flight at 1.4 times stall speed, half way through the pack.

    Args:
        aero: The plane's aerodynamics. [-]
        power: Static answers with the train. [-]
        mass: All-up. [kg]
        density: Air. [kg/m³]

    Returns:
        Speed [m/s], drag [N] and duty ratio, above 1 where the power train cannot [-].

    Source:
        Force balance along the path.

    Example:
        >>> speed, drag, duty = level_duty(aero, power, 0.5, density=1.225)
        >>> 8.0 < speed < 11.0, 0.3 < duty < 0.6
        (True, True)
    """
    speed = CRUISE * aero.stall_speed
    drag = float(level_drag(aero, mass, speed=np.array([speed]), density=density)[0])
    duty = throttle_for_thrust(
        power.train,
        np.array([speed]),
        np.array([drag]),
        density=density,
        depth_of_discharge=MIDDLE_OF_FLIGHT,
    )
    return speed, drag, float(duty[0])


def level_flight(
    power: PowerResult, table: ThrustTable, *, speed: float, drag: float, duty: float
) -> Level:
    """Thrust, its slope and current in level flight.

    Args:
        power: Static answers with the train. [-]
        table: Thrust over airspeed, with the cruise duty in it. [-]
        speed: [m/s]
        drag: [N]
        duty: Duty ratio; above 1 where the power train cannot. [-]

    Returns:
        Level flight.

    Source:
        foamwright.power.operate.

    Example:
        >>> level_flight(power, table, speed=8.3, drag=0.62, duty=0.47).current  # doctest: +SKIP
    """
    thrust, slope = value_and_slope(speed, table.speed, table.cruise)
    current = value_and_slope(speed, table.speed, table.cruise_current)[0]
    voltage = _voltage(power, current)
    return Level(speed, drag, duty, thrust, slope, current, voltage * current)


def performance_of(
    aero: AeroResult,
    power: PowerResult,
    mass: float,
    *,
    density: float,
    table: ThrustTable,
    level: Level,
) -> Performance:
    """Climb, top speed, glide and endurance from the thrust and drag curves.

    Climb: sin(path angle) = (thrust - drag)/weight, lift carrying the cosine of the weight.
    Top speed: where full thrust equals drag. Endurance: 80 % of the capacity at the level current.

    Args:
        aero: The plane's aerodynamics. [-]
        power: Static answers with the train. [-]
        mass: All-up. [kg]
        density: Air. [kg/m³]
        table: Thrust over airspeed. [-]
        level: Level flight at cruise. [-]

    Returns:
        Performance; what the power train cannot do is zero or None and said in notes.

    Valid:
        Steady flight in still air from stall speed upwards.

    Source:
        Force balance; [ANDERSON-PERFORMANCE] ch. 5.

    Example:
        >>> performance_of(aero, power, 0.5, density=1.225, table=table,
        ...     level=level).climb_rate  # doctest: +SKIP
    """
    weight = mass * GRAVITY
    speeds = np.concatenate(
        ([aero.stall_speed], table.speed[table.speed > 1.001 * aero.stall_speed])
    )
    full = np.interp(speeds, table.speed, table.full)
    drag = level_drag(aero, mass, speed=speeds, density=density)
    sine = _climb_sine(aero, mass, speeds=speeds, thrust=full, density=density)
    climb_speed, climb = _peak(speeds, speeds * sine)
    top, top_note = _top_speed(speeds, full - drag)
    glide_drag = drag - np.interp(speeds, table.speed, table.off)
    sink = -_peak(speeds, -speeds * glide_drag / weight)[1]
    endurance, notes = _endurance(power, level)
    fast = bool(np.interp(top, table.speed, table.extrapolated.astype(float)) > 0.5)
    if fast:
        notes.append("Near top speed the propeller's curves are extrapolated.")
    notes.extend(top_note)
    return Performance(
        level_speed=level.speed,
        level_throttle=stick_of(level.duty) if level.duty <= 1.0 else None,
        level_current=level.current,
        level_power=level.power,
        climb_rate=climb,
        climb_angle=float(np.arcsin(np.clip(np.max(sine), -1.0, 1.0))),
        climb_speed=climb_speed,
        top_speed=top,
        pitch_speed_ratio=power.pitch_speed / aero.stall_speed,
        sink_rate=sink,
        glide_ratio=float(weight / np.min(glide_drag)),
        endurance=endurance,
        thrust_weight=power.static_thrust / weight,
        speeds=tuple(speeds.tolist()),
        thrust=tuple(full.tolist()),
        drag=tuple(drag.tolist()),
        notes=tuple(notes),
    )


def _voltage(power: PowerResult, current: float) -> float:
    pack = power.train.pack
    rest = pack.cells * float(rest_voltage(MIDDLE_OF_FLIGHT))
    return rest - pack.resistance.typical * current


def _climb_sine(
    aero: AeroResult, mass: float, *, speeds: Array, thrust: Array, density: float
) -> Array:
    """Sine of the path angle; three rounds settle the lift that a steep path no longer needs."""
    weight = mass * GRAVITY
    cosine: Array = np.ones_like(speeds)
    sine: Array = np.zeros_like(speeds)
    for _ in range(3):
        drag = level_drag(aero, mass, speed=speeds, density=density, tilt=cosine)
        sine = np.clip((thrust - drag) / weight, -1.0, 1.0)
        cosine = np.sqrt(1.0 - sine**2)
    return sine


def _peak(x: Array, y: Array) -> tuple[float, float]:
    """Largest value and where, by a parabola through the largest sample and its neighbours."""
    index = int(np.argmax(y))
    if index in (0, len(x) - 1):
        return float(x[index]), float(y[index])
    near = slice(index - 1, index + 2)
    a, b, c = np.polyfit(x[near] - x[index], y[near], 2)
    shift = float(-b / (2.0 * a)) if a < 0.0 else 0.0
    return float(x[index]) + shift, float(c + b * shift + a * shift**2)


def _top_speed(speeds: Array, excess: Array) -> tuple[float, list[str]]:
    """Fastest crossing of thrust and drag."""
    enough = np.flatnonzero(excess >= 0.0)
    if enough.size == 0:
        return 0.0, ["Full throttle holds level flight at no speed."]
    last = int(enough[-1])
    if last == len(speeds) - 1:
        return float(speeds[-1]), ["Top speed lies beyond the speeds looked at."]
    share = excess[last] / (excess[last] - excess[last + 1])
    return float(speeds[last] + share * (speeds[last + 1] - speeds[last])), []


def _endurance(power: PowerResult, level: Level) -> tuple[float, list[str]]:
    if level.duty > 1.0:
        return 0.0, [f"Full throttle does not hold level flight at {level.speed:.1f} m/s."]
    drawn = level.current + RADIO_CURRENT
    return USED_SHARE * power.train.pack.capacity / drawn, []
