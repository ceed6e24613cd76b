"""Every place of the workshop: its address, the sizes it is used at, who can use it, paper."""

import re
from pathlib import Path

import pytest
from at_the_board import go, settled, tab_to, type_in, unsaved

from foamwright.web.places import PLACES

pytestmark = [pytest.mark.browser, pytest.mark.slow]

SIZES = ((1280, 800), (1920, 1080), (820, 1180))
EVERYWHERE = ["start", *PLACES]
FULL = """() => [document.documentElement.scrollWidth - innerWidth,
    ...[...document.querySelectorAll('.fw-stage, .fw-says')]
        .map((e) => e.scrollWidth - e.clientWidth)]"""
AXE = """async () => (await axe.run(document, {resultTypes: ['violations']})).violations
    .filter((v) => ['serious', 'critical'].includes(v.impact))
    .map((v) => [v.id, v.nodes[0].html.slice(0, 160)])"""
NAMELESS = """() => [...document.querySelectorAll('button, a, input, select, [role=slider]')]
    .filter((e) => e.offsetParent !== null || e.ownerSVGElement)
    .filter((e) => !(e.innerText || e.getAttribute('aria-label') || e.title
        || (e.labels && e.labels.length)))
    .map((e) => e.outerHTML.slice(0, 90))"""


def filled(page):
    """What a place works out beside the page has come."""
    page.wait_for_selector(".fw-stage h1, .fw-stage svg, .fw-stage canvas", state="attached")
    page.wait_for_load_state("networkidle")


@pytest.mark.parametrize("place", EVERYWHERE)
def test_its_address_survives_a_reload_and_it_fits_three_sizes(bench, open_page, place):
    page = open_page(bench, place)
    page.reload()
    filled(page)
    assert page.locator(".fw-tape a[aria-current]").count() == 1
    for width, height in SIZES:
        page.set_viewport_size({"width": width, "height": height})
        page.evaluate("() => new Promise((done) => requestAnimationFrame(() => setTimeout(done)))")
        assert max(page.evaluate(FULL)) <= 1, (width, height)
    assert page.evaluate(NAMELESS) == []


@pytest.mark.parametrize("place", EVERYWHERE)
def test_no_grave_accessibility_fault(bench, open_page, place):
    """No serious or critical finding of axe-core, on the page as it opens and with a line open."""
    axe = pytest.importorskip("axe_playwright_python", reason="the package that brings axe-core")
    page = open_page(bench, place)
    filled(page)
    if place == "shape":
        settled(page)
        type_in(page, "stab_span", "5 in")  # something is wrong
        page.locator(".f.fails .f-head").first.click()
        page.wait_for_selector(".f-body")
    page.evaluate((Path(axe.__file__).parent / "axe.min.js").read_text(encoding="utf-8"))
    assert page.evaluate(AXE) == []


def test_going_back_leads_where_one_was(bench, open_page):
    page = open_page(bench, "shape")
    go(page, "balance")
    go(page, "strength")
    page.go_back()
    page.wait_for_function(
        "() => document.querySelector('.fw-tape [aria-current]')?.innerText === 'balance'"
    )


def test_words_explain_themselves_with_a_drawing(bench, open_page):
    page = open_page(bench)
    word = page.locator('.fw-word[data-term="static margin"]').first
    word.hover()
    tip = page.locator(".fw-tip")
    tip.wait_for()
    assert "neutral point" in tip.inner_text()
    assert tip.locator("svg").count() == 1
    box, (width, height) = tip.bounding_box(), SIZES[0]
    assert 0 <= box["x"] <= width - box["width"]
    assert 0 <= box["y"] <= height - box["height"]
    page.keyboard.press("Escape")
    tip.wait_for(state="hidden")
    tab_to(page, '.fw-word[data-term="stall"]')
    tip.wait_for()


def test_plots_can_be_read_off(bench, open_page):
    page = open_page(bench, "power")
    plot = page.locator(".fw-plot").first
    plot.hover()
    read = plot.locator(".read")
    read.wait_for()
    assert re.search(
        r"at [\d.]+ mph: full thrust [\d.]+ oz; level drag [\d.]+ oz", read.inner_html()
    )
    before = read.inner_html()
    page.mouse.move(1, 1)
    plot.focus()
    page.keyboard.press("ArrowRight")
    page.wait_for_function("(was) => document.querySelector('.read').innerHTML !== was", arg=before)


def test_a_propeller_of_the_ranking_is_put_in(bench, open_page):
    page = open_page(bench, "power")
    for what in ("packs", "motors", "propellers"):
        page.get_by_role("button", name=what, exact=True).click()
        page.wait_for_selector(f"th >> text={what}")
    first = page.locator(".fw-scroll tbody tr").first
    name = first.locator("td").first.inner_text().removesuffix(" *")
    first.get_by_role("button").click()
    unsaved(page)
    diameter = name.rpartition(" ")[2].partition("x")[0]
    page.wait_for_function(
        "(d) => document.querySelector('[aria-label=diameter]').value === `${d} in`", arg=diameter
    )


def test_the_build_step_by_step(bench, open_page):
    page = open_page(bench, "build")
    page.wait_for_selector(".fw-figure svg")
    steps = page.locator(".fw-steplist li").count()
    assert steps > 12
    page.get_by_role("button", name="Next step").click()
    page.wait_for_selector(".fw-steplist li:nth-child(2).now")
    page.locator(".fw-paper .fw-check input").check()
    page.wait_for_function("() => location.search.includes('at=')")
    page.reload()
    page.wait_for_selector(".fw-steplist li:nth-child(2).now")
    page.wait_for_selector(".fw-steplist li:nth-child(2) input:checked")
    page.get_by_role("button", name="time plan").click()
    hours = page.get_by_label("your free hours")
    hours.fill("Fri 2 h, Sat 9 h")
    hours.press("Enter")
    page.wait_for_selector("td >> text=Sat")
    with page.expect_download() as coming:
        page.get_by_role("button", name="Book as PDF").click()
    assert coming.value.path().read_bytes()[:5] == b"%PDF-"


def test_the_field_card_is_ticked_and_taken_along(bench, open_page):
    page = open_page(bench, "field")
    box = page.locator(".fw-check input").first
    box.check()
    page.reload()
    page.wait_for_selector(".fw-check input:checked")
    with page.expect_download() as coming:
        page.get_by_role("button", name="Card as PDF").click()
    assert coming.value.path().read_bytes()[:5] == b"%PDF-"


def test_the_logbook_takes_in_and_puts_right(bench, open_page):
    page = open_page(bench, "logbook")
    other = open_page(bench, "logbook")
    mass = page.get_by_role("textbox", name="All-up mass")
    mass.fill("24 kg")
    page.get_by_role("button", name="Write it down").click()
    page.wait_for_selector(".fw-faults li")
    log = bench.file.with_name("cob.log.toml")
    assert not log.exists()
    mass.fill("670 g")
    page.get_by_role("button", name="Write it down").click()
    page.wait_for_selector(".fw-log >> text=all-up")
    other.wait_for_selector(".fw-log >> text=all-up")  # the other tab sees it
    page.get_by_role("button", name="Correct entry 1").click()
    page.get_by_label("as it should be").fill("680 g")
    page.get_by_label("why").fill("scale not zeroed")
    page.get_by_role("button", name="Put right").click()
    page.wait_for_selector(".fw-log >> text=mass was 670 g")
    text = log.read_text(encoding="utf-8")
    assert "670 g" in text  # the old value stays in the file
    assert "scale not zeroed" in text
    page.get_by_role("button", name="a flight").click()
    page.get_by_label("Minutes in the air").fill("7")
    page.get_by_label("At launch it").select_option("flew")
    page.get_by_role("button", name="Write it down").click()
    page.wait_for_selector(".fw-log >> text=launch flew")


@pytest.mark.parametrize("place", ["shape", "build", "strength", "sheets"])
def test_the_printed_page_holds_the_work_and_no_buttons(bench, open_page, place):
    page = open_page(bench, place)
    filled(page)
    page.emulate_media(media="print")
    assert page.locator(".fw-page button:visible:not(.f-head), .fw-tape:visible").count() == 0
    assert page.locator(".fw-stage svg:visible").count() >= 1
    assert page.locator(".fw-cell.name").is_visible()
