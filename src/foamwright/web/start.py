"""The start: the planes in this folder, and a new one from a few answers."""

from __future__ import annotations

import asyncio
import contextlib
from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING, Any
from urllib.parse import quote

from nicegui import ui

from foamwright.core.errors import DesignError, FoamwrightError, OutputError
from foamwright.core.units import UnitError, format_value, parse
from foamwright.design.new import Answers
from foamwright.opening import load
from foamwright.shape.planform import flat_span
from foamwright.sheets.silhouettes import from_above
from foamwright.sheets.write import slug
from foamwright.starting import start_design
from foamwright.web.folder import designs, inside, name_in
from foamwright.web.tags import VALUE, Tag, button, choice

if TYPE_CHECKING:
    from foamwright.web.application import Shop

KINDS = ["trainer", "slow flyer", "small flyer", "glider", "sport"]
SHOWN = 24
LONG = 60_000  # bytes, many times a design: it would hold up the page

type Card = tuple[str, str, str, str]


async def build_start(shop: Shop, name: str, trouble: str = "") -> None:
    """The planes in this folder as cards, and a form for a new one."""
    cards = await asyncio.to_thread(_cards, shop.folder)
    with Tag("div", kind="fw-page"):
        with Tag("nav", kind="fw-tape", aria_label="Places, in the order of the job"):
            Tag("span", "Foamwright", "sign")
            with Tag("a", href="/start", aria_current="page"):
                Tag("b", "start")
            if name:
                with Tag("a", href=f"/shape?file={quote(name)}"):
                    Tag("b", "shape")
        stage = Tag("div", kind="fw-main alone")
        with stage, Tag("section", kind="fw-stage", id="stage"), Tag("div", kind="fw-sheetwork"):
            if trouble:
                with Tag("ul", kind="fw-faults"):
                    Tag("li", trouble.replace(f"{shop.folder}/", ""))
            Tag("h1", "Planes in this folder")
            _show_cards(cards)
            Tag("h1", "A new plane")
            StartForm(shop).build()


def _show_cards(cards: list[Card]) -> None:
    if not cards:
        Tag("p", "There is none yet. Answer what you know below; the rest is chosen for you.")
    with Tag("ul", kind="fw-planes"):
        for name, title, words, picture in cards:
            with Tag("li"), Tag("a", href=f"/shape?file={quote(name)}"):
                ui.html(picture, sanitize=False)
                Tag("b", title)
                Tag("small", words)
                Tag("small", name)


def _cards(folder: Path) -> list[Card]:
    cards: list[Card] = []
    for path in designs(folder)[:SHOWN]:
        with contextlib.suppress(OSError):  # it may be taken away meanwhile
            cards.append(_card(folder, path, path.stat().st_mtime_ns))
    return cards


@lru_cache(maxsize=64)
def _card(folder: Path, path: Path, written: int) -> Card:
    name = name_in(folder, path)
    if path.stat().st_size > LONG:
        return name, path.stem, "too long to look at from here; open it", ""
    try:
        plane = load(path)
        span = format_value(flat_span(plane.design), "length", plane.design.units)
        mass = format_value(plane.balance.all_up_mass, "mass", plane.design.units)
        return name, plane.design.name, f"{span}, {mass}", _picture(plane)
    except FoamwrightError:
        return name, path.stem, "cannot be read; open it to see why", ""


def _picture(plane: Any) -> str:  # noqa: ANN401 - a plane
    shapes = from_above(plane.airframe)
    points = [point for shape in shapes for point in shape.points]
    left, right = min(x for x, _ in points), max(x for x, _ in points)
    low, high = min(-y for _, y in points), max(-y for _, y in points)
    box = f"{left:.3f} {low:.3f} {right - left:.3f} {high - low:.3f}"
    paths = "".join(
        '<path d="M' + "L".join(f"{x:.3f} {-y:.3f}" for x, y in shape.points) + 'Z"/>'
        for shape in shapes
    )
    return f'<svg viewBox="{box}" aria-hidden="true">{paths}</svg>'


class StartForm:
    """A few questions; what is left open takes what is usual for the kind of plane."""

    def __init__(self, shop: Shop) -> None:
        self.shop = shop
        self.said = {"name": "", "kind": "trainer", "span": "", "board": "", "capacity": ""}

    def build(self) -> None:
        """Lay the form out."""
        self.said["units"] = "inch"
        with Tag("div", kind="fw-fields"):
            self._ask("name", "its name", "My First Plane")
            choice("kind", KINDS, "trainer", self._keep("kind"))
            choice("units", ["inch", "metric"], "inch", self._keep("units"))
            self._ask("span", "span, such as 48 in or 1.2 m", "usual for the kind")
            self._ask("board", "one whole sheet weighs", "not weighed")
            self._ask("capacity", "pack, such as 1300 mAh", "usual for the size")
        self.faults = Tag("ul", kind="fw-faults", aria_live="polite")
        with Tag("div", kind="fw-row"):
            button("Draw it", self._make, "strong")

    def _ask(self, key: str, label: str, hint: str) -> None:
        with Tag("label"):
            Tag("span", label)
            made = Tag("input", placeholder=hint, aria_label=label, autocomplete="off")
        made.on("input", self._keep(key), js_handler=VALUE)
        made.on("keydown.enter", self._make)

    def _keep(self, key: str) -> Any:  # noqa: ANN401 - a handler
        def handler(event: Any) -> None:  # noqa: ANN401 - of the page library
            self.said[key] = str(event.args)[:80]

        return handler

    async def _make(self) -> None:
        self.faults.clear()
        try:
            name = await asyncio.to_thread(self._made)
        except FoamwrightError as error:
            with self.faults:
                Tag("li", str(error))
            return
        ui.navigate.to(f"/shape?file={quote(name)}")

    def _made(self) -> str:
        said = self.said
        title = said["name"].strip() or "My First Plane"
        file = inside(self.shop.folder, f"{slug(title)}.toml")
        if file.exists():
            message = f"{file.name} is there already; give the plane another name."
            raise OutputError(message)
        answers = Answers(
            title,
            kind=said["kind"],
            span=_read(said["span"], "length", "span"),
            units=said["units"],
            board_mass=_read(said["board"], "mass", "one sheet"),
            capacity=_read(said["capacity"], "charge", "pack"),
        )
        self.shop.add(file, start_design(answers, file).text).save()
        return name_in(self.shop.folder, file)


def _read(text: str, dimension: str, name: str) -> float | None:
    if not text.strip():
        return None
    try:
        return parse(text.strip(), dimension)
    except UnitError as error:
        raise DesignError(name, error.got, error.allowed, error.fix) from None
