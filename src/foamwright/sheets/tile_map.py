"""Map of the tiles: which goes where on each board."""

from collections.abc import Sequence

from foamwright.sheets.grid import EDGE, Grid, tile_code
from foamwright.sheets.model import Drawing, Heading
from foamwright.sheets.paper import Paper
from foamwright.sheets.pen import (
    PER_METRE,
    Canvas,
    draw_scales,
    draw_strokes,
    set_style,
    start_page,
    write_line,
)

SIDE = EDGE + 4.0  # mm, left edge of what is drawn
FOOT = EDGE + 22.0  # mm, above the check scales
MAP_LEAST = 60.0  # mm, height given to a map at least
KEY_STEP = 3.8  # mm

type Board = tuple[Drawing, list[tuple[int, int]]]


def draw_maps(
    canvas: Canvas,
    boards: Sequence[Board],
    grid: Grid,
    *,
    heading: Heading,
    paper: Paper,
    scale: float = 1.0,
) -> None:
    """Draw every board small with its tiles, several to a page, and the key of small parts.

    Args:
        canvas: The PDF. [-]
        boards: Each board with the tiles that are printed. [-]
        grid: How boards are cut into tiles. [-]
        heading: What the sheets say about the plane. [-]
        paper: Paper of these pages. [-]
        scale: Correction for the printer. [-]

    Source:
        Definition.

    Example:
        >>> draw_maps(canvas, boards, grid, heading=heading, paper=paper)  # doctest: +SKIP
    """
    page = (paper.width * PER_METRE / scale, paper.height * PER_METRE / scale)
    reach = grid.window(grid.rows - 1, grid.columns - 1)
    start = page[1] - EDGE - 22.0
    share = (start - FOOT) / min(3, max(1, len(boards))) - 12.0
    factor = min((page[0] - 2 * SIDE) / reach[2], max(share, MAP_LEAST) / reach[3])
    y = 0.0
    for index, (drawing, used) in enumerate(boards):
        needed = factor * reach[3] + 3.0 + KEY_STEP * len(drawing.key)
        if index == 0 or y - needed < FOOT:
            if index:
                _finish(canvas)
            y = _start(canvas, grid, heading, page, scale)
        y = _map(canvas, (drawing, used), grid, y, factor)
    if boards:
        _finish(canvas)


def _start(
    canvas: Canvas, grid: Grid, heading: Heading, page: tuple[float, float], scale: float
) -> float:
    start_page(canvas, page[0] * scale, page[1] * scale, scale)
    top = page[1] - EDGE - 8.0
    write_line(canvas, SIDE, top, f"{heading.plane}: tile map", size=6.0, bold=True)
    words = (
        f"{grid.rows} rows (letters, going up) and {grid.columns} columns (numbers, going right) a "
        "board. Crossed out: nothing to cut there, not printed."
    )
    write_line(canvas, SIDE, top - 6.0, words, size=3.1)
    return top - 14.0


def _finish(canvas: Canvas) -> None:
    draw_scales(canvas, EDGE, EDGE)
    canvas.showPage()


def _map(canvas: Canvas, board: Board, grid: Grid, y: float, factor: float) -> float:
    drawing, used = board
    reach = grid.window(grid.rows - 1, grid.columns - 1)
    title = f"{drawing.name}: {len(used)} tiles"
    write_line(canvas, SIDE, y, title, size=3.6, bold=True)
    y -= 2.5 + factor * reach[3]
    canvas.saveState()
    canvas.translate(SIDE, y)
    canvas.scale(factor, factor)
    draw_strokes(canvas, [stroke for stroke in drawing.strokes if stroke.kind in ("cut", "board")])
    for row in range(grid.rows):
        for column in range(grid.columns):
            _map_tile(canvas, grid, (row, column), factor, used=(row, column) in used)
    canvas.restoreState()
    for line in drawing.key:
        y -= KEY_STEP
        write_line(canvas, SIDE, y, line, size=2.7)
    return y - 8.0


def _map_tile(
    canvas: Canvas, grid: Grid, tile: tuple[int, int], factor: float, *, used: bool
) -> None:
    left, bottom, right, top = grid.window(*tile)
    set_style(canvas, "board")
    canvas.setDash([2.0 / factor, 1.0 / factor])
    canvas.setLineWidth(0.2 / factor)
    canvas.rect(left, bottom, right - left, top - bottom, stroke=1, fill=0)
    if not used:
        canvas.setDash([])
        canvas.line(left, bottom, right, top)
        canvas.line(left, top, right, bottom)
    size = 5.0 / factor
    place = (left + grid.overlap + size * 0.3, top - grid.overlap - size * 1.1)
    canvas.setFillGray(1.0)
    canvas.rect(place[0] - 0.2 * size, place[1] - 0.2 * size, 1.7 * size, 1.1 * size, 0, 1)
    write_line(canvas, *place, tile_code(*tile), size=size, bold=True)
