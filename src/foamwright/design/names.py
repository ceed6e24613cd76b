"""Stock names in a design: each must be in the stock tables."""

from collections.abc import Collection, Iterator, Mapping
from typing import Any

from foamwright.core.errors import DesignError
from foamwright.core.nearest import nearest_names
from foamwright.design.model import Design

# Table of the stock -> keys that name an entry of it; * stands for every entry of a list.
NAMED: dict[str, tuple[str, ...]] = {
    "boards": ("board.stock",),
    "plies": ("motor.firewall.stock", "wing.joint.brace"),
    "tapes": ("wing.joint.tape", "covering.stock"),
    "glues": ("wing.joint.glue", "motor.firewall.glue", "glue.stock"),
    "bands": ("wing.attachment.band",),
    "rods": ("wing.attachment.dowel", "servo.*.rod", "gear.wire"),
    "motors": ("motor.stock",),
    "controllers": ("controller.stock",),
    "servos": ("servo.*.stock",),
    "others": ("receiver.stock", "wing.attachment.bolt"),
}
# Keys that may name an entry of either table.
EITHER = {"stab.stiffener": ("rods", "tapes"), "fin.stiffener": ("rods", "tapes")}
REINFORCEMENTS = {
    "craft stick": "rods",
    "dowel": "rods",
    "bamboo": "rods",
    "carbon": "rods",
    "mesh tape": "tapes",
    "packing tape": "tapes",
}


def check_stock_names(
    design: Design | Mapping[str, Any], names: Mapping[str, Collection[str]]
) -> list[DesignError]:
    """Find every stock name that no table holds.

    Args:
        design: The design, or the tables of its file when they cannot make one yet. [-]
        names: Stock table (boards, rods, plies, tapes, glues, bands, motors, controllers, servos,
            others) -> the names in it. [-]

    Returns:
        One error a name, with the nearest names that are in stock. [-]

    Source:
        Definition.

    Example:
        >>> check_stock_names(design, {"boards": ["light display board"]})  # doctest: +SKIP
        []
    """
    errors: list[DesignError] = []
    for key, value, tables in _named(design):
        known = [name for table in tables for name in names.get(table, ())]
        if value not in known:
            errors.append(_unknown(key, value, tables, known))
    return errors


def _named(design: Design | Mapping[str, Any]) -> Iterator[tuple[str, str, tuple[str, ...]]]:
    """Every key that names stock, with its value and the tables it may stand in."""
    rules = {key: (table,) for table, keys in NAMED.items() for key in keys} | EITHER
    for pattern, tables in rules.items():
        for key, value in _values(design, pattern):
            if isinstance(value, str):
                yield key, value, tables
    for key, piece in _values(design, "wing.reinforcement.*"):
        kind, value = _field(piece, "kind"), _field(piece, "stock")
        if isinstance(value, str) and kind in REINFORCEMENTS:
            yield f"{key}.stock", value, (REINFORCEMENTS[kind],)


def _values(design: Design | Mapping[str, Any], pattern: str) -> list[tuple[str, object]]:
    found: list[tuple[str, object]] = [("", design)]
    for part in pattern.split("."):
        found = [step for key, value in found for step in _step(key, value, part)]
    return [(key[1:], value) for key, value in found]


def _step(key: str, value: object, part: str) -> list[tuple[str, object]]:
    if part == "*":
        items = value if isinstance(value, (tuple, list)) else ()
        return [(f"{key}.{index}", item) for index, item in enumerate(items)]
    return [(f"{key}.{part}", _field(value, part))]


def _field(table: object, name: str) -> Any:  # noqa: ANN401 - whatever stands in the file
    """One key of a table, read or still as written; None when it is not there."""
    return table.get(name) if isinstance(table, Mapping) else getattr(table, name, None)


def _unknown(key: str, value: str, tables: tuple[str, ...], known: list[str]) -> DesignError:
    near = nearest_names(value, known) or sorted(known)[:3]
    quoted = ", ".join(f'"{name}"' for name in near)
    fix = f"Near it are {quoted}; " if near else ""
    what = " or ".join(tables)
    return DesignError(
        key,
        f'"{value}"',
        f"there is no such name in stock under {what}",
        f"{fix}`foamwright stock` lists them all, and a stock.toml beside the design can add it.",
    )
