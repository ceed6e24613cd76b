"""A browser, and a workshop of its own for each test that asks for one."""

import contextlib
import os
import re
import shutil
import signal
import socket
import subprocess
import sys
import time
import urllib.request
from dataclasses import dataclass, field
from pathlib import Path

import pytest

EXAMPLES = Path(__file__).parents[2] / "examples"
BROWSERS = ("chromium", "chromium-browser", "google-chrome", "chrome")
ARGUMENTS = [
    "--no-sandbox",
    "--headless=new",
    "--use-gl=angle",
    "--use-angle=swiftshader",
    "--enable-unsafe-swiftshader",
]
OWN = ("http://127.0.0.1:", "ws://127.0.0.1:", "data:", "blob:")
PATIENCE = 60.0  # s for a server on a busy machine


def chromium_path():
    """Where the system's Chromium is; without one the test is skipped, or fails under CI."""
    path = next((path for path in map(shutil.which, BROWSERS) if path), None)
    if path is None:
        message = "no Chromium on this machine; install it (Debian: sudo apt install chromium)"
        if os.environ.get("CI") == "true":
            pytest.fail(message)
        pytest.skip(message)
    return path


@dataclass
class Workshop:
    """A workshop running in a folder."""

    folder: Path
    process: subprocess.Popen | None = None
    address: str = ""
    start_time: float = 0.0
    said: list[str] = field(default_factory=list)

    def start(self, port=0):
        began = time.perf_counter()
        command = [sys.executable, "-m", "foamwright", "workshop", "--no-browser"]
        self.process = subprocess.Popen(
            [*command, "--port", str(port or free_port())],
            cwd=self.folder,
            env=os.environ | {"PYTHONUNBUFFERED": "1"},
            stdout=subprocess.PIPE,
            stderr=subprocess.STDOUT,
            text=True,
        )
        while not self.address:
            line = self.process.stdout.readline()
            assert line, f"the workshop ended: {self.said}"
            self.said.append(line)
            found = re.search(r"http://[\d.]+:\d+", line)
            self.address = found.group() if found else ""
        while time.perf_counter() - began < PATIENCE:
            with contextlib.suppress(OSError):
                urllib.request.urlopen(f"{self.address}/start", timeout=5).close()  # noqa: S310
                break
        self.start_time = time.perf_counter() - began
        return self

    def kill(self):
        """End it as a power cut would."""
        if self.process is not None:
            self.process.send_signal(signal.SIGKILL)
            self.process.wait()
            self.process.stdout.close()
        self.process, self.address = None, ""


def free_port():
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return probe.getsockname()[1]


@pytest.fixture(scope="session")
def chromium():
    path = chromium_path()
    from playwright.sync_api import sync_playwright

    with sync_playwright() as playwright:
        launched = playwright.chromium.launch(executable_path=path, args=ARGUMENTS)
        yield launched
        launched.close()


@pytest.fixture
def workshop(tmp_path):
    """A workshop in a folder that holds a copy of the example."""
    shutil.copy(EXAMPLES / "brindle-cob.toml", tmp_path / "cob.toml")
    running = Workshop(tmp_path).start()
    yield running
    running.kill()


@pytest.fixture
def open_page(chromium, workshop):
    """Open pages of the workshop; afterwards nothing may have been asked of any other host."""
    context = chromium.new_context(viewport={"width": 1280, "height": 800})
    context.set_default_timeout(20_000)
    outside, errors = [], []

    def asked(request):
        if not request.url.startswith(OWN):
            outside.append(request.url)

    def opened(place="shape", name="cob.toml"):
        page = context.new_page()
        page.on("request", asked)
        page.on("websocket", asked)
        page.on("pageerror", lambda error: errors.append(str(error)))
        page.goto(f"{workshop.address}/{place}?file={name}")
        page.wait_for_selector(".fw-stage > *")
        return page

    yield opened
    context.close()
    assert outside == []
    assert errors == []
