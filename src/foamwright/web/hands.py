"""What hands do on the drawing board: drag a dimension, let it go, type it."""

from __future__ import annotations

import asyncio
import time
from typing import TYPE_CHECKING, Any

from foamwright.checks.run import verdicts
from foamwright.core.errors import FoamwrightError
from foamwright.web.boards import Board
from foamwright.web.dimensions import board_data, typed, values_for
from foamwright.web.figure import figure_of, marks_of
from foamwright.web.findings import brief, findings_of

if TYPE_CHECKING:
    from foamwright.plane import Plane
    from foamwright.web.page import Page


class Hands:
    """The hands on one page's board."""

    def __init__(self, page: Page) -> None:
        self.page = page
        self._seen: Plane | None = None  # the last one that was dragged to

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

    def _preview(self, asked: dict[str, Any]) -> tuple[list[Any] | None, dict[str, Any]]:
        reply = {key: asked[key] for key in ("id", "value", "sequence", "sent")}
        try:
            plane = self.page.plane()
            moved = plane.with_values(values_for(plane, asked["id"], float(asked["value"])))
            reply |= {"dims": board_data(moved), "figure": figure_of(moved)}
            rows = findings_of(verdicts(moved), moved.design.units)
            reply["marks"] = marks_of(moved)
        except FoamwrightError as error:
            return None, reply | {"refused": str(error)}
        self._seen = moved
        return brief(rows, self.page.opened), reply

    async def _drop(self, event: Any) -> None:  # noqa: ANN401 - as above
        name, value = event.args["id"], float(event.args["value"])
        page = self.page
        page.desk.hand = 0.0

        def job() -> None:
            values = values_for(page.plane(), name, value)
            page.desk.change(values, name.replace("_", " "), known=self._seen)

        await page.do(job)

    async def _typed(self, event: Any) -> None:  # noqa: ANN401 - as above
        name, text, page = event.args["id"], str(event.args["text"])[:60], self.page

        def job() -> None:
            plane = page.plane()
            kind = "angle" if name.startswith("dihedral") else "length"
            value = typed(text, kind, plane.design.units)
            page.desk.change(values_for(plane, name, value), name.replace("_", " "))

        await page.do(job)

    def _cancel(self) -> None:
        self.page.desk.hand = 0.0
        self.page.findings.run_method("settle")
