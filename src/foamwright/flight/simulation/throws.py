"""Thousands of hand launches at once, and how each ended."""

from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass, field, replace
from multiprocessing import get_context

import numpy as np
from numpy.typing import NDArray

from foamwright.core.errors import ModelError
from foamwright.core.processes import forks_safely, hands_for
from foamwright.flight.simulation.advance import STEP
from foamwright.flight.simulation.craft import Craft
from foamwright.flight.simulation.ends import (
    AWAY,
    DIVED,
    ENDS,
    RAN_AWAY,
    ROLLED,
    SANK,
    STALLED,
    Watch,
    ends_of,
)
from foamwright.flight.simulation.fly import Path, fly
from foamwright.flight.simulation.hands import Hands, Pilot, felt_gains
from foamwright.flight.simulation.interval import share_interval
from foamwright.flight.simulation.state import RIGID, rotation_of
from foamwright.flight.simulation.thrower import (
    Releases,
    Thrower,
    both_speeds,
    releases_of,
    thrown_state,
)
from foamwright.flight.simulation.wind import SampledWind, Wind, windy

type Array = NDArray[np.float64]
type Which = NDArray[np.intp]

DURATION = 6.0  # s looked at
BATCH = 512  # members side by side, quickest for numpy
SAMPLE = 0.05  # s between kept samples
WORTH = 600  # throws from which a second process pays


@dataclass(frozen=True, slots=True)
class Launch:
    """Everything about the throws but the plane.

    Attributes:
        thrower: Who throws.
        hands: Who flies on.
        throttle: Stick, set before the throw. [-]
        wind: Mean at head height. [m/s]
        wind_from: Right of ahead; 0 is a headwind. [rad]
        gusts: Factor on their strength. [-]
        duration: Looked at. [s]
        step: [s]
    """

    thrower: Thrower
    hands: Hands = field(default_factory=Hands)
    throttle: float = 0.7
    wind: float = 0.0
    wind_from: float = 0.0
    gusts: float = 1.0
    duration: float = DURATION
    step: float = STEP


@dataclass(frozen=True, slots=True)
class Thrown:
    """What became of each throw.

    Attributes:
        releases: As they left the hand.
        throttle: Stick. [-]
        end: Index into ENDS. [-]
        airspeed: Through the air at the release. [m/s]
        slowest: Least airspeed on the way. [m/s]
        lowest: Least height of the lowest point of the plane. [m]
        final_height: Of the CG, at the end. [m]
        ended: Time of the end. [s]
        distance: From the hand, over ground. [m]
        bank: Largest bank on the way, signed. [rad]
        path: Sampled flights.
        separated: Most of the wing seen with its flow separated, share. [-]
    """

    releases: Releases
    throttle: Array
    end: NDArray[np.intp]
    airspeed: Array
    slowest: Array
    lowest: Array
    final_height: Array
    ended: Array
    distance: Array
    bank: Array
    path: Path
    separated: Array


def throw(
    craft: Craft,
    launch: Launch,
    count: int,
    seed: int,
    *,
    speeds: Array | None = None,
    throttles: Array | None = None,
    workers: int | None = None,
) -> Thrown:
    """Throw a plane, or as many builds of it, many times.

    Args:
        craft: One build for all throws, or one a throw. [-]
        launch: Who, how, in what wind. [-]
        count: Throws. [-]
        seed: Of the random numbers; the same seed gives the same throws, gusts and pilots. [-]
        speeds: Added to each throw's speed. [m/s]
        throttles: Stick of each throw in place of the launch's. [-]
        workers: Processes; None takes two where it pays and can be. [-]

    Returns:
        What became of each.

    Raises:
        ModelError: A throw, a throttle or a wind that makes no sense.

    Source:
        docs/physics/flight-simulation.md.

    Example:
        >>> from foamwright.flight.simulation.thrower import thrower_for
        >>> launch = Launch(thrower_for(0.65), throttle=0.7)
        >>> throw(plane.craft, launch, 20, 1).end.shape
        (20,)
    """
    refuse_launch(craft, launch, count)
    releases = releases_of(launch.thrower, count, seed)
    if speeds is not None:
        releases = replace(releases, speed=np.maximum(releases.speed + speeds, 0.5))
    stick = np.full(count, launch.throttle) if throttles is None else np.asarray(throttles)
    return throw_these(
        craft, launch, releases, stick, luck=luck_of(craft, launch, count, seed), workers=workers
    )


@dataclass(frozen=True, slots=True)
class Luck:
    """What neither the thrower nor the builder decides.

    Attributes:
        pilot: Normal numbers, (2, n): reaction and wanted climb. [-]
        weather: Wind with each member's gusts.
    """

    pilot: Array
    weather: Wind


def luck_of(craft: Craft, launch: Launch, count: int, seed: int) -> Luck:
    """Pilots and gusts of many throws; the same seed brings the same.

    Args:
        craft: The plane. [-]
        launch: In what wind. [-]
        count: Throws. [-]
        seed: Of the random numbers. [-]

    Returns:
        Their luck.

    Source:
        Definition.

    Example:
        >>> from foamwright.flight.simulation.thrower import thrower_for
        >>> luck_of(plane.craft, Launch(thrower_for(0.65)), 5, 1).pilot.shape
        (2, 5)
    """
    draw = np.random.default_rng(seed + 1).standard_normal((2, count)).clip(-3.0, 3.0)
    weather = windy(
        launch.wind,
        count,
        seed + 2,
        airspeed=craft.trim_speed,
        span=craft.whole.span,
        origin=launch.wind_from,
        gusts=launch.gusts,
    )
    return Luck(draw, weather)


def throw_these(
    craft: Craft,
    launch: Launch,
    releases: Releases,
    throttles: Array,
    *,
    luck: Luck,
    trace: bool = True,
    workers: int | None = None,
) -> Thrown:
    """Throw given releases with given luck.

    Args:
        craft: One build for all throws, or one a throw. [-]
        launch: Pilot, wind and time; its throw and throttle are replaced. [-]
        releases: As they leave the hand. [-]
        throttles: Stick of each. [-]
        luck: Of each. [-]
        trace: Whether the paths are kept every 0.05 s; else only start and end.
        workers: Processes; None takes two where it pays and can be. [-]

    Returns:
        What became of each.

    Source:
        Definition.

    Example:
        >>> from foamwright.flight.simulation.thrower import thrower_for
        >>> launch = Launch(thrower_for(0.65))
        >>> luck = luck_of(plane.craft, launch, 4, 1)
        >>> at = releases_of(launch.thrower, 4, 1)
        >>> throw_these(plane.craft, launch, at, np.full(4, 0.7), luck=luck).end.shape
        (4,)
    """
    count = len(throttles)
    hands = _workers(workers, count)
    size = BATCH if hands == 1 else min(BATCH, -(-count // hands))
    gains = felt_gains(craft, launch.hands.delay, throttles)
    parts = [slice(a, min(a + size, count)) for a in range(0, count, size)]
    jobs = [
        (
            craft if craft.count == 1 else craft.take(np.arange(part.start, part.stop)),
            launch,
            _some(releases, part),
            throttles[part],
            luck.pilot[:, part],
            luck.weather.take(part),
            gains[part],
            trace,
        )
        for part in parts
    ]
    if hands > 1 and len(jobs) > 1:
        with ProcessPoolExecutor(hands, mp_context=get_context("fork")) as pool:
            found = list(pool.map(_throw_some, jobs))
    else:
        found = [_throw_some(job) for job in jobs]
    return found[0] if len(found) == 1 else _joined(found)


def _workers(asked: int | None, count: int) -> int:
    if asked is not None and forks_safely():
        return asked
    return min(2, hands_for(count, worth=WORTH))


def _some(releases: Releases, part: slice) -> Releases:
    return Releases(*(getattr(releases, name)[part] for name in Releases.__slots__))


type _Job = tuple[Craft, Launch, Releases, Array, Array, Wind, Array, bool]


def _throw_some(job: _Job) -> Thrown:
    craft, launch, releases, stick, draw, weather, gains, trace = job
    count = len(stick)
    state = thrown_state(craft, releases, throttle=stick)
    watch = Watch(craft, count, step=launch.step, duration=launch.duration)
    blowing = SampledWind(weather)
    watch.weather = blowing if launch.wind > 0.0 else None
    pilot = Pilot(gains, launch.hands, stick, draw, step=launch.step)
    path = fly(
        craft,
        state,
        pilot,
        duration=launch.duration,
        weather=blowing,
        ending=watch,
        step=launch.step,
        every=max(1, round((SAMPLE if trace else launch.duration) / launch.step)),
    )
    air = state[:, 7:10]
    if launch.wind > 0.0:
        wind = weather(0.0, state, np.arange(count))[:, :3]
        air = air - np.einsum("nij,ni->nj", rotation_of(state), wind)
    return Thrown(
        releases=releases,
        throttle=stick,
        end=ends_of(path, watch),
        airspeed=np.sqrt((air * air).sum(axis=1)),
        slowest=watch.slowest,
        lowest=watch.lowest,
        final_height=-path.final[:, 2],
        ended=path.ended,
        distance=np.hypot(path.final[:, 0], path.final[:, 1]),
        bank=watch.bank,
        path=replace(path, states=path.states[:, :, :RIGID].copy()),
        separated=watch.separated,
    )


def _joined(found: list[Thrown]) -> Thrown:
    made: dict[str, object] = {
        name: np.concatenate([getattr(one, name) for one in found])
        for name in Thrown.__slots__
        if name not in ("releases", "path")
    }
    made["releases"] = Releases(
        *(np.concatenate([getattr(o.releases, n) for o in found]) for n in Releases.__slots__)
    )
    paths = [one.path for one in found]
    made["path"] = Path(
        times=paths[0].times,
        states=np.concatenate([p.states for p in paths], axis=1),
        sticks=np.concatenate([p.sticks for p in paths], axis=1),
        ended=np.concatenate([p.ended for p in paths]),
        why=np.concatenate([p.why for p in paths]),
        final=np.concatenate([p.final for p in paths]),
    )
    return Thrown(**made)  # pyright: ignore[reportArgumentType]


def refuse_launch(craft: Craft, launch: Launch, count: int) -> None:
    """Refuse what cannot be thrown or flown.

    Args:
        craft: The plane. [-]
        launch: Who, how, in what wind. [-]
        count: Throws. [-]

    Raises:
        ModelError: With the range that makes sense.

    Source:
        Definition.

    Example:
        >>> from foamwright.flight.simulation.thrower import thrower_for
        >>> refuse_launch(plane.craft, Launch(thrower_for(0.65)), 100)
    """
    if not 1 <= count <= 200_000:
        raise ModelError(f"{count} throws: 1 to 200 000 can be asked, 1000 tell a share to 3 %.")
    if not 0.0 <= launch.throttle <= 1.0:
        raise ModelError(
            f"Throttle is {100.0 * launch.throttle:.0f} %; a stick goes from 0 to 100 %."
        )
    if craft.thrust.capacity <= 0.0:
        raise ModelError("There is no pack: a throw without one is a glide, ask for throttle 0.")
    most = 0.9 * craft.trim_speed
    if not 0.0 <= launch.wind < most:
        raise ModelError(
            f"A wind of {both_speeds(launch.wind)} is more than this plane flies: "
            f"{both_speeds(craft.trim_speed)}. 0 to {both_speeds(0.4 * craft.trim_speed)} makes "
            "sense."
        )


__all__ = [
    "AWAY",
    "DIVED",
    "ENDS",
    "RAN_AWAY",
    "ROLLED",
    "SANK",
    "STALLED",
    "Launch",
    "Luck",
    "Thrown",
    "luck_of",
    "refuse_launch",
    "share_interval",
    "throw",
    "throw_these",
]
