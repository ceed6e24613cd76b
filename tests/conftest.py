"""Fixtures shared by every layer, and the printer of docs/validation.md."""

import json
import math
import os
from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import settings

# Where a change is judged the same examples are drawn every time: a red run means the change.
settings.register_profile("judge", derandomize=True)
if os.environ.get("CI"):
    settings.load_profile("judge")

ROOT = Path(__file__).parents[1]
ROWS = pytest.StashKey[list[dict]]()


def pytest_addoption(parser):
    parser.addoption("--write-validation", action="store_true", help="print docs/validation.md")


def pytest_configure(config):
    config.stash[ROWS] = []


def _missed(computed: float, printed: float, rel: float | None, near: float | None) -> bool:
    if not (math.isfinite(computed) and math.isfinite(printed)):
        return True
    allowed = near if near is not None else abs(printed) * (rel or 0.0)
    return abs(computed - printed) > allowed * (1 + 1e-9)


@pytest.fixture
def reproduce(request) -> Callable[..., None]:
    """Compare one computed figure with one printed elsewhere and enter it in the validation table.

    Give `rel` (relative) or `near` (absolute). `varies` keeps a figure that differs from run to run
    (a search against the clock) out of the printed table; only its verdict is printed. `gap` names
    a known miss: the row stays in the table, marked; a known miss that has healed fails the test so
    that the mark is taken away.
    """

    def compare(quantity, *, computed, printed, source, rel=None, near=None, gap="", varies=False):
        computed, printed = float(computed), float(printed)
        missed = _missed(computed, printed, rel, near)
        row = {
            "file": Path(request.node.fspath).name,
            "title": (request.module.__doc__ or "").strip().splitlines()[0].rstrip("."),
            "quantity": quantity,
            "source": source,
            "printed": printed,
            "computed": computed,
            "allowed": f"± {near:.3g}" if near is not None else f"± {100 * rel:.3g} %",
            "varies": varies,
            "verdict": ("MISSES: " + (gap or "not explained")) if missed else "ok",
        }
        request.config.stash[ROWS].append(row)
        if missed and not gap:
            theirs = f"printed {printed:.6g} ({source}), {row['allowed']}"
            pytest.fail(f"{quantity}: computed {computed:.6g}, {theirs}")
        if gap and not missed:
            pytest.fail(f"{quantity}: the known miss has healed, take its gap mark away")

    return compare


def pytest_sessionfinish(session):
    config = session.config
    if hasattr(config, "workeroutput"):
        config.workeroutput["validation_rows"] = json.dumps(config.stash[ROWS])
    elif config.getoption("--write-validation"):
        write_validation(config.stash[ROWS])


@pytest.hookimpl(optionalhook=True)
def pytest_testnodedown(node):
    rows = getattr(node, "workeroutput", {}).get("validation_rows")
    if rows:
        node.config.stash[ROWS].extend(json.loads(rows))


def _difference(row: dict) -> str:
    if row["varies"]:
        return "by run"
    if row["printed"] == 0 or row["allowed"].endswith("%") is False:
        return f"{row['computed'] - row['printed']:+.2g}"
    return f"{100 * (row['computed'] / row['printed'] - 1):+.2f} %"


def write_validation(rows: list[dict]) -> None:
    """Print docs/validation.md from the rows that the tests entered."""
    lines = ["# Validation", "", "Printed by `pytest --write-validation`; do not edit by hand.", ""]
    missing = sum(row["verdict"] != "ok" for row in rows)
    lines += [f"{len(rows)} rows, {missing} outside what is allowed (marked).", ""]
    title = None
    for row in sorted(rows, key=lambda r: (r["file"], r["title"], r["quantity"], r["source"])):
        if row["file"] != title:
            title = row["file"]
            lines += ["", f"## {row['title']}", ""]
            lines += ["| quantity | source | theirs | ours | difference | allowed | verdict |"]
            lines += ["|---|---|---|---|---|---|---|"]
        ours = "varies" if row["varies"] else f"{row['computed']:.4g}"
        lines.append(
            f"| {row['quantity']} | {row['source']} | {row['printed']:.4g} | {ours} "
            f"| {_difference(row)} | {row['allowed']} | {row['verdict']} |"
        )
    tail = ROOT / "docs" / "validation_tail.md"
    if tail.exists():
        lines += ["", tail.read_text(encoding="utf-8").rstrip()]
    (ROOT / "docs" / "validation.md").write_text("\n".join(lines) + "\n", encoding="utf-8")
