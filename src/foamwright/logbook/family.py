"""A family of planes: what differs between versions, what can be used again, and who came first."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

from foamwright.checks.compare import Compared, compare_checks, compare_figures
from foamwright.core.errors import FoamwrightError
from foamwright.logbook.store import read_log

if TYPE_CHECKING:
    from shapely import Polygon

    from foamwright.core.verdicts import Check
    from foamwright.design.model import Design
    from foamwright.parts.model import Part
    from foamwright.plane import Plane

SAME = 0.0002  # m, outlines closer than that are cut alike with a knife; common practice
MOST = 30  # versions followed back


@dataclass(frozen=True, slots=True)
class Reuse:
    """Parts of the new version against those of the one before.

    Attributes:
        same: Names of parts whose outline and stock are the same: kept, or cut from the old sheets.
        new: Names of parts that are new or changed.
    """

    same: tuple[str, ...]
    new: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Versions:
    """Two versions compared.

    Attributes:
        figures: Main figures of both.
        findings: Checks that read otherwise, largest loss first.
        parts: What can be used again.
    """

    figures: tuple[Compared, ...]
    findings: tuple[tuple[Check, Check], ...]
    parts: Reuse


@dataclass(frozen=True, slots=True)
class Member:
    """One version of a family.

    Attributes:
        file: Of the design.
        name: Of the plane.
        flights: In its logbook. [-]
        minutes: Flown, as written down. [s]
        mass: All-up as weighed last, else as computed. [kg]
        weighed: Whether it was weighed.
        changed: Keys that differ from the version before.
    """

    file: Path
    name: str
    flights: int
    minutes: float
    mass: float
    weighed: bool
    changed: tuple[str, ...]


def compare_versions(before: Plane, after: Plane) -> Versions:
    """Numbers, findings and parts of two versions.

    Args:
        before: Version before. [-]
        after: New version. [-]

    Returns:
        The comparison.

    Source:
        Definition.

    Example:
        >>> compare_versions(plane, plane).parts.new
        ()
    """
    return Versions(
        compare_figures(before, after),
        compare_checks(before, after),
        parts_again(before, after),
    )


def parts_again(before: Plane, after: Plane) -> Reuse:
    """Parts that need not be cut anew, or can be cut from the sheets printed before.

    Args:
        before: Version before. [-]
        after: New version. [-]

    Returns:
        Names of parts.

    Source:
        Outlines compared within 0.2 mm.

    Example:
        >>> len(parts_again(plane, plane).same) == len(plane.parts.parts)
        True
    """
    old = {part.id: part for part in before.parts.parts}
    same: list[str] = []
    new: list[str] = []
    for part in after.parts.parts:
        kept = part.id in old and _alike(old[part.id], part)
        (same if kept else new).append(_named(part))
    return Reuse(tuple(same), tuple(new))


def _named(part: Part) -> str:
    return f"{part.name}, {part.side}" if part.side else part.name


def _alike(one: Part, two: Part) -> bool:
    if one.stock != two.stock or abs(one.thickness - two.thickness) > 1e-5:
        return False
    if not _close(one.outline, two.outline):
        return False
    ours, theirs = ([_line_key(line) for line in part.lines] for part in (one, two))
    return sorted(ours) == sorted(theirs)


def _line_key(line: Any) -> tuple[str, ...]:  # noqa: ANN401 - a line of parts.model, told by its points
    points = tuple(f"{round(x / SAME)},{round(y / SAME)}" for x, y in line.points)
    return (str(line.kind), *points)


def _close(one: Polygon, two: Polygon) -> bool:
    if abs(one.area - two.area) > SAME * one.length:
        return False
    return bool(one.hausdorff_distance(two) < SAME)


def changed_keys(before: Design, after: Design) -> tuple[str, ...]:
    """Keys whose values differ between two designs; name and notes apart.

    Args:
        before: Of the version before. [-]
        after: Of the new one. [-]

    Returns:
        Dotted keys.

    Source:
        Definition.

    Example:
        >>> changed_keys(plane.design, plane.design)
        ()
    """
    old, new = _flat(before.model_dump(), ""), _flat(after.model_dump(), "")
    apart = ("name", "notes", "learned.version_before")
    keys = dict.fromkeys((*old, *new))
    return tuple(key for key in keys if old.get(key) != new.get(key) and key not in apart)


def _flat(value: Any, path: str) -> dict[str, Any]:  # noqa: ANN401 - a tree of plain values
    if isinstance(value, dict):
        items = value.items()
    elif isinstance(value, (tuple, list)):
        items = enumerate(value)
    else:
        return {path: value}
    found: dict[str, Any] = {}
    for key, inner in items:
        found.update(_flat(inner, f"{path}.{key}" if path else str(key)))
    return found


def family_of(plane: Plane, load: Callable[[Path], Plane]) -> tuple[Member, ...]:
    """A plane and the versions that it came from, the first one first.

    Args:
        plane: The newest, opened from its file. [-]
        load: Opens a design file as a plane. [-]

    Returns:
        Members; the line ends where a file is gone.

    Source:
        [learned] version_before of each design.

    Example:
        >>> family_of(plane, load=lambda file: plane)[-1].name
        'Brindle Cob'
    """
    line: list[Plane] = [plane]
    seen = {plane.path}
    while len(line) < MOST:
        here = line[-1]
        if here.path is None or not here.design.learned.version_before:
            break
        file = here.path.with_name(Path(here.design.learned.version_before).name)
        if file in seen or not file.exists():
            break
        seen.add(file)
        try:
            line.append(load(file))
        except FoamwrightError:
            break
    line.reverse()
    befores: list[Plane | None] = [None, *line[:-1]]
    return tuple(_member(one, before) for one, before in zip(line, befores, strict=True))


def _member(plane: Plane, before: Plane | None) -> Member:
    file = plane.path or Path()
    log = read_log(file)
    flights = log.of("flight")
    weighed = log.of("weighed", "all-up")
    return Member(
        file=file,
        name=plane.design.name,
        flights=len(flights),
        minutes=sum(entry.values.get("minutes", 0.0) for entry in flights),
        mass=weighed[-1].values["mass"] if weighed else plane.balance.all_up_mass,
        weighed=bool(weighed),
        changed=() if before is None else changed_keys(before.design, plane.design),
    )
