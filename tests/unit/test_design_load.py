"""Design files that are wrong: one clear message a fault, with file, line, key, value and fix."""

import time
from pathlib import Path

import pytest
from design_text import TEXT, bent

from foamwright.core.errors import DesignErrors
from foamwright.design.load import parse_design, read_design

EXAMPLES = sorted((Path(__file__).parents[2] / "examples").glob("*.toml"))


def faults(text):
    with pytest.raises(DesignErrors) as caught:
        parse_design(text, "plane.toml")
    assert "Traceback" not in str(caught.value)
    assert "pydantic" not in str(caught.value)
    return str(caught.value).splitlines()


def test_a_small_design_loads():
    loaded = parse_design(TEXT)
    assert loaded.design.wing.panel[0].span == 0.5
    assert loaded.design.propeller.diameter == 0.2286
    assert loaded.text == TEXT
    assert loaded.path is None


VALUES = [
    (
        'position = "200 mm"',
        'position = "200 mm"\nchrod = "8 in"',
        'plane.toml:5: wing.chrod is an unknown key (its value is "8 in"); accepted '
        "under [wing] are "
        "build, place, position, height, incidence, panel, creases, crease_positions, "
        "bevel, target, "
        "steps, spar, reinforcement, joint, aileron, attachment. "
        "chord belongs under [[wing.panel]], [wing.aileron], [stab] or [fin].",
    ),
    (
        'span = "500 mm"',
        "span = 46",
        'plane.toml:7: wing.panel.0.span is 46; a length needs its unit. Write "46 in" '
        'or "1168 mm".',
    ),
    (
        'span = "500 mm"',
        'span = "46 oz"',
        'plane.toml:7: wing.panel.0.span is "46 oz"; oz is a unit of mass, and a length '
        "is written in "
        'mm, cm, m, in or ft. Write "46 in" or "46 mm".',
    ),
    (
        'chord = "200 mm"',
        'chord = "-200 mm"',
        'plane.toml:8: wing.panel.0.chord is "-200 mm"; it must be 20 mm to 800 mm.',
    ),
    (
        'span = "500 mm"',
        'span = "0 mm"',
        'plane.toml:7: wing.panel.0.span is "0 mm"; it must be 20 mm to 2500 mm.',
    ),
    (
        'chord = "200 mm"',
        'chord = "200 mm"\ndihedral = "75 deg"',
        'plane.toml:9: wing.panel.0.dihedral is "75 deg"; it must be -60 deg to 60 deg.',
    ),
    (
        'chord = "200 mm"',
        'chord = "200 mm"\ntip_chord = "-1 in"',
        'plane.toml:9: wing.panel.0.tip_chord is "-1 in"; it must be 10 mm to 800 mm.',
    ),
    (
        'name = "Test"',
        "name = 5",
        "plane.toml:1: name is 5; it must be text in quotes.",
    ),
    (
        'name = "Test"',
        'name = ""',
        'plane.toml:1: name is ""; it must have 1 to 80 characters.',
    ),
    (
        'name = "Test"',
        'nam = "Test"',
        'plane.toml:1: nam is an unknown key (its value is "Test"); accepted at the top '
        "of the file "
        "are name, notes, builder, units, field, pilot, board, wing, tail, stab, fin, "
        "fuselage, motor, "
        "propeller, controller, pack, supply_cutoff, receiver, servo, gear, extra, covering, "
        "glue, learned. "
        'Did you mean "name"?',
    ),
    (
        'name = "Test"',
        'name = "Test"\nunits = "imperial"',
        'plane.toml:2: units is "imperial"; it must be "metric" or "inch".',
    ),
    (
        '[wing]\nposition = "200 mm"',
        '[wing]\nposition = "200 mm"\nbuild = "foldde"',
        'plane.toml:5: wing.build is "foldde"; it must be "folded", "stepped" or "plate". '
        'Write "folded".',
    ),
    (
        '[wing]\nposition = "200 mm"',
        "[wing]",
        "plane.toml:3: wing.position is missing; every [wing] needs it. "
        'Write position = "7 1/2 in" under [wing].',
    ),
    (
        '[pack]\nposition = "90 mm"\n',
        "",
        "plane.toml:1: pack is missing; every design needs it. Add [pack] with position.",
    ),
    (
        'name = "Test"\n',
        'name = "Test"\ntail = "T"',
        'plane.toml:2: tail is "T"; it must be a table, written [tail]. Put its keys under [tail].',
    ),
    (
        "[[wing.panel]]",
        "[wing.panel]",
        "plane.toml:6: wing.panel is a table; each one is a table of its own, written "
        "[[wing.panel]] "
        "with double brackets.",
    ),
    (
        '[pack]\nposition = "90 mm"\n',
        '[pack]\nposition = "90 mm"\ncells = 2.5',
        "plane.toml:25: pack.cells is 2.5; it must be a whole number.",
    ),
    (
        '[pack]\nposition = "90 mm"\n',
        '[pack]\nposition = "90 mm"\ncells = 12',
        "plane.toml:25: pack.cells is 12; it must be 1 to 6.",
    ),
    (
        '[pack]\nposition = "90 mm"\n',
        '[pack]\nposition = "90 mm"\ndischarge_rating = nan',
        "plane.toml:25: pack.discharge_rating is nan; it must be above 0 to 200.",
    ),
    (
        '[pack]\nposition = "90 mm"\n',
        '[pack]\nposition = "90 mm"\n[wing.spar]\nposition = "80 %"',
        'plane.toml:26: wing.spar.position is "80 %"; it must be 5 % to 70 %.',
    ),
    (
        '[pack]\nposition = "90 mm"\n',
        '[pack]\nposition = "90 mm"\n[[servo]]\n',
        "plane.toml:25: servo.0.role is missing; every [[servo]] needs it. "
        'Write role = "aileron" under [[servo]].',
    ),
    (
        '[stab]\nposition = "700 mm"',
        '[stab]\nposition = "700 mm"\ngap_sealed = "perhaps"',
        'plane.toml:12: stab.gap_sealed is "perhaps"; it must be true or false, without quotes.',
    ),
    (
        '[stab]\nposition = "700 mm"',
        "[stab]\nposition = [1, 2]",
        "plane.toml:11: stab.position is [1, 2]; a length is a number with its unit. "
        'Write "7 in" or "177.8 mm".',
    ),
    (
        '[pack]\nposition = "90 mm"\n',
        '[pack]\nposition = "90 mm"\n[board]\nmass = "126 in"',
        'plane.toml:26: board.mass is "126 in"; in is a unit of length, and a mass is written in '
        'g, kg, oz or lb. Write "126 g" or "126 oz".',
    ),
]


@pytest.mark.parametrize(("old", "new", "message"), VALUES)
def test_wrong_keys_and_values(old, new, message):
    assert faults(bent(old, new)) == [message]


SYNTAX = [
    (
        'span = "500 mm"',
        "span = 500 mm",
        "plane.toml:7: cannot read `span = 500 mm`; there is more on the line than one value. "
        'Put the value in quotes: span = "500 mm".',
    ),
    (
        'span = "500 mm"',
        'span = "20""',
        'plane.toml:7: cannot read `span = "20""`; there is more on the line than one value. '
        'Write span = "20 in".',
    ),
    (
        'span = "500 mm"',
        "span =",
        "plane.toml:7: cannot read `span =`; a value is missing or not readable. "
        'Text and units go in quotes: "7 1/2 in".',
    ),
    (
        'span = "500 mm"',
        'span = "500 mm"\nspan = "400 mm"',
        'plane.toml:8: cannot read `span = "400 mm"`; each key may stand once. '
        "Take one of the two away.",
    ),
    (
        "[stab]",
        "[wing]",
        "plane.toml:10: cannot read `[wing]`; each table may stand once. "
        "Put all its keys under one heading.",
    ),
    (
        "[stab]",
        "[stab",
        "plane.toml:10: cannot read `[stab`; the heading of a table is not closed. "
        "Write [wing] or [[wing.panel]].",
    ),
    (
        'span = "500 mm"',
        'span = "500 mm',
        'plane.toml:7: cannot read `span = "500 mm`; a character cannot stand there. '
        "A quote may be missing.",
    ),
    (
        'span = "500 mm"',
        "span : 500 mm",
        "plane.toml:7: cannot read `span : 500 mm`; a key, an equals sign and a value "
        "are expected.",
    ),
]


@pytest.mark.parametrize(("old", "new", "message"), SYNTAX)
def test_text_that_is_not_toml(old, new, message):
    assert faults(bent(old, new)) == [message]


def test_numbers_without_end_are_refused_in_words():
    assert faults("a = " + "9" * 5000) == [
        "plane.toml:1: a number has thousands of digits; no value of a design has."
    ]
    for key in ("cells", "discharge_rating", "capacity"):
        text = bent('position = "90 mm"\n', f'position = "90 mm"\n{key} = {"9" * 400}\n')
        assert faults(text)[0].startswith(f"plane.toml:25: pack.{key} is 99")


def test_deep_nesting_is_refused_in_words():
    assert faults("a = " + "[" * 20000) == [
        "plane.toml:1: lists or tables are nested too deeply; a design file is a few levels deep."
    ]


def test_every_fault_is_told_in_the_order_of_the_file():
    text = bent('position = "200 mm"', 'psition = "3 oz"')
    text = bent('span = "500 mm"', "span = 46", text)
    text = bent('[pack]\nposition = "90 mm"', '[pack]\nposition = "90 mm"\ncells = 9', text)
    found = faults(text)
    assert [line.split(" ")[0] for line in found] == [
        "plane.toml:4:",
        "plane.toml:7:",
        "plane.toml:25:",
    ]
    assert 'Did you mean "position"?' in found[0]  # and no second error for the missing one


def test_reading_names_the_file_as_it_was_given(tmp_path):
    file = tmp_path / "a.toml"
    file.write_text(bent('span = "500 mm"', "span = 46"), encoding="utf-8")
    with pytest.raises(DesignErrors) as caught:
        read_design(file)
    assert str(caught.value).startswith(f"{file}:7: wing.panel.0.span is 46;")


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_examples_load(path):
    loaded = read_design(path)
    assert loaded.path == path
    assert loaded.design.notes
    assert loaded.text.count("#") >= 8


def test_reading_is_quick():
    best = 1.0
    for _ in range(5):
        start = time.perf_counter()
        read_design(EXAMPLES[0])
        best = min(best, time.perf_counter() - start)
    assert best < 0.015


def test_thousands_of_faults_are_counted_and_not_all_listed():
    text = "".join(f"wrong_{number} = 1\n" for number in range(1000)) + TEXT
    with pytest.raises(DesignErrors) as caught:
        parse_design(text, "tern.toml")
    errors = caught.value.errors
    assert len(errors) <= 201
    assert any("more faults, not listed" in error.got for error in errors)
