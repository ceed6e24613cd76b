"""Whatever a builder writes: values and comments survive, bad text is refused in words."""

import contextlib
import math
import tomllib

import pytest
from hypothesis import assume, given, reject, settings
from hypothesis import strategies as st

from foamwright.core.errors import DesignErrors
from foamwright.core.unit_table import UNITS
from foamwright.core.units import UnitError, format_value, parse
from foamwright.design.change import change_design, read_value
from foamwright.design.lines import key_lines
from foamwright.design.load import parse_design
from foamwright.design.write import apply_values

DIMENSIONS = [name for name in UNITS if name != "temperature"]
SYSTEMS = st.sampled_from(["metric", "inch"])
SIZES = st.floats(1e-4, 5.0)


@settings(deadline=None, max_examples=100)
@given(st.sampled_from(DIMENSIONS), SIZES, st.booleans(), SYSTEMS)
def test_written_values_read_back(dimension, size, negative, system):
    value = -size if negative else size
    text = format_value(value, dimension, system, precise=True)
    assert parse(text, dimension) == pytest.approx(value, rel=1e-6, abs=1e-9)


@settings(deadline=None, max_examples=100)
@given(st.floats(1e-3, 3.0), SYSTEMS)
def test_lengths_for_people_are_near_enough(length, system):
    text = format_value(length, "length", system)
    near = 0.0005 if system == "metric" else 0.0254 / 64
    assert abs(parse(text, "length") - length) <= near * 1.01
    if length < 0.006:  # rulers show no more: tenths of a millimetre, 1/64 in
        near = 0.05 if system == "metric" else 0.08
        assert parse(text, "length") == pytest.approx(length, rel=near)


@settings(deadline=None, max_examples=60)
@given(st.floats(220.0, 330.0), SYSTEMS)
def test_temperatures_read_back(kelvin, system):
    text = format_value(kelvin, "temperature", system, precise=True)
    assert parse(text, "temperature") == pytest.approx(kelvin, rel=1e-6)


@settings(deadline=None, max_examples=150)
@given(st.text(max_size=20), st.sampled_from(list(UNITS)))
def test_any_text_is_read_or_refused(text, dimension):
    with contextlib.suppress(UnitError):
        assert math.isfinite(parse(text, dimension))


def test_any_fraction_of_an_inch():
    for sixteenths in range(1, 161):
        text = format_value(sixteenths * 0.0254 / 16, "length", "inch")
        assert "." not in text
        assert parse(text, "length") == pytest.approx(sixteenths * 0.0254 / 16, rel=1e-12)


COMMENTS = st.text(st.characters(categories=["L", "N", "P", "S"]), max_size=15)
VALUES = {
    "wing.position": st.floats(0.1, 0.3),
    "wing.incidence": st.floats(-0.1, 0.1),
    "wing.panel.0.span": st.floats(0.3, 0.8),
    "wing.panel.0.washout": st.floats(-0.2, 0.2),
    "wing.panel.1.tip_chord": st.floats(0.05, 0.2),
    "wing.spar.position": st.floats(0.2, 0.5),
    "stab.chord": st.floats(0.05, 0.2),
    "pack.cells": st.integers(1, 6),
    "pack.capacity": st.floats(1000.0, 9000.0),
    "motor.kv": st.floats(50.0, 300.0),
    "field.temperature": st.floats(250.0, 310.0),
    "glue.mass": st.floats(0.001, 0.1),
    "wing.build": st.sampled_from(["folded", "plate"]),
}
CHANGES = st.fixed_dictionaries({}, optional=VALUES)


GOOD = """# {0}
name = "Test"{gap}# {1}
pack = {{ position = "90 mm", height = "1 in" }}  # {2}

[fuselage] # {3}
length = "900 mm"
# {4}
[wing]
position = "200 mm"{gap}# {5}
# place = "low" {6}
spar = {{ strips = 2, position = 0.3 }} # {7}
[[wing.panel]]
span = "50 cm"{gap}# {8}
chord = '8 in'
[[wing.panel]] # {9}
span = "100 mm"

[stab]
position = "0.8 m"
span = "400 mm"

chord   =   "130 mm" # {10}
[fin]
position = "800 mm"
span = "160 mm"
chord = "100 mm"
"""


@settings(deadline=None, max_examples=60)
@given(
    st.lists(COMMENTS, min_size=11, max_size=11),
    st.sampled_from([" ", "\t", "     "]),
    CHANGES,
    SYSTEMS,
)
def test_load_save_load_keeps_values_and_comments(comments, gap, changes, system):
    text = GOOD.format(*comments, gap=gap)
    before = parse_design(text).design
    try:
        change_design(before, changes)
    except DesignErrors:
        reject()  # a plane that cannot be, such as a spar wider than the tip: refused, not written
    changed = apply_values(text, changes, units=system)
    after = parse_design(changed).design
    for key, value in changes.items():
        expected = value if isinstance(value, (int, str)) else pytest.approx(value, rel=1e-6)
        assert read_value(after, key) == expected
    for key in set(VALUES) - set(changes):
        assert read_value(after, key) == read_value(before, key)
    for comment in comments:
        assert f" {comment}\n" in changed or not comment


def test_saving_nothing_changes_nothing():
    text = GOOD.format(*"abcdefghijk", gap="  ")
    assert apply_values(text, {}, units="metric") == text


KEYS = st.sampled_from(["a", "b", '"c d"', "e.f", "'g'"])
SCALARS = st.sampled_from(
    ["1", '"x # y"', "'''\na = 1\n[t]\n'''", '"""q\\"q\n"""', "[1, 2]", "[\n1, # one\n 2\n]"]
)
INLINE = st.builds(lambda key, value: f"{{ {key} = {value} }}", KEYS, SCALARS)
PAIRS = st.builds(lambda key, value: f"{key} = {value} # w", KEYS, SCALARS | INLINE)
HEADS = st.sampled_from(["[t]", "[t.u]", "[[l]]", "[l.m]", "[[l.n]]", "# words", ""])


@settings(deadline=None, max_examples=100)
@given(st.lists(PAIRS | HEADS, max_size=12))
def test_every_key_of_any_toml_has_its_line(lines):
    text = "\n".join(lines)
    try:
        data = tomllib.loads(text)
    except tomllib.TOMLDecodeError:
        assume(False)
        return
    found = key_lines(text)

    def walk(value, path):
        assert path in found
        assert 1 <= found[path] <= text.count("\n") + 1
        items = value.items() if isinstance(value, dict) else ()
        for name, inner in enumerate(value) if isinstance(value, list) else items:
            walk(inner, (*path, name))

    walk(data, ())


@settings(deadline=None, max_examples=80)
@given(st.text(max_size=60))
def test_any_text_is_a_design_or_refused_in_words(text):
    with pytest.raises(DesignErrors) as caught:
        parse_design(text, "plane.toml")
    assert all(str(error).startswith("plane.toml:") for error in caught.value.errors)


@settings(deadline=None, max_examples=60)
@given(
    st.dictionaries(
        st.sampled_from(["name", "wing", "stab", "pack", "servo", "units", "odd", "extra"]),
        st.recursive(
            st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=8),
            lambda inner: (
                st.lists(inner, max_size=3)
                | st.dictionaries(
                    st.sampled_from(["position", "panel", "span", "role", "x"]), inner, max_size=3
                )
            ),
            max_leaves=8,
        ),
    )
)
def test_any_data_is_refused_in_words(data):
    from pydantic import ValidationError

    from foamwright.design.fields import FROM_FILE
    from foamwright.design.model import Design
    from foamwright.design.wording import reworded

    with pytest.raises(ValidationError) as caught:
        Design.model_validate(data, context=FROM_FILE)
    for error in reworded(caught.value):
        assert "Input should" not in str(error)
        assert "it cannot be used here" not in str(error)
