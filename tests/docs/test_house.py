"""The house rules that a machine can watch: floors, format, lint, types, lengths, words."""

import os
import re
import subprocess
import sys
from pathlib import Path

import pytest
from reading import ROOT, project_files, source_files
from test_docstrings import listed

TOOLS = Path(sys.executable).parent
LONGEST = 400  # lines of a module
LONGEST_SCRIPT = 600  # lines of start.py, which must stand alone


def run(*command: str, **extra: str) -> None:
    """Run a tool in the project's folder and fail with what it says."""
    done = subprocess.run(
        command,
        cwd=ROOT,
        env=os.environ | {"NO_COLOR": "1", "COLUMNS": "160"} | extra,
        capture_output=True,
        text=True,
        encoding="utf-8",
        errors="replace",
        check=False,
    )
    if done.returncode:
        pytest.fail(f"{' '.join(command[1:])}\n{done.stdout}{done.stderr}", pytrace=False)


@pytest.mark.slow
def test_imports_only_go_down():
    script = "from importlinter.cli import lint_imports_command; lint_imports_command()"
    run(sys.executable, "-c", script, "--no-cache")


def test_lint():
    run(sys.executable, "-m", "ruff", "check", "--quiet", "--output-format", "concise", ".")


def test_format():
    run(sys.executable, "-m", "ruff", "format", "--check", "--quiet", ".")


@pytest.mark.slow
def test_types():
    """Pyright runs on node: the system's, or the one that comes inside playwright."""
    import playwright

    node = Path(playwright.__file__).parent / "driver"
    path = os.pathsep.join([os.environ.get("PATH", ""), str(node)])
    run(
        sys.executable,
        "-m",
        "pyright",
        "--pythonpath",
        sys.executable,
        PATH=path,
        PYRIGHT_PYTHON_IGNORE_WARNINGS="1",
    )


def test_files_are_short():
    files = [*source_files(), *(ROOT / "tests").rglob("*.py"), *(ROOT / "tools").rglob("*.py")]
    lengths = [(len(path.read_text(encoding="utf-8").splitlines()), path) for path in files]
    listed(
        [f"{path.relative_to(ROOT).as_posix()}: {n} lines" for n, path in lengths if n > LONGEST]
    )
    assert len((ROOT / "start.py").read_text(encoding="utf-8").splitlines()) <= LONGEST_SCRIPT


# Spelled in halves so that this file does not hold them.
UNWANTED = {
    "a machine's path": r"(?<![\w.~])/(wo" + r"rk|ro" + r"ot)/|(?<![\w.])/t" + r"mp/",
    "a registry's host": r"py" + r"pi\.org|pythonho" + r"sted|npm" + r"js|deb\.deb" + r"ian",
    "how the work goes": r"seed docu" + r"ment|language mo" + r"del|sub" + r"agent|chat" + r"bot",
    "unfinished work": r"\bTO" + r"DO\b(?!.*#\d)|\bFIX" + r"ME\b|\bXX" + r"X\b",
}


def test_no_unwanted_words():
    offenders = []
    for path in project_files():
        for number, line in enumerate(path.read_text(encoding="utf-8").splitlines(), 1):
            offenders += [
                f"{path.relative_to(ROOT).as_posix()}:{number}: {what}"
                for what, pattern in UNWANTED.items()
                if re.search(pattern, line, re.I if what != "unfinished work" else 0)
            ]
    listed(offenders)


def test_modules_have_no_forbidden_names():
    listed(
        [str(path) for path in source_files() if path.name in ("utils.py", "helpers.py", "misc.py")]
    )


def test_version_is_said_once():
    """The package's own version is the one in pyproject.toml."""
    import tomllib

    import foamwright

    with (ROOT / "pyproject.toml").open("rb") as file:
        assert tomllib.load(file)["project"]["version"] == foamwright.__version__


def test_every_dependency_is_pinned():
    import tomllib

    with (ROOT / "pyproject.toml").open("rb") as file:
        described = tomllib.load(file)

    def names(lines):
        found = [re.match(r"[A-Za-z0-9._-]+", line) for line in lines if line[:1] not in "#"]
        return {match[0].lower().replace("_", "-") for match in found if match}

    usual = names((ROOT / "requirements.lock").read_text(encoding="utf-8").splitlines())
    extra = names((ROOT / "requirements-test.lock").read_text(encoding="utf-8").splitlines())
    wanted = described["project"]["dependencies"] + described["build-system"]["requires"]
    listed(sorted(names(wanted) - usual))
    listed(sorted(names(described["project"]["optional-dependencies"]["test"]) - usual - extra))


HEAVY = [
    "scipy",
    "matplotlib",
    "reportlab",
    "ezdxf",
    "packingsolver",
    "rich",
    "pint",
    "tomlkit",
    "av",
]


@pytest.mark.parametrize(
    "start", ["foamwright", "foamwright.opening", "foamwright.front", "foamwright.cli.command"]
)
def test_heavy_libraries_wait_until_they_are_needed(start):
    script = f"import sys, {start}; print(*[n for n in {HEAVY!r} if n in sys.modules])"
    done = subprocess.run(
        [sys.executable, "-c", script], capture_output=True, text=True, check=True
    )
    assert done.stdout.split() == []


def test_importing_the_package_alone_is_light():
    script = "import sys, foamwright; print('numpy' in sys.modules, 'click' in sys.modules)"
    done = subprocess.run(
        [sys.executable, "-c", script], capture_output=True, text=True, check=True
    )
    assert done.stdout.split() == ["False", "False"]
