"""Files in the workshop: two tabs, other programs, power cuts, faults, hostile files, limits."""

import shutil

import pytest
from at_the_board import (
    design,
    go,
    saved,
    settled,
    type_in,
    unsaved,
    wait_reads,
)

pytestmark = [pytest.mark.browser, pytest.mark.slow]


def test_two_tabs_and_another_program_on_one_file(bench, open_page):
    first, second = open_page(bench), open_page(bench)
    settled(first)
    type_in(first, "span", "44 in")
    wait_reads(first, "span", "44 in")
    wait_reads(second, "span", "44 in")
    text = bench.file.read_text(encoding="utf-8")
    bench.file.write_text(text.replace('span = "13 in"', 'span = "15 in"'), encoding="utf-8")
    second.get_by_role("button", name="Take the file's").click()
    for page in (first, second):
        wait_reads(page, "stab_span", "15 in")
        wait_reads(page, "span", "46 in")
    second.get_by_role("button", name="Undo").click()
    wait_reads(first, "span", "44 in")


def test_a_file_changed_outside_can_be_kept_out(bench, open_page):
    page = open_page(bench)
    settled(page)
    type_in(page, "span", "44 in")
    wait_reads(page, "span", "44 in")
    text = bench.file.read_text(encoding="utf-8")
    bench.file.write_text(text.replace('span = "13 in"', 'span = "15 in"'), encoding="utf-8")
    page.get_by_role("button", name="Keep mine").click()
    wait_reads(page, "span", "44 in")
    wait_reads(page, "stab_span", "13 in")
    saved(page)
    assert design(bench)["stab"]["span"] == "13 in"


def test_a_power_cut_loses_nothing(workshop, open_page):
    page = open_page(workshop)
    settled(page)
    type_in(page, "span", "42 in")
    wait_reads(page, "span", "42 in")
    unsaved(page)
    port = workshop.port
    workshop.kill()
    assert design(workshop)["wing"]["panel"][0]["span"] == "23 in"  # not saved, and whole
    workshop.start(port=port)
    page = open_page(workshop)
    page.get_by_role("button", name="Take it up").click()
    wait_reads(page, "span", "42 in")
    saved(page)
    assert design(workshop)["wing"]["panel"][0]["span"] == "21 in"


def test_a_page_that_was_open_goes_on_after_a_restart(workshop, open_page):
    page = open_page(workshop)
    settled(page)
    port = workshop.port
    workshop.kill()
    with page.expect_event("load"):  # it finds the server again, and itself anew
        workshop.start(port=port)
    settled(page)
    type_in(page, "span", "44 in")
    wait_reads(page, "span", "44 in")


def test_faults_in_the_file_are_marked_at_their_lines(bench, open_page):
    page = open_page(bench, "file")
    area = page.locator(".fw-text textarea")
    text = area.input_value()
    line = text.splitlines().index('span = "13 in"') + 1
    area.fill(text.replace('span = "13 in"', "span = 13"))
    page.wait_for_selector(".fw-faults li")
    assert f"line {line}" in page.locator(".fw-faults").inner_text()
    assert page.locator(".fw-text .wrong").inner_text() == f"✕ {line}"
    area.fill(text.replace('span = "13 in"', 'span = "12 in"'))
    unsaved(page)
    page.wait_for_function("() => !document.querySelector('.fw-faults li')")
    saved(page)
    assert design(bench)["stab"]["span"] == "12 in"


def test_earlier_versions_and_copies(bench, open_page):
    page = open_page(bench)
    settled(page)
    type_in(page, "span", "44 in")
    wait_reads(page, "span", "44 in")
    saved(page)
    go(page, "file")
    folder = bench.name.rpartition("/")[0]
    page.get_by_label("Name of the copy").fill(f"{folder}/cob-2.toml")
    page.get_by_role("button", name="Save a copy").click()
    page.wait_for_url("**cob-2.toml")
    assert design(bench, f"{folder}/cob-2.toml")["wing"]["panel"][0]["span"] == "22 in"
    page = open_page(bench, "file")
    page.get_by_role("button", name="Take it back").first.click()
    go(page, "shape")
    wait_reads(page, "span", "46 in")


HOSTILE = {
    "figures": b"[wing]\nspan = " + b"9" * 5000 + b"\n",
    "script": b'name = "<script>document.title = 1</script><img src=x onerror=alert(1)>"\n[wing]\n',
    "deep": b"[wing]\nx = " + b"[" * 3000 + b"]" * 3000 + b"\n",
    "bytes": b"[wing]\n\xff\xfe\x00\x01",
    "keys": b"[wing]\n" + b"".join(b"a%d = 1\n" % n for n in range(3_000)),
    "nothing": b"",
}


@pytest.mark.parametrize("kind", HOSTILE)
def test_a_hostile_file_never_stops_the_server(bench, open_page, kind):
    bench.file.write_bytes(HOSTILE[kind])
    page = open_page(bench)
    page.wait_for_selector(".fw-faults li")
    assert page.title() != "1"
    good = bench.name.replace("cob.toml", "good.toml")
    shutil.copy(bench.folder / "reference.toml", bench.folder / good)
    page = open_page(bench, name=good)
    page.wait_for_selector(".fw-sheet .shape")


def test_a_name_that_is_markup_is_shown_as_words(bench, open_page):
    text = bench.file.read_text(encoding="utf-8")
    name = "<img src=x onerror=document.title='hacked'>"
    bench.file.write_text(
        text.replace('name = "Brindle Cob"', f'name = "{name}"'), encoding="utf-8"
    )
    page = open_page(bench)
    page.wait_for_selector(".fw-sheet .shape")
    assert name in page.locator(".fw-cell.name").inner_text()
    for place in ("build", "field", "start"):
        page = open_page(bench, place)
        page.wait_for_selector(".fw-paper h3, .fw-planes b")
        assert "hacked" not in page.title().partition(name)[0]
        assert page.locator(".fw-page img[src=x]").count() == 0


def choose(page, name, content):
    page.locator('input[type="file"]').set_input_files(
        {"name": name, "mimeType": "application/toml", "buffer": content}
    )


def test_what_is_brought_in_is_limited(bench, open_page):
    page = open_page(bench, "file")
    choose(page, "big.toml", b"# " + b"x" * 500_000)
    page.wait_for_selector(".fw-notice.bad >> text=at most 400 kB")
    choose(page, "notes.txt", b"[wing]\n")
    page.wait_for_selector(".fw-notice.bad >> text=ends in .toml")
    choose(page, "stock.toml", b"[wing]\n")
    page.wait_for_selector(".fw-notice.bad >> text=stock.toml")
    assert not (bench.folder / "notes.txt").exists()
    assert not (bench.folder / "stock.toml").exists()
    number = bench.name.partition("/")[0]
    choose(page, f"{number}-in.toml", bench.file.read_bytes())
    page.wait_for_url(f"**{number}-in.toml")
    assert (bench.folder / f"{number}-in.toml").read_bytes() == bench.file.read_bytes()
    choose(page, f"{number}-in.toml", bench.file.read_bytes())
    page.wait_for_selector(".fw-notice.bad >> text=is there already")
