"""What a piece weighs per area, from stock and from what the builder weighed."""

import math
from collections.abc import Mapping
from dataclasses import dataclass

from foamwright.core.bands import Band
from foamwright.core.errors import DesignError
from foamwright.core.nearest import nearest_names
from foamwright.design.model import Board
from foamwright.shape.paper import paper_radius
from foamwright.stock.load import board_of
from foamwright.stock.model import BoardStock, PlyStock, RodStock, Stock, TapeStock

PAPERS_LEFT = {"both": 2, "one peeled": 1, "both peeled": 0}
USUAL_ROD = {  # kind -> the stock entry that is usually meant; common practice
    "craft stick": "jumbo craft stick",
    "dowel": "hardwood dowel 1/8 in",
    "bamboo": "bamboo skewer 3 mm",
    "carbon": "carbon rod 3 mm",
}
USUAL_TAPE = {"mesh tape": "fibre mesh tape", "packing tape": "packing tape"}


def entry[T](table: Mapping[str, T], name: str, field: str) -> T:
    """One entry of a stock table, or words on what there is instead.

    Args:
        table: Name -> entry. [-]
        name: Wanted. [-]
        field: Design key that asked for it. [-]

    Returns:
        The entry.

    Raises:
        DesignError: Stock has none of that name.

    Source:
        Definition.

    Example:
        >>> entry({"music wire 1.2 mm": 1}, "music wire 1.2 mm", "servo.0.rod")
        1
    """
    found = table.get(name)
    if found is not None:
        return found
    near = nearest_names(name, table, most=1)
    fix = f'Did you mean "{near[0]}"?' if near else "Add it to a stock.toml beside the design."
    raise DesignError(field, f'"{name}"', "no such entry in stock", fix)


def scaled(band: Band, factor: float) -> Band:
    """A band times a factor.

    Args:
        band: [any]
        factor: Not negative. [-]

    Returns:
        Scaled band. [any]

    Source:
        Definition.

    Example:
        >>> scaled(Band(1.0, 2.0, 3.0), 2.0).high
        6.0
    """
    return Band(band.low * factor, band.typical * factor, band.high * factor, band.source)


@dataclass(frozen=True, slots=True)
class BoardWork:
    """The foam board as it is cut.

    Attributes:
        name: In stock.
        thickness: Typical or measured. [m]
        areal_mass: As used, papers kept or peeled. [kg/m²]
        paper: One paper with its adhesive. [kg/m²]
        papers: Kept. [-]
        longest: Longest piece that fits one board. [m]
        bend: Tightest bend its inner paper stands; 0 when that is peeled. [m]
    """

    name: str
    thickness: float
    areal_mass: Band
    paper: float
    papers: int
    longest: float
    bend: float


def board_work(board: Board, stock: Stock, thickness: float) -> BoardWork:
    """The design's board as it is cut: weighed, measured and peeled.

    Args:
        board: The design's board table. [-]
        stock: The stock tables. [-]
        thickness: Typical or measured. [m]

    Returns:
        The board as it is cut.

    Raises:
        DesignError: No such board in stock, or a weighed mass below its papers' own.

    Source:
        Definition; reproduced in tests/validation/test_board_mass.py.

    Example:
        >>> board_work(design.board, stock, 0.005).papers
        2
    """
    used = board_of(board, stock)
    return BoardWork(
        name=board.stock,
        thickness=thickness,
        areal_mass=used.areal_mass,
        paper=used.paper_areal_mass.typical,
        papers=PAPERS_LEFT[board.papers],
        longest=max(board.length, board.width) - 2.0 * board.margin,
        bend=usual_bend(used, thickness) if PAPERS_LEFT[board.papers] == 2 else 0.0,
    )


def usual_bend(board: BoardStock, thickness: float) -> float:
    """Tightest bend that the inner paper of a board stands, with its typical paper.

    Args:
        board: The stock entry. [-]
        thickness: Of the board. [m]

    Returns:
        Radius. [m]

    Source:
        As `paper_radius`.

    Example:
        >>> usual_bend(stock.boards["light display board"], 0.005) > 0.1
        True
    """
    return paper_radius(
        thickness,
        modulus=board.paper_modulus.typical,
        strength=board.paper_compressive_strength.typical,
    )


def rod_areal_mass(rod: RodStock) -> Band:
    """Mass of a stick or rod per length and width, so that length x width x this is its mass.

    Round: density * (pi/4) * (d² - bore²) / d; flat: density * height.

    Args:
        rod: The stock entry. [-]

    Returns:
        Mass per area. [kg/m²]

    Source:
        Definition.

    Example:
        >>> rod_areal_mass(rod).typical  # doctest: +SKIP
        3.6
    """
    if rod.round:
        depth = 0.25 * math.pi * (rod.width**2 - rod.bore**2) / rod.width
    else:
        depth = rod.height - rod.bore**2 / rod.width
    return scaled(rod.density, depth)


def ply_areal_mass(ply: PlyStock) -> Band:
    """Mass of plywood per area, density * thickness.

    Args:
        ply: The stock entry. [-]

    Returns:
        Mass per area. [kg/m²]

    Source:
        Definition.

    Example:
        >>> ply_areal_mass(ply).typical  # doctest: +SKIP
        2.16
    """
    return Band(
        ply.density.low * ply.thickness.low,
        ply.density.typical * ply.thickness.typical,
        ply.density.high * ply.thickness.high,
        ply.density.source,
    )


def rod_of_kind(stock: Stock, kind: str, field: str) -> RodStock:
    """The stock rod that is usually meant by a kind, else the one nearest 3 mm across.

    Args:
        stock: The stock tables. [-]
        kind: "craft stick", "dowel", "bamboo", "carbon" or "wire". [-]
        field: Design key that asked for it. [-]

    Returns:
        The stock entry.

    Raises:
        DesignError: Stock holds none of that kind.

    Source:
        Common practice.

    Example:
        >>> rod_of_kind(stock, "bamboo", "wing.reinforcement.0").kind
        'bamboo'
    """
    usual = stock.rods.get(USUAL_ROD.get(kind, ""))
    if usual is not None:
        return usual
    rods = [rod for rod in stock.rods.values() if rod.kind == kind]
    if not rods:
        raise DesignError(field, f'"{kind}"', "stock holds none of that kind", "Name its stock.")
    return min(rods, key=lambda rod: abs(rod.height - 0.003))


def tape_of_kind(stock: Stock, kind: str, field: str) -> TapeStock:
    """The stock tape that is usually meant, else the first named by the kind's first word.

    Args:
        stock: The stock tables. [-]
        kind: Such as "mesh tape" or "packing tape". [-]
        field: Design key that asked for it. [-]

    Returns:
        The stock entry.

    Raises:
        DesignError: Stock holds none of that kind.

    Source:
        Common practice.

    Example:
        >>> tape_of_kind(stock, "mesh tape", "wing.reinforcement.0").name
        'fibre mesh tape'
    """
    usual = stock.tapes.get(USUAL_TAPE.get(kind, ""))
    if usual is not None:
        return usual
    word = kind.split()[0]
    for tape in stock.tapes.values():
        if word in tape.name:
            return tape
    raise DesignError(field, f'"{kind}"', "stock holds no such tape", "Name its stock.")
