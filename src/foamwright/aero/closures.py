"""Closure relations of the boundary layer, as published."""

import numpy as np
from numpy.typing import NDArray

type Array = NDArray[np.float64]

SEPARATION = -0.09  # Thwaites' pressure parameter at laminar separation [THWAITES]


def laminar_shape(pressure: Array) -> Array:
    """Shape factor H of a laminar layer from Thwaites' pressure parameter.

    Args:
        pressure: theta²/nu dU/ds. [-]

    Returns:
        H. [-]

    Valid:
        -0.09 to 0.25; held beyond.

    Source:
        Thwaites 1949 with Cebeci & Bradshaw's fit.

    Example:
        >>> float(laminar_shape(np.array(0.0)).round(2))
        2.61
    """
    p = np.clip(pressure, SEPARATION, 0.25)
    return np.where(p >= 0.0, 2.61 - 3.75 * p + 5.24 * p * p, 2.088 + 0.0731 / (p + 0.14))


def amplification(shape: Array, thickness_reynolds: Array) -> Array:
    """Growth of the amplification exponent, theta dn/ds, of a laminar layer.

    Envelope of the Orr-Sommerfeld rates: zero below the critical Re_theta(H), then
    dn/dRe_theta(H) (m + 1)/2 l(H).

    Args:
        shape: H. [-]
        thickness_reynolds: Re on momentum thickness. [-]

    Returns:
        theta dn/ds. [-]

    Source:
        Drela & Giles, AIAA J. 25(10), 1987, eqs. for the envelope (from memory).

    Example:
        >>> float(amplification(np.array(2.6), np.array(100.0)))
        0.0
    """
    critical, rate = envelope(np.clip(shape, 2.05, 6.0))
    return np.where(thickness_reynolds > 10.0**critical, rate, 0.0)


def envelope(shape: Array) -> tuple[Array, Array]:
    """Where amplification sets in and how fast the exponent then grows.

    Args:
        shape: H, 2.05 to 9. [-]

    Returns:
        log10 of the critical Re_theta, theta dn/ds beyond it. [-]

    Source:
        Drela & Giles, AIAA J. 25(10), 1987 (from memory).

    Example:
        >>> [round(float(v), 3) for v in envelope(np.array(2.6))]
        [2.349, 0.002]
    """
    bend = shape - 1.0
    critical = (1.415 / bend - 0.489) * np.tanh(20.0 / bend - 12.9) + 3.295 / bend + 0.44
    slope = 0.01 * np.sqrt((2.4 * shape - 3.7 + 2.5 * np.tanh(1.5 * shape - 4.65)) ** 2 + 0.25)
    friction = (6.54 * shape - 14.07) / shape**2
    growth = (0.058 * (shape - 4.0) ** 2 / bend - 0.068) / friction
    return critical, slope * 0.5 * (growth + 1.0) * friction


def entrainment_shape(shape: Array) -> Array:
    """Head's shape factor H1 from H.

    Args:
        shape: H. [-]

    Returns:
        H1. [-]

    Source:
        Head 1958, fit of Cebeci & Bradshaw.

    Example:
        >>> float(entrainment_shape(np.array(1.4)).round(1))
        7.2
    """
    low = 3.3 + 0.8234 * np.maximum(shape - 1.1, 0.01) ** -1.287
    high = 3.3 + 1.5501 * np.maximum(shape - 0.6778, 0.01) ** -3.064
    return np.where(shape < 1.6, low, high)


def shape_of_entrainment(entrainment: Array) -> Array:
    """H from Head's H1, the inverse of `entrainment_shape`.

    Args:
        entrainment: H1. [-]

    Returns:
        H. [-]

    Source:
        Head 1958, fit of Cebeci & Bradshaw.

    Example:
        >>> float(shape_of_entrainment(np.array(7.2)).round(1))
        1.4
    """
    excess = np.maximum(entrainment - 3.3, 0.02)
    low = 1.1 + 0.86 * excess**-0.777
    high = 0.6778 + 1.1536 * excess**-0.326
    return np.where(excess > 2.0, low, high)


def turbulent_friction(shape: Array, thickness_reynolds: Array) -> Array:
    """Skin friction coefficient of a turbulent layer.

    cf = 0.246 10^(-0.678 H) Re_theta^-0.268.

    Args:
        shape: H. [-]
        thickness_reynolds: Re on momentum thickness. [-]

    Returns:
        cf. [-]

    Source:
        Ludwieg & Tillmann 1949.

    Example:
        >>> float(turbulent_friction(np.array(1.4), np.array(1000.0)).round(4))
        0.0043
    """
    return np.asarray(
        0.246 * 10.0 ** (-0.678 * shape) * np.maximum(thickness_reynolds, 20.0) ** -0.268
    )
