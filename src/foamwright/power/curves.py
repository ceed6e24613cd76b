"""Thrust and power of a propeller from what is printed on it.

A propeller is described by eleven numbers (PARAMETERS): static coefficients, advance ratio of
zero thrust, how each moves with Reynolds number, and the shape of both curves. They come from a
regression on kind, diameter and pitch over a published wind-tunnel set; tools/fit_propellers.py
writes the table.
"""

import numpy as np
from numpy.typing import NDArray

type Array = NDArray[np.float64]

KINDS = (
    "slow flight",
    "electric",
    "sport",
    "folding",
    "direct drive",
)
PARAMETERS = (
    "static_thrust",  # ln CT at J = 0 and reference flow
    "thrust_growth",  # d ln CT / d ln(n D²)
    "advance",  # ln of the zero-thrust advance ratio at reference flow
    "advance_growth",
    "thrust_bend_1",  # CT/CT0 = (1 - x)(1 + bend_1 x + bend_2 x²), x = J/J0
    "thrust_bend_2",
    "static_power",
    "power_growth",
    "power_bend_1",  # CP/CP0 = 1 + bend_1 x + bend_2 x² + bend_3 x³
    "power_bend_2",
    "power_bend_3",
)
REFERENCE_FLOW = 5.9  # m²/s, n D² of a 9 in propeller at 6800 rpm; middle of the measured set
REFERENCE_PITCH_RATIO = 0.6
REFERENCE_DIAMETER = 0.2286  # m
FLOW_LOW = -1.5  # ln(n D²/reference), slowest flow measured
FLOW_HIGH = 0.45  # fastest flow measured
LINEAR_FROM = 1.05  # x beyond which both curves go on as straight lines; last measured points


def label_features(
    kind: str,
    line: str,
    diameter: float,
    pitch: float,
    *,
    lines: tuple[tuple[str, str, float], ...],
) -> Array:
    """Regression features of a label.

    Args:
        kind: One of KINDS.
        line: Blade line within the kind; "" takes the mean of the kind's lines. [-]
        diameter: [m]
        pitch: [m]
        lines: Every (kind, line, share of the line within its kind) of the fitted set. [-]

    Returns:
        1, L, L², ln D; flags of the kind, alone and times L and ln D; flags of the line, alone and
        times L, L² and ln D;
        L = ln(pitch ratio/0.6), D in units of 9 in. [-]

    Source:
        Definition.

    Example:
        >>> label_features("sport", "", 0.2286, 0.13716, lines=()).sum()
        np.float64(2.0)
    """
    steep = float(np.log(pitch / diameter / REFERENCE_PITCH_RATIO))
    size = float(np.log(diameter / REFERENCE_DIAMETER))
    flags = [float(kind == name) for name in KINDS]
    marks = [
        float(kind == of) * (float(line == name) if line else share) for of, name, share in lines
    ]
    return np.array(
        [1.0, steep, steep**2, size]
        + flags
        + [steep * flag for flag in flags]
        + [size * flag for flag in flags]
        + marks
        + [steep * mark for mark in marks]
        + [steep**2 * mark for mark in marks]
        + [size * mark for mark in marks]
    )


def coefficients_of(parameters: Array, advance_ratio: Array, flow: Array) -> tuple[Array, Array]:
    """Thrust and power coefficient from the eleven parameters.

    CT = CT0 (1 - x)(1 + a x + b x²), CP = CP0 (1 + a x + b x² + c x³), x = J/J0; straight beyond
    x = 1.05.

    Args:
        parameters: In the order of PARAMETERS. [-]
        advance_ratio: V/(n D), 0 or more. [-]
        flow: ln(n D² / reference). [-]

    Returns:
        CT and CP, negative where the propeller windmills. [-]

    Valid:
        x up to about 1.1; beyond, a straight continuation.

    Source:
        Form chosen here; fits each of the 37 propellers of [UIUC-PROP] within 1 to 4 % rms.

    Example:
        >>> flat = np.log([0.1, 1, 1, 1, 1, 1, 0.05, 1, 1, 1, 1])
        >>> thrust, power = coefficients_of(flat, np.array(0.0), np.array(0.0))
        >>> round(float(thrust), 3), round(float(power), 3)
        (0.1, 0.05)
    """
    c = np.moveaxis(np.asarray(parameters), -1, 0)
    x = advance_ratio / np.exp(c[2] + c[3] * flow)
    inner = np.minimum(x, LINEAR_FROM)
    beyond = x - inner
    e = LINEAR_FROM
    thrust = (1.0 - inner) * (1.0 + inner * (c[4] + inner * c[5]))
    thrust_slope = -(1.0 + e * (c[4] + e * c[5])) + (1.0 - e) * (c[4] + 2.0 * e * c[5])
    power = 1.0 + inner * (c[8] + inner * (c[9] + inner * c[10]))
    power_slope = c[8] + e * (2.0 * c[9] + e * 3.0 * c[10])
    return (
        np.exp(c[0] + c[1] * flow) * (thrust + thrust_slope * beyond),
        np.exp(c[6] + c[7] * flow) * (power + power_slope * beyond),
    )
