"""Sticks shorter than the run they stiffen: how they lap, away from the other joints."""

import math
from collections.abc import Sequence
from itertools import pairwise

from foamwright.core.errors import DesignError
from foamwright.parts.joints import MOST_PIECES

LAP_SLOPE = 12.0  # times the thinner side; wood is scarfed 1 in 8 to 1 in 12 [WOODHANDBOOK]
LEAST_LAP = 0.02  # m; common practice
MOST_LAP = 0.33  # of a stick; assumed
SHORTEST_START = 0.4  # of a stick: the first piece is cut no shorter than that; assumed
TRIES = 13  # lengths of the first piece that are tried

type Stretch = tuple[float, float]


def lap_length(thin: float, longest: float) -> float:
    """How far one stick runs beside the next.

    Twelve times the thinner side, at least 20 mm and at most a third of a stick.

    Args:
        thin: Thinner side of the stick. [m]
        longest: Length of a stick. [m]

    Returns:
        The lap. [m]

    Source:
        Slope of scarf joints in wood [WOODHANDBOOK]; limits are common practice.

    Example:
        >>> round(lap_length(0.003, 0.3), 3)
        0.036
    """
    return min(max(LAP_SLOPE * thin, LEAST_LAP), MOST_LAP * longest)


def lapped(
    length: float,
    longest: float,
    *,
    lap: float,
    avoid: Sequence[float] = (),
    apart: float = 0.0,
    field: str = "wing.reinforcement",
) -> tuple[Stretch, ...]:
    """Pieces of stick that cover a length, each lapping the next.

    Full sticks from the start on; the first is cut shorter where that keeps the middle of every lap
    away from other joints, even if it takes a piece more. Where no cut keeps the whole distance,
    the one that keeps most of it is taken.

    Args:
        length: Of the whole run. [m]
        longest: Length of a stick. [m]
        lap: How far neighbours overlap. [m]
        avoid: Other joints along the run. [m]
        apart: Wanted distance of the laps' middles from them. [m]
        field: Design key to name when the run is far too long. [-]

    Returns:
        (start, end) of each piece. [m]

    Raises:
        DesignError: It would take more than 20 sticks.

    Source:
        Common practice: lap, and stagger from other joints.

    Example:
        >>> [(round(a, 2), round(b, 2)) for a, b in lapped(0.5, 0.3, lap=0.04)]
        [(0.0, 0.3), (0.26, 0.5)]
    """
    if length <= longest:
        return ((0.0, length),)
    count = math.ceil((length - lap) / (longest - lap) - 1e-9)
    if count > MOST_PIECES:
        raise DesignError(
            field,
            f"{length:.2f}\u00a0m",
            f"it would take more than {MOST_PIECES} sticks of {1000 * longest:.0f}\u00a0mm",
            "Take a longer stick, or check the unit.",
        )
    best: tuple[float, tuple[Stretch, ...]] | None = None
    for step in range(TRIES):
        first = longest * (1.0 - (1.0 - SHORTEST_START) * step / (TRIES - 1))
        pieces = _laid(length, longest, first, lap)
        middles = [0.5 * (b + c) for (_, b), (c, _) in pairwise(pieces)]
        near = min((abs(m - other) for m in middles for other in avoid), default=math.inf)
        if best is None or near > best[0] + 1e-9:
            best = (near, pieces)
        if near >= apart:
            break
    return best[1] if best is not None else ((0.0, length),)


def _laid(length: float, longest: float, first: float, lap: float) -> tuple[Stretch, ...]:
    pieces: list[Stretch] = [(0.0, first)]
    while pieces[-1][1] < length - 1e-9:
        start = pieces[-1][1] - lap
        pieces.append((start, min(start + longest, length)))
    start, end = pieces[-1]
    if end - start < 2.0 * lap:  # a last piece that is all lap: let it reach back further
        pieces[-1] = (max(end - 2.0 * lap, pieces[-2][0]), end)
    return tuple(pieces)
