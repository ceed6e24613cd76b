"""Section tables on disk: never out of date, never trusted when damaged."""

import numpy as np
import pytest

from airframes import rows
from foamwright.aero import store
from foamwright.aero.sections import outline_polar
from foamwright.shape.reference import clark_y


@pytest.fixture
def folder(tmp_path, monkeypatch):
    monkeypatch.setenv(store.FOLDER_KEY, str(tmp_path))
    return tmp_path / "sections"


def answer(values, calls):
    def compute():
        calls.append(1)
        return np.array(values)

    return compute


def test_a_table_is_computed_once(folder):
    calls = []
    for _ in range(3):
        found = store.kept(b"one", (2,), answer([1.0, 2.0], calls))
        assert found.tolist() == [1.0, 2.0]
    assert len(calls) == 1
    assert len(list(folder.iterdir())) == 1


def test_other_content_or_program_is_another_table(folder, monkeypatch):
    calls = []
    store.kept(b"one", (1,), answer([1.0], calls))
    assert store.kept(b"two", (1,), answer([2.0], calls)).tolist() == [2.0]
    monkeypatch.setattr(store, "program_digest", lambda: b"changed")
    assert store.kept(b"one", (1,), answer([3.0], calls)).tolist() == [3.0]
    assert len(calls) == 3
    assert len(list(folder.iterdir())) == 3


@pytest.mark.parametrize("damage", [b"", b"short", b"x" * 48])
def test_a_damaged_table_is_made_again(folder, damage):
    calls = []
    store.kept(b"one", (2,), answer([1.0, 2.0], calls))
    (file,) = folder.iterdir()
    file.write_bytes(damage)
    assert store.kept(b"one", (2,), answer([1.0, 2.0], calls)).tolist() == [1.0, 2.0]
    assert len(calls) == 2


def test_a_folder_that_cannot_be_made_is_no_error(tmp_path, monkeypatch):
    blocked = tmp_path / "file"
    blocked.write_text("in the way", encoding="utf-8")
    monkeypatch.setenv(store.FOLDER_KEY, str(blocked))
    assert store.kept(b"one", (1,), answer([1.0], [])).tolist() == [1.0]


def test_keeping_can_be_switched_off(monkeypatch):
    monkeypatch.setenv(store.FOLDER_KEY, "off")
    calls = []
    for _ in range(2):
        store.kept(b"one", (1,), answer([1.0], calls))
    assert len(calls) == 2
    assert store.store_folder() is None


def test_the_kept_polar_is_the_computed_one(folder, monkeypatch):
    upper, lower, _ = clark_y()
    first = outline_polar(rows(upper), rows(lower))
    again = outline_polar(rows(upper), rows(lower))
    monkeypatch.setenv(store.FOLDER_KEY, "off")
    bare = outline_polar(rows(upper), rows(lower))
    assert first == again == bare
    assert len(list(folder.iterdir())) == 1
