"""A builder on the command line: example, check, sheets, a plane of one's own."""

import json
import math
import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

import foamwright as foamwright_package
from foamwright.checks.run import verdicts

ROOT = Path(__file__).parents[2]
EXAMPLES = sorted((ROOT / "examples").glob("*.toml"))
COB = ROOT / "examples" / "brindle-cob.toml"
CHECK_KEYS = {
    "id", "title", "verdict", "value", "unit", "low", "high", "margin", "why", "source", "place",
    "changes",
}  # fmt: skip
RESULTS = {
    "balance": {"all_up_mass", "cg_x", "cg_low", "cg_high"},
    "aero": {
        "wing_area", "mean_chord", "neutral_point_x", "static_margin", "lift_slope", "stall_speed",
        "max_lift_drag",
    },
    "power": {"static_thrust", "full_throttle_current", "full_throttle_power"},
    "flight": {"level_speed", "level_throttle", "climb_rate", "endurance"},
    "strength": {"limit_load_factor", "first_failure"},
    "sheets": {"boards_used", "fill"},
}  # fmt: skip


def foamwright(*words, folder):
    """Run the command in a process of its own, as a builder does."""
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
def answers(tmp_path_factory):
    folder = tmp_path_factory.mktemp("check")
    done = foamwright("check", *EXAMPLES, "--json", folder=folder)
    assert done.returncode in (0, 1), done.stderr
    return json.loads(done.stdout), done.returncode


def test_there_are_examples():
    assert len(EXAMPLES) >= 3


def test_all_examples_are_checked_in_one_go(answers):
    planes, code = answers
    assert len(planes) == len(EXAMPLES)
    verdicts = {check["verdict"] for plane in planes for check in plane["checks"]}
    assert verdicts <= {"holds", "close", "fails", "cannot say"}
    assert code == int("fails" in verdicts)


def test_every_check_has_all_it_promises(answers):
    for plane in answers[0]:
        assert plane["plane"]
        assert isinstance(plane["defaults_used"], list)
        assert len(plane["checks"]) >= 30
        for check in plane["checks"]:
            assert set(check) == CHECK_KEYS
            assert check["why"], check["id"]
            assert check["source"], check["id"]
            assert check["place"], check["id"]
        assert len({check["id"] for check in plane["checks"]}) == len(plane["checks"])


def test_failing_checks_come_with_a_solved_change(answers):
    findings = [c for plane in answers[0] for c in plane["checks"] if c["verdict"] == "fails"]
    assert sum(bool(check["changes"]) for check in findings) >= len(findings) / 2
    for change in [change for check in findings for change in check["changes"]]:
        assert change["words"]
        assert change["values"]


def test_results_are_there_and_finite(answers):
    for plane in answers[0]:
        for room, keys in RESULTS.items():
            assert keys <= set(plane["results"][room]), room
            for key in keys - {"first_failure"}:
                value = plane["results"][room][key]
                assert value is not None, f"{plane['plane']}: {room}.{key}"
                assert math.isfinite(value), f"{plane['plane']}: {room}.{key}"


def test_one_file_gives_one_object_and_its_exit_code(tmp_path):
    done = foamwright("check", COB, "--json", folder=tmp_path)
    answer = json.loads(done.stdout)
    assert {"plane", "defaults_used", "checks", "results"} <= set(answer)
    assert done.returncode == int(any(c["verdict"] == "fails" for c in answer["checks"]))


def test_the_report_is_for_people(tmp_path):
    done = foamwright("check", COB, folder=tmp_path)
    assert "Brindle Cob" in done.stdout
    assert "Holds:" in done.stdout
    assert "Defaults used" in done.stdout
    assert done.stdout.count("Cautions:") == 1
    full = foamwright("check", COB, "--all", folder=tmp_path)
    assert full.stdout.count("HOLDS") > 5
    assert "\x1b" not in done.stdout


def test_sheets_are_written_once_and_not_overwritten_silently(tmp_path):
    done = foamwright("sheets", COB, "--out", "cut", "--draft", folder=tmp_path)
    assert done.returncode == 0, done.stderr
    written = [
        Path(line.removeprefix("wrote "))
        for line in done.stdout.splitlines()
        if line.startswith("wrote")
    ]
    assert {".pdf", ".svg", ".dxf"} <= {path.suffix for path in written}
    for path in written:
        assert (tmp_path / path).stat().st_size > 500, path
    before = {path: (tmp_path / path).stat().st_mtime_ns for path in written}
    again = foamwright("sheets", COB, "--out", "cut", "--draft", folder=tmp_path)
    assert again.returncode == 2
    assert "overwrite" in again.stderr
    assert before == {path: (tmp_path / path).stat().st_mtime_ns for path in written}
    allowed = foamwright("sheets", COB, "--out", "cut", "--draft", "--overwrite", folder=tmp_path)
    assert allowed.returncode == 0, allowed.stderr


def test_boards_drawn_are_the_boards_counted(tmp_path):
    done = foamwright("sheets", COB, "--out", "cut", "--draft", "--format", "svg", folder=tmp_path)
    assert done.returncode == 0, done.stderr
    boards = list((tmp_path / "cut").glob("*board*.svg"))
    answer = json.loads(foamwright("check", COB, "--json", folder=tmp_path).stdout)
    assert len(boards) == answer["results"]["sheets"]["boards_used"]
    assert not list((tmp_path / "cut").glob("*.pdf"))


def test_a_plane_of_ones_own(tmp_path):
    made = foamwright("new", "my-plane", "--span", "1.2 m", folder=tmp_path)
    assert made.returncode == 0, made.stderr
    file = tmp_path / "my-plane.toml"
    text = file.read_text(encoding="utf-8")
    assert "#" in text
    assert foamwright("new", "my-plane", folder=tmp_path).returncode == 2
    assert file.read_text(encoding="utf-8") == text
    first = json.loads(foamwright("check", file, "--json", folder=tmp_path).stdout)
    area = first["results"]["aero"]["wing_area"]
    edited, count = re.subn(r"(?m)^(chord = )\".*?\"", r'\1"250 mm"', text, count=1)
    assert count == 1
    file.write_text(edited, encoding="utf-8")
    second = json.loads(foamwright("check", file, "--json", folder=tmp_path).stdout)
    assert second["results"]["aero"]["wing_area"] != area


def test_a_failing_plane_is_mended_by_the_changes_it_is_told():
    """Each finding of the heavy example goes away when its first change is made."""
    plane = foamwright_package.load(ROOT / "examples" / "quillon-a.toml")
    findings = [c for c in plane.checks if c.verdict == "fails" and c.changes]
    assert findings
    for finding in findings:
        mended = plane.with_values(finding.changes[0].values)
        after = {check.id: check for check in verdicts(mended)}[finding.id]
        assert after.verdict != "fails", finding.title
        assert after.margin == pytest.approx(finding.changes[0].margin, abs=0.02)


def test_show_draws_and_does_not_overwrite(tmp_path):
    for name in ("cob.svg", "cob.png", "cob.pdf"):
        done = foamwright("show", COB, "--out", name, folder=tmp_path)
        assert done.returncode == 0, done.stderr
        assert (tmp_path / name).stat().st_size > 2000
    assert foamwright("show", COB, "--out", "cob.svg", folder=tmp_path).returncode == 2
    refused = foamwright("show", COB, "--out", "cob.docx", folder=tmp_path)
    assert refused.returncode == 2
    assert ".svg" in refused.stderr


def test_parts_lists_everything_with_its_mass(tmp_path):
    done = foamwright("parts", COB, folder=tmp_path)
    assert done.returncode == 0, done.stderr
    for word in ("spar", "stab", "pack", "servo", "all-up"):
        assert word in done.stdout.lower(), word


def test_stock_is_listed_and_found(tmp_path):
    everything = foamwright("stock", folder=tmp_path)
    assert everything.returncode == 0, everything.stderr
    found = foamwright("stock", "ply", "1/8", folder=tmp_path)
    assert "birch ply 1/8 in" in found.stdout
    assert len(found.stdout) < len(everything.stdout)


def test_a_stock_file_beside_the_design_counts(tmp_path):
    shutil.copy(COB, tmp_path / "cob.toml")
    (tmp_path / "stock.toml").write_text('[board."broken', encoding="utf-8")
    done = foamwright("check", "cob.toml", folder=tmp_path)
    assert done.returncode == 2
    assert "stock.toml" in done.stderr
