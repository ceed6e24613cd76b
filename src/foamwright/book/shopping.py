"""What to buy: whole sheets, lengths, rolls and packs, with prices the builder can set."""

from __future__ import annotations

import math
import tomllib
from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from foamwright.core.errors import DesignError
from foamwright.core.files import read_text
from foamwright.core.units import format_value
from foamwright.parts.lengths import first_fit
from foamwright.parts.model import Source

if TYPE_CHECKING:
    from foamwright.plane import Plane

SHOP_FILE = "shop.toml"  # the builder's own, beside the design
PLY_FILL = 0.55  # of a piece of ply that parts make use of; assumed
PLY_PIECE = {"metric": 0.3, "inch": 0.3048}  # m, side of the piece sold; common practice
GLUE_STICK = 0.018  # kg, 11 x 200 mm; from memory
ROLL = 25.0  # m of tape; common practice
# Name -> pieces, or metres of tape, in a pack; common practice, no source
PACKS: dict[str, float] = {
    "bamboo skewer 3 mm": 50,
    "bamboo skewer 4 mm": 50,
    "craft stick": 50,
    "jumbo craft stick": 50,
    "hot glue": 20,
    "low-temperature hot glue": 20,
    "motor screw set": 1,
    "hook and loop": 4,
}
BANDS = 50  # in a bag; common practice


@dataclass(frozen=True, slots=True)
class Purchase:
    """One line of the shopping list.

    Attributes:
        name: In stock.
        need: What the plane takes, in words.
        packs: To buy. [-]
        pack: What one pack holds, in words.
        low: Price of all, low; no currency; None when not known. [-]
        typical: Same, typical.
        high: Same, high.
        own: Whether the price is the builder's.
    """

    name: str
    need: str
    packs: int
    pack: str
    low: float | None
    typical: float | None
    high: float | None
    own: bool = False


@dataclass(frozen=True, slots=True)
class ShopEntry:
    """What the builder says of one thing in shop.toml.

    Attributes:
        pack: Pieces, sticks, or metres of tape in a pack; None leaves the usual.
        price: Of one pack; None leaves that of stock.
        have: In the drawer, in pieces or metres. [-]
    """

    pack: float | None = None
    price: float | None = None
    have: float = 0.0


def read_shop(file: Path) -> dict[str, ShopEntry]:
    """The builder's own pack sizes and prices.

    Args:
        file: shop.toml; none is like an empty one. [-]

    Returns:
        Name -> entry. [-]

    Raises:
        DesignError: It is not TOML, or an entry holds something else than pack, price, have.

    Source:
        Definition.

    Example:
        >>> read_shop(Path("no-such-shop.toml"))
        {}
    """
    if not file.exists():
        return {}
    try:
        data = tomllib.loads(read_text(file, what="shop file"))
    except tomllib.TOMLDecodeError as error:
        raise DesignError("", f"it is not TOML ({error})", "mend it", "", str(file)) from None
    found: dict[str, ShopEntry] = {}
    for name, entry in data.items():
        allowed = "an entry holds numbers above 0 for pack, price or have"
        if not isinstance(entry, dict) or set(entry) - {"pack", "price", "have"}:
            raise DesignError(name, f"{entry}", allowed, "", str(file))
        for key, value in entry.items():
            usable = isinstance(value, int | float) and math.isfinite(value) and value >= 0
            if not usable or (key == "pack" and value == 0):
                raise DesignError(f"{name}.{key}", f"{value}", allowed, "", str(file))
        found[name] = ShopEntry(**entry)
    return found


def lengths_needed(pieces: Sequence[float], length: float) -> int:
    """Sticks to buy for pieces cut from them, longest first into the first stick with room.

    Args:
        pieces: Their lengths. [m]
        length: Of a stick. [m]

    Returns:
        Sticks; a piece longer than a stick takes as many as it is long. [-]

    Source:
        First fit decreasing, common practice; 2 mm lost a cut.

    Example:
        >>> lengths_needed([0.2, 0.15, 0.14, 0.09], 0.3)
        2
    """
    return len(first_fit(pieces, length))


def shopping_list(plane: Plane, shop: dict[str, ShopEntry] | None = None) -> tuple[Purchase, ...]:
    """Everything to buy for a plane.

    Args:
        plane: The plane. [-]
        shop: The builder's pack sizes, prices and drawer. [-]

    Returns:
        Lines: boards, ply, sticks, tape, glue, then what is fitted. [-]

    Source:
        Stock prices (bands, no currency); pack sizes common practice.

    Example:
        >>> shopping_list(plane)[0].name
        'light display board'
    """
    shop = shop or {}
    rows = [*_boards(plane, shop), *_materials(plane, shop), *_fitted(plane, shop)]
    return tuple(rows)


def total_price(rows: Sequence[Purchase]) -> tuple[float, float, float, int]:
    """Low, typical and high sum, and how many lines have no price.

    Args:
        rows: The list. [-]

    Returns:
        Sums without currency, and a count. [-]

    Source:
        Definition.

    Example:
        >>> total_price([Purchase("a", "1", 1, "1", 1.0, 2.0, 3.0)])
        (1.0, 2.0, 3.0, 0)
    """
    known = [row for row in rows if row.typical is not None]
    low, typical, high = (sum(getattr(row, key) or 0.0 for row in known) for key in
                          ("low", "typical", "high"))  # fmt: skip
    return low, typical, high, len(rows) - len(known)


def _boards(plane: Plane, shop: dict[str, ShopEntry]) -> list[Purchase]:
    board = plane.design.board
    used = plane.layout.boards_used
    sold = plane.stock.boards.get(board.stock)
    return [
        _row(board.stock, f"{used} sheets", used, ("sheet", 1), sold.price if sold else None,
             shop, held=board.count)
    ]  # fmt: skip


def _materials(plane: Plane, shop: dict[str, ShopEntry]) -> list[Purchase]:
    pieces: dict[str, list[float]] = defaultdict(list)
    ply: dict[str, float] = defaultdict(float)
    tape: dict[str, float] = defaultdict(float)
    for part in plane.parts.parts:
        west, south, east, north = part.outline.bounds
        longest = max(east - west, north - south)
        if part.source is Source.LENGTH:
            pieces[part.stock].append(longest)
        elif part.source is Source.TAPE:
            tape[part.stock] += longest
        elif part.source is Source.PLY:
            ply[part.stock] += float(part.outline.area)
    stock, units = plane.stock, plane.design.units
    rows: list[Purchase] = []
    piece = PLY_PIECE[units]
    for name, area in ply.items():
        count = math.ceil(area / PLY_FILL / piece**2)
        side = format_value(piece, "length", units)
        rows.append(_row(name, f"{format_value(area, 'area', units)} of parts", count,
                         (f"piece {side} square", 1), stock.plies[name].price if name in stock.plies
                         else None, shop))  # fmt: skip
    for name, lengths in pieces.items():
        sold = stock.rods.get(name)
        each = sold.length if sold else 0.9
        count = lengths_needed(lengths, each)
        said = [format_value(value, "length", units) for value in (sum(lengths), each)]
        words = f"{len(lengths)} pieces, {said[0]}: {count} of {said[1]}"
        rows.append(_row(name, words, count, ("piece", 1), sold.price if sold else None, shop))
    for name, length in tape.items():
        sold_tape = stock.tapes.get(name)
        said = [format_value(value, "distance", units) for value in (length, ROLL)]
        rows.append(_row(name, said[0], math.ceil(length * 10) / 10,
                         (f"roll of {said[1]}", ROLL), sold_tape.price if sold_tape else None,
                         shop))  # fmt: skip
    return rows


def _fitted(plane: Plane, shop: dict[str, ShopEntry]) -> list[Purchase]:
    stock = plane.stock
    uses: dict[str, list[str]] = defaultdict(list)
    wire: dict[str, list[float]] = defaultdict(list)
    rows: list[Purchase] = []
    for item in plane.parts.items:
        if item.id == "glue":
            sold_glue = stock.glues.get(item.stock)
            weighs = format_value(item.mass.typical, "mass", plane.design.units)
            stick = "hot" in item.stock
            count = math.ceil(1.3 * item.mass.typical / GLUE_STICK) if stick else 1
            words = weighs + (f": {count} sticks with waste" if stick else "")
            pack = PACKS.get(item.stock, 1)
            name = "pack of 20 sticks" if stick else "bottle"
            rows.append(_row(item.stock, words, count, (name, pack),
                             sold_glue.price if sold_glue else None, shop,
                             by_pack=True))  # fmt: skip
        elif item.stock in stock.rods:
            wire[item.stock].append(max(item.size))
        elif item.id == "bands":
            count = int("".join(c for c in item.name if c.isdigit()) or 4)
            rows.append(_row(item.stock, f"{count}, and as many spare", 2 * count,
                             (f"bag of {BANDS}", BANDS), stock.bands[item.stock].price
                             if item.stock in stock.bands else None, shop))  # fmt: skip
        else:
            uses[item.stock or item.name].append(item.name)
    for name, lengths in wire.items():
        rod = stock.rods[name]
        count = lengths_needed(lengths, rod.length)
        each = format_value(rod.length, "length", plane.design.units)
        rows.append(_row(name, f"{len(lengths)} pushrods: {count} of {each}",
                         count, ("piece", 1), rod.price, shop))  # fmt: skip
    for name, names in uses.items():
        price = next(
            (table[name].price for table in (stock.motors, stock.controllers, stock.servos,
                                             stock.others) if name in table), None
        )  # fmt: skip
        count = sum(_pieces(thing) for thing in names)
        words = str(count) if len(names) > 1 or names[0] == name else _one(names[0])
        rows.append(_row(name, words, count, ("piece", PACKS.get(name, 1)), price, shop))
    return rows


def _pieces(name: str) -> int:
    """A thing that comes several times says so at the end of its name: "wing bolts, 2"."""
    last = name.rpartition(", ")[2]
    return int(last) if last.isdecimal() else 1


def _one(name: str) -> str:
    count = _pieces(name)
    return f"{count}, {name.removesuffix(f', {count}')}"


def _row(
    name: str, need: str, count: float, pack: tuple[str, float], price: object,
    shop: dict[str, ShopEntry], *, held: float = 0.0, by_pack: bool = False,
) -> Purchase:  # fmt: skip
    """A line; stock prices are each, or a pack when by_pack."""
    from foamwright.core.bands import Band

    own = shop.get(name, ShopEntry())
    usual = PACKS.get(name, pack[1])
    size = own.pack or usual
    packs = max(0, math.ceil((count - own.have - held) / size - 1e-9))
    words = pack[0] if size == pack[1] else f"pack of {size:g}"
    if own.price is not None:
        cost = packs * own.price
        return Purchase(name, need, packs, words, cost, cost, cost, own=True)
    if not isinstance(price, Band):
        return Purchase(name, need, packs, words, None, None, None)
    times = packs if by_pack else packs * size
    return Purchase(name, need, packs, words, times * price.low, times * price.typical,
                    times * price.high)  # fmt: skip
