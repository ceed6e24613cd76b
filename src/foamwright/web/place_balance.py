"""Balance: the side view with the pack to drag, and where the mass is."""

from __future__ import annotations

from typing import TYPE_CHECKING

from foamwright.core.errors import FoamwrightError
from foamwright.core.units import format_value
from foamwright.web.place import Place
from foamwright.web.tags import Tag, table, word

if TYPE_CHECKING:
    from foamwright.plane import Plane
    from foamwright.web.page import Page

HEAVIEST = 14  # rows of the mass table


def build_balance(page: Page) -> None:
    """The side view with the pack to drag, and the mass table.

    Args:
        page: The page to build on. [-]

    Source:
        docs/use/workshop.md.

    Example:
        >>> build_balance(page)  # doctest: +SKIP
    """
    Tag("h1", "Balance", "fw-unseen")
    with Tag("div", kind="fw-boardroom fw-half"):
        page.show_board(("side",))
    figures = Tag("div", kind="fw-sheetwork")

    def fill() -> None:
        figures.clear()
        plane = page.desk.plane
        if plane is not None:
            with figures:
                _figures(plane)

    fill()
    page.refresh_place = fill


def _figures(plane: Plane) -> None:
    units, balance = plane.design.units, plane.balance
    edge = plane.airframe.wing.panels[0].root[0]

    def say(value: float) -> str:
        return format_value(value, "length", units)

    with Tag("div", kind="fw-two"):
        with Tag("section"):
            with Tag("h2"):
                word("Balance point", "balance point")
            try:
                aero = plane.aero
                limits = f"{say(aero.cg_forward - edge)} to {say(aero.cg_aft - edge)}"
            except FoamwrightError as error:
                limits = str(error)
            table(
                [
                    ("behind the wing's leading edge", say(balance.cg[0] - edge)),
                    ("may lie", limits),
                    ("with the scatter of a build", f"{say(balance.cg_x_band.low - edge)} to "
                     f"{say(balance.cg_x_band.high - edge)}"),
                    ("pack at the front of its tray", say(balance.cg_front - edge)),
                    ("pack at the back of its tray", say(balance.cg_back - edge)),
                    ("middle of the pack, from the nose", say(plane.design.pack.position)),
                    ("its tray, from the nose", f"{say(balance.pack_front)} to "
                     f"{say(balance.pack_back)}"),
                ]
            )  # fmt: skip
        with Tag("section"):
            Tag("h2", "Where the mass is")
            rows = [
                (
                    line.name,
                    format_value(line.mass.typical, "mass", units),
                    say(line.at[0]),
                    f"{say(abs(line.cg_shift))} {'aft' if line.cg_shift > 0 else 'forward'}",
                )
                for line in balance.lines[:HEAVIEST]
            ]
            table(rows, head=("part", "mass", "from the nose", "moves balance"))


PLACES = (Place("balance", "balance", 20, build_balance),)
