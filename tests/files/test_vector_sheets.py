"""SVG and DXF boards read back by other libraries: closed, true in area, sorted by kind."""

import io
import re
from xml.etree import ElementTree as ET

import ezdxf
import pytest
from shapely import LineString, Polygon
from sheet_job import BOARD, GAP, MARGIN, whole_job

from foamwright.sheets.draft import draft_layout
from foamwright.sheets.drawing import board_drawings
from foamwright.sheets.dxf import write_dxf
from foamwright.sheets.metrics import words_length
from foamwright.sheets.room import text_box
from foamwright.sheets.svg import write_svg

SVG = "{http://www.w3.org/2000/svg}"


@pytest.fixture(scope="module")
def job():
    parts = whole_job()
    layout = draft_layout(parts, *BOARD, gap=GAP, margin=MARGIN)
    return parts, layout, board_drawings(layout, parts, units="inch")


def ring_areas(parts):
    """Areas of all outlines and holes in mm², sorted."""
    rings = []
    for part in parts:
        if part.source == "board":
            rings += [Polygon(part.outline.exterior), *map(Polygon, part.outline.interiors)]
    return sorted(ring.area * 1e6 for ring in rings)


def test_dxf_outlines_are_closed_and_true(job):
    parts, _, drawings = job
    document = ezdxf.read(io.StringIO(write_dxf(drawings, title="Brindle Cob")))
    assert not document.audit().errors
    assert document.header["$INSUNITS"] == 4  # millimetres, DXF reference
    cuts = document.modelspace().query("LWPOLYLINE[layer=='cut']")
    assert all(line.closed for line in cuts)
    areas = sorted(Polygon([(x, y) for x, y, *_ in line.get_points()]).area for line in cuts)
    assert areas == pytest.approx(ring_areas(parts), rel=1e-6)


def test_dxf_has_a_layer_for_each_kind_and_its_words(job):
    _, _, drawings = job
    document = ezdxf.read(io.StringIO(write_dxf(drawings)))
    space = document.modelspace()
    for kind in ("cut", "score", "crease", "fold", "bevel", "mark", "board", "words"):
        assert space.query(f"*[layer=='{kind}']"), kind
    words = {text.dxf.text for text in space.query("TEXT")}
    assert {"CG", "leading edge", "Board 1 of 3"} <= words


def test_dxf_kerf_grows_outlines_and_shrinks_holes(job):
    parts, _, drawings = job
    kerf = 0.0004
    document = ezdxf.read(io.StringIO(write_dxf(drawings, kerf=kerf)))
    cuts = document.modelspace().query("LWPOLYLINE[layer=='cut']")
    boxes = [Polygon([(x, y) for x, y, *_ in line.get_points()]) for line in cuts]
    # The stab is 18 x 4.5 in; the window in the core 5 x 2 in. Half a kerf on every side.
    stab = (457.2 + 0.4) * (114.3 + 0.4)
    window = (127.0 - 0.4) * (50.8 - 0.4)
    for expected in (stab, window):
        assert min(abs(shape.area - expected) for shape in boxes) < 1e-3
    assert len(boxes) == len(ring_areas(parts))


def test_svg_is_true_to_size_and_sorted(job):
    parts, _, drawings = job
    areas = []
    for drawing in drawings:
        root = ET.fromstring(write_svg(drawing))  # noqa: S314 -- our own text
        assert root.get("width") == "762mm"
        assert root.get("height") == "508mm"
        assert root.get("viewBox") == "0 0 762 508"
        groups = {group.get("id"): group for group in root.findall(f"{SVG}g")}
        for path in groups["cut"].findall(f"{SVG}path"):
            text = path.get("d")
            assert text.endswith("Z")
            numbers = [float(n) for n in re.findall(r"-?[\d.]+", text)]
            areas.append(Polygon(list(zip(numbers[::2], numbers[1::2], strict=True))).area)
    assert sorted(areas) == pytest.approx(ring_areas(parts), rel=1e-6)


def test_svg_words(job):
    _, _, drawings = job
    text = "".join(write_svg(drawing) for drawing in drawings)
    for wanted in ("wing panel, left", "fuselage core", "29 in × 8 in", "outside face down"):
        assert wanted in text


def test_vector_files_are_the_same_every_time(job):
    parts, layout, drawings = job
    again = board_drawings(layout, parts, units="inch")
    assert [write_svg(d) for d in again] == [write_svg(d) for d in drawings]
    assert write_dxf(again, title="a") == write_dxf(drawings, title="a")


def test_words_keep_clear_of_edges_and_each_other(job):
    """Each label lies wholly on its part and no two labels of a part touch."""
    _, layout, drawings = job
    outlines = {placement.part_id: placement.outline for placement in layout.placements}
    for drawing in drawings:
        boxes = {}
        for text in drawing.texts:
            long = words_length(text.words, text.size, bold=text.bold)
            room = text_box(text.at, long * 0.99, text.size * 0.72, text.angle)
            assert outlines[text.part].covers(room), (text.part, text.words)
            boxes.setdefault(text.part, []).append((text.words, room))
        for part, rooms in boxes.items():
            for index, (words, room) in enumerate(rooms):
                for other, taken in rooms[:index]:
                    assert not room.intersects(taken), (part, words, other)


def test_words_keep_clear_of_inner_lines(job):
    _, _, drawings = job
    for drawing in drawings:
        for stroke in drawing.strokes:
            if not stroke.part or stroke.closed or stroke.kind == "note":
                continue
            line = LineString(stroke.points)
            for text in drawing.texts:
                if text.part == stroke.part:
                    long = words_length(text.words, text.size, bold=text.bold)
                    room = text_box(text.at, long * 0.99, text.size * 0.72, text.angle)
                    assert not room.intersects(line), (text.words, stroke.kind)


def test_a_part_too_small_for_words_gets_a_number(job):
    _, _, drawings = job
    key = [line for drawing in drawings for line in drawing.key]
    assert len(key) == 1
    assert "horn plate" in key[0]
    number = key[0].split(":")[0]
    assert number == "1"
    texts = [t for d in drawings for t in d.texts if t.part == "horn-plate-1"]
    assert [text.words for text in texts] == [number]
