"""The logbook file: appended, cut at every byte, corrected with the old value kept."""

import errno
import os
import signal
import subprocess
import sys
import tomllib

import pytest

from foamwright.core.errors import DesignError, OutputError
from foamwright.core.journal import append_journal, read_journal
from foamwright.logbook.store import add_entry, correct_entry, log_file, read_log
from foamwright.readings import add_reading, bench_file, load_readings

DAY = "2026-05-02"


def filled(design):
    add_entry(design, "weighed", {"what": "all-up", "mass": "642 g"}, when=DAY)
    add_entry(design, "measured", {"what": "cg", "value": "221 mm"}, when=DAY)
    said = {"minutes": "7.5", "back": "640 mAh", "launch": "flew", "note": 'höher, "sank" not'}
    add_entry(design, "flight", said, when=DAY)
    return log_file(design)


def test_kept_and_read_again(tmp_path):
    design = tmp_path / "cob.toml"
    filled(design)
    weighed, cg, flight = read_log(design).entries
    assert weighed.values["mass"] == pytest.approx(0.642)
    assert cg.values["value"] == pytest.approx(0.221)
    assert flight.values["minutes"] == pytest.approx(450.0)
    assert flight.values["back"] == pytest.approx(0.640 * 3600)
    assert flight.said["launch"] == "flew"
    assert flight.said["note"] == 'höher, "sank" not'
    assert [entry.number for entry in read_log(design).entries] == [1, 2, 3]
    assert read_log(design).notes == ()


def test_what_stands_before_is_not_touched(tmp_path):
    design = tmp_path / "cob.toml"
    before = filled(design).read_bytes()
    add_entry(design, "note", {"note": "dew"})
    assert log_file(design).read_bytes().startswith(before)


def test_cut_at_every_byte_everything_before_survives(tmp_path):
    design = tmp_path / "cob.toml"
    whole = filled(design).read_bytes()
    full = read_log(design).entries
    # Where each entry's last line ends: an entry is whole once that line is.
    ends = [i + 15 for i in range(len(whole)) if whole.startswith(b"written = true\n", i)]
    assert len(ends) == 3
    for cut in range(len(whole) + 1):
        log_file(design).write_bytes(whole[:cut])
        sure = sum(end <= cut for end in ends)
        kept = read_log(design).entries
        assert kept[:sure] == full[:sure]
        add_entry(design, "repair", {"what": "nose", "mass": "9 g"}, when=DAY)
        tomllib.loads(log_file(design).read_text("utf-8"))
        healed = read_log(design).entries
        assert healed[:sure] == full[:sure]
        assert healed[-1].said == {"what": "nose", "mass": "9 g"}
        # A value cut in the middle is never taken for a whole one.
        for entry in healed[sure:-1]:
            assert entry.said.items() <= full[entry.number - 1].said.items()


def test_a_cut_line_is_told(tmp_path):
    design = tmp_path / "cob.toml"
    file = filled(design)
    file.write_bytes(file.read_bytes()[:-60])
    notes = " ".join(read_log(design).notes)
    assert "The last line was cut off" in notes
    assert "may have been cut short" in notes


def test_killed_while_writing(tmp_path):
    """A process that does nothing but append, killed at some moment."""
    design = tmp_path / "cob.toml"
    script = (
        "import sys, pathlib\nfrom foamwright.logbook.store import add_entry\n"
        "print('ready', flush=True)\n"
        "while True: add_entry(pathlib.Path(sys.argv[1]), 'note', {'note': 'x' * 200})"
    )
    process = subprocess.Popen([sys.executable, "-c", script, str(design)], stdout=subprocess.PIPE)
    assert process.stdout.readline().strip() == b"ready"
    while not log_file(design).exists() or log_file(design).stat().st_size < 3000:
        assert process.poll() is None
    process.send_signal(signal.SIGKILL)
    process.wait()
    process.stdout.close()
    count = len(read_log(design).entries)
    assert count >= 5
    add_entry(design, "note", {"note": "after"})
    assert read_log(design).entries[-1].said["note"] == "after"


def test_a_full_disk_leaves_the_file_as_it_was(tmp_path, monkeypatch):
    design = tmp_path / "cob.toml"
    before = filled(design).read_bytes()
    write = os.write

    def some(handle, data):
        if len(data) > 20:
            return write(handle, data[:20])
        raise OSError(errno.ENOSPC, "No space left on device")

    monkeypatch.setattr(os, "write", some)
    with pytest.raises(OutputError, match="the disk is full"):
        add_entry(design, "note", {"note": "a note longer than what is left on the disk"})
    monkeypatch.undo()
    assert log_file(design).read_bytes() == before


def test_a_correction_keeps_the_old_value(tmp_path):
    design = tmp_path / "cob.toml"
    before = filled(design).read_bytes()
    entry = correct_entry(design, 1, key="mass", value="652 g", why="pack was not in")
    assert entry.values["mass"] == pytest.approx(0.652)
    assert (entry.corrections[0].old, entry.corrections[0].new) == ("642 g", "652 g")
    assert entry.corrections[0].why == "pack was not in"
    assert log_file(design).read_bytes().startswith(before)
    again = correct_entry(design, 1, key="mass", value="650 g")
    assert [made.old for made in again.corrections] == ["642 g", "652 g"]
    assert read_log(design).entries[0].values["mass"] == pytest.approx(0.650)


@pytest.mark.parametrize(
    ("number", "key", "value", "match"),
    [
        (9, "mass", "1 g", "there is no such entry"),
        (1, "mass", "heavy", "weighed.mass"),
        (1, "span", "1 m", "the keys of 'weighed' are"),
    ],
)
def test_a_correction_that_is_refused_writes_nothing(tmp_path, number, key, value, match):
    design = tmp_path / "cob.toml"
    before = filled(design).read_bytes()
    with pytest.raises(DesignError, match=match):
        correct_entry(design, number, key=key, value=value)
    assert log_file(design).read_bytes() == before


@pytest.mark.parametrize(
    ("kind", "said", "match"),
    [
        ("weighed", {"what": "wing"}, "weighed.mass is missing"),
        ("weighed", {"what": "wing", "mass": "212"}, "weighed.mass"),
        ("measured", {"what": "colour", "value": "2 mm"}, "measured.what"),
        ("measured", {"what": "cg", "value": "2 deg"}, "measured.value"),
        ("flight", {"launch": "well"}, "the answers are flew, sank"),
        ("flight", {"minutes": "a few"}, "flight.minutes"),
        ("party", {}, "the kinds are"),
    ],
)
def test_words_that_cannot_be_read(tmp_path, kind, said, match):
    design = tmp_path / "cob.toml"
    with pytest.raises(DesignError, match=match):
        add_entry(design, kind, said)
    assert not log_file(design).exists()


def test_a_person_may_write_in_it(tmp_path):
    design = tmp_path / "cob.toml"
    file = filled(design)
    file.write_text(
        file.read_text("utf-8") + '\n# hot day\n[[entry]]\nkind = "weighed"\nwhat = "wing"\n'
        'mass = "212 g"\n', "utf-8"
    )  # fmt: skip
    assert read_log(design).of("weighed", "wing")[0].values["mass"] == pytest.approx(0.212)
    add_entry(design, "note", {"note": "more"})
    assert "# hot day" in file.read_text("utf-8")
    assert len(read_log(design).entries) == 5


def test_throws_are_lengths_or_angles(tmp_path):
    design = tmp_path / "cob.toml"
    what = "throw elevator up"
    first = add_entry(design, "measured", {"what": what, "value": "12 mm"})
    second = add_entry(design, "measured", {"what": what, "value": "12 deg"})
    assert first.values["value"] == pytest.approx(0.012)
    assert second.values["value"] == pytest.approx(0.20944, rel=1e-4)


def test_bench_readings_survive_a_cut_too(tmp_path):
    design = tmp_path / "cob.toml"
    add_reading(design, {"amps": "14 A"})
    add_reading(design, {"amps": "15 A"})
    file = bench_file(design)
    file.write_bytes(file.read_bytes()[:-4])
    assert load_readings(design)[0].current == pytest.approx(14.0)
    add_reading(design, {"amps": "16 A"})
    assert [r.current for r in load_readings(design)] == [14.0, None, 16.0]


def test_a_journal_that_is_not_there_is_empty(tmp_path):
    assert read_journal(tmp_path / "a.toml").text == ""
    append_journal(tmp_path / "a.toml", "x = 1", head="# head")
    assert (tmp_path / "a.toml").read_text() == "# head\n\nx = 1\n"
