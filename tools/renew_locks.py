"""Renew requirements.lock and requirements-test.lock from the ranges in pyproject.toml.

    python3.12 tools/renew_locks.py

An environment is made in a folder that is thrown away; this needs the network. Run the tests
afterwards.
"""

import subprocess
import sys
import tempfile
import tomllib
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
HEAD = """# Pinned versions that Foamwright {}; one list for every system.
# Made by tools/renew_locks.py from the ranges in pyproject.toml.
"""
ONLY_ON = {"uvloop": 'sys_platform != "win32"'}  # what a freeze on Linux shows and Windows lacks
ADDED = ['colorama==0.4.6 ; sys_platform == "win32"']  # what Windows needs and Linux does not


def frozen(folder: Path, ranges: list[str]) -> list[str]:
    """Install ranges into an environment and list the versions it then holds, pip left out."""
    if not folder.exists():
        subprocess.run([sys.executable, "-m", "venv", str(folder)], check=True)
    python = folder / ("Scripts/python.exe" if sys.platform == "win32" else "bin/python")
    subprocess.run([str(python), "-m", "pip", "install", "--quiet", *ranges], check=True)
    listed = subprocess.run(
        [str(python), "-m", "pip", "freeze", "--all"], check=True, capture_output=True, text=True
    )
    return [line for line in listed.stdout.split() if "==" in line and not line.startswith("pip==")]


def marked(line: str) -> str:
    """A pinned version with the systems it is for."""
    name = line.split("==")[0].lower()
    return f"{line} ; {ONLY_ON[name]}" if name in ONLY_ON else line


def write(name: str, purpose: str, lines: list[str]) -> None:
    """Write one list."""
    text = HEAD.format(purpose) + "\n".join(sorted(lines, key=str.lower)) + "\n"
    (ROOT / name).write_text(text, encoding="utf-8")


def main() -> None:
    """Renew both lists."""
    with (ROOT / "pyproject.toml").open("rb") as file:
        described = tomllib.load(file)
    usual = [*described["project"]["dependencies"], *described["build-system"]["requires"]]
    testing = described["project"]["optional-dependencies"]["test"]
    with tempfile.TemporaryDirectory() as folder:
        place = Path(folder) / "fresh"
        main_lines = frozen(place, usual)
        test_lines = [line for line in frozen(place, testing) if line not in main_lines]
    write("requirements.lock", "runs on", [*map(marked, main_lines), *ADDED])
    write("requirements-test.lock", "is tested with, beside the others", [*map(marked, test_lines)])


if __name__ == "__main__":
    main()
