"""How sure a share is."""

import math


def share_interval(good: int, count: int, *, deviations: float = 1.96) -> tuple[float, float]:
    """Wilson's interval of a share.

    Centre (p + z²/2n)/(1 + z²/n), half width z sqrt(p(1 - p)/n + z²/4n²)/(1 + z²/n).

    Args:
        good: That held. [-]
        count: That were tried. [-]
        deviations: 1.96 for 95 %. [-]

    Returns:
        Lower and upper end. [-]

    Source:
        [WILSON-1927]; reproduced in tests/validation/test_flight_in_time.py.

    Example:
        >>> [round(x, 4) for x in share_interval(4, 20)]
        [0.0807, 0.416]
    """
    p, z2 = good / count, deviations * deviations
    centre = (p + 0.5 * z2 / count) / (1.0 + z2 / count)
    half = deviations * math.sqrt(p * (1.0 - p) / count + 0.25 * z2 / count**2)
    half /= 1.0 + z2 / count
    return max(centre - half, 0.0), min(centre + half, 1.0)
