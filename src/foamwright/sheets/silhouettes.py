"""Outlines of a plane seen from above, from its left side and from ahead."""

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from shapely import Polygon, box
from shapely.geometry.base import BaseGeometry

from foamwright.shape.model import (
    Airframe,
    ControlSurface,
    LiftingPanel,
    LiftingSurface,
    Point,
    Vector,
)


@dataclass(frozen=True, slots=True)
class Shape:
    """One closed outline in a view.

    Attributes:
        name: "wing", "body", "aileron" and so on.
        points: Corners: from above (y, -x); from the side (x, z); from ahead (y, z). [m]
    """

    name: str
    points: tuple[Point, ...]


def station(surface: LiftingSurface, fraction: float) -> tuple[Vector, float, float]:
    """Leading edge, chord and twist at a place along the half span.

    Args:
        surface: A wing, stab or fin. [-]
        fraction: Along the panels, 0 at the root, 1 at the tip. [-]

    Returns:
        Leading edge [m], chord [m], twist [rad].

    Source:
        Definition.

    Example:
        >>> round(station(airframe.wing, 0.5)[1], 3)
        0.197
    """
    lengths = [math.dist(panel.root, panel.tip) for panel in surface.panels]
    ends = np.cumsum([0.0, *lengths])
    along = fraction * ends[-1]
    index = min(int(np.searchsorted(ends, along, side="right")) - 1, len(lengths) - 1)
    panel = surface.panels[index]
    part = (along - ends[index]) / lengths[index] if lengths[index] else 0.0
    edge = tuple(a + part * (b - a) for a, b in zip(panel.root, panel.tip, strict=True))
    chord = panel.root_chord + part * (panel.tip_chord - panel.root_chord)
    twist = panel.root_twist + part * (panel.tip_twist - panel.root_twist)
    return (float(edge[0]), float(edge[1]), float(edge[2])), float(chord), float(twist)


def trailing(edge: Vector, chord: float, twist: float) -> Vector:
    """Trailing edge behind a leading edge.

    Args:
        edge: Leading edge. [m]
        chord: [m]
        twist: Nose-up angle of the chord line. [rad]

    Returns:
        Trailing edge. [m]

    Source:
        Definition.

    Example:
        >>> trailing((0.2, 0.0, 0.05), 0.2, 0.0)
        (0.4, 0.0, 0.05)
    """
    return edge[0] + chord * math.cos(twist), edge[1], edge[2] - chord * math.sin(twist)


def panel_corners(panel: LiftingPanel) -> tuple[Vector, Vector, Vector, Vector]:
    """Four corners of a panel: leading edge root to tip, trailing edge tip to root.

    Args:
        panel: The panel. [-]

    Returns:
        Corners. [m]

    Source:
        Definition.

    Example:
        >>> [round(x, 3) for x in panel_corners(panel)[0]]
        [0.152, 0.0, 0.049]
    """
    return (
        panel.root,
        panel.tip,
        trailing(panel.tip, panel.tip_chord, panel.tip_twist),
        trailing(panel.root, panel.root_chord, panel.root_twist),
    )


def control_corners(
    surface: LiftingSurface, control: ControlSurface
) -> tuple[Vector, Vector, Vector, Vector]:
    """Four corners of a hinged part: hinge line in to out, trailing edge out to in.

    Args:
        surface: What it is hinged to. [-]
        control: The hinged part. [-]

    Returns:
        Corners. [m]

    Source:
        Definition.

    Example:
        >>> control_corners(airframe.stab, airframe.stab.controls[0])  # doctest: +SKIP
    """
    corners: list[Vector] = []
    for fraction in (control.start, control.end):
        edge, chord, twist = station(surface, fraction)
        corners.append(trailing(edge, chord * (1 - control.chord_fraction), twist))
    corners += [trailing(*station(surface, end)) for end in (control.end, control.start)]
    return corners[0], corners[1], corners[2], corners[3]


def from_above(airframe: Airframe) -> list[Shape]:
    """Outlines seen from above, nose up: (y, -x).

    Args:
        airframe: The plane. [-]

    Returns:
        Outlines, lowest first. [m]

    Source:
        Definition.

    Example:
        >>> from_above(airframe)[0].name
        'body'
    """

    def project(point: Vector) -> Point:
        return point[1], -point[0]

    body = airframe.body.stations
    left = [(-s.width / 2, -s.x) for s in body]
    right = [(s.width / 2, -s.x) for s in reversed(body)]
    shapes = [Shape("body", tuple(left + right))]
    for surface in (airframe.stab, airframe.wing):
        shapes += _surface(surface, project, mirror=_other_side)
    if airframe.fin is not None:
        shapes += _fin_edges(airframe.fin, airframe.board_thickness, above=True)
    return shapes


def from_side(airframe: Airframe) -> list[Shape]:
    """Outlines seen from the left side, nose left: (x, z).

    Args:
        airframe: The plane. [-]

    Returns:
        Outlines, farthest first. [m]

    Source:
        Definition.

    Example:
        >>> from_side(airframe)[-1].name
        'wing'
    """

    def project(point: Vector) -> Point:
        return point[0], point[2]

    body = airframe.body.stations
    shapes: list[Shape] = []
    if airframe.fin is not None:
        shapes += _surface(airframe.fin, project)
    under = [(s.x, s.bottom) for s in body]
    over = [(s.x, s.top) for s in reversed(body)]
    shapes.append(Shape("body", tuple(under + over)))
    shapes += _edge_on(airframe.stab, airframe.board_thickness)
    return shapes + _sections(airframe.wing)


def from_ahead(airframe: Airframe) -> list[Shape]:
    """Outlines seen from ahead: (y, z).

    Args:
        airframe: The plane. [-]

    Returns:
        Outlines, farthest first. [m]

    Source:
        Definition.

    Example:
        >>> from_ahead(airframe)[-1].name
        'body'
    """
    thick = airframe.board_thickness
    shapes: list[Shape] = []
    if airframe.fin is not None:
        shapes += _fin_edges(airframe.fin, thick, above=False)
    shapes += _front_bands(airframe.stab, thick)
    shapes += _front_bands(airframe.wing, None)
    boxes: list[BaseGeometry] = [
        box(-s.width / 2, s.bottom, s.width / 2, s.top) for s in airframe.body.stations
    ]
    union = shapely.union_all(boxes)
    outline = union if isinstance(union, Polygon) else union.convex_hull
    corners = shapely.get_coordinates(shapely.get_exterior_ring(outline))[:-1]
    return [*shapes, Shape("body", tuple((float(y), float(z)) for y, z in corners))]


def _other_side(point: Point) -> Point:
    return -point[0], point[1]


def _surface(
    surface: LiftingSurface,
    project: Callable[[Vector], Point],
    *,
    mirror: Callable[[Point], Point] | None = None,
) -> list[Shape]:
    shapes: list[Shape] = []
    named = [(surface.name, panel_corners(panel)) for panel in surface.panels]
    named += [(control.name, control_corners(surface, control)) for control in surface.controls]
    for name, corners in named:
        points = tuple(project(corner) for corner in corners)
        shapes.append(Shape(name, points))
        if mirror is not None and surface.mirrored:
            shapes.append(Shape(name, tuple(mirror(point) for point in points)))
    return shapes


def _fin_edges(fin: LiftingSurface, thick: float, *, above: bool) -> list[Shape]:
    shapes: list[Shape] = []
    for panel in fin.panels:
        corners = panel_corners(panel)
        if above:
            low, high = -max(c[0] for c in corners), -min(c[0] for c in corners)
        else:
            low, high = min(c[2] for c in corners), max(c[2] for c in corners)
        half, y = thick / 2, panel.root[1]
        shapes.append(
            Shape("fin", ((y - half, low), (y + half, low), (y + half, high), (y - half, high)))
        )
    return shapes


def _edge_on(surface: LiftingSurface, thick: float) -> list[Shape]:
    """Draw a flat tail seen along its span: a strip of board, or its panels where they slope."""
    shapes: list[Shape] = []
    for panel in surface.panels:
        front, tip, tip_back, back = panel_corners(panel)
        if abs(tip[2] - front[2]) > 2 * thick:
            points = tuple((c[0], c[2]) for c in (front, tip, tip_back, back))
        else:
            half = thick / 2
            points = (
                (front[0], front[2] - half),
                (back[0], back[2] - half),
                (back[0], back[2] + half),
                (front[0], front[2] + half),
            )
        shapes.append(Shape(surface.name, points))
    return shapes


def section_outline(panel: LiftingPanel, *, tip: bool) -> tuple[Point, ...]:
    """Draw a panel's section at its root or tip, in its place: (x, z).

    Args:
        panel: The panel. [-]
        tip: Whether at the tip, else at the root. [-]

    Returns:
        Closed outline. [m]

    Source:
        Definition.

    Example:
        >>> [round(x, 3) for x in section_outline(panel, tip=False)[0]]
        [0.152, 0.049]
    """
    edge = panel.tip if tip else panel.root
    chord = panel.tip_chord if tip else panel.root_chord
    twist = panel.tip_twist if tip else panel.root_twist
    cosine, sine = math.cos(twist), math.sin(twist)
    rim = [*panel.section.upper, *reversed(panel.section.lower)]
    return tuple(
        (edge[0] + chord * (u * cosine + v * sine), edge[2] + chord * (v * cosine - u * sine))
        for u, v in rim
    )


def _sections(wing: LiftingSurface) -> list[Shape]:
    outlines = [section_outline(wing.panels[0], tip=False)]
    outlines += [section_outline(panel, tip=True) for panel in wing.panels]
    return [Shape(wing.name, outline) for outline in outlines]


def _front_bands(surface: LiftingSurface, thick: float | None) -> list[Shape]:
    """Draw each panel from ahead: a band as thick as its section, or as its board."""
    shapes: list[Shape] = []
    for panel in surface.panels:
        low_root, high_root = _heights(panel, thick, tip=False)
        low_tip, high_tip = _heights(panel, thick, tip=True)
        y0, y1 = panel.root[1], panel.tip[1]
        points = ((y0, low_root), (y1, low_tip), (y1, high_tip), (y0, high_root))
        shapes.append(Shape(surface.name, points))
        if surface.mirrored:
            shapes.append(Shape(surface.name, tuple((-y, z) for y, z in points)))
    return shapes


def _heights(panel: LiftingPanel, thick: float | None, *, tip: bool) -> tuple[float, float]:
    if thick is not None:
        middle = panel.tip[2] if tip else panel.root[2]
        return middle - thick / 2, middle + thick / 2
    heights: Sequence[float] = [z for _, z in section_outline(panel, tip=tip)]
    return min(heights), max(heights)
