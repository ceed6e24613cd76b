"""Nesting instances of the EURO working group on cutting and packing."""

import pytest
from shapely import Polygon
from shapely.geometry.polygon import orient

from foamwright.core.bands import Band
from foamwright.parts.model import Part, Source
from foamwright.sheets.nest import search_layout
from foamwright.sheets.place import verify_layout

UNIT = 0.01  # m for one unit of an instance: parts come out as large as those of a plane
SECONDS = 8.0
QUARTERS, HALVES = None, (1.0, 0.0)  # turned by quarters; along the strip, either way round
SQUARE = [(0, 0), (10, 0), (10, 10), (0, 10)]

# (copies, corners) of every piece, from the open collection [ORDATA].
FU = [
    (2, SQUARE),
    (1, [(0, 0), (14, 0), (14, 9), (0, 9)]),
    (1, [(0, 0), (14, 0), (7, 7)]),
    (1, [(0, 9), (0, 0), (14, 9)]),
    (1, [(0, 0), (14, 0), (14, 14), (0, 14)]),
    (1, [(0, 0), (10, 4), (10, 9), (0, 9)]),
    (1, [(0, 0), (5, 0), (5, 9), (0, 9)]),
    (1, [(0, 0), (14, 0), (14, 14)]),
    (1, [(0, 0), (10, 0), (10, 10), (0, 14)]),
    (1, [(0, 8), (4, 0), (8, 8)]),
    (1, [(0, 0), (14, 0), (7, 12)]),
]
SHAPES1 = [
    (15, [(0, 0), (2, 0), (2, 3), (12, 3), (12, 0), (14, 0), (14, 5), (0, 5)]),
    (7, [(0, 0), (6, -6), (12, 0), (6, 6)]),
    (
        9,
        [
            (0, 0), (6, 0), (6, -2), (7, -2), (11, 2), (11, 4), (8, 4), (8, 1), (2, 1), (2, 4),
            (0, 4),
        ],
    ),
    (
        12,
        [
            (0, 0), (2, 0), (2, -2), (4, -2), (4, 0), (6, 0), (6, 2), (4, 2), (4, 4), (2, 4),
            (2, 2), (0, 2),
        ],
    ),
]  # fmt: skip
SHAPES2 = [
    (4, [(0, 0), (2, -1), (4, 0), (4, 3), (2, 4), (0, 3)]),
    (4, [(0, 0), (3, 0), (2, 2), (3, 4), (3, 5), (1, 5), (-1, 3), (-1, 1)]),
    (4, [(0, 0), (2, 0), (3, 1), (3, 3), (2, 4), (0, 4), (-1, 3), (-1, 1)]),
    (4, [(0, 0), (2, 1), (4, 0), (3, 2), (4, 5), (2, 4), (0, 5), (1, 3)]),
    (4, [(0, 0), (5, 0), (5, 5), (4, 5), (3, 3), (2, 2), (0, 1)]),
    (4, [(0, 0), (2, 3), (-2, 3)]),
    (4, [(0, 0), (2, 0), (2, 2), (0, 2)]),
]


def parts_of(pieces, fold):
    return tuple(
        Part(
            f"{kind}-{copy}", "piece", "piece", "", "board", Source.BOARD,
            orient(Polygon([(x * UNIT, y * UNIT) for x, y in corners])), (), (),
            Band.exact(0.3), 0.005, fold_along=fold,
        )
        for kind, (copies, corners) in enumerate(pieces)
        for copy in range(copies)
    )  # fmt: skip


# Published: densities of the best layouts known, from runs of 20 minutes and more. Ours are from
# seconds on whatever machine runs the tests: a simple shape mix may be 8 % behind, interlocking
# shapes 15 %. A strip is a board that is far too long; no gap, no margin.
@pytest.mark.slow
@pytest.mark.parametrize(
    ("name", "pieces", "fold", "height", "board", "printed", "rel"),
    [
        ("FU", FU, QUARTERS, 38.0, 70.0, 92.41, 0.08),
        ("SHAPES1", SHAPES1, HALVES, 40.0, 110.0, 76.73, 0.15),
        ("SHAPES2", SHAPES2, HALVES, 15.015, 45.0, 86.23, 0.15),
    ],
)
def test_density(reproduce, name, pieces, fold, height, board, printed, rel):
    parts = parts_of(pieces, fold)
    layout = search_layout(
        parts, board * UNIT, height * UNIT, gap=0.0, margin=0.0, time_limit=SECONDS
    )
    assert verify_layout(layout, parts) == ()
    assert layout.boards_used == 1
    used = max(placement.outline.bounds[2] for placement in layout.placements)
    area = sum(part.outline.area for part in parts)
    reproduce(
        f"{name}, {len(parts)} pieces: density after {SECONDS:.0f} s (%)",
        computed=100 * area / (height * UNIT * used),
        printed=printed,
        rel=rel,
        varies=True,
        source="[GARDEYN2025] table of best known densities; pieces from [ORDATA]",
    )
