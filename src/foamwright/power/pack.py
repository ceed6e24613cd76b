"""The LiPo: rest voltage, resistance, what it gives, what it weighs."""

import math
from dataclasses import replace

import numpy as np

from foamwright.core.bands import Band
from foamwright.core.errors import DesignError, ModelError
from foamwright.power.curves import Array
from foamwright.power.model import PackConstants
from foamwright.stock.estimates import usual_pack_mass

REST_VOLTAGE = np.array(
    [4.20, 4.15, 4.11, 4.08, 4.02, 3.98, 3.95, 3.91, 3.87, 3.85, 3.84,
     3.82, 3.80, 3.79, 3.77, 3.75, 3.73, 3.71, 3.69, 3.61, 3.27]
)  # fmt: skip  # V per cell at rest, 0 to 100 % drawn by 5 %; community table, [REST-TABLE]
REST_DEPTH = np.linspace(0.0, 1.0, 21)
CELL_RESISTANCE = (0.012, 0.018, 0.025)  # ohm A h per cell, healthy, 20 °C; from memory
LEAD_RESISTANCE = (0.003, 0.005, 0.008)  # ohm, connector and leads of a pack; from memory
LABEL_SHARE = (0.5, 0.65, 0.8)  # of the printed C rating that is real; common practice
UNRATED = (15.0, 20.0, 25.0)  # 1/h where nothing is printed; common practice
CEILING = 50.0  # 1/h, real continuous rarely above, whatever the label; common practice
MOST_CELLS = 6
ROOM = 293.15  # K
DOUBLES_OVER = 20.0  # K of cooling that double the resistance; from memory
WARMEST_FACTOR = 0.6  # a warm pack gets no better than this; assumed
DOUBLES_AFTER = 250.0  # cycles; common practice, no source
COPPER = 1.724e-8  # ohm m at 20 °C, international annealed copper standard
CONTACT = 0.0005  # ohm, a pair of contacts; from memory


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


def resistance_factor(temperature: float, *, cycles: float = 0.0) -> float:
    """How much a pack's resistance grows in the cold and with use.

    Factor = 2^((20 °C - T)/20 K), held at 0.6 when warm, times 1 + cycles/250.

    Args:
        temperature: Of the pack itself. [K]
        cycles: Full charges it has seen. [-]

    Returns:
        Factor on the resistance when new at 20 °C. [-]

    Valid:
        -10 to 50 °C, up to about 300 cycles.

    Raises:
        ModelError: Outside -20 to 60 °C, or negative cycles.

    Source:
        Double near 0 °C: from memory; double after some 250 cycles: common practice, no source.

    Example:
        >>> round(resistance_factor(273.15), 2), round(resistance_factor(293.15, cycles=125), 2)
        (2.0, 1.5)
    """
    if not 253.15 <= temperature <= 333.15:
        raise ModelError(
            f"The pack is {temperature - 273.15:.0f} °C; it must be -20 to 60 °C to be used."
        )
    if not cycles >= 0.0:
        raise ModelError(f"The pack has seen {cycles:g} cycles; it must be 0 or more.")
    warm = float(2.0 ** ((ROOM - temperature) / DOUBLES_OVER))
    return max(warm, WARMEST_FACTOR) * (1.0 + cycles / DOUBLES_AFTER)


def used_pack(pack: PackConstants, *, temperature: float, cycles: float = 0.0) -> PackConstants:
    """A pack that is cold, warm or old.

    Args:
        pack: New, at 20 °C.
        temperature: Of the pack itself. [K]
        cycles: Full charges it has seen. [-]

    Returns:
        Constants with the resistance changed, its band widened by a fifth for what is assumed.

    Source:
        As resistance_factor.

    Example:
        >>> cold = used_pack(pack_of(3, 4680.0), temperature=273.15)
        >>> round(cold.resistance.typical / pack_of(3, 4680.0).resistance.typical, 2)
        2.0
    """
    factor = resistance_factor(temperature, cycles=cycles)
    old = pack.resistance
    band = Band(
        0.8 * factor * old.low, factor * old.typical, 1.2 * factor * old.high, "from memory"
    )
    return replace(pack, resistance=band)


def lead_resistance(length: float, copper_area: float, *, connectors: int = 1) -> float:
    """Resistance of a pair of leads with their connectors.

    R = 2 L rho/A + n Rc, rho = 1.724e-8 ohm m, Rc = 0.5 mohm a pair of contacts.

    Args:
        length: One way, from the pack to the controller. [m]
        copper_area: Of one lead. [m²]
        connectors: Pairs of contacts on the way. [-]

    Returns:
        Resistance, to be added to that of the pack. [ohm]

    Raises:
        ModelError: Length below zero or area not above zero.

    Source:
        Copper at 20 °C: international annealed copper standard; contacts from memory.

    Example:
        >>> round(1000.0 * lead_resistance(0.15, 1.31e-6), 1)
        4.4
    """
    if length < 0.0 or copper_area <= 0.0 or connectors < 0:
        raise ModelError("Leads need a length of 0 or more and a copper area above zero.")
    return 2.0 * length * COPPER / copper_area + connectors * CONTACT


def lengthened(pack: PackConstants, length: float, diameter: float) -> PackConstants:
    """A pack with wire and a plug put between its own leads and the controller.

    Args:
        pack: With its own leads. [-]
        length: Of the wire put in, one way; 0 leaves the pack as it is. [m]
        diameter: Of its copper. [m]

    Returns:
        The pack with more resistance.

    Source:
        lead_resistance; one pair of contacts more.

    Example:
        >>> lengthened(pack, 0.0, 0.0013) is pack  # doctest: +SKIP
        True
    """
    if length <= 0.0:
        return pack
    more = lead_resistance(length, math.pi / 4.0 * diameter**2)
    old = pack.resistance
    return replace(
        pack,
        resistance=Band(old.low + more, old.typical + more, old.high + more, old.source),
    )


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
    if not 180.0 <= capacity <= 72000.0:
        got = f"{capacity / 3.6:.0f} mAh"
        raise DesignError("pack.capacity", got, "packs for these planes hold 50 to 20 000 mAh")
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
    return PackConstants(
        cells=cells,
        capacity=capacity,
        resistance=ohms,
        max_current=Band(low * hours, typical * hours, high * hours, "common practice"),
        mass=usual_pack_mass(cells, capacity) if mass is None else Band.exact(mass),
        cutoff=cutoff,
    )


def _pack_resistance(cells: int, hours: float) -> tuple[float, float, float]:
    low, typical, high = (
        cells * cell / hours + lead
        for cell, lead in zip(CELL_RESISTANCE, LEAD_RESISTANCE, strict=True)
    )
    return low, typical, high
