"""The cut list: pieces grouped by kind, for faces to print."""

from collections.abc import Iterable
from dataclasses import dataclass

from foamwright.core.bands import Band
from foamwright.parts.material import scaled
from foamwright.parts.model import Part, Source


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
    """Group parts by kind and stock, in building order.

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
    groups: dict[tuple[str, str], list[Part]] = {}
    for part in parts:
        groups.setdefault((part.kind, part.stock), []).append(part)
    lines: list[CutLine] = []
    for (kind, stock), group in groups.items():
        first = group[0]
        west, south, east, north = first.outline.bounds
        area = sum(float(part.outline.area) for part in group)
        sizes = sorted((east - west, north - south), reverse=True)
        lines.append(
            CutLine(
                name=kind,
                count=len(group),
                stock=stock,
                source=first.source,
                length=sizes[0],
                width=sizes[1],
                mass=scaled(first.areal_mass, area),
                ids=tuple(part.id for part in group),
                notes=first.notes,
            )
        )
    return tuple(lines)
