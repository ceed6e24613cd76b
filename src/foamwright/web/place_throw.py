"""Throw: how a hand launch of this plane ends, thrown hundreds of times before it is cut."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any

import numpy as np
from nicegui import background_tasks, ui
from numpy.typing import NDArray

from foamwright.core.errors import FoamwrightError
from foamwright.core.units import format_value, parse
from foamwright.core.words import in_units
from foamwright.flight.simulation.hands import hands_of
from foamwright.flight.simulation.story import story_of
from foamwright.flight.simulation.study import best_throw, outcome_map, what_helps
from foamwright.flight.simulation.thrower import (
    RUN_UP,
    BuildSpread,
    builds_of,
    refuse_throw,
    thrower_for,
)
from foamwright.flight.simulation.throws import Launch, throw
from foamwright.web.errand import Errand
from foamwright.web.place import Place
from foamwright.web.tags import Tag, button, choice, field, table
from foamwright.web.throw_map import map_picture

if TYPE_CHECKING:
    from foamwright.flight.simulation.story import Story
    from foamwright.flight.simulation.study import BestThrow, Changes, Outcome
    from foamwright.plane import Plane
    from foamwright.web.errand import Tell
    from foamwright.web.page import Page

type Array = NDArray[np.float64]

THROWS = 500  # of the answer; a share to about 4 points
SQUARE, TRIED = 24, 80  # throws a square of the map, and a change
SPEEDS, THROTTLES = np.arange(3.0, 10.1, 1.0), np.linspace(0.0, 1.0, 9)
SEED = 1  # the same throws at every visit
PILOTS = ["beginner", "returning", "experienced"]
HOLDS = ["standing", "with a few running steps"]
SHOWN, HURTS = 6, 2  # changes that help most, and that hurt most
CAUTION = (
    "A simulation is no clearance to fly near people. First launch: over long grass, into the "
    "wind, nobody ahead or beside, fingers behind the propeller's disc, a helper throws and the "
    "pilot keeps both hands on the sticks. Local rules come first."
)


@dataclass(slots=True)
class _Asked:
    """What the fields say."""

    speed: float | None
    angle: float
    throttle: float
    wind: float
    pilot: str
    running: bool = False


class ThrowPlace:
    """The throws of one page."""

    def __init__(self, page: Page) -> None:
        self.page = page
        self.generation = -1
        self.errand = Errand(page, name="throws")
        plane = page.plane()
        pilot = plane.design.pilot
        usual = thrower_for(plane.balance.all_up_mass, speed=pilot.throw_speed)
        self.asked = _Asked(None, usual.angle, 0.7, 0.0, pilot.level)
        self.usual = usual.speed

    def build(self) -> None:
        """Lay the place out."""
        units = self.page.plane().design.units
        with Tag("div", kind="fw-sheetwork"):
            Tag("h1", "Throw it before it is cut")
            with Tag("div", kind="fw-fields"):
                said = format_value(self.usual, "speed", units)
                field("throw speed, standing", said, self._set("speed", "speed"))
                choice("thrown", HOLDS, HOLDS[0], self._run_up)
                angle = f"{math.degrees(self.asked.angle):.0f} deg"
                field("way of the hand, up", angle, self._set("angle", "angle"))
                field("throttle", "70 %", self._set("throttle", "fraction"))
                still = format_value(0.0, "speed", units)
                field("wind from ahead, with gusts", still, self._set("wind", "speed"))
                choice("pilot", PILOTS, self.asked.pilot, self._pilot)
            with Tag("div", kind="fw-row"):
                starts = [
                    button(f"Throw it {THROWS} times", self._throw, "strong"),
                    button("Map of speed and throttle", self._map),
                    button("What helps most", self._help),
                ]
            self.errand.build(starts)
            self.answer = Tag("section", aria_label="How the throws end")
            self.picture = Tag("section", aria_label="Map")
            self.changes = Tag("section", aria_label="What helps")
            Tag("p", CAUTION)
        self.page.refresh_place = self.again
        self.again()

    def again(self) -> None:
        """Throw the plane as it is now when the design has changed."""
        if self.generation != self.page.desk.generation:
            self.generation = self.page.desk.generation
            for section in (self.picture, self.changes):
                section.clear()
            background_tasks.create(self._throw())

    # ------------------------------------------------------------ what is asked

    def _set(self, name: str, kind: str) -> Callable[[Any], None]:
        def change(event: Any) -> None:  # noqa: ANN401 - of the page library
            said = str(event.args)[:40].strip().replace("°", " deg")
            try:
                bare = said[-1:].isdigit()
                inch = self.page.plane().design.units == "inch"
                unit = {"speed": "mph" if inch else "m/s", "angle": "deg", "fraction": "%"}[kind]
                value = parse(f"{said} {unit}" if bare else said, kind)
            except FoamwrightError as error:
                self.errand.trouble.say(str(error))
                return
            self.errand.trouble.say("")
            setattr(self.asked, name, value)

        return change

    def _pilot(self, event: Any) -> None:  # noqa: ANN401 - as above
        if event.args in PILOTS:
            self.asked.pilot = str(event.args)

    def _run_up(self, event: Any) -> None:  # noqa: ANN401 - as above
        self.asked.running = event.args == HOLDS[1]

    def _launch(self, plane: Plane) -> Launch:
        asked, pilot = self.asked, plane.design.pilot
        speed = pilot.throw_speed if asked.speed is None else asked.speed
        usual = thrower_for(plane.balance.all_up_mass, speed=speed, height=pilot.throw_height)
        run = RUN_UP if asked.running else 0.0
        thrower = replace(usual, angle=asked.angle, run_up=run)
        refuse_throw(thrower)
        return Launch(thrower, hands_of(asked.pilot), throttle=asked.throttle, wind=asked.wind)

    # ------------------------------------------------------------ long work

    async def _throw(self) -> None:
        plane = self.page.plane()

        def job(tell: Tell) -> tuple[Launch, Story]:
            tell(f"Throwing {THROWS} times", 0.0)
            launch = self._launch(plane)
            craft = plane.flawed(builds_of(BuildSpread(), THROWS, SEED))
            return launch, story_of(craft, throw(craft, launch, THROWS, SEED, workers=1))

        found = await self.errand.run(job)
        if found is not None:
            self.answer.clear()
            with self.answer:
                _tell(*found, plane.design.units)

    async def _map(self) -> None:
        plane = self.page.plane()
        units = plane.design.units

        def job(tell: Tell) -> str:
            launch = self._launch(plane)
            builds = builds_of(BuildSpread(), SQUARE, SEED)
            found: list[Array] = []
            for number, speed in enumerate(SPEEDS.tolist()):
                said = format_value(speed, "speed", units)
                tell(f"Thrown at {said}, {number + 1} of {len(SPEEDS)}", number / len(SPEEDS))
                column = outcome_map(plane.flawed, launch, builds, seed=SEED, workers=1,
                                     speeds=np.array([speed]), throttles=THROTTLES)  # fmt: skip
                found.append(column.ends[0])
                if self.errand.gone():
                    break
            here = launch.thrower.speed + launch.thrower.run_up, launch.throttle
            return map_picture(SPEEDS, THROTTLES, np.array(found), units=units, here=here)

        picture = await self.errand.run(job)
        if picture is None:
            return
        self.picture.clear()
        with self.picture:
            Tag("h2", "How throws end over speed and throttle")
            ui.html(picture, sanitize=False)
            Tag("p", "Percent that fly away, and how most of the others end; framed: your throw. "
                f"{SQUARE} throws a square, the same hands, builds and gusts in each.")  # fmt: skip

    async def _help(self) -> None:
        plane = self.page.plane()

        def job(tell: Tell) -> tuple[BestThrow, Changes | None]:
            launch = self._launch(plane)
            builds = builds_of(BuildSpread(), TRIED, SEED)
            tell("Flying the same throws at other throttles, angles and speeds", 0.0)
            best = best_throw(plane.flawed, launch, builds, seed=SEED, workers=1)
            if self.errand.gone():
                return best, None
            tell("Flying the same throws with one change of the plane", 0.4)
            return best, what_helps(plane.flawed, launch, builds, seed=SEED, workers=1)

        found = await self.errand.run(job)
        if found is None:
            return
        self.changes.clear()
        with self.changes:
            Tag("h2", "What suits it, and what helps most")
            _best(found[0], plane.design.units)
            if found[1] is not None:
                _helps(found[1], plane.design.units)


def _tell(launch: Launch, story: Story, units: str) -> None:
    """The throws in numbers."""
    Tag("p", f"{100 * story.share:.0f} % fly away", "th-share")
    glide = launch.throttle <= 0.0
    low = format_value(0.5, "distance", units)
    clean = (
        "With the throttle closed every throw comes down: a glide toss shows trim and balance."
        if glide
        else f"Of {story.count} throws; the true share lies between {100 * story.low:.0f} and "
        f"{100 * story.high:.0f} % (95 % interval). {100 * story.clean:.0f} % do so without a near "
        f"thing: never lower than {low}, never banked beyond 45 degrees."
    )
    Tag("p", clean)
    rows = [
        (
            end.name,
            f"{end.count}",
            f"{100 * end.share:.1f} %",
            "" if end.name == "flew away" else f"{end.time:.1f} s",
            "" if end.name == "flew away" else format_value(end.distance, "distance", units),
            "" if end.name == "flew away" else f"{100 * end.left:.0f} %",
        )
        for end in story.ends
    ]
    table(rows, head=("how it ends", "throws", "share", "after", "from the hand", "leaning left"))
    for end in story.ends:
        if end.causes:
            set_apart = ", ".join(_cause(cause.name, cause.apart) for cause in end.causes)
            Tag("p", f"Those that {end.name}: {set_apart} than those that flew away.")
    speed = format_value(story.airspeed, "speed", units)
    stall = format_value(story.stall_speed, "speed", units)
    Tag("p", f"It leaves the hand at {speed} through the air; its stall speed is {stall}. Thrust "
        f"there is {story.pull:.2f} of the weight.")  # fmt: skip


def _cause(name: str, apart: float) -> str:
    return f"{'more' if apart > 0 else 'less'} {name}"


def _best(best: BestThrow, units: str) -> None:
    Tag("p", f"Suits it best, each alone: throttle {100 * best.throttle:.0f} %, the hand going up "
        f"by {math.degrees(best.angle):.0f} degrees, "
        f"{format_value(best.speed, 'speed', units)} or faster.")  # fmt: skip


def _helps(changes: Changes, units: str) -> None:
    if changes.moved:
        told = f"{100 * changes.throttle:.0f} %, where {100 * changes.share:.0f} % fly away."
        Tag("p", f"At your throttle nearly all end alike, so changes were compared at {told}")
    gains = [one for one in changes.outcomes if one.gain > 0.0][:SHOWN]
    losses = [one for one in changes.outcomes if one.gain < 0.0][-HURTS:]
    rows = [_row(one, units) for one in (*gains, *losses)]
    if rows:
        table(rows, head=("change, alone", "then fly away", "difference in points", "give or take"))
    else:
        Tag("p", "No change that was tried makes a difference that can be told from chance.")


def _row(one: Outcome, units: str) -> tuple[str, ...]:
    return (
        in_units(one.variant.name, units),
        f"{100 * one.share:.0f} %",
        f"{100 * one.gain:+.0f}",
        f"± {100 * 1.96 * one.error:.0f}",
    )


def build_throw(page: Page) -> None:
    """Hundreds of hand launches: the share that flies away, how the others end, what helps.

    Args:
        page: The page to build on. [-]

    Source:
        docs/physics/flight-simulation.md.

    Example:
        >>> build_throw(page)  # doctest: +SKIP
    """
    if page.look is not None:
        ThrowPlace(page).build()


PLACES = (Place("throw", "throw", 46, build_throw, alone=True),)
