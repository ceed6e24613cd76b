"""The plane as triangles for the view in the round."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from foamwright.sheets.silhouettes import section_outline

if TYPE_CHECKING:
    from foamwright.parts.model import Item
    from foamwright.plane import Plane
    from foamwright.shape.model import Airframe, LiftingPanel, LiftingSurface, Point, Vector

PAPER, TAIL, BODY, BOUGHT = "#f4efdf", "#e6e9ea", "#e2cfa6", "#8a97a3"
SHOWN = ("motor", "pack", "controller", "receiver", "servo")

type Ring = list[Vector]


def solid_of(plane: Plane) -> dict[str, Any]:
    """Closed solids of the plane, as plain lists.

    Args:
        plane: The plane. [-]

    Returns:
        Solids, each with name, colour, corner places [m], triangles, and the way it moves when the
        pieces are drawn apart.

    Source:
        Definition.

    Example:
        >>> solid_of(plane)["solids"][0]["name"]  # doctest: +SKIP
        'wing'
    """
    airframe = plane.airframe
    solids = [*_surface(airframe.wing, 0.0, PAPER, (0.0, 0.35, 0.25))]
    solids += _surface(airframe.stab, airframe.board_thickness, TAIL, (0.25, 0.0, 0.1))
    if airframe.fin is not None:
        solids += _surface(airframe.fin, airframe.board_thickness, TAIL, (0.3, 0.0, 0.35))
    solids.append(_body(airframe))
    solids += [_box(item) for item in plane.parts.items if item.id.startswith(SHOWN)]
    return {
        "solids": solids,
        "propeller": {
            "at": list(airframe.thrust_point),
            "axis": list(airframe.thrust_axis),
            "radius": airframe.propeller_diameter / 2,
        },
        "span": airframe.wing.span,
        "length": airframe.body.length,
        "name": plane.design.name,
    }


def _loft(name: str, rings: list[Ring], colour: str, away: Vector) -> dict[str, Any]:
    """Skin between rings of the same number of corners, closed by fans at both ends."""
    count = len(rings[0])
    points = [list(point) for ring in rings for point in ring]
    faces: list[list[int]] = []
    for row in range(len(rings) - 1):
        for i in range(count):
            a, b = row * count + i, row * count + (i + 1) % count
            faces += [[a, b, a + count], [b, b + count, a + count]]
    for first in (0, (len(rings) - 1) * count):
        # Fans from the nose of a ring would fold over on a cambered section: zip across instead.
        for i in range(1, (count + 1) // 2):
            low, high = first + i, first + count - i
            before, after = first + i - 1, first + (count - i + 1) % count
            faces += [[before, low, high], [before, high, after]]
    return {"name": name, "colour": colour, "points": points, "faces": faces, "away": list(away)}


def _surface(
    surface: LiftingSurface, thick: float, colour: str, away: Vector
) -> list[dict[str, Any]]:
    found: list[dict[str, Any]] = []
    for panel in surface.panels:
        rings = _plate(surface, panel, thick) if thick else _skin(panel)
        found.append(_loft(surface.name, rings, colour, away))
        if surface.mirrored:
            mirrored = [[(x, -y, z) for x, y, z in ring] for ring in rings]
            found.append(_loft(surface.name, mirrored, colour, (away[0], -away[1], away[2])))
    return found


def _skin(panel: LiftingPanel) -> list[Ring]:
    rings: list[Ring] = []
    for tip, edge in ((False, panel.root), (True, panel.tip)):
        outline: tuple[Point, ...] = section_outline(panel, tip=tip)
        rings.append([(x, edge[1], z) for x, z in outline])
    return rings


def _plate(surface: LiftingSurface, panel: LiftingPanel, thick: float) -> list[Ring]:
    half = thick / 2
    standing = not surface.mirrored
    rings: list[Ring] = []
    for (x, y, z), chord in ((panel.root, panel.root_chord), (panel.tip, panel.tip_chord)):
        aft = x + chord
        if standing:
            rings.append(
                [(x, y - half, z), (aft, y - half, z), (aft, y + half, z), (x, y + half, z)]
            )
        else:
            rings.append(
                [(x, y, z - half), (aft, y, z - half), (aft, y, z + half), (x, y, z + half)]
            )
    return rings


def _body(airframe: Airframe) -> dict[str, Any]:
    rings: list[Ring] = []
    for s in airframe.body.stations:
        half = s.width / 2
        rings.append([(s.x, -half, s.bottom), (s.x, half, s.bottom), (s.x, half, s.top),
                      (s.x, -half, s.top)])  # fmt: skip
    return _loft("fuselage", rings, BODY, (0.0, 0.0, 0.0))


def _box(item: Item) -> dict[str, Any]:
    (x, y, z), (length, width, height) = item.at, item.size
    rings: list[Ring] = []
    for place in (x - length / 2, x + length / 2):
        left, right, low, high = y - width / 2, y + width / 2, z - height / 2, z + height / 2
        rings.append([(place, left, low), (place, right, low), (place, right, high),
                      (place, left, high)])  # fmt: skip
    return _loft(item.name, rings, BOUGHT, (-0.1, 0.0, -0.3))
