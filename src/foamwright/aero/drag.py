"""Drag of the whole plane against lift, and the table of where it comes from."""

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from foamwright.aero.model import DragItem
from foamwright.aero.plates import base_drag_body, turbulent_friction_mean
from foamwright.aero.response import State
from foamwright.aero.setting import Setting, Table, coefficients_in
from foamwright.aero.trim import Slopes, strip_lift, trim_for

type Array = NDArray[np.float64]

POINTS = 9  # lift coefficients at which the polar is sampled
NOSE_DRAG = {
    "profile": 0.45,
    "box": 0.30,
}  # on frontal area, square edges; [HOERNER] ch. 3 lies at 0.2 to 0.8
OUTSIDE_AREA = {
    "profile": 0.0012,
    "box": 0.0004,
}  # m², drag area of motor, leads, horns, servos on a 0.9 m body; assumed
BODY_LENGTH = 0.9  # m, of that body
GEAR_DRAG = 1.0  # on frontal area, legs and wheels; [HOERNER] ch. 13 lies at 0.8 to 1.2
GAP_SEALED, GAP_OPEN = (
    0.0010,
    0.0040,
)  # on hinge length times board thickness x 10; assumed, x0.3 to x3
INTERFERENCE = 0.06  # of the rest, junctions of wing, tail and body; common practice 5 to 10 %


@dataclass(frozen=True, slots=True)
class PlanePolar:
    """Drag against lift.

    Attributes:
        zero: CD = zero + factor (CL - bucket)². [-]
        factor: [-]
        bucket: [-]
        items: Lines that add up to `zero`.
        lifts: Trimmed lift coefficients sampled. [-]
        drags: Drag there. [-]
        misfit: Largest relative difference of the parabola to the samples. [-]
        extrapolated: Whether a sample's Reynolds number left the validated range.
    """

    zero: float
    factor: float
    bucket: float
    items: tuple[DragItem, ...]
    lifts: Array
    drags: Array
    misfit: float
    extrapolated: bool


def wing_profile_drag(setting: Setting, alpha: float, speed: float) -> float:
    """Section drag of the wing, strip by strip, on wing area.

    Args:
        setting: The plane.
        alpha: Of the fuselage line. [rad]
        speed: For the Reynolds numbers. [m/s]

    Returns:
        Drag coefficient. [-]

    Source:
        Strip theory: each strip at its lattice lift coefficient.

    Example:
        >>> wing_profile_drag(setting, 0.05, 9.0)  # doctest: +SKIP
        0.015
    """
    strips = setting.response.solution.mesh.strips
    wing = strips.surface == 0
    loads, _ = strip_lift(setting, alpha)
    chord, width, panel = strips.chord[wing], strips.width[wing], strips.panel[wing]
    total = 0.0
    for number, table in enumerate(setting.tables):
        mine = panel == number
        mean = float((chord[mine] * width[mine]).sum() / width[mine].sum())
        drag = _drag_at(table, setting.reynolds(mean, speed), loads[mine])
        total += 2.0 * float((drag * chord[mine] * width[mine]).sum())
    return total / setting.wing.area


def _drag_at(table: Table, reynolds: float, loads: Array) -> Array:
    """Section drag at lift coefficients on the attached branch."""
    lift, drag, _, _ = table.row(reynolds)
    end = int(np.argmax(lift)) + 1
    start = int(np.argmin(lift[:end]))
    rising = np.maximum.accumulate(lift[start:end])
    return np.interp(loads, rising, drag[start:end])


def parasite_items(setting: Setting, speed: float) -> list[DragItem]:
    """Everything but the wing section, at no lift.

    Args:
        setting: The plane.
        speed: For the Reynolds numbers. [m/s]

    Returns:
        Lines of the drag table, on wing area.

    Source:
        Friction lines; [HOERNER] for blunt ends; assumptions marked line by line.

    Example:
        >>> parasite_items(setting, 8.0)[0].name  # doctest: +SKIP
        'stab'
    """
    frame = setting.airframe
    area = frame.wing.area
    items: list[DragItem] = []
    for surface in (frame.stab, frame.fin):
        if surface is None:
            continue
        reynolds = setting.reynolds(surface.mean_chord, speed)
        lift, drag, _, _ = setting.tail_table.row(reynolds)
        coefficient = float(np.interp(0.0, setting.tail_table.alpha, drag)) * surface.area / area
        del lift
        items.append(
            DragItem(
                surface.name,
                coefficient,
                "plate friction, half laminar (assumed); blunt edge [HOERNER]",
            )
        )
    items += _body_items(setting, speed)
    outside = OUTSIDE_AREA[frame.body.build] * (frame.body.length / BODY_LENGTH) ** 2
    items.append(DragItem("motor, leads, horns outside", outside / area, "assumed, x0.5 to x2"))
    if frame.gear_area > 0.0:
        items.append(DragItem("gear", GEAR_DRAG * frame.gear_area / area, "[HOERNER] ch. 13"))
    gaps = 0.0
    for surface in (frame.wing, frame.stab, *([frame.fin] if frame.fin else [])):
        for control in surface.controls:
            rate = GAP_SEALED if control.gap_sealed else GAP_OPEN
            gaps += rate * control.span * 10.0 * frame.board_thickness
    items.append(DragItem("hinge lines", gaps / area, "assumed, x0.3 to x3"))
    return items


def _body_items(setting: Setting, speed: float) -> list[DragItem]:
    frame = setting.airframe
    body, area = frame.body, frame.wing.area
    reynolds = setting.reynolds(body.length, speed)
    skin = turbulent_friction_mean(reynolds) * body.wetted_area / area
    nose = NOSE_DRAG[body.build] * body.frontal_area / area
    last = body.stations[-1]
    base = base_drag_body((last.top - last.bottom) * last.width / area, skin + nose)
    return [
        DragItem("fuselage skin", skin, "Prandtl-Schlichting on wetted area"),
        DragItem("fuselage nose and edges", nose, "square edges [HOERNER] ch. 3, assumed share"),
        DragItem("fuselage end", base, "[HOERNER] ch. 3 eq. 36"),
    ]


def plane_polar(setting: Setting, slopes: Slopes, lift_max: float) -> PlanePolar:
    """Trimmed drag in level flight, sampled and fitted by a parabola.

    At each lift coefficient the speed is that of level flight, so slow means a small Reynolds
    number.

    Args:
        setting: The plane.
        slopes: Linear behaviour near trim.
        lift_max: Largest trimmed lift. [-]

    Returns:
        The polar.

    Source:
        Strip sections + Trefftz-plane induced drag + parasite items.

    Example:
        >>> plane_polar(setting, slopes, 1.1).zero  # doctest: +SKIP
        0.045
    """
    lifts = np.linspace(0.2, 0.92, POINTS) * lift_max
    trims = [trim_for(slopes, lift) for lift in lifts.tolist()]
    induced = coefficients_in(
        setting, [State(alpha, controls={"elevator": elevator}) for alpha, elevator in trims]
    )
    drags = np.zeros(POINTS)
    for k, lift in enumerate(lifts.tolist()):
        speed, (alpha, elevator) = setting.speed_at(lift), trims[k]
        section = wing_profile_drag(setting, alpha, speed)
        rest = sum(item.coefficient for item in parasite_items(setting, speed))
        tail = _tail_lift_drag(setting, alpha, elevator)
        drags[k] = section + induced[k].drag + tail + rest * (1.0 + INTERFERENCE)
    # The parabola must hold where the plane flies; near the stall drag bends up, so weigh it less.
    weight = np.where(lifts > 0.8 * lift_max, 0.4, 1.0)
    design = np.stack([np.ones(POINTS), lifts, lifts**2]).T
    a, b, c = np.linalg.lstsq(design * weight[:, None], drags * weight, rcond=None)[0].tolist()
    c = max(c, 1e-3)
    bucket = min(max(-0.5 * b / c, -0.2), 0.6 * lift_max)
    zero = a - b * b / (4.0 * c) if abs(bucket + 0.5 * b / c) < 1e-12 else float(drags.min())
    fitted = zero + c * (lifts - bucket) ** 2
    cruise = setting.speed_at(max(bucket, 0.35 * lift_max))
    items = parasite_items(setting, cruise)
    rest = sum(item.coefficient for item in items)
    items.append(DragItem("interference", INTERFERENCE * rest, "common practice, 5 to 10 %"))
    wing = zero - rest * (1.0 + INTERFERENCE)
    items.insert(
        0, DragItem("wing section", wing, "strip sections, panel and boundary-layer model")
    )
    slow, fast = (
        setting.reynolds(setting.wing.mean_chord, setting.speed_at(float(lift)))
        for lift in (lifts[-1], lifts[0])
    )
    return PlanePolar(
        zero=zero,
        factor=c,
        bucket=bucket,
        items=tuple(items),
        lifts=lifts,
        drags=drags,
        misfit=float(np.abs(fitted / drags - 1.0)[lifts <= 0.85 * lift_max].max()),
        extrapolated=not 40e3 <= slow <= fast <= 400e3,
    )


def _tail_lift_drag(setting: Setting, alpha: float, elevator: float) -> float:
    """Extra section drag of the stab at its own incidence."""
    stab, table = setting.airframe.stab, setting.tail_table
    wash = setting.downwash * (alpha + setting.camber)
    angle = abs(alpha + stab.panels[0].root_twist - wash) + 0.5 * abs(elevator)
    lift, drag, _, _ = table.row(setting.reynolds(stab.mean_chord, setting.speed))
    del lift
    rest, now = np.interp([0.0, min(angle, math.radians(20.0))], table.alpha, drag)
    return float(now - rest) * stab.area / setting.wing.area
