"""The shipped JSON schema and the key tables say what the data model says now."""

import json
import re
import sys
import tomllib

import pytest
from reading import ROOT

from foamwright.design.load import parse_design
from foamwright.design.new import KINDS, Answers, new_design_text
from foamwright.design.schema import SCHEMA_FILE, json_schema

sys.path.append(str(ROOT / "tools"))

EXAMPLES = sorted((ROOT / "examples").glob("*.toml"))
RENEW = "run python tools/describe_design.py"


def test_schema_is_current():
    from describe_design import schema_text

    assert SCHEMA_FILE.read_text(encoding="utf-8") == schema_text(), RENEW


def test_key_tables_are_current():
    from describe_design import PAGE, page_text

    page = PAGE.read_text(encoding="utf-8")
    assert page == page_text(page), RENEW


KINDS_OF_VALUE = {"object": dict, "array": list, "string": str, "boolean": bool, "integer": int}


def faults(value, schema, path=""):
    """A checker of just the words that our schema uses."""
    if "anyOf" in schema:
        if all(list(faults(value, option)) for option in schema["anyOf"]):
            yield f"{path}: no option fits"
    elif "enum" in schema:
        if value not in schema["enum"]:
            yield f"{path}: {value!r} is not listed"
    elif not fits(value, schema["type"]):
        yield f"{path}: {value!r} is no {schema['type']}"
    elif isinstance(value, dict):
        yield from table_faults(value, schema, path)
    elif isinstance(value, list):
        for index, inner in enumerate(value):
            yield from faults(inner, schema["items"], f"{path}.{index}")
    elif not in_limits(value, schema):
        yield f"{path}: {value!r}"


def fits(value, kind):
    return (kind == "boolean") == isinstance(value, bool) and isinstance(
        value, KINDS_OF_VALUE.get(kind, (int, float))
    )


def in_limits(value, schema):
    if isinstance(value, str):
        return re.search(schema.get("pattern", ""), value) is not None
    return schema.get("minimum", value) <= value <= schema.get("maximum", value)


def table_faults(value, schema, path):
    yield from (f"{path}.{key}" for key in schema.get("required", ()) if key not in value)
    for key, inner in value.items():
        if key in schema["properties"]:
            yield from faults(inner, schema["properties"][key], f"{path}.{key}")
        else:
            yield f"{path}.{key}: unknown"


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_examples_fit_the_schema(path):
    data = tomllib.loads(path.read_text(encoding="utf-8"))
    assert list(faults(data, json_schema())) == []


@pytest.mark.parametrize("kind", KINDS)
def test_starting_files_fit_the_schema(kind):
    data = tomllib.loads(new_design_text(Answers("a", kind)))
    assert list(faults(data, json_schema())) == []


def test_the_schema_sees_what_is_wrong():
    data = tomllib.loads(EXAMPLES[0].read_text(encoding="utf-8"))
    data["wing"]["chrod"] = "8 in"
    data["wing"]["position"] = 8
    data["stab"]["hinge"] = 3.0
    del data["pack"]
    data["units"] = "imperial"
    assert len(list(faults(data, json_schema()))) == 5


def test_every_key_of_the_schema_says_what_it_is():
    def walk(schema):
        assert schema["description"]
        for inner in schema["properties"].values():
            table = inner.get("items", inner)
            if table.get("type") == "object":
                walk(table)
            else:
                assert inner["description"][0].isupper()

    walk(json_schema())
    assert len(json.dumps(json_schema())) > 10_000


def test_the_page_s_own_example_loads_once_completed():
    page = (ROOT / "docs" / "use" / "design-file.md").read_text(encoding="utf-8")
    block = re.search(r"```toml\n(.*?)```", page, re.S)[1]
    rest = """
[stab]
position = "31 in"
span = "15 in"
chord = "5 in"
[fin]
position = "30 in"
span = "6 in"
chord = "6 in"
[fuselage]
length = "36 in"
[pack]
position = "4 in"
"""
    assert parse_design(block + rest).design.name == "Brindle Cob"
