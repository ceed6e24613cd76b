"""A workshop in a process of its own, and the browser of this machine."""

import os
import re
import shutil
import signal
import socket
import subprocess
import sys
import time
import urllib.error
import urllib.request
from dataclasses import dataclass, field
from pathlib import Path

import pytest

EXAMPLES = Path(__file__).parents[2] / "examples"
BROWSERS = ("chromium", "chromium-browser", "google-chrome", "chrome")
PATIENCE = 90.0  # s for a server on a busy machine


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
    name: str = "cob.toml"
    process: subprocess.Popen | None = None
    address: str = ""
    start_time: float = 0.0
    said: list[str] = field(default_factory=list)

    @property
    def file(self):
        """The design that pages are opened on."""
        return self.folder / self.name

    @property
    def port(self):
        return int(self.address.rpartition(":")[2].partition("/")[0])

    def start(self, *words, port=0):
        began = time.perf_counter()
        command = [sys.executable, "-m", "foamwright", "workshop", "--no-browser", *words]
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
            found = re.search(r"http://[\w.-]+:\d+", line)
            self.address = found.group() if found else ""
        while time.perf_counter() - began < PATIENCE and not answers(f"{self.address}/start"):
            continue
        self.start_time = time.perf_counter() - began
        return self

    def kill(self):
        """End it as a power cut would."""
        if self.process is not None:
            self.process.send_signal(signal.SIGKILL)
            self.process.wait()
            self.process.stdout.close()
        self.process, self.address = None, ""


def answers(address):
    """Whether a server is there; a refusal is an answer too."""
    try:
        urllib.request.urlopen(address, timeout=5).close()  # noqa: S310 - own server
    except urllib.error.HTTPError as error:
        error.close()
    except (urllib.error.URLError, TimeoutError, ConnectionError):
        return False
    return True


def free_port():
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return probe.getsockname()[1]


def put_example(file, example="brindle-cob.toml"):
    file.parent.mkdir(parents=True, exist_ok=True)
    shutil.copy(EXAMPLES / example, file)
