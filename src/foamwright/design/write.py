"""Write values back into a design file, keeping its comments, order and layout."""

import re
import tomllib
from collections.abc import Mapping, MutableMapping
from typing import Any

from foamwright.core.errors import DesignError, DesignErrors
from foamwright.core.units import format_value
from foamwright.design.change import Value
from foamwright.design.keys import Path, dimension_of, dotted, is_list, owner_of, split
from foamwright.design.load import parse_design

_CROWDED = re.compile(r"^([^\s#][^\n]*\n)(?=\[)", re.M)  # a heading right under a value


def apply_values(text: str, values: Mapping[str, Value], *, units: str) -> str:
    """A design's text with some values changed, every comment and the order kept.

    Args:
        text: The TOML text of a design. [-]
        values: Dotted key -> new value in SI; None takes the key away. [any]
        units: "metric" or "inch": how lengths, masses and speeds are written. [-]

    Returns:
        The new text, read back and found right. [-]

    Raises:
        DesignErrors: A key is unknown, or the changed design cannot be built.

    Source:
        Definition.

    Example:
        >>> apply_values(text, {"pack.position": 0.09}, units="metric")  # doctest: +SKIP
        '... position = "90 mm" # of the tray ...'
    """
    import tomlkit

    document = tomlkit.parse(text)
    for key, value in values.items():
        _put(document, split(key), value, units)
    changed = _spaced(tomlkit.dumps(document), text)
    parse_design(changed)
    return changed


def _spaced(changed: str, before: str) -> str:
    """Blank lines above the headings of new tables, where the builder keeps such lines."""
    if _CROWDED.search(before):
        return changed
    spaced = _CROWDED.sub(r"\1\n", changed)
    return spaced if tomllib.loads(spaced) == tomllib.loads(changed) else changed


def _put(document: MutableMapping[str, Any], path: Path, value: Value, units: str) -> None:
    found = owner_of(path)
    if found is None or found[1] not in found[0].model_fields:
        raise DesignErrors([DesignError(dotted(path), "an unknown key", "no design has it")])
    # A list of plain values, such as wing.steps.1, ends in an index.
    holder = _holder(document, path)
    last = path[-1]
    if value is None and (isinstance(last, int) or found[0].model_fields[found[1]].default is None):
        _take_away(holder, last)
        return
    written = _written(value, dimension_of(*found), units, _now(holder, last))
    if isinstance(last, int) and last == len(holder):
        holder.append(written)
    else:
        holder[last] = written


def _take_away(holder: Any, last: str | int) -> None:  # noqa: ANN401 - a table or a list
    if _now(holder, last) is not None:
        del holder[last]


def _now(holder: Any, last: str | int) -> object:  # noqa: ANN401 - a table or a list
    try:
        return holder[last]
    except (KeyError, IndexError):
        return None


def _holder(document: MutableMapping[str, Any], path: Path) -> Any:  # noqa: ANN401 - table or list
    """The table or list that a path's last part stands in, made where the file lacks it."""
    import tomlkit

    holder: Any = document
    for place, part in enumerate(path[:-1]):
        now = _now(holder, part)
        if now is not None:
            holder = now
            continue
        names = path[: place + 1]
        found = owner_of(names)
        if isinstance(part, int):
            if part != len(holder):
                words = f"there are {len(holder)} entries, counted from 0"
                raise DesignErrors([DesignError(dotted(names), "not there", words)])
            holder.append(tomlkit.table())
        elif found is not None and is_list(*found):
            holder[part] = tomlkit.aot()
        else:
            holder[part] = tomlkit.table()
        holder = holder[part]
    return holder


def _written(value: Value, dimension: str | None, units: str, now: object) -> object:
    """A value as the builder would write it."""
    if value is None:
        return "none"
    if dimension is None or isinstance(value, str):
        return value
    if dimension == "fraction" and (now is None or not isinstance(now, str)):
        return float(value)
    return format_value(float(value), dimension, units, precise=True)
