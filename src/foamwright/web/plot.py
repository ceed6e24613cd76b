"""Small line plots as SVG: axes with units, a few lines told apart by dash and name too."""

from __future__ import annotations

import json
import math
from collections.abc import Sequence
from dataclasses import dataclass
from html import escape

WIDTH, HEIGHT = 560, 340
LEFT, RIGHT, TOP, BOTTOM = 58, 92, 26, 52
INKS = ("#1d5482", "#a3241c", "#2c6338", "#5a4a84")
DASHES = ("", "9 5", "3 4", "12 4 3 4")


@dataclass(frozen=True, slots=True)
class Curve:
    """One line of a plot.

    Attributes:
        name: Written at its end.
        x: Along, in the unit of the axis. [any]
        y: Up, in the unit of the axis. [any]
    """

    name: str
    x: Sequence[float]
    y: Sequence[float]


def line_plot(
    curves: Sequence[Curve],
    *,
    x_label: str,
    y_label: str,
    title: str,
    marks: Sequence[tuple[float, str]] = (),
    top: float | None = None,
) -> str:
    """Draw curves over common axes, from zero up; what is below zero is left out.

    Args:
        curves: At most four. [-]
        x_label: With its unit. [-]
        y_label: With its unit. [-]
        title: Read out for those who cannot see it. [-]
        marks: Places along the x axis and their names. [any]
        top: Highest value shown; None takes the highest there is. [any]

    Returns:
        SVG text. [-]

    Source:
        Definition.

    Example:
        >>> curve = Curve("drag", (5.0, 10.0), (1.0, 2.0))
        >>> line_plot([curve], x_label="m/s", y_label="N", title="Drag").count("<polyline")
        1
    """
    xs = [x for curve in curves for x in curve.x]
    ys = [y for curve in curves for y in curve.y]
    if not xs:
        return ""
    x_ticks = ticks(min(xs), max(xs))
    y_ticks = ticks(0.0, max(ys) if top is None else top)
    frame = _Frame(x_ticks[0], x_ticks[-1], y_ticks[0], y_ticks[-1])
    data = _reading(frame, curves, (x_label, y_label))
    parts = [
        f'<svg class="fw-plot" viewBox="0 0 {WIDTH} {HEIGHT}" role="img" tabindex="0" '
        f'aria-label="{escape(title, quote=True)}" data-plot="{escape(data, quote=True)}">'
    ]
    parts += _axes(frame, x_ticks, y_ticks, (x_label, y_label))
    for row, (place, name) in enumerate(marks):
        if frame.x0 <= place <= frame.x1:
            x = frame.across(place)
            parts.append(f'<line class="mark" x1="{x:.1f}" x2="{x:.1f}" y1="{TOP}" '
                         f'y2="{HEIGHT - BOTTOM}"/>'
                         f'<text x="{x + 4:.1f}" y="{TOP + 14 + 17 * row}">'
                         f"{escape(name)}</text>")  # fmt: skip
    taken: list[float] = []
    for index, curve in enumerate(curves):
        parts += _curve(frame, curve, index, taken)
    parts.append(f'<path class="cursor" d=""/><text class="read" x="{LEFT}" y="{TOP - 6}" '
                 'aria-live="polite"></text>')  # fmt: skip
    return "".join([*parts, "</svg>"])


def _reading(frame: _Frame, curves: Sequence[Curve], labels: tuple[str, str]) -> str:
    """What the page needs to read the plot off where the pointer is."""
    units = [label.rpartition(" in ")[2].rpartition(", ")[2] for label in labels]
    place = {"x0": frame.x0, "x1": frame.x1, "left": LEFT, "width": WIDTH - LEFT - RIGHT,
             "top": TOP, "height": HEIGHT - TOP - BOTTOM, "along": units[0],
             "up": units[1]}  # fmt: skip
    lines = [
        {"name": curve.name, "x": [round(float(x), 4) for x in curve.x],
         "y": [round(float(y), 5) for y in curve.y]}
        for curve in curves
    ]  # fmt: skip
    digits = 0 if frame.x1 - frame.x0 >= 100 else 1
    return json.dumps({"frame": place, "curves": lines, "digits": digits})


def ticks(low: float, high: float) -> list[float]:
    """Round numbers that span a range.

    Args:
        low: Lowest value. [any]
        high: Highest value. [any]

    Returns:
        Evenly spaced values, the first not above low, the last not below high. [any]

    Source:
        Definition.

    Example:
        >>> ticks(0.0, 23.0)
        [0.0, 5.0, 10.0, 15.0, 20.0, 25.0]
    """
    room = max(high - low, 1e-9)
    power = 10.0 ** math.floor(math.log10(room / 4))
    step = next(power * m for m in (1, 2, 2.5, 5, 10) if room / (power * m) <= 6)
    first, last = math.floor(low / step + 1e-9), math.ceil(high / step - 1e-9)
    return [round(n * step, 12) for n in range(first, max(last, first + 1) + 1)]


@dataclass(frozen=True, slots=True)
class _Frame:
    x0: float
    x1: float
    y0: float
    y1: float

    def across(self, x: float) -> float:
        return LEFT + (x - self.x0) / (self.x1 - self.x0) * (WIDTH - LEFT - RIGHT)

    def up(self, y: float) -> float:
        return HEIGHT - BOTTOM - (y - self.y0) / (self.y1 - self.y0) * (HEIGHT - TOP - BOTTOM)


def _axes(
    frame: _Frame, x_ticks: list[float], y_ticks: list[float], labels: tuple[str, str]
) -> list[str]:
    parts: list[str] = []
    for y in y_ticks:
        at = frame.up(y)
        parts.append(f'<line class="grid" x1="{LEFT}" x2="{WIDTH - RIGHT}" y1="{at:.1f}" '
                     f'y2="{at:.1f}"/><text x="{LEFT - 7}" y="{at + 4:.1f}" '
                     f'text-anchor="end">{y:g}</text>')  # fmt: skip
    for x in x_ticks:
        at = frame.across(x)
        parts.append(f'<line class="grid" y1="{TOP}" y2="{HEIGHT - BOTTOM}" x1="{at:.1f}" '
                     f'x2="{at:.1f}"/><text x="{at:.1f}" y="{HEIGHT - BOTTOM + 18}" '
                     f'text-anchor="middle">{x:g}</text>')  # fmt: skip
    middle = (LEFT + WIDTH - RIGHT) / 2
    parts.append(f'<path class="axis" fill="none" d="M{LEFT} {TOP}V{HEIGHT - BOTTOM}H'
                 f'{WIDTH - RIGHT}"/><text x="{middle}" y="{HEIGHT - 8}" text-anchor="middle">'
                 f"{escape(labels[0])}</text>")  # fmt: skip
    y = (TOP + HEIGHT - BOTTOM) / 2
    parts.append(f'<text x="14" y="{y}" text-anchor="middle" transform="rotate(-90 14 {y})">'
                 f"{escape(labels[1])}</text>")  # fmt: skip
    return parts


def _curve(frame: _Frame, curve: Curve, index: int, taken: list[float]) -> list[str]:
    inside = [(x, y) for x, y in zip(curve.x, curve.y, strict=True) if frame.y0 <= y <= frame.y1]
    if not inside:
        return []
    points = " ".join(f"{frame.across(x):.1f},{frame.up(y):.1f}" for x, y in inside)
    ink, dash = INKS[index % len(INKS)], DASHES[index % len(DASHES)]
    at = frame.up(inside[-1][1]) + 4
    while any(abs(at - other) < 18 for other in taken):
        at -= 18
    taken.append(at)
    x = frame.across(inside[-1][0]) + 6
    return [
        f'<polyline class="line" stroke="{ink}" stroke-dasharray="{dash}" points="{points}"/>',
        f'<text x="{x:.1f}" y="{at:.1f}" style="fill:{ink};font-weight:600">'
        f"{escape(curve.name)}</text>",
    ]
