"""Rows of the card about rolling, turning and stalling."""

from foamwright.flight.trial import limits
from foamwright.flight.trial.flown import Flown
from foamwright.flight.trial.model import Figure, Manoeuvre
from foamwright.flight.trial.stalls import Stall
from foamwright.flight.trial.words import Words, side, where_on_wing

ADVERSE = 0.07  # rad of swing that a pilot sees


def let_go_row(flown: Flown, build: int, words: Words) -> Manoeuvre:
    """Let go before any trim.

    Args:
        flown: All that was flown. [-]
        build: Which. [-]
        words: Units. [-]

    Returns:
        The row.

    Source:
        let_go.py.

    Example:
        >>> let_go_row(flown, 0, Words("metric")).name
        'let go'
    """
    found = flown.rolls
    values = {
        "roll_slow": float(found.slow[build]),
        "roll_fast": float(found.fast[build]),
        "roll_glide": float(found.glide[build]),
    }
    ticks = {key: limits.rolls_to(value) for key, value in values.items()}
    names = {"roll_slow": "slow", "roll_fast": "fast", "roll_glide": "gliding"}
    said = [
        f"{names[key]} {ticks[key]} at {words.angle(value)} a second"
        for key, value in values.items()
        if ticks[key] != "none"
    ]
    seen = f"Let go it rolls {', '.join(said)}." if said else "Let go it flies straight."
    return Manoeuvre(
        "let go",
        "Hands off before any trim",
        tuple(Figure(f"{names[key]}: rolls right", value, "rate") for key, value in values.items()),
        seen,
        ticks,
    )


def _stall_figures(found: Stall, build: int) -> tuple[Figure, ...]:
    return (
        Figure("speed at the break", float(found.speed[build]), "speed"),
        Figure("wing drops right", float(found.drop[build]), "angle"),
        Figure("height lost", float(found.lost[build]), "distance"),
    )


def _began(found: Stall, build: int) -> str:
    place, which = float(found.place[build]), float(found.side[build])
    where = where_on_wing(place)
    if where == "nowhere":
        return "no strip of the wing lets go"
    wings = "on both wings" if which == 0.0 else f"on the {side(which)} wing"
    return f"it begins {where} {wings}"


def stall_row(flown: Flown, build: int, words: Words) -> Manoeuvre:
    """The stall, wings level.

    Args:
        flown: All that was flown. [-]
        build: Which. [-]
        words: Units. [-]

    Returns:
        The row.

    Source:
        stalls.py.

    Example:
        >>> stall_row(flown, 0, Words("metric")).name
        'stall'
    """
    found = flown.straight
    speed, drop, lost = (float(v[build]) for v in (found.speed, found.drop, found.lost))
    answers = ("drops left", "mushes straight", "drops right")
    tick = limits.three(drop, (-limits.WING_DROP, limits.WING_DROP), answers)
    start = f"Pulled slowly it gives way at {words.speed(speed)}"
    if not bool(found.broke[build]) and tick == "mushes straight":
        start = f"With the stick right back it mushes at {words.speed(speed)}"
    how = "" if tick == "mushes straight" else f", {tick} {words.angle(drop)} within a second"
    seen = f"{start}{how}; {_began(found, build)}; {words.far(lost)} lost until it flies again."
    return Manoeuvre(
        "stall", "Stall, power off", _stall_figures(found, build), seen, {"stall": tick}
    )


def turning_row(flown: Flown, build: int, words: Words) -> Manoeuvre:
    """The stall in a turn.

    Args:
        flown: All that was flown. [-]
        build: Which. [-]
        words: Units. [-]

    Returns:
        The row.

    Source:
        stalls.py.

    Example:
        >>> turning_row(flown, 0, Words("metric")).name
        'turning stall'
    """
    found = flown.turning
    speed, drop, lost = (float(v[build]) for v in (found.speed, found.drop, found.lost))
    if abs(drop) < limits.WING_DROP:
        how = "stays at its bank"
    elif drop > 0.0:
        how = f"rolls {words.angle(drop)} further into the turn"
    else:
        how = f"rolls {words.angle(drop)} out of the turn, over the top"
    return Manoeuvre(
        "turning stall",
        "Stall in a right turn banked 45°",
        _stall_figures(found, build),
        f"Pulled in a 45° turn it gives way at {words.speed(speed)} and {how}; "
        f"{words.far(lost)} lost.",
        {},
    )


def rolling_row(flown: Flown, build: int, words: Words) -> Manoeuvre:
    """Rolling both ways.

    Args:
        flown: All that was flown. [-]
        build: Which. [-]
        words: Units. [-]

    Returns:
        The row.

    Source:
        rolling.py.

    Example:
        >>> rolling_row(flown, 0, Words("metric")).name
        'rolling'
    """
    found = flown.rolling
    right, left = float(found.right[build]), float(found.left[build])
    adverse = float(found.adverse[build])
    slower = max(right, left)
    answers = ("twitchy", "good", "soggy")
    tick = limits.three(slower, (limits.QUICK_ROLL, limits.SLOW_ROLL), answers)
    stick = "aileron" if flown.setting.rolls else "rudder"
    if not bool(found.reached[build]):
        seen = f"Full {stick} does not bring it from 30° one way to 30° the other within 5 s"
    else:
        seen = (
            f"Full {stick} rolls it from 30° to 30° in {words.seconds(right)} to the right, "
            f"{words.seconds(left)} to the left"
        )
    if adverse > ADVERSE:
        seen += f"; the nose swings {words.angle(adverse)} the wrong way first"
    return Manoeuvre(
        "rolling",
        f"Roll both ways, full {stick}",
        (
            Figure("30° to 30°, right", right, "time"),
            Figure("30° to 30°, left", left, "time"),
            Figure("nose the wrong way", adverse, "angle"),
        ),
        seen + ".",
        {"roll_feel": tick},
    )
