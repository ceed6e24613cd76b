"""Our SVG drawings in a real browser: full size, quiet, and asking nothing of the network."""

import re
from pathlib import Path

import pytest
from foamwright.sheets.write import write_all

import foamwright

pytestmark = [pytest.mark.browser, pytest.mark.slow]

EXAMPLE = Path(__file__).parents[2] / "examples" / "brindle-cob.toml"
MILLIMETRE = 96 / 25.4  # CSS px; CSS Values and Units Level 4, section 6.2: 1 in = 96 px
BOX = "document.documentElement.getBoundingClientRect()"
SIZE = f"() => [{BOX}.width, {BOX}.height]"


@pytest.fixture(scope="module")
def drawings(tmp_path_factory):
    folder = tmp_path_factory.mktemp("drawings")
    plane = foamwright.load(EXAMPLE)
    views = Path(plane.show(folder / "views.svg"))
    written = write_all(
        plane, folder / "sheets", paper="a4", time_limit=0.0, formats=("svg",), overwrite=False
    )
    return [views, *(Path(path) for path in written if Path(path).suffix == ".svg")]


def size_in_mm(path):
    head = re.search(r"<svg[^>]*>", path.read_text(encoding="utf-8")).group()
    numbers = re.search(r'width="([\d.]+)mm"[^>]*height="([\d.]+)mm"', head)
    assert numbers, f"{path.name} does not say its size in mm: {head}"
    return [float(number) for number in numbers.groups()]


def test_every_drawing_is_full_size_and_quiet(drawings, look):
    assert len(drawings) >= 2
    for path in drawings:
        page, said, outside = look(path)
        measured = page.evaluate(SIZE)
        expected = [MILLIMETRE * length for length in size_in_mm(path)]
        assert measured == pytest.approx(expected, abs=0.1), path.name
        assert said == []
        assert outside == []


def test_a_drawing_shows_something(drawings, look):
    """Ink where the plane is: a screenshot of the three-view holds both white and dark pixels."""
    page, _, _ = look(drawings[0])
    words = page.evaluate("() => document.documentElement.textContent")
    shapes = page.evaluate(
        "() => document.querySelectorAll('path, polygon, polyline, line').length"
    )
    assert shapes > 10
    assert "Brindle Cob" in words
