"""Three views of a plane to scale on one sheet, with the dimensions a builder asks for."""

from __future__ import annotations

import io
import re
from operator import le
from pathlib import Path
from typing import TYPE_CHECKING, Any

from foamwright.core.errors import FoamwrightError, OutputError
from foamwright.core.files import write_atomically
from foamwright.sheets.easel import THIN, View, draw_line, draw_shapes, draw_words
from foamwright.sheets.notes import draw_title, fact_rows
from foamwright.sheets.paper import PAPERS, Paper
from foamwright.sheets.silhouettes import Shape, from_above, from_ahead, from_side
from foamwright.sheets.view_marks import mark_above, mark_ahead, mark_side

if TYPE_CHECKING:
    from foamwright.plane import Plane

SUFFIXES = (".svg", ".png", ".pdf")
SHEETS = {"metric": PAPERS["a3"], "inch": PAPERS["tabloid"]}  # lying
SCALES = (1, 2, 2.5, 3, 4, 5, 6, 7.5, 8, 10, 12, 15, 20, 25, 30)  # one to so many
EDGE = 8.0  # mm from the paper's edge to the frame
TITLE = 20.0  # mm, height of the title strip
FACTS = 5.0  # mm, a row of the table of facts
ABOVE_ROOM = (28.0, 34.0)  # mm beside and over the view from above for its dimensions
SPAN_ROOM = 21.0  # mm over the view from above, of that, for the span
SIDE_ROOM = (26.0, 66.0)  # same for the view from the side
FACTS_ROOM = 88.0  # mm for the table of figures under the view from the side
AHEAD_ROOM = 20.0  # mm under and over the view from ahead
PICTURE_DPI = 150  # of a PNG: 2480 x 1754 pixels for A3

type Axes = Any


def draw_three_view(plane: Plane, path: Path | None = None) -> Any:  # noqa: ANN401 -- a path or a figure of a library imported late
    """Draw a plane from above, from the side and from ahead, to scale on one sheet.

    A3 for metric designs, Tabloid for inch ones, lying, at the largest usual scale that fits.

    Args:
        plane: The plane. [-]
        path: File to write (.svg, .png or .pdf); None hands back a figure. [-]

    Returns:
        The path written, or the matplotlib figure. [-]

    Raises:
        OutputError: The file's ending is not known, or it cannot be written.

    Source:
        Definition; line work after ISO 128 and ISO 129-1.

    Example:
        >>> draw_three_view(plane, Path("cob.svg"))
        PosixPath('cob.svg')
    """
    if path is not None and path.suffix.lower() not in SUFFIXES:
        raise OutputError(
            f"A drawing cannot be written as '{path.suffix or path.name}'; "
            "the file must end in .svg, .png or .pdf."
        )
    figure = _figure(plane)
    if path is None:
        return figure
    write_atomically(path, rendered(figure, path.suffix.lower()), overwrite=True)
    return path


def _figure(plane: Plane) -> Any:  # noqa: ANN401 -- as above
    from matplotlib.figure import Figure

    paper = SHEETS[plane.design.units]
    size = (paper.height * 1000, paper.width * 1000)
    figure = Figure(figsize=(size[0] / 25.4, size[1] / 25.4), facecolor="white")
    axes: Axes = figure.add_axes((0, 0, 1, 1))
    axes.set_xlim(0, size[0])
    axes.set_ylim(0, size[1])
    axes.set_axis_off()
    _frame(axes, size)
    shapes = (
        from_above(plane.airframe),
        from_side(plane.airframe),
        from_ahead(plane.airframe),
    )
    ratio, views = arrange(shapes, paper, _propeller_reach(plane))
    results = _results(plane)
    for view, outlines in zip(views, shapes, strict=True):
        draw_shapes(axes, view, outlines)
    mark_above(axes, views[0], plane, results)
    mark_side(axes, views[1], plane, results)
    mark_ahead(axes, views[2], plane)
    _facts(axes, size, plane, results)
    draw_title(axes, (EDGE, EDGE, size[0] - EDGE, EDGE + TITLE), plane, ratio)
    return figure


def _results(plane: Plane) -> Any:  # noqa: ANN401 -- an AeroResult or None
    """Take the aerodynamic results when the model can say them; the outlines need none."""
    try:
        return plane.aero
    except FoamwrightError:
        return None


def _propeller_reach(plane: Plane) -> float:
    return plane.airframe.propeller_diameter / 2


def arrange(
    shapes: tuple[list[Shape], list[Shape], list[Shape]], paper: Paper, propeller: float
) -> tuple[float, tuple[View, View, View]]:
    """Choose the scale and the places of the three views on the sheet.

    From above at the left with the view from ahead under it, span over span; from the side at the
    right.

    Args:
        shapes: Outlines from above, from the side, from ahead. [m]
        paper: The sheet, used lying. [-]
        propeller: Half the propeller's diameter. [m]

    Returns:
        One to so many, and the three views. [-]

    Source:
        Definition.

    Example:
        >>> square = [Shape("wing", ((0, 0), (1, 0), (1, 1), (0, 1)))]
        >>> arrange((square, square, square), PAPERS["a3"], 0.1)[0]
        12
    """
    above, side, ahead = (_extent(outlines) for outlines in shapes)
    width, height = paper.height * 1000, paper.width * 1000
    tall = max(ahead[3], propeller) - min(ahead[1], -propeller)
    room = (width - 2 * EDGE, height - 2 * EDGE - TITLE)

    def needs(scale: float) -> tuple[float, float]:
        wide = scale * (above[2] - above[0] + side[2] - side[0]) + ABOVE_ROOM[0] + SIDE_ROOM[0]
        left = scale * (above[3] - above[1] + tall) + ABOVE_ROOM[1] + AHEAD_ROOM
        right = scale * (side[3] - side[1]) + SIDE_ROOM[1] + FACTS_ROOM
        return wide, max(left, right)

    fitting = [r for r in SCALES if all(map(le, needs(1000 / r), room))]
    ratio = fitting[0] if fitting else SCALES[-1]
    scale = 1000 / ratio
    wide, left = needs(scale)
    spare = max((room[0] - wide) / 3, 0.0)
    x_above = EDGE + spare + 8.0 - scale * above[0]
    over = max((room[1] - left) / 3, 0.0)
    y_above = height - EDGE - over - SPAN_ROOM - scale * above[3]
    y_ahead = EDGE + TITLE + over + AHEAD_ROOM / 2 - scale * min(ahead[1], -propeller)
    x_side = width - EDGE - spare - 16.0 - scale * side[2]
    y_side = height - EDGE - 26.0 - scale * side[3]
    views = (
        View(x_above, y_above, scale),
        View(x_side, y_side, scale),
        View(x_above, y_ahead, scale),
    )
    return ratio, views


def _extent(shapes: list[Shape]) -> tuple[float, float, float, float]:
    xs = [point[0] for shape in shapes for point in shape.points]
    ys = [point[1] for shape in shapes for point in shape.points]
    return min(xs), min(ys), max(xs), max(ys)


def _frame(axes: Axes, size: tuple[float, float]) -> None:
    right, top = size[0] - EDGE, size[1] - EDGE
    corners = [(EDGE, EDGE), (right, EDGE), (right, top), (EDGE, top), (EDGE, EDGE)]
    draw_line(axes, corners, width=0.7)


def _facts(axes: Axes, size: tuple[float, float], plane: Plane, results: Any) -> None:  # noqa: ANN401 -- as above
    rows = fact_rows(plane, results)
    left, bottom = size[0] - EDGE - 122.0, EDGE + TITLE + 8.0
    y = bottom + FACTS * len(rows)
    draw_words(axes, (left, y + 2.5), "The plane in figures", size=4.0, bold=True, left=True)
    for name, value in rows:
        y -= FACTS
        draw_words(axes, (left, y + 1.8), name, size=3.2, left=True)
        draw_words(axes, (left + 58.0, y + 1.8), value, size=3.2, left=True)
        draw_line(axes, [(left, y - 0.5), (left + 114.0, y - 0.5)], width=THIN / 2)


def rendered(figure: Any, suffix: str) -> bytes:  # noqa: ANN401 -- as above
    """Draw a figure into memory, with no date and no random ids in it.

    Args:
        figure: Of matplotlib. [-]
        suffix: ".svg", ".png" or ".pdf". [-]

    Returns:
        The file's bytes. [-]

    Source:
        Definition.

    Example:
        >>> rendered(draw_three_view(plane), ".pdf")[:5]
        b'%PDF-'
    """
    import matplotlib as mpl

    metadata: dict[str, dict[str, None]] = {
        ".svg": {"Date": None, "Creator": None},
        ".pdf": {"CreationDate": None, "Creator": None, "Producer": None},
        ".png": {"Software": None},
    }
    settings: Any = {"svg.fonttype": "none", "svg.hashsalt": "foamwright", "pdf.fonttype": 42}
    buffer = io.BytesIO()
    with mpl.rc_context(settings):
        figure.savefig(buffer, format=suffix[1:], dpi=PICTURE_DPI, metadata=metadata[suffix])
    if suffix != ".svg":
        return buffer.getvalue()
    return _in_millimetres(buffer.getvalue().decode("utf-8")).encode("utf-8")


def _in_millimetres(text: str) -> str:
    """State the sheet's size in millimetres and drop what points outside the file."""
    text = re.sub(r"<!DOCTYPE.*?>\n?", "", text, count=1, flags=re.DOTALL)
    text = re.sub(r"<metadata>.*?</metadata>\n?", "", text, count=1, flags=re.DOTALL)

    def millimetres(found: re.Match[str]) -> str:
        value = float(found.group(2)) * 25.4 / 72
        return f'{found.group(1)}="{value:.4f}'.rstrip("0").rstrip(".") + 'mm"'

    return re.sub(r'\b(width|height)="([\d.]+)pt"', millimetres, text, count=2)
