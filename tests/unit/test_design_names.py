"""Stock names in a design, defaults it left in force, and starting files."""

import itertools

import pytest
from design_text import TEXT, bent

from foamwright.core.errors import DesignErrors
from foamwright.design.defaults import LEFT_OUT, defaults_used
from foamwright.design.keys import dimension_of, field_of, inner_table, split
from foamwright.design.load import parse_design
from foamwright.design.model import Design
from foamwright.design.names import check_stock_names
from foamwright.design.new import KINDS, Answers, new_design_text

STOCK = {
    "boards": ("light display board", "heavy craft board"),
    "plies": ("birch ply 1/8 in", "birch ply 1/16 in"),
    "tapes": ("fibre mesh tape", "packing tape"),
    "glues": ("hot glue",),
    "bands": ("rubber band 64",),
    "rods": ("hardwood dowel 1/4 in", "music wire 1.2 mm", "music wire 2.0 mm", "carbon rod 3 mm"),
    "motors": ("outrunner 22 mm 1400 Kv", "outrunner 22 mm 1000 Kv"),
    "controllers": ("controller 20 A",),
    "servos": ("servo 9 g",),
    "others": ("receiver 6 channel", "nylon bolt M4"),
}
ASKED = "`foamwright stock` lists them all, and a stock.toml beside the design can add it."


def test_names_in_stock_pass():
    assert check_stock_names(parse_design(TEXT).design, STOCK) == []


def test_every_unknown_name_is_told_with_its_line():
    text = TEXT + (
        '[motor]\nstock = "outrunner 22 mm 1450 Kv"\n[[servo]]\nrole = "rudder"\nrod = "string"\n'
        '[[wing.reinforcement]]\nkind = "carbon"\nstock = "carbon rod 4 mm"\n'
    )
    text = bent('span = "400 mm"', 'span = "400 mm"\nstiffener = "carbon rod"', text)
    with pytest.raises(DesignErrors) as caught:
        parse_design(text, names=STOCK)
    assert [error.field for error in caught.value.errors] == [
        "stab.stiffener",
        "motor.stock",
        "servo.0.rod",
        "wing.reinforcement.0.stock",
    ]
    assert [error.line for error in caught.value.errors] == [13, 27, 30, 33]
    assert str(caught.value.errors[1]) == (
        'motor.stock is "outrunner 22 mm 1450 Kv"; there is no such name in stock under motors. '
        'Near it are "outrunner 22 mm 1400 Kv", "outrunner 22 mm 1000 Kv"; ' + ASKED
    )
    assert "under rods or tapes" in str(caught.value.errors[0])


def test_unknown_stock_is_told_beside_other_faults():
    text = bent('span = "400 mm"', 'span = "400 oz"', TEXT) + '[motor]\nstock = "rocket"\n'
    with pytest.raises(DesignErrors) as caught:
        parse_design(text, names=STOCK)
    assert [error.field for error in caught.value.errors] == ["stab.span", "motor.stock"]


def test_defaults_are_told_in_the_units_of_the_design():
    words = parse_design(TEXT).defaults_used
    assert "wing.incidence = 1.5 deg" in words
    assert "wing.panel.0.tip_chord = same as its chord" in words
    assert "propeller.diameter = 229 mm" in words
    assert not [word for word in words if word.startswith(("wing.position", "wing.steps", "gear"))]
    inches = parse_design('units = "inch"\n' + TEXT).defaults_used
    assert "propeller.diameter = 9 in" in inches


def test_defaults_as_data():
    found = {item["key"]: item for item in defaults_used(parse_design(TEXT).design)}
    assert found["pack.capacity"] == {
        "key": "pack.capacity",
        "value": 4680.0,
        "words": "1300 mAh",
    }
    assert found["pack.mass"]["value"] is None
    assert found["pack.mass"]["words"] == "from its energy"


def every_key(table=Design, path=()):
    for name in table.model_fields:
        inner = inner_table(table, name)
        yield table, name, (*path, name)
        if inner is not None:
            yield from every_key(inner, (*path, name))


def test_every_key_without_a_value_says_what_is_taken():
    for table, name, path in every_key():
        info = table.model_fields[name]
        if not info.is_required() and info.default is None:
            assert ".".join(path) in LEFT_OUT
    for key in LEFT_OUT:
        assert field_of(split(key)) is not None


def test_every_number_with_a_dimension_has_limits_or_a_rule():
    ruled = {"pack.position", "pack.tray_front", "pack.tray_back", "wing.steps"}
    ruled.add("wing.crease_positions")
    for table, name, path in every_key():
        if dimension_of(table, name) is not None and ".".join(path) not in ruled:
            assert table.model_fields[name].metadata, path


@pytest.mark.parametrize("kind", KINDS)
def test_starting_files_load(kind):
    spans = (None, 0.5, 0.8, 1.2, 1.7, 2.4)
    for span, units, controls in itertools.product(
        spans, ("metric", "inch"), (None, "ailerons", "rudder")
    ):
        text = new_design_text(Answers("Reed Wren", kind, span, units, controls))
        design = parse_design(text).design
        whole = 2 * sum(panel.span for panel in design.wing.panel)
        assert whole == pytest.approx(span or KINDS[kind].span, abs=0.014)
        assert (design.wing.aileron is None) == ((controls or KINDS[kind].controls) == "rudder")
        assert text.count("#") > 25
        assert design.units == units


def test_starting_files_take_the_answers():
    answers = Answers(
        'A "B" \\ C # ø',
        "glider",
        span=1.2,
        motor="outrunner 22 mm 1000 Kv",
        cells=2,
        capacity=3600.0,
        board_mass=0.118,
    )
    design = parse_design(new_design_text(answers)).design
    assert design.name == 'A "B" \\ C # ø'
    assert design.motor.stock == "outrunner 22 mm 1000 Kv"
    assert (design.pack.cells, design.pack.capacity, design.board.mass) == (2, 3600.0, 0.118)


def test_tail_areas_are_as_the_comments_say():
    design = parse_design(new_design_text(Answers("a", "trainer"))).design
    wing = 1.17 * design.wing.panel[0].chord
    assert design.stab.span * design.stab.chord / wing == pytest.approx(0.165, rel=0.05)
    fin = design.fin.span * (design.fin.chord + design.fin.tip_chord) / 2
    assert fin / wing == pytest.approx(0.09, rel=0.07)


@pytest.mark.parametrize(
    ("answers", "message"),
    [
        (Answers(""), 'name is ""; it must have 1 to 80 characters on one line.'),
        (Answers("a\nb"), 'name is "a\nb"; it must have 1 to 80 characters on one line.'),
        (
            Answers("a", "jet"),
            'kind is "jet"; it must be "trainer", "slow flyer", "small flyer", "glider", "sport".',
        ),
        (Answers("a", span=-1.2), "span is -1200 mm; it must be 500 mm to 2400 mm."),
        (
            Answers("a", span=10.0, units="inch"),
            "span is 33 ft; it must be 19 11/16 in to 94 1/2 in.",
        ),
        (Answers("a", span=float("nan")), "span is not known; it must be 500 mm to 2400 mm."),
        (Answers("a", cells=9), "cells is 9; it must be 1 to 6."),
        (Answers("a", capacity=1.0), "capacity is 0.28 mAh; it must be 50 mAh to 20000 mAh."),
        (Answers("a", board_mass=9.0), "board_mass is 9000 g; it must be 5 g to 3000 g."),
    ],
)
def test_starting_files_refuse(answers, message):
    with pytest.raises(DesignErrors) as caught:
        new_design_text(answers)
    assert str(caught.value) == message
