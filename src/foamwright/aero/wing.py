"""A bare wing from its dimensions: slopes, induced drag, roll damping, dihedral effect."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from foamwright.aero.lattice import LatticeSolution, solve_surfaces
from foamwright.aero.mesh import Fineness, row_foot
from foamwright.aero.planforms import plain_wing
from foamwright.aero.second import TWO_PI, lifting_line
from foamwright.shape.model import LiftingSurface

CUTS = (Fineness(12, 6), Fineness(24, 12))  # one twice as fine as the other
LOW_ASPECT = 2.0  # below it edge vortices lift; common practice
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
