"""One page of the workshop: the tape of places, the stage, the findings, the title block."""

from __future__ import annotations

import asyncio
from collections.abc import Callable
from functools import partial
from typing import TYPE_CHECKING, Any
from urllib.parse import quote

from nicegui import background_tasks, ui

from foamwright.checks.run import verdicts
from foamwright.core.errors import FoamwrightError
from foamwright.web.boards import Board, Findings
from foamwright.web.dimensions import board_data, morphs_of, typed, values_for
from foamwright.web.figure import figure_of, marks_of
from foamwright.web.findings import change_data, findings_of, work_out_changes
from foamwright.web.look import Look, look_at
from foamwright.web.places import ALONE, PLACES
from foamwright.web.tags import Tag
from foamwright.web.title import Notices, TitleBlock

if TYPE_CHECKING:
    from foamwright.core.verdicts import Change
    from foamwright.design.change import Value
    from foamwright.plane import Plane
    from foamwright.web.application import Shop
    from foamwright.web.desk import Desk

SETTLE = 0.25  # s of quiet before changes are worked out
type Task = asyncio.Task[Any]


class Page:
    """One page in one browser tab, on one design."""

    def __init__(self, shop: Shop, desk: Desk, *, name: str) -> None:
        self.shop = shop
        self.desk = desk
        self.name = name
        self.place = "shape"
        self.look: Look | None = None
        self.board: Board | None = None
        self.refresh_place: Callable[[], Any] | None = None
        self.changes: dict[str, tuple[Change, ...]] = {}
        self.trying: Change | None = None
        self._work: Task | None = None
        self._busy = self._again = False

    # ------------------------------------------------------------ building

    async def build(self, place: str) -> None:
        """Lay the page out."""
        self.place = place
        self.client = ui.context.client
        self._loop = asyncio.get_running_loop()
        plane = await asyncio.to_thread(lambda: self.desk.plane)
        if plane is None:
            self.place = place = "file"
        else:
            self.look = await asyncio.to_thread(look_at, plane, self.desk.generation)
        ui.page_title(f"{plane.design.name if plane else self.name} – Foamwright")
        ui.add_body_html("<script>addEventListener('popstate', () => location.reload())</script>")
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
        self.findings.on("apply", self._apply)
        self.findings.on("try", self._try)
        self._fill_stage()
        self.block.fill()
        self.notices.fill()
        leave = self.desk.listen(self._stir)
        self.client.on_delete(leave)
        background_tasks.create(self._after_connecting())

    async def _after_connecting(self) -> None:
        await self.client.connected(timeout=60)
        self._start_work()

    def address(self, place: str) -> str:
        """Address of a place of this design, to be kept or sent."""
        return f"/{place}?file={quote(self.name)}"

    def _tape(self) -> None:
        with Tag("nav", kind="fw-tape", aria_label="Places, in the order of the job"):
            Tag("span", "Foamwright", "sign")
            with Tag("a", href=f"/start?file={quote(self.name)}"):
                Tag("b", "start")
            self._links: dict[str, Tag] = {}
            for name, (title, _) in PLACES.items():
                link = Tag("a", href=self.address(name))
                with link:
                    Tag("b", title)
                link.on("click.prevent", partial(self.go, name))
                self._links[name] = link

    def go(self, place: str) -> None:
        """Turn to another place of the same design."""
        self.place = place
        self.client.run_javascript(f"history.pushState(null, '', {self.address(place)!r})")
        self._fill_stage()

    def _fill_stage(self) -> None:
        self.board, self.refresh_place = None, None
        for name, link in self._links.items():
            link.put("aria-current", "page" if name == self.place else None)
        (
            self._main.classes(add="alone")
            if self.place in ALONE
            else self._main.classes(remove="alone")
        )
        self._says.set_visibility(self.place not in ALONE)
        self._stage.clear()
        with self._stage:
            PLACES[self.place][1](self)
        if self.look is not None and self.look.findings:
            self._send_extras()

    def show_board(self, views: tuple[str, ...]) -> Board | None:
        """Put the drawing board on the stage."""
        if self.look is None:
            return None
        self.board = board = Board(self.look.board, views)
        for event, handler in (
            ("drag", self._drag),
            ("drop", self._drop),
            ("typed", self._typed),
            ("cancel", self._cancel),
            ("pin", self._open_finding),
            ("undo", self.undo),
            ("redo", self.redo),
            ("save", self.save),
        ):
            board.on(event, handler)
        return board

    def tell(self, words: str) -> None:
        """Say something at the top of the page; it goes with the next change."""
        self.notices.tell(words)

    # ------------------------------------------------------------ changes

    async def do(self, job: Callable[[], Any]) -> bool:
        """Do something to the design beside the page; False when it was refused, and said why."""
        try:
            await asyncio.to_thread(job)
        except FoamwrightError as error:
            words = (
                str(error).replace(f"{self.desk.file}:", "line ").replace(str(self.desk.file), "")
            )
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

    def _plane(self) -> Plane:
        plane = self.desk.plane
        if plane is None:
            raise FoamwrightError("The file cannot be read; mend it under “file” first.")
        return plane

    async def _drag(self, event: Any) -> None:  # noqa: ANN401 - of the page library
        asked = event.args
        rows, reply = await asyncio.to_thread(self._preview, asked)
        if rows is not None:
            self.findings.run_method("live", rows, asked["generation"])
        if self.board is not None:
            self.board.run_method("answer", reply)

    def _preview(self, asked: dict[str, Any]) -> tuple[list[dict[str, Any]] | None, dict[str, Any]]:
        reply = {key: asked[key] for key in ("id", "value", "sequence", "sent")}
        try:
            plane = self._plane()
            moved = plane.with_values(values_for(plane, asked["id"], float(asked["value"])))
            reply |= {"figure": figure_of(moved), "dims": board_data(moved)}
            rows = findings_of(verdicts(moved), moved.design.units)
            reply["marks"] = marks_of(moved)
        except FoamwrightError as error:
            return None, reply | {"refused": str(error)}
        return rows, reply

    async def _drop(self, event: Any) -> None:  # noqa: ANN401 - as above
        name, value = event.args["id"], float(event.args["value"])
        await self.do(
            lambda: self.desk.change(values_for(self._plane(), name, value), name.replace("_", " "))
        )

    async def _typed(self, event: Any) -> None:  # noqa: ANN401 - as above
        name, text = event.args["id"], str(event.args["text"])[:60]

        def job() -> None:
            plane = self._plane()
            kind = "angle" if name.startswith("dihedral") else "length"
            value = typed(text, kind, plane.design.units)
            self.desk.change(values_for(plane, name, value), name.replace("_", " "))

        await self.do(job)

    def _cancel(self) -> None:
        self.findings.run_method("settle")

    # ------------------------------------------------------------ findings

    def _open_finding(self, event: Any) -> None:  # noqa: ANN401 - as above
        self.findings.run_method("open", event.args["id"])

    def _picked(self, event: Any) -> Change | None:  # noqa: ANN401 - as above
        found = self.changes.get(event.args["id"], ())
        index = int(event.args["index"])
        return found[index] if 0 <= index < len(found) else None

    async def _apply(self, event: Any) -> None:  # noqa: ANN401 - as above
        change = self._picked(event)
        if change is not None:
            self.trying = None
            await self.change(dict(change.values), change.words.split(":")[0])

    async def _try(self, event: Any) -> None:  # noqa: ANN401 - as above
        change = self._picked(event)
        if change is None:
            return
        plane = self._plane()
        moved = plane.with_values(change.values)
        rows = findings_of(await asyncio.to_thread(verdicts, moved), moved.design.units)
        self.trying = change
        self.findings.run_method("live", rows, self.desk.generation)
        if self.board is not None:
            self.board.run_method("haunt", await asyncio.to_thread(figure_of, moved))
        self.notices.fill()

    async def keep_trial(self) -> None:
        """Make the change that is being tried."""
        change, self.trying = self.trying, None
        if change is not None:
            await self.change(dict(change.values), change.words.split(":")[0])

    def end_trial(self) -> None:
        """Go back to before the change that was tried."""
        self.trying = None
        self.findings.run_method("settle")
        self.notices.fill()
        self._send_extras()

    # ------------------------------------------------------------ keeping up

    def _stir(self) -> None:
        """The design has changed, perhaps in another thread or tab."""
        self._loop.call_soon_threadsafe(self._refresh_soon)

    def _refresh_soon(self) -> None:
        background_tasks.create(self._refresh())

    async def _refresh(self) -> None:
        if self._busy:
            self._again = True
            return
        self._busy = True
        try:
            while True:
                self._again = False
                with self.client:
                    await self._refresh_once()
                if not self._again:
                    break
        finally:
            self._busy = False

    async def _refresh_once(self) -> None:
        before = self.look.margins if self.look else {}
        generation = self.desk.generation
        plane = await asyncio.to_thread(lambda: self.desk.plane)
        if plane is not None and (self.look is None or self.look.board["generation"] != generation):
            self.look = await asyncio.to_thread(look_at, plane, generation)
            self.trying = None
            self.changes = {}
            self.findings.put(self.look.findings, before, generation)
            if self.board is not None:
                self.board.put(self.look.board)
            self._start_work()
        self.block.fill()
        self.notices.fill()
        if self.refresh_place is not None:
            self.refresh_place()
        self._send_extras()

    def _send_extras(self) -> None:
        """What lies on the board beside the plane itself: pins, and the version held beside it."""
        if self.board is None or self.look is None:
            return
        self.board.run_method("pin", self.look.pins)
        held = self.desk.held
        ghost = figure_of(held.plane) if held is not None and held.plane is not None else None
        self.board.run_method("haunt", ghost)

    def _start_work(self) -> None:
        if self._work is not None:
            self._work.cancel()
        if self.look is not None and self.look.checks:
            self._work = background_tasks.create(self._slow_work(self.look))

    async def _slow_work(self, look: Look) -> None:
        """What takes longer than a person waits: how outlines move, and what would mend it."""
        generation = look.board["generation"]
        plane = self.desk.plane
        if plane is None:
            return
        await asyncio.sleep(0.05)
        morphs = await asyncio.to_thread(morphs_of, plane)
        with self.client:
            if self.board is not None:
                self.board.run_method("morph", generation, morphs)
        await asyncio.sleep(SETTLE)
        titles = {check.id: check.title for check in look.checks}

        def found(name: str, changes: tuple[Change, ...]) -> None:
            self._loop.call_soon_threadsafe(self._found, generation, name, (changes, titles))

        await asyncio.to_thread(
            work_out_changes,
            plane,
            look.checks,
            found=found,
            stale=lambda: self.desk.generation != generation,
        )

    def _found(
        self, generation: int, name: str, news: tuple[tuple[Change, ...], dict[str, str]]
    ) -> None:
        if generation == self.desk.generation:
            self.changes[name] = news[0]
            with self.client:
                self.findings.run_method("change", name, change_data(*news))
