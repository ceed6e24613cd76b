"""From what is printed on a propeller to its curves, each with the band that it deserves."""

import math
import re
from dataclasses import dataclass, replace

import numpy as np

from foamwright.core.errors import DesignError
from foamwright.power.curves import KINDS, PARAMETERS, Array, coefficients_of
from foamwright.power.model import PropellerConstants
from foamwright.power.propeller import OTHER, flow_measure, parameters_of, propeller_of
from foamwright.power.propeller_fit import LINES
from foamwright.power.sharpen import covariance_of

ONE_IN_TEN = 1.2816  # standard deviations that leave one in ten outside on each side
STEP = 1e-4  # of a parameter, for its slope
POINTS = 25  # advance ratios from rest to a little beyond zero thrust
SPELLINGS = {
    "slowfly": "slow flight",
    "slowflyer": "slow flight",
    "slowflying": "slow flight",
    "sf": "slow flight",
    "thinelec": "electric",
    "thinelectric": "electric",
    "electricflight": "electric",
    "e": "electric",
    "ep": "electric",
    "nylon": "sport",
    "glow": "sport",
    "fold": "folding",
    "folder": "folding",
    "foldingelectric": "folding",
    "dd": "direct drive",
    "hd": "direct drive",
    "rubber": "free flight",
    "micro": OTHER,
    "research": OTHER,
    "unknown": OTHER,
    "other": OTHER,
}  # words of the published tables and of the trade (common practice, no source)


@dataclass(frozen=True, slots=True)
class PropellerCurves:
    """Coefficients of one propeller at one speed over advance ratio.

    Attributes:
        propeller: Constants they were computed from.
        speed: Of the propeller. [rad/s]
        advance_ratio: V/(n D). [-]
        thrust_coefficient: T/(rho n² D⁴). [-]
        thrust_coefficient_low: One propeller in ten lies below. [-]
        thrust_coefficient_high: One in ten lies above. [-]
        power_coefficient: P/(rho n³ D⁵). [-]
        power_coefficient_low: One in ten lies below. [-]
        power_coefficient_high: One in ten lies above. [-]
        efficiency: J CT/CP; 0 where no thrust is given. [-]
        zero_thrust_advance: Advance ratio of no thrust. [-]
        zero_thrust_advance_low: One in ten lies below. [-]
        zero_thrust_advance_high: One in ten lies above. [-]
        notes: What lies outside the measured set, in words.
    """

    propeller: PropellerConstants
    speed: float
    advance_ratio: Array
    thrust_coefficient: Array
    thrust_coefficient_low: Array
    thrust_coefficient_high: Array
    power_coefficient: Array
    power_coefficient_low: Array
    power_coefficient_high: Array
    efficiency: Array
    zero_thrust_advance: float
    zero_thrust_advance_low: float
    zero_thrust_advance_high: float
    notes: tuple[str, ...]


def kind_and_line(words: str) -> tuple[str, str]:
    """Kind and blade line from the words of a label or of the published tables.

    Args:
        words: Such as "slow flight", "electric C" or "slowflyA". [-]

    Returns:
        Kind, and the line or "" where none is told. [-]

    Raises:
        DesignError: No such kind.

    Source:
        Definition.

    Example:
        >>> kind_and_line("slowflyA"), kind_and_line("thinelec"), kind_and_line("electric C")
        (('slow flight', 'A'), ('electric', ''), ('electric', 'C'))
    """
    spelled = {kind.replace(" ", ""): kind for kind in KINDS} | SPELLINGS
    whole = re.sub(r"[^a-z]", "", words.lower())
    if whole in spelled:
        return spelled[whole], ""
    text, line = words.rstrip()[:-1], words.rstrip()[-1:]
    kind = spelled.get(re.sub(r"[^a-z]", "", text.lower()))
    if kind is None or not line.isupper():
        raise DesignError(
            "propeller.kind", f'"{words}"', f"it must be one of {', '.join((*KINDS, OTHER))}"
        )
    return kind, line


def measured_line(kind: str, line: str) -> str:
    """A blade line if it is among the measured ones of its kind, else "" for the mean of the kind.

    Args:
        kind: One of curves.KINDS, or "other". [-]
        line: Blade line, such as "A". [-]

    Returns:
        The line or "". [-]

    Source:
        Definition.

    Example:
        >>> measured_line("slow flight", "B"), measured_line("sport", "C")
        ('B', '')
    """
    return line if any((kind, line) == known[:2] for known in LINES) else ""


def curves_from_label(
    words: str,
    diameter: float,
    *,
    pitch: float,
    blades: int = 2,
    speed: float,
    advance_ratios: Array | None = None,
) -> PropellerCurves:
    """Thrust, power and efficiency of a propeller of which only the label is known.

    Args:
        words: Kind, and the blade line where it is known: "slow flight", "electric C". [-]
        diameter: [m]
        pitch: [m]
        blades: 2 to 4. [-]
        speed: Of the propeller, above zero. [rad/s]
        advance_ratios: V/(n D) wanted; None goes from rest to just beyond zero thrust. [-]

    Returns:
        Curves with 80 % bands.

    Valid:
        As propeller_of; what lies outside is said in the notes.

    Raises:
        DesignError: Unknown kind, a size that no propeller has, or a speed not above zero.

    Source:
        Regression on [UIUC-PROP]; errors of left-out propellers in docs/physics/power.md.

    Example:
        >>> curves = curves_from_label("slow flight", 0.2286, pitch=0.1194, speed=700.0)
        >>> 0.10 < curves.thrust_coefficient[0] < 0.14
        np.True_
    """
    kind, line = kind_and_line(words)
    known = measured_line(kind, line)
    propeller = propeller_of(kind, diameter, pitch=pitch, blades=blades, line=known)
    curves = curves_of(propeller, speed, advance_ratios=advance_ratios)
    if line == known:
        return curves
    return replace(curves, notes=(f"Line {line} was not among the measured ones.", *curves.notes))


def curves_of(
    propeller: PropellerConstants, speed: float, *, advance_ratios: Array | None = None
) -> PropellerCurves:
    """Curves of a propeller with 80 % bands, from the label or after readings.

    The left-out residuals of all curve parameters are carried through their slopes.

    Args:
        propeller: Constants.
        speed: Of the propeller, above zero. [rad/s]
        advance_ratios: V/(n D) wanted; None goes from rest to just beyond zero thrust. [-]

    Returns:
        Curves with 80 % bands.

    Raises:
        DesignError: A speed not above zero.

    Source:
        Regression on [UIUC-PROP]; first-order propagation.

    Example:
        >>> label = propeller_of("sport", 0.2032, pitch=0.1524)
        >>> curves = curves_of(label, 900.0)
        >>> bool(curves.thrust_coefficient_low[0] < curves.thrust_coefficient[0])
        True
    """
    if not (math.isfinite(speed) and speed > 0.0):
        raise DesignError("speed", f"{speed:g} rad/s", "it must be above zero")
    parameters = parameters_of(propeller)
    flow = float(flow_measure(np.array(speed), propeller.diameter))
    zero = math.exp(parameters[2] + parameters[3] * flow)
    advance = (
        np.linspace(0.0, 1.04 * zero, POINTS)
        if advance_ratios is None
        else np.asarray(advance_ratios, dtype=float)
    )
    thrust, power = coefficients_of(parameters, advance, np.array(flow))
    covariance = covariance_of(propeller)
    nudged = [
        coefficients_of(parameters + STEP * row, advance, np.array(flow))
        for row in np.eye(len(PARAMETERS))
    ]
    wide_thrust = _spread(np.array([(pair[0] - thrust) / STEP for pair in nudged]), covariance)
    wide_power = _spread(np.array([(pair[1] - power) / STEP for pair in nudged]), covariance)
    slope = np.zeros(len(PARAMETERS))
    slope[2:4] = 1.0, flow
    wide_zero = ONE_IN_TEN * math.sqrt(float(slope @ covariance @ slope))
    return PropellerCurves(
        propeller=propeller,
        speed=speed,
        advance_ratio=advance,
        thrust_coefficient=thrust,
        thrust_coefficient_low=thrust - wide_thrust,
        thrust_coefficient_high=thrust + wide_thrust,
        power_coefficient=power,
        power_coefficient_low=power - wide_power,
        power_coefficient_high=power + wide_power,
        efficiency=np.where((thrust > 0.0) & (power > 0.0), advance * thrust / power, 0.0),
        zero_thrust_advance=zero,
        zero_thrust_advance_low=zero * math.exp(-wide_zero),
        zero_thrust_advance_high=zero * math.exp(wide_zero),
        notes=_notes(propeller),
    )


def _spread(slopes: Array, covariance: Array) -> Array:
    variance = np.einsum("i...,ij,j...->...", slopes, covariance, slopes)
    return ONE_IN_TEN * np.sqrt(np.maximum(variance, 0.0))


def _notes(propeller: PropellerConstants) -> tuple[str, ...]:
    notes: list[str] = []
    if not propeller.in_fit_range:
        notes.append("Outside the measured propellers: extrapolated, the band is widened.")
    if propeller.kind == OTHER:
        notes.append("The kind is none of the measured ones: the mean of all, the band widened.")
    if propeller.blades > 2:
        notes.append("More than two blades: scaled on few readings, the band is widened.")
    if not propeller.line:
        notes.append("The blade line is not told; the band covers its kind.")
    return tuple(notes)
