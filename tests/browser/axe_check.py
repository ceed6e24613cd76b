"""What the accessibility checker says of a page, and whether the page fits a narrow window."""

from pathlib import Path

import pytest

FAULTS = """async () => (await axe.run(document, {resultTypes: ['violations']})).violations
    .filter((v) => ['serious', 'critical'].includes(v.impact))
    .map((v) => [v.id, v.nodes[0].html.slice(0, 160)])"""


def axe_faults(page):
    """Serious and critical findings of axe-core on the page as it stands."""
    axe = pytest.importorskip("axe_playwright_python", reason="the package that brings axe-core")
    page.evaluate((Path(axe.__file__).parent / "axe.min.js").read_text(encoding="utf-8"))
    return page.evaluate(FAULTS)


def too_wide(page):
    """Pixels by which the page is wider than a tablet held upright."""
    page.set_viewport_size({"width": 820, "height": 1180})
    page.wait_for_timeout(200)
    return page.evaluate("() => document.documentElement.scrollWidth - innerWidth")
