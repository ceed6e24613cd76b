"""What nobody knows of a plane before it flies, and how far it is usually off."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

if TYPE_CHECKING:
    from foamwright.core.bands import Band
    from foamwright.plane import Plane

type Array = NDArray[np.float64]

ONE_IN_TEN = 1.2816  # standard deviations from the middle to the end of a band
# How far careful builds are off, one standard deviation; common practice, no source.
TWIST = math.radians(0.8)  # of one tip against the root
THRUST_ANGLE = math.radians(0.8)  # of the motor against what was drawn
INCIDENCE = math.radians(0.5)  # of wing or stab against the fuselage line
TIP = 0.0025  # kg at one tip that would balance the halves: glue, paint, servo leads
CG_SLIP = 0.003  # m, pack strapped a little off its mark
THROW = 0.7  # m/s, one builder's throw against the usual one
# How far the model itself is off, one standard deviation; from the rooms that say it.
POWER_MODEL = math.radians(0.5)  # least of thrust angles wanted: as well as any is flown; assumed
UNKNOWN_MODEL = math.radians(2.0)  # where the plane has no power trim to tell; assumed


@dataclass(frozen=True, slots=True)
class Quantity:
    """One thing that is not known.

    Attributes:
        name: Short stable name.
        title: In trade words, what a positive value means.
        dimension: "angle", "length", "mass", "speed" or "share" (a factor less 1).
        spread: One standard deviation before anything is seen. [as dimension]
        model: Whether it is the model's error rather than the builder's.
    """

    name: str
    title: str
    dimension: str
    spread: float
    model: bool = False


NAMES = (
    "drag",
    "mass",
    "cg_aft",
    "neutral_point",
    "tip_mass",
    "twist_right",
    "twist_left",
    "down_thrust",
    "right_thrust",
    "wing_incidence",
    "stab_incidence",
    "thrust",
    "current",
    "throw_speed",
    "lift_max",
    "yaw_model",
    "pitch_model",
    "trim_model",
)
COLUMN = {name: place for place, name in enumerate(NAMES)}


def _relative(band: Band, least: float) -> float:
    """Standard deviation of the logarithm of a band."""
    if not band.low > 0.0:
        return least
    return max(math.log(band.high / band.low) / (2.0 * ONE_IN_TEN), least)


def quantities_of(plane: Plane) -> tuple[Quantity, ...]:
    """Everything that is not known of a plane, with the spread that its design and stock give.

    Args:
        plane: The plane, bench readings taken in. [-]

    Returns:
        One a name, in the order of NAMES.

    Source:
        Bands of the parts list, of stock and of the aerodynamics; building errors common practice.

    Example:
        >>> [q.name for q in quantities_of(plane)][:3]
        ['drag', 'mass', 'cg_aft']
    """
    aero, balance, train = plane.aero, plane.balance, plane.train
    band = balance.cg_x_band
    cg = math.hypot((band.high - band.low) / (2.0 * ONE_IN_TEN), CG_SLIP)
    push = math.hypot(train.propeller.thrust_spread, _relative(train.motor.kv, 0.0))
    power = math.hypot(train.propeller.power_spread, _relative(train.motor.resistance, 0.0) / 3.0)
    known = plane.design.pilot.throw_speed is not None
    yaw_model, pitch_model = _power_models(plane)
    rows = {
        "drag": ("drag above what was computed", "share", _share(aero, "drag_zero"), False),
        "mass": ("heavier than computed", "share", _relative(balance.mass_band, 0.005), False),
        "cg_aft": ("CG aft of where it was computed", "length", cg, False),
        "neutral_point": ("neutral point aft of where it was computed", "length",
                          aero.uncertainty["neutral_point_x"], True),
        "tip_mass": ("right tip heavier than the left", "mass", TIP, False),
        "twist_right": ("right panel twisted, tip nose up", "angle", TWIST, False),
        "twist_left": ("left panel twisted, tip nose up", "angle", TWIST, False),
        "down_thrust": ("more down thrust than drawn", "angle", THRUST_ANGLE, False),
        "right_thrust": ("more right thrust than drawn", "angle", THRUST_ANGLE, False),
        "wing_incidence": ("wing set nose up of what was drawn", "angle", INCIDENCE, False),
        "stab_incidence": ("stab set leading edge up of what was drawn", "angle", INCIDENCE, False),
        "thrust": ("thrust above what was computed", "share", push, False),
        "current": ("current above what was computed", "share", min(power, 0.2), False),
        "throw_speed": ("throw faster than assumed", "speed", 0.5 * THROW if known else THROW,
                        False),
        "lift_max": ("largest lift above what was computed", "share",
                     _share(aero, "lift_max"), True),
        "yaw_model": ("right thrust wanted less than computed", "angle", yaw_model, True),
        "pitch_model": ("down thrust wanted less than computed", "angle", pitch_model, True),
        "trim_model": ("elevator for level flight lower than computed", "angle",
                       aero.uncertainty["trim_elevator"], True),
    }  # fmt: skip
    return tuple(Quantity(name, *rows[name]) for name in NAMES)


def _power_models(plane: Plane) -> tuple[float, float]:
    """Spreads of the right and down thrust that power wants, as the room of flight tells them."""
    trim = plane.flight.power_trim
    if trim is None:
        return UNKNOWN_MODEL, UNKNOWN_MODEL
    return max(trim.right_spread, POWER_MODEL), max(trim.down_spread, POWER_MODEL)


def _share(aero: object, name: str) -> float:
    return float(aero.uncertainty[name] / getattr(aero, name))  # pyright: ignore[reportAttributeAccessIssue]


def spreads_of(quantities: tuple[Quantity, ...]) -> Array:
    """Their spreads as an array.

    Args:
        quantities: In the order of NAMES. [-]

    Returns:
        One a quantity. [as each]

    Source:
        Definition.

    Example:
        >>> spreads_of(quantities_of(plane)).shape
        (18,)
    """
    return np.array([quantity.spread for quantity in quantities])
