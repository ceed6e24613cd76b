"""Build: one step at a time with a drawing of its parts; lists, time plan, set-up; the book."""

from __future__ import annotations

import asyncio
from functools import partial
from typing import TYPE_CHECKING, Any

from nicegui import background_tasks, ui

from foamwright.book.hours import USUAL, free_hours, plan_time
from foamwright.book.pages import list_blocks, step_blocks, time_blocks
from foamwright.book.set_up import set_up_blocks
from foamwright.book.shopping import SHOP_FILE, read_shop
from foamwright.book.steps import build_steps
from foamwright.core.errors import FoamwrightError
from foamwright.sheets.paper import usual_paper
from foamwright.web.paper import book_of, show_blocks, tick
from foamwright.web.place import Place
from foamwright.web.tags import Tag, button, choice, field

if TYPE_CHECKING:
    from foamwright.book.model import Block, Step
    from foamwright.plane import Plane
    from foamwright.web.page import Page

PARTS = {"": "steps", "lists": "shopping and cut list", "time": "time plan", "set-up": "set-up"}
PAPERS = ["a4", "letter"]


class BuildPlace:
    """The build of one page: which part of the book it shows, and at which step."""

    def __init__(self, page: Page) -> None:
        self.page = page
        self.generation = -1
        self.steps: tuple[Step, ...] = ()
        self.hours = ""
        self.paper = usual_paper(page.plane().design.units)

    def build(self) -> None:
        """Lay the place out."""
        with Tag("div", kind="fw-sheetwork"):
            with Tag("div", kind="fw-row fw-spread"):
                Tag("h1", "Build")
                with Tag("span", kind="fw-switch", role="group", aria_label="Part of the book"):
                    self.switches = {
                        name: button(title, partial(self._turn, name))
                        for name, title in PARTS.items()
                    }
                self.words = Tag("span", kind="fw-grow", role="status")
                choice("paper", PAPERS, self.paper, self._paper)
                button("Book as one web page", partial(self._download, "book.html"))
                button("Book as PDF", partial(self._download, "book.pdf"), "strong")
            self.shown = Tag("div")
        self.page.refresh_place = self.again
        self.again()

    def again(self) -> None:
        """Work the steps out again when the design has changed."""
        if self.generation != self.page.desk.generation:
            self.generation = self.page.desk.generation
            background_tasks.create(self._show())

    def _paper(self, event: Any) -> None:  # noqa: ANN401 - of the page library
        self.paper = str(event.args)

    async def _turn(self, name: str) -> None:
        self.page.stand(name)
        await self._show()

    async def _show(self) -> None:
        page, name = self.page, self.page.at
        part = name if name in PARTS else ""
        try:
            plane = page.plane()
            if not self.steps or name == "":
                self.steps = await asyncio.to_thread(build_steps, plane)
            blocks = await asyncio.to_thread(self._blocks, plane, name)
        except FoamwrightError as error:
            self.words.say(str(error))
            return
        if self.shown.is_deleted:  # another place is shown by now
            return
        for key, switch in self.switches.items():
            switch.put("aria-pressed", "true" if key == part else "false")
        self.shown.clear()
        with self.shown:
            if part == "":
                self._steps(blocks)
            else:
                if part == "time":
                    field("your free hours, such as Fri 2 h, Sat 5 h", self.hours, self._hours)
                with Tag("div", kind="fw-paper"):
                    show_blocks(blocks)

    def _blocks(self, plane: Plane, name: str) -> list[Block]:
        """Of the part of the book that is shown; slow, so away from the event loop."""
        if name == "lists":
            return list_blocks(plane, read_shop(self.page.desk.file.parent / SHOP_FILE))
        if name == "time":
            steps = self.steps or build_steps(plane)
            return time_blocks(steps, plan_time(steps, free_hours(self.hours or USUAL)))
        if name == "set-up":
            return set_up_blocks(plane)
        number = self._number()
        titles = {step.id: step.title for step in self.steps}
        return step_blocks(plane, self.steps[number], number=number + 1, titles=titles)

    def _number(self) -> int:
        """Index of the step that is shown."""
        return next((i for i, step in enumerate(self.steps) if step.id == self.page.at), 0)

    def _steps(self, blocks: list[Block]) -> None:
        now = self._number()
        with Tag("div", kind="fw-steps"):
            with Tag("ol", kind="fw-steplist", aria_label="Steps"):
                for i, step in enumerate(self.steps):
                    with Tag("li", kind="now" if i == now else ""):
                        Tag("input", type="checkbox", aria_label=f"{step.title}: done",
                            data_keep=f"{self.page.name}.step.{step.id}")  # fmt: skip
                        to_step = button(f"{i + 1}. {step.title}", partial(self._turn, step.id),
                                         "fw-plain")  # fmt: skip
                        to_step.put("aria-current", "step" if i == now else None)
                        Tag("small", f"{step.hands / 60:.0f} min")
            with Tag("article", kind="fw-paper"):
                show_blocks(blocks)
                with Tag("div", kind="fw-row"):
                    if now:
                        button("Step before", partial(self._turn, self.steps[now - 1].id))
                    tick("done", f"{self.page.name}.step.{self.steps[now].id}")
                    if now + 1 < len(self.steps):
                        button("Next step", partial(self._turn, self.steps[now + 1].id), "strong")

    async def _hours(self, event: Any) -> None:  # noqa: ANN401 - as above
        said = str(event.args)[:200]
        try:
            free_hours(said or USUAL)
        except FoamwrightError as error:
            self.page.tell(str(error))
            return
        self.hours = said
        await self._show()

    async def _download(self, end: str) -> None:
        await hand_out(self.page, self.words, end, hours=self.hours, paper=self.paper)


async def hand_out(page: Page, words: Tag, end: str, *, hours: str = "", paper: str) -> None:
    """Make the book beside the page, then let the browser download one of its files.

    Args:
        page: The page. [-]
        words: Where it says how it goes. [-]
        end: Of the file's name. [-]
        hours: Free hours in words. [-]
        paper: "a4" or "letter". [-]

    Source:
        foamwright.book.write.

    Example:
        >>> await hand_out(page, words, "book.pdf", paper="a4")  # doctest: +SKIP
    """
    words.say("Drawing every page…")
    try:
        plane = page.plane()
        files = await asyncio.to_thread(lambda: book_of(plane, hours=hours, paper=paper))
    except FoamwrightError as error:
        words.say(str(error))
        return
    name = next(name for name in files if name.endswith(end))
    with page.client:
        ui.download.content(files[name], name)
        words.say(f"{name} is in your downloads.")


def build_build(page: Page) -> None:
    """The steps of the build, its lists, and the book to take away.

    Args:
        page: The page to build on. [-]

    Source:
        docs/use/workshop.md.

    Example:
        >>> build_build(page)  # doctest: +SKIP
    """
    if page.look is not None:
        BuildPlace(page).build()


PLACES = (Place("build", "build", 60, build_build, alone=True),)
