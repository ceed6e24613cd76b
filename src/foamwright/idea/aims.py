"""What the search wants: the trade-offs, and the directions in which it looks for them."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

SURE = 0.02  # least share that a logarithm is taken of
AREA = 0.1  # of a board that a square metre of parts counts for, so that ties lean to fewer parts


@dataclass(frozen=True, slots=True)
class Aim:
    """One direction of the search; weights are what a change by a factor e, or a board, is worth.

    Attributes:
        name: What it is called.
        words: What a plane of it is good at.
        boards: Weight of a board. [-]
        stall: Weight of the logarithm of the stall speed. [-]
        endurance: Weight of the logarithm of the flying time. [-]
        share: Weight of the logarithm of the share of builds that pass. [-]
        size: Weight of the logarithm of span times mass. [-]
        wind: Weight of the logarithm of the cruising speed. [-]
    """

    name: str
    words: str
    boards: float
    stall: float
    endurance: float
    share: float
    size: float = 0.0
    wind: float = 0.0

    def cost(self, figures: Mapping[str, float], share: float) -> float:
        """Cost [-] of a plane with these figures [any] and this share of builds that pass [-]."""
        used = figures["boards"] + AREA * figures["board_area"]
        return (
            self.boards * used
            + self.stall * math.log(figures["stall_speed"])
            - self.endurance * math.log(max(figures["endurance"], 1.0))
            - self.share * math.log(max(share, SURE))
            + self.size * math.log(figures["span"] * figures["mass"])
            - self.wind * math.log(figures["level_speed"])
        )


AIMS = (
    Aim("all-rounder", "does everything fairly well", 0.06, 1.8, 0.35, 0.35),
    Aim("fewest boards", "takes the fewest boards", 1.0, 0.6, 0.15, 0.15),
    Aim("slowest", "flies slowest", 0.01, 4.0, 0.15, 0.2),
    Aim("longest", "flies longest", 0.01, 0.5, 2.0, 0.2),
    Aim("surest", "forgives most in building", 0.03, 0.4, 0.1, 2.0),
    Aim("smallest", "is smallest and lightest", 0.03, 0.3, 0.1, 0.2, size=1.5),
    Aim("windiest", "copes with the most wind", 0.03, -1.0, 0.1, 0.3, wind=3.0),
)
