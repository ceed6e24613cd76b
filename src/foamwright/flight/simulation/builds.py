"""What differs from build to build: mass, inertia, thrust line, incidences, neutral places."""

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from foamwright.aero.lattice import LatticeSolution
from foamwright.aero.model import AeroResult
from foamwright.aero.sections import SectionPolars
from foamwright.balance.model import Balance
from foamwright.core.air import Air
from foamwright.flight.simulation.craft import Builds
from foamwright.flight.simulation.flaws import Flaws
from foamwright.flight.simulation.strips import StripSet
from foamwright.power.model import PowerResult
from foamwright.shape.model import Airframe

type Array = NDArray[np.float64]

SERVO_RATE = 11.0  # full stick a second: 60 deg in 0.10 to 0.12 s, arm 45 deg at full stick; labels


@dataclass(frozen=True, slots=True)
class Rooms:
    """The results that a craft is made of.

    Attributes:
        airframe: The shape.
        lattice: Its unit solutions.
        polars: Its sections.
        aero: Its aerodynamics.
        power: Its power train.
        balance: Its mass.
        air: At the field.
        name: Of the plane.
    """

    airframe: Airframe
    lattice: LatticeSolution
    polars: SectionPolars
    aero: AeroResult
    power: PowerResult
    balance: Balance
    air: Air
    name: str


def body_axes(points: Array, cg: tuple[float, float, float]) -> Array:
    """Design axes to body axes about the design's CG.

    Args:
        points: x aft, y right, z up. [m]
        cg: Of the design. [m]

    Returns:
        x forward, y right, z down. [m]

    Source:
        Definition.

    Example:
        >>> body_axes(np.array([0.0, 0.1, 0.2]), (0.3, 0.0, 0.0)).tolist()
        [0.3, 0.1, -0.2]
    """
    return (np.asarray(points, dtype=float) - np.array(cg)) * np.array([-1.0, 1.0, -1.0])


def builds_from(rooms: Rooms, cut: StripSet, flaws: Flaws, trim: float) -> Builds:
    """Mass, thrust line, incidences and the like of builds with flaws.

    Args:
        rooms: The design's results. [-]
        cut: Its strips. [-]
        flaws: Of n builds, spread. [-]
        trim: Elevator with the stick centred, down positive. [rad]

    Returns:
        What differs from build to build.

    Source:
        Rigid bodies put together, any text.

    Example:
        >>> builds_from(rooms, cut, Flaws().spread(), 0.0).mass  # doctest: +SKIP
    """
    mass, inertia, centre = _masses(rooms, flaws)
    axis = np.array(rooms.airframe.thrust_axis) * np.array([-1.0, 1.0, -1.0])
    down = math.atan2(axis[2], axis[0]) + np.asarray(flaws.thrust_down_error)
    right = math.asin(axis[1]) + np.asarray(flaws.thrust_right_error)
    wing, stab, fin = (cut.surface == k for k in range(3))
    left, starboard = wing & (cut.side < 0), wing & (cut.side > 0)

    def per(values: object, where: NDArray[np.bool_] | Array) -> Array:
        return np.asarray(values, dtype=float)[:, None] * np.asarray(where, dtype=float)

    incidence = per(flaws.left_twist, left * cut.place)
    incidence += per(flaws.right_twist, starboard * cut.place)
    incidence += per(flaws.incidence_error, wing)
    incidence += per(flaws.stab_incidence_error, stab)
    incidence -= per(flaws.fin_error, fin)
    neutral = np.stack([
        np.asarray(flaws.aileron_neutral),
        trim + np.asarray(flaws.elevator_neutral),
        np.asarray(flaws.rudder_neutral),
    ], axis=1)  # fmt: skip
    return Builds(
        mass=mass,
        inertia=inertia,
        inverse=np.asarray(np.linalg.inv(inertia), dtype=np.float64),
        reference=-centre,
        axis=_direction(down, right),
        incidence=incidence,
        neutral=neutral,
        drag_factor=np.asarray(flaws.drag_factor),
        lift_stretch=np.asarray(flaws.lift_max_factor),
        motor_factor=np.asarray(flaws.motor_factor),
        pack_factor=np.asarray(flaws.pack_resistance_factor),
        slop=np.asarray(flaws.slop),
        servo_rate=SERVO_RATE * np.asarray(flaws.servo_factor),
    )


def _direction(down: Array, right: Array) -> Array:
    return np.stack(
        [np.cos(down) * np.cos(right), np.sin(right), np.sin(down) * np.cos(right)], axis=1
    )


def _masses(rooms: Rooms, flaws: Flaws) -> tuple[Array, Array, Array]:
    """Mass, inertia about the CG, and the CG seen from the design's CG, body axes."""
    balance, tip = rooms.balance, rooms.airframe.wing.panels[-1]
    roll, pitch, yaw = balance.inertia
    base = np.diag([roll, pitch, yaw])
    base[0, 2] = base[2, 0] = -balance.inertia_xz
    own = balance.all_up_mass * np.asarray(flaws.mass_factor, dtype=float)
    start = np.zeros((len(own), 3))
    start[:, 0] = -np.asarray(flaws.cg_shift_aft)
    start[:, 1] = np.asarray(flaws.cg_shift_right)
    at = (tip.tip[0] + 0.5 * tip.tip_chord, tip.tip[1], tip.tip[2])
    right = body_axes(np.array(at), balance.cg)
    left = body_axes(np.array(at) * np.array([1.0, -1.0, 1.0]), balance.cg)
    lumps = [
        (own, start),
        (np.asarray(flaws.left_tip_mass, dtype=float), np.broadcast_to(left, start.shape)),
        (np.asarray(flaws.right_tip_mass, dtype=float), np.broadcast_to(right, start.shape)),
    ]
    total = sum((m for m, _ in lumps), np.zeros(len(own)))
    centre = sum((m[:, None] * r for m, r in lumps), np.zeros_like(start)) / total[:, None]
    inertia = base * np.asarray(flaws.mass_factor)[:, None, None]
    for mass, place in lumps:
        away = place - centre
        square = (away * away).sum(axis=1)
        inertia = inertia + mass[:, None, None] * (
            square[:, None, None] * np.eye(3) - away[:, :, None] * away[:, None, :]
        )
    return total, inertia, centre
