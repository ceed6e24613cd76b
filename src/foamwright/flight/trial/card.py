"""The test flight on paper: what the builder would see, in numbers, sentences and ticks."""

from foamwright.flight.trial import card_ground, card_power, card_turns
from foamwright.flight.trial.flown import Flown
from foamwright.flight.trial.model import Manoeuvre, TestFlight
from foamwright.flight.trial.words import Words

NOTES = (
    "Flown in still air by a script. Rolls are let go as drawn, before any trim; everything after "
    "that is flown by a pilot who has trimmed level flight.",
    "Heat after landing is not flown here: `foamwright prop` and a bench run tell it.",
    "A simulation is no clearance to fly near people.",
)


def told(
    flown: Flown, build: int = 0, *, units: str = "metric", glide: float | None = None
) -> TestFlight:
    """One build's test flight in numbers, sentences and ticks.

    Args:
        flown: All that was flown. [-]
        build: Which build. [-]
        units: "metric" or "inch". [-]
        glide: Ratio that the field card tells; None takes the drawn plane's. [-]

    Returns:
        The card, filled in.

    Source:
        limits.py for the ticks.

    Example:
        >>> told(flown).ticks["stall"]
        'mushes straight'
    """
    words = Words(units)
    rows: list[Manoeuvre] = [
        card_ground.toss_row(flown, build, words),
        card_ground.launch_row(flown, build, words),
        card_power.trim_row(flown, build, words),
        card_turns.let_go_row(flown, build, words),
        card_power.opened_row(flown, build, words),
        card_power.closed_row(flown, build, words),
        card_turns.stall_row(flown, build, words),
        card_turns.turning_row(flown, build, words),
        card_power.dive_row(flown, build, words),
        card_turns.rolling_row(flown, build, words),
        card_power.waves_row(flown, build, words),
        card_power.slow_row(flown, build, words),
        card_power.glide_row(flown, build, words, glide),
        card_ground.landing_row(flown, build, words),
    ]
    ticks: dict[str, str] = {}
    for row in rows:
        ticks.update(row.ticks)
    return TestFlight(tuple(rows), ticks, NOTES)
