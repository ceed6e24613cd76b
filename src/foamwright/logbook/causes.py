"""Single faults that may stand behind what was seen, each a guess that one thing is far off."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from foamwright.logbook.hidden import COLUMN, NAMES

if TYPE_CHECKING:
    from foamwright.logbook.basis import Basis

type Array = NDArray[np.float64]

# How far off a single fault is as builders meet it, one standard deviation; assumed.
TWIST, THRUST_ANGLE, INCIDENCE = np.radians(1.25), np.radians(4.0), np.radians(1.3)
TIP_SHARE, CG_SHARE = 0.03, 0.09  # of the mass at a tip; of the chord
SHARES = {"drag": 0.5, "mass": 0.2, "thrust": 0.25, "current": 0.3}
LEAST_SHARE = -0.6  # of drag, mass, thrust and current: less was never built; assumed
THROW = 1.5  # m/s
CAREFUL = 0.4  # of its usual spread that everything else is off where one thing is; assumed
MODELS = ("neutral_point", "lift_max", "yaw_model", "pitch_model", "trim_model")
SHARE_COLUMNS = [COLUMN[name] for name in SHARES]
NO_FAULT = 0.4  # of planes have nothing that goes beyond careful building; assumed


@dataclass(frozen=True, slots=True)
class Cause:
    """One fault.

    Attributes:
        name: Short stable name.
        title: In trade words.
        wide: Quantities that it puts far off.
        names: Words for a positive and a negative amount of the first of them.
    """

    name: str
    title: str
    wide: tuple[str, ...]
    names: tuple[str, str]


CAUSES: tuple[Cause, ...] = (
    Cause("none", "careful building alone", (), ("", "")),
    Cause("twist", "panels twisted unequally", ("twist_right", "twist_left"),
          ("right panel twisted nose up of the left", "left panel twisted nose up of the right")),
    Cause("tip_mass", "one wing heavier", ("tip_mass",),
          ("right wing heavy", "left wing heavy")),
    Cause("right_thrust", "thrust line, sideways", ("right_thrust",),
          ("too much right thrust", "too little right thrust")),
    Cause("down_thrust", "thrust line, up and down", ("down_thrust",),
          ("too much down thrust", "too little down thrust")),
    Cause("cg", "CG", ("cg_aft",), ("CG too far aft", "CG too far forward")),
    Cause("incidence", "wing against stab", ("wing_incidence", "stab_incidence"),
          ("wing nose up against the stab", "wing nose down against the stab")),
    Cause("drag", "drag", ("drag",), ("more drag than computed", "less drag than computed")),
    Cause("mass", "mass", ("mass",), ("heavier than computed", "lighter than computed")),
    Cause("thrust", "motor and propeller", ("thrust",),
          ("more thrust than computed", "less thrust than computed")),
    Cause("current", "current", ("current",),
          ("draws more than computed", "draws less than computed")),
    Cause("throw", "throw", ("throw_speed",),
          ("thrown faster than assumed", "thrown slower than assumed")),
)  # fmt: skip
PLACE = {cause.name: place for place, cause in enumerate(CAUSES)}


def widths(basis: Basis, spreads: Array) -> Array:
    """How far each cause lets each quantity be off.

    Without a fault everything is off as usual; with one, that is off as far as builders meet it,
    the rest was built carefully. The model's own errors are as they are.

    Args:
        basis: The plane as drawn. [-]
        spreads: Of the quantities before. [as each]

    Returns:
        One row a cause, one column a quantity, in its usual spreads. [-]

    Source:
        Sizes of faults common practice, no source; CAREFUL assumed.

    Example:
        >>> from foamwright.logbook.basis import basis_of
        >>> widths(basis_of(plane), np.ones(18)).shape
        (12, 18)
    """
    sizes = {
        "twist_right": TWIST, "twist_left": TWIST, "tip_mass": TIP_SHARE * basis.mass,
        "right_thrust": THRUST_ANGLE, "down_thrust": THRUST_ANGLE,
        "cg_aft": CG_SHARE * basis.aero.mean_chord, "wing_incidence": INCIDENCE,
        "stab_incidence": INCIDENCE, "throw_speed": THROW, **SHARES,
    }  # fmt: skip
    careful = np.array([1.0 if name in MODELS else CAREFUL for name in NAMES])
    table = np.tile(careful, (len(CAUSES), 1))
    table[PLACE["none"]] = 1.0
    for row, cause in enumerate(CAUSES):
        for name in cause.wide:
            table[row, COLUMN[name]] = max(sizes[name] / spreads[COLUMN[name]], 1.0)
    return table


def possible(hidden: Array) -> NDArray[np.bool_]:
    """Whether guesses can be: no factor on drag, mass, thrust or current near zero.

    Args:
        hidden: Guesses, one a row. [as hidden.py]

    Returns:
        One a guess. [-]

    Source:
        LEAST_SHARE, assumed.

    Example:
        >>> possible(np.full((1, 18), -1.0)).tolist()
        [False]
    """
    return np.asarray((hidden[:, SHARE_COLUMNS] > LEAST_SHARE).all(axis=1))


def within_possible(hidden: Array) -> Array:
    """Guesses that can be asked of the model: those that cannot be stand at the edge.

    Inference gives what was moved here no weight (`possible`).

    Args:
        hidden: Guesses, one a row. [as hidden.py]

    Returns:
        The same, or a copy. [as hidden.py]

    Source:
        Definition.

    Example:
        >>> float(within_possible(np.full((1, 18), -1.0)).min())
        -1.0
    """
    if possible(hidden).all():
        return hidden
    kept = hidden.copy()
    kept[:, SHARE_COLUMNS] = np.maximum(kept[:, SHARE_COLUMNS], LEAST_SHARE)
    return kept


def odds() -> Array:
    """Chance of each cause before anything is seen.

    Returns:
        One a cause, sum 1. [-]

    Source:
        Assumed: every fault as likely as another.

    Example:
        >>> round(float(odds().sum()), 12)
        1.0
    """
    others = len(CAUSES) - 1
    return np.array([NO_FAULT, *([(1.0 - NO_FAULT) / others] * others)])


def amount_of(cause: Cause, hidden: Array) -> Array:
    """How much of a cause there is in some guesses: the difference of twists, of incidences.

    Args:
        cause: The cause. [-]
        hidden: Guesses, one a row. [as hidden.py]

    Returns:
        One a guess; 0 for "none". [as the quantity]

    Source:
        Definition.

    Example:
        >>> float(amount_of(CAUSES[PLACE["drag"]], np.full((1, 18), 0.3))[0])
        0.3
    """
    if not cause.wide:
        return np.zeros(len(hidden))
    first = hidden[:, COLUMN[cause.wide[0]]]
    return first if len(cause.wide) == 1 else first - hidden[:, COLUMN[cause.wide[1]]]
