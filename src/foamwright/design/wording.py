"""Errors of a design file in plain words: what was found, what is accepted, how to mend it."""

from collections.abc import Callable, Mapping
from typing import Any

from pydantic import ValidationError

from foamwright.core.errors import DesignError
from foamwright.core.nearest import nearest_names
from foamwright.core.units import UnitError, format_value
from foamwright.design.keys import (
    Path,
    choices,
    dimension_at,
    dimension_of,
    dotted,
    field_of,
    heading,
    inner_table,
    is_list,
    limits,
    owner_of,
)
from foamwright.design.lines import line_of
from foamwright.design.model import Design, Section

SAMPLES = {
    "length": '"7 1/2 in"',
    "mass": '"430 g"',
    "angle": '"2 deg"',
    "speed": '"10 mph"',
    "temperature": '"15 degC"',
    "charge": '"1300 mAh"',
    "current": '"20 A"',
    "voltage": '"3.3 V"',
    "resistance": '"120 mohm"',
    "kv": '"1400 Kv"',
    "fraction": '"35 %"',
}

MOST = 200  # faults told one by one; nobody reads more, and each costs a search for what was meant


def reworded(
    error: ValidationError,
    *,
    file: str = "",
    lines: Mapping[Path, int] | None = None,
    below: Path = (),
    root: type[Section] = Design,
) -> list[DesignError]:
    """Every fault that the data model found, in our own words.

    Args:
        error: What the data model said. [-]
        file: Name of the file; empty when the design did not come from one. [-]
        lines: From `key_lines`. [-]
        below: Path of the table that was read, when it is not the whole design. [-]
        root: What the whole file holds. [-]

    Returns:
        One error a fault, in the order of the file. [-]

    Source:
        Definition.

    Example:
        >>> from pydantic import ValidationError
        >>> try:
        ...     _ = Design.model_validate({"name": ""})
        ... except ValidationError as error:
        ...     print(reworded(error)[0])
        name is ""; it must have 1 to 80 characters.
    """
    every = error.errors(include_url=False)
    faults = every[:MOST]
    unknown = {(*below, *f["loc"]) for f in faults if f["type"] == "extra_forbidden"}
    meant = {(*path[:-1], near) for path in unknown if (near := _nearest_key(path, root))}
    paths: list[Path] = [(*below, *fault["loc"]) for fault in faults]
    found: list[DesignError] = []
    for path, fault in zip(paths, faults, strict=True):
        if fault["type"] == "missing" and path in meant:
            continue  # the misspelt key is reported, with this one as its mending
        if fault["type"] == "too_short" and any(path == other[:-1][: len(path)] for other in paths):
            continue  # entries that are wrong themselves were not counted
        got, allowed, fix = _explained(path, dict(fault), root, in_si=lines is None)
        line = line_of(path, lines) if lines else 0
        found.append(DesignError(dotted(path), got, allowed, fix, file, line))
    found.sort(key=lambda item: item.line)
    if len(every) > MOST:
        got = f"{len(every) - MOST} more faults, not listed"
        found.append(DesignError("", got, "", "Mend the first ones, then look again.", file))
    return found


def shown(value: object) -> str:
    """A value as it stands in the file, shortened.

    Args:
        value: As read. [any]

    Returns:
        At most about 60 characters. [-]

    Source:
        Definition.

    Example:
        >>> shown("46 oz"), shown(True)
        ('"46 oz"', 'true')
    """
    if isinstance(value, str):
        text = f'"{value}"'
    elif value is None:
        text = "nothing"
    elif isinstance(value, bool):
        text = "true" if value else "false"
    elif isinstance(value, dict):
        text = "a table"
    elif isinstance(value, (list, tuple)):
        text = "an empty list" if not value else f"a list of {len(value)}"
    else:
        text = str(value)
    return text if len(text) <= 60 else f"{text[:57]}..."


def listed(words: list[str] | tuple[str, ...], *, last: str = "or") -> str:
    """Words in a row.

    Args:
        words: At least one. [-]
        last: Word before the last. [-]

    Returns:
        Such as "a, b or c". [-]

    Source:
        Definition.

    Example:
        >>> listed(["a", "b", "c"])
        'a, b or c'
    """
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} {last} {words[-1]}"


def _explained(
    path: Path, fault: dict[str, Any], root: type[Section], *, in_si: bool
) -> tuple[str, str, str]:
    kind = fault["type"]
    problem = fault.get("ctx", {}).get("error")
    if isinstance(problem, UnitError):
        return problem.got, problem.allowed, problem.fix
    special: dict[str, Callable[[Path, dict[str, Any], type[Section]], tuple[str, str, str]]] = {
        "missing": _missing,
        "extra_forbidden": _unknown,
        "literal_error": _choice,
    }
    if kind in special:
        return special[kind](path, fault, root)
    got = _in_units(path, fault["input"], root) if in_si else shown(fault["input"])
    if kind.startswith(("greater_than", "less_than")):
        return got, f"it must be {_range(path, root)}", ""
    if kind in _TABLE_KINDS:
        name = heading(path, root)
        return got, f"it must be a table, written {name}", f"Put its keys under {name}."
    if kind in ("too_short", "too_long", "string_too_short", "string_too_long"):
        return (
            got,
            f"it must have {_count(path, 'characters' if 'string' in kind else 'entries', root)}",
            "",
        )
    if kind in _LIST_KINDS:
        return got, _list_words(path, root), ""
    for start, words in _PLAIN.items():
        if kind.startswith(start):
            return got, words, ""
    return got, "it cannot be used here", ""


def _in_units(path: Path, value: object, root: type[Section]) -> str:
    """A value that a program gave in SI, as a builder would read it."""
    dimension = dimension_at(path, root)
    if dimension is None or isinstance(value, (str, bool)) or not isinstance(value, (int, float)):
        return shown(value)
    return format_value(float(value), dimension)


_TABLE_KINDS = ("model_type", "model_attributes_type", "dict_type")
_LIST_KINDS = ("tuple_type", "list_type", "iterable_type")
_PLAIN = {
    "int": "it must be a whole number",
    "string": "it must be text in quotes",
    "bool": "it must be true or false, without quotes",
    "float": "it must be a plain number",
    "finite": "it must be a finite number",
}


def _missing(path: Path, fault: dict[str, Any], root: type[Section]) -> tuple[str, str, str]:
    name = str(path[-1])
    where = heading(path[:-1], root)
    found = owner_of(path, root)
    inner = inner_table(*found) if found else None
    if inner is not None:
        head = heading(path, root)
        needed = [key for key, info in inner.model_fields.items() if info.is_required()]
        needed += ["chord"] if name == "panel" else []  # of the first one, which validate asks for
        return (
            "missing",
            f"every {_file(root)} needs it",
            f"Add {head} with {listed(needed, last='and')}.",
        )
    sample = SAMPLES.get(dimension_of(*found) or "", '"..."') if found else '"..."'
    options = choices(*found) if found else ()
    sample = f'"{options[0]}"' if options else sample
    place = "at the top of the file" if len(path) == 1 else f"under {where}"
    return (
        "missing",
        f"{f'every {_file(root)}' if len(path) == 1 else f'every {where}'} needs it",
        (f"Write {name} = {sample} {place}."),
    )


def _file(root: type[Section]) -> str:
    return "design" if root is Design else "such file"


def _table_at(path: Path, root: type[Section]) -> type[Section]:
    found = owner_of(path, root)
    inner = inner_table(*found) if found else None
    return inner or root


def _nearest_key(path: Path, root: type[Section]) -> str | None:
    near = nearest_names(str(path[-1]), _table_at(path[:-1], root).model_fields, most=1, cutoff=0.6)
    return near[0] if near else None


def _unknown(path: Path, fault: dict[str, Any], root: type[Section]) -> tuple[str, str, str]:
    table = _table_at(path[:-1], root)
    name, where = str(path[-1]), heading(path[:-1], root)
    near = _nearest_key(path, root)
    fix = f'Did you mean "{near}"?' if near else _elsewhere(name, root)
    accepted = ", ".join(table.model_fields)
    got = f"an unknown key (its value is {shown(fault['input'])})"
    return got, f"accepted {'at' if len(path) == 1 else 'under'} {where} are {accepted}", fix


def _elsewhere(name: str, root: type[Section]) -> str:
    """Where a key belongs that stands in the wrong table, perhaps misspelt too."""
    tables = _all_tables(root)
    every = sorted({key for _, table in tables for key in table.model_fields})
    near = nearest_names(name, every, most=1, cutoff=0.75)
    if not near:
        return ""
    homes = [head for head, table in tables if near[0] in table.model_fields]
    return f"{near[0]} belongs under {listed(homes[:4])}."


def _all_tables(root: type[Section]) -> list[tuple[str, type[Section]]]:
    found: list[tuple[str, type[Section]]] = []

    def walk(table: type[Section], path: Path) -> None:
        for name in table.model_fields:
            inner = inner_table(table, name)
            if inner is not None:
                found.append((heading((*path, name), root), inner))
                walk(inner, (*path, name))

    walk(root, ())
    return found


def _choice(path: Path, fault: dict[str, Any], root: type[Section]) -> tuple[str, str, str]:
    found = owner_of(path, root)
    options = choices(*found) if found else ()
    near = nearest_names(str(fault["input"]), options, most=1, cutoff=0.6)
    words = listed([f'"{option}"' for option in options]) if options else "another value"
    return shown(fault["input"]), f"it must be {words}", f'Write "{near[0]}".' if near else ""


def _range(path: Path, root: type[Section]) -> str:
    found = owner_of(path, root)
    if found is None:
        return "within its limits"
    least, largest = limits(*found)
    dimension = dimension_of(*found)
    if dimension == "fraction" and least is None and largest is None:
        least, largest = 0.0, 1.0

    def say(value: float) -> str:
        return f"{value:g}" if dimension is None else format_value(value, dimension)

    if least is not None and largest is not None:
        above = "above " if field_excludes_least(*found) else ""
        return f"{above}{say(least)} to {say(largest)}"
    if least is not None:
        return f"at least {say(least)}"
    return f"at most {say(largest)}" if largest is not None else "within its limits"


def field_excludes_least(owner: type[Section], name: str) -> bool:
    """Whether the least value itself is refused.

    Args:
        owner: The table the key stands in. [-]
        name: The key. [-]

    Returns:
        True for "more than", False for "at least". [-]

    Source:
        Definition.

    Example:
        >>> from foamwright.design.model import Pack
        >>> field_excludes_least(Pack, "discharge_rating")
        True
    """
    return any(getattr(rule, "gt", None) is not None for rule in owner.model_fields[name].metadata)


def _count(path: Path, what: str, root: type[Section]) -> str:
    info = field_of(path, root)
    least = largest = None
    for rule in info.metadata if info else ():
        least = getattr(rule, "min_length", least)
        largest = getattr(rule, "max_length", largest)
    if least is None:
        return f"at most {largest} {what}"
    return f"{least} to {largest} {what}" if largest else f"at least {least} {what}"


def _list_words(path: Path, root: type[Section]) -> str:
    found = owner_of(path, root)
    if found and inner_table(*found) and is_list(*found):
        return f"each one is a table of its own, written {heading(path, root)} with double brackets"
    return "it must be a list in square brackets, such as [0.5, 0.75]"
