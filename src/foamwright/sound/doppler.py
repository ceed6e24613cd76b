"""Doppler shift of a plane that flies past: formulas only."""

import math

import numpy as np

from foamwright.sound.model import Samples


def heard_frequency(frequency: float, speed: float, *, speed_of_sound: float = 340.3) -> float:
    """Tone of a source that comes straight at the listener, still air.

    f' = f / (1 - V/c); V is negative when it goes away.

    Args:
        frequency: Of the source. [Hz]
        speed: Towards the listener. [m/s]
        speed_of_sound: [m/s]

    Returns:
        Tone heard. [Hz]

    Valid:
        Slower than sound.

    Source:
        [OSX-DOPPLER] Doppler effect, moving source; reproduced in
        tests/validation/test_doppler.py.

    Example:
        >>> round(heard_frequency(150.0, 35.0, speed_of_sound=340.0))
        167
    """
    return frequency / (1.0 - speed / speed_of_sound)


def doppler_speed(approaching: float, receding: float, *, speed_of_sound: float = 340.3) -> float:
    """Speed from the tones of a source that comes and goes on one straight line.

    V = c (f1 - f2) / (f1 + f2).

    Args:
        approaching: Tone while it comes. [Hz]
        receding: Tone while it goes. [Hz]
        speed_of_sound: [m/s]

    Returns:
        Speed. [m/s]

    Source:
        [OSX-DOPPLER] both cases solved for the speed; reproduced in
        tests/validation/test_doppler.py.

    Example:
        >>> round(doppler_speed(167.213, 136.0, speed_of_sound=340.0), 1)
        35.0
    """
    return speed_of_sound * (approaching - receding) / (approaching + receding)


def both_ways(
    first_ratio: float, second_ratio: float, *, speed_of_sound: float = 340.3
) -> tuple[float, float]:
    """Airspeed and wind from passes in both directions at one throttle.

    With a tail wind w the tones stand as f1/f2 = (c + w)/(c - w) · (c + V)/(c - V); with the same
    wind on the nose w changes its sign. The product of both ratios holds the airspeed V alone,
    their quotient the wind alone.

    Args:
        first_ratio: Approaching over receding tone of the first pass. [-]
        second_ratio: Same of the pass the other way. [-]
        speed_of_sound: [m/s]

    Returns:
        Airspeed and the wind along the first pass, a tail wind positive. [m/s]

    Valid:
        Straight passes on one line, the same throttle, a steady wind.

    Source:
        Doppler formula with moving source and moving listener in the frame of the air.

    Example:
        >>> c, airspeed, wind = 340.0, 15.0, 3.0
        >>> still = (c + airspeed) / (c - airspeed)
        >>> ratios = [(c + w) / (c - w) * still for w in (wind, -wind)]
        >>> [round(value, 6) for value in both_ways(*ratios, speed_of_sound=c)]
        [15.0, 3.0]
    """
    product = math.sqrt(first_ratio * second_ratio)
    quotient = math.sqrt(first_ratio / second_ratio)
    c = speed_of_sound
    return c * (product - 1.0) / (product + 1.0), c * (quotient - 1.0) / (quotient + 1.0)


def tone_of_a_pass(
    times: Samples, frequency: float, *, speed: float, distance: float, nearest: float, c: float
) -> Samples:
    """Tone heard through a straight pass, the way of the sound counted in.

    Sound heard at t left at s with t = s + r(s)/c, r² = d² + V² (s - s0)²; then
    f' = f / (1 + V² (s - s0) / (c r)).

    Args:
        times: When it is heard. [s]
        frequency: Of the source. [Hz]
        speed: Of the source. [m/s]
        distance: Nearest distance. [m]
        nearest: When the sound of the nearest point is heard. [s]
        c: Speed of sound. [m/s]

    Returns:
        Tone at each time. [Hz]

    Valid:
        Slower than sound.

    Source:
        Retarded time, kinematics; far limits are the formulas of [OSX-DOPPLER].

    Example:
        >>> far = tone_of_a_pass(np.array([-1e4, 1e4]), 150.0, speed=35.0, distance=5.0,
        ...     nearest=0.0, c=340.0)
        >>> [round(float(value)) for value in far]
        [167, 136]
    """
    d, V = max(distance, 1e-6), speed
    heard = times - nearest + d / c  # 0 when the sound leaves at the nearest point
    # heard = s + sqrt(d² + V² s²)/c solved for s, the earlier root
    a = 1.0 - (V / c) ** 2
    s = (heard - np.sqrt(heard**2 - a * (heard**2 - (d / c) ** 2))) / a
    r = np.sqrt(d**2 + (V * s) ** 2)
    return frequency / (1.0 + V**2 * s / (c * r))
