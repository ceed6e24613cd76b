"""Time whole tasks as a builder meets them. Printed, not gated.

    python bench/whole_tasks.py [DESIGN] [--runs N]

The cold check is a process of its own; beside it stands a process that only imports the libraries,
in the same run, so that the ratio means the same on a slow machine and a fast one.
"""

import argparse
import os
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
IMPORTS = "import numpy, scipy, shapely, pydantic"
# Design keys to nudge, one at a time, and by which factor: as a builder would while looking.
NUDGES = (
    ("stab.span", 1.02),
    ("pack.position", 1.03),
    ("wing.position", 1.01),
    ("propeller.pitch", 1.02),
    ("fin.chord", 1.02),
    ("wing.incidence", 1.05),
)


def seconds(task: Callable[[], object]) -> float:
    """How long a task takes."""
    begin = time.perf_counter()
    task()
    return time.perf_counter() - begin


def process(*words: str) -> float:
    """How long a process of this Python takes, with compiled files kept as is usual."""
    command = [sys.executable, *words]
    usual = {name: text for name, text in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    return seconds(lambda: subprocess.run(command, capture_output=True, check=False, env=usual))


def show(what: str, times: list[float], note: str = "") -> float:
    """Print a row and hand back its median."""
    middle = statistics.median(times)
    print(f"{what:<44}{1e3 * middle:9.0f} ms  best {1e3 * min(times):7.0f}  {note}", flush=True)
    return middle


def cold(design: Path, runs: int) -> None:
    """The cold command against only importing the libraries, taken in turns."""
    bare, whole = [], []
    process("-m", "foamwright", "check", str(design), "--json")  # compiles what has changed
    for _ in range(runs):
        bare.append(process("-c", IMPORTS))
        whole.append(process("-m", "foamwright", "check", str(design), "--json"))
    base = show("importing numpy, scipy, shapely, pydantic", bare)
    show("check --json, cold", whole, f"{statistics.median(whole) / base:.2f} x the imports")


def warm(design: Path, runs: int) -> None:
    """A plane in memory after one changed value: verdicts with numbers, and with solved changes."""
    from foamwright.checks.run import verdicts
    from foamwright.opening import load

    plane = load(design)
    _ = plane.checks, plane.results()
    numbers, solved = [], []
    for turn in range(runs):
        for key, factor in NUDGES:
            value: object = plane.design
            for word in key.split("."):
                value = getattr(value, word)
            nudge = {key: float(value) * factor ** (1 + turn / 10)}  # type: ignore[arg-type]
            numbers.append(seconds(lambda nudge=nudge: verdicts(plane.with_values(nudge))))
            if turn == 0:
                solved.append(seconds(lambda nudge=nudge: plane.with_values(nudge).checks))
    show("re-check after one changed value, warm", numbers, "verdicts")
    show("the same with changes solved", solved)


def sheets(design: Path) -> None:
    """Sheets, draft and searched, into a folder that is thrown away."""
    with tempfile.TemporaryDirectory() as folder:
        for what, extra in (("sheets --draft", ["--draft"]), ("sheets, 10 s search", [])):
            out = str(Path(folder) / ("draft" if extra else "full"))
            show(what, [process("-m", "foamwright", "sheets", str(design), "--out", out, *extra)])


def main() -> None:
    """Run and print all timings."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    default = ROOT / "examples" / "brindle-cob.toml"
    parser.add_argument("design", nargs="?", type=Path, default=default)
    parser.add_argument("--runs", type=int, default=7)
    chosen = parser.parse_args()
    print(f"{chosen.design.name}, Python {sys.version.split()[0]}, median of {chosen.runs}")
    cold(chosen.design, chosen.runs)
    warm(chosen.design, chosen.runs)
    sheets(chosen.design)


if __name__ == "__main__":
    main()
