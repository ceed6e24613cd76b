"""Making up for the width of a machine's cut."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

import shapely
from shapely import Polygon

from foamwright.core.errors import OutputError
from foamwright.sheets.model import Drawing, Stroke

LARGEST = 0.005  # m, a wider cut is no knife, hot wire or laser


def with_kerf(drawing: Drawing, kerf: float) -> Drawing:
    """Grow outer rings and shrink holes by half the kerf; leave all other lines alone.

    A machine whose cut has that width then leaves the part true.

    Args:
        drawing: A board. [-]
        kerf: Width of the machine's cut; 0 leaves everything as it is, as for a knife. [m]

    Returns:
        The board with its cut lines moved. [-]

    Raises:
        OutputError: No cut has such a width.

    Source:
        Definition.

    Example:
        >>> with_kerf(Drawing("Board 1 of 1", 0.762, 0.508, (), ()), 0.0002).strokes
        ()
    """
    if not 0.0 <= kerf <= LARGEST:
        raise OutputError(
            f"The kerf is {kerf * 1000:.3g} mm; it must be 0 to {LARGEST * 1000:g} mm. "
            "It is the width of the slot that the machine leaves."
        )
    if kerf == 0.0:
        return drawing
    return replace(drawing, strokes=tuple(_moved(drawing.strokes, kerf)))


def _moved(strokes: Sequence[Stroke], kerf: float) -> Iterator[Stroke]:
    outer: Polygon | None = None
    owner = ""
    for stroke in strokes:
        if stroke.kind != "cut" or not stroke.closed:
            yield stroke
            continue
        ring = Polygon(stroke.points)
        hole = outer is not None and stroke.part == owner and outer.contains(ring)
        if not hole:
            outer, owner = ring, stroke.part
        grown = ring.buffer(-kerf / 2 if hole else kerf / 2, join_style="mitre")
        corners = shapely.get_coordinates(shapely.get_exterior_ring(grown))[:-1]
        if len(corners) > 2:
            points = tuple((float(x), float(y)) for x, y in corners)
            yield Stroke(stroke.kind, points, closed=True, part=stroke.part)
