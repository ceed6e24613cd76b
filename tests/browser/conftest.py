"""A browser, a workshop that tests share, and a workshop of its own for each test that asks."""

import shutil
from itertools import count

import pytest
from running import Workshop, chromium_path, put_example

ARGUMENTS = [
    "--no-sandbox",
    "--headless=new",
    "--use-gl=angle",
    "--use-angle=swiftshader",
    "--enable-unsafe-swiftshader",
    "--enable-precise-memory-info",
    "--js-flags=--expose-gc",
]
OWN = ("http://127.0.0.1:", "ws://127.0.0.1:", "data:", "blob:")
TIMEOUT = 40_000  # ms for anything on a page, on a busy machine


@pytest.fixture(scope="session")
def playwright_running():
    """One for all tests of a process: it cannot be started twice."""
    chromium_path()
    from playwright.sync_api import sync_playwright

    with sync_playwright() as running:
        yield running


@pytest.fixture(scope="session")
def chromium(playwright_running):
    launched = playwright_running.chromium.launch(executable_path=chromium_path(), args=ARGUMENTS)
    yield launched
    launched.close()


@pytest.fixture(scope="session")
def house(tmp_path_factory):
    """One workshop for all tests that leave it as it is."""
    chromium_path()
    folder = tmp_path_factory.mktemp("house")
    put_example(folder / "reference.toml")
    running = Workshop(folder).start()
    yield running
    running.kill()


NUMBERS = count(1)


@pytest.fixture
def bench(house):
    """A copy of the example, for one test alone, in the workshop that tests share."""
    name = f"bench-{next(NUMBERS)}/cob.toml"
    put_example(house.folder / name)
    yield Workshop(house.folder, name, house.process, house.address)
    shutil.rmtree((house.folder / name).parent)


@pytest.fixture
def workshop(tmp_path):
    """A workshop of its own, in a folder that holds a copy of the example."""
    chromium_path()
    put_example(tmp_path / "cob.toml")
    running = Workshop(tmp_path).start()
    yield running
    running.kill()


@pytest.fixture
def open_page(chromium):
    """Open pages of a workshop; afterwards nothing may have been asked of any other host."""
    context = chromium.new_context(viewport={"width": 1280, "height": 800})
    context.set_default_timeout(TIMEOUT)
    outside, errors, pages = [], [], []

    def asked(request):
        if not request.url.startswith(OWN):
            outside.append(request.url)

    def opened(at, place="shape", name=None):
        page = context.new_page()
        pages.append(page)
        page.on("request", asked)
        page.on("websocket", asked)
        page.on("pageerror", lambda error: errors.append(str(error)))
        page.goto(f"{at.address}/{place}?file={at.name if name is None else name}")
        page.wait_for_selector(".fw-stage > *")
        return page

    yield opened
    context.close()
    assert pages
    assert outside == []
    assert errors == []
