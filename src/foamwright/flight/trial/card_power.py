"""Rows of the card about speed, throttle and pitch."""

import math

from foamwright.flight.trial import limits
from foamwright.flight.trial.flown import Flown
from foamwright.flight.trial.model import Figure, Manoeuvre
from foamwright.flight.trial.words import Words, side


def trim_row(flown: Flown, build: int, words: Words) -> Manoeuvre:
    """Trims at three speeds.

    Args:
        flown: All that was flown. [-]
        build: Which. [-]
        words: Units. [-]

    Returns:
        The row.

    Source:
        steady.py.

    Example:
        >>> trim_row(flown, 0, Words("metric")).name
        'trims'
    """
    figures: list[Figure] = []
    cannot: list[str] = []
    for name, trim in zip(("slow", "cruise", "fast"), flown.steady.trims, strict=True):
        good = bool(trim.found[build])
        for title, values, dimension in (
            ("speed", trim.speed, "speed"),
            ("throttle", trim.throttle, "share"),
            ("elevator up", trim.elevator, "angle"),
            ("aileron right" if flown.setting.rolls else "rudder right",
             trim.aileron if flown.setting.rolls else trim.rudder, "angle"),
        ):  # fmt: skip
            value = float(values[build]) if good or title == "speed" else None
            figures.append(Figure(f"{name}: {title}", value, dimension))
        if not good:
            cannot.append(name)
    seen = _trim_words(flown, build, words)
    if cannot:
        seen += f" Level flight {' and '.join(cannot)} needs more stick than there is."
    return Manoeuvre(
        "trims", "Trim at three speeds", tuple(figures), seen, _pitch_feel(flown, build)
    )


def _trim_words(flown: Flown, build: int, words: Words) -> str:
    slow, cruise, fast = flown.steady.trims
    if not (slow.found[build] and fast.found[build]):
        return f"Cruise is {words.speed(float(cruise.speed[build]))}."
    change = float(slow.elevator[build] - fast.elevator[build])
    way = "up" if change > 0.0 else "down"
    return (
        f"From {words.speed(float(fast.speed[build]))} to {words.speed(float(slow.speed[build]))} "
        f"the elevator goes {words.angle(change)} {way}, the throttle from "
        f"{100 * float(fast.throttle[build]):.0f} to {100 * float(slow.throttle[build]):.0f} %."
    )


def _pitch_feel(flown: Flown, build: int) -> dict[str, str]:
    slow, _, fast = flown.steady.trims
    drawn = flown.setting
    up, down = float(drawn.drawn.travel[2]), float(drawn.drawn.travel[3])

    def elevator(stick: float) -> float:
        return stick * (up if stick > 0.0 else down)

    own = float(slow.elevator[build] - fast.elevator[build])
    usual = elevator(float(drawn.slow.sticks[0, 2])) - elevator(float(drawn.fast.sticks[0, 2]))
    if not (slow.found[build] and fast.found[build]) or usual <= 1e-4:
        return {}
    answers = ("twitchy", "good", "soggy")
    return {"pitch_feel": limits.three(own / usual, (limits.TWITCHY, limits.SOGGY), answers)}


def opened_row(flown: Flown, build: int, words: Words) -> Manoeuvre:
    """Throttle opened.

    Args:
        flown: All that was flown. [-]
        build: Which. [-]
        words: Units. [-]

    Returns:
        The row.

    Source:
        let_go.py.

    Example:
        >>> opened_row(flown, 0, Words("metric")).name
        'power on'
    """
    found = flown.opened
    swing, pitch = float(found.swing[build]), float(found.pitch[build])
    path, height = float(found.path[build]), float(found.height[build])
    ticks = {
        "yaw_power": limits.three(swing, (-limits.SWING, limits.SWING), ("left", "none", "right")),
        "power_on": "climbs hard"
        if pitch > limits.CLIMBS_HARD
        else "dives"
        if path < limits.DIVES_WITH_POWER
        else "climbs gently",
    }
    did = {
        "climbs hard": f"the nose rears up {words.angle(pitch)} and it climbs {words.far(height)}",
        "climbs gently": f"it climbs {words.far(max(height, 0.0))}",
        "dives": f"the nose drops and it loses {words.far(max(-height, 0.0))}",
    }[ticks["power_on"]]
    seen = f"Open the throttle by a quarter of the stick from level flight: in 3 s {did}"
    if ticks["yaw_power"] != "none":
        seen += f", and the nose swings {words.angle(swing)} to the {side(swing)}"
    return Manoeuvre(
        "power on",
        "Throttle opened, hands off",
        (
            Figure("nose rises", pitch, "angle"),
            Figure("height after 3 s", height, "distance"),
            Figure("nose swings right", swing, "angle"),
        ),
        seen + ".",
        ticks,
    )


def closed_row(flown: Flown, build: int, words: Words) -> Manoeuvre:
    """Throttle closed.

    Args:
        flown: All that was flown. [-]
        build: Which. [-]
        words: Units. [-]

    Returns:
        The row.

    Source:
        let_go.py.

    Example:
        >>> closed_row(flown, 0, Words("metric")).name
        'power off'
    """
    found = flown.closed
    drop, time = float(found.drop[build]), float(found.time[build])
    steepest, first = float(found.steepest[build]), float(found.first[build])
    glide = float(flown.setting.glide.path[0])
    if first > limits.NOSES_UP:
        tick, how = "noses up", f"the nose comes up {words.angle(first)} first"
    elif steepest - glide < limits.DIVES_WHEN_CUT:
        tick, how = "dives", f"it dives, {words.angle(steepest)} down"
    else:
        tick, how = "glides", f"it drops {words.far(drop)} before it glides, {time:.0f} s later"
    return Manoeuvre(
        "power off",
        "Throttle closed, pitch let go",
        (
            Figure("height lost until it glides", drop, "distance"),
            Figure("time until it glides", time, "time"),
            Figure("steepest path", steepest, "angle"),
        ),
        f"Cut the throttle in level flight and {how}.",
        {"power_off": tick},
    )


def dive_row(flown: Flown, build: int, words: Words) -> Manoeuvre:
    """The dive test.

    Args:
        flown: All that was flown. [-]
        build: Which. [-]
        words: Units. [-]

    Returns:
        The row.

    Source:
        let_go.py.

    Example:
        >>> dive_row(flown, 0, Words("metric")).name
        'dive'
    """
    found = flown.dive
    change, load = float(found.change[build]), float(found.load[build])
    lost = float(found.lost[build])
    if change < limits.TUCKS:
        tick, seen = "tucks under", "Let go in a dive it steepens: the CG is too far aft. Pull out"
    elif change < limits.HOLDS:
        tick, seen = "holds", "Let go in a dive it holds the angle, hardly coming out by itself"
    elif change < limits.PULLS_HARD:
        tick = "eases out"
        seen = f"Let go in a dive it eases out by itself and is level {words.far(lost)} lower"
    else:
        tick = "pulls out hard"
        seen = f"Let go in a dive it pulls out hard, {load:.1f} g, level {words.far(lost)} lower"
    return Manoeuvre(
        "dive",
        "Dive of 30° at twice the stall speed, let go",
        (
            Figure("path rises within 2 s", change, "angle"),
            Figure("load factor", load, "ratio"),
            Figure("height lost until level", lost, "distance"),
        ),
        seen + ".",
        {"dive_test": tick},
    )


def waves_row(flown: Flown, build: int, words: Words) -> Manoeuvre:
    """What a push starts.

    Args:
        flown: All that was flown. [-]
        build: Which. [-]
        words: Units. [-]

    Returns:
        The row.

    Source:
        let_go.py.

    Example:
        >>> waves_row(flown, 0, Words("metric")).name
        'waves'
    """
    found = flown.waves
    period, kept = float(found.period[build]), float(found.kept[build])
    wag_period, wag = float(found.wag_period[build]), float(found.wag_kept[build])
    tick = "flies on"
    seen = "Nudged nose up it comes back"
    if math.isfinite(period):
        seen += (
            f" in waves of {words.seconds(period)}, {100 * min(kept, 9.99):.0f} % left each time"
        )
        if kept > limits.SLOW_WAVES:
            tick = "goes in slow waves"
    else:
        seen += " without waves"
    if wag > limits.WAGS:
        tick = "wags its tail"
        seen += f"; nudged sideways the tail wags on, {words.seconds(wag_period)} each"
    return Manoeuvre(
        "waves",
        "Left alone after a nudge",
        (
            Figure("slow wave", period if math.isfinite(period) else None, "time"),
            Figure("left after one wave", kept if math.isfinite(kept) else None, "share"),
            Figure("tail wag", wag_period if math.isfinite(wag_period) else None, "time"),
            Figure("left after one wag", wag, "share"),
        ),
        seen + ".",
        {"waves": tick},
    )


def slow_row(flown: Flown, build: int, words: Words) -> Manoeuvre:
    """Slow flight, and the climb.

    Args:
        flown: All that was flown. [-]
        build: Which. [-]
        words: Units. [-]

    Returns:
        The row.

    Source:
        steady.py; the climb from the performance room, its power scaled by the build's.

    Example:
        >>> slow_row(flown, 0, Words("metric")).name
        'slow'
    """
    speed = float(flown.steady.slowest[build])
    stick = float(flown.steady.slowest_throttle[build])
    climb = float(flown.climb[build])
    rows = [Figure("slowest level flight", speed if math.isfinite(speed) else None, "speed")]
    if math.isfinite(speed):
        seen = (
            f"Slowed down it still holds height at {words.speed(speed)} with the throttle at "
            f"{100 * stick:.0f} %"
        )
        rows.append(Figure("throttle there", stick, "share"))
    else:
        seen = "It does not hold height slowly"
    rows.append(Figure("best climb at full power", climb, "speed"))
    answers = ("poor", "good", "very strong")
    tick = limits.three(climb, (limits.POOR_CLIMB, limits.STRONG_CLIMB), answers)
    return Manoeuvre(
        "slow",
        "Slow flight, and full power",
        tuple(rows),
        f"{seen}; at full power it climbs {words.speed(climb)}.",
        {"climb": tick},
    )


def glide_row(flown: Flown, build: int, words: Words, told: float | None) -> Manoeuvre:
    """The glide against what the card tells.

    Args:
        flown: All that was flown. [-]
        build: Which. [-]
        words: Units. [-]
        told: Ratio on the field card; None takes the drawn plane's own. [-]

    Returns:
        The row.

    Source:
        steady.py.

    Example:
        >>> glide_row(flown, 0, Words("metric"), None).name
        'glide'
    """
    ratio, speed = float(flown.steady.glide[build]), float(flown.steady.glide_speed[build])
    usual = flown.glide_drawn if told is None else told
    answers = ("like a brick", "as told", "flatter")
    tick = limits.three(ratio / usual, (limits.POOR_GLIDE, limits.FLAT_GLIDE), answers)
    seen = f"Power off from {words.far(30.0)} it reaches {words.far(30.0 * ratio)} in calm air"
    if tick != "as told":
        seen += f", where the card tells {words.far(30.0 * usual)}"
    return Manoeuvre(
        "glide",
        "Glide",
        (
            Figure("best glide ratio", ratio, "ratio"),
            Figure("at", speed if math.isfinite(speed) else None, "speed"),
        ),
        seen + ".",
        {"glide": tick},
    )
