"""What the parts list is made of."""

from dataclasses import dataclass
from enum import StrEnum

from shapely import Polygon

from foamwright.core.bands import Band
from foamwright.shape.model import Point, Vector


class LineKind(StrEnum):
    """What the knife or the pencil does along a line."""

    CUT = "cut"  # through everything
    SCORE = "score"  # top paper and foam, far paper kept
    CREASE = "crease"  # paper dented only
    FOLD = "fold"  # a strip of foam taken out, then folded
    BEVEL = "bevel"  # foam cut at a slant up to this line
    MARK = "mark"  # pencil only


@dataclass(frozen=True, slots=True)
class Line:
    """A line on a part besides its outline.

    Attributes:
        kind: What is done along it.
        points: Polyline in the part's flat frame. [m]
        label: Short words beside it.
        depth: Of a bevel: how much of the thickness is gone at the edge beyond it. Positive: cut
            from the underside, the face that along x across points away from; negative: from the
            drawn face; 0 where the bevel's mass and shape are reckoned elsewhere. [m]
    """

    kind: LineKind
    points: tuple[Point, ...]
    label: str = ""
    depth: float = 0.0


@dataclass(frozen=True, slots=True)
class Facet:
    """A flat piece of a part in its place on the plane.

    A point (u, v) of the flat frame lies at origin + u * along + v * across.

    Attributes:
        polygon: The piece in the flat frame. [m]
        origin: [m]
        along: Unit vector of u.
        across: Unit vector of v.
        thickness: Of the material, spread evenly to both sides of the facet's plane. [m]
    """

    polygon: Polygon
    origin: Vector
    along: Vector
    across: Vector
    thickness: float


class Source(StrEnum):
    """What a part is cut from."""

    BOARD = "board"  # nested on the boards
    PLY = "ply"  # printed as a template
    LENGTH = "length"  # stick, dowel, rod or wire cut to length
    TAPE = "tape"  # tape or film cut to length


@dataclass(frozen=True, slots=True)
class Part:
    """One physical piece to cut.

    Attributes:
        id: Unique short name, such as "wing-skin-right".
        name: In trade words, such as "wing skin".
        kind: Same for pieces of one kind, such as "spar strip"; the cut list groups by it.
        side: "left", "right" or "" for pieces that have none.
        stock: Name in stock.
        source: What it is cut from.
        outline: Flat outline, counter-clockwise, holes allowed. [m]
        lines: Score, crease, fold, bevel and mark lines.
        facets: Where its pieces are on the plane.
        areal_mass: Mass per flat area. [kg/m²]
        thickness: [m]
        mirrored_of: Id of the part whose mirror image it is; "" for none.
        fold_along: Unit vector that folds and grain follow in the flat frame; None when free.
        notes: What the builder must know: outside face, splice, glue face.
        either_face: Whether it may be cut turned over: both its faces are alike, none has lines.
    """

    id: str
    name: str
    kind: str
    side: str
    stock: str
    source: Source
    outline: Polygon
    lines: tuple[Line, ...]
    facets: tuple[Facet, ...]
    areal_mass: Band
    thickness: float
    mirrored_of: str = ""
    fold_along: Point | None = None
    notes: str = ""
    either_face: bool = False

    @property
    def mass(self) -> float:
        """Typical mass [kg]: area times areal mass."""
        return float(self.outline.area) * self.areal_mass.typical


@dataclass(frozen=True, slots=True)
class Item:
    """Something bought or poured: motor, pack, glue, servo, bands.

    Attributes:
        id: Unique short name, such as "pack".
        name: In trade words.
        stock: Name in stock; "" when the design gives it all.
        mass: [kg]
        at: Its centre. [m]
        size: Box along x, y, z. [m]
    """

    id: str
    name: str
    stock: str
    mass: Band
    at: Vector
    size: Vector


@dataclass(frozen=True, slots=True)
class PartsList:
    """Everything the plane is made of.

    Attributes:
        parts: Pieces to cut.
        items: Things to buy or pour.
    """

    parts: tuple[Part, ...]
    items: tuple[Item, ...]
