"""What a logbook tells, in the page, and the next version written with one click."""

import pytest
from axe_check import axe_faults, too_wide

from foamwright.logbook.store import add_entry

pytestmark = [pytest.mark.browser, pytest.mark.slow]

PATIENT = 60_000  # ms, on a busy machine


@pytest.fixture
def flown(bench):
    """A logbook beside the design: heavier than drawn, and it rolls left."""
    file = bench.folder / bench.name
    add_entry(file, "weighed", {"what": "all-up", "mass": "720 g"}, when="2026-05-02")
    said = {"minutes": "6", "launch": "flew", "roll_slow": "left", "roll_fast": "left",
            "roll_glide": "left"}  # fmt: skip
    add_entry(file, "flight", said, when="2026-05-03")
    return bench


def test_a_logbook_is_read_and_the_next_version_written(flown, open_page):
    page = open_page(flown, "learn")
    page.get_by_text("The logbook holds 2 entries").wait_for(timeout=PATIENT)
    page.get_by_role("button", name="Read the logbook").click()
    page.locator(".ln-verdict").wait_for(timeout=PATIENT)
    told = page.locator("section[aria-label='What the logbook tells']")
    assert "twisted" in told.inner_text().lower()  # rolls left at every speed, power on and off
    assert told.locator("table").count() >= 1
    page.get_by_role("button", name="Write the next version").click()
    page.get_by_text("cob-2.toml is written").wait_for(timeout=PATIENT)
    written = (flown.folder / flown.name).with_name("cob-2.toml").read_text(encoding="utf-8")
    assert "learned" in written
    assert "Why:" in written
    page.get_by_role("link", name="Open it on the drawing board").click()
    page.wait_for_selector('[data-dim="span"]', timeout=PATIENT)
    assert "cob-2.toml" in page.url


def test_an_empty_logbook_keys_reload_and_axe(bench, open_page):
    page = open_page(bench, "learn")
    page.reload()
    page.get_by_text("The logbook holds nothing yet").wait_for(timeout=PATIENT)
    assert page.locator('.fw-tape a[aria-current="page"]').inner_text() == "learn"
    page.get_by_role("button", name="Read the logbook").focus()
    page.keyboard.press("Enter")
    page.locator(".ln-verdict").wait_for(timeout=PATIENT)
    page.get_by_role("button", name="Stop").wait_for(state="hidden", timeout=PATIENT)
    assert axe_faults(page) == []
    assert too_wide(page) == 0
