"""Sections of flat layers: the plate and the stepped section."""

import math
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from foamwright.core.errors import DesignError
from foamwright.shape.model import FoldLine, WingSection
from foamwright.shape.outline import measure

STEP_RUN = 1e-4  # fraction of chord over which a step falls, so that x always rises
NOSE_POINTS = 12

type Array = NDArray[np.float64]


def layered_section(
    build: str, chord: float, thickness: float, *, steps: tuple[float, ...] = (), bevel: float = 0.0
) -> WingSection:
    """Section of flat layers with a half-round leading edge.

    A bottom plate of full chord; each step carries one more layer from the leading edge to its
    fraction of chord. The trailing edge is square, or bevelled from above over `bevel`.

    Args:
        build: "stepped" or "plate". [-]
        chord: [m]
        thickness: Of one layer. [m]
        steps: Where each upper layer ends, fraction of chord. [-]
        bevel: Width of the bevel on the bottom plate's tail; 0 leaves it square. [m]

    Returns:
        The section.

    Raises:
        DesignError: A step or the bevel does not fit.

    Source:
        Definition of the build; the half-round leading edge is common practice.

    Example:
        >>> round(layered_section("plate", 0.1, 0.005).thickness_ratio, 6)
        0.05
    """
    ends = sorted(steps, reverse=True)
    height = thickness * (1 + len(ends))
    radius = 0.5 * height
    _check(ends, radius, bevel, chord=chord, thickness=thickness)
    turn = np.linspace(0.0, 0.5 * math.pi, NOSE_POINTS)
    arc = np.column_stack([radius - radius * np.cos(turn), radius + radius * np.sin(turn)])
    low = np.column_stack([arc[:, 0], height - arc[:, 1]])
    top = [arc]
    start, level = radius, height
    for end in reversed(ends):
        run = np.linspace(start, end * chord, 8)[1:]
        top.append(np.column_stack([run, np.full_like(run, level)]))
        level -= thickness
        start = end * chord + STEP_RUN * chord
        top.append(np.array([[start, level]]))
    rest = 0.2 * thickness if bevel > 0.0 else thickness
    flat = np.linspace(start, chord - bevel, 8)[1:]
    top.append(np.column_stack([flat, np.full_like(flat, level)]))
    if bevel > 0.0:
        top.append(np.array([[chord, rest]]))
    run = np.linspace(radius, chord, 16)[1:]
    lower = np.vstack([low, np.column_stack([run, np.zeros_like(run)])])
    # Chord line: from the nose's foremost point to the middle of the trailing edge.
    angle = math.atan2(radius - 0.5 * rest, chord - radius)
    upper, lower = (_turn(side, radius, angle) for side in (np.vstack(top), lower))
    span = max(float(upper[-1, 0]), float(lower[-1, 0]))
    upper, lower = upper / span, lower / span
    upper[-1, 0] = lower[-1, 0] = 1.0
    size = measure(upper, lower)
    lines = (FoldLine("bevel", bevel, 0.0),) if bevel > 0.0 else ()
    return WingSection(
        build=build,
        upper=tuple(map(tuple, upper.tolist())),
        lower=tuple(map(tuple, lower.tolist())),
        chord=chord,
        thickness_ratio=size.thickness,
        camber_ratio=size.camber,
        trailing_thickness_ratio=rest / chord,
        bottom_angle=angle,
        target_rms=None,
        target_max=None,
        blank_length=chord,
        lines=lines,
        skin_path=((chord, 0.5 * thickness - radius), (0.0, 0.5 * thickness - radius)),
        spar_box=None,
    )


def _turn(points: Array, radius: float, angle: float) -> Array:
    """Building board to chord frame, leading edge at the origin."""
    along = np.array([math.cos(angle), -math.sin(angle)])
    up = np.array([math.sin(angle), math.cos(angle)])
    nose = np.array([radius, radius]) - radius * along
    away = points - nose
    turned = np.column_stack([away @ along, away @ up])
    turned[0] = (0.0, 0.0)
    keep = np.ones(len(turned), dtype=bool)
    keep[1:] = turned[1:, 0] > np.maximum.accumulate(turned[:, 0])[:-1] + 1e-12
    return turned[keep]


def _check(
    ends: list[float], radius: float, bevel: float, *, chord: float, thickness: float
) -> None:
    last = 1.0 - bevel / chord
    for end in ends:
        if not 2.0 * radius / chord < end <= last - STEP_RUN:
            raise DesignError(
                "wing.steps",
                f"{end:.2f}",
                f"each upper layer must end between {2.0 * radius / chord:.2f} and "
                f"{last:.2f} of a {1000 * chord:.0f}\u00a0mm chord",
                "Use 0.5, or 0.75 and 0.5.",
            )
    if any(a - b < 2.0 * thickness / chord for a, b in pairwise(ends)):
        raise DesignError(
            "wing.steps",
            ", ".join(f"{end:.2f}" for end in ends),
            "two layers would end at the same place",
            "Space the steps by at least two board thicknesses, such as 0.75 and 0.5.",
        )
    if not 0.0 <= bevel <= 0.6 * chord or 2.0 * radius >= 0.6 * chord:
        raise DesignError(
            "wing.bevel",
            f"{1000 * bevel:.0f}\u00a0mm on a {1000 * chord:.0f}\u00a0mm chord",
            "bevel and nose must leave flat board between them",
            "Make the bevel narrower or the chord larger.",
        )
