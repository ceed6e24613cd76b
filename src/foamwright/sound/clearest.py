"""The pass that stands out most in the spectra: an echo or a gap must not pull the fit astray."""

from dataclasses import dataclass

import numpy as np

from foamwright.sound.doppler import tone_of_a_pass
from foamwright.sound.model import Samples, Spectra, Track
from foamwright.sound.pass_fit import PassFit, fit_pass
from foamwright.sound.spectrum import DECAY
from foamwright.sound.track import sharpened

TALLEST = 45.0  # dB over the noise at which a line counts no more
COUNTED = 4  # harmonics
SPEEDS = np.geomspace(0.6, 2.4, 17)  # over the speed of the first fit, tried
DISTANCES = np.geomspace(2.0, 32.0, 8)  # m, tried
TIMES = np.arange(-1.2, 1.21, 0.2)  # s about the place of the fall, tried
SPARSE = 5  # every so many frames are looked at in the search
STARTS = 5  # that are fitted to the end
APART = (0.12, 0.25)  # relative speed or distance, and s, between starts
REACH = 0.006  # relative, how far from the curve the top of a line may lie in the end
RIVAL = 1.0  # dB below the best at which another pass is as good
OTHER_SPEED = 0.06  # relative, speeds that differ more are two answers


@dataclass(frozen=True, slots=True)
class Clearest:
    """The pass that stands out most.

    Attributes:
        fit: The pass.
        rivals: Others as good whose speeds differ.
    """

    fit: PassFit
    rivals: tuple[PassFit, ...]


def height_along(spectra: Spectra, curves: Samples) -> Samples:
    """Mean height of the harmonics along some curves of tone.

    Args:
        spectra: The spectra. [-]
        curves: One a row, a tone a frame. [Hz]

    Returns:
        One a curve. [dB]

    Source:
        Sum of harmonics as in spectrum.py, followed through time.

    Example:
        >>> from foamwright.sound.model import Recording
        >>> from foamwright.sound.spectrum import spectra_of
        >>> tone = np.sin(2 * np.pi * 300 * np.arange(24000) / 12000)
        >>> spectra = spectra_of(Recording(tone, 12000.0), 0.1)
        >>> tried = np.full((2, len(spectra.times)), 300.0) * [[1.0], [1.1]]
        >>> int(height_along(spectra, tried).argmax())
        0
    """
    lines, rows = spectra.lines, np.arange(len(spectra.lines))
    total = np.zeros(len(curves))
    for harmonic in range(1, COUNTED + 1):
        place = harmonic * curves / spectra.spacing
        left = np.clip(place.astype(int), 0, lines.shape[1] - 2)
        share = np.clip(place - left, 0.0, 1.0)
        found = lines[rows, left] * (1.0 - share) + lines[rows, left + 1] * share
        total += DECAY ** (harmonic - 1) * np.clip(found, 0.0, TALLEST).mean(axis=1)
    return total


def clearest_pass(spectra: Spectra, track: Track, first: PassFit, *, place: float) -> Clearest:
    """Search speeds, distances and times for the pass along which the harmonics stand highest.

    An echo off a wall is the sound of a mirrored plane with the same speed, so that locking on to
    it does no harm; a fit between the two does.

    Args:
        spectra: Of the seconds about the pass. [-]
        track: The tone followed through them. [Hz]
        first: A fit to that tone. [-]
        place: About when the tone falls. [s]

    Returns:
        The best pass, and others as good with another speed.

    Source:
        Matched filtering along the curves of docs/physics/sound.md.

    Example:
        >>> clearest_pass(spectra, track, first, place=3.0).fit.speed  # doctest: +SKIP
        14.9
    """
    starts = [first, *_starts(spectra, track, first, place)]
    fits: list[PassFit] = []
    for start in starts:
        fit = start
        for reach in (1.3 * REACH, REACH):
            near = sharpened(spectra, fit.curve(spectra.times), reach=reach)
            fit = fit_pass(near, place, first.c, start=fit)
        fits.append(fit)
    heights = height_along(spectra, np.stack([fit.curve(spectra.times) for fit in fits]))
    best = fits[int(np.argmax(heights))]
    rivals = tuple(
        fit
        for fit, height in zip(fits, heights.tolist(), strict=True)
        if height > float(heights.max()) - RIVAL and abs(fit.speed / best.speed - 1.0) > OTHER_SPEED
    )
    return Clearest(best, rivals)


def _starts(spectra: Spectra, track: Track, first: PassFit, place: float) -> list[PassFit]:
    speeds, distances, times = np.meshgrid(
        first.speed * SPEEDS, DISTANCES, place + TIMES, indexing="ij"
    )
    tried = np.stack([speeds.ravel(), distances.ravel(), times.ravel()], axis=1)
    seen = slice(None, None, SPARSE)
    few = Spectra(spectra.times[seen], spectra.spacing, spectra.lines[seen])
    shapes = np.stack(
        [
            tone_of_a_pass(few.times, 1.0, speed=v, distance=d, nearest=t, c=first.c)
            for v, d, t in tried.tolist()
        ]
    )
    tones = np.exp(np.median(np.log(track.frequency[seen]) - np.log(shapes), axis=1))
    heights = height_along(few, tones[:, None] * shapes)
    chosen: list[int] = []
    for row in np.argsort(-heights).tolist():
        if all(_apart(tried[row], tried[other]) for other in chosen):
            chosen.append(row)
        if len(chosen) == STARTS:
            break
    return [
        PassFit(
            frequency=float(tones[row]),
            speed=float(tried[row, 0]),
            distance=float(tried[row, 1]),
            nearest=float(tried[row, 2]),
            speed_spread=1.0,
            scatter=1e-3,
            c=first.c,
        )
        for row in chosen
    ]


def _apart(one: Samples, two: Samples) -> bool:
    ratio = np.abs(np.log(one[:2] / two[:2])).max()
    return bool(ratio > APART[0] or abs(one[2] - two[2]) > APART[1])
