"""What the bench must offer to cut the parts: blade, ruler, and how fine the pieces are."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
import shapely
from numpy.typing import NDArray

from foamwright.parts.model import LineKind, Part, Source

HALVINGS = 8  # of the search for a neck's width: to 1/256 of the widest tried
WIDEST_NECK = 0.04  # m; no need to tell wider ones apart
BLADE_BITE = 0.002  # m that a blade must stand out below the board; common practice
SHORT_RULER = 0.6  # m, the usual ruler on a bench; common practice
STICK_BEDS = ("spar strip",)  # kinds whose channels take sticks, not board
FOIL = 0.003  # m; a slot this much wider than the board is not meant for it; assumed

type Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Slot:
    """A narrow opening that a board goes through.

    Attributes:
        part: Id of the part it is in.
        width: [m]
        board: Thickness of what goes through. [m]
    """

    part: str
    width: float
    board: float

    @property
    def play(self) -> float:
        """Width beyond the board's thickness [m]; negative is too tight."""
        return self.width - self.board


@dataclass(frozen=True, slots=True)
class CuttingNeeds:
    """What the bench must offer.

    Attributes:
        blade_reach: Length of blade out of its holder, square cuts and slanted ones. [m]
        blade_part: Id of the part that asks for it.
        longest_cut: Longest straight cut or line. [m]
        longest_part: Id of the part that has it.
        long_parts: Ids of the parts with a straight cut longer than the ruler.
        least_width: Narrowest neck of a board part. [m]
        narrow_part: Id of the part that has it; "" when all are wider than 40 mm.
        slots: Slots for board, with their widths.
    """

    blade_reach: float
    blade_part: str
    longest_cut: float
    longest_part: str
    long_parts: tuple[str, ...]
    least_width: float
    narrow_part: str
    slots: tuple[Slot, ...]


def cutting_needs(parts: Sequence[Part], *, ruler: float = SHORT_RULER) -> CuttingNeeds:
    """Blade, ruler and fineness that the board parts ask for.

    Args:
        parts: All parts; those not cut from board are passed over. [-]
        ruler: Length of the ruler on the bench. [m]

    Returns:
        The needs; zeros when nothing is cut from board.

    Valid:
        Necks are found to 0.2 mm.

    Source:
        Geometry; 2 mm of blade below the board is common practice.

    Example:
        >>> cutting_needs(()).long_parts
        ()
    """
    board = [part for part in parts if part.source is Source.BOARD]
    if not board:
        return CuttingNeeds(0.0, "", 0.0, "", (), 0.0, "", ())
    reach = [_reach(part) for part in board]
    long = [_longest(part) for part in board]
    neck, thin = _neck(board)
    widest = int(np.argmax(reach))
    far = int(np.argmax(long))
    return CuttingNeeds(
        blade_reach=reach[widest],
        blade_part=board[widest].id,
        longest_cut=long[far],
        longest_part=board[far].id,
        long_parts=tuple(p.id for p, cut in zip(board, long, strict=True) if cut > ruler),
        least_width=neck,
        narrow_part=board[thin].id if neck < 0.99 * WIDEST_NECK else "",
        slots=tuple(slot for part in board if part.kind not in STICK_BEDS for slot in _slots(part)),
    )


def _reach(part: Part) -> float:
    """A hinge bevel is cut at 45°, so its blade must reach the root of two times as far."""
    slanted = any(line.kind is LineKind.BEVEL and "45" in line.label for line in part.lines)
    return part.thickness * (math.sqrt(2.0) if slanted else 1.0) + BLADE_BITE


def _longest(part: Part) -> float:
    """Longest straight stretch of outline or line; points in one line count as one stretch."""
    rings = [part.outline.exterior, *part.outline.interiors]
    plain: Any = shapely.simplify(np.array(rings), 1e-5)
    rows = [shapely.get_coordinates(ring) for ring in plain]
    rows += [np.array(line.points) for line in part.lines]
    return max(float(np.hypot(*np.diff(row, axis=0).T).max()) for row in rows)


def _neck(parts: Sequence[Part]) -> tuple[float, int]:
    """Narrowest neck of all parts, and whose it is: eroded by half of it, that part falls apart.

    Halving asks all parts at first, later only those that are as narrow as the last width tried.
    """
    outlines: Any = np.array([part.outline for part in parts])
    left = np.arange(len(parts))
    low, high = 0.0, WIDEST_NECK
    for _ in range(HALVINGS):
        middle = 0.5 * (low + high)
        eroded: Any = shapely.buffer(outlines[left], -0.5 * middle, join_style="mitre", quad_segs=2)
        holes = shapely.get_num_interior_rings(outlines[left])
        # A hole that breaks through to the edge shows as a hole less.
        whole = (shapely.get_num_geometries(eroded) == 1) & ~shapely.is_empty(eroded)
        whole &= shapely.get_num_interior_rings(eroded) >= holes
        if whole.all():
            low = middle
        else:
            left, high = left[~whole], middle
    return 0.5 * (low + high), int(left[0])


def _slots(part: Part) -> list[Slot]:
    found: list[Slot] = []
    for hole in part.outline.interiors:
        corners = shapely.get_coordinates(shapely.simplify(hole, 1e-6))
        if len(corners) != 5:
            continue
        sides = np.hypot(*np.diff(corners, axis=0).T)
        width = float(min(sides))
        if abs(width - part.thickness) < FOIL:
            found.append(Slot(part.id, width, part.thickness))
    return found
