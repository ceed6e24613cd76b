"""Beside the flight view: the throw, the air, and flaws of the build put in on purpose."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import partial
from typing import TYPE_CHECKING, Any

from foamwright.core.errors import FoamwrightError
from foamwright.core.units import format_value, parse
from foamwright.flight.simulation.flaws import NO_FLAWS
from foamwright.web.tags import Tag, button, choice, field

if TYPE_CHECKING:
    from foamwright.plane import Plane
    from foamwright.web.flight_model import Setup

FROM = {
    "ahead": 0,
    "ahead, right": 45,
    "the right": 90,
    "behind": 180,
    "the left": 270,
    "ahead, left": 315,
}  # deg right of ahead
BEGINS = ["in the hand", "up in the air"]
SLOWEST, FASTEST = 2.0, 15.0  # m/s, throws that an arm can do
WINDIEST = 12.0  # m/s, beyond which nobody flies foam
STEEPEST = math.radians(45.0)


@dataclass(frozen=True, slots=True)
class Slider:
    """One flaw to slide.

    Attributes:
        name: Field of Flaws.
        label: On the page.
        kind: "angle", "length", "mass" or "factor".
        low: Lowest. [SI]
        high: Highest. [SI]
        steps: Between low and high. [-]
        rest: Without the flaw. [SI]
        look: What to look for.
    """

    name: str
    label: str
    kind: str
    low: float
    high: float
    steps: int
    rest: float
    look: str


def _angle(name: str, label: str, most: float, look: str) -> Slider:
    edge = math.radians(most)
    return Slider(name, label, "angle", -edge, edge, round(4 * most), 0.0, look)


SLIDERS = (
    _angle("left_twist", "left wing warped, nose up", 4.0,
           "Rolls, power on and off, and more the faster it flies."),
    _angle("right_twist", "right wing warped, nose up", 4.0,
           "Rolls, power on and off, and more the faster it flies."),
    Slider("cg_shift_aft", "balance point aft", "length", -0.03, 0.03, 60, 0.0,
           "Aft: touchy, tucks or pitches up by itself. Forward: dull, needs up all the time."),
    _angle("thrust_down_error", "thrust line bent down", 6.0,
           "Throttle on and off at the same speed: the nose goes down, or up."),
    _angle("thrust_right_error", "thrust line bent right", 6.0, "It turns, with power only."),
    Slider("left_tip_mass", "mass on the left wing tip", "mass", 0.0, 0.04, 40, 0.0,
           "A wing hangs when slow, much less when fast."),
    Slider("right_tip_mass", "mass on the right wing tip", "mass", 0.0, 0.04, 40, 0.0,
           "A wing hangs when slow, much less when fast."),
    _angle("stab_incidence_error", "stab set nose up", 4.0,
           "It dives, and more the faster it flies; leading edge down, it climbs."),
    Slider("pack_resistance_factor", "a tired pack: its resistance", "factor", 1.0, 5.0, 40, 1.0,
           "Climbs poorly at full throttle; half throttle changes little."),
    Slider("motor_factor", "a weak motor: its thrust", "factor", 0.4, 1.2, 40, 1.0,
           "The throw sinks further before it climbs."),
    Slider("drag_factor", "rough build: its drag", "factor", 0.8, 2.0, 48, 1.0,
           "Glides steeper, slows sooner when the throttle is cut."),
)  # fmt: skip


class FlightPanel:
    """The controls of one flight view."""

    def __init__(self, plane: Plane, setup: Setup, changed: Callable[[Setup, str], Any]) -> None:
        self.plane = plane
        self.setup = setup
        self._changed = changed
        self._shown: dict[str, tuple[Tag, Tag]] = {}

    def build(self) -> None:
        """Lay the controls out."""
        setup, units = self.setup, self.plane.design.units
        with Tag("aside", kind="fl-panel", aria_label="Throw, air and flaws"):
            Tag("h2", "The start")
            with Tag("div", kind="fl-fields"):
                choice("begins", BEGINS, BEGINS[0], self._begin)
                speed = format_value(setup.speed, "speed", units)
                self._speed = field("throw speed", speed, self._throw)
                angle = f"{math.degrees(setup.angle):.0f}°"
                self._angle = field("nose up", angle, self._aim)
                self._open = field("throttle", f"{100 * setup.throttle:.0f} %", self._throttle)
            Tag("h2", "The air")
            with Tag("div", kind="fl-fields"):
                wind = format_value(setup.wind, "speed", units)
                self._wind = field("wind", wind, self._blow)
                choice("from", list(FROM), "ahead", self._turn)
                with Tag("label", kind="fl-tick"):
                    gusty = Tag("input", type="checkbox", checked=setup.gusts or None)
                    Tag("span", "gusts")
                gusty.on("change", self._gusty, js_handler="(e) => emit(e.target.checked)")
            self._trouble = Tag("p", kind="fl-trouble", role="alert")
            self._flaws()

    # ------------------------------------------------------------ flaws

    def _flaws(self) -> None:
        with Tag("details", kind="fl-flaws", open=True):
            with Tag("summary"):
                Tag("b", "Flaws on purpose")
            Tag("p", "Build it wrong here, and see how that flies.")
            for slider in SLIDERS:
                self._slider(slider)
            button("A true plane again", self._mend)
            self._look = Tag("p", kind="fl-look", role="status")

    def _slider(self, slider: Slider) -> None:
        size = (slider.high - slider.low) / slider.steps
        rest = round((slider.rest - slider.low) / size)
        with Tag("label", kind="fl-slider"):
            Tag("span", slider.label)
            said = Tag("b", self._say(slider, slider.rest))
            made = Tag(
                "input",
                type="range",
                min=0,
                max=slider.steps,
                step=1,
                value=rest,
                aria_label=slider.label,
                aria_valuetext=self._say(slider, slider.rest),
            )
        made.on("change", partial(self._slide, slider), js_handler="(e) => emit(+e.target.value)")
        self._shown[slider.name] = (said, made)

    def _say(self, slider: Slider, value: float) -> str:
        if slider.kind == "angle":
            return f"{math.degrees(value):+.1f}°" if abs(value) > 1e-9 else "straight"
        if slider.kind == "factor":
            return f"× {value:.2f}"
        if abs(value) < 1e-9:
            return "none" if slider.kind == "mass" else "as drawn"
        sign = "−" if value < 0 else ""
        return sign + format_value(abs(value), slider.kind, self.plane.design.units)

    def _slide(self, slider: Slider, event: Any) -> None:  # noqa: ANN401 - of the page library
        place = min(max(int(event.args), 0), slider.steps)
        value = slider.low + (slider.high - slider.low) * place / slider.steps
        if abs(value - slider.rest) < 1e-9:
            value = slider.rest
        said, made = self._shown[slider.name]
        said.say(self._say(slider, value))
        made.put("aria-valuetext", self._say(slider, value))
        made.put("value", place)
        self._look.say(slider.look)
        flaws = replace(self.setup.flaws, **{slider.name: value})
        self._put(replace(self.setup, flaws=flaws), f"{slider.label}: {self._say(slider, value)}")

    def _mend(self) -> None:
        for slider in SLIDERS:
            said, made = self._shown[slider.name]
            said.say(self._say(slider, slider.rest))
            size = (slider.high - slider.low) / slider.steps
            made.put("value", round((slider.rest - slider.low) / size))
            made.put("aria-valuetext", self._say(slider, slider.rest))
        self._look.say("")
        self._put(replace(self.setup, flaws=NO_FLAWS), "a true plane")

    # ------------------------------------------------------------ start and air

    def _begin(self, event: Any) -> None:  # noqa: ANN401 - as above
        hand = event.args == BEGINS[0]
        self._put(replace(self.setup, from_hand=hand), str(event.args))

    def _throw(self, event: Any) -> None:  # noqa: ANN401 - as above
        self._number(str(event.args)[:40], "speed", "speed", (SLOWEST, FASTEST), "a throw by arm")

    def _blow(self, event: Any) -> None:  # noqa: ANN401 - as above
        self._number(str(event.args)[:40], "wind", "speed", (0.0, WINDIEST), "wind to fly foam in")

    def _aim(self, event: Any) -> None:  # noqa: ANN401 - as above
        self._number(str(event.args)[:40], "angle", "angle", (-STEEPEST, STEEPEST), "a throw")

    def _throttle(self, event: Any) -> None:  # noqa: ANN401 - as above
        self._number(str(event.args)[:40], "throttle", "percent", (0.0, 1.0), "the throttle")

    def _turn(self, event: Any) -> None:  # noqa: ANN401 - as above
        turned = math.radians(FROM.get(str(event.args), 0))
        self._put(replace(self.setup, wind_from=turned), f"wind from {event.args}")

    def _gusty(self, event: Any) -> None:  # noqa: ANN401 - as above
        self._put(replace(self.setup, gusts=bool(event.args)), "gusts" if event.args else "steady")

    def _number(
        self, text: str, name: str, kind: str, limits: tuple[float, float], what: str
    ) -> None:
        try:
            value = self._read(text, kind)
        except FoamwrightError as error:
            self._trouble.say(str(error))
            return
        if not limits[0] <= value <= limits[1]:
            low, high = (self._write(edge, kind) for edge in limits)
            self._trouble.say(f"{text}: {what} goes from {low} to {high}.")
            return
        self._put(replace(self.setup, **{name: value}), f"{name} {self._write(value, kind)}")

    def _read(self, text: str, kind: str) -> float:
        said = text.strip().replace("°", " deg").replace("−", "-")
        if kind == "percent":
            return parse(f"{said.rstrip('% ')} %", "fraction")
        if said and said[-1].isdigit():
            inch = self.plane.design.units == "inch"
            said += " deg" if kind == "angle" else " mph" if inch else " m/s"
        return parse(said, kind)

    def _write(self, value: float, kind: str) -> str:
        if kind == "percent":
            return f"{100 * value:.0f} %"
        if kind == "angle":
            return f"{math.degrees(value):.0f}°"
        return format_value(value, kind, self.plane.design.units)

    def _put(self, setup: Setup, words: str) -> None:
        self._trouble.say("")
        self.setup = setup
        self._changed(setup, words)
