"""The sentences of the card: what a builder at the field would see, with its numbers."""

import math
from collections.abc import Callable

from foamwright.core.units import format_value
from foamwright.flight.distance import distance_words
from foamwright.flight.notes import ROOT, TIP

type Say = Callable[[float], str]


class Words:
    """Numbers in the builder's units."""

    def __init__(self, units: str) -> None:
        """Args: units "metric" or "inch" [-]."""
        self.units = units

    def speed(self, value: float) -> str:
        """A speed [m/s]."""
        return format_value(value, "speed", self.units)

    def far(self, value: float) -> str:
        """A height or distance [m]."""
        return distance_words(value, self.units)

    @staticmethod
    def angle(value: float) -> str:
        """An angle [rad] to whole degrees."""
        return f"{abs(math.degrees(value)):.0f}°"

    @staticmethod
    def seconds(value: float) -> str:
        """A time [s]."""
        return f"{value:.1f} s"


def side(value: float) -> str:
    """Left or right of a signed number.

    Args:
        value: Right positive. [any]

    Returns:
        A word.

    Source:
        Definition.

    Example:
        >>> side(-0.2)
        'left'
    """
    return "right" if value > 0.0 else "left"


def where_on_wing(place: float) -> str:
    """Part of a wing half.

    Args:
        place: Share of the half span. [-]

    Returns:
        Words.

    Source:
        Definition.

    Example:
        >>> where_on_wing(0.9)
        'at the tip'
    """
    if not math.isfinite(place):
        return "nowhere"
    if place > TIP:
        return "at the tip"
    return "near the root" if place < ROOT else "half way out"
