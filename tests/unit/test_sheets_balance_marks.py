"""Balance marks land where the plane balances, on the pieces where a builder looks for them."""

import math
from dataclasses import replace

import pytest
from shapely import box

from foamwright.core.bands import Band
from foamwright.parts.model import Facet, LineKind, Part, Source
from foamwright.sheets.balance_marks import Station, with_balance_marks

# A wing skin 0.5 m long, 0.2 m of it below and 0.2 m above, folded at v = 0; leading edge 0.3 m aft
# of the nose. Below, v runs forward: x = 0.3 - v for v from -0.2 to 0.
BELOW = Facet(box(0, -0.2, 0.5, 0), (0.3, 0.0, 0.04), (0.0, 1.0, 0.0), (-1.0, 0.0, 0.0), 0.005)
ABOVE = Facet(box(0, 0, 0.5, 0.2), (0.3, 0.0, 0.06), (0.0, 1.0, 0.0), (1.0, 0.0, 0.0), 0.005)
SIDE = Facet(box(0.1, -0.04, 0.7, 0.05), (0.0, 0.01, 0.0), (1.0, 0.0, 0.0), (0.0, 0.0, 1.0), 0.005)
POINT = Station(0.36, "balance here", "60 mm behind leading edge")
LIMIT = Station(0.38, "CG no further aft")


def part(id_, outline, facets, source=Source.BOARD):
    return Part(id_, id_, id_, "", "board", source, outline, (), facets, Band.exact(0.3), 0.005)


WING = part("wing-skin-1-right", box(0, -0.2, 0.5, 0.2), (ABOVE, BELOW))
BODY = part("fuselage-1", box(0.1, -0.04, 0.7, 0.05), (SIDE,))


def test_under_the_wing():
    """60 mm behind the leading edge, on the lower half, 100 mm out from the root, with a ring."""
    (marked,) = with_balance_marks((WING,), (POINT, LIMIT))
    line, ring, limit = marked.lines
    assert [p for point in line.points for p in point] == pytest.approx([0.0, -0.06, 0.1, -0.06])
    assert line.label == "balance here, 60 mm behind leading edge"
    assert line.kind is LineKind.MARK
    assert ring.points[0] == ring.points[-1]
    assert all(math.dist(p, (0.1, -0.06)) == pytest.approx(0.0025) for p in ring.points)
    assert limit.points[0] == pytest.approx((0.0, -0.08))
    assert replace(marked, lines=()) == WING


def test_on_the_fuselage():
    """From the middle of the height there, 5 mm above the line, up to the top."""
    (marked,) = with_balance_marks((BODY,), (POINT,))
    (line,) = marked.lines
    assert [p for point in line.points for p in point] == pytest.approx([0.36, 0.005, 0.36, 0.05])
    assert line.label == "balance here"


def test_pieces_that_the_mark_misses_stay_as_they_are():
    outer = replace(WING, facets=tuple(replace(f, origin=(0.3, 0.5, 0.05)) for f in WING.facets))
    behind = Station(0.9, "balance here", "far aft")
    assert with_balance_marks((WING, BODY), (behind,)) == (WING, BODY)
    assert with_balance_marks((outer,), (POINT,)) == (outer,)
    ply = replace(BODY, source=Source.PLY)
    assert with_balance_marks((ply,), (POINT,)) == (ply,)


def test_a_left_wing_is_marked_in_mirror_image():
    turned = tuple(
        replace(f, polygon=box(-0.5, min(f.polygon.bounds[1], 0), 0, max(f.polygon.bounds[3], 0)))
        for f in WING.facets
    )
    left = part("wing-skin-1-left", box(-0.5, -0.2, 0, 0.2), turned)
    (marked,) = with_balance_marks((left,), (POINT,))
    ends = [p for point in marked.lines[0].points for p in point]
    assert ends == pytest.approx([0.0, -0.06, -0.1, -0.06])


def test_an_opening_under_the_wing_does_not_send_the_mark_to_the_top():
    """A servo hole 70 to 120 mm from the root: the mark ends at its edge, still underneath."""
    holed = BELOW.polygon.difference(box(0.07, -0.08, 0.12, -0.04))
    wing = replace(WING, facets=(ABOVE, replace(BELOW, polygon=holed)))
    (marked,) = with_balance_marks((wing,), (LIMIT, replace(LIMIT, x=0.36)))
    ends = [p for point in marked.lines[1].points for p in point]
    assert ends == pytest.approx([0.0, -0.06, 0.07, -0.06])
