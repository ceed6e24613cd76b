"""Single faults that may stand behind what was seen, each a guess that one thing is far off."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from foamwright.logbook.hidden import COLUMN, FLAW, NAMES

type Array = NDArray[np.float64]

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
          ("right panel nose up of the left", "left panel nose up of the right")),
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


def widths() -> Array:
    """How far each cause lets each quantity be off, in its usual spreads.

    Returns:
        One row a cause, one column a quantity. [-]

    Source:
        FLAW of hidden.py.

    Example:
        >>> float(widths()[PLACE["drag"]][COLUMN["drag"]])
        2.5
    """
    table = np.ones((len(CAUSES), len(NAMES)))
    for row, cause in enumerate(CAUSES):
        for name in cause.wide:
            table[row, COLUMN[name]] = FLAW
    return table


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
