"""What a foam hinge keeps of the ideal flap: gap, and separation at large deflections."""

import numpy as np

SEALED = 0.80  # real over ideal effectiveness, small sealed surfaces; McCormick (from memory)
OPEN_LOSS = 0.15  # more lost by a gap of half a board (1.5 % of the chord); assumed, +-0.07
OPEN_GAP = 0.015  # gap over chord of an unsealed bevelled foam hinge; assumed
# Plain flaps hold to about 12 degrees, then separate: share of the linear effect left.
# Read off handbook curves for flaps of 25 to 30 % chord (from memory), +-0.07.
TURNS = (0.0, 0.21, 0.35, 0.52, 0.70, 1.05)
KEPT = (1.0, 1.0, 0.82, 0.67, 0.58, 0.45)


def hinge_share(gap_ratio: float) -> float:
    """Share of the ideal flap effectiveness that a hinge with a gap keeps.

    0.80 sealed; 0.15 less for a gap of 1.5 % of the chord, in proportion, 0.30 less at most.

    Args:
        gap_ratio: Open gap over chord; 0 sealed. [-]

    Returns:
        Share. [-]

    Valid:
        Plain flaps, deflections below 12 degrees, gap 0 to 3 % of the chord; more gap is held at
        that of 3 %.

    Source:
        McCormick (from memory) for sealed small surfaces; the gap's cost is assumed, +-0.07.

    Example:
        >>> round(hinge_share(0.015), 2)
        0.65
    """
    return SEALED - OPEN_LOSS * min(max(gap_ratio, 0.0) / OPEN_GAP, 2.0)


def turn_share(deflection: float) -> float:
    """Share of the linear effect that a plain flap keeps at a large deflection.

    Args:
        deflection: Either way. [rad]

    Returns:
        1 up to 12 degrees, about 0.67 at 30, 0.45 at 60. [-]

    Valid:
        Plain flaps of 20 to 45 % chord; beyond 60 degrees the last value is held.

    Source:
        Handbook curves of plain flaps (from memory), +-0.07.

    Example:
        >>> turn_share(0.1), round(turn_share(-0.52), 2)
        (1.0, 0.67)
    """
    return float(np.interp(abs(deflection), TURNS, KEPT))


def worked_turn(deflection: float) -> float:
    """Deflection that a linear flap would need for the same effect.

    Args:
        deflection: As set. [rad]

    Returns:
        Smaller angle, same sign. [rad]

    Source:
        `turn_share`.

    Example:
        >>> round(worked_turn(0.52), 2)
        0.35
    """
    return deflection * turn_share(deflection)
