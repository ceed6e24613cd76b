"""From numbers to the ticks of the test card; what a pilot can tell apart, common practice."""

ROLL = 0.10  # rad/s, 6 degrees a second
SWING = 0.14  # rad, 8 degrees of heading after opening the throttle
CLIMBS_HARD = 0.60  # rad that the nose rises within three seconds
DIVES_WITH_POWER = -0.02  # rad, path three seconds later
DIVES_WHEN_CUT = -0.17  # rad, path below that of the glide
NOSES_UP = 0.04  # rad in the first second after cutting
TUCKS, HOLDS, PULLS_HARD = -0.05, 0.20, 0.74  # rad that the path rises in a dive within two seconds
WING_DROP = 0.35  # rad within a second after the break
SLOW_WAVES, WAGS = 0.35, 0.50  # share left after one wave, after one wag
QUICK_ROLL, SLOW_ROLL = 0.35, 1.60  # s for 60 degrees
TWITCHY, SOGGY = 0.5, 1.8  # elevator for a change of speed, over the drawn one
POOR_CLIMB, STRONG_CLIMB = 1.5, 7.0  # m/s
POOR_GLIDE, FLAT_GLIDE = 0.80, 1.20  # over what the card tells
LAUNCH_PITCH = 0.7  # rad, 40 degrees nose up in the first second and a half
LAUNCH_BANK = 0.87  # rad, 50 degrees: a pilot calls it a roll
HARD_LANDING = 1.2  # m/s of sink


def three(value: float, limits: tuple[float, float], answers: tuple[str, str, str]) -> str:
    """One of three answers by two limits.

    Args:
        value: The number. [any]
        limits: Rising. [as value]
        answers: Below, between, above. [-]

    Returns:
        The answer.

    Source:
        Definition.

    Example:
        >>> three(0.2, (-0.1, 0.1), ("left", "none", "right"))
        'right'
    """
    if value < limits[0]:
        return answers[0]
    return answers[2] if value > limits[1] else answers[1]


def rolls_to(value: float) -> str:
    """Side that a pilot sees it roll to.

    Args:
        value: Roll rate, right. [rad/s]

    Returns:
        "left", "none" or "right".

    Source:
        ROLL.

    Example:
        >>> rolls_to(-0.3)
        'left'
    """
    return three(value, (-ROLL, ROLL), ("left", "none", "right"))
