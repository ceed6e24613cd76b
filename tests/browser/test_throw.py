"""Hand launches in the page: the share, the map with progress and stop, what helps."""

import pytest
from axe_check import axe_faults, too_wide

pytestmark = [pytest.mark.browser, pytest.mark.slow]

PATIENT = 60_000  # ms, on a busy machine


def thrown(page):
    page.locator(".th-share").wait_for(timeout=PATIENT)
    page.get_by_role("button", name="Stop").wait_for(state="hidden", timeout=PATIENT)


def test_throws_are_told_mapped_and_changed(bench, open_page):
    page = open_page(bench, "throw")
    thrown(page)
    first = int(page.locator(".th-share").inner_text().split()[0])
    assert first > 80  # a trainer with a pull of two thirds of its weight
    assert "95 % interval" in page.locator(".fw-sheetwork").inner_text()
    # Without throttle a throw only glides: none flies away.
    throttle = page.get_by_label("throttle", exact=True)
    throttle.fill("0")
    throttle.press("Enter")
    page.get_by_role("button", name="Throw it").click()
    page.get_by_text("a glide toss shows trim").wait_for(timeout=PATIENT)
    thrown(page)
    assert page.locator(".th-share").inner_text().startswith("0 %")
    page.get_by_role("button", name="Map of speed").click()
    page.locator(".th-map").wait_for(timeout=PATIENT)
    page.get_by_role("button", name="Stop").wait_for(state="hidden", timeout=PATIENT)
    assert page.locator(".th-map g").count() == 72  # nine throttles at eight speeds


def test_an_impossible_throw_is_refused_with_the_range(bench, open_page):
    page = open_page(bench, "throw")
    thrown(page)
    speed = page.get_by_label("throw speed, standing")
    speed.fill("40 m/s")
    speed.press("Enter")
    page.get_by_role("button", name="Throw it").click()
    page.locator(".fl-trouble", has_text="m/s").wait_for(timeout=PATIENT)
    speed.fill("7 m/s")
    speed.press("Enter")
    page.get_by_role("button", name="What helps most").click()
    page.get_by_text("Suits it best").wait_for(timeout=PATIENT)
    page.get_by_role("heading", name="what helps most").wait_for(timeout=PATIENT)
    assert page.locator("section[aria-label='What helps'] table tr").count() > 3


def test_its_address_keys_and_axe(bench, open_page):
    page = open_page(bench, "throw")
    thrown(page)
    page.reload()
    thrown(page)
    assert page.locator('.fw-tape a[aria-current="page"]').inner_text() == "throw"
    page.get_by_role("button", name="Map of speed").focus()
    page.keyboard.press("Enter")
    page.locator(".th-map").wait_for(timeout=PATIENT)
    page.get_by_role("button", name="Stop").wait_for(state="hidden", timeout=PATIENT)
    assert page.locator(".th-map g").count() == 72
    assert axe_faults(page) == []
    assert too_wide(page) == 0
