"""Propeller speed from a bench recording."""

import math

import numpy as np

from foamwright.core.errors import ModelError
from foamwright.sound.model import BenchSound, Recording, Samples, Spectra, Stretch, Track
from foamwright.sound.spectrum import comb_scores, listenable, spectra_of
from foamwright.sound.track import followed, sharpened

HOP = 0.064  # s
STEADY = 0.012  # relative change from frame to frame and over a stretch
SHORTEST = 0.6  # s of a stretch
CLEAR = 10.0  # dB of the highest line above the noise beside it, below which nothing is said
CLOCK = 1e-4  # relative error of a phone's clock; from memory
TWIN = 0.85  # share of the best score at which another tone could be meant
TWIN_OF_MODEL = 0.35  # same when a model says which is likely


def propeller_speed(
    recording: Recording, *, blades: int = 2, expected: float | None = None
) -> BenchSound:
    """Speed of a propeller from the tone of its blades.

    n = f / blades, with f the fundamental of the comb of harmonics that passing blades make.

    Args:
        recording: The plane held still. [-]
        blades: Of the propeller. [-]
        expected: Speed by the model, to choose between tones that fit alike; None to do
            without. [rad/s]

    Returns:
        Speeds of the steady stretches; the fastest one is named best. [-]

    Raises:
        ModelError: Too short, silent, clipped, or no steady tone stands clear of the noise.

    Valid:
        40 to 1300 blades a second. Within 1 % at 10 dB above the noise, see
        tests/unit/test_sound_bench.py.

    Source:
        Kinematics: a blade passes `blades` times a turn.

    Example:
        >>> time = np.arange(24000) / 12000
        >>> tone = sum(np.sin(2 * np.pi * 300 * h * time) / h for h in (1, 2, 3))
        >>> heard = propeller_speed(Recording(0.1 * tone, 12000.0), blades=2)
        >>> round(heard.best.speed * 60 / (2 * np.pi) / 10) * 10
        9000
    """
    listenable(recording)
    if blades < 1:
        raise ModelError(f"A propeller has at least one blade, not {blades}.")
    spectra = spectra_of(recording, HOP)
    track, notes = _meant(spectra, followed(spectra), blades, expected)
    stretches = tuple(_stretch(track, run, blades) for run in _steady_runs(track))
    if not stretches:
        raise ModelError(_no_tone(recording, track))
    best = max(stretches, key=lambda stretch: stretch.speed)
    return BenchSound(blades, best, stretches, track, notes)


def _no_tone(recording: Recording, track: Track) -> str:
    height = float(np.median(track.height))
    if height < CLEAR:
        return (
            f"{recording.name}: no propeller tone stands clear of the noise; the best line is "
            f"{height:.0f} dB above it, {CLEAR:.0f} dB are needed. Record nearer, out of the wind."
        )
    return (
        f"{recording.name}: the tone never keeps still for {SHORTEST:.1f} s. "
        "Hold the throttle steady for two or three seconds."
    )


def _meant(
    spectra: Spectra, track: Track, blades: int, expected: float | None
) -> tuple[Track, tuple[str, ...]]:
    """Choose among the tone, its half and its double; say when another would fit as well."""
    ratios = np.array([0.5, 1.0, 2.0])
    scores = np.array([_mean_score(spectra, track.frequency * ratio) for ratio in ratios])
    share = TWIN if expected is None else TWIN_OF_MODEL
    likely = [i for i in range(3) if scores[i] > share * scores.max() and scores[i] > 0]
    if not likely:
        return track, ()
    # A shaft out of balance adds lines below the blades'; the blades' own line is the tallest.
    chosen = max(likely, key=lambda i: _line_height(spectra, track.frequency * ratios[i]))
    notes: list[str] = []
    if expected is not None and len(likely) > 1:
        tone = float(np.median(track.frequency)) * ratios
        told = chosen
        chosen = min(likely, key=lambda i: abs(math.log(tone[i] / (expected * blades / math.tau))))
        if chosen != told:
            notes.append("More than one tone fits; the one nearest to the model's speed was taken.")
    elif len(likely) > 1:
        others = " or ".join(f"{ratios[i] / ratios[chosen]:g}" for i in likely if i != chosen)
        notes.append(f"{others} times this speed would fit nearly as well: check the blades.")
    if ratios[chosen] == 1.0:
        return track, tuple(notes)
    return sharpened(spectra, track.frequency * float(ratios[chosen])), tuple(notes)


def _mean_score(spectra: Spectra, frequency: Samples) -> float:
    rows = np.linspace(0, len(frequency) - 1, min(60, len(frequency))).astype(int)
    few = Spectra(spectra.times[rows], spectra.spacing, spectra.lines[rows])
    return float(np.mean(np.diagonal(comb_scores(few, frequency[rows]))))


def _line_height(spectra: Spectra, frequency: Samples) -> float:
    rows = np.arange(len(frequency))
    columns = np.round(frequency / spectra.spacing).astype(int)[:, None] + np.arange(-2, 3)
    columns = np.clip(columns, 0, spectra.lines.shape[1] - 1)
    return float(np.mean(spectra.lines[rows[:, None], columns].max(axis=1)))


def _steady_runs(track: Track) -> list[slice]:
    """Runs of frames whose tone stands clear and moves little."""
    runs: list[slice] = []
    least = max(3, round(SHORTEST / HOP))
    start = 0
    frequency, clear = track.frequency, track.height >= CLEAR
    for place in range(len(frequency) + 1):
        ends = place == len(frequency) or not clear[place]
        if not ends and place > start:
            middle = float(np.median(frequency[start:place]))
            ends = abs(frequency[place] / middle - 1.0) > STEADY
        if ends:
            if place - start >= least:
                runs.append(slice(start, place))
            start = place + (place < len(frequency) and not clear[place])
    return runs


def _stretch(track: Track, run: slice, blades: int) -> Stretch:
    tones = track.frequency[run]
    middle = float(np.median(tones))
    scatter = 1.4826 * float(np.median(np.abs(tones - middle)))  # of a normal scatter
    spread = math.hypot(scatter, CLOCK * middle, 0.02)
    turn = math.tau / blades
    return Stretch(
        float(track.times[run][0]),
        float(track.times[run][-1]),
        middle,
        middle * turn,
        spread * turn,
        float(np.median(track.height[run])),
    )
