"""The page on sheets lists the boards of every example, as tools/draw_sheets.py wrote them."""

import re

from reading import ROOT


def test_every_example_is_in_the_table_of_boards():
    page = (ROOT / "docs" / "use" / "sheets.md").read_text(encoding="utf-8")
    table = page.split("<!-- table: tools/draw_sheets.py -->")[1].split("<!-- end of table -->")[0]
    rows = re.findall(r"^\| ([\w-]+) \| \d+ \| \d+ boards? \| \d+ boards? \| \d+% \|$", table, re.M)
    assert rows == sorted(file.stem for file in (ROOT / "examples").glob("*.toml"))
