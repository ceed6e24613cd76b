"""What comes down hard: a belly landing on grass, a skid, and the wing that must come loose."""

import math

import numpy as np
from numpy.typing import NDArray

from foamwright.core.air import GRAVITY
from foamwright.design.model import Design
from foamwright.parts.model import PartsList
from foamwright.shape.model import Airframe
from foamwright.strength.cases import Figures
from foamwright.strength.firewall import CRASH_DISTANCE, CRASH_SPEED
from foamwright.strength.loads import stopping_load_factor
from foamwright.strength.model import LoadCase
from foamwright.strength.tail import board_strain, body_stiffness
from foamwright.strength.wing import NEVER

type Array = NDArray[np.float64]

SINK_SPEED = 1.5  # m/s at which a firm landing arrives; common practice, no source
SINK_DISTANCE = 0.010  # m of grass and belly that stop it; common practice, no source
SKID_DISTANCE = 1.0  # m over which grass stops a plane that lands at its stall speed; assumed
FRICTION = 0.4  # of paper on paper, from memory: 0.3 to 0.6


def landing_load_factor(sag: float = 0.0) -> float:
    """Deceleration of a firm belly landing, 1.5 m/s stopped in 10 mm and in what gives above it.

    n (s + n sag) = V² / (2 g): what gives by `sag` for each g takes part of the way.

    Args:
        sag: Of what is stopped, for each g of its own weight. [m]

    Returns:
        Deceleration over gravity. [-]

    Source:
        Kinematics; reproduced in tests/validation/test_load_factors.py; speed and distance common
        practice.

    Example:
        >>> round(landing_load_factor(), 1)
        11.5
    """
    rigid = stopping_load_factor(SINK_SPEED, SINK_DISTANCE)
    if sag <= 1e-9:
        return rigid
    ratio = sag / SINK_DISTANCE
    return (math.sqrt(1.0 + 4.0 * ratio * rigid) - 1.0) / (2.0 * ratio)


def boom_ratio(
    design: Design, airframe: Airframe, parts: PartsList, *, figures: Figures
) -> tuple[Array, str] | None:
    """Strength over load of the fuselage behind the wing when tail and boom arrive with a thump.

    Moment at the wing's trailing edge: what lies behind it, by its middle, times the deceleration.

    Args:
        design: The design. [-]
        airframe: Its shape. [-]
        parts: Everything the plane is made of. [-]
        figures: Doubted figures. [-]

    Returns:
        Ratio, one a build [-], and one sentence; None when nothing lies behind the wing.

    Source:
        Statics, transformed section.

    Example:
        >>> boom_ratio(design, airframe, parts, figures=f)[1]
        'A landing of 11 g ...'
    """
    root = airframe.wing.panels[0]
    start = root.root[0] + root.root_chord
    arm = sum(mass * (x - start) for mass, x in _behind(parts, start))
    if arm <= 0.0:
        return None
    factor = landing_load_factor()
    moment = factor * GRAVITY * arm
    stiffness, height = body_stiffness(design, airframe, figures=figures, x=np.array([start]))
    strain = moment / stiffness * 0.5 * height
    ratios = (board_strain(figures, design.board.papers) / strain).min(axis=1)
    why = (
        f"A landing of {factor:.0f} g bends the fuselage behind the wing with "
        f"{moment:.2f}\u00a0N m; it holds {float(ratios[0]):.1f} times that."
    )
    return ratios, why


def _behind(parts: PartsList, start: float) -> list[tuple[float, float]]:
    found: list[tuple[float, float]] = [
        (item.mass.typical, item.at[0]) for item in parts.items if item.at[0] > start
    ]
    for part in parts.parts:
        places: list[float] = []
        for facet in part.facets:
            u, v = facet.polygon.centroid.coords[0]
            places.append(facet.origin[0] + u * facet.along[0] + v * facet.across[0])
        middle = sum(places) / len(places) if places else 0.0
        if middle > start:
            found.append((part.mass, middle))
    return found


def skid_ratio(seat: Array, *, loads: LoadCase, lands_at: float) -> tuple[Array, str]:
    """Strength over load of a banded wing in a skid: friction against the wing's own push.

    Hold = mu times the pull of the bands on the seat; push = wing mass times V² / (2 s).

    Args:
        seat: Force with which the bands press the wing on its seat, one a build. [N]
        loads: Numbers of the plane. [-]
        lands_at: Speed. [m/s]

    Returns:
        Ratio, one a build [-], and one sentence that says at what shock the wing comes loose.

    Source:
        Coulomb friction; mu from memory.

    Example:
        >>> round(float(skid_ratio(np.array([44.0]), loads=loads,
        ...     lands_at=6.0)[0][0]), 1)
        5.8
    """
    hold = FRICTION * seat
    factor = stopping_load_factor(lands_at, SKID_DISTANCE)
    weight = max(loads.wing_mass, 1e-6) * GRAVITY
    loose = float(hold.ravel()[0]) / weight
    crash = stopping_load_factor(CRASH_SPEED, CRASH_DISTANCE)
    knock = (
        "so a crash knocks it off unharmed"
        if loose < crash
        else "so a crash breaks wing or saddle before the bands let go: use fewer"
    )
    why = (
        f"A skid of {factor:.1f} g pushes the wing forward with {factor * weight:.1f}\u00a0N; "
        f"the bands hold it by friction to {loose:.0f} g, {knock} ({crash:.0f} g)."
    )
    ratios = hold.ravel() / (factor * weight) if factor > 0.0 else np.full(seat.size, NEVER)
    return ratios, why
