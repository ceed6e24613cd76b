"""Over the joints of a spliced fuselage: tape and doublers."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from foamwright.parts.material import BoardWork
from foamwright.parts.model import Line, LineKind, Source
from foamwright.parts.openings import depth_at
from foamwright.parts.piece import Flat, Piece, mirrored, rectangle
from foamwright.parts.side_view import SideView
from foamwright.stock.model import TapeStock

DOUBLER_LENGTH = 0.10  # m, half to each side of the joint; common practice
DOUBLER_SHARE = 0.8  # of the fuselage's depth there; common practice
NEAR = 0.01  # m; a joint this near to layers glued outside it leaves no room; assumed
USUAL_WIDTH = 0.048  # m of tape, where stock does not say; common practice
FILM = 0.0001  # m, thickness given to tapes; it only places them

type Array = NDArray[np.float64]

X = np.array([1.0, 0.0, 0.0])
Y = np.array([0.0, 1.0, 0.0])
Z = np.array([0.0, 0.0, 1.0])


@dataclass(frozen=True, slots=True)
class Splice:
    """Where an outermost layer is joined.

    Attributes:
        layer: From 0, left to right.
        y: Its middle. [m]
        places: Its joints. [m]
        covered: (start, end) of the layers glued outside it, which do a doubler's work. [m]
    """

    layer: int
    y: float
    places: tuple[float, ...]
    covered: tuple[tuple[float, float], ...]


def joint_covers(
    board: BoardWork, view: SideView, splice: Splice, *, cuts: Sequence[Array]
) -> list[Piece]:
    """A doubler of board on the outside of every joint of an outermost layer.

    Inner layers need none: their neighbours run past the joint.

    Args:
        board: The design's board. [-]
        view: Side view of this layer. [-]
        splice: The layer and its joints. [-]
        cuts: Holes of the fuselage, which go through the doubler too. [m]

    Returns:
        The doublers; both sides for a single layer; none under nose or shoulder layers.

    Source:
        Common practice.

    Example:
        >>> joint_covers(board, view, splice, cuts=())  # doctest: +SKIP
        []
    """
    pieces: list[Piece] = []
    for number, place in enumerate(splice.places):
        low, high = place - 0.5 * DOUBLER_LENGTH, place + 0.5 * DOUBLER_LENGTH
        if any(a - NEAR < place < b + NEAR for a, b in splice.covered):
            continue
        for a, b in splice.covered:
            low = max(low, b) if b <= place else low
            high = min(high, a) if a >= place else high
        ring = _over(view, (max(low, 0.0), place, min(high, float(view.top[-1, 0]))))
        out = abs(splice.y) + board.thickness
        left = Piece(
            id=f"fuselage-doubler-{splice.layer + 1}-{number + 1}-left",
            name="fuselage splice doubler",
            kind="fuselage splice doubler",
            stock=board.name,
            source=Source.BOARD,
            ring=ring,
            areal_mass=board.areal_mass,
            thickness=board.thickness,
            flats=(Flat(ring, np.array([0.0, -out, 0.0]), X, Z, board.thickness),),
            lines=(Line(LineKind.MARK, ((place, ring[1, 1]), (place, ring[4, 1])), "joint"),),
            side="left",
            notes="Glued over the joint; the drawn face looks outwards.",
            cuts=tuple(c for c in cuts if c[:, 0].max() > low and c[:, 0].min() < high),
        )
        right = mirrored(left, id=left.id.removesuffix("left") + "right", side="right")
        if abs(splice.y) < 1e-9:
            pieces += [left, right]
        else:
            pieces.append(left if splice.y < 0.0 else replace(right, mirrored_of=""))
    return pieces


def joint_tapes(tape: TapeStock, view: SideView, *, places: Sequence[float]) -> list[Piece]:
    """Tape along top and belly over every fuselage joint, across the edges of all layers.

    Args:
        tape: The stock entry. [-]
        view: Side view. [-]
        places: Joints. [m]

    Returns:
        Two lengths a joint.

    Source:
        Common practice.

    Example:
        >>> joint_tapes(tape, view, places=())  # doctest: +SKIP
        []
    """
    pieces: list[Piece] = []
    width, half = tape.width or USUAL_WIDTH, 0.5 * DOUBLER_LENGTH
    ring = rectangle(DOUBLER_LENGTH, width)
    for number, place in enumerate(sorted(places)):
        for edge, level in zip(("belly", "top"), depth_at(view, place), strict=True):
            flat = Flat(ring, np.array([place - half, -0.5 * width, level]), X, Y, FILM)
            pieces.append(
                Piece(
                    id=f"fuselage-tape-{number + 1}-{edge}",
                    name="fuselage joint tape",
                    kind="fuselage joint tape",
                    stock=tape.name,
                    source=Source.TAPE,
                    ring=ring,
                    areal_mass=tape.areal_mass,
                    thickness=FILM,
                    flats=(flat,),
                    notes="Lengthwise over the joint, its edges folded down the sides.",
                )
            )
    return pieces


def _over(view: SideView, places: tuple[float, float, float]) -> Array:
    """A plate across a joint that follows the side view, in its coordinates."""
    bottom: list[tuple[float, float]] = []
    top: list[tuple[float, float]] = []
    for x in places:
        low, high = depth_at(view, x)
        middle, deep = 0.5 * (low + high), 0.5 * DOUBLER_SHARE * (high - low)
        bottom.append((x, middle - deep))
        top.append((x, middle + deep))
    return np.array([*bottom, *top[::-1]])
