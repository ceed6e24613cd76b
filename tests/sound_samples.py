"""Invented recordings: propellers on the bench and planes that fly past, with all that spoils them.

The tone is made by adding up phase at the time the sound left, not by the formulas under test.
"""

import numpy as np

from foamwright.sound.model import Recording

RATE = 12_000


def generator(seed):
    return np.random.default_rng(seed)


def comb(phase, strengths=(1.0, 0.6, 0.35, 0.2)):
    """Harmonics of one phase, in turns."""
    return sum(a * np.sin(2 * np.pi * (i + 1) * phase + 1.3 * i) for i, a in enumerate(strengths))


def wind_noise(count, seed):
    """Rumble that falls with the square of the frequency above 30 Hz, over white hiss."""
    spectrum = np.fft.rfft(generator(seed).standard_normal(count))
    frequency = np.fft.rfftfreq(count, 1 / RATE)
    rumble = np.fft.irfft(spectrum / (1 + (frequency / 30.0) ** 2), count)
    hiss = generator(seed + 1).standard_normal(count)
    return rumble / rumble.std() + 0.5 * hiss / hiss.std()


def with_noise(tone, noise, above):
    """Noise set so that the tone stands so many dB above it, power over power."""
    return tone + noise * tone.std() / noise.std() * 10 ** (-above / 20)


def gain_changes(samples, seed):
    """A microphone that turns itself up and down, about a factor 3, every half second."""
    knots = np.exp(0.6 * generator(seed).standard_normal(len(samples) * 2 // RATE + 2))
    return samples * np.interp(np.arange(len(samples)) * 2 / RATE, np.arange(len(knots)), knots)


def recording(samples, *, peak=0.5):
    return Recording(samples * peak / np.abs(samples).max(), float(RATE))


def bench_tone(rpm, seconds, *, blades=2, imbalance=0.0, strengths=(1.0, 0.6, 0.35, 0.2)):
    """Rpm may change in time: a number or a function of time."""
    time = np.arange(round(seconds * RATE)) / RATE
    speed = rpm(time) if callable(rpm) else np.full(len(time), float(rpm))
    turns = np.cumsum(speed / 60 / RATE)
    shaft = imbalance * np.sin(2 * np.pi * turns)
    return comb(blades * turns, strengths) + shaft


def fly_by_tone(  # every figure of a pass
    airspeed,
    *,
    frequency=300.0,
    distance=8.0,
    nearest=3.0,
    seconds=6.0,
    c=340.3,
    wind=0.0,
    offset=0.0,
    strengths=(1.0, 0.6, 0.35, 0.2),
):
    """Sound of a pass, tail wind positive; in the frame of the air the listener moves backwards.

    The moment at which each sound left is found by iteration.
    """
    heard = np.arange(round(seconds * RATE)) / RATE
    left = heard - distance / c
    for _ in range(60):
        source = airspeed * (left - nearest) - offset
        listener = -wind * (heard - nearest)
        left = heard - np.hypot(source - listener, distance) / c
    source = airspeed * (left - nearest) - offset
    away = np.hypot(source + wind * (heard - nearest), distance)
    return comb(frequency * left, strengths) * distance / away
