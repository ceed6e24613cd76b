"""Power: motor, propeller and pack to pick, thrust and drag over speed, what else would suit."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from nicegui import background_tasks, ui

from foamwright.core.errors import DesignError, FoamwrightError
from foamwright.core.unit_table import INCH
from foamwright.core.units import UnitError, format_value, parse
from foamwright.stock.load import stock_names
from foamwright.web.place import Place
from foamwright.web.plot import Curve, line_plot
from foamwright.web.ranking import Ranking
from foamwright.web.tags import Tag, choice, field, table

if TYPE_CHECKING:
    from foamwright.plane import Plane
    from foamwright.web.page import Page

KINDS = ["slow flight", "electric", "sport", "folding", "direct drive"]
SCALES = {"inch": ("speed in mph", 2.236936, "force in oz", 3.596943),
          "metric": ("speed in m/s", 1.0, "force in N", 1.0)}  # fmt: skip


def build_power(page: Page) -> None:
    """Motor, propeller and pack, and what they make of the plane.

    Args:
        page: The page to build on. [-]

    Source:
        docs/use/workshop.md.

    Example:
        >>> build_power(page)  # doctest: +SKIP
    """
    with Tag("div", kind="fw-sheetwork"):
        Tag("h1", "Power")
        fields = Tag("div", kind="fw-fields")
        shown = Tag("div")
        ranking = Ranking(page)
        ranking.build()

    def fill() -> None:
        plane = page.desk.plane
        if plane is None:
            return
        fields.clear()
        with fields:
            _fields(page, plane)
        shown.clear()
        with shown:
            _shown(plane)
        background_tasks.create(ranking.show())

    fill()
    page.refresh_place = fill


def _fields(page: Page, plane: Plane) -> None:
    design, units = plane.design, plane.design.units

    def put(key: str, dimension: str, name: str) -> Any:  # noqa: ANN401 - a handler
        async def handler(event: Any) -> None:  # noqa: ANN401 - of the page library
            try:
                value = _read(str(event.args), dimension, name)
            except FoamwrightError as error:
                page.tell(str(error))
                return
            await page.change({key: value}, name)

        return handler

    def pick(key: str, name: str) -> Any:  # noqa: ANN401 - a handler
        async def handler(event: Any) -> None:  # noqa: ANN401 - as above
            await page.change({key: str(event.args)}, name)

        return handler

    def say(value: float, dimension: str) -> str:
        return format_value(value, dimension, units)

    motors = list(stock_names(plane.stock)["motors"])
    choice("motor", motors, design.motor.stock, pick("motor.stock", "motor"), term="kv")
    choice("blade", KINDS, design.propeller.kind, pick("propeller.kind", "propeller"))
    inch = f"{design.propeller.diameter / INCH:g} in", f"{design.propeller.pitch / INCH:g} in"
    field("diameter", inch[0], put("propeller.diameter", "length", "propeller diameter"))
    field("pitch", inch[1], put("propeller.pitch", "length", "propeller pitch"), term="pitch")
    field("cells in series", str(design.pack.cells), put("pack.cells", "count", "cells"))
    field("capacity", say(design.pack.capacity, "charge"),
          put("pack.capacity", "charge", "capacity"))  # fmt: skip
    mass = plane.train.pack.mass.typical
    field("pack weighs", say(mass, "mass"), put("pack.mass", "mass", "mass of the pack"))


def _read(text: str, dimension: str, name: str) -> float | int:
    said = text.strip()
    if dimension == "count":
        if not said.isdigit():
            raise DesignError(name, f'"{said[:20]}"', "it must be a whole number, such as 3")
        return int(said)
    try:
        return parse(said, dimension)
    except UnitError as error:
        raise DesignError(name, error.got, error.allowed, error.fix) from None


def _shown(plane: Plane) -> None:
    try:
        power, performance = plane.power, plane.flight.performance
        stall = plane.aero.stall_speed
    except FoamwrightError as error:
        Tag("p", f"Cannot say: {error}")
        return
    units = plane.design.units
    x_label, fast, y_label, strong = SCALES[units]
    speeds = [v * fast for v in performance.speeds]
    thrust = [t * strong for t in performance.thrust]
    drag = [d * strong for d in performance.drag]
    plot = line_plot(
        [Curve("full thrust", speeds, thrust), Curve("level drag", speeds, drag)],
        x_label=x_label,
        y_label=y_label,
        title="Thrust at full throttle and drag in level flight over speed",
        marks=((stall * fast, "stall"), (performance.level_speed * fast, "cruise")),
        top=1.25 * max(thrust),
    )

    def say(value: float, dimension: str) -> str:
        return format_value(value, dimension, units)

    with Tag("div", kind="fw-two"):
        ui.html(plot, sanitize=False)
        throttle = performance.level_throttle
        table(
            [
                ("static thrust", say(power.static_thrust, "thrust")),
                ("between", f"{say(power.static_thrust_band.low, 'force')} and "
                 f"{say(power.static_thrust_band.high, 'force')}"),
                ("thrust over weight", f"{performance.thrust_weight:.2f}"),
                ("current, full throttle", say(power.full_throttle_current, "current")),
                ("electric power", f"{power.full_throttle_power:.0f} W"),
                ("throttle to hold level", "cannot" if throttle is None else f"{throttle:.0%}"),
                ("top speed, level", say(performance.top_speed, "speed")),
                ("climb", say(performance.climb_rate, "speed")),
                ("flying time, a fifth kept back", f"{performance.endurance / 60:.0f} min"),
            ]
        )  # fmt: skip
    for note in (*power.notes, *performance.notes):
        Tag("p", note)


PLACES = (Place("power", "power", 30, build_power),)
