"""What opening and closing the throttle shows, flown in six degrees of freedom with small faults.

The manoeuvres of the test card are flown with every fault nudged both ways, all builds side by
side; what is left is linear.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from foamwright.flight.trial.let_go import power_off, power_on
from foamwright.flight.trial.setting import setting_of
from foamwright.logbook.hidden import COLUMN, NAMES
from foamwright.logbook.linear import Linear
from foamwright.logbook.nudges import FLAWED, flaws_of

if TYPE_CHECKING:
    from collections.abc import Mapping

    from foamwright.plane import Plane

type Array = NDArray[np.float64]

NUDGE = 1.5  # spreads: about as far as what is looked for
# Unknowns that act as another one does, and the sign.
ALIKE = {"neutral_point": ("cg_aft", -1.0), "yaw_model": ("right_thrust", 1.0),
         "pitch_model": ("down_thrust", 1.0)}  # fmt: skip
NUDGED = (*(name for name in FLAWED if name not in ALIKE), "tip_mass")


@dataclass(frozen=True, slots=True)
class Throttled:
    """What the throttle does.

    Attributes:
        swing: Turn of the nose at full power, right. [rad]
        rise: Most that the nose rose with a quarter of the stick more. [rad]
        drop: Steepest path below that of the glide once it is closed. [rad]
    """

    swing: Linear
    rise: Linear
    drop: Linear


def throttled_of(plane: Plane, spreads: Array) -> Throttled:
    """Open and close the throttle with every fault nudged both ways.

    Args:
        plane: The plane as drawn. [-]
        spreads: Of the unknowns; NUDGE times as far is nudged. [as each]

    Returns:
        The answers.

    Raises:
        ModelError: The plane as drawn flies neither level nor in a glide.

    Valid:
        Faults of a few degrees, a tenth of the chord; every build trimmed by its pilot before.

    Source:
        flight/trial/let_go.py, central differences.

    Example:
        >>> from foamwright.logbook.hidden import quantities_of, spreads_of
        >>> shown = throttled_of(plane, spreads_of(quantities_of(plane)))
        >>> bool(shown.rise.slopes[COLUMN["thrust"]] > 0.0)
        True
    """
    steps = {name: NUDGE * float(spreads[COLUMN[name]]) for name in NUDGED}
    both = [(name, sign * step) for name, step in steps.items() for sign in (1.0, -1.0)]
    setting = setting_of(plane.craft, plane.flawed(flaws_of([("", 0.0), *both])))
    opened, closed = power_on(setting), power_off(setting)
    return Throttled(
        swing=_linear(opened.swing, steps),
        rise=_linear(opened.pitch, steps),
        drop=_linear(float(setting.glide.path[0]) - closed.steepest, steps),
    )


def _linear(shown: Array, steps: Mapping[str, float]) -> Linear:
    slopes = np.zeros(len(NAMES))
    for place, (name, step) in enumerate(steps.items()):
        slopes[COLUMN[name]] = (shown[1 + 2 * place] - shown[2 + 2 * place]) / (2.0 * step)
    for name, (other, sign) in ALIKE.items():
        slopes[COLUMN[name]] = sign * slopes[COLUMN[other]]
    return Linear(float(shown[0]), slopes)
