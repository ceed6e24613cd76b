"""Our SVG drawings in a real browser: full size, quiet, and asking nothing of the network."""

import re
from pathlib import Path

import pytest
from running import chromium_path

import foamwright
from foamwright.sheets.write import write_all

pytestmark = [pytest.mark.browser, pytest.mark.slow]

ARGUMENTS = ["--no-sandbox", "--disable-gpu", "--hide-scrollbars", "--force-device-scale-factor=1"]
EXAMPLE = Path(__file__).parents[2] / "examples" / "brindle-cob.toml"
MILLIMETRE = 96 / 25.4  # CSS px; CSS Values and Units Level 4, section 6.2: 1 in = 96 px
LAYOUT_STEP = 1 / 64  # CSS px, the browser rounds boxes to it
BOX = "document.documentElement.getBoundingClientRect()"
SIZE = f"() => [{BOX}.width, {BOX}.height]"


@pytest.fixture(scope="module")
def browser(playwright_running):
    chromium = playwright_running.chromium.launch(executable_path=chromium_path(), args=ARGUMENTS)
    yield chromium
    chromium.close()


@pytest.fixture
def look(browser):
    """Open a file; hand back the page, what its console said, and what it asked from outside."""
    context = browser.new_context(offline=True)
    page = context.new_page()
    said, asked = [], []
    page.on("console", lambda message: said.append(message.text))
    page.on("pageerror", lambda error: said.append(str(error)))
    page.on("request", lambda request: asked.append(request.url))

    def opened(path):
        page.goto(path.as_uri())
        outside = [url for url in asked if not url.startswith(("file:", "data:"))]
        return page, said, outside

    yield opened
    context.close()


@pytest.fixture(scope="module")
def drawings(tmp_path_factory):
    folder = tmp_path_factory.mktemp("drawings")
    plane = foamwright.load(EXAMPLE)
    views = Path(plane.show(folder / "views.svg"))
    written = write_all(plane, folder / "sheets", time_limit=0.0, formats=("svg",))
    return [views, *(path for path in written if path.suffix == ".svg")]


def size_in_mm(path):
    head = re.search(r"<svg[^>]*>", path.read_text(encoding="utf-8")).group()
    said = [re.search(rf'\b{side}="([\d.]+)mm"', head) for side in ("width", "height")]
    assert all(said), f"{path.name} does not say its size in mm: {head}"
    return [float(side[1]) for side in said]


def test_every_drawing_is_full_size_and_quiet(drawings, look):
    assert len(drawings) >= 2
    for path in drawings:
        page, said, outside = look(path)
        expected = [MILLIMETRE * side for side in size_in_mm(path)]
        assert page.evaluate(SIZE) == pytest.approx(expected, abs=2 * LAYOUT_STEP), path.name
        assert said == []
        assert outside == []


def test_the_boards_have_the_size_of_the_boards(drawings, look):
    """The drawn board's edge, measured in the browser, is the board that the design names."""
    plane = foamwright.load(EXAMPLE)
    board = plane.design.board
    wanted = [1000 * MILLIMETRE * side for side in (board.length, board.width)]
    page, _, _ = look(drawings[1])
    rows = page.evaluate(
        """() => [...document.querySelectorAll('path, polygon, rect, polyline')].map(shape => {
            const box = shape.getBoundingClientRect();
            return [box.width, box.height]
        })"""
    )
    assert any(row == pytest.approx(wanted, abs=2.0) for row in rows), rows[:10]


def test_the_three_view_shows_the_plane(drawings, look):
    page, _, _ = look(drawings[0])
    shapes = page.evaluate("() => document.querySelectorAll('path, line, polyline').length")
    assert shapes > 30
    assert "Brindle Cob" in page.evaluate("() => document.documentElement.textContent")
