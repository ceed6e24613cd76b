"""How far a plane is from what was wished for."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from foamwright.book.steps import build_steps
from foamwright.idea.wishes import Wishes

if TYPE_CHECKING:
    from foamwright.plane import Plane


def wish_faults(wishes: Wishes, plane: Plane, figures: Mapping[str, float]) -> dict[str, float]:
    """Wishes that a plane misses.

    Args:
        wishes: What is wished. [-]
        plane: The plane. [-]
        figures: Its figures, see `figures_of`. [any]

    Returns:
        Key of the wish -> by how much of its limit it is missed. [-]

    Source:
        Definition.

    Example:
        >>> wish_faults(wishes, plane, {"mass": 0.5, "boards": 2.0})
        {}
    """
    wish = wishes.wish
    asked: dict[str, tuple[float | None, float, int]] = {
        "mass_most": (wish.mass_most, figures.get("mass", 0.0), 1),
        "stall_most": (wish.stall_most, figures.get("stall_speed", 0.0), 1),
        "endurance_least": (wish.endurance_least, figures.get("endurance", 0.0), -1),
        "boards_most": (wish.boards_most, figures.get("boards", 0.0), 1),
        "build_time": (wish.build_time, hands_on(plane) if wish.build_time else 0.0, 1),
        "span_most": (wish.span_most, figures.get("span", 0.0) - 1e-3, 1),
    }
    found = {
        key: sign * (value / limit - 1.0)
        for key, (limit, value, sign) in asked.items()
        if limit is not None
    }
    return {key: missed for key, missed in found.items() if missed > 1e-9}


def hands_on(plane: Plane) -> float:
    """Time with the hands on it that building takes.

    Args:
        plane: The plane. [-]

    Returns:
        Sum over all steps, glue that sets by itself left out. [s]

    Source:
        docs/use/book.md.

    Example:
        >>> 3600.0 < hands_on(plane) < 100_000.0
        True
    """
    return sum(step.hands for step in build_steps(plane))
