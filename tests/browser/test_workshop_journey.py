"""The whole way in the workshop: a new plane, dragged, mended, undone, cut out, reopened."""

import io
import re
import zipfile

import pytest
from at_the_board import (
    design,
    drag,
    go,
    reads,
    saved,
    settled,
    tab_to,
    type_in,
    unsaved,
    wait_reads,
    wait_reads_other,
)

pytestmark = [pytest.mark.browser, pytest.mark.slow]

POINT = 1 / 72  # inch; PDF 32000-1, 8.3.2.3: a unit of user space
STAB = '.f[data-id="tail_volume_horizontal"]'


def new_plane(page, title):
    page.get_by_label("its name").fill(title)
    page.get_by_label("span, such as").fill("46 in")
    page.get_by_role("button", name="Draw it").click()
    page.wait_for_selector(".fw-sheet .shape")


def sheets_of(download):
    """Names and contents of the files that were downloaded."""
    content = download.path().read_bytes()
    with zipfile.ZipFile(io.BytesIO(content)) as packed:
        return {name: packed.read(name) for name in packed.namelist()}


def page_sizes(pdf):
    """Width and height of each page. [in]"""
    boxes = re.findall(rb"/MediaBox\s*\[\s*0 0 ([\d.]+) ([\d.]+)\s*\]", pdf)
    return [(float(wide) * POINT, float(tall) * POINT) for wide, tall in boxes]


def test_from_a_new_plane_to_the_sheets_and_back(house, open_page):
    page = open_page(house, "start", "")
    new_plane(page, "Reed Warbler")
    file = house.folder / "reed-warbler.toml"
    assert "# " in file.read_text(encoding="utf-8")  # it explains itself
    settled(page)
    first = reads(page, "stab_span")
    drag(page, "stab_span", (-22, 0))
    unsaved(page)
    smaller = wait_reads_other(page, "stab_span", first)
    # A much smaller stab is a finding, with a change to apply and what gets worse by it.
    type_in(page, "stab_span", "5 in")
    wait_reads(page, "stab_span", "5 in")
    finding = page.locator(STAB)
    finding.locator("text=fails").first.wait_for()
    finding.locator(".f-head").click()
    finding.get_by_role("button", name="Apply").first.wait_for()
    assert re.search("gets worse", finding.inner_text())
    finding.get_by_role("button", name="Apply").first.click()
    page.wait_for_function(f"() => !document.querySelector('.f.fails{STAB[2:]}')")
    for words in ("5 in", smaller, first):
        page.keyboard.press("Control+z")
        wait_reads(page, "stab_span", words)
    page.keyboard.press("Control+Shift+z")
    wait_reads(page, "stab_span", smaller)
    go(page, "sheets")
    page.wait_for_selector(".fw-boards svg")
    with page.expect_download() as coming:
        page.get_by_role("button", name="Download PDF").click()
    made = sheets_of(coming.value)
    boards = next(data for name, data in made.items() if name.endswith("-boards.pdf"))
    whole = [size for size in page_sizes(boards) if max(size) >= 30 and min(size) >= 20]
    assert len(whole) == page.locator(".fw-boards svg").count()  # a sheet of 30 in by 20 in each
    page.reload()
    page.wait_for_selector(".fw-boards svg")
    assert page.locator(".fw-tape [aria-current]").inner_text() == "sheets"
    go(page, "shape")
    wait_reads(page, "stab_span", smaller)
    saved(page)
    assert design(house, "reed-warbler.toml")["stab"]["span"] == smaller
    assert file.read_text(encoding="utf-8").count("#") > 10  # comments are kept


def press(page, *keys):
    for key in keys:
        page.keyboard.press(key)


def typed_by_key(page, name, words):
    """Reach a dimension with Tab and type it."""
    tab_to(page, f'[data-dim="{name}"]')
    press(page, "Enter")
    page.wait_for_selector(".fw-typing")
    page.keyboard.type(words)
    press(page, "Enter")


def mended_by_key(page):
    """Open the finding on the stab with the keyboard, and make the first change that mends it."""
    page.wait_for_selector(f".f.fails{STAB[2:]}")
    tab_to(page, f"{STAB} .f-head")
    press(page, "Enter")
    page.wait_for_selector(f"{STAB} [data-do=apply]")
    tab_to(page, f"{STAB} [data-do=apply]")
    press(page, "Enter")
    page.wait_for_function(f"() => !document.querySelector('.f.fails{STAB[2:]}')")


def test_by_keyboard_alone(house, open_page):
    """Start, draw, change, mend, take back, save, cut: never a pointer."""
    page = open_page(house, "start", "")
    tab_to(page, '[aria-label="its name"]')
    page.keyboard.type("Sand Martin")
    press(page, "Enter")
    page.wait_for_selector(".fw-sheet .shape")
    settled(page)
    tab_to(page, '[data-dim="span"]')
    before = reads(page, "span")
    press(page, "ArrowUp", "ArrowUp")
    wait_reads_other(page, "span", before)
    unsaved(page)
    typed_by_key(page, "span", "1.1 m")
    wait_reads(page, "span", "43 5/16 in")
    press(page, "Control+z")
    wait_reads_other(page, "span", "43 5/16 in")
    typed_by_key(page, "stab_span", "5 in")
    wait_reads(page, "stab_span", "5 in")
    mended_by_key(page)
    press(page, "Control+z")
    wait_reads(page, "stab_span", "5 in")
    press(page, "Control+y")
    wait_reads_other(page, "stab_span", "5 in")
    press(page, "Control+s")
    saved(page, press=False)
    tab_to(page, '.fw-tape a[href^="/sheets"]')
    press(page, "Enter")
    page.wait_for_selector(".fw-boards svg")
    tab_to(page, ".fw-stage button.strong")
    with page.expect_download() as coming:
        press(page, "Enter")
    assert sheets_of(coming.value)


def test_a_change_can_be_tried_and_put_back(bench, open_page):
    page = open_page(bench)
    settled(page)
    type_in(page, "stab_span", "5 in")
    finding = page.locator(STAB)
    finding.locator("text=fails").first.wait_for()
    finding.locator(".f-head").click()
    finding.get_by_role("button", name="Try it first").first.click()
    page.get_by_role("button", name="Put it back").wait_for()
    page.locator(".fw-sheet .ghost").first.wait_for(state="attached")
    assert reads(page, "stab_span") == "5 in"  # nothing is changed yet
    page.get_by_role("button", name="Put it back").click()
    page.wait_for_function("() => !document.querySelector('.fw-sheet .ghost')")
    finding.get_by_role("button", name="Try it first").first.click()
    page.get_by_role("button", name="Keep it").click()
    wait_reads_other(page, "stab_span", "5 in")


def test_typing_takes_any_unit_and_refuses_nonsense(bench, open_page):
    page = open_page(bench)
    settled(page)
    type_in(page, "chord", "200 mm")
    wait_reads(page, "chord", "7 7/8 in")
    type_in(page, "chord", "eight")
    page.wait_for_selector(".fw-status.bad")
    assert "eight" in page.locator(".fw-status").inner_text()
    type_in(page, "chord", "-3 in")
    page.wait_for_selector(".fw-status.bad >> text=chord is")  # not by its key in the file
    type_in(page, "dihedral.0", "4")
    wait_reads(page, "dihedral.0", "4 deg")
    page.get_by_role("button", name="mm · g").click()
    wait_reads(page, "chord", "200 mm")
    assert page.locator('[data-figure="all-up"] b').inner_text().endswith(" g")


@pytest.mark.parametrize(
    ("name", "by"), [("pack", (20, 0)), ("motor", (0, -12)), ("nose", (-15, 0))]
)
def test_things_are_dragged_themselves(bench, open_page, name, by):
    page = open_page(bench)
    settled(page)
    before = reads(page, name)
    drag(page, name, by)
    unsaved(page)
    assert reads(page, name) != before
    page.keyboard.press("Control+z")
    wait_reads(page, name, before)


def test_two_versions_side_by_side(bench, open_page):
    page = open_page(bench)
    settled(page)
    type_in(page, "span", "50 in")
    wait_reads(page, "span", "50 in")
    saved(page)
    go(page, "side by side")
    page.wait_for_selector(".fw-beside")
    row = page.locator(".fw-beside tbody tr", has_text="span").first
    assert "+" in row.inner_text()
    page.wait_for_selector(".fw-sheet .ghost", state="attached")
    kept = page.locator('select[aria-label="version dashed"] option[value^="kept-"]')
    assert kept.count() == 1
    page.get_by_label("version dashed").select_option(kept.get_attribute("value"))
    page.wait_for_function("() => location.search.includes('kept-')")
    page.wait_for_selector(".fw-beside >> text=replaced on")
    page.reload()
    page.wait_for_selector(".fw-beside >> text=replaced on")
