"""What foresight starts from: one plane's figures as plain numbers and tables."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from foamwright.flight.curves import MIDDLE_OF_FLIGHT, ThrustTable, thrust_table
from foamwright.flight.launch import usual_throw_speed
from foamwright.flight.performance import level_duty
from foamwright.logbook.hidden import quantities_of, spreads_of
from foamwright.logbook.linear import Responses
from foamwright.logbook.responses import responses_of
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
        responses: Of the flight simulation to small faults.
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
    responses: Responses
    level_speed: float
    level_current: float
    current_growth: float
    level_stick: float
    stick_growth: float
    glide_ratio: float
    throw_speed: float
    throw_height: float
    capacity: float


@lru_cache(maxsize=4)
def basis_of(plane: Plane) -> Basis:
    """The figures that foresight needs of a plane, kept for the planes asked for last.

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
    mass = balance.all_up_mass
    speed, drag, duty = level_duty(aero, power, mass, density=density)
    table = thrust_table(power, aero.stall_speed, cruise_duty=min(duty, 1.0), density=density)
    sticks, growth = _growth(plane, duty, speed=speed, pull=drag)
    thrown = plane.design.pilot.throw_speed or usual_throw_speed(mass)
    return Basis(
        aero=aero,
        table=table,
        mass=mass,
        density=density,
        cg_x=balance.cg[0],
        responses=responses_of(plane, spreads_of(quantities_of(plane)), throw_speed=thrown),
        level_speed=speed,
        level_current=plane.flight.performance.level_current,
        current_growth=growth,
        level_stick=sticks[0],
        stick_growth=(sticks[1] - sticks[0]) / (MORE_PULL - 1.0),
        glide_ratio=plane.flight.performance.glide_ratio,
        throw_speed=thrown,
        throw_height=plane.design.pilot.throw_height,
        capacity=plane.design.pack.capacity,
    )


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
