"""What sound/ takes in and answers."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

type Samples = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Recording:
    """One sound track, mixed to one channel.

    Attributes:
        samples: Full scale is 1. [-]
        rate: Samples in a second. [Hz]
        clipped: Share of the samples that stand at full scale. [-]
        name: Of the file.
    """

    samples: Samples
    rate: float
    clipped: float = 0.0
    name: str = "recording"

    @property
    def duration(self) -> float:
        """Length [s]."""
        return len(self.samples) / self.rate


@dataclass(frozen=True, slots=True)
class Spectra:
    """Spectra of short frames, as decibels above the noise beside each frequency.

    Attributes:
        times: Middle of each frame. [s]
        spacing: Between frequencies, the first is 0. [Hz]
        lines: Height above the noise beside it, frames by frequencies. [dB]
    """

    times: Samples
    spacing: float
    lines: Samples


@dataclass(frozen=True, slots=True)
class Track:
    """How the fundamental tone runs through a recording.

    Attributes:
        times: [s]
        frequency: Of the tone. [Hz]
        height: Mean height of its harmonics above the noise. [dB]
    """

    times: Samples
    frequency: Samples
    height: Samples


@dataclass(frozen=True, slots=True)
class Stretch:
    """A part of a bench recording in which the propeller kept its speed.

    Attributes:
        start: [s]
        end: [s]
        blade_pass: Blades passing in a second. [Hz]
        speed: Of the propeller. [rad/s]
        speed_spread: One standard deviation. [rad/s]
        height: Of its tone above the noise. [dB]
    """

    start: float
    end: float
    blade_pass: float
    speed: float
    speed_spread: float
    height: float


@dataclass(frozen=True, slots=True)
class BenchSound:
    """Propeller speed from a bench recording.

    Attributes:
        blades: Of the propeller. [-]
        best: The fastest steady stretch: full throttle when it was given.
        stretches: All steady stretches, in time.
        track: The tone through the recording.
        notes: Doubts, in words.
    """

    blades: int
    best: Stretch
    stretches: tuple[Stretch, ...]
    track: Track
    notes: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Pass:
    """One straight pass of the plane.

    Attributes:
        time: When it was nearest, as heard. [s]
        speed: Over the ground, to first order in the wind. [m/s]
        speed_spread: One standard deviation. [m/s]
        distance: Nearest distance. [m]
        blade_pass: Tone as it sounds on board. [Hz]
        approaching: Tone from far ahead. [Hz]
        receding: Tone from far behind. [Hz]
        times: Of the fitted curve. [s]
        fitted: Tone by the fit at these times. [Hz]
        recording: Name of the recording it was heard in.
    """

    time: float
    speed: float
    speed_spread: float
    distance: float
    blade_pass: float
    approaching: float
    receding: float
    times: Samples
    fitted: Samples
    recording: str = ""


@dataclass(frozen=True, slots=True)
class FlyBySound:
    """Speed from one pass or from passes both ways.

    Attributes:
        passes: In the order heard.
        speed: Airspeed when both ways were flown, else ground speed of the pass. [m/s]
        speed_spread: One standard deviation. [m/s]
        wind: Along the first pass, a tail wind positive; None from one pass. [m/s]
        tracks: The tone through each recording.
        notes: Doubts, in words.
    """

    passes: tuple[Pass, ...]
    speed: float
    speed_spread: float
    wind: float | None
    tracks: tuple[Track, ...]
    notes: tuple[str, ...]
