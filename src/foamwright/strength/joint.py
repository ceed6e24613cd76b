"""Glued joints: laps, seams, braces, and what heat leaves of them."""

import math

import numpy as np
from numpy.typing import NDArray

type Array = NDArray[np.float64]
type Number = float | Array

ROOM = 296.15  # K, at which the strengths in stock hold
SOFTENING = 5.0  # K over which a glue goes from half to a quarter of its strength; assumed


def volkersen_peak(
    overlap: float, *, glue_modulus: float, glue_thickness: float, stiffness: float
) -> float:
    """Peak over mean shear stress in a lap joint of two equal plates, x coth x.

    x = (L / 2) sqrt(2 G / (t_a E t)).

    Args:
        overlap: Length L of the joint along the load. [m]
        glue_modulus: Shear modulus G of the glue. [Pa]
        glue_thickness: t_a. [m]
        stiffness: Modulus times thickness E t of one plate. [N/m]

    Returns:
        Peak over mean. [-]

    Valid:
        Elastic glue, plates that stretch but do not bend.

    Source:
        [VOLKERSEN]; reproduced in tests/validation/test_lap_joint.py.

    Example:
        >>> round(volkersen_peak(
        ...     0.025, glue_modulus=5e6, glue_thickness=0.5e-3, stiffness=9.5e9 * 1.59e-3), 4)
        1.068
    """
    x = 0.5 * overlap * math.sqrt(2.0 * glue_modulus / (glue_thickness * stiffness))
    return x / math.tanh(x) if x > 1e-6 else 1.0


def heat_factor(temperature: float, hot_temperature: Number) -> Number:
    """Share of its strength that a glue keeps when warm.

    1 / (1 + exp((T - T_hot) / 5 K)), over its value at room temperature: half at T_hot.

    Args:
        temperature: Of the glue. [K]
        hot_temperature: Up to which it keeps useful strength. [K]

    Returns:
        Share, at most 1. [-]

    Valid:
        Short loads; under a lasting load a warm glue creeps long before.

    Source:
        Assumed shape; T_hot from stock.

    Example:
        >>> round(float(heat_factor(323.15, 323.15)), 2)
        0.5
    """
    warm = 1.0 / (1.0 + np.exp((temperature - hot_temperature) / SOFTENING))
    cool = 1.0 / (1.0 + np.exp((ROOM - hot_temperature) / SOFTENING))
    return np.minimum(warm / cool, 1.0)


def torsion_patch_moment(strength: Number, *, length: float, height: float) -> Number:
    """Moment that a rectangular patch of glue holds in its own plane.

    tau = M r / Ip at the corner, Ip = L h (L² + h²) / 12.

    Args:
        strength: Shear strength. [Pa]
        length: Of the patch. [m]
        height: Of the patch. [m]

    Returns:
        Moment. [N m]

    Source:
        Elastic rivet-group rule for an area, any text on strength of materials.

    Example:
        >>> round(torsion_patch_moment(0.15e6, length=0.075, height=0.01), 2)
        1.42
    """
    polar = length * height * (length**2 + height**2) / 12.0
    return strength * polar / (0.5 * math.hypot(length, height))


def tape_line_strength(strength: Number, *, bond: Number, reach: float) -> Number:
    """Pull per length of seam that a tape across it holds: what tears or what peels first.

    min(tape strength, bond shear strength * width stuck to one side).

    Args:
        strength: Of the tape per width. [N/m]
        bond: Shear strength on the board's paper. [Pa]
        reach: Width stuck to one side of the seam. [m]

    Returns:
        Pull per length. [N/m]

    Source:
        Statics; the paper peels from the foam first, from memory.

    Example:
        >>> round(float(tape_line_strength(14e3, bond=0.15e6, reach=0.024)))
        3600
    """
    return np.minimum(strength, bond * reach)
