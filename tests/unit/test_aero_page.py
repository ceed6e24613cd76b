"""The examples of docs/use/aero.md say what Python says."""

import doctest
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]


def test_examples_of_the_page_run(monkeypatch):
    monkeypatch.chdir(ROOT)
    found = doctest.testfile(
        str(ROOT / "docs" / "use" / "aero.md"),
        module_relative=False,
        optionflags=doctest.NORMALIZE_WHITESPACE,
        encoding="utf-8",
    )
    assert found.attempted > 20
    if found.failed:
        pytest.fail(f"{found.failed} examples of docs/use/aero.md say something else")
