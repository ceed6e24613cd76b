"""Whatever the parts, a layout keeps every one, inside its board, apart by the gap, unturned."""

import math
from collections import Counter
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Polygon, affinity, box

from foamwright.core.bands import Band
from foamwright.parts.model import Part, Source
from foamwright.sheets.draft import draft_layout, draft_on
from foamwright.sheets.model import Bench
from foamwright.sheets.nest import search_layout, search_on
from foamwright.sheets.place import turned, verify_layout
from foamwright.sheets.raster import pack_cells, part_cells

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


OFFCUTS = st.lists(st.tuples(st.floats(0.05, 0.8), st.floats(0.04, 0.5)), max_size=4)


def first_fit_boards(parts):
    """Boards that shelves need, filled by first fit with the highest boxes first, gap and all."""
    length, width = LENGTH - 2 * MARGIN + GAP, WIDTH - 2 * MARGIN + GAP
    boxes = []
    for part in parts:
        u, v = part.fold_along or (1.0, 0.0)
        left, bottom, right, top = affinity.rotate(
            part.outline, -math.degrees(math.atan2(v, u)), origin=(0, 0)
        ).bounds
        boxes.append((top - bottom + GAP, right - left + GAP))
    boards = []  # each a list of shelves: height, length used
    for height, long in sorted(boxes, reverse=True):
        for shelves in boards:
            shelf = next((s for s in shelves if s[0] >= height and s[1] + long <= length), None)
            if shelf:
                shelf[1] += long
                break
            if sum(s[0] for s in shelves) + height <= width:
                shelves.append([height, long])
                break
        else:
            boards.append([[height, long]])
    return len(boards)


def judge(layout, parts):
    """Our own verdict and, beside it, the same judged by plain geometry."""
    assert verify_layout(layout, parts) == ()
    assert sorted([*(p.part_id for p in layout.placements), *layout.unplaced]) == sorted(
        part.id for part in parts
    )
    rooms = [box(MARGIN, MARGIN, *(s - MARGIN for s in size)).buffer(1e-6) for size in layout.sizes]
    areas = {part.id: part.outline.area for part in parts}
    for index, one in enumerate(layout.placements):
        assert rooms[one.board].covers(one.outline)
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
@settings(deadline=None, max_examples=60)
def test_a_draft_needs_no_more_boards_than_shelves_filled_by_first_fit(shapes):
    parts = tuple(make(n, polygon, fold) for n, (polygon, fold) in enumerate(shapes))
    fitting = all(
        max(p.outline.minimum_rotated_rectangle.exterior.length / 2, 0) < WIDTH for p in parts
    )
    if fitting:
        drafted = draft_layout(parts, LENGTH, WIDTH, gap=GAP, margin=MARGIN)
        assert drafted.boards_used <= first_fit_boards(parts)


@given(SHAPES, OFFCUTS, st.floats(0.0, 0.02))
@settings(deadline=None, max_examples=60)
def test_outlines_packed_as_cells_keep_their_gap(shapes, offcuts, gap):
    """Whatever the gap and the boards, no two parts come nearer than it, none over the edge."""
    bench = Bench(0.8, 0.4, gap, MARGIN, tuple(offcuts))
    parts = [make(n, polygon, None) for n, (polygon, _) in enumerate(shapes)]
    cells = [(p.id, [part_cells(p.outline, 0.0, gap)]) for p in parts]
    spots = pack_cells(cells, bench, offcuts, most=20)
    assert spots is not None
    sizes = [*offcuts, *[(0.8, 0.4)] * 20]
    placed = {}
    for p in parts:
        board, _, corner = spots[p.id]
        left, bottom, _, _ = p.outline.bounds
        lies = affinity.translate(p.outline, MARGIN + corner[0] - left, MARGIN + corner[1] - bottom)
        length, width = sizes[board]
        room = box(MARGIN, MARGIN, length - MARGIN, width - MARGIN)
        assert room.buffer(1e-9).covers(lies)
        for other in placed.setdefault(board, []):
            assert lies.distance(other) >= gap - 1e-9
            assert lies.intersection(other).area < 1e-12
        placed[board].append(lies)


@given(SHAPES, OFFCUTS)
@settings(deadline=None, max_examples=60)
def test_offcuts_are_used_once_each_and_save_boards(shapes, offcuts):
    parts = tuple(make(n, polygon, fold) for n, (polygon, fold) in enumerate(shapes))
    bench = Bench(LENGTH, WIDTH, GAP, MARGIN, tuple(offcuts))
    layout = draft_on(parts, bench)
    judge(layout, parts)
    assert not Counter(layout.offcuts) - Counter(offcuts)
    assert len(layout.sizes) == layout.boards_used + len(layout.offcuts)
    area = sum(length * width for length, width in layout.sizes)
    parts_area = sum(p.outline.area for p in layout.placements)
    assert layout.fill == pytest.approx(parts_area / area)


@given(SHAPES, OFFCUTS, st.booleans())
@settings(deadline=None, max_examples=4)
def test_searches_over_offcuts_and_both_faces_are_sound(shapes, offcuts, either):
    parts = tuple(
        replace(make(n, polygon, fold), either_face=either)
        for n, (polygon, fold) in enumerate(shapes)
    )
    bench = Bench(LENGTH, WIDTH, GAP, MARGIN, tuple(offcuts))
    found = search_on(parts, bench, time_limit=0.5)
    judge(found, parts)
    assert found.boards_used <= draft_on(parts, bench).boards_used
    assert either or not any(placement.mirrored for placement in found.placements)


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
    outline = turned(parts[0].outline, first.angle, first.dx, first.dy, mirrored=True)
    over = replace(first, outline=outline, mirrored=True)
    if first.part_id == parts[0].id:
        faults = verify_layout(replace(layout, placements=(over, *layout.placements[1:])), parts)
        assert any("its faces differ" in fault for fault in faults)
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


def test_an_offcut_takes_what_fits_it():
    """A part of 0.2 x 0.1 m goes on a 0.25 x 0.15 m piece; no board is opened for it."""
    small = make(1, box(0, 0, 0.2, 0.1), (1.0, 0.0))
    big = make(2, box(0, 0, 0.6, 0.4), (1.0, 0.0))
    bench = Bench(LENGTH, WIDTH, GAP, MARGIN, ((0.25, 0.15), (0.1, 0.1)))
    layout = draft_on((small,), bench)
    assert (layout.boards_used, layout.offcuts) == (0, ((0.25, 0.15),))
    layout = draft_on((big, small), bench)
    assert (layout.boards_used, layout.offcuts) == (1, ((0.25, 0.15),))
    assert {p.part_id: p.board for p in layout.placements} == {"part-1": 1, "part-2": 0}


def test_a_part_too_large_for_a_whole_board_may_fit_an_odd_one():
    long = tuple(make(n, box(0, 0, 0.9, 0.1), (1.0, 0.0)) for n in (1, 2))
    bench = Bench(LENGTH, WIDTH, GAP, MARGIN, ((1.0, 0.15),))
    layout = draft_on(long, bench)
    assert len(layout.unplaced) == 1
    assert (layout.boards_used, layout.offcuts) == (0, ((1.0, 0.15),))
