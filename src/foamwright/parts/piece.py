"""Parts while they are drawn: plain arrays, made into polygons all at once at the end."""

from dataclasses import dataclass, replace
from typing import Any

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely import LineString, Polygon
from shapely.geometry.polygon import orient

from foamwright.core.bands import Band
from foamwright.parts.material import scaled
from foamwright.parts.model import Facet, Line, LineKind, Part, Source
from foamwright.parts.shaving import share_left
from foamwright.shape.model import Point, Vector

UNCUT = "Its cut-outs are left off: they would cut it in two."

type Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Flat:
    """A facet before it has a polygon: its ring in the flat frame and its place.

    Attributes:
        ring: Rows (u, v). [m]
        origin: Place of the flat frame's origin. [m]
        along: Unit vector of u.
        across: Unit vector of v.
        thickness: [m]
    """

    ring: Array
    origin: Array
    along: Array
    across: Array
    thickness: float


@dataclass(frozen=True, slots=True)
class Piece:
    """A part before it has polygons; fields as in Part.

    Attributes:
        id: Unique short name.
        name: In trade words.
        kind: Same for pieces of one kind.
        stock: Name in stock.
        source: What it is cut from.
        ring: Outline, rows (u, v). [m]
        areal_mass: [kg/m²]
        thickness: [m]
        flats: Where it is on the plane.
        lines: On it, besides the outline.
        side: "left", "right" or "".
        mirrored_of: Id of the part whose mirror image it is.
        fold_along: Direction that folds follow.
        notes: For the builder.
        cuts: Rings taken out of the outline: holes, slots, notches. [m]
        either_face: Whether it may be cut turned over.
    """

    id: str
    name: str
    kind: str
    stock: str
    source: Source
    ring: Array
    areal_mass: Band
    thickness: float
    flats: tuple[Flat, ...]
    lines: tuple[Line, ...] = ()
    side: str = ""
    mirrored_of: str = ""
    fold_along: Point | None = None
    notes: str = ""
    cuts: tuple[Array, ...] = ()
    either_face: bool = False


def rectangle(length: float, width: float, *, at: Point = (0.0, 0.0)) -> Array:
    """Ring of a rectangle, counter-clockwise.

    Args:
        length: Along u. [m]
        width: Along v. [m]
        at: Its first corner. [m]

    Returns:
        Four corners. [m]

    Source:
        Definition.

    Example:
        >>> rectangle(2.0, 1.0).tolist()
        [[0.0, 0.0], [2.0, 0.0], [2.0, 1.0], [0.0, 1.0]]
    """
    u, v = at
    return np.array([[u, v], [u + length, v], [u + length, v + width], [u, v + width]])


def mirrored(piece: Piece, *, id: str, side: str) -> Piece:
    """The same piece for the other side of the plane: a true mirror image.

    u turns to -u in the flat frame, y to -y on the plane.

    Args:
        piece: The original. [-]
        id: Of the mirror image. [-]
        side: Of the mirror image. [-]

    Returns:
        The mirror image.

    Source:
        Definition.

    Example:
        >>> mirrored(piece, id="rib-left", side="left").mirrored_of  # doctest: +SKIP
        'rib-right'
    """
    flip, over = np.array([-1.0, 1.0]), np.array([1.0, -1.0, 1.0])
    flats = tuple(
        Flat(
            flat.ring[::-1] * flip,
            flat.origin * over,
            -flat.along * over,
            flat.across * over,
            flat.thickness,
        )
        for flat in piece.flats
    )
    lines = tuple(
        replace(line, points=tuple((-u, v) for u, v in line.points)) for line in piece.lines
    )
    fold = piece.fold_along
    return replace(
        piece,
        id=id,
        side=side,
        ring=piece.ring[::-1] * flip,
        flats=flats,
        lines=lines,
        cuts=tuple(cut[::-1] * flip for cut in piece.cuts),
        mirrored_of=piece.id,
        fold_along=None if fold is None else (-fold[0] if fold[1] else fold[0], fold[1]),
    )


def pair(piece: Piece) -> list[Piece]:
    """The right piece and its mirror image on the left.

    Args:
        piece: The right one, its id ending in "-right". [-]

    Returns:
        Both.

    Source:
        Definition.

    Example:
        >>> [p.side for p in pair(piece)]  # doctest: +SKIP
        ['right', 'left']
    """
    other = piece.id.removesuffix("right") + "left"
    return [replace(piece, side="right"), mirrored(piece, id=other, side="left")]


def on_part(ring: Array, line: Line) -> tuple[Line, ...]:
    """The stretches of a line that lie on a part.

    Args:
        ring: Outline of the part. [m]
        line: A line. [-]

    Returns:
        None, one or several; each with the line's kind and words.

    Source:
        Geometry.

    Example:
        >>> line = Line(LineKind.BEVEL, ((0.0, 0.5), (3.0, 0.5)))
        >>> on_part(rectangle(2.0, 1.0), line)[0].points
        ((0.0, 0.5), (2.0, 0.5))
    """
    kept: Any = Polygon(ring).intersection(LineString(line.points))
    if kept.is_empty:
        return ()
    stretches = getattr(kept, "geoms", (kept,))
    return tuple(
        replace(line, points=tuple((float(u), float(v)) for u, v in stretch.coords))
        for stretch in stretches
        if isinstance(stretch, LineString)
    )


def finish(pieces: list[Piece]) -> tuple[Part, ...]:
    """Make all polygons in one go and hand the pieces out as parts.

    Args:
        pieces: Drawn pieces. [-]

    Returns:
        Parts, outlines counter-clockwise.

    Source:
        Definition.

    Example:
        >>> finish([])
        ()
    """
    rings = [p.ring for p in pieces] + [flat.ring for p in pieces for flat in p.flats]
    if not rings:
        return ()
    polygons: Any = _polygons(rings)
    outlines, faces = polygons[: len(pieces)], iter(polygons[len(pieces) :])
    parts: list[Part] = []
    for piece, whole in zip(pieces, outlines, strict=True):
        outline = whole
        own = [next(faces) for _ in piece.flats]
        notes = piece.notes
        if piece.cuts:
            outline, own = _cut_out(piece, whole, own)
            notes = f"{notes} {UNCUT}".strip() if outline is whole else notes
        areal = piece.areal_mass
        if any(line.depth or line.kind is LineKind.CUT for line in piece.lines):
            areal = scaled(areal, share_left(outline, piece.lines, piece.thickness))
        facets = tuple(
            Facet(
                polygon=face,
                origin=_vector(flat.origin),
                along=_vector(flat.along),
                across=_vector(flat.across),
                thickness=flat.thickness,
            )
            for flat, face in zip(piece.flats, own, strict=True)
            if not face.is_empty
        )
        parts.append(
            Part(
                id=piece.id,
                name=piece.name,
                kind=piece.kind,
                side=piece.side,
                stock=piece.stock,
                source=piece.source,
                outline=outline,
                lines=piece.lines,
                facets=facets,
                areal_mass=areal,
                thickness=piece.thickness,
                mirrored_of=piece.mirrored_of,
                fold_along=piece.fold_along,
                either_face=piece.either_face,
                notes=notes,
            )
        )
    return tuple(parts)


def _vector(array: Array) -> Vector:
    x, y, z = array.tolist()
    return (x, y, z)


def _polygons(rings: list[Array]) -> Any:  # noqa: ANN401 - arrays of geometries have no type
    owner = np.repeat(np.arange(len(rings)), [len(ring) for ring in rings])
    drawn: Any = shapely.linearrings(np.concatenate(rings), indices=owner)
    wrong = ~shapely.is_ccw(drawn)
    drawn[wrong] = shapely.reverse(drawn[wrong])
    return shapely.polygons(drawn)


def _cut_out(piece: Piece, whole: Polygon, faces: list[Polygon]) -> tuple[Polygon, list[Polygon]]:
    """Take the holes and notches out of the outline and out of the facets they lie in."""
    gone: Any = shapely.union_all(_polygons(list(piece.cuts)))
    rest: Any = shapely.difference(whole, gone)
    own: Any = [shapely.difference(face, gone) for face in faces]
    if not all(isinstance(shape, Polygon) for shape in (rest, *own)):
        return whole, faces
    return orient(rest), [orient(face) if not face.is_empty else face for face in own]
