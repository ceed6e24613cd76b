"""Load factors in manoeuvres, gusts and shocks, and how lift spreads along the wing."""

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from foamwright.core.air import GRAVITY

type Array = NDArray[np.float64]
type Number = float | Array

NEGATIVE_SHARE = 0.4  # of the positive load factor, [CFR-23] 23.337(b)(1) (from memory)


def mass_ratio(wing_loading: Number, *, density: float, chord: float, lift_slope: float) -> Number:
    """Mass ratio of a plane in a gust, mu = 2 (W/S) / (rho c a g).

    Args:
        wing_loading: Mass over wing area. [kg/m²]
        density: Air. [kg/m³]
        chord: Mean chord. [m]
        lift_slope: Of the plane. [1/rad]

    Returns:
        Mass ratio. [-]

    Source:
        [CFR-23] 23.341(c); reproduced in tests/validation/test_load_factors.py.

    Example:
        >>> round(mass_ratio(2.6247, density=1.225, chord=0.1905, lift_slope=4.4), 3)
        5.112
    """
    return 2.0 * wing_loading / (density * chord * lift_slope)


def gust_alleviation(ratio: Number) -> Number:
    """Part of a sharp gust that the plane feels, Kg = 0.88 mu / (5.3 + mu).

    Args:
        ratio: Mass ratio. [-]

    Returns:
        Alleviation factor. [-]

    Valid:
        Written for manned planes; small mass ratios extrapolate.

    Source:
        [CFR-23] 23.341(c).

    Example:
        >>> round(gust_alleviation(5.11236), 4)
        0.4321
    """
    return 0.88 * ratio / (5.3 + ratio)


def gust_load_factor(
    wing_loading: Number,
    *,
    speed: Number,
    gust: float,
    density: float,
    chord: float,
    lift_slope: float,
) -> Number:
    """Load factor when a plane in level flight meets an upward gust.

    n = 1 + Kg rho U V a / (2 W/S), with W/S the weight over the area.

    Args:
        wing_loading: Mass over wing area. [kg/m²]
        speed: Of flight. [m/s]
        gust: Speed of the rising air. [m/s]
        density: Air. [kg/m³]
        chord: Mean chord. [m]
        lift_slope: Of the plane. [1/rad]

    Returns:
        Load factor. [-]

    Source:
        [CFR-23] 23.341(c); reproduced in tests/validation/test_load_factors.py.

    Example:
        >>> round(gust_load_factor(
        ...     2.6247, speed=12.0, gust=3.0, density=1.225, chord=0.1905, lift_slope=4.4), 3)
        2.629
    """
    kg = gust_alleviation(
        mass_ratio(wing_loading, density=density, chord=chord, lift_slope=lift_slope)
    )
    return 1.0 + kg * density * gust * speed * lift_slope / (2.0 * wing_loading * GRAVITY)


def manoeuvre_load_factor(speed: float, stall_speed: float) -> float:
    """Most that the wing can pull before it stalls, n = (V / Vs)².

    Args:
        speed: Of flight. [m/s]
        stall_speed: In level flight. [m/s]

    Returns:
        Load factor. [-]

    Source:
        Lift goes with the square of the speed; any text.

    Example:
        >>> manoeuvre_load_factor(15.0, 6.0)
        6.25
    """
    return (speed / stall_speed) ** 2


def pull_up_load_factor(speed: float, radius: float) -> float:
    """Load factor at the bottom of a pull-up, n = 1 + V² / (g R).

    Args:
        speed: [m/s]
        radius: Of the path. [m]

    Returns:
        Load factor. [-]

    Source:
        Circular motion, any text; reproduced in tests/validation/test_load_factors.py.

    Example:
        >>> round(pull_up_load_factor(15.0, 10.0), 3)
        3.294
    """
    return 1.0 + speed**2 / (GRAVITY * radius)


def certified_load_factor(weight_lb: float) -> float:
    """Limit load factor that manned planes of the normal category must bear.

    n = 2.1 + 24000 / (W + 10000) with W in pounds, not above 3.8.

    Args:
        weight_lb: Weight in pounds. [lb]

    Returns:
        Load factor. [-]

    Source:
        [CFR-23] 23.337(a)(1) (from memory).

    Example:
        >>> certified_load_factor(2650.0)
        3.8
    """
    return min(2.1 + 24000.0 / (weight_lb + 10000.0), 3.8)


def stopping_load_factor(speed: float, distance: float) -> float:
    """Mean deceleration in g when a speed is lost over a distance, V² / (2 s g).

    Args:
        speed: Lost. [m/s]
        distance: Over which it is lost. [m]

    Returns:
        Deceleration over gravity. [-]

    Source:
        Kinematics; reproduced in tests/validation/test_load_factors.py.

    Example:
        >>> round(stopping_load_factor(10.0, 0.05), 1)
        102.0
    """
    return speed**2 / (2.0 * distance * GRAVITY)


def shaft_torque(current: float, no_load_current: float, *, kv: float) -> float:
    """Torque of a motor, Q = (I - I0) / Kv.

    Args:
        current: [A]
        no_load_current: [A]
        kv: Speed per volt. [rad/(s V)]

    Returns:
        Torque on the shaft, and on the firewall the other way. [N m]

    Source:
        Three-constant motor; power over speed, reproduced in tests/validation/test_load_factors.py.

    Example:
        >>> round(shaft_torque(12.0, 0.8, kv=104.7), 3)
        0.107
    """
    return max(current - no_load_current, 0.0) / kv


def gyroscopic_moment(inertia: float, spin: float, turn: float) -> float:
    """Moment that turns the axis of a spinning propeller, M = I omega Omega.

    Args:
        inertia: About the shaft. [kg m²]
        spin: Of the propeller. [rad/s]
        turn: Of the plane, across the shaft. [rad/s]

    Returns:
        Moment, square to both. [N m]

    Source:
        [HIBBELER]; reproduced in tests/validation/test_load_factors.py.

    Example:
        >>> round(gyroscopic_moment(15.0 * 0.3**2, 350.0, 200.0 / 3.6 / 80.0), 1)
        328.1
    """
    return inertia * spin * turn


def propeller_inertia(mass: float, diameter: float) -> float:
    """Inertia of a propeller about its shaft, as an even bar, m D² / 12.

    Args:
        mass: [kg]
        diameter: [m]

    Returns:
        Moment of inertia. [kg m²]

    Valid:
        On the safe side: blades taper, so that a real one has some 0.6 to 0.9 of it (assumed).

    Source:
        Rod about its middle, any text on mechanics.

    Example:
        >>> round(propeller_inertia(0.013, 0.2286) * 1e6, 1)
        56.6
    """
    return mass * diameter**2 / 12.0


def negative_load_factor(positive: float) -> float:
    """Load factor upside down or pushed, as a size: 0.4 of the positive one.

    Args:
        positive: Load factor asked of the wing right side up. [-]

    Returns:
        Size of the negative one. [-]

    Source:
        [CFR-23] 23.337(b)(1), normal category (from memory).

    Example:
        >>> negative_load_factor(6.0)
        2.4000000000000004
    """
    return NEGATIVE_SHARE * positive


def schrenk(places: Array, chords: Array) -> Array:
    """Lift per span of an untwisted wing, as the mean of its chord and of an ellipse.

    l(y) b / L = (c(y) / c_mean + (4 / pi) sqrt(1 - eta²)) / 2.

    Args:
        places: Fractions of the half span, 0 to 1. [-]
        chords: There, over the mean chord. [-]

    Returns:
        Lift per span over its mean. [-]

    Valid:
        Unswept wings without twist; a few per cent of the bending moment.

    Source:
        [SCHRENK] NACA TM 948; reproduced in tests/validation/test_span_load.py.

    Example:
        >>> round(float(schrenk(np.array([0.0]), np.array([1.0]))[0]), 4)
        1.1366
    """
    ellipse = (4.0 / math.pi) * np.sqrt(np.clip(1.0 - places**2, 0.0, None))
    return 0.5 * (chords + ellipse)


def schrenk_centre(taper: float) -> float:
    """Centre of the half wing's lift for a straight taper, fraction of the half span.

    y / s = ((1 + 2 taper) / (3 (1 + taper)) + 4 / (3 pi)) / 2.

    Args:
        taper: Tip chord over root chord. [-]

    Returns:
        Fraction of the half span. [-]

    Source:
        [SCHRENK] integrated; reproduced in tests/validation/test_span_load.py.

    Example:
        >>> round(schrenk_centre(1.0), 4)
        0.4622
    """
    return 0.5 * ((1.0 + 2.0 * taper) / (3.0 * (1.0 + taper)) + 4.0 / (3.0 * math.pi))


@dataclass(frozen=True, slots=True)
class SpanLoad:
    """Shear and bending of a half wing for one g.

    Attributes:
        places: Along the half span, root to tip. [m]
        lift: Net of the wing's own weight, per span. [N/m]
        shear: [N]
        moment: [N m]
    """

    places: Array
    lift: Array
    shear: Array
    moment: Array


def span_load(
    places: Array,
    chords: Array,
    *,
    mass: Array | float,
    wing_mass: Array | float,
    shape: Array | None = None,
) -> SpanLoad:
    """Shear force and bending moment of a half wing for one g of lift.

    Lift by the shape that is handed in (a lattice), else after Schrenk, less the wing's own weight
    spread by its chord; both summed from the tip in.

    Args:
        places: Along the half span from 0 to the tip. [m]
        chords: There. [m]
        mass: All-up; of many builds as a column. [kg]
        wing_mass: Of the wing with what is in it; of many builds as a column. [kg]
        shape: Lift per span there, in any measure; None takes Schrenk's. [any]

    Returns:
        Loads at the places, one row a build when masses are columns.

    Valid:
        Lift of the tail left out: a few per cent of the wing's.

    Source:
        [SCHRENK]; statics.

    Example:
        >>> y = np.linspace(0.0, 0.5, 51)
        >>> load = span_load(y, np.full(51, 0.2), mass=0.5, wing_mass=0.0)
        >>> round(float(load.moment[0]), 3), round(float(load.shear[0]), 3)
        (0.566, 2.452)
    """
    half = float(places[-1])
    mean = float(np.trapezoid(chords, places)) / half
    if shape is None:
        shape = schrenk(places / half, chords / mean)
    shape = shape / (float(np.trapezoid(shape, places)) / half)
    lift = 0.5 * GRAVITY * (mass * shape - wing_mass * chords / mean) / half
    shear = _from_tip(lift, places)
    return SpanLoad(places, lift, shear, _from_tip(shear, places))


def _from_tip(values: Array, places: Array) -> Array:
    steps = 0.5 * (values[..., 1:] + values[..., :-1]) * np.diff(places)
    sums = np.zeros(values.shape)
    sums[..., :-1] = np.cumsum(steps[..., ::-1], axis=-1)[..., ::-1]
    return sums
