"""The page's own components, in plain JavaScript: drawing board, list of findings, solid view."""

from __future__ import annotations

from typing import Any

from nicegui import ui
from nicegui.elements.scene import Scene

THREE = Scene  # importing it makes the page library serve the three.js that solid.js draws with


class Board(ui.element, component="static/board.js", esm={"foamwright-board": "static/board"}):
    """The drawing board."""

    def __init__(
        self, data: dict[str, Any], views: tuple[str, ...], *, fixed: bool = False
    ) -> None:
        super().__init__()
        self._props["data"] = data
        self._props["views"] = list(views)
        self._props["fixed"] = fixed  # to look at: nothing to drag

    def put(self, data: dict[str, Any]) -> None:
        """Show another state of the plane."""
        self._props["data"] = data  # what a page that connects again is given
        self.run_method("put", data)


class Findings(ui.element, component="static/findings.js"):
    """The list of findings."""

    def __init__(self, rows: list[dict[str, Any]], generation: int) -> None:
        super().__init__()
        self._props["findings"] = rows
        self._props["generation"] = generation

    def put(
        self, rows: list[dict[str, Any]], before: dict[str, float | None], generation: int
    ) -> None:
        """Show settled findings, with the margins they had before."""
        self._props["findings"] = rows
        self._props["generation"] = generation
        self.run_method("put", rows, before, generation)


class Solid(ui.element, component="static/solid.js"):
    """The plane in the round."""

    def __init__(self, data: dict[str, Any]) -> None:
        super().__init__()
        self._props["data"] = data

    def put(self, data: dict[str, Any]) -> None:
        """Show another state of the plane."""
        self._props["data"] = data
        self.run_method("put", data)


class Editor(ui.element, component="static/editor.js"):
    """The text of a design with its line numbers."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self._props["text"] = text

    def put(self, text: str) -> None:
        """Show another text."""
        self._props["text"] = text
        self.run_method("put", text)
