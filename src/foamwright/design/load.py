"""Read a design file: text, syntax, keys, values, shape, each fault with its line."""

import re
import tomllib
from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass, replace
from functools import cached_property
from pathlib import Path
from typing import Any

from pydantic import ValidationError

from foamwright.core.errors import DesignError, DesignErrors
from foamwright.core.files import read_text
from foamwright.design.defaults import defaults_used
from foamwright.design.fields import FROM_FILE
from foamwright.design.keys import split
from foamwright.design.lines import key_lines, line_of
from foamwright.design.model import Design
from foamwright.design.names import check_stock_names
from foamwright.design.validate import validate
from foamwright.design.wording import reworded

type StockNames = Mapping[str, Collection[str]]

__all__ = [
    "Loaded",
    "check_stock_names",
    "defaults_used",
    "located",
    "parse_design",
    "read_design",
    "toml_tables",
]


@dataclass(frozen=True)
class Loaded:
    """A design with the text it came from.

    Attributes:
        design: The design, SI.
        text: The TOML text.
        path: The file; None for a text in memory.
    """

    design: Design
    text: str
    path: Path | None

    @cached_property
    def defaults_used(self) -> tuple[str, ...]:
        """Every key left out, with the value taken, such as "wing.incidence = 1.5 deg"."""
        return tuple(f"{item['key']} = {item['words']}" for item in defaults_used(self.design))


def read_design(path: str | Path, names: StockNames | None = None) -> Loaded:
    """Read a design file.

    Args:
        path: The file. [-]
        names: Stock table -> the names in it, to check the design's against; None: not checked. [-]

    Returns:
        The design with its text. [-]

    Raises:
        DesignErrors: All that is wrong with the file, each with its line.

    Source:
        TOML 1.0.0, toml.io.

    Example:
        >>> read_design("examples/brindle-cob.toml").design.name
        'Brindle Cob'
    """
    file = Path(path)
    return replace(parse_design(read_text(file), str(file), names), path=file)


def parse_design(text: str, file_name: str = "", names: StockNames | None = None) -> Loaded:
    """Read a design from its text.

    Args:
        text: TOML. [-]
        file_name: Named in the error messages. [-]
        names: Stock table -> the names in it, to check the design's against; None: not checked. [-]

    Returns:
        The design with its text. [-]

    Raises:
        DesignErrors: All that is wrong with the text, each with its line.

    Source:
        TOML 1.0.0, toml.io.

    Example:
        >>> parse_design("name = 5")
        Traceback (most recent call last):
        foamwright.core.errors.DesignErrors: name is 5; it must be text in quotes...
    """
    data = toml_tables(text, file_name)
    design, errors = None, []
    try:
        design = Design.model_validate(data, context=FROM_FILE)
    except ValidationError as error:
        errors = reworded(error, file=file_name, lines=key_lines(text))
    shape = validate(design) if design else []
    unknown = check_stock_names(design or data, names) if names else []
    errors = sorted(
        [*errors, *located([*shape, *unknown], text, file_name)], key=lambda error: error.line
    )
    if errors or design is None:
        raise DesignErrors(errors)
    return Loaded(design, text, None)


def located(errors: Iterable[DesignError], text: str, file_name: str) -> list[DesignError]:
    r"""The same errors with file and line, in the order of the file.

    Args:
        errors: Errors whose field is a dotted key. [-]
        text: The TOML text they speak of. [-]
        file_name: Named in the messages. [-]

    Returns:
        New errors. [-]

    Source:
        Definition.

    Example:
        >>> located([DesignError("name", "odd", "")], 'notes = ""\nname = "odd"', "a.toml")[0].line
        2
    """
    lines = key_lines(text)
    found = [
        replace(error, file=file_name, line=line_of(split(error.field), lines)) for error in errors
    ]
    return sorted(found, key=lambda error: error.line)


def toml_tables(text: str, file_name: str = "") -> dict[str, Any]:
    """The tables of a TOML text, its faults said in our words.

    Args:
        text: TOML. [-]
        file_name: Named in the error messages. [-]

    Returns:
        Nested tables. [any]

    Raises:
        DesignErrors: It is not TOML.

    Source:
        TOML 1.0.0, toml.io.

    Example:
        >>> toml_tables("boards = 3")
        {'boards': 3}
    """
    try:
        return tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise DesignErrors([_syntax(str(error), text, file_name)]) from None
    except ValueError:  # an integer of thousands of digits
        words = ("a number has thousands of digits", "no value of a design has")
        raise DesignErrors([DesignError("", *words, "", file_name, 1)]) from None
    except RecursionError:
        words = ("lists or tables are nested too deeply", "a design file is a few levels deep")
        raise DesignErrors([DesignError("", *words, "", file_name, 1)]) from None


_CAUSES = {
    "Cannot overwrite": ("each key may stand once", "Take one of the two away."),
    "Cannot declare": ("each table may stand once", "Put all its keys under one heading."),
    "Cannot mutate": ("that table is closed already", "Put all its keys under one heading."),
    "Invalid value": (
        "a value is missing or not readable",
        'Text and units go in quotes: "7 1/2 in".',
    ),
    "Expected newline": ("there is more on the line than one value", ""),
    "Expected '='": ("a key, an equals sign and a value are expected", ""),
    "Invalid statement": ("a key = value or a [table] is expected", ""),
    "Unterminated string": (
        "a quote is not closed",
        "Close the text with the quote it began with.",
    ),
    "Illegal character": ("a character cannot stand there", "A quote may be missing."),
    "Unclosed array": ("a list is not closed", "Close it with ]."),
    "Unclosed inline": ("a table in braces is not closed", "Close it with }."),
    "Unescaped": (
        "a backslash needs care in quotes",
        "Write two of them, or use / or single quotes.",
    ),
    "Expected ']": ("the heading of a table is not closed", "Write [wing] or [[wing.panel]]."),
    "Duplicate inline": ("each key may stand once", "Take one of the two away."),
}
_BARE_TEXT = re.compile(r"^\s*([\w.-]+)\s*=\s*([^\s\"'\[{#][^#]*?)\s*(?:#.*)?$")
_INCH_MARK = re.compile(r"^\s*([\w.-]+)\s*=\s*\"([^\"]*\d)\"\"")


def _syntax(message: str, text: str, file_name: str) -> DesignError:
    """Say in our words what the TOML reader could not read."""
    lines = text.splitlines()
    found = re.search(r"at line (\d+)", message)
    number = int(found[1]) if found else len(lines)
    line = lines[number - 1].strip() if 0 < number <= len(lines) else ""
    if not line and number > 1 and not found:
        line = lines[-1].strip()
    cause, fix = next(
        (words for start, words in _CAUSES.items() if message.startswith(start)),
        ("this is not TOML", "See docs/use/design-file.md for how a design is written."),
    )
    bare, inch = _BARE_TEXT.match(line), _INCH_MARK.match(line)
    if inch:
        fix = f'Write {inch[1]} = "{inch[2]} in".'
    elif bare and not message.startswith(("Cannot", "Duplicate")):
        fix = f'Put the value in quotes: {bare[1]} = "{bare[2].strip(chr(34))}".'
    shown = line if len(line) <= 60 else f"{line[:57]}..."
    return DesignError("", f"cannot read `{shown}`", cause, fix, file_name, number)
