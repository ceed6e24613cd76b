"""Read a file of wishes: every fault with its line, and wishes that cannot go together."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from pydantic import ValidationError

from foamwright.core.errors import DesignError, DesignErrors
from foamwright.core.files import read_text
from foamwright.core.nearest import nearest_names
from foamwright.core.units import format_value
from foamwright.design.fields import FROM_FILE
from foamwright.design.keys import split
from foamwright.design.lines import key_lines, line_of
from foamwright.design.load import toml_tables
from foamwright.design.schema import json_schema, key_tables
from foamwright.design.wording import reworded
from foamwright.idea.propellers import propeller_named
from foamwright.idea.wishes import Wishes
from foamwright.stock.load import load_stock, stock_names

STOCK_FILE = "stock.toml"  # the builder's own stock, beside the wishes
SHORT = 'pack = [{ cells = 3, capacity = "1300 mAh" }]'
SCHEMA_FILE = Path(__file__).with_name("wishes.json")
# Key -> table of the stock that its names must stand in.
NAMED = {
    "bench.motors": "motors",
    "bench.controllers": "controllers",
    "bench.servos": "servos",
    "bench.receiver": "others",
    "bench.sticks": "rods",
    "bench.tapes": "tapes",
    "bench.plies": "plies",
    "board.stock": "boards",
}


@dataclass(frozen=True, slots=True)
class Wished:
    """A file of wishes, read.

    Attributes:
        wishes: The bench and wishes, SI.
        stock_file: The builder's own stock beside it; None when there is none.
        path: The file.
    """

    wishes: Wishes
    stock_file: str | None
    path: Path


def read_wishes(path: str | Path) -> Wished:
    """Read a file of wishes.

    Args:
        path: The file. [-]

    Returns:
        The wishes, and the builder's own stock when a stock.toml lies beside them. [-]

    Raises:
        DesignErrors: All that is wrong with the file, each with its line.

    Source:
        TOML 1.0.0, toml.io.

    Example:
        >>> read_wishes("examples/wishes/cobb-hollow.toml").wishes.wish.kind
        'trainer'
    """
    file = Path(path)
    text = read_text(file, what="file of wishes")
    own = file.parent / STOCK_FILE
    stock_file = str(own) if own.exists() else None
    return Wished(parse_wishes(text, str(file), stock_file), stock_file, file)


def parse_wishes(text: str, file_name: str = "", stock_file: str | None = None) -> Wishes:
    """Read wishes from their text.

    Args:
        text: TOML. [-]
        file_name: Named in the error messages. [-]
        stock_file: The builder's own stock; None takes what ships. [-]

    Returns:
        The wishes. [-]

    Raises:
        DesignErrors: All that is wrong with the text, each with its line.

    Source:
        TOML 1.0.0, toml.io.

    Example:
        >>> parse_wishes("[bench]")
        Traceback (most recent call last):
        foamwright.core.errors.DesignErrors: bench.motors is empty; a plane that flies itself up...
    """
    lines = key_lines(text)
    try:
        wishes = Wishes.model_validate(toml_tables(text, file_name), context=FROM_FILE)
    except ValidationError as error:
        raise DesignErrors(reworded(error, file=file_name, lines=lines, root=Wishes)) from None
    faults = faults_of(wishes, stock_names(load_stock(Path(stock_file) if stock_file else None)))
    if faults:
        placed = [
            replace(
                fault,
                file=file_name,
                line=line_of(split(fault.field), lines) if file_name else 0,
            )
            for fault in faults
        ]
        raise DesignErrors(sorted(placed, key=lambda fault: fault.line))
    return wishes


def faults_of(wishes: Wishes, names: Mapping[str, Collection[str]]) -> list[DesignError]:
    """What is wrong with wishes whose values are each right.

    Args:
        wishes: The bench and wishes. [-]
        names: Stock table -> the names in it. [-]

    Returns:
        An empty bench, names that stock does not hold, wishes that contradict each other. [-]

    Source:
        Definition.

    Example:
        >>> from foamwright.stock.load import load_stock, stock_names
        >>> faults_of(wishes, stock_names(load_stock()))
        []
    """
    return [*_empty(wishes), *_unknown(wishes, names), *_contradictions(wishes)]


def _empty(wishes: Wishes) -> list[DesignError]:
    found: list[DesignError] = []
    if not wishes.bench.motors:
        words = "a plane that flies itself up needs a motor"
        fix = 'Write motors = ["outrunner 22 mm 1000 Kv"]; `foamwright stock motor` lists them.'
        found.append(DesignError("bench.motors", "empty", words, fix))
    if not wishes.bench.pack:
        words = "a plane needs a pack"
        found.append(DesignError("bench.pack", "empty", words, f"Write {SHORT}."))
    if not wishes.bench.plies:
        words = "the firewall is cut from plywood"
        found.append(
            DesignError("bench.plies", "empty", words, 'Write plies = ["birch ply 1/8 in"].')
        )
    if wishes.bench.servo_count < 2:
        got = str(wishes.bench.servo_count)
        words = "elevator and rudder need two, ailerons two more"
        found.append(DesignError("bench.servo_count", got, words, "Write servo_count = 4."))
    return found


def _unknown(wishes: Wishes, names: Mapping[str, Collection[str]]) -> list[DesignError]:
    found: list[DesignError] = []
    for key, table in NAMED.items():
        section, name = key.split(".")
        value = getattr(getattr(wishes, section), name)
        words = (value,) if isinstance(value, str) else value
        known = sorted(names[table])
        found += [_not_there(key, word, table, known) for word in words if word not in known]
    for word in wishes.bench.propellers:
        try:
            propeller_named(word)
        except DesignError as error:
            found.append(error)
    return found


def _not_there(key: str, word: str, table: str, known: Sequence[str]) -> DesignError:
    near = nearest_names(word, known) or known[:3]
    listed = ", ".join(f'"{name}"' for name in near)
    words = f"there is no such name in stock under {table}"
    fix = f"Near it are {listed}; `foamwright stock` lists them all."
    return DesignError(key, f'"{word}"', words, fix)


def _contradictions(wishes: Wishes) -> list[DesignError]:
    wish, bench = wishes.wish, wishes.bench
    found: list[DesignError] = []
    least, most = wish.span_least, wish.span_most
    if least is not None and most is not None and least > most:
        got, other = (format_value(v, "length", wishes.units) for v in (least, most))
        words = f"it must not be more than span_most, {other}"
        found.append(DesignError("wish.span_least", got, words, "Swap or mend them."))
    if wish.controls == "ailerons" and bench.servo_count < 4:
        words = f"ailerons take four servos, and servo_count is {bench.servo_count}"
        fix = 'Write controls = "rudder", or find more servos.'
        found.append(DesignError("wish.controls", '"ailerons"', words, fix))
    if wish.boards_most is not None and wish.boards_most > wishes.board.count:
        words = f"only {wishes.board.count} boards lie on the bench (board.count)"
        fix = f"Write boards_most = {wishes.board.count}, or more under board.count."
        found.append(DesignError("wish.boards_most", str(wish.boards_most), words, fix))
    return found


def wishes_schema() -> dict[str, object]:
    """A JSON schema of the file of wishes.

    Returns:
        Draft 2020-12. [-]

    Source:
        JSON Schema, draft 2020-12, json-schema.org.

    Example:
        >>> wishes_schema()["title"]
        'Foamwright file of wishes'
    """
    return json_schema(Wishes, "Foamwright file of wishes")


def wishes_keys() -> str:
    """Every key of the file of wishes as Markdown tables.

    Returns:
        Markdown. [-]

    Source:
        Definition.

    Example:
        >>> "### [wish]" in wishes_keys()
        True
    """
    return key_tables(Wishes)
