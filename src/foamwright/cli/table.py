"""Plain text tables and paragraphs for people."""

import re
import shutil
import textwrap
from collections.abc import Sequence

LEAST_ROOM = 24  # columns that a folded one keeps
NO_BREAK = "\N{NO-BREAK SPACE}"
# A value and its unit, a whole number and its fraction.
VALUE_AND_UNIT = re.compile(r"(?<=\d) (?=(?:%|[A-Za-z°]{1,3})(?:[\s,.;:)]|$)|\d{1,2}/\d)")


def text_width() -> int:
    """Width to write for.

    Returns:
        Columns, between 60 and 110. [-]

    Source:
        Common practice for readable text.

    Example:
        >>> 60 <= text_width() <= 110
        True
    """
    return max(60, min(110, shutil.get_terminal_size((100, 24)).columns))


def paragraph(text: str, *, indent: str = "", first: str | None = None) -> str:
    """Wrap a text to the width of the terminal, a value and its unit kept on one line.

    Args:
        text: One paragraph. [-]
        indent: Put before each line. [-]
        first: Put before the first line instead of indent. [-]

    Returns:
        Lines joined by line ends. [-]

    Source:
        Definition.

    Example:
        >>> paragraph("short words", indent="  ")
        '  short words'
    """
    filled = textwrap.fill(
        VALUE_AND_UNIT.sub(NO_BREAK, text),
        text_width(),
        initial_indent=indent if first is None else first,
        subsequent_indent=indent,
        break_long_words=False,
        break_on_hyphens=False,
    )
    return filled.replace(NO_BREAK, " ")


def table(
    rows: Sequence[Sequence[str]],
    *,
    head: Sequence[str] = (),
    right: str = "",
    folded: bool = False,
) -> str:
    """Columns of text, as wide as their widest entry.

    Args:
        rows: Cells, row by row; all rows of one length. [-]
        head: Titles of the columns. [-]
        right: One letter a column: "r" sets it flush right, anything else left. [-]
        folded: Fold the last column where the table would be wider than the terminal. [-]

    Returns:
        Lines joined by line ends. [-]

    Source:
        Definition.

    Example:
        >>> print(table([["spar", "12"], ["skin", "105"]], head=["part", "g"], right="lr"))
        part    g
        ----  ---
        spar   12
        skin  105
    """
    lines = [list(head), *map(list, rows)] if head else [list(row) for row in rows]
    if not lines:
        return ""
    if folded:
        before = sum(max(len(cell) for cell in column) + 2 for column in zip(*lines, strict=True))
        room = text_width() - before + max(len(line[-1]) for line in lines) + 2
        lines = [row for line in lines for row in _folded(line, max(room, LEAST_ROOM))]
    widths = [max(len(line[i]) for line in lines) for i in range(len(lines[0]))]
    if head:
        lines.insert(1, ["-" * width for width in widths])
    return "\n".join(
        "  ".join(
            cell.rjust(width) if right[i : i + 1] == "r" else cell.ljust(width)
            for i, (cell, width) in enumerate(zip(line, widths, strict=True))
        ).rstrip()
        for line in lines
    )


def _folded(cells: list[str], width: int) -> list[list[str]]:
    """A row whose last cell takes as many lines as it needs."""
    glued = VALUE_AND_UNIT.sub(NO_BREAK, cells[-1])
    pieces = textwrap.wrap(glued, width, break_on_hyphens=False) or [""]
    first, *more = [piece.replace(NO_BREAK, " ") for piece in pieces]
    empty = [""] * (len(cells) - 1)
    return [[*cells[:-1], first], *([*empty, piece] for piece in more)]
