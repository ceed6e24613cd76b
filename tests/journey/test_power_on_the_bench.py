"""From the choice of a propeller over a bench run to sharper figures of the same plane."""

import shutil
from pathlib import Path

import pytest

import foamwright
from foamwright.cli import main
from foamwright.power.operate import operate

EXAMPLE = Path(__file__).parents[2] / "examples" / "tansy-drift.toml"


@pytest.fixture
def design(tmp_path):
    return Path(shutil.copy(EXAMPLE, tmp_path / "drift.toml"))


def test_choice_of_a_propeller(design, capsys):
    assert main(["prop", str(design)]) == 0
    said = capsys.readouterr().out
    assert "thrust/weight" in said
    assert "Fall out:" in said
    assert "the motor stands" in said
    assert "The charger puts back about" in said
    assert "First flight: timer" in said
    assert "Propeller last" in said


def test_choice_among_what_is_on_the_bench(design, capsys):
    names = ["electric 8x4", "slow flight 9x4.7x3"]
    assert main(["prop", str(design), *(x for n in names for x in ("--have", n))]) == 0
    said = capsys.readouterr().out
    assert all(name in said for name in names)
    assert "sport" not in said


def test_a_cold_old_pack_gives_less(design, capsys):
    def amps(*words):
        assert main(["prop", str(design), "--have", "electric 9x6", *words]) == 0
        said = capsys.readouterr().out
        assert "Best glide with the throttle closed" in said
        return float(next(x for x in said.splitlines() if x.startswith("electric 9x6")).split()[3])

    assert amps("--pack-at", "0 degC", "--cycles", "200") < amps()
    assert main(["prop", str(design), "--pack-at", "-40 degC"]) == 2
    assert "it must be -20 to 60 °C" in capsys.readouterr().err


def test_unknown_propeller(design, capsys):
    assert main(["prop", str(design), "--have", "nine by six"]) == 2
    assert 'propeller is "nine by six"' in capsys.readouterr().err


@pytest.mark.parametrize(("flag", "word"), [("--packs", "cells"), ("--motors", "outrunner")])
def test_choice_of_pack_and_motor(design, capsys, flag, word):
    assert main(["prop", str(design), flag, "--by", "endurance"]) == 0
    assert word in capsys.readouterr().out


@pytest.mark.parametrize("suffix", ["svg", "png"])
def test_picture(design, tmp_path, capsys, suffix):
    picture = tmp_path / f"drift.{suffix}"
    assert main(["prop", str(design), "--plot", str(picture)]) == 0
    first = picture.read_bytes()
    assert 5_000 < len(first) < 200_000
    assert main(["prop", str(design), "--plot", str(picture)]) == 2  # it is there already
    assert "exists already" in capsys.readouterr().err
    assert main(["prop", str(design), "--plot", str(picture), "--overwrite"]) == 0
    assert picture.read_bytes() == first


def test_bench_run_sharpens_the_plane(design, capsys):
    plane = foamwright.load(design)
    before = plane.power
    point = operate(plane.train, 0.0, 1.0, density=plane.air.density, depth_of_discharge=0.0)
    words = [
        "--volts", f"{point.voltage - 0.1:.2f} V", "--amps", f"{0.9 * point.current:.1f} A",
        "--rpm", f"{0.98 * point.speed * 9.5493:.0f}", "--thrust", f"{95 * point.thrust:.0f} g",
        "--rest", "12.5 V",
    ]  # fmt: skip
    assert main(["bench", str(design), *words]) == 0
    said = capsys.readouterr().out
    assert "Propeller last" in said
    assert "Charge LiPo packs attended" in said
    assert "What to read next" in said
    assert design.with_name("drift.bench.toml").exists()
    after = foamwright.load(design).power
    assert after.full_throttle_current < before.full_throttle_current
    wide, narrow = (r.static_thrust_band.high - r.static_thrust_band.low for r in (before, after))
    assert narrow < 0.7 * wide
    assert main(["prop", str(design)]) == 0
    assert "Bench readings kept beside the design are used" in capsys.readouterr().out


def test_another_propeller_keeps_what_was_learnt_of_the_motor(design):
    plane = foamwright.load(design)
    amps = f"{0.9 * plane.power.full_throttle_current} A"
    assert main(["bench", str(design), "--amps", amps]) == 0
    learnt = foamwright.load(design)
    assert learnt.with_values({"pack.position": 0.11}).train == learnt.train
    other = learnt.with_values({"propeller.diameter": 0.18}).train
    assert other.motor == learnt.train.motor != plane.train.motor
    assert other.propeller.thrust_scale == 1.0 != learnt.train.propeller.thrust_scale


def test_readings_are_left_aside_when_the_design_names_other_parts(design, capsys):
    amps = f"{0.9 * foamwright.load(design).power.full_throttle_current} A"
    assert main(["bench", str(design), "--amps", amps]) == 0
    assert foamwright.load(design).learnt is not None
    text = design.read_text("utf-8")
    assert text.count("[pack]") == 1
    head, tail = text.split("[pack]")
    cells = "cells = 3" if "cells = 3" in tail else "cells = 2"
    other = "cells = 2" if cells.endswith("3") else "cells = 3"
    design.write_text(head + "[pack]" + tail.replace(cells, other, 1), "utf-8")
    assert foamwright.load(design).learnt is None
    capsys.readouterr()
    assert main(["bench", str(design)]) == 0
    assert "1 readings were taken with other parts" in capsys.readouterr().out


def test_contradiction_is_not_kept(design, capsys):
    assert main(["bench", str(design), "--amps", "2 A", "--rpm", "30000"]) == 1
    said = capsys.readouterr().out
    assert "the rpm are" in said
    assert "Not kept" in said
    assert not design.with_name("drift.bench.toml").exists()


def test_no_reading_yet_and_a_wrong_one(design, capsys):
    assert main(["bench", str(design)]) == 0
    assert "No reading is kept yet" in capsys.readouterr().out
    assert main(["bench", str(design), "--amps", "-3 A"]) == 2
    assert "must be above zero" in capsys.readouterr().err
