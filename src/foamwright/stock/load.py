"""Read the shipped stock tables, and the builder's own stock file beside the design."""

import math
import re
from collections.abc import Iterator, Mapping
from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, Any, cast

from foamwright.core.bands import Band
from foamwright.core.errors import DesignError, DesignErrors
from foamwright.stock.bench import BoardChoice, board_of
from foamwright.stock.fields import (
    CLASSES,
    MISSING,
    OPTIONAL,
    SCALARS,
    Entry,
    dimension_of,
    known,
    nearest,
    to_si,
)
from foamwright.stock.lookup import find
from foamwright.stock.model import Stock

if TYPE_CHECKING:
    from _collections_abc import dict_items, dict_values

__all__ = ["MISSING", "BoardChoice", "board_of", "find", "known", "load_stock", "stock_names"]

TABLES = Path(__file__).parent / "tables"
HEADER = re.compile(r'^\["([^"]+)"\]\s*$', re.M)
NO_SOURCE = "assumed"
LARGEST_FILE = 1_000_000  # bytes; a stock file is some kilobytes


class Table(dict[str, Any]):
    """A stock table that knows its names at once and reads an entry when it is first asked for."""

    def __init__(self, name: str, blocks: Mapping[str, str]) -> None:
        super().__init__(dict.fromkeys(blocks))
        self._name = name
        self._blocks = blocks

    def __getitem__(self, key: str) -> Any:  # noqa: ANN401 - one class serves ten entry types
        """The entry, read now if it was not yet."""
        found = super().__getitem__(key)
        if found is None:
            found = _shipped(self._name, key)
            super().__setitem__(key, found)
        return found

    def get(self, key: str, default: Any = None) -> Any:  # noqa: ANN401 - as above
        """The entry, or the default when there is none of that name."""
        return self[key] if key in self else default  # noqa: SIM401 - it would call itself

    def __iter__(self) -> Iterator[str]:
        """Names, in the order of the file."""
        return super().__iter__()

    def values(self) -> "dict_values[str, Any]":
        """All entries, read now."""
        return {key: self[key] for key in self}.values()

    def items(self) -> "dict_items[str, Any]":
        """All names and entries, read now."""
        return {key: self[key] for key in self}.items()


@cache
def _blocks(table: str) -> dict[str, str]:
    """Name -> text of its entry in a shipped table."""
    pieces = HEADER.split((TABLES / f"{table}.toml").read_text(encoding="utf-8"))
    return dict(zip(pieces[1::2], pieces[2::2], strict=True))


@cache
def _shipped(table: str, name: str) -> Entry:
    import tomllib

    raw = tomllib.loads(_blocks(table)[name])
    values, faults = _fields(table, raw)
    if faults:
        raise DesignErrors([DesignError(f"{table}.{name}.{f[0]}", *f[1:]) for f in faults])
    return CLASSES[table](name=name, **values)


type Fault = tuple[str, str, str, str]  # key, got, allowed, fix


def _fields(table: str, raw: Mapping[str, Any]) -> tuple[dict[str, Any], list[Fault]]:
    """What an entry's keys say, in SI, and what is wrong with them."""
    values: dict[str, Any] = {}
    faults: list[Fault] = []
    names = [name for name in CLASSES[table].__dataclass_fields__ if name != "name"]
    for key, value in raw.items():
        if key in ("source", "like") or (key.endswith("_source") and key[:-7] in names):
            if not isinstance(value, str):
                faults.append((key, repr(value), "it must be text in quotes", ""))
            continue
        dimension = dimension_of(table, key)
        if dimension is None:
            fix = nearest(key, names) or f"Keys are {', '.join(names)}."
            faults.append((key, "unknown", "this table has no such key", fix))
            continue
        source = str(raw.get(f"{key}_source", raw.get("source", NO_SOURCE)))
        try:
            values[key] = _value(table, key, value, (dimension, source))
        except ValueError as error:
            faults.append((key, _shown(value), f"it must be {error}", ""))
    return values, faults


def _shown(value: object) -> str:
    return f'"{value}"' if isinstance(value, str) else str(value)


def _value(table: str, key: str, value: object, kind: tuple[str, str]) -> object:
    dimension, source = kind
    if dimension == "text":
        if isinstance(value, str):
            return value
        raise ValueError("text in quotes")
    if dimension == "yes or no":
        if isinstance(value, bool):
            return value
        raise ValueError("true or false")
    if key == "size":
        return _three(value, dimension)
    if key in SCALARS.get(table, frozenset()):
        return _positive(to_si(value, dimension), or_zero=key == "bore")
    if not isinstance(value, list):
        read = _positive(to_si(value, dimension), or_zero=key == "price")
        return Band.exact(read, source)
    low, typical, high = _three(value, dimension, or_zero=key == "price")
    if not low <= typical <= high:
        raise ValueError("low, typical and high, in that order")
    return Band(low, typical, high, source)


def _three(value: object, dimension: str, *, or_zero: bool = False) -> tuple[float, float, float]:
    if not isinstance(value, list) or len(cast("list[object]", value)) != 3:
        raise ValueError("a list of three values")
    one, two, three = (
        _positive(to_si(each, dimension), or_zero=or_zero) for each in cast("list[object]", value)
    )
    return one, two, three


def _positive(value: float, *, or_zero: bool) -> float:
    if not math.isfinite(value) or value < 0.0 or (value == 0.0 and not or_zero):
        raise ValueError("above zero and finite")
    return value


def load_stock(extra: Path | None = None) -> Stock:
    """All stock tables, with the builder's own entries added or put in place of shipped ones.

    Args:
        extra: The builder's stock file, usually stock.toml beside the design; None for none. [-]

    Returns:
        The tables; their entries are read when they are first asked for.

    Raises:
        DesignErrors: Everything wrong in the builder's file, each with line and key.

    Source:
        Definition.

    Example:
        >>> load_stock().boards["light display board"].areal_mass.typical
        0.297
    """
    stock = Stock(**{table: Table(table, _blocks(table)) for table in CLASSES})
    return stock if extra is None else _with_own(stock, extra)


def _with_own(stock: Stock, file: Path) -> Stock:
    text = _read(file)
    raw = _parse(text, file)
    errors: list[DesignError] = []
    added: dict[str, dict[str, Any]] = {}
    for table, entries in raw.items():
        if table not in CLASSES or not isinstance(entries, dict):
            fix = nearest(table, list(CLASSES))
            allowed = f"sections are {', '.join(CLASSES)}"
            where = (file.name, _line(text, table, "", ""))
            errors.append(DesignError("", f"section [{table}]", allowed, fix, *where))
            continue
        for name, entry in cast("dict[str, Any]", entries).items():
            made, faults = _own_entry(stock, table, name, entry)
            errors += [
                DesignError(
                    f"{table}.{name}.{key}" if key else f"{table}.{name}",
                    got,
                    allowed,
                    fix,
                    file.name,
                    _line(text, table, name, key),
                )
                for key, got, allowed, fix in faults
            ]
            added.setdefault(table, {})[name] = made
    if errors:
        raise DesignErrors(errors)
    changed = {table: {**getattr(stock, table), **new} for table, new in added.items()}
    return replace(stock, **changed)


def _own_entry(stock: Stock, table: str, name: str, entry: object) -> tuple[Any, list[Fault]]:
    if not isinstance(entry, dict):
        return None, [("", _shown(entry), f'write a section [{table}."{name}"]', "")]
    raw = cast("dict[str, Any]", entry)
    values, faults = _fields(table, raw)
    base_name = raw.get("like", name)
    shipped: Mapping[str, Any] = getattr(stock, table)
    if "like" in raw and base_name not in shipped:
        fix = nearest(str(base_name), list(shipped))
        faults.append(("like", f'"{base_name}"', "no such entry ships with the tool", fix))
        return None, faults
    if base_name in shipped:
        return (None if faults else replace(shipped[base_name], name=name, **values)), faults
    for field in CLASSES[table].__dataclass_fields__:
        if field == "name" or field in values or field in raw:
            continue
        if field == "height" and values.get("round") and "width" in values:
            values["height"] = values["width"]
        elif field in OPTIONAL:
            values[field] = OPTIONAL[field]
        else:
            fix = f'Add it, or take the rest over with like = "{next(iter(shipped))}".'
            faults.append((field, "missing", "a new entry needs it", fix))
    return (None if faults else CLASSES[table](name=name, **values)), faults


def _read(file: Path) -> str:
    def fail(what: str, fix: str) -> DesignErrors:
        return DesignErrors([DesignError("", what, "a stock file is plain text", fix, file.name)])

    try:
        if file.is_dir():
            raise fail("it is a folder", "Give the name of a file.")
        if file.stat().st_size > LARGEST_FILE:
            raise fail("it is larger than 1 MB", "Give a stock file.")
        return file.read_text(encoding="utf-8-sig")
    except UnicodeDecodeError:
        raise fail("it is not UTF-8 text", "Save it as UTF-8 in the editor.") from None
    except OSError as error:
        words = f"it cannot be read ({error.strerror})"
        raise fail(words, "Check its name and place.") from None


def _parse(text: str, file: Path) -> dict[str, Any]:
    import tomllib

    try:
        return tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        found = re.search(r"line (\d+)", str(error))
        raise DesignErrors(
            [
                DesignError(
                    "",
                    "the text breaks off" if found is None else "this line cannot be read",
                    str(error),
                    'A line is: key = "value unit" under a heading such as [boards."my board"].',
                    file.name,
                    int(found.group(1)) if found else 0,
                )
            ]
        ) from None


def _line(text: str, table: str, name: str, key: str) -> int:
    """Line of an entry's key, or of its heading, or 0."""
    heading = 0
    for number, line in enumerate(text.splitlines(), start=1):
        bare = line.strip()
        if bare.startswith("["):
            inside = bare.strip("[]").replace('"', "").replace("'", "").replace(" ", "")
            wanted = f"{table}.{name}" if name else table
            if inside == wanted.replace(" ", "") or (not name and inside.startswith(f"{table}.")):
                heading = number
                if not key:
                    return heading
            elif heading:
                break
        elif heading and key and re.match(rf"[\"']?{re.escape(key)}[\"']?\s*=", bare):
            return number
    return heading


def stock_names(stock: Stock) -> dict[str, tuple[str, ...]]:
    """Names of every table's entries.

    Args:
        stock: The stock tables. [-]

    Returns:
        Table -> names, in the order of the tables.

    Source:
        Definition.

    Example:
        >>> stock_names(load_stock())["plies"][0]
        'birch ply 1/16 in'
    """
    return {table: tuple(getattr(stock, table)) for table in CLASSES}
