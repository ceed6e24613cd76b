"""Slow work on one page: how outlines move with each dimension, and what would mend a finding."""

from __future__ import annotations

import asyncio
import time
from typing import TYPE_CHECKING, Any

from nicegui import background_tasks

from foamwright.checks.run import verdicts
from foamwright.web.dimensions import morphs_of
from foamwright.web.figure import figure_of
from foamwright.web.findings import change_data, findings_of, work_out_changes

if TYPE_CHECKING:
    from foamwright.core.verdicts import Change
    from foamwright.web.look import Look
    from foamwright.web.page import Page

SETTLE = 0.25  # s of quiet before changes are worked out
RESTING = 0.8  # s after the last move of a drag: until then the machine works for the hand alone
NAP = 0.04  # s between looks at whether the hand rests


class Mending:
    """Changes that would mend the findings of a page: worked out, tried, applied."""

    def __init__(self, page: Page) -> None:
        self.page = page
        self.changes: dict[str, tuple[Change, ...]] = {}
        self.trying: Change | None = None
        self._work: asyncio.Task[Any] | None = None
        self._loop = asyncio.get_running_loop()

    def start(self) -> None:
        """Begin again, for the plane as it is now."""
        self.changes, self.trying = {}, None
        self.stop()
        look = self.page.look
        if look is not None and look.checks:
            self._work = background_tasks.create(self._slow_work(look))

    def stop(self) -> None:
        """Nobody looks any more."""
        if self._work is not None:
            self._work.cancel()

    async def _slow_work(self, look: Look) -> None:
        page, generation = self.page, look.board["generation"]
        plane = page.desk.plane
        if plane is None:
            return
        await asyncio.sleep(0.05)
        morphs = await asyncio.to_thread(morphs_of, plane)
        with page.client:
            if page.board is not None:
                page.board.run_method("morph", generation, morphs)
        await asyncio.sleep(SETTLE)
        titles = {check.id: check.title for check in look.checks}

        def found(name: str, changes: tuple[Change, ...]) -> None:
            self._loop.call_soon_threadsafe(self._found, generation, name, (changes, titles))

        def stale() -> bool:
            while time.monotonic() - page.desk.hand < RESTING:
                time.sleep(NAP)
            return page.desk.generation != generation or page.gone

        await asyncio.to_thread(work_out_changes, plane, look.checks, found=found, stale=stale)
        if page.desk.generation == generation:
            with page.client:
                page.findings.run_method("worked", generation)

    def _found(
        self, generation: int, name: str, news: tuple[tuple[Change, ...], dict[str, str]]
    ) -> None:
        if generation == self.page.desk.generation and not self.page.gone:
            self.changes[name] = news[0]
            with self.page.client:
                self.page.findings.run_method("change", name, change_data(*news))

    # ------------------------------------------------------------ by hand

    def _picked(self, event: Any) -> Change | None:  # noqa: ANN401 - of the page library
        found = self.changes.get(event.args["id"], ())
        index = int(event.args["index"])
        return found[index] if 0 <= index < len(found) else None

    async def apply(self, event: Any) -> None:  # noqa: ANN401 - as above
        """Make a change."""
        change = self._picked(event)
        if change is not None:
            self.trying = None
            await self._make(change)

    async def attempt(self, event: Any) -> None:  # noqa: ANN401 - as above
        """Show what a change would do, without making it."""
        change, page = self._picked(event), self.page
        if change is None:
            return
        moved = page.plane().with_values(change.values)
        rows = findings_of(await asyncio.to_thread(verdicts, moved), moved.design.units)
        self.trying = change
        page.findings.run_method("live", rows, page.desk.generation)
        if page.board is not None:
            page.board.run_method("haunt", await asyncio.to_thread(figure_of, moved))
        page.notices.fill()

    async def keep(self) -> None:
        """Make the change that is being tried."""
        change, self.trying = self.trying, None
        if change is not None:
            await self._make(change)

    def end(self) -> None:
        """Go back to before the change that was tried."""
        self.trying = None
        self.page.findings.run_method("settle")
        self.page.notices.fill()
        self.page.send_extras()

    async def _make(self, change: Change) -> None:
        await self.page.change(dict(change.values), change.words.split(":")[0])
