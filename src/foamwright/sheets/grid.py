"""How a board is cut into tiles for a home printer."""

import math
from dataclasses import dataclass

from shapely import Polygon, STRtree, box
from shapely.geometry import LineString

from foamwright.core.errors import OutputError
from foamwright.sheets.model import Drawing
from foamwright.sheets.paper import Paper

PER_METRE = 1000.0  # mm
EDGE = 8.0  # mm that no home printer needs to reach; common practice
FOOT = 20.0  # mm below the tile for scales and code
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
        """Say where a tile lies on the board.

        Args:
            row: From 0 at the bottom. [-]
            column: From 0 at the left. [-]

        Returns:
            Left, bottom, right, top. [mm]

        Source:
            Definition.

        Example:
            >>> Grid(1, 2, 190.0, 260.0, 12.0, (210.0, 297.0)).window(0, 1)
            (178.0, 0.0, 368.0, 260.0)
        """
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
        printer_scale: What the printer makes of 100 mm, over 100 mm. [-]

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
        10
    """
    if not SCALES[0] <= printer_scale <= SCALES[1]:
        raise OutputError(
            f"The printer's scale is {printer_scale:.3f}; it must be {SCALES[0]} to {SCALES[1]}. "
            "It is what the 100 mm bar measures in millimetres, divided by 100."
        )
    if not 0.0 <= overlap <= 0.05:
        raise OutputError(f"The overlap is {overlap * 1000:.0f} mm; it must be 0 to 50 mm.")
    sides = (paper.width * PER_METRE, paper.height * PER_METRE)
    lap = overlap * PER_METRE
    grids: list[Grid] = []
    for page in (sides, (sides[1], sides[0])):
        wide = page[0] * printer_scale - 2 * EDGE
        tall = page[1] * printer_scale - 2 * EDGE - FOOT
        columns = max(1, math.ceil((length * PER_METRE - lap) / (wide - lap) - 1e-9))
        rows = max(1, math.ceil((width * PER_METRE - lap) / (tall - lap) - 1e-9))
        grids.append(Grid(rows, columns, wide, tall, lap, page))
    return min(grids, key=lambda grid: grid.rows * grid.columns)


def window_box(window: tuple[float, float, float, float]) -> Polygon:
    """Make a polygon of a window.

    Args:
        window: Left, bottom, right, top. [mm]

    Returns:
        The same as a polygon. [m]

    Source:
        Definition.

    Example:
        >>> window_box((0.0, 0.0, 1000.0, 500.0)).area
        0.5
    """
    left, bottom, right, top = (value / PER_METRE for value in window)
    return box(left, bottom, right, top)


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
            window = window_box(grid.window(row, column))
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
