"""The LiPo: rest voltage, resistance, what it gives, what it weighs."""

import numpy as np

from foamwright.core.bands import Band
from foamwright.core.errors import DesignError, ModelError
from foamwright.power.curves import Array
from foamwright.power.model import PackConstants

REST_VOLTAGE = np.array(
    [4.20, 4.15, 4.11, 4.08, 4.02, 3.98, 3.95, 3.91, 3.87, 3.85, 3.84,
     3.82, 3.80, 3.79, 3.77, 3.75, 3.73, 3.71, 3.69, 3.61, 3.27]
)  # fmt: skip  # V per cell at rest, 0 to 100 % drawn by 5 %; community table, [REST-TABLE]
REST_DEPTH = np.linspace(0.0, 1.0, 21)
CELL_RESISTANCE = (0.012, 0.018, 0.025)  # ohm A h per cell, healthy, 20 °C; from memory
LEAD_RESISTANCE = (0.003, 0.005, 0.008)  # ohm, connector and leads of a pack; from memory
FIXED_MASS = 0.012  # kg, leads and wrap; regression on small packs, from memory, 10 %
MASS_PER_ENERGY = 0.0069  # kg/(W h), same regression
MASS_SPREAD = 0.12
NOMINAL_VOLTAGE = 3.7  # V per cell
LABEL_SHARE = (0.5, 0.65, 0.8)  # of the printed C rating that is real; common practice
UNRATED = (15.0, 20.0, 25.0)  # 1/h where nothing is printed; common practice
CEILING = 50.0  # 1/h, real continuous rarely above, whatever the label; common practice
USABLE_FRACTION = 0.8  # of the printed capacity; common practice
MOST_CELLS = 6


def rest_voltage(depth_of_discharge: float | Array) -> float | Array:
    """Voltage of one rested cell.

    Linear between the 21 points of the table.

    Args:
        depth_of_discharge: Drawn charge over capacity, 0 to 1. [-]

    Returns:
        Voltage. [V]

    Raises:
        ModelError: Depth outside 0 to 1.

    Source:
        [REST-TABLE] community table of resting voltages, origin not traced.

    Example:
        >>> round(float(rest_voltage(0.2)), 2)
        4.02
    """
    if np.min(depth_of_discharge) < 0.0 or np.max(depth_of_discharge) > 1.0:
        raise ModelError("Depth of discharge must be 0 (full) to 1 (empty).")
    return np.interp(depth_of_discharge, REST_DEPTH, REST_VOLTAGE)


def pack_of(
    cells: int,
    capacity: float,
    *,
    rating: float | None = None,
    resistance: float | None = None,
    mass: float | None = None,
    cutoff: float = 3.3,
) -> PackConstants:
    """Constants of a pack from its label, with what was measured in place of the bands.

    Args:
        cells: In series. [-]
        capacity: [A s]
        rating: The "C" on the label; None when not known. [1/h]
        resistance: Measured, whole pack; None when not known. [ohm]
        mass: Weighed; None when not known. [kg]
        cutoff: Cell voltage under load at which the controller stops. [V]

    Returns:
        Constants with bands.

    Valid:
        Healthy packs at about 20 °C; near 0 °C the resistance is about double.

    Raises:
        DesignError: Cells or capacity that no pack has.

    Source:
        Cell resistance, mass and usable current: common practice, from memory.

    Example:
        >>> round(pack_of(3, 4680.0).mass.typical, 3)
        0.112
    """
    if not 1 <= cells <= MOST_CELLS:
        raise DesignError("pack.cells", f"{cells}", f"packs have 1 to {MOST_CELLS} cells")
    if not 180.0 <= capacity <= 36000.0:
        got = f"{capacity / 3.6:.0f} mAh"
        raise DesignError("pack.capacity", got, "packs for these planes hold 50 to 10 000 mAh")
    hours = capacity / 3600.0
    if resistance is not None and resistance <= 0.0:
        raise DesignError("pack.resistance", f"{resistance:g} ohm", "it must be above zero")
    ohms = (
        Band.exact(resistance)
        if resistance is not None
        else Band(*_pack_resistance(cells, hours), "from memory")
    )
    low, typical, high = (
        UNRATED if rating is None else tuple(min(part * rating, CEILING) for part in LABEL_SHARE)
    )
    grams = FIXED_MASS + MASS_PER_ENERGY * NOMINAL_VOLTAGE * cells * hours
    return PackConstants(
        cells=cells,
        capacity=capacity,
        resistance=ohms,
        max_current=Band(low * hours, typical * hours, high * hours, "common practice"),
        mass=Band.exact(mass)
        if mass is not None
        else Band(grams * (1 - MASS_SPREAD), grams, grams * (1 + MASS_SPREAD), "from memory"),
        cutoff=cutoff,
    )


def _pack_resistance(cells: int, hours: float) -> tuple[float, float, float]:
    low, typical, high = (
        cells * cell / hours + lead
        for cell, lead in zip(CELL_RESISTANCE, LEAD_RESISTANCE, strict=True)
    )
    return low, typical, high
