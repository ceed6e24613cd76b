"""The file: its text with faults marked at their lines, saving, versions, import, export."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING, Any

from nicegui import ui

from foamwright.core.errors import DesignError, FoamwrightError, OutputError
from foamwright.core.files import read_text
from foamwright.web.boards import Editor
from foamwright.web.desk import errors_of
from foamwright.web.folder import inside, name_in
from foamwright.web.place import Place
from foamwright.web.tags import Tag, button

if TYPE_CHECKING:
    from pathlib import Path

    from foamwright.web.page import Page

VERSIONS_SHOWN = 12
FAULTS_SHOWN = 30  # nobody mends more at once, and a hostile file has thousands
MARKED = 2000  # lines marked in the text
LARGEST_IMPORT = 400_000  # characters; the longest design seen in the trade is a few thousand
READ = (
    "async (e) => { const f = e.target.files[0]; if (f) "
    f"emit({{name: f.name, text: f.size > {LARGEST_IMPORT} ? null : await f.text()}}) }}"
)


class FilePlace:
    """The file of one page: what is typed, and what is wrong with it."""

    def __init__(self, page: Page) -> None:
        self.page = page
        self.typing = page.desk.text

    def build(self) -> None:
        """Lay the place out."""
        page = self.page
        with Tag("div", kind="fw-sheetwork"):
            Tag("h1", page.name)
            Tag("p", "The whole design is this text; the drawing and the command line read the "
                "same file. What can be read is taken over as you type.")  # fmt: skip
            self.faults = Tag("ul", kind="fw-faults", aria_live="polite")
            self.editor = Editor(page.desk.text)
            self.editor.on("typed", self._typed)
            with Tag("div", kind="fw-row"):
                button("Save", page.save, "strong")
                button("Download", self._export)
                self.copy = Tag("input", value=f"{page.desk.file.stem}-2.toml",
                                aria_label="Name of the copy")  # fmt: skip
                button("Save a copy", self._copy)
            with Tag("div", kind="fw-row"):
                with Tag("label"):
                    Tag("span", "Bring in a design file ")
                    chosen = Tag("input", type="file", accept=".toml")
                chosen.on("change", self._import, js_handler=READ)
            self.versions = Tag("section")
        page.refresh_place = self.again
        self.again()
        self._show(page.desk.faults)

    def again(self) -> None:
        """Show the text again when it was changed elsewhere."""
        desk = self.page.desk
        if desk.text != self.typing:
            self.typing = desk.text
            self.editor.put(desk.text)
            self._show(desk.faults)
        self.versions.clear()
        with self.versions:
            found = desk.versions()[:VERSIONS_SHOWN]
            if found:
                Tag("h2", "Saved before")
            for path in found:
                with Tag("div", kind="fw-row"):
                    Tag("span", path.stem.rpartition("@")[2])
                    button("Take it back", partial(self._take, path))

    async def _typed(self, event: Any) -> None:  # noqa: ANN401 - of the page library
        text = str(event.args["text"])
        self.typing = text
        try:
            await _in_thread(lambda: self.page.desk.put(text, "typed in the file"))
        except FoamwrightError as error:
            self._show(errors_of(error))
        else:
            self._show(())

    def _show(self, faults: tuple[DesignError, ...]) -> None:
        self.editor.run_method("fault", [fault.line for fault in faults[:MARKED]])
        self.faults.clear()
        with self.faults:
            if len(faults) > FAULTS_SHOWN:
                Tag("li", f"{len(faults)} faults; the first {FAULTS_SHOWN} are listed.")
            for fault in faults[:FAULTS_SHOWN]:
                words = str(fault).replace(f"{fault.file}:{fault.line}: ", "")
                with Tag("li"):
                    if fault.line:
                        button(f"line {fault.line}", partial(self._jump, fault.line))
                    Tag("span", " " + words.replace(f"{fault.file}: ", ""))

    def _jump(self, line: int) -> None:
        self.editor.run_method("jump", line)

    def _export(self) -> None:
        ui.download.content(self.page.desk.text.encode(), self.page.desk.file.name)

    async def _copy(self) -> None:
        name = await ui.run_javascript(
            "document.querySelector('input[aria-label=\"Name of the copy\"]').value"
        )
        await self._new(str(name), self.page.desk.text)

    async def _import(self, event: Any) -> None:  # noqa: ANN401 - as above
        name, text = str(event.args["name"]), event.args["text"]
        if not isinstance(text, str) or len(text) > LARGEST_IMPORT:
            self.page.tell(f"{name[:60]} is no design file: those are text of at most 400 kB.")
            return
        await self._new(name, text)

    async def _new(self, name: str, text: str) -> None:
        shop = self.page.shop
        try:
            file = inside(shop.folder, name)
            if file.exists():
                message = f"{file.name} is there already; choose another name."
                raise OutputError(message)
            desk = await _in_thread(lambda: shop.add(file, text))
            if not desk.faults:
                await _in_thread(desk.save)
        except FoamwrightError as error:
            self.page.tell(str(error))
            return
        ui.navigate.to(f"/file?file={name_in(shop.folder, file)}")

    async def _take(self, path: Path) -> None:
        await self.page.do(lambda: self.page.desk.put(read_text(path), "an earlier version"))


async def _in_thread(job: Any) -> Any:  # noqa: ANN401 - hands on what the job gives
    import asyncio

    return await asyncio.to_thread(job)


def build_file(page: Page) -> None:
    """The text of the design, to be edited, saved, brought in and taken away.

    Args:
        page: The page to build on. [-]

    Source:
        docs/use/workshop.md.

    Example:
        >>> build_file(page)  # doctest: +SKIP
    """
    FilePlace(page).build()


PLACES = (Place("file", "file", 95, build_file, alone=True),)
