"""The cut list: pieces grouped by kind, for faces to print."""

from collections.abc import Iterable
from dataclasses import dataclass

from foamwright.core.bands import Band
from foamwright.parts.material import scaled
from foamwright.parts.model import Part, Source

SAME = 5e-4  # m, pieces whose sizes differ by less are listed together; a knife is no better


@dataclass(frozen=True, slots=True)
class CutLine:
    """One line of the cut list.

    Attributes:
        name: In trade words.
        count: Pieces of this kind. [-]
        stock: Name in stock.
        source: What they are cut from.
        length: Of the box around one piece. [m]
        width: Of the same. [m]
        mass: All pieces together. [kg]
        ids: Of the pieces.
        notes: For the builder.
    """

    name: str
    count: int
    stock: str
    source: Source
    length: float
    width: float
    mass: Band
    ids: tuple[str, ...]
    notes: str


def cut_list(parts: Iterable[Part]) -> tuple[CutLine, ...]:
    """Group parts by kind, stock and size, in building order.

    Args:
        parts: Parts to cut. [-]

    Returns:
        One line a kind.

    Source:
        Definition.

    Example:
        >>> cut_list(())
        ()
    """
    groups: dict[tuple[object, ...], list[Part]] = {}
    for part in parts:
        groups.setdefault(group_key(part), []).append(part)
    lines: list[CutLine] = []
    for group in groups.values():
        first = group[0]
        area = sum(float(part.outline.area) for part in group)
        length, width = _box_sides(first)
        alone = len({part.name for part in group}) == 1 and first.kind in first.name
        lines.append(
            CutLine(
                name=first.name if alone else first.kind,
                count=len(group),
                stock=first.stock,
                source=first.source,
                length=length,
                width=width,
                mass=scaled(first.areal_mass, area),
                ids=tuple(part.id for part in group),
                notes=first.notes,
            )
        )
    return tuple(lines)


def group_key(part: Part) -> tuple[object, ...]:
    """What pieces that are counted together share: kind, stock and, within 0.5 mm, size.

    Args:
        part: A part. [-]

    Returns:
        A key to group by. [-]

    Source:
        Definition.

    Example:
        >>> group_key(part)[0]
        'wing skin 1'
    """
    # Half a step off, so that round sizes do not fall on the border between two keys.
    return part.kind, part.stock, *(round(side / SAME + 0.25) for side in _box_sides(part))


def _box_sides(part: Part) -> tuple[float, float]:
    west, south, east, north = part.outline.bounds
    sides = east - west, north - south
    return max(sides), min(sides)
