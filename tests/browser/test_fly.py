"""The plane flown by hand in the page: keys, gamepad, the trace, its pins, flaws on purpose."""

import pytest
from axe_check import axe_faults, too_wide

pytestmark = [pytest.mark.browser, pytest.mark.slow]

PATIENT = 60_000  # ms, on a busy machine
TRACE = "() => foamwrightFlight.film.moments.map((m) => ({...m}))"
# Sine of the bank, right wing down positive: how far the body's left axis points up.
BANK = "(m) => 2 * (m.qy * m.qz + m.qw * m.qx)"
PAD = """() => {
    window.pad = {id: 'test pad', connected: true, mapping: 'standard', axes: [0, 0, 0, 0],
        buttons: Array.from({length: 16}, () => ({pressed: false}))};
    navigator.getGamepads = () => [window.pad];
}"""


def ready(page):
    """The flight model is built and the plane is in the hand."""
    page.wait_for_selector(".fl-view canvas", timeout=PATIENT)
    page.wait_for_function("() => foamwrightFlight.film.moments.length > 0", timeout=PATIENT)
    page.locator(".fl-view").focus()


def flown(page, seconds):
    """Wait for so much time of flight, however long the machine takes for it."""
    page.wait_for_function(
        "(t) => foamwrightFlight.film.end >= t || foamwrightFlight.over",
        arg=seconds,
        timeout=PATIENT,
    )


def begins(page, how):
    page.get_by_label("begins").select_option(how)
    page.wait_for_function("(how) => foamwrightFlight.says === how", arg=how, timeout=PATIENT)
    page.locator(".fl-view").focus()


def bank(page):
    return page.evaluate(f"() => ({BANK})(foamwrightFlight.film.moments.at(-1))")


def test_flown_by_keyboard_and_read_from_the_trace(bench, open_page):
    page = open_page(bench, "fly")
    ready(page)
    assert "in your hand" in page.locator(".fl-hint").inner_text()
    page.keyboard.press("Space")
    flown(page, 0.4)
    page.keyboard.down("ArrowLeft")
    flown(page, 1.2)
    page.wait_for_function(  # held until the left wing is down, however late the key was felt
        f"() => ({BANK})(foamwrightFlight.film.moments.at(-1)) < -0.08 || foamwrightFlight.over",
        timeout=PATIENT,
    )
    page.keyboard.press("p")
    page.wait_for_function("() => foamwrightFlight.paused", timeout=PATIENT)
    page.keyboard.up("ArrowLeft")
    trace = page.evaluate(TRACE)
    times = [moment["t"] for moment in trace]
    assert times == sorted(times)
    assert trace[0]["x"] == pytest.approx(0.4, abs=0.2)  # where the hand lets go
    assert trace[0]["z"] == pytest.approx(1.8, abs=0.1)
    assert trace[-1]["x"] > 2.0
    assert max(moment["aileronRight"] for moment in trace) > 0.05  # trailing edge down
    assert min(moment["aileronLeft"] for moment in trace) < -0.05
    assert bank(page) < -0.05  # left wing down
    # Keys fly; they do not scroll.
    assert page.evaluate("() => document.querySelector('.fw-stage').scrollTop + scrollY") == 0
    # Time stands still while it is paused.
    page.wait_for_timeout(300)
    assert page.evaluate("() => foamwrightFlight.film.end") == times[-1]
    for name in ("airspeed", "height", "throttle", "margin", "pack"):
        assert page.locator(f'[data-read="{name}"] dd').inner_text().strip("–")
    page.keyboard.press("t")
    page.keyboard.press("v")
    assert "from behind" in page.locator(".fl-where").inner_text()
    page.keyboard.press("r")
    page.wait_for_function("() => !foamwrightFlight.flying && foamwrightFlight.film.end === 0",
                           timeout=PATIENT)  # fmt: skip
    assert "no clearance to fly near people" in page.locator(".fl-caution").inner_text()


def test_a_stall_is_pinned_and_seen_again(bench, open_page):
    page = open_page(bench, "fly")
    ready(page)
    begins(page, "up in the air")
    page.keyboard.press("Space")
    page.keyboard.down("s")
    page.keyboard.down("ArrowDown")
    page.locator(".fl-pins button", has_text="stall began").wait_for(timeout=PATIENT)
    page.keyboard.up("s")
    page.keyboard.up("ArrowDown")
    page.keyboard.press("p")
    page.wait_for_function("() => foamwrightFlight.paused", timeout=PATIENT)
    pin = page.evaluate("() => foamwrightFlight.pins.find((pin) => pin.words.includes('stall'))")
    assert "mph" in pin["words"]  # the units of the design
    page.locator(".fl-pins button", has_text="stall began").first.click()
    page.wait_for_function("() => foamwrightFlight.replaying", timeout=PATIENT)
    page.wait_for_timeout(200)
    now = page.evaluate("() => ({...foamwrightFlight.now})")
    assert now["t"] == pytest.approx(pin["t"], abs=0.05)
    assert [now["x"], now["z"]] == pytest.approx([pin["x"], pin["z"]], abs=0.3)
    slider = page.get_by_label("moment of the flight")
    slider.focus()
    page.keyboard.press("Home")
    page.wait_for_function("() => foamwrightFlight.time === 0", timeout=PATIENT)
    page.get_by_role("button", name="End the replay").click()
    page.get_by_role("button", name="Go on").click()
    page.wait_for_function("() => !foamwrightFlight.paused", timeout=PATIENT)


def test_a_warped_wing_rolls_it_and_a_true_one_does_not(bench, open_page):
    page = open_page(bench, "fly")
    ready(page)
    begins(page, "up in the air")
    page.keyboard.press("Space")
    flown(page, 0.8)
    true = bank(page)
    slider = page.get_by_label("left wing warped, nose up")
    slider.focus()
    page.keyboard.press("End")
    page.wait_for_function("() => foamwrightFlight.says.startsWith('left wing warped')",
                           timeout=PATIENT)  # fmt: skip
    assert "Rolls" in page.locator(".fl-look").inner_text()
    assert not page.evaluate("() => foamwrightFlight.flying")
    page.locator(".fl-view").focus()
    page.keyboard.press("Space")
    flown(page, 0.8)
    assert bank(page) > true + 0.2  # more lift on the left: it rolls right
    page.get_by_role("button", name="A true plane again").click()
    page.wait_for_function("() => foamwrightFlight.says === 'a true plane'", timeout=PATIENT)
    assert slider.input_value() == "8"


def test_flown_by_gamepad(bench, open_page):
    page = open_page(bench, "fly")
    ready(page)
    page.evaluate(PAD)
    page.evaluate("() => { pad.axes = [0, 0, 1, 0.5]; pad.buttons[0] = {pressed: true}; }")
    flown(page, 0.5)
    trace = page.evaluate(TRACE)
    assert trace[-1]["aileronRight"] < -0.1  # stick right: right trailing edge up
    assert trace[-1]["elevator"] < -0.05  # stick back: trailing edge up
    page.locator(".fl-pad summary").click()
    assert "test pad" in page.locator(".fl-pad").inner_text()


def test_odd_numbers_are_refused_with_the_range(bench, open_page):
    page = open_page(bench, "fly")
    ready(page)
    speed = page.get_by_label("throw speed")
    speed.fill("40 m/s")
    speed.press("Enter")
    trouble = page.locator(".fl-trouble")
    trouble.get_by_text("a throw by arm goes from").wait_for()
    speed.fill("8 m/s")
    speed.press("Enter")
    page.wait_for_function(
        "() => !document.querySelector('.fl-trouble').innerText", timeout=PATIENT
    )
    page.wait_for_function("() => foamwrightFlight.says.startsWith('speed 17.9')", timeout=PATIENT)


def test_its_address_reload_widths_and_axe(bench, open_page):
    page = open_page(bench, "fly")
    ready(page)
    page.reload()
    ready(page)
    assert page.locator('.fw-tape a[aria-current="page"]').inner_text() == "fly"
    page.get_by_role("button", name="Throw", exact=True).click()
    flown(page, 0.5)
    assert axe_faults(page) == []
    assert too_wide(page) == 0


def test_another_place_ends_the_flight(bench, open_page):
    page = open_page(bench, "fly")
    ready(page)
    page.keyboard.press("Space")
    flown(page, 0.2)
    page.locator(".fw-tape a", has_text="balance").click()
    page.wait_for_selector(".fw-board", timeout=PATIENT)
    page.wait_for_function("() => !window.foamwrightFlight", timeout=PATIENT)
    page.locator(".fw-tape a", has_text="fly").click()
    ready(page)
    assert page.evaluate("() => foamwrightFlight.film.end") == 0
