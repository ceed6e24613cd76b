"""Boards cut into tiles for a home printer, with overlap, crosses, codes, scales and a map."""

import io
import math
from collections.abc import Sequence
from dataclasses import replace

from shapely import LineString, Polygon

from foamwright.parts.model import Part
from foamwright.sheets.drawing import board_drawings
from foamwright.sheets.front_page import draw_front_page
from foamwright.sheets.gauges import Gauge, draw_gauges
from foamwright.sheets.grid import (
    EDGE,
    FOOT,
    OVERLAP,
    Grid,
    tile_code,
    tile_grid,
    used_tiles,
    window_box,
)
from foamwright.sheets.metrics import words_length
from foamwright.sheets.model import Drawing, Heading, Layout, Placement, Text
from foamwright.sheets.paper import Paper
from foamwright.sheets.pen import (
    Canvas,
    draw_scales,
    draw_window,
    new_canvas,
    start_page,
    write_line,
)
from foamwright.sheets.room import find_spot, text_box
from foamwright.sheets.templates import draw_templates
from foamwright.sheets.tile_map import draw_maps
from foamwright.sheets.words import PartWords, part_words

CROSS = 6.0  # mm, half length of an alignment cross
NAME_SIZE = 0.003  # m, type of a part's name where it is written again
NAME_CLEAR = 0.0015  # m kept from lines


def write_tiles_pdf(
    layout: Layout,
    parts: Sequence[Part],
    *,
    heading: Heading,
    paper: Paper,
    gauges: Sequence[Gauge] = (),
    drawings: Sequence[Drawing] | None = None,
    overlap: float = OVERLAP,
    printer_scale: float = 1.0,
) -> bytes:
    """Draw boards as tiles for a home printer: instructions, map, tiles, templates.

    Tiles on which nothing is cut are left out and hatched on the map.

    Args:
        layout: Where the parts lie. [-]
        parts: All parts of the plane. [-]
        heading: What the sheets say about the plane. [-]
        paper: Paper in the printer. [-]
        gauges: Angles that the plane is built to. [-]
        drawings: The boards, where they are drawn already. [-]
        overlap: Shared strip of neighbouring tiles. [m]
        printer_scale: What the printer makes of 100 mm, over 100 mm; drawn to make up for it. [-]

    Returns:
        The PDF file. [-]

    Source:
        Definition.

    Example:
        >>> write_tiles_pdf(layout, parts, heading=heading, paper=paper)[:4]  # doctest: +SKIP
        b'%PDF'
    """
    if drawings is None:
        drawings = board_drawings(layout, parts, units=heading.units)
    grid = tile_grid(  # one for all boards: tiles that lie outside an off-cut are not printed
        max((length for length, _ in layout.sizes), default=layout.board_length),
        max((width for _, width in layout.sizes), default=layout.board_width),
        paper=paper,
        overlap=overlap,
        printer_scale=printer_scale,
    )
    scale = 1.0 / printer_scale
    buffer = io.BytesIO()
    canvas = new_canvas(buffer, f"{heading.plane}: tiles on {paper.name}")
    draw_front_page(canvas, layout, parts, heading=heading, paper=paper, tiled=True, scale=scale)
    used = [used_tiles(drawing, grid) for drawing in drawings]
    maps = list(zip(drawings, used, strict=True))
    draw_maps(canvas, maps, grid, heading=heading, paper=paper, scale=scale)
    words = part_words(parts, heading.units)
    for board, (drawing, tiles) in enumerate(maps):
        placed = [placement for placement in layout.placements if placement.board == board]
        for tile in tiles:
            named = name_again(drawing, grid.window(*tile), placed, words)
            _tile_page(canvas, named, grid, tile, heading, scale)
    draw_templates(canvas, parts, heading=heading, paper=paper, scale=scale)
    draw_gauges(canvas, gauges, heading=heading, paper=paper, scale=scale)
    canvas.save()
    return buffer.getvalue()


def name_again(
    drawing: Drawing,
    window: tuple[float, float, float, float],
    placed: Sequence[Placement],
    words: dict[str, PartWords],
) -> Drawing:
    """Write a part's name once more on a tile that would show it without one.

    Args:
        drawing: The board. [-]
        window: The tile: left, bottom, right, top. [mm]
        placed: Parts on the board. [-]
        words: Words of every part. [-]

    Returns:
        The board with the missing names. [-]

    Source:
        Definition.

    Example:
        >>> board = Drawing("Board 1 of 1", 0.7, 0.5, (), ())
        >>> name_again(board, (0, 0, 100, 100), [], {}).texts
        ()
    """
    tile = window_box(window)
    shown = {text.part for text in drawing.texts if text.bold and tile.covers(_text_room(text))}
    added: list[Text] = []
    for placement in placed:
        if placement.part_id in shown or not tile.intersects(placement.outline):
            continue
        room = placement.outline.intersection(tile).buffer(-NAME_CLEAR)
        for stroke in drawing.strokes:
            if stroke.part == placement.part_id and stroke.kind != "cut" and len(stroke.points) > 1:
                room = room.difference(LineString(stroke.points).buffer(NAME_CLEAR, quad_segs=1))
        for text in drawing.texts:
            if text.part == placement.part_id:
                room = room.difference(_text_room(text))
        name = words[placement.part_id].title
        long = words_length(name, NAME_SIZE)
        for angle in (0.0, math.pi / 2):
            spot = find_spot(room, long, NAME_SIZE, angle)
            if spot is not None:
                added.append(Text(name, spot, NAME_SIZE, angle, part=placement.part_id))
                break
    return replace(drawing, texts=(*drawing.texts, *added))


def _text_room(text: Text) -> Polygon:
    long = words_length(text.words, text.size, bold=text.bold)
    return text_box(text.at, long, text.size, text.angle)


def _tile_page(
    canvas: Canvas,
    drawing: Drawing,
    grid: Grid,
    tile: tuple[int, int],
    heading: Heading,
    scale: float,
) -> None:
    row, column = tile
    start_page(canvas, *grid.page, scale)
    foot = (EDGE, EDGE + FOOT)
    window = grid.window(row, column)
    draw_window(canvas, drawing, window, foot)
    _frame(canvas, grid, tile, foot)
    draw_scales(canvas, EDGE, EDGE)
    x = EDGE + 110.0
    write_line(canvas, x, EDGE + 8.0, tile_code(row, column), size=9.0, bold=True)
    write_line(canvas, x + 20.0, EDGE + 12.0, heading.plane, size=3.4, bold=True)
    write_line(canvas, x + 20.0, EDGE + 7.8, drawing.name, size=3.4)
    around = ((-1, 0, "below"), (1, 0, "above"), (0, -1, "left"), (0, 1, "right"))
    beside = [
        f"{words} {tile_code(row + up, column + right)}"
        for up, right, words in around
        if 0 <= row + up < grid.rows and 0 <= column + right < grid.columns
    ]
    write_line(canvas, x, EDGE + 1.5, "joins " + ", ".join(beside) if beside else "", size=2.8)
    canvas.showPage()


def _frame(canvas: Canvas, grid: Grid, tile: tuple[int, int], foot: tuple[float, float]) -> None:
    """Edge of the tile, trim lines on the sides that lie over a neighbour, and crosses."""
    row, column = tile
    canvas.setLineWidth(0.1)
    canvas.setStrokeGray(0.6)
    canvas.setDash([])
    canvas.rect(*foot, grid.wide, grid.tall, stroke=1, fill=0)
    canvas.setStrokeGray(0.35)
    canvas.setDash([1.2, 1.2])
    lap = grid.overlap
    right, top = foot[0] + grid.wide, foot[1] + grid.tall
    if column + 1 < grid.columns:
        canvas.line(right - lap / 2, foot[1], right - lap / 2, top)
    if row + 1 < grid.rows:
        canvas.line(foot[0], top - lap / 2, right, top - lap / 2)
    canvas.setDash([])
    canvas.setStrokeGray(0.0)
    canvas.setLineWidth(0.15)
    for x in (foot[0] + lap / 2, right - lap / 2):  # the middle of an overlap, on both its tiles
        for y in (foot[1] + lap / 2, top - lap / 2):
            _cross(canvas, x, y)


def _cross(canvas: Canvas, x: float, y: float) -> None:
    canvas.line(x - CROSS, y, x + CROSS, y)
    canvas.line(x, y - CROSS, x, y + CROSS)
    canvas.circle(x, y, CROSS / 3, stroke=1, fill=0)
