"""A bare wing from its dimensions: slopes, induced drag, roll damping, dihedral effect."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

import numpy as np

from foamwright.aero.lattice import LatticeSolution, solve_surfaces
from foamwright.aero.mesh import Fineness, row_foot
from foamwright.aero.second import TWO_PI, lifting_line
from foamwright.core.errors import ModelError
from foamwright.shape.model import LiftingPanel, LiftingSurface, WingSection

FLAT = ((0.0, 0.0), (1.0, 0.0))
CUTS = (Fineness(12, 6), Fineness(24, 12))  # one twice as fine as the other
LOW_ASPECT = 2.0  # below it edge vortices lift; common practice
MOST_SWEEP, MOST_DIHEDRAL = 1.45, 1.2  # rad; nothing was compared beyond
# Figures that are carried on to the limit.
LIMITS = (
    "lift_slope",
    "moment_slope",
    "zero_lift_angle",
    "zero_lift_moment",
    "induced_factor",
    "induced_linear",
    "induced_least",
    "roll_damping",
    "dihedral_effect",
)


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
        zero_lift_moment: Pitching moment coefficient at no lift, from twist. [-]
        induced_factor: 1 + delta in CDi = (1 + delta) CL²/(pi AR), no twist. [-]
        induced_linear: What twist adds to CDi per CL. [-]
        induced_least: What twist adds to CDi at no lift. [-]
        roll_damping: d(Cl)/d(p b/2V). [1/rad]
        dihedral_effect: d(Cl)/d(beta), from dihedral and sweep at no lift. [1/rad]
        uncertainty: How far a figure may be from what finer and finer lattices tend to; air and
            sections not counted. [unit of the figure]
        notes: What holds, and what lies outside, in words.
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
    zero_lift_moment: float
    induced_factor: float
    induced_linear: float
    induced_least: float
    roll_damping: float
    dihedral_effect: float
    uncertainty: dict[str, float]
    notes: tuple[str, ...]


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


def bare_wing(
    *,
    span: float,
    chords: Sequence[float],
    sweep: float = 0.0,
    sweep_at: float = 0.0,
    dihedral: float = 0.0,
    twist: Sequence[float] | None = None,
    places: Sequence[float] | None = None,
    fineness: Fineness | None = None,
) -> BareWing:
    """A wing alone by the vortex lattice.

    Args:
        span: Projected, tip to tip. [m]
        chords: From the root outwards, at least two. [m]
        sweep: Of the leading edge, or of the line `sweep_at` names, positive aft. [rad]
        sweep_at: Place on the chord of the line that `sweep` holds for, 0 the leading edge. [-]
        dihedral: Of every panel. [rad]
        twist: At the same places, nose-up positive; None for none. [rad]
        places: Fractions of the half span from 0 to 1; None spreads the chords evenly. [-]
        fineness: One lattice; None takes two and goes on from them to the limit.

    Returns:
        Slopes, induced factor, roll damping and dihedral effect, with their uncertainty.

    Raises:
        ModelError: Sizes that make no wing.

    Valid:
        Inviscid, section slope 2 pi, small angles, no compressibility.

    Source:
        [KP] ch. 12, limit after Richardson; reproduced in tests/validation/test_wing_theory.py.

    Example:
        >>> round(bare_wing(span=6.0, chords=(1.0, 1.0)).lift_slope, 2)
        4.21
    """
    surface = plain_wing(
        span=span, chords=chords, sweep=sweep, sweep_at=sweep_at, dihedral=dihedral, twist=twist,
        places=places,
    )  # fmt: skip
    if fineness is not None:
        return wing_figures(surface, solve_surfaces([surface], [fineness]))
    coarse, fine = (wing_figures(surface, solve_surfaces([surface], [cut])) for cut in CUTS)
    return _limit(surface, coarse, fine)


def _limit(surface: LiftingSurface, coarse: BareWing, fine: BareWing) -> BareWing:
    """What lattices of ever more panels tend to, from two of which one is twice as fine.

    A kink at the root leaves an error that falls with the number of panels, a straight wing one
    that falls faster.
    """
    share = 0.5 - 0.5 * row_foot(surface)
    steps = {name: share * (getattr(fine, name) - getattr(coarse, name)) for name in LIMITS}
    limits = {name: getattr(fine, name) + step for name, step in steps.items()}
    centre = -limits["moment_slope"] / limits["lift_slope"] * fine.mean_chord
    spread = {name: abs(float(step)) for name, step in steps.items()}
    spread["centre_x"] = abs(centre - fine.centre_x)
    return replace(fine, **limits, centre_x=centre, uncertainty=spread)


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
    (lift, moment), (shift, turn) = (
        2.0 * solution.forces[case, 0, 0, [2, 4]] / (area * np.array([1.0, chord]))
        for case in (alpha, twist)
    )
    # Drag is a square in the angle; the angle is (CL - shift) / lift.
    wing = solution.mesh.strips.surface == 0
    drag = 4.0 * solution.drag[:, :, wing].sum(axis=2) / area
    square = float(drag[alpha, alpha] / lift**2)
    cross = float((drag[alpha, twist] + drag[twist, alpha]) / lift)
    aspect = span**2 / area
    return BareWing(
        area=area,
        span=span,
        mean_chord=chord,
        mean_chord_x=surface.mean_chord_x,
        aspect_ratio=aspect,
        lift_slope=float(lift),
        moment_slope=float(moment),
        centre_x=float(-moment / lift) * chord,
        zero_lift_angle=-float(shift / lift),
        zero_lift_moment=float(turn - shift * moment / lift),
        induced_factor=square * math.pi * aspect,
        induced_linear=cross - 2.0 * square * float(shift),
        induced_least=float(drag[twist, twist] - cross * shift + square * shift**2),
        roll_damping=-4.0 * float(solution.forces[roll, 0, 0, 3]) / (area * span**2),
        dihedral_effect=-2.0 * float(solution.forces[beta, 0, 0, 3]) / (area * span),
        uncertainty={},
        notes=_notes(surface),
    )


def _notes(surface: LiftingSurface) -> tuple[str, ...]:
    notes = ["Attached, incompressible flow, small angles, sections of slope 2 pi, flat wake."]
    if surface.aspect_ratio < LOW_ASPECT:
        notes.append(
            f"Aspect ratio {surface.aspect_ratio:.2f}: the vortices that roll up over the edges of "
            "so short a wing add lift beyond a few degrees, which is not in these figures."
        )
    return tuple(notes)


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
    *,
    span: float,
    chords: Sequence[float],
    twist: Sequence[float] | None = None,
    places: Sequence[float] | None = None,
    section_slope: float = TWO_PI,
) -> BareWing:
    """A straight wing alone by Prandtl's lifting line, the second method to `bare_wing`.

    Args:
        span: Tip to tip. [m]
        chords: From the root outwards. [m]
        twist: At the same places, nose-up positive; None for none. [rad]
        places: Fractions of the half span from 0 to 1; None spreads the chords evenly. [-]
        section_slope: Lift slope of the section. [1/rad]

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
    surface = plain_wing(span=span, chords=chords, twist=twist, places=places)
    spots = places if places is not None else np.linspace(0.0, 1.0, len(chords))
    angles = np.zeros(len(chords)) if twist is None else np.array(twist)
    line = lifting_line(
        span,
        lambda y: np.interp(np.abs(y), spots, chords),
        section_slope=section_slope,
        twist=lambda y: np.interp(np.abs(y), spots, angles),
    )
    slope, shift, (square, cross, least) = line.lift_slope, line.twist_lift, line.drag_terms
    chord, x = surface.mean_chord, surface.mean_chord_x
    centre = x + 0.25 * chord
    return BareWing(
        area=surface.area,
        span=span,
        mean_chord=chord,
        mean_chord_x=x,
        aspect_ratio=surface.aspect_ratio,
        lift_slope=slope,
        moment_slope=-slope * centre / chord,
        centre_x=centre,
        zero_lift_angle=-shift / slope,
        zero_lift_moment=0.0,
        induced_factor=1.0 + line.delta,
        induced_linear=cross / slope - 2.0 * square * shift / slope**2,
        induced_least=least - cross * shift / slope + square * shift**2 / slope**2,
        roll_damping=line.roll_damping,
        dihedral_effect=line.dihedral_effect,
        uncertainty={"lift_slope": 0.45 * slope / surface.aspect_ratio},
        notes=(
            "Lifting line: straight wings above aspect ratio 4. A lifting surface finds up to 45 % "
            "over the aspect ratio less lift slope, and a fifth less roll damping at 6.",
        ),
    )
