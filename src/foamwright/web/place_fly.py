"""Fly: the plane flown by hand, before any foam is cut."""

from __future__ import annotations

import asyncio
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Any

from nicegui import background_tasks, ui
from nicegui.elements.scene import Scene

from foamwright.core.errors import FoamwrightError, ModelError
from foamwright.flight.launch import usual_throw_speed
from foamwright.web.flight_loop import FIELDS, LiveFlight, close_line, open_line
from foamwright.web.flight_model import CraftModel, Setup
from foamwright.web.flight_panel import FlightPanel
from foamwright.web.flight_shapes import shapes_of
from foamwright.web.place import Place
from foamwright.web.tags import Tag

if TYPE_CHECKING:
    from foamwright.plane import Plane
    from foamwright.web.page import Page

STYLE = (Path(__file__).parent / "static" / "flight.css").read_text(encoding="utf-8")
THREE = Scene  # importing it makes the page library serve the three.js that the view draws with
CAUTION = (
    "A simulation is no clearance to fly near people: real air, glue and thumbs differ. First "
    "flights belong over an empty field, and local rules come first."
)
UNITS = {
    "metric": {"speed": [1.0, "m/s", 1], "height": [1.0, "m", 1]},
    "inch": {"speed": [1 / 0.44704, "mph", 0], "height": [1 / 0.3048, "ft", 0]},
}


class FlightView(
    ui.element, component="static/flight.js", esm={"foamwright-flight": "static/flight"}
):
    """The flight view."""

    def __init__(self, **facts: Any) -> None:  # noqa: ANN401 - plain data
        super().__init__()
        self._props |= facts

    def put(self, shapes: dict[str, Any]) -> None:
        """Show another plane."""
        self._props["shapes"] = shapes
        self.run_method("put", shapes)


class FlyPlace:
    """One page's sky."""

    def __init__(self, page: Page) -> None:
        self.page = page
        self.generation = page.desk.generation
        self.flight: LiveFlight | None = None
        self.setup: Setup | None = None
        self.address = ""

    def build(self) -> None:
        """Lay the place out; the flight model is made beside the page."""
        ui.add_css(STYLE)
        Tag("h1", "Fly it by hand", "fw-unseen")
        self.room = Tag("div", kind="fl-room")
        with self.room:
            self.words = Tag("p", "Building the flight model…", "fl-wait", role="status")
        self.page.refresh_place = self.again
        self.page.client.on_delete(self.close)
        background_tasks.create(self._open())

    async def _open(self) -> None:
        plane = self.page.desk.plane
        if plane is None:
            return
        try:
            self.setup, model, trouble = await asyncio.to_thread(_begin, plane)
            shapes = await asyncio.to_thread(shapes_of, plane)
        except FoamwrightError as error:
            self.words.say(str(error))
            return
        self.flight = LiveFlight(model)
        self.address = open_line(self.flight)
        units = plane.design.units
        self.room.clear()
        with self.room:
            self.view = FlightView(
                shapes=shapes,
                fields=list(FIELDS),
                address=self.address,
                units=UNITS[units],
                system=units,
                rolls="roll it" if plane.airframe.wing.controls else "steer with the rudder",
            )
            FlightPanel(plane, self.setup, self._changed).build()
            Tag("p", CAUTION, "fl-caution")
            if trouble:
                self.page.tell(f"{trouble} It begins in still air.")

    def _changed(self, setup: Setup, words: str) -> None:
        self.setup = setup
        background_tasks.create(self._rebuild(words))

    async def _rebuild(self, words: str, *, shapes: bool = False) -> None:
        plane, setup = self.page.desk.plane, self.setup
        if plane is None or setup is None or self.flight is None:
            return
        try:
            model = await asyncio.to_thread(CraftModel, plane, setup)
            drawn = await asyncio.to_thread(shapes_of, plane) if shapes else None
        except FoamwrightError as error:
            with self.page.client:
                self.page.tell(str(error))
            return
        if setup is not self.setup:
            return  # another slider has moved meanwhile
        await asyncio.to_thread(self.flight.take, model, words)
        if drawn is not None:
            with self.page.client:
                self.view.put(drawn)

    def again(self) -> None:
        """Fly the plane as it is now when the design has changed."""
        if self.generation != self.page.desk.generation:
            self.generation = self.page.desk.generation
            background_tasks.create(self._rebuild("the plane has changed", shapes=True))

    def close(self) -> None:
        """The page has gone."""
        if self.address:
            close_line(self.address)


def _usual(plane: Plane) -> Setup:
    given = plane.design.pilot.throw_speed
    usual = usual_throw_speed(plane.balance.all_up_mass)
    return Setup(from_hand=True, speed=usual if given is None else given,
                 wind=plane.design.field.wind)  # fmt: skip


def _begin(plane: Plane) -> tuple[Setup, CraftModel, str]:
    """The usual start; in still air, and why, where the field's wind is too much for the plane."""
    setup = _usual(plane)
    try:
        return setup, CraftModel(plane, setup), ""
    except ModelError as error:
        still = replace(setup, wind=0.0)
        return still, CraftModel(plane, still), str(error)


def build_fly(page: Page) -> None:
    """The plane in the air, flown by keyboard or gamepad.

    Args:
        page: The page to build on. [-]

    Source:
        docs/use/fly-by-hand.md.

    Example:
        >>> build_fly(page)  # doctest: +SKIP
    """
    FlyPlace(page).build()


PLACES = (Place("fly", "fly", 48, build_fly, alone=True),)
