"""The three-view drawing: sizes, scale, words, and honest when the model cannot say."""

import re
from xml.etree import ElementTree as ET

import pytest
from pdf_reading import page_sizes, page_words
from plane_stand_in import airframe, stand_in

from foamwright.core.errors import ModelError, OutputError
from foamwright.sheets.board_picture import draw_board_picture
from foamwright.sheets.draft import draft_layout
from foamwright.sheets.paper import paper_of
from foamwright.sheets.silhouettes import control_corners, from_above, from_ahead, from_side
from foamwright.sheets.views import arrange, draw_three_view


@pytest.fixture(scope="module")
def svg(tmp_path_factory):
    path = tmp_path_factory.mktemp("view") / "cob.svg"
    assert draw_three_view(stand_in(), path) == path
    return path


def test_svg_is_a_whole_a3_sheet(svg):
    text = svg.read_text(encoding="utf-8")
    root = ET.fromstring(text)  # noqa: S314 -- our own text
    assert (root.get("width"), root.get("height")) == ("420mm", "297mm")
    assert "http" not in re.sub(r'xmlns(:\w+)?="[^"]*"', "", text)


def test_svg_says_the_main_dimensions(svg):
    words = " ".join(ET.parse(svg).getroot().itertext())  # noqa: S314 -- our own text
    for wanted in (
        "Brindle Cob", "1200 mm", "150 mm", "200 mm", "400 mm", "900 mm", "220 mm",
        "tail arm", "654 g", "neutral point", "CG range", "dihedral", "1 : 6",
        "motor", "pack", "servo-elevator", "propeller 229 mm",
    ):  # fmt: skip
        assert wanted in words, wanted


def test_inch_designs_are_drawn_on_tabloid(tmp_path):
    path = tmp_path / "cob.pdf"
    draw_three_view(stand_in(units="inch"), path)
    assert page_sizes(path) == [pytest.approx((17 * 72, 11 * 72), abs=0.1)]
    words = page_words(path, 1)
    assert "47 1/4 in" in words
    assert "oz/ft" in words


@pytest.mark.parametrize("suffix", [".svg", ".png", ".pdf"])
def test_the_same_plane_makes_the_same_bytes(tmp_path, suffix):
    paths = [tmp_path / f"{name}{suffix}" for name in ("one", "two")]
    for path in paths:
        draw_three_view(stand_in(), path)
    assert paths[0].read_bytes() == paths[1].read_bytes()


def test_without_a_path_a_figure_comes_back():
    figure = draw_three_view(stand_in())
    assert tuple(figure.get_size_inches() * 25.4) == pytest.approx((420, 297))


def test_an_unknown_ending_is_refused(tmp_path):
    with pytest.raises(OutputError, match=r"cannot be written as '.dwg'"):
        draw_three_view(stand_in(), tmp_path / "cob.dwg")
    assert list(tmp_path.iterdir()) == []


def test_what_cannot_be_said_is_said_so(tmp_path):
    class Silent:
        def __getattr__(self, name):
            if name == "aero":
                raise ModelError("no lift to be had")
            return getattr(plane, name)

    plane = stand_in()
    path = tmp_path / "cob.svg"
    draw_three_view(Silent(), path)
    assert "cannot say" in path.read_text(encoding="utf-8")


def test_outlines_are_where_the_shape_is():
    frame = airframe()
    wing = [shape.points for shape in from_above(frame) if shape.name == "wing"]
    assert (0.6, -0.23) in wing[0]
    assert (-0.6, -0.23) in wing[1]
    rudder = control_corners(frame.fin, frame.fin.controls[0])
    # Start 10 % up: leading edge 0.754, chord 0.136; the hinge lies 70 % back along it.
    assert rudder[0][0] == pytest.approx(0.754 + 0.7 * 0.136, abs=1e-4)
    fin = next(shape.points for shape in from_side(frame) if shape.name == "fin")
    assert max(z for _, z in fin) == pytest.approx(0.17)
    ahead = next(shape.points for shape in from_ahead(frame) if shape.name == "body")
    assert {round(y, 6) for y, _ in ahead} == {-0.015, 0.015}


def test_views_stay_on_the_sheet_at_any_size():
    for span in (0.3, 0.78, 1.2, 2.0, 3.0):
        factor = span / 1.2
        frame = airframe()
        views = tuple(
            [type(s)(s.name, tuple((factor * x, factor * y) for x, y in s.points)) for s in shapes]
            for shapes in (from_above(frame), from_side(frame), from_ahead(frame))
        )
        ratio, places = arrange(views, paper_of("a3"), 0.11 * factor)
        for view, shapes in zip(places, views, strict=True):
            for shape in shapes:
                for point in shape.points:
                    x, y = view.at(point)
                    assert 8 < x < 412, (span, ratio)
                    assert 28 < y < 289, (span, ratio)


def test_board_picture_is_small_enough_for_a_page(tmp_path):
    plane = stand_in()
    layout = draft_layout(plane.parts.parts, 0.762, 0.508)
    path = draw_board_picture(layout, plane.parts.parts, path=tmp_path / "boards.png")
    data = path.read_bytes()
    assert data.startswith(b"\x89PNG")
    assert len(data) < 200_000
