"""Which flaw of the simulation each unknown is, and builds with one of them nudged."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import fields

import numpy as np

from foamwright.flight.simulation.flaws import NO_FLAWS, Flaws

type Nudge = tuple[str, float]  # unknown or "" and how far

# Unknown -> flaw of the simulation and its sign; a neutral point aft is a CG forward.
FLAWED = {
    "drag": ("drag_factor", 1.0),
    "mass": ("mass_factor", 1.0),
    "cg_aft": ("cg_shift_aft", 1.0),
    "neutral_point": ("cg_shift_aft", -1.0),
    "twist_right": ("right_twist", 1.0),
    "twist_left": ("left_twist", 1.0),
    "down_thrust": ("thrust_down_error", 1.0),
    "pitch_model": ("thrust_down_error", 1.0),
    "right_thrust": ("thrust_right_error", 1.0),
    "yaw_model": ("thrust_right_error", 1.0),
    "wing_incidence": ("incidence_error", 1.0),
    "stab_incidence": ("stab_incidence_error", 1.0),
    "thrust": ("motor_factor", 1.0),
}


def flaws_of(nudges: Sequence[Nudge]) -> Flaws:
    """Builds side by side, one unknown of each nudged.

    Args:
        nudges: Unknown and how far; names that are no flaw leave the build as drawn. [as hidden.py]

    Returns:
        One build a nudge.

    Source:
        Definition.

    Example:
        >>> flaws_of([("", 0.0), ("drag", 0.2)]).drag_factor.tolist()
        [1.0, 1.2]
    """
    values = {
        field.name: np.full(len(nudges), float(getattr(NO_FLAWS, field.name)))
        for field in fields(Flaws)
    }
    for place, (name, step) in enumerate(nudges):
        if name == "tip_mass":
            # Mass cannot be taken away at one tip, so it goes to the other.
            side = "right_tip_mass" if step > 0.0 else "left_tip_mass"
            values[side][place] += abs(step)
        elif name in FLAWED:
            flaw, sign = FLAWED[name]
            values[flaw][place] += sign * step
    return Flaws(**values)
