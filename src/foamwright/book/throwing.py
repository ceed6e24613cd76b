"""The launch in four lines, from simulated throws of builds as careful hands make them."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from foamwright.core.unit_table import FOOT
from foamwright.core.units import format_value
from foamwright.flight.simulation.hands import hands_of
from foamwright.flight.simulation.story import Story, story_of
from foamwright.flight.simulation.study import BestThrow, best_throw
from foamwright.flight.simulation.thrower import BuildSpread, builds_of, thrower_for
from foamwright.flight.simulation.throws import Launch, throw

if TYPE_CHECKING:
    from foamwright.plane import Plane

THROWS = 40  # simulated, each a build of its own; enough for a tenth more or less
SEED = 1
SURE, DOUBTFUL = 0.9, 0.6  # share that flies away without a near thing: good, and not to be tried


@dataclass(frozen=True, slots=True)
class ThrownCard:
    """What the card tells of the launch.

    Attributes:
        best: Throttle, angle and speed, each alone.
        usual: Throws at the usual speed with the best throttle and angle.
        speed: Of these. [m/s]
    """

    best: BestThrow
    usual: Story
    speed: float


def thrown_card(plane: Plane) -> ThrownCard:
    """Throw the plane for its field card.

    Args:
        plane: The plane. [-]

    Returns:
        Best setting, and what it gives.

    Raises:
        ModelError: It cannot be thrown or trimmed.

    Source:
        foamwright.flight.simulation.

    Example:
        >>> thrown_card(plane).usual.count
        40
    """
    pilot = plane.design.pilot
    thrower = thrower_for(
        plane.balance.all_up_mass, speed=pilot.throw_speed, height=pilot.throw_height
    )
    launch = Launch(thrower=thrower, hands=hands_of(pilot.level))
    builds = builds_of(BuildSpread(), THROWS, SEED)
    best = best_throw(plane.flawed, launch, builds, seed=SEED, workers=1)
    set_so = replace(launch, thrower=replace(thrower, angle=best.angle), throttle=best.throttle)
    craft = plane.flawed(builds)
    story = story_of(craft, throw(craft, set_so, THROWS, SEED, workers=1))
    return ThrownCard(best, story, thrower.speed)


def thrown_lines(plane: Plane) -> tuple[str, str, str, str]:
    """The launch in four lines.

    Args:
        plane: The plane. [-]

    Returns:
        How to stand, set, throw, and what comes then.

    Raises:
        ModelError: It cannot be thrown or trimmed.

    Source:
        `thrown_card`; the way to do it is common practice.

    Example:
        >>> thrown_lines(plane)[1][:12]
        '2. Throttle '
    """
    card, units = thrown_card(plane), plane.design.units
    story, best = card.usual, card.best

    def speed(value: float) -> str:
        return format_value(value, "speed", units)

    angle = round(math.degrees(best.angle))
    nose = "level" if angle <= 0 else f"{angle}° up"
    full = best.throttles[-1]
    why = (
        f"at full power {_of(full.clean)} stay clear of trouble"
        if full.clean < story.clean - 0.1
        else "more does no harm"
    )
    enough = (
        f"your usual {speed(card.speed)}; at {speed(best.speed)} it still flew"
        if best.speed < card.speed - 0.2
        else f"{speed(max(best.speed, card.speed))}, not slower"
    )
    flew, clean = round(story.share * story.count), round(story.clean * story.count)
    clear = "none of them with" if clean == flew else f"{clean} of them without"
    return (
        "1. Face the wind. Wings level, fingers clear of the propeller, helper throws if there is "
        "one.",
        f"2. Throttle to {100 * best.throttle:.0f} % before the throw ({why}).",
        f"3. Throw like a dart, nose {nose}, along a line, no lob: {enough}. Of {story.count} "
        f"simulated throws in calm {flew} flew away, {clear} a near thing.",
        f"4. Hand to the stick. {_then(story, units)}",
    )


def _of(share: float) -> str:
    return f"{round(share * THROWS)} of {THROWS}"


def _then(story: Story, units: str) -> str:
    low = f"nine of ten stay above {_height(story.lowest, units)}"
    if story.clean >= SURE:
        return f"Wings level, then climb gently: {low}."
    ends = [end.name for end in story.ends if end.name != "flew away"]
    most = f"; what goes wrong most is that it {ends[0]}" if ends else "; the near things are banks"
    if story.share >= DOUBTFUL:
        return f"Wings level at once, wait for speed: {low}{most}. Wait for wind on the nose."
    return (
        f"Do not throw it so{most}. Mend it first: 'foamwright throw' tells what helps, "
        "'foamwright check' why."
    )


def _height(height: float, units: str) -> str:
    above = max(height, 0.0)
    return f"{above:.1f} m" if units == "metric" else f"{above / FOOT:.0f} ft"
