"""Wind near the ground: how it grows with height, and its gusts."""

import math
from dataclasses import dataclass
from typing import Self

import numpy as np
from numpy.typing import NDArray

from foamwright.core.unit_table import FOOT

type Array = NDArray[np.float64]

ROUGHNESS = 0.03  # m, open grass with few obstacles; usual class of meteorology, from memory
HEAD_HEIGHT = 2.0  # m, where the design file's wind is felt
TWENTY_FEET = 6.096  # m, reference height of [MIL-F-8785C]
LEAST_HEIGHT = 3.048  # m, 10 ft, lowest height of the form; held below
WAVES = 16  # sines a component
LONGEST, SHORTEST = 2000.0, 1.5  # m, wave lengths that are laid over each other
SAMPLE = 0.04  # s between computed gusts of SampledWind


def wind_at(height: Array | float, wind: float, *, roughness: float = ROUGHNESS) -> Array:
    """Mean wind at a height, from that at head height.

    U = U_ref ln(h/z0)/ln(2 m/z0).

    Args:
        height: Above the ground; held at 0.2 m below. [m]
        wind: At 2 m. [m/s]
        roughness: Length z0 of the ground. [m]

    Returns:
        Wind. [m/s]

    Valid:
        Open ground, neutral air, to about 60 m.

    Source:
        Logarithmic law of the wind near the ground, any text of meteorology.

    Example:
        >>> round(float(wind_at(10.0, 3.0)), 2)
        4.15
    """
    held = np.maximum(np.asarray(height, dtype=float), 0.2)
    return np.asarray(wind * np.log(held / roughness) / math.log(HEAD_HEIGHT / roughness))


@dataclass(frozen=True, slots=True)
class Turbulence:
    """Strength and length of the gusts near the ground.

    Attributes:
        along: Standard deviation along the wind and across it. [m/s]
        up: Standard deviation up and down. [m/s]
        length_along: Scale along and across. [m]
        length_up: Scale up and down. [m]
    """

    along: float
    up: float
    length_along: float
    length_up: float


def turbulence_at(height: float, wind_20_feet: float) -> Turbulence:
    """Gusts at a low height.

    sigma_w = 0.1 W20; sigma_u/sigma_w = 1/(0.177 + 0.000823 h)^0.4; Lw = h,
    Lu = h/(0.177 + 0.000823 h)^1.2, h in feet.

    Args:
        height: Above the ground; 3 m (10 ft) is held below. [m]
        wind_20_feet: Mean wind at 20 ft. [m/s]

    Returns:
        The gusts.

    Valid:
        10 to 1000 ft; below 10 ft the figures of 10 ft, which no source covers.

    Source:
        [MIL-F-8785C] sec. 3.7.3.4, low-altitude disturbance model.

    Example:
        >>> round(turbulence_at(6.096, 10.0).up, 2)
        1.0
    """
    feet = max(height, LEAST_HEIGHT) / FOOT
    base = 0.177 + 0.000823 * feet
    up = 0.1 * wind_20_feet
    return Turbulence(
        along=up / base**0.4,
        up=up,
        length_along=FOOT * feet / base**1.2,
        length_up=FOOT * feet,
    )


def gust_spectrum(wave: Array, turbulence: Turbulence, component: str) -> Array:
    """One-sided power spectrum of the gusts over wave number; its integral is the variance.

    Along: sigma² 2L/pi/(1 + (L W)²); across and up: sigma² L/pi (1 + 3 (L W)²)/(1 + (L W)²)².

    Args:
        wave: Spatial frequency. [rad/m]
        turbulence: Strength and length. [-]
        component: "along", "across" or "up". [-]

    Returns:
        Spectrum. [m³/s²]

    Source:
        Dryden form, [MIL-F-8785C] sec. 3.7.1.2.

    Example:
        >>> t = turbulence_at(6.0, 5.0)
        >>> w = np.linspace(0.0, 400.0, 800_001)
        >>> total = np.trapezoid(gust_spectrum(w, t, "up"), w)
        >>> round(float(total / t.up**2), 2)
        1.0
    """
    if component == "along":
        scaled = turbulence.length_along * wave
        top = turbulence.along**2 * turbulence.length_along
        return np.asarray(top * 2.0 / math.pi / (1.0 + scaled**2))
    up = component == "up"
    length = turbulence.length_up if up else turbulence.length_along
    strength = turbulence.up if up else turbulence.along
    scaled = (length * wave) ** 2
    return np.asarray(strength**2 * length / math.pi * (1.0 + 3.0 * scaled) / (1.0 + scaled) ** 2)


def roll_gust_spectrum(wave: Array, turbulence: Turbulence, span: float) -> Array:
    """One-sided spectrum of the air's turning about the flight path.

    sigma_w²/Lw 0.8 (pi Lw/(4 b))^(1/3)/(1 + (4 b W/pi)²).

    Args:
        wave: Spatial frequency. [rad/m]
        turbulence: Strength and length. [-]
        span: Of the wing. [m]

    Returns:
        Spectrum. [rad m/s²]

    Source:
        [MIL-F-8785C] sec. 3.7.1.2.

    Example:
        >>> float(roll_gust_spectrum(np.array(1.0), turbulence_at(3.0, 5.0), 1.2)) > 0.0
        True
    """
    length = turbulence.length_up
    top = turbulence.up**2 / length * 0.8 * (0.25 * math.pi * length / span) ** (1.0 / 3.0)
    return np.asarray(top / (1.0 + (4.0 * span * wave / math.pi) ** 2))


@dataclass(frozen=True, slots=True)
class Wind:
    """Wind for n members: a mean with height and, for each, its own gusts.

    Attributes:
        mean: At 2 m. [m/s]
        origin: Where it comes from, right of ahead; 0 is a headwind. (n) [rad]
        frequency: Of the waves as met in flight, (n, wave). [rad/s]
        size: Of the waves along, across, up and in roll, (4, wave). [m/s], [rad/s]
        phase: (n, 4, wave). [rad]
    """

    mean: float
    origin: Array
    frequency: Array
    size: Array
    phase: Array

    def take(self, which: NDArray[np.intp] | slice) -> Self:
        """Some of the members, by index [-]."""
        return type(self)(
            self.mean, self.origin[which], self.frequency[which], self.size, self.phase[which]
        )

    def __call__(self, time: float, state: Array, which: NDArray[np.intp]) -> Array:
        """Wind and turning of the air [m/s], [rad/s] at a time [s] for members where they are."""
        return self.blow(self.gusts(time)[which], state, which)

    def gusts(self, time: float) -> Array:
        """Gusts along, across, up and in roll of every member [m/s], [rad/s] at a time [s]."""
        if not self.size.any():
            return np.zeros((len(self.origin), 4))
        angle = self.frequency[:, None, :] * time + self.phase
        return (np.cos(angle) * self.size).sum(axis=2)

    def blow(self, gust: Array, state: Array, which: NDArray[np.intp]) -> Array:
        """Wind and turning of the air [m/s], [rad/s] where members are, from their gusts [m/s]."""
        if self.mean == 0.0:
            return np.zeros(3)
        origin = self.origin[which]
        mean = wind_at(-state[:, 2], self.mean)
        along, across = np.cos(origin), np.sin(origin)
        blow = np.zeros((len(which), 6))
        ahead = mean + gust[:, 0]
        blow[:, 0] = -along * ahead + across * gust[:, 1]
        blow[:, 1] = -across * ahead - along * gust[:, 1]
        blow[:, 2] = gust[:, 2]
        blow[:, 3] = gust[:, 3]
        return blow


def windy(
    mean: float,
    count: int,
    seed: int,
    *,
    airspeed: float,
    span: float,
    origin: Array | float = 0.0,
    gusts: float = 1.0,
) -> Wind:
    """Wind with gusts for many members, each with its own; the same seed blows the same.

    Each component is a sum of sines whose squares add up to the spectrum's variance between the
    longest and the shortest wave.

    Args:
        mean: At 2 m. [m/s]
        count: Members. [-]
        seed: Of the random numbers. [-]
        airspeed: At which the waves are met. [m/s]
        span: Of the wing. [m]
        origin: Where it comes from, right of ahead; one or one a member. [rad]
        gusts: Factor on their strength; 0 is a steady wind. [-]

    Returns:
        The wind, ready to be asked by `fly`.

    Valid:
        Below about 10 m: the strength is that of 3 m, see turbulence_at.

    Source:
        [MIL-F-8785C]; frozen turbulence (Taylor).

    Example:
        >>> blow = windy(3.0, 2, 1, airspeed=9.0, span=1.2)
        >>> blow(0.0, np.zeros((2, 18)), np.arange(2)).shape
        (2, 6)
    """
    random = np.random.default_rng(seed)
    edges = np.geomspace(2.0 * math.pi / LONGEST, 2.0 * math.pi / SHORTEST, WAVES + 1)
    place = random.random((count, WAVES))
    wave = edges[:-1] * (edges[1:] / edges[:-1]) ** place
    phase = 2.0 * math.pi * random.random((count, 4, WAVES))
    air = turbulence_at(LEAST_HEIGHT, float(wind_at(TWENTY_FEET, mean)))
    size = np.zeros((4, WAVES))
    for k in range(WAVES):
        fine = np.geomspace(edges[k], edges[k + 1], 33)
        spectra = [gust_spectrum(fine, air, name) for name in ("along", "across", "up")]
        spectra.append(roll_gust_spectrum(fine, air, span))
        size[:, k] = [math.sqrt(2.0 * float(np.trapezoid(s, fine))) for s in spectra]
    where = np.broadcast_to(np.asarray(origin, dtype=float), (count,)).copy()
    return Wind(mean, where, wave * airspeed, gusts * size, phase)


class SampledWind:
    """The same wind, its gusts computed 25 times a second and taken straight between: quicker."""

    def __init__(self, wind: Wind) -> None:
        """Ready to be asked by `fly`.

        Args:
            wind: The wind. [-]
        """
        self._wind = wind
        self._place = -1
        self._low = self._high = np.zeros((len(wind.origin), 4))

    def __call__(self, time: float, state: Array, which: NDArray[np.intp]) -> Array:
        """Wind and turning of the air [m/s], [rad/s] at a time [s] for members where they are."""
        if self._wind.mean == 0.0:
            return np.zeros(3)
        place = int(time / SAMPLE + 1e-9)
        if place != self._place:
            fresh = place != self._place + 1
            self._low = self._wind.gusts(place * SAMPLE) if fresh else self._high
            self._high = self._wind.gusts((place + 1) * SAMPLE)
            self._place = place
        share = time / SAMPLE - place
        gust = (1.0 - share) * self._low[which] + share * self._high[which]
        return self._wind.blow(gust, state, which)
