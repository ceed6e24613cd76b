"""Side by side: the version held and the present one, drawn over each other and compared."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from foamwright.core.errors import FoamwrightError
from foamwright.core.files import read_text
from foamwright.core.units import format_value
from foamwright.web.desk import Step
from foamwright.web.place import Place
from foamwright.web.tags import Tag, button, word

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from foamwright.plane import Plane
    from foamwright.web.page import Page

type Row = tuple[str, str, str, Callable[[Plane], float]]

ROWS: tuple[Row, ...] = (
    ("all-up mass", "mass", "all-up", lambda p: p.balance.all_up_mass),
    ("span", "length", "span", lambda p: p.airframe.wing.span),
    ("wing area", "area", "", lambda p: p.aero.wing_area),
    (
        "wing loading",
        "areal mass",
        "wing loading",
        lambda p: p.balance.all_up_mass / p.aero.wing_area,
    ),
    ("balance point, from the nose", "length", "balance point", lambda p: p.balance.cg[0]),
    ("static margin", "share", "static margin", lambda p: p.aero.static_margin),
    ("stall speed", "speed", "stall", lambda p: p.aero.stall_speed),
    ("top speed", "speed", "", lambda p: p.flight.performance.top_speed),
    ("climb", "speed", "", lambda p: p.flight.performance.climb_rate),
    ("flying time", "minutes", "", lambda p: p.flight.performance.endurance),
    ("thrust over weight", "ratio", "thrust", lambda p: p.flight.performance.thrust_weight),
    ("wing holds", "g", "load factor", lambda p: p.strength.limit_load_factor),
    ("boards", "count", "nesting", lambda p: float(p.layout.boards_used)),
)


def build_beside(page: Page) -> None:
    """Two versions over each other, and their numbers with differences.

    Args:
        page: The page to build on. [-]

    Source:
        docs/use/workshop.md.

    Example:
        >>> build_beside(page)  # doctest: +SKIP
    """
    with Tag("div", kind="fw-boardroom fw-tall"):
        page.show_board(("top", "side", "front"))
    shown = Tag("div", kind="fw-sheetwork")

    def fill() -> None:
        shown.clear()
        plane, held = page.desk.plane, page.desk.held
        with shown:
            Tag("h1", "Side by side")
            _choose(page)
            if plane is not None and held is not None and held.plane is not None:
                _compare(held, held.plane, plane)

    fill()
    page.refresh_place = fill


def _choose(page: Page) -> None:
    desk = page.desk

    def hold_saved() -> None:
        desk.hold(Step(desk.saved, "as saved"))

    with Tag("div", kind="fw-row"):
        Tag("span", "Hold beside the present plane:")
        button("the plane as it is now", lambda: page.do(lambda: desk.hold(None)))
        if desk.changed and desk.saved:
            button("the plane as saved", lambda: page.do(hold_saved))
        for path in desk.versions()[:4]:
            stamp = path.stem.rpartition("@")[2]
            button(f"of {stamp}", partial(_hold_version, page, path))
        if desk.held is not None:
            button("let go", lambda: page.do(desk.release))
    if desk.held is None:
        with Tag("p"):
            Tag("span", "Hold one version, then change the plane: the held one stays, ")
            word("drawn dashed", "ghost")
            Tag("span", " under the other, and every number stands beside its own.")


async def _hold_version(page: Page, path: Path) -> None:
    stamp = path.stem.rpartition("@")[2]
    await page.do(lambda: page.desk.hold(Step(read_text(path), stamp)))


def _compare(held: Step, before: Plane, after: Plane) -> None:
    units = after.design.units
    with Tag("table"):
        with Tag("thead"), Tag("tr"):
            for title in ("figure", f"held ({held.words})", "now", "difference"):
                Tag("th", title, scope="col")
        with Tag("tbody"):
            for label, dimension, term, ask in ROWS:
                try:
                    old, new = ask(before), ask(after)
                except FoamwrightError:
                    continue
                with Tag("tr"):
                    with Tag("td"):
                        word(label, term) if term else Tag("span", label)
                    Tag("td", _say(old, dimension, units), "n")
                    Tag("td", _say(new, dimension, units), "n")
                    Tag("td", _difference(old, new, dimension, units), "n")


def _say(value: float, dimension: str, units: str) -> str:
    plain = {
        "share": f"{100 * value:.1f} %",
        "minutes": f"{value / 60:.1f} min",
        "ratio": f"{value:.2f}",
        "g": f"{value:.1f} g",
        "count": f"{value:.0f}",
    }
    if dimension == "area":
        return f"{value / 0.0254**2:.0f} sq in" if units == "inch" else f"{value * 100:.2f} dm²"
    return plain.get(dimension) or format_value(value, dimension, units)


def _difference(old: float, new: float, dimension: str, units: str) -> str:
    if _say(old, dimension, units) == _say(new, dimension, units):
        return "same"
    return f"{'+' if new > old else '−'}{_say(abs(new - old), dimension, units)}"


PLACES = (Place("beside", "side by side", 90, build_beside, alone=True),)
