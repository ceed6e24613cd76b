"""A layout of parts on boards."""

from dataclasses import dataclass

from shapely import Polygon

from foamwright.shape.model import Point


@dataclass(frozen=True, slots=True)
class Placement:
    """One part on one board.

    The part's flat frame is turned over if mirrored (x to -x), then turned by angle, then moved by
    (dx, dy).

    Attributes:
        part_id: [-]
        board: Index from 0; off-cuts come after the whole boards.
        angle: Counter-clockwise. [rad]
        dx: [m]
        dy: [m]
        outline: The outline as it lies on the board. [m]
        mirrored: Whether the part lies turned over.
    """

    part_id: str
    board: int
    angle: float
    dx: float
    dy: float
    outline: Polygon
    mirrored: bool = False


@dataclass(frozen=True, slots=True)
class Bench:
    """The boards that parts are cut from.

    Attributes:
        length: Long side of a whole board, along the paper's grain. [m]
        width: Short side. [m]
        gap: Least distance between parts. [m]
        margin: Least distance to a board's edge. [m]
        offcuts: Length and width of each part-used piece, used before whole boards. [m]
    """

    length: float
    width: float
    gap: float
    margin: float
    offcuts: tuple[tuple[float, float], ...] = ()

    @property
    def sizes(self) -> tuple[tuple[float, float], ...]:
        """Every size to be had, whole boards first. [m]."""
        return ((self.length, self.width), *self.offcuts)


@dataclass(frozen=True, slots=True)
class Layout:
    """All board parts placed, on whole boards first and then on off-cuts.

    Attributes:
        placements: One per part.
        boards_used: Whole boards. [-]
        board_length: Of a whole board. [m]
        board_width: Of a whole board. [m]
        gap: Between parts. [m]
        margin: To the board's edge. [m]
        fill: Part area over area of the boards and off-cuts used. [-]
        method: "draft", or "search" when a search found it or could not better it.
        unplaced: Ids of board parts that fit no board whichever way they are turned.
        offcuts: Length and width of each off-cut used. [m]
    """

    placements: tuple[Placement, ...]
    boards_used: int
    board_length: float
    board_width: float
    gap: float
    margin: float
    fill: float
    method: str
    unplaced: tuple[str, ...] = ()
    offcuts: tuple[tuple[float, float], ...] = ()

    @property
    def sizes(self) -> tuple[tuple[float, float], ...]:
        """Length and width of every board and off-cut used, by index. [m]."""
        whole = (self.board_length, self.board_width)
        return (*(whole for _ in range(self.boards_used)), *self.offcuts)


@dataclass(frozen=True, slots=True)
class Heading:
    """What a set of drawings says about the plane.

    Attributes:
        plane: Name of the plane.
        stock: Name of the board.
        units: "metric" or "inch".
        mass: All-up mass in words; "" when not known.
        date: Date printed on the sheets in words; "" prints none, so that files stay the same.
    """

    plane: str
    stock: str = ""
    units: str = "metric"
    mass: str = ""
    date: str = ""


@dataclass(frozen=True, slots=True)
class Machine:
    """What printer and cutter do to a drawing, so that it can be made up for.

    Attributes:
        printer_scale: What the printer makes of 100 mm, over 100 mm. [-]
        kerf: Width of the slot that the cutting machine leaves; 0 for a knife. [m]
    """

    printer_scale: float = 1.0
    kerf: float = 0.0


@dataclass(frozen=True, slots=True)
class Stroke:
    """One line of a drawing.

    Attributes:
        kind: A `parts.model.LineKind` value, "board" (a board's edge) or "note" (arrows, ticks).
        points: Corners in the drawing's frame, y up. [m]
        closed: Whether the last corner joins the first.
        part: Id of the part it belongs to; "" for none.
    """

    kind: str
    points: tuple[Point, ...]
    closed: bool = False
    part: str = ""


@dataclass(frozen=True, slots=True)
class Text:
    """One line of words on a drawing.

    Attributes:
        words: What it says.
        at: Middle of the words, both ways, in the drawing's frame. [m]
        size: Height of the type (em). [m]
        angle: Reading direction, counter-clockwise. [rad]
        bold: Whether it is set bold.
        part: Id of the part it belongs to; "" for none.
    """

    words: str
    at: Point
    size: float
    angle: float = 0.0
    bold: bool = False
    part: str = ""


@dataclass(frozen=True, slots=True)
class Drawing:
    """A board, or a page of templates, at true size.

    Attributes:
        name: Such as "Board 1 of 3".
        length: Along x. [m]
        width: Along y. [m]
        strokes: All lines.
        texts: All words.
        key: Call-out number -> words, for parts too small to be written on.
        part_ids: Parts on it, in order.
    """

    name: str
    length: float
    width: float
    strokes: tuple[Stroke, ...]
    texts: tuple[Text, ...]
    key: tuple[str, ...] = ()
    part_ids: tuple[str, ...] = ()
