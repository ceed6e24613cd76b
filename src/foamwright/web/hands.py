"""What hands do on the drawing board: drag a dimension, let it go, type it."""

from __future__ import annotations

import asyncio
import time
from typing import TYPE_CHECKING, Any

from nicegui import background_tasks

from foamwright.checks.run import verdicts
from foamwright.core.errors import FoamwrightError
from foamwright.web.boards import Board
from foamwright.web.dimensions import board_data, typed, values_for
from foamwright.web.figure import figure_of, marks_of
from foamwright.web.findings import brief, findings_of, quick_findings
from foamwright.web.moves import as_written

if TYPE_CHECKING:
    from foamwright.design.change import Value
    from foamwright.plane import Plane
    from foamwright.web.page import Page


REST = 0.15  # s without a move until the hand is taken to rest


class Hands:
    """The hands on one page's board."""

    def __init__(self, page: Page) -> None:
        self.page = page
        self._seen: Plane | None = None  # the last one that was dragged to
        self._resting: asyncio.Task[Any] | None = None

    def lay_on(self, board: Board) -> None:
        """Listen to what is done on a board."""
        for event, handler in (
            ("drag", self._drag),
            ("drop", self._drop),
            ("typed", self._typed),
            ("cancel", self._cancel),
        ):
            board.on(event, handler)

    async def _drag(self, event: Any) -> None:  # noqa: ANN401 - of the page library
        asked, page = event.args, self.page
        page.desk.hand = time.monotonic()
        rows, reply = await asyncio.to_thread(self._preview, asked)
        if rows is not None:
            page.findings.run_method("live", rows, asked["generation"])
        if page.board is not None:
            page.board.run_method("answer", reply)
        self.rest()
        self._resting = background_tasks.create(self._at_rest(asked["generation"]))

    def rest(self) -> None:
        """Forget what was to be worked out when the hand rests."""
        if self._resting is not None:
            self._resting.cancel()

    async def _at_rest(self, generation: int) -> None:
        """The hand rests, but still holds: say what was too slow to say on the way."""
        await asyncio.sleep(REST)
        moved, page = self._seen, self.page
        if moved is None or page.desk.hand == 0.0:
            return
        rows = findings_of(await asyncio.to_thread(verdicts, moved), moved.design.units)
        if page.desk.hand and not page.gone:
            with page.client:
                page.findings.run_method("live", rows, generation)

    def _preview(self, asked: dict[str, Any]) -> tuple[list[Any] | None, dict[str, Any]]:
        reply = {key: asked[key] for key in ("id", "value", "sequence", "sent")}
        values: dict[str, Value] = {}
        try:
            plane = self.page.plane()
            values = values_for(plane, asked["id"], float(asked["value"]))
            kind = "angle" if str(asked["id"]).startswith("dihedral") else "length"
            moved = plane.with_values(as_written(values, kind, plane.design.units))
            reply |= {"dims": board_data(moved), "figure": figure_of(moved)}
            rows = quick_findings(moved, self.page.look.findings if self.page.look else [])
            reply["marks"] = marks_of(moved)
        except FoamwrightError as error:
            words = str(error)
            for key in values:
                words = words.replace(key, spoken(str(asked["id"])))
            return None, reply | {"refused": words}
        self._seen = moved
        return brief(rows, self.page.opened), reply

    async def _drop(self, event: Any) -> None:  # noqa: ANN401 - as above
        name, value = str(event.args["id"]), float(event.args["value"])
        page, called = self.page, dict[str, str]()
        page.desk.hand = 0.0
        self.rest()

        def job() -> None:
            values = values_for(page.plane(), name, value)
            called.update(dict.fromkeys(values, spoken(name)))
            page.desk.change(values, spoken(name), known=self._seen)

        await page.do(job, called=called)

    async def _typed(self, event: Any) -> None:  # noqa: ANN401 - as above
        name, text, page = event.args["id"], str(event.args["text"])[:60], self.page
        called: dict[str, str] = {}

        def job() -> None:
            plane = page.plane()
            kind = "angle" if name.startswith("dihedral") else "length"
            value = typed(text, kind, plane.design.units)
            values = values_for(plane, name, value)
            called.update(dict.fromkeys(values, spoken(name)))
            page.desk.change(values, spoken(name))

        await page.do(job, called=called)

    def _cancel(self) -> None:
        self.page.desk.hand = 0.0
        self.rest()
        self.page.findings.run_method("settle")


def spoken(name: str) -> str:
    """What a dimension is called in a sentence.

    Args:
        name: Id of the dimension. [-]

    Returns:
        Words. [-]

    Source:
        Definition.

    Example:
        >>> spoken("stab_span"), spoken("dihedral.0"), spoken("motor")
        ('stab span', 'dihedral', 'shaft height')
    """
    if name == "motor":
        return "shaft height"
    return name.partition(".")[0].replace("_", " ").replace("position", "from nose")
