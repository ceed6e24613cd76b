"""Two versions of a plane drawn over one another, three views to one scale."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

from foamwright.core.errors import OutputError
from foamwright.core.files import write_atomically
from foamwright.core.units import format_value
from foamwright.sheets.easel import View, draw_line, draw_words
from foamwright.sheets.paper import PAPERS
from foamwright.sheets.silhouettes import Shape, from_above, from_ahead, from_side
from foamwright.sheets.views import arrange, rendered

if TYPE_CHECKING:
    from foamwright.plane import Plane

SUFFIXES = (".svg", ".png", ".pdf")
EDGE = 8.0  # mm
OLD, NEW = "#b0552f", "#1d1d1d"
POINT = 72 / 25.4
SHEETS = {"metric": PAPERS["a3"], "inch": PAPERS["tabloid"]}  # lying

type Axes = Any


def draw_overlay(before: Plane, after: Plane, path: Path) -> Path:
    """Draw the version before, dashed, under the new one, from above, the side and ahead.

    Args:
        before: Version before. [-]
        after: New version. [-]
        path: File to write (.svg, .png or .pdf). [-]

    Returns:
        The file.

    Raises:
        OutputError: The file's ending is not known, or it cannot be written.

    Source:
        Definition; line work after ISO 128.

    Example:
        >>> draw_overlay(plane, plane, Path("both.svg"))
        PosixPath('both.svg')
    """
    if path.suffix.lower() not in SUFFIXES:
        raise OutputError(
            f"A drawing cannot be written as '{path.suffix or path.name}'; "
            "the file must end in .svg, .png or .pdf."
        )
    write_atomically(path, rendered(_figure(before, after), path.suffix.lower()), overwrite=True)
    return path


def _shapes(plane: Plane) -> tuple[list[Shape], list[Shape], list[Shape]]:
    frame = plane.airframe
    return from_above(frame), from_side(frame), from_ahead(frame)


def _figure(before: Plane, after: Plane) -> Any:  # noqa: ANN401 -- a figure of a library imported late
    from matplotlib.figure import Figure

    paper = SHEETS[after.design.units]
    size = (paper.height * 1000, paper.width * 1000)
    figure = Figure(figsize=(size[0] / 25.4, size[1] / 25.4), facecolor="white")
    axes: Axes = figure.add_axes((0, 0, 1, 1))
    axes.set_xlim(0, size[0])
    axes.set_ylim(0, size[1])
    axes.set_axis_off()
    old, new = _shapes(before), _shapes(after)
    reach = 0.5 * max(p.airframe.propeller_diameter for p in (before, after))
    both = ([*old[0], *new[0]], [*old[1], *new[1]], [*old[2], *new[2]])
    ratio, views = arrange(both, paper, reach)
    for view, under, over in zip(views, old, new, strict=True):
        _draw(axes, view, under, OLD, dash=(0, (5, 3)), width=0.5, order=2)
        _draw(axes, view, over, NEW, dash="-", width=0.5, order=3)
    _balance(axes, views[0], before, OLD)
    _balance(axes, views[0], after, NEW)
    _legend(axes, size, (before, after), ratio)
    return figure


def _draw(
    axes: Axes,
    view: View,
    shapes: list[Shape],
    colour: str,
    *,
    dash: Any,  # noqa: ANN401 -- a line style of matplotlib
    width: float,
    order: int,
) -> None:
    for shape in shapes:
        xs, ys = zip(*(view.at(point) for point in (*shape.points, shape.points[0])), strict=True)
        axes.plot(xs, ys, color=colour, linestyle=dash, linewidth=width * POINT, zorder=order)


def _balance(axes: Axes, view: View, plane: Plane, colour: str) -> None:
    x, y = view.at((0.0, -plane.balance.cg[0]))
    axes.plot([x - 4, x + 4], [y, y], color=colour, linewidth=0.35 * POINT, zorder=5)
    axes.plot([x], [y], marker="o", markersize=5, color=colour, fillstyle="none", zorder=5)


def _legend(
    axes: Axes, size: tuple[float, float], planes: tuple[Plane, Plane], ratio: float
) -> None:
    right, top = size[0] - EDGE, size[1] - EDGE
    frame = [(EDGE, EDGE), (right, EDGE), (right, top), (EDGE, top), (EDGE, EDGE)]
    draw_line(axes, frame, width=0.7)
    left, y = size[0] - 150.0, 34.0
    marks = (("before", OLD, (0, (5, 3))), ("after", NEW, "-"))
    draw_words(axes, (left, y + 8.0), planes[1].design.name, size=4.5, bold=True, left=True)
    for plane, (when, colour, dash) in zip(planes, marks, strict=True):
        axes.plot([left, left + 18], [y, y], color=colour, linestyle=dash, linewidth=0.5 * POINT)
        mass = format_value(plane.balance.all_up_mass, "mass", plane.design.units)
        words = f"{when}: {mass}, CG at the ring"
        draw_words(axes, (left + 22, y), words, size=3.6, left=True)
        y -= 7.0
    draw_words(axes, (left, y), f"Scale 1 : {ratio:g}", size=3.6, left=True)
