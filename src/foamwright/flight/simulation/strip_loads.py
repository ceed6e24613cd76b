"""Strip by strip: what separation, warp and lowered ailerons add to attached flow."""

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from foamwright.aero.aileron_stall import FLAP_LIFT_SHARE
from foamwright.flight.simulation.craft import Craft
from foamwright.flight.simulation.section_grid import ANGLES, SPEEDS

type Array = NDArray[np.float64]

LAG = 2.0  # chords that the air passes before a strip's flow has separated or come back; assumed,
# 1.5 to 5 in the models of dynamic stall (from memory)
QUICKEST = 0.02  # s, least such time, so that a step of 0.01 s stays stable
LOG_SPEED = math.log(SPEEDS[0])
SPEED_STEP = math.log(SPEEDS[1] / SPEEDS[0])
PER_ANGLE = (ANGLES - 1) / (2.0 * math.pi)


@dataclass(frozen=True, slots=True)
class StripState:
    """What the strips do in a state.

    Attributes:
        force: (n, 6): force and moment about the design's CG, over density. [m⁴/s²]
        stall_rate: Change of each strip's lost lift coefficient. [1/s]
        alpha: Of each strip, induced flow and flap in. [rad]
        lost: Lift coefficient that each strip would lose in the long run. [-]
        speed: Of each strip. [m/s]
    """

    force: Array
    stall_rate: Array
    alpha: Array
    lost: Array
    speed: Array


def strip_loads(
    craft: Craft, motion: Array, turns: Array, *, stalled: Array, jet: Array, speed: Array
) -> StripState:
    """Loads of the strips beyond attached flow, and how their separation moves on.

    Source s = K (w + (zero + flap) u) + c V d/2; w felt = w - B s; the lost lift d follows the
    section table at the felt angle with a lag of two chords.

    Args:
        craft: The plane. [-]
        motion: Of the design's CG through the air, (n, 6). [m/s], [rad/s]
        turns: Worked deflection of right and left aileron (down), elevator (down), rudder (left),
            (n, 4). [rad]
        stalled: Lost lift coefficient of each strip, (n, strip). [-]
        jet: Extra speed far down the slipstream, (n). [m/s]
        speed: Airspeed, (n). [m/s]

    Returns:
        Loads and rates.

    Valid:
        Any angle of attack; tables as foamwright.aero.full_circle.

    Source:
        Lifting line with section tables and lagged separation; docs/physics/flight-simulation.md.

    Example:
        >>> strip_loads(craft, motion, turns, stalled=d, jet=jet, speed=v)  # doctest: +SKIP
    """
    s, b = craft.strips, craft.builds
    count = len(s.chord)
    both = motion @ s.velocity
    ahead = both[:, :count] + jet[:, None] * s.jet
    square = both[:, count:] + b.incidence * ahead
    fast = np.sqrt(ahead * ahead + square * square)
    flap = turns @ s.controls
    # The lattice knows ailerons only one against the other: what both do alike comes in here.
    alike = 0.5 * (turns[:, 0:1] + turns[:, 1:2]) * (s.controls[0] + s.controls[1])
    extra = s.gain * ahead * (alike + b.incidence) + 0.5 * s.chord * fast * stalled
    source = s.gain * (square + (s.zero + flap) * ahead) + 0.5 * s.chord * fast * stalled
    wash = source @ s.blow
    extra_wash = extra @ s.blow
    alpha = np.arctan2(square - wash, ahead) + (1.0 - FLAP_LIFT_SHARE) * flap
    found = _read(craft, alpha, speed)
    lost = found[..., 0] * b.lift_stretch[:, None]
    circulation = extra - s.gain * extra_wash
    whole = source - s.gain * wash
    drag = 0.5 * s.chord * found[..., 1] * fast
    normal = s.width * (circulation * ahead + drag * square)
    axial = s.width * (circulation * square - drag * ahead)
    moment = 0.5 * s.width * s.chord**2 * found[..., 2] * fast * fast
    plain = (whole - circulation) * (wash - extra_wash)
    induced = s.width * (plain - whole * wash)
    force = np.concatenate([normal, axial, moment], axis=1) @ s.load
    force[:, 3:] += induced @ s.turn
    rate = 1.0 / np.maximum(LAG * s.chord / np.maximum(fast, 0.1), QUICKEST)
    return StripState(
        force=force,
        stall_rate=(lost - stalled) * rate,
        alpha=alpha,
        lost=lost,
        speed=fast,
    )


def _read(craft: Craft, alpha: Array, speed: Array) -> Array:
    """Lift, drag and moment beyond the working line, straight between whole degrees."""
    s, stretch = craft.strips, craft.builds.lift_stretch
    row = np.log(np.maximum(speed, SPEEDS[0])) - LOG_SPEED
    row = np.minimum((row / SPEED_STEP + 0.5).astype(np.intp), len(SPEEDS) - 1)
    angle = alpha
    if np.any(stretch != 1.0):
        angle = -s.zero + (alpha + s.zero) / stretch[:, None]
    place = np.clip((angle + math.pi) * PER_ANGLE, 0.0, ANGLES - 1.001)
    low = place.astype(np.intp)
    share = (place - low)[..., None]
    found = np.take(s.table, s.row + row[:, None] * ANGLES + low, axis=0)
    return found[..., 0::2] + share * found[..., 1::2]
