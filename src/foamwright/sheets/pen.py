"""Putting strokes, words and check scales on a PDF page; page lengths in millimetres."""

import io
import math
from collections.abc import Callable, Iterable
from typing import Any

from foamwright.sheets.metrics import CAP_HEIGHT, font_of
from foamwright.sheets.model import Drawing, Stroke, Text
from foamwright.sheets.styles import LEGEND_KINDS, STYLES

MM = 72 / 25.4  # PDF points in a millimetre
PER_METRE = 1000.0  # mm
BAR_METRIC = 100.0  # mm
BAR_INCH = 101.6  # mm, 4 in

type Canvas = Any


def new_canvas(buffer: io.BytesIO, title: str) -> Canvas:
    """Start a PDF that comes out the same byte for byte and asks the printer not to scale it.

    Args:
        buffer: Where the file goes. [-]
        title: Title of the document. [-]

    Returns:
        The canvas. [-]

    Source:
        PDF viewer preference PrintScaling, ISO 32000-1 table 150.

    Example:
        >>> type(new_canvas(io.BytesIO(), "Cob")).__name__
        'Canvas'
    """
    from reportlab.pdfgen.canvas import Canvas as PdfCanvas

    canvas = PdfCanvas(buffer, invariant=1, pageCompression=1)
    canvas.setTitle(title)
    canvas.setCreator("Foamwright")
    canvas.setAuthor("")
    canvas.setSubject("Full-size patterns: print at 100 %")
    canvas.setViewerPreference("PrintScaling", "None")
    return canvas


def start_page(canvas: Canvas, width: float, height: float, scale: float = 1.0) -> None:
    """Set the page's size; from here on one unit is one millimetre times the printer's correction.

    Args:
        canvas: The PDF. [-]
        width: Page width. [mm]
        height: Page height. [mm]
        scale: Correction for a printer that prints too small or too large. [-]

    Source:
        Definition.

    Example:
        >>> start_page(new_canvas(io.BytesIO(), "Cob"), 210, 297)
    """
    canvas.setPageSize((width * MM, height * MM))
    canvas.scale(MM * scale, MM * scale)
    canvas.setLineJoin(1)
    canvas.setLineCap(0)


def set_style(canvas: Canvas, kind: str) -> None:
    """Choose width, dashes and grey of one kind of line.

    Args:
        canvas: The PDF. [-]
        kind: Key of `styles.STYLES`. [-]

    Source:
        Definition.

    Example:
        >>> set_style(new_canvas(io.BytesIO(), "Cob"), "score")
    """
    style = STYLES[kind]
    canvas.setLineWidth(style.width)
    canvas.setStrokeGray(style.grey)
    canvas.setDash(list(style.dash))
    canvas.setLineCap(1 if kind == "crease" else 0)


def draw_strokes(canvas: Canvas, strokes: Iterable[Stroke]) -> None:
    """Draw lines; the frame is the drawing's, in millimetres.

    Args:
        canvas: The PDF. [-]
        strokes: Lines. [-]

    Source:
        Definition.

    Example:
        >>> draw_strokes(new_canvas(io.BytesIO(), "Cob"), ())
    """
    ordered = sorted(strokes, key=lambda stroke: stroke.kind)
    kind = ""
    for stroke in ordered:
        if stroke.kind != kind:
            kind = stroke.kind
            set_style(canvas, kind)
        path = canvas.beginPath()
        path.moveTo(stroke.points[0][0] * PER_METRE, stroke.points[0][1] * PER_METRE)
        for x, y in stroke.points[1:]:
            path.lineTo(x * PER_METRE, y * PER_METRE)
        if stroke.closed:
            path.close()
        canvas.drawPath(path, stroke=1, fill=0)


def draw_texts(canvas: Canvas, texts: Iterable[Text]) -> None:
    """Write words centred on their places.

    Args:
        canvas: The PDF. [-]
        texts: Words. [-]

    Source:
        Definition.

    Example:
        >>> draw_texts(new_canvas(io.BytesIO(), "Cob"), ())
    """
    canvas.setFillGray(0.0)
    for text in texts:
        size = text.size * PER_METRE
        canvas.saveState()
        canvas.translate(text.at[0] * PER_METRE, text.at[1] * PER_METRE)
        canvas.rotate(math.degrees(text.angle))
        canvas.setFont(font_of(text.words, bold=text.bold), size)
        canvas.drawCentredString(0.0, -size * CAP_HEIGHT / 2, text.words)
        canvas.restoreState()


def write_line(
    canvas: Canvas, x: float, y: float, words: str, *, size: float = 3.2, bold: bool = False
) -> None:
    """Write one line of words from its left end.

    Args:
        canvas: The PDF. [-]
        x: Left end. [mm]
        y: Foot of the letters. [mm]
        words: The words. [-]
        size: Type size. [mm]
        bold: Whether it is set bold. [-]

    Source:
        Definition.

    Example:
        >>> write_line(new_canvas(io.BytesIO(), "Cob"), 10, 10, "Board 1")
    """
    canvas.setFillGray(0.0)
    canvas.setFont(font_of(words, bold=bold), size)
    canvas.drawString(x, y, words)


def draw_scales(canvas: Canvas, x: float, y: float) -> None:
    """Draw the two check scales: 100 mm and, above it, 4 in.

    Their ends are the ends of filled boxes, so that no line width adds to the length.

    Args:
        canvas: The PDF. [-]
        x: Left end of both. [mm]
        y: Foot of the lower one. [mm]

    Source:
        Definition.

    Example:
        >>> draw_scales(new_canvas(io.BytesIO(), "Cob"), 10, 10)
    """
    _scale(canvas, x, y, BAR_METRIC, 10, "100 mm")
    _scale(canvas, x, y + 8.5, BAR_INCH, 8, "4 in")


def _scale(canvas: Canvas, x: float, y: float, length: float, steps: int, words: str) -> None:
    canvas.setFillGray(0.0)
    canvas.rect(x, y, length, 0.4, stroke=0, fill=1)
    step = length / steps
    for index in range(steps):
        lift = 0.4 if index % 2 == 0 else 1.6
        canvas.rect(x + index * step, y + lift, step, 1.2, stroke=0, fill=1)
    for end in (x, x + length - 0.25):
        canvas.rect(end, y, 0.25, 3.6, stroke=0, fill=1)
    write_line(canvas, x + 1.0, y + 4.2, f"{words}: measure this bar before you cut", size=2.7)


def draw_legend(
    canvas: Canvas, x: float, y: float, *, step: float = 5.2, long: bool = True
) -> None:
    """Draw a sample of each kind of line with what is done along it.

    Args:
        canvas: The PDF. [-]
        x: Left edge. [mm]
        y: Top row. [mm]
        step: From row to row. [mm]
        long: Whether the meaning is written out beside the name. [-]

    Source:
        Definition.

    Example:
        >>> draw_legend(new_canvas(io.BytesIO(), "Cob"), 10, 80)
    """
    for index, kind in enumerate(LEGEND_KINDS):
        style, row = STYLES[kind], y - index * step
        set_style(canvas, kind)
        canvas.line(x, row, x + 26.0, row)
        if kind == "bevel":
            set_style(canvas, "note")
            for tick in (5.0, 13.0, 21.0):
                canvas.line(x + tick - 1.0, row - 1.0, x + tick + 1.0, row + 1.0)
        write_line(canvas, x + 29.0, row - 1.1, style.name, size=3.0, bold=True)
        if long:
            write_line(canvas, x + 45.0, row - 1.1, style.meaning, size=3.0)
    canvas.setDash([])


def draw_window(
    canvas: Canvas,
    drawing: Drawing,
    window: tuple[float, float, float, float],
    foot: tuple[float, float],
) -> None:
    """Draw the part of a drawing that lies in a window, cut off at its edges.

    Args:
        canvas: The PDF. [-]
        drawing: What is drawn. [-]
        window: Left, bottom, right, top in the drawing's frame. [mm]
        foot: Where the window's lower left corner lies on the page. [mm]

    Source:
        Definition.

    Example:
        >>> board = Drawing("Board 1 of 1", 0.7, 0.5, (), ())
        >>> draw_window(new_canvas(io.BytesIO(), "Cob"), board, (0, 0, 700, 500), (10, 10))
    """
    left, bottom, right, top = window
    canvas.saveState()
    path = canvas.beginPath()
    path.rect(foot[0], foot[1], right - left, top - bottom)
    canvas.clipPath(path, stroke=0, fill=0)
    canvas.translate(foot[0] - left, foot[1] - bottom)
    inside = _touching(window)
    draw_strokes(canvas, [s for s in drawing.strokes if inside(s.points, 0.003)])
    draw_texts(canvas, [t for t in drawing.texts if inside((t.at,), 0.09)])
    canvas.restoreState()


def _touching(
    window: tuple[float, float, float, float],
) -> Callable[[Iterable[tuple[float, float]], float], bool]:
    left, bottom, right, top = (value / PER_METRE for value in window)

    def inside(points: Iterable[tuple[float, float]], reach: float) -> bool:
        xs, ys = zip(*points, strict=True)
        across = max(xs) > left - reach and min(xs) < right + reach
        return across and max(ys) > bottom - reach and min(ys) < top + reach

    return inside
