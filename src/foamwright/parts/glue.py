"""Glue: weighed, or a share of what it joins."""

from collections.abc import Iterable

from foamwright.core.bands import Band
from foamwright.design.model import Design
from foamwright.parts.material import entry, scaled
from foamwright.parts.model import Item, Part
from foamwright.shape.model import Vector
from foamwright.stock.model import Stock


def glue_item(design: Design, parts: Iterable[Part], stock: Stock) -> Item:
    """Glue, weighed or a share of the cut parts' mass, at the parts' common centre.

    Args:
        design: The design. [-]
        parts: Cut parts. [-]
        stock: The stock tables. [-]

    Returns:
        The item.

    Raises:
        DesignError: Stock has no such glue.

    Source:
        Common practice: 8 to 15 % of the airframe.

    Example:
        >>> glue_item(design, parts, stock).id  # doctest: +SKIP
        'glue'
    """
    glue = entry(stock.glues, design.glue.stock, "glue.stock")
    total, moment = 0.0, [0.0, 0.0, 0.0]
    for part in parts:
        mass = part.mass
        total += mass
        for k, value in enumerate(part_centre(part)):
            moment[k] += mass * value
    at = (moment[0] / total, moment[1] / total, moment[2] / total) if total else (0.0, 0.0, 0.0)
    mass = (
        Band.exact(design.glue.mass, "weighed")
        if design.glue.mass is not None
        else scaled(glue.share, total)
    )
    span = 2.0 * sum(panel.span for panel in design.wing.panel)
    # Seams lie all over the airframe: a box of its size, thinned as its mass is.
    size = (0.6 * design.fuselage.length, 0.6 * span, 0.5 * design.fuselage.height)
    return Item("glue", "glue", design.glue.stock, mass, at, size)


def part_centre(part: Part) -> Vector:
    """Centre of mass of a part on the plane, from its facets.

    Args:
        part: The part. [-]

    Returns:
        Centre. [m]

    Source:
        Area-weighted mean of the facets' centroids.

    Example:
        >>> [round(x, 4) for x in part_centre(part)]
        [0.2361, 0.2904, 0.0608]
    """
    total, moment = 0.0, [0.0, 0.0, 0.0]
    for facet in part.facets:
        area = float(facet.polygon.area)
        centre = facet.polygon.centroid
        u, v = float(centre.x), float(centre.y)
        total += area
        for k in range(3):
            moment[k] += area * (facet.origin[k] + u * facet.along[k] + v * facet.across[k])
    return (moment[0] / total, moment[1] / total, moment[2] / total)
