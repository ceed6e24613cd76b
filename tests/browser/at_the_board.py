"""Hands and eyes of the browser tests: no sleeps, everything waits for what it expects."""

import tomllib

TABS = 260  # most Tab presses to reach anything


def dimension(page, name):
    return page.locator(f'[data-dim="{name}"]')


def reads(page, name):
    return dimension(page, name).get_attribute("aria-valuetext")


def wait_reads(page, name, words):
    page.wait_for_function(
        "([name, words]) => document.querySelector(`[data-dim='${name}']`)"
        "?.getAttribute('aria-valuetext') === words",
        arg=[name, words],
    )


def wait_reads_other(page, name, words):
    """Until a dimension reads anything else; hands back what."""
    page.wait_for_function(
        "([name, words]) => document.querySelector(`[data-dim='${name}']`)"
        ".getAttribute('aria-valuetext') !== words",
        arg=[name, words],
    )
    return reads(page, name)


def settled(page):
    """Outlines follow a drag, and everything that would mend a finding is worked out."""
    page.wait_for_selector('[data-dim="span"]')
    page.wait_for_selector(".fw-board[data-ready]")
    page.wait_for_selector(".fw-findings[data-worked]")


def drag(page, name, by, *, steps=12, drop=True):
    """Drag the grip of a dimension, a step a frame."""
    box = dimension(page, name).locator(".d-grip").bounding_box()
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    page.mouse.move(x, y)
    page.mouse.down()
    for step in range(1, steps + 1):
        page.mouse.move(x + by[0] * step / steps, y + by[1] * step / steps)
        page.evaluate("() => new Promise(requestAnimationFrame)")
    if drop:
        page.mouse.up()


def type_in(page, name, words):
    """Click a dimension and type it."""
    dimension(page, name).locator(".d-text").click()
    page.wait_for_selector(".fw-typing")
    page.keyboard.type(words)
    page.keyboard.press("Enter")


def unsaved(page):
    page.wait_for_function(
        "() => document.querySelector('.fw-cell.name').innerText.includes('not saved')"
    )


def saved(page, *, press=True):
    """Save by the button, or wait until it has been saved otherwise."""
    if press:
        page.locator("footer").get_by_role("button", name="Save").click()
    page.wait_for_function(
        "() => !document.querySelector('.fw-cell.name').innerText.includes('not saved')"
    )


def design(at, name=None):
    with (at.folder / (name or at.name)).open("rb") as file:
        return tomllib.load(file)


def go(page, title):
    """Turn to a place by the tape."""
    page.locator(".fw-tape").get_by_role("link", name=title, exact=True).click()
    page.wait_for_function(
        "(title) => document.querySelector('.fw-tape [aria-current]')?.innerText === title",
        arg=title,
    )


def tab_to(page, selector):
    """Press Tab until what has the focus fits; nothing that cannot be reached so is found."""
    for _ in range(TABS):
        if page.evaluate("(s) => document.activeElement?.matches(s)", selector):
            return
        page.keyboard.press("Tab")
    raise AssertionError(f"the Tab key does not reach {selector}")
