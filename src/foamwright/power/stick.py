"""From duty ratio to the throttle stick, as a usual controller maps them."""

IDLE_DUTY = 0.105  # duty that the straight line reaches at stick zero
DUTY_PER_STICK = 0.895  # slope of the line; both from [BENCH-5IN], one controller, see docs


def stick_of(duty: float) -> float:
    """Throttle stick position that gives a duty ratio.

    stick = (duty - 0.105)/0.895: a controller starts with a kick at the bottom of the stick.

    Args:
        duty: Duty ratio, 0 to 1. [-]

    Returns:
        Stick, 0 (closed) to 1 (full). [-]

    Valid:
        One controller, stick 0.33 to 1; others differ by some hundredths.

    Source:
        Line through the implied duty at three stick positions of [BENCH-5IN].

    Example:
        >>> round(stick_of(0.5), 2)
        0.44
    """
    return max((duty - IDLE_DUTY) / DUTY_PER_STICK, 0.0)


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
        >>> round(duty_of(0.44), 2)
        0.5
    """
    return 0.0 if stick <= 0.0 else min(IDLE_DUTY + DUTY_PER_STICK * stick, 1.0)
