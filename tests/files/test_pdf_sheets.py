"""PDF sheets turned back into pixels and words: true to size, complete, the same every time."""

import numpy as np
import pytest
from pdf_reading import MM, bars_at_the_foot, longest_runs, page_pixels, page_sizes, page_words
from shapely import box
from sheet_job import BOARD, GAP, HEADING, MARGIN, board_part, whole_job

from foamwright.core.errors import OutputError
from foamwright.sheets.draft import draft_layout
from foamwright.sheets.grid import tile_code, tile_grid
from foamwright.sheets.model import Heading
from foamwright.sheets.paper import paper_of
from foamwright.sheets.pdf import write_boards_pdf
from foamwright.sheets.tiles import write_tiles_pdf

# Points, from ISO 216 (mm) and ANSI/ASME Y14.1 (in) sheet sizes at 72 points to the inch.
POINTS = {"a4": (595.28, 841.89), "letter": (612.0, 792.0), "a3": (841.89, 1190.55)}
ALLOWED = 0.2  # mm on a bar of 100 mm


@pytest.fixture(scope="module")
def job():
    parts = whole_job()
    return parts, draft_layout(parts, *BOARD, gap=GAP, margin=MARGIN)


@pytest.fixture(scope="module")
def boards(job, tmp_path_factory):
    parts, layout = job
    path = tmp_path_factory.mktemp("pdf") / "boards.pdf"
    data = write_boards_pdf(layout, parts, heading=HEADING, paper=paper_of("A4"))
    path.write_bytes(data)
    return path


@pytest.fixture(scope="module", params=["a4", "letter"])
def tiles(request, job, tmp_path_factory):
    parts, layout = job
    path = tmp_path_factory.mktemp("pdf") / f"tiles-{request.param}.pdf"
    paper = paper_of(request.param)
    path.write_bytes(write_tiles_pdf(layout, parts, heading=HEADING, paper=paper))
    return request.param, path


def test_every_board_page_measures_true(boards):
    sizes = page_sizes(boards)
    for page, size in enumerate(sizes, start=1):
        metric, inch = bars_at_the_foot(boards, page, size)
        assert metric == pytest.approx(100.0, abs=ALLOWED), page
        assert inch == pytest.approx(101.6, abs=ALLOWED), page


def test_every_tile_page_measures_true(tiles):
    _, path = tiles
    for page, size in enumerate(page_sizes(path), start=1):
        metric, inch = bars_at_the_foot(path, page, size)
        assert metric == pytest.approx(100.0, abs=ALLOWED), page
        assert inch == pytest.approx(101.6, abs=ALLOWED), page


def test_tile_pages_have_the_papers_size(tiles):
    name, path = tiles
    for size in page_sizes(path):
        assert sorted(size) == pytest.approx(sorted(POINTS[name]), abs=0.02)


def test_board_pages_hold_the_whole_board(boards, job):
    _, layout = job
    sizes = page_sizes(boards)[1 : 1 + layout.boards_used]
    assert len(sizes) == layout.boards_used
    for width, height in sizes:
        assert width > 30 * 72
        assert height > 20 * 72


def test_viewers_are_asked_not_to_scale(boards, tiles):
    for path in (boards, tiles[1]):
        assert b"/PrintScaling /None" in path.read_bytes()


def test_first_page_instructs_and_warns(boards, tiles):
    for path in (boards, tiles[1]):
        words = " ".join(page_words(path, 1).split())
        for wanted in ("100 %", "Fit to page", "fresh blade", "160 to 200 °C", "SCORE", "BEVEL"):
            assert wanted in words, wanted


def test_every_part_is_named_on_its_board(boards, job):
    parts, layout = job
    pages = range(1, len(page_sizes(boards)) + 1)
    words = " ".join(" ".join(page_words(boards, page).split()) for page in pages)
    for part in parts:
        assert part.name in words, part.id
    for wanted in ("1 of 2", "6 of 6", "light display board", "CG", "leading edge", "Board 1 of"):
        assert wanted in words, wanted
    assert layout.boards_used >= 3


def test_tiles_carry_code_and_board(tiles):
    _, path = tiles
    sizes = page_sizes(path)
    found = [page_words(path, page) for page in range(3, len(sizes) + 1)]
    coded = [words for words in found if "joins" in words]
    assert len(coded) >= 20
    for words in coded:
        assert "Board" in words
        assert "Brindle Cob" in words
    assert any("A1" in words for words in coded)
    assert "tile map" in page_words(path, 2)


def test_firewall_is_a_template(boards):
    last = [page_words(boards, page) for page in range(1, len(page_sizes(boards)) + 1)]
    assert any("ply templates" in words and "firewall" in words for words in last)
    assert any("to length" in words and "2 off" in words and "120 mm" in words for words in last)


def test_a_square_prints_true(tmp_path):
    """A 200 x 150 mm part alone on a board: its outline measured in the pixels, both ways."""
    part = board_part("square", 1, box(0, 0, 0.200, 0.150))
    layout = draft_layout((part,), 0.300, 0.250)
    path = tmp_path / "square.pdf"
    heading = Heading("Square")
    path.write_bytes(write_boards_pdf(layout, (part,), heading=heading, paper=paper_of("A4")))
    pixels = page_pixels(path, 2)
    for grid, length in ((pixels, 200.0), (pixels.T, 150.0)):
        runs = longest_runs(np.ascontiguousarray(grid)) * MM
        near = runs[np.abs(runs - length) < 2.0]
        assert len(near), length
        # The line's own width lies half outside at each end.
        assert float(np.median(near)) == pytest.approx(length + 0.55, abs=ALLOWED)


def test_a_printers_shrinking_is_made_up_for(job, tmp_path):
    parts, layout = job
    path = tmp_path / "tiles.pdf"
    data = write_tiles_pdf(
        layout, parts, heading=HEADING, paper=paper_of("A4"), printer_scale=0.985
    )
    path.write_bytes(data)
    for page in (1, 2, 3):
        size = page_sizes(path)[page - 1]
        assert sorted(size) == pytest.approx(sorted(POINTS["a4"]), abs=0.02)
        metric, _ = bars_at_the_foot(path, page, size)
        assert metric * 0.985 == pytest.approx(100.0, abs=ALLOWED)


def test_the_same_job_makes_the_same_bytes(job, boards, tiles):
    parts, layout = job
    again = write_boards_pdf(layout, parts, heading=HEADING, paper=paper_of("A4"))
    assert again == boards.read_bytes()
    name, path = tiles
    paper = paper_of(name)
    assert write_tiles_pdf(layout, parts, heading=HEADING, paper=paper) == path.read_bytes()


def test_neighbouring_tiles_share_overlap_and_crosses():
    grid = tile_grid(0.762, 0.508, paper=paper_of("A4"), overlap=0.012)
    for row in range(grid.rows - 1):
        for column in range(grid.columns - 1):
            here, right = grid.window(row, column), grid.window(row, column + 1)
            above = grid.window(row + 1, column)
            assert here[2] - right[0] == pytest.approx(12.0)
            assert here[3] - above[1] == pytest.approx(12.0)
    last = grid.window(grid.rows - 1, grid.columns - 1)
    assert last[2] >= 762.0
    assert last[3] >= 508.0
    assert tile_code(2, 3) == "C4"


def test_unusable_printing_wishes_are_refused():
    with pytest.raises(OutputError, match="printer's scale is 97"):
        tile_grid(0.762, 0.508, paper=paper_of("A4"), printer_scale=97.0)
    with pytest.raises(OutputError, match="overlap is 80 mm"):
        tile_grid(0.762, 0.508, paper=paper_of("A4"), overlap=0.08)
    with pytest.raises(OutputError, match="no paper 'A9'"):
        paper_of("A9")


def test_letters_beyond_western_europe_are_printed(job, tmp_path):
    parts, layout = job
    path = tmp_path / "boards.pdf"
    heading = Heading("Żółw Ласточка")
    path.write_bytes(write_boards_pdf(layout, parts, heading=heading, paper=paper_of("A4")))
    assert "Żółw Ласточка" in page_words(path, 1)
