"""A propeller from its label: constants with a spread, and its coefficients in flight."""

import math
from functools import lru_cache

import numpy as np

from foamwright.core.errors import DesignError
from foamwright.power import propeller_fit as fit
from foamwright.power.curves import (
    FLOW_HIGH,
    FLOW_LOW,
    KINDS,
    REFERENCE_FLOW,
    Array,
    coefficients_of,
    label_features,
    parameters_of_figures,
)
from foamwright.power.model import PropellerConstants
from foamwright.stock.estimates import usual_propeller_mass

SOLD_KINDS = KINDS[:5]  # that a design file may name
OTHER = "other"  # kind of a propeller that is none of these: what all kinds have in common
OTHER_SPREAD = 1.5  # its band against that of a kind; four propellers of other kinds, see docs
# pitch ratios between which the regression is used, a little beyond the measured 0.42 to 0.91; a
# steeper blade is stalled at rest and gives no more thrust, a flatter one less in proportion, and
# the power goes with the pitch; assumed
FLATTEST, STEEPEST = 0.40, 0.95
THRUST_FIGURE, POWER_FIGURES = 0, slice(5, 10)  # places in curves.FIGURES
STEP = 1e-4  # of a figure, for the slope of the parameters
THRUST_BLADE_EXPONENT = 0.55  # CT ~ (blades/2)^0.55, between bench 0.34 and rotor theory 0.65
POWER_BLADE_EXPONENT = 0.80  # CP likewise, between 0.66 and 1.04; docs/physics/power.md
BLADE_SPREAD = 0.10  # added for each blade beyond two, from the scatter of the same readings
SMALLEST_DIAMETER = 0.05  # m, below this no curve of the set says anything
LARGEST_DIAMETER = 0.60  # m
LOWEST_PITCH_RATIO = 0.2
HIGHEST_PITCH_RATIO = 1.6
FLOW_FADE = 0.5  # growth with Reynolds number dies out over this much ln(n D²); assumed
OUTSIDE_GROWTH = 3.0  # spread grows by this much per unit of ln outside the range; assumed
KIND_GROWTH = 1.0  # the same outside the diameters of its own kind; assumed, 5 in bench readings
SLOWEST = 0.02  # rev/s, below which a propeller counts as still
RANGE_MARGIN = 0.06  # relative; 5 % beyond the largest propeller is still the set


def propeller_of(
    kind: str, diameter: float, *, pitch: float, blades: int = 2, line: str = ""
) -> PropellerConstants:
    """Constants of a propeller from what is printed on it.

    Args:
        kind: One of curves.KINDS, or "other" for none of them. [-]
        diameter: [m]
        pitch: [m]
        blades: 2 to 4. [-]
        line: Blade line within its kind, "" when unknown. [-]

    Returns:
        Constants with one standard deviation for thrust, power and zero-thrust advance ratio.

    Valid:
        5 to 11 in, pitch ratio 0.42 to 0.91 (narrower for some kinds); outside it is flagged and
        the spread widened.

    Raises:
        DesignError: Unknown kind or line, or a size that no propeller has.

    Source:
        Regression on [UIUC-PROP]; errors of left-out propellers in docs/physics/power.md.

    Example:
        >>> propeller_of("slow flight", 0.2286, pitch=0.1194).in_fit_range
        True
    """
    _refuse(kind, diameter, pitch, blades, line)
    spread = np.sqrt(np.diag(label_covariance(kind, line, diameter, pitch)))
    outside = _outside(kind, diameter, pitch)
    wider = 1.0 + OUTSIDE_GROWTH * outside + KIND_GROWTH * _strange_size(kind, diameter)
    more = wider + BLADE_SPREAD * (blades - 2) / spread[0]
    return PropellerConstants(
        kind=kind,
        diameter=diameter,
        pitch=pitch,
        blades=blades,
        thrust_scale=1.0,
        power_scale=1.0,
        thrust_spread=float(spread[0] * more),
        power_spread=float(spread[6] * more),
        in_fit_range=outside == 0.0,
        mass=usual_propeller_mass(kind, diameter, blades=blades),
        line=line,
        advance_spread=float(spread[2] * wider),
    )


def propeller_coefficients(
    propeller: PropellerConstants, advance_ratio: Array, *, speed: Array
) -> tuple[Array, Array]:
    """Thrust and power coefficient of a propeller in flight.

    Args:
        propeller: Constants.
        advance_ratio: V/(n D). [-]
        speed: Of the propeller. [rad/s]

    Returns:
        CT = T/(rho n² D⁴) and CP = P/(rho n³ D⁵). [-]

    Valid:
        n D² from 1.3 to 9 m²/s as measured; slower is held, faster fades to a constant.

    Source:
        Regression on [UIUC-PROP]; reproduced in tests/validation/test_propellers.py.

    Example:
        >>> standard = propeller_of("slow flight", 0.2286, pitch=0.1194)
        >>> thrust, power = propeller_coefficients(standard, np.array(0.0), speed=np.array(700.0))
        >>> bool(0.10 < thrust < 0.14)
        True
    """
    flow = flow_measure(speed, propeller.diameter)
    return coefficients_of(parameters_of(propeller), advance_ratio, flow)


def parameters_of(propeller: PropellerConstants) -> Array:
    """The curve parameters of a propeller, blades and readings included.

    Args:
        propeller: Constants.

    Returns:
        In the order of curves.PARAMETERS. [-]

    Source:
        Regression on [UIUC-PROP].

    Example:
        >>> len(parameters_of(propeller_of("sport", 0.2032, pitch=0.1524)))
        13
    """
    parameters = np.array(
        _label_parameters(propeller.kind, propeller.line, propeller.diameter, propeller.pitch)
    )
    more = math.log(propeller.blades / 2.0)
    parameters[0] += math.log(propeller.thrust_scale) + THRUST_BLADE_EXPONENT * more
    parameters[6] += math.log(propeller.power_scale) + POWER_BLADE_EXPONENT * more
    parameters[2] += math.log(propeller.advance_scale)
    if propeller.curve_shift:
        parameters += np.array(propeller.curve_shift)
    return parameters


def flow_measure(speed: Array, diameter: float | Array) -> Array:
    """Reynolds measure ln(n D²/reference), held below and fading above the measured range.

    Args:
        speed: Of the propeller. [rad/s]
        diameter: [m]

    Returns:
        0 for a 9 in propeller at 6800 rpm. [-]

    Source:
        Definition; the fade above the measured range is assumed.

    Example:
        >>> round(float(flow_measure(np.array(712.1), 0.2286)), 2)
        0.0
    """
    turns = np.maximum(np.asarray(speed) / (2.0 * math.pi), SLOWEST)
    flow = np.log(turns * (diameter**2 / REFERENCE_FLOW))
    above = np.maximum(flow - FLOW_HIGH, 0.0)
    faded = FLOW_HIGH + FLOW_FADE * (1.0 - np.exp(-above / FLOW_FADE))
    return np.maximum(np.where(above > 0.0, faded, flow), FLOW_LOW)


def zero_thrust_advance(propeller: PropellerConstants, speed: float) -> float:
    """Advance ratio at which the thrust vanishes.

    Args:
        propeller: Constants.
        speed: Of the propeller. [rad/s]

    Returns:
        V/(n D). [-]

    Source:
        Regression on [UIUC-PROP].

    Example:
        >>> 0.5 < zero_thrust_advance(propeller_of("electric", 0.2286, pitch=0.1143), 700.0) < 0.8
        True
    """
    parameters = parameters_of(propeller)
    flow = float(flow_measure(np.array(speed), propeller.diameter))
    return math.exp(parameters[2] + parameters[3] * flow)


@lru_cache(maxsize=256)
def label_covariance(kind: str, line: str, diameter: float, pitch: float) -> Array:
    """How the curve parameters of a label err together.

    The left-out residuals of the figures, carried over by the slopes of the parameters.

    Args:
        kind: One of curves.KINDS, or "other". [-]
        line: Blade line within the kind, "" when unknown. [-]
        diameter: [m]
        pitch: [m]

    Returns:
        Covariance in the order of curves.PARAMETERS. [-]

    Source:
        Left-out propellers of [UIUC-PROP]; first-order propagation.

    Example:
        >>> label_covariance("sport", "", 0.2032, 0.1524).shape
        (13, 13)
    """
    figures = np.array(_label_figures(kind, line, diameter, pitch))
    nudged = figures + STEP * np.eye(len(figures))
    ratio = pitch / diameter
    slopes = (parameters_of_figures(nudged, ratio) - parameters_of_figures(figures, ratio)).T / STEP
    spread = np.array(fit.SPREAD_LINE if line else fit.SPREAD_KIND)
    covariance = slopes @ spread @ slopes.T * (OTHER_SPREAD**2 if kind == OTHER else 1.0)
    covariance.setflags(write=False)
    return covariance


@lru_cache(maxsize=256)
def _label_figures(kind: str, line: str, diameter: float, pitch: float) -> tuple[float, ...]:
    """Figures of a label; what kinds and sizes do is held beyond what was measured of them."""
    everything = np.array(fit.RANGES)
    smallest, largest = float(everything[:, 0].min()), float(everything[:, 1].max())
    small, large = _own_diameters(kind)
    ratio = pitch / diameter
    held = min(max(ratio, FLATTEST), STEEPEST)
    size = min(max(diameter, smallest), largest)
    features = label_features(
        kind, line, size, held * size, lines=fit.LINES, near=min(max(diameter, small), large)
    )
    figures = features @ np.array(fit.TABLE)
    figures[THRUST_FIGURE] += math.log(min(ratio / held, 1.0))
    figures[POWER_FIGURES] += math.log(ratio / held)
    return tuple(float(value) for value in figures)


@lru_cache(maxsize=256)
def _label_parameters(kind: str, line: str, diameter: float, pitch: float) -> tuple[float, ...]:
    figures = np.array(_label_figures(kind, line, diameter, pitch))
    return tuple(float(value) for value in parameters_of_figures(figures, pitch / diameter))


def _own_diameters(kind: str) -> tuple[float, float]:
    rows = np.array(fit.RANGES)
    own = rows if kind == OTHER else rows[[KINDS.index(kind)]]
    return float(own[:, 0].min()), float(own[:, 1].max())


def _strange_size(kind: str, diameter: float) -> float:
    """How far outside the measured diameters of its kind a propeller lies, in ln."""
    small, large = _own_diameters(kind)
    margin = math.log(1.0 + RANGE_MARGIN)
    return max(math.log(small / diameter) - margin, math.log(diameter / large) - margin, 0.0)


def _outside(kind: str, diameter: float, pitch: float) -> float:
    """How far outside the fitted set a label lies, in ln of diameter and pitch ratio."""
    rows = np.array(fit.RANGES)
    low, high = float(rows[:, 0].min()), float(rows[:, 1].max())
    own = rows if kind == OTHER else rows[[KINDS.index(kind)]]
    steep, flat = float(own[:, 3].max()), float(own[:, 2].min())
    margin = math.log(1.0 + RANGE_MARGIN)
    ratio = pitch / diameter
    gaps = (
        math.log(low / diameter) - margin,
        math.log(diameter / high) - margin,
        math.log(flat / ratio) - margin,
        math.log(ratio / steep) - margin,
    )
    return sum(gap for gap in gaps if gap > 0.0)


def _refuse(kind: str, diameter: float, pitch: float, blades: int, line: str) -> None:
    if kind not in (*KINDS, OTHER):
        raise DesignError(
            "propeller.kind", f'"{kind}"', "it must be one of " + ", ".join((*KINDS, OTHER))
        )
    lines = [name for of, name, _ in fit.LINES if of == kind]
    if line and line not in lines:
        known = ", ".join(lines)
        raise DesignError(
            "propeller.line",
            f'"{line}"',
            f"the measured lines of this kind are {known}",
            "Leave it out when unknown.",
        )
    if not SMALLEST_DIAMETER <= diameter <= LARGEST_DIAMETER:
        raise DesignError(
            "propeller.diameter",
            f"{diameter * 1000:.0f} mm",
            f"it must be {SMALLEST_DIAMETER * 1000:.0f} to {LARGEST_DIAMETER * 1000:.0f} mm",
            "The propeller curves were measured on 5 to 11 in propellers.",
        )
    if not LOWEST_PITCH_RATIO <= pitch / diameter <= HIGHEST_PITCH_RATIO:
        raise DesignError(
            "propeller.pitch",
            f"{pitch * 1000:.0f} mm",
            f"it must be {LOWEST_PITCH_RATIO:g} to {HIGHEST_PITCH_RATIO:g} of the diameter",
            "The second figure printed on a propeller is the pitch, in inches.",
        )
    if not 2 <= blades <= 4:
        raise DesignError("propeller.blades", f"{blades}", "it must be 2, 3 or 4")
