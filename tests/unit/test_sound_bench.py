"""Propeller speed from invented bench recordings whose speed is known."""

import math
import time

import numpy as np
import pytest

from foamwright.core.errors import ModelError
from foamwright.sound.bench import propeller_speed
from foamwright.sound.model import Recording
from sound_samples import (
    RATE,
    bench_tone,
    gain_changes,
    generator,
    recording,
    wind_noise,
    with_noise,
)

RPM = 30 / math.pi


def spoilt(tone, seed, above=10.0):
    """An echo of half the strength 50 ms later, wind, gain changes."""
    echo = tone + 0.5 * np.roll(tone, RATE // 20)
    return recording(gain_changes(with_noise(echo, wind_noise(len(tone), seed), above), seed))


@pytest.mark.parametrize("rpm", [2400, 4300, 7350, 9180, 12_640, 17_800])
@pytest.mark.parametrize("blades", [2, 3])
def test_within_one_per_cent_ten_decibels_above_the_noise(rpm, blades):
    heard = propeller_speed(spoilt(bench_tone(rpm, 4, blades=blades), rpm), blades=blades)
    assert heard.best.speed * RPM == pytest.approx(rpm, rel=0.01)


@pytest.mark.parametrize("strengths", [(1.0,), (0.3, 1.0, 0.3), (1.0, 0.1, 0.8, 0.1)])
def test_whatever_the_harmonics(strengths):
    heard = propeller_speed(spoilt(bench_tone(8000, 4, strengths=strengths), 3))
    assert heard.best.speed * RPM == pytest.approx(8000, rel=0.01)


def test_a_shaft_out_of_balance_is_not_taken_for_the_blades():
    for seed, rpm in enumerate((5900, 7392, 10_633, 11_855)):
        heard = propeller_speed(spoilt(bench_tone(rpm, 4, imbalance=0.3), seed))
        assert heard.best.speed * RPM == pytest.approx(rpm, rel=0.01)


def test_the_model_decides_between_tones_that_fit_alike():
    tone = bench_tone(8000, 4, imbalance=0.9, strengths=(1.0,))
    for expected in (8300, 3900):
        heard = propeller_speed(recording(tone), expected=expected / RPM)
        assert heard.best.speed * RPM == pytest.approx(expected, rel=0.05)


def test_steady_stretches_of_a_run_up():
    knots = [0, 2, 3, 6, 7, 9]
    tone = bench_tone(lambda t: np.interp(t, knots, [3000, 3000, 9000, 9000, 4000, 4000]), 9)
    heard = propeller_speed(recording(with_noise(tone, wind_noise(len(tone), 1), 10)))
    assert [round(s.speed * RPM, -1) for s in heard.stretches] == [3000, 9000, 4000]
    assert heard.best == heard.stretches[1]


def test_the_spread_holds_a_sinking_speed():
    tone = bench_tone(lambda t: 9000 - 40 * t, 4)
    best = propeller_speed(recording(tone)).best
    assert abs(best.speed * RPM - 8920) < 3 * best.speed_spread * RPM
    assert best.speed_spread * RPM > 20


def test_ten_times_faster_than_the_recording():
    heard = spoilt(bench_tone(8000, 30), 5)
    start = time.process_time()
    propeller_speed(heard)
    assert time.process_time() - start < 3.0


@pytest.mark.parametrize("seed", range(4))
def test_noise_is_refused(seed):
    for noise in (wind_noise(RATE * 5, seed), generator(seed).standard_normal(RATE * 5)):
        with pytest.raises(ModelError, match="no propeller tone stands clear of the noise"):
            propeller_speed(recording(noise))


@pytest.mark.parametrize(
    ("heard", "match"),
    [
        (Recording(np.zeros(RATE * 3), RATE), "is silent"),
        (recording(bench_tone(8000, 0.5)), "lasts 0.50 s; at least 0.8 s"),
        (Recording(0.5 * bench_tone(8000, 3), RATE, clipped=0.12), "is clipped: 12 %"),
        (recording(bench_tone(lambda t: 2000 + 800 * t, 3)), "never keeps still"),
    ],
)
def test_refused_with_a_reason(heard, match):
    with pytest.raises(ModelError, match=match):
        propeller_speed(heard)


def test_no_blades():
    with pytest.raises(ModelError, match="at least one blade"):
        propeller_speed(recording(bench_tone(8000, 2)), blades=0)
