"""Marks for the balance point and its allowed range, drawn on the parts where they are looked for.

The parts carry the marks that follow from the shape alone; where the whole plane balances is known
only once all of it is weighed up, so those marks are laid on here.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np
import shapely
from shapely import LineString

from foamwright.core.errors import FoamwrightError
from foamwright.parts.model import Facet, Line, LineKind, Part, Source
from foamwright.shape.model import Point
from foamwright.sheets.words import length_words

if TYPE_CHECKING:
    from foamwright.plane import Plane

FINGERS = 0.10  # m of wing from its root in which the plane is held up; common practice, no source
UPRIGHT, LEVEL = 0.9, 0.7  # least cosine of a facet's normal to sideways, to straight down
PRICK = 0.0025  # m, radius of the ring round the point to prick through
RING = 16  # corners of that ring
CLOSE = 0.001  # m, nearer marks would run into each other
FAR = 10.0  # m, beyond any part


@dataclass(frozen=True, slots=True)
class Station:
    """A place along the fuselage that is marked.

    Attributes:
        x: Aft of the nose. [m]
        label: Words beside the mark.
        where: Words added under the wing, where there is room; given for the balance point only.
    """

    x: float
    label: str
    where: str = ""


def balance_stations(plane: Plane) -> tuple[Station, ...]:
    """Where the plane balances as designed, and the foremost and aftmost place allowed.

    Args:
        plane: The plane. [-]

    Returns:
        The computed balance point first; without the range when the model cannot say it. [-]

    Source:
        Definition; the range is that of the stability checks.

    Example:
        >>> balance_stations(plane)[0].label
        'balance here'
    """
    x = float(plane.balance.cg[0])
    away = x - plane.airframe.wing.panels[0].root[0]
    words = length_words(abs(away), plane.design.units)
    where = f"{words} {'behind' if away >= 0.0 else 'ahead of'} leading edge"
    try:
        aero = plane.aero
    except FoamwrightError:
        return (Station(x, "balance as designed", where),)
    forward, aft = float(aero.cg_forward), float(aero.cg_aft)
    inside = forward <= x <= aft
    label = "balance here" if inside else "balance as designed (out of range)"
    limits = ((forward, "CG no further forward"), (aft, "CG no further aft"))
    kept = [Station(at, limit) for at, limit in limits if math.isfinite(at) and abs(at - x) > CLOSE]
    return (Station(x, label, where), *kept)


def with_balance_marks(parts: Sequence[Part], stations: Sequence[Station]) -> tuple[Part, ...]:
    """Draw the stations on fuselage pieces seen from the side and on the wing's underside.

    On a fuselage piece a mark runs over its upper half; under the wing it runs out from the root
    as far as fingers reach, and the balance point has a ring to prick through.

    Args:
        parts: All parts of the plane. [-]
        stations: What is marked. [-]

    Returns:
        The same parts with the marks added to their lines; nothing else is changed. [-]

    Source:
        Definition.

    Example:
        >>> with_balance_marks((), ())
        ()
    """
    return tuple(_marked(part, stations) for part in parts)


def marked_parts(plane: Plane) -> tuple[Part, ...]:
    """All parts of a plane with its balance point and range drawn on.

    Args:
        plane: The plane. [-]

    Returns:
        The parts. [-]

    Source:
        Definition.

    Example:
        >>> len(marked_parts(plane)) == len(plane.parts.parts)
        True
    """
    return with_balance_marks(plane.parts.parts, balance_stations(plane))


def _marked(part: Part, stations: Sequence[Station]) -> Part:
    if part.source is not Source.BOARD:
        return part
    added: list[Line] = []
    for station in stations:
        if part.id.startswith("fuselage-"):
            added += _on_side(part, station)
        elif part.id.startswith("wing-"):
            added += _under_wing(part, station)
    return replace(part, lines=(*part.lines, *added)) if added else part


def _on_side(part: Part, station: Station) -> list[Line]:
    for facet in part.facets:
        if abs(_normal(facet)[1]) < UPRIGHT:
            continue
        for run in _runs_at(facet, station.x)[:1]:
            low, high = sorted(run, key=lambda point: _place(facet, point)[2])
            middle = ((low[0] + high[0]) / 2, (low[1] + high[1]) / 2)
            return [Line(LineKind.MARK, (middle, high), station.label)]
    return []


def _under_wing(part: Part, station: Station) -> list[Line]:
    """Mark the lowest level facet that the station crosses, from the root outwards."""
    runs: list[tuple[float, float, tuple[Point, Point]]] = []
    for facet in part.facets:
        level = abs(_normal(facet)[2]) > LEVEL
        for run in _runs_at(facet, station.x) if level else []:
            reach = _from_root(facet, run)
            _, away, height = _place(facet, reach[0])
            runs.append((height, abs(away), reach))
    at_root = [run for _, away, run in sorted(runs) if away < FINGERS]
    if not at_root:
        return []
    root, end = at_root[0]
    if not station.where:
        return [Line(LineKind.MARK, (root, end), station.label)]
    words = f"{station.label}, {station.where}"
    return [Line(LineKind.MARK, (root, end), words), Line(LineKind.MARK, _ring(end))]


def _from_root(facet: Facet, run: tuple[Point, Point]) -> tuple[Point, Point]:
    near, far = sorted(run, key=lambda point: abs(_place(facet, point)[1]))
    share = min(1.0, FINGERS / max(math.dist(near, far), 1e-9))
    return near, (near[0] + share * (far[0] - near[0]), near[1] + share * (far[1] - near[1]))


def _ring(middle: Point) -> tuple[Point, ...]:
    turns = [2 * math.pi * (index % RING) / RING for index in range(RING + 1)]
    return tuple(
        (middle[0] + PRICK * math.cos(turn), middle[1] + PRICK * math.sin(turn)) for turn in turns
    )


def _normal(facet: Facet) -> tuple[float, float, float]:
    x, y, z = np.cross(facet.along, facet.across)
    return float(x), float(y), float(z)


def _place(facet: Facet, point: Point) -> tuple[float, float, float]:
    u, v = point
    x, y, z = (
        o + u * a + v * b for o, a, b in zip(facet.origin, facet.along, facet.across, strict=True)
    )
    return float(x), float(y), float(z)


def _runs_at(facet: Facet, x: float) -> list[tuple[Point, Point]]:
    """Stretches of a facet, in the flat frame, at one place along the fuselage, longest first.

    Points of it satisfy origin_x + u along_x + v across_x = x: a straight line.
    """
    a, b = float(facet.along[0]), float(facet.across[0])
    size = math.hypot(a, b)
    if size < 0.1:
        return []
    away = (x - float(facet.origin[0])) / size
    u, v = a / size, b / size
    line = LineString(
        [(away * u - FAR * v, away * v + FAR * u), (away * u + FAR * v, away * v - FAR * u)]
    )
    pieces = [
        piece
        for piece in shapely.get_parts(line.intersection(facet.polygon))
        if isinstance(piece, LineString) and piece.length > CLOSE
    ]
    runs: list[tuple[Point, Point]] = []
    for piece in sorted(pieces, key=lambda piece: -piece.length):
        ends = shapely.get_coordinates(piece)[[0, -1]]
        runs.append(
            ((float(ends[0][0]), float(ends[0][1])), (float(ends[1][0]), float(ends[1][1])))
        )
    return runs
