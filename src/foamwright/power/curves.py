"""Thrust and power of a propeller from what is printed on it.

A propeller is described by thirteen numbers (PARAMETERS): static coefficients, advance ratio of
zero thrust, how each moves with Reynolds number, and the shape of both curves. They follow from
thirteen figures that can be regressed on kind, diameter and pitch over a published wind-tunnel set
(FIGURES); tools/fit_propellers.py writes the table.
"""

import math

import numpy as np
from numpy.typing import NDArray

type Array = NDArray[np.float64]

KINDS = (
    "slow flight",
    "electric",
    "sport",
    "folding",
    "direct drive",
    "free flight",
)
PARAMETERS = (
    "static_thrust",  # ln CT at J = 0 and reference flow
    "thrust_growth",  # d ln CT / d ln(n D²)
    "advance",  # ln of the zero-thrust advance ratio at reference flow
    "advance_growth",
    "thrust_bend_1",  # CT/CT0 = (1 - x)(1 + bend_1 x + bend_2 x² + bend_3 x³), x = J/J0
    "thrust_bend_2",
    "static_power",
    "power_growth",
    "power_bend_1",  # CP/CP0 = 1 + bend_1 x + bend_2 x² + bend_3 x³ + bend_4 x⁴
    "power_bend_2",
    "power_bend_3",
    "thrust_bend_3",  # the last two may be left out, as zero
    "power_bend_4",
)
FIGURES = (
    "static_thrust",  # ln CT at J = 0 and reference flow
    "thrust_1",  # ln CT/CT0 at THRUST_AT
    "thrust_2",
    "thrust_3",
    "angle",  # of no thrust at 0.75 R less that of the printed pitch, degrees
    "static_power",  # ln CP at J = 0
    "power_1",  # ln CP at POWER_AT
    "power_2",
    "power_3",
    "power_4",
    "thrust_growth",
    "advance_growth",
    "power_growth",
)
THRUST_AT = np.array([0.35, 0.70, 0.95])  # x = J/J0 of the thrust figures
POWER_AT = np.array([0.25, 0.50, 0.75, 1.00])
REFERENCE_FLOW = 5.9  # m²/s, n D² of a 9 in propeller at 6800 rpm; middle of the measured set
REFERENCE_PITCH_RATIO = 0.6
REFERENCE_DIAMETER = 0.2286  # m
FLOW_LOW = -1.5  # ln(n D²/reference), slowest flow measured
FLOW_HIGH = 0.45  # fastest flow measured
MOST_EFFICIENT = 0.85  # no propeller of the set passes 0.77; a bound on what is extrapolated
LINEAR_FROM = 1.05  # x beyond which both curves go on as straight lines; last measured points
LEAST_SHARE = 0.003  # of the value at rest, for a logarithm
_THRUST_SOLVER = np.linalg.inv(THRUST_AT[:, None] ** np.arange(1, 4))
_POWER_SOLVER = np.linalg.inv(POWER_AT[:, None] ** np.arange(1, 5))
_WIDEST = math.radians(80.0)  # of the angle of no thrust, so that its tangent stays finite


def label_features(
    kind: str,
    line: str,
    diameter: float,
    pitch: float,
    *,
    lines: tuple[tuple[str, str, float], ...],
    near: float | None = None,
) -> Array:
    """Regression features of a label.

    Args:
        kind: One of KINDS.
        line: Blade line within the kind; "" takes the mean of the kind's lines. [-]
        diameter: [m]
        pitch: [m]
        lines: Every (kind, line, share of the line within its kind) of the fitted set. [-]
        near: Diameter that the flags are multiplied with; None takes that of the label. [m]

    Returns:
        1, L, L², ln D; flags of the kind, then of the line, alone and times L and ln D;
        L = ln(pitch ratio/0.6), D in units of 9 in. [-]

    Source:
        Definition.

    Example:
        >>> label_features("sport", "", 0.2286, 0.13716, lines=()).sum()
        np.float64(2.0)
    """
    steep = math.log(pitch / diameter / REFERENCE_PITCH_RATIO)
    size = math.log(diameter / REFERENCE_DIAMETER)
    held = size if near is None else math.log(near / REFERENCE_DIAMETER)
    flags = np.array([float(kind == name) for name in KINDS])
    marks = np.array([
        float(kind == of) * (float(line == name) if line else share) for of, name, share in lines
    ])  # fmt: skip
    return np.concatenate([
        [1.0, steep, steep**2, size],
        flags, steep * flags, held * flags,
        marks, steep * marks, held * marks,
    ])  # fmt: skip


def parameters_of_figures(figures: Array, pitch_ratio: float) -> Array:
    """Curve parameters from the figures that the regression gives.

    Each curve is led through its figures; the angle becomes ln J0 = ln(0.75 pi tan(angle + angle of
    the printed pitch at 0.75 R)).

    Args:
        figures: In the order of FIGURES, along the last axis. [-]
        pitch_ratio: Printed pitch over diameter. [-]

    Returns:
        In the order of PARAMETERS, along the last axis. [-]

    Source:
        Definition.

    Example:
        >>> figures = np.array([0.0, *np.log(1.0 - THRUST_AT), 0, 0, 0, 0, 0, 0, 0.1, 0, 0])
        >>> np.round(np.exp(parameters_of_figures(figures, 0.6)[2]), 3)
        np.float64(0.6)
    """
    f = np.moveaxis(np.asarray(figures, dtype=float), -1, 0)
    shape = (-1,) + (1,) * (f.ndim - 1)
    thrust = np.exp(f[1:4]) / (1.0 - THRUST_AT.reshape(shape)) - 1.0
    power = np.exp(f[6:10] - f[5]) - 1.0
    bend = np.tensordot(_THRUST_SOLVER, thrust, 1)
    swell = np.tensordot(_POWER_SOLVER, power, 1)
    printed = math.atan(pitch_ratio / (0.75 * math.pi))
    angle = np.clip(np.radians(f[4]) + printed, 0.02, _WIDEST)
    advance = np.log(0.75 * math.pi * np.tan(angle))
    rows = [f[0], f[10], advance, f[11], bend[0], bend[1], f[5], f[12], *swell[:3], bend[2]]
    return np.stack([*rows, swell[3]], axis=-1)


def figures_of_parameters(parameters: Array, pitch_ratio: float) -> Array:
    """Figures that a propeller's curve parameters stand for, the other way of the above.

    Args:
        parameters: All thirteen, in the order of PARAMETERS. [-]
        pitch_ratio: Printed pitch over diameter. [-]

    Returns:
        In the order of FIGURES. [-]

    Source:
        Definition.

    Example:
        >>> row = np.array([-2.0, 0.1, -0.4, 0.1, 0.7, -0.2, -3.0, 0.0, 0.2, -0.9, 0.1, 0.0, 0.0])
        >>> bool(np.allclose(parameters_of_figures(figures_of_parameters(row, 0.6), 0.6), row))
        True
    """
    c = np.asarray(parameters, dtype=float)
    thrust = 1.0 + THRUST_AT[:, None] ** np.arange(1, 4) @ c[[4, 5, 11]]
    power = 1.0 + POWER_AT[:, None] ** np.arange(1, 5) @ c[[8, 9, 10, 12]]
    still = 0.75 * math.pi
    angle = math.degrees(math.atan(math.exp(c[2]) / still) - math.atan(pitch_ratio / still))
    return np.concatenate([
        [c[0]], np.log(np.maximum((1.0 - THRUST_AT) * thrust, LEAST_SHARE)),
        [angle, c[6]], c[6] + np.log(np.maximum(power, LEAST_SHARE)),
        c[[1, 3, 7]],
    ])  # fmt: skip


def coefficients_of(parameters: Array, advance_ratio: Array, flow: Array) -> tuple[Array, Array]:
    """Thrust and power coefficient from the curve parameters.

    CT = CT0 (1 - x)(1 + a x + b x² + c x³), CP = CP0 (1 + d x + e x² + f x³ + g x⁴), x = J/J0;
    straight beyond x = 1.05.

    Args:
        parameters: In the order of PARAMETERS; the last two may be missing. [-]
        advance_ratio: V/(n D), 0 or more. [-]
        flow: ln(n D² / reference). [-]

    Returns:
        CT and CP, negative where the propeller windmills. [-]

    Valid:
        x up to about 1.1; beyond, a straight continuation. Power is never below J CT/0.85, nor a
        windmill's above 0.85 of J CT: work is not won, whatever is extrapolated.

    Source:
        Form chosen here; fits each of the 37 propellers of [UIUC-PROP] within 1 to 3 % rms.

    Example:
        >>> flat = np.log([0.1, 1, 1, 1, 1, 1, 0.05, 1, 1, 1, 1])
        >>> thrust, power = coefficients_of(flat, np.array(0.0), np.array(0.0))
        >>> round(float(thrust), 3), round(float(power), 3)
        (0.1, 0.05)
    """
    c = np.moveaxis(np.asarray(parameters), -1, 0)
    third, fourth = _last_bends(c)
    x = advance_ratio / np.exp(c[2] + c[3] * flow)
    inner = np.minimum(x, LINEAR_FROM)
    beyond = x - inner
    e = LINEAR_FROM
    thrust = (1.0 - inner) * (1.0 + inner * (c[4] + inner * (c[5] + inner * third)))
    shape = 1.0 + e * (c[4] + e * (c[5] + e * third))
    thrust_slope = (1.0 - e) * (c[4] + e * (2.0 * c[5] + e * 3.0 * third)) - shape
    power = 1.0 + inner * (c[8] + inner * (c[9] + inner * (c[10] + inner * fourth)))
    power_slope = _power_slope(c, fourth)
    thrust = np.exp(c[0] + c[1] * flow) * (thrust + thrust_slope * beyond)
    power = np.exp(c[6] + c[7] * flow) * (power + power_slope * beyond)
    useful = advance_ratio * thrust
    least = np.where(useful > 0.0, useful / MOST_EFFICIENT, useful * MOST_EFFICIENT)
    return thrust, np.maximum(power, least)


def zero_power_ratio(parameters: Array) -> Array:
    """Where, in x = J/J0, the straight part of the power curve crosses zero.

    Args:
        parameters: In the order of PARAMETERS; the last two may be missing. [-]

    Returns:
        x, 1 or more. [-]

    Source:
        Definition of the curve.

    Example:
        >>> line = np.array([0, 0, 0, 0, 0, 0, 0, 0, -0.8, 0, 0.0])
        >>> round(float(zero_power_ratio(line)), 3)
        1.25
    """
    c = np.moveaxis(np.asarray(parameters), -1, 0)
    fourth = _last_bends(c)[1]
    e = LINEAR_FROM
    value = 1.0 + e * (c[8] + e * (c[9] + e * (c[10] + e * fourth)))
    return np.maximum(e - value / np.minimum(_power_slope(c, fourth), -0.05), 1.0)


def _power_slope(c: Array, fourth: Array) -> Array:
    e = LINEAR_FROM
    return c[8] + e * (2.0 * c[9] + e * (3.0 * c[10] + e * 4.0 * fourth))


def _last_bends(c: Array) -> tuple[Array, Array]:
    return (c[11], c[12]) if len(c) > 11 else (np.zeros(()), np.zeros(()))
