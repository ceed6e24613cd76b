"""Areas and mean chords of straight-tapered panels."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from foamwright.design.model import Design
from foamwright.shape.model import LiftingPanel


@dataclass(frozen=True, slots=True)
class Planform:
    """What a row of panels adds up to, one side.

    Attributes:
        area: Along the panels. [m²]
        reach: Spanwise length projected across the flight direction. [m]
        mean_chord: Mean aerodynamic chord. [m]
        mean_chord_x: Its leading edge. [m]
    """

    area: float
    reach: float
    mean_chord: float
    mean_chord_x: float


def flat_span(design: Design) -> float:
    """Span along the panels: what a builder draws, cuts and asks for.

    Tip to tip as it stands, which the air sees, it is shorter by the slope of the panels.

    Args:
        design: The design. [-]

    Returns:
        Twice the sum of the panels of one half. [m]

    Source:
        Definition.

    Example:
        >>> round(flat_span(design), 4)
        1.1684
    """
    return 2.0 * sum(panel.span for panel in design.wing.panel)


def trapezoid_area(root_chord: float, tip_chord: float, length: float) -> float:
    """Area of a straight-tapered panel, (a + b) L / 2.

    Args:
        root_chord: [m]
        tip_chord: [m]
        length: Root to tip along the panel. [m]

    Returns:
        Area. [m²]

    Source:
        Definition.

    Example:
        >>> trapezoid_area(0.25, 0.25, 0.5)
        0.125
    """
    return 0.5 * (root_chord + tip_chord) * length


def panel_length(panel: LiftingPanel) -> float:
    """Root-to-tip length of a panel square to the flight direction.

    Args:
        panel: The panel. [-]

    Returns:
        Length along the panel. [m]

    Source:
        Definition.

    Example:
        >>> panel_length(panel)  # doctest: +SKIP
        0.5
    """
    return math.hypot(panel.tip[1] - panel.root[1], panel.tip[2] - panel.root[2])


def planform(panels: Sequence[LiftingPanel], *, upright: bool = False) -> Planform:
    """Area, span and mean aerodynamic chord of one side, exact for straight taper.

    Mean chord = integral c² dy / integral c dy; its leading edge = integral x c dy / integral c dy,
    with y the projected span.

    Args:
        panels: Root outwards. [-]
        upright: Project on the height (fin) instead of the span. [-]

    Returns:
        The sums.

    Source:
        Definition of the mean aerodynamic chord, any aerodynamics text.

    Example:
        >>> planform([]).area
        0.0
    """
    area = reach = flat = second = first = 0.0
    axis = 2 if upright else 1
    for panel in panels:
        a, b = panel.root_chord, panel.tip_chord
        length = panel_length(panel)
        across = abs(panel.tip[axis] - panel.root[axis])
        area += trapezoid_area(a, b, length)
        reach += across
        flat += trapezoid_area(a, b, across)
        second += across * (a * a + a * b + b * b) / 3.0
        first += across * (panel.root[0] * (2 * a + b) + panel.tip[0] * (a + 2 * b)) / 6.0
    if flat == 0.0:
        return Planform(area, reach, 0.0, 0.0)
    return Planform(area, reach, second / flat, first / flat)
