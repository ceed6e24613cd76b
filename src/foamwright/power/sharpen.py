"""One static bench reading sharpens a propeller."""

import math
from dataclasses import replace

import numpy as np

from foamwright.core.errors import ModelError
from foamwright.power.model import PropellerConstants
from foamwright.power.propeller import (
    flow_measure,
    label_covariance,
    propeller_coefficients,
)

STATIC = (0, 6)  # rows of ln CT0 and ln CP0 in the covariance
ADVANCE = 2  # row of ln J0
READING_ERROR = (
    0.03  # one standard deviation of a kitchen-scale thrust or wattmeter reading; assumed
)
CONTRADICTS = 3.0  # standard deviations beyond which a reading is refused


def sharpen_propeller(
    propeller: PropellerConstants,
    *,
    speed: float,
    density: float,
    thrust: float | None = None,
    torque: float | None = None,
) -> PropellerConstants:
    """A propeller after a static reading of thrust, torque or both.

    The left-out residuals of the fit say how the curve parameters err together; the reading
    moves them all by the Gaussian rule. Further readings may follow one another.

    Args:
        propeller: As from its label.
        speed: Of the propeller. [rad/s]
        density: Air density. [kg/m³]
        thrust: At rest; None when not read. [N]
        torque: Of the shaft; None when not read. [N m]

    Returns:
        Constants with new scales and smaller spreads.

    Valid:
        Readings without airspeed.

    Raises:
        ModelError: No reading, one not above zero, or one more than three standard deviations off.

    Source:
        Covariance of the left-out propellers of [UIUC-PROP]; docs/physics/power.md.

    Example:
        >>> from foamwright.power.propeller import propeller_of
        >>> label = propeller_of("slow flight", 0.2286, pitch=0.1194)
        >>> sharp = sharpen_propeller(label, speed=700.0, density=1.225, thrust=5.9)
        >>> sharp.thrust_spread < label.thrust_spread
        True
    """
    readings = {
        row: value for row, value in zip(STATIC, (thrust, torque), strict=True) if value is not None
    }
    values = (speed, density, *readings.values())
    if not readings or not all(math.isfinite(value) and value > 0.0 for value in values):
        raise ModelError("A static reading needs rpm and a thrust or torque, all above zero.")
    turns = speed / (2.0 * math.pi)
    pressure = density * turns**2 * propeller.diameter**4
    scale = {0: pressure, 6: pressure * propeller.diameter / (2.0 * math.pi)}
    guess = propeller_coefficients(propeller, np.array(0.0), speed=np.array(speed))
    fitted = {0: float(guess[0]), 6: float(guess[1])}
    rows = list(readings)
    surprise = np.array([math.log(readings[row] / scale[row] / fitted[row]) for row in rows])
    covariance = covariance_of(propeller)
    flow = float(flow_measure(np.array(speed), propeller.diameter))
    seen = np.zeros((len(rows), len(covariance)))
    for place, row in enumerate(rows):
        seen[place, row], seen[place, row + 1] = 1.0, flow  # the coefficient and its growth
    spread = seen @ covariance @ seen.T + READING_ERROR**2 * np.eye(len(rows))
    _refuse_surprise(rows, surprise, np.sqrt(np.diag(spread)))
    gain = covariance @ seen.T @ np.linalg.inv(spread)
    return moved(propeller, gain @ surprise, covariance - gain @ seen @ covariance)


def covariance_of(propeller: PropellerConstants) -> np.ndarray:
    """How the curve parameters of a propeller err together.

    The left-out residuals of the fit, widened where the label lies outside the measured set, for
    more than two blades, and narrowed where a reading has been taken in.

    Args:
        propeller: Constants.

    Returns:
        Covariance, in the order of curves.PARAMETERS. [-]

    Source:
        Left-out propellers of [UIUC-PROP].

    Example:
        >>> from foamwright.power.propeller import propeller_of
        >>> covariance_of(propeller_of("sport", 0.2032, pitch=0.1524)).shape
        (13, 13)
    """
    if propeller.curve_covariance:
        return np.array(propeller.curve_covariance)
    covariance = label_covariance(
        propeller.kind, propeller.line, propeller.diameter, propeller.pitch
    )
    usual = np.sqrt(np.diag(covariance))
    factor = np.full(len(usual), max(propeller.advance_spread / usual[ADVANCE], 1.0))
    factor[0] = max(propeller.thrust_spread / usual[0], 1.0)
    factor[6] = max(propeller.power_spread / usual[6], 1.0)
    return covariance * np.outer(factor, factor)


def moved(
    propeller: PropellerConstants, shift: np.ndarray, covariance: np.ndarray
) -> PropellerConstants:
    """A propeller with its curve parameters moved, and what is known of their errors.

    Args:
        propeller: Constants before.
        shift: Added to each curve parameter. [-]
        covariance: Of the curve parameters afterwards. [-]

    Returns:
        Constants with new scales, spreads, shift and covariance.

    Source:
        Definition.

    Example:
        >>> from foamwright.power.propeller import propeller_of
        >>> label = propeller_of("sport", 0.2032, pitch=0.1524)
        >>> moved(label, np.zeros(13), covariance_of(label)).thrust_scale
        1.0
    """
    rest = shift + np.array(propeller.curve_shift or [0.0] * len(shift))
    rest[[0, ADVANCE, 6]] = 0.0
    left = np.sqrt(np.diag(covariance))
    return replace(
        propeller,
        thrust_scale=propeller.thrust_scale * math.exp(shift[0]),
        power_scale=propeller.power_scale * math.exp(shift[6]),
        advance_scale=propeller.advance_scale * math.exp(shift[ADVANCE]),
        thrust_spread=float(left[0]),
        power_spread=float(left[6]),
        advance_spread=float(left[ADVANCE]),
        curve_shift=tuple(float(value) for value in rest),
        curve_covariance=tuple(tuple(float(v) for v in row) for row in covariance),
    )


def _refuse_surprise(rows: list[int], surprise: np.ndarray, spread: np.ndarray) -> None:
    names = {0: "thrust", 6: "torque"}
    for row, off, width in zip(rows, surprise, spread, strict=True):
        if abs(off) > CONTRADICTS * width:
            raise ModelError(
                f"The {names[row]} read is {100 * (math.exp(off) - 1):+.0f} % off what such a "
                f"propeller gives at this rpm ({100 * width:.0f} % is usual). Check the reading, "
                "the rpm and the propeller's label."
            )
