"""The tone of a propeller followed through a recording."""

import numpy as np

from foamwright.sound.model import Samples, Spectra, Track
from foamwright.sound.spectrum import HARMONICS, LINE, STEP, comb_scores, tones

JUMP_COST = 1.5  # dB of score for each step of 0.3 % from one frame to the next; assumed
RESTART_COST = 40.0  # dB of score for a leap anywhere; assumed
STRONG = 22.0  # dB above the noise beyond which a line's place is no surer; assumed
REACH = 6  # steps to each side that are followed from frame to frame


def followed(spectra: Spectra) -> Track:
    """The most likely run of the tone through all frames, then sharpened frame by frame.

    Dynamic programming: sum of the comb scores less a cost for every change of tone.

    Args:
        spectra: The spectra. [-]

    Returns:
        The tone in each frame. [Hz]

    Source:
        Viterbi algorithm; costs assumed.

    Example:
        >>> from foamwright.sound.model import Recording
        >>> from foamwright.sound.spectrum import spectra_of
        >>> tone = np.sin(2 * np.pi * 300 * np.arange(24000) / 12000)
        >>> track = followed(spectra_of(Recording(tone, 12000.0), 0.1))
        >>> round(float(np.median(track.frequency)))
        300
    """
    frequencies = tones()
    scores = comb_scores(spectra, frequencies)
    return sharpened(spectra, frequencies[_best_path(scores)])


def _best_path(scores: Samples) -> np.ndarray:
    count = scores.shape[1]
    came = np.zeros(scores.shape, dtype=np.int32)
    total = scores[0].copy()
    here = np.arange(count)
    for row in range(1, len(scores)):
        top = int(total.argmax())
        best = np.full(count, total[top] - RESTART_COST)
        origin = np.full(count, top)
        for shift in range(-REACH, REACH + 1):
            shifted = np.full(count, -np.inf)
            low, high = max(0, shift), min(count, count + shift)
            shifted[low:high] = total[low - shift : high - shift] - JUMP_COST * abs(shift)
            better = shifted > best
            best[better] = shifted[better]
            origin[better] = (here - shift)[better]
        came[row] = origin
        total = best + scores[row]
    path = np.empty(len(scores), dtype=np.int64)
    path[-1] = int(total.argmax())
    for row in range(len(scores) - 1, 0, -1):
        path[row - 1] = came[row, path[row]]
    return path


def sharpened(spectra: Spectra, frequency: Samples, *, reach: float = 2.5 * STEP) -> Track:
    """Each frame's tone from the tops of its harmonics.

    The top of each line is found with a parabola through three points of the logarithm; the tones
    top_h / h are averaged with weights h² times the line's power over the noise, as the variance of
    a tone's frequency goes with noise over power and that of top_h / h with 1 / h².

    Args:
        spectra: The spectra. [-]
        frequency: Of each frame, roughly. [Hz]
        reach: How far to each side a top may lie, relative. [-]

    Returns:
        The tone in each frame; one without any line keeps its frequency and height 0. [Hz]

    Source:
        Parabolic interpolation, common practice; weights by least squares.

    Example:
        >>> from foamwright.sound.model import Recording
        >>> from foamwright.sound.spectrum import spectra_of
        >>> tone = np.sin(2 * np.pi * 300 * np.arange(24000) / 12000)
        >>> spectra = spectra_of(Recording(tone, 12000.0), 0.1)
        >>> track = sharpened(spectra, np.full(len(spectra.times), 300.6))
        >>> bool(abs(track.frequency[3] - 300.0) < 0.1)
        True
    """
    rows = np.arange(len(frequency))
    top_sum, weights, heights = (np.zeros(len(rows)) for _ in range(3))
    for harmonic in range(1, HARMONICS + 1):
        place, height = _tops(spectra, harmonic * frequency, reach)
        clear = np.where(height >= LINE, np.minimum(height, STRONG), -np.inf)
        weight = harmonic**2 * 10.0 ** (clear / 10.0)
        top_sum += weight * place / harmonic
        weights += weight
        heights = np.maximum(heights, height)
    tone = np.where(weights > 0.0, top_sum / np.maximum(weights, 1e-9), frequency)
    return Track(spectra.times, tone, heights)


def _tops(spectra: Spectra, target: Samples, reach: float) -> tuple[Samples, Samples]:
    """Place and height of the highest line near the target in each frame; height 0 for none."""
    lines, spacing = spectra.lines, spectra.spacing
    rows = np.arange(len(target))[:, None]
    half = max(2, int(np.ceil(float(np.max(target)) * reach / spacing)))
    middle = np.round(target / spacing).astype(int)
    columns = middle[:, None] + np.arange(-half, half + 1)
    inside = (columns > 0) & (columns < lines.shape[1] - 1)
    near = np.abs(columns * spacing - target[:, None]) <= np.maximum(
        reach * target[:, None], 2 * spacing
    )
    found = np.where(inside & near, lines[rows, np.clip(columns, 0, lines.shape[1] - 1)], -np.inf)
    best = np.take_along_axis(columns, found.argmax(axis=1)[:, None], axis=1)[:, 0]
    best = np.clip(best, 1, lines.shape[1] - 2)
    left, top, right = (lines[rows[:, 0], best + side] for side in (-1, 0, 1))
    bend = left - 2 * top + right
    peaked = (bend < 0) & (top >= left) & (top >= right)
    offset = np.where(peaked, 0.5 * (left - right) / np.where(peaked, bend, -1.0), 0.0)
    places: Samples = ((best + offset) * spacing).astype(np.float64)
    return places, np.where(peaked & np.isfinite(found.max(axis=1)), top, 0.0)
