"""From a bench to sheets: wishes, search, design, checks, cut sheets, and back to the search."""

import json
import os
import signal
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
WISHES = ROOT / "examples" / "wishes" / "ostermyr.toml"
COMMON = ("--jobs", "2", "--seed", "4", "--proposals", "1")

pytestmark = pytest.mark.slow


def command(*words):
    return [sys.executable, "-m", "foamwright", *map(str, words)]


def foamwright(*words, folder):
    done = subprocess.run(
        command(*words), cwd=folder, capture_output=True, text=True, encoding="utf-8", check=False
    )
    assert "Traceback" not in done.stderr + done.stdout
    return done


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    made = tmp_path_factory.mktemp("bench")
    text = WISHES.read_text(encoding="utf-8") + 'share_least = "25 %"\n'
    (made / "meadow.toml").write_text(text, encoding="utf-8")
    return made


@pytest.fixture(scope="module")
def searched(folder):
    """A search of five minutes, stopped by Ctrl-C as soon as something was found."""
    running = subprocess.Popen(
        command("idea", "meadow.toml", "--seconds", "300", *COMMON),
        cwd=folder,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        encoding="utf-8",
    )
    assert running.stderr is not None
    told = ""
    while "best so far" not in told:
        line = running.stderr.readline()
        assert line, told
        told += line
    if os.name == "nt":
        running.kill()
        pytest.skip("Ctrl-C reaches a process otherwise there")
    running.send_signal(signal.SIGINT)
    out, err = running.communicate(timeout=300)
    return running.returncode, out, told + err


def test_ctrl_c_draws_up_what_was_found(searched, folder):
    code, out, told = searched
    assert code == 0, told
    assert "stopping after this generation" in told
    assert "Traceback" not in told
    assert "planes computed" in out
    assert "builds that pass" in out
    assert "good:" in out
    assert (folder / "meadow-ideas" / "A.svg").read_text(encoding="utf-8").startswith("<?xml")


def test_the_design_passes_its_checks(searched, folder):
    assert searched[0] == 0
    done = foamwright("check", "meadow-ideas/A.toml", "--json", folder=folder)
    assert done.returncode == 0, done.stdout
    assert json.loads(done.stdout)["checks"]


def test_sheets_are_cut_from_it(searched, folder):
    assert searched[0] == 0
    words = ("sheets", "meadow-ideas/A.toml", "--draft", "--format", "svg", "--out", "cut")
    done = foamwright(*words, folder=folder)
    assert done.returncode == 0, done.stderr
    assert list((folder / "cut").glob("*.svg"))


def test_designs_that_are_there_are_kept_and_the_search_goes_on(searched, folder):
    assert searched[0] == 0
    again = foamwright("idea", "meadow.toml", *COMMON, folder=folder)
    assert again.returncode == 2
    assert "add --overwrite or --go-on" in again.stderr
    kept = folder / "meadow-ideas" / "search.json"
    before = json.loads(kept.read_text(encoding="utf-8"))
    words = ("idea", "meadow.toml", "--generations", "1", "--go-on", "--no-pictures", *COMMON)
    on = foamwright(*words, folder=folder)
    assert on.returncode == 0, on.stderr
    after = json.loads(kept.read_text(encoding="utf-8"))
    assert after["generation"] == before["generation"] + 1
    assert after["evaluations"] > before["evaluations"]
