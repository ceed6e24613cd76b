"""Text in with clear words; output whole or not at all."""

import errno
import os
import stat

import pytest

from foamwright.core.errors import DesignErrors, OutputError
from foamwright.core.files import read_text, write_atomically


@pytest.mark.parametrize(
    ("data", "message"),
    [
        (b"", "the file is empty; a design file is TOML text."),
        (b" \n\n", "the file is empty; a design file is TOML text."),
        (
            b"name = 1\0\0",
            "this is a binary file (zero byte at offset 8); a design file is text.",
        ),
        (
            "name = 1\ntitle = 'Möwe'".encode("latin-1"),
            "byte 0xF6 at offset 19 is not UTF-8; a design file is UTF-8 text. Save it as UTF-8.",
        ),
        (
            b"\xef\xbb\xbfa = '\xf6'",
            "byte 0xF6 at offset 8 is not UTF-8; a design file is UTF-8 text. Save it as UTF-8.",
        ),
        (
            "name = 1".encode("utf-16"),
            "this is UTF-16 text; a design file is UTF-8 text. Save it as UTF-8.",
        ),
        (b"#" * 1_000_001, "the file has 1.0 MB; a design file has at most 1 MB."),
    ],
)
def test_unreadable_files(tmp_path, data, message):
    file = tmp_path / "plane.toml"
    file.write_bytes(data)
    with pytest.raises(DesignErrors) as caught:
        read_text(file)
    line = ":2" if b"\ntitle" in data else ":1" if b"\xef" in data else ""
    assert str(caught.value) == f"{file}{line}: {message}"


def test_no_file_a_folder_and_an_impossible_name(tmp_path):
    with pytest.raises(DesignErrors, match="there is no such file; a design file is expected here"):
        read_text(tmp_path / "none.toml")
    with pytest.raises(DesignErrors, match="this is a folder; a design file is expected here"):
        read_text(tmp_path)
    with pytest.raises(DesignErrors, match=r"there is no such file|cannot be read"):
        read_text("a\0b.toml")
    with pytest.raises(DesignErrors, match=r"there is no such file|cannot be read"):
        read_text(tmp_path / ("x" * 5000))


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="no pipes on this system")
def test_a_pipe_is_not_waited_for(tmp_path):
    os.mkfifo(tmp_path / "pipe.toml")
    with pytest.raises(DesignErrors, match="this is not an ordinary file"):
        read_text(tmp_path / "pipe.toml")


def test_byte_order_mark_is_taken_off(tmp_path):
    (tmp_path / "a.toml").write_bytes(b"\xef\xbb\xbfname = 1\r\n")
    assert read_text(tmp_path / "a.toml") == "name = 1\r\n"


def test_writes_and_replaces_only_when_allowed(tmp_path):
    file = tmp_path / "a.txt"
    write_atomically(file, "eins\n")
    assert file.read_bytes() == b"eins\n"
    with pytest.raises(OutputError) as caught:
        write_atomically(file, "zwei")
    assert str(caught.value) == (
        f"{file} exists already; allow it to be overwritten, or choose another name."
    )
    write_atomically(file, b"\x00zwei", overwrite=True)
    assert file.read_bytes() == b"\x00zwei"
    assert [path.name for path in tmp_path.iterdir()] == ["a.txt"]


def test_says_what_is_in_the_way(tmp_path):
    with pytest.raises(OutputError) as caught:
        write_atomically(tmp_path / "none" / "a.txt", "x")
    assert str(caught.value) == (
        f"{tmp_path / 'none' / 'a.txt'} cannot be written: the folder {tmp_path / 'none'} is not "
        "there; make it first, or choose another."
    )
    with pytest.raises(OutputError, match="it is a folder; give the name of a file in it"):
        write_atomically(tmp_path, "x", overwrite=True)
    (tmp_path / "file").write_text("x")
    with pytest.raises(OutputError, match=r"is not a folder|is not there"):
        write_atomically(tmp_path / "file" / "a.txt", "x")
    with pytest.raises(OutputError, match="the name is too long"):
        write_atomically(tmp_path / ("x" * 300), "x")
    with pytest.raises(OutputError, match="its name is not possible"):
        write_atomically(tmp_path / "a\0b", "x")


@pytest.mark.parametrize(
    ("number", "words"),
    [
        (errno.ENOSPC, "the disk is full; make room, or choose another disk"),
        (errno.EACCES, "there is no permission to write there; choose another folder"),
        (errno.EROFS, "the disk can only be read; choose another folder"),
        (errno.EIO, "input/output error"),
    ],
)
def test_a_failing_disk_leaves_the_old_file_and_nothing_else(tmp_path, monkeypatch, number, words):
    file = tmp_path / "a.txt"
    file.write_text("old")

    def fail(handle):
        raise OSError(number, os.strerror(number))

    monkeypatch.setattr(os, "fsync", fail)
    with pytest.raises(OutputError) as caught:
        write_atomically(file, "new", overwrite=True)
    assert str(caught.value) == f"{file} cannot be written: {words}."
    with pytest.raises(OutputError):
        write_atomically(tmp_path / "b.txt", "new")
    assert file.read_text() == "old"
    assert [path.name for path in tmp_path.iterdir()] == ["a.txt"]


@pytest.mark.skipif(os.name == "nt", reason="modes and links as on Unix")
def test_keeps_the_mode_and_writes_through_a_link(tmp_path):
    file = tmp_path / "a.txt"
    file.write_text("old")
    file.chmod(0o640)
    (tmp_path / "link.txt").symlink_to(file)
    write_atomically(tmp_path / "link.txt", "new", overwrite=True)
    assert (tmp_path / "link.txt").is_symlink()
    assert file.read_text() == "new"
    assert stat.S_IMODE(file.stat().st_mode) == 0o640


def test_two_writers_do_not_both_win(tmp_path, monkeypatch):
    file = tmp_path / "a.txt"
    real = os.fsync

    def meanwhile(handle):
        file.write_text("theirs")
        real(handle)

    monkeypatch.setattr(os, "fsync", meanwhile)
    with pytest.raises(OutputError, match="exists already"):
        write_atomically(file, "ours")
    assert file.read_text() == "theirs"
    assert [path.name for path in tmp_path.iterdir()] == ["a.txt"]
