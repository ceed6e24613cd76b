"""How warm motor, controller and pack get, and how long a current may be held.

Each is one lump: heat capacity from its mass, cooling such that the continuous limit on its label
just reaches its limit temperature. So the answer is no better than the label, and in a closed nose
without an air outlet it is too kind.
"""

import math
from collections.abc import Callable
from dataclasses import dataclass

from foamwright.core.errors import ModelError
from foamwright.core.units import format_value
from foamwright.power.model import PowerTrain

LIMITS = {"motor": 373.15, "controller": 373.15, "pack": 333.15}  # K; 100, 100, 60 °C, practice
HEAT = {"motor": 500.0, "controller": 800.0, "pack": 1000.0}  # J/(kg K), handbook metals
LABEL_AIR = 298.15  # K, air for which continuous limits are meant; assumed
CONTROLLER_MASS = 0.001  # kg/A, 1 g an ampere; common practice, from memory
BACKGROUND = 0.02  # of the rating, controller's own switching loss as W per A; assumed


@dataclass(frozen=True, slots=True)
class Heat:
    """One part at a steady current.

    Attributes:
        part: "motor", "controller" or "pack".
        current: [A]
        current_limit: Continuous, from the label or stock. [A]
        loss: Turned into heat. [W]
        steady_temperature: Where it would end. [K]
        limit_temperature: Where harm begins. [K]
        time_to_limit: From the air's temperature; None when it never gets there. [s]
    """

    part: str
    current: float
    current_limit: float
    loss: float
    steady_temperature: float
    limit_temperature: float
    time_to_limit: float | None


def heat_at(
    train: PowerTrain, current: float, *, air_temperature: float = 298.15
) -> tuple[Heat, Heat, Heat]:
    """Motor, controller and pack held at a current.

    T = Ta + P/h (1 - exp(-t h/(m c))), h = P(limit current)/(limit temperature - 25 °C).

    Args:
        train: The power train.
        current: Held, full throttle. [A]
        air_temperature: Around the parts, in the fuselage. [K]

    Returns:
        Heat of motor, controller and pack.

    Valid:
        Cooling as good as where the label was earned: open motor, some air through the fuselage.

    Raises:
        ModelError: Current below zero, or air hotter than the parts may be.

    Source:
        One lump and Newton's law of cooling; capacities handbook, limits common practice.

    Example:
        >>> heat_at(train, 12.0)[0].part
        'motor'
    """
    if not (math.isfinite(current) and current >= 0.0):
        raise ModelError(f"Current is {current:g} A; it must be zero or more.")
    motor, pack = train.motor, train.pack

    def motor_loss(amps: float) -> float:
        idle = motor.no_load_current.typical
        volts = pack.cells * 3.7
        return amps**2 * motor.resistance.typical + min(idle, amps) * volts

    def controller_loss(amps: float) -> float:
        return amps**2 * train.controller_resistance + BACKGROUND * amps

    def pack_loss(amps: float) -> float:
        return amps**2 * pack.resistance.typical

    return (
        _lump("motor", current, motor.max_current.typical, loss_of=motor_loss,
              mass=motor.mass.typical, air=air_temperature),
        _lump("controller", current, train.controller_current, loss_of=controller_loss,
              mass=CONTROLLER_MASS * train.controller_current, air=air_temperature),
        _lump("pack", current, pack.max_current.typical, loss_of=pack_loss,
              mass=pack.mass.typical, air=air_temperature),
    )  # fmt: skip


def _lump(
    part: str,
    current: float,
    limit: float,
    *,
    loss_of: Callable[[float], float],
    mass: float,
    air: float,
) -> Heat:
    hottest = LIMITS[part]
    if air >= hottest:
        raise ModelError(
            f"The air is {air - 273.15:.0f} °C; the {part} may be at most "
            f"{hottest - 273.15:.0f} °C."
        )
    loss = loss_of(current)
    cooling = loss_of(limit) / (hottest - LABEL_AIR)
    rise = loss / cooling
    room = hottest - air
    time = None
    if rise > room:
        time = -mass * HEAT[part] / cooling * math.log(1.0 - room / rise)
    return Heat(part, current, limit, loss, air + rise, hottest, time)


def heat_words(heat: Heat, *, units: str = "metric") -> str:
    """One part's heat in a sentence.

    Args:
        heat: Of one part. [-]
        units: "metric" or "inch". [-]

    Returns:
        Words. [-]

    Source:
        Definition.

    Example:
        >>> heat_words(Heat("motor", 20.0, 16.0, 60.0, 400.0, 373.15, 95.0))
        'motor: 20 A against 16 A, 60 W of heat, reaches 100 °C in about 1.6 min'
    """
    start = (
        f"{heat.part}: {heat.current:.0f} A against {heat.current_limit:.0f} A, "
        f"{heat.loss:.0f} W of heat"
    )

    def warm(temperature: float) -> str:
        number, unit = format_value(temperature, "temperature", units).split(" ")
        return f"{float(number):.0f} {unit}"

    if heat.time_to_limit is None:
        return f"{start}, settles near {warm(heat.steady_temperature)}"
    minutes = heat.time_to_limit / 60.0
    return f"{start}, reaches {warm(heat.limit_temperature)} in about {minutes:.1f} min"
