"""Heights and distances in the air, as a pilot says them."""

from foamwright.core.unit_table import FOOT


def distance_words(value: float, units: str) -> str:
    """A height or a distance in metres or feet.

    Args:
        value: [m]
        units: "metric" or "inch". [-]

    Returns:
        Words, such as "6.2 m" or "20 ft".

    Source:
        Definition.

    Example:
        >>> distance_words(6.2, "metric"), distance_words(6.2, "inch")
        ('6.2 m', '20 ft')
    """
    number, unit = (value / FOOT, "ft") if units == "inch" else (value, "m")
    return f"{number:.1f} {unit}" if abs(number) < 9.95 else f"{number:.0f} {unit}"
