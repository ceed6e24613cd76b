"""Masses and sizes of packs and propellers that are not in a stock table."""

from foamwright.core.bands import Band
from foamwright.design.model import Pack, Propeller
from foamwright.shape.model import Vector

PACK_FIXED_MASS = 0.012  # kg, leads and wrap; regression on small packs, from memory
PACK_ENERGY_MASS = 0.0069  # kg/(W h), same regression
PACK_SPREAD = 0.12  # same
CELL_VOLTAGE = 3.7  # V, nominal
PACK_DENSITY = 1950.0  # kg/m³ of the box around it; common practice
PACK_SHAPE = (2.1, 1.0, 0.66)  # length, width, height over width; common practice
PROPELLER_9_IN = {  # kg, two blades, 9 in; common practice, no source
    "slow flight": 0.0090,
    "electric": 0.0130,
    "sport": 0.0200,
    "folding": 0.0170,
    "direct drive": 0.0110,
}
PROPELLER_EXPONENT = 2.5  # mass ~ diameter^2.5; common practice
PROPELLER_SPREAD = 0.3


def pack_mass(pack: Pack) -> Band:
    """Weighed mass of the pack, or one from its energy.

    m = 12 g + 6.9 g/(W h) * 3.7 V * cells * capacity.

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
    energy = CELL_VOLTAGE * pack.cells * pack.capacity / 3600.0
    mass = PACK_FIXED_MASS + PACK_ENERGY_MASS * energy
    return Band(mass * (1 - PACK_SPREAD), mass, mass * (1 + PACK_SPREAD), "from memory")


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
    mass = (
        PROPELLER_9_IN[propeller.kind]
        * (propeller.diameter / 0.2286) ** PROPELLER_EXPONENT
        * propeller.blades
        / 2.0
    )
    return Band(
        mass * (1 - PROPELLER_SPREAD), mass, mass * (1 + PROPELLER_SPREAD), "common practice"
    )
