"""Dimensions, balance marks and equipment on the three views."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any

from foamwright.parts.model import Item
from foamwright.shape.model import LiftingSurface, Point
from foamwright.shape.planform import flat_span
from foamwright.sheets.easel import (
    THIN,
    View,
    draw_balance_mark,
    draw_diamond,
    draw_dimension,
    draw_line,
    draw_words,
)
from foamwright.sheets.silhouettes import section_outline, station, trailing
from foamwright.sheets.words import angle_words, length_words

if TYPE_CHECKING:
    from foamwright.aero.model import AeroResult
    from foamwright.plane import Plane

CENTRE = (6.0, 1.2, 0.8, 1.2)  # mm, dashes of a centre line
HIDDEN = (1.6, 0.9)  # mm, dashes of what lies inside
EQUIPMENT = ("motor", "pack", "controller", "receiver")  # and every servo
LABEL_STEP = 4.4  # mm between names of equipment
SLIGHT = 5e-4  # m or rad, less is not worth a dimension

type Axes = Any


def mark_above(axes: Axes, view: View, plane: Plane, results: AeroResult | None) -> None:
    """Put dimensions, equipment and balance marks on the view from above.

    Args:
        axes: The paper. [-]
        view: Where the view lies. [-]
        plane: The plane. [-]
        results: Aerodynamic results; None when the model cannot say them. [-]

    Source:
        Definition.

    Example:
        >>> mark_above(axes, view, plane, None)
    """
    units, wing, stab = plane.design.units, plane.airframe.wing, plane.airframe.stab
    body = plane.airframe.body.stations
    nose, tail = view.at((0.0, -body[0].x + 0.03)), view.at((0.0, -body[-1].x - 0.03))
    draw_line(axes, [nose, tail], width=THIN / 2, dash=CENTRE)
    _equipment_boxes(axes, view, plane, above=True)
    tip, tip_chord, _ = station(wing, 1.0)
    _, root_chord, _ = station(wing, 0.0)
    ends = (view.at((-tip[1], -tip[0])), view.at((tip[1], -tip[0])))
    top = view.at((0.0, 0.0))[1]
    away = max(top - max(ends[0][1], ends[1][1]), 0.0) + 14.0
    words = _span_words(flat_span(plane.design), 2 * tip[1], units)
    draw_dimension(axes, ends, words, away=away, level=True)
    _chord(axes, view, tip[1], tip[0], tip_chord, units, away=8.0)
    if abs(root_chord - tip_chord) > SLIGHT:
        y = -0.16 * tip[1]
        _chord(axes, view, y, station(wing, 0.16)[0][0], root_chord, units, away=0.0)
    _tail_above(axes, view, stab, units)
    _axis_marks(axes, view, plane, results)


def _span_words(flat: float, across: float, units: str) -> str:
    """The span that was asked for and is cut, and the drawn one where dihedral makes it less."""
    said, drawn = length_words(flat, units), length_words(across, units)
    return said if said == drawn else f"{said} along the panels ({drawn} across)"


def _chord(
    axes: Axes, view: View, y: float, edge: float, chord: float, units: str, *, away: float
) -> None:
    ends = (view.at((y, -edge)), view.at((y, -edge - chord)))
    draw_dimension(axes, ends, length_words(chord, units), away=away, level=False)


def _tail_above(axes: Axes, view: View, stab: LiftingSurface, units: str) -> None:
    tip, _, _ = station(stab, 1.0)
    root, chord, _ = station(stab, 0.0)
    low = min(-root[0] - chord, -tip[0])
    ends = (view.at((-tip[1], low)), view.at((tip[1], low)))
    draw_dimension(axes, ends, length_words(2 * tip[1], units), away=-7.0, level=True)
    back = trailing(*station(stab, 1.0))
    sides = (view.at((tip[1], -tip[0])), view.at((tip[1], -back[0])))
    words = length_words(back[0] - tip[0], units)
    draw_dimension(axes, sides, words, away=7.0, level=False)


def _axis_marks(axes: Axes, view: View, plane: Plane, results: AeroResult | None) -> None:
    """Draw balance point and neutral point on the centre line."""
    if results is not None:
        draw_diamond(axes, view.at((0.0, -results.neutral_point_x)))
    draw_balance_mark(axes, view.at((0.0, -plane.balance.cg[0])))


def mark_side(axes: Axes, view: View, plane: Plane, results: AeroResult | None) -> None:
    """Put dimensions, equipment, thrust line and balance marks on the view from the side.

    Args:
        axes: The paper. [-]
        view: Where the view lies. [-]
        plane: The plane. [-]
        results: Aerodynamic results; None when the model cannot say them. [-]

    Source:
        Definition.

    Example:
        >>> mark_side(axes, view, plane, None)
    """
    units, frame = plane.design.units, plane.airframe
    body = frame.body.stations
    low = min(s.bottom for s in body)
    nose, tail = (body[0].x, low), (body[-1].x, low)
    draw_line(
        axes, [view.at((body[0].x - 0.02, 0.0)), view.at((body[-1].x + 0.02, 0.0))], width=THIN / 2,
        dash=CENTRE,
    )  # fmt: skip
    _propeller_side(axes, view, plane)
    deep = _names(axes, view, plane, low)
    ends = (view.at(nose), view.at(tail))
    words = length_words(body[-1].x - body[0].x, units)
    draw_dimension(axes, ends, words, away=-(deep + 14.0), level=True)
    edge = frame.wing.panels[0].root
    ends = (view.at(nose), view.at((edge[0], low)))
    words = length_words(edge[0] - body[0].x, units)
    draw_dimension(axes, ends, words, away=-(deep + 7.0), level=True)
    wing, tail_quarter = frame.wing.quarter_chord_x, frame.stab.quarter_chord_x
    ends = (view.at((wing, low)), view.at((tail_quarter, low)))
    words = f"tail arm {length_words(tail_quarter - wing, units)}"
    draw_dimension(axes, ends, words, away=-(deep + 7.0), level=True)
    _fin_height(axes, view, plane)
    _incidence(axes, view, plane)
    _balance_side(axes, view, plane, results)


def _propeller_side(axes: Axes, view: View, plane: Plane) -> None:
    x, _, z = plane.airframe.thrust_point
    along, _, up = plane.airframe.thrust_axis
    half = plane.airframe.propeller_diameter / 2
    lean = math.atan2(up, abs(along))  # negative: down thrust
    blade = (half * math.sin(lean), half * math.cos(lean))
    disc = [view.at((x + blade[0], z + blade[1])), view.at((x - blade[0], z - blade[1]))]
    draw_line(axes, disc, width=THIN, dash=HIDDEN)
    back = (x + 0.2 * math.cos(lean), z - 0.2 * math.sin(lean))
    draw_line(axes, [view.at((x, z)), view.at(back)], width=THIN / 2, dash=CENTRE)
    words = f"propeller {length_words(2 * half, plane.design.units)}"
    top = view.at((x, z + half))
    draw_words(axes, (top[0] - 13.0, top[1] + 2.4), words, size=2.7, left=True)


def _names(axes: Axes, view: View, plane: Plane, low: float) -> float:
    """Outline the equipment and name it under the fuselage; hands back the room used. [mm]."""
    items = _equipment_boxes(axes, view, plane, above=False)
    items.sort(key=lambda item: item.at[0])
    base = view.at((0.0, low))[1] - 5.0
    for row, item in enumerate(reversed(items)):
        at = view.at((item.at[0], item.at[2] - item.size[2] / 2))
        y = base - row * LABEL_STEP
        draw_line(axes, [at, (at[0], y), (at[0] + 3.0, y)], width=THIN / 2)
        draw_words(axes, (at[0] + 4.0, y), item.name, size=2.7, left=True, clear=True)
    return 2.0 + len(items) * LABEL_STEP


def _equipment_boxes(axes: Axes, view: View, plane: Plane, *, above: bool) -> list[Item]:
    shown = [
        item for item in plane.parts.items if item.id in EQUIPMENT or item.id.startswith("servo")
    ]
    for item in shown:
        x, y, z = item.at
        long, wide, tall = item.size
        if above:
            middle, half = (y, -x), (wide / 2, long / 2)
        else:
            middle, half = (x, z), (long / 2, tall / 2)
        signs = ((-1, -1), (1, -1), (1, 1), (-1, 1), (-1, -1))
        corners: list[Point] = [
            view.at((middle[0] + a * half[0], middle[1] + b * half[1])) for a, b in signs
        ]
        draw_line(axes, corners, width=THIN, dash=HIDDEN)
    return shown


def _fin_height(axes: Axes, view: View, plane: Plane) -> None:
    fin = plane.airframe.fin
    if fin is None:
        return
    root, _, _ = station(fin, 0.0)
    tip = trailing(*station(fin, 1.0))
    back = trailing(*station(fin, 0.0))
    x = max(tip[0], back[0])
    ends = (view.at((x, root[2])), view.at((x, tip[2])))
    words = length_words(abs(tip[2] - root[2]), plane.design.units)
    draw_dimension(axes, ends, words, away=7.0, level=False)


def _incidence(axes: Axes, view: View, plane: Plane) -> None:
    root = plane.airframe.wing.panels[0]
    at = view.at((root.root[0] + 0.5 * root.root_chord, _wing_top(plane)))
    words = f"wing incidence {angle_words(plane.design.wing.incidence)} (flat bottom)"
    draw_words(axes, (at[0], at[1] + 12.0), words, size=2.7)


def _wing_top(plane: Plane) -> float:
    panels = plane.airframe.wing.panels
    return max(
        z for panel in panels for tip in (0, 1) for _, z in section_outline(panel, tip=tip == 1)
    )


def _balance_side(axes: Axes, view: View, plane: Plane, results: AeroResult | None) -> None:
    """Draw the balance point at its height, its range and the neutral point above the wing."""
    cg = plane.balance.cg
    if results is not None:
        y = view.at((0.0, _wing_top(plane)))[1] + 5.0
        ends = [view.at((x, 0.0))[0] for x in (results.cg_forward, results.cg_aft)]
        draw_line(axes, [(ends[0], y), (ends[1], y)], width=1.2)
        for x in ends:
            draw_line(axes, [(x, y - 1.6), (x, y + 1.6)], width=THIN)
        draw_words(axes, (min(ends) - 2.0 - 15.5, y), "CG range", size=2.7, left=True)
        neutral = view.at((results.neutral_point_x, 0.0))[0]
        draw_diamond(axes, (neutral, y))
        draw_words(axes, (neutral + 4.0, y), "neutral point", size=2.7, left=True)
    draw_balance_mark(axes, view.at((cg[0], cg[2])))


def mark_ahead(axes: Axes, view: View, plane: Plane) -> None:
    """Put propeller, dihedral and height on the view from ahead.

    Args:
        axes: The paper. [-]
        view: Where the view lies. [-]
        plane: The plane. [-]

    Source:
        Definition.

    Example:
        >>> mark_ahead(axes, view, plane)
    """
    from matplotlib.patches import Circle

    _, y, z = plane.airframe.thrust_point
    radius = plane.airframe.propeller_diameter / 2 * view.scale
    axes.add_patch(
        Circle(
            view.at((y, z)),
            radius,
            fill=False,
            linewidth=0.7,
            linestyle=(0, (6, 3)),
            zorder=4,
        )
    )
    for panel in plane.airframe.wing.panels:
        rise = panel.tip[2] - panel.root[2]
        run = panel.tip[1] - panel.root[1]
        angle = math.atan2(rise, run)
        if abs(angle) < SLIGHT:
            continue
        middle = view.at((panel.root[1] + 0.6 * run, panel.root[2] + 0.6 * rise))
        words = f"{angle_words(angle)} dihedral"
        draw_words(axes, (middle[0], middle[1] + 7.5), words, size=2.7, angle=angle)
    tip = plane.airframe.wing.panels[-1].tip
    root = plane.airframe.wing.panels[0].root
    if tip[2] - root[2] > 0.004:
        base = view.at((tip[1], root[2]))
        draw_line(
            axes, [view.at((0.0, root[2])), (base[0] + 4.0, base[1])], width=THIN / 2, dash=CENTRE
        )
        ends = (base, view.at((tip[1], tip[2])))
        words = length_words(tip[2] - root[2], plane.design.units)
        draw_dimension(axes, ends, words, away=6.0, level=False)
