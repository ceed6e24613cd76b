#!/usr/bin/env python3
"""Set Foamwright up in a private environment, then check and draw the example, or test.

    python3 start.py              set up, check the example plane, write its sheets, open the
                                  workshop in the browser (where there is a screen)
    python3 start.py test [...]   set up what the tests need and run them; the rest goes to pytest

Standard library only, and written for Python 3.8 or newer: it finds a new enough Python by itself.
"""

from __future__ import annotations

import hashlib
import json
import os
import re
import shutil
import subprocess
import sys
from pathlib import Path

TYPING = False
if TYPING:  # the names below are only read by people and checkers; annotations are never run
    from collections.abc import Callable, Mapping

ROOT = Path(__file__).resolve().parent
VENV = ROOT / ".venv"
STAMP = "foamwright-stamp.json"
OLDEST = (3, 12)
KNOWN = ("3.14", "3.13", "3.12")  # versions that every locked library has ready-made files for
ROOM = {
    False: 700,
    True: 1300,
}  # MB free that the set-up needs, without and with the tests; measured, rounded up
EXAMPLE = "brindle-cob"
PROBE = (
    "import sys, sysconfig, importlib.util as u; "
    "print(sys.version_info[0], sys.version_info[1], int(sys.maxsize > 2**32), "
    "int(bool(sysconfig.get_config_var('Py_GIL_DISABLED'))), "
    "int(bool(u.find_spec('ensurepip') and u.find_spec('venv'))))"
)


class Trouble(Exception):
    """Something the person at the keyboard can mend; the text says how."""


# ---------------------------------------------------------------- finding a Python


def path_commands(which: Callable[[str], str | None] = shutil.which) -> list[list[str]]:
    """Commands on PATH that may be a new enough Python, best first."""
    names = ["python" + version for version in KNOWN] + ["python3", "python"]
    return [[found] for found in map(which, names) if found]


def folder_patterns(
    home: Path, environ: Mapping[str, str], system: str = sys.platform
) -> list[tuple[Path, str]]:
    """Where the usual version managers and installers keep Pythons: (folder, glob) pairs.

    Covers pyenv, Homebrew, uv and the installers from the Python home page.
    """
    home = Path(home)
    if system == "win32":
        local = Path(environ.get("LOCALAPPDATA") or home / "AppData" / "Local")
        roaming = Path(environ.get("APPDATA") or home / "AppData" / "Roaming")
        return [
            (home / ".pyenv" / "pyenv-win" / "versions", "{v}*/python.exe"),
            (roaming / "uv" / "python", "cpython-{v}*/python.exe"),
            (roaming / "uv" / "data" / "python", "cpython-{v}*/python.exe"),
            (local / "Programs" / "Python", "Python{n}/python.exe"),
        ]
    pyenv = Path(environ.get("PYENV_ROOT") or home / ".pyenv")
    data = Path(environ.get("XDG_DATA_HOME") or home / ".local" / "share")
    patterns = [
        (pyenv / "versions", "{v}*/bin/python{v}"),
        (data / "uv" / "python", "cpython-{v}*/bin/python{v}"),
        (home / ".local" / "bin", "python{v}"),
    ]
    for brew in ("/opt/homebrew", "/usr/local", "/home/linuxbrew/.linuxbrew"):
        patterns.append((Path(brew) / "bin", "python{v}"))
        patterns.append((Path(brew) / "opt" / "python@{v}" / "bin", "python{v}"))
    patterns.append((Path("/Library/Frameworks/Python.framework/Versions"), "{v}/bin/python{v}"))
    return patterns


def folder_commands(patterns: list[tuple[Path, str]]) -> list[list[str]]:
    """Pythons in the folders of `folder_patterns`, newest known version first."""
    found = []
    for version in KNOWN:
        names = {"v": version, "n": version.replace(".", "")}
        for folder, pattern in patterns:
            place = Path(str(folder).format(**names))
            try:
                found += [
                    [str(path)]
                    for path in sorted(place.glob(pattern.format(**names)), reverse=True)
                ]
            except OSError:  # a folder that may not be read holds nothing for us
                continue
    return found


def candidates() -> list[list[str]]:
    """Every command worth trying, in order of preference, without repeats."""
    commands = [[sys.executable]] if sys.executable else []
    if sys.platform == "win32" and shutil.which("py"):
        commands += [["py", "-" + version] for version in KNOWN]
    commands += path_commands()
    commands += folder_commands(folder_patterns(Path.home(), os.environ))
    return [command for i, command in enumerate(commands) if command not in commands[:i]]


def judge(answer: str) -> tuple[tuple[int, int] | None, str]:
    """Read a probe's answer: (version or None, why it will not do or "")."""
    numbers = answer.split()
    if len(numbers) != 5 or not all(number.isdigit() for number in numbers):
        return None, "does not run"
    major, minor, wide, free_threaded, can_make = map(int, numbers)
    version = (major, minor)
    if version < OLDEST:
        return version, "is too old"
    if not wide:
        return version, "is a 32-bit build, and the libraries are made for 64 bits"
    if free_threaded:
        return version, "is a free-threaded build, which not all libraries are made for"
    if not can_make:
        return version, "cannot make environments (no venv or ensurepip)"
    return version, ""


def call(command: list[str], timeout: float | None = None) -> tuple[int, str]:
    """Run a command quietly: its exit code and what it printed; -1 when it cannot be started."""
    try:
        done = subprocess.run(
            command,
            stdin=subprocess.DEVNULL,
            stdout=subprocess.PIPE,
            stderr=subprocess.STDOUT,
            timeout=timeout,
            env=clean_environment(),
            check=False,
        )
    except (OSError, subprocess.SubprocessError) as error:
        return -1, str(error)
    return done.returncode, done.stdout.decode("utf-8", "replace")


def probe(command: list[str]) -> tuple[tuple[int, int] | None, str]:
    """Run a candidate and judge its answer; wrappers that only look like a Python fail here."""
    code, answer = call([*command, "-c", PROBE], timeout=30)
    return judge(answer) if code == 0 else (None, "does not run")


def find_python() -> list[str]:
    """The first candidate that will do, as a command; raises Trouble with the way to get one."""
    seen = []
    for command in candidates():
        version, why = probe(command)
        if version and not why:
            return command
        if version:
            seen.append((command, version, why))
    release = Path("/etc/os-release")
    text = release.read_text(encoding="utf-8", errors="replace") if release.exists() else ""
    raise Trouble(how_to_get(seen, sys.platform, text))


def how_to_get(
    seen: list[tuple[list[str], tuple[int, int], str]], system: str, os_release: str
) -> str:
    """Words on how to get a Python that will do.

    Args:
        seen: (command, version, why not) of the Pythons found.
        system: As sys.platform.
        os_release: Text of /etc/os-release, or "".
    """
    lines = ["Foamwright needs Python %d.%d or newer, and none was found that will do." % OLDEST]
    lines += ["  found %s: %d.%d %s" % (" ".join(c), v[0], v[1], why) for c, v, why in seen]
    lame = [v for _, v, why in seen if v >= OLDEST and "venv" in why]
    if lame and system.startswith("linux"):
        lines += [
            "On Debian and Ubuntu this one package mends it:",
            "  sudo apt install python%d.%d-venv" % lame[0],
        ]
    elif system == "win32":
        lines += [
            "Install it in one line, then open a new window and start again:",
            "  winget install Python.Python.3.13",
            "or take the 64-bit installer from the Python home page.",
        ]
    elif system == "darwin":
        lines += [
            "Install it in one line, then start again:",
            "  brew install python@3.13",
            "or take the installer from the Python home page.",
        ]
    else:
        lines += linux_lines(os_release)
    return "\n".join(lines)


def linux_lines(os_release: str) -> list[str]:
    """What to type on this Linux, from the text of /etc/os-release."""
    fields = dict(re.findall(r'^(\w+)="?([^"\n]*)"?$', os_release, re.M))
    kin = (fields.get("ID", "") + " " + fields.get("ID_LIKE", "")).split()
    number = re.match(r"\d+(\.\d+)?", fields.get("VERSION_ID", ""))
    new_enough = number and float(number.group()) >= (24.04 if fields.get("ID") == "ubuntu" else 13)
    if "debian" in kin and fields.get("ID") in ("debian", "ubuntu") and new_enough:
        return [
            "Install it in one line, then start again:",
            "  sudo apt install python3 python3-venv",
        ]
    if "debian" in kin or "ubuntu" in kin:
        return [
            "This release's own Python is older. Fetch a newer one beside it, then start again:",
            "  sudo apt install pipx && pipx run uv python install 3.13",
            "(Debian 13, Ubuntu 24.04 and newer have it: sudo apt install python3 python3-venv)",
        ]
    if "fedora" in kin:
        return ["Install it in one line, then start again:", "  sudo dnf install python3.13"]
    return [
        "Install Python 3.12 or newer, with its venv module, from your system's packages,",
        "then start again.",
    ]


# ---------------------------------------------------------------- the private environment


def clean_environment() -> dict[str, str]:
    """This process's environment less what would mislead another Python."""
    kept = {
        name: value
        for name, value in os.environ.items()
        if name not in ("PYTHONHOME", "PYTHONPATH", "__PYVENV_LAUNCHER__")
    }
    kept["PIP_DISABLE_PIP_VERSION_CHECK"] = "1"
    return kept


def venv_python(venv: Path, system: str = sys.platform) -> Path:
    """Where an environment keeps its Python."""
    return (
        Path(venv) / "Scripts" / "python.exe"
        if system == "win32"
        else Path(venv) / "bin" / "python"
    )


def lock_files(testing: bool) -> list[Path]:
    """The lists of pinned versions to install."""
    return [ROOT / "requirements.lock"] + ([ROOT / "requirements-test.lock"] if testing else [])


def pins(text: str, system: str = sys.platform) -> list[str]:
    """Names that a lock file's text pins for a system; comments and options are left out."""
    lines = (line.split("#")[0].strip() for line in text.splitlines())
    elsewhere = f'sys_platform {"!=" if system == "win32" else "=="} "win32"'
    return [line.split("==")[0] for line in lines if "==" in line and elsewhere not in line]


def key_of(paths: list[Path], *words: str) -> str:
    """A short print of some files' contents and words: it changes when any of them does."""
    digest = hashlib.sha256()
    for path in paths:
        digest.update(str(path.name).encode() + b"\0" + path.read_bytes() + b"\0")
    digest.update("\0".join(words).encode())
    return digest.hexdigest()


def read_stamp(venv: Path) -> dict[str, object]:
    """What is installed in an environment: {"key": ..., "testing": ...}; empty when not known."""
    try:
        stamp = json.loads((Path(venv) / STAMP).read_text(encoding="utf-8"))
    except (OSError, ValueError):
        return {}
    return stamp if isinstance(stamp, dict) else {}


def runs(python: Path, modules: list[str]) -> bool:
    """Whether an environment's Python starts and finds these modules."""
    code = "import importlib.util as u, sys; sys.exit(not all(map(u.find_spec, sys.argv[1:])))"
    return call([str(python), "-c", code, *modules])[0] == 0


def needed(testing: bool) -> list[str]:
    """Modules that show whether an environment is whole."""
    usual = [
        "click",
        "numpy",
        "pydantic",
        "shapely",
        "scipy",
        "packingsolver",
        "reportlab",
        "ezdxf",
        "foamwright",
    ]
    return usual + (["pytest", "xdist", "hypothesis", "playwright"] if testing else [])


def ready(testing: bool) -> bool:
    """Whether the environment is there, whole, and made from today's lock files."""
    stamp = read_stamp(VENV)
    wanted = key_of([*lock_files(bool(stamp.get("testing"))), ROOT / "pyproject.toml"], str(ROOT))
    if stamp.get("key") != wanted or (testing and not stamp.get("testing")):
        return False
    return runs(venv_python(VENV), needed(testing))


def make_environment(command: list[str]) -> None:
    """Make the environment anew, taking away one that is broken or half made."""
    if VENV.is_symlink() or VENV.is_file():
        raise Trouble(
            "%s is in the way: it should be a folder. Move it away and start again." % VENV
        )
    if VENV.exists():
        say("The private environment is broken or half made: making it anew.")
        shutil.rmtree(str(VENV))
    say("Making a private environment in .venv (with %s)" % " ".join(command))
    code, printed = call([*command, "-m", "venv", str(VENV)])
    if code or not runs(venv_python(VENV), ["pip"]):
        shutil.rmtree(str(VENV), ignore_errors=True)
        raise Trouble(explain(printed, "The environment could not be made."))


CAUSES = (  # pattern in what a failed step printed, and the words for it
    (
        r"No space left|Errno 28|WinError 112|not enough space|disk quota",
        "The disk is full. Make room (about 1 GB) and start again.",
    ),
    (
        r"Permission denied|Errno 13|WinError 5\b|Read-only file system",
        "This folder may not be written to. Move the project to a folder of your own, start again.",
    ),
    (
        r"ensurepip is not|python3-venv",
        "On Debian and Ubuntu install the venv package:  sudo apt install python3-venv",
    ),
    (
        r"NewConnectionError|ConnectionError|name resolution|getaddrinfo|NameResolution|timed out"
        r"|Timeout|unreachable|ProxyError|SSLError|CERTIFICATE_VERIFY|Retrying|IncompleteRead"
        r"|Connection (refused|reset|aborted|broken)",
        "The network cannot be reached (or a proxy is in the way). The first set-up fetches about\n"
        "200 MB; later starts need no network. Connect, start again: what was fetched is kept.",
    ),
    (
        r"No matching distribution",
        "A library has no ready-made file for this Python or system.\n"
        "Python 3.12 or 3.13, 64 bit, on Linux, macOS or Windows is the safe choice.",
    ),
)


def explain(output: str, what: str) -> str:
    """Clear words for a failed step, from what the tool printed."""
    for pattern, words in CAUSES:
        if re.search(pattern, output, re.I):
            return what + "\n" + words
    tail = "\n".join("  | " + line for line in output.strip().splitlines()[-8:])
    return what + "\nThe last lines it printed:\n" + tail


def progress_line(line: str, done: int, total: int) -> tuple[str, int]:
    """What to show for one line printed by pip: (text or "", packages met so far)."""
    match = re.match(r"(?:Collecting|Requirement already satisfied:) ([A-Za-z0-9._-]+)", line)
    match = match or re.match(r"Processing \S*?([A-Za-z0-9._]+)-\d", line)
    if match:
        done += 1
        return "  %d of %d: %s" % (min(done, total), total, match.group(1).split("==")[0]), done
    match = re.match(r"\s*Downloading \S*?([A-Za-z0-9._]+)-\d\S* \(([^)]+)\)", line)
    if match and re.search(r"MB", match.group(2)):
        return "  %d of %d: %s, %s" % (
            min(done, total),
            total,
            match.group(1),
            match.group(2),
        ), done
    if "Retrying" in line:
        return "  the network does not answer; trying again", done
    if line.startswith("Installing collected packages"):
        return ("  unpacking %d libraries" % total if total > 1 else ""), done
    return "", done


def pip(arguments: list[str], what: str, total: int) -> None:
    """Run pip in the environment, showing where it is; raises Trouble in clear words."""
    options = ["--no-input", "--retries", "2"]
    process = subprocess.Popen(
        [str(venv_python(VENV)), "-m", "pip", *options, "install", *arguments],
        stdin=subprocess.DEVNULL,
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        env=clean_environment(),
        cwd=str(ROOT),
    )
    printed, done = [], 0
    for raw in process.stdout or ():
        line = raw.decode("utf-8", "replace").rstrip()
        printed.append(line)
        text, done = progress_line(line, done, total)
        if text:
            show(text)
    show("")
    if process.wait():
        raise Trouble(explain("\n".join(printed), what))


def install(testing: bool) -> None:
    """Install the pinned libraries and the package itself, then leave a stamp."""
    locks = lock_files(testing)
    total = sum(len(pins(lock.read_text(encoding="utf-8"))) for lock in locks)
    if (VENV / STAMP).exists():
        (VENV / STAMP).unlink()
    say("Installing %d libraries (the first time takes a few minutes)" % total)
    listed = [word for lock in locks for word in ("-r", str(lock))]
    pip(listed, "The libraries could not be installed.", total)
    say("Installing Foamwright itself")
    itself = ["--no-deps", "--no-build-isolation", "--editable", str(ROOT)]
    pip(itself, "Foamwright itself could not be installed.", 1)
    # Compiled once here: where Python is told not to keep compiled files every start would be slow.
    call([str(venv_python(VENV)), "-m", "compileall", "-q", str(ROOT / "src")])
    key = key_of([*locks, ROOT / "pyproject.toml"], str(ROOT))
    stamp = {"key": key, "testing": testing, "root": str(ROOT)}
    (VENV / STAMP).write_text(json.dumps(stamp), encoding="utf-8")


def whole() -> bool:
    """Whether the environment can be built on: pip runs, its Python will do, nothing has moved."""
    if not runs(venv_python(VENV), ["pip"]) or read_stamp(VENV).get("root", str(ROOT)) != str(ROOT):
        return False
    version, why = probe([str(venv_python(VENV))])
    return version is not None and not why


def set_up(testing: bool) -> None:
    """Bring the environment to today's state; does nothing when it is there already."""
    if ready(testing):
        return
    testing = testing or bool(read_stamp(VENV).get("testing"))
    free = shutil.disk_usage(str(ROOT)).free // 10**6
    if free < ROOM[testing] and not VENV.exists():
        need = ROOM[testing]
        raise Trouble(f"The disk has {free} MB left; the set-up needs about {need} MB. Make room.")
    if not whole():
        make_environment(find_python())
    install(testing)
    if not runs(venv_python(VENV), needed(testing)):
        make_environment(find_python())
        install(testing)


# ---------------------------------------------------------------- what the person sees


def say(text: str) -> None:
    """One line of progress."""
    print(text, flush=True)


def show(text: str) -> None:
    """A passing line: rewritten in place on a terminal, printed once elsewhere."""
    if sys.stdout.isatty():
        width = shutil.get_terminal_size((80, 20)).columns - 1
        sys.stdout.write("\r" + text[:width].ljust(width) + ("" if text else "\r"))
        sys.stdout.flush()
    elif text:
        say(text)


def foamwright(*arguments: str) -> int:
    """Run the command in the environment and hand back its exit code."""
    command = [str(venv_python(VENV)), "-m", "foamwright", *arguments]
    return subprocess.run(command, cwd=str(ROOT), env=clean_environment(), check=False).returncode


def somebody_looks() -> bool:
    """Whether a person sits at a terminal on a machine that can show a browser."""
    if not (sys.stdin.isatty() and sys.stdout.isatty()):
        return False
    screens = ("DISPLAY", "WAYLAND_DISPLAY", "WSL_DISTRO_NAME")
    return sys.platform in ("win32", "darwin") or any(map(os.environ.get, screens))


def open_workshop() -> None:
    """Open the workshop in the browser and stay until it is closed."""
    command = [str(venv_python(VENV)), "-m", "foamwright", "workshop"]
    process = subprocess.Popen(command, cwd=str(ROOT), env=clean_environment())
    while True:
        try:
            process.wait()
            return
        except KeyboardInterrupt:  # the workshop hears Ctrl-C too, and closes in its own time
            continue


def demonstrate() -> int:
    """Check the example, write its sheets, open the workshop; hands back the exit code."""
    design = Path("examples") / (EXAMPLE + ".toml")
    out = Path("out") / EXAMPLE
    say("\nChecking %s\n" % design.as_posix())
    code = foamwright("check", str(design))
    sources = (
        sorted((ROOT / "src").rglob("*.py"))
        + sorted((ROOT / "src").rglob("*.toml"))
        + [ROOT / design]
    )
    key, mark = key_of(sources), ROOT / out / ".made-from"
    if mark.exists() and mark.read_text(encoding="utf-8") == key:
        say("\nThe sheets in %s are up to date." % out.as_posix())
    else:
        say("\nWriting its full-size sheets into %s\n" % out.as_posix())
        drawn = foamwright("sheets", str(design), "--out", str(out), "--overwrite")
        if drawn:
            return code or drawn
        mark.write_text(key, encoding="utf-8")
    pages = sorted(path.name for path in (ROOT / out).glob("*.pdf"))
    command = ".venv\\Scripts\\foamwright" if sys.platform == "win32" else ".venv/bin/foamwright"
    say("\nNow open %s." % (", ".join((out / page).as_posix() for page in pages) or out.as_posix()))
    say("Your own plane:  %s new my-plane     then  %s check my-plane.toml" % (command, command))
    say("In the browser:  %s workshop %s" % (command, design.as_posix()))
    if somebody_looks():
        say("")
        open_workshop()
    return code


def run_tests(arguments: list[str]) -> int:
    """Run pytest in the environment on all cores that help; its exit code comes back."""
    spread = any(
        re.match(r"-n|--numprocesses|--pdb|-s$|--capture|--collect-only|--co$|-p$", word)
        for word in arguments
    )
    workers = (
        [] if spread or (os.cpu_count() or 1) < 2 else ["-n", str(min(os.cpu_count() or 1, 4))]
    )
    command = [str(venv_python(VENV)), "-m", "pytest", "-rs", *workers, *arguments]
    return subprocess.run(command, cwd=str(ROOT), env=clean_environment(), check=False).returncode


def main(arguments: list[str]) -> int:
    """Do what was asked and hand back the exit code."""
    testing = arguments[:1] == ["test"]
    if arguments and not testing:
        say(__doc__.strip())
        return 0 if arguments[0] in ("-h", "--help") else 2
    try:
        set_up(testing)
        return run_tests(arguments[1:]) if testing else demonstrate()
    except Trouble as trouble:
        print("\n%s" % trouble, file=sys.stderr)
    except OSError as error:
        print("\n" + explain(str(error), "The set-up stopped."), file=sys.stderr)
    except KeyboardInterrupt:
        print("\nStopped. Start again and it goes on where it was.", file=sys.stderr)
        return 130
    return 2


if __name__ == "__main__":
    if sys.version_info < (3, 8):
        sys.exit(
            "start.py itself needs Python 3.8 or newer to start; this is %d.%d."
            % sys.version_info[:2]
        )
    sys.exit(main(sys.argv[1:]))
