"""One page of the workshop: the tape of places, the stage, the findings, the title block."""

from __future__ import annotations

import asyncio
from collections.abc import Callable
from functools import partial
from typing import TYPE_CHECKING, Any
from urllib.parse import quote

from nicegui import background_tasks, ui

from foamwright.core.errors import FoamwrightError
from foamwright.web.boards import Board, Findings
from foamwright.web.figure import figure_of
from foamwright.web.hands import Hands
from foamwright.web.look import Look, look_of
from foamwright.web.mending import Mending
from foamwright.web.places import FIRST, PLACES
from foamwright.web.tags import Tag
from foamwright.web.title import Notices, TitleBlock
from foamwright.web.words import word_script

if TYPE_CHECKING:
    from foamwright.design.change import Value
    from foamwright.plane import Plane
    from foamwright.web.application import Shop
    from foamwright.web.desk import Desk


class Page:
    """One page in one browser tab, on one design."""

    def __init__(self, shop: Shop, desk: Desk, *, name: str, at: str = "") -> None:
        self.shop = shop
        self.desk = desk
        self.name = name
        self.at = at  # where within a place, such as the step of the build
        self.place = FIRST
        self.look: Look | None = None
        self.board: Board | None = None
        self.refresh_place: Callable[[], Any] | None = None
        self.opened: set[str] = set()  # findings that stand open
        self.fixed = False  # whether the board shows something else than the plane on the desk
        self.gone = False
        self._busy = self._again = False

    # ------------------------------------------------------------ building

    async def build(self, place: str) -> None:
        """Lay the page out."""
        self.place = place if place in PLACES else FIRST
        self.client = ui.context.client
        self._loop = asyncio.get_running_loop()
        self.hands, self.mending = Hands(self), Mending(self)
        plane = await asyncio.to_thread(lambda: self.desk.plane)
        if plane is None:
            self.place = "file"
        else:
            self.look = await asyncio.to_thread(look_of, self.desk)
        ui.page_title(f"{plane.design.name if plane else self.name} – Foamwright")
        ui.add_body_html(word_script())
        with Tag("div", kind="fw-page"):
            Tag("a", "to the drawing", "fw-skip", href="#stage")
            self._tape()
            self.notices = Notices(self)
            self._main = Tag("div", kind="fw-main")
            with self._main:
                self._stage = Tag("section", kind="fw-stage", id="stage", tabindex="-1")
                self._says = Tag("aside", kind="fw-says", aria_label="What the checks say")
                with self._says:
                    self.findings = Findings(
                        self.look.findings if self.look else [], self.desk.generation
                    )
            self.block = TitleBlock(self)
        self.findings.on("apply", self.mending.apply)
        self.findings.on("try", self.mending.attempt)
        self.findings.on("opened", self._opened)
        self._fill_stage()
        self.block.fill()
        self.notices.fill()
        leave = self.desk.listen(self._stir)

        def away() -> None:
            self.gone = True
            self.mending.stop()
            leave()

        self.client.on_delete(away)
        background_tasks.create(self._after_connecting())

    async def _after_connecting(self) -> None:
        await self.client.connected(timeout=60)
        self.mending.start()

    def address(self, place: str, at: str = "") -> str:
        """Address of a place of this design, to be kept or sent."""
        within = f"&at={quote(at)}" if at else ""
        return f"/{place}?file={quote(self.name)}{within}"

    def stand(self, at: str) -> None:
        """Say in the address where within its place the page stands."""
        self.at = at
        where = self.address(self.place, at)
        self.client.run_javascript(f"history.replaceState(null, '', {where!r})")

    def _tape(self) -> None:
        with Tag("nav", kind="fw-tape", aria_label="Places, in the order of the job"):
            Tag("span", "Foamwright", "sign")
            with Tag("a", href=f"/start?file={quote(self.name)}"):
                Tag("b", "start")
            self._links: dict[str, Tag] = {}
            for name, place in PLACES.items():
                link = Tag("a", href=self.address(name))
                with link:
                    Tag("b", place.title)
                link.on("click.prevent", partial(self.go, name))
                self._links[name] = link

    def go(self, place: str) -> None:
        """Turn to another place of the same design."""
        self.place, self.at = place, ""
        self.client.run_javascript(f"history.pushState(null, '', {self.address(place)!r})")
        self._fill_stage()

    def _fill_stage(self) -> None:
        place = PLACES[self.place]
        self.board, self.refresh_place = None, None
        for name, link in self._links.items():
            link.put("aria-current", "page" if name == self.place else None)
        kind = {"add": "alone"} if place.alone else {"remove": "alone"}
        self._main.classes(**kind)
        self._says.set_visibility(not place.alone)
        self._stage.clear()
        with self._stage:
            place.build(self)
        self.send_extras()

    def show_board(self, views: tuple[str, ...], *, fixed: bool = False) -> Board | None:
        """Put the drawing board on the stage; a fixed one shows what its place puts on it."""
        if self.look is None:
            return None
        self.board = board = Board(self.look.board, views, fixed=fixed)
        self.fixed = fixed
        if not fixed:
            self.hands.lay_on(board)
        board.on("pin", self._open_finding)
        return board

    def tell(self, words: str) -> None:
        """Say something at the top of the page; it goes with the next change."""
        self.notices.tell(words)

    # ------------------------------------------------------------ changes

    async def do(self, job: Callable[[], Any], *, called: dict[str, str] | None = None) -> bool:
        """Do something to the design beside the page; False when it was refused, and said why.

        `called` gives keys of the design the names that the page has for them.
        """
        try:
            await asyncio.to_thread(job)
        except FoamwrightError as error:
            words = (
                str(error).replace(f"{self.desk.file}:", "line ").replace(str(self.desk.file), "")
            )
            for key, name in (called or {}).items():
                words = words.replace(key, name)
            with self.client:
                if self.board is not None:
                    self.board.run_method("refuse", words)
                else:
                    self.tell(words)
            return False
        return True

    async def change(self, values: dict[str, Value], words: str) -> bool:
        """Change values of the design."""
        return await self.do(lambda: self.desk.change(values, words))

    async def undo(self) -> None:
        """Take the last step back."""
        await self.do(self.desk.undo)

    async def redo(self) -> None:
        """Do it again."""
        await self.do(self.desk.redo)

    async def save(self) -> None:
        """Write the file."""
        await self.do(self.desk.save)

    async def units(self, system: str) -> None:
        """Let the design speak inches or millimetres."""
        await self.change({"units": system}, f"units {system}")

    async def hold(self) -> None:
        """Put this version aside to compare with, or let it go."""
        held = self.desk.held
        await self.do(self.desk.release if held else lambda: self.desk.hold(None))

    def plane(self) -> Plane:
        """The plane on the desk."""
        plane = self.desk.plane
        if plane is None:
            raise FoamwrightError("The file cannot be read; mend it under “file” first.")
        return plane

    def _open_finding(self, event: Any) -> None:  # noqa: ANN401 - of the page library
        self.findings.run_method("open", event.args["id"])

    def _opened(self, event: Any) -> None:  # noqa: ANN401 - as above
        self.opened = {str(name) for name in event.args["ids"]}

    # ------------------------------------------------------------ keeping up

    def _stir(self) -> None:
        """The design has changed, perhaps in another thread or tab."""
        self._loop.call_soon_threadsafe(self._refresh_soon)

    def _refresh_soon(self) -> None:
        background_tasks.create(self._refresh())

    async def _refresh(self) -> None:
        if self._busy or self.gone:
            self._again = True
            return
        self._busy = True
        try:
            while True:
                self._again = False
                with self.client:
                    await self._refresh_once()
                if not self._again or self.gone:
                    break
        finally:
            self._busy = False

    async def _refresh_once(self) -> None:
        before = self.look.margins if self.look else {}
        plane = await asyncio.to_thread(lambda: self.desk.plane)
        generation = self.desk.generation
        if plane is not None and (self.look is None or self.look.board["generation"] != generation):
            self.look = await asyncio.to_thread(look_of, self.desk)
            self.findings.put(self.look.findings, before, self.look.board["generation"])
            if self.board is not None and not self.fixed:
                self.board.put(self.look.board)
            self.mending.start()
        self.block.fill()
        self.notices.fill()
        if self.refresh_place is not None:
            self.refresh_place()
        self.send_extras()

    def send_extras(self) -> None:
        """What lies on the board beside the plane itself: pins, and the version held beside it."""
        if self.board is None or self.look is None or self.fixed:
            return
        self.board.run_method("pin", self.look.pins)
        held = self.desk.held
        ghost = figure_of(held.plane) if held is not None and held.plane is not None else None
        self.board.run_method("haunt", ghost)
