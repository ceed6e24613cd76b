"""The field card: one sheet, both sides."""

from __future__ import annotations

import contextlib
from typing import TYPE_CHECKING

from foamwright.book import cautions
from foamwright.book.model import Block, Grid, Heading, Words
from foamwright.book.set_up import FIRST, travel_words
from foamwright.book.variants import stick_words
from foamwright.core.errors import FoamwrightError
from foamwright.core.units import format_value
from foamwright.flight.observations import OBSERVATIONS
from foamwright.sheets.words import angle_words, length_words

if TYPE_CHECKING:
    from foamwright.plane import Plane

FACTS = "November 2026"  # when the thresholds were looked up
MASSES = (0.1, 0.25)  # kg, thresholds met in several countries' rules
SPEED = 19.0  # m/s, same
ENERGY = 80.0  # J, same
RULES = f"Thresholds as of {FACTS}; check your authority and club; rules change."
FIRST_WIND = 2.5  # m/s for a first flight; common practice
THROTTLE = 75  # % set before the throw; common practice, as the launch was computed
BOX = "☐"

PRE_FLIGHT = (
    "Weather, site, wind, nobody under or in front; who helps is told what comes.",
    "Airframe: no creases, hinges tugged, horns and rods firm, wing seated and held down firmly.",
    "Twist of both tips looked at from behind: as on the set-up page.",
    "Pack full, strapped, at its mark; CG tried with the fingers.",
    "Transmitter on first, right model; fail-safe and throttle cut tried, propeller clear.",
    "Every surface the right way. {sticks}.",
    "Range check as the radio's book says, motor off and running, plane held.",
    "Run-up held, pointed away: no shaking. Timer set.",
)


def card_blocks(plane: Plane) -> tuple[list[Block], list[Block]]:
    """Front and back.

    Args:
        plane: The plane. [-]

    Returns:
        Blocks of the two sides. [-]

    Source:
        The plane's results; lists are common practice, no source.

    Example:
        >>> card_blocks(plane)[0][0].words  # doctest: +SKIP
        'Brindle Cob: field card'
    """
    sticks = stick_words(plane.design)
    front: list[Block] = [
        Heading(f"{plane.design.name}: field card", 1),
        Heading("Limits"),
        Grid(("what", "how much"), tuple(_limits(plane)), (1.3, 4.0)),
        Heading("Before each flight"),
        *(Words(f"{BOX} {line.format(sticks=sticks)}", "small") for line in PRE_FLIGHT),
        Heading("Launch"),
        *(Words(line, "small") for line in launch_lines(plane)),
        Words(cautions.PROPELLER, "caution"),
        Words(cautions.PACK, "caution"),
    ]
    rows = tuple(
        (item.question, "   ".join(f"{BOX} {answer}" for answer in item.answers))
        for item in OBSERVATIONS
    )
    notes = tuple(("", "") for _ in range(2))
    back: list[Block] = [
        Heading(f"{plane.design.name}: test flight", 1),
        Grid(
            ("date, flight", "wind, air", "all-up", "CG", "minutes", "mAh back", "trims used"),
            (("",) * 7,) * 2,
            (1.2, 1.2, 0.9, 0.9, 0.9, 1.0, 1.8),
        ),
        Words(
            "High, straight, one thing at a time: trim level, slow, fast, glide, dive, stall. "
            "Tick one "
            "of each; then 'foamwright log'.",
            "small",
        ),
        Grid(("what was seen", "tick one"), rows, (1.5, 4.4)),
        Grid(("glide: height, distance, wind", "notes"), notes, (1.5, 4.4)),
        Heading("Rules"),
        Grid(("what", "this plane", "often asked about"), tuple(_rules(plane)), (1.5, 1.5, 3.0)),
        Words(RULES, "small"),
        Words(cautions.FLYING, "caution"),
        Words(cautions.ESTIMATE, "small"),
    ]
    return front, back


def _limits(plane: Plane) -> list[tuple[str, str]]:
    units = plane.design.units
    edge = plane.airframe.wing.panels[0].root[0]
    rows: list[tuple[str, str]] = []

    def behind(x: float) -> str:
        return length_words(x - edge, units)

    def speed(value: float) -> str:
        return format_value(value, "speed", units)

    cg = f"{behind(plane.balance.cg[0])} behind the wing's leading edge"
    try:
        aero, flight = plane.aero, plane.flight
    except FoamwrightError as error:
        return [("CG", cg), ("the rest", f"cannot say: {error}")]
    low, high = sorted((aero.cg_forward, aero.cg_aft))
    rows.append(("CG", f"{cg}; never outside {behind(low)} to {behind(high)}"))
    first = min(FIRST_WIND, flight.wind_limit)
    rows.append(
        ("wind", f"first flight up to {speed(first)}; later up to {speed(flight.wind_limit)}")
    )
    rows.append(("timer", _timer(plane)))
    rows.append(
        (
            "speeds",
            f"stall {speed(aero.stall_speed)}, glide at {speed(aero.best_glide_speed)}, "
            f"cruise {speed(flight.performance.level_speed)}, land no slower than "
            f"{speed(1.3 * aero.stall_speed)}",
        )
    )
    share = FIRST[plane.design.pilot.level]
    for surface in (plane.airframe.wing, plane.airframe.stab, plane.airframe.fin):
        for control in () if surface is None else surface.controls:
            one, two = ("left", "right") if control.name == "rudder" else ("up", "down")
            up, down = control.up, control.down
            rows.append(
                (
                    f"{control.name} throw",
                    f"{one} {angle_words(up)} = "
                    f"{travel_words(control.chord, up, units)}, "
                    f"{two} {angle_words(down)} = "
                    f"{travel_words(control.chord, down, units)}; "
                    f"first flights {100 * share:.0f} % of it",
                )
            )
    return rows


def _timer(plane: Plane) -> str:
    from foamwright.flight.mission import fly_mission

    try:
        mission = fly_mission(
            plane.aero, plane.train, plane.balance.all_up_mass, density=plane.air.density
        )
    except FoamwrightError as error:
        return f"cannot say: {error}"
    return (
        f"first flight {mission.first_timer / 60:.1f} min, later {mission.duration / 60:.0f} min; "
        f"charger then puts back about {mission.charge_back / 3.6:.0f} mAh"
    )


def launch_lines(plane: Plane) -> tuple[str, str, str, str]:
    """The launch in four lines.

    Args:
        plane: The plane. [-]

    Returns:
        How to stand, set, throw, and what comes then. [-]

    Source:
        Simulated throws, throwing.py; without them the launch of a point mass.

    Example:
        >>> launch_lines(plane)[0]  # doctest: +SKIP
        '1. Face the wind. ...'
    """
    from foamwright.book.throwing import thrown_lines

    units = plane.design.units
    with contextlib.suppress(FoamwrightError):
        return thrown_lines(plane)
    # What the simulation cannot throw, the point mass still can.
    try:
        launch = plane.flight.launch
    except FoamwrightError as error:
        return ("1. Face the wind, wings level, nose level.", f"2. Throttle {THROTTLE} %.",
                "3. Throw level, along a line, no lob.", f"4. Cannot say how it flies off: "
                                                         f"{error}")  # fmt: skip

    def speed(value: float) -> str:
        return format_value(value, "speed", units)

    help_words = (
        f"it leaves the hand at {speed(launch.throw_speed)} and flies at "
        f"{speed(launch.flying_speed)}: nothing is missing"
        if launch.deficit <= 0
        else f"{speed(launch.deficit)} are missing in still air: wait for that much wind on "
        f"the nose, "
        "or run"
    )
    sinks = (
        f"It may sink {format_value(launch.height_lost, 'distance', units)} before it flies: wings "
        "level, wait, then climb gently."
        if launch.flies
        else "In still air it does not fly before it meets the ground: do not launch without "
        "that wind."
    )
    return (
        "1. Face the wind. Wings level, nose level or a little up, fingers clear of the propeller.",
        f"2. Throttle to {THROTTLE} % before the throw, not full: full power rolls it left.",
        f"3. Throw level like a dart: {help_words}.",
        f"4. Hand to the stick. {sinks}",
    )


def _rules(plane: Plane) -> list[tuple[str, str, str]]:
    units = plane.design.units
    mass = plane.balance.all_up_mass

    def law(value: float, dimension: str) -> str:  # rules are written in metric
        said = format_value(value, dimension, "metric")
        return said if units == "metric" else f"{said} ({format_value(value, dimension, units)})"

    limits = " and ".join(law(value, "mass") for value in MASSES)
    above = [value for value in MASSES if mass > value]
    words = f"above {format_value(above[-1], 'mass', 'metric')}" if above else "below both"
    rows = [("mass", format_value(mass, "mass", units), f"{limits}: {words}")]
    try:
        flight = plane.flight
    except FoamwrightError:
        return [*rows, ("top level speed, energy", "cannot say", "")]
    top, energy = flight.performance.top_speed, flight.kinetic_energy
    rows.append(
        (
            "top level speed",
            format_value(top, "speed", units),
            f"{law(SPEED, 'speed')}: {'above' if top > SPEED else 'below'}",
        )
    )
    rows.append(
        ("energy at that speed", f"{energy:.0f} J",
         f"{ENERGY:.0f} J: {'above' if energy > ENERGY else 'below'}")
    )  # fmt: skip
    return rows
