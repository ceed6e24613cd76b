"""Polars of a plane's sections: wings by panels and boundary layer, plates by formula."""

import math
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from foamwright.aero.model import SectionPolar
from foamwright.aero.outline import Points, check_outline, fair_steps, panel_points
from foamwright.aero.plates import PLATE_LIFT_MAX, PLATE_SLOPE, base_drag, plate_curves
from foamwright.aero.store import kept
from foamwright.aero.viscous import on_angles, section_curve
from foamwright.aero.vortex_panels import panel_flow
from foamwright.core.air import Air
from foamwright.core.errors import ModelError
from foamwright.shape.model import Airframe, LiftingSurface, WingSection

type Array = NDArray[np.float64]

REYNOLDS = (30e3, 45e3, 61e3, 90e3, 135e3, 200e3, 400e3)
ANGLES = tuple(math.radians(a) for a in range(-20, 26))
SMALLEST, LARGEST = 40e3, 400e3  # range in which measurements were compared
CREASE_DRAG = 0.0004  # on chord, each scored crease of a folded skin; assumed, x0.3 to x3
STEP_DRAG = 0.5  # of the two-dimensional base drag that a step on one side keeps; assumed
EVENED = 3.0  # degrees over which the drag of stepped sections is evened; assumed
STEPPED_LIFT_MAX = 1.05  # of a section with a step on top; common practice, no measurement found
SAME_SIDES = 1e-4  # of the chord, height by which both sides of a symmetrical section may differ
THIN_LAYER = 0.03  # outlines thinner than that lift like plates; 3 % plates are the thinnest tested
# Largest lift of a 4 % cambered plate over a flat one's, per camber; Pelletier & Mueller 2000 (from
# memory), Re 60 000 to 200 000.
CAMBERED_PLATE = 9.0
THIN = 0.02  # thinner outlines are plates to this model


@dataclass(frozen=True, slots=True)
class SectionPolars:
    """Section polars of every surface.

    Attributes:
        wing: One a wing panel, root outwards.
        stab: One a stab panel.
        fin: One a fin panel; empty for a V-tail.
        notes: Words on their range.
    """

    wing: tuple[SectionPolar, ...]
    stab: tuple[SectionPolar, ...]
    fin: tuple[SectionPolar, ...]
    notes: tuple[str, ...]


def section_polars(airframe: Airframe, air: Air) -> SectionPolars:
    """Polars of each distinct section of a plane.

    Args:
        airframe: The shape.
        air: Air at the field; the tables run over Reynolds numbers and so serve any air. [-]

    Returns:
        The tables.

    Valid:
        Re 40 000 to 400 000; see each table's note.

    Source:
        viscous.py and plates.py.

    Example:
        >>> section_polars(airframe, air_at()).wing[0].validated  # doctest: +SKIP
        True
    """
    del air

    def of(surface: LiftingSurface | None) -> tuple[SectionPolar, ...]:
        return () if surface is None else tuple(polar_of(p.section) for p in surface.panels)

    wing, stab, fin = of(airframe.wing), of(airframe.stab), of(airframe.fin)
    notes = tuple(dict.fromkeys(p.note for p in (*wing, *stab, *fin)))
    return SectionPolars(wing, stab, fin, notes)


@lru_cache(maxsize=256)
def polar_of(section: WingSection) -> SectionPolar:
    """Polar of one section as built, with what its creases, steps and blunt edge cost.

    Args:
        section: The section.

    Returns:
        The table.

    Source:
        `outline_polar`; blunt edge and steps [HOERNER] ch. 3; creases assumed.

    Example:
        >>> polar_of(section).lift_max  # doctest: +SKIP
        (1.1, 1.2)
    """
    thin = section.build == "plate" or section.thickness_ratio < THIN
    if thin and abs(section.camber_ratio) < 0.01:
        lift, drag, moment = plate_curves(
            section.thickness_ratio,
            section.trailing_thickness_ratio,
            reynolds=np.array(REYNOLDS),
            alpha=np.array(ANGLES),
        )
        note = (
            "flat plates by formula: lift and plateau after published tests of 2 to 3 % plates at "
            "Re 60 000 to 200 000, drag by friction lines and blunt-edge formula"
        )
        return _table(lift, drag, moment, lift.max(axis=1), note=note, validated=True)
    upper, step = fair_steps(section.upper)
    creases = sum(line.kind in ("crease", "score") for line in section.lines)
    smooth = section.build in ("folded", "stepped") or bool(section.lines)
    return outline_polar(
        tuple(map(tuple, upper.tolist())),
        section.lower,
        smooth=smooth,
        extra=(section.trailing_thickness_ratio, step, CREASE_DRAG * creases),
    )


def outline_polar(
    upper: Points,
    lower: Points,
    *,
    smooth: bool = False,
    extra: tuple[float, float, float] = (0.0, 0.0, 0.0),
) -> SectionPolar:
    """Polar of any outline at Re 30 000 to 400 000 and -20 to 25 degrees.

    Args:
        upper: Nose to tail, chord fractions. [-]
        lower: Same. [-]
        smooth: Round creases over a few per cent of the chord.
        extra: Height of the blunt trailing edge, of the steps, and further drag, on chord. [-]

    Returns:
        The table.

    Raises:
        ModelError: Outline crosses itself, is open or has no thickness.

    Valid:
        Re 40 000 to 400 000, 5 to 13 % thick; outside it says so in the note.

    Source:
        viscous.py; reproduced in tests/validation/test_sections.py.

    Example:
        >>> outline_polar(((0, 0), (0.3, 0.1), (1, 0)), ((0, 0), (0.3, -0.02), (1, 0))).reynolds[0]
        30000.0
    """
    check_outline(upper, lower)
    points = panel_points(upper, lower, smooth=smooth)
    shape = (len(REYNOLDS), 3 * len(ANGLES) + 1)
    # The flow behind a step is assumed anyway, and no layer of ours knows it.
    kind = "stepped" if extra[1] > 0.0 else "folded" if smooth else "plain"
    whole = kept(points.tobytes() + kind.encode(), shape, lambda: _computed(points, kind))
    lift, drag, moment = (whole[:, k * len(ANGLES) : (k + 1) * len(ANGLES)] for k in range(3))
    most = whole[:, -1]
    thickness, camber = _thickness_and_camber(upper, lower)
    trailing, step, more = extra
    if step > 0.0:
        most = np.minimum(most, STEPPED_LIFT_MAX)
        lift, drag = _bent_line(lift, most), _evened(drag)
    elif thickness < THIN_LAYER:
        most = np.maximum(most, PLATE_LIFT_MAX + CAMBERED_PLATE * camber)
        line = _bent_line(lift, most)
        drag = drag + np.maximum(line - lift, 0.0) * np.abs(np.tan(ANGLES))
        lift = line
    least = float(drag.min())
    added = more + base_drag(trailing, least) + STEP_DRAG * base_drag(step, least)
    note, known = _compared(thickness, camber, kind)
    return _table(lift, drag + added, moment, most, note=note, validated=known)


def _thickness_and_camber(upper: Points, lower: Points) -> tuple[float, float]:
    top, bottom = np.array(upper, dtype=float), np.array(lower, dtype=float)
    stations = np.linspace(0.02, 0.98, 97)
    high = np.interp(stations, top[:, 0], top[:, 1])
    low = np.interp(stations, bottom[:, 0], bottom[:, 1])
    return float((high - low).max()), float(np.abs(0.5 * (high + low)).max())


def _compared(thickness: float, camber: float, kind: str) -> tuple[str, bool]:
    """Words on what was compared with measurements, and whether this section was."""
    known = 0.05 <= thickness <= 0.135 and camber <= 0.055
    shape = f"section {100 * thickness:.1f} % thick, {100 * camber:.1f} % cambered"
    note = (
        f"{shape}: within the range compared with tunnel measurements (Re 61 000 to 400 000)"
        if known
        else f"{shape}: outside the range compared with measurements (5 to 13.5 % thick, to "
        "5.5 % camber); extrapolated"
    )
    if kind == "stepped":
        note += (
            "; the flow behind its steps, its lift slope of 5.8 per radian and its largest lift of "
            "1.05 are assumptions, no measurement found"
        )
    elif kind == "folded":
        note += "; that holds for smooth outlines, no section with creases was found measured"
    elif thickness < THIN_LAYER:
        note += "; lift along a line of slope 5.8 per radian, as thin plates were measured"
    return note, known and kind == "plain"


def _bent_line(lift: Array, most: Array) -> Array:
    """Straight line through the layer's zero-lift angle, bent over into the largest lift.

    The layer knows nothing of the flow behind a step, nor of the long bubble at the nose of a thin
    plate, which goes on lifting where the layer finds a stall.
    """
    angles = np.array(ANGLES)
    rows = np.zeros_like(lift)
    for k, limit in enumerate(most.tolist()):
        line = PLATE_SLOPE * np.sin(angles - _zero_angle(angles, lift[k]))
        ends = np.where(line > 0.0, limit, PLATE_LIFT_MAX)
        rows[k] = line / (1.0 + np.abs(line / ends) ** 6) ** (1.0 / 6.0)
    return rows


def _computed(points: Array, kind: str) -> Array:
    """Lift, drag, moment and the largest lift side by side, one row a Reynolds number."""
    from foamwright.aero.folded_polar import folded_curve  # not needed for a kept table
    from foamwright.aero.refine import refined_curve

    numbers = np.array(REYNOLDS)
    if kind == "folded":
        curve = folded_curve(points, numbers)
    else:
        curve = section_curve(panel_flow(points), numbers)
    if kind == "plain":
        curve = refined_curve(points, numbers, curve)
    lift, drag, moment, most = on_angles(curve, np.array(ANGLES))
    if np.allclose(points, points[::-1] * (1.0, -1.0), atol=SAME_SIDES):
        lift, drag, moment = _mirrored(lift, -1.0), _mirrored(drag, 1.0), _mirrored(moment, -1.0)
    return np.concatenate([lift, drag, moment, most[:, None]], axis=1)


def _mirrored(values: Array, sign: float) -> Array:
    """A symmetrical section's figures below zero as those above."""
    zero = ANGLES.index(0.0)
    result = values.copy()
    result[:, :zero] = sign * values[:, 2 * zero : zero : -1]
    if sign < 0.0:
        result[:, zero] = 0.0
    return result


def _table(
    lift: Array, drag: Array, moment: Array, most: Array, *, note: str, validated: bool
) -> SectionPolar:
    angles = np.array(ANGLES)
    zero, slope = np.zeros(len(lift)), np.zeros(len(lift))
    for k in range(len(lift)):
        zero[k] = _zero_angle(angles, lift[k])
        near = np.interp(np.radians([1.0, 5.0]) + zero[k], angles, lift[k])
        slope[k] = (near[1] - near[0]) / math.radians(4.0)
    return SectionPolar(
        reynolds=REYNOLDS,
        alpha=ANGLES,
        lift=_rows(lift),
        drag=_rows(drag),
        moment=_rows(moment),
        lift_max=tuple(most.tolist()),
        zero_lift_angle=tuple(zero.tolist()),
        lift_slope=tuple(slope.tolist()),
        validated=validated,
        note=note,
    )


def _evened(drag: Array) -> Array:
    """Drag behind steps without the kinks that no one measured: mean over some degrees."""
    angles = np.degrees(ANGLES)
    weight = np.exp(-0.5 * ((angles[:, None] - angles) / EVENED) ** 2)
    return np.asarray(np.exp(np.log(drag) @ (weight / weight.sum(axis=0))))


def _rows(values: Array) -> tuple[tuple[float, ...], ...]:
    return tuple(map(tuple, values.tolist()))


def _zero_angle(angles: Array, lift: Array) -> float:
    """Last upward crossing of zero lift below 8 degrees."""
    crossing = np.flatnonzero((lift[:-1] <= 0.0) & (lift[1:] > 0.0) & (angles[1:] < 0.14))
    if len(crossing) == 0:
        return float(angles[int(np.abs(lift).argmin())])
    k = int(crossing[-1])
    share = -lift[k] / (lift[k + 1] - lift[k])
    return float(angles[k] + share * (angles[k + 1] - angles[k]))


@dataclass(frozen=True, slots=True)
class PolarAt:
    """A polar at one Reynolds number.

    Attributes:
        alpha: Rising. [rad]
        lift: [-]
        drag: [-]
        moment: [-]
        lift_max: [-]
        extrapolated: Whether the Reynolds number lies outside 40 000 to 400 000.
    """

    alpha: Array
    lift: Array
    drag: Array
    moment: Array
    lift_max: float
    extrapolated: bool


def polar_at(polar: SectionPolar, reynolds: float) -> PolarAt:
    """A polar at one Reynolds number, linear in its logarithm between rows.

    Args:
        polar: The table.
        reynolds: On chord. [-]

    Returns:
        The polar; beyond the table the last row is held and `extrapolated` is set.

    Raises:
        ModelError: Reynolds number not positive and finite.

    Source:
        Definition.

    Example:
        >>> polar_at(polar, 1e5).lift_max  # doctest: +SKIP
        1.25
    """
    if not (math.isfinite(reynolds) and reynolds > 0.0):
        raise ModelError(f"A Reynolds number must be positive; got {reynolds}.")
    rows = np.log(polar.reynolds)
    place = float(np.interp(math.log(reynolds), rows, np.arange(len(rows))))
    low = min(int(place), len(rows) - 2)
    share = place - low

    def mix(table: tuple[tuple[float, ...], ...]) -> Array:
        return (1.0 - share) * np.array(table[low]) + share * np.array(table[low + 1])

    return PolarAt(
        alpha=np.array(polar.alpha),
        lift=mix(polar.lift),
        drag=mix(polar.drag),
        moment=mix(polar.moment),
        lift_max=(1.0 - share) * polar.lift_max[low] + share * polar.lift_max[low + 1],
        extrapolated=not SMALLEST <= reynolds <= LARGEST,
    )
