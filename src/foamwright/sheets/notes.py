"""Title strip and table of figures of the three-view drawing."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any

from foamwright.core.unit_table import INCH
from foamwright.core.units import format_value
from foamwright.sheets.easel import draw_line, draw_words
from foamwright.sheets.words import angle_words, area_words, length_words, loading_words

if TYPE_CHECKING:
    from foamwright.aero.model import AeroResult
    from foamwright.plane import Plane

type Axes = Any


def fact_rows(plane: Plane, results: AeroResult | None) -> list[tuple[str, str]]:
    """List the figures that stand beside the views.

    Args:
        plane: The plane. [-]
        results: Aerodynamic results; None when the model cannot say them. [-]

    Returns:
        (name, value in words) rows. [-]

    Source:
        Definition.

    Example:
        >>> fact_rows(plane, plane.aero)[0]
        ('all-up mass', '23.5 oz')
    """
    units = plane.design.units
    wing, stab, fin = plane.airframe.wing, plane.airframe.stab, plane.airframe.fin
    mass = plane.balance.all_up_mass
    rows = [
        ("all-up mass", format_value(mass, "mass", units)),
        ("wing area", area_words(wing.area, units)),
        ("wing loading", loading_words(mass, wing.area, units)),
        ("aspect ratio", f"{wing.aspect_ratio:.1f}"),
        ("mean chord", length_words(wing.mean_chord, units)),
        ("wing section", _section_words(plane)),
        ("stab area", f"{area_words(stab.area, units)} ({stab.area / wing.area:.0%} of wing)"),
    ]
    if fin is not None:
        rows.append(("fin area", area_words(fin.area, units)))
    rows.append(("thrust line", _thrust_words(plane)))
    rows += _balance_rows(plane, results)
    design = plane.design
    made = design.propeller  # sold by inches everywhere
    prop = f"{made.diameter / INCH:.3g} × {made.pitch / INCH:.3g} in {made.kind}"
    rows += [("motor", design.motor.stock), ("propeller", prop)]
    return rows


def _balance_rows(plane: Plane, results: AeroResult | None) -> list[tuple[str, str]]:
    units = plane.design.units
    edge = plane.airframe.wing.panels[0].root[0]

    def behind(x: float) -> str:
        words = length_words(abs(x - edge), units)
        return f"{words} {'behind' if x >= edge else 'ahead of'} wing LE"

    rows = [("balance point (CG)", behind(plane.balance.cg[0]))]
    if results is None:
        return [*rows, ("CG range, neutral point", "cannot say")]
    forward, aft = (length_words(x - edge, units) for x in (results.cg_forward, results.cg_aft))
    return [
        *rows,
        ("CG range", f"{forward} to {aft} behind LE"),
        ("neutral point", behind(results.neutral_point_x)),
        ("static margin", f"{results.static_margin:.0%} of mean chord"),
    ]


def _section_words(plane: Plane) -> str:
    section = plane.airframe.wing.panels[0].section
    return f"{section.build}, {section.thickness_ratio:.1%} thick"


def _thrust_words(plane: Plane) -> str:
    along, side, up = plane.airframe.thrust_axis
    down, right = math.atan2(-up, abs(along)), math.atan2(side, abs(along))
    # The axis points the way the thrust pulls: forward, so down thrust has it point down.
    return f"{angle_words(down)} down, {angle_words(right)} right"


def draw_title(
    axes: Axes, box: tuple[float, float, float, float], plane: Plane, ratio: float
) -> None:
    """Draw the strip with name, scale and what the drawing stands for.

    Args:
        axes: The paper. [-]
        box: Left, bottom, right, top of the strip. [mm]
        plane: The plane. [-]
        ratio: Scale, one to so many. [-]

    Source:
        Definition.

    Example:
        >>> draw_title(axes, (8, 8, 412, 28), plane, 5)
    """
    left, bottom, right, top = box
    draw_line(axes, [(left, top), (right, top)], width=0.5)
    middle = (bottom + top) / 2
    draw_words(axes, (left + 6, middle), plane.design.name, size=9, bold=True, left=True)
    cells = [
        ("drawing", "three views"),
        ("scale", f"1 : {ratio:g}"),
        ("dimensions", "inches" if plane.design.units == "inch" else "millimetres"),
        ("board", plane.design.board.stock),
    ]
    if plane.design.builder:
        cells.append(("builder", plane.design.builder))
    x = right
    for name, value in reversed(cells):
        wide = max(28.0, 0.62 * 3.4 * len(value) + 6.0)
        x -= wide
        draw_line(axes, [(x, bottom), (x, top)], width=0.25)
        draw_words(axes, (x + 2.5, top - 4.5), name, size=2.5, left=True)
        draw_words(axes, (x + 2.5, middle - 1.5), value, size=3.4, left=True)
