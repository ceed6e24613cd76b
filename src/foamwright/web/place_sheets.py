"""Sheets: the parts on the boards, a search for fewer boards, the drawings to take away."""

from __future__ import annotations

import asyncio
import io
import tempfile
import threading
import time
import zipfile
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Any

from nicegui import background_tasks, ui

from foamwright.core.errors import FoamwrightError
from foamwright.core.units import format_value
from foamwright.sheets.draft import bench_of
from foamwright.sheets.drawing import board_drawings
from foamwright.sheets.nest import search_on
from foamwright.sheets.paper import usual_paper
from foamwright.sheets.store import layout_text
from foamwright.sheets.svg import write_svg
from foamwright.sheets.write import slug, write_all
from foamwright.web.place import Place
from foamwright.web.tags import Tag, button, choice, word

if TYPE_CHECKING:
    from foamwright.plane import Plane
    from foamwright.sheets.model import Layout
    from foamwright.web.page import Page

PAPERS = ["a4", "letter", "a3", "tabloid"]
SEARCH = 20.0  # s, the longest search from the page
CAUTION = (
    "Print at 100 % (no scaling) and measure the printed bar before you cut. Cut away from "
    "yourself, on a mat, with a fresh blade."
)


class SheetsPlace:
    """The sheets of one page: the layout it shows, and the search that may be running."""

    def __init__(self, page: Page) -> None:
        self.page = page
        self.paper = usual_paper(_units(page))
        self.layout: Layout | None = None
        self.generation = -1
        self.stop = threading.Event()
        self.began = 0.0
        self.best = ""

    def build(self) -> None:
        """Lay the place out."""
        with Tag("div", kind="fw-sheetwork"):
            Tag("h1", "Sheets to cut")
            self.words = Tag("p", role="status")
            with Tag("div", kind="fw-row"):
                with Tag("span"):
                    word("Nesting", "nesting")
                self.search = button("Look for fewer boards", self._search)
                self.halt = button("Stop, keep the best", self.stop.set, hidden="hidden")
            self.progress = Tag("div", kind="fw-progress", hidden="hidden", role="progressbar",
                                aria_label="search")  # fmt: skip
            with self.progress:
                self.bar = Tag("i")
            with Tag("div", kind="fw-row"):
                choice("paper of the tiles", PAPERS, self.paper, self._paper)
                for form, label in (("pdf", "PDF"), ("svg", "SVG"), ("dxf", "DXF")):
                    button(
                        f"Download {label}",
                        partial(self._download, form),
                        "strong" if form == "pdf" else "",
                    )
            Tag("p", CAUTION)
            self.boards = Tag("div", kind="fw-boards")
        self.page.refresh_place = self.again
        self.again()

    def again(self) -> None:
        """Draw the boards again when the design has changed."""
        if self.generation != self.page.desk.generation:
            self.generation = self.page.desk.generation
            self.layout = None
            background_tasks.create(self._draw())

    def _paper(self, event: Any) -> None:  # noqa: ANN401 - of the page library
        self.paper = str(event.args)

    async def _draw(self) -> None:
        plane = self.page.desk.plane
        if plane is None:
            return
        layout = self.layout or await asyncio.to_thread(lambda: plane.layout)
        self.layout = layout
        try:
            pictures = await asyncio.to_thread(_pictures, plane, layout)
        except FoamwrightError as error:
            self.words.say(str(error))
            return
        if self.boards.is_deleted:  # another place is shown by now
            return
        units = plane.design.units
        size = " × ".join(
            format_value(v, "length", units) for v in (layout.board_length, layout.board_width)
        )
        kind = "found by search" if layout.method == "search" else "laid out quickly"
        self.words.say(
            f"{len(pictures)} boards of {size}, {layout.fill:.0%} used, {kind}; "
            f"{plane.design.board.count} on the bench."
            + (f" Fits no board: {', '.join(layout.unplaced)}." if layout.unplaced else "")
        )
        self.boards.clear()
        with self.boards:
            for name, picture in pictures:
                with Tag("figure"):
                    ui.html(picture, sanitize=False)
                    Tag("figcaption", name)

    # ------------------------------------------------------------ long work

    async def _search(self) -> None:
        plane = self.page.desk.plane
        if plane is None:
            return
        self.stop.clear()
        self.best = ""
        self.began = time.monotonic()
        self._show_search(on=True)
        clock = ui.timer(0.3, self._tick)
        try:
            found = await asyncio.to_thread(self._searched, plane)
            if self.generation == self.page.desk.generation:
                self.layout = found
                await self._draw()
        except FoamwrightError as error:
            self.page.tell(str(error))
        finally:
            clock.cancel()
            self._show_search(on=False)

    def _searched(self, plane: Plane) -> Layout:
        def better(layout: Layout, seconds: float) -> None:
            self.best = f"{layout.boards_used} boards after {seconds:.0f} s"

        return search_on(
            plane.parts.parts,
            bench_of(plane),
            time_limit=SEARCH,
            progress=better,
            stop=lambda: self.stop.is_set() or self.boards.is_deleted,
        )

    def _show_search(self, *, on: bool) -> None:
        self.search.put("disabled", on or None)
        self.halt.put("hidden", None if on else "hidden")
        self.progress.put("hidden", None if on else "hidden")

    def _tick(self) -> None:
        share = min((time.monotonic() - self.began) / SEARCH, 1.0)
        self.bar.style(f"width: {100 * share:.0f}%")
        left = max(SEARCH * (1 - share), 0.0)
        self.words.say(f"Searching, at most {left:.0f} s more. {self.best}")

    async def _download(self, form: str) -> None:
        plane = self.page.desk.plane
        if plane is None:
            return
        self.words.say(f"Drawing {form.upper()}…")
        try:
            name, data = await asyncio.to_thread(self._drawn, plane, form)
        except FoamwrightError as error:
            with self.page.client:
                self.page.tell(str(error))
            return
        with self.page.client:
            ui.download.content(data, name)
            self.words.say(f"{name} is in your downloads.")

    def _drawn(self, plane: Plane, form: str) -> tuple[str, bytes]:
        name = slug(plane.path.stem if plane.path else plane.design.name)
        with tempfile.TemporaryDirectory() as made:
            folder = Path(made)
            if self.layout is not None:
                kept = layout_text(self.layout, plane.parts.parts, bench_of(plane))
                (folder / f"{name}-layout.json").write_text(kept, encoding="utf-8")
            written = write_all(
                plane, folder, paper=self.paper, time_limit=0.0, formats=(form,), overwrite=True
            )
            files = [path for path in written if path.suffix == f".{form}"]
            if len(files) == 1:
                return files[0].name, files[0].read_bytes()
            packed = io.BytesIO()
            with zipfile.ZipFile(packed, "w", zipfile.ZIP_DEFLATED) as archive:
                for path in files:
                    archive.writestr(path.name, path.read_bytes())
            return f"{name}-{form}.zip", packed.getvalue()


def build_sheets(page: Page) -> None:
    """The parts on the boards, and the drawings to take away.

    Args:
        page: The page to build on. [-]

    Source:
        docs/use/workshop.md.

    Example:
        >>> build_sheets(page)  # doctest: +SKIP
    """
    SheetsPlace(page).build()


def _units(page: Page) -> str:
    plane = page.desk.plane
    return plane.design.units if plane is not None else "metric"


def _pictures(plane: Plane, layout: Layout) -> list[tuple[str, str]]:
    drawings = board_drawings(layout, plane.parts.parts, units=plane.design.units)
    found: list[tuple[str, str]] = []
    for drawing in drawings:
        text = write_svg(drawing)
        found.append((drawing.name, text[text.index("<svg") :]))
    return found


PLACES = (Place("sheets", "sheets", 50, build_sheets, alone=True),)
