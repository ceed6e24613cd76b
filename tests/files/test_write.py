"""Whole sets of sheets: all or nothing, the same again, nothing overwritten silently."""

from types import SimpleNamespace

import pytest
from pdf_reading import page_words
from plane_stand_in import longer, stand_in

from foamwright.core.errors import OutputError
from foamwright.design.model import Board, OffCut
from foamwright.sheets import write
from foamwright.sheets.draft import draft_on
from foamwright.sheets.write import slug, write_all

FILES = {
    "brindle-cob-boards.pdf", "brindle-cob-tiles-a4.pdf", "brindle-cob-boards.dxf",
    "brindle-cob-parts-a4.pdf", "brindle-cob-printer-test-a4.pdf",
    "brindle-cob-board-1.svg", "brindle-cob-board-2.svg", "brindle-cob-board-3.svg",
    "brindle-cob-layout.json",
}  # fmt: skip


@pytest.fixture(scope="module")
def plane():
    return stand_in()


@pytest.fixture(scope="module")
def written(plane, tmp_path_factory):
    folder = tmp_path_factory.mktemp("set") / "sheets"
    return folder, write_all(plane, folder, paper="A4", time_limit=0.0)


def test_the_whole_set_is_written(written):
    folder, paths = written
    assert {path.name for path in paths} == FILES
    assert {path.name for path in folder.iterdir()} == FILES


def test_the_set_comes_out_the_same_again(plane, written, tmp_path):
    _, paths = written
    write_all(plane, tmp_path, paper="a4", time_limit=0.0)
    for path in paths:
        assert (tmp_path / path.name).read_bytes() == path.read_bytes(), path.name


def test_offcuts_have_their_own_pages_and_files(tmp_path):
    pieces = (OffCut(length=0.5, width=0.3), OffCut(length=0.25, width=0.2, count=2))
    plane = stand_in(board=Board(offcut=pieces, gap=0.004, margin=0.005))
    paths = write_all(plane, tmp_path, time_limit=0.0, formats=("pdf", "svg"))
    words = "".join(page_words(paths[0], page) for page in range(1, 8))
    for wanted in ("3 boards and 3 off-cuts", "Off-cut 1 of 3, 250 mm × 200 mm", "Board 3 of 3"):
        assert wanted in " ".join(words.split()), wanted
    names = [path.name for path in paths if path.suffix == ".svg"]
    assert names == [f"brindle-cob-board-{number}.svg" for number in range(1, 7)]
    assert 'width="250mm"' in (tmp_path / names[3]).read_text(encoding="utf-8")


def test_nothing_is_overwritten_silently(plane, written):
    folder, paths = written
    before = {path: path.stat().st_mtime_ns for path in paths}
    with pytest.raises(OutputError, match=r"is there already.*nothing was written.*overwrite"):
        write_all(plane, folder, time_limit=0.0)
    assert before == {path: path.stat().st_mtime_ns for path in paths}


def test_one_file_in_the_way_stops_all(plane, tmp_path):
    (tmp_path / "brindle-cob-boards.dxf").write_text("mine", encoding="utf-8")
    with pytest.raises(OutputError, match=r"boards\.dxf is there already"):
        write_all(plane, tmp_path, time_limit=0.0)
    assert [path.name for path in tmp_path.iterdir()] == ["brindle-cob-boards.dxf"]


def test_overwriting_takes_old_boards_away(plane, tmp_path):
    for number in (1, 9):
        (tmp_path / f"brindle-cob-board-{number}.svg").write_text("old", encoding="utf-8")
    (tmp_path / "brindle-cob-board-notes.svg").write_text("mine", encoding="utf-8")
    write_all(plane, tmp_path, time_limit=0.0, formats=("svg",), overwrite=True)
    names = {path.name for path in tmp_path.iterdir()}
    assert "brindle-cob-board-9.svg" not in names
    assert "brindle-cob-board-notes.svg" in names
    assert not any(name.endswith((".pdf", ".dxf")) for name in names)


def test_a_kept_layout_is_used_again(plane, tmp_path):
    said = []
    write_all(plane, tmp_path, time_limit=2.0, formats=("svg",), progress=said.append)
    assert any("nesting" in words for words in said)
    first = (tmp_path / "brindle-cob-layout.json").read_text(encoding="utf-8")
    said.clear()
    write_all(
        plane, tmp_path, time_limit=9.0, formats=("svg",), overwrite=True, progress=said.append
    )
    assert not any("nesting" in words for words in said)
    assert (tmp_path / "brindle-cob-layout.json").read_text(encoding="utf-8") == first


def test_a_part_that_fits_no_board_stops_the_writing(plane, tmp_path):
    parts = plane.parts.parts
    long = stand_in(parts=(longer(parts[0], 0.8), *parts[1:]))
    with pytest.raises(OutputError, match=r"fit no board.*wing panel, 800 mm × 203 mm"):
        write_all(long, tmp_path / "out", time_limit=0.0)
    assert not (tmp_path / "out").exists()


def test_a_folder_that_cannot_be_made(plane, tmp_path):
    (tmp_path / "taken").write_text("a file", encoding="utf-8")
    with pytest.raises(OutputError, match="taken is a file; name a folder"):
        write_all(plane, tmp_path / "taken", time_limit=0.0, formats=("svg",))


def test_an_unknown_format_or_paper(plane, tmp_path):
    with pytest.raises(OutputError, match="no format 'dwg'"):
        write_all(plane, tmp_path, formats=("dwg",))
    with pytest.raises(OutputError, match="no paper 'A9'"):
        write_all(plane, tmp_path, paper="A9")


@pytest.mark.parametrize(
    ("name", "expected"),
    [("Brindle Cob", "brindle-cob"), ("../Cob", "cob"), ("Żółw 2", "żółw-2"), ("--", "plane")],
)
def test_names_become_file_names(name, expected):
    assert slug(name) == expected


def test_a_draft_that_a_whole_search_did_not_better_is_not_searched_again(
    plane, tmp_path, monkeypatch
):
    asked = []
    clock = iter([0.0, 15.0])

    def search(parts, bench, *, time_limit, progress):
        asked.append(time_limit)
        return draft_on(parts, bench)

    monkeypatch.setattr(write, "search_on", search)
    monkeypatch.setattr(write, "time", SimpleNamespace(monotonic=lambda: next(clock)))
    write_all(plane, tmp_path, time_limit=15.0, formats=("svg",))
    before = {path.name: path.read_bytes() for path in tmp_path.iterdir()}
    write_all(plane, tmp_path, time_limit=15.0, formats=("svg",), overwrite=True)
    assert asked == [15.0]
    assert {path.name: path.read_bytes() for path in tmp_path.iterdir()} == before
