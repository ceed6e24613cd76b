"""The shape: three views to drag, and the plane in the round."""

from __future__ import annotations

from typing import TYPE_CHECKING

from foamwright.web.boards import Solid
from foamwright.web.place import Place
from foamwright.web.solid import solid_of
from foamwright.web.tags import Tag, button

if TYPE_CHECKING:
    from foamwright.web.page import Page

HINTS = (
    "Drag a blue dimension, or click it and type: 300 mm and 11 3/4 in both do.",
    "What that does to the plane stands beside the drawing, at once. Open a line for its reason "
    "and for changes that would mend it.",
    "Ctrl-Z takes anything back. The tape along the top follows the job, up to the sheets to cut.",
)
SEEN = "localStorage.setItem('foamwright-hints', 'seen')"
SHOW = (
    "if (!localStorage.getItem('foamwright-hints')) "
    "document.querySelector('.fw-hints')?.removeAttribute('hidden')"
)


def build_shape(page: Page) -> None:
    """Three views of the plane, every dimension to be dragged or typed.

    Args:
        page: The page to build on. [-]

    Source:
        docs/use/workshop.md.

    Example:
        >>> build_shape(page)  # doctest: +SKIP
    """
    Tag("h1", "Shape", "fw-unseen")
    with Tag("div", kind="fw-boardroom"):
        page.show_board(("top", "side", "front"))
        _hints(page)


def _hints(page: Page) -> None:
    hints = Tag("div", kind="fw-hints", hidden="hidden", role="note", aria_label="First steps")
    with hints:
        with Tag("ol"):
            for words in HINTS:
                Tag("li", words)

        def away() -> None:
            hints.delete()
            page.client.run_javascript(SEEN)

        button("Good", away)
    page.client.run_javascript(SHOW)


def build_solid(page: Page) -> None:
    """The plane in the round, to be turned with the mouse.

    Args:
        page: The page to build on. [-]

    Source:
        docs/use/workshop.md.

    Example:
        >>> build_solid(page)  # doctest: +SKIP
    """
    plane = page.desk.plane
    if plane is None:
        return
    Tag("h1", "In the round", "fw-unseen")
    with Tag("div", kind="fw-boardroom"):
        solid = Solid(solid_of(plane))
        with Tag("div", kind="fw-tools"):
            button("apart", lambda: solid.run_method("apart"), title="Move the pieces apart")
            button("picture", lambda: solid.run_method("picture"), title="Download a picture")

    def again() -> None:
        now = page.desk.plane
        if now is not None:
            solid.put(solid_of(now))

    page.refresh_place = again


PLACES = (
    Place("shape", "shape", 10, build_shape),
    Place("solid", "in the round", 92, build_solid, alone=True),
)
