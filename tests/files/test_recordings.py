"""Recordings as files: what phones write, and files that are none."""

import math

import av
import numpy as np
import pytest

from foamwright.cli import main
from foamwright.core.errors import DesignError
from foamwright.sound.bench import propeller_speed
from foamwright.sound.read import read_recording
from sound_samples import RATE, bench_tone, fly_by_tone

RPM = 30 / math.pi
KINDS = [("wav", "pcm_s16le"), ("flac", "flac"), ("m4a", "aac"), ("mp4", "aac"), ("mov", "aac"),
         ("webm", "libopus"), ("ogg", "libopus"), ("mp3", "libmp3lame")]  # fmt: skip


def saved(path, samples, *, codec="pcm_s16le", rate=RATE, channels=1):
    """Written at any rate; samples outside full scale are cut off as a phone does."""
    levels = (np.clip(samples, -1, 1) * 32767).astype(np.int16)
    levels = np.repeat(levels, channels)[None, :]
    layout = "mono" if channels == 1 else "stereo"
    with av.open(str(path), "w") as container:
        stream = container.add_stream(codec, rate=rate, layout=layout)
        frame = av.AudioFrame.from_ndarray(levels, format="s16", layout=layout)
        frame.sample_rate = rate
        for packet in [*stream.encode(frame), *stream.encode(None)]:
            container.mux(packet)
    return path


@pytest.mark.parametrize(("ending", "codec"), KINDS)
def test_every_kind_of_file(tmp_path, ending, codec):
    seconds = np.arange(4 * 48_000) / 48_000
    tone = 0.3 * sum(np.sin(2 * np.pi * 250 * h * seconds) / h for h in (1, 2, 3))
    file = saved(tmp_path / f"bench.{ending}", tone, codec=codec, rate=48_000, channels=2)
    heard = read_recording(file)
    assert heard.duration == pytest.approx(4.0, abs=0.1)
    assert propeller_speed(heard).best.speed * RPM == pytest.approx(7500, rel=1e-3)


def test_clipping_is_seen(tmp_path):
    file = saved(tmp_path / "loud.wav", 3.0 * bench_tone(8000, 3))
    assert read_recording(file).clipped > 0.3
    assert main(["listen", str(file)]) == 2


def video_without_sound(path):
    with av.open(str(path), "w") as container:
        stream = container.add_stream("mpeg4", rate=10)
        stream.width = stream.height = 32
        stream.pix_fmt = "yuv420p"
        for _ in range(5):
            frame = av.VideoFrame.from_ndarray(np.zeros((32, 32, 3), np.uint8), format="rgb24")
            for packet in stream.encode(frame):
                container.mux(packet)
        for packet in stream.encode(None):
            container.mux(packet)


def test_a_video_without_sound(tmp_path):
    video_without_sound(tmp_path / "mute.mp4")
    with pytest.raises(DesignError, match="it holds no sound"):
        read_recording(tmp_path / "mute.mp4")


def test_no_recording_at_all(tmp_path):
    (tmp_path / "note.wav").write_text("not a recording")
    with pytest.raises(DesignError, match="cannot be read as sound or video"):
        read_recording(tmp_path / "note.wav")
    with pytest.raises(DesignError, match="this is a folder"):
        read_recording(tmp_path)


def test_a_recording_cut_off_keeps_what_is_there(tmp_path):
    whole = saved(tmp_path / "bench.wav", 0.4 * bench_tone(8000, 4))
    (tmp_path / "cut.wav").write_bytes(whole.read_bytes()[:-30_001])
    heard = propeller_speed(read_recording(tmp_path / "cut.wav"))
    assert heard.best.speed * RPM == pytest.approx(8000, rel=0.01)


def test_listen_tells_and_draws(tmp_path, capsys):
    file = saved(tmp_path / "bench.wav", 0.3 * bench_tone(8000, 3))
    assert main(["listen", str(file), "--picture", str(tmp_path / "bench.png")]) == 0
    said = capsys.readouterr().out
    assert "Fastest steady: 8000 rpm" in said
    assert (tmp_path / "bench.png").read_bytes().startswith(b"\x89PNG")
    assert main(["listen", str(file), "--picture", str(tmp_path / "bench.png")]) == 2


def test_listen_to_a_fly_by(tmp_path, capsys):
    both = np.concatenate([fly_by_tone(14.0, wind=2.0), fly_by_tone(14.0, wind=-2.0)])
    file = saved(tmp_path / "pass.wav", 0.3 * both)
    assert main(["listen", "--fly-by", str(file), "--picture", str(tmp_path / "p.svg")]) == 0
    assert "Airspeed 14" in capsys.readouterr().out
    assert "14" in (tmp_path / "p.svg").read_text("utf-8")
