"""Thin-aerofoil theory: zero-lift angle, moment, flap effectiveness, hinge moment."""

import math
from collections.abc import Sequence
from functools import lru_cache

import numpy as np

TWO_PI = 2.0 * math.pi


@lru_cache(maxsize=256)
def flap_effectiveness(chord_fraction: float) -> float:
    """Incidence worth of a plain flap, d(alpha)/d(deflection).

    tau = 1 - (t - sin t)/pi, cos t = 2 cf/c - 1.

    Args:
        chord_fraction: Hinged chord over chord. [-]

    Returns:
        tau. [-]

    Valid:
        Inviscid, sealed gap, small deflections; practical losses are applied by who calls.

    Source:
        Glauert, thin-aerofoil theory [KP] sec. 5.4; tests/validation/test_wing_theory.py.

    Example:
        >>> round(flap_effectiveness(0.25), 3)
        0.609
    """
    fraction = min(max(chord_fraction, 0.0), 1.0)
    theta = math.acos(2.0 * fraction - 1.0)
    return 1.0 - (theta - math.sin(theta)) / math.pi


@lru_cache(maxsize=256)
def flap_moment(chord_fraction: float) -> float:
    """Section moment about the quarter chord per flap deflection, at constant incidence.

    cm = -sin h (1 - cos h)/2 with h the hinge place, x/c = (1 - cos h)/2.

    Args:
        chord_fraction: Hinged chord over chord. [-]

    Returns:
        Nose-up positive; negative for trailing edge down. [1/rad]

    Source:
        Glauert, thin-aerofoil theory [KP] sec. 5.4.

    Example:
        >>> round(flap_moment(0.25), 3)
        -0.65
    """
    hinge = math.acos(1.0 - 2.0 * (1.0 - min(max(chord_fraction, 0.0), 1.0)))
    return -0.5 * math.sin(hinge) * (1.0 - math.cos(hinge))


@lru_cache(maxsize=64)
def hinge_moment_slopes(chord_fraction: float) -> tuple[float, float]:
    """Hinge moment of a plain flap, per incidence and per deflection, on flap chord squared.

    Integral of the thin-aerofoil load over the flap with its arm, done numerically.

    Args:
        chord_fraction: Hinged chord over chord. [-]

    Returns:
        d(Ch)/d(alpha) and d(Ch)/d(deflection), both negative (trailing up). [1/rad]

    Valid:
        Inviscid; real small surfaces show about 0.6 of it.

    Source:
        Glauert, thin-aerofoil theory.

    Example:
        >>> a, d = hinge_moment_slopes(0.3)
        >>> a < 0.0 > d and d < a
        True
    """
    fraction = min(max(chord_fraction, 1e-3), 0.999)
    hinge = math.acos(1.0 - 2.0 * (1.0 - fraction))
    # Midpoints in the angle from hinge to trailing edge; the kink's logarithm is integrable.
    edges = np.linspace(hinge, math.pi, 401)
    theta = 0.5 * (edges[1:] + edges[:-1])
    place = 0.5 * (1.0 - np.cos(theta))
    arm = place - (1.0 - fraction)
    step = 0.5 * np.sin(theta) * np.diff(edges)
    by_alpha = 4.0 * (1.0 + np.cos(theta)) / np.sin(theta)
    kink = np.log(np.abs(np.sin(0.5 * (theta + hinge)) / np.sin(0.5 * (theta - hinge))))
    first = 2.0 * (math.pi - hinge) / math.pi  # 2 A0 part, A0 = alpha - hinge share
    by_flap = first * 2.0 * (1.0 + np.cos(theta)) / np.sin(theta) + 4.0 / math.pi * kink
    # The A0 part above carries the whole (1 + cos)/sin; the series part sums to the logarithm.
    return (
        -float((by_alpha * arm * step).sum()) / fraction**2,
        -float((by_flap * arm * step).sum()) / fraction**2,
    )


def mean_line(
    upper: Sequence[tuple[float, float]], lower: Sequence[tuple[float, float]]
) -> tuple[np.ndarray, np.ndarray]:
    """Mean line of an outline at cosine-spaced stations.

    Args:
        upper: Nose to tail, chord fractions. [-]
        lower: Same. [-]

    Returns:
        Stations and heights. [-]

    Source:
        Definition: halfway between upper and lower at the same x.

    Example:
        >>> x, z = mean_line([(0, 0), (1, 0)], [(0, 0), (1, 0)])
        >>> float(abs(z).max())
        0.0
    """
    theta = np.linspace(0.0, math.pi, 121)
    x = 0.5 * (1.0 - np.cos(theta))
    top, bottom = np.array(upper, dtype=float), np.array(lower, dtype=float)
    z = 0.5 * (np.interp(x, top[:, 0], top[:, 1]) + np.interp(x, bottom[:, 0], bottom[:, 1]))
    return x, z


def thin_section(
    upper: Sequence[tuple[float, float]], lower: Sequence[tuple[float, float]]
) -> tuple[float, float]:
    """Zero-lift angle and quarter-chord moment of a thin cambered section.

    alpha0 = -(1/pi) ∫ dz/dx (cos t - 1) dt; cm = pi/4 (A2 - A1).

    Args:
        upper: Nose to tail, chord fractions. [-]
        lower: Same. [-]

    Returns:
        Zero-lift angle [rad] and moment coefficient [-].

    Source:
        Glauert, thin-aerofoil theory [KP] sec. 5.3.

    Example:
        >>> thin_section([(0, 0), (1, 0)], [(0, 0), (1, 0)])
        (0.0, 0.0)
    """
    x, z = mean_line(upper, lower)
    theta = np.arccos(np.clip(1.0 - 2.0 * x, -1.0, 1.0))
    middle = 0.5 * (theta[1:] + theta[:-1])
    slope = np.diff(z) / np.diff(x)
    step = np.diff(theta)
    zero = -float((slope * (np.cos(middle) - 1.0) * step).sum()) / math.pi
    first = 2.0 / math.pi * float((slope * np.cos(middle) * step).sum())
    second = 2.0 / math.pi * float((slope * np.cos(2.0 * middle) * step).sum())
    return zero + 0.0, math.pi / 4.0 * (second - first) + 0.0
