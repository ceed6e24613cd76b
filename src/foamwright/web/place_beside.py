"""Side by side: any two versions drawn over each other, with their figures and findings."""

from __future__ import annotations

import asyncio
import contextlib
from functools import partial
from typing import TYPE_CHECKING, Any

from nicegui import background_tasks

from foamwright.checks.compare import compare_checks, compare_figures
from foamwright.core.errors import FoamwrightError
from foamwright.web.figure import figure_of, marks_of
from foamwright.web.findings import quantity
from foamwright.web.look import board_of
from foamwright.web.place import Place
from foamwright.web.tags import Tag, button, percent, word
from foamwright.web.versions import NOW, Version, open_version, versions_of

if TYPE_CHECKING:
    from foamwright.checks.compare import Compared
    from foamwright.core.verdicts import Check
    from foamwright.plane import Plane
    from foamwright.web.page import Page

VIEWS = ("top", "side", "front")
BETWEEN = "~"  # between the two ids in the address
SQUARE_INCH = 0.0254**2
ENDS = 6  # findings shown that lose most, and that gain most
AMPLE = 1.0  # margin beyond which nobody minds a difference


class BesidePlace:
    """The two versions that one page compares."""

    def __init__(self, page: Page) -> None:
        self.page = page
        first, mark, second = page.at.partition(BETWEEN)
        listed = versions_of(page)
        if not mark:
            first = next((name for name in ("held", "saved", "back-1") if name in listed), NOW)
            second = NOW
        self.chosen = {"dashed": first, "drawn": second}
        self.generation = -1

    def build(self) -> None:
        """Lay the place out."""
        with Tag("div", kind="fw-sheetwork"), Tag("div", kind="fw-row fw-spread"):
            Tag("h1", "Side by side")
            self.fields = Tag("div", kind="fw-row")
            button("Swap", self._swap, title="Draw the other one dashed")
        with Tag("div", kind="fw-boardroom fw-tall"):
            self.page.show_board(VIEWS, fixed=True)
        self.words = Tag("ul", kind="fw-faults", aria_live="polite")
        self.shown = Tag("div", kind="fw-sheetwork")
        self.page.refresh_place = self.again
        self._choose()
        self.again()

    def again(self) -> None:
        """Compare again after a change."""
        background_tasks.create(self._show())

    def _choose(self) -> None:
        listed = versions_of(self.page)
        self.fields.clear()
        with self.fields:
            for role, label in (("dashed", "dashed"), ("drawn", "drawn full")):
                with Tag("label", kind=f"fw-{role}"):
                    Tag("span", label)
                    made = Tag("select", aria_label=f"version {label}")
                    with made:
                        _options(listed, self.chosen[role])
                made.on(
                    "change", partial(self._turn, role), js_handler="(e) => emit(e.target.value)"
                )

    async def _turn(self, role: str, event: Any) -> None:  # noqa: ANN401 - of the page library
        self.chosen[role] = str(event.args)[:80]
        self.page.stand(BETWEEN.join((self.chosen["dashed"], self.chosen["drawn"])))
        await self._show()

    async def _swap(self) -> None:
        self.chosen = {"dashed": self.chosen["drawn"], "drawn": self.chosen["dashed"]}
        self.page.stand(BETWEEN.join((self.chosen["dashed"], self.chosen["drawn"])))
        self._choose()
        await self._show()

    async def _show(self) -> None:
        page = self.page
        try:
            made = await asyncio.to_thread(self._made)
        except FoamwrightError as error:
            with page.client:
                self.words.clear()
                with self.words:
                    Tag("li", str(error).replace(f"{page.shop.folder}/", ""))
            return
        (first, second), (before, after), board, figures, checks = made
        if self.shown.is_deleted:  # another place is shown by now
            return
        with page.client:
            self._choose()
            self.words.clear()
            if page.board is not None:
                page.board.put(board)
                page.board.run_method("haunt", figure_of(before))
            self.shown.clear()
            with self.shown:
                if first.id == second.id:
                    with Tag("p"):
                        Tag("span", "Choose a second version: saved ones, steps back, changes that "
                            "were worked out, and every other plane of this folder are in the "
                            "lists. One is ")  # fmt: skip
                        word("drawn dashed", "ghost")
                        Tag("span", ", the other over it; every figure stands beside its own.")
                    return
                with Tag("div", kind="fw-two"):
                    with Tag("section"):
                        _figures(figures, (first, second), after.design.units)
                    with Tag("section"):
                        _findings(checks)

    def _made(self) -> Any:  # noqa: ANN401 - a handful of results, made beside the page
        page = self.page
        first, before = open_version(page, self.chosen["dashed"])
        second, after = open_version(page, self.chosen["drawn"])
        board = board_of(after, page.desk.generation)
        with contextlib.suppress(FoamwrightError):
            board["marks"] = marks_of(after)
        figures = compare_figures(before, after)
        return (first, second), (before, after), board, figures, _compared(before, after)


def _compared(before: Plane, after: Plane) -> tuple[tuple[Check, Check], ...]:
    try:
        return compare_checks(before, after)
    except FoamwrightError:
        return ()


def _options(listed: dict[str, Version], chosen: str) -> None:
    groups: dict[str, list[Version]] = {}
    for version in listed.values():
        groups.setdefault(version.group, []).append(version)
    for group, versions in groups.items():
        with Tag("optgroup", label=group):
            for version in versions:
                Tag("option", version.words, value=version.id,
                    selected=version.id == chosen or None)  # fmt: skip


def _figures(rows: tuple[Compared, ...], pair: tuple[Version, Version], units: str) -> None:
    with Tag("table", kind="fw-beside"):
        with Tag("thead"), Tag("tr"):
            heads = ("figure", f"dashed: {pair[0].words}", f"full: {pair[1].words}", "difference")
            for index, title in enumerate(heads):
                Tag("th", title, "n" if index else "", scope="col")
        with Tag("tbody"):
            for row in rows:
                with Tag("tr"):
                    with Tag("td"):
                        word(row.name, row.term) if row.term else Tag("span", row.name)
                    for value in (row.before, row.after):
                        Tag("td", say_figure(value, row.unit, units), "n")
                    Tag("td", _difference(row, units), "n")


def say_figure(value: float | None, unit: str, units: str) -> str:
    """A compared figure in the builder's units.

    Args:
        value: SI, or in its unit; None when it cannot be said. [any]
        unit: Of it. [-]
        units: "metric" or "inch". [-]

    Returns:
        Text. [-]

    Source:
        Definition.

    Example:
        >>> say_figure(0.16, "%", "inch"), say_figure(0.2, "m²", "metric")
        ('16.0 %', '20.00 dm²')
    """
    if value is None:
        return "cannot say"
    if unit == "m²":
        inches = value / SQUARE_INCH
        return f"{inches:.0f} sq in" if units == "inch" else f"{value * 100:.2f} dm²"
    plain = {"%": f"{100 * value:.1f} %", "min": f"{value:.1f} min", "-": f"{value:.2f}",
             "g": f"{value:.1f} g", "boards": f"{value:.0f}"}  # fmt: skip
    return plain.get(unit) or quantity(value, unit, units)


def _difference(row: Compared, units: str) -> str:
    if row.before is None or row.after is None:
        return "–"
    old, new = (say_figure(value, row.unit, units) for value in (row.before, row.after))
    if old == new:
        return "same"
    moved = row.after - row.before
    return f"{'+' if moved > 0 else '−'}{say_figure(abs(moved), row.unit, units)}"


def _findings(pairs: tuple[tuple[Check, Check], ...]) -> None:
    Tag("h2", "What the checks say of both")
    if not pairs:
        Tag("p", "Every check reads the same.")
        return
    with Tag("table", kind="fw-beside"):
        with Tag("thead"), Tag("tr"):
            for index, title in enumerate(("check", "dashed", "full", "")):
                Tag("th", title, "n" if index else "", scope="col")
        with Tag("tbody"):
            for old, new in _weightiest(pairs):
                with Tag("tr"):
                    Tag("td", new.title)
                    Tag("td", f"{old.verdict} {percent(old.margin)}", "n")
                    Tag("td", f"{new.verdict} {percent(new.margin)}", "n")
                    Tag("td", *_moved(old, new))


def _weightiest(pairs: tuple[tuple[Check, Check], ...]) -> list[tuple[Check, Check]]:
    """Those that change their verdict; of the rest the tight ones that lose and gain most."""
    turned = [pair for pair in pairs if pair[0].verdict != pair[1].verdict]
    tight = [
        pair
        for pair in pairs
        if pair[0].verdict == pair[1].verdict
        and any(check.margin is not None and check.margin < AMPLE for check in pair)
    ]
    if len(tight) > 2 * ENDS:
        tight = [*tight[:ENDS], *tight[-ENDS:]]
    return [*turned, *tight]


def _moved(old: Check, new: Check) -> tuple[str, str]:
    if old.margin is None or new.margin is None or old.margin == new.margin:
        return "", ""
    better = new.margin > old.margin
    return ("▲ better", "m-better") if better else ("▼ worse", "m-worse")


def build_beside(page: Page) -> None:
    """Two versions over each other, and their numbers with differences.

    Args:
        page: The page to build on. [-]

    Source:
        docs/use/workshop.md.

    Example:
        >>> build_beside(page)  # doctest: +SKIP
    """
    if page.look is not None:
        BesidePlace(page).build()


PLACES = (Place("beside", "side by side", 90, build_beside, alone=True),)
