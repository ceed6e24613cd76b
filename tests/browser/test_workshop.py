"""The workshop as a builder uses it: drag, findings, apply, undo, sheets, reload, files, keys."""

import io
import json
import re
import statistics
import time
import tomllib
import urllib.error
import urllib.request
import zipfile
from pathlib import Path

import pytest

pytestmark = [pytest.mark.browser, pytest.mark.slow]

INCH = 0.0254
PATIENT = 1.5  # s, on a busy test machine
QUICK = 0.2  # s, interaction to next paint that people feel as at once; web.dev, "INP", 2024


def dimension(page, name):
    return page.locator(f'[data-dim="{name}"]')


def reads(page, name):
    return dimension(page, name).get_attribute("aria-valuetext")


def wait_reads(page, name, words):
    page.wait_for_function(
        "([name, words]) => document.querySelector(`[data-dim='${name}']`)"
        ".getAttribute('aria-valuetext') === words",
        arg=[name, words],
    )


def drag(page, name, by, *, steps=12, drop=True):
    box = dimension(page, name).locator(".d-grip").bounding_box()
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    page.mouse.move(x, y)
    page.mouse.down()
    for step in range(1, steps + 1):
        page.mouse.move(x + by[0] * step / steps, y + by[1] * step / steps)
        page.wait_for_timeout(40)
    if drop:
        page.mouse.up()


def design(workshop):
    with (workshop.folder / "cob.toml").open("rb") as file:
        return tomllib.load(file)


def settled(page):
    """Morphs and changes have come, so that what follows is timed alone."""
    page.wait_for_selector('[data-dim="span"]')
    page.wait_for_selector(".fw-board[data-ready]")
    page.wait_for_selector(".fw-findings[data-worked]", timeout=60_000)


def saved(page):
    page.locator("footer").get_by_role("button", name="Save").click()
    page.wait_for_function(
        "() => !document.querySelector('.fw-cell.name').innerText.includes('not')"
    )


def download_boards(page):
    """The PDF holds a page of the size of the boards, 30 in by 20 in, or larger for its margin."""
    page.goto(page.url.replace("/shape", "/sheets"))
    page.wait_for_selector(".fw-boards svg")
    with page.expect_download(timeout=60_000) as coming:
        page.get_by_role("button", name="Download PDF").click()
    content = coming.value.path().read_bytes()
    names = zipfile.ZipFile(io.BytesIO(content)).namelist()
    assert any(name.endswith("-boards.pdf") for name in names)
    board = zipfile.ZipFile(io.BytesIO(content)).read(next(n for n in names if "boards" in n))
    boxes = re.findall(rb"/MediaBox \[\s*0 0 ([\d.]+) ([\d.]+)", board)
    inches = {(round(float(w) / 72), round(float(h) / 72)) for w, h in boxes}
    assert (30, 20) in inches or (20, 30) in inches or any(max(size) >= 30 for size in inches)


def test_from_a_drag_to_the_sheets_and_back(workshop, open_page, capsys):
    page = open_page()
    settled(page)
    assert reads(page, "stab_span") == "13 in"
    drag(page, "stab_span", (-22, 0))
    page.wait_for_selector("text=not saved")
    smaller = reads(page, "stab_span")
    assert smaller != "13 in"
    # A much smaller stab is a finding, with a change to apply.
    dimension(page, "stab_span").click()
    page.keyboard.type("8 in")
    page.keyboard.press("Enter")
    wait_reads(page, "stab_span", "8 in")
    finding = page.locator('.f[data-id="tail_volume_horizontal"]')
    finding.wait_for()
    assert "fails" in finding.inner_text()
    finding.locator(".f-head").click()
    finding.get_by_role("button", name="Apply").first.wait_for(timeout=60_000)
    assert "gets worse" in finding.inner_text()
    finding.get_by_role("button", name="Apply").first.click()
    page.wait_for_function(
        "() => !document.querySelector('.f.fails[data-id=tail_volume_horizontal]')"
    )
    page.keyboard.press("Escape")
    page.locator("body").press("Control+z")
    wait_reads(page, "stab_span", "8 in")
    page.locator("body").press("Control+z")
    wait_reads(page, "stab_span", smaller)
    page.locator("body").press("Control+z")
    wait_reads(page, "stab_span", "13 in")
    page.locator("body").press("Control+Shift+z")
    wait_reads(page, "stab_span", smaller)
    download_boards(page)
    page.reload()
    page.wait_for_selector(".fw-boards svg")
    assert page.locator('.fw-tape a[aria-current="page"]').inner_text() == "sheets"
    page.goto(page.url.replace("/sheets", "/shape"))
    wait_reads(page, "stab_span", smaller)
    saved(page)
    text = (workshop.folder / "cob.toml").read_text()
    assert "# trailing edge up at the tip" in text  # comments are kept
    assert design(workshop)["stab"]["span"] == smaller


def test_findings_follow_a_drag_at_once(open_page, capsys):
    page = open_page()
    settled(page)
    page.evaluate("() => { window.foamwrightLatency = []; }")
    drag(page, "stab_span", (-40, 0), steps=40, drop=False)
    page.wait_for_timeout(400)
    times = page.evaluate("() => window.foamwrightLatency")
    page.mouse.up()
    frames = page.evaluate(
        """async () => {
            const found = document.querySelector('[data-dim="span"] .d-grip');
            const grip = found.getBoundingClientRect();
            const sheet = document.querySelector('.fw-sheet');
            const at = (type, x) => sheet.dispatchEvent(new PointerEvent(type, {bubbles: true,
                clientX: x, clientY: grip.y + 4, pointerId: 1, button: 0}));
            const times = [];
            sheet.setPointerCapture = () => {};
            found.dispatchEvent(new PointerEvent('pointerdown', {bubbles: true, clientX: grip.x + 4,
                clientY: grip.y + 4, pointerId: 1, button: 0}));
            for (let i = 1; i <= 30; i++) {
                const t = performance.now();
                at('pointermove', grip.x + 4 - 2 * i);
                times.push(performance.now() - t);
                await new Promise(requestAnimationFrame);
            }
            at('pointerup', grip.x - 56);
            return times;
        }"""
    )
    middle, worst = statistics.median(times), sorted(times)[int(0.95 * len(times))]
    with capsys.disabled():
        print(  # noqa: T201 - a measurement to be read
            f"\ndrag to findings: median {middle:.0f} ms, 95th percentile {worst:.0f} ms "
            f"({len(times)} answers); drawing within {max(frames):.1f} ms of the pointer"
        )
    assert len(times) >= 5
    assert max(frames) < 50.0
    assert middle < 1000 * PATIENT  # the aim is QUICK on a machine with nothing else to do


def test_typing_takes_any_unit_and_refuses_nonsense(open_page):
    page = open_page()
    settled(page)
    dimension(page, "chord").locator(".d-text").click()
    page.keyboard.type("200 mm")
    page.keyboard.press("Enter")
    wait_reads(page, "chord", "7 7/8 in")
    dimension(page, "chord").locator(".d-text").click()
    page.keyboard.type("eight")
    page.keyboard.press("Enter")
    page.wait_for_selector(".fw-status.bad")
    assert "eight" in page.locator(".fw-status").inner_text()
    page.get_by_role("button", name="mm · g").click()
    wait_reads(page, "chord", "200 mm")
    assert "g" in page.locator('[data-figure="all-up"] b').inner_text()


def test_by_keyboard_alone(open_page):
    page = open_page()
    settled(page)
    dimension(page, "span").focus()
    page.keyboard.press("ArrowUp")
    page.keyboard.press("ArrowUp")
    wait_reads(page, "span", "46 1/8 in")
    page.wait_for_selector("text=not saved")
    page.keyboard.press("Enter")
    page.keyboard.type("48 in")
    page.keyboard.press("Enter")
    wait_reads(page, "span", "48 in")
    page.keyboard.press("Control+z")
    wait_reads(page, "span", "46 1/8 in")
    first = page.locator(".f-head").first
    first.focus()
    page.keyboard.press("Enter")
    page.wait_for_selector(".f-body")
    nameless = page.evaluate(
        """() => [...document.querySelectorAll('button, a, input, select, [role=slider]')]
            .filter((e) => e.offsetParent !== null || e.ownerSVGElement)
            .filter((e) => !(e.innerText || e.getAttribute('aria-label') || e.title
                || (e.labels && e.labels.length)))
            .map((e) => e.outerHTML.slice(0, 90))"""
    )
    assert nameless == []


@pytest.mark.parametrize(
    "place", ["balance", "power", "strength", "beside", "solid", "file", "start"]
)
def test_every_place_has_its_address_and_survives_a_reload(open_page, place):
    page = open_page(place)
    page.reload()
    page.wait_for_selector(".fw-stage > *")
    assert page.locator(".fw-tape a[aria-current]").count() == 1
    wide = page.evaluate("() => document.documentElement.scrollWidth - innerWidth")
    page.set_viewport_size({"width": 820, "height": 1180})
    page.wait_for_timeout(200)
    narrow = page.evaluate("() => document.documentElement.scrollWidth - innerWidth")
    assert (wide, narrow) == (0, 0)


@pytest.mark.parametrize(
    "place", ["shape", "balance", "power", "strength", "sheets", "beside", "solid", "file", "start"]
)
def test_no_grave_accessibility_fault(open_page, place):
    """No serious or critical finding of axe-core, on the page as it opens and with a line open."""
    axe = pytest.importorskip("axe_playwright_python", reason="the package that brings axe-core")
    page = open_page(place)
    page.wait_for_timeout(800)
    if place == "shape":
        page.locator(".f-head").first.click()
    page.evaluate((Path(axe.__file__).parent / "axe.min.js").read_text(encoding="utf-8"))
    faults = page.evaluate(
        """async () => (await axe.run(document, {resultTypes: ['violations']})).violations
            .filter((v) => ['serious', 'critical'].includes(v.impact))
            .map((v) => [v.id, v.nodes[0].html.slice(0, 120)])"""
    )
    assert faults == []


def test_two_tabs_and_another_program_on_one_file(workshop, open_page):
    first, second = open_page(), open_page()
    settled(first)
    dimension(first, "span").locator(".d-text").click()
    first.keyboard.type("44 in")
    first.keyboard.press("Enter")
    wait_reads(first, "span", "44 in")
    wait_reads(second, "span", "44 in")
    file = workshop.folder / "cob.toml"
    file.write_text(file.read_text().replace('span = "13 in"', 'span = "15 in"'))
    second.get_by_role("button", name="Take the file's").click()
    wait_reads(second, "stab_span", "15 in")
    wait_reads(first, "stab_span", "15 in")
    wait_reads(first, "span", "46 in")
    second.get_by_role("button", name="Undo").click()
    wait_reads(first, "span", "44 in")


def test_a_power_cut_loses_nothing(workshop, open_page):
    page = open_page()
    settled(page)
    dimension(page, "span").locator(".d-text").click()
    page.keyboard.type("42 in")
    page.keyboard.press("Enter")
    wait_reads(page, "span", "42 in")
    page.wait_for_timeout(300)
    workshop_port = workshop.address.rpartition(":")[2]
    workshop.kill()
    assert design(workshop)["wing"]["panel"][0]["span"] == "23 in"  # not saved, and whole
    workshop.start(int(workshop_port))
    page = open_page()
    page.get_by_role("button", name="Take it up").click()
    wait_reads(page, "span", "42 in")


def test_faults_in_the_file_are_marked_at_their_lines(workshop, open_page):
    page = open_page("file")
    area = page.locator(".fw-text textarea")
    text = area.input_value()
    line = text.splitlines().index('span = "13 in"') + 1
    area.fill(text.replace('span = "13 in"', "span = 13"))
    page.wait_for_selector(".fw-faults li")
    assert f"line {line}" in page.locator(".fw-faults").inner_text()
    assert page.locator(".fw-text .wrong").inner_text() == f"✕ {line}"
    area.fill(text.replace('span = "13 in"', 'span = "12 in"'))
    page.wait_for_selector("text=not saved")
    assert page.locator(".fw-faults li").count() == 0
    saved(page)
    assert design(workshop)["stab"]["span"] == "12 in"


def answer(address, **headers):
    request = urllib.request.Request(address, headers=headers)  # noqa: S310 - own server
    try:
        with urllib.request.urlopen(request, timeout=20) as got:  # noqa: S310
            return got.status, got.read().decode("utf-8", "replace")
    except urllib.error.HTTPError as error:
        return error.code, error.read().decode("utf-8", "replace")


def test_foreign_pages_and_files_outside_are_refused(workshop, capsys):
    assert answer(workshop.address)[0] == 200
    assert answer(workshop.address, Host="plane.example")[0] == 403
    assert answer(workshop.address, Origin="http://plane.example")[0] == 403
    socket_path = f"{workshop.address}/_nicegui_ws/socket.io/?EIO=4&transport=polling"
    assert answer(socket_path, Origin="http://plane.example")[0] == 403
    (workshop.folder.parent / "secret.toml").write_text('name = "do not show"\n')
    for name in ("../secret.toml", "%2Fetc%2Fpasswd", "..%2F..%2Fsecret.toml", ".cob.unsaved.toml"):
        _, body = answer(f"{workshop.address}/file?file={name}")
        assert "do not show" not in body
        assert "root:" not in body
    other = type(workshop)(workshop.folder).start(int(workshop.address.rpartition(":")[2]))
    try:
        assert "is taken" in "".join(other.said)
    finally:
        other.kill()
    with capsys.disabled():
        print(f"\nfrom the command to the first answer: {workshop.start_time:.2f} s")  # noqa: T201


def test_a_hostile_file_never_stops_the_server(workshop, open_page):
    (workshop.folder / "bad.toml").write_text("[wing]\nspan = " + "9" * 5000 + "\n")
    (workshop.folder / "odd.toml").write_text('name = "<script>alert(1)</script>"\n[wing]\n')
    for name in ("bad.toml", "odd.toml"):
        page = open_page("shape", name)
        page.wait_for_selector(".fw-faults li")
    assert answer(f"{workshop.address}/start")[0] == 200


def test_first_visit_shows_three_hints_once(workshop, open_page):
    began = time.perf_counter()
    page = open_page("", "")
    page.wait_for_selector(".fw-sheet .shape")
    assert time.perf_counter() - began < 10.0
    page.wait_for_selector(".fw-hints li")
    assert page.locator(".fw-hints li").count() == 3
    page.get_by_role("button", name="Good").click()
    page.reload()
    page.wait_for_selector(".fw-sheet .shape")
    page.wait_for_timeout(300)
    assert not page.locator(".fw-hints").is_visible()
    assert json.loads(page.evaluate("() => JSON.stringify(localStorage.length)")) == 1
