"""Find the first setting of a lever at which a check holds, asking as few planes as possible."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

MOST_TRIES = 10  # planes asked per lever
FIRST_SHARE = 6  # the first try goes this fraction of the way along the lever


@dataclass(frozen=True, slots=True)
class Solved:
    """A setting found.

    Attributes:
        index: Into the lever's steps.
        margin: There. [-]
        tries: Planes asked. [-]
        enough: Whether it reaches the wanted margin; if not, it is the best seen.
    """

    index: int
    margin: float
    tries: int
    enough: bool


def first_enough(
    margin_at: Callable[[int], float | None],
    count: int,
    *,
    present: float,
    wanted: float,
    most: int = MOST_TRIES,
) -> Solved | None:
    """First of some ordered settings whose margin is enough.

    A secant through the last settings aims, a bracket between the last one too weak and the first
    one strong enough keeps it honest; without a bracket it goes on outwards.

    Args:
        margin_at: Index -> margin; None for a setting that is not possible. [-]
        count: Number of settings. [-]
        present: Margin of the plane as it is. [-]
        wanted: Margin to reach. [-]
        most: Settings asked at most. [-]

    Returns:
        The setting; the best one seen when none is enough; None when none is better than now.

    Valid:
        Margins that grow along the lever, at least up to the wanted one.

    Source:
        Secant rule with a bracket, a general method.

    Example:
        >>> first_enough(lambda i: 0.1 * i - 0.5, 20, present=-0.6, wanted=0.05).index
        6
    """
    search = _Search(margin_at, count, present=present, wanted=wanted)
    index = min(max(count // FIRST_SHARE, 1), count) - 1
    for _ in range(most):
        if not search.ask(index):
            break
        following = search.next_index()
        if following is None:
            break
        index = following
    return search.answer()


class _Search:
    """The bracket: `weak` is the last setting known too weak (-1 is the plane as it is)."""

    def __init__(
        self,
        margin_at: Callable[[int], float | None],
        count: int,
        *,
        present: float,
        wanted: float,
    ) -> None:
        self.margin_at, self.wanted, self.present = margin_at, wanted, present
        self.weak, self.weak_margin = -1, present
        self.strong: int | None = None
        self.strong_margin = present
        self.end = count  # first setting known to be out of reach
        self.tries = 0
        self.best: tuple[float, int] | None = None

    def ask(self, index: int) -> bool:
        """Ask one setting; False when the lever leads nowhere."""
        margin = self.margin_at(index)
        self.tries += 1
        if margin is None:
            self.end = min(self.end, index)
            return True
        if self.best is None or margin > self.best[0]:
            self.best = (margin, index)
        if margin >= self.wanted:
            self.strong, self.strong_margin = index, margin
            return True
        worse = margin < self.weak_margin - 1e-9
        if worse and self.weak == -1 and index == 0:
            return False
        if worse:  # past the best setting: look nearer
            self.end = min(self.end, index)
            return True
        self.weak, self.weak_margin = index, margin
        return True

    def next_index(self) -> int | None:
        """Next setting to ask; None when the answer is known."""
        last = self.strong if self.strong is not None else self.end
        if last - self.weak <= 1:
            return None
        if self.strong is not None:
            rise = (self.strong_margin - self.weak_margin) / (self.strong - self.weak)
            aim = self.weak + (self.wanted - self.weak_margin) / max(rise, 1e-12)
            return min(max(round(aim), self.weak + 1), self.strong - 1)
        if self.end < self.weak + 3 or self.weak < 0:
            return (self.weak + last) // 2
        rise = (self.weak_margin - self.present) / (self.weak + 1)
        if rise <= 1e-9:
            return min(2 * self.weak + 1, last - 1)
        aim = self.weak + 1.05 * (self.wanted - self.weak_margin) / rise
        return int(min(max(aim, self.weak + 1), last - 1, 4 * self.weak + 6))

    def answer(self) -> Solved | None:
        if self.strong is not None:
            return Solved(self.strong, self.strong_margin, self.tries, enough=True)
        if self.best is None or self.best[0] <= self.present + 1e-9:
            return None
        return Solved(self.best[1], self.best[0], self.tries, enough=False)
