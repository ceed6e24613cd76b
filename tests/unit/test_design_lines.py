"""The line of every key, for each way that TOML allows to write one."""

import tomllib

import pytest

from foamwright.design.lines import key_lines, line_of

EVERY_WAY = '''# a comment with [brackets] and key = "value"
name = "a # b"   # not a heading: [x]
"quoted key" = 'it''s'
dotted.inner."deep.er" = 1

[wing]
position = "8 in"
steps = [ 0.5, # first
  0.75,

  0.9 ]
spar = { strips = 2, laid = "flat", more = { x = 1 } }
notes = """
[not.a.table]
span = "no"
""" # after
raw = \'\'\'one
two\'\'\'
[[wing.panel]]
span = "1 in"
[[wing.panel]]
  span = "2 in"
[wing.panel.extra]
a = 1
[ "odd" . name ]
b = 2
[[servo]]
[[servo]]
role = "rudder"
when = 2026-11-25 08:00:00
'''


@pytest.mark.parametrize("ends", ["\n", "\r\n"])
def test_lines(ends):
    text = EVERY_WAY.replace("'it''s'", "'its'").replace("\n", ends)
    tomllib.loads(text)
    lines = key_lines(text)
    expected = {
        (): 1,
        ("name",): 2,
        ("quoted key",): 3,
        ("dotted",): 4,
        ("dotted", "inner", "deep.er"): 4,
        ("wing",): 6,
        ("wing", "position"): 7,
        ("wing", "steps"): 8,
        ("wing", "steps", 0): 8,
        ("wing", "steps", 1): 9,
        ("wing", "steps", 2): 11,
        ("wing", "spar", "laid"): 12,
        ("wing", "spar", "more", "x"): 12,
        ("wing", "notes"): 13,
        ("wing", "raw"): 17,
        ("wing", "panel"): 19,
        ("wing", "panel", 0): 19,
        ("wing", "panel", 0, "span"): 20,
        ("wing", "panel", 1): 21,
        ("wing", "panel", 1, "span"): 22,
        ("wing", "panel", 1, "extra", "a"): 24,
        ("odd", "name", "b"): 26,
        ("servo", 0): 27,
        ("servo", 1): 28,
        ("servo", 1, "role"): 29,
        ("servo", 1, "when"): 30,
    }
    assert {path: lines.get(path) for path in expected} == expected


def paths_of(value, path=()):
    yield path
    items = value.items() if isinstance(value, dict) else ()
    items = enumerate(value) if isinstance(value, list) else items
    for name, inner in items:
        yield from paths_of(inner, (*path, name))


def test_every_key_has_a_line():
    text = EVERY_WAY.replace("'it''s'", "'its'")
    assert set(paths_of(tomllib.loads(text))) <= set(key_lines(text))


def test_a_missing_key_stands_where_its_table_does():
    lines = key_lines("a = 1\n[wing]\nx = 2")
    assert line_of(("wing", "position"), lines) == 2
    assert line_of(("pack",), lines) == 1


@pytest.mark.parametrize("text", ["", "\n\n", "# only words", 'a = """"x""""', "a = [[1, 2], [3]]"])
def test_odd_documents(text):
    tomllib.loads(text)
    assert key_lines(text)[()] == 1
