"""Masses and sizes of packs and propellers that are not in a stock table."""

from foamwright.core.bands import Band
from foamwright.design.model import Pack, Propeller
from foamwright.shape.model import Vector
from foamwright.stock.estimates import usual_pack_mass, usual_propeller_mass

PACK_DENSITY = 1950.0  # kg/m³ of the box around it; common practice
PACK_SHAPE = (2.1, 1.0, 0.66)  # length, width, height over width; common practice


def pack_mass(pack: Pack) -> Band:
    """Weighed mass of the pack, or one from its energy.

    Args:
        pack: The design's pack. [-]

    Returns:
        Mass. [kg]

    Source:
        Regression on small packs, from memory; spread 12 %.

    Example:
        >>> round(pack_mass(Pack.model_construct(cells=3, capacity=4680.0)).typical, 3)
        0.112
    """
    if pack.mass is not None:
        return Band.exact(pack.mass, "weighed")
    return usual_pack_mass(pack.cells, pack.capacity)


def pack_size(pack: Pack) -> Vector:
    """Length, width and height of the pack, from its mass when not given.

    Args:
        pack: The design's pack. [-]

    Returns:
        Box. [m]

    Source:
        Common practice: 1950 kg/m³, sides as 2.1 : 1 : 0.66.

    Example:
        >>> round(pack_size(Pack.model_construct(cells=3, capacity=4680.0))[0], 3)
        0.073
    """
    long, wide, tall = PACK_SHAPE
    width = (pack_mass(pack).typical / PACK_DENSITY / (long * wide * tall)) ** (1.0 / 3.0)
    length = long * width if pack.length is None else pack.length
    return (length, wide * width, tall * width)


def propeller_mass(propeller: Propeller) -> Band:
    """Weighed mass of the propeller, or one from its kind and diameter.

    Args:
        propeller: The design's propeller. [-]

    Returns:
        Mass. [kg]

    Source:
        Common practice: mass grows with diameter^2.5.

    Example:
        >>> round(propeller_mass(Propeller.model_construct()).typical, 4)
        0.009
    """
    if propeller.mass is not None:
        return Band.exact(propeller.mass, "weighed")
    return usual_propeller_mass(propeller.kind, propeller.diameter, blades=propeller.blades)
