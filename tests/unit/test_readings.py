"""Bench readings in and out of their file."""

import math

import pytest

from foamwright.core.errors import DesignError, DesignErrors
from foamwright.readings import (
    add_reading,
    bench_file,
    load_readings,
    reading_of,
    take_readings_along,
)


def test_words_become_si():
    reading = reading_of(
        {"volts": "11.2 V", "amps": "14 A", "rpm": "8200", "thrust": "620 g", "throttle": "60 %"}
    )
    assert reading.voltage == pytest.approx(11.2)
    assert reading.current == pytest.approx(14.0)
    assert reading.speed == pytest.approx(8200 * math.pi / 30)
    assert reading.thrust == pytest.approx(0.620 * 9.80665)
    # stick 0.525 to 1 is duty 0.556 to 1: 0.556 + 0.075/0.475 * 0.444
    assert reading.throttle == pytest.approx(0.6261, abs=1e-4)
    assert reading.propeller


def test_thrust_may_be_a_force():
    assert reading_of({"thrust": "6 N"}).thrust == pytest.approx(6.0)


@pytest.mark.parametrize(
    ("words", "match"),
    [
        ({"ohms": "3 ohm"}, "reading.ohms is 3 ohm; the keys of a reading are when, parts, volts"),
        ({"rpm": "many"}, 'reading.rpm is "many"; it must be a number'),
        ({"amps": "14 V"}, "reading.amps"),
        ({"volts": "11"}, "reading.volts"),
    ],
)
def test_refused(words, match):
    with pytest.raises(DesignError, match=match):
        reading_of(words)


def test_added_and_read_again(tmp_path):
    design = tmp_path / "cob.toml"
    add_reading(design, {"when": "2026-05-02", "volts": "11.2 V", "amps": "14 A"})
    written = add_reading(design, {"rpm": 8200, "propeller": False})
    assert written == bench_file(design) == tmp_path / "cob.bench.toml"
    first, second = load_readings(design)
    assert (first.voltage, first.current) == (11.2, 14.0)
    assert second.speed == pytest.approx(8200 * math.pi / 30)
    assert not second.propeller


def test_readings_of_other_parts_are_left_out(tmp_path):
    design = tmp_path / "cob.toml"
    mine, other = ("m", "3 cells", "electric 9x6x2"), ("m", "3 cells", "electric 8x4x2")
    add_reading(design, {"amps": "14 A", "parts": "; ".join(mine)})
    add_reading(design, {"amps": "9 A", "parts": "; ".join(other)})
    add_reading(design, {"amps": "0.7 A", "parts": "; ".join(other), "propeller": False})
    add_reading(design, {"amps": "15 A"})
    assert [r.current for r in load_readings(design, parts=mine)] == [14.0, 0.7, 15.0]
    assert len(load_readings(design)) == 4


def test_comments_of_the_builder_stay(tmp_path):
    design = tmp_path / "cob.toml"
    add_reading(design, {"amps": "14 A"})
    file = bench_file(design)
    file.write_text(file.read_text("utf-8") + "# cold day\n", "utf-8")
    add_reading(design, {"amps": "15 A"})
    assert "# cold day" in file.read_text("utf-8")
    assert [reading.current for reading in load_readings(design)] == [14.0, 15.0]


@pytest.mark.parametrize(
    ("text", "match"),
    [
        ("[[reading]\n", "it is not TOML"),
        ("speed = 3\n", "something besides"),
        ('[[reading]]\namps = "x"\n', r"reading 1\.amps"),
    ],
)
def test_spoilt_file(tmp_path, text, match):
    bench_file(tmp_path / "cob.toml").write_text(text, "utf-8")
    with pytest.raises((DesignError, DesignErrors), match=match):
        load_readings(tmp_path / "cob.toml")


def test_nothing_is_written_when_the_words_are_wrong(tmp_path):
    with pytest.raises(DesignError):
        add_reading(tmp_path / "cob.toml", {"amps": "many"})
    assert list(tmp_path.iterdir()) == []


def test_the_next_version_keeps_what_the_bench_taught(tmp_path):
    old, new = tmp_path / "cob.toml", tmp_path / "cob-2.toml"
    add_reading(old, {"amps": "12 A"})
    assert take_readings_along(old, new) == tmp_path / "cob-2.bench.toml"
    assert load_readings(new) == load_readings(old)
    add_reading(new, {"amps": "13 A"})
    assert take_readings_along(old, new) is None  # what was read on the new one stays
    assert len(load_readings(new)) == 2
