"""Draw the pictures of real sheets in docs/pictures, and list the boards that the examples take.

python tools/draw_sheets.py           pictures and table; searches for about 14 s an example
python tools/draw_sheets.py --table   the table only
"""

import subprocess
import sys
import tempfile
from pathlib import Path

import foamwright
from foamwright.plane import Plane
from foamwright.sheets.balance_marks import marked_parts
from foamwright.sheets.board_picture import draw_board_picture
from foamwright.sheets.draft import bench_of, draft_on
from foamwright.sheets.model import Layout
from foamwright.sheets.nest import search_on
from foamwright.sheets.place import board_parts
from foamwright.sheets.words import boards_words
from foamwright.sheets.write import write_all

ROOT = Path(__file__).resolve().parents[1]
EXAMPLES = ROOT / "examples"
PICTURES = ROOT / "docs" / "pictures"
PAGE = ROOT / "docs" / "use" / "sheets.md"
COB = EXAMPLES / "brindle-cob.toml"
START, END = "<!-- table: tools/draw_sheets.py -->\n", "<!-- end of table -->\n"
HEAD = "| example | parts cut from board | draft | after a search | parts fill |\n"
RULE = "|---|---|---|---|---|\n"
SEARCH = 14.0  # s, as the command line takes


def table_row(name: str, plane: Plane, searched: Layout) -> str:
    """One example's row: boards by the quick draft and by a search, and how full they are."""
    draft = draft_on(plane.parts.parts, bench_of(plane))
    count = len(board_parts(plane.parts.parts))
    cells = [name, str(count), boards_words(draft), boards_words(searched), f"{searched.fill:.0%}"]
    return "| " + " | ".join(cells) + " |\n"


def write_table() -> Layout:
    """Search a layout for every example and put the table into the page; hands back the Cob's."""
    rows: list[str] = []
    kept: dict[str, Layout] = {}
    for file in sorted(EXAMPLES.glob("*.toml")):
        plane = foamwright.load(file)
        found = search_on(plane.parts.parts, bench_of(plane), time_limit=SEARCH)
        rows.append(table_row(file.stem, plane, found))
        print(rows[-1], end="", flush=True)
        kept[file.stem] = found
    text = PAGE.read_text(encoding="utf-8")
    before, rest = text.split(START)
    PAGE.write_text(
        before + START + HEAD + RULE + "".join(rows) + END + rest.split(END)[1], encoding="utf-8"
    )
    return kept[COB.stem]


def draw_pictures(layout: Layout) -> None:
    """Boards, one tile, one page of the booklet, gauges and the three views of the Cob."""
    plane = foamwright.load(COB)
    parts = marked_parts(plane)
    draw_board_picture(layout, parts, path=PICTURES / "brindle-cob-boards.png", units="inch")
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        write_all(plane, folder, paper="letter", time_limit=0.0, formats=("pdf",))
        pages = [("tiles-letter", 6, "tile"), ("parts-letter", 1, "booklet")]
        for document, page, picture in pages:
            _render(folder / f"brindle-cob-{document}.pdf", page, f"brindle-cob-{picture}")
        plane.show(folder / "views.pdf")
        _render(folder / "views.pdf", 1, "brindle-cob-views", wide=1400)


def _render(document: Path, page: int, picture: str, wide: int = 640) -> None:
    """Turn a page into a PNG of a given width in greys (poppler's pdftoppm)."""
    options = ["-png", "-gray", "-singlefile", "-scale-to-x", str(wide), "-scale-to-y", "-1"]
    pages = ["-f", str(page), "-l", str(page)]
    target = str(PICTURES / picture)
    subprocess.run(["pdftoppm", *options, *pages, str(document), target], check=True)  # noqa: S607


if __name__ == "__main__":
    best = write_table()
    if "--table" not in sys.argv:
        draw_pictures(best)
