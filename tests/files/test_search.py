"""The search for a tighter layout, its limits, and the layout kept between runs."""

import json
import time
from dataclasses import replace

import pytest
from shapely import Polygon, box
from sheet_job import BOARD, GAP, MARGIN, board_part, board_parts

from foamwright.sheets.draft import draft_layout, draft_on
from foamwright.sheets.model import Bench
from foamwright.sheets.nest import search_layout, search_on
from foamwright.sheets.place import leftover_area, verify_layout
from foamwright.sheets.store import layout_text, load_layout

BENCH = Bench(*BOARD, GAP, MARGIN)


@pytest.fixture(scope="module")
def parts():
    return tuple(board_parts())


@pytest.mark.slow
def test_the_search_leaves_more_of_the_last_board(parts):
    """43 parts cover 2.23 boards; upright boxes need 4, the true outlines fit on 3."""
    assert len(parts) == 43
    draft = draft_layout(parts, *BOARD, gap=GAP, margin=MARGIN)
    seen = []
    want = leftover_area(draft) * 1.2
    found = search_layout(
        parts,
        *BOARD,
        gap=GAP,
        margin=MARGIN,
        time_limit=15.0,
        progress=lambda layout, _: seen.append((layout.boards_used, leftover_area(layout))),
        stop=lambda: bool(seen) and seen[-1][1] > want,
    )
    assert draft.boards_used == found.boards_used == 3
    assert leftover_area(found) > leftover_area(draft)
    assert found.method == "search"
    assert verify_layout(found, parts) == ()
    assert [area for _, area in seen] == sorted(area for _, area in seen)


def test_a_stop_is_heeded(parts):
    start = time.monotonic()
    found = search_layout(parts, *BOARD, gap=GAP, margin=MARGIN, time_limit=60.0, stop=lambda: True)
    assert time.monotonic() - start < 10.0
    assert verify_layout(found, parts) == ()


def test_an_interrupt_keeps_the_best(parts):
    def interrupt():
        raise KeyboardInterrupt

    found = search_layout(parts, *BOARD, gap=GAP, margin=MARGIN, time_limit=60.0, stop=interrupt)
    assert verify_layout(found, parts) == ()
    assert found.boards_used <= 4


def test_no_time_means_the_draft(parts):
    draft = draft_layout(parts, *BOARD, gap=GAP, margin=MARGIN)
    assert search_layout(parts, *BOARD, gap=GAP, margin=MARGIN, time_limit=0.0) == draft


def test_without_the_library_the_draft_stands(parts, monkeypatch):
    monkeypatch.setattr("sys.executable", "no-such-interpreter")
    found = search_layout(parts, *BOARD, gap=GAP, margin=MARGIN, time_limit=5.0)
    assert found.method == "draft"


def test_a_kept_layout_comes_back_until_a_part_changes(parts, tmp_path):
    layout = draft_layout(parts, *BOARD, gap=GAP, margin=MARGIN)
    path = tmp_path / "kept.json"
    path.write_text(layout_text(layout, parts, BENCH), encoding="utf-8")
    assert load_layout(path, parts, BENCH) == layout
    wider = replace(parts[0], outline=box(0, 0, 0.7366, 0.204))
    changed = (wider, *parts[1:])
    assert load_layout(path, changed, BENCH) is None
    assert load_layout(path, parts, replace(BENCH, length=0.8)) is None


@pytest.mark.parametrize("text", ["", "{", "[]", "{}", '{"form": 1}', '{"form": 99}'])
def test_a_spoilt_kept_layout_is_passed_over(parts, tmp_path, text):
    path = tmp_path / "kept.json"
    path.write_text(text, encoding="utf-8")
    assert load_layout(path, parts, BENCH) is None


def test_a_kept_layout_that_was_tampered_with_is_passed_over(parts, tmp_path):
    layout = draft_layout(parts, *BOARD, gap=GAP, margin=MARGIN)
    content = json.loads(layout_text(layout, parts, BENCH))
    content["placements"][0]["dx"] += 0.02
    path = tmp_path / "kept.json"
    path.write_text(json.dumps(content), encoding="utf-8")
    assert load_layout(path, parts, BENCH) is None


def test_the_draft_is_quick(parts):
    """Bound of a slow machine under load; it takes about 20 ms on an idle one."""
    draft_layout(parts, *BOARD, gap=GAP, margin=MARGIN)
    times = []
    for _ in range(5):
        start = time.perf_counter()
        draft_layout(parts, *BOARD, gap=GAP, margin=MARGIN)
        times.append(time.perf_counter() - start)
    assert min(times) < 0.2


def test_leftover_of_one_square():
    """A 0.2 m square in the corner of a 1.0 x 0.5 m board, margin 0.01: 0.79 m are left along."""
    layout = draft_layout((board_part("square", 1, box(0, 0, 0.2, 0.2)),), 1.0, 0.5, margin=0.01)
    assert leftover_area(layout) == pytest.approx(0.79 * 0.5)


def test_parts_are_turned_over_only_when_their_faces_are_alike():
    """Left, middle and right of a 300 x 200 mm board: left and right are mirror images."""
    side = Polygon([(0, 0), (0.05, 0), (0.1, 0.2), (0, 0.2)])
    middle = Polygon([(0.05, 0), (0.25, 0), (0.2, 0.2), (0.1, 0.2)])
    parts = [board_part("side", n, side) for n in (1, 2)] + [board_part("middle", 1, middle)]
    bench = Bench(0.303, 0.202, 0.0005, 0.0005)
    for either, boards in ((True, 1), (False, 2)):
        kinds = tuple(replace(part, either_face=either) for part in parts)
        seen = []
        found = search_on(
            kinds,
            bench,
            time_limit=4.0,
            progress=lambda layout, _, seen=seen: seen.append(layout),
            stop=lambda seen=seen, boards=boards: (
                bool(seen) and seen[-1].boards_used == boards == 1
            ),
        )
        assert found.boards_used == boards
        assert any(placement.mirrored for placement in found.placements) == either
        assert verify_layout(found, kinds) == ()


def test_a_kept_layout_with_offcuts_and_turned_parts_comes_back(parts, tmp_path):
    bench = replace(BENCH, offcuts=((0.5, 0.3), (0.25, 0.2)))
    layout = draft_on(parts, bench)
    assert layout.offcuts
    path = tmp_path / "kept.json"
    path.write_text(layout_text(layout, parts, bench), encoding="utf-8")
    assert load_layout(path, parts, bench) == layout
    assert load_layout(path, parts, BENCH) is None
    assert load_layout(path, parts, replace(bench, offcuts=((0.5, 0.3),))) is None
