"""From a design to its book, a weigh-in, flights, a fly-by heard and kept."""

import shutil
from pathlib import Path

import av
import numpy as np
import pytest

from foamwright.cli import main
from foamwright.logbook.store import read_log
from foamwright.readings import load_readings
from sound_samples import RATE, bench_tone, fly_by_tone

EXAMPLES = Path(__file__).parents[2] / "examples"


def saved(path, samples):
    levels = (np.clip(samples, -1, 1) * 32767).astype(np.int16)[None, :]
    with av.open(str(path), "w") as container:
        stream = container.add_stream("pcm_s16le", rate=RATE, layout="mono")
        frame = av.AudioFrame.from_ndarray(levels, format="s16", layout="mono")
        frame.sample_rate = RATE
        for packet in [*stream.encode(frame), *stream.encode(None)]:
            container.mux(packet)
    return str(path)


@pytest.mark.parametrize("name", ["brindle-cob", "tansy-drift"])
def test_book_weigh_in_flights(tmp_path, capsys, name):
    file = tmp_path / f"{name}.toml"
    shutil.copy(EXAMPLES / file.name, file)
    design = str(file)
    assert main(["book", design, "--out", str(tmp_path / "book")]) == 0
    # A tenth of the wing heavier than computed, as builds go.
    assert main(["log", design, "--weigh", "all-up=560 g", "--measure", "cg=240 mm"]) == 0
    assert main(["log", design, "--flight", "minutes=7, back=500 mAh, launch=flew"]) == 0
    assert "kept as entry 3: flight" in capsys.readouterr().out
    assert main(["log", design, "--correct", "1.mass=562 g", "--why", "pack left out"]) == 0
    assert main(["log", design, "--measure", "cg=4 m"]) == 2
    assert "the plane reaches from 0" in capsys.readouterr().err
    assert main(["log", design, "--weigh", "all-up=700 g"]) == 1
    assert "562 g in entry 1, 700 g in entry 5" in capsys.readouterr().out.replace("\n  ", " ")
    assert main(["log", design, "--show"]) == 1
    assert "(before: 560 g)" in capsys.readouterr().out


def test_what_was_heard_is_kept(tmp_path, capsys):
    file = tmp_path / "brindle-cob.toml"
    shutil.copy(EXAMPLES / file.name, file)
    both = np.concatenate([fly_by_tone(14.0, wind=2.0), fly_by_tone(14.0, wind=-2.0)])
    heard = saved(tmp_path / "pass.wav", 0.3 * both)
    assert main(["listen", "--fly-by", heard, "--plane", str(file), "--log"]) == 0
    entry = read_log(file).entries[0]
    assert entry.values["airspeed"] == pytest.approx(14.0, rel=0.05)
    bench = saved(tmp_path / "bench.wav", 0.3 * bench_tone(8000, 3))
    assert main(["listen", bench, "--plane", str(file), "--log"]) == 0
    assert load_readings(file)[0].speed == pytest.approx(8000 * np.pi / 30, rel=0.01)
    assert main(["listen", bench, "--log"]) == 2
    assert "--log needs --plane" in capsys.readouterr().err
