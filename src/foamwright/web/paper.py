"""Pages of the build book and the field card, laid out as page elements."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from nicegui import ui

from foamwright.book.html import svg_of
from foamwright.book.model import Block, Figure, Grid, Heading, Picture, Words
from foamwright.web.tags import Tag

if TYPE_CHECKING:
    from foamwright.plane import Plane

SIGNS = {"caution": ("!", "Caution"), "check": ("✓", "Check")}
UNTICKED = "☐ "  # how the printed card begins a line to tick


def show_blocks(blocks: Sequence[Block], *, keep: str = "") -> None:
    """Put blocks of the book on the page, where the next element would stand.

    Args:
        blocks: In order. [-]
        keep: Name under which the browser keeps what is ticked; "" draws boxes only. [-]

    Source:
        Definition.

    Example:
        >>> show_blocks([Heading("Steps")])  # doctest: +SKIP
    """
    for number, block in enumerate(blocks):
        if isinstance(block, Heading):
            Tag(f"h{min(block.level + 1, 3)}", block.words)
        elif isinstance(block, Grid):
            _grid(block)
        elif isinstance(block, Figure):
            _figure(block)
        elif keep and block.words.startswith(UNTICKED):
            tick(block.words.removeprefix(UNTICKED), f"{keep}.{number}")
        else:
            _words(block)


def tick(words: str, keep: str) -> None:
    """A line to tick off; the browser remembers the tick.

    Args:
        words: The line. [-]
        keep: Name that it is remembered by. [-]

    Source:
        Definition.

    Example:
        >>> tick("Pack full", "cob.field.3")  # doctest: +SKIP
    """
    with Tag("label", kind="fw-check"):
        Tag("input", type="checkbox", data_keep=keep)
        Tag("span", words)


def _words(block: Words) -> None:
    if block.kind == "box":
        with Tag("p", kind="fw-box"):
            Tag("span", block.words)
            Tag("i")
        return
    made = Tag("p", kind=f"fw-{block.kind}")
    with made:
        if block.kind in SIGNS:
            sign, label = SIGNS[block.kind]
            Tag("b", sign, role="img", aria_label=label)
        Tag("span", block.words)


def _grid(block: Grid) -> None:
    rows = [row for row in block.rows if any(row)]  # empty ones are for a pen
    if not rows:
        return
    with Tag("table", kind="fw-grid"):
        if any(block.head):
            with Tag("thead"), Tag("tr"):
                for title in block.head:
                    Tag("th", title, scope="col")
        with Tag("tbody"):
            for row in rows:
                with Tag("tr"):
                    for cell in row:
                        Tag("td", cell)


def _figure(block: Figure) -> None:
    if not isinstance(block.picture, Picture):
        return
    with Tag("figure", kind="fw-figure"):
        ui.html(svg_of(block.picture), sanitize=False)
        if block.caption:
            Tag("figcaption", block.caption)


def book_of(plane: Plane, *, hours: str = "", paper: str = "a4") -> dict[str, bytes]:
    """The files of build book and field card.

    Args:
        plane: The plane. [-]
        hours: Free hours in words; "" takes the usual evenings. [-]
        paper: "a4" or "letter". [-]

    Returns:
        File name -> content. [-]

    Raises:
        FoamwrightError: The hours cannot be read, or the plane cannot be built as designed.

    Source:
        foamwright.book.write.

    Example:
        >>> sorted(book_of(plane))  # doctest: +SKIP
        ['brindle-cob-book.html', 'brindle-cob-book.pdf', 'brindle-cob-card.pdf']
    """
    import tempfile
    from pathlib import Path

    from foamwright.book.hours import free_hours
    from foamwright.book.write import write_book

    with tempfile.TemporaryDirectory() as folder:
        free = free_hours(hours) if hours.strip() else None
        written = write_book(plane, Path(folder), hours=free, paper=paper, overwrite=True)
        return {path.name: path.read_bytes() for path in written}
