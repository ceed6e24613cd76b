"""Sheets of random planes: nothing overlaps, nothing is lost, every line stays on its part."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import LineString, Polygon
from test_shape_parts import built, designs

from foamwright.sheets.balance_marks import Station, with_balance_marks
from foamwright.sheets.booklet import kinds_of
from foamwright.sheets.draft import draft_on
from foamwright.sheets.drawing import board_drawings
from foamwright.sheets.model import Bench
from foamwright.sheets.place import board_parts, verify_layout

BENCH = Bench(0.762, 0.508, 0.003, 0.006, ((0.4, 0.3),))


@given(designs())
@settings(deadline=None, max_examples=30)
def test_layouts_of_any_plane_are_sound(design):
    _, made = built(design)
    layout = draft_on(made.parts, BENCH)
    assert verify_layout(layout, made.parts) == ()
    assert len(layout.placements) + len(layout.unplaced) == len(board_parts(made.parts))


@given(designs(), st.floats(0.1, 0.5))
@settings(deadline=None, max_examples=8)
def test_drawings_of_any_plane_hold_every_part_once(design, x):
    """Area of the cut lines is the area of the parts; balance marks stay on their part."""
    _, made = built(design)
    parts = with_balance_marks(made.parts, (Station(x, "balance here", "so far behind"),))
    for part, before in zip(parts, made.parts, strict=True):
        filled = Polygon(part.outline.exterior).buffer(3e-3)
        for line in part.lines[len(before.lines) :]:
            assert filled.covers(LineString(line.points)), part.id
    layout = draft_on(parts, BENCH)
    areas = {part.id: part.outline.area for part in parts}
    outlines = {placement.part_id: placement.outline for placement in layout.placements}
    found = dict.fromkeys(outlines, 0.0)
    for drawing in board_drawings(layout, parts, units="metric"):
        for stroke in drawing.strokes:
            if stroke.kind == "cut" and stroke.closed and stroke.part:
                ring = Polygon(stroke.points)
                outer = ring.area >= outlines[stroke.part].area - 1e-12
                found[stroke.part] += ring.area if outer else 0.0
    for id_, area in found.items():
        holes = sum(Polygon(ring).area for ring in outlines[id_].interiors)
        assert area - holes == pytest.approx(areas[id_], rel=1e-6)


@given(designs())
@settings(deadline=None, max_examples=20)
def test_the_booklet_counts_every_part(design):
    _, made = built(design)
    assert sum(count for _, count, _ in kinds_of(made.parts)) == len(made.parts)
