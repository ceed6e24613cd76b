"""A picture of a layout for a page on screen: all boards side by side."""

from __future__ import annotations

import io
import math
from collections.abc import Sequence
from pathlib import Path
from typing import Any

import shapely
from shapely import LineString
from shapely.geometry.base import BaseGeometry

from foamwright.core.files import write_atomically
from foamwright.parts.model import Part
from foamwright.sheets.drawing import board_drawings
from foamwright.sheets.model import Drawing, Layout, Text
from foamwright.sheets.room import find_spot, free_room
from foamwright.sheets.styles import STYLES

WIDE = 0.11  # in of picture for a centimetre of board, before shrinking
LARGEST = 13.0  # in, widest picture
DPI = 110
SPACE = 0.03  # m between boards
ROW = 2  # boards side by side
WOOD = "#f4efe4"
PAPER = "#ffffff"
POINTS = 72.0  # in an inch
NAME_SIZES = (7.5, 6.5, 5.5)  # points, of a part's name on the picture
LETTER = 0.58  # usual width of a letter over the size of type


def draw_board_picture(
    layout: Layout, parts: Sequence[Part], *, path: Path, units: str = "metric"
) -> Path:
    """Draw a layout as a PNG picture.

    Args:
        layout: Where the parts lie. [-]
        parts: All parts of the plane. [-]
        path: File to write. [-]
        units: "metric" or "inch". [-]

    Returns:
        The path written. [-]

    Source:
        Definition.

    Example:
        >>> draw_board_picture(layout, parts, path=Path("boards.png"))  # doctest: +SKIP
        PosixPath('boards.png')
    """
    from matplotlib.figure import Figure

    drawings = board_drawings(layout, parts, units=units)
    columns = min(ROW, max(1, len(drawings)))
    rows = max(1, -(-len(drawings) // columns))
    length = max((drawing.length for drawing in drawings), default=layout.board_length)
    width = max((drawing.width for drawing in drawings), default=layout.board_width)
    wide = columns * (length + SPACE) + SPACE
    tall = rows * (width + 2 * SPACE) + SPACE
    inches = min(LARGEST, wide * 100 * WIDE)
    figure = Figure(figsize=(inches, inches * tall / wide), facecolor="white")
    axes: Any = figure.add_axes((0, 0, 1, 1))
    axes.set_xlim(0, wide)
    axes.set_ylim(0, tall)
    axes.set_axis_off()
    outlines = {placement.part_id: placement.outline for placement in layout.placements}
    for index, drawing in enumerate(drawings):
        row, column = divmod(index, columns)
        x = SPACE + column * (length + SPACE)
        y = tall - (row + 1) * (width + 2 * SPACE)
        _board(axes, drawing, (x, y), outlines, inches / wide)
    buffer = io.BytesIO()
    figure.savefig(buffer, format="png", dpi=DPI, metadata={"Software": None})
    write_atomically(path, buffer.getvalue(), overwrite=True)
    return path


def _board(
    axes: Any,  # noqa: ANN401 -- axes of a library imported late
    drawing: Drawing,
    corner: tuple[float, float],
    outlines: dict[str, shapely.Polygon],
    inches: float,
) -> None:
    dx, dy = corner
    for stroke in drawing.strokes:
        if stroke.kind == "note":
            continue
        style = STYLES[stroke.kind]
        points = [*stroke.points, stroke.points[0]] if stroke.closed else list(stroke.points)
        xs, ys = [x + dx for x, _ in points], [y + dy for _, y in points]
        if stroke.kind in ("board", "cut") and stroke.closed:
            hole = stroke.kind == "cut" and not _is_outer(stroke.points, outlines[stroke.part])
            fill = WOOD if stroke.kind == "board" or hole else PAPER
            axes.fill(xs, ys, facecolor=fill, edgecolor="none", zorder=1)
        width = 0.9 if stroke.kind == "cut" else 0.6
        dash: Any = (0, tuple(1.2 * d for d in style.dash)) if style.dash else "-"
        axes.plot(xs, ys, color=str(style.grey), linewidth=width, linestyle=dash, zorder=2)
    lines: dict[str, list[LineString]] = {}
    for stroke in drawing.strokes:
        if stroke.part and stroke.kind not in ("cut", "note"):
            lines.setdefault(stroke.part, []).append(LineString(stroke.points))
    for text in drawing.texts:
        if text.bold:
            free = free_room(outlines[text.part], lines.get(text.part, []))
            _name(axes, text, free, corner, inches)
    axes.text(dx, dy + drawing.width + 0.008, drawing.name, fontsize=8, fontweight="bold", zorder=3)


def _name(
    axes: Any,  # noqa: ANN401 -- as above
    text: Text,
    free: BaseGeometry,
    corner: tuple[float, float],
    inches: float,
) -> None:
    """Write a part's name, larger than to scale, when the part has room for it."""
    words = text.words.split(" · ")[0]
    for size in NAME_SIZES:
        em = size / POINTS / inches
        spot = find_spot(free, LETTER * em * len(words), 1.1 * em, text.angle)
        if spot is None:
            continue
        axes.text(
            spot[0] + corner[0],
            spot[1] + corner[1],
            words,
            fontsize=size,
            rotation=math.degrees(text.angle),
            rotation_mode="anchor",
            ha="center",
            va="center",
            zorder=3,
        )
        return


def _is_outer(points: Sequence[tuple[float, float]], outline: shapely.Polygon) -> bool:
    first = shapely.get_coordinates(outline.exterior)[0]
    return math.dist(points[0], (float(first[0]), float(first[1]))) < 1e-9
