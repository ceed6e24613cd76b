"""Angle gauges at full size: wedges to cut from scrap board and hold against the work."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from foamwright.sheets.model import Heading
from foamwright.sheets.paper import Paper
from foamwright.sheets.pen import (
    PER_METRE,
    Canvas,
    draw_scales,
    set_style,
    start_page,
    write_line,
)
from foamwright.sheets.words import angle_words, length_words

if TYPE_CHECKING:
    from foamwright.plane import Plane

EDGE = 12.0  # mm
BASE = 120.0  # mm, long side of a wedge
STEEP = 60.0  # mm, long side of a steep one
FOOT = 24.0  # mm, for the check scales
LEAST = math.radians(0.05)  # a flatter wedge cannot be cut
STEEP_FROM = math.radians(30.0)
HINGE = math.radians(45.0)  # bevel of hinged edges; common practice, no source


@dataclass(frozen=True, slots=True)
class Gauge:
    """A wedge.

    Attributes:
        name: What it is held against.
        angle: Between its long sides. [rad]
        words: How it is used.
    """

    name: str
    angle: float
    words: str = ""


def gauges_of(plane: Plane) -> tuple[Gauge, ...]:
    """Gauges for the angles that a plane is built to.

    Args:
        plane: The plane. [-]

    Returns:
        Dihedral with the bevel of spar and root ends, spar top, washout, incidence, thrust, hinge
        bevels; none for an angle of nought. [-]

    Source:
        Definition; a joint's bevel is half the angle between the pieces that it joins.

    Example:
        >>> gauges_of(plane)[0].name
        'dihedral'
    """
    design = plane.design
    gauges = [*_dihedral(plane), *_spar_top(plane)]
    gauges += [
        Gauge(
            f"washout, panel {number}" if len(design.wing.panel) > 1 else "washout",
            abs(panel.washout),
            f"under the tip's {'trailing' if panel.washout > 0 else 'leading'} edge, "
            "panel weighted down flat at its root, while the glue sets",
        )
        for number, panel in enumerate(design.wing.panel, 1)
    ]
    gauges += [
        Gauge(
            "wing incidence",
            abs(design.wing.incidence),
            f"fuselage line to the wing's flat underside, nose "
            f"{'up' if design.wing.incidence >= 0 else 'down'}",
        ),
        Gauge("down thrust", abs(design.motor.down_thrust), "behind the firewall, thick end up"),
        Gauge(
            "right thrust",
            abs(design.motor.right_thrust),
            "behind the firewall, thick end to the left, seen from the cockpit",
        ),
    ]
    surfaces = (plane.airframe.wing, plane.airframe.stab, plane.airframe.fin)
    if any(surface is not None and surface.controls for surface in surfaces):
        gauges.append(Gauge("hinge bevels", HINGE, "knife laid along the slope"))
    return tuple(gauge for gauge in gauges if gauge.angle > LEAST)


def _dihedral(plane: Plane) -> list[Gauge]:
    """A gauge for each panel that rises, and for the slanted ends at each joint."""
    panels, units = plane.design.wing.panel, plane.design.units
    gauges: list[Gauge] = []
    before = 0.0
    for number, panel in enumerate(panels, 1):
        rise = length_words(abs(panel.span * math.sin(panel.dihedral)), units)
        many = f", panel {number}" if len(panels) > 1 else ""
        gauges.append(
            Gauge(
                f"dihedral{many}",
                abs(panel.dihedral),
                f"between bench and underside; its tip stands {rise} "
                f"{'higher' if panel.dihedral >= 0 else 'lower'} than its root",
            )
        )
        where = "at the centre" if number == 1 else f"between panels {number - 1} and {number}"
        # At the centre both halves rise, so each end slants by the whole angle of its panel.
        slant = abs(panel.dihedral if number == 1 else (panel.dihedral - before) / 2)
        words = "off square, on each of the two ends, so that they meet face to face"
        gauges.append(Gauge(f"spar and root ends {where}", slant, words))
        before = panel.dihedral
    return gauges


def _spar_top(plane: Plane) -> list[Gauge]:
    """Slope of the upper skin over the spar against the underside, to which its top is bevelled."""
    section = plane.airframe.wing.panels[0].section
    if section.spar_box is None:
        return []
    ends = (section.spar_box[0] / section.chord, section.spar_box[2] / section.chord)
    if abs(ends[1] - ends[0]) < 1e-6:
        return []
    upper, lower = (np.interp(ends, *np.transpose(side)) for side in (section.upper, section.lower))
    slopes = [math.atan2(float(z[1] - z[0]), ends[1] - ends[0]) for z in (upper, lower)]
    angle = slopes[0] - slopes[1]
    words = f"top of the spar against its foot, higher at the {'rear' if angle > 0 else 'front'}"
    return [Gauge("spar top", abs(angle), words)]


def draw_gauges(
    canvas: Canvas,
    gauges: Sequence[Gauge],
    *,
    heading: Heading,
    paper: Paper,
    scale: float = 1.0,
) -> None:
    """Draw every gauge as a right-angled wedge with its angle and the height of its thick end.

    Args:
        canvas: The PDF. [-]
        gauges: Gauges; with none, no page is drawn. [-]
        heading: What the sheets say about the plane. [-]
        paper: Paper of these pages. [-]
        scale: Correction for the printer. [-]

    Source:
        Height of the thick end = length x tan(angle).

    Example:
        >>> draw_gauges(canvas, gauges, heading=heading, paper=paper)
    """
    page = (paper.width * PER_METRE, paper.height * PER_METRE)
    y = 0.0
    for index, gauge in enumerate(gauges):
        base, height = gauge_size(gauge.angle, heading.units)
        needed = height + 17.0
        if index == 0 or y - needed < EDGE + FOOT:
            if index:
                canvas.showPage()
            y = _start(canvas, heading, page, scale)
        y = _wedge(canvas, gauge, (base, height), y, heading.units)
    if gauges:
        canvas.showPage()


def gauge_size(angle: float, units: str) -> tuple[float, float]:
    """Length and height of a wedge.

    In inches the height is a whole number of 1/32 in and the length goes with it, so that both can
    be measured with a ruler.

    Args:
        angle: [rad]
        units: "metric" or "inch". [-]

    Returns:
        Length and height. [mm], [mm]

    Source:
        Height = length x tan(angle).

    Example:
        >>> [round(side / 25.4, 4) for side in gauge_size(math.radians(2.0), "inch")]
        [4.4744, 0.1562]
    """
    base, slope = STEEP if angle > STEEP_FROM else BASE, math.tan(angle)
    if units != "inch":
        return base, base * slope
    step = 25.4 / 32.0
    height = step * round(base * slope / step)
    # A wedge flatter than half a step has no such height; its own stands in decimals.
    return (height / slope, height) if height else (base, base * slope)


def _start(canvas: Canvas, heading: Heading, page: tuple[float, float], scale: float) -> float:
    start_page(canvas, *page, scale)
    top = page[1] / scale - EDGE - 6.0
    write_line(canvas, EDGE, top, f"{heading.plane}: angle gauges, full size", size=6.0, bold=True)
    words = "Glue to scrap board and cut out. Angles are easier to hold against than to measure."
    write_line(canvas, EDGE, top - 6.5, words, size=3.1)
    draw_scales(canvas, EDGE, EDGE)
    return top - 15.0


def _wedge(canvas: Canvas, gauge: Gauge, size: tuple[float, float], y: float, units: str) -> float:
    base, height = size
    low = y - height - 1.0
    set_style(canvas, "cut")
    path = canvas.beginPath()
    path.moveTo(EDGE, low)
    path.lineTo(EDGE + base, low)
    path.lineTo(EDGE + base, low + height)
    path.close()
    canvas.drawPath(path, stroke=1, fill=0)
    thick, long = (length_words(side / PER_METRE, units) for side in (height, base))
    title = f"{gauge.name}: {angle_words(gauge.angle)}"
    write_line(canvas, EDGE, low - 4.6, title, size=3.4, bold=True)
    write_line(canvas, EDGE, low - 8.8, f"{thick} over {long}: {gauge.words}", size=2.9)
    return low - 16.0
