"""Mistakes on purpose: one clear message each, exit code 2, no traceback, nothing half written."""

import subprocess
import sys
from pathlib import Path

import pytest

COB = Path(__file__).parents[2] / "examples" / "brindle-cob.toml"


def run(*words, folder, stdin=None):
    done = subprocess.run(
        [sys.executable, "-m", "foamwright", *map(str, words)],
        cwd=folder,
        input=stdin,
        capture_output=True,
        text=True,
        encoding="utf-8",
        check=False,
    )
    assert "Traceback" not in done.stderr + done.stdout
    return done


def changed(text, old, new):
    assert old in text
    return text.replace(old, new, 1)


def with_line(line):
    """The example with a line put under its first table."""
    return lambda text: changed(text, "[wing]\n", f"[wing]\n{line}\n")


BROKEN = {
    "empty": (b"", "empty"),
    "binary": (bytes(range(256)) * 20, ""),
    "not UTF-8": ('name = "Möwe"\n'.encode("latin-1"), "UTF-8"),
    "not TOML": (b"name = \n", ":1"),
    "a lone bracket": (b"[wing\n", ":1"),
    "huge": (b"# " + b"x" * 20_000_000, ""),
}


@pytest.mark.parametrize("mistake", BROKEN)
@pytest.mark.parametrize("verb", ["check", "sheets", "parts", "show"])
def test_broken_files(verb, mistake, tmp_path):
    contents, words = BROKEN[mistake]
    (tmp_path / "plane.toml").write_bytes(contents)
    done = run(verb, "plane.toml", folder=tmp_path)
    assert done.returncode == 2
    assert "plane.toml" in done.stderr
    assert words in done.stderr
    assert "should not have happened" not in done.stderr
    assert done.stdout == ""
    assert [path.name for path in tmp_path.iterdir()] == ["plane.toml"]


def test_a_missing_file_and_a_folder(tmp_path):
    (tmp_path / "folder.toml").mkdir()
    done = run("check", "missing.toml", "folder.toml", folder=tmp_path)
    assert done.returncode == 2
    assert "missing.toml" in done.stderr
    assert "folder" in done.stderr
    assert len(done.stderr.strip().splitlines()) == 2


EDITS = {
    "unknown key": (with_line('chrod = "8 in"'), ["chrod", "accepted"]),
    "a bare number": (with_line("height = 3"), ["wing.height", "3"]),
    "wrong unit": (with_line('height = "3 oz"'), ["wing.height", "3 oz"]),
    "unknown board": (
        lambda text: text + '\n[covering]\nstock = "gold leaf"\n',
        ["gold leaf"],
    ),
}


@pytest.mark.parametrize("mistake", EDITS)
def test_wrong_designs(mistake, tmp_path):
    edit, words = EDITS[mistake]
    text = COB.read_text(encoding="utf-8")
    if "[covering]" in edit(text)[: len(text)]:
        text = text.replace("[covering]", "[covering_of_old]")
    (tmp_path / "plane.toml").write_text(edit(text), encoding="utf-8")
    done = run("check", "plane.toml", folder=tmp_path)
    assert done.returncode == 2
    for word in ["plane.toml:", *words]:
        assert word in done.stderr


def test_all_errors_of_a_file_at_once(tmp_path):
    text = COB.read_text(encoding="utf-8")
    text = with_line('chrod = "8 in"\nheight = "3 oz"')(text)
    (tmp_path / "plane.toml").write_text(text, encoding="utf-8")
    done = run("check", "plane.toml", folder=tmp_path)
    assert done.returncode == 2
    assert "chrod" in done.stderr
    assert "3 oz" in done.stderr
    assert len(done.stderr.strip().splitlines()) >= 2


def test_a_good_file_beside_a_bad_one_is_still_checked(tmp_path):
    (tmp_path / "bad.toml").write_text("", encoding="utf-8")
    done = run("check", COB, "bad.toml", folder=tmp_path)
    assert done.returncode == 2
    assert "Brindle Cob" in done.stdout
    assert "bad.toml" in done.stderr


@pytest.mark.parametrize(
    "words",
    [
        ["chek"],
        ["check"],
        ["check", "--jsn", str(COB)],
        ["sheets", str(COB), "--paper", "a9"],
        ["sheets", str(COB), "--time", "-1"],
        ["sheets", str(COB), "--format", "dwg"],
        ["sheets", str(COB), "--printer-scale", "97"],
        ["new"],
        ["new", "x", "--span", "48"],
        ["new", "x", "--span", "-48 in"],
    ],
)
def test_wrong_calls(words, tmp_path):
    done = run(*words, folder=tmp_path)
    assert done.returncode == 2
    assert done.stderr.startswith("error: ")
    assert len(done.stderr.strip().splitlines()) <= 2
    assert list(tmp_path.iterdir()) == []


def test_an_output_folder_that_cannot_be_made(tmp_path):
    (tmp_path / "taken").write_text("a file", encoding="utf-8")
    done = run("sheets", COB, "--out", "taken", "--draft", folder=tmp_path)
    assert done.returncode == 2
    assert "taken" in done.stderr
    assert "should not have happened" not in done.stderr
    assert (tmp_path / "taken").read_text(encoding="utf-8") == "a file"


def test_an_output_in_a_folder_that_is_not_there(tmp_path):
    done = run("show", COB, "--out", "nowhere/cob.svg", folder=tmp_path)
    assert done.returncode in (0, 2)
    assert "should not have happened" not in done.stderr


def test_help_and_version(tmp_path):
    assert "new" in run("--help", folder=tmp_path).stdout
    assert run("--version", folder=tmp_path).stdout.startswith("foamwright ")
    assert run(folder=tmp_path).returncode == 2


def test_an_unexpected_error_is_one_honest_line(monkeypatch, capsys):
    from foamwright.cli import check, main

    def fail(file):
        message = "bent"
        raise ZeroDivisionError(message)

    monkeypatch.setattr(check, "open_plane", fail)
    assert main(["check", "plane.toml"]) == 2
    said = capsys.readouterr().err
    assert said.startswith("error: this should not have happened (ZeroDivisionError)")
    report = Path(said.rsplit(" in ", 1)[1].strip())
    assert "Traceback" in report.read_text(encoding="utf-8")
    report.unlink()
