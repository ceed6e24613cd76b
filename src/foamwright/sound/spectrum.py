"""Short spectra that stand above their own noise, and the comb of a propeller in them."""

import numpy as np

from foamwright.core.errors import ModelError
from foamwright.sound.model import Recording, Samples, Spectra

SILENT = 1e-4  # of full scale, rms; a phone's own hiss is about 3e-4 (from memory)
MOST_CLIPPED = 0.02  # share of samples at full scale above which harmonics are made up; assumed
SHORTEST = 0.8  # s, three frames
WINDOW = 0.256  # s, Hann window; lines 8 Hz apart come out separate
BLOCK = 72.0  # Hz over which the noise beside a line is taken as level
FLOOR_SPAN = 1  # blocks to each side that the noise is smoothed over
LEAKAGE = 3e-5  # of a line's power that the window spreads beside it: taken as noise
LEAK_SPAN = 2  # blocks to each side that it spreads
LINE = 10.0  # dB above the noise from which something is a line and not a whim of the noise
COUNTED = 46.0  # dB below the strongest line at which a line counts no more; coders leave such ones
THRESHOLD = 6.0  # dB above the median noise below which a line counts as none
TALLEST = 40.0  # dB beyond the threshold at which a line counts no more
LOWEST, HIGHEST = 40.0, 1300.0  # Hz of blades passing: 1200 to 39 000 rpm with two blades
STEP = 0.003  # relative, between tones that are tried
HARMONICS = 6
DECAY = 0.75  # weight of each harmonic over that of the one below; assumed
MISSING = 0.3  # weight against lines half-way between the harmonics; assumed


def listenable(recording: Recording) -> None:
    """Refuse a recording that cannot tell anything.

    Args:
        recording: The recording. [-]

    Raises:
        ModelError: It is too short, silent or clipped.

    Source:
        Limits: assumed, see the constants.

    Example:
        >>> import numpy as np
        >>> listenable(Recording(np.zeros(48000), 12000.0))
        Traceback (most recent call last):
        foamwright.core.errors.ModelError: recording is silent ...
    """
    if recording.duration < SHORTEST:
        raise ModelError(
            f"{recording.name} lasts {recording.duration:.2f} s; "
            f"at least {SHORTEST:.1f} s are needed."
        )
    level = float(np.sqrt(np.mean(recording.samples**2)))
    if level < SILENT:
        raise ModelError(
            f"{recording.name} is silent (its level is {level:.1e} of full scale). "
            "Was the microphone covered or muted?"
        )
    if recording.clipped > MOST_CLIPPED:
        raise ModelError(
            f"{recording.name} is clipped: {100 * recording.clipped:.0f} % of it stands at full "
            "scale, which makes tones of its own. Record again from further away."
        )


def spectra_of(recording: Recording, hop: float, *, window: float = WINDOW) -> Spectra:
    """Spectra of overlapping frames, each divided by the noise beside each line.

    A frame's own noise is used, so that a microphone that turns itself up and down does no harm.

    Args:
        recording: The recording. [-]
        hop: From frame to frame. [s]
        window: Length of a frame. [s]

    Returns:
        Heights above the noise. [dB]

    Source:
        Short-time Fourier transform with a Hann window; noise as the median of blocks: assumed.

    Example:
        >>> tone = np.sin(2 * np.pi * 300 * np.arange(24000) / 12000)
        >>> spectra = spectra_of(Recording(tone, 12000.0), 0.1)
        >>> bool(abs(spectra.lines[5].argmax() * spectra.spacing - 300) < 2)
        True
    """
    rate, length = recording.rate, round(window * recording.rate)
    step = max(1, round(hop * rate))
    padded = 1 << (2 * length - 1).bit_length()
    taper = np.hanning(length)
    starts = np.arange(0, len(recording.samples) - length + 1, step)
    frames = np.lib.stride_tricks.sliding_window_view(recording.samples, length)[::step]
    top = min(int(HIGHEST * (HARMONICS + 1) * padded / rate), padded // 2) + 1
    lines: Samples = np.empty((len(starts), top))
    for first in range(0, len(starts), 256):
        chunk = np.fft.rfft(frames[first : first + 256] * taper, padded)[:, :top]
        lines[first : first + 256] = _above_noise(np.abs(chunk) ** 2, rate / padded)
    times: Samples = ((starts + length / 2) / rate).astype(np.float64)
    return Spectra(times, rate / padded, lines)


def _above_noise(power: Samples, spacing: float) -> Samples:
    """Decibels above the noise: medians of blocks, smoothed over neighbours, drawn level."""
    size = max(8, round(BLOCK / spacing))
    blocks = power.shape[1] // size
    medians = np.median(power[:, : blocks * size].reshape(len(power), blocks, size), axis=2)
    tops = power[:, : blocks * size].reshape(len(power), blocks, size).max(axis=2)
    tops = np.pad(tops, ((0, 0), (LEAK_SPAN, LEAK_SPAN)), mode="edge")
    tops = np.lib.stride_tricks.sliding_window_view(tops, 2 * LEAK_SPAN + 1, axis=1).max(axis=2)
    medians = np.log10(np.maximum(np.maximum(medians, LEAKAGE * tops), 1e-30))
    padded = np.pad(medians, ((0, 0), (FLOOR_SPAN, FLOOR_SPAN)), mode="edge")
    smooth = np.median(
        np.lib.stride_tricks.sliding_window_view(padded, 2 * FLOOR_SPAN + 1, axis=1), axis=2
    )
    place = (np.arange(power.shape[1]) + 0.5) / size - 0.5
    left = np.clip(np.floor(place).astype(int), 0, blocks - 2)
    share = np.clip(place - left, 0.0, 1.0)
    floor = smooth[:, left] * (1 - share) + smooth[:, left + 1] * share
    level = 10.0 * np.log10(np.maximum(power, 1e-30))
    heights = level - 10.0 * floor
    strongest = np.where(heights > LINE, level, -np.inf).max(axis=1, keepdims=True)
    faint = np.where(np.isfinite(strongest), level - strongest, 0.0) + COUNTED
    return np.minimum(heights, np.maximum(faint, 0.0))


def tones() -> Samples:
    """Tones that a propeller may have, evenly spaced by ratio.

    Returns:
        Frequencies, rising. [Hz]

    Source:
        Definition.

    Example:
        >>> round(float(tones()[0]), 1)
        40.0
    """
    return LOWEST * np.exp(np.arange(0.0, np.log(HIGHEST / LOWEST), STEP))


def comb_scores(spectra: Spectra, frequencies: Samples) -> Samples:
    """How well the harmonics of each tone stand in each frame.

    score(f) = sum of w_h L(h f) less 0.3 of the same at (h - 1/2) f; L is the height of a line
    above the threshold, w_h falls to 0.75 from one harmonic to the next. The second sum keeps twice
    the true tone from winning, the falling weights keep half of it from winning.

    Args:
        spectra: The spectra. [-]
        frequencies: Tones to try. [Hz]

    Returns:
        Scores, frames by tones. [dB]

    Source:
        Harmonic sum, common practice in pitch detection; weights assumed.

    Example:
        >>> tone = np.sin(2 * np.pi * 300 * np.arange(24000) / 12000)
        >>> tried = np.array([150.0, 300.0, 600.0])
        >>> int(comb_scores(spectra_of(Recording(tone, 12000.0), 0.1), tried)[3].argmax())
        1
    """
    heights = np.clip(spectra.lines - THRESHOLD, 0.0, TALLEST)
    total = np.zeros((len(heights), len(frequencies)))
    for harmonic in range(1, HARMONICS + 1):
        weight = DECAY ** (harmonic - 1)
        total += weight * _at(heights, harmonic * frequencies / spectra.spacing)
        between = _at(heights, (harmonic - 0.5) * frequencies / spectra.spacing)
        total -= MISSING * weight * between
    return total


def _at(heights: Samples, places: Samples) -> Samples:
    """Heights at fractional places; none beyond the last."""
    left = np.minimum(places.astype(int), heights.shape[1] - 2)
    share = np.clip(places - left, 0.0, 1.0)
    found = heights[:, left] * (1 - share) + heights[:, left + 1] * share
    return np.where(places < heights.shape[1] - 1, found, 0.0)
