"""Line drawings made from the geometry of just the parts of a step."""

import math
from collections.abc import Sequence
from dataclasses import replace

import numpy as np
from shapely import Polygon

from foamwright.book.model import Patch, Picture, Point
from foamwright.parts.model import Facet, Item, LineKind, Part
from foamwright.sheets.styles import STYLES

CAMERA = (-0.62, -0.55, 0.56)  # from the plane to the eye: ahead, left, above
APART = 0.16  # of the picture's size between exploded layers
SAME = 1.5e-3  # m, centres nearer than this along the normal lie in one layer
COARSE = 4e-4  # m, detail left out
BACKGROUND = 0.62  # grey of what is there already
CROWDED = 0.032  # of the picture's size, least distance of two numbers
GAP = 0.012  # m between flat parts
BLADE = (
    (0.04, 0.06),
    (0.2, 0.1),
    (0.45, 0.14),
    (0.75, 0.11),
    (0.95, 0.06),
    (1.0, 0.0),
)  # place and half width of a drawn blade, of the radius; a shape to know it by
BLADE_AT = math.radians(70.0)  # where the first stands, from the right wing upwards
HUB = 0.08  # of the radius

type Array = np.ndarray


def exploded(
    parts: Sequence[Part], onto: Sequence[Part] = (), *, items: Sequence[Item] = (), blades: int = 2
) -> Picture:
    """Parts of a step pulled apart and numbered, what is there already in grey.

    Parts move along the normal of their largest facet, layer by layer. Farther facets are drawn
    first, so that nearer ones cover them.

    Args:
        parts: Joined in this step. [-]
        onto: There already. [-]
        items: Bought things, drawn as boxes in their places, over everything; the propeller as
            its blades in the circle that they sweep. [-]
        blades: Of the propeller. [-]

    Returns:
        The drawing; numbers count parts, then items, from 1. [-]

    Source:
        Parallel projection, painter's order.

    Example:
        >>> exploded([part]).labels[0][0]
        '1'
    """
    frame = _frame()
    moves = _moves(parts)
    drawn: list[tuple[float, list[Patch]]] = []
    for part in onto:
        drawn += [_slab(facet, np.zeros(3), frame, BACKGROUND) for facet in part.facets]
    for part, move in zip(parts, moves, strict=True):
        drawn += [_slab(facet, move, frame, 0.0) for facet in part.facets]
    drawn.sort(key=lambda pair: pair[0])
    patches = tuple(patch for _, group in drawn for patch in group)
    for item in sorted(items, key=lambda item: float(frame[2] @ np.array(item.at))):
        swept = item.id == "propeller"
        patches += tuple(_propeller(item, frame, blades) if swept else _item_patches(item, frame))
    places = [_centre(part) + move for part, move in zip(parts, moves, strict=True)]
    places += [np.array(item.at) for item in items]
    labels = tuple((str(n), _flat(place, frame)) for n, place in enumerate(places, 1))
    labels = _spread(labels, _box(patches, ()))
    return Picture(patches, labels, _box(patches, labels))


def _frame() -> Array:
    """Right, up and towards the eye, as rows."""
    eye = np.array(CAMERA) / np.linalg.norm(CAMERA)
    right = np.cross((0.0, 0.0, 1.0), eye)
    right /= np.linalg.norm(right)
    return np.array([right, np.cross(eye, right), eye])


def _flat(point: Array, frame: Array) -> Point:
    return float(frame[0] @ point), float(frame[1] @ point)


def _corners(facet: Facet, ring: Sequence[Sequence[float]], lift: float) -> Array:
    along, across = np.array(facet.along), np.array(facet.across)
    flat = np.array([point[:2] for point in ring])
    normal = np.cross(along, across)
    return np.array(facet.origin) + flat[:, :1] * along + flat[:, 1:2] * across + lift * normal


def _slab(facet: Facet, move: Array, frame: Array, grey: float) -> tuple[float, list[Patch]]:
    """Depth and outlines of one facet: its edges that face the eye, then its face."""
    polygon = facet.polygon.simplify(COARSE)
    if polygon.is_empty or not isinstance(polygon, Polygon):
        polygon = facet.polygon
    normal = np.cross(facet.along, facet.across)
    facing = 1.0 if float(normal @ frame[2]) >= 0.0 else -1.0
    near, far = 0.5 * facing * facet.thickness, -0.5 * facing * facet.thickness
    outer = list(polygon.exterior.coords)
    top, bottom = (_corners(facet, outer, lift) + move for lift in (near, far))
    middle = top[:-1].mean(axis=0)
    patches = [
        _patch([np.array([top[i], top[i + 1], bottom[i + 1], bottom[i]])], frame, grey)
        for i in range(len(outer) - 1)
        if float(np.cross(top[i + 1] - top[i], normal) @ frame[2]) * _turn(polygon) > 0.0
    ]
    holes = [_corners(facet, list(hole.coords), near) + move for hole in polygon.interiors]
    patches.append(_patch([top, *holes], frame, grey))
    return float(middle @ frame[2]), patches


def _item_patches(item: Item, frame: Array) -> list[Patch]:
    """The three faces of a box that the eye sees."""
    half = np.maximum(0.5 * np.array(item.size), 1e-3)
    middle = np.array(item.at)
    patches: list[Patch] = []
    for axis in range(3):
        side = np.zeros(3)
        side[axis] = half[axis] * np.sign(frame[2][axis])
        one, two = np.zeros(3), np.zeros(3)
        one[(axis + 1) % 3], two[(axis + 2) % 3] = half[(axis + 1) % 3], half[(axis + 2) % 3]
        face = [middle + side + a * one + b * two for a, b in ((1, 1), (1, -1), (-1, -1), (-1, 1))]
        patches.append(_patch([np.array(face)], frame, 0.0))
    return patches


def _propeller(item: Item, frame: Array, blades: int) -> list[Patch]:
    """The circle that the blades sweep, and the blades in it."""
    around = np.linspace(0.0, 2.0 * math.pi, 49)[:-1]
    reach = 0.5 * item.size[1]

    def ring(radius: Array, angle: Array) -> Array:
        sides = radius * np.cos(angle), radius * np.sin(angle)
        return np.array(item.at) + np.stack([np.zeros_like(angle), *sides], axis=1)

    circle = _patch([ring(np.full(48, reach), around)], frame, 0.4)
    patches = [replace(circle, fill=None, dashes=(2.0, 2.0))]
    for blade in range(blades):
        middle = BLADE_AT + 2.0 * math.pi * blade / blades
        radius, half = reach * np.array(BLADE)[:, 0], reach * np.array(BLADE)[:, 1]
        off = np.arctan2(half, radius)
        radii, angles = np.hypot(radius, half), middle + np.stack([off, -off])
        outline = ring(np.r_[radii, radii[::-1]], np.r_[angles[0], angles[1][::-1]])
        patches.append(_patch([outline], frame, 0.0))
    patches.append(_patch([ring(np.full(48, HUB * reach), around)], frame, 0.0))
    return patches


def _spread(
    labels: tuple[tuple[str, Point], ...], box: tuple[float, float, float, float]
) -> tuple[tuple[str, Point], ...]:
    """Numbers moved apart where they would cover one another."""
    room = CROWDED * max(box[2] - box[0], box[3] - box[1])
    placed: list[tuple[str, Point]] = []
    for words, (x, y) in labels:
        spot = (x, y)
        for turn in range(40):
            angle, reach = 2.4 * turn, room * 0.55 * math.sqrt(turn)
            spot = (x + reach * math.cos(angle), y + reach * math.sin(angle))
            if all(math.dist(spot, other) >= room for _, other in placed):
                break
        placed.append((words, spot))
    return tuple(placed)


def _turn(polygon: Polygon) -> float:
    return 1.0 if polygon.exterior.is_ccw else -1.0


def _patch(rings: Sequence[Array], frame: Array, grey: float) -> Patch:
    flat = tuple(tuple(_flat(point, frame) for point in ring) for ring in rings)
    return Patch(flat, grey, 1.0)


def _centre(part: Part) -> Array:
    sums, area = np.zeros(3), 0.0
    for facet in part.facets:
        size = float(facet.polygon.area)
        point = facet.polygon.centroid
        sums += size * _corners(facet, [(point.x, point.y)], 0.0)[0]
        area += size
    return sums / max(area, 1e-12)


def _normal(part: Part) -> Array:
    facet = max(part.facets, key=lambda one: one.polygon.area)
    normal = np.cross(facet.along, facet.across)
    lead = int(np.abs(normal).argmax())
    return normal * (1.0 if normal[lead] >= 0 else -1.0)


def _moves(parts: Sequence[Part]) -> list[Array]:
    """How far each part is pulled off its place."""
    if len(parts) < 2:
        return [np.zeros(3) for _ in parts]
    centres = [_centre(part) for part in parts]
    normals = [_normal(part) for part in parts]
    corners = np.concatenate(
        [_corners(f, list(f.polygon.exterior.coords), 0.0) for part in parts for f in part.facets]
    )
    gap = APART * min(float(np.ptp(corners, axis=0).max()), 0.8)
    moves: list[Array] = []
    for place, normal in enumerate(normals):
        alike = [i for i, other in enumerate(normals) if abs(float(other @ normal)) > 0.95]
        heights = sorted({round(float(centres[i] @ normal) / SAME) for i in alike})
        rank = heights.index(round(float(centres[place] @ normal) / SAME))
        shift = (rank - 0.5 * (len(heights) - 1)) * gap
        if len(alike) == 1:  # alone of its kind: off from the rest
            away = float((centres[place] - np.mean(centres, axis=0)) @ normal)
            shift = math.copysign(gap, away) if abs(away) > SAME else gap
        moves.append(shift * normal)
    return moves


def flat_patterns(parts: Sequence[Part], *, width: float = 1.6) -> Picture:
    """Parts as cut, with their lines, laid in rows; alike ones once.

    Args:
        parts: To draw. [-]
        width: Of a row. [m]

    Returns:
        The drawing; numbers count the kinds from 1. [-]

    Source:
        Definition.

    Example:
        >>> flat_patterns([part]).box[0]
        0.0
    """
    patches: list[Patch] = []
    labels: list[tuple[str, Point]] = []
    x = y = depth = 0.0
    for number, part in enumerate(parts):
        turn = _lengthwise(part)
        rings = [np.array(ring.coords) @ turn for ring in (part.outline.exterior,
                                                           *part.outline.interiors)]  # fmt: skip
        low, high = rings[0].min(axis=0), rings[0].max(axis=0)
        size = high - low
        if x and x + size[0] > width:
            x, y, depth = 0.0, y - depth - GAP, 0.0
        move = np.array([x, y - size[1]]) - low
        patches.append(Patch(tuple(_points(ring + move) for ring in rings), 0.0, 1.0))
        patches += [
            Patch((_points(np.array(line.points) @ turn + move),), 0.25, None, closed=False,
                  dashes=_dashes(line.kind))
            for line in part.lines
        ]  # fmt: skip
        labels.append((str(number + 1), (x + float(size[0]) / 2, y - float(size[1]) / 2)))
        x += float(size[0]) + GAP
        depth = max(depth, float(size[1]))
    placed = _spread(tuple(labels), _box(patches, ()))
    return Picture(tuple(patches), placed, _box(patches, placed))


def _dashes(kind: LineKind) -> tuple[float, ...]:
    return tuple(float(value) for value in STYLES[kind.value].dash)


def _lengthwise(part: Part) -> Array:
    west, south, east, north = part.outline.bounds
    if east - west >= north - south:
        return np.eye(2)
    return np.array([[0.0, 1.0], [-1.0, 0.0]])


def _points(ring: Array) -> tuple[Point, ...]:
    return tuple((float(x), float(y)) for x, y in ring[:, :2])


def _box(
    patches: Sequence[Patch], labels: Sequence[tuple[str, Point]]
) -> tuple[float, float, float, float]:
    points = [point for patch in patches for ring in patch.rings for point in ring]
    points += [place for _, place in labels]
    if not points:
        return 0.0, 0.0, 1e-3, 1e-3
    xs, ys = zip(*points, strict=True)
    return min(xs), min(ys), max(xs), max(ys)
