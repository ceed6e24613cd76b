"""How sure: many builds drawn from the bands of stock, which checks they pass, what to measure."""

from __future__ import annotations

import asyncio
from functools import partial
from typing import TYPE_CHECKING

from nicegui import background_tasks

from foamwright.checks.builds import builds_of
from foamwright.core.errors import FoamwrightError
from foamwright.core.units import format_value
from foamwright.web.place import Place
from foamwright.web.tags import Tag, button, table

if TYPE_CHECKING:
    from foamwright.checks.builds import Builds, Share
    from foamwright.web.page import Page

COUNT = 2000  # a share is then steady to two points in a hundred
SURE = 0.9995
LEAST = 0.005  # share worth saying
MEASURES = 5  # things to measure that are listed
WAYS = {"full": "each build", "line": "along a line"}


class BuildsPlace:
    """The builds of one page's plane."""

    def __init__(self, page: Page) -> None:
        self.page = page
        self.seed = 0
        self._asked: tuple[int, int] | None = None

    def build(self) -> None:
        """Lay the place out."""
        with Tag("div", kind="fw-sheetwork"):
            Tag("h1", "How sure")
            Tag("p", "Boards sold as the same differ by a factor of two in mass; glue, motors, "
                "strength and the model itself scatter too. Here every band is drawn at once, "
                "many times, and every build is judged.")  # fmt: skip
            with Tag("div", kind="fw-row"):
                self.words = Tag("p", kind="fw-grow", role="status")
                button("Draw others", partial(self._others))
            self.shown = Tag("div", kind="fw-two")
        self.page.refresh_place = self.again
        self.again()

    def again(self) -> None:
        """Draw builds of the plane as it is now."""
        asked = (self.page.desk.generation, self.seed)
        if asked != self._asked:
            self._asked = asked
            background_tasks.create(self._show(asked))

    def _others(self) -> None:
        self.seed += 1
        self.again()

    async def _show(self, asked: tuple[int, int]) -> None:
        page = self.page
        self.words.say(f"Drawing {COUNT} builds…")
        try:
            plane = page.plane()
            builds = await asyncio.to_thread(lambda: builds_of(plane, count=COUNT, seed=asked[1]))
        except FoamwrightError as error:
            with page.client:
                self.words.say(f"Cannot say: {error}")
            return
        if asked != self._asked or self.shown.is_deleted:
            return
        with page.client:
            self.words.say(f"Of {COUNT} builds {100 * builds.all_pass:.0f} % pass every check "
                           f"(seed {builds.seed}).")  # fmt: skip
            self.shown.clear()
            with self.shown:
                self._shares(builds)
                self._measures(builds)

    def _shares(self, builds: Builds) -> None:
        look = self.page.look
        titles = {check.id: check.title for check in look.checks} if look else {}
        doubted = sorted(
            (each for each in builds.shares if each.how != "fixed" and each.share < SURE),
            key=lambda each: each.share,
        )
        with Tag("section"):
            Tag("h2", "Passes in so many builds")
            if not doubted:
                Tag("p", "Every check passes in every build.")
            with Tag("table"), Tag("tbody"):
                for each in doubted:
                    self._share(each, titles.get(each.id, each.id))
            Tag("p", "Checks that are not listed pass in every build, or nothing that is drawn "
                "moves them. 60 % does not mean that four planes in ten break: it says how far "
                "the figures are known.", "fw-small")  # fmt: skip

    def _share(self, each: Share, title: str) -> None:
        with Tag("tr"):
            Tag("td", title, title=f"computed: {WAYS.get(each.how, each.how)}")
            with Tag("td"), Tag("div", kind="fw-bar" if each.share >= 0.5 else "fw-bar short"):
                Tag("i").style(f"width: {100 * each.share:.0f}%")
            Tag("td", f"{100 * each.share:.0f} %", "n")

    def _measures(self, builds: Builds) -> None:
        units = self.page.plane().design.units
        mass = [format_value(value, "mass", units) for value in builds.mass]
        cg = [format_value(value, "length", units) for value in builds.cg_x]
        with Tag("section"):
            Tag("h2", "Eight builds in ten")
            table([("weigh", f"{mass[0]} to {mass[2]}"),
                   ("balance, from the nose", f"{cg[0]} to {cg[2]}")])  # fmt: skip
            Tag("h2", "To know more, measure in this order", "fw-later")
            rows = [
                (each.words[:1].upper() + each.words[1:], share(each.verdicts), share(each.cg),
                 share(each.mass))
                for each in builds.narrowings[:MEASURES]
            ]  # fmt: skip
            if rows:
                table(rows, head=("what", "less doubt of passing", "of balance", "of mass"))
            else:
                Tag("p", "Nothing that can be measured would tell more.")


def share(value: float) -> str:
    """A share in per cent; nothing where it is next to none.

    Args:
        value: 0 to 1. [-]

    Returns:
        Text. [-]

    Source:
        Definition.

    Example:
        >>> share(0.234), share(0.001)
        ('23 %', '–')
    """
    return f"{100 * value:.0f} %" if value >= LEAST else "–"


def build_builds(page: Page) -> None:
    """The share of builds that pass each check, and what to measure first.

    Args:
        page: The page to build on. [-]

    Source:
        docs/use/uncertainty.md.

    Example:
        >>> build_builds(page)  # doctest: +SKIP
    """
    if page.look is not None:
        BuildsPlace(page).build()


PLACES = (Place("builds", "how sure", 45, build_builds, alone=True),)
