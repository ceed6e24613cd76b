"""Pictures of the sensitivity of a design."""

from __future__ import annotations

from typing import Any

import numpy as np

from foamwright.core.units import format_value
from foamwright.design.keys import dimension_at, split
from foamwright.idea.sensitivity import Sensitivity

SHOWN_CHECKS = 24  # those that move most, so that the names can be read
FULL = 0.1  # change of margin for one step that fills a square with colour
SMALL = 0.003  # changes below this are left blank


def sensitivity_figure(found: Sensitivity, *, title: str = "", units: str = "metric") -> Any:  # noqa: ANN401 - the library has no types
    """Dimensions against checks in colour, and beside them how far each may go.

    Blue: a step up helps the check; red: it harms it. A step is 2 % of a length or half a degree.

    Args:
        found: Slopes and ranges. [-]
        title: Above the picture. [-]
        units: "metric" or "inch". [-]

    Returns:
        A matplotlib figure. [-]

    Source:
        Definition.

    Example:
        >>> from foamwright.idea.sensitivity import sensitivity
        >>> figure = sensitivity_figure(sensitivity(plane, keys=("stab.span",), ranges=False))
        >>> len(figure.axes)
        1
    """
    from matplotlib.figure import Figure

    chosen = _chosen(found)
    rows, wide = len(found.keys), bool(found.ranges)
    figure = Figure(figsize=(16.5 if wide else 11.0, 2.6 + 0.32 * rows), layout="constrained")
    axes = figure.subplots(1, 2 if wide else 1, squeeze=False, width_ratios=_widths(wide))[0]
    _map(axes[0], found, chosen)
    if wide:
        _ranges(axes[1], found, units)
    figure.suptitle(title or "Which dimension moves which check")
    return figure


def _widths(wide: bool) -> list[float]:
    return [2.0, 1.2] if wide else [1.0]


def _chosen(found: Sensitivity) -> list[int]:
    """Checks that move, the tightest first."""
    strongest = np.abs(found.slopes).max(axis=0) if found.slopes.size else np.zeros(0)
    moving = [i for i in range(len(found.checks)) if strongest[i] >= SMALL]
    ranked = sorted(moving, key=lambda i: found.margins[i] / max(float(strongest[i]), 1e-9))
    return sorted(ranked[:SHOWN_CHECKS])


def _map(axis: Any, found: Sensitivity, chosen: list[int]) -> None:  # noqa: ANN401 - no types
    table = found.slopes[:, chosen]
    axis.imshow(table, cmap="RdBu", vmin=-FULL, vmax=FULL, aspect="auto")
    axis.set_yticks(range(len(found.keys)), found.keys, fontsize="small")
    axis.set_xticks(
        range(len(chosen)),
        [found.checks[i].replace("_", " ") for i in chosen],
        rotation=60,
        ha="right",
        fontsize="small",
    )
    for row, values in enumerate(table.tolist()):
        for column, value in enumerate(values):
            if abs(value) >= SMALL:
                colour = "white" if abs(value) > 0.6 * FULL else "black"
                text = f"{100 * value:+.0f}" if abs(value) >= 0.01 else f"{100 * value:+.1f}"
                axis.text(column, row, text, ha="center", va="center", fontsize=6.5, color=colour)
    axis.set_title(
        "margin gained, in points, by 2 % more (angles: half a degree)", fontsize="medium"
    )


def _ranges(axis: Any, found: Sensitivity, units: str) -> None:  # noqa: ANN401 - no types
    for row, reach in enumerate(found.ranges):
        scale = max(abs(reach.value), 1e-9)
        angle = dimension_at(split(reach.key)) == "angle"
        # Angles are drawn on six degrees to the edge, lengths on 30 % to the edge.
        unit = 0.105 / 0.3 if angle else scale
        low, high = (reach.low - reach.value) / unit, (reach.high - reach.value) / unit
        axis.barh(row, high - low, left=low, height=0.6, color="#b9cfe4", edgecolor="#3b6ea5")
        for place, value, check, side in (
            (low, reach.low, reach.low_check, "right"),
            (high, reach.high, reach.high_check, "left"),
        ):
            words = _said(reach.key, value, units)
            words += f" {check.replace('_', ' ')}" if check else ""
            shift = -0.01 if side == "right" else 0.01
            axis.text(place + shift, row, words, ha=side, va="center", fontsize=6.5)
    axis.axvline(0.0, color="black", linewidth=0.8)
    axis.set_ylim(len(found.ranges) - 0.5, -0.5)
    axis.set_xlim(-0.72, 0.72)
    axis.set_yticks([])
    axis.set_xticks([-0.3, 0.0, 0.3], ["-30 % or -6 deg", "as designed", "+30 % or +6 deg"])
    axis.set_title("how far each may go, all else kept, and what fails there", fontsize="medium")


def _said(key: str, value: float, units: str) -> str:
    dimension = dimension_at(split(key))
    return f"{value:.3g}" if dimension is None else format_value(value, dimension, units)
