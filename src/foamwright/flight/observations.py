"""What a pilot ticks after a flight; the field card prints it, the logbook takes it in."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Observation:
    """One question of the test-flight card.

    Attributes:
        key: As in the logbook.
        question: On the card.
        answers: To tick one of, the good one named good.
        good: The answer of a plane that needs nothing.
    """

    key: str
    question: str
    answers: tuple[str, ...]
    good: str


SIDES = ("left", "none", "right")
# The rows follow the symptoms that builders describe; common practice, no source.
OBSERVATIONS = (
    Observation(
        "launch",
        "At launch it",
        ("flew", "sank", "nosed down", "pitched up", "rolled left", "rolled right"),
        "flew",
    ),
    Observation("roll_slow", "Slow, hands off: rolls", SIDES, "none"),
    Observation("roll_fast", "Fast, hands off: rolls", SIDES, "none"),
    Observation("roll_glide", "Power off: rolls", SIDES, "none"),
    Observation("yaw_power", "Power on: the nose swings", SIDES, "none"),
    Observation(
        "power_on",
        "Throttle opened: it",
        ("climbs hard", "climbs gently", "dives"),
        "climbs gently",
    ),
    Observation("power_off", "Throttle closed: it", ("dives", "glides", "noses up"), "glides"),
    Observation(
        "dive_test",
        "Shallow dive, stick free: it",
        ("tucks under", "holds", "eases out", "pulls out hard"),
        "eases out",
    ),
    Observation("pitch_feel", "Elevator feels", ("twitchy", "good", "soggy"), "good"),
    Observation("roll_feel", "Turning in feels", ("twitchy", "good", "soggy"), "good"),
    Observation(
        "stall",
        "Stall, power off: it",
        ("mushes straight", "drops left", "drops right"),
        "mushes straight",
    ),
    Observation(
        "waves", "Left alone it", ("flies on", "goes in slow waves", "wags its tail"), "flies on"
    ),
    Observation("climb", "Climb at full power", ("poor", "good", "very strong"), "good"),
    Observation("glide", "The glide is", ("like a brick", "as told", "flatter"), "as told"),
    Observation(
        "after",
        "After landing",
        ("all cool", "motor hot", "controller hot", "pack hot"),
        "all cool",
    ),
)
