"""Turn PDF pages into pixels and words with poppler's tools, and measure bars on them."""

import os
import re
import shutil
import subprocess

import numpy as np
import pytest

DPI = 300
MM = 25.4 / DPI  # millimetres in a pixel


def need(tool):
    """Path of a poppler tool; without it the test is skipped, but fails where CI is set."""
    found = shutil.which(tool)
    if found is None:
        reason = f"{tool} is missing (install poppler-utils)"
        if os.environ.get("CI") == "true":
            pytest.fail(reason)
        pytest.skip(reason)
    return found


def run(tool, *words):
    done = subprocess.run([need(tool), *map(str, words)], capture_output=True, check=True)
    return done.stdout


def page_sizes(path):
    """Width and height of every page in points."""
    told = run("pdfinfo", "-f", 1, "-l", 9999, path).decode()
    return [
        (float(a), float(b)) for a, b in re.findall(r"Page\s+\d+ size:\s+([\d.]+) x ([\d.]+)", told)
    ]


def page_words(path, page):
    return run("pdftotext", "-f", page, "-l", page, "-layout", path, "-").decode()


def page_pixels(path, page, *, box=None, dpi=DPI):
    """Grey pixels of a page, or of the box (left, top, width, height in pixels) on it."""
    crop = []
    if box is not None:
        crop = ["-x", box[0], "-y", box[1], "-W", box[2], "-H", box[3]]
    data = run("pdftoppm", "-r", dpi, "-gray", "-f", page, "-l", page, *crop, path)
    head = re.match(rb"P5\s+(\d+)\s+(\d+)\s+255\s", data)
    width, height = int(head[1]), int(head[2])
    return np.frombuffer(data[head.end() :], dtype=np.uint8).reshape(height, width)


def longest_runs(pixels):
    """Longest unbroken run of ink in each row, in pixels."""
    dark = np.pad(pixels < 128, ((0, 0), (1, 1))).astype(np.int8)
    runs = []
    for row in np.diff(dark, axis=1):
        starts, ends = np.flatnonzero(row == 1), np.flatnonzero(row == -1)
        runs.append(int((ends - starts).max()) if len(starts) else 0)
    return np.array(runs)


def bars_at_the_foot(path, page, size):
    """Lengths of the two check bars at the lower left of a page, in mm: (metric, inch)."""
    height = round(size[1] / 72 * DPI)
    strip = round(26 / MM)
    pixels = page_pixels(path, page, box=(0, height - strip, round(118 / MM), strip))
    found = longest_runs(pixels) * MM
    rows = np.flatnonzero((found > 90) & (found < 112))
    groups = np.split(rows, np.flatnonzero(np.diff(rows) > 3) + 1)
    assert len(groups) == 2, f"page {page}: {len(groups)} bars"
    # The inch bar lies above the metric one.
    return float(np.median(found[groups[1]])), float(np.median(found[groups[0]]))
