"""From wishes to designs in the page: refused wishes, a search that is stopped, one written."""

import pytest
from axe_check import axe_faults, too_wide

pytestmark = [pytest.mark.browser, pytest.mark.slow]

PATIENT = 120_000  # ms, on a busy machine


def test_wishes_become_a_design(bench, open_page):
    page = open_page(bench, "idea")
    page.reload()
    page.get_by_label("motor at hand").wait_for(timeout=PATIENT)
    assert page.locator('.fw-tape a[aria-current="page"]').inner_text() == "idea"
    packs = page.get_by_label("packs at hand, commas between")
    packs.fill("a big one")
    packs.press("Enter")
    page.get_by_role("button", name="Look for planes").click()
    page.locator(".fl-trouble", has_text="pack").wait_for(timeout=PATIENT)
    packs.fill("3 x 1300 mAh")
    packs.press("Enter")
    page.get_by_role("button", name="Look for planes").focus()
    page.keyboard.press("Enter")
    page.get_by_role("button", name="Stop").wait_for(timeout=PATIENT)
    sheets = page.locator(".id-sheets article")
    page.get_by_role("heading", name="Proposals").or_(
        page.get_by_role("heading", name="Nothing passes yet")
    ).wait_for(timeout=PATIENT)
    assert axe_faults(page) == []
    assert too_wide(page) == 0
    if sheets.count():  # a very busy machine may not find one in the time
        page.get_by_role("button", name="Write A as a design").click()
        page.get_by_text("is written").wait_for(timeout=PATIENT)
        page.get_by_role("link", name="Open it on the drawing board").click()
        page.wait_for_selector('[data-dim="span"]', timeout=PATIENT)
        assert (bench.folder / "proposal-a.toml").exists()
