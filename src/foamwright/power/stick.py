"""From duty ratio to the throttle stick, as a usual controller maps them."""

import bisect

STICK = (0.0, 0.335, 0.525, 1.0)
DUTY = (
    0.12,
    0.405,
    0.556,
    1.0,
)  # implied by rpm and current of [BENCH-5IN]; the first is continued


def stick_of(duty: float) -> float:
    """Throttle stick position that gives a duty ratio.

    Straight between stick 0, 0.335, 0.525, 1 and duty 0.12, 0.405, 0.556, 1: a controller starts
    with a kick at the bottom of the stick.

    Args:
        duty: Duty ratio, 0 to 1. [-]

    Returns:
        Stick, 0 (closed) to 1 (full). [-]

    Valid:
        One controller, stick 0.33 to 1; others differ by some hundredths.

    Source:
        [BENCH-5IN], medians over 12 motors; reproduced in tests/validation/test_bench.py.

    Example:
        >>> round(stick_of(0.5), 2)
        0.45
    """
    return _between(duty, DUTY, STICK)


def duty_of(stick: float) -> float:
    """Duty ratio at a throttle stick position.

    Args:
        stick: 0 (closed) to 1 (full). [-]

    Returns:
        Duty ratio, 0 when the stick is closed. [-]

    Valid:
        As stick_of.

    Source:
        [BENCH-5IN].

    Example:
        >>> round(duty_of(0.45), 2)
        0.5
    """
    return 0.0 if stick <= 0.0 else _between(stick, STICK, DUTY)


def _between(value: float, places: tuple[float, ...], heights: tuple[float, ...]) -> float:
    if value <= places[0]:
        return heights[0] if places is STICK else 0.0
    if value >= places[-1]:
        return heights[-1]
    i = bisect.bisect_right(places, value) - 1
    share = (value - places[i]) / (places[i + 1] - places[i])
    return heights[i] + share * (heights[i + 1] - heights[i])
