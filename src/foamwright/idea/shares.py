"""The share of builds that pass, guessed from margins until the builds themselves are drawn."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from foamwright.checks.side_loads import SIDE_RULES
from foamwright.checks.strength import STRENGTH_RULES
from foamwright.idea.score import Score
from foamwright.idea.task import Drawn

RATIOS = frozenset(rule.id for rule in (*STRENGTH_RULES, *SIDE_RULES))  # scatter as a factor
UNKNOWN = 0.3  # spread of strength before any build was drawn, as a factor; assumed
TIGHTNESS = (0.2, 1.5)  # bounds of how far the checks go together
LEAST = 1e-6


@dataclass(frozen=True, slots=True)
class Guess:
    """What was learnt of how builds scatter.

    Attributes:
        spreads: Check id -> standard deviation of the margin, of strength as a share of it. [-]
        together: Exponent of the product of all shares: below one, the same builds fail. [-]
    """

    spreads: dict[str, float] = field(default_factory=dict[str, float])
    together: float = 0.8

    def share(self, margins: Mapping[str, float]) -> float:
        """Share of builds [-] that pass, from margins [-]."""
        return math.exp(self.together * self._logarithm(margins))

    def _logarithm(self, margins: Mapping[str, float]) -> float:
        total = 0.0
        for check, margin in margins.items():
            ratio = check in RATIOS
            spread = self.spreads.get(check, UNKNOWN if ratio else 0.0)
            if spread <= 0.0:
                continue
            value = math.log(max(1.0 + margin, LEAST)) if ratio else margin
            total += math.log(max(0.5 * math.erfc(-value / spread / math.sqrt(2.0)), LEAST))
        return total


def learnt(drawn: Sequence[tuple[Score, Drawn]]) -> Guess:
    """Learn from builds that were drawn how margins scatter.

    Args:
        drawn: Candidates and their builds; the last ones count. [-]

    Returns:
        The guess. [-]

    Source:
        Normal scatter of each margin; the exponent fitted to the shares that were drawn.

    Example:
        >>> learnt([]).together
        0.8
    """
    recent = [(score, many) for score, many in drawn[-40:] if many.spreads]
    if not recent:
        return Guess()
    sums: dict[str, list[float]] = {}
    for score, many in recent:
        for check, spread in many.spreads.items():
            if check in score.margins:
                scale = 1.0 + score.margins[check] if check in RATIOS else 1.0
                sums.setdefault(check, []).append(spread / max(scale, 0.1))
    spreads = {check: _middle(values) for check, values in sums.items()}
    plain = Guess(spreads, 1.0)
    ratios = [
        math.log(max(many.share, 1e-3)) / math.log(guessed)
        for score, many in recent
        if LEAST < (guessed := plain.share(score.margins)) < 0.999
    ]
    low, high = TIGHTNESS
    together = min(max(_middle(ratios), low), high) if ratios else 1.0
    return Guess(spreads, together)


def _middle(values: Sequence[float]) -> float:
    ordered = sorted(values)
    return ordered[len(ordered) // 2]
