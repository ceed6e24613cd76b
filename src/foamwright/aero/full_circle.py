"""A section at any angle from -180 to 180 degrees: for launch, spin and tumble."""

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from foamwright.aero.model import SectionPolar
from foamwright.aero.sections import polar_at
from foamwright.core.errors import ModelError

type Array = NDArray[np.float64]

PLATE_LIFT = 1.08  # Cl at 45 deg of any thin section [SHELDAHL]
PLATE_DRAG = 1.80  # Cd at 90 deg [SHELDAHL]
DRAG_POWER = math.log(PLATE_DRAG / 1.08) / math.log(math.sqrt(2.0))  # Cd 1.08 at 45 deg [SHELDAHL]
BACKWARD_SLOPE = 5.0  # 1/rad, flying tail first, sharp edge ahead; assumed
BACKWARD_LIFT = 0.75  # plateau of the same, as a thin plate; assumed
BACKWARD_DRAG = 1.5  # times the drag flying forward: blunt nose behind; assumed
NEARLY = 0.98  # of the largest lift, where the stall is taken to begin; assumed
JOIN = math.radians(45.0)  # from here on every section is a flat plate


@dataclass(frozen=True, slots=True)
class SectionPoint:
    """A section at given angles and one Reynolds number.

    Attributes:
        alpha: Brought into -pi to pi. [rad]
        lift: [-]
        drag: [-]
        moment: About the quarter chord, nose-up positive. [-]
        validated: True where the section, the Reynolds number and the angle were compared with
            measurements (up to the stall).
        note: Words on that.
    """

    alpha: Array
    lift: Array
    drag: Array
    moment: Array
    validated: NDArray[np.bool_]
    note: str


def _plate(alpha: Array, friction: float) -> tuple[Array, Array]:
    """Lift and drag of a flat plate at any angle, tail first too."""
    sine = np.abs(np.sin(alpha))
    drag = friction + (PLATE_DRAG - friction) * sine**DRAG_POWER
    lift = PLATE_LIFT * np.sin(2.0 * alpha)
    back = math.pi - np.abs(alpha)
    line = BACKWARD_SLOPE * np.sin(back)
    attached = line / (1.0 + np.abs(line / BACKWARD_LIFT) ** 6) ** (1.0 / 6.0)
    share = np.clip((JOIN - back) / (JOIN - 0.35), 0.0, 1.0)
    backward = -np.sign(alpha) * np.maximum(attached, np.abs(lift)) * share + lift * (1.0 - share)
    tail_first = np.abs(alpha) > 0.5 * math.pi
    drag = np.where(tail_first, drag + (BACKWARD_DRAG - 1.0) * friction * share, drag)
    return np.where(tail_first, backward, lift), drag


def section_at(polar: SectionPolar, reynolds: float, alpha: ArrayLike) -> SectionPoint:
    """Lift, drag and moment of a section at any angle of attack.

    The table up to its ends, then over to a flat plate at 45 degrees and beyond; tail first it
    lifts like a thin plate with a blunt end.

    Args:
        polar: The table.
        reynolds: On chord. [-]
        alpha: Any finite angle or angles. [rad]

    Returns:
        The figures, and for each angle whether it was compared with measurements.

    Raises:
        ModelError: Reynolds number not positive, or an angle that is not a number.

    Valid:
        Compared with measurements between the lowest table row and the stall; beyond it within
        0.2 in lift and 0.3 in drag (one flat-plate line for every section).

    Source:
        Sheldahl & Klimas [SHELDAHL] at 45 and 90 degrees; tail first assumed.

    Example:
        >>> section_at(polar, 1e5, math.pi / 2.0).drag.round(2)  # doctest: +SKIP
        array([1.8])
    """
    given = np.atleast_1d(np.asarray(alpha, dtype=float))
    if not np.isfinite(given).all():
        raise ModelError("Angles of attack must be finite numbers.")
    angle = np.mod(given + math.pi, 2.0 * math.pi) - math.pi
    row = polar_at(polar, reynolds)
    low, high = float(row.alpha[0]), float(row.alpha[-1])
    least = float(row.drag.min())
    lift, drag = _plate(angle, least)
    inside = (angle >= low) & (angle <= high)
    edge = np.clip(angle, low, high)
    at_edge = [np.interp(edge, row.alpha, values) for values in (row.lift, row.drag, row.moment)]
    gap = np.where(angle > high, JOIN - high, JOIN + low)
    share = np.clip(np.abs(angle - edge) / gap, 0.0, 1.0)
    lift = np.where(inside, at_edge[0], (1.0 - share) * at_edge[0] + share * lift)
    drag = np.where(inside, at_edge[1], (1.0 - share) * at_edge[1] + share * drag)
    normal = lift * np.cos(angle) + drag * np.sin(angle)
    # The normal force moves from the quarter chord to the middle at 90 degrees and on to 75 %.
    moment = -normal * 0.5 * np.abs(angle) / math.pi
    moment = np.where(inside, at_edge[2], (1.0 - share) * at_edge[2] + share * moment)
    # The first top: beyond a thin section's stall the plate's line may lift more than it did.
    most = min(float(row.lift.max()), row.lift_max)
    stall = float(row.alpha[int(np.argmax(row.lift >= NEARLY * most))])
    attached = (angle >= math.radians(-5.0)) & (angle <= stall)
    known = attached & polar.validated & (not row.extrapolated)
    note = polar.note
    if row.extrapolated:
        note += f"; Reynolds number {reynolds:.0f} lies outside 40 000 to 400 000: extrapolated"
    if not attached.all():
        note += "; past the stall a flat plate's line, within 0.2 in lift and 0.3 in drag"
    return SectionPoint(angle, lift, drag, moment, known, note)
