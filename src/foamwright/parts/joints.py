"""Where a piece longer than the board is split, staggered from the joints around it."""

import math
from dataclasses import dataclass

from foamwright.core.errors import DesignError

STAGGER = 0.08  # m between joints of neighbouring layers; common practice
HOLE_EDGE = 0.01  # m of board between a joint and a hole; common practice
MOST_PIECES = 20  # of one strip; a longer one is a slip of the unit
LETTERS = "abcdefghijklmnopqrstuvwxyz"
STEP = 0.005  # m between the places tried


def split_places(
    length: float,
    longest: float,
    *,
    avoid: tuple[float, ...] = (),
    keep_out: tuple[tuple[float, float], ...] = (),
    field: str = "board.length",
    stagger: float = STAGGER,
) -> tuple[float, ...]:
    """Joints along a piece so that no part of it is longer than a board.

    As few joints as possible, each as near to an even share as keeps it `stagger` away from the
    joints to avoid and from both ends, and clear of holes where there is such a place.

    Args:
        length: Of the whole piece. [m]
        longest: Longest part that fits. [m]
        avoid: Places of other joints along it. [m]
        keep_out: (start, end) of holes along it, which no joint should cross. [m]
        field: Design key to name when there is no such place. [-]
        stagger: Least distance to other joints and ends. [m]

    Returns:
        Places of the joints; empty when it fits in one. [m]

    Raises:
        DesignError: No place is far enough from the other joints.

    Source:
        Common practice: stagger joints by at least 80 mm.

    Example:
        >>> split_places(1.0, 0.75)
        (0.5,)
        >>> split_places(1.0, 0.75, avoid=(0.5,))
        (0.42,)
    """
    if length <= longest:
        return ()
    if length > MOST_PIECES * longest:
        raise DesignError(
            field,
            f"{length:.2f}\u00a0m",
            f"it would take more than {MOST_PIECES} pieces of {1000 * longest:.0f}\u00a0mm",
            "Check the unit.",
        )
    for holes in (keep_out, ()) if keep_out else ((),):
        for extra in range(3):
            count = math.ceil(length / longest - 1e-9) - 1 + extra
            places = _try_even(length, longest, count, _Clear(stagger, avoid, holes))
            if places is not None:
                return places
    raise DesignError(
        field,
        f"{1000 * length:.0f}\u00a0mm to split into {1000 * longest:.0f}\u00a0mm pieces",
        f"no joint keeps {1000 * stagger:.0f}\u00a0mm from the other joints",
        "Use a longer board or a shorter panel.",
    )


@dataclass(frozen=True, slots=True)
class _Clear:
    """What a joint keeps away from."""

    stagger: float
    avoid: tuple[float, ...]
    holes: tuple[tuple[float, float], ...]

    def of(self, place: float) -> bool:
        return all(abs(place - other) >= self.stagger - 1e-9 for other in self.avoid) and all(
            not a - HOLE_EDGE < place < b + HOLE_EDGE for a, b in self.holes
        )


def _try_even(length: float, longest: float, count: int, clear: _Clear) -> tuple[float, ...] | None:
    stagger = clear.stagger
    places: list[float] = []
    for index in range(count):
        start = places[-1] if places else 0.0
        left = count - index  # joints still to set, this one included
        wanted = start + (length - start) / (left + 1)
        low = max(start + stagger, length - left * longest)
        high = min(start + longest, length - stagger * left)
        tries = (
            wanted + sign * n * STEP
            for n in range(int(length / STEP) + 1)
            for sign in ((-1,) if n == 0 else (-1, 1))
        )
        good = next(
            (
                round(place, 6)
                for place in tries
                if low - 1e-9 <= place <= high + 1e-9 and clear.of(place)
            ),
            None,
        )
        if good is None:
            return None
        places.append(good)
    return tuple(places)
