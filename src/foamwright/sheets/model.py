"""A layout of parts on boards."""

from dataclasses import dataclass

from shapely import Polygon


@dataclass(frozen=True, slots=True)
class Placement:
    """One part on one board.

    The part's flat frame is turned by angle and then moved by (dx, dy).

    Attributes:
        part_id: [-]
        board: Index from 0.
        angle: Counter-clockwise. [rad]
        dx: [m]
        dy: [m]
        outline: The outline as it lies on the board. [m]
    """

    part_id: str
    board: int
    angle: float
    dx: float
    dy: float
    outline: Polygon


@dataclass(frozen=True, slots=True)
class Layout:
    """All board parts placed.

    Attributes:
        placements: One per part.
        boards_used: [-]
        board_length: [m]
        board_width: [m]
        gap: Between parts. [m]
        margin: To the board's edge. [m]
        fill: Part area over area of the boards used. [-]
        method: "draft" or "search".
        unplaced: Ids of board parts that fit no board whichever way they are turned.
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
