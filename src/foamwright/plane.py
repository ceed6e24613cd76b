"""`Plane`: the one object a caller holds. It strings the rooms together and holds no formula."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING, Any

from foamwright.core.air import Air, air_at

if TYPE_CHECKING:
    from foamwright.aero.model import AeroResult
    from foamwright.balance.model import Balance
    from foamwright.core.verdicts import Check
    from foamwright.design.model import Design
    from foamwright.flight.model import FlightResult
    from foamwright.parts.model import PartsList
    from foamwright.power.model import PowerResult
    from foamwright.shape.model import Airframe
    from foamwright.stock.model import Stock
    from foamwright.strength.model import StrengthResult


@dataclass(frozen=True, slots=True)
class Above:
    """The rooms that stand above the plane, handed in by whoever opens it.

    Attributes:
        checks: Plane -> its checks.
        layout: Plane -> a quick layout of its parts on the boards (a sheets.model.Layout).
        drawing: (Plane, path or None) -> path or figure of the three-view.
    """

    checks: Callable[[Plane], tuple[Check, ...]]
    layout: Callable[[Plane], Any]
    drawing: Callable[[Plane, Path | None], Any]


class Plane:
    """One plane: a design, the stock it draws on, and every result as a lazy cached property."""
