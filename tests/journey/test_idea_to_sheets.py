"""From a bench to sheets: wishes, search, design, checks, cut sheets, and back to the search."""

import json
import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
WISHES = ROOT / "examples" / "wishes" / "ostermyr.toml"
SEARCH = ("--jobs", "1", "--generations", "1", "--seed", "4", "--proposals", "2")


def foamwright(*words, folder):
    done = subprocess.run(
        [sys.executable, "-m", "foamwright", *map(str, words)],
        cwd=folder,
        capture_output=True,
        text=True,
        encoding="utf-8",
        check=False,
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
    return foamwright("idea", "meadow.toml", *SEARCH, folder=folder)


@pytest.mark.slow
def test_proposals_are_shown_and_written(searched, folder):
    assert searched.returncode == 0, searched.stderr
    assert "planes computed" in searched.stdout
    assert "builds that pass" in searched.stdout
    assert "good:" in searched.stdout
    assert (folder / "meadow-ideas" / "A.toml").exists()
    assert (folder / "meadow-ideas" / "A.svg").read_text(encoding="utf-8").startswith("<?xml")


@pytest.mark.slow
def test_every_design_passes_its_checks(searched, folder):
    for file in sorted((folder / "meadow-ideas").glob("[A-G].toml")):
        done = foamwright("check", file, "--json", folder=folder)
        assert done.returncode == 0, (file.name, searched.stdout)
        assert json.loads(done.stdout)["checks"]


@pytest.mark.slow
def test_sheets_are_cut_from_it(searched, folder):
    assert searched.returncode == 0
    done = foamwright(
        "sheets", "meadow-ideas/A.toml", "--draft", "--format", "svg", "--out", "cut",
        folder=folder,
    )  # fmt: skip
    assert done.returncode == 0, done.stderr
    assert list((folder / "cut").glob("*.svg"))


@pytest.mark.slow
def test_designs_that_are_there_are_kept_and_the_search_goes_on(searched, folder):
    assert searched.returncode == 0
    again = foamwright("idea", "meadow.toml", *SEARCH, folder=folder)
    assert again.returncode == 2
    assert "add --overwrite or --go-on" in again.stderr
    before = json.loads((folder / "meadow-ideas" / "search.json").read_text(encoding="utf-8"))
    on = foamwright(
        "idea", "meadow.toml", "--jobs", "1", "--generations", "1", "--go-on", "--no-pictures",
        "--proposals", "1",
        folder=folder,
    )  # fmt: skip
    assert on.returncode == 0, on.stderr
    after = json.loads((folder / "meadow-ideas" / "search.json").read_text(encoding="utf-8"))
    assert after["generation"] == before["generation"] + 1
    assert after["evaluations"] > before["evaluations"]


@pytest.mark.slow
@pytest.mark.skipif(os.name == "nt", reason="Ctrl-C reaches a process otherwise there")
def test_ctrl_c_draws_up_what_was_found(folder):
    running = subprocess.Popen(
        [sys.executable, "-m", "foamwright", "idea", "meadow.toml", "--seconds", "300",
         "--jobs", "2", "--out", "stopped", "--no-pictures", "--seed", "4", "--proposals", "1"],
        cwd=folder, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True,
    )  # fmt: skip
    seen = [running.stderr.readline()]  # the first generation is done
    while "best so far" not in seen[-1] and len(seen) < 40:
        seen.append(running.stderr.readline())
    begin = time.monotonic()
    running.send_signal(signal.SIGINT)
    out, err = running.communicate(timeout=120)
    assert time.monotonic() - begin < 120
    assert running.returncode == 0, err
    assert "stopping after this generation" in err
    assert "Traceback" not in err
    assert "planes computed" in out
    assert (folder / "stopped" / "A.toml").exists()
