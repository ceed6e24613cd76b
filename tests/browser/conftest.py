"""A headless Chromium for the tests that look at what a browser makes of our drawings."""

import os
import shutil

import pytest

ARGUMENTS = ["--no-sandbox", "--disable-gpu", "--hide-scrollbars", "--force-device-scale-factor=1"]


def chromium_path():
    names = ("chromium", "chromium-browser", "google-chrome", "chrome")
    return next((path for path in map(shutil.which, names) if path), None)


@pytest.fixture(scope="session")
def browser():
    path = chromium_path()
    if path is None:
        message = "no Chromium on this machine; install it (Debian: sudo apt install chromium)"
        if os.environ.get("CI") == "true":
            pytest.fail(message)
        pytest.skip(message)
    from playwright.sync_api import sync_playwright

    with sync_playwright() as playwright:
        chromium = playwright.chromium.launch(executable_path=path, args=ARGUMENTS)
        yield chromium
        chromium.close()


@pytest.fixture
def look(browser):
    """Open a file; hand back the page, what its console said, and what it asked of the network."""
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
