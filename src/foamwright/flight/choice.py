"""Which propeller, pack or motor suits this plane: each tried on it, ranked, faults said."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Literal

import numpy as np

from foamwright.aero.model import AeroResult
from foamwright.core.air import GRAVITY
from foamwright.core.bands import Band
from foamwright.core.units import format_value
from foamwright.flight.curves import Array, level_drag
from foamwright.power.analyse import band_of_varied
from foamwright.power.many import circuits_of, full_throttle_of_many, static_of_many
from foamwright.power.model import PowerTrain
from foamwright.power.operate import duty_for, map_of
from foamwright.power.stick import stick_of

type Aim = Literal["balance", "launch", "climb", "endurance", "amps"]

CRUISE = 1.4  # of stall speed; common practice, no source
RADIO_CURRENT = 0.25  # A; common practice, no source
USED = 0.8  # of the capacity; common practice, no source
MIDDLE = 0.4  # share drawn half way through the flight
CONTROLLER_SHARE = 0.8  # of the rating on the label; common practice, no source
HAND_LAUNCH = 0.6  # thrust over weight; common practice, no source
ROLLING = 0.35  # same, with an undercarriage; common practice, no source
CLIMB = 1.5  # m/s; assumed, clears a 10 m tree in 60 m from a start at 9 m/s
PITCH_SPEED = (2.0, 4.5)  # over stall speed; common practice, no source
STICK = 0.65  # in level flight; common practice, no source
FULL_MARKS = {"launch": 1.5, "climb": 8.0, "endurance": 2400.0, "amps": 0.6}
# thrust over weight, m/s, s, free share of the limit: more than this earns nothing; assumed
SPEEDS = np.linspace(1.0, 4.0, 16)  # over stall speed


@dataclass(frozen=True, slots=True)
class Option:
    """One thing to try.

    Attributes:
        name: As stock names it.
        train: The power train with it in.
        mass: All-up mass with it in. [kg]
        place: Where the pack's middle must sit to keep the CG; None when it stays. [m]
        tray: Foremost and rearmost such place; None when any will do. [m]
    """

    name: str
    train: PowerTrain
    mass: float
    place: float | None = None
    tray: tuple[float, float] | None = None


@dataclass(frozen=True, slots=True)
class Ranked:
    """One option tried on the plane.

    Attributes:
        name: As stock names it.
        mass: All-up. [kg]
        place: Where the pack's middle must sit to keep the CG; None when it stays. [m]
        static_thrust: Full throttle, full pack. [N]
        thrust_weight: The same over the weight. [-]
        current: Full throttle at rest, full pack. [A]
        current_band: [A]
        current_limit: Least of motor, controller share and pack. [A]
        climb_rate: Best, half way through the pack. [m/s]
        top_speed: Level. [m/s]
        pitch_speed_ratio: Pitch speed over stall speed. [-]
        level_stick: At 1.4 times stall speed; None when it cannot hold level. [-]
        level_current: There, radio in; 0 when it cannot. [A]
        endurance: There, 80 % of the capacity; 0 when it cannot. [s]
        score: 0 to 1, geometric mean of what the aims earn. [-]
        faults: Why it falls out, in words; empty when it does not.
        extrapolated: Whether the propeller lies outside the measured set.
    """

    name: str
    mass: float
    place: float | None
    static_thrust: float
    thrust_weight: float
    current: float
    current_band: Band
    current_limit: float
    climb_rate: float
    top_speed: float
    pitch_speed_ratio: float
    level_stick: float | None
    level_current: float
    endurance: float
    score: float
    faults: tuple[str, ...]
    extrapolated: bool


def rank_options(
    options: Sequence[Option],
    aero: AeroResult,
    *,
    mass: float,
    density: float,
    wheels: bool = False,
    aim: Aim = "balance",
    units: str = "metric",
) -> tuple[Ranked, ...]:
    """Try every option on the plane and rank them: those without a fault first.

    Args:
        options: What to try. [-]
        aero: The plane's aerodynamics, at the mass given. [-]
        mass: All-up mass that the aerodynamics were made for. [kg]
        density: Air. [kg/m³]
        wheels: Whether it rolls off instead of being thrown. [-]
        aim: What to rank by. [-]
        units: "metric" or "inch", how faults speak. [-]

    Returns:
        Best first.

    Valid:
        Drag polar of the plane as it is: another pack or motor changes its mass, not its shape.

    Source:
        Force balance; limits common practice, no source.

    Example:
        >>> rank_options(options, aero, mass=0.6, density=1.2)[0].name  # doctest: +SKIP
        'slow flight 9x4.7'
    """
    if not options:
        return ()
    trains = [option.train for option in options]
    masses = np.array([option.mass for option in options])
    stall = aero.stall_speed * np.sqrt(masses / mass)
    static = static_of_many(trains, density)
    speeds = stall[:, np.newaxis] * SPEEDS
    climb, top = _climbs(aero, trains, masses, speeds=speeds, density=density)
    duty, current = _levels(aero, trains, masses, speed=CRUISE * stall, density=density)
    rows = [
        _ranked(
            option,
            static.thrust[i],
            static.current[i],
            speed=float(static.speed[i, 0]),
            flying=(float(climb[i]), float(top[i]), float(duty[i]), float(current[i])),
            stall=float(stall[i]),
            wheels=wheels,
            units=units,
        )
        for i, option in enumerate(options)
    ]
    return tuple(sorted(rows, key=lambda row: (len(row.faults) > 0, -_worth(row, aim))))


def _climbs(
    aero: AeroResult,
    trains: Sequence[PowerTrain],
    masses: Array,
    *,
    speeds: Array,
    density: float,
) -> tuple[Array, Array]:
    """Best climb rate and top level speed of every train."""
    full = full_throttle_of_many(trains, speeds, density=density, depth_of_discharge=MIDDLE)
    weight = masses[:, np.newaxis] * GRAVITY
    cosine: Array = np.ones_like(speeds)
    sine: Array = np.zeros_like(speeds)
    for _ in range(3):
        drag = _drag(aero, masses, speeds=speeds, density=density, tilt=cosine)
        sine = np.clip((full.thrust - drag) / weight, -1.0, 1.0)
        cosine = np.sqrt(1.0 - sine**2)
    spare = full.thrust - _drag(aero, masses, speeds=speeds, density=density)
    top = np.array([_last_crossing(v, s) for v, s in zip(speeds, spare, strict=True)])
    return np.max(speeds * sine, axis=1), top


def _drag(
    aero: AeroResult, masses: Array, *, speeds: Array, density: float, tilt: Array | float = 1.0
) -> Array:
    share = masses[:, np.newaxis] * tilt  # level_drag takes one mass; the rest goes in as tilt
    return level_drag(aero, 1.0, speed=speeds, density=density, tilt=share)


def _last_crossing(speeds: Array, spare: Array) -> float:
    above = np.flatnonzero(spare > 0.0)
    if above.size == 0:
        return 0.0
    i = int(above[-1])
    if i == len(speeds) - 1:
        return float(speeds[i])
    share = spare[i] / (spare[i] - spare[i + 1])
    return float(speeds[i] + share * (speeds[i + 1] - speeds[i]))


def _levels(
    aero: AeroResult,
    trains: Sequence[PowerTrain],
    masses: Array,
    *,
    speed: Array,
    density: float,
) -> tuple[Array, Array]:
    """Duty and pack current of level flight of every train."""
    circuit = circuits_of(trains, density, depth_of_discharge=MIDDLE)
    column = speed[:, np.newaxis]
    drag = _drag(aero, masses, speeds=column, density=density)
    duty = duty_for(circuit, column, drag)
    grid = map_of(circuit, column, np.minimum(duty, 1.0), trusted=True)
    return duty[:, 0], grid.current[:, 0]


def _ranked(
    option: Option,
    thrusts: Array,
    currents: Array,
    *,
    speed: float,
    flying: tuple[float, float, float, float],
    stall: float,
    wheels: bool,
    units: str,
) -> Ranked:
    train = option.train
    climb, top, duty, current = flying
    holds = duty <= 1.0
    thrust = band_of_varied(thrusts)
    amps = band_of_varied(currents)
    total = current + RADIO_CURRENT
    row = Ranked(
        name=option.name,
        mass=option.mass,
        place=option.place,
        static_thrust=thrust.typical,
        thrust_weight=thrust.typical / (option.mass * GRAVITY),
        current=amps.typical,
        current_band=amps,
        current_limit=min(limit for limit, _ in _limits(train)),
        climb_rate=climb,
        top_speed=top,
        pitch_speed_ratio=train.propeller.pitch * speed / (2.0 * np.pi) / stall,
        level_stick=stick_of(duty) if holds else None,
        level_current=total if holds else 0.0,
        endurance=USED * train.pack.capacity / total if holds else 0.0,
        score=0.0,
        faults=(),
        extrapolated=not train.propeller.in_fit_range,
    )
    return replace(row, score=_score(row), faults=_faults(row, option, wheels=wheels, units=units))


def _limits(train: PowerTrain) -> tuple[tuple[float, str], ...]:
    return (
        (train.motor.max_current.typical, "the motor stands"),
        (
            CONTROLLER_SHARE * train.controller_current,
            f"four fifths of the controller's {train.controller_current:.0f} A are",
        ),
        (train.pack.max_current.typical, "the pack gives"),
    )


def _faults(row: Ranked, option: Option, *, wheels: bool, units: str) -> tuple[str, ...]:
    over = [
        f"{words} {limit:.1f} A" for limit, words in _limits(option.train) if row.current > limit
    ]
    faults = [f"draws {row.current:.1f} A where {', '.join(over)}"] if over else []
    need = ROLLING if wheels else HAND_LAUNCH
    if row.thrust_weight < need:
        faults.append(
            f"thrust is {row.thrust_weight:.2f} of the weight; the start wants {need:.2f}"
        )
    if row.level_stick is None:
        faults.append("does not hold level flight half way through the pack")
    elif row.level_stick > STICK:
        faults.append(
            f"level flight takes {100 * row.level_stick:.0f} % of the stick, more than "
            f"{100 * STICK:.0f} %"
        )
    if row.climb_rate < CLIMB:
        rate, clear = (format_value(each, "speed", units) for each in (row.climb_rate, CLIMB))
        faults.append(f"climbs {rate}; {clear} clears the trees")
    low, high = PITCH_SPEED
    if not low <= row.pitch_speed_ratio <= high:
        faults.append(
            f"pitch speed is {row.pitch_speed_ratio:.1f} times the stall speed; "
            f"{low:.1f} to {high:.1f} works"
        )
    if option.tray is not None and option.place is not None:
        front, back = option.tray
        if not front <= option.place <= back:
            side = "ahead of" if option.place < front else "behind"
            off = front - option.place if option.place < front else option.place - back
            off_words = format_value(off, "length", units)
            faults.append(f"balances only {off_words} {side} where the tray reaches")
    return tuple(faults)


def _earned(row: Ranked) -> dict[str, float]:
    got = {
        "launch": row.thrust_weight,
        "climb": row.climb_rate,
        "endurance": row.endurance,
        "amps": 1.0 - row.current / row.current_limit,
    }
    return {name: float(np.clip(got[name] / full, 0.01, 1.0)) for name, full in FULL_MARKS.items()}


def _score(row: Ranked) -> float:
    return float(np.prod(list(_earned(row).values())) ** 0.25)


def _worth(row: Ranked, aim: Aim) -> float:
    worth = {
        "balance": row.score,
        "launch": row.thrust_weight,
        "climb": row.climb_rate,
        "endurance": row.endurance,
        "amps": -row.current,
    }
    return worth[aim]


def place_of_pack(cg: float, *, pack_mass: float, pack_place: float, new_mass: float) -> float:
    """Where another pack must sit so that the CG stays.

    x = cg + (m_old / m_new) (x_old - cg).

    Args:
        cg: Aft of the nose. [m]
        pack_mass: Old pack. [kg]
        pack_place: Its middle, aft of the nose. [m]
        new_mass: New pack. [kg]

    Returns:
        Middle of the new pack, aft of the nose. [m]

    Source:
        Moments about the CG.

    Example:
        >>> round(place_of_pack(0.25, pack_mass=0.1, pack_place=0.05, new_mass=0.2), 3)
        0.15
    """
    return cg + pack_mass / new_mass * (pack_place - cg)
