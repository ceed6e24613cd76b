"""What the sums of strength find: failures with a value in every build, and what led to them."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from foamwright.strength.loads import SpanLoad
from foamwright.strength.wing import Bending
from foamwright.strength.wing_section import WingSections

type Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Found:
    """A failure with its value in every build.

    Attributes:
        id: Such as "wing_top_buckling".
        name: In trade words.
        place: Where on the plane.
        values: Load factor or ratio, one a build. [-]
        why: One sentence.
        source: Publication or "assumed".
    """

    id: str
    name: str
    place: str
    values: Array
    why: str
    source: str


@dataclass(frozen=True, slots=True)
class Wing:
    """What the wing's sums give.

    Attributes:
        sections: Its sections.
        load: For one g, typical masses.
        moment: Bending moment for one g in every build (or one row for all). [N m]
        limits: Failure id -> load factors (builds, stations).
        bending: For one g.
        twist_stiffness: G J (builds, stations). [N m²]
    """

    sections: WingSections
    load: SpanLoad
    moment: Array
    limits: dict[str, Array]
    bending: Bending
    twist_stiffness: Array


@dataclass(frozen=True, slots=True)
class Collected:
    """All failures and what was computed on the way.

    Attributes:
        found: Failures, in no order.
        wing: The wing's sums.
        tail_bend: Tip deflection of stab and of fin at full throw, typical. [m]
        servo_loads: Servo role -> moment needed over rated moment. [-]
        notes: What could not be said or was extrapolated.
    """

    found: tuple[Found, ...]
    wing: Wing
    tail_bend: tuple[float, float]
    servo_loads: dict[str, float]
    notes: tuple[str, ...]
