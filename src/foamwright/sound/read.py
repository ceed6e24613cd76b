"""The sound track of any file a phone makes, as one channel at a rate that suits propellers."""

from pathlib import Path
from typing import Any

import numpy as np

from foamwright.core.errors import DesignError
from foamwright.sound.model import Recording

RATE = 12_000  # Hz; the eighth harmonic of a fast propeller stays below half of it
LONGEST = 1200.0  # s read of a file; a bench run takes two minutes
FULL_SCALE = 0.985  # of the largest level; a lossy coder rounds off the top of a clipped wave


def read_recording(path: str | Path) -> Recording:
    """The sound of a sound or video file, mixed to one channel.

    Args:
        path: The file: wav, flac, mp3, m4a, ogg, mp4, mov, webm and others. [-]

    Returns:
        The recording, its first 20 minutes. [-]

    Raises:
        DesignError: There is no such file, it is no recording, or it holds no sound.

    Source:
        Definition.

    Example:
        >>> read_recording("no-such.m4a")
        Traceback (most recent call last):
        foamwright.core.errors.DesignError: no-such.m4a: there is no such file; ...
    """
    file = Path(path)
    if not file.is_file():
        got = "this is a folder" if file.is_dir() else "there is no such file"
        raise _refusal(file, got, "Check the name and the folder.")
    import av
    from av.error import FFmpegError

    try:
        with av.open(str(file)) as container:
            if not container.streams.audio:
                raise _refusal(
                    file, "it holds no sound", "Record again with the microphone allowed."
                )
            samples, clipped = _decoded(container)
    except (FFmpegError, OSError, EOFError) as error:
        words = (getattr(error, "strerror", None) or "not understood").lower()
        raise _refusal(file, f"it cannot be read as sound or video ({words})", "") from None
    if not len(samples):
        raise _refusal(file, "its sound track is empty", "Record again.")
    return Recording(samples, float(RATE), clipped, file.name)


def _refusal(file: Path, got: str, fix: str) -> DesignError:
    return DesignError("", got, "a sound or video file with sound is expected here", fix, str(file))


def _decoded(container: Any) -> tuple[np.ndarray, float]:  # noqa: ANN401 - av has no stubs here
    """Samples, and the share of them at full scale before any filter touched them."""
    import av
    from av.error import FFmpegError

    straight = av.AudioResampler(format="flt", layout="mono")
    slower = av.AudioResampler(format="flt", layout="mono", rate=RATE)
    pieces: list[np.ndarray] = []
    full, seen = 0, 0
    try:
        for frame in container.decode(audio=0):
            for plain in straight.resample(frame):
                values = np.abs(plain.to_ndarray())
                full += int(np.count_nonzero(values >= FULL_SCALE))
                seen += values.size
                pieces += [part.to_ndarray()[0] for part in slower.resample(plain)]
            if seen > LONGEST * frame.sample_rate:
                break
        pieces += [part.to_ndarray()[0] for part in slower.resample(None)]
    except FFmpegError:
        if not pieces:
            raise
    samples = np.concatenate(pieces).astype(np.float64) if pieces else np.zeros(0)
    return np.nan_to_num(samples), full / max(seen, 1)
