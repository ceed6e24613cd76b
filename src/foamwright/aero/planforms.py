"""Plain wings for the lattice from their dimensions."""

import math
from collections.abc import Sequence
from itertools import pairwise

import numpy as np

from foamwright.core.errors import ModelError
from foamwright.shape.model import LiftingPanel, LiftingSurface, WingSection

FLAT = ((0.0, 0.0), (1.0, 0.0))
MOST_SWEEP, MOST_DIHEDRAL = 1.45, 1.2  # rad; nothing was compared beyond


def plain_wing(
    *,
    span: float,
    chords: Sequence[float],
    sweep: float = 0.0,
    sweep_at: float = 0.0,
    dihedral: float = 0.0,
    twist: Sequence[float] | None = None,
    places: Sequence[float] | None = None,
) -> LiftingSurface:
    """A wing of straight panels for the lattice.

    Args:
        span: Projected, tip to tip. [m]
        chords: From the root outwards, at least two. [m]
        sweep: Of the leading edge, or of the line `sweep_at` names, positive aft. [rad]
        sweep_at: Place on the chord of the line that `sweep` holds for, 0 the leading edge. [-]
        dihedral: Of every panel. [rad]
        twist: At the same places, nose-up positive; None for none. [rad]
        places: Where the chords stand, fractions of the half span from 0 to 1; None spreads them
            evenly. [-]

    Returns:
        The surface, its root's leading edge at the datum.

    Raises:
        ModelError: Sizes that make no wing.

    Source:
        Definition.

    Example:
        >>> plain_wing(span=1.2, chords=(0.2, 0.2)).aspect_ratio
        6.0
    """
    chords = [float(chord) for chord in chords]
    count = len(chords)
    spots = (
        [*map(float, places)]
        if places is not None
        else [k / max(count - 1, 1) for k in range(count)]
    )
    angles = [*map(float, twist)] if twist is not None else [0.0] * count
    _check(span, chords, (spots, angles), sweep, dihedral)
    half = 0.5 * span
    section = WingSection(
        "plate", FLAT, FLAT, chords[0], 0.0, 0.0, 0.0, 0.0, None, None, chords[0], (), FLAT, None
    )

    def edge(index: int) -> tuple[float, float, float]:
        y = half * spots[index]
        back = y * math.tan(sweep) - sweep_at * (chords[index] - chords[0])
        return (back, y, y * math.tan(dihedral))

    panels = tuple(
        LiftingPanel(
            edge(k),
            edge(k + 1),
            chords[k],
            chords[k + 1],
            angles[k],
            angles[k + 1],
            section,
        )
        for k in range(count - 1)
    )
    flat = first = second = 0.0
    for k in range(count - 1):
        a, b, width = chords[k], chords[k + 1], half * (spots[k + 1] - spots[k])
        flat += 0.5 * (a + b) * width
        second += width * (a * a + a * b + b * b) / 3.0
        first += width * (
            panels[k].root[0] * (2.0 * a + b) + panels[k].tip[0] * (a + 2.0 * b)
        ) / 6.0  # fmt: skip
    area = 2.0 * flat / math.cos(dihedral)
    return LiftingSurface(
        "wing", panels, True, (), area, span, second / flat, first / flat, span**2 / area, False
    )


def _check(
    span: float,
    chords: Sequence[float],
    rows: tuple[Sequence[float], Sequence[float]],
    sweep: float,
    dihedral: float,
) -> None:
    count = len(chords)
    places, twist = rows
    numbers = [span, *chords, *places, *twist, sweep, dihedral]
    if not all(math.isfinite(number) for number in numbers):
        raise ModelError(f"Every size of a wing must be a number; got {numbers}.")
    if span <= 0.0 or count < 2 or min(chords[:-1]) <= 0.0 or chords[-1] < 0.0:
        raise ModelError(
            "A wing needs a positive span and at least two chords, root first, only the tip's may "
            f"be 0; got span {span} m, chords {tuple(chords)}."
        )
    rising = all(b > a for a, b in pairwise(places))
    if len(places) != count or len(twist) != count or not rising:
        raise ModelError("Places and twists must be as many as chords, places rising from 0 to 1.")
    if abs(places[0]) > 1e-9 or abs(places[-1] - 1.0) > 1e-9:
        raise ModelError("Places must run from 0 (root) to 1 (tip).")
    if abs(sweep) > MOST_SWEEP or abs(dihedral) > MOST_DIHEDRAL:
        raise ModelError(
            "Sweep beyond 83 degrees and dihedral beyond 69 are outside this model; got "
            f"{math.degrees(sweep):.0f} and {math.degrees(dihedral):.0f} degrees (both are given "
            "in radians)."
        )


def elliptic_wing(aspect_ratio: float, *, panels: int = 24) -> LiftingSurface:
    """A wing of elliptic chord with a straight quarter-chord line, span 1 m.

    Args:
        aspect_ratio: [-]
        panels: Straight panels a half that follow the ellipse. [-]

    Returns:
        The surface.

    Source:
        Definition.

    Example:
        >>> round(elliptic_wing(6.0).aspect_ratio, 1)
        6.0
    """
    angles = np.linspace(0.0, 0.5 * math.pi, panels + 1)
    places = np.sin(angles)
    root = 4.0 / (math.pi * aspect_ratio)
    chords = np.maximum(root * np.cos(angles), 0.02 * root)
    section = WingSection(
        "plate", FLAT, FLAT, root, 0.0, 0.0, 0.0, 0.0, None, None, root, (), FLAT, None
    )
    panel = [
        LiftingPanel(
            (-0.25 * float(chords[k]), 0.5 * float(places[k]), 0.0),
            (-0.25 * float(chords[k + 1]), 0.5 * float(places[k + 1]), 0.0),
            float(chords[k]),
            float(chords[k + 1]),
            0.0,
            0.0,
            section,
        )
        for k in range(panels)
    ]
    area = sum((p.root_chord + p.tip_chord) * (p.tip[1] - p.root[1]) for p in panel)
    mean = 8.0 * root / (3.0 * math.pi)
    return LiftingSurface(
        "wing", tuple(panel), True, (), area, 1.0, mean, -0.25 * mean, 1.0 / area, False
    )
