"""What is written on a part, in the builder's units."""

import math
import re
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from foamwright.core.unit_table import INCH, OUNCE
from foamwright.core.units import format_value
from foamwright.parts.listing import group_key
from foamwright.parts.model import Part
from foamwright.sheets.model import Layout

FOOT = 0.3048  # m, exact by definition
COUNTED = re.compile(r"\d of \d")
FULL, MEDIUM, SHORT = "full", "medium", "short"


@dataclass(frozen=True, slots=True)
class PartWords:
    """Everything a part may carry, before it is known how much room there is.

    Attributes:
        name: Name with its side.
        count: "1 of 2"; "" when the name says it already.
        stock: Name of the stock.
        size: Overall length by width.
        notes: What the builder must know.
    """

    name: str
    count: str
    stock: str
    size: str
    notes: str

    @property
    def title(self) -> str:
        """Name and count on one line."""
        return " · ".join(word for word in (self.name, self.count) if word)


def length_words(length: float, units: str) -> str:
    """A length as the builder measures it: inches in fractions, to the nearest 1/32.

    Args:
        length: [m]
        units: "metric" or "inch". [-]

    Returns:
        Such as "235 mm" or "9 1/4 in". [-]

    Source:
        Definition.

    Example:
        >>> length_words(0.235, "metric"), length_words(0.0018, "inch")
        ('235 mm', '1/16 in')
    """
    if units == "inch" and INCH / 64 <= abs(length) < 20 * FOOT:
        length = round(length / INCH * 32) / 32 * INCH
    return format_value(length, "length", units)


def size_words(part: Part, units: str) -> str:
    """Overall length and width of a part, along and across its fold direction.

    Args:
        part: The part. [-]
        units: "metric" or "inch". [-]

    Returns:
        Such as "760 mm × 235 mm". [-]

    Source:
        Definition.

    Example:
        >>> size_words(part, "metric")
        '584 mm × 401 mm'
    """
    from foamwright.sheets.place import turned_size

    angle = math.atan2(part.fold_along[1], part.fold_along[0]) if part.fold_along else 0.0
    along, across = turned_size(part.outline, -angle)
    return f"{length_words(along, units)} × {length_words(across, units)}"


def part_words(parts: Sequence[Part], units: str) -> dict[str, PartWords]:
    """Words for every part: alike pieces are counted "1 of 2"; a name that counts is left alone.

    Args:
        parts: All parts of the plane. [-]
        units: "metric" or "inch". [-]

    Returns:
        Part id -> its words. [-]

    Source:
        Definition.

    Example:
        >>> part_words((), "metric")
        {}
    """
    totals = Counter(group_key(part) for part in parts)
    seen: Counter[tuple[object, ...]] = Counter()
    words: dict[str, PartWords] = {}
    for part in parts:
        group = group_key(part)
        seen[group] += 1
        side = f", {part.side}" if part.side and part.side not in part.name else ""
        alike = part.name in part.kind or part.kind in part.name
        counted = COUNTED.search(part.name) is not None
        words[part.id] = PartWords(
            name=part.name + side + ("" if alike else f" ({part.kind})"),
            count="" if counted else f"{seen[group]} of {totals[group]}",
            stock=part.stock,
            size=size_words(part, units),
            notes=part.notes or "outside face up",
        )
    return words


def boards_words(layout: Layout) -> str:
    """Boards and off-cuts of a layout, counted.

    Args:
        layout: The layout. [-]

    Returns:
        Such as "3 boards" or "1 board and 2 off-cuts". [-]

    Source:
        Definition.

    Example:
        >>> boards_words(Layout((), 3, 0.7, 0.5, 0.003, 0.006, 0.7, "draft"))
        '3 boards'
    """
    boards, pieces = layout.boards_used, len(layout.offcuts)
    whole = "1 board" if boards == 1 else f"{boards} boards"
    if not pieces:
        return whole
    cut = "1 off-cut" if pieces == 1 else f"{pieces} off-cuts"
    return f"{whole} and {cut}" if boards else cut


def block_lines(words: PartWords, level: str) -> tuple[str, ...]:
    """Lines of a part's label at one level of detail; the first is set bold.

    Args:
        words: The part's words. [-]
        level: "full", "medium" or "short". [-]

    Returns:
        Lines, top first. [-]

    Source:
        Definition.

    Example:
        >>> block_lines(PartWords("rib", "1 of 6", "board", "190 mm × 24 mm", ""), "short")
        ('rib · 1 of 6',)
    """
    if level == SHORT:
        return (words.title,)
    if level == MEDIUM:
        return (words.title, f"{words.size} · {words.stock}")
    return (
        words.name,
        " · ".join(word for word in (words.count, words.size) if word),
        words.stock,
        *wrapped(words.notes, 44),
    )


def key_words(words: PartWords) -> str:
    """One line for a part that is too small to be written on.

    Args:
        words: The part's words. [-]

    Returns:
        The line. [-]

    Source:
        Definition.

    Example:
        >>> key_words(PartWords("pin", "1 of 4", "dowel", "20 mm × 3 mm", ""))
        'pin, 1 of 4, 20 mm × 3 mm, dowel'
    """
    parts = [words.name, words.count, words.size, words.stock, words.notes]
    return ", ".join(part for part in parts if part)


def wrapped(text: str, width: int) -> tuple[str, ...]:
    """Break words into lines of at most a number of letters.

    Args:
        text: Words. [-]
        width: Letters in a line. [-]

    Returns:
        Lines. [-]

    Source:
        Definition.

    Example:
        >>> wrapped("glue the far face", 10)
        ('glue the', 'far face')
    """
    import textwrap

    return tuple(textwrap.wrap(text, width)) if text else ()


def angle_words(angle: float) -> str:
    """Write an angle in degrees.

    Args:
        angle: [rad]

    Returns:
        Such as "3.5°". [-]

    Source:
        Definition.

    Example:
        >>> angle_words(0.0523599)
        '3°'
    """
    return f"{math.degrees(angle):.1f}".removesuffix(".0") + "°"


def area_words(area: float, units: str) -> str:
    """Write an area as the trade does: square decimetres or square inches.

    Args:
        area: [m²]
        units: "metric" or "inch". [-]

    Returns:
        Such as "23.0 dm²". [-]

    Source:
        1 in = 25.4 mm exactly.

    Example:
        >>> area_words(0.23, "metric"), area_words(0.23, "inch")
        ('23.0 dm²', '357 in²')
    """
    return f"{area / INCH**2:.0f} in²" if units == "inch" else f"{area * 100:.1f} dm²"


def loading_words(mass: float, area: float, units: str) -> str:
    """Write a wing loading as the trade does.

    Args:
        mass: All-up. [kg]
        area: Wing area. [m²]
        units: "metric" or "inch". [-]

    Returns:
        Such as "28.5 g/dm²". [-]

    Source:
        1 oz = 28.349523125 g exactly.

    Example:
        >>> loading_words(0.654, 0.23, "metric"), loading_words(0.654, 0.23, "inch")
        ('28.4 g/dm²', '9.3 oz/ft²')
    """
    if units == "inch":
        return f"{mass / OUNCE / (area / FOOT**2):.1f} oz/ft²"
    return f"{mass * 10 / area:.1f} g/dm²"
