"""Closure relations of the two-equation layer that is solved together with the outer flow.

All take the shape factor H and the natural logarithm of the Reynolds number on momentum thickness,
arrays of any shape, and are smooth enough for Newton's method.
"""

import math

import numpy as np
from numpy.typing import NDArray

from foamwright.aero.closures import envelope

type Array = NDArray[np.float64]

LOG_TEN = math.log(10.0)
RAMP = 0.08  # half width, in log10 of Re_theta, over which amplification sets in; assumed
SHEAR = 0.015  # of the equilibrium shear stress: C_tau = 0.015 H* (H-1)³/((1-U_slip) H³)
LEAST_LOG = 5.3  # ln(200): turbulent relations are held below Re_theta = 200


def smooth_amplification(shape: Array, log_reynolds: Array) -> Array:
    """Growth theta dn/ds of the amplification exponent, set in over a short ramp.

    Args:
        shape: H. [-]
        log_reynolds: Natural logarithm of Re_theta. [-]

    Returns:
        theta dn/ds. [-]

    Source:
        Drela & Giles 1987, envelope of the Orr-Sommerfeld rates (from memory).

    Example:
        >>> smooth_amplification(np.array([2.6, 5.0]), np.log([100.0, 300.0])).round(3)
        array([0.   , 0.037])
    """
    critical, rate = envelope(np.clip(shape, 2.05, 9.0))
    share = np.clip((log_reynolds / LOG_TEN - critical + RAMP) / (2.0 * RAMP), 0.0, 1.0)
    return np.maximum(rate, 0.0) * share**2 * (3.0 - 2.0 * share)


def laminar_relations(shape: Array, log_reynolds: Array) -> tuple[Array, Array]:
    """Energy shape factor, and friction and dissipation stacked, of a laminar layer.

    Args:
        shape: H. [-]
        log_reynolds: Natural logarithm of Re_theta. [-]

    Returns:
        H*, and cf/2 above 2 CD/H* along a first axis. [-]

    Source:
        Drela & Giles 1987, fits to the Falkner-Skan profiles (from memory).

    Example:
        >>> energy, both = laminar_relations(np.array(2.59), np.array(math.log(200.0)))
        >>> float(energy.round(3)), (200.0 * both).round(3)
        (1.573, array([0.221, 0.221]))
    """
    off = shape - 4.0
    below, square = off < 0.0, off * off
    energy = 1.515 + np.where(below, 0.076, 0.040) * square / shape
    low, high = np.minimum(shape, 7.4), np.maximum(shape, 7.4)
    friction = -0.067 + np.where(
        shape < 7.4,
        0.01977 * (7.4 - low) ** 2 / (low - 1.0),
        0.022 * (1.0 - 1.4 / (high - 6.0)) ** 2,
    )
    short = np.maximum(-off, 0.0)
    loss = 0.207 + np.where(
        below, 0.00205 * short**5 * np.sqrt(short), -0.003 * square / (1.0 + 0.02 * square)
    )
    return energy, np.stack([friction, loss]) * np.exp(-log_reynolds)


def turbulent_relations(
    shape: Array, log_reynolds: Array, *, wake: bool = False
) -> tuple[Array, Array, Array, Array]:
    """Energy shape factor, friction, equilibrium shear and slip speed of a turbulent layer.

    Args:
        shape: H. [-]
        log_reynolds: Natural logarithm of Re_theta. [-]
        wake: Without a wall.

    Returns:
        H*, cf/2, root of the equilibrium shear stress, slip speed over outer speed. [-]

    Source:
        Drela & Giles 1987 (from memory).

    Example:
        >>> energy, friction, shear, slip = turbulent_relations(np.array(1.4), np.array(7.0))
        >>> float(energy.round(2)), float((2.0 * friction).round(4))
        (1.75, 0.0042)
    """
    log = np.maximum(log_reynolds, LEAST_LOG)
    inverse = np.exp(-log)
    turn = np.minimum(3.0 + 400.0 * inverse, 4.0)
    off = shape - turn
    low, high = np.maximum(-off, 1e-9), np.maximum(off, 0.0)
    energy = (
        1.505
        + 4.0 * inverse
        + np.where(
            off < 0.0,
            (0.165 - 1.6 * np.sqrt(inverse)) * low**1.6 / shape,
            high**2 * (0.04 / shape + 0.007 * log / (high + 4.0 / log) ** 2),
        )
    )
    friction = 0.15 * np.exp(-1.33 * shape - np.log(log / LOG_TEN) * (1.74 + 0.31 * shape))
    excess = shape - 1.0
    most = 0.9999 if wake else 0.95
    slip = np.clip(0.5 * energy * (1.0 - 4.0 * excess / (3.0 * shape)), -0.5, most)
    shear = SHEAR * energy * excess**3 / ((1.0 - slip) * shape**3)
    return energy, 0.0 * friction if wake else friction, np.sqrt(np.maximum(shear, 1e-8)), slip


def first_shear(shape: Array, equilibrium: Array) -> Array:
    """Root of the shear stress where a layer turns turbulent.

    Args:
        shape: H. [-]
        equilibrium: Root of the equilibrium shear stress. [-]

    Returns:
        Root of the shear stress. [-]

    Source:
        1.8 exp(-3.3/(H - 1)) of equilibrium, Drela 1989 (from memory); at most 1.2.

    Example:
        >>> float(first_shear(np.array(4.3), np.array(0.1)).round(3))
        0.066
    """
    return np.minimum(1.8 * np.exp(-3.3 / np.maximum(shape - 1.0, 0.1)), 1.2) * equilibrium


def thickness_ratio(shape: Array) -> Array:
    """Whole thickness of a layer over its momentum thickness.

    Args:
        shape: H. [-]

    Returns:
        delta/theta. [-]

    Source:
        3.15 + 1.72/(H - 1) + H, Drela & Giles 1987 (from memory).

    Example:
        >>> float(thickness_ratio(np.array(1.4)).round(2))
        8.85
    """
    return 3.15 + 1.72 / np.maximum(shape - 1.0, 0.02) + shape
