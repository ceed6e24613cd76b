"""The tables of the design file as data: which table holds which key, of what dimension."""

from functools import cache
from types import UnionType
from typing import Any, Literal, TypeAliasType, Union, get_args, get_origin

from pydantic.fields import FieldInfo

from foamwright.design.fields import DIMENSIONS
from foamwright.design.model import Design, Section

type Path = tuple[str | int, ...]


def dotted(path: Path) -> str:
    """A key as it is said, such as "wing.panel.0.span".

    Args:
        path: Names and indexes from the top of the file. [-]

    Returns:
        The parts joined by points. [-]

    Source:
        Definition.

    Example:
        >>> dotted(("wing", "panel", 0, "span"))
        'wing.panel.0.span'
    """
    return ".".join(str(part) for part in path)


def split(key: str) -> Path:
    """Names and indexes of a dotted key.

    Args:
        key: Such as "wing.panel.0.span". [-]

    Returns:
        The parts; digits become indexes. [-]

    Source:
        Definition.

    Example:
        >>> split("wing.panel.0.span")
        ('wing', 'panel', 0, 'span')
    """
    return tuple(int(part) if part.isdecimal() else part for part in key.split("."))


@cache
def inner_table(owner: type[Section], name: str) -> type[Section] | None:
    """The table that a key holds, alone or as a list.

    Args:
        owner: The table the key stands in. [-]
        name: The key. [-]

    Returns:
        The class of the inner table; None for a plain value or an unknown key. [-]

    Source:
        Definition.

    Example:
        >>> inner_table(Design, "wing").__name__
        'Wing'
    """
    info = owner.model_fields.get(name)
    return None if info is None else _table_in(info.annotation)


def _table_in(annotation: Any) -> type[Section] | None:  # noqa: ANN401 - annotations are anything
    if isinstance(annotation, type) and issubclass(annotation, Section):
        return annotation
    for part in get_args(annotation):
        found = _table_in(part)
        if found is not None:
            return found
    return None


@cache
def is_list(owner: type[Section], name: str) -> bool:
    """Whether a key holds a list.

    Args:
        owner: The table the key stands in. [-]
        name: The key. [-]

    Returns:
        True for [[tables]] and lists of numbers. [-]

    Source:
        Definition.

    Example:
        >>> is_list(Design, "servo")
        True
    """
    return any(get_origin(part) is tuple for part in _parts(owner.model_fields[name].annotation))


@cache
def dimension_of(owner: type[Section], name: str) -> str | None:
    """The dimension of a key's value.

    Args:
        owner: The table the key stands in. [-]
        name: The key. [-]

    Returns:
        Such as "length"; None for text, counts and tables. [-]

    Source:
        Definition.

    Example:
        >>> from foamwright.design.model import Wing
        >>> dimension_of(Wing, "incidence")
        'angle'
    """
    info = owner.model_fields.get(name)
    return None if info is None else _dimension_in(info.annotation)


def dimension_at(path: Path, root: type[Section] = Design) -> str | None:
    """The dimension of the value that a path leads to.

    Args:
        path: From the root of the file. [-]
        root: What the file holds. [-]

    Returns:
        Such as "length"; None for text, counts, tables and paths that lead nowhere. [-]

    Source:
        Definition.

    Example:
        >>> dimension_at(("motor", "right_thrust")), dimension_at(("motor", "wheels"))
        ('angle', None)
    """
    found = owner_of(path, root)
    return dimension_of(*found) if found else None


def _dimension_in(annotation: Any) -> str | None:  # noqa: ANN401 - annotations are anything
    if isinstance(annotation, TypeAliasType):
        return DIMENSIONS.get(annotation)
    for part in get_args(annotation):
        found = _dimension_in(part)
        if found is not None:
            return found
    return None


def _parts(annotation: Any) -> tuple[Any, ...]:  # noqa: ANN401 - annotations are anything
    if get_origin(annotation) in (Union, UnionType):
        return get_args(annotation)
    return (annotation,)


@cache
def choices(owner: type[Section], name: str) -> tuple[str, ...]:
    """The texts a key accepts.

    Args:
        owner: The table the key stands in. [-]
        name: The key. [-]

    Returns:
        The choices; empty when any value of its kind will do. [-]

    Source:
        Definition.

    Example:
        >>> choices(Design, "units")
        ('metric', 'inch')
    """
    for part in _parts(owner.model_fields[name].annotation):
        if get_origin(part) is Literal:
            return get_args(part)
    return ()


@cache
def limits(owner: type[Section], name: str) -> tuple[float | None, float | None]:
    """The least and the largest value that a key accepts, SI.

    Args:
        owner: The table the key stands in. [-]
        name: The key. [-]

    Returns:
        Least and largest; None where there is none. [any]

    Source:
        Definition.

    Example:
        >>> limits(Design, "supply_cutoff")
        (2.5, 4.0)
    """
    least, largest = None, None
    for rule in owner.model_fields[name].metadata:
        least = getattr(rule, "ge", getattr(rule, "gt", least))
        largest = getattr(rule, "le", getattr(rule, "lt", largest))
    return least, largest


def owner_of(path: Path, root: type[Section] = Design) -> tuple[type[Section], str] | None:
    """The table class and the key that a path leads to.

    Args:
        path: Names and indexes from the top of the file. [-]
        root: What the whole file holds. [-]

    Returns:
        Class and last name; None when the path leaves the known tables. [-]

    Source:
        Definition.

    Example:
        >>> owner_of(("wing", "panel", 0, "span"))[0].__name__
        'WingPanel'
    """
    names = [part for part in path if isinstance(part, str)]
    if not names:
        return None
    owner = root
    for name in names[:-1]:
        inner = inner_table(owner, name)
        if inner is None:
            return None
        owner = inner
    return owner, names[-1]


def field_of(path: Path, root: type[Section] = Design) -> FieldInfo | None:
    """What is known of a key.

    Args:
        path: Names and indexes from the top of the file. [-]
        root: What the whole file holds. [-]

    Returns:
        Its field; None for an unknown key. [-]

    Source:
        Definition.

    Example:
        >>> field_of(("pack", "cells")).default
        3
    """
    found = owner_of(path, root)
    return None if found is None else found[0].model_fields.get(found[1])


def heading(path: Path, root: type[Section] = Design) -> str:
    """The table heading that a key stands under, as it is written in the file.

    Args:
        path: Names and indexes of the table. [-]
        root: What the whole file holds. [-]

    Returns:
        Such as "[wing]" or "[[wing.panel]]"; "the top of the file" for none. [-]

    Source:
        Definition.

    Example:
        >>> heading(("wing", "panel", 0))
        '[[wing.panel]]'
    """
    names = [part for part in path if isinstance(part, str)]
    if not names:
        return "the top of the file"
    joined = ".".join(names)
    found = owner_of(tuple(names), root)
    if found is not None and found[1] in found[0].model_fields and is_list(*found):
        return f"[[{joined}]]"
    return f"[{joined}]"
