"""Strips of every surface, left and right, and how they blow upon each other."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from foamwright.aero.lattice import CORE
from foamwright.aero.mesh import Fineness, Mesh, covered, mesh_of
from foamwright.aero.thin import flap_effectiveness
from foamwright.aero.vortex import horseshoe
from foamwright.shape.model import ControlSurface, LiftingSurface

type Array = NDArray[np.float64]

WING_STRIPS = Fineness(strips=7, rows=2)
TAIL_STRIPS = Fineness(strips=3, rows=2)
CONTROLS = ("aileron right", "aileron left", "elevator", "rudder")


@dataclass(frozen=True, slots=True)
class StripSet:
    """Strips of the whole plane; design axes, x aft, y right, z up.

    Attributes:
        surface: Index of the surface: 0 wing, 1 stab, 2 fin. [-]
        panel: Lifting panel within it. [-]
        side: 1 right, -1 left, 0 in the middle. [-]
        chord: [m]
        width: Along the surface. [m]
        quarter: Quarter-chord points. [m]
        normal: Up on a wing, left on a fin. [-]
        twist: Of the chord line against the fuselage line. [rad]
        place: Fraction of the half span. [-]
        controls: Share of each strip's incidence that each control moves, (control, strip). [-]
        wash: Circulation of each strip for unit normal wash at each, two-dimensional slope
            2 pi: G = wash w. [m]
    """

    surface: NDArray[np.int_]
    panel: NDArray[np.int_]
    side: NDArray[np.int_]
    chord: Array
    width: Array
    quarter: Array
    normal: Array
    twist: Array
    place: Array
    controls: Array
    wash: Array


def strips_of(surfaces: Sequence[LiftingSurface]) -> StripSet:
    """Cut the surfaces and solve how each strip's circulation follows from the wash on all.

    Args:
        surfaces: Wing, stab and, if any, fin. [-]

    Returns:
        Right half, then its mirror image; what stands in the middle once.

    Valid:
        Attached flow, wakes straight back along the fuselage line.

    Source:
        [KP] ch. 12: horseshoe lattice, two rows.

    Example:
        >>> strips_of([airframe.wing, airframe.stab]).wash.shape[0] % 2
        0
    """
    fine = [WING_STRIPS, *[TAIL_STRIPS] * (len(surfaces) - 1)]
    mesh = mesh_of(surfaces, fine)
    half = mesh.strips
    sided = np.abs(half.normal[:, 2]) > 1e-6
    sided |= np.abs(half.quarter[:, 1]) > 1e-9
    order = np.concatenate([np.arange(len(half.chord)), np.flatnonzero(sided)])
    right = np.arange(len(order)) < len(half.chord)
    side = np.where(right, np.where(sided[order], 1, 0), -1)
    flip = np.where(right[:, None], 1.0, np.array([1.0, -1.0, 1.0]))
    return StripSet(
        surface=half.surface[order],
        panel=half.panel[order],
        side=side,
        chord=half.chord[order],
        width=half.width[order],
        quarter=half.quarter[order] * flip,
        normal=half.normal[order] * flip,
        twist=half.twist[order],
        place=half.place[order],
        controls=_controls(surfaces, mesh, order, side),
        wash=_wash(mesh, sided),
    )


def _controls(
    surfaces: Sequence[LiftingSurface], mesh: Mesh, order: NDArray[np.int_], side: NDArray[np.int_]
) -> Array:
    shares = np.zeros((len(CONTROLS), len(order)))
    for number, surface in enumerate(surfaces):
        for control in surface.controls:
            share = _turn(mesh, number, control)[order]
            if control.name == "aileron":
                shares[0] += np.where(side > 0, share, 0.0)
                shares[1] += np.where(side < 0, share, 0.0)
            elif control.name == "elevator":
                shares[2] += share
            else:
                # Trailing edge left: lift to the right on a fin, whose normal points left; on a
                # V-tail less on the right half, more on the left.
                shares[3] += np.where(side < 0, share, -share)
    return shares


def _turn(mesh: Mesh, number: int, control: ControlSurface) -> Array:
    return covered(mesh.strips, number, control) * flap_effectiveness(control.chord_fraction)


def _wash(mesh: Mesh, sided: NDArray[np.bool_]) -> Array:
    """Circulation a strip for unit wash over the whole chord of each strip."""
    mirror = sided[mesh.strip]
    flip = np.array([1.0, -1.0, 1.0])
    strip = np.concatenate([mesh.strip, (np.cumsum(sided) - 1 + len(sided))[mesh.strip[mirror]]])
    start = np.concatenate([mesh.start, mesh.end[mirror] * flip])
    end = np.concatenate([mesh.end, mesh.start[mirror] * flip])
    control = np.concatenate([mesh.control, mesh.control[mirror] * flip])
    normal = mesh.strips.normal[mesh.strip]
    normal = np.concatenate([normal, normal[mirror] * flip])
    owner = mesh.strips.surface[mesh.strip]
    owner = np.concatenate([owner, owner[mirror]])
    chord = mesh.strips.chord[mesh.strip]
    chord = np.concatenate([chord, chord[mirror]])
    core = np.where(owner[:, None] != owner[None, :], CORE * chord, 0.0)
    _, y, z = horseshoe(control, start, end, core=core)
    matrix = y * normal[:, 1, None] + z * normal[:, 2, None]
    count = int(strip.max()) + 1
    member = (strip[:, None] == np.arange(count)[None, :]).astype(float)
    return member.T @ np.linalg.solve(matrix, -member)


def effective_wash(strips: StripSet, slope: Array) -> Array:
    """Wash that the strips make at each other for unit circulation source of each.

    With G = K (w - A G) + s: A = inverse(wash) - diag(1/(pi c)), w induced = A R s,
    R = inverse(1 + K A), K = c a/2.

    Args:
        strips: The strips. [-]
        slope: Section lift slope of each. [1/rad]

    Returns:
        Matrix B with w induced = B s. [1/m]

    Source:
        Lifting-surface form of [KP] eq. 8.11; each strip's own chordwise load taken out.

    Example:
        >>> strips = strips_of([airframe.wing, airframe.stab])
        >>> effective_wash(strips, np.full(len(strips.chord), 6.0)).shape == strips.wash.shape
        True
    """
    own = np.diag(1.0 / (math.pi * strips.chord))
    induced = np.linalg.inv(strips.wash) - own
    gain = np.diag(0.5 * strips.chord * slope)
    return induced @ np.linalg.inv(np.eye(len(slope)) + gain @ induced)
