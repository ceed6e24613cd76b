"""Boards cut into tiles for a home printer, with overlap, crosses, codes, scales and a map."""

import io
import math
from collections.abc import Sequence
from dataclasses import dataclass

from shapely import STRtree, box
from shapely.geometry import LineString

from foamwright.core.errors import OutputError
from foamwright.parts.model import Part
from foamwright.sheets.drawing import board_drawings
from foamwright.sheets.front_page import draw_front_page
from foamwright.sheets.model import Drawing, Heading, Layout
from foamwright.sheets.paper import Paper
from foamwright.sheets.pen import (
    PER_METRE,
    Canvas,
    draw_scales,
    draw_strokes,
    draw_window,
    new_canvas,
    set_style,
    start_page,
    write_line,
)
from foamwright.sheets.templates import draw_templates

EDGE = 8.0  # mm that no home printer needs to reach; common practice
FOOT = 20.0  # mm below the tile for scales and code
CROSS = 6.0  # mm, half length of an alignment cross
OVERLAP = 0.012  # m, 10 to 15 mm is common practice
SCALES = (0.9, 1.1)  # printers outside this are set wrong, not inexact
LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"


@dataclass(frozen=True, slots=True)
class Grid:
    """How a board is cut into tiles.

    Attributes:
        rows: Number of tiles up.
        columns: Number of tiles to the right.
        wide: Tile width. [mm]
        tall: Tile height. [mm]
        overlap: [mm]
        page: Page width and height. [mm]
    """

    rows: int
    columns: int
    wide: float
    tall: float
    overlap: float
    page: tuple[float, float]

    def window(self, row: int, column: int) -> tuple[float, float, float, float]:
        """Left, bottom, right, top of a tile on the board. [mm]"""
        left = column * (self.wide - self.overlap)
        bottom = row * (self.tall - self.overlap)
        return left, bottom, left + self.wide, bottom + self.tall


def tile_grid(
    length: float,
    width: float,
    *,
    paper: Paper,
    overlap: float = OVERLAP,
    printer_scale: float = 1.0,
) -> Grid:
    """Cut a board into the fewest tiles that a paper allows, upright or lying.

    n = ceil((L - overlap) / (tile - overlap)) each way.

    Args:
        length: Board length. [m]
        width: Board width. [m]
        paper: Paper in the printer. [-]
        overlap: Shared strip of neighbouring tiles. [m]
        printer_scale: Correction for the printer: 100 mm over what its bar measures. [-]

    Returns:
        The grid. [-]

    Raises:
        OutputError: The overlap or the scale is not usable.

    Source:
        Definition.

    Example:
        >>> from foamwright.sheets.paper import paper_of
        >>> grid = tile_grid(0.762, 0.508, paper=paper_of("A4"))
        >>> grid.rows * grid.columns
        12
    """
    if not SCALES[0] <= printer_scale <= SCALES[1]:
        raise OutputError(
            f"The printer's scale is {printer_scale:.3f}; it must be {SCALES[0]} to {SCALES[1]}. "
            "It is 100 divided by the millimetres that the 100 mm bar measures."
        )
    if not 0.0 <= overlap <= 0.05:
        raise OutputError(f"The overlap is {overlap * 1000:.0f} mm; it must be 0 to 50 mm.")
    sides = (paper.width * PER_METRE, paper.height * PER_METRE)
    lap = overlap * PER_METRE
    grids: list[Grid] = []
    for page in (sides, sides[::-1]):
        wide = page[0] / printer_scale - 2 * EDGE
        tall = page[1] / printer_scale - 2 * EDGE - FOOT
        columns = max(1, math.ceil((length * PER_METRE - lap) / (wide - lap) - 1e-9))
        rows = max(1, math.ceil((width * PER_METRE - lap) / (tall - lap) - 1e-9))
        grids.append(Grid(rows, columns, wide, tall, lap, page))
    return min(grids, key=lambda grid: grid.rows * grid.columns)


def write_tiles_pdf(
    layout: Layout,
    parts: Sequence[Part],
    *,
    heading: Heading,
    paper: Paper,
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
        overlap: Shared strip of neighbouring tiles. [m]
        printer_scale: Correction for the printer: 100 mm over what its bar measures. [-]

    Returns:
        The PDF file. [-]

    Source:
        Definition.

    Example:
        >>> write_tiles_pdf(layout, parts, heading=heading, paper=paper)[:4]  # doctest: +SKIP
        b'%PDF'
    """
    drawings = board_drawings(layout, parts, units=heading.units)
    grid = tile_grid(
        layout.board_length,
        layout.board_width,
        paper=paper,
        overlap=overlap,
        printer_scale=printer_scale,
    )
    buffer = io.BytesIO()
    canvas = new_canvas(buffer, f"{heading.plane}: tiles on {paper.name}")
    draw_front_page(canvas, layout, heading=heading, paper=paper, tiled=True, scale=printer_scale)
    used = [used_tiles(drawing, grid) for drawing in drawings]
    for index, drawing in enumerate(drawings):
        _map_page(canvas, drawing, grid, used[index], heading, paper, printer_scale)
        for row, column in used[index]:
            _tile_page(canvas, drawing, grid, (row, column), heading, printer_scale)
    draw_templates(canvas, parts, heading=heading, paper=paper, scale=printer_scale)
    canvas.save()
    return buffer.getvalue()


def used_tiles(drawing: Drawing, grid: Grid) -> list[tuple[int, int]]:
    """Tiles on which a part's line or word falls, row by row from the lower left.

    Args:
        drawing: A board. [-]
        grid: Its tiles. [-]

    Returns:
        (row, column) pairs. [-]

    Source:
        Definition.

    Example:
        >>> from foamwright.sheets.paper import paper_of
        >>> used_tiles(Drawing("b", 0.7, 0.5, (), ()), tile_grid(0.7, 0.5, paper=paper_of("A4")))
        []
    """
    lines = [
        LineString([*stroke.points, stroke.points[0]] if stroke.closed else stroke.points)
        for stroke in drawing.strokes
        if stroke.part
    ]
    tree = STRtree(lines)
    found: list[tuple[int, int]] = []
    for row in range(grid.rows):
        for column in range(grid.columns):
            window = box(*(value / PER_METRE for value in grid.window(row, column)))
            if len(tree.query(window, predicate="intersects")):
                found.append((row, column))
    return found


def tile_code(row: int, column: int) -> str:
    """Name of a tile: letters go up, numbers go right.

    Args:
        row: From 0 at the bottom. [-]
        column: From 0 at the left. [-]

    Returns:
        Such as "B3". [-]

    Source:
        Definition.

    Example:
        >>> tile_code(1, 2)
        'B3'
    """
    return f"{LETTERS[row % 26]}{column + 1}"


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
        canvas.line(right - lap, foot[1], right - lap, top)
    if row + 1 < grid.rows:
        canvas.line(foot[0], top - lap, right, top - lap)
    canvas.setDash([])
    canvas.setStrokeGray(0.0)
    canvas.setLineWidth(0.15)
    for x in _cross_places(foot[0], grid.wide, lap, column, grid.columns):
        for y in _cross_places(foot[1], grid.tall, lap, row, grid.rows):
            _cross(canvas, x, y)


def _cross_places(start: float, size: float, lap: float, index: int, count: int) -> list[float]:
    """Middle of the overlap with each neighbour, or near the edge where there is none."""
    low = start + lap / 2
    high = start + size - lap / 2
    places = [low, high] if count > 1 else [low, high]
    return places if 0 <= index < count else []


def _cross(canvas: Canvas, x: float, y: float) -> None:
    canvas.line(x - CROSS, y, x + CROSS, y)
    canvas.line(x, y - CROSS, x, y + CROSS)
    canvas.circle(x, y, CROSS / 3, stroke=1, fill=0)


def _map_page(
    canvas: Canvas,
    drawing: Drawing,
    grid: Grid,
    used: list[tuple[int, int]],
    heading: Heading,
    paper: Paper,
    scale: float,
) -> None:
    width, height = paper.width * PER_METRE, paper.height * PER_METRE
    start_page(canvas, width, height, scale)
    top = height / scale - EDGE - 8.0
    write_line(
        canvas, EDGE + 4.0, top, f"{heading.plane}: {drawing.name}, tile map", size=6.0, bold=True
    )
    write_line(
        canvas,
        EDGE + 4.0,
        top - 7.0,
        f"{len(used)} tiles of {grid.rows} rows (letters, up) and {grid.columns} columns (numbers, "
        "right). Hatched: nothing to cut, not printed.",
        size=3.2,
    )
    room = width / scale - 2 * EDGE - 8.0
    reach = grid.window(grid.rows - 1, grid.columns - 1)
    factor = min(room / reach[2], 150.0 / reach[3])
    canvas.saveState()
    canvas.translate(EDGE + 4.0, top - 14.0 - factor * reach[3])
    canvas.scale(factor, factor)
    draw_strokes(canvas, [stroke for stroke in drawing.strokes if stroke.kind in ("cut", "board")])
    for row in range(grid.rows):
        for column in range(grid.columns):
            _map_tile(canvas, grid, (row, column), (row, column) in used, factor)
    canvas.restoreState()
    y = top - 22.0 - factor * reach[3]
    for line in drawing.key:
        write_line(canvas, EDGE + 4.0, y, line, size=2.7)
        y -= 3.8
    draw_scales(canvas, EDGE, EDGE)
    canvas.showPage()


def _map_tile(canvas: Canvas, grid: Grid, tile: tuple[int, int], used: bool, factor: float) -> None:
    left, bottom, right, top = grid.window(*tile)
    set_style(canvas, "board")
    canvas.setDash([2.0 / factor, 1.0 / factor])
    canvas.setLineWidth(0.2 / factor)
    canvas.rect(left, bottom, right - left, top - bottom, stroke=1, fill=0)
    if not used:
        canvas.setDash([])
        canvas.line(left, bottom, right, top)
        canvas.line(left, top, right, bottom)
    size = 7.0 / factor
    write_line(canvas, left + size * 0.5, top - size * 1.3, tile_code(*tile), size=size, bold=True)
