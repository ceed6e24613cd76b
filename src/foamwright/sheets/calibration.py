"""A page that tells what a printer makes of a length, along and across."""

import io

from foamwright.sheets.paper import Paper
from foamwright.sheets.pen import PER_METRE, Canvas, new_canvas, start_page, write_line

EDGE = 14.0  # mm
TALL = 250.0  # mm, ruler up the page
WIDE = 180.0  # mm, ruler across it
TICK = 10.0  # mm
SQUARE = 100.0  # mm
SAME = 0.003  # of a length: a knife is no better
STEPS = (
    "1. Print this page at 100 % (“actual size”), on the paper and with the settings of the set.",
    "2. Measure both rulers from end to end with a steel rule, to half a millimetre or better.",
    "3. Divide: across / 180, and up / 250. Both between 0.998 and 1.002: print the sheets as they "
    "are.",
    "4. Both alike but not 1: write the sheets again with --printer-scale and that number, and",
    "    print this page again from the new set: now the rulers must be true.",
    "5. The two differ by more than 0.003, or the diagonals of the square differ by more than "
    "0.5 mm:",
    "    no single number mends that. Use the copy shop's pages, or another printer.",
)


def write_calibration_pdf(paper: Paper, *, printer_scale: float = 1.0) -> bytes:
    """Draw the page: a ruler each way, a square with its diagonals, and what to do.

    Args:
        paper: Paper in the printer. [-]
        printer_scale: What the printer makes of 100 mm, over 100 mm; drawn to make up for it. [-]

    Returns:
        The PDF file. [-]

    Source:
        Definition.

    Example:
        >>> from foamwright.sheets.paper import paper_of
        >>> write_calibration_pdf(paper_of("A4"))[:4]
        b'%PDF'
    """
    scale = 1.0 / printer_scale
    buffer = io.BytesIO()
    canvas = new_canvas(buffer, f"Printer test on {paper.name}")
    start_page(canvas, paper.width * PER_METRE, paper.height * PER_METRE, scale)
    foot = EDGE / 2
    _ruler(canvas, (EDGE, foot), WIDE, upright=False)
    _ruler(canvas, (EDGE, foot + 10.0), TALL, upright=True)
    _square(canvas, EDGE + 40.0, foot + 26.0)
    x, y = EDGE + 22.0, min(paper.height * PER_METRE / scale - 18.0, foot + 252.0)
    write_line(canvas, x, y, f"Printer test: {paper.name}", size=7.0, bold=True)
    words = f"Drawn for a printer scale of {printer_scale:.4g}."
    write_line(canvas, x, y - 8.0, words, size=3.4)
    y -= 18.0
    for line in STEPS:
        write_line(canvas, x, y, line, size=3.1)
        y -= 5.6
    for line in ("across: ________ mm / 180 = ________", "up: ________ mm / 250 = ________"):
        y -= 8.0
        write_line(canvas, x, y, line, size=4.0)
    canvas.showPage()
    canvas.save()
    return buffer.getvalue()


def _ruler(canvas: Canvas, at: tuple[float, float], length: float, *, upright: bool) -> None:
    """A ruler of filled boxes: no line width adds to its length."""

    def box(along: float, across: float, long: float, wide: float) -> None:
        x, y = (across, along) if upright else (along, across)
        w, h = (wide, long) if upright else (long, wide)
        canvas.rect(at[0] + x, at[1] + y, w, h, stroke=0, fill=1)

    canvas.setFillGray(0.0)
    box(0.0, 0.0, length, 0.4)
    for end in (0.0, length - 0.25):
        box(end, 0.0, 0.25, 7.0)
    for index in range(1, round(length / TICK)):
        box(index * TICK - 0.1, 0.0, 0.2, 4.0 if index % 5 == 0 else 2.5)
    words = f"{length:.0f} mm from end to end"
    if upright:
        canvas.saveState()
        canvas.translate(at[0] + 6.0, at[1] + length / 2 - 20.0)
        canvas.rotate(90.0)
        write_line(canvas, 0.0, -3.0, words, size=3.4, bold=True)
        canvas.restoreState()
    else:
        write_line(canvas, at[0] + length / 2 - 20.0, at[1] + 5.0, words, size=3.4, bold=True)


def _square(canvas: Canvas, x: float, y: float) -> None:
    canvas.setLineWidth(0.2)
    canvas.setStrokeGray(0.0)
    canvas.setDash([])
    canvas.rect(x, y, SQUARE, SQUARE, stroke=1, fill=0)
    canvas.line(x, y, x + SQUARE, y + SQUARE)
    canvas.line(x, y + SQUARE, x + SQUARE, y)
    write_line(canvas, x + 28.0, y + SQUARE + 2.0, "100 mm square, 141.4 mm across", size=3.0)
