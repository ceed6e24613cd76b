"""Propellers from their label: edges, flags, errors."""

import math

import numpy as np
import pytest

from foamwright.core.errors import DesignError, ModelError
from foamwright.power.blade import blade_coefficients
from foamwright.power.curves import coefficients_of
from foamwright.power.propeller import flow_measure, propeller_coefficients, propeller_of


def test_curve_at_rest_and_at_zero_thrust():
    # CT0 = 0.1, CP0 = 0.05, J0 = 0.8, no bends: CT = 0.1 (1 - J/0.8), CP = 0.05
    row = np.array([math.log(0.1), 0, math.log(0.8), 0, 0, 0, math.log(0.05), 0, 0, 0, 0])
    thrust, power = coefficients_of(row, np.array([0.0, 0.4, 0.8, 1.6]), np.zeros(4))
    assert thrust == pytest.approx([0.1, 0.05, 0.0, -0.1], abs=1e-12)
    assert power == pytest.approx([0.05] * 4)


def test_growth_with_flow():
    # CT ~ (n D²)^0.2: twice the flow gives 2^0.2 = 1.1487
    row = np.array([math.log(0.1), 0.2, 0, 0, 0, 0, 0, 0, 0, 0, 0])
    thrust, _ = coefficients_of(row, np.zeros(2), np.array([0.0, math.log(2.0)]))
    assert thrust[1] / thrust[0] == pytest.approx(1.1487, rel=1e-4)


def test_flow_is_held_below_and_fades_above():
    slow, measured, fast, faster = (
        float(flow_measure(np.array(speed), 0.2286)) for speed in (0.0, 712.1, 2000.0, 9000.0)
    )
    assert slow == -1.5
    assert measured == pytest.approx(0.0, abs=0.01)  # 6800 rpm, n D² = 5.92
    assert 0.45 < fast < faster < 0.95


def test_windmilling_is_finite():
    propeller = propeller_of("electric", 0.2286, pitch=0.1524)
    thrust, power = propeller_coefficients(
        propeller, np.array([1.2, 3.0, 30.0]), speed=np.full(3, 99.0)
    )
    assert np.all(np.isfinite(thrust))
    assert np.all(np.diff(thrust) < 0.0)
    assert thrust[0] < 0.0
    assert np.all(np.diff(power) < 0.0)


@pytest.mark.parametrize(
    ("kind", "inches", "pitch", "inside"),
    [
        ("slow flight", 9, 4.7, True),
        ("slow flight", 11, 8, True),
        ("slow flight", 4, 2.5, False),
        ("electric", 14, 7, False),
        ("folding", 9, 5, False),
    ],
)
def test_range_is_flagged_and_widens(kind, inches, pitch, inside):
    propeller = propeller_of(kind, inches * 0.0254, pitch=pitch * 0.0254)
    assert propeller.in_fit_range is inside
    usual = propeller_of("slow flight", 0.2286, pitch=0.1194).thrust_spread
    assert (propeller.thrust_spread > usual) is (not inside)


@pytest.mark.parametrize(
    ("label", "match"),
    [
        ({"kind": "wooden"}, "propeller.kind"),
        ({"line": "Z"}, "the measured lines of this kind are A, B"),
        ({"diameter": 0.9}, "propeller.diameter is 900 mm; it must be 50 to 600 mm"),
        ({"pitch": 0.01}, "propeller.pitch"),
        ({"blades": 7}, "propeller.blades is 7; it must be 2, 3 or 4"),
    ],
)
def test_refused(label, match):
    usual = {"kind": "slow flight", "diameter": 0.2286, "pitch": 0.1194, "blades": 2, "line": ""}
    wanted = usual | label
    with pytest.raises(DesignError, match=match):
        propeller_of(
            wanted["kind"],
            wanted["diameter"],
            pitch=wanted["pitch"],
            blades=wanted["blades"],
            line=wanted["line"],
        )


def test_no_shape_for_blade_elements():
    with pytest.raises(ModelError, match="no measured blade shape for folding A"):
        blade_coefficients(
            ("folding", "A"), 0.2, pitch=0.1, blades=2, advance_ratio=0.0, speed=700.0
        )


def test_more_blades_more_of_both():
    two, three = (
        propeller_coefficients(
            propeller_of("slow flight", 0.2286, pitch=0.1194, blades=blades),
            np.array(0.0),
            speed=np.array(700.0),
        )
        for blades in (2, 3)
    )
    assert three[0] / two[0] == pytest.approx(1.5**0.55)
    assert three[1] / two[1] == pytest.approx(1.5**0.80)
