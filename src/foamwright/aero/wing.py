"""A bare wing from its dimensions: slopes, induced drag, roll damping, dihedral effect."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from foamwright.aero.lattice import LatticeSolution, solve_surfaces
from foamwright.aero.mesh import Fineness
from foamwright.aero.second import lifting_line
from foamwright.core.errors import ModelError
from foamwright.shape.model import LiftingPanel, LiftingSurface, WingSection

FLAT = ((0.0, 0.0), (1.0, 0.0))


@dataclass(frozen=True, slots=True)
class BareWing:
    """What a wing alone does, per radian, on its own area, span and mean chord.

    Attributes:
        area: Along the panels. [m²]
        span: Projected, tip to tip. [m]
        mean_chord: Mean aerodynamic chord. [m]
        mean_chord_x: Its leading edge, aft of the root's leading edge. [m]
        aspect_ratio: [-]
        lift_slope: [1/rad]
        moment_slope: About the root's leading edge, on mean_chord, nose-up positive. [1/rad]
        centre_x: Aerodynamic centre aft of the root's leading edge. [m]
        zero_lift_angle: Of the root chord line, from twist. [rad]
        induced_factor: 1 + delta in CDi = (1 + delta) CL²/(pi AR), no twist. [-]
        roll_damping: d(Cl)/d(p b/2V). [1/rad]
        dihedral_effect: d(Cl)/d(beta), from dihedral and sweep at no lift. [1/rad]
    """

    area: float
    span: float
    mean_chord: float
    mean_chord_x: float
    aspect_ratio: float
    lift_slope: float
    moment_slope: float
    centre_x: float
    zero_lift_angle: float
    induced_factor: float
    roll_damping: float
    dihedral_effect: float


def plain_wing(
    *,
    span: float,
    chords: Sequence[float],
    sweep: float = 0.0,
    dihedral: float = 0.0,
    twist: Sequence[float] | None = None,
    places: Sequence[float] | None = None,
) -> LiftingSurface:
    """A wing of straight panels for the lattice.

    Args:
        span: Projected, tip to tip. [m]
        chords: From the root outwards, at least two. [m]
        sweep: Of the leading edge, positive aft. [rad]
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
    count = len(chords)
    spots = list(places) if places is not None else [k / max(count - 1, 1) for k in range(count)]
    angles = list(twist) if twist is not None else [0.0] * count
    _check(span, chords, (spots, angles), sweep, dihedral)
    half = 0.5 * span
    section = WingSection(
        "plate", FLAT, FLAT, chords[0], 0.0, 0.0, 0.0, 0.0, None, None, chords[0], (), FLAT, None
    )

    def edge(place: float) -> tuple[float, float, float]:
        y = half * place
        return (y * math.tan(sweep), y, y * math.tan(dihedral))

    panels = tuple(
        LiftingPanel(
            edge(spots[k]),
            edge(spots[k + 1]),
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
    if not (math.isfinite(span) and span > 0.0) or count < 2 or min(chords) <= 0.0:
        raise ModelError(
            f"A wing needs a positive span and at least two positive chords; got span {span} m, "
            f"chords {tuple(chords)}."
        )
    places, twist = rows
    rising = all(b > a for a, b in pairwise(places))
    if len(places) != count or len(twist) != count or not rising:
        raise ModelError("Places and twists must be as many as chords, places rising from 0 to 1.")
    if abs(places[0]) > 1e-9 or abs(places[-1] - 1.0) > 1e-9:
        raise ModelError("Places must run from 0 (root) to 1 (tip).")
    if abs(sweep) > 1.2 or abs(dihedral) > 1.2:
        raise ModelError("Sweep and dihedral beyond 70 degrees are outside this model.")


def bare_wing(
    *,
    span: float,
    chords: Sequence[float],
    sweep: float = 0.0,
    dihedral: float = 0.0,
    twist: Sequence[float] | None = None,
    places: Sequence[float] | None = None,
    fineness: Fineness | None = None,
) -> BareWing:
    """A wing alone by the vortex lattice.

    Args:
        span: Projected, tip to tip. [m]
        chords: From the root outwards, at least two. [m]
        sweep: Of the leading edge, positive aft. [rad]
        dihedral: Of every panel. [rad]
        twist: At the same places, nose-up positive; None for none. [rad]
        places: Fractions of the half span from 0 to 1; None spreads the chords evenly. [-]
        fineness: Lattice; None takes 24 strips a half and 6 rows.

    Returns:
        Slopes, induced factor, roll damping and dihedral effect.

    Raises:
        ModelError: Sizes that make no wing.

    Valid:
        Inviscid, section slope 2 pi, small angles, no compressibility.

    Source:
        [KP] ch. 12; reproduced in tests/validation/test_wing_theory.py.

    Example:
        >>> round(bare_wing(span=6.0, chords=(1.0, 1.0)).lift_slope, 2)
        4.21
    """
    surface = plain_wing(
        span=span, chords=chords, sweep=sweep, dihedral=dihedral, twist=twist, places=places
    )
    return wing_figures(surface, solve_surfaces([surface], [fineness or Fineness(24, 6)]))


def wing_figures(surface: LiftingSurface, solution: LatticeSolution) -> BareWing:
    """Read a wing's figures from a solved lattice that holds it first.

    Args:
        surface: The wing.
        solution: The solved lattice.

    Returns:
        Its figures.

    Source:
        Definitions of the derivatives.

    Example:
        >>> wing_figures(surface, solution).lift_slope  # doctest: +SKIP
        4.2
    """
    area, span, chord = surface.area, surface.span, surface.mean_chord
    (alpha,), (roll,) = solution.select("alpha", 0), solution.select("roll", 0)
    (beta,), (twist,) = solution.select("beta", 0), solution.select("twist", 0)
    lift = 2.0 * float(solution.forces[alpha, 0, 0, 2]) / area
    moment = 2.0 * float(solution.forces[alpha, 0, 0, 4]) / (area * chord)
    drag = 4.0 * float(solution.drag[alpha, alpha, solution.mesh.strips.surface == 0].sum()) / area
    aspect = span**2 / area
    return BareWing(
        area=area,
        span=span,
        mean_chord=chord,
        mean_chord_x=surface.mean_chord_x,
        aspect_ratio=aspect,
        lift_slope=lift,
        moment_slope=moment,
        centre_x=-moment / lift * chord,
        zero_lift_angle=-2.0 * float(solution.forces[twist, 0, 0, 2]) / area / lift,
        induced_factor=drag * math.pi * aspect / lift**2,
        roll_damping=-4.0 * float(solution.forces[roll, 0, 0, 3]) / (area * span**2),
        dihedral_effect=-2.0 * float(solution.forces[beta, 0, 0, 3]) / (area * span),
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


def lifting_line_wing(
    *, span: float, chords: Sequence[float], places: Sequence[float] | None = None
) -> BareWing:
    """A straight wing alone by Prandtl's lifting line, the second method to `bare_wing`.

    Args:
        span: Tip to tip. [m]
        chords: From the root outwards. [m]
        places: Fractions of the half span from 0 to 1; None spreads the chords evenly. [-]

    Returns:
        The same figures; dihedral effect per radian of dihedral angle (the lifting line has none
        itself).

    Raises:
        ModelError: Sizes that make no wing.

    Source:
        Glauert, lifting-line series with section slope 2 pi.

    Example:
        >>> round(lifting_line_wing(span=6.0, chords=(1.0, 1.0)).lift_slope, 2)
        4.53
    """
    surface = plain_wing(span=span, chords=chords, places=places)
    spots = places if places is not None else np.linspace(0.0, 1.0, len(chords))
    line = lifting_line(span, lambda y: np.interp(np.abs(y), spots, chords))
    chord, x = surface.mean_chord, surface.mean_chord_x
    centre = x + 0.25 * chord
    return BareWing(
        area=surface.area,
        span=span,
        mean_chord=chord,
        mean_chord_x=x,
        aspect_ratio=surface.aspect_ratio,
        lift_slope=line.lift_slope,
        moment_slope=-line.lift_slope * centre / chord,
        centre_x=centre,
        zero_lift_angle=0.0,
        induced_factor=1.0 + line.delta,
        roll_damping=line.roll_damping,
        dihedral_effect=line.dihedral_effect,
    )
