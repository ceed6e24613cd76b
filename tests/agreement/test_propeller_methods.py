"""Fitted propeller curves against blade elements."""

import numpy as np
import pytest

from foamwright.power.blade import BLADES, blade_coefficients
from foamwright.power.propeller import propeller_coefficients, propeller_of, zero_thrust_advance

THRUST_BAND = 0.25  # of the fit at rest; the section of the blade elements is assumed, not measured
POWER_BAND = 0.35
FLIGHT_BAND = 0.22  # of the static value
SPEED = 680.0  # rad/s


@pytest.mark.parametrize("shape", list(BLADES), ids=" ".join)
@pytest.mark.parametrize(
    ("inches", "ratio"), [(9, 0.55), (10, 0.58), (10, 0.65), (11, 0.6), (11, 0.7)]
)
def test_agreement(shape, inches, ratio):
    diameter, pitch = inches * 0.0254, inches * 0.0254 * ratio
    propeller = propeller_of(shape[0], diameter, pitch=pitch, line=shape[1])
    cruise = 0.6 * zero_thrust_advance(propeller, SPEED)
    fitted = propeller_coefficients(propeller, np.array([0.0, cruise]), speed=np.array(SPEED))
    rest, flight = (
        blade_coefficients(
            shape, diameter, pitch=pitch, blades=2, advance_ratio=advance, speed=SPEED
        )
        for advance in (0.0, cruise)
    )
    assert rest[0] == pytest.approx(fitted[0][0], rel=THRUST_BAND)
    assert rest[1] == pytest.approx(fitted[1][0], rel=POWER_BAND)
    assert flight[0] == pytest.approx(fitted[0][1], abs=FLIGHT_BAND * fitted[0][0])
    assert flight[1] == pytest.approx(fitted[1][1], abs=FLIGHT_BAND * fitted[1][0])


@pytest.mark.parametrize("blades", [3, 4])
def test_blade_count(blades):
    # the scaling used sits between bench readings and blade elements
    two, more = (
        blade_coefficients(("slow flight", "B"), 0.2286, pitch=0.1194, blades=count,
                           advance_ratio=0.0, speed=SPEED)
        for count in (2, blades)
    )  # fmt: skip
    scaled = [
        propeller_coefficients(
            propeller_of("slow flight", 0.2286, pitch=0.1194, blades=count, line="B"),
            np.array(0.0),
            speed=np.array(SPEED),
        )
        for count in (2, blades)
    ]
    assert scaled[1][0] / scaled[0][0] == pytest.approx(more[0] / two[0], rel=0.15)
    assert scaled[1][1] / scaled[0][1] == pytest.approx(more[1] / two[1], rel=0.20)
