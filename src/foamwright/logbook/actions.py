"""What can be changed on a plane at the field or on the bench, in practical steps."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from foamwright.book.set_up import MOTOR_BOLTS, washer_thickness
from foamwright.core.units import format_value
from foamwright.logbook.basis import Basis

if TYPE_CHECKING:
    from foamwright.plane import Plane

type Array = NDArray[np.float64]

MOST_ANGLE = 5.0  # deg that washers or shims take; assumed
MOST_TIP = 0.04  # of the plane's mass, at a tip
STICK_POWER = 0.67  # stick over thrust near full power, as a power; assumed


@dataclass(frozen=True, slots=True)
class Action:
    """Something that can be changed.

    Attributes:
        name: Short stable name.
        parts: Hidden quantity -> change for one unit of amount. [-]
        amounts: Practical steps. [as the quantity]
        words: Amount -> what to do.
    """

    name: str
    parts: dict[str, float]
    amounts: Array
    words: Callable[[float], str]


def actions_of(plane: Plane, basis: Basis) -> tuple[Action, ...]:
    """What can be changed at the field or on the bench, in practical steps.

    Args:
        plane: The plane. [-]
        basis: Its figures. [-]

    Returns:
        Actions; the pack moves only as far as its tray lets it.

    Source:
        Common practice, no source.

    Example:
        >>> from foamwright.logbook.basis import basis_of
        >>> [action.name for action in actions_of(plane, basis_of(plane))][0]
        'pack'
    """
    degree = np.radians(1.0)
    share = plane.train.pack.mass.typical / basis.mass
    moves = np.arange(-150.0, 150.5, 5.0) * 1e-3
    here = plane.design.pack.position
    inside = (here + moves >= plane.balance.pack_front) & (here + moves <= plane.balance.pack_back)
    angles = np.arange(-MOST_ANGLE, MOST_ANGLE + 0.1, 0.5) * degree
    grams = np.arange(1.0, max(MOST_TIP * 1e3 * basis.mass, 6.0)) * 1e-3
    return (
        Action("pack", {"cg_aft": share}, moves[inside], lambda a: _pack_words(plane, a, share)),
        Action("right_thrust", {"right_thrust": 1.0}, angles,
               lambda a: _washer_words(a, ("right", "left"))),
        Action("down_thrust", {"down_thrust": 1.0}, angles,
               lambda a: _washer_words(a, ("down", "up"))),
        Action("untwist", {"twist_right": 0.5, "twist_left": -0.5}, 1.5 * angles, _twist_words),
        Action("tip_mass", {"tip_mass": 1.0}, np.concatenate([-grams, grams]),
               lambda a: _tip_words(plane, a)),
        Action("stab_incidence", {"stab_incidence": 1.0}, angles,
               lambda a: f"shim the stab's {'leading' if a > 0 else 'trailing'} edge up by "
                         f"{abs(np.degrees(a)):.1f} deg"),
        Action("throttle", {"thrust": 1.0}, np.arange(-0.4, -0.05, 0.1), _throttle_words),
        Action("throw", {"throw_speed": 1.0}, np.arange(0.5, 3.1, 0.5),
               lambda a: "throw with "
                         f"{format_value(a, 'speed', plane.design.units)} more: a few running "
                         "steps, or wait for that much wind on the nose"),
    )  # fmt: skip


def _pack_words(plane: Plane, amount: float, share: float) -> str:
    units = plane.design.units
    way = "aft" if amount > 0 else "forward"
    return (
        f"move the pack {format_value(abs(amount), 'length', units)} {way}: the CG goes "
        f"{format_value(abs(amount) * share, 'length', units)} {way}"
    )


def _tip_words(plane: Plane, amount: float) -> str:
    light, heavy = ("right", "left") if amount > 0 else ("left", "right")
    return (
        f"hang it up by nose and tail; if the {heavy} wing sinks, add at the {light} tip until it "
        f"hangs level, about {format_value(abs(amount), 'mass', plane.design.units)}"
    )


def _washer_words(amount: float, ways: tuple[str, str]) -> str:
    way = ways[0] if amount > 0 else ways[1]
    under = {"right": "left", "left": "right", "down": "upper", "up": "lower"}[way]
    thick = 1000.0 * washer_thickness(MOTOR_BOLTS, amount)
    return (
        f"turn the motor {abs(np.degrees(amount)):.1f} deg {way}: washers of {thick:.1f} mm under "
        f"its {under} bolts ({1000 * MOTOR_BOLTS:.0f} mm apart)"
    )


def _throttle_words(amount: float) -> str:
    return (
        f"set the throttle's end point to {100 * (1.0 + amount) ** STICK_POWER:.0f} %: about "
        f"{-100 * amount:.0f} % less thrust at full stick"
    )


def _twist_words(amount: float) -> str:
    way, other = ("nose up", "nose down") if amount > 0 else ("nose down", "nose up")
    half = abs(np.degrees(amount)) / 2.0
    return (
        f"twist the right tip {half:.1f} deg {way} and the left tip {half:.1f} deg {other}: bend, "
        "warm gently or re-glue, and measure both again"
    )
