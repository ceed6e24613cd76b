"""What the ground close below does to wing and tail: mirror images of the vortices."""

from dataclasses import dataclass

import numpy as np

from foamwright.aero.lattice import (
    TAIL_FINENESS,
    WING_FINENESS,
    LatticeSolution,
    mirrored,
    solve_surfaces,
)
from foamwright.aero.vortex import horseshoes_of, normal_wash
from foamwright.core.errors import ModelError
from foamwright.shape.model import Airframe

CLEARANCE = 0.05  # of the span, between the lowest point of the plane and the ground; assumed


@dataclass(frozen=True, slots=True)
class NearGround:
    """A plane near the ground over the same plane in free flight.

    Attributes:
        height: Quarter chord of the wing's root above the ground. [m]
        lift_ratio: Lift slope of the wing. [-]
        induced_ratio: Induced drag at the same lift. [-]
        downwash_left: Downwash at the stab at the same lift of the wing. [-]
        tail_ratio: Lift slope of the stab to its own incidence. [-]
    """

    height: float
    lift_ratio: float
    induced_ratio: float
    downwash_left: float
    tail_ratio: float


@dataclass(frozen=True, slots=True)
class Images:
    """What the images do to a plane that makes the lift it makes in free flight.

    Attributes:
        downwash_left: Share of the downwash at the stab that stays. [-]
        upwash: Mean angle that the wing gains per radian of its incidence. [-]
        tail_ratio: Lift slope of the stab to its own incidence over that in free flight. [-]
    """

    downwash_left: float
    upwash: float
    tail_ratio: float


def lowest_point(airframe: Airframe) -> float:
    """Height of the lowest point of fuselage and surfaces; wheels are not known here.

    Args:
        airframe: The plane.

    Returns:
        z. [m]

    Source:
        Definition.

    Example:
        >>> lowest_point(airframe) < 0.0  # doctest: +SKIP
        True
    """
    surfaces = [airframe.wing, airframe.stab, *([airframe.fin] if airframe.fin else [])]
    ends = [end[2] for s in surfaces for p in s.panels for end in (p.root, p.tip)]
    return min(*ends, *(s.bottom for s in airframe.body.stations))


def near_ground(airframe: Airframe, height: float) -> NearGround:
    """Wing and tail over level ground, by the lattice with its mirror image.

    Args:
        airframe: The plane.
        height: Quarter chord of the wing's root above the ground. [m]

    Returns:
        Ratios to free flight, fuselage line level.

    Raises:
        ModelError: Part of the plane would be below the ground.

    Valid:
        Small angles, lift well below the largest; height above a tenth of the chord.

    Source:
        [KP] sec. 5.6; against [WIESELSBERGER] in tests/validation/test_ground_effect.py.

    Example:
        >>> 0.4 < near_ground(airframe, 0.1 * airframe.wing.span).induced_ratio < 0.6
        True
    """
    z = airframe.wing.panels[0].root[2] - height
    if not z < lowest_point(airframe):
        least = airframe.wing.panels[0].root[2] - lowest_point(airframe)
        raise ModelError(
            f"At {height:.3f} m the plane would touch: its wing stands {least:.3f} m above its "
            "lowest point."
        )
    surfaces = [airframe.wing, airframe.stab]
    fine = [WING_FINENESS, TAIL_FINENESS]
    free, near = (_read(solve_surfaces(surfaces, fine, ground=at)) for at in (None, z))
    lift, drag, wash, tail = near / free
    return NearGround(height, float(lift), float(drag), float(wash), float(tail))


def _read(solution: LatticeSolution) -> np.ndarray:
    """Wing's lift, its drag and downwash at that lift, lift of the stab."""
    (wing,), (stab,) = solution.select("alpha", 0), solution.select("alpha", 1)
    lift, felt = solution.forces[wing, 0, 0, 2], solution.forces[wing, 0, 1, 2]
    own = solution.forces[stab, 0, 1, 2]
    mine = solution.mesh.strips.surface == 0
    drag = solution.drag[wing, wing, mine].sum() / lift**2
    return np.array([lift, drag, -felt / own / lift, own])


def images_at(solution: LatticeSolution, ground: float) -> Images:
    """What the images of the wing do at wing and stab, and those of the stab at itself.

    The circulation of free flight is kept, one horseshoe a strip; near_ground solves anew.

    Args:
        solution: Unit solutions of the plane in free flight.
        ground: z of the ground. [m]

    Returns:
        Shares and ratios.

    Valid:
        Within 0.07 of `near_ground` from a twentieth of the span upwards.

    Source:
        [KP] sec. 5.6; tests/agreement/test_ground_images.py.

    Example:
        >>> images_at(plane.lattice, lowest_point(airframe) - 0.05).downwash_left < 0.9
        True
    """
    strips = solution.mesh.strips
    (wing,), (stab,) = solution.select("alpha", 0), solution.select("alpha", 1)
    area = strips.chord * strips.width
    x = strips.quarter[:, :1]
    vortices = horseshoes_of(
        np.concatenate([x, strips.inner], axis=1), np.concatenate([x, strips.outer], axis=1)
    )
    back = np.zeros_like(strips.quarter)
    back[:, 0] = 0.5 * strips.chord
    points, normals = mirrored(strips.quarter + back, strips.normal, ground)
    wash = normal_wash(points, normals, vortices).reshape(2, 2, len(area), -1).sum(axis=1)

    def mean(kind: int, case: int, source: int, surface: int) -> float:
        """Wash of the free vortices (0) or their images (1) of one surface at another."""
        mine = strips.surface == surface
        load = np.where(strips.surface == source, solution.circulation[case], 0.0)
        return float(((wash[kind] @ load) * area)[mine].sum() / area[mine].sum())

    # The image adds `lifted` of the incidence, which brings its own image with it.
    lifted = mean(1, stab, 1, 1)
    return Images(
        downwash_left=1.0 + mean(1, wing, 0, 1) / mean(0, wing, 0, 1),
        upwash=mean(1, wing, 0, 0),
        tail_ratio=1.0 / max(1.0 - lifted, 0.1),
    )
