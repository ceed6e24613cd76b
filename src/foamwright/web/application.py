"""The server's application: which address shows which place."""

from __future__ import annotations

import asyncio
from pathlib import Path
from typing import TYPE_CHECKING
from urllib.parse import quote

from fastapi import FastAPI
from nicegui import app as pages
from nicegui import ui

from foamwright.core.errors import DesignErrors, FoamwrightError, OutputError
from foamwright.design.new import Answers, new_design_text
from foamwright.web.desk import Desk
from foamwright.web.folder import designs, inside, name_in
from foamwright.web.guard import Guard
from foamwright.web.page import Page
from foamwright.web.start import build_start
from foamwright.web.words import word_script

if TYPE_CHECKING:
    from foamwright.web.guard import App, Door

STYLE = (Path(__file__).parent / "static" / "workshop.css").read_text(encoding="utf-8")
EXAMPLE = "brindle-cob.toml"
UNTITLED = "first-trainer.toml"
ICON = (
    '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 32 32"><rect width="32" height="32" '
    'rx="5" fill="#e4d5b7"/><path d="M3 17h26v4H3z M13 6h6v20h-6z M10 25h12v3H10z" '
    'fill="#22303a"/></svg>'
)


class Shop:
    """Everything that is open: one desk a design file, shared by every page that shows it."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self._desks: dict[Path, Desk] = {}
        self._opening = asyncio.Lock()

    async def desk(self, name: str) -> Desk:
        """The desk of a design file in the folder."""
        file = inside(self.folder, name)
        async with self._opening:
            if file not in self._desks:
                self._desks[file] = await asyncio.to_thread(self._open, file)
            return self._desks[file]

    def _open(self, file: Path) -> Desk:
        if not file.exists() and file.name == UNTITLED:
            return Desk(file, new_design_text(Answers("First Trainer", "trainer")))
        if not file.exists():
            raise OutputError(f"There is no design file {file.name} in this folder.")
        return Desk(file)

    def add(self, file: Path, text: str) -> Desk:
        """A new design that is not on the disk yet."""
        desk = Desk(file, text)
        self._desks[file] = desk
        return desk

    def look_again(self) -> None:
        """See whether files were changed by other programs."""
        for desk in tuple(self._desks.values()):
            desk.look_again()

    def first(self) -> str:
        """The design to show when none is asked for: the newest here, an example, or a new one."""
        found = designs(self.folder)
        own = [path for path in found if path.parent == self.folder]
        example = [path for path in found if path.name == EXAMPLE]
        chosen = (own or example or found or [self.folder / UNTITLED])[0]
        return name_in(self.folder, chosen)


def make_application(folder: Path, door: Door) -> App:
    """The whole application, guarded.

    Args:
        folder: Files under it can be opened, no others. [-]
        door: How it may be reached. [-]

    Returns:
        An ASGI application.

    Source:
        Definition.

    Example:
        >>> make_application(Path("."), Door(8137))  # doctest: +SKIP
    """
    shop = Shop(folder.resolve())
    outer = FastAPI(docs_url=None, redoc_url=None, openapi_url=None)

    @ui.page("/", title="Foamwright workshop", response_timeout=20)
    async def first() -> None:
        ui.navigate.to(f"/shape?file={quote(shop.first())}")

    @ui.page("/start", title="Foamwright: start", response_timeout=20)
    async def start(file: str = "") -> None:
        ui.add_css(STYLE)
        ui.add_body_html(word_script())
        await build_start(shop, file or shop.first())

    @ui.page("/{place}", title="Foamwright workshop", response_timeout=20)
    async def work(place: str, file: str = "", at: str = "") -> None:
        ui.add_css(STYLE)
        name = file or shop.first()
        try:
            desk = await shop.desk(name)
            await Page(shop, desk, name=name, at=at[:80]).build(place)
        except (FoamwrightError, DesignErrors) as error:
            await build_start(shop, "", str(error))

    async def watch() -> None:
        while True:
            await asyncio.sleep(1.0)
            await asyncio.to_thread(shop.look_again)

    pages.on_startup(watch)
    ui.run_with(
        outer,
        title="Foamwright",
        favicon=ICON,
        language="en-US",
        tailwind=False,
        reconnect_timeout=20.0,
        message_history_length=60,
        show_welcome_message=False,
        binding_refresh_interval=None,
        dark=False,
    )
    return Guard(outer, door)
