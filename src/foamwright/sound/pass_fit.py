"""A straight pass fitted to the tone that was heard, by robust least squares."""

from dataclasses import dataclass

import numpy as np

from foamwright.sound.doppler import tone_of_a_pass
from foamwright.sound.model import Samples, Track
from foamwright.sound.spectrum import THRESHOLD

ROUNDS = 40
SPEEDS = (8.0, 20.0)  # m/s, starts
DISTANCES = (5.0, 20.0)  # m, starts
OUTLIER = 2.5  # standard deviations at which a frame begins to count less (Tukey's biweight / 2)
LIMITS = (2.0, 90.0)  # m/s
RANGE = (0.3, 300.0)  # m
CORRELATED = 6.0  # frames that share samples: 0.256 s windows every 0.032 s, half of them
LEAST_SCATTER = 4e-4  # relative, of the tone of one frame


@dataclass(frozen=True, slots=True)
class PassFit:
    """A fitted pass.

    Attributes:
        frequency: Of the source. [Hz]
        speed: [m/s]
        distance: Nearest. [m]
        nearest: When its sound is heard. [s]
        speed_spread: One standard deviation of the speed. [m/s]
        scatter: Relative scatter of the tone about the fit. [-]
        c: Speed of sound. [m/s]
    """

    frequency: float
    speed: float
    distance: float
    nearest: float
    speed_spread: float
    scatter: float
    c: float

    def curve(self, times: Samples) -> Samples:
        """Tone of the fit at some times [Hz]."""
        return tone_of_a_pass(
            times,
            self.frequency,
            speed=self.speed,
            distance=self.distance,
            nearest=self.nearest,
            c=self.c,
        )


def fit_pass(track: Track, place: float, c: float, *, start: PassFit | None = None) -> PassFit:
    """Tone, speed, nearest distance and time of a pass.

    Damped Gauss-Newton steps on the logarithm of the tone; frames far off the curve count less
    (biweight), frames with weak lines too.

    Args:
        track: The tone heard. [Hz]
        place: About when the plane was nearest. [s]
        c: Speed of sound. [m/s]
        start: A fit to start from; None tries several speeds and distances. [-]

    Returns:
        The best fit. [-]

    Source:
        Iteratively reweighted least squares with Tukey's biweight, common practice.

    Example:
        >>> times = np.arange(0.0, 6.0, 0.032)
        >>> heard = tone_of_a_pass(times, 300.0, speed=15.0, distance=8.0, nearest=3.0, c=340.0)
        >>> fit = fit_pass(Track(times, heard, np.full(len(times), 20.0)), 2.8, 340.0)
        >>> round(fit.speed, 2), round(fit.distance, 1)
        (15.0, 8.0)
    """
    weights = np.clip(track.height - THRESHOLD, 0.0, 20.0)
    weights = weights / max(float(weights.max()), 1e-9)
    logs = np.log(track.frequency)
    level = float(np.median(logs))
    if start is None:
        starts = [np.array([level, np.log(v), np.log(d), place]) for v in SPEEDS for d in DISTANCES]
        rounds = 12
    else:
        starts = [
            np.array(
                [
                    np.log(start.frequency),
                    np.log(start.speed),
                    np.log(start.distance),
                    start.nearest,
                ]
            )
        ]
        rounds = ROUNDS
    fits = [_descended(first, track.times, logs, weights, c, rounds) for first in starts]
    best = min(fits, key=lambda fit: fit[1])
    values, _, scatter, covariance = _descended(best[0], track.times, logs, weights, c, ROUNDS)
    frequency, speed, distance = (float(np.exp(value)) for value in values[:3])
    spread = speed * float(np.sqrt(max(covariance[1, 1], 0.0)))
    return PassFit(frequency, speed, distance, float(values[3]), spread, scatter, c)


def _model(values: Samples, times: Samples, c: float) -> Samples:
    return np.log(
        tone_of_a_pass(
            times,
            float(np.exp(values[0])),
            speed=float(np.exp(values[1])),
            distance=float(np.exp(values[2])),
            nearest=float(values[3]),
            c=c,
        )
    )


def _descended(
    values: Samples, times: Samples, logs: Samples, weights: Samples, c: float, rounds: int
) -> tuple[Samples, float, float, Samples]:
    """Values, cost, scatter and covariance after some damped steps."""
    damping = 1e-2
    rest = logs - _model(values, times, c)
    for _ in range(rounds):
        scatter = _scatter(rest, weights)
        w = weights * _biweight(rest / (2 * OUTLIER * scatter))
        slopes = _slopes(values, times, c)
        normal = (slopes * w[:, None]).T @ slopes
        push = (slopes * w[:, None]).T @ rest
        step = np.linalg.solve(
            normal + damping * np.diag(np.diag(normal)) + 1e-12 * np.eye(4), push
        )
        tried = _limited(values + np.clip(step, -0.5, 0.5))
        new = logs - _model(tried, times, c)
        if _cost(new, weights, scatter) <= _cost(rest, weights, scatter):
            values, rest, damping = tried, new, max(damping / 4, 1e-6)
        else:
            damping = min(damping * 6, 1e6)
    scatter = _scatter(rest, weights)
    w = weights * _biweight(rest / (2 * OUTLIER * scatter))
    slopes = _slopes(values, times, c)
    normal = (slopes * w[:, None]).T @ slopes
    covariance = CORRELATED * scatter**2 * np.linalg.pinv(normal)
    return values, _cost(rest, weights, 3e-3), scatter, covariance


def _slopes(values: Samples, times: Samples, c: float) -> Samples:
    columns = []
    for index in range(4):
        moved = values.copy()
        moved[index] += 1e-4
        columns.append((_model(moved, times, c) - _model(values, times, c)) / 1e-4)
    return np.stack(columns, axis=1)


def _limited(values: Samples) -> Samples:
    values[1] = np.clip(values[1], *np.log(LIMITS))
    values[2] = np.clip(values[2], *np.log(RANGE))
    return values


def _scatter(rest: Samples, weights: Samples) -> float:
    heard = np.abs(rest[weights > 0.05])
    return max(1.4826 * float(np.median(heard)) if len(heard) else 1.0, LEAST_SCATTER)


def _biweight(x: Samples) -> Samples:
    return np.where(np.abs(x) < 1.0, (1.0 - x**2) ** 2, 0.0)


def _cost(rest: Samples, weights: Samples, scatter: float) -> float:
    x = np.minimum(np.abs(rest / (2 * OUTLIER * scatter)), 1.0)
    return float(np.sum(weights * (1.0 - (1.0 - x**2) ** 3)))
