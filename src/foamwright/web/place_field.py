"""Field: the card that goes to the field, to tick on a phone or to print."""

from __future__ import annotations

import asyncio
from functools import partial
from typing import TYPE_CHECKING

from nicegui import background_tasks

from foamwright.book.card import card_blocks
from foamwright.core.errors import FoamwrightError
from foamwright.sheets.paper import usual_paper
from foamwright.web.paper import show_blocks
from foamwright.web.place import Place
from foamwright.web.place_build import hand_out
from foamwright.web.tags import Tag, button, print_page

if TYPE_CHECKING:
    from foamwright.web.page import Page


class FieldPlace:
    """The field card of one page."""

    def __init__(self, page: Page) -> None:
        self.page = page
        self.generation = -1
        self.paper = usual_paper(page.plane().design.units)

    def build(self) -> None:
        """Lay the place out."""
        page = self.page
        with Tag("div", kind="fw-sheetwork"):
            Tag("h1", "Field card")
            with Tag("div", kind="fw-row"):
                button("Card as PDF", partial(self._download), "strong")
                button("Print", print_page)
                button("Write down a flight", partial(page.go, "logbook"))
                self.words = Tag("span", role="status")
            self.shown = Tag("div", kind="fw-two fw-cards")
        page.refresh_place = self.again
        self.again()

    def again(self) -> None:
        """Make the card again when the design has changed."""
        if self.generation != self.page.desk.generation:
            self.generation = self.page.desk.generation
            background_tasks.create(self._show())

    async def _show(self) -> None:
        try:
            sides = await asyncio.to_thread(card_blocks, self.page.plane())
        except FoamwrightError as error:
            self.words.say(str(error))
            return
        if self.shown.is_deleted:  # another place is shown by now
            return
        self.shown.clear()
        with self.shown:
            for side, blocks in zip(("front", "back"), sides, strict=True):
                with Tag("article", kind="fw-paper"):
                    show_blocks(blocks, keep=f"{self.page.name}.{side}")

    async def _download(self) -> None:
        await hand_out(self.page, self.words, "card.pdf", paper=self.paper)


def build_field(page: Page) -> None:
    """Limits, what to look at before each flight, the launch, what to watch for.

    Args:
        page: The page to build on. [-]

    Source:
        docs/use/workshop.md.

    Example:
        >>> build_field(page)  # doctest: +SKIP
    """
    if page.look is not None:
        FieldPlace(page).build()


PLACES = (Place("field", "field", 70, build_field, alone=True),)
