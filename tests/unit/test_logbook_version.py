"""The next version: numbered on, old untouched, whole or not at all, reasons beside the values."""

import errno
import os
import shutil
import tomllib
from pathlib import Path

import pytest

import foamwright
from foamwright.aero.learned import with_drag_factor
from foamwright.core.errors import OutputError
from foamwright.logbook.family import changed_keys, family_of, parts_again
from foamwright.logbook.model import Log
from foamwright.logbook.store import entry_of
from foamwright.logbook.version import next_file, propose_version, write_version

EXAMPLES = Path(__file__).parents[2] / "examples"


@pytest.fixture
def mine(tmp_path):
    file = tmp_path / "brindle-cob.toml"
    shutil.copy(EXAMPLES / file.name, file)
    return foamwright.load(file)


def log_of(*said):
    return Log(tuple(entry_of(k, words, number=i) for i, (k, words) in enumerate(said, 1)))


@pytest.mark.parametrize(
    ("before", "after", "number"),
    [("cob.toml", "cob-2.toml", 2), ("cob-2.toml", "cob-3.toml", 3),
     ("cob-9.toml", "cob-10.toml", 10), ("a-b.toml", "a-b-2.toml", 2)],
)  # fmt: skip
def test_versions_are_numbered_on(before, after, number):
    assert next_file(Path(before)) == (Path(after), number)


def test_nothing_known_changes_nothing(mine):
    version = propose_version(mine, Log(), mend=False)
    assert version.changes == ()
    assert tomllib.loads(version.text)["name"] == "Brindle Cob, version 2"
    assert changed_keys(mine.design, version.after.design) == ()


def test_what_was_weighed_becomes_data(mine):
    heavy = 1000 * mine.balance.all_up_mass + 60
    version = propose_version(
        mine,
        log_of(("weighed", {"what": "all-up", "mass": f"{heavy:.0f} g"}),
               ("weighed", {"what": "sheet", "mass": "130 g"})),
        mend=False,
    )  # fmt: skip
    found = {key: value for change in version.changes for key, value in change.values.items()}
    assert found["learned.mass"] == pytest.approx(0.060, abs=0.004)
    assert found["board.mass"] == pytest.approx(0.130, rel=1e-3)
    written = tomllib.loads(version.text)
    assert written["board"]["mass"] == "4.586 oz"  # an inch plane; 130 g / 28.35 g
    assert "# Why: learned: heavier than computed" in version.text
    assert len(written["learned"]["mass"]) <= len("12.34 oz")  # as a scale shows it


def test_a_change_can_be_left_out(mine):
    log = log_of(("weighed", {"what": "all-up", "mass": "760 g"}))
    assert propose_version(mine, log, leave_out=[1], mend=False).changes == ()


def test_the_old_file_and_a_file_that_is_there_are_safe(mine):
    before = mine.path.read_bytes()
    version = propose_version(mine, Log(), mend=False)
    file = write_version(version)
    assert file.name == "brindle-cob-2.toml"
    assert mine.path.read_bytes() == before
    kept = file.read_bytes()
    with pytest.raises(OutputError, match=r"brindle-cob-2\.toml"):
        write_version(version)
    assert file.read_bytes() == kept
    line = family_of(foamwright.load(file), foamwright.load)
    assert [one.file.name for one in line] == ["brindle-cob.toml", "brindle-cob-2.toml"]
    assert line[1].changed == ()


def test_a_full_disk_leaves_nothing(mine, monkeypatch):
    version = propose_version(mine, Log(), mend=False)

    def full(*_):
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(OutputError, match="disk is full"):
        write_version(version)
    assert sorted(path.name for path in mine.path.parent.iterdir()) == ["brindle-cob.toml"]


def test_comments_and_order_are_kept(mine):
    heavy = 1000 * mine.balance.all_up_mass + 60
    log = log_of(("weighed", {"what": "all-up", "mass": f"{heavy:.0f} g"}))
    text = propose_version(mine, log, mend=False).text
    old = [line for line in mine.path.read_text(encoding="utf-8").splitlines()
           if line.startswith("#") or line.startswith("[")]  # fmt: skip
    new = iter(text.splitlines())
    assert all(line in new for line in old)  # each, in the same order


def test_a_learned_drag_costs_glide(mine):
    """CD0 up by a fifth: best L/D falls by sqrt(1.2) where there is no bucket and no stall."""
    dirty = mine.with_values({"learned.drag": 1.2})
    assert dirty.aero.drag_zero == pytest.approx(1.2 * mine.aero.drag_zero)
    total = sum(item.coefficient for item in dirty.aero.drag_items)
    assert total == pytest.approx(dirty.aero.drag_zero, rel=1e-9)
    assert 1.0 < mine.aero.max_lift_drag / dirty.aero.max_lift_drag < 1.2
    assert with_drag_factor(mine.aero, 1.0) is mine.aero
    assert dirty.flight.performance.glide_ratio < mine.flight.performance.glide_ratio


def test_learned_mass_cg_thrust_and_current_reach_the_rooms(mine):
    learned = mine.with_values(
        {"learned.mass": 0.03, "learned.cg": 0.004, "learned.thrust": 0.9, "learned.current": 1.1}
    )
    assert learned.balance.all_up_mass == pytest.approx(mine.balance.all_up_mass + 0.03)
    assert learned.balance.cg[0] == pytest.approx(mine.balance.cg[0] + 0.004)
    assert learned.power.static_thrust < mine.power.static_thrust
    assert learned.aero.static_margin < mine.aero.static_margin


def test_parts_that_are_alike_are_used_again(mine):
    wider = mine.with_values({"stab.span": mine.design.stab.span + 0.03})
    again = parts_again(mine, wider)
    assert any("stab" in name for name in again.new)
    assert not any("wing skin" in name for name in again.new)
    assert len(again.same) > len(again.new)
