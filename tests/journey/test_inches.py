"""A plane in inches is told in inches: no metric figure in what its builder reads."""

import re
from dataclasses import fields
from pathlib import Path

import pytest
from click.testing import CliRunner

import foamwright
from foamwright.book.card import _limits
from foamwright.book.pages import list_blocks
from foamwright.book.set_up import set_up_blocks
from foamwright.cli.command import foamwright as command

EXAMPLE = Path(__file__).resolve().parents[2] / "examples" / "brindle-cob.toml"
METRIC = re.compile(r"-?\d[\d.]*\s(?:mm|cm|m|N|N m|m/s|°C|cm²|g/dm²|kg)(?![\w²/])")
TRADE = ("9 mm snap-off blade", "60 cm (24 in)", "1 to 6 mm (1/16 to 1/4 in)")  # sold or said so


@pytest.fixture(scope="module")
def plane():
    return foamwright.load(EXAMPLE)


def metric(plane, text):
    """Metric figures of a text, names of stock left out."""
    tables = [getattr(plane.stock, field.name) for field in fields(plane.stock)]
    names = {name for table in tables if isinstance(table, dict) for name in table}
    text = " ".join(text.split())  # names that a line's end cuts in two are whole again
    for name in (*sorted(names, key=len, reverse=True), *TRADE):
        text = text.replace(name, "")
    return METRIC.findall(text)


@pytest.mark.parametrize(
    "words",
    [
        ("check", "--all"),
        ("parts",),
        ("prop",),
        ("bench", "--amps", "12 A", "--thrust", "31 oz", "--try"),
        ("fly",),
    ],
)
def test_what_a_verb_prints(plane, words):
    done = CliRunner().invoke(command, [words[0], str(EXAMPLE), *words[1:]])
    assert done.exit_code in (0, 1), done.output
    assert len(done.output) > 100
    assert metric(plane, done.output) == []


def test_the_reasons_of_a_plane_that_fails(plane):
    weak = plane.with_values({"wing.spar.strips": 1, "motor.firewall.stock": "birch ply 1/16 in"})
    said = " ".join(
        [check.why for check in weak.checks]
        + [change.words for check in weak.checks for change in check.changes]
    )
    assert metric(weak, said) == []


def test_the_pages_of_the_book(plane):
    blocks = [*list_blocks(plane, {}), *set_up_blocks(plane)]
    cells = [cell for block in blocks for row in getattr(block, "rows", ()) for cell in row]
    cells += [cell for row in _limits(plane) for cell in row]
    assert len(cells) > 100
    assert metric(plane, " | ".join(cells)) == []


@pytest.mark.parametrize(("name", "paper"), [("brindle-cob", "letter"), ("sixpence", "a4")])
def test_the_paper_that_lies_in_the_printer_there(tmp_path, name, paper):
    file = EXAMPLE.with_name(f"{name}.toml")
    words = ["sheets", str(file), "--draft", "--format", "pdf", "--out", str(tmp_path / "out")]
    done = CliRunner().invoke(command, words)
    assert done.exit_code == 0, done.output
    assert f"-tiles-{paper}.pdf" in done.output
