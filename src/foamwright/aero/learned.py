"""Drag as flights showed it, put into the computed result."""

import math
from dataclasses import replace

from foamwright.aero.model import AeroResult, DragItem

USABLE = 0.95  # of the largest lift, where the best glide is looked for at most, as analyse.py


def with_drag_factor(result: AeroResult, factor: float) -> AeroResult:
    """The same plane with its drag at zero lift multiplied.

    What was learned stands in the drag table as a line of its own.

    Args:
        result: As computed. [-]
        factor: Of the drag at zero lift. [-]

    Returns:
        The result with drag, best glide and their uncertainty after it.

    Valid:
        Drag at zero lift only; drag due to lift stays as computed.

    Source:
        Definition; best L/D where CL² = CL0² + CD0/k.

    Example:
        >>> with_drag_factor(aero, 1.2).max_lift_drag < aero.max_lift_drag
        True
    """
    if factor == 1.0:
        return result
    zero = factor * result.drag_zero
    bucket, slope = result.lift_at_drag_min, result.drag_lift_factor
    best = min(math.sqrt(bucket**2 + zero / slope), USABLE * result.lift_max)
    ratio = best / (zero + slope * (best - bucket) ** 2)
    learned = DragItem("learned from flights", zero - result.drag_zero, "this plane's logbook")
    return replace(
        result,
        drag_zero=zero,
        drag_items=(*result.drag_items, learned),
        max_lift_drag=ratio,
        best_glide_speed=result.stall_speed * math.sqrt(result.lift_max / best),
        uncertainty={**result.uncertainty, "drag_zero": factor * result.uncertainty["drag_zero"]},
    )
