"""A set of sheets is replaced whole or not at all, even when the disk fills up half way."""

import errno
import os

import pytest

from foamwright.core.errors import OutputError
from foamwright.sheets.file_set import write_set

OLD = {"a.pdf": b"old a", "b.svg": b"old b"}
NEW = {"a.pdf": b"new a", "b.svg": "new b", "c.dxf": "new c"}


@pytest.fixture
def folder(tmp_path):
    place = tmp_path / "sheets"
    write_set(place, OLD)
    return place


def contents(folder):
    return {path.name: path.read_bytes() for path in folder.iterdir()}


def test_all_are_replaced(folder):
    written = write_set(folder, NEW)
    assert [path.name for path in written] == ["a.pdf", "b.svg", "c.dxf"]
    assert contents(folder) == {"a.pdf": b"new a", "b.svg": b"new b", "c.dxf": b"new c"}


@pytest.mark.parametrize("at", [1, 2, 3])
def test_a_full_disk_keeps_the_old_sheets(folder, monkeypatch, at):
    """The flush to the disk fails at the first, second or last file."""
    calls = []

    def full(handle):
        calls.append(handle)
        if len(calls) == at:
            raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    monkeypatch.setattr("os.fsync", full)
    with pytest.raises(OutputError, match=r"cannot be written: the disk is full.*No sheet was"):
        write_set(folder, NEW)
    assert contents(folder) == OLD


def test_a_full_disk_leaves_no_new_folder(tmp_path, monkeypatch):
    def full(handle):
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    monkeypatch.setattr("os.fsync", full)
    with pytest.raises(OutputError, match="disk is full"):
        write_set(tmp_path / "deep" / "sheets", NEW)
    assert list(tmp_path.iterdir()) == []


def test_an_interrupt_keeps_the_old_sheets(folder, monkeypatch):
    def interrupted(handle):
        raise KeyboardInterrupt

    monkeypatch.setattr("os.fsync", interrupted)
    with pytest.raises(KeyboardInterrupt):
        write_set(folder, NEW)
    assert contents(folder) == OLD


def test_a_folder_that_cannot_be_made(tmp_path):
    (tmp_path / "taken").write_text("a file", encoding="utf-8")
    with pytest.raises(OutputError, match="taken is a file; name a folder"):
        write_set(tmp_path / "taken", NEW)
