"""Where sticks and dowels lie in the spar: channels through its strips, grooves into them."""

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from foamwright.core.units import format_value
from foamwright.parts.model import Line, LineKind, Source
from foamwright.parts.piece import Flat, Piece, rectangle

PLAY = 0.0002  # m on each side of a stick, for glue; common practice
SHALLOW = 0.0003  # m; less is pressed in without a groove; assumed
THROUGH = 0.8  # of a strip's thickness: from that on the channel is cut through; assumed
LEAST_LEG = 0.004  # m of board left beside a channel that is cut through; assumed
END = 0.005  # m of strip left uncut at one end, or the channel would cut it in two; assumed

type Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class _Bed:
    """Where a stick lies in a strip: a rectangle in the strip's flat frame, and how deep."""

    start: float
    end: float
    low: float
    high: float
    depth: float


def channelled(strips: list[Piece], sticks: list[Piece], units: str) -> list[Piece]:
    """Spar strips with the channels and grooves that the sticks in the spar ask for.

    A stick that takes most of a strip's thickness lies in a channel cut through it, one that takes
    less in a groove between two pencil lines.

    Args:
        strips: Of the spar, laid flat or on edge. [-]
        sticks: Reinforcements; tapes and strips of board are passed over. [-]
        units: "metric" or "inch", for the words. [-]

    Returns:
        The strips, in their order.

    Source:
        Geometry: where a stick's box lies in the strip's.

    Example:
        >>> channelled([], [], "metric")
        []
    """
    rods = [stick for stick in sticks if stick.source is Source.LENGTH]
    if not rods:
        return strips
    return [_bedded(strip, rods, units) for strip in strips]


def _bedded(strip: Piece, rods: list[Piece], units: str) -> Piece:
    cuts: list[Array] = []
    lines: list[Line] = []
    for rod in rods:
        bed = _bed(strip, rod) if rod.side == strip.side else None
        if bed is None or bed.depth < SHALLOW:
            continue
        if _through(strip, bed):
            # A little past the strip's end where it is open, so that the cut is clean.
            start = bed.start - PLAY if bed.start <= float(strip.ring[:, 0].min()) else bed.start
            end = bed.end + PLAY if bed.end >= float(strip.ring[:, 0].max()) else bed.end
            cuts.append(rectangle(end - start, bed.high - bed.low, at=(start, bed.low)))
        else:
            words = f"groove {format_value(bed.depth, 'length', units)} deep"
            for v in (bed.low, bed.high):
                points = ((bed.start, v), (bed.end, v))
                lines.append(Line(LineKind.MARK, points, words if v == bed.low else ""))
    if not cuts and not lines:
        return strip
    notes = f"{strip.notes} The stick lies in the channel." if cuts else strip.notes
    return replace(
        strip, cuts=(*strip.cuts, *cuts), lines=(*strip.lines, *lines), notes=notes.strip()
    )


def _through(strip: Piece, bed: _Bed) -> bool:
    """Whether a channel may be cut through: the strip must stay in one piece."""
    ring = strip.ring
    legs = min(bed.low - float(ring[:, 1].min()), float(ring[:, 1].max()) - bed.high)
    ends = max(bed.start - float(ring[:, 0].min()), float(ring[:, 0].max()) - bed.end)
    return bed.depth >= THROUGH * strip.thickness and legs >= LEAST_LEG and ends >= END


def _bed(strip: Piece, rod: Piece) -> _Bed | None:
    """Where the rod's box lies in the strip's; None where they do not meet or run across."""
    at, own = rod.flats[0], strip.flats[0]
    if abs(float(at.along @ own.along)) < 0.99:
        return None
    width = float(rod.ring[:, 1].max())
    middle = at.origin + 0.5 * width * at.across
    # The ring of a mirror image runs from minus its length to nought.
    reach = (float(rod.ring[:, 0].min()), float(rod.ring[:, 0].max()))
    ends = [_in_frame(own, middle + u * at.along) for u in reach]
    level = 0.5 * (ends[0][2] + ends[1][2])
    side = 0.5 * (ends[0][1] + ends[1][1])
    # The rod's own width lies along the strip's, or along its thickness for strips on edge.
    flat = abs(float(at.across @ own.across)) > 0.7
    wide, tall = (width, at.thickness) if flat else (at.thickness, width)
    half = 0.5 * strip.thickness
    depth = min(half, level + 0.5 * tall) - max(-half, level - 0.5 * tall)
    low, high = side - 0.5 * wide - PLAY, side + 0.5 * wide + PLAY
    start, end = sorted(float(point[0]) for point in ends)
    first, last = float(strip.ring[:, 0].min()), float(strip.ring[:, 0].max())
    # A channel that all but reaches the strip's end is open there: no sliver is left.
    start = first if start < first + END else start
    end = last if end > last - END else end
    across = low > float(strip.ring[:, 1].min()) and high < float(strip.ring[:, 1].max())
    if depth <= 0.0 or end - start <= END or not across:
        return None
    return _Bed(start, end, float(low), float(high), float(depth))


def _in_frame(flat: Flat, point: Array) -> Array:
    away = point - flat.origin
    normal = np.cross(flat.along, flat.across)
    return np.array([away @ flat.along, away @ flat.across, away @ normal])
