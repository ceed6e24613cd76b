"""Speed of invented fly-bys whose speed and wind are known."""

import time

import numpy as np
import pytest

from foamwright.core.errors import ModelError
from foamwright.sound.fly_by import fly_by_speed
from sound_samples import (
    RATE,
    bench_tone,
    fly_by_tone,
    gain_changes,
    generator,
    recording,
    wind_noise,
    with_noise,
)

# airspeed m/s, wind m/s, tone Hz, nearest distance m
CASES = [
    (8.3, -2.8, 163, 11),
    (9.1, 2.8, 360, 4),
    (12.6, -2.2, 175, 13),
    (15.0, 0.0, 300, 8),
    (18.5, 3.9, 149, 10),
    (24.7, -3.7, 240, 9),
]


def spoilt(tone, seed, above=10.0):
    return recording(gain_changes(with_noise(tone, wind_noise(len(tone), seed), above), seed))


def one_pass(speed, wind, tone, distance):
    """A pass and its echo from a wall 12 m off that throws half of it back."""
    straight = fly_by_tone(speed, frequency=tone, distance=distance, wind=wind)
    echo = fly_by_tone(speed, frequency=tone, distance=2.5 * distance, wind=wind, offset=12.0)
    return straight + 0.5 / 2.5 * echo


@pytest.mark.parametrize(("speed", "wind", "tone", "distance"), CASES)
def test_airspeed_both_ways_within_five_per_cent(speed, wind, tone, distance):
    ways = [spoilt(one_pass(speed, w, tone, distance), seed) for seed, w in ((1, wind), (2, -wind))]
    heard = fly_by_speed(ways)
    assert heard.speed == pytest.approx(speed, rel=0.05)
    assert heard.wind == pytest.approx(wind, abs=0.5)
    assert abs(heard.speed - speed) < 3 * heard.speed_spread


@pytest.mark.parametrize(("speed", "tone", "distance"), [(9, 210, 21), (12, 295, 7), (21, 427, 15)])
def test_a_bare_tone_without_harmonics_in_white_noise(speed, tone, distance):
    """Four seconds are all there is, ten decibels above hiss."""
    heard = fly_by_tone(
        speed, frequency=tone, distance=distance, nearest=2.0, seconds=4.0, strengths=(1.0,)
    )
    noise = generator(speed).standard_normal(len(heard))
    result = fly_by_speed([recording(with_noise(heard, noise, 10))])
    assert result.speed == pytest.approx(speed, rel=0.05)


def test_an_echo_as_loud_as_the_plane_does_no_harm_out_of_the_wind():
    straight = fly_by_tone(11.9, frequency=360, distance=4.0)
    echo = fly_by_tone(11.9, frequency=360, distance=10.0, offset=12.0)
    assert fly_by_speed([recording(straight + echo)]).speed == pytest.approx(11.9, rel=0.05)


def test_both_ways_in_one_recording():
    both = np.concatenate([fly_by_tone(14.0, wind=2.0), fly_by_tone(14.0, wind=-2.0)])
    heard = fly_by_speed([spoilt(both, 2)])
    assert len(heard.passes) == 2
    assert heard.speed == pytest.approx(14.0, rel=0.05)
    assert heard.wind == pytest.approx(2.0, abs=0.5)


def test_one_pass_gives_the_ground_speed_and_says_so():
    heard = fly_by_speed([spoilt(fly_by_tone(14.0, wind=3.0), 4)])
    assert heard.wind is None
    assert heard.speed == pytest.approx(17.0, rel=0.05)
    assert "over the ground" in heard.notes[-1]


def test_a_throttle_that_differs_is_named():
    ways = [
        recording(fly_by_tone(14.0, frequency=300)),
        recording(fly_by_tone(14.0, frequency=260)),
    ]
    assert "15 % faster in the first pass" in " ".join(fly_by_speed(ways).notes)


def test_ten_times_faster_than_the_recording():
    heard = [spoilt(fly_by_tone(14.0, seconds=10.0, nearest=5.0), 3)]
    start = time.process_time()
    fly_by_speed(heard)
    assert time.process_time() - start < 1.0


@pytest.mark.parametrize("seed", range(4))
def test_noise_is_refused(seed):
    for noise in (wind_noise(RATE * 6, seed), generator(seed).standard_normal(RATE * 6)):
        with pytest.raises(ModelError, match=r"clear of the noise|too uncertain|no fly-by"):
            fly_by_speed([recording(noise)])


def test_a_plane_that_stands_still_is_no_fly_by():
    with pytest.raises(ModelError, match="no fly-by was heard"):
        fly_by_speed([spoilt(bench_tone(8000, 6), 1)])


def test_a_throttle_pulled_back_is_no_fly_by():
    tone = bench_tone(lambda t: np.where(t < 3, 8000, 7600), 6)
    with pytest.raises(ModelError, match="throttle is pulled back"):
        fly_by_speed([spoilt(tone, 3)])


def test_no_recording():
    with pytest.raises(ModelError, match="No recording"):
        fly_by_speed([])


# speed m/s, tone Hz, distance m, distance of the wall's image m, how far it lags m, echo over plane
LOUD = [
    (14.8, 372, 14.3, 23.4, 12.2, 0.83),
    (12.2, 256, 4.3, 18.7, 7.5, 0.87),
    (10.8, 386, 8.0, 26.9, 7.1, 0.85),
    (8.1, 241, 4.9, 20.1, 18.1, 0.71),
]


@pytest.mark.parametrize(("speed", "tone", "distance", "image", "lag", "share"), LOUD)
def test_a_wall_that_throws_back_nearly_all(speed, tone, distance, image, lag, share):
    """The echo's whole energy is 0.7 to 0.95 of the plane's own, in wind noise."""
    straight = fly_by_tone(speed, frequency=tone, distance=distance)
    echo = fly_by_tone(speed, frequency=tone, distance=image, offset=lag)
    echo *= share * straight.std() / echo.std()
    heard = fly_by_speed([spoilt(straight + echo, round(image))])
    assert heard.speed == pytest.approx(speed, rel=0.05)
