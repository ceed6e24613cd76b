"""Whole boards at true size on one page each, as a PDF for a copy shop or a plotter."""

import io
from collections.abc import Sequence

from foamwright.parts.model import Part
from foamwright.sheets.drawing import board_drawings
from foamwright.sheets.front_page import draw_front_page
from foamwright.sheets.gauges import Gauge, draw_gauges
from foamwright.sheets.model import Drawing, Heading, Layout
from foamwright.sheets.paper import Paper
from foamwright.sheets.pen import (
    PER_METRE,
    Canvas,
    draw_legend,
    draw_scales,
    draw_window,
    new_canvas,
    start_page,
    write_line,
)
from foamwright.sheets.templates import draw_templates
from foamwright.sheets.words import length_words

EDGE = 12.0  # mm from the page's edge to anything drawn
FOOT = 46.0  # mm below the board for legend, scales and title
LEAST = 430.0  # mm, page width that the foot of an off-cut's page takes
KEY_STEP = 3.6  # mm between lines of the call-out key


def write_boards_pdf(
    layout: Layout,
    parts: Sequence[Part],
    *,
    heading: Heading,
    paper: Paper,
    gauges: Sequence[Gauge] = (),
    drawings: Sequence[Drawing] | None = None,
) -> bytes:
    """Draw one page a board at true size, after a page of instructions; templates come last.

    Args:
        layout: Where the parts lie. [-]
        parts: All parts of the plane. [-]
        heading: What the sheets say about the plane. [-]
        paper: Paper of the first page and of the templates. [-]
        gauges: Angles that the plane is built to. [-]
        drawings: The boards, where they are drawn already. [-]

    Returns:
        The PDF file. [-]

    Source:
        Definition.

    Example:
        >>> write_boards_pdf(layout, parts, heading=heading, paper=paper)[:4]
        b'%PDF'
    """
    if drawings is None:
        drawings = board_drawings(layout, parts, units=heading.units)
    buffer = io.BytesIO()
    canvas = new_canvas(buffer, f"{heading.plane}: boards at true size")
    draw_front_page(canvas, layout, parts, heading=heading, paper=paper, tiled=False)
    for drawing in drawings:
        _board_page(canvas, drawing, layout, heading)
    draw_templates(canvas, parts, heading=heading, paper=paper)
    draw_gauges(canvas, gauges, heading=heading, paper=paper)
    canvas.save()
    return buffer.getvalue()


def _board_page(canvas: Canvas, drawing: Drawing, layout: Layout, heading: Heading) -> None:
    length, width = drawing.length * PER_METRE, drawing.width * PER_METRE
    key = _key_height(drawing, length)
    foot = EDGE + FOOT + key
    page = (max(length + 2 * EDGE, LEAST), width + foot + EDGE)
    start_page(canvas, *page)
    draw_window(canvas, drawing, (-1.0, -1.0, length + 1.0, width + 1.0), (EDGE - 1.0, foot - 1.0))
    for index, line in enumerate(drawing.key):
        column, row = divmod(index, max(1, round(key / KEY_STEP)))
        write_line(canvas, EDGE + column * 170.0, foot - 5.0 - row * KEY_STEP, line, size=2.6)
    draw_scales(canvas, EDGE, EDGE)
    draw_legend(canvas, EDGE + 120.0, EDGE + 27.0)
    _title(canvas, EDGE + 250.0, EDGE + 27.0, drawing, layout, heading)
    canvas.showPage()


def _key_height(drawing: Drawing, length: float) -> float:
    columns = max(1, int(length // 170.0))
    rows = -(-len(drawing.key) // columns)
    return rows * KEY_STEP + (3.0 if rows else 0.0)


def _title(
    canvas: Canvas, x: float, y: float, drawing: Drawing, layout: Layout, heading: Heading
) -> None:
    write_line(canvas, x, y - 1.0, heading.plane, size=6.0, bold=True)
    board = " × ".join(
        length_words(value, heading.units) for value in (drawing.length, drawing.width)
    )
    lines = [
        f"{drawing.name}, {board}" + (f", {heading.stock}" if heading.stock else ""),
        f"{len(drawing.part_ids)} parts on this board; the parts fill "
        f"{layout.fill:.0%} of the boards used",
        "Scale 1 : 1. Print at 100 %, never “fit to page”.",
        " · ".join(words for words in (heading.mass, heading.date) if words),
    ]
    for index, line in enumerate(lines):
        write_line(canvas, x, y - 8.0 - index * 5.2, line, size=3.4)
