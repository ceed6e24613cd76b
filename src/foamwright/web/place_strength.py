"""Strength: moment and strength along the half span, and what gives way first."""

from __future__ import annotations

from typing import TYPE_CHECKING

from nicegui import ui

from foamwright.core.errors import FoamwrightError
from foamwright.core.unit_table import INCH
from foamwright.core.units import format_value
from foamwright.core.words import in_units
from foamwright.web.place import Place
from foamwright.web.plot import Curve, line_plot
from foamwright.web.tags import Tag, word

if TYPE_CHECKING:
    from foamwright.plane import Plane
    from foamwright.strength.model import StrengthResult
    from foamwright.web.page import Page

SCALES = {"inch": ("from the middle, in", 1 / INCH, "moment, in·lb", 8.850746),
          "metric": ("from the middle, mm", 1000.0, "moment, N·m", 1.0)}  # fmt: skip
LONGEST = 12.0  # load factor or ratio at the end of a bar


def build_strength(page: Page) -> None:
    """Moment against strength along the half span, and the ways to break, weakest first.

    Args:
        page: The page to build on. [-]

    Source:
        docs/use/workshop.md.

    Example:
        >>> build_strength(page)  # doctest: +SKIP
    """
    shown = Tag("div", kind="fw-sheetwork")

    def fill() -> None:
        shown.clear()
        plane = page.desk.plane
        if plane is not None:
            with shown:
                _shown(plane)

    fill()
    page.refresh_place = fill


def _shown(plane: Plane) -> None:
    Tag("h1", "Strength")
    try:
        strength = plane.strength
    except FoamwrightError as error:
        Tag("p", f"Cannot say: {error}")
        return
    units = plane.design.units
    x_label, along, y_label, moment = SCALES[units]
    stations = [y * along for y in strength.stations]
    load = [m * moment for m in strength.bending_moment]
    hold = [m * moment for m in strength.bending_strength]
    plot = line_plot(
        [Curve("it holds", stations, hold), Curve("it must", stations, load)],
        x_label=x_label,
        y_label=y_label,
        title="Bending moment and bending strength along the half span",
        top=_top(load, hold),
    )
    with Tag("div", kind="fw-two"):
        with Tag("section"):
            with Tag("h2"):
                word("Bending", "bending moment")
                Tag("span", f" of the wing at {strength.needed_load_factor:.1f} g")
            ui.html(plot, sanitize=False)
            rise = format_value(strength.tip_deflection, "length", units)
            weakest = in_units(strength.first_failure, units)
            first = f"{weakest}, at {strength.limit_load_factor:.1f} g"
            Tag("p", f"The tip rises {rise} there. First to give way: {first}.")
        with Tag("section"):
            Tag("h2", "Weakest first")
            _failures(strength, units)
    for note in strength.notes:
        Tag("p", in_units(note, units))


def _top(load: list[float], hold: list[float]) -> float:
    """High enough for both, but the load must stay readable under a far larger strength."""
    most = max(load, default=1.0)
    return max(2.5 * most, min(max(hold, default=1.0), 4.0 * most))


def _failures(strength: StrengthResult, units: str) -> None:
    with Tag("table"):
        with Tag("thead"), Tag("tr"):
            for title in ("what gives way", "holds", "likely between"):
                Tag("th", title, scope="col")
        with Tag("tbody"):
            for failure in strength.failures:
                with Tag("tr", title=in_units(failure.why, units)):
                    Tag("td", f"{in_units(failure.name, units)} ({failure.place})")
                    Tag("td", f"{failure.load_factor:.1f}", "n")
                    band = failure.load_factor_band
                    Tag("td", f"{band.low:.1f} to {band.high:.1f}", "n")


PLACES = (Place("strength", "strength", 40, build_strength),)
