"""Levers: what a builder may change on a plane, in builder's measures, smallest step first."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from foamwright.checks.say import degrees, say
from foamwright.core.unit_table import INCH

if TYPE_CHECKING:
    from foamwright.plane import Plane

type Values = dict[str, float | str]

QUARTER_INCH = 0.25 * INCH
FIVE_MILLIMETRES = 0.005
HALF_DEGREE = math.radians(0.5)
MOST_STEPS = 400  # of one lever


@dataclass(frozen=True, slots=True)
class Step:
    """One setting of a lever.

    Attributes:
        values: Dotted design key -> new value, SI.
        words: In the builder's units, such as "stab span 14 1/4 in instead of 12 in".
    """

    values: Values
    words: str


@dataclass(frozen=True, slots=True)
class Lever:
    """Settings that lead away from the present one, nearest first.

    Attributes:
        name: Such as "stab span".
        steps: Nearest to the present design first.
    """

    name: str
    steps: tuple[Step, ...]


def value_at(plane: Plane, key: str) -> Any:  # noqa: ANN401 -- a design holds any plain type
    """Value of the design at a dotted key.

    Args:
        plane: The plane. [-]
        key: Such as "wing.panel.0.span". [-]

    Returns:
        The value; None where the design leaves it out.

    Source:
        Definition.

    Example:
        >>> round(value_at(plane, "stab.span"), 2)
        0.33
    """
    found: Any = plane.design
    for word in key.split("."):
        if found is None:
            return None
        found = found[int(word)] if word.isdigit() else getattr(found, word)
    return found


def measure_step(plane: Plane) -> float:
    """Builder's step of length: a quarter of an inch or five millimetres.

    Args:
        plane: The plane. [-]

    Returns:
        Step. [m]

    Source:
        Common practice, no source.

    Example:
        >>> round(measure_step(plane), 4)
        0.0063
    """
    return QUARTER_INCH if plane.design.units == "inch" else FIVE_MILLIMETRES


def grid(start: float, end: float, step: float) -> tuple[float, ...]:
    """Whole multiples of a step from just beyond a start up to an end.

    Args:
        start: Present value; not among the result. [any]
        end: Where to stop; either side of the start. [any]
        step: Above zero. [any]

    Returns:
        Multiples of step, nearest the start first. [any]

    Source:
        Definition.

    Example:
        >>> grid(0.0, 0.011, 0.005), grid(3.2, 1.0, 1.0)
        ((0.005, 0.01), (3.0, 2.0, 1.0))
    """
    slack = 1e-6
    if end > start:
        first, last = math.floor(start / step + slack) + 1, math.floor(end / step + slack)
        counts = range(first, min(last, first + MOST_STEPS) + 1)
    else:
        first, last = math.ceil(start / step - slack) - 1, math.ceil(end / step - slack)
        counts = range(first, max(last, first - MOST_STEPS) - 1, -1)
    return tuple(round(count * step, 9) for count in counts)


def length_lever(
    plane: Plane, key: str, name: str, *, to: float, start: float | None = None
) -> Lever | None:
    """A lever on one length.

    Args:
        plane: The plane. [-]
        key: Dotted design key. [-]
        name: In trade words. [-]
        to: Furthest value. [m]
        start: Present value where the design leaves it out. [m]

    Returns:
        The lever; None where there is nothing to change.

    Source:
        Definition.

    Example:
        >>> length_lever(plane, "stab.span", "stab span", to=0.6).name
        'stab span'
    """
    present = value_at(plane, key)
    present = start if present is None else float(present)
    if present is None:
        return None
    steps = [
        Step(
            {key: value},
            f"{name} {say(plane, value, 'length')} instead of {say(plane, present, 'length')}",
        )
        for value in grid(present, to, measure_step(plane))
    ]
    return _lever(name, steps)


def angle_lever(
    plane: Plane, key: str, name: str, *, to: float, start: float | None = None
) -> Lever | None:
    """A lever on one angle, in steps of half a degree.

    Args:
        plane: The plane. [-]
        key: Dotted design key. [-]
        name: In trade words. [-]
        to: Furthest value. [rad]
        start: Present value where the design leaves it out. [rad]

    Returns:
        The lever; None where there is nothing to change.

    Source:
        Definition.

    Example:
        >>> angle_lever(plane, "stab.incidence", "stab incidence", to=0.05).name
        'stab incidence'
    """
    present = value_at(plane, key)
    present = start if present is None else float(present)
    if present is None:
        return None
    steps = [
        Step({key: value}, f"{name} {degrees(value)} instead of {degrees(present)}")
        for value in grid(present, to, HALF_DEGREE)
    ]
    return _lever(name, steps)


def count_lever(plane: Plane, key: str, name: str, *, to: int) -> Lever | None:
    """A lever on a whole number.

    Args:
        plane: The plane. [-]
        key: Dotted design key. [-]
        name: In trade words, such as "rubber bands". [-]
        to: Last count. [-]

    Returns:
        The lever; None where there is nothing to change.

    Source:
        Definition.

    Example:
        >>> count_lever(plane, "wing.attachment.bands", "rubber bands", to=12).name
        'rubber bands'
    """
    present = value_at(plane, key)
    if present is None:
        return None
    direction = 1 if to > present else -1
    steps = [
        Step({key: count}, f"{count} {name} instead of {present}")
        for count in range(present + direction, to + direction, direction)
    ]
    return _lever(name, steps)


def share_lever(plane: Plane, key: str, name: str, *, to: float) -> Lever | None:
    """A lever on a fraction, in steps of 5 %.

    Args:
        plane: The plane. [-]
        key: Dotted design key. [-]
        name: In trade words. [-]
        to: Last fraction. [-]

    Returns:
        The lever; None where there is nothing to change.

    Source:
        Definition.

    Example:
        >>> share_lever(plane, "wing.spar.extent", "spar length", to=1.0)
    """
    present = value_at(plane, key)
    if present is None:
        return None
    steps = [
        Step({key: value}, f"{name} {100 * value:.0f} % instead of {100 * present:.0f} %")
        for value in grid(present, to, 0.05)
    ]
    return _lever(name, steps)


def choice_lever(
    plane: Plane, key: str, name: str, *, options: Sequence[str], present: str | None = None
) -> Lever | None:
    """A lever on a choice, such as the next stock size.

    Args:
        plane: The plane. [-]
        key: Dotted design key. [-]
        name: In trade words, such as "firewall". [-]
        options: Nearest first. [-]
        present: Words for what there is; None takes the design's. [-]

    Returns:
        The lever; None where there is nothing to choose.

    Source:
        Definition.

    Example:
        >>> choice_lever(plane, "motor.firewall.stock", "firewall",
        ...     options=("birch ply 1/4 in",)).name
        'firewall'
    """
    had = present if present is not None else value_at(plane, key)
    steps = [
        Step({key: option}, f"{name} {option} instead of {had if had else 'none'}".lstrip())
        for option in options
        if option != had
    ]
    return _lever(name, steps)


def together(name: str, steps: Iterable[Step]) -> Lever | None:
    """A lever that changes several values at once.

    Args:
        name: In trade words. [-]
        steps: Nearest first. [-]

    Returns:
        The lever; None where there is nothing to change.

    Source:
        Definition.

    Example:
        >>> together("wing chord", ()) is None
        True
    """
    return _lever(name, steps)


def listed(*levers: Lever | None) -> tuple[Lever, ...]:
    """The levers that exist, of those given; some may be None.

    Returns:
        Those that are not None.

    Source:
        Definition.

    Example:
        >>> listed(None, None)
        ()
    """
    return tuple(lever for lever in levers if lever is not None)


def _lever(name: str, steps: Iterable[Step]) -> Lever | None:
    kept = tuple(steps)
    return Lever(name, kept) if kept else None
