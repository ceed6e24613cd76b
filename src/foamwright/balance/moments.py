"""Mass, middle and second moments of flat pieces and boxes, all at once."""

from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from foamwright.core.errors import ModelError
from foamwright.parts.model import Facet, Item, Part

type Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Flats:
    """Areas and moments of polygons in their own plane, one row each.

    Attributes:
        area: [m²]
        middle: Centroid (u, v). [m]
        spread: Mean of (u - u0)², (v - v0)², (u - u0)(v - v0) over the area. [m²]
    """

    area: Array
    middle: Array
    spread: Array


@dataclass(frozen=True, slots=True)
class Lumps:
    """Everything that has a mass, one row each.

    Attributes:
        mass: [kg]
        middle: Centre of gravity. [m]
        spread: Second moments of its mass about its own middle over its mass, 3 x 3. [m²]
    """

    mass: Array
    middle: Array
    spread: Array


def flat_moments(polygons: list[shapely.Polygon]) -> Flats:
    """Area, centroid and second moments of polygons, holes taken out.

    Green's theorem over the edges of every ring.

    Args:
        polygons: In their own plane. [m]

    Returns:
        One row for each.

    Source:
        Green's theorem; any text on polygon moments.

    Example:
        >>> flats = flat_moments([shapely.box(0, 0, 0.6, 0.2)])
        >>> [round(float(x), 6) for x in (flats.area[0], flats.spread[0, 0])]
        [0.12, 0.03]
    """
    rings, owner = shapely.get_rings(polygons, return_index=True)
    points, ring_of = shapely.get_coordinates(rings, return_index=True)
    # A ring repeats its first point at its end, so its edges join neighbours of one ring.
    same = ring_of[1:] == ring_of[:-1]
    (x0, y0), (x1, y1) = points[:-1][same].T, points[1:][same].T
    at = ring_of[1:][same]
    cross = x0 * y1 - x1 * y0
    terms = (
        cross / 2.0,
        (x0 + x1) * cross / 6.0,
        (y0 + y1) * cross / 6.0,
        (x0 * x0 + x0 * x1 + x1 * x1) * cross / 12.0,
        (y0 * y0 + y0 * y1 + y1 * y1) * cross / 12.0,
        (x0 * y1 + 2.0 * x0 * y0 + 2.0 * x1 * y1 + x1 * y0) * cross / 24.0,
    )
    by_ring = np.array([np.bincount(at, term, minlength=len(rings)) for term in terms])
    # The first ring of a polygon is its outside whichever way it runs; the others are holes.
    outside = np.ones(len(rings), dtype=bool)
    outside[1:] = owner[1:] != owner[:-1]
    by_ring *= np.sign(by_ring[0]) * np.where(outside, 1.0, -1.0)
    sums = np.array([np.bincount(owner, row, minlength=len(polygons)) for row in by_ring])
    area = sums[0]
    middle = (sums[1:3] / area).T
    spread = (sums[3:6] / area).T
    u, v = middle.T
    spread = spread - np.column_stack([u * u, v * v, u * v])
    return Flats(area=area, middle=middle, spread=spread)


def lumps_of(parts: tuple[Part, ...], items: tuple[Item, ...]) -> Lumps:
    """Mass, middle and spread of every part and then of every item.

    A part's mass is its outline's area times its areal mass, spread over its facets by their areas.

    Args:
        parts: Pieces to cut. [-]
        items: Things to buy or pour. [-]

    Returns:
        One row for each, parts first.

    Raises:
        ModelError: A part has no facet, so its place is unknown.

    Source:
        Definition.

    Example:
        >>> lumps_of((), ()).mass.size
        0
    """
    bare = [part.id for part in parts if not part.facets]
    if bare:
        raise ModelError(f"The place of {', '.join(bare)} on the plane is unknown.")
    cut = _cut(parts)
    bought = Lumps(
        mass=np.array([item.mass.typical for item in items]),
        middle=np.array([item.at for item in items]).reshape(-1, 3),
        spread=_boxes(np.array([item.size for item in items]).reshape(-1, 3)),
    )
    return Lumps(
        mass=np.concatenate([cut.mass, bought.mass]),
        middle=np.concatenate([cut.middle, bought.middle]),
        spread=np.concatenate([cut.spread, bought.spread]),
    )


def _boxes(size: Array) -> Array:
    spread = np.zeros((len(size), 3, 3))
    for axis in range(3):
        spread[:, axis, axis] = size[:, axis] ** 2 / 12.0
    return spread


def _cut(parts: tuple[Part, ...]) -> Lumps:
    if not parts:
        return Lumps(np.zeros(0), np.zeros((0, 3)), np.zeros((0, 3, 3)))
    facets: list[Facet] = [facet for part in parts for facet in part.facets]
    owner = np.repeat(np.arange(len(parts)), [len(part.facets) for part in parts])
    flats = flat_moments([facet.polygon for facet in facets])
    origin = np.array([facet.origin for facet in facets])
    along = np.array([facet.along for facet in facets])
    across = np.array([facet.across for facet in facets])
    thickness = np.array([facet.thickness for facet in facets])
    middle = origin + flats.middle[:, :1] * along + flats.middle[:, 1:] * across
    spread = _in_space(flats.spread, along, across, thickness)
    outlines = shapely.area([part.outline for part in parts])
    mass = outlines * np.array([part.areal_mass.typical for part in parts])
    total = np.bincount(owner, flats.area, minlength=len(parts))
    share = flats.area / total[owner]
    place = np.array(
        [np.bincount(owner, share * middle[:, axis], minlength=len(parts)) for axis in range(3)],
        dtype=float,
    ).T
    away = middle - place[owner]
    spread = share[:, None, None] * (spread + away[:, :, None] * away[:, None, :])
    gathered = np.zeros((len(parts), 3, 3))
    np.add.at(gathered, owner, spread)
    return Lumps(mass=mass, middle=place, spread=gathered)


def _in_space(spread: Array, along: Array, across: Array, thickness: Array) -> Array:
    """Second moments of flat pieces in the plane's axes."""
    normal = np.cross(along, across)

    def outer(a: Array, b: Array) -> Array:
        return a[:, :, None] * b[:, None, :]

    mixed = outer(along, across)
    return (
        spread[:, 0, None, None] * outer(along, along)
        + spread[:, 1, None, None] * outer(across, across)
        + spread[:, 2, None, None] * (mixed + mixed.transpose(0, 2, 1))
        + (thickness**2 / 12.0)[:, None, None] * outer(normal, normal)
    )
