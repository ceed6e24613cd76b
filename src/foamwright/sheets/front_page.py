"""First page of every set: what to check, what the lines mean, and the usual cautions."""

from collections.abc import Sequence

from foamwright.parts.listing import cut_list
from foamwright.parts.model import Part
from foamwright.sheets.metrics import words_length
from foamwright.sheets.model import Heading, Layout
from foamwright.sheets.paper import Paper
from foamwright.sheets.pen import (
    PER_METRE,
    Canvas,
    draw_legend,
    draw_scales,
    start_page,
    write_line,
)
from foamwright.sheets.words import boards_words, length_words

EDGE = 12.0  # mm
BODY = 3.5  # mm, type size
TICK_STEP = 4.6  # mm
TICKS_WIDE = 16  # more kinds than this stand in three columns

PRINTING = (
    "Print at 100 % (“actual size”). “Fit to page” is the commonest error: at 97 % every part is "
    "3 % short, 6 % small in area, and every slot is too tight.",
    "Measure the 100 mm bar (or the 4 in bar) on this page first. It must be right within half a "
    "millimetre. If it is not, mend the print setting, or give the printer's scale and write the "
    "sheets again.",
    "Each later page has both bars: measure one page in five, and the last.",
)
CUTTING = (
    "Fix the paper lightly with glue stick or tape, or prick the corners and join the dots.",
    "Cut the outlines in three passes: paper, foam, paper. Cut inner holes before outlines.",
    "Score, crease, fold and bevel lines are worked before the part leaves the board.",
    "Parts are drawn with the outside face up unless the part says otherwise; the arrow shows "
    "the way that the paper's grain and the folds run.",
    "Small parts carry a number; the words for it stand in the key below the board or on the map.",
    "Prick the ringed balance point under the wing through to the outside face.",
    "Write its name on every piece as it comes off.",
)
CAUTIONS = (
    "Knife: fresh blade, steel ruler, cut away from the hand, cap it when it is put down.",
    "Hot glue is 160 to 200 °C and sticks to skin: wet cloth at hand, eyes clear, children helped.",
    "Spray glue and varnish: open a window.",
    "Cut carbon and ply outdoors or with a dust mask; splinters cut.",
)
TILING = (
    "Trim each tile along the dashed line on its right and upper side only, lay it over its "
    "neighbour so that the halves of the crosses meet, and tape. Letters go up, numbers go right.",
    "Check the whole sheet with a long ruler before cutting: the board's edges must be as long as "
    "the board.",
)


def draw_front_page(
    canvas: Canvas,
    layout: Layout,
    parts: Sequence[Part],
    *,
    heading: Heading,
    paper: Paper,
    tiled: bool,
    scale: float = 1.0,
) -> None:
    """Draw the page of instructions with legend, cautions and both check scales.

    Args:
        canvas: The PDF. [-]
        layout: Where the parts lie. [-]
        parts: All parts of the plane, for the list to tick off. [-]
        heading: What the sheets say about the plane. [-]
        paper: Paper of this page. [-]
        tiled: Whether tiles follow, else whole boards. [-]
        scale: Correction for the printer. [-]

    Source:
        Cautions and habits: common practice, no source.

    Example:
        >>> draw_front_page(
        ...     canvas, layout, parts, heading=heading, paper=paper, tiled=False
        ... )
    """
    width, height = paper.width * PER_METRE, paper.height * PER_METRE
    start_page(canvas, width, height, scale)
    y = height / scale - EDGE - 8.0
    write_line(canvas, EDGE, y, heading.plane, size=8.0, bold=True)
    y -= 6.5
    write_line(canvas, EDGE, y, _summary(layout, heading), size=BODY)
    y -= 8.0
    room = width / scale - 2 * EDGE
    sections: list[tuple[str, tuple[str, ...]]] = [("First: is the print true?", PRINTING)]
    if tiled:
        sections.append(("Joining the tiles", TILING))
    sections += [("Cutting", CUTTING), ("Take care", CAUTIONS)]
    for title, lines in sections:
        y = _section(canvas, title, lines, y, room)
    write_line(canvas, EDGE, y, "The lines", size=4.2, bold=True)
    draw_legend(canvas, EDGE, y - 6.5)
    _tick_list(canvas, parts, y - 44.0, room)
    draw_scales(canvas, EDGE, EDGE)
    canvas.showPage()


def _summary(layout: Layout, heading: Heading) -> str:
    size = " × ".join(
        length_words(value, heading.units) for value in (layout.board_length, layout.board_width)
    )
    words = [
        f"Full-size patterns: {len(layout.placements)} parts on {boards_words(layout)} of {size}"
        if not layout.offcuts
        else f"Full-size patterns: {len(layout.placements)} parts on {boards_words(layout)}, "
        f"a board is {size}",
        heading.stock,
        heading.mass,
        heading.date,
    ]
    return " · ".join(word for word in words if word)


def _section(canvas: Canvas, title: str, lines: tuple[str, ...], y: float, room: float) -> float:
    write_line(canvas, EDGE, y, title, size=4.2, bold=True)
    y -= 5.6
    for line in lines:
        write_line(canvas, EDGE, y, "•", size=BODY)
        for row in _fitted(line, room - 4.0):
            write_line(canvas, EDGE + 4.0, y, row, size=BODY)
            y -= 4.6
        y -= 0.6
    return y - 2.4


def _tick_list(canvas: Canvas, parts: Sequence[Part], y: float, room: float) -> None:
    """Write every kind of part with its count and a box to tick, when the page has room."""
    kinds = cut_list(parts)
    columns = 2 if len(kinds) <= TICKS_WIDE else 3
    rows = int((y - 6.0 - EDGE - 22.0) // TICK_STEP)
    if rows < 1 or len(kinds) > rows * columns:
        return
    write_line(canvas, EDGE, y, "The parts, to tick off when cut", size=4.2, bold=True)
    used = -(-len(kinds) // columns)
    canvas.setDash([])
    canvas.setStrokeGray(0.0)
    canvas.setLineWidth(0.2)
    for index, kind in enumerate(kinds):
        column, row = divmod(index, used)
        x, level = EDGE + column * room / columns, y - 6.5 - row * TICK_STEP
        canvas.rect(x, level - 0.3, 2.6, 2.6, stroke=1, fill=0)
        words = f"{kind.count} × {kind.name}, {kind.stock}"
        size = min(3.0, 3.0 * (room / columns - 6.0) / words_length(words, 3.0))
        write_line(canvas, x + 4.5, level, words, size=size)


def _fitted(line: str, room: float) -> list[str]:
    """Break a sentence so that each row fits the room."""
    rows: list[str] = [""]
    for word in line.split(" "):
        longer = f"{rows[-1]} {word}".strip()
        if words_length(longer, BODY) > room and rows[-1]:
            rows.append(word)
        else:
            rows[-1] = longer
    return rows
