"""The pure functions of start.py, and that it parses on the oldest Python it promises."""

import ast
import importlib.util
import json
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]


@pytest.fixture(scope="module")
def start():
    spec = importlib.util.spec_from_file_location("start", ROOT / "start.py")
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


@pytest.fixture
def at_home(start, tmp_path, monkeypatch):
    """start.py in a project folder of its own."""
    (tmp_path / "requirements.lock").write_text("click==8.1\n")
    (tmp_path / "requirements-test.lock").write_text("pytest==8.3\n")
    (tmp_path / "pyproject.toml").write_text("[project]\n")
    monkeypatch.setattr(start, "ROOT", tmp_path)
    monkeypatch.setattr(start, "VENV", tmp_path / ".venv")
    return tmp_path


def test_parses_on_python_3_8():
    ast.parse((ROOT / "start.py").read_text(encoding="utf-8"), feature_version=(3, 8))


def test_uses_only_the_standard_library():
    tree = ast.parse((ROOT / "start.py").read_text(encoding="utf-8"))
    imported = [node.module for node in ast.walk(tree) if isinstance(node, ast.ImportFrom)]
    imported += [
        a.name for node in ast.walk(tree) if isinstance(node, ast.Import) for a in node.names
    ]
    assert {name.split(".")[0] for name in imported} <= sys.stdlib_module_names


@pytest.mark.parametrize(
    ("answer", "version", "why"),
    [
        ("3 12 1 0 1\n", (3, 12), ""),
        ("3 11 1 0 1\n", (3, 11), "is too old"),
        ("3 13 0 0 1\n", (3, 13), "32-bit"),
        ("3 13 1 1 1\n", (3, 13), "free-threaded"),
        ("3 12 1 0 0\n", (3, 12), "venv"),
        ("command not found\n", None, "does not run"),
        ("", None, "does not run"),
    ],
)
def test_judges_what_a_candidate_says(start, answer, version, why):
    assert start.judge(answer)[0] == version
    assert why in start.judge(answer)[1]
    assert bool(why) == bool(start.judge(answer)[1])


def test_the_probe_is_understood_by_this_python(start):
    assert start.probe([sys.executable]) == (sys.version_info[:2], "")


@pytest.mark.skipif(sys.platform == "win32", reason="makes a shell script")
def test_a_wrapper_that_only_looks_like_a_python_is_passed_over(start, tmp_path):
    shim = tmp_path / "python3.12"
    shim.write_text("#!/bin/sh\necho 'python3.12: command not found' >&2\nexit 127\n")
    shim.chmod(0o755)
    assert start.probe([str(shim)]) == (None, "does not run")
    assert start.probe([str(tmp_path / "missing")]) == (None, "does not run")


def test_newest_known_python_in_the_version_managers_folders_comes_first(start, tmp_path):
    for version, number in (("3.12", "3.12.1"), ("3.13", "3.13.0"), ("3.11", "3.11.7")):
        folder = tmp_path / ".pyenv" / "versions" / number / "bin"
        folder.mkdir(parents=True)
        (folder / f"python{version}").touch()
    (tmp_path / ".local/share/uv/python/cpython-3.14.0-linux/bin").mkdir(parents=True)
    (tmp_path / ".local/share/uv/python/cpython-3.14.0-linux/bin/python3.14").touch()
    found = start.folder_commands(start.folder_patterns(tmp_path, {}, "linux"))
    ours = [Path(command[0]).name for command in found if str(tmp_path) in command[0]]
    assert ours == ["python3.14", "python3.13", "python3.12"]


def test_windows_folders(start, tmp_path):
    places = [
        tmp_path / ".pyenv/pyenv-win/versions/3.13.0",
        tmp_path / "r/uv/python/cpython-3.12.4-x",
    ]
    places.append(tmp_path / "l/Programs/Python/Python312")
    for place in places:
        place.mkdir(parents=True)
        (place / "python.exe").touch()
    environ = {"APPDATA": str(tmp_path / "r"), "LOCALAPPDATA": str(tmp_path / "l")}
    found = start.folder_commands(start.folder_patterns(tmp_path, environ, "win32"))
    assert [Path(command[0]).parent for command in found] == places


DEBIAN_12 = 'ID=debian\nVERSION_ID="12"\n'
DEBIAN_13 = 'ID=debian\nVERSION_ID="13"\n'
UBUNTU_24 = 'ID=ubuntu\nID_LIKE=debian\nVERSION_ID="24.04"\n'
UBUNTU_22 = 'ID=ubuntu\nID_LIKE=debian\nVERSION_ID="22.04"\n'


@pytest.mark.parametrize(
    ("system", "release", "line"),
    [
        ("linux", DEBIAN_13, "sudo apt install python3 python3-venv"),
        ("linux", UBUNTU_24, "sudo apt install python3 python3-venv"),
        ("linux", DEBIAN_12, "uv python install"),
        ("linux", UBUNTU_22, "uv python install"),
        ("linux", 'ID=fedora\nVERSION_ID="41"\n', "sudo dnf install"),
        ("linux", "", "package"),
        ("darwin", "", "brew install python@3.13"),
        ("win32", "", "winget install"),
    ],
)
def test_says_how_to_get_a_python(start, system, release, line):
    words = start.how_to_get([(["python3"], (3, 11), "is too old")], system, release)
    assert words.startswith("Foamwright needs Python 3.12 or newer")
    assert "found python3: 3.11 is too old" in words
    assert line in words or line in words.replace("packages", "package")


def test_names_the_exact_package_when_only_venv_is_missing(start):
    seen = [(["/usr/bin/python3.12"], (3, 12), "cannot make environments (no venv or ensurepip)")]
    assert "sudo apt install python3.12-venv" in start.how_to_get(seen, "linux", UBUNTU_24)


@pytest.mark.parametrize(
    ("printed", "words"),
    [
        ("ERROR: Could not install: [Errno 28] No space left on device", "The disk is full"),
        (
            "WARNING: Retrying (Retry(total=1...)) NewConnectionError",
            "The network cannot be reached",
        ),
        ("ERROR: No matching distribution found for numpy==9", "no ready-made file"),
        ("The virtual environment was not created because ensurepip is not", "python3-venv"),
        ("[Errno 13] Permission denied: '/opt/x'", "may not be written to"),
        ("something else\nlast words", "  | last words"),
    ],
)
def test_explains_failures(start, printed, words):
    assert start.explain(printed, "It failed.").startswith("It failed.")
    assert words in start.explain(printed, "It failed.")


def test_counts_pins(start):
    text = '# a comment\nclick==8.1\ncolorama==0.4 ; sys_platform == "win32"\n'
    text += 'uvloop==0.2 ; sys_platform != "win32"\n'
    assert start.pins(text, "win32") == ["click", "colorama"]
    assert start.pins(text, "linux") == ["click", "uvloop"]


def test_progress_lines(start):
    assert start.progress_line("Collecting numpy==2.1 (from -r x)", 0, 9) == ("  1 of 9: numpy", 1)
    wheel = "  Downloading numpy-2.1-cp312-manylinux_x86_64.whl (16.2 MB)"
    assert start.progress_line(wheel, 1, 9) == ("  1 of 9: numpy, 16.2 MB", 1)
    assert start.progress_line("  Using cached x", 1, 9) == ("", 1)
    local = "Processing /media/wheels/six-1.16.0-py3-none-any.whl (from -r x)"
    assert start.progress_line(local, 1, 9) == ("  2 of 9: six", 2)


def test_key_changes_with_contents_and_words(start, tmp_path):
    file = tmp_path / "a.lock"
    file.write_text("one")
    first = start.key_of([file], "here")
    assert first == start.key_of([file], "here")
    assert first != start.key_of([file], "there")
    file.write_text("two")
    assert first != start.key_of([file], "here")


def test_an_unreadable_stamp_counts_as_none(start, tmp_path):
    assert start.read_stamp(tmp_path) == {}
    (tmp_path / start.STAMP).write_text("{half a st")
    assert start.read_stamp(tmp_path) == {}


def test_ready_only_with_a_fitting_stamp_and_a_running_python(start, at_home, monkeypatch):
    monkeypatch.setattr(start, "runs", lambda python, modules: True)
    assert not start.ready(False)
    start.VENV.mkdir()
    key = start.key_of([at_home / "requirements.lock", at_home / "pyproject.toml"], str(at_home))
    (start.VENV / start.STAMP).write_text(json.dumps({"key": key, "testing": False}))
    assert start.ready(False)
    assert not start.ready(True)
    (at_home / "requirements.lock").write_text("click==8.2\n")
    assert not start.ready(False)


def test_a_broken_environment_is_made_anew_and_a_whole_one_is_kept(start, at_home, monkeypatch):
    done = []
    answers = iter([False, True])
    monkeypatch.setattr(start, "whole", lambda: next(answers))
    monkeypatch.setattr(start, "find_python", lambda: ["py"])
    monkeypatch.setattr(start, "make_environment", lambda command: done.append("made"))
    monkeypatch.setattr(start, "install", lambda testing: done.append(f"installed {testing}"))
    monkeypatch.setattr(start, "runs", lambda python, modules: True)
    start.set_up(False)
    start.set_up(True)
    assert done == ["made", "installed False", "installed True"]


def test_something_else_in_the_way_is_left_alone(start, at_home):
    start.VENV.write_text("a file")
    with pytest.raises(start.Trouble, match="in the way"):
        start.make_environment(["python"])
    assert start.VENV.read_text() == "a file"


def test_a_full_disk_is_said_before_anything_is_fetched(start, at_home, monkeypatch):
    monkeypatch.setattr(start.shutil, "disk_usage", lambda path: type("U", (), {"free": 5_000_000}))
    with pytest.raises(start.Trouble, match="5 MB left"):
        start.set_up(False)


def test_troubles_come_out_as_words_and_code_2(start, monkeypatch, capsys):
    def fail(testing):
        raise start.Trouble("Connect and start again.")

    monkeypatch.setattr(start, "set_up", fail)
    assert start.main([]) == 2
    captured = capsys.readouterr()
    assert "Connect and start again." in captured.err
    assert "Traceback" not in captured.err


def test_exit_codes_pass_through(start, monkeypatch):
    monkeypatch.setattr(start, "set_up", lambda testing: None)
    monkeypatch.setattr(start, "run_tests", lambda arguments: len(arguments) + 5)
    assert start.main(["test", "-k", "x"]) == 7


def test_an_unknown_word_is_refused_and_help_is_given(start, capsys):
    assert start.main(["tset"]) == 2
    assert start.main(["--help"]) == 0
    assert "start.py test" in capsys.readouterr().out


@pytest.mark.parametrize(
    ("terminal", "screen", "looks"),
    [(True, True, True), (True, False, False), (False, True, False)],
)
def test_the_workshop_opens_only_where_somebody_can_see_it(
    start, monkeypatch, terminal, screen, looks
):
    class Stream:
        def isatty(self):
            return terminal

    monkeypatch.setattr(start.sys, "stdin", Stream())
    monkeypatch.setattr(start.sys, "stdout", Stream())
    monkeypatch.setattr(start.sys, "platform", "linux")
    for name in ("DISPLAY", "WAYLAND_DISPLAY", "WSL_DISTRO_NAME"):
        monkeypatch.delenv(name, raising=False)
    if screen:
        monkeypatch.setenv("DISPLAY", ":0")
    assert start.somebody_looks() is looks
