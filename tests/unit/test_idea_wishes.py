"""Files of wishes: what is wrong with them is said with file and line."""

import json

import pytest

from foamwright.core.errors import DesignError, DesignErrors
from foamwright.idea.asking import wishes_text
from foamwright.idea.gear import gear_sets
from foamwright.idea.problem import Case, problem_of
from foamwright.idea.reading import SCHEMA_FILE, parse_wishes, read_wishes, wishes_schema
from foamwright.stock.load import load_stock
from idea_samples import WISHES

GOOD = """\
[bench]
motors = ["outrunner 22 mm 1000 Kv"]
propellers = ["slow flight 8x3.8"]

[[bench.pack]]
cells = 3
capacity = "1300 mAh"

[wish]
span_most = "1.2 m"
"""


def test_good_wishes_are_read_in_si():
    wishes = parse_wishes(GOOD, "w.toml")
    assert wishes.wish.span_most == pytest.approx(1.2)
    assert wishes.bench.pack[0].capacity == pytest.approx(1.3 * 3600.0)


@pytest.mark.parametrize("file", sorted(WISHES.glob("*.toml")), ids=lambda file: file.stem)
def test_examples_are_read(file):
    assert problem_of(Case(read_wishes(file).wishes)).gear


@pytest.mark.parametrize(
    ("before", "after", "message"),
    [
        ('"1.2 m"', "1.2", r"w.toml:10: wish.span_most is 1.2; "),
        ('motors = ["outrunner 22 mm 1000 Kv"]', "motors = []", r"w.toml:2: bench.motors is empty"),
        ("22 mm 1000", "22 mm 1001", r'w.toml:2: bench.motors is "outrunner 22 mm 1001 Kv"; there'),
        ("slow flight 8x3.8", "wooden 8", r'w.toml:3: bench.propellers is "wooden 8"; it must be'),
        ("cells = 3", "cells = 30", r"w.toml:6: bench.pack.0.cells is 30; it must be 1 to 6"),
        ("span_most", "spam_most", r'w.toml:10: wish.spam_most.*Did you mean "span_most"'),
        ("[wish]", '[wish]\nkind = "jet"', r'w.toml:10: wish.kind is "jet"; it must be "trainer"'),
        (
            "[wish]",
            '[wish]\nspan_least = "2 m"',
            r"wish.span_least is 2000 mm; it must not be more",
        ),
        (
            "[wish]",
            '[wish]\ncontrols = "ailerons"\n[bench2]',
            r"bench2 is an unknown key",
        ),
        ("[wish]", "[wish]\nboards_most = 9", r"wish.boards_most is 9; only 4 boards lie on the"),
    ],
)
def test_what_is_wrong_is_said_with_its_line(before, after, message):
    with pytest.raises(DesignErrors, match=message):
        parse_wishes(GOOD.replace(before, after), "w.toml")


def test_ailerons_with_two_servos():
    text = GOOD.replace("[[bench", "servo_count = 2\n\n[[bench") + 'controls = "ailerons"\n'
    with pytest.raises(DesignErrors, match="ailerons take four servos, and servo_count is 2"):
        parse_wishes(text, "w.toml")


def test_empty_bench_names_all_that_is_missing():
    with pytest.raises(DesignErrors) as caught:
        parse_wishes("[wish]\n", "w.toml")
    text = str(caught.value)
    assert "bench.motors is empty" in text
    assert "bench.pack is empty" in text


def test_power_that_nothing_on_the_bench_stands():
    wishes = parse_wishes(
        GOOD.replace("outrunner 22 mm 1000 Kv", "outrunner 13 mm 3100 Kv"), "w.toml"
    )
    with pytest.raises(
        DesignError, match=r"without a power set that fits \(1 tried\).*draws \d+ A"
    ):
        gear_sets(wishes, load_stock())


def test_answers_make_a_file():
    text = wishes_text(
        {
            "name": "Reed Wren",
            "motors": "outrunner 22 mm 1000 Kv",
            "packs": "3 x 1300 mAh, 2 x 850 mAh",
            "span_most": "46 in",
        }
    )
    wishes = parse_wishes(text)
    assert wishes.units == "inch"
    assert [pack.cells for pack in wishes.bench.pack] == [3, 2]


def test_an_answer_that_cannot_be_read():
    with pytest.raises(DesignErrors, match="a pack is written as cells x capacity"):
        wishes_text({"motors": "outrunner 22 mm 1000 Kv", "packs": "big"})


def test_schema_is_up_to_date():
    assert json.loads(SCHEMA_FILE.read_text(encoding="utf-8")) == wishes_schema()
