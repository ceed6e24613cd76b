"""Where the wing stalls when an aileron is held down: the tip that should rise may drop."""

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from foamwright.aero.mesh import covered
from foamwright.aero.setting import Setting
from foamwright.aero.thin import TWO_PI, flap_effectiveness
from foamwright.aero.trim import WingStall, strip_lift

type Array = NDArray[np.float64]

FLAP_LIFT_SHARE = 0.6  # of a plain flap's lift that adds to the largest lift; assumed, +-0.15
RELIEF = 0.85  # of the stall angle, aileron neutral: a slow turn; assumed


@dataclass(frozen=True, slots=True)
class AileronStall:
    """The stall on the side whose aileron is down.

    Attributes:
        alpha: Of the fuselage line, when the first strip stalls. [rad]
        earlier: By how much before the stall with ailerons neutral. [rad]
        place: Fraction of the half span that stalls first. [-]
        drops: Whether that is outboard and comes at less than 85 % of the neutral stall's lift.
        words: One sentence.
    """

    alpha: float
    earlier: float
    place: float
    drops: bool
    words: str


def aileron_stall(
    setting: Setting, stall: WingStall, limits: Array, *, deflection: float
) -> AileronStall | None:
    """Stall of the side with its aileron down.

    The lattice gives each strip's extra lift; a strip with a lowered aileron may carry 60 % of the
    flap's own lift more before it stalls.

    Args:
        setting: The plane.
        stall: Its stall with ailerons neutral.
        limits: Largest lift of each wing strip's section, ailerons neutral. [-]
        deflection: Of the aileron, trailing edge down. [rad]

    Returns:
        The stall; None without ailerons.

    Source:
        Critical-section method, Anderson, NACA TR 572, with the aileron's load added.

    Example:
        >>> aileron_stall(setting, stall, limits, deflection=0.2).place  # doctest: +SKIP
        0.6
    """
    found = setting.control("aileron")
    if found is None:
        return None
    solution, control = setting.response.solution, found[1]
    strips = solution.mesh.strips
    wing = strips.surface == 0
    turn = deflection * setting.loss("aileron")
    base, per = strip_lift(setting, 0.0)
    (row,) = solution.select("aileron", 0)
    gain = 2.0 * setting.response.gains[0] / strips.chord[wing]
    loaded = base + turn * solution.circulation[row, wing] * gain
    own = TWO_PI * flap_effectiveness(control.chord_fraction) * turn * covered(strips, 0, control)
    reach = (limits + FLAP_LIFT_SHARE * own[wing] - loaded) / per
    place = strips.place[wing]
    first = int(np.argmin(np.where(place < 0.97, reach, np.inf)))
    alpha, spot = float(reach[first]), float(place[first])
    earlier = stall.alpha - alpha
    weight = strips.chord[wing] * strips.width[wing]
    lift = float(((base + alpha * per) * weight).sum() / weight.sum())
    share = lift / stall.lift
    drops = spot > 0.5 and share < RELIEF
    degrees = math.degrees(earlier)
    when = f"{abs(degrees):.1f} deg {'before' if degrees >= 0.0 else 'after'} the straight stall"
    kind = (
        "the wing with the aileron down drops: roll out with rudder when slow"
        if drops
        else "it gives way gently"
    )
    words = (
        f"with full aileron the lowered side stalls {when}, at {100.0 * spot:.0f} % of the half "
        f"span and {100.0 * share:.0f} % of the straight stall's lift; {kind}."
    )
    return AileronStall(alpha, earlier, spot, drops, words)
