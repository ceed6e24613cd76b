"""The map of outcomes as an SVG: throw speed across, throttle up, each square its share."""

from __future__ import annotations

from html import escape
from typing import TYPE_CHECKING

from foamwright.flight.simulation.ends import AWAY, ENDS

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    type Array = NDArray[np.float64]

MPH = 0.44704  # m/s, exact
WIDE, HIGH = 62, 34  # of one square
LEFT, BOTTOM = 74, 46
GROUND, SKY = (0xC9, 0x8D, 0x84), (0x8F, 0xB3, 0x96)  # none fly away, all do
FEW = 0.995  # share from which no other end is named


def map_picture(
    speeds: Array, throttles: Array, ends: Array, *, units: str, here: tuple[float, float]
) -> str:
    """Draw the squares; each says its share and what ends most of the others.

    Args:
        speeds: Of the throw, one a column. [m/s]
        throttles: One a row, from below. [-]
        ends: (speed, throttle, end): shares in the order of ENDS; may lack columns at the end. [-]
        units: "metric" or "inch". [-]
        here: Speed and throttle of the throw asked about. [m/s], [-]

    Returns:
        SVG text. [-]

    Source:
        Definition.

    Example:
        >>> import numpy as np
        >>> ends = np.zeros((1, 1, 6)); ends[0, 0, 0] = 1.0
        >>> map_picture(np.array([6.0]), np.array([0.7]), ends, units="metric",
        ...     here=(6.0, 0.7)).count("<rect")
        2
    """
    across, up = len(speeds), len(throttles)
    wide, high = LEFT + across * WIDE + 8, up * HIGH + BOTTOM
    label = "Share of throws that fly away over throw speed and throttle"
    parts = [f'<svg class="fw-plot th-map" viewBox="0 0 {wide} {high}" role="img" '
             f'aria-label="{label}">']  # fmt: skip
    parts += [
        _square(ends[i, j], LEFT + i * WIDE, (up - 1 - j) * HIGH)
        for i in range(len(ends))
        for j in range(up)
    ]
    for i, speed in enumerate(speeds.tolist()):
        x = LEFT + (i + 0.5) * WIDE
        text = f"{speed / MPH:.0f}" if units == "inch" else f"{speed:.0f}"
        parts.append(f'<text x="{x:.0f}" y="{up * HIGH + 17}" text-anchor="middle">{text}</text>')
    for j, stick in enumerate(throttles.tolist()):
        y = (up - 0.5 - j) * HIGH + 5
        parts.append(
            f'<text x="{LEFT - 8}" y="{y:.0f}" text-anchor="end">{100 * stick:.0f} %</text>'
        )
    parts.append(_mark(speeds, throttles, here))
    unit = "mph" if units == "inch" else "m/s"
    middle = LEFT + across * WIDE / 2
    parts.append(
        f'<text x="{middle:.0f}" y="{high - 6}" text-anchor="middle">throw speed, {unit}</text>'
    )
    y = up * HIGH / 2
    parts.append(f'<text x="14" y="{y:.0f}" text-anchor="middle" transform="rotate(-90 14 '
                 f'{y:.0f})">throttle</text></svg>')  # fmt: skip
    return "".join(parts)


def _square(shares: Array, x: float, y: float) -> str:
    away = float(shares[AWAY])
    mixed = [round(a + away * (b - a)) for a, b in zip(GROUND, SKY, strict=True)]
    fill = "#{:02x}{:02x}{:02x}".format(*mixed)
    others = shares.copy()
    others[AWAY] = 0.0
    worst = ENDS[int(others.argmax())] if away < FEW else ""
    said = escape(f"{100 * away:.0f} % fly away" + (f", most others {worst}" if worst else ""))
    centre = f'x="{x + WIDE / 2:.0f}" text-anchor="middle"'
    lines = f'<text {centre} y="{y + 15:.0f}">{100 * away:.0f}</text>'
    if worst:
        lines += f'<text {centre} y="{y + 29:.0f}" class="small">{worst}</text>'
    box = f'<rect x="{x}" y="{y}" width="{WIDE}" height="{HIGH}" fill="{fill}"/>'
    return f"<g><title>{said}</title>{box}{lines}</g>"


def _mark(speeds: Array, throttles: Array, here: tuple[float, float]) -> str:
    i = int(abs(speeds - here[0]).argmin())
    j = int(abs(throttles - here[1]).argmin())
    y = (len(throttles) - 1 - j) * HIGH
    return (
        f'<rect x="{LEFT + i * WIDE + 1}" y="{y + 1}" width="{WIDE - 2}" height="{HIGH - 2}" '
        f'class="here"/>'
    )
