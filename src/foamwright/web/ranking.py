"""What else would suit: every propeller, pack or motor of stock tried on the plane, best first."""

from __future__ import annotations

import asyncio
from functools import partial
from typing import TYPE_CHECKING, Any, cast, get_args

from foamwright.core.errors import FoamwrightError
from foamwright.core.units import format_value
from foamwright.flight.candidates import (
    motor_options,
    pack_options,
    propeller_options,
    seat_of,
)
from foamwright.flight.choice import Aim, rank_options
from foamwright.web.tags import Tag, button, choice

if TYPE_CHECKING:
    from foamwright.design.change import Value
    from foamwright.flight.choice import Option, Ranked
    from foamwright.plane import Plane
    from foamwright.web.page import Page

WHAT = {
    "propellers": "Every propeller of stock, with this motor and pack.",
    "packs": "Every common pack, put where it keeps the balance, with this motor and propeller.",
    "motors": "Every motor of stock, each with its best propeller, with this pack and controller.",
}
AIMS = {"a bit of all": "balance", "an easy launch": "launch", "climb": "climb",
        "long flights": "endurance", "cool parts": "amps"}  # fmt: skip
SHOWN, FALLEN = 8, 5  # rows that would do, and rows that fall out
HEADS = ("", "thrust / weight", "current", "of", "climb", "top", "flies", "all-up")


MEASURED = {
    "pack": ("mass", "resistance", "length"),
    "propeller": ("mass", "line"),
    "motor": ("kv", "mass", "resistance", "no_load_current", "max_current"),
}  # keys that belong to one specimen


class Ranking:
    """The ranking on one page."""

    def __init__(self, page: Page) -> None:
        self.page = page
        self.what, self.aim = "propellers", "a bit of all"
        self.options: dict[str, Option] = {}
        self._asked = 0

    def build(self) -> None:
        """Lay it out."""
        with Tag("section"):
            with Tag("div", kind="fw-row fw-spread"):
                Tag("h2", "What else would suit")
                with Tag("span", kind="fw-switch", role="group", aria_label="What is tried"):
                    self.switches = {name: button(name, partial(self._turn, name)) for name in WHAT}
                choice("ranked by", list(AIMS), self.aim, self._by)
            self.words = Tag("p", role="status")
            self.rows = Tag("div", kind="fw-scroll")

    async def show(self) -> None:
        """Try everything on the plane as it is now."""
        page = self.page
        self._asked += 1
        asked = self._asked
        for name, switch in self.switches.items():
            switch.put("aria-pressed", "true" if name == self.what else "false")
        try:
            ranked = await asyncio.to_thread(self._ranked, page.plane())
            words = WHAT[self.what]
        except FoamwrightError as error:
            ranked, words = (), f"Cannot say: {error}"
        if asked == self._asked and not self.rows.is_deleted:
            with page.client:
                self.words.say(words)
                self._show(ranked)

    async def _turn(self, name: str) -> None:
        self.what = name
        await self.show()

    async def _by(self, event: Any) -> None:  # noqa: ANN401 - of the page library
        self.aim = str(event.args) if str(event.args) in AIMS else self.aim
        await self.show()

    def _ranked(self, plane: Plane) -> tuple[Ranked, ...]:
        design, mass = plane.design, plane.balance.all_up_mass
        seat = seat_of(plane.balance, design.pack.position)
        if self.what == "packs":
            rating = design.pack.discharge_rating
            options = pack_options(plane.train, mass, seat=seat, rating=rating, units=design.units)
        elif self.what == "motors":
            options = motor_options(plane.train, mass, motors=plane.stock.motors, seat=seat)
        else:
            options = propeller_options(plane.train, mass)
        aim = AIMS[self.aim]
        assert aim in get_args(Aim.__value__)  # noqa: S101 - both lists stand in this house
        ranked = rank_options(
            options,
            plane.aero,
            mass=mass,
            density=plane.air.density,
            wheels=plane.design.gear is not None,
            aim=cast("Aim", aim),
            units=plane.design.units,
        )
        self.options = {option.name: option for option in options}
        return _first_of_each(ranked) if self.what == "motors" else ranked

    def _show(self, ranked: tuple[Ranked, ...]) -> None:
        good = [row for row in ranked if not row.faults]
        bad = [row for row in ranked if row.faults]
        self.rows.clear()
        with self.rows:
            if ranked and not good:
                Tag("p", "None of them suits this plane as it is.")
            if good:
                self._table(good[:SHOWN])
            if bad:
                with Tag("details"):
                    Tag("summary", f"{len(bad)} fall out; why")
                    with Tag("ul"):
                        for row in bad[:FALLEN]:
                            Tag("li", f"{row.name}: {'; '.join(row.faults)}")

    def _table(self, rows: list[Ranked]) -> None:
        with Tag("table"):
            with Tag("thead"), Tag("tr"):
                for index, title in enumerate((*HEADS, "")):
                    Tag("th", title or ("take it" if index else self.what), "n" if index else "",
                        scope="col")  # fmt: skip
            with Tag("tbody"):
                for row in rows:
                    with Tag("tr"):
                        Tag("td", row.name + (" *" if row.extrapolated else ""))
                        for cell in _cells(row, self.page.plane().design.units):
                            Tag("td", cell, "n")
                        with Tag("td"):
                            button("Use", partial(self._use, row),
                                   label=f"Use {row.name}")  # fmt: skip
        if any(row.extrapolated for row in rows):
            Tag("p", "* outside the measured propellers: extrapolated, the band is wider")

    async def _use(self, row: Ranked) -> None:
        option = self.options.get(row.name)
        if option is not None:
            await self.page.change(self._values(option), row.name)

    def _values(self, option: Option) -> dict[str, Value]:
        """What to write into the design so that the option is in."""
        return self._measured(option) | self._taken(option)

    def _measured(self, option: Option) -> dict[str, Value]:
        """Figures of the part that goes: they do not hold for the one that comes."""
        plane = self.page.plane()
        design, present = plane.design, plane.train.propeller
        tables = () if option.train.propeller is present else ("propeller",)
        tables = ("pack",) if self.what == "packs" else tables
        tables += ("motor",) if self.what == "motors" else ()
        return {
            f"{table}.{key}": None
            for table in tables
            for key in MEASURED[table]
            if getattr(getattr(design, table), key) is not None
        }

    def _taken(self, option: Option) -> dict[str, Value]:
        if self.what == "packs":
            pack = option.train.pack
            values: dict[str, Value] = {"pack.cells": pack.cells, "pack.capacity": pack.capacity}
            if option.place is not None:
                values["pack.position"] = option.place
            return values
        propeller = option.train.propeller
        values = {
            "propeller.kind": propeller.kind,
            "propeller.diameter": propeller.diameter,
            "propeller.pitch": propeller.pitch,
            "propeller.blades": propeller.blades,
        }
        if self.what == "motors":
            values["motor.stock"] = option.name.partition(" + ")[0]
            if option.place is not None:
                values["pack.position"] = option.place
        return values


def _cells(row: Ranked, units: str) -> tuple[str, ...]:
    return (
        f"{row.thrust_weight:.2f}",
        format_value(row.current, "current", units),
        format_value(row.current_limit, "current", units),
        format_value(row.climb_rate, "speed", units),
        format_value(row.top_speed, "speed", units),
        f"{row.endurance / 60:.0f} min",
        format_value(row.mass, "mass", units),
    )


def _first_of_each(rows: tuple[Ranked, ...]) -> tuple[Ranked, ...]:
    """The best propeller of each motor, in the order of rank."""
    best: dict[str, Ranked] = {}
    for row in rows:
        best.setdefault(row.name.partition(" + ")[0], row)
    return tuple(best.values())
