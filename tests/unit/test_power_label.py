"""From a label to curves with bands."""

import numpy as np
import pytest

from foamwright.core.errors import DesignError
from foamwright.power.label import curves_from_label, curves_of, kind_and_line
from foamwright.power.sharpen import sharpen_propeller


@pytest.mark.parametrize(
    ("words", "kind", "line"),
    [
        ("slow flight", "slow flight", ""),
        ("slowflyB", "slow flight", "B"),
        ("Electric C", "electric", "C"),
        ("direct drive", "direct drive", ""),
        ("thinelec_A", "electric", "A"),
    ],
)
def test_kind_and_line(words, kind, line):
    assert kind_and_line(words) == (kind, line)


def test_unknown_kind():
    with pytest.raises(DesignError, match=r'propeller.kind is "wooden"; it must be one of slow'):
        kind_and_line("wooden")


def test_band_shrinks_with_line_and_with_a_reading():
    wide = curves_from_label("slow flight", 0.2286, pitch=0.1524, speed=685.0)
    told = curves_from_label("slow flight A", 0.2286, pitch=0.1524, speed=685.0)

    def width(curves):
        return curves.thrust_coefficient_high[0] - curves.thrust_coefficient_low[0]

    pressure = 1.2 * (685.0 / (2 * np.pi)) ** 2 * 0.2286**4
    read = sharpen_propeller(told.propeller, speed=685.0, density=1.2, thrust=0.155 * pressure)
    assert width(wide) > width(told) > width(curves_of(read, 685.0))


def test_efficiency_and_zero_thrust():
    curves = curves_from_label("electric A", 0.2286, pitch=0.1524, speed=700.0)
    assert 0.6 < curves.efficiency.max() < 0.8
    assert curves.efficiency[0] == 0.0
    assert curves.zero_thrust_advance_low < curves.zero_thrust_advance
    inside = np.interp(curves.zero_thrust_advance, curves.advance_ratio, curves.thrust_coefficient)
    assert inside == pytest.approx(0.0, abs=2e-3)


def test_notes_and_refusal():
    curves = curves_from_label("slow flight", 0.35, pitch=0.2, blades=3, speed=500.0)
    assert len(curves.notes) == 3
    with pytest.raises(DesignError, match="speed is 0 rad/s"):
        curves_from_label("sport", 0.2, pitch=0.12, speed=0.0)


@pytest.mark.parametrize(
    ("words", "kind", "line"),
    [
        ("SF", "slow flight", ""),
        ("Thin Electric", "electric", ""),
        ("E", "electric", ""),
        ("sportC", "sport", "C"),
        ("freeflight", "free flight", ""),
        ("freeflightA", "free flight", "A"),
        ("micro", "other", ""),
        ("thinelec_B", "electric", "B"),
    ],
)
def test_words_of_the_trade(words, kind, line):
    assert kind_and_line(words) == (kind, line)


def test_a_line_that_was_not_measured_takes_its_kind_and_says_so():
    plain = curves_from_label("sport", 0.2286, pitch=0.1524, speed=700.0)
    other = curves_from_label("sport C", 0.2286, pitch=0.1524, speed=700.0)
    assert other.thrust_coefficient == pytest.approx(plain.thrust_coefficient)
    assert any("Line C was not" in note for note in other.notes)


def test_a_kind_that_nobody_knows_has_a_wider_band():
    known, other = (
        curves_from_label(words, 0.2286, pitch=0.1372, speed=700.0).propeller
        for words in ("electric", "other")
    )
    assert other.thrust_spread == pytest.approx(1.5 * known.thrust_spread, rel=0.02)
    assert other.power_spread > known.power_spread


def test_far_outside_no_work_is_won():
    # 1.45 of pitch over diameter: useful power stays below that of the shaft, and the flag is set
    curves = curves_from_label("electric A", 0.45, pitch=0.6525, speed=700.0)
    assert not curves.propeller.in_fit_range
    assert 0.0 < max(curves.efficiency) < 0.86
