"""`foamwright parts`: the cut list, what to buy, and the mass table."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from foamwright.cli.reading import FILE, open_plane

if TYPE_CHECKING:
    from foamwright.parts.listing import CutLine
    from foamwright.plane import Plane


def cut_table(plane: Plane) -> str:
    """Every piece to cut, grouped by kind and by what it is cut from.

    Args:
        plane: The plane. [-]

    Returns:
        Tables, one for each kind of material. [-]

    Source:
        Definition.

    Example:
        >>> cut_table(plane).splitlines()[0]
        'Cut from board'
    """
    from foamwright.cli.table import table
    from foamwright.parts.listing import cut_list
    from foamwright.parts.model import Source

    titles = {
        Source.BOARD: "Cut from board",
        Source.PLY: "Cut from ply (templates in the PDF)",
        Source.LENGTH: "Cut to length",
        Source.TAPE: "Tape and film",
    }
    lines = cut_list(plane.parts.parts)
    blocks: list[str] = []
    for source, title in titles.items():
        rows = [_cut_row(plane, line) for line in lines if line.source is source]
        if rows:
            head = ["part", "count", "of", "each about", "all weigh"]
            blocks.append(f"{title}\n\n{table(rows, head=head, right='lrllr')}")
    return "\n\n".join(blocks)


def _cut_row(plane: Plane, line: CutLine) -> list[str]:
    from foamwright.core.units import format_value

    units = plane.design.units
    size = " x ".join(format_value(side, "length", units) for side in (line.length, line.width))
    mass = format_value(line.mass.typical, "mass", units)
    return [line.name, str(line.count), line.stock, size, mass]


def buy_table(plane: Plane) -> str:
    """What to buy or take from the drawer.

    Args:
        plane: The plane. [-]

    Returns:
        A table. [-]

    Source:
        Definition.

    Example:
        >>> buy_table(plane).splitlines()[0]
        'To buy, or from the drawer'
    """
    from collections import Counter

    from foamwright.cli.table import table
    from foamwright.core.units import format_value
    from foamwright.parts.lengths import stick_plans
    from foamwright.parts.listing import cut_list
    from foamwright.parts.model import Source

    units = plane.design.units
    boards = plane.layout.boards_used
    most = "at most: the search of 'foamwright sheets' may save one" if boards > 1 else ""
    rows = [[plane.design.board.stock, f"{boards} sheets", most]]
    lengths: Counter[str] = Counter()
    for line in cut_list(plane.parts.parts):
        if line.source is Source.TAPE:
            lengths[line.stock] += line.count * line.length  # pyright: ignore[reportArgumentType]
        elif line.source is Source.PLY and [line.stock, "a piece", ""] not in rows:
            rows.append([line.stock, "a piece", ""])
    for plan in stick_plans(plane.parts.parts, plane.stock):
        rest = format_value(max(plan.left, default=0.0), "length", units)
        each = format_value(plan.length, "length", units)
        rows.append([plan.stock, f"{len(plan.sticks)} of {each}", f"leaves {rest}"])
    rows += [
        [stock, format_value(length, "distance", units), ""] for stock, length in lengths.items()
    ]
    uses: dict[str, list[str]] = {}
    for item in plane.parts.items:
        uses.setdefault(item.stock or item.name, []).append(item.name)
    rows += [
        [what, str(len(names)), names[0] if len(names) == 1 and names[0] != what else ""]
        for what, names in uses.items()
    ]
    return f"To buy, or from the drawer\n\n{table(rows, head=['what', 'how much', 'for'])}"


def mass_table(plane: Plane) -> str:
    """Every mass with its place and its pull on the balance, and the sum.

    Args:
        plane: The plane. [-]

    Returns:
        A table and two lines on the whole plane. [-]

    Source:
        Definition.

    Example:
        >>> mass_table(plane).splitlines()[0]
        'Mass and balance'
    """
    from foamwright.cli.table import table
    from foamwright.core.unit_table import INCH
    from foamwright.core.units import format_value

    units, balance = plane.design.units, plane.balance

    def mass(value: float) -> str:
        return format_value(value, "mass", units)

    def place(value: float) -> str:
        return format_value(value, "length", units)

    def moved(value: float) -> str:  # a column of them is compared: decimals, not fractions
        return f"{value / INCH:.2f} in" if units == "inch" else f"{1000 * value:.1f} mm"

    rows = [
        [line.name, mass(line.mass.typical), place(line.at[0]), moved(line.cg_shift)]
        for line in balance.lines
    ]
    head = ["what", "mass", "aft of nose", "moves CG aft by"]
    band, cg = balance.mass_band, balance.cg_x_band
    return (
        f"Mass and balance\n\n{table(rows, head=head, right='lrrr')}\n\n"
        f"All-up mass {mass(balance.all_up_mass)} ({mass(band.low)} to {mass(band.high)})\n"
        f"CG {place(balance.cg[0])} aft of the nose ({place(cg.low)} to {place(cg.high)})"
    )


@click.command(short_help="List what to cut and buy, and the masses.")
@click.argument("file", type=FILE)
def parts(file: Path) -> int:
    """List what to cut and to buy, and what everything weighs."""
    plane = open_plane(file)
    click.echo("\n\n".join((cut_table(plane), buy_table(plane), mass_table(plane))))
    return 0
