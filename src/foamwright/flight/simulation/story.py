"""What many throws tell: shares, how the others end, and what set them apart."""

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from foamwright.flight.simulation.craft import Craft
from foamwright.flight.simulation.throws import AWAY, ENDS, RAN_AWAY, ROLLED, Thrown, share_interval

type Array = NDArray[np.float64]

LOW = 0.5  # m, a launch that came lower than this was a near thing
LEANED = math.radians(45.0)  # so was one that banked more than this
CLEAR = 0.45  # standard deviations between those that failed and those that flew that count
FEW = 8  # fewer ends of a kind say nothing about their cause


@dataclass(frozen=True, slots=True)
class Cause:
    """One thing in which the failed throws differ from those that flew away.

    Attributes:
        name: "airspeed", "nose", "bank", ...
        failed: Mean of those that ended so. [any]
        flew: Mean of those that flew away. [any]
        apart: Difference over the spread of all. [-]
    """

    name: str
    failed: float
    flew: float
    apart: float


@dataclass(frozen=True, slots=True)
class End:
    """One way to end.

    Attributes:
        name: One of ENDS.
        count: Throws. [-]
        share: Of all. [-]
        time: After the release, middle one. [s]
        distance: From the hand, middle one. [m]
        left: Share that banked left most. [-]
        causes: What set them apart, strongest first.
    """

    name: str
    count: int
    share: float
    time: float
    distance: float
    left: float
    causes: tuple[Cause, ...]


@dataclass(frozen=True, slots=True)
class Story:
    """What the throws tell.

    Attributes:
        count: Throws. [-]
        share: That flew away. [-]
        low: Lower end of its 95 % interval. [-]
        high: Upper end. [-]
        clean: Share that flew away, never below half a metre nor banked beyond 45 deg. [-]
        ends: Every way to end that came up, most frequent first.
        airspeed: At the release, mean. [m/s]
        stall_speed: Of the design. [m/s]
        lowest: Height of the lowest point on the way that nine of ten stay above. [m]
        height: After the flight, middle one of those that flew away; 0 where none did. [m]
        distance: From the hand, middle one of all. [m]
        torque_roll: Rolling acceleration by the propeller's torque at the release, left. [rad/s²]
        deficit: Stall speed less airspeed at the release, mean, not below 0. [m/s]
        pull: Thrust over weight at the release, mean. [-]
    """

    count: int
    share: float
    low: float
    high: float
    clean: float
    ends: tuple[End, ...]
    airspeed: float
    stall_speed: float
    lowest: float
    height: float
    distance: float
    torque_roll: float
    deficit: float
    pull: float


def clean_of(thrown: Thrown) -> NDArray[np.bool_]:
    """Which throws flew away without a near thing.

    Args:
        thrown: The throws. [-]

    Returns:
        One a throw. [-]

    Source:
        Definition.

    Example:
        >>> from foamwright.flight.simulation.thrower import thrower_for
        >>> from foamwright.flight.simulation.throws import Launch, throw
        >>> clean_of(throw(plane.craft, Launch(thrower_for(0.65)), 20, 1)).shape
        (20,)
    """
    tame = (thrown.lowest > LOW) & (np.abs(thrown.bank) < LEANED)
    return (thrown.end == AWAY) & tame


def story_of(craft: Craft, thrown: Thrown) -> Story:
    """Sum up many throws.

    Args:
        craft: What was thrown: one build, or one a throw. [-]
        thrown: What became of them. [-]

    Returns:
        The story.

    Source:
        Wilson's interval; causes by the difference of means over the spread.

    Example:
        >>> from foamwright.flight.simulation.thrower import thrower_for
        >>> from foamwright.flight.simulation.throws import Launch, throw
        >>> thrown = throw(plane.craft, Launch(thrower_for(0.65)), 20, 1)
        >>> story_of(plane.craft, thrown).count
        20
    """
    count = len(thrown.end)
    away = thrown.end == AWAY
    low, high = share_interval(int(away.sum()), count)
    kinds = [k for k in range(len(ENDS)) if (thrown.end == k).any()]
    ends = [_end(craft, thrown, k) for k in kinds]
    pull, torque = _push(craft, thrown)
    weight = craft.builds.mass * 9.80665
    return Story(
        count=count,
        share=float(away.mean()),
        low=low,
        high=high,
        clean=float(clean_of(thrown).mean()),
        ends=tuple(sorted(ends, key=lambda e: -e.count)),
        airspeed=float(thrown.airspeed.mean()),
        stall_speed=craft.stall_speed,
        lowest=float(np.quantile(thrown.lowest, 0.1)),
        height=float(np.median(thrown.final_height[away])) if away.any() else 0.0,
        distance=float(np.median(thrown.distance)),
        torque_roll=float((torque / craft.builds.inertia[:, 0, 0]).mean()),
        deficit=max(craft.stall_speed - float(thrown.airspeed.mean()), 0.0),
        pull=float((pull / weight).mean()),
    )


def _push(craft: Craft, thrown: Thrown) -> tuple[Array, Array]:
    from foamwright.flight.simulation.propulsion import thrust_from

    count = len(thrown.end)
    push = thrust_from(
        craft.thrust,
        thrown.airspeed,
        thrown.throttle,
        depth=np.zeros(count),
        resistance_factor=np.broadcast_to(craft.builds.pack_factor, (count,)),
    )
    kept = craft.screw.torque_kept * craft.screw.swirl
    return push[:, 0] * craft.builds.motor_factor, push[:, 1] * kept * craft.builds.motor_factor


def _end(craft: Craft, thrown: Thrown, kind: int) -> End:
    mine = thrown.end == kind
    away = thrown.end == AWAY
    causes: tuple[Cause, ...] = ()
    if kind not in (AWAY, RAN_AWAY) and mine.sum() >= FEW and away.sum() >= FEW:
        causes = _causes(craft, thrown, mine, away, turned=kind == ROLLED)
    return End(
        name=ENDS[kind],
        count=int(mine.sum()),
        share=float(mine.mean()),
        time=float(np.median(thrown.ended[mine])),
        distance=float(np.median(thrown.distance[mine])),
        left=float((thrown.bank[mine] < 0.0).mean()),
        causes=causes,
    )


def _causes(
    craft: Craft,
    thrown: Thrown,
    mine: NDArray[np.bool_],
    away: NDArray[np.bool_],
    *,
    turned: bool,
) -> tuple[Cause, ...]:
    r, f = thrown.releases, craft.flaws
    looks = {
        "airspeed": thrown.airspeed,
        "way of the hand": r.angle,
        "nose above the way": r.attack,
        "pitching by the hand": r.rates[:, 1],
        "height of the hand": r.height,
    }
    if turned:
        looks["bank"] = np.abs(r.bank)
        looks["rolling by the hand"] = np.abs(r.rates[:, 0])
    if craft.count > 1:
        looks |= {
            "elevator": np.asarray(f.elevator_neutral),
            "balance aft": np.asarray(f.cg_shift_aft),
            "mass": np.asarray(f.mass_factor),
            "thrust": np.asarray(f.motor_factor),
            "drag": np.asarray(f.drag_factor),
            "down thrust": np.asarray(f.thrust_down_error),
        }
        if turned:
            looks["warp"] = np.abs(np.asarray(f.left_twist) - np.asarray(f.right_twist))
            looks["aileron"] = np.abs(np.asarray(f.aileron_neutral))
    found: list[Cause] = []
    for name, values in looks.items():
        spread = float(values.std())
        if spread < 1e-9:
            continue
        failed, flew = float(values[mine].mean()), float(values[away].mean())
        apart = (failed - flew) / spread
        if abs(apart) >= CLEAR:
            found.append(Cause(name, failed, flew, apart))
    return tuple(sorted(found, key=lambda c: -abs(c.apart))[:3])
