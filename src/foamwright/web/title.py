"""The title block along the foot of a page, and the notices along its head."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from foamwright.web.tags import Tag, button, print_page, word

if TYPE_CHECKING:
    from foamwright.web.page import Page

HOLD = "Keep this version to compare with; it is drawn dashed under what you do next"


class TitleBlock:
    """Name, main figures, units, undo and save; filled in place, so that the focus stays."""

    def __init__(self, page: Page) -> None:
        self._page = page
        self._figures: dict[str, Tag] = {}
        with Tag("footer", kind="fw-block"):
            with Tag("div", kind="fw-cell name"):
                self._file = Tag("small", page.name)
                self._name = Tag("b")
            for label, _, term in page.look.figures if page.look else ():
                with Tag("div", kind="fw-cell", data_figure=term):
                    with Tag("small"):
                        word(label, term)
                    self._figures[label] = Tag("b")
            with Tag("div", kind="fw-cell acts"):
                with Tag("span", kind="fw-switch", role="group", aria_label="Units"):
                    self._units = {
                        system: button(label, partial(page.units, system))
                        for system, label in (("inch", "in · oz"), ("metric", "mm · g"))
                    }
                self._undo = button("Undo", page.undo, key="undo")
                self._redo = button("Redo", page.redo, key="redo")
                self._hold = button("Hold beside", page.hold, title=HOLD)
                button("Print", print_page, title="Print this place, or keep it as a PDF")
                self._save = button("Save", page.save, "strong", key="save")

    def fill(self) -> None:
        """Show the present state."""
        desk, look = self._page.desk, self._page.look
        self._file.say(("not saved · " if desk.changed else "") + self._page.name)
        self._name.say(look.board["name"] if look else "cannot be read yet")
        for label, value, _ in look.figures if look else ():
            if label in self._figures:
                self._figures[label].say(value)
        for system, switch in self._units.items():
            pressed = look is not None and look.board["units"] == system
            switch.put("aria-pressed", "true" if pressed else "false")
        self._undo.put("disabled", not desk.back or None)
        self._undo.put("title", f"take back: {desk.back}")
        self._redo.put("disabled", not desk.forward or None)
        self._redo.put("title", f"again: {desk.forward}")
        self._hold.say("Let go" if desk.held is not None else "Hold beside")
        self._save.put("disabled", not desk.changed or None)


class Notices:
    """What the page has to say at its head."""

    def __init__(self, page: Page) -> None:
        self._page = page
        self._box = Tag("div", kind="fw-notices", aria_live="polite")

    def tell(self, words: str) -> None:
        """Say something; it goes with the next change."""
        with self._box:
            _notice(words, "bad")

    def fill(self) -> None:
        """Show what stands open."""
        page, desk = self._page, self._page.desk
        self._box.clear()
        with self._box:
            if desk.on_disk is not None:
                with _notice("This file was changed by another program."):
                    button("Take the file's", partial(page.do, desk.take_disk))
                    button("Keep mine", partial(page.do, desk.keep_mine))
            if desk.unsaved is not None:
                with _notice("Work from last time was never saved."):
                    button("Take it up", partial(page.do, desk.take_unsaved))
                    button("Throw it away", partial(page.do, desk.drop_unsaved))
            if desk.faults:
                _notice("The file cannot be read; its faults stand under “file”.", "bad")
            elif page.look is not None and page.look.trouble:
                _notice(f"Not everything can be said of this plane: {page.look.trouble}", "bad")
            if page.mending.trying is not None:
                with _notice(f"Trying: {page.mending.trying.words.split(':')[0]}.", "try"):
                    button("Keep it", page.mending.keep, "strong")
                    button("Put it back", page.mending.end)


def _notice(words: str, kind: str = "") -> Tag:
    made = Tag("div", kind=f"fw-notice {kind}")
    with made:
        Tag("span", words)
    return made
