"""Dimension lines, marks and outlines on a sheet of paper; paper lengths in millimetres."""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Any

from foamwright.shape.model import Point
from foamwright.sheets.silhouettes import Shape

POINT = 72 / 25.4  # typographic points in a millimetre
OUTLINE, THIN, DIMENSION = 0.5, 0.25, 0.18  # mm, line widths as in ISO 128
ARROW = 2.4  # mm
TYPE = 3.0  # mm, height of type (em) of dimensions
FILLS = {
    "body": "#e9e6df",
    "wing": "#f7f5f0",
    "stab": "#f7f5f0",
    "fin": "#f7f5f0",
    "aileron": "#dcd8ce",
    "elevator": "#dcd8ce",
    "rudder": "#dcd8ce",
}
WORDS = {"ha": "center", "va": "center", "family": "DejaVu Sans", "color": "black"}

type Axes = Any


@dataclass(frozen=True, slots=True)
class View:
    """Where one view of the plane lies on the paper.

    Attributes:
        x: Paper place of the view's origin. [mm]
        y: Paper place of the view's origin. [mm]
        scale: Paper millimetres for a metre of plane. [mm/m]
    """

    x: float
    y: float
    scale: float

    def at(self, point: Point) -> Point:
        """Put a point of the plane on the paper.

        Args:
            point: In the view's frame. [m]

        Returns:
            On the paper. [mm]

        Source:
            Definition.

        Example:
            >>> View(100.0, 50.0, 200.0).at((0.1, 0.0))
            (120.0, 50.0)
        """
        return self.x + self.scale * point[0], self.y + self.scale * point[1]


def draw_shapes(axes: Axes, view: View, shapes: Iterable[Shape]) -> None:
    """Draw outlines, filled, each over those before it.

    Args:
        axes: The paper. [-]
        view: Where the view lies. [-]
        shapes: Outlines, farthest first. [-]

    Source:
        Definition.

    Example:
        >>> draw_shapes(axes, view, shapes)
    """
    for order, shape in enumerate(shapes):
        xs, ys = zip(*(view.at(point) for point in shape.points), strict=True)
        axes.fill(
            xs,
            ys,
            facecolor=FILLS.get(shape.name, "#ffffff"),
            edgecolor="black",
            linewidth=OUTLINE * POINT,
            joinstyle="round",
            zorder=2 + 0.01 * order,
        )


def draw_line(
    axes: Axes, points: Sequence[Point], *, width: float = THIN, dash: Sequence[float] = ()
) -> None:
    """Draw a line on the paper.

    Args:
        axes: The paper. [-]
        points: Corners. [mm]
        width: Line width. [mm]
        dash: Lengths of ink and gap in turn. [mm]

    Source:
        Definition.

    Example:
        >>> draw_line(axes, [(0, 0), (10, 0)])
    """
    xs, ys = zip(*points, strict=True)
    style: Any = (0, tuple(length / width for length in dash)) if dash else "-"
    axes.plot(
        xs,
        ys,
        color="black",
        linewidth=width * POINT,
        linestyle=style,
        solid_capstyle="butt",
        dash_capstyle="butt",
        zorder=4,
    )


def draw_words(
    axes: Axes,
    at: Point,
    words: str,
    *,
    size: float = TYPE,
    angle: float = 0.0,
    bold: bool = False,
    left: bool = False,
    clear: bool = False,
) -> None:
    """Write words on the paper.

    Args:
        axes: The paper. [-]
        at: Their middle, or their left end. [mm]
        words: The words. [-]
        size: Height of type (em). [mm]
        angle: Reading direction. [rad]
        bold: Whether set bold. [-]
        left: Whether the place is their left end. [-]
        clear: Whether lines behind them are blanked out. [-]

    Source:
        Definition.

    Example:
        >>> draw_words(axes, (10, 10), "span 1168 mm")
    """
    axes.text(
        at[0],
        at[1],
        words,
        fontsize=size * POINT,
        rotation=math.degrees(angle),
        rotation_mode="anchor",
        fontweight="bold" if bold else "normal",
        zorder=6,
        bbox={"facecolor": "white", "edgecolor": "none", "pad": 0.8} if clear else None,
        **(WORDS | ({"ha": "left"} if left else {})),
    )


def draw_dimension(
    axes: Axes, ends: tuple[Point, Point], words: str, *, away: float, level: bool | None = None
) -> None:
    """Draw a dimension: lines out from both ends, an arrowed line between, its words above it.

    Args:
        axes: The paper. [-]
        ends: What is measured. [mm]
        words: Its length in words. [-]
        away: Distance of the dimension line; its sign chooses the side. [mm]
        level: True measures across the paper, False up the paper, None along the line itself. [-]

    Source:
        Drawing practice, as in ISO 129-1.

    Example:
        >>> draw_dimension(axes, ((0, 0), (50, 0)), "500 mm", away=10)
    """
    start, end = ends
    feet = _feet(start, end, away, level)
    for corner, foot in zip(ends, feet, strict=True):
        reach = math.dist(corner, foot)
        if reach > 0.5:
            u, v = (foot[0] - corner[0]) / reach, (foot[1] - corner[1]) / reach
            near = (corner[0] + 1.2 * u, corner[1] + 1.2 * v)
            far = (foot[0] + 1.5 * u, foot[1] + 1.5 * v)
            draw_line(axes, [near, far], width=DIMENSION)
    length = math.dist(*feet)
    angle = math.atan2(feet[1][1] - feet[0][1], feet[1][0] - feet[0][0])
    outside = length < 3 * ARROW
    for foot, sign in zip(feet, (1, -1), strict=True):
        _arrow_head(axes, foot, angle if sign == 1 else angle + math.pi, outside=outside)
    draw_line(axes, feet, width=DIMENSION)
    reading = _reading(angle)
    up = (-math.sin(reading), math.cos(reading))
    middle = ((feet[0][0] + feet[1][0]) / 2, (feet[0][1] + feet[1][1]) / 2)
    room = 0.56 * TYPE * len(words)
    if room > length - 1.0 and level is False:  # no room between the arrows: beside the line
        draw_words(axes, (feet[0][0] + 2.0, middle[1]), words, left=True)
        return
    if room > length - 1.0:
        right = max(feet[0][0], feet[1][0]) + (ARROW + 1.5 if outside else 1.5)
        draw_words(axes, (right, middle[1]), words, left=True)
        return
    lift = 0.75 * TYPE
    draw_words(axes, (middle[0] + lift * up[0], middle[1] + lift * up[1]), words, angle=reading)


def _feet(start: Point, end: Point, away: float, level: bool | None) -> tuple[Point, Point]:
    if level is True:
        y = (max if away > 0 else min)(start[1], end[1]) + away
        return (start[0], y), (end[0], y)
    if level is False:
        x = (max if away > 0 else min)(start[0], end[0]) + away
        return (x, start[1]), (x, end[1])
    angle = math.atan2(end[1] - start[1], end[0] - start[0])
    normal = (-math.sin(angle) * away, math.cos(angle) * away)
    return (
        (start[0] + normal[0], start[1] + normal[1]),
        (end[0] + normal[0], end[1] + normal[1]),
    )


def _reading(angle: float) -> float:
    turned = math.remainder(angle, math.pi)
    return math.pi / 2 if turned < -math.pi / 2 + 1e-6 else turned


def _arrow_head(axes: Axes, tip: Point, angle: float, *, outside: bool) -> None:
    """Fill an arrow head with its tip on the measured end."""
    turn = angle + math.pi if outside else angle
    cosine, sine = math.cos(turn), math.sin(turn)
    corners = [
        (tip[0] + ARROW * cosine - side * sine, tip[1] + ARROW * sine + side * cosine)
        for side in (-0.4, 0.4)
    ]
    xs, ys = zip(tip, *corners, strict=True)
    axes.fill(xs, ys, facecolor="black", edgecolor="none", zorder=5)
    if outside:
        end = (tip[0] + 2 * ARROW * cosine, tip[1] + 2 * ARROW * sine)
        draw_line(axes, [tip, end], width=DIMENSION)


def draw_balance_mark(axes: Axes, at: Point, radius: float = 2.6) -> None:
    """Draw the quartered circle of a centre of gravity.

    Args:
        axes: The paper. [-]
        at: Its middle. [mm]
        radius: [mm]

    Source:
        Drawing practice.

    Example:
        >>> draw_balance_mark(axes, (50, 50))
    """
    from matplotlib.patches import Circle, Wedge

    axes.add_patch(Circle(at, radius, facecolor="white", edgecolor="black", linewidth=1, zorder=5))
    for start in (0, 180):
        wedge = Wedge(
            at, radius, start, start + 90, facecolor="black", edgecolor="none", zorder=5.1
        )
        axes.add_patch(wedge)


def draw_diamond(axes: Axes, at: Point, radius: float = 2.4) -> None:
    """Draw the diamond of the neutral point.

    Args:
        axes: The paper. [-]
        at: Its middle. [mm]
        radius: [mm]

    Source:
        Definition.

    Example:
        >>> draw_diamond(axes, (50, 50))
    """
    xs = [at[0] + radius, at[0], at[0] - radius, at[0]]
    ys = [at[1], at[1] + radius, at[1], at[1] - radius]
    axes.fill(xs, ys, facecolor="white", edgecolor="black", linewidth=1, zorder=5)
