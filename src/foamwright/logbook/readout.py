"""The quantities that are told to the builder: single ones, and sums that flights see together."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from foamwright.core.units import format_value
from foamwright.logbook.hidden import COLUMN, NAMES

type Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Readout:
    """One quantity as it is told.

    Attributes:
        name: Short stable name.
        title: What a positive value means.
        opposite: What a negative value means.
        dimension: "angle", "length", "mass", "speed", "share".
        parts: Hidden quantity -> factor. [-]
    """

    name: str
    title: str
    opposite: str
    dimension: str
    parts: Mapping[str, float]


READOUTS: tuple[Readout, ...] = (
    Readout("twist_difference", "right panel twisted nose up of the left",
            "left panel twisted nose up of the right", "angle",
            {"twist_right": 1.0, "twist_left": -1.0}),
    Readout("twist_right", "right tip nose up of what was drawn",
            "right tip nose down of what was drawn", "angle", {"twist_right": 1.0}),
    Readout("twist_left", "left tip nose up of what was drawn",
            "left tip nose down of what was drawn", "angle", {"twist_left": 1.0}),
    Readout("tip_mass", "right wing heavy, as mass at its tip",
            "left wing heavy, as mass at its tip", "mass", {"tip_mass": 1.0}),
    Readout("right_thrust", "right thrust too much against what was computed",
            "right thrust too little against what was computed", "angle",
            {"right_thrust": 1.0, "yaw_model": 1.0}),
    Readout("down_thrust", "down thrust too much against what was computed",
            "down thrust too little against what was computed", "angle",
            {"down_thrust": 1.0, "pitch_model": 1.0}),
    Readout("cg_aft", "CG aft of where it was computed", "CG forward of where it was computed",
            "length", {"cg_aft": 1.0}),
    Readout("stability", "neutral point further behind the CG than computed",
            "neutral point closer to the CG than computed", "length",
            {"neutral_point": 1.0, "cg_aft": -1.0}),
    Readout("decalage", "wing nose up against the stab, more than drawn",
            "wing nose up against the stab, less than drawn", "angle",
            {"wing_incidence": 1.0, "stab_incidence": -1.0}),
    Readout("drag", "drag above what was computed", "drag below what was computed", "share",
            {"drag": 1.0}),
    Readout("mass", "heavier than computed", "lighter than computed", "share", {"mass": 1.0}),
    Readout("thrust", "thrust above what was computed", "thrust below what was computed", "share",
            {"thrust": 1.0}),
    Readout("current", "current above what was computed", "current below what was computed",
            "share", {"current": 1.0}),
    Readout("throw_speed", "throw faster than assumed", "throw slower than assumed", "speed",
            {"throw_speed": 1.0}),
    Readout("lift_max", "largest lift above what was computed",
            "largest lift below what was computed", "share", {"lift_max": 1.0}),
)  # fmt: skip


def values_of(readout: Readout, hidden: Array) -> Array:
    """A readout of some guesses.

    Args:
        readout: Which. [-]
        hidden: Guesses, one a row. [as hidden.py]

    Returns:
        One a guess. [as the readout]

    Source:
        Sum of its parts.

    Example:
        >>> float(values_of(READOUTS[0], np.zeros((1, 18)))[0])
        0.0
    """
    total = np.zeros(len(hidden))
    for name, factor in readout.parts.items():
        total += factor * hidden[:, COLUMN[name]]
    return total


def usual_spread(readout: Readout, spreads: Array) -> float:
    """Standard deviation of a readout before anything was seen.

    Args:
        readout: Which. [-]
        spreads: Of the hidden quantities. [as each]

    Returns:
        [as the readout]

    Source:
        Independent errors.

    Example:
        >>> round(usual_spread(READOUTS[0], np.ones(18)), 3)
        1.414
    """
    factors = np.zeros(len(NAMES))
    for name, factor in readout.parts.items():
        factors[COLUMN[name]] = factor
    return float(np.sqrt(np.sum((factors * spreads) ** 2)))


def usual_reach(readout: Readout, scales: Array, odds: Array) -> float:
    """How far a readout reaches before anything was seen: 80 % lie between minus and plus that.

    Sum over causes of P(c) erf(x / (sqrt(2) s_c)) = 0.8.

    Args:
        readout: Which. [-]
        scales: Standard deviations, one row a cause, one column a quantity. [as each]
        odds: Of the causes, sum 1. [-]

    Returns:
        [as the readout]

    Source:
        Mixture of normal distributions, solved by bisection.

    Example:
        >>> round(usual_reach(READOUTS[3], np.ones((1, 18)), np.ones(1)), 3)
        1.282
    """
    each = [usual_spread(readout, row) for row in scales]
    low, high = 0.0, 10.0 * max(each)
    for _ in range(60):
        middle = 0.5 * (low + high)
        inside = sum(
            chance * math.erf(middle / (math.sqrt(2.0) * one))
            for chance, one in zip(odds.tolist(), each, strict=True)
        )
        low, high = (middle, high) if inside < 0.8 else (low, middle)
    return high


def amount_words(value: float, dimension: str, units: str) -> str:
    """An amount in the builder's units, without its sign.

    Args:
        value: [as dimension]
        dimension: "angle", "length", "mass", "speed", "share". [-]
        units: "metric" or "inch". [-]

    Returns:
        Words.

    Source:
        Definition.

    Example:
        >>> amount_words(-0.0349, "angle", "metric"), amount_words(0.2, "share", "metric")
        ('2 deg', '20 %')
    """
    size = abs(value)
    if dimension == "share":
        return f"{100.0 * size:.0f} %"
    if dimension == "angle":
        return f"{np.degrees(size):.1f} deg".replace(".0 deg", " deg")
    return format_value(size, dimension, units)


def band_words(band: tuple[float, float, float], dimension: str, units: str) -> str:
    """The ends of a band, without their signs where both lie on the middle's side.

    Args:
        band: Low end, middle, high end. [as dimension]
        dimension: As `amount_words`. [-]
        units: "metric" or "inch". [-]

    Returns:
        Words.

    Source:
        Definition.

    Example:
        >>> band_words((0.1, 0.2, 0.3), "share", "metric")
        '10 % to 30 %'
        >>> band_words((-0.1, 0.2, 0.3), "share", "metric")
        '30 % at most, or up to 10 % the other way'
    """
    low, middle, high = band
    near, far = (
        amount_words(end, dimension, units) for end in ((low, high) if middle >= 0 else (high, low))
    )
    if low < 0.0 < high:
        return f"{far} at most, or up to {near} the other way"
    return f"{near} to {far}"
