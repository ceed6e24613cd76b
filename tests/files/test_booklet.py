"""The booklet's measures, the angle gauges and the printer test, measured on the page."""

import math
from dataclasses import replace

import numpy as np
import pytest
from pdf_reading import MM, longest_runs, page_pixels, page_sizes, page_words
from plane_stand_in import stand_in
from shapely import Polygon, box
from sheet_job import HEADING, board_part, whole_job

from foamwright.core.errors import OutputError
from foamwright.parts.model import Line, LineKind
from foamwright.sheets.booklet import kinds_of, write_booklet_pdf
from foamwright.sheets.calibration import write_calibration_pdf
from foamwright.sheets.gauges import gauges_of
from foamwright.sheets.kerf import with_kerf
from foamwright.sheets.measures import measures_of
from foamwright.sheets.model import Drawing, Stroke
from foamwright.sheets.paper import paper_of
from foamwright.sheets.words import length_words

INCH = 0.0254


def test_lines_are_measured_from_the_left_end_and_the_lower_edge():
    """A plate whose flat frame starts at (10, -20) mm: 30 mm up is 50 mm from its edge."""
    lines = (
        Line(LineKind.CREASE, ((0.010, 0.030), (0.210, 0.030)), "crease"),
        Line(LineKind.MARK, ((0.060, -0.020), (0.060, 0.080)), "spar"),
        Line(LineKind.MARK, ((0.010, -0.020), (0.110, 0.080))),
    )
    hole = [(0.100, 0.0), (0.120, 0.0), (0.120, 0.010), (0.100, 0.010)]
    outline = Polygon(box(0.010, -0.020, 0.210, 0.080).exterior.coords, [hole])
    found = measures_of(board_part("plate", 1, outline, lines=lines), 0.0, "metric")
    assert found.lines == (
        "1 crease, crease: 50 mm up, from 0 mm to 200 mm",
        "2 mark, spar: 50 mm along, from 0 mm to 100 mm",
        "3 mark: 0 mm along, 0 mm up to 100 mm along, 100 mm up",
    )
    assert found.others == ("hole 20 mm × 10 mm, middle at 100 mm along, 25 mm up",)


def test_corners_are_listed_in_order():
    wedge = board_part("wedge", 1, Polygon([(0, 0), (8 * INCH, 0), (2 * INCH, 3 * INCH)]))
    found = measures_of(wedge, 0.0, "inch").others
    assert found == ("corners (along; up) in inches: (0; 0), (8; 0), (2; 3)",)


@pytest.mark.parametrize(
    ("inches", "words"),
    [(1 / 32, "1/32 in"), (0.071, "1/16 in"), (2.13, "2 1/8 in"), (9.99, "10 in"), (0.0, "0 in")],
)
def test_inches_are_read_in_fractions_to_a_thirty_second(inches, words):
    assert length_words(inches * INCH, "inch") == words


def test_mirror_images_are_counted_with_their_originals():
    right = replace(board_part("aileron", 1, box(0, 0, 0.4, 0.03)), side="right")
    left = replace(right, id="left", side="left", mirrored_of=right.id)
    other = board_part("rib", 1, box(0, 0, 0.2, 0.02))
    found = kinds_of((right, left, other))
    assert [(part.name, count, words) for part, count, words in found] == [
        ("aileron", 2, "1 right as drawn, 1 in mirror image"),
        ("rib", 1, ""),
    ]


@pytest.fixture(scope="module")
def booklet(tmp_path_factory):
    path = tmp_path_factory.mktemp("booklet") / "parts.pdf"
    path.write_bytes(write_booklet_pdf(whole_job(), heading=HEADING, paper=paper_of("letter")))
    return path


def test_every_flat_part_has_its_place_in_the_booklet(booklet):
    sizes = page_sizes(booklet)
    words = " ".join(page_words(booklet, page) for page in range(1, len(sizes) + 1))
    words = " ".join(words.split())
    for part in whole_job():
        if part.source.value in ("board", "ply"):
            assert f"{part.name}" in words, part.name
    for wanted in ("6 off", "drawn 1 : ", "crease 1", "middle at", "firewall: 1 off"):
        assert wanted in words, wanted
    for size in sizes:
        assert sorted(size) == pytest.approx([612, 792], abs=0.02)


def test_the_booklet_is_the_same_every_time(booklet):
    again = write_booklet_pdf(whole_job(), heading=HEADING, paper=paper_of("letter"))
    assert again == booklet.read_bytes()


def test_gauges_follow_the_design():
    """Panels rise by 3° and 9°: ends slant by 3° at the centre and by half of 6° at the break."""
    found = {gauge.name: math.degrees(gauge.angle) for gauge in gauges_of(stand_in())}
    assert found["dihedral, panel 1"] == pytest.approx(3.0)
    assert found["dihedral, panel 2"] == pytest.approx(9.0)
    assert found["spar and root ends at the centre"] == pytest.approx(3.0)
    assert found["spar and root ends between panels 1 and 2"] == pytest.approx(3.0)
    assert found["washout, panel 2"] == pytest.approx(2.0)
    assert found["wing incidence"] == pytest.approx(1.5, abs=0.01)
    assert found["down thrust"] == pytest.approx(2.0)
    assert found["hinge bevels"] == pytest.approx(45.0)
    assert not {"right thrust", "washout, panel 1"} & set(found)


@pytest.mark.parametrize(("name", "scale"), [("a4", 1.0), ("letter", 1.0), ("letter", 0.985)])
def test_the_printer_test_is_true_both_ways(tmp_path, name, scale):
    """250 mm up and 180 mm across, within 0.2 mm, times what the printer makes of it."""
    path = tmp_path / "test.pdf"
    path.write_bytes(write_calibration_pdf(paper_of(name), printer_scale=scale))
    assert len(page_sizes(path)) == 1
    pixels = page_pixels(path, 1)
    for grid, length in ((pixels, 180.0), (np.ascontiguousarray(pixels.T), 250.0)):
        assert longest_runs(grid).max() * MM * scale == pytest.approx(length, abs=0.2)


def test_a_kerf_moves_cut_lines_and_nothing_else():
    """A 40 x 30 mm plate with a 10 mm square hole, cut 0.2 mm wide: 40.2 x 30.2 and 9.8 mm."""
    outer = Stroke("cut", ((0, 0), (0.04, 0), (0.04, 0.03), (0, 0.03)), True, "plate")
    hole = ((0.01, 0.01), (0.02, 0.01), (0.02, 0.02), (0.01, 0.02))
    inner = Stroke("cut", hole, True, "plate")
    mark = Stroke("mark", ((0.0, 0.005), (0.04, 0.005)), False, "plate")
    moved = with_kerf(Drawing("Board", 0.1, 0.1, (outer, inner, mark), ()), 0.0002).strokes
    assert Polygon(moved[0].points).area == pytest.approx(0.0402 * 0.0302)
    assert Polygon(moved[1].points).area == pytest.approx(0.0098**2)
    assert moved[2] == mark


@pytest.mark.parametrize("kerf", [-0.001, 0.02])
def test_a_kerf_that_no_machine_has_is_refused(kerf):
    with pytest.raises(OutputError, match=r"kerf is .* it must be 0 to 5 mm"):
        with_kerf(Drawing("Board", 0.1, 0.1, (), ()), kerf)
