"""Closure relations of the two-equation layer that is solved together with the outer flow.

All take the shape factor H and the natural logarithm of the Reynolds number on momentum thickness,
arrays of any shape, and are smooth enough for Newton's method.
"""

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from foamwright.aero.closures import envelope

type Array = NDArray[np.float64]

LOG_TEN = math.log(10.0)
RAMP = 0.08  # half width, in log10 of Re_theta, over which amplification sets in; assumed
# Locus of equilibrium layers G = 6.7 sqrt(1 + 0.75 beta), Clauser 1954 as Drela 1989 has it.
LOCUS, LOCUS_BEND = 6.7, 0.75
SHEAR = 0.5 / (LOCUS**2 * LOCUS_BEND)  # of the equilibrium shear stress, follows from the locus
SUBLAYER = 18.0  # over Re_theta: part of H - 1 that a thin layer's sublayer takes; Drela 1989
LEAST_LOG = 5.3  # ln(200): turbulent relations are held below Re_theta = 200
THICKEST = 12.0  # momentum thicknesses in a layer at most


@dataclass(frozen=True, slots=True)
class Turbulent:
    """A turbulent layer.

    Attributes:
        energy: H*. [-]
        friction: cf/2. [-]
        equilibrium: Root of the equilibrium shear stress. [-]
        slip: Slip speed over outer speed. [-]
        pull: Momentum thickness times the relative growth of the outer speed along the surface, of
            a layer in equilibrium. [-]
    """

    energy: Array
    friction: Array
    equilibrium: Array
    slip: Array
    pull: Array


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
        Drela & Giles 1987, fits to the Falkner-Skan profiles as revised in 1989 (from memory).

    Example:
        >>> energy, both = laminar_relations(np.array(2.59), np.array(math.log(200.0)))
        >>> float(energy.round(3)), (200.0 * both).round(3)
        (1.576, array([0.215, 0.221]))
    """
    off = shape - 4.35
    low, high = np.minimum(off, 0.0), np.maximum(off, 0.0)
    energy = 1.528 + (0.0111 - 0.0278 * low) * low * low / (shape + 1.0)
    energy += 0.015 * high * high / shape - 0.0002 * (low * shape) ** 2
    short, long = np.maximum(5.5 - shape, 0.0), np.maximum(shape, 5.5)
    back = 1.0 - 1.0 / (long - 4.5)
    friction = 0.03635 * short * short * short / (shape + 1.0) + 0.0075 * back * back - 0.035
    before, beyond = np.maximum(4.0 - shape, 0.0), np.maximum(shape - 4.0, 0.0)
    square, far = before * before, beyond * beyond
    loss = 0.207 + 0.00205 * square * square * before * np.sqrt(before)
    loss -= 0.0016 * far / (1.0 + 0.02 * far)
    return energy, np.stack([friction, loss]) * np.exp(-log_reynolds)


def turbulent_relations(shape: Array, log_reynolds: Array, *, wake: bool = False) -> Turbulent:
    """Closure of a turbulent layer from its shape.

    Args:
        shape: H. [-]
        log_reynolds: Natural logarithm of Re_theta. [-]
        wake: Without a wall.

    Returns:
        The layer.

    Source:
        Drela & Giles 1987, Drela 1989 (from memory).

    Example:
        >>> layer = turbulent_relations(np.array(1.4), np.array(7.0))
        >>> float(layer.energy.round(2)), float((2.0 * layer.friction).round(4))
        (1.77, 0.0042)
    """
    log = np.maximum(log_reynolds, LEAST_LOG)
    inverse, excess = np.exp(-log), shape - 1.0
    turn = np.minimum(3.0 + 400.0 * inverse, 4.0)
    low, high = np.maximum(turn - shape, 0.0), np.maximum(shape - turn, 0.0)
    part, four = low / (turn - 1.0), 4.0 * inverse
    energy = 1.5 + four + 1.5 * (0.5 - four) * part * part / (shape + 0.5)
    energy += high * high * (0.015 / shape + 0.007 * log / (high + 4.0 / log) ** 2)
    slip = 0.5 * energy * (1.0 - excess / (LOCUS_BEND * shape))
    slip = np.clip(slip, -0.5, 0.9999 if wake else 0.95)
    if wake:
        friction, core = np.zeros_like(log), excess
    else:
        friction = 0.15 * np.exp(-1.33 * shape - np.log(log / LOG_TEN) * (1.74 + 0.31 * shape))
        friction += 0.000055 * (np.tanh(4.0 - shape / 0.875) - 1.0)
        core = np.maximum(excess - SUBLAYER * np.exp(-log_reynolds), 0.01)
    shear = SHEAR * energy * excess * core * core / ((1.0 - slip) * shape**3)
    defect = core / (LOCUS * shape)
    return Turbulent(
        energy,
        friction,
        equilibrium=np.sqrt(np.maximum(shear, 1e-8)),
        slip=slip,
        pull=(friction - defect * defect) / (LOCUS_BEND * shape),
    )


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


def lag_rate(shape: Array, slip: Array) -> Array:
    """How fast the shear stress follows its equilibrium, times the momentum thickness.

    d ln sqrt(C_tau)/ds = rate (sqrt(C_eq) - sqrt(C_tau)), plus the difference of the pressure
    gradient from that of an equilibrium layer.

    Args:
        shape: H. [-]
        slip: Slip speed over outer speed. [-]

    Returns:
        Rate times theta. [-]

    Source:
        Green, Weeks & Brooman 1973; constant 5.6 and thickness theta (3.15 + 1.72/(H - 1) + H)
        Drela 1989 (all from memory).

    Example:
        >>> float(lag_rate(np.array(1.4), np.array(0.6)).round(2))
        0.26
    """
    whole = np.minimum(3.15 + 1.72 / np.maximum(shape - 1.0, 0.02) + shape, THICKEST)
    return 2.8 * (4.0 / 3.0) / (whole * (1.0 + slip))
