"""Masses of packs and propellers that nobody weighed: one formula for every room."""

from foamwright.core.bands import Band

PACK_FIXED_MASS = 0.012  # kg, leads and wrap; regression on small packs, from memory
PACK_ENERGY_MASS = 0.0069  # kg/(W h), same regression
PACK_SPREAD = 0.12  # same
CELL_VOLTAGE = 3.7  # V, nominal
PROPELLER_9_IN = {  # kg, two blades, 9 in; common practice, no source
    "slow flight": 0.0090,
    "electric": 0.0130,
    "sport": 0.0200,
    "folding": 0.0170,
    "direct drive": 0.0110,
    "free flight": 0.0110,
    "other": 0.0130,
}
NINE_INCHES = 0.2286  # m
PROPELLER_EXPONENT = 2.5  # mass ~ diameter^2.5; common practice, no source
PROPELLER_SPREAD = 0.3  # one build in ten lies outside on each side; assumed
PACK_CELLS = (2, 3, 4)
PACK_CAPACITIES_MAH = (450, 650, 850, 1000, 1300, 1500, 1800, 2200, 2600, 3000, 3300)
# sizes commonly sold for planes of 0.2 to 1.8 kg; common practice, no source


def usual_pack_mass(cells: int, capacity: float) -> Band:
    """Mass of a pack from its energy.

    m = 12 g + 6.9 g/(W h) * 3.7 V * cells * capacity.

    Args:
        cells: In series. [-]
        capacity: [A s]

    Returns:
        Mass with leads. [kg]

    Source:
        Regression on small packs, from memory; spread 12 %.

    Example:
        >>> round(usual_pack_mass(3, 4680.0).typical, 3)
        0.112
    """
    energy = CELL_VOLTAGE * cells * capacity / 3600.0
    return _spread(PACK_FIXED_MASS + PACK_ENERGY_MASS * energy, PACK_SPREAD, "from memory")


def usual_propeller_mass(kind: str, diameter: float, *, blades: int = 2) -> Band:
    """Mass of a propeller from its kind and diameter.

    m = m_9in (d / 9 in)^2.5 * blades / 2.

    Args:
        kind: One of PROPELLER_9_IN. [-]
        diameter: [m]
        blades: Number of blades. [-]

    Returns:
        Mass. [kg]

    Source:
        Common practice, no source; spread 30 %, assumed.

    Example:
        >>> round(usual_propeller_mass("sport", 0.2286).typical, 4)
        0.02
    """
    grown = (diameter / NINE_INCHES) ** PROPELLER_EXPONENT * blades / 2.0
    return _spread(PROPELLER_9_IN[kind] * grown, PROPELLER_SPREAD, "common practice, no source")


def _spread(mass: float, share: float, source: str) -> Band:
    return Band(mass * (1.0 - share), mass, mass * (1.0 + share), source)
