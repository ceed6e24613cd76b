"""Which throw suits the plane, and which change of it helps most: re-flown with the same luck."""

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from foamwright.flight.simulation.craft import Craft
from foamwright.flight.simulation.flaws import NO_FLAWS, Flaws
from foamwright.flight.simulation.story import clean_of
from foamwright.flight.simulation.thrower import Releases, added, releases_of
from foamwright.flight.simulation.throws import (
    AWAY,
    ENDS,
    Launch,
    Luck,
    luck_of,
    refuse_launch,
    throw_these,
)

type Array = NDArray[np.float64]
type Maker = Callable[[Flaws], Craft]

THROTTLES = (0.4, 0.55, 0.7, 0.85, 1.0)
ANGLES = (-0.09, 0.0, 0.09, 0.17, 0.26)  # rad, -5 to 15 deg
FASTER = (-2.0, -1.0, 0.0, 1.0, 2.0)  # m/s
EVEN = 0.01  # shares this close count as equal
USUAL = {"throttle": 0.75, "angle": 0.05}  # common practice, chosen among equals
TELLING = (0.25, 0.85)  # shares between which a change can show what it does
SEARCH = (1.0, 0.85, *(0.05 * k for k in range(14, 2, -1)))  # throttles tried to find such a share
FEW = 60  # throws that each of them is tried with


@dataclass(frozen=True, slots=True)
class Variant:
    """One thing done otherwise.

    Attributes:
        name: In words.
        flaws: Change of the plane.
        speed: Added to the throw. [m/s]
        angle: Added to the way of the hand. [rad]
        throttle: Stick; None keeps it. [-]
    """

    name: str
    flaws: Flaws = NO_FLAWS
    speed: float = 0.0
    angle: float = 0.0
    throttle: float | None = None


@dataclass(frozen=True, slots=True)
class Outcome:
    """What a variant gives.

    Attributes:
        variant: What was done.
        share: That flew away. [-]
        clean: That did so without a near thing. [-]
        gain: Share over that of the throws as they are. [-]
        error: Standard error of the gain, the luck being the same. [-]
        worst: Most frequent other end; "" where none.
    """

    variant: Variant
    share: float
    clean: float
    gain: float
    error: float
    worst: str


CHANGES = (
    Variant("2 deg more down thrust", Flaws(thrust_down_error=math.radians(2.0))),
    Variant("2 deg less down thrust", Flaws(thrust_down_error=math.radians(-2.0))),
    Variant("2 deg more right thrust", Flaws(thrust_right_error=math.radians(2.0))),
    Variant("2 deg less right thrust", Flaws(thrust_right_error=math.radians(-2.0))),
    Variant(
        "2 deg more washout", Flaws(left_twist=math.radians(-2.0), right_twist=math.radians(-2.0))
    ),
    Variant("1.5 deg more wing incidence", Flaws(incidence_error=math.radians(1.5))),
    Variant("2 deg more up elevator", Flaws(elevator_neutral=math.radians(-2.0))),
    Variant("2 deg less up elevator", Flaws(elevator_neutral=math.radians(2.0))),
    Variant("CG 6\u00a0mm further forward", Flaws(cg_shift_aft=-0.006)),
    Variant("CG 6\u00a0mm further aft", Flaws(cg_shift_aft=0.006)),
    Variant("10 % lighter", Flaws(mass_factor=0.9)),
    Variant("15 % more thrust (propeller, pack)", Flaws(motor_factor=1.15)),
    Variant("10 % less drag", Flaws(drag_factor=0.9)),
    Variant("thrown 1\u00a0m/s faster", speed=1.0),
    Variant("thrown 5 deg higher", angle=math.radians(5.0)),
)


def outcomes_of(
    make: Maker,
    launch: Launch,
    builds: Flaws,
    variants: Sequence[Variant],
    *,
    seed: int,
    workers: int | None = None,
) -> tuple[Outcome, ...]:
    """Fly the same throws, builds, pilots and gusts once a variant.

    Args:
        make: Makes a craft of flaws (`plane.flawed`). [-]
        launch: The throw that is varied. [-]
        builds: Of the throws as they are, one a throw. [-]
        variants: What is done otherwise; the first is what the gains are counted from. [-]
        seed: Of the random numbers. [-]
        workers: Processes. [-]

    Returns:
        One a variant.

    Source:
        Common random numbers; error of a paired difference of shares.

    Example:
        >>> from foamwright.flight.simulation.thrower import BuildSpread, builds_of, thrower_for
        >>> launch = Launch(thrower_for(0.65), throttle=0.4)
        >>> builds = builds_of(BuildSpread(), 5, 1)
        >>> variants = (Variant("as it is"), Variant("faster", speed=1.0))
        >>> len(outcomes_of(plane.flawed, launch, builds, variants, seed=1))
        2
    """
    count, times = builds.count, len(variants)
    luck, releases = _same(make(NO_FLAWS), launch, count, seed, times)
    flaws = _rows([added(builds, v.flaws) for v in variants])
    speed = np.repeat([v.speed for v in variants], count)
    angle = np.repeat([v.angle for v in variants], count)
    releases = replace(
        releases, speed=np.maximum(releases.speed + speed, 0.5), angle=releases.angle + angle
    )
    sticks = [launch.throttle if v.throttle is None else v.throttle for v in variants]
    thrown = throw_these(
        make(flaws),
        launch,
        releases,
        np.repeat(sticks, count),
        luck=luck,
        trace=False,
        workers=workers,
    )
    away = (thrown.end == AWAY).reshape(times, count)
    clean = clean_of(thrown).reshape(times, count)
    ends = thrown.end.reshape(times, count)
    return tuple(
        _outcome(variant, away[k], away[0], clean[k], ends[k]) for k, variant in enumerate(variants)
    )


def _same(craft: Craft, launch: Launch, count: int, seed: int, times: int) -> tuple[Luck, Releases]:
    refuse_launch(craft, launch, count)
    luck = luck_of(craft, launch, count, seed)
    again = np.tile(np.arange(count), times)
    one = releases_of(launch.thrower, count, seed)
    releases = Releases(*(getattr(one, name)[again] for name in Releases.__slots__))
    return Luck(luck.pilot[:, again], luck.weather.take(again)), releases


def _rows(parts: Sequence[Flaws]) -> Flaws:
    return Flaws(
        **{
            name: np.concatenate([np.asarray(getattr(part, name)) for part in parts])
            for name in Flaws.__slots__
        }
    )


def _some(builds: Flaws, count: int) -> Flaws:
    whole = builds.spread()
    return Flaws(**{name: getattr(whole, name)[:count] for name in Flaws.__slots__})


def _outcome(
    variant: Variant,
    away: NDArray[np.bool_],
    base: NDArray[np.bool_],
    clean: NDArray[np.bool_],
    ends: NDArray[np.intp],
) -> Outcome:
    change = away.astype(float) - base
    others = np.bincount(ends, minlength=len(ENDS))
    others[AWAY] = 0
    return Outcome(
        variant=variant,
        share=float(away.mean()),
        clean=float(clean.mean()),
        gain=float(change.mean()),
        error=float(change.std() / math.sqrt(len(change))),
        worst=ENDS[int(others.argmax())] if others.any() else "",
    )


@dataclass(frozen=True, slots=True)
class BestThrow:
    """Each setting alone, the others as they are.

    Attributes:
        throttles: Outcomes over the stick.
        angles: Over the way of the hand.
        speeds: Over the speed of the throw.
        throttle: Best stick. [-]
        angle: Best way of the hand above level. [rad]
        speed: Slowest throw as good as the best. [m/s]
    """

    throttles: tuple[Outcome, ...]
    angles: tuple[Outcome, ...]
    speeds: tuple[Outcome, ...]
    throttle: float
    angle: float
    speed: float


def best_throw(
    make: Maker, launch: Launch, builds: Flaws, *, seed: int, workers: int | None = None
) -> BestThrow:
    """Best throttle, angle and speed for the plane, one at a time.

    Args:
        make: Makes a craft of flaws. [-]
        launch: The throw that is varied. [-]
        builds: One a throw. [-]
        seed: Of the random numbers. [-]
        workers: Processes. [-]

    Returns:
        The sweeps; best is the largest clean share, the usual one among equals.

    Source:
        `outcomes_of`.

    Example:
        >>> best_throw(plane.flawed, launch, builds, seed=1).throttle  # doctest: +SKIP
        0.7
    """
    base = launch.thrower
    sticks = [Variant(f"throttle {100 * t:.0f} %", throttle=t) for t in THROTTLES]
    angles = [Variant(f"{a:.2f}", angle=a - base.angle) for a in ANGLES]
    speeds = [Variant(f"{s:+.0f} m/s", speed=s) for s in FASTER if base.speed + s >= 2.0]
    found = outcomes_of(
        make,
        launch,
        builds,
        [Variant("as it is"), *sticks, *angles, *speeds],
        seed=seed,
        workers=workers,
    )[1:]
    one, two = len(sticks), len(sticks) + len(angles)
    throttles, ways, fast = found[:one], found[one:two], found[two:]
    best_stick = _nearest([(o.clean, t) for o, t in zip(throttles, THROTTLES, strict=True)],
                          USUAL["throttle"])  # fmt: skip
    best_angle = _nearest([(o.clean, a) for o, a in zip(ways, ANGLES, strict=True)],
                          USUAL["angle"])  # fmt: skip
    slowest = _nearest([(o.clean, o.variant.speed) for o in fast], -9.0)
    return BestThrow(
        throttles, ways, fast, best_stick, best_angle, base.speed + base.run_up + slowest
    )


def _nearest(pairs: list[tuple[float, float]], usual: float) -> float:
    top = max(share for share, _ in pairs)
    good = [value for share, value in pairs if share >= top - EVEN]
    return min(good, key=lambda value: abs(value - usual))


@dataclass(frozen=True, slots=True)
class Changes:
    """What each change of plane or throw does.

    Attributes:
        throttle: Stick at which they were compared. [-]
        share: That flies away there as it is. [-]
        moved: Whether another throttle was taken, because nearly all or none fly at the asked one.
        outcomes: Largest gain first.
    """

    throttle: float
    share: float
    moved: bool
    outcomes: tuple[Outcome, ...]


def what_helps(
    make: Maker, launch: Launch, builds: Flaws, *, seed: int, workers: int | None = None
) -> Changes:
    """Which change helps most, each alone, by flying the same throws again.

    Where nearly all or none fly away, the throttle is taken at which the share is nearest a half.

    Args:
        make: Makes a craft of flaws. [-]
        launch: The throw. [-]
        builds: One a throw. [-]
        seed: Of the random numbers. [-]
        workers: Processes. [-]

    Returns:
        Every change, best first.

    Source:
        `outcomes_of`.

    Example:
        >>> what_helps(plane.flawed, launch, builds, seed=1).outcomes[0].gain  # doctest: +SKIP
        0.2
    """
    tries = [Variant("as it is"), *[Variant("", throttle=t) for t in SEARCH]]
    few = _some(builds, FEW)
    shares = outcomes_of(make, launch, few, tries, seed=seed, workers=workers)
    inside = TELLING[0] <= shares[0].share <= TELLING[1]
    stick = launch.throttle
    if not inside:
        stick = SEARCH[int(np.argmin([abs(o.share - 0.5) for o in shares[1:]]))]
    here = replace(launch, throttle=stick)
    found = outcomes_of(
        make, here, builds, [Variant("as it is"), *CHANGES], seed=seed, workers=workers
    )
    return Changes(
        throttle=stick,
        share=found[0].share,
        moved=not inside,
        outcomes=tuple(sorted(found[1:], key=lambda o: -o.gain)),
    )


@dataclass(frozen=True, slots=True)
class OutcomeMap:
    """Shares over throw speed and throttle.

    Attributes:
        speeds: Of the throw. [m/s]
        throttles: [-]
        shares: (speed, throttle): that flew away. [-]
        ends: (speed, throttle, end): every end's share, in the order of ENDS. [-]
    """

    speeds: Array
    throttles: Array
    shares: Array
    ends: Array


def outcome_map(
    make: Maker,
    launch: Launch,
    builds: Flaws,
    *,
    seed: int,
    speeds: Array | None = None,
    throttles: Array | None = None,
    workers: int | None = None,
) -> OutcomeMap:
    """How throws end over throw speed and throttle.

    Args:
        make: Makes a craft of flaws. [-]
        launch: The throw. [-]
        builds: One a throw of each square. [-]
        seed: Of the random numbers. [-]
        speeds: Of the throw; None takes 3 to 10 m/s. [m/s]
        throttles: None takes 0 to 1. [-]
        workers: Processes. [-]

    Returns:
        The map.

    Source:
        `throw_these`, the same luck in every square.

    Example:
        >>> outcome_map(plane.flawed, launch, builds, seed=1).shares.shape  # doctest: +SKIP
        (8, 9)
    """
    fast = np.arange(3.0, 10.1, 1.0) if speeds is None else np.asarray(speeds, dtype=float)
    stick = np.linspace(0.0, 1.0, 9) if throttles is None else np.asarray(throttles, dtype=float)
    count, squares = builds.count, len(fast) * len(stick)
    luck, releases = _same(make(NO_FLAWS), launch, count, seed, squares)
    factor = np.repeat(np.repeat(fast, len(stick)), count) / (
        launch.thrower.speed + launch.thrower.run_up
    )
    releases = replace(releases, speed=releases.speed * factor)
    thrown = throw_these(
        make(_rows([builds.spread()] * squares)),
        launch,
        releases,
        np.repeat(np.tile(stick, len(fast)), count),
        luck=luck,
        trace=False,
        workers=workers,
    )
    ends = thrown.end.reshape(len(fast), len(stick), count)
    shares = np.stack([(ends == k).mean(axis=2) for k in range(len(ENDS))], axis=2)
    return OutcomeMap(fast, stick, shares[:, :, AWAY], shares)
