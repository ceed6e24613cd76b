"""Speed of a fly-by from its Doppler shift."""

import math
from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from foamwright.core.errors import ModelError
from foamwright.sound.clearest import clearest_pass
from foamwright.sound.doppler import both_ways
from foamwright.sound.model import FlyBySound, Pass, Recording, Samples, Spectra, Track
from foamwright.sound.pass_fit import PassFit, fit_pass
from foamwright.sound.spectrum import comb_scores, listenable, spectra_of
from foamwright.sound.track import followed, sharpened

HOP = 0.032  # s
CLEAR = 10.0  # dB, height of a frame's best line that counts
SLOWEST = 3.0  # m/s over the ground, below which nothing is told; assumed
LEAST_FALL = 0.006  # relative fall of the tone that may be a pass; assumed
NEAR, FAR = 0.25, 1.6  # s before and after which the tones are compared when passes are sought
SURE = 6.0  # standard deviations of the comb along the fit over that beside it; assumed
NEAREST = 0.5  # m, a pass that is nearer is a throttle pulled back
WORST = 0.15  # relative spread of a speed beyond which it is not told
MARGIN = 3.0  # s to each side of a pass that are fitted
SOUND_SPREAD = 0.009  # relative, speed of sound with the temperature known to 5 K


def fly_by_speed(recordings: Sequence[Recording], *, speed_of_sound: float = 340.3) -> FlyBySound:
    """Speed from one fly-by, or airspeed from passes both ways.

    Each pass is fitted with tone, speed, nearest distance and time. The first two passes found are
    taken as flown in opposite directions, so that the wind along them drops out.

    Args:
        recordings: One with a pass each way, or one a pass. [-]
        speed_of_sound: On that day. [m/s]

    Returns:
        The passes, the speed and its spread. [-]

    Raises:
        ModelError: Too short, silent, clipped, no pass found, or a speed too doubtful to be told.

    Valid:
        Straight level passes at constant throttle, 4 to 60 m/s; heard from one place. Within 5 % at
        10 dB above the noise, see tests/unit/test_sound_fly_by.py.

    Source:
        [OSX-DOPPLER] and kinematics, docs/physics/sound.md.

    Example:
        >>> fly_by_speed([recording]).speed  # doctest: +SKIP
        14.9
    """
    passes: list[Pass] = []
    tracks: list[Track] = []
    reasons: list[str] = []
    for recording in recordings:
        listenable(recording)
        spectra = spectra_of(recording, HOP)
        track = followed(spectra)
        tracks.append(track)
        found, why = _passes(spectra, track, speed_of_sound)
        passes += [replace(one, recording=recording.name) for one in found]
        reasons += [f"{recording.name}: {words}" for words in why]
    if not passes:
        raise ModelError(" ".join(reasons) or "No recording was given.")
    return _combined(passes, tracks, reasons, speed_of_sound)


def _combined(
    passes: list[Pass], tracks: list[Track], reasons: list[str], speed_of_sound: float
) -> FlyBySound:
    notes = list(reasons)
    first = passes[0]
    if len(passes) == 1:
        notes.append("One pass gives the speed over the ground; fly one each way for the airspeed.")
        return FlyBySound((first,), first.speed, first.speed_spread, None, tuple(tracks),
                          tuple(notes))  # fmt: skip
    second = passes[1]
    if len(passes) > 2:
        notes.append(f"{len(passes)} passes were heard; the first two were taken.")
    ratios = [one.approaching / one.receding for one in (first, second)]
    speed, wind = both_ways(ratios[0], ratios[1], speed_of_sound=speed_of_sound)
    spread = math.hypot(
        0.5 * math.hypot(first.speed_spread, second.speed_spread), SOUND_SPREAD * speed
    )
    change = first.blade_pass / second.blade_pass - 1.0
    if abs(change) > 0.04:
        notes.append(
            f"The propeller turned {100 * abs(change):.0f} % {'faster' if change > 0 else 'slower'}"
            " in the first pass: hold the throttle alike both ways."
        )
    notes.append("The two passes are taken as flown in opposite directions.")
    return FlyBySound(tuple(passes), speed, spread, wind, tuple(tracks), tuple(notes))


def _passes(spectra: Spectra, track: Track, c: float) -> tuple[list[Pass], list[str]]:
    places = _drops(track)
    if not places:
        return [], [_no_pass(track)]
    found: list[Pass] = []
    reasons: list[str] = []
    for index, place in enumerate(places):
        start = 0.5 * (places[index - 1] + place) if index else -math.inf
        end = 0.5 * (place + places[index + 1]) if index + 1 < len(places) else math.inf
        window = (max(start, place - MARGIN), min(end, place + MARGIN))
        result = _one_pass(spectra, track, window, (place, c))
        if isinstance(result, str):
            reasons.append(result)
        else:
            found.append(result)
    return found, reasons


def _no_pass(track: Track) -> str:
    height = float(np.percentile(track.height, 80))
    if height < CLEAR:
        return (
            f"no propeller tone stands clear of the noise; the best line is {height:.0f} dB above "
            f"it, {CLEAR:.0f} dB are needed. Stand nearer, out of the wind."
        )
    return (
        "no fly-by was heard: the tone never falls as it does when a plane goes past. "
        "Fly straight past at constant throttle, two seconds before and after."
    )


def _drops(track: Track) -> list[float]:
    """Times at which the tone falls as in a pass: it is level before and level after."""
    clear = track.height >= CLEAR
    logs = np.log(track.frequency)
    times = track.times
    falls = np.zeros(len(times))
    for i, time in enumerate(times):
        before = (times > time - FAR) & (times < time - NEAR) & clear
        after = (times > time + NEAR) & (times < time + FAR) & clear
        if before.sum() >= 5 and after.sum() >= 5:
            falls[i] = float(np.median(logs[before]) - np.median(logs[after]))
    places: list[float] = []
    least = max(LEAST_FALL, 2.5 * _scatter(logs[clear]))
    for i in np.argsort(-falls):
        if falls[i] < max(least, 0.4 * float(falls.max())):
            break
        if all(abs(times[i] - other) > 2 * FAR for other in places):
            places.append(float(times[i]))
    return sorted(places)


def _scatter(logs: Samples) -> float:
    """Scatter of the tone from frame to frame."""
    if len(logs) < 3:
        return math.inf
    return 1.4826 * float(np.median(np.abs(np.diff(logs))))


def _one_pass(
    spectra: Spectra, track: Track, window: tuple[float, float], guess: tuple[float, float]
) -> Pass | str:
    """A pass, or why its speed is not told."""
    place, c = guess
    inside = (track.times >= window[0]) & (track.times <= window[1])
    few = Spectra(track.times[inside], spectra.spacing, spectra.lines[inside])
    rough = Track(few.times, track.frequency[inside], track.height[inside])
    fit = fit_pass(rough, place, c)
    for reach in (0.02, 0.01):
        near = sharpened(few, fit.curve(few.times), reach=reach)
        fit = fit_pass(near, place, c, start=fit)
    found = clearest_pass(few, rough, fit, place=place)
    fit = found.fit
    spread = math.hypot(fit.speed_spread, SOUND_SPREAD * fit.speed)
    if _evidence(few, fit) < SURE:
        return (
            f"at {place:.1f} s a tone seems to fall, but it does not stand clear of the noise. "
            "Stand nearer, out of the wind."
        )
    if found.rivals:
        other = found.rivals[0].speed
        return (
            f"at {place:.1f} s two tones are as loud and tell {fit.speed:.1f} and {other:.1f} m/s: "
            "an echo or another plane. Record away from walls and trees."
        )
    if fit.distance < NEAREST:
        return (
            f"at {place:.1f} s the tone steps down as when the throttle is pulled back, not as in "
            "a pass."
        )
    if fit.speed < SLOWEST or spread > WORST * fit.speed or not math.isfinite(spread):
        return (
            f"the pass at {place:.1f} s is too uncertain to tell "
            f"({fit.speed:.1f} ± {spread:.1f} m/s). Fly nearer, straighter, at constant throttle."
        )
    return _told(fit, few.times, spread)


def _evidence(spectra: Spectra, fit: PassFit) -> float:
    """Comb score along the fit in standard deviations of that along curves moved in tone."""
    curve = fit.curve(spectra.times)
    ratios = np.concatenate([np.linspace(0.72, 0.94, 16), np.linspace(1.06, 1.4, 16)])
    few = Spectra(spectra.times[::2], spectra.spacing, spectra.lines[::2])
    scores = [
        float(np.mean(np.diagonal(comb_scores(few, curve[::2] * ratio))))
        for ratio in (1.0, *ratios)
    ]
    return (scores[0] - float(np.mean(scores[1:]))) / max(float(np.std(scores[1:])), 1e-3)


def _told(fit: PassFit, times: Samples, spread: float) -> Pass:
    return Pass(
        time=fit.nearest,
        speed=fit.speed,
        speed_spread=spread,
        distance=fit.distance,
        blade_pass=fit.frequency,
        approaching=fit.frequency / (1.0 - fit.speed / fit.c),
        receding=fit.frequency / (1.0 + fit.speed / fit.c),
        times=times,
        fitted=fit.curve(times),
    )
