"""Fly the plane live for a while; print the processor share of the flight and the frame rate.

    python bench/live_flight.py [DESIGN] [--seconds N] [--page]

The share is that of the flight's own thread, packets to the page included. With --page the same
flight is watched in the machine's Chromium, drawn without a graphics chip. Other work on the
machine lowers its frame rate, so the load stands beside it, and the processor time of one frame
(all of Chromium), which other work hardly changes. Printed, not gated.
"""

import argparse
import asyncio
import os
import shutil
import subprocess
import sys
import tempfile
import time
from itertools import pairwise
from pathlib import Path

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

import foamwright
from foamwright.web.flight_loop import PACKETS, LiveFlight, _Line
from foamwright.web.flight_model import STEP, CraftModel, Setup

ROOT = Path(__file__).resolve().parents[1]
# As Chromium sets itself up on a machine without a graphics chip.
FLAGS = ["--no-sandbox", "--headless=new", "--enable-unsafe-swiftshader"]
SEEN = """() => new Promise((done) => {
    const began = performance.now(), marks = [];
    const mark = (now) => {
        marks.push(now);
        if (performance.now() - began < 6000) requestAnimationFrame(mark);
        else done(marks);
    };
    requestAnimationFrame(mark);
})"""


async def alone(model: CraftModel, seconds: float) -> tuple[float, float, int]:
    """Fly with no page: share of one core, seconds the machine fell behind, packets."""
    flight, line = LiveFlight(model), _Line(asyncio.get_running_loop())
    await asyncio.to_thread(flight.join, line)
    flight.throw()
    packets, began = 0, time.monotonic()
    while time.monotonic() - began < seconds and flight.flying:
        news = await line.queue.get()
        packets += isinstance(news, bytes)
    flown, busy, behind = time.monotonic() - began, flight.busy, flight.behind
    await asyncio.to_thread(flight.leave, line)
    print(f"  flown {flown:.1f} s, {packets / flown:.0f} packets a second of {PACKETS:.0f}")
    return busy, behind, packets


def steps(model: CraftModel) -> float:
    """Seconds one step takes, without page or clock."""
    from foamwright.web.flight_loop import Sticks

    model.start()
    best = float("inf")
    for _ in range(5):
        began = time.process_time()
        model.advance(Sticks(throttle=0.6), 200)
        best = min(best, (time.process_time() - began) / 200)
    return best


def chromium_time() -> float:
    """Processor seconds of all processes of Chromium on this machine; 0 where /proc is not."""
    total, tick = 0.0, os.sysconf("SC_CLK_TCK")
    for stat in Path("/proc").glob("[0-9]*/stat"):
        try:
            name, _, rest = stat.read_text().partition("(")[2].rpartition(")")
        except OSError:
            continue
        if name.startswith("chrom"):
            fields = rest.split()
            total += (int(fields[11]) + int(fields[12])) / tick
    return total


def page(design: Path) -> None:
    """Frame rate and processor share with the page open."""
    from playwright.sync_api import sync_playwright

    with tempfile.TemporaryDirectory() as folder, sync_playwright() as playwright:
        shutil.copy(design, folder)
        port = "8391"
        command = [sys.executable, "-m", "foamwright", "workshop", "--no-browser", "--port", port]
        server = subprocess.Popen(command, cwd=folder, stdout=subprocess.PIPE, text=True)
        try:
            address = (server.stdout.readline().split(" at ")[1].split()[0]).rsplit("/", 1)[0]
            time.sleep(4.0)
            browser = playwright.chromium.launch(
                executable_path=shutil.which("chromium"), args=FLAGS
            )
            shown = browser.new_page(viewport={"width": 1280, "height": 800})
            shown.goto(f"{address}/fly?file={design.name}")
            shown.wait_for_selector(".fl-view canvas", timeout=60_000)
            shown.wait_for_timeout(2500)
            shown.get_by_label("begins").select_option("up in the air")
            shown.wait_for_timeout(1500)
            shown.locator(".fl-view").focus()
            shown.keyboard.press("Space")
            shown.wait_for_timeout(1500)
            before = chromium_time()
            marks = shown.evaluate(SEEN)
            spent = (chromium_time() - before) / len(marks)
            gaps = sorted(b - a for a, b in pairwise(marks))
            rate = 1000 * len(gaps) / (marks[-1] - marks[0])
            moments = shown.evaluate("() => foamwrightFlight.film.moments.length")
            sharp = shown.evaluate("() => foamwrightFlight.meadow.sharpness")
            median, late = gaps[len(gaps) // 2], gaps[int(0.95 * len(gaps))]
            print(
                f"  page of 1280 x 800: {rate:.0f} frames a second, median gap {median:.1f} ms, "
                f"95th percentile {late:.1f} ms; {1e3 * spent:.0f} ms of processor a frame"
            )
            print(
                f"  {moments} moments received; drawn at {sharp:.2f} of full sharpness; "
                f"load {os.getloadavg()[0]:.1f}"
            )
            browser.close()
        finally:
            server.terminate()
            server.wait()


def main() -> None:
    """Run and print."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    default = ROOT / "examples" / "brindle-cob.toml"
    parser.add_argument("design", nargs="?", type=Path, default=default)
    parser.add_argument("--seconds", type=float, default=8.0)
    parser.add_argument("--page", action="store_true")
    chosen = parser.parse_args()
    plane = foamwright.load(chosen.design)
    model = CraftModel(plane, Setup(from_hand=False, speed=8.0, wind=3.0, gusts=True))
    one = steps(model)
    print(f"{chosen.design.name}, {1 / STEP:.0f} steps a second, load {os.getloadavg()[0]:.1f}")
    print(f"  one step {1e6 * one:.0f} us of processor: {one / STEP:.0%} of one core")
    busy, behind, _ = asyncio.run(alone(model, chosen.seconds))
    print(f"  live, packets in: {busy:.0%} of one core; {behind:.2f} s too late in all")
    if chosen.page:
        page(chosen.design)


if __name__ == "__main__":
    main()
