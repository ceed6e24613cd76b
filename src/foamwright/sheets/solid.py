"""The plane as solids: every part closed, in its place, for GLB and STL files."""

from __future__ import annotations

import io
import math
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely import Polygon
from shapely.geometry.base import BaseGeometry

from foamwright.core.errors import OutputError
from foamwright.core.files import write_atomically
from foamwright.parts.material import BoardWork, board_work, ply_areal_mass
from foamwright.parts.model import Facet, Part, Source
from foamwright.parts.shaving import Shaving, holes_of, shavings
from foamwright.parts.wing_run import wing_run
from foamwright.sheets.solid_skin import skin_solid, solid_library

if TYPE_CHECKING:
    from foamwright.parts.model import Item
    from foamwright.plane import Plane

SUFFIXES = (".glb", ".stl")
COLOURS = {  # red, green, blue, cover
    Source.BOARD: (236, 232, 220, 255),
    Source.PLY: (205, 160, 100, 255),
    Source.LENGTH: (160, 110, 60, 255),
    Source.TAPE: (120, 170, 210, 110),
}
ITEM_COLOUR = (90, 90, 100, 255)
MIRROR = np.array([1.0, -1.0, 1.0])
SPREAD = np.array([0.15, 0.6, 1.2])  # how far things move apart along x, y, z in an exploded view
PAST = 0.001  # m that a bevel's wedge reaches beyond the part
LAYER_SPREAD = 5.0  # fuselage layers lie so close that they need more along y

type Array = NDArray[np.float64]
type Mesh = Any  # of a library imported late


@dataclass(frozen=True, slots=True)
class SolidMass:
    """A part weighed twice.

    Attributes:
        id: Of the part.
        solid: Volume of its solid times the density of its stock. [kg]
        listed: In the parts list. [kg]
    """

    id: str
    solid: float
    listed: float


def part_solids(plane: Plane) -> dict[str, Mesh]:
    """A closed mesh of every part, in its place on the plane.

    Folded skins are shells of their true section; all else is its facets, as thick as its stock.

    Args:
        plane: The plane. [-]

    Returns:
        Part id -> trimesh mesh, in the order of the parts list. [m]

    Valid:
        The dents of creases and the bevels of spar strips at breaks are not modelled; tape is drawn
        flat, 0.1 mm thick.

    Source:
        Geometry.

    Example:
        >>> part_solids(plane)["fin"].is_watertight
        True
    """
    skins = _skins(plane)
    return {
        part.id: skins[part.id] if part.id in skins else _flat_solid(part)
        for part in plane.parts.parts
    }


def _skins(plane: Plane) -> dict[str, Mesh]:
    if plane.design.wing.build != "folded":
        return {}
    board = board_work(plane.design.board, plane.stock, plane.airframe.board_thickness)
    run = wing_run(plane.design, plane.airframe, board, plane.stock)
    found: dict[str, Mesh] = {}
    for span in run.spans:
        right = skin_solid(run, span)
        left = right.copy()
        left.vertices = left.vertices * MIRROR
        left.invert()
        found[f"wing-skin-{span.tag}-right"] = right
        found[f"wing-skin-{span.tag}-left"] = left
    return found


def _flat_solid(part: Part) -> Mesh:
    holes = shapely.union_all(holes_of(part.lines))
    strips = shavings(part.outline, part.lines)
    prisms = [_prism(facet, _without(facet.polygon, holes)) for facet in part.facets]
    whole = prisms[0] if len(prisms) == 1 else solid_library("util").concatenate(prisms)
    if not strips:
        return whole
    wedges = [_wedge(part.facets[0], strip) for strip in strips]
    return solid_library("boolean").difference([whole, *wedges], engine="manifold")


def _without(polygon: Polygon, holes: BaseGeometry) -> Polygon:
    rest = polygon.difference(holes)
    return rest if isinstance(rest, Polygon) else polygon


def _prism(facet: Facet, polygon: Polygon) -> Mesh:
    along, across = np.array(facet.along), np.array(facet.across)
    normal = np.cross(along, across)
    place = np.eye(4)
    place[:3, :3] = np.column_stack([along, across, normal])
    place[:3, 3] = np.array(facet.origin) - 0.5 * facet.thickness * normal
    extrude = solid_library("creation").extrude_polygon
    return extrude(polygon, facet.thickness, transform=place)


def _wedge(facet: Facet, strip: Shaving) -> Mesh:
    """What a bevel takes off, a little longer all round so that no faces coincide."""
    along, across = np.array(facet.along), np.array(facet.across)
    start, end, far = strip.ring[:3]
    reach = math.dist(end.tolist(), far.tolist())
    length = math.dist(start.tolist(), end.tolist())
    out = ((far - end) / reach) @ np.array([along, across])
    run = ((end - start) / length) @ np.array([along, across])
    face = np.cross(along, across) * math.copysign(1.0, strip.depth)
    slope = abs(strip.depth) / reach
    near, beyond = -PAST, reach + PAST
    ring = Polygon([(near, near * slope), (beyond, near * slope), (beyond, beyond * slope)])
    turn = math.copysign(1.0, float(np.cross(out, face) @ run))
    first = (start if turn > 0.0 else end) @ np.array([along, across])
    place = np.eye(4)
    place[:3, :3] = np.column_stack([out, face, turn * run])
    place[:3, 3] = np.array(facet.origin) + first - 0.5 * facet.thickness * face - turn * PAST * run
    extrude = solid_library("creation").extrude_polygon
    return extrude(ring, length + 2.0 * PAST, transform=place)


def solid_masses(plane: Plane, solids: Mapping[str, Mesh]) -> tuple[SolidMass, ...]:
    """Volume times density of every part beside its mass in the parts list.

    Args:
        plane: The plane. [-]
        solids: As part_solids gives them. [-]

    Returns:
        One row a part.

    Source:
        Density is the stock's mass per area over its thickness.

    Example:
        >>> rows = solid_masses(plane, part_solids(plane))
        >>> round(sum(row.solid for row in rows), 2)
        0.3
    """
    board = board_work(plane.design.board, plane.stock, plane.airframe.board_thickness)
    rows: list[SolidMass] = []
    for part in plane.parts.parts:
        areal = _areal_mass(plane, part, board)
        volume = float(solids[part.id].volume)
        rows.append(SolidMass(part.id, volume * areal / part.thickness, part.mass))
    return tuple(rows)


def _areal_mass(plane: Plane, part: Part, board: BoardWork) -> float:
    """Of what a part is cut from, before bevels and holes take their share."""
    if part.source is Source.BOARD:
        return board.areal_mass.typical
    if part.source is Source.PLY:
        return ply_areal_mass(plane.stock.plies[part.stock]).typical
    return part.areal_mass.typical


def write_solid(
    plane: Plane, path: Path, *, exploded: float = 0.0, overwrite: bool = False
) -> Path:
    """Write the assembled plane as GLB (parts by name, in colour) or STL (one mesh).

    Args:
        plane: The plane. [-]
        path: File to write, .glb or .stl. [-]
        exploded: How far the parts are drawn apart; 0 leaves them in place, 1 is a full view. [-]
        overwrite: Replace a file that is there. [-]

    Returns:
        The path written.

    Raises:
        OutputError: The ending is not known, or the file cannot be written.

    Source:
        Definition.

    Example:
        >>> write_solid(plane, Path("cob.glb"))
        PosixPath('cob.glb')
    """
    suffix = path.suffix.lower()
    if suffix not in SUFFIXES:
        raise OutputError(
            f"A solid cannot be written as '{path.suffix or path.name}'; "
            "the file must end in .glb or .stl."
        )
    meshes = _assembled(plane, exploded)
    if suffix == ".stl":
        data = solid_library("util").concatenate(list(meshes.values())).export(file_type="stl")
    else:
        scene = solid_library().Scene()
        for name, mesh in meshes.items():
            scene.add_geometry(mesh, node_name=name, geom_name=name)
        data = scene.export(file_type="glb")
    contents = data if isinstance(data, bytes) else io.BytesIO(data).getvalue()
    write_atomically(path, contents, overwrite=overwrite)
    return path


def _assembled(plane: Plane, exploded: float) -> dict[str, Mesh]:
    solids = part_solids(plane)
    middle = np.array(plane.balance.cg)
    meshes: dict[str, Mesh] = {}
    for part in plane.parts.parts:
        mesh = solids[part.id]
        mesh.visual.face_colors = COLOURS[part.source]
        meshes[part.id] = mesh
    for item in plane.parts.items:
        if min(item.size) > 0.0 and not item.id.startswith(("glue", "bands")):
            meshes[item.id] = _box(item)
    for name, mesh in meshes.items():
        if exploded:
            away = (np.array(mesh.bounds).mean(axis=0) - middle) * SPREAD
            away[1] *= LAYER_SPREAD if name.startswith("fuselage") else 1.0
            mesh.apply_translation(exploded * away)
    return meshes


def _box(item: Item) -> Mesh:
    place = np.eye(4)
    place[:3, 3] = item.at
    mesh = solid_library("creation").box(extents=item.size, transform=place)
    mesh.visual.face_colors = ITEM_COLOUR
    return mesh
