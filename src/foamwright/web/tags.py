"""Plain page elements, and words that explain themselves."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from nicegui import ui

from foamwright.web.words import WORDS

AMPLE = 999  # per cent of margin, beyond which the figure says nothing
VALUE = "(e) => emit(e.target.value)"


class Tag(ui.element):
    """An HTML element with a text, classes and attributes, and nothing else."""

    def __init__(self, tag: str, text: str = "", kind: str = "", **attributes: Any) -> None:  # noqa: ANN401
        super().__init__(tag)
        self._text = text or None
        if kind:
            self.classes(kind)
        for name, value in attributes.items():
            if value is not None and value is not False:
                self._props[name.rstrip("_").replace("_", "-")] = value

    def say(self, text: str) -> None:
        """Change the text, if it differs and the place is still shown."""
        if self._text != text and not self.is_deleted:
            self._text = text
            self.update()

    def put(self, name: str, value: Any) -> None:  # noqa: ANN401 - any attribute
        """Set an attribute, or take it away with None."""
        now = self._props.get(name)
        if now == value or self.is_deleted:
            return
        if value is None:
            self._props.pop(name, None)
        else:
            self._props[name] = value
        self.update()


def button(
    text: str,
    handler: Callable[..., Any],
    kind: str = "",
    *,
    title: str | None = None,
    label: str | None = None,
    hidden: str | None = None,
    key: str | None = None,
) -> Tag:
    """A button.

    Args:
        text: On it. [-]
        handler: Called when it is pressed. [-]
        kind: Classes. [-]
        title: Shown when the pointer rests on it. [-]
        label: Read out in place of the text. [-]
        hidden: "hidden" leaves it unseen at first. [-]
        key: What the keyboard presses it with: "undo", "redo" or "save". [-]

    Returns:
        The element.

    Source:
        Definition.

    Example:
        >>> button("Save", save)  # doctest: +SKIP
    """
    made = Tag("button", text, kind, type="button", title=title, aria_label=label, hidden=hidden,
               data_key=key)  # fmt: skip
    made.on("click", handler)
    return made


def percent(ratio: float | None) -> str:
    """A margin as the page says it everywhere.

    Args:
        ratio: The margin; None when it cannot be said. [-]

    Returns:
        Text. [-]

    Source:
        Definition.

    Example:
        >>> percent(0.0312), percent(-0.2), percent(40.0), percent(None)
        ('+3 %', '−20 %', 'ample', '–')
    """
    if ratio is None:
        return "–"
    whole = round(100 * ratio)
    if whole > AMPLE:
        return "ample"
    sign = "+" if whole > 0 else "−" if whole < 0 else ""
    return f"{sign}{abs(whole)} %"


def print_page() -> None:
    """Ask the browser to print the place as it stands.

    Source:
        Definition.

    Example:
        >>> print_page()  # doctest: +SKIP
    """
    ui.run_javascript("window.print()")


def word(text: str, term: str = "") -> Tag:
    """A word of the trade with its explanation, and a drawing of it, on hover, focus or tap.

    Args:
        text: As it stands on the page. [-]
        term: Key of WORDS; "" takes the text. [-]

    Returns:
        The element.

    Source:
        Definition.

    Example:
        >>> word("washout")  # doctest: +SKIP
    """
    name = term or text.lower()
    tip = WORDS.get(name, "")
    if not tip:
        return Tag("span", text)
    return Tag("span", text, "fw-word", tabindex=0, data_term=name, role="note",
               aria_label=f"{text}: {tip}")  # fmt: skip


def field(label: str, value: str, handler: Callable[..., Any], *, term: str = "") -> Tag:
    """A labelled input that tells its text when it is left or Enter is pressed.

    Args:
        label: Beside it. [-]
        value: In it. [-]
        handler: Called with the event, whose args is the text. [-]
        term: Key of WORDS for an explanation; "" for none. [-]

    Returns:
        The input.

    Source:
        Definition.

    Example:
        >>> field("diameter", "9 in", change)  # doctest: +SKIP
    """
    with Tag("label"):
        word(label, term) if term else Tag("span", label)
        made = Tag("input", value=value, autocomplete="off", spellcheck="false", aria_label=label)

    def keep(event: Any) -> None:  # noqa: ANN401 - of the page library
        """What was typed stays in the field when the page is drawn again."""
        made.put("value", str(event.args))

    made.on("change", keep, js_handler=VALUE)
    made.on("change", handler, js_handler=VALUE)
    return made


def choice(
    label: str, options: list[str], value: str, handler: Callable[..., Any], *, term: str = ""
) -> Tag:
    """A labelled list to pick from.

    Args:
        label: Beside it. [-]
        options: To pick from. [-]
        value: Picked now. [-]
        handler: Called with the event, whose args is the option. [-]
        term: Key of WORDS for an explanation; "" for none. [-]

    Returns:
        The list.

    Source:
        Definition.

    Example:
        >>> choice("paper", ["a4", "letter"], "a4", change)  # doctest: +SKIP
    """
    with Tag("label"):
        word(label, term) if term else Tag("span", label)
        made = Tag("select", aria_label=label)
        with made:
            for option in options:
                Tag("option", option, value=option, selected=option == value or None)
    made.on("change", handler, js_handler=VALUE)
    return made


def table(rows: list[tuple[str, ...]], *, head: tuple[str, ...] = ()) -> Tag:
    """A table whose columns after the first hold figures.

    Args:
        rows: Cells. [-]
        head: Column titles. [-]

    Returns:
        The element.

    Source:
        Definition.

    Example:
        >>> table([("span", "46 in")])  # doctest: +SKIP
    """
    made = Tag("table")
    with made:
        if head:
            with Tag("thead"), Tag("tr"):
                for index, title in enumerate(head):
                    Tag("th", title, "n" if index else "", scope="col")
        with Tag("tbody"):
            for row in rows:
                with Tag("tr"):
                    for index, cell in enumerate(row):
                        Tag("td", cell, "n" if index else "")
    return made
