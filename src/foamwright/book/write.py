"""Writing the book and the field card: all of it, or nothing."""

from __future__ import annotations

import io
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from foamwright.book.card import card_blocks
from foamwright.book.hours import USUAL, free_hours, plan_time
from foamwright.book.html import write_html
from foamwright.book.model import Session
from foamwright.book.pages import book_blocks
from foamwright.book.pdf import PAPERS, write_pdf
from foamwright.book.shopping import SHOP_FILE, read_shop
from foamwright.book.steps import build_steps
from foamwright.core.errors import OutputError
from foamwright.core.files import make_folder, write_atomically
from foamwright.sheets.write import slug

if TYPE_CHECKING:
    from foamwright.plane import Plane

DPI = 160  # of the three-view on the cover


def write_book(
    plane: Plane,
    folder: Path,
    *,
    hours: Sequence[Session] | None = None,
    paper: str = "a4",
    overwrite: bool = False,
) -> list[Path]:
    """Write build book (PDF, HTML) and field card (PDF).

    Everything is made before the first file is written.

    Args:
        plane: The plane. [-]
        folder: Where the files go; made when missing. [-]
        hours: The builder's free hours; None takes evenings of two hours. [-]
        paper: "a4" or "letter". [-]
        overwrite: Whether files that are there may be replaced. [-]

    Returns:
        The files written. [-]

    Raises:
        OutputError: A file is in the way, or the folder cannot be written.
        DesignError: The shop file beside the design cannot be read.

    Source:
        Definition.

    Example:
        >>> write_book(plane, Path("cob-book"))  # doctest: +SKIP
        [PosixPath('cob-book/brindle-cob-book.pdf'), ...]
    """
    if paper not in PAPERS:
        raise OutputError(f"There is no paper '{paper}' for a book; it must be a4 or letter.")
    name = slug(plane.path.stem if plane.path else plane.design.name)
    targets = [folder / f"{name}-{end}" for end in ("book.pdf", "book.html", "card.pdf")]
    there = [path for path in targets if path.exists()]
    if there and not overwrite:
        raise OutputError(
            f"{there[0]} is there already; nothing was written. "
            "Choose another folder, or ask to overwrite it."
        )
    shop = read_shop((plane.path.parent if plane.path else Path()) / SHOP_FILE)
    steps = build_steps(plane)
    plan = plan_time(steps, hours or free_hours(USUAL))
    blocks = book_blocks(plane, steps, plan, three_view=three_view_png(plane), shop=shop)
    front, back = card_blocks(plane)
    title = f"{plane.design.name}: build book"
    made: list[bytes | str] = [
        write_pdf(blocks, title=title, paper=paper),
        write_html([*blocks, *front, *back], title=title),
        write_pdf([*front, *back], title=f"{plane.design.name}: field card", paper=paper,
                  card=True),
    ]  # fmt: skip
    make_folder(folder)
    for path, data in zip(targets, made, strict=True):
        write_atomically(path, data, overwrite=overwrite)
    return targets


def three_view_png(plane: Plane) -> bytes:
    """The three-view as a picture for the cover.

    Args:
        plane: The plane. [-]

    Returns:
        PNG.

    Source:
        Definition.

    Example:
        >>> three_view_png(plane)[:4]  # doctest: +SKIP
        b'...PNG'
    """
    figure = plane.show()
    buffer = io.BytesIO()
    figure.savefig(buffer, format="png", dpi=DPI, metadata={"Software": None})
    return buffer.getvalue()
