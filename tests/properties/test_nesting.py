"""Whatever the parts, a layout keeps every one, inside its board, apart by the gap, unturned."""

import math
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Polygon, affinity, box

from foamwright.core.bands import Band
from foamwright.parts.model import Part, Source
from foamwright.sheets.draft import draft_layout
from foamwright.sheets.nest import search_layout
from foamwright.sheets.place import verify_layout

LENGTH, WIDTH = 0.762, 0.508
GAP, MARGIN = 0.003, 0.006


def make(number, polygon, fold, source=Source.BOARD):
    return Part(
        f"part-{number}", "piece", "piece", "", "board", source, polygon, (), (),
        Band.exact(0.3), 0.005, fold_along=fold,
    )  # fmt: skip


@st.composite
def polygons(draw):
    """Stars about a point: any number of corners, dents allowed, never crossing itself."""
    corners = draw(st.integers(3, 9))
    reach = st.floats(0.012, 0.12)
    angles = [2 * math.pi * index / corners for index in range(corners)]
    points = [(r * math.cos(a), r * math.sin(a)) for a in angles for r in [draw(reach)]]
    long = draw(st.floats(1.0, 3.0))
    return affinity.scale(Polygon(points), long, 1.0, origin=(0, 0))


FOLDS = st.sampled_from([None, (1.0, 0.0), (0.0, 1.0), (math.sqrt(0.5), math.sqrt(0.5))])
SHAPES = st.lists(st.tuples(polygons(), FOLDS), min_size=1, max_size=14)


def judge(layout, parts):
    """Our own verdict and, beside it, the same judged by plain geometry."""
    assert verify_layout(layout, parts) == ()
    assert sorted([*(p.part_id for p in layout.placements), *layout.unplaced]) == sorted(
        part.id for part in parts
    )
    room = box(MARGIN, MARGIN, LENGTH - MARGIN, WIDTH - MARGIN).buffer(1e-6)
    areas = {part.id: part.outline.area for part in parts}
    for index, one in enumerate(layout.placements):
        assert room.covers(one.outline)
        assert one.outline.area == pytest.approx(areas[one.part_id], rel=1e-9)
        for other in layout.placements[:index]:
            if one.board == other.board:
                assert one.outline.distance(other.outline) > GAP - 3e-6


@given(SHAPES)
@settings(deadline=None, max_examples=60)
def test_draft_layouts_are_sound(shapes):
    parts = tuple(make(n, polygon, fold) for n, (polygon, fold) in enumerate(shapes))
    layout = draft_layout(parts, LENGTH, WIDTH, gap=GAP, margin=MARGIN)
    judge(layout, parts)
    assert draft_layout(parts, LENGTH, WIDTH, gap=GAP, margin=MARGIN) == layout


@given(SHAPES)
@settings(deadline=None, max_examples=4)
def test_searched_layouts_are_sound_and_never_use_more_boards(shapes):
    parts = tuple(make(n, polygon, fold) for n, (polygon, fold) in enumerate(shapes))
    draft = draft_layout(parts, LENGTH, WIDTH, gap=GAP, margin=MARGIN)
    found = search_layout(parts, LENGTH, WIDTH, gap=GAP, margin=MARGIN, time_limit=0.5)
    judge(found, parts)
    assert found.boards_used <= draft.boards_used


@given(SHAPES, st.floats(0.02, 0.5), st.floats(-0.5, 0.5))
@settings(deadline=None, max_examples=40)
def test_a_spoilt_layout_is_found_out(shapes, shift, turn):
    parts = tuple(make(n, polygon, fold) for n, (polygon, fold) in enumerate(shapes))
    layout = draft_layout(parts, LENGTH, WIDTH, gap=GAP, margin=MARGIN)
    if not layout.placements:
        return
    first = layout.placements[0]
    moved = affinity.translate(first.outline, shift, 0)
    lost = replace(layout, placements=layout.placements[1:])
    assert verify_layout(lost, parts)
    # Moved without saying so, then turned without leave.
    spoilt = replace(first, outline=moved)
    assert verify_layout(replace(layout, placements=(spoilt, *layout.placements[1:])), parts)
    if abs(turn) > 0.01:
        askew = replace(first, angle=first.angle + turn)
        assert verify_layout(replace(layout, placements=(askew, *layout.placements[1:])), parts)
    twice = replace(layout, placements=(*layout.placements, first))
    assert verify_layout(twice, parts)


def test_a_part_longer_than_the_board_is_named():
    long = make(1, box(0, 0, 0.8, 0.1), (1.0, 0.0))
    short = make(2, box(0, 0, 0.2, 0.1), (1.0, 0.0))
    layout = draft_layout((long, short), LENGTH, WIDTH)
    assert layout.unplaced == ("part-1",)
    assert [placement.part_id for placement in layout.placements] == ["part-2"]
    assert verify_layout(layout, (long, short)) == ()


def test_only_board_parts_are_laid_out():
    ply = make(1, box(0, 0, 0.04, 0.05), None, Source.PLY)
    assert draft_layout((ply,), LENGTH, WIDTH).boards_used == 0


def test_folds_lie_along_the_board_when_they_can():
    """A 0.3 x 0.2 m part folded across its length is turned a quarter, so the fold runs along."""
    folded = make(1, box(0, 0, 0.3, 0.2), (0.0, 1.0))
    placed = draft_layout((folded,), LENGTH, WIDTH).placements[0]
    left, bottom, right, top = placed.outline.bounds
    assert (right - left, top - bottom) == pytest.approx((0.2, 0.3))
    # 0.6 m along its fold and 0.2 m across fits only with the fold along the board's length.
    tall = make(2, box(0, 0, 0.2, 0.6), (0.0, 1.0))
    placed = draft_layout((tall,), LENGTH, WIDTH).placements[0]
    left, bottom, right, top = placed.outline.bounds
    assert (right - left, top - bottom) == pytest.approx((0.6, 0.2))


def test_parts_that_fill_a_board_to_the_last_bit_share_it():
    """Two halves of the room inside the margin, the gap between them taken off."""
    length, width = LENGTH - 2 * MARGIN, (WIDTH - 2 * MARGIN - GAP) / 2
    halves = tuple(make(n, box(0, 0, length, width), (1.0, 0.0)) for n in (1, 2))
    layout = draft_layout(halves, LENGTH, WIDTH, gap=GAP, margin=MARGIN)
    assert layout.boards_used == 1
    judge(layout, halves)
