"""Rows of the card near the ground: glide toss, launch, landing."""

from foamwright.flight.trial import limits
from foamwright.flight.trial.flown import Flown
from foamwright.flight.trial.model import Figure, Manoeuvre
from foamwright.flight.trial.words import Words, side

LEANS = 0.35  # rad that a pilot tells of
ASIDE = 0.12  # of the distance: not straight
RISES = 0.3  # m above the hand
DIVES = -0.26  # rad, 15 degrees down into the grass


def toss_row(flown: Flown, build: int, words: Words) -> Manoeuvre:
    """The glide toss.

    Args:
        flown: All that was flown. [-]
        build: Which. [-]
        words: Units. [-]

    Returns:
        The row.

    Source:
        near_ground.py.

    Example:
        >>> toss_row(flown, 0, Words("metric")).name
        'toss'
    """
    toss = flown.toss
    distance, aside = float(toss.distance[build]), float(toss.aside[build])
    ratio, rise = float(toss.ratio[build]), float(toss.rise[build])
    if rise > RISES:
        seen = (
            f"Tossed level it rises {words.far(rise)} above the hand before it comes down, "
            f"{words.far(distance)} ahead: tail-heavy, or trimmed nose up"
        )
    elif float(toss.steep[build]) < DIVES:
        seen = (
            f"It dives into the grass {words.far(distance)} ahead: nose-heavy, or trimmed nose down"
        )
    else:
        seen = f"It glides {words.far(distance)} from the hand and slides onto the grass"
    if abs(aside) > ASIDE * max(distance, 1.0):
        seen += f", {words.far(abs(aside))} to the {side(aside)}"
    return Manoeuvre(
        "toss",
        "Glide toss, motor off",
        (
            Figure("distance", distance, "distance"),
            Figure("to the right", aside, "distance"),
            Figure("time in the air", float(toss.time[build]), "time"),
            Figure("distance over height lost", ratio, "ratio"),
        ),
        seen + ".",
        {},
    )


def launch_row(flown: Flown, build: int, words: Words) -> Manoeuvre:
    """One throw as meant.

    Args:
        flown: All that was flown. [-]
        build: Which. [-]
        words: Units. [-]

    Returns:
        The row.

    Source:
        launching.py.

    Example:
        >>> launch_row(flown, 0, Words("metric")).name
        'launch'
    """
    launch = flown.launch
    tick, lowest = launch.tick[build], float(launch.lowest[build])
    airspeed = float(launch.airspeed[build])
    bank = float(launch.bank[build])
    leans = abs(bank) > LEANS and tick == "flew"
    leaning = f"leans {words.angle(bank)} to the {side(bank)} and " if leans else ""
    height = words.far(max(lowest, 0.0))
    ends = {
        "flew": f"{leaning}flies away; its lowest point is {height} above the grass",
        "sank": "sinks into the grass before it has flying speed",
        "nosed down": "noses over into the ground",
        "pitched up": "pitches up, stalls and drops",
    }
    seen = ends.get(tick, f"rolls {side(bank)} further than the hand catches")
    return Manoeuvre(
        "launch",
        "One throw as meant, no wind",
        (
            Figure("airspeed at the release", airspeed, "speed"),
            Figure("lowest point of the plane", max(lowest, 0.0), "distance"),
            Figure("largest bank", bank, "angle"),
        ),
        f"Thrown at {words.speed(airspeed)} with the throttle at 70 % it {seen}.",
        {"launch": tick},
    )


def landing_row(flown: Flown, build: int, words: Words) -> Manoeuvre:
    """The landing.

    Args:
        flown: All that was flown. [-]
        build: Which. [-]
        words: Units. [-]

    Returns:
        The row.

    Source:
        near_ground.py.

    Example:
        >>> landing_row(flown, 0, Words("metric")).name
        'landing'
    """
    found = flown.landing
    speed, sink = float(found.speed[build]), float(found.sink[build])
    far = float(found.float_distance[build])
    seen = (
        f"Flared from {words.far(1.2)} it floats {words.far(far)} and touches at "
        f"{words.speed(speed)}, sinking {words.speed(sink)}"
    )
    if sink > limits.HARD_LANDING:
        seen += ": a hard one"
        seen += "; the elevator was right back" if bool(found.full_stick[build]) else ""
    return Manoeuvre(
        "landing",
        "Landing, power off",
        (
            Figure("speed at touch-down", speed, "speed"),
            Figure("sink at touch-down", sink, "speed"),
            Figure("float from the flare", far, "distance"),
            Figure("nose up at touch-down", float(found.pitch[build]), "angle"),
        ),
        seen + ".",
        {},
    )
