"""The book and the card of example planes: what stands in them, and what comes after what."""

import re
import time
from pathlib import Path

import pytest
from pdf_reading import page_sizes, page_words

import foamwright
from foamwright.book.card import card_blocks
from foamwright.book.hours import free_hours
from foamwright.book.model import Figure, Grid, Heading, Picture, Words
from foamwright.book.pages import step_blocks
from foamwright.book.steps import build_steps
from foamwright.book.write import write_book
from foamwright.cli import main
from foamwright.core.errors import OutputError
from foamwright.flight.observations import OBSERVATIONS
from foamwright.parts.model import Source


def page_texts(path):
    return [page_words(path, number + 1) for number in range(len(page_sizes(path)))]


EXAMPLES = sorted((Path(__file__).parents[2] / "examples").glob("*.toml"))
COB = next(path for path in EXAMPLES if path.stem == "brindle-cob")


@pytest.fixture(scope="module", params=EXAMPLES, ids=lambda path: path.stem)
def plane(request):
    return foamwright.load(request.param)


def test_every_part_is_cut_once_and_joined_once(plane):
    steps = build_steps(plane)
    cut = [name for step in steps if step.flat for name in step.parts]
    joined = [name for step in steps if not step.flat for name in step.parts]
    assert sorted(joined) == sorted(part.id for part in plane.parts.parts)
    solid = [part.id for part in plane.parts.parts if part.source is not Source.TAPE]
    assert sorted(cut) == sorted(solid)
    fitted = [name for step in steps for name in step.items]
    assert sorted(fitted) == sorted(i.id for i in plane.parts.items if i.id != "glue")


def test_no_step_comes_before_what_it_needs(plane):
    steps = build_steps(plane)
    place = {step.id: number for number, step in enumerate(steps)}
    for step in steps:
        assert all(place[need] < place[step.id] for need in step.needs)
    cut_at = {name: place[step.id] for step in steps if step.flat for name in step.parts}
    for step in steps:
        if not step.flat:
            assert all(cut_at.get(name, -1) < place[step.id] for name in step.parts)
            there = [
                other for other in steps if not other.flat and set(step.onto) & set(other.parts)
            ]
            assert all(place[other.id] < place[step.id] for other in there), step.id
    assert steps[-1].id == "propeller"


def test_every_step_with_parts_is_drawn_and_warned(plane):
    titles = {step.id: step.title for step in build_steps(plane)}
    for number, step in enumerate(build_steps(plane), 1):
        blocks = step_blocks(plane, step, number=number, titles=titles)
        figures = [block for block in blocks if isinstance(block, Figure)]
        if step.parts or step.items:
            assert isinstance(figures[0].picture, Picture)
            assert figures[0].picture.patches
        if step.glue:
            assert any("glue" in words for words in step.cautions)
    warned = {step.id: " ".join(step.cautions) for step in build_steps(plane)}
    assert "Propeller: fitted last" in warned["propeller"]
    assert "LiPo" in warned["balance"]


def test_the_hours_of_a_first_plane(plane):
    """Six to ten hours, common practice; a little more for many parts."""
    assert 4 < sum(step.hands for step in build_steps(plane)) / 3600 < 13


def test_the_card_holds_what_the_field_needs(plane):
    front, back = card_blocks(plane)
    text = " ".join(
        block.words if isinstance(block, Words | Heading) else str(block.rows)
        for block in [*front, *back]
        if not isinstance(block, Figure)
    )
    for words in ("CG", "wind", "timer", "stall", "throw", "250 g", "80 J", "19 m/s",
                  "check your authority and club; rules change", "November 2026"):  # fmt: skip
        assert words in text
    assert len([block for block in front if isinstance(block, Words) and block.words[:2] in
                ("1.", "2.", "3.", "4.")]) == 4  # fmt: skip
    ticked = next(block for block in back if isinstance(block, Grid) and len(block.rows) > 10)
    assert len(ticked.rows) == len(OBSERVATIONS) == 15


def test_files_of_a_book(tmp_path):
    plane = foamwright.load(COB)
    start = time.perf_counter()
    pdf, page, card = write_book(plane, tmp_path, hours=free_hours("Fri 2 h, Sat 5 h, Sun 3 h"))
    assert time.perf_counter() - start < 15.0
    text = "\n".join(page_texts(pdf))
    for words in ("Shopping list", "Cut list", "Time plan", "Laminate the spars", "Set-up",
                  "rubber bands", "longest chain", "Washout", "last of all"):  # fmt: skip
        assert words in text
    assert len(page_texts(card)) == 2
    html = page.read_text("utf-8")
    assert html.count("<svg") >= 15
    assert not re.search(r'(src|href)="(?!data:)', html)
    with pytest.raises(OutputError, match="is there already; nothing was written"):
        write_book(plane, tmp_path)


def test_the_same_bytes_each_time(tmp_path):
    plane = foamwright.load(COB)
    first = write_book(plane, tmp_path / "a")
    second = write_book(foamwright.load(COB), tmp_path / "b", paper="a4")
    for one, two in zip(first, second, strict=True):
        assert one.read_bytes() == two.read_bytes()


def test_from_the_command_line(tmp_path, capsys):
    out = str(tmp_path / "book")
    assert main(["book", str(COB), "--out", out, "--hours", "Fri two hours"]) == 2
    assert "free hours are written as" in capsys.readouterr().err
    assert main(["book", str(COB), "--out", out, "--paper", "letter"]) == 0
    assert capsys.readouterr().out.count("wrote") == 3
