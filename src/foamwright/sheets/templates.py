"""Full-size templates for what is not cut from board: ply, and sticks and rods by length."""

import math
from collections.abc import Sequence

import shapely
from shapely import Polygon

from foamwright.parts.model import Part, Source
from foamwright.sheets.drawing import part_sheet, part_strokes
from foamwright.sheets.label import label_part
from foamwright.sheets.model import Heading, Placement
from foamwright.sheets.paper import Paper
from foamwright.sheets.pen import (
    PER_METRE,
    Canvas,
    draw_scales,
    draw_strokes,
    draw_texts,
    set_style,
    start_page,
    write_line,
)
from foamwright.sheets.place import turned, turned_size
from foamwright.sheets.room import long_direction
from foamwright.sheets.words import PartWords, length_words, part_words

EDGE = 12.0  # mm
SPACE = 9.0  # mm between templates
FOOT = 20.0  # mm for the scales
ROW = 12.0  # mm, one line of the table of lengths

type Kind = tuple[Part, tuple[str, ...]]


def draw_templates(
    canvas: Canvas, parts: Sequence[Part], *, heading: Heading, paper: Paper, scale: float = 1.0
) -> None:
    """Draw a template for each kind of ply part, then lengths with bars to hold against.

    A ply part larger than the page is named with its sizes instead.

    Args:
        canvas: The PDF. [-]
        parts: All parts of the plane. [-]
        heading: What the sheets say about the plane. [-]
        paper: Paper of these pages. [-]
        scale: Correction for the printer. [-]

    Source:
        Definition.

    Example:
        >>> draw_templates(canvas, parts, heading=heading, paper=paper)
    """
    words = part_words(parts, heading.units)
    page = (paper.width * PER_METRE, paper.height * PER_METRE)
    ply = alike([part for part in parts if part.source is Source.PLY])
    if ply:
        _ply_pages(canvas, ply, words, heading, page, scale)
    lengths = alike([part for part in parts if part.source in (Source.LENGTH, Source.TAPE)])
    if lengths:
        _length_pages(canvas, lengths, words, heading, page, scale)


def alike(parts: Sequence[Part]) -> list[Kind]:
    """Gather parts of one kind, stock and shape, so that each is drawn once.

    Parts cut to length are alike when their sizes are; others when one lies true on the other.

    Args:
        parts: Parts. [-]

    Returns:
        The first of each kind and the ids of all. [-]

    Source:
        Definition.

    Example:
        >>> alike([])
        []
    """
    kinds: dict[tuple[str, str, object], list[Part]] = {}
    for part in parts:
        kinds.setdefault((part.kind, part.stock, _shape_of(part)), []).append(part)
    return [(group[0], tuple(part.id for part in group)) for group in kinds.values()]


def _shape_of(part: Part) -> object:
    if part.source in (Source.LENGTH, Source.TAPE):
        sizes = turned_size(part.outline, -long_direction(part.outline))
        return tuple(sorted(round(size, 5) for size in sizes))
    left, bottom, _, _ = part.outline.bounds
    flat = turned(part.outline, 0.0, -left, -bottom)
    return shapely.set_precision(flat, 1e-6).normalize().wkb


def _start(
    canvas: Canvas, heading: Heading, page: tuple[float, float], scale: float, title: str
) -> float:
    start_page(canvas, *page, scale)
    top = page[1] / scale - EDGE - 6.0
    write_line(canvas, EDGE, top, f"{heading.plane}: {title}", size=6.0, bold=True)
    draw_scales(canvas, EDGE, EDGE)
    return top - 8.0


def _ply_pages(
    canvas: Canvas,
    kinds: list[Kind],
    words: dict[str, PartWords],
    heading: Heading,
    page: tuple[float, float],
    scale: float,
) -> None:
    title = "ply templates, full size"
    right, bottom = page[0] / scale - EDGE, EDGE + FOOT
    y = _start(canvas, heading, page, scale, title)
    x, row = EDGE, 0.0
    for part, ids in kinds:
        wide, tall = (value * PER_METRE for value in turned_size(part.outline, 0.0))
        turn = 0.0
        if wide > right - EDGE and tall <= right - EDGE:
            wide, tall, turn = tall, wide, math.pi / 2
        needed = tall + 9.0
        if x + wide > right:
            x, y, row = EDGE, y - row - SPACE, 0.0
        if y - needed < bottom:
            canvas.showPage()
            y = _start(canvas, heading, page, scale, title)
            x, row = EDGE, 0.0
        caption = f"{_name(part, ids, words)}: {len(ids)} off, {part.stock}"
        if wide > right - EDGE or needed > y - bottom:
            write_line(
                canvas, x, y - 5.0, f"{caption}, {words[part.id].size}, too large for this page"
            )
            y -= ROW
            continue
        _template(canvas, part, words[part.id], (x, y - tall), turn, heading.units)
        write_line(canvas, x, y - tall - 4.2, caption, size=2.9, bold=True)
        write_line(canvas, x, y - tall - 7.8, words[part.id].size, size=2.7)
        x += max(wide, 62.0) + SPACE
        row = max(row, needed)
    canvas.showPage()


def _name(
    part: Part, ids: Sequence[str], words: dict[str, PartWords], *, sides: bool = True
) -> str:
    """Name of pieces cut alike: that of their kind when they are called differently."""
    if len({words[id_].name.split(",")[0] for id_ in ids}) > 1:
        return part.kind
    return words[part.id].name if sides and len(ids) == 1 else part.name


def _template(
    canvas: Canvas,
    part: Part,
    words: PartWords,
    corner: tuple[float, float],
    turn: float,
    units: str,
) -> None:
    flat = turned(part.outline, turn)
    left, bottom, _, _ = flat.bounds
    dx, dy = corner[0] / PER_METRE - left, corner[1] / PER_METRE - bottom
    outline: Polygon = turned(part.outline, turn, dx, dy)
    placement = Placement(part.id, 0, turn, dx, dy, outline)
    sheet = part_sheet(part, placement)
    fold = part.fold_along if turn == 0.0 else None
    if label_part(sheet, words, fold=fold, units=units, number=0) == "number":
        sheet.texts.clear()
    draw_strokes(canvas, [*part_strokes(part, placement), *sheet.strokes])
    draw_texts(canvas, sheet.texts)


def _length_pages(
    canvas: Canvas,
    kinds: list[Kind],
    words: dict[str, PartWords],
    heading: Heading,
    page: tuple[float, float],
    scale: float,
) -> None:
    title = "sticks, rods and tape to length"
    room = page[0] / scale - 2 * EDGE
    y = _start(canvas, heading, page, scale, title)
    for part, ids in kinds:
        if y - ROW < EDGE + FOOT:
            canvas.showPage()
            y = _start(canvas, heading, page, scale, title)
        size = [
            value * PER_METRE for value in turned_size(part.outline, -long_direction(part.outline))
        ]
        length = max(size)
        exact = length_words(length / PER_METRE, heading.units)
        fits = length <= room
        caption = (
            f"{_name(part, ids, words, sides=False)}: {len(ids)} off, {exact} long, {part.stock}"
        )
        if not fits:
            caption += " (longer than this page: measure it)"
        write_line(canvas, EDGE, y - 3.0, caption, size=3.0)
        set_style(canvas, "cut")
        if fits:
            canvas.rect(EDGE, y - 8.0, length, max(1.0, min(3.0, min(size))), stroke=1, fill=0)
        y -= ROW if fits else ROW / 2
    canvas.showPage()
