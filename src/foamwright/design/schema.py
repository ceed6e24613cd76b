"""The design file described for editors (JSON schema) and people (key table), from one place.

Descriptions are the texts below the keys in design.model, read from its source only when asked for,
so that opening a design does not pay for them.
"""

import ast
import inspect
import sys
from functools import cache
from pathlib import Path
from typing import Any

from pydantic.fields import FieldInfo

from foamwright.core.unit_table import UNITS
from foamwright.core.units import format_value
from foamwright.design.defaults import LEFT_OUT
from foamwright.design.keys import choices, dimension_of, heading, inner_table, is_list, limits
from foamwright.design.model import Design, Section

SCHEMA_FILE = Path(__file__).with_name("schema.json")
type Json = dict[str, Any]
_PATTERN = r"^\s*[+-]?[0-9.].*\S$"


@cache
def _texts(module: str) -> dict[str, dict[str, str]]:
    """Class name -> key -> the text below it, in one module."""
    tree = ast.parse(inspect.getsource(sys.modules[module]))
    return {node.name: _texts_in(node) for node in tree.body if isinstance(node, ast.ClassDef)}


def _texts_in(node: ast.ClassDef) -> dict[str, str]:
    texts: dict[str, str] = {}
    for key, below in zip(node.body, node.body[1:], strict=False):
        if not isinstance(key, ast.AnnAssign) or not isinstance(key.target, ast.Name):
            continue
        if isinstance(below, ast.Expr) and isinstance(below.value, ast.Constant):
            texts[key.target.id] = str(below.value.value)
    return texts


def describe(owner: type[Section], name: str) -> str:
    """What a key means, in one sentence.

    Args:
        owner: The table it stands in. [-]
        name: The key. [-]

    Returns:
        The text below it in the data model. [-]

    Source:
        Definition.

    Example:
        >>> describe(Design, "name")
        'Name of the plane.'
    """
    return _texts(owner.__module__)[owner.__name__][name]


def _default(owner: type[Section], name: str, plain: str, *, units: str = "metric") -> str:
    """What is taken when a key is left out, in words."""
    info = owner.model_fields[name]
    if info.is_required():
        return "must be given"
    value = info.default
    if value is None:
        return LEFT_OUT.get(plain, "none")
    dimension = dimension_of(owner, name)
    if isinstance(value, tuple):
        items = [
            f'"{item}"'
            if isinstance(item, str)
            else format_value(item, dimension or "fraction", units)
            for item in value
        ]
        return ", ".join(items) if items else "none"
    if isinstance(value, float) and dimension is not None:
        return format_value(value, dimension, units)
    if isinstance(value, bool):
        return "true" if value else "false"
    return f'"{value}"' if isinstance(value, str) and value else str(value) or "empty"


def json_schema(root: type[Section] = Design, title: str = "Foamwright design file") -> Json:
    """A JSON schema of a file, for editors that complete and check TOML.

    Args:
        root: What the whole file holds. [-]
        title: What the file is called. [-]

    Returns:
        Draft 2020-12. [-]

    Source:
        JSON Schema, draft 2020-12, json-schema.org.

    Example:
        >>> json_schema()["required"]
        ['name', 'wing', 'stab', 'fuselage', 'pack']
    """
    body = _table_schema(root, "")
    head: Json = {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": title,
    }
    return head | body


def _table_schema(owner: type[Section], plain: str) -> Json:
    keys = {name: _key_schema(owner, name, f"{plain}{name}") for name in owner.model_fields}
    schema: Json = {
        "type": "object",
        "description": " ".join((owner.__doc__ or "").split()),
        "properties": keys,
        "additionalProperties": False,
    }
    required = [name for name, info in owner.model_fields.items() if info.is_required()]
    return schema | {"required": required} if required else schema


def _key_schema(owner: type[Section], name: str, plain: str) -> Json:
    inner = inner_table(owner, name)
    info = owner.model_fields[name]
    if inner is not None:
        table = _table_schema(inner, f"{plain}.")
        return {"type": "array", "items": table} | _lengths(info) if is_list(owner, name) else table
    dimension = dimension_of(owner, name)
    schema = _value_schema(owner, name, dimension)
    if is_list(owner, name):
        schema = {"type": "array", "items": schema}
    words = f"{describe(owner, name)} Left out: {_default(owner, name, plain)}."
    if info.is_required():
        words = f"{describe(owner, name)} Must be given."
    if dimension not in (None, "fraction"):
        words += f" Written in {', '.join(unit for unit in UNITS[str(dimension)] if unit)}."
    return schema | {"description": words}


def _value_schema(owner: type[Section], name: str, dimension: str | None) -> Json:
    least, largest = limits(owner, name)
    if dimension == "fraction":
        number: Json = {"type": "number", "minimum": least or 0.0}
        number["maximum"] = 1.0 if largest is None else largest
        return {"anyOf": [number, {"type": "string", "pattern": r"%\s*$"}]}
    if dimension is not None:
        return {"type": "string", "pattern": _PATTERN}
    options = choices(owner, name)
    if options:
        return {"enum": list(options)}
    kind = _json_type(owner.model_fields[name].annotation)
    schema: Json = {"type": kind}
    if kind in ("integer", "number"):
        schema |= {"minimum": least} if least is not None else {}
        schema |= {"maximum": largest} if largest is not None else {}
    return schema | _lengths(owner.model_fields[name])


def _json_type(annotation: object) -> str:
    text = str(annotation)
    for python, kind in (("bool", "boolean"), ("int", "integer"), ("float", "number")):
        if python in text:
            return kind
    return "string"


def _lengths(info: FieldInfo) -> Json:
    schema: Json = {}
    text = "str" in str(info.annotation)
    for rule in info.metadata:
        least, largest = getattr(rule, "min_length", None), getattr(rule, "max_length", None)
        if least is not None:
            schema["minLength" if text else "minItems"] = least
        if largest is not None:
            schema["maxLength" if text else "maxItems"] = largest
    return schema


def key_tables(root: type[Section] = Design) -> str:
    """Every key of a file as Markdown tables, one a section.

    Args:
        root: What the whole file holds. [-]

    Returns:
        Markdown: key, what it is, what is accepted, what is taken when it is left out. [-]

    Source:
        Definition.

    Example:
        >>> "### [wing]" in key_tables()
        True
    """
    sections: list[tuple[tuple[str, ...], type[Section]]] = [((), root)]
    blocks: list[str] = []
    while sections:
        path, owner = sections.pop(0)
        inner = [
            ((*path, name), table)
            for name in owner.model_fields
            if (table := inner_table(owner, name)) is not None
        ]
        blocks.append(_section(path, owner, root))
        sections = inner + sections
    return "\n\n".join(blocks) + "\n"


def _section(path: tuple[str, ...], owner: type[Section], root: type[Section]) -> str:
    words = " ".join((owner.__doc__ or "").split())
    words = words.split("] ")[-1] if words.startswith("[") else words
    title = f"### {heading(path, root)}" if path else "### At the top of the file"
    rows = ["| key | what it is | accepted | left out |", "|---|---|---|---|"]
    for name in owner.model_fields:
        if inner_table(owner, name) is None:
            plain = ".".join((*path, name))
            cells = (f"`{name}`", describe(owner, name), _accepted(owner, name))
            rows.append(f"| {' | '.join(cells)} | {_default(owner, name, plain)} |")
    return f"{title}\n\n{words[0].upper()}{words[1:]}\n\n" + "\n".join(rows)


def _accepted(owner: type[Section], name: str) -> str:
    options = choices(owner, name)
    if options:
        return ", ".join(f'"{option}"' for option in options)
    dimension = dimension_of(owner, name)
    least, largest = limits(owner, name)
    if dimension == "fraction" and least is None:
        least, largest = 0.0, 1.0
    many = "list of " if is_list(owner, name) else ""
    kind = dimension or _json_type(owner.model_fields[name].annotation)
    kind = {"string": "text", "boolean": "true or false", "integer": "whole number"}.get(kind, kind)
    if least is None or largest is None:
        return f"{many}{kind}"

    def say(value: float) -> str:
        return f"{value:g}" if dimension is None else format_value(value, dimension)

    return f"{many}{kind}, {say(least)} to {say(largest)}"
