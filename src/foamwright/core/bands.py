"""Values that are known only between limits."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Band:
    """A quantity with its low, typical and high value, in SI.

    Attributes:
        low: About one build in ten lies below.
        typical: The value used when one number is wanted.
        high: About one build in ten lies above.
        source: Publication, "common practice", "measured" or "assumed".
    """

    low: float
    typical: float
    high: float
    source: str = "assumed"

    @classmethod
    def exact(cls, value: float, source: str = "measured") -> "Band":
        """Return a band of no width around a measured value.

        Args:
            value: The measured value, SI. [any]
            source: Where it came from.

        Returns:
            Band with low = typical = high.

        Source:
            Definition.

        Example:
            >>> Band.exact(0.118).high
            0.118
        """
        return cls(value, value, value, source)
