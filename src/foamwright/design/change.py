"""Change values of a design in memory, in SI, and read them by their keys."""

from collections.abc import Mapping
from typing import Any

from pydantic import ValidationError

from foamwright.core.errors import DesignError, DesignErrors
from foamwright.design.keys import Path, dotted, heading, inner_table, is_list, split
from foamwright.design.model import Design, Section
from foamwright.design.validate import validate
from foamwright.design.wording import reworded

type Value = float | str | int | None


def change_design(design: Design, values: Mapping[str, Value]) -> Design:
    """The same design with some values changed.

    A table that the design lacks, such as wing.aileron, is made when one of its keys is set; an
    index one past the last adds an entry to a list.

    Args:
        design: The design. [-]
        values: Dotted key -> new value in SI; None takes a value or a table away. [any]

    Returns:
        A new design. [-]

    Raises:
        DesignErrors: A key is unknown, or the changed design cannot be built.

    Source:
        Definition.

    Example:
        >>> change_design(design, {"wing.panel.0.dihedral": 0.05})
        Design(...)
    """
    tree: dict[str | int, Any] = {}
    for key, value in values.items():
        path = split(key)
        branch = tree
        for part in path[:-1]:
            branch = branch.setdefault(part, {})
            if not isinstance(branch, dict):
                raise DesignErrors([_both(key)])
        branch[path[-1]] = value
    changed = _changed(design, tree, ())
    faults = validate(changed)
    if faults:
        raise DesignErrors(faults)
    return changed


def _both(key: str) -> DesignError:
    words = "a table and one of its keys cannot be changed together"
    return DesignError(key, "changed twice", words, "Change one or the other.")


def _changed[T: Section](table: T, tree: Mapping[str | int, Any], path: Path) -> T:
    """A copy of a table with the branches of a tree put in, its values checked again."""
    held: dict[str, Any] = {name: getattr(table, name) for name in table.model_fields_set}
    kind = type(table)
    for name, new in tree.items():
        here = (*path, name)
        if not isinstance(name, str) or name not in kind.model_fields:
            accepted = ", ".join(kind.model_fields)
            words = f"accepted under {heading(path)} are {accepted}"
            raise DesignErrors([DesignError(dotted(here), "an unknown key", words)])
        held[name] = _branch(kind, name, getattr(table, name), new, here)
    return _made(kind, held, path)


def _branch(kind: type[Section], name: str, now: Any, new: Any, path: Path) -> Any:  # noqa: ANN401
    if not isinstance(new, dict):
        return new
    inner = inner_table(kind, name)
    if is_list(kind, name):
        return _list(inner, now or (), new, path)
    if inner is None:
        words = "it is a single value, not a table"
        raise DesignErrors([DesignError(dotted(path), "given keys of its own", words)])
    if now is None:
        return _made(inner, dict(new), path)
    return _changed(now, new, path)


def _list(
    inner: type[Section] | None, now: tuple[Any, ...], new: Mapping[str | int, Any], path: Path
) -> tuple[Any, ...]:
    items = list(now)
    for index, value in sorted(new.items(), key=lambda entry: str(entry[0]).zfill(4)):
        here = (*path, index)
        if not isinstance(index, int) or index > len(items):
            words = f"there are {len(items)} entries, counted from 0"
            raise DesignErrors([DesignError(dotted(here), "not there", words)])
        if not isinstance(value, dict) or inner is None:
            made = value
        elif index < len(items):
            made = _changed(items[index], value, here)
        else:
            made = _made(inner, value, here)
        if index == len(items):
            items.append(made)
        else:
            items[index] = made
    return tuple(item for item in items if item is not None)


def _made[T: Section](kind: type[T], held: Mapping[str, Any], path: Path) -> T:
    try:
        return kind.model_validate(held)
    except ValidationError as error:
        raise DesignErrors(reworded(error, below=path)) from None


def read_value(design: Design, key: str) -> Value:
    """The value of a key, in SI.

    Args:
        design: The design. [-]
        key: Dotted key, such as "wing.panel.0.dihedral". [-]

    Returns:
        The value; None when it, or a table on the way to it, is left out. [any]

    Raises:
        DesignErrors: There is no such key, or it holds a table.

    Source:
        Definition.

    Example:
        >>> read_value(design, "pack.cells")
        3
    """
    value: Any = design
    for part in split(key):
        if value is None:
            return None
        if isinstance(part, int) and isinstance(value, tuple) and part < len(value):
            value = value[part]
        elif isinstance(value, Section) and part in type(value).model_fields:
            value = getattr(value, str(part))
        else:
            raise DesignErrors([DesignError(key, "an unknown key", "no design has it")])
    if isinstance(value, (Section, tuple)):
        words = "it holds a table or a list, not one value"
        raise DesignErrors([DesignError(key, "not a value", words, "Name a key in it.")])
    return value
