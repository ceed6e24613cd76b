"""A recording drawn: its spectrum in time with the tone that was followed, and all in one."""

from collections.abc import Sequence
from pathlib import Path
from typing import Any

import numpy as np

from foamwright.core.errors import OutputError
from foamwright.core.files import write_atomically
from foamwright.sound.fly_by import HOP
from foamwright.sound.model import BenchSound, FlyBySound, Recording, Samples
from foamwright.sound.spectrum import LOWEST, spectra_of

FORMATS = (".png", ".svg", ".pdf")
SHOWN = 40.0  # dB above the noise at the dark end of the scale
HARMONICS = 4  # shown
FRAMES = 1500  # columns of a long recording that are drawn


def draw_sound(recordings: Sequence[Recording], heard: BenchSound | FlyBySound, path: Path) -> Path:
    """Draw the spectra of recordings with what was heard in them.

    Args:
        recordings: What was listened to. [-]
        heard: What was found. [-]
        path: Picture to write: .png, .svg or .pdf. [-]

    Returns:
        The path.

    Raises:
        OutputError: Another kind of picture, or it cannot be written.

    Source:
        Definition.

    Example:
        >>> draw_sound([recording], heard, Path("bench.png"))  # doctest: +SKIP
    """
    if path.suffix.lower() not in FORMATS:
        raise OutputError(f"{path} is no picture; it must end in {', '.join(FORMATS)}.")
    import io

    from matplotlib.backends.backend_agg import FigureCanvasAgg
    from matplotlib.figure import Figure

    figure = Figure(figsize=(10.0, 3.6 * len(recordings)), layout="constrained")
    FigureCanvasAgg(figure)
    rows: Any = figure.subplots(
        len(recordings), 2, squeeze=False, gridspec_kw={"width_ratios": [2.4, 1.0]}
    )
    for place, recording in enumerate(recordings):
        _row(rows[place], recording, heard, place)
    buffer = io.BytesIO()
    metadata = {".svg": {"Date": None}, ".pdf": {"CreationDate": None}}
    kind = path.suffix.lower()
    figure.savefig(buffer, format=kind[1:], dpi=110, metadata=metadata.get(kind))
    write_atomically(path, buffer.getvalue(), overwrite=True)
    return path


def _row(axes: Any, recording: Recording, heard: BenchSound | FlyBySound, place: int) -> None:  # noqa: ANN401 - of matplotlib
    spectra = spectra_of(recording, max(HOP, recording.duration / FRAMES))
    track = heard.track if isinstance(heard, BenchSound) else heard.tracks[place]
    top = min(
        HARMONICS * 1.25 * float(np.percentile(track.frequency, 90)),
        spectra.spacing * (spectra.lines.shape[1] - 1),
    )
    rows = int(top / spectra.spacing)
    shown = np.clip(spectra.lines[:, :rows].T, 0.0, SHOWN)
    extent = (spectra.times[0], spectra.times[-1], 0.0, rows * spectra.spacing)
    axes[0].imshow(shown, origin="lower", aspect="auto", extent=extent, cmap="Greys")
    if isinstance(heard, BenchSound):
        _bench_marks(axes[0], heard)
    else:
        _pass_marks(axes[0], heard, recording)
    axes[0].set(xlabel="s", ylabel="Hz", title=recording.name, ylim=(0.0, top))
    _average(axes[1], np.mean(spectra.lines[:, :rows], axis=0), spectra.spacing)
    axes[1].set(xlabel="Hz", ylabel="dB above the noise beside it", title="mean spectrum")


def _bench_marks(axes: Any, heard: BenchSound) -> None:  # noqa: ANN401 - of matplotlib
    for stretch in heard.stretches:
        best = stretch == heard.best
        for harmonic in range(1, HARMONICS + 1):
            tone = harmonic * stretch.blade_pass
            axes.plot([stretch.start, stretch.end], [tone, tone], "r-" if best else "b-", lw=1.2)
        words = f"{stretch.speed * 30 / np.pi:.0f} rpm"
        axes.text(stretch.start, stretch.blade_pass * 1.06, words, color="r" if best else "b")


def _pass_marks(axes: Any, heard: FlyBySound, recording: Recording) -> None:  # noqa: ANN401 - of matplotlib
    for one in heard.passes:
        if one.recording != recording.name:
            continue
        for harmonic in range(1, HARMONICS + 1):
            axes.plot(one.times, harmonic * one.fitted, "r-", lw=0.9)
        axes.axvline(one.time, color="b", lw=0.6, ls=":")
        axes.text(one.time, one.blade_pass * 1.15, f"{one.speed:.1f} m/s", color="r")


def _average(axes: Any, lines: Samples, spacing: float) -> None:  # noqa: ANN401 - of matplotlib
    frequency = np.arange(len(lines)) * spacing
    seen = frequency > 0.5 * LOWEST
    axes.plot(frequency[seen], lines[seen], "k-", lw=0.7)
    axes.grid(visible=True, lw=0.3)
