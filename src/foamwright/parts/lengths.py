"""Which stick each length is cut from, so that off-cuts serve the short pieces."""

import math
from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass

from foamwright.parts.model import Part, Source
from foamwright.stock.model import Stock

SAW = 0.002  # m lost at a cut; common practice
USUAL_STICK = 0.9  # m, where stock does not say; common practice


@dataclass(frozen=True, slots=True)
class StickPlan:
    """How the pieces of one stock are cut from sticks.

    Attributes:
        stock: Name in stock.
        length: Of one stick as sold. [m]
        sticks: Ids of the parts that each stick gives, longest first.
        left: What is left of each stick. [m]
    """

    stock: str
    length: float
    sticks: tuple[tuple[str, ...], ...]
    left: tuple[float, ...]


def first_fit(pieces: Sequence[float], length: float) -> list[list[int]]:
    """Share pieces out over sticks: longest first, each into the first stick with room.

    Args:
        pieces: Their lengths. [m]
        length: Of a stick. [m]

    Returns:
        Numbers of the pieces in each stick; a piece longer than a stick has as many to itself as it
        is long, the further ones empty. [-]

    Source:
        First fit decreasing, common practice; 2 mm lost a cut.

    Example:
        >>> first_fit([0.09, 0.2, 0.15, 0.14], 0.3)
        [[1, 0], [2, 3]]
    """
    sticks: list[list[int]] = []
    rooms: list[float] = []
    for number in sorted(range(len(pieces)), key=lambda n: -pieces[n]):
        piece = pieces[number]
        if piece > length:
            more = math.ceil(piece / length - 1e-9)
            sticks += [[number], *([] for _ in range(more - 1))]
            rooms += [0.0] * more
            continue
        place = next((k for k, room in enumerate(rooms) if piece <= room + 1e-9), None)
        if place is None:
            sticks.append([])
            rooms.append(length)
            place = len(sticks) - 1
        sticks[place].append(number)
        rooms[place] -= piece + SAW
    return sticks


def stick_plans(parts: Sequence[Part], stock: Stock) -> tuple[StickPlan, ...]:
    """Cutting plan for everything that is cut to length, one a stock.

    Args:
        parts: All parts; tape and what is cut from board or ply is passed over. [-]
        stock: The stock tables. [-]

    Returns:
        The plans, in the order in which the stock is first asked for.

    Source:
        As `first_fit`.

    Example:
        >>> [plan.stock for plan in stick_plans(parts.parts, stock)][0]
        'hardwood dowel 1/4 in'
    """
    wanted: dict[str, list[Part]] = defaultdict(list)
    for part in parts:
        if part.source is Source.LENGTH:
            wanted[part.stock].append(part)
    plans: list[StickPlan] = []
    for name, pieces in wanted.items():
        rod = stock.rods.get(name)
        length = USUAL_STICK if rod is None else rod.length
        long = [_length(part) for part in pieces]
        sticks = first_fit(long, length)
        left = [max(length - sum(long[n] + SAW for n in stick), 0.0) for stick in sticks]
        ids = tuple(tuple(pieces[n].id for n in stick) for stick in sticks)
        plans.append(StickPlan(name, length, ids, tuple(left)))
    return tuple(plans)


def _length(part: Part) -> float:
    left, bottom, right, top = part.outline.bounds
    return max(right - left, top - bottom)
