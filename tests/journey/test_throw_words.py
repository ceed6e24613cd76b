"""Throwing a plane from the command line: words, data, pictures, and what makes no sense."""

import json
import shutil
from pathlib import Path

import pytest

from foamwright.cli import main

EXAMPLE = Path(__file__).parents[2] / "examples" / "quillon-b.toml"


@pytest.fixture
def design(tmp_path):
    return Path(shutil.copy(EXAMPLE, tmp_path / "quillon.toml"))


def test_throws_are_told_in_words(design, capsys):
    assert main(["throw", str(design), "--throws", "60", "--quick"]) == 0
    said = " ".join(capsys.readouterr().out.split())
    assert "60 throws at" in said
    assert "95 % interval" in said
    assert "how it ends share" in said
    assert "short of its stall speed" in said or "above its stall speed" in said
    assert "usual wind" in said
    assert "no clearance to fly near people" in said


def test_what_suits_and_what_helps(design, capsys, monkeypatch):
    monkeypatch.setattr("foamwright.cli.throw.TRIED", 20)
    assert main(["throw", str(design), "--throws", "40", "--throttle", "40"]) == 0
    said = " ".join(capsys.readouterr().out.split())
    assert "Best for this plane, each alone: throttle" in said
    assert "What helps, each alone" in said
    assert "then fly away" in said


def test_data_for_programs(design, capsys):
    words = ["throw", str(design), "--throws", "40", "--quick", "--json", "--seed", "5"]
    found = []
    for _ in range(2):
        assert main(words) == 0
        found.append(json.loads(capsys.readouterr().out))
    assert found[0] == found[1]
    story = found[0]["story"]
    assert 0.0 <= story["low"] <= story["share"] <= story["high"] <= 1.0
    assert sum(end["count"] for end in story["ends"]) == 40
    assert "no clearance" in found[0]["caution"]


def test_a_glide_toss_is_called_one(design, capsys):
    assert main(["throw", str(design), "--throws", "40", "--quick", "--throttle", "0"]) == 0
    assert "A glide toss" in capsys.readouterr().out


@pytest.mark.parametrize("kind", ["paths", "height", "map"])
def test_pictures(design, tmp_path, capsys, monkeypatch, kind):
    monkeypatch.setattr("foamwright.cli.throw.MAPPED", 2)
    picture = tmp_path / f"{kind}.svg"
    words = ["throw", str(design), "--throws", "20", "--quick", "--plot", kind, str(picture)]
    assert main(words) == 0
    assert f"wrote {picture}" in capsys.readouterr().out
    text = picture.read_text(encoding="utf-8")
    assert "<svg" in text
    assert main(words) == 2
    assert "--overwrite" in capsys.readouterr().err


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["--speed", "40 m/s"], "5 to 8 m/s standing"),
        (["--wind", "20 m/s"], "more than this plane flies"),
        (["--angle", "80 deg"], "makes no sense"),
        (["--throttle", "120"], "--throttle"),
        (["--throws", "3"], "--throws"),
        (["--speed", "fast"], "--speed"),
        (["--plot", "paths", "x.docx"], ".svg, .png, .pdf"),
    ],
)
def test_what_makes_no_sense_is_said(design, capsys, words, said):
    assert main(["throw", str(design), "--quick", *words]) == 2
    assert said in capsys.readouterr().err


def test_a_design_without_a_pack_is_told_so(design, capsys):
    text = design.read_text(encoding="utf-8")
    start = text.index("[pack]")
    end = text.index("\n[", start)
    design.write_text(text[:start] + text[end:], encoding="utf-8")
    assert main(["throw", str(design), "--quick"]) == 2
    assert "pack" in capsys.readouterr().err
