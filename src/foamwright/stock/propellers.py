"""Propellers commonly sold, read only when a choice among them is asked for."""

import tomllib
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from foamwright.core.bands import Band
from foamwright.core.units import parse

TABLES = Path(__file__).parent / "tables"


@dataclass(frozen=True, slots=True)
class PropellerStock:
    """A propeller by kind and size."""

    name: str
    kind: str
    diameter: float  # m
    pitch: float  # m
    blades: int
    mass: Band  # kg


@cache
def propellers_in_stock() -> tuple[PropellerStock, ...]:
    """Every propeller of the stock table.

    Returns:
        Propellers by kind, then diameter.

    Source:
        Common practice, no source.

    Example:
        >>> propellers_in_stock()[0].kind
        'slow flight'
    """
    text = (TABLES / "propellers.toml").read_text("utf-8")
    return tuple(
        PropellerStock(
            name=name,
            kind=entry["kind"],
            diameter=parse(entry["diameter"], "length"),
            pitch=parse(entry["pitch"], "length"),
            blades=entry["blades"],
            mass=_mass(entry["mass"]),
        )
        for name, entry in tomllib.loads(text).items()
    )


def _mass(texts: list[str]) -> Band:
    low, typical, high = (parse(text, "mass") for text in texts)
    return Band(low, typical, high, "common practice, no source")
