"""What thousands of throws tell, in words and tables for people."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from foamwright.flight.simulation.story import Story
    from foamwright.flight.simulation.study import BestThrow, Changes
    from foamwright.flight.simulation.throws import Launch
    from foamwright.plane import Plane

SHOWN = 6  # changes that help, and two that hurt
GLIDE = 0.05  # throttle below which a throw is a glide toss


def throw_words(plane: Plane, launch: Launch, story: Story, *, care: str) -> str:
    """The throws in words: what was thrown, how many flew, how the others ended and why.

    Args:
        plane: The plane. [-]
        launch: What was thrown. [-]
        story: What came of it. [-]
        care: Of the builds. [-]

    Returns:
        Lines. [-]

    Source:
        Definition.

    Example:
        >>> throw_words(plane, launch, story, care="careful")  # doctest: +SKIP
    """
    from foamwright.cli.table import paragraph, table

    lines = [paragraph(_asked(plane, launch, story, care)), ""]
    lines += [paragraph(_shares(plane, launch, story)), ""]
    rows = [
        [
            end.name,
            share_words(end.share),
            "" if end.name == "flew away" else f"{end.time:.1f} s",
            "" if end.name == "flew away" else _length(plane, end.distance),
            "" if end.name == "flew away" else f"{100 * end.left:.0f} %",
        ]
        for end in story.ends
    ]
    head = ["how it ends", "share", "after", "from the hand", "leaning left"]
    lines += [table(rows, head=head, right="lrrrr"), ""]
    for end in story.ends:
        if end.causes:
            text = f"Those that {end.name} " + "; ".join(_cause(plane, c) for c in end.causes)
            lines.append(paragraph(text + ".", indent="  ", first=""))
    lines.append(paragraph(_release(plane, story)))
    return "\n".join(lines)


def share_words(value: float) -> str:
    """A share in per cent, as fine as it means something.

    Args:
        value: Share. [-]

    Returns:
        Words. [-]

    Source:
        Definition.

    Example:
        >>> share_words(0.995), share_words(1.0)
        ('99.5 %', '100 %')
    """
    percent = 100.0 * value
    return f"{percent:.1f} %" if 0.0 < percent < 100.0 else f"{percent:.0f} %"


def _shares(plane: Plane, launch: Launch, story: Story) -> str:
    if launch.throttle < GLIDE:
        return (
            f"A glide toss: every throw comes down, the middle one "
            f"{_length(plane, story.distance)} from the hand. Over long grass, firm and level at "
            f"flying speed, it shows trim and balance."
        )
    return (
        f"{share_words(story.share)} of {story.count} throws fly away (95 % interval "
        f"{share_words(story.low)} to {share_words(story.high)}); {share_words(story.clean)} do so "
        f"without a near thing: never lower than {_near(plane)}, never banked beyond 45 deg."
    )


def _near(plane: Plane) -> str:
    return _length(plane, 0.5)


def _speed(plane: Plane, value: float) -> str:
    from foamwright.core.units import format_value

    return format_value(value, "speed", plane.design.units)


def _length(plane: Plane, value: float) -> str:
    from foamwright.core.units import format_value

    return format_value(value, "distance", plane.design.units)


def _asked(plane: Plane, launch: Launch, story: Story, care: str) -> str:
    thrower = launch.thrower
    run = ", with a run" if thrower.run_up else ""
    air = "still air" if launch.wind == 0.0 else f"wind {_speed(plane, launch.wind)} with gusts"
    made = {
        "exact": "built exactly as designed",
        "careful": "carefully built, not yet trimmed in flight",
        "rough": "roughly built, not yet trimmed in flight",
    }
    return (
        f"{plane.design.name}: {story.count} throws at "
        f"{_speed(plane, thrower.speed + thrower.run_up)}{run}, "
        f"{math.degrees(thrower.angle):.0f} deg up, from {_length(plane, thrower.height)}, "
        f"throttle {100 * launch.throttle:.0f} %, {air}; pilot's hand on the stick after "
        f"{launch.hands.reaction:.1f} s; {made[care]}."
    )


def _release(plane: Plane, story: Story) -> str:
    short = (
        f"{_speed(plane, story.deficit)} short of its stall speed of "
        f"{_speed(plane, story.stall_speed)}"
        if story.deficit > 0.0
        else f"above its stall speed of {_speed(plane, story.stall_speed)}"
    )
    torque = math.degrees(story.torque_roll)
    twist = f" and the propeller's torque rolls it left by {torque:.0f} deg/s²"
    turned = twist if torque > 1.0 else ""
    return (
        f"At the release it moves through the air at {_speed(plane, story.airspeed)}, {short}; the "
        f"thrust there is {story.pull:.2f} of the weight{turned}. Nine of ten stay above "
        f"{_length(plane, max(story.lowest, 0.0))}."
    )


_WORDS = {
    "airspeed": ("were slower", "were faster"),
    "way of the hand": ("were thrown lower", "were thrown higher"),
    "nose above the way": ("had the nose lower", "had the nose higher"),
    "pitching by the hand": ("were pitched down by the hand", "were pitched up by the hand"),
    "height of the hand": ("left a lower hand", "left a higher hand"),
    "bank": ("left the hand more level", "left the hand banked more"),
    "rolling by the hand": ("were rolled less by the hand", "were rolled more by the hand"),
    "elevator": ("had more up elevator", "had more down elevator"),
    "balance aft": ("balanced further forward", "balanced further aft"),
    "mass": ("were lighter", "were heavier"),
    "thrust": ("had less thrust", "had more thrust"),
    "drag": ("had less drag", "had more drag"),
    "down thrust": ("had less down thrust", "had more down thrust"),
    "warp": ("were warped less", "were warped more"),
    "aileron": ("had the ailerons nearer to neutral", "had the ailerons further off neutral"),
}


def _cause(plane: Plane, cause: Any) -> str:  # noqa: ANN401 - a Cause; imported only for types
    word = _WORDS[cause.name][int(cause.apart > 0.0)]
    failed, flew = (_value(plane, cause.name, mean) for mean in (cause.failed, cause.flew))
    return f"{word} ({failed} v {flew})"


def _value(plane: Plane, name: str, value: float) -> str:
    from foamwright.core.units import format_value

    if name == "airspeed":
        return _speed(plane, value)
    if name in ("height of the hand", "balance aft"):
        return format_value(value, "length", plane.design.units)
    if name in ("mass", "thrust", "drag"):
        return f"{100.0 * (value - 1.0):+.0f} %"
    unit = "deg/s" if "by the hand" in name else "deg"
    return f"{math.degrees(value):+.1f} {unit}"


def best_words(plane: Plane, launch: Launch, best: BestThrow) -> str:
    """Best throttle, angle and speed with the sweeps behind them.

    Args:
        plane: The plane. [-]
        launch: What was thrown. [-]
        best: The sweeps. [-]

    Returns:
        Lines. [-]

    Source:
        Definition.

    Example:
        >>> best_words(plane, launch, best)  # doctest: +SKIP
    """
    from foamwright.cli.table import paragraph, table

    base = launch.thrower.speed + launch.thrower.run_up
    text = (
        f"Best for this plane, each alone: throttle {100 * best.throttle:.0f} %, thrown "
        f"{math.degrees(best.angle):.0f} deg up, at {_speed(plane, best.speed)} or more."
    )
    lines = [paragraph(text), ""]
    ups = [math.degrees(o.variant.angle + launch.thrower.angle) for o in best.angles]
    sticks = [f"{100 * (o.variant.throttle or 0.0):.0f} %" for o in best.throttles]
    sweeps = (
        ("throttle", best.throttles, sticks),
        ("up", best.angles, [f"{up:.0f} deg" for up in ups]),
        ("speed", best.speeds, [_speed(plane, base + o.variant.speed) for o in best.speeds]),
    )
    for name, outcomes, places in sweeps:
        head = [name, *places]
        rows = [
            ["fly away", *[share_words(o.share) for o in outcomes]],
            ["no near thing", *[share_words(o.clean) for o in outcomes]],
        ]
        lines += [table(rows, head=head, right="l" + "r" * len(places)), ""]
    return "\n".join(lines[:-1])


def change_words(launch: Launch, changes: Changes, *, units: str) -> str:
    """Which change helps most.

    Args:
        launch: What was thrown. [-]
        changes: What each does. [-]
        units: "metric" or "inch". [-]

    Returns:
        Lines. [-]

    Source:
        Definition.

    Example:
        >>> change_words(launch, changes, units="inch")  # doctest: +SKIP
    """
    from foamwright.cli.table import paragraph, table
    from foamwright.core.words import in_units

    where = (
        f"at {100 * changes.throttle:.0f} % throttle, where {share_words(changes.share)} fly away"
    )
    if changes.moved:
        where += f"; at {100 * launch.throttle:.0f} % too many or too few do to tell changes apart"
    lines = [paragraph(f"What helps, each alone, the same throws flown again ({where}):"), ""]
    shown = [*changes.outcomes[:SHOWN], *changes.outcomes[-2:]]
    rows = [
        [
            in_units(o.variant.name, units),
            f"{100 * o.gain:+.0f}",
            f"{196 * o.error:.0f}",
            share_words(o.share),
        ]
        for o in shown
    ]
    head = ["change", "points", "±", "then fly away"]
    return "\n".join([*lines, table(rows, head=head, right="lrrr")])
