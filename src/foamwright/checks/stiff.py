"""Strength with one figure of the stock at an end of its band: what stiffness in doubt does."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from foamwright.core.bands import Band
from foamwright.strength.analyse import analyse
from foamwright.strength.model import StrengthResult
from foamwright.strength.named import figures_of

if TYPE_CHECKING:
    from foamwright.plane import Plane
    from foamwright.stock.model import Stock

# Kind of entry in a figure's name -> table of the stock.
TABLES = {"board": "boards", "rod": "rods", "tape": "tapes"}
STIFF = ("modulus", "thickness", "stiffness")  # what bending and twisting rest on


def stiff_figures(plane: Plane) -> tuple[str, ...]:
    """Figures in doubt that the stiffness of wing and tail rests on.

    Args:
        plane: The plane. [-]

    Returns:
        Names such as "board.core_shear_modulus" or "rod.bamboo skewer 3 mm.modulus". [-]

    Source:
        Definition.

    Example:
        >>> "board.paper_modulus" in stiff_figures(plane)
        True
    """
    return tuple(
        name
        for name, band in figures_of(plane.design, plane.stock).items()
        if band.high > band.low and name.endswith(STIFF) and name.partition(".")[0] in TABLES
    )


def strength_with(plane: Plane, figure: str, sign: int) -> StrengthResult:
    """Strength of the plane with one figure at the low or the high end of its band.

    Args:
        plane: The plane. [-]
        figure: Name, as `stiff_figures` gives it. [-]
        sign: -1 for the low end, +1 for the high. [-]

    Returns:
        The result. [-]

    Source:
        First-order propagation, JCGM 100 (GUM) 5.1.2, by differences.

    Example:
        >>> soft = strength_with(plane, "board.paper_modulus", -1)
        >>> soft.stab_deflection > plane.strength.stab_deflection
        True
    """
    stock = _stock_with(plane.stock, plane.design.board.stock, figure, sign)
    return analyse(plane.design, plane.airframe, stock, plane.parts, loads=plane.loads)


def _stock_with(stock: Stock, board: str, figure: str, sign: int) -> Stock:
    kind, _, rest = figure.partition(".")
    name, field = (board, rest) if kind == "board" else rest.rsplit(".", 1)
    table = getattr(stock, TABLES[kind])
    band = getattr(table[name], field)
    end = band.low if sign < 0 else band.high
    entry = replace(table[name], **{field: Band.exact(end, band.source)})
    return replace(stock, **{TABLES[kind]: {**table, name: entry}})
