"""What makes grip and fixings hold."""

from __future__ import annotations

from typing import TYPE_CHECKING

from foamwright.checks.levers import (
    Lever,
    Step,
    choice_lever,
    count_lever,
    grid,
    listed,
    together,
)
from foamwright.checks.say import say

if TYPE_CHECKING:
    from foamwright.checks.judge import Finding
    from foamwright.plane import Plane


def grip_levers(plane: Plane, finding: Finding) -> tuple[Lever, ...]:
    """Throw it more gently, or make it wider where it is held.

    Args:
        plane: The plane. [-]
        finding: What the check found; the levers do not depend on it. [-]

    Returns:
        Levers.

    Source:
        Common practice, no source.

    Example:
        >>> [lever.name for lever in grip_levers(plane, finding)][0]
        'throw'
    """
    del finding
    present = plane.flight.launch.throw_speed
    steps = [
        Step({"pilot.throw_speed": value}, f"throw at {say(plane, value, 'speed')}")
        for value in grid(present, 0.6 * present, 0.5)
    ]
    return listed(
        together("throw", steps),
        count_lever(plane, "fuselage.saddle_layers", "layers under the wing", to=11)
        if plane.design.fuselage.build == "profile"
        else None,
    )


def fixing_levers(plane: Plane, finding: Finding) -> tuple[Lever, ...]:
    """Fewer bands, thicker dowels, more layers under them.

    Args:
        plane: The plane. [-]
        finding: What the check found; the levers do not depend on it. [-]

    Returns:
        Levers.

    Source:
        Common practice, no source.

    Example:
        >>> [lever.name for lever in fixing_levers(plane, finding)][0]
        'layers under the wing'
    """
    del finding
    hold, body = plane.design.wing.attachment, plane.design.fuselage
    had = plane.stock.rods.get(hold.dowel)
    thicker = sorted(
        (
            rod
            for rod in plane.stock.rods.values()
            if rod.kind in ("dowel", "carbon") and had is not None and rod.width > had.width
        ),
        key=lambda rod: rod.width,
    )
    fewer = [
        Step({"wing.attachment.bands": count}, f"{count} rubber bands instead of {hold.bands}")
        for count in range(hold.bands - 2, 1, -2)
    ]
    return listed(
        choice_lever(
            plane, "wing.attachment.dowel", "dowels of", options=[rod.name for rod in thicker]
        ),
        count_lever(plane, "fuselage.saddle_layers", "layers under the wing", to=15)
        if body.build == "profile"
        else None,
        together("rubber bands", fewer) if fewer else None,
    )
