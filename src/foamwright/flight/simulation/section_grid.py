"""Sections round the full circle as tables that are read by index: what stall takes away."""

import numpy as np
from numpy.typing import NDArray

from foamwright.aero.full_circle import section_at
from foamwright.aero.model import SectionPolar

type Array = NDArray[np.float64]

ANGLES = 361  # a degree apart, -180 to 180
SPEEDS = np.geomspace(2.0, 40.0, 25)  # m/s, a table row each; 13 % apart
WORKS_TO = (0.60, 0.95)  # of the largest lift: straight line up to, table from; assumed
SINKS_TO = (-0.05, -0.35)  # lift coefficient: same downwards
PLATE_LINE = (0.09, 0.20)  # rad: a plate's own straight line and where the table takes over


def section_rows(
    polar: SectionPolar, chord: float, *, per_metre: float, line: tuple[float, float], wing: bool
) -> Array:
    """Lift, drag and moment of one section beyond its working line, over speed and angle.

    Lift beyond the line: Cl - a (sin alpha - alpha0 cos alpha); drag and moment beyond what they
    are at the ends of the attached range.

    Args:
        polar: The section's table. [-]
        chord: [m]
        per_metre: Reynolds number per speed and chord: density over viscosity. [s/m²]
        line: Slope and zero-lift angle of the working line. [1/rad], [rad]
        wing: Whether the working range is a wing's (up from zero lift) or a plate's (both ways).

    Returns:
        (speed, angle, 3). [-]

    Valid:
        As foamwright.aero.full_circle.

    Source:
        foamwright.aero.full_circle; the blend from line to table is assumed.

    Example:
        >>> rows = section_rows(polars.stab[0], 0.1, per_metre=68000.0, line=(5.0, 0.0), wing=False)
        >>> rows.shape
        (25, 361, 3)
    """
    angle = np.linspace(-np.pi, np.pi, ANGLES)
    slope, zero = line
    straight = slope * (np.sin(angle) - zero * np.cos(angle))
    rows = np.zeros((len(SPEEDS), ANGLES, 3))
    for k, speed in enumerate(SPEEDS.tolist()):
        reynolds = max(per_metre * speed * chord, 5e3)
        found = section_at(polar, reynolds, angle)
        near = np.abs(angle) < 0.5
        most = float(found.lift[near].max())
        top = float(angle[near][int(np.argmax(found.lift[near]))])
        least = float(angle[near][int(np.argmin(found.lift[near]))])
        work = straight / most
        if wing:
            share = np.maximum(_rise(work, *WORKS_TO), _rise(-straight, *(-s for s in SINKS_TO)))
        else:
            share = _rise(np.abs(angle - zero), *PLATE_LINE)
        share = np.where(np.abs(angle) < 0.6, share, 1.0)
        edge = np.clip(angle, least, top)
        held = [np.interp(edge, angle, values) for values in (found.drag, found.moment)]
        rows[k, :, 0] = share * (found.lift - straight)
        rows[k, :, 1] = np.maximum(found.drag - held[0], 0.0)
        rows[k, :, 2] = found.moment - held[1]
    return rows


def _rise(value: Array, start: float, end: float) -> Array:
    """From 0 to 1 with no corner."""
    x = np.clip((value - start) / (end - start), 0.0, 1.0)
    return x * x * (3.0 - 2.0 * x)


def with_steps(rows: Array) -> Array:
    """Each value followed by its change to the next angle, ready for straight lines between.

    Args:
        rows: (..., angle, 3). [-]

    Returns:
        (..., angle, 6). [-]

    Source:
        Definition.

    Example:
        >>> with_steps(np.zeros((2, 5, 3))).shape
        (2, 5, 6)
    """
    step = np.diff(rows, axis=-2, append=rows[..., :1, :])
    step[..., -1, :] = 0.0
    return np.stack([rows, step], axis=-1).reshape(*rows.shape[:-1], 6)
