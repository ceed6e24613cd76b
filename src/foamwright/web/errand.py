"""Long work of a place: done beside the page, with progress, time left and a stop."""

from __future__ import annotations

import asyncio
import threading
import time
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

from nicegui import ui

from foamwright.core.errors import FoamwrightError
from foamwright.web.tags import Tag, button

if TYPE_CHECKING:
    from foamwright.web.page import Page

STYLE = (Path(__file__).parent / "static" / "errand.css").read_text(encoding="utf-8")
LOOK = 0.3  # s between two looks at how far it is
SURE = 0.08  # share done from which the time left is said

type Tell = Callable[[str, float], None]


class Errand:
    """One piece of long work at a time, and the row of the page that shows it."""

    def __init__(self, page: Page, *, name: str) -> None:
        self.page = page
        self.name = name
        self.stop = threading.Event()
        self.busy = False
        self._starts: list[Tag] = []
        self._now = ("", 0.0)
        self._began = 0.0

    def build(self, starts: list[Tag]) -> None:
        """Lay the row out; the buttons that start work rest while some is done."""
        ui.add_css(STYLE)
        self._starts = starts
        self.progress = Tag("div", kind="fw-progress", hidden="hidden", role="progressbar",
                            aria_label=self.name, aria_valuemin=0, aria_valuemax=100,
                            aria_valuenow=0)  # fmt: skip
        with self.progress:
            self.bar = Tag("i")
        self.home = Tag("span", hidden="hidden")
        with Tag("div", kind="fw-row"):
            self.words = Tag("span", role="status")
            self.halt = button("Stop", self.stop.set, hidden="hidden")
        self.trouble = Tag("p", kind="fl-trouble", role="alert")

    async def run[T](self, job: Callable[[Tell], T]) -> T | None:
        """Do a job in a thread; None when it was refused, and said why, or when one is going on."""
        if self.busy:
            return None
        self.busy, self._began, self._now = True, time.monotonic(), ("", 0.0)
        self.stop.clear()
        self.trouble.say("")
        self._show(on=True)
        with self.home:  # work may begin where the page library knows no place of its own
            clock = ui.timer(LOOK, self._look)
        try:
            found = await asyncio.to_thread(job, self._tell)
        except FoamwrightError as error:
            self.trouble.say(str(error))
            return None
        finally:
            self.busy = False
            clock.cancel()
            self.home.clear()
            if not self.page.gone:
                self._show(on=False)
                self.words.say("Stopped." if self.stop.is_set() else "")
        return found

    def gone(self) -> bool:
        """Whether nobody waits for it any more: stopped, or the page has been left."""
        return self.stop.is_set() or self.page.gone

    def _tell(self, words: str, done: float) -> None:
        self._now = (words, done)

    def _look(self) -> None:
        words, done = self._now
        self.bar.style(f"width: {100 * done:.0f}%")
        self.progress.put("aria-valuenow", round(100 * done))
        spent = time.monotonic() - self._began
        left = f", about {spent * (1.0 - done) / done:.0f} s left" if done > SURE else ""
        self.words.say(f"{words}{left}.".replace("..", "."))

    def _show(self, *, on: bool) -> None:
        for one in self._starts:
            one.put("disabled", on or None)
        self.halt.put("hidden", None if on else "hidden")
        self.progress.put("hidden", None if on else "hidden")
