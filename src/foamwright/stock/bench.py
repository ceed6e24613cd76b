"""The board on the bench: what stock says of it, and what the builder weighed and measured."""

from dataclasses import replace
from typing import Protocol

from foamwright.core.bands import Band
from foamwright.core.errors import DesignError
from foamwright.stock.fields import nearest
from foamwright.stock.model import BoardStock, Stock


class BoardChoice(Protocol):
    """The design's [board] table, as far as stock must know it."""

    @property
    def stock(self) -> str:
        """Name in stock."""
        ...

    @property
    def length(self) -> float:
        """Of a whole sheet [m]."""
        ...

    @property
    def width(self) -> float:
        """Of a whole sheet [m]."""
        ...

    @property
    def mass(self) -> float | None:
        """Weighed mass of one whole sheet [kg]."""
        ...

    @property
    def thickness(self) -> float | None:
        """Measured [m]."""
        ...

    @property
    def papers(self) -> str:
        """What is left on: "both", "one peeled", "both peeled"."""
        ...


def board_of(board: BoardChoice, stock: Stock) -> BoardStock:
    """The board on the bench: the stock entry with what was weighed, measured and peeled.

    Areal mass = weighed mass / (length * width), less one paper for every side peeled. A weighed or
    measured figure replaces its band. The paper's band is not added: a heavy sheet has heavy paper.

    Args:
        board: The design's [board] table. [-]
        stock: The stock tables. [-]

    Returns:
        The board as it is used; areal mass is what is left after peeling.

    Raises:
        DesignError: No such board, or a weighed mass that cannot be.

    Source:
        Definition; reproduced in tests/validation/test_board_mass.py.

    Example:
        >>> from types import SimpleNamespace
        >>> from foamwright.stock.load import load_stock
        >>> sheet = SimpleNamespace(
        ...     stock="light display board", length=0.762, width=0.508,
        ...     mass=0.115, thickness=0.0048, papers="both",
        ... )
        >>> round(board_of(sheet, load_stock()).areal_mass.typical, 4)
        0.2971
    """
    sold = stock.boards.get(board.stock)
    if sold is None:
        near = nearest(board.stock, list(stock.boards))
        fix = near or "Add it to a stock.toml beside the design."
        raise DesignError("board.stock", f'"{board.stock}"', "no such board in stock", fix)
    areal, thickness = sold.areal_mass, sold.thickness
    if board.mass is not None:
        areal = Band.exact(board.mass / (board.length * board.width), "weighed")
    if board.thickness is not None:
        thickness = Band.exact(board.thickness, "measured")
    peeled = {"both": 0, "one peeled": 1, "both peeled": 2}[board.papers]
    off = peeled * sold.paper_areal_mass.typical
    if areal.low - off <= 0.0:
        raise DesignError(
            "board.mass",
            f"{1000 * (board.mass or 0.0):.0f} g a sheet",
            f"the papers alone weigh {1000 * off:.0f} g/m2",
            "Weigh a whole sheet, both papers on, as it is bought.",
        )
    left = Band(areal.low - off, areal.typical - off, areal.high - off, areal.source)
    return replace(
        sold,
        length=board.length,
        width=board.width,
        thickness=thickness,
        areal_mass=left,
    )
