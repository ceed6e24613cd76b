"""The next version of a design: a new file, what changed in it and why; the old file untouched."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from foamwright.core.errors import DesignErrors, ModelError, OutputError
from foamwright.core.files import read_text, write_atomically
from foamwright.design.keys import split
from foamwright.design.lines import key_lines, line_of
from foamwright.design.write import apply_values
from foamwright.logbook.change import (
    NextChange,
    flown_changes,
    learned_changes,
)
from foamwright.logbook.learn import learn
from foamwright.logbook.mending import mending_changes

if TYPE_CHECKING:
    from foamwright.logbook.lesson import Lesson
    from foamwright.logbook.model import Log
    from foamwright.plane import Plane

NUMBERED = re.compile(r"^(?P<stem>.+)-(?P<number>\d+)$")
VERSION = re.compile(r", version \d+$")
WIDTH = 96  # letters of a comment line


@dataclass(frozen=True, slots=True)
class NextVersion:
    """A next version, not written yet.

    Attributes:
        file: Where it goes.
        number: Of the version, from 2.
        text: Of the file.
        changes: In the order in which they were applied.
        remarks: For the builder: changes that this design cannot take.
        lesson: That it rests on.
        before: The plane as it was.
        after: The plane as it will be.
    """

    file: Path
    number: int
    text: str
    changes: tuple[NextChange, ...]
    remarks: tuple[str, ...]
    lesson: Lesson
    before: Plane
    after: Plane


def next_file(file: Path) -> tuple[Path, int]:
    """Name and number of the next version: cob.toml, cob-2.toml, cob-3.toml.

    Args:
        file: Of the version before. [-]

    Returns:
        File and number. [-]

    Source:
        Definition.

    Example:
        >>> next_file(Path("cob-2.toml"))
        (PosixPath('cob-3.toml'), 3)
    """
    found = NUMBERED.match(file.stem)
    stem, number = (found["stem"], int(found["number"]) + 1) if found else (file.stem, 2)
    return file.with_name(f"{stem}-{number}{file.suffix}"), number


def propose_version(
    plane: Plane,
    log: Log,
    *,
    out: Path | None = None,
    leave_out: Sequence[int] = (),
    mend: bool = True,
    progress: Callable[[str, float], None] | None = None,
) -> NextVersion:
    """The next version from the logbook: learned values, changes asked for by flights and checks.

    Args:
        plane: The version before, opened from its file. [-]
        log: Its logbook. [-]
        out: File of the new version; None numbers it on. [-]
        leave_out: Numbers of changes, from 1, that are not wanted. [-]
        mend: Whether findings of the checks are mended too. [-]
        progress: Told a step and how much is done. [-]

    Returns:
        The version, not written.

    Raises:
        OutputError: The plane was not opened from a file.
        DesignErrors: The changed design is not possible.
        ModelError: Nothing can be foreseen of the plane.

    Source:
        learn.py, change.py.

    Example:
        >>> from foamwright.logbook.model import Log
        >>> propose_version(plane, Log()).number
        2
    """
    if plane.path is None:
        raise OutputError("The plane has no file: save the design first.")
    file, number = next_file(plane.path)
    lesson = learn(plane, log, progress=progress)
    remarks: tuple[str, ...] = ()
    first = (*learned_changes(plane, log, lesson), *flown_changes(plane, lesson))
    after = plane
    kept: list[NextChange] = []
    mended: tuple[NextChange, ...] = ()
    for place, change in enumerate(first, 1):
        if place in leave_out:
            continue
        tried = _tried(after, change)
        if tried is None:
            remarks = (*remarks, f"Not possible on this design: {change.words} ({change.reason}).")
            continue
        after, kept = tried, [*kept, change]
    if mend:
        mended, after = mending_changes(after, progress=progress)
        wanted = [c for i, c in enumerate(mended, len(first) + 1) if i not in leave_out]
        if len(wanted) < len(mended):
            after = plane.with_values(_all([*kept, *wanted]))
        kept = [*kept, *wanted]
    _refuse_numbers(leave_out, len(first) + len(mended))
    text = _text_of(plane, tuple(kept), remarks, number=number, entries=len(log.entries))
    return NextVersion(out or file, number, text, tuple(kept), remarks, lesson, plane, after)


def _refuse_numbers(leave_out: Sequence[int], count: int) -> None:
    wrong = [place for place in leave_out if not 1 <= place <= count]
    if wrong:
        there = f"1 to {count} are there" if count else "there are none"
        raise ModelError(f"There is no change {wrong[0]} to leave out; {there}.")


def _tried(plane: Plane, change: NextChange) -> Plane | None:
    try:
        return plane.with_values(change.values)
    except DesignErrors:
        return None


def _all(changes: Sequence[NextChange]) -> dict[str, float | str]:
    values: dict[str, float | str] = {}
    for change in changes:
        values.update(change.values)
    return values


def _text_of(
    plane: Plane,
    changes: tuple[NextChange, ...],
    remarks: tuple[str, ...],
    *,
    number: int,
    entries: int,
) -> str:
    """The old text with the changed values, each with its reason above it."""
    assert plane.path is not None  # noqa: S101 - propose_version has seen to it
    old = read_text(plane.path)
    name = f"{VERSION.sub('', plane.design.name)}, version {number}"
    before = {"name": name, "learned.version_before": plane.path.name}
    text = apply_values(old, {**before, **_all(changes)}, units=plane.design.units)
    text = _with_reasons(text, changes)
    head = [
        f"# Version {number}, from {plane.path.name} and the {entries} entries of its logbook.",
        *(line for words in _summary(changes) for line in _wrapped(f"- {words}")),
        *(line for remark in remarks for line in _wrapped(remark)),
    ]
    return "\n".join([*head, "", text.lstrip("\n")])


def _summary(changes: tuple[NextChange, ...]) -> list[str]:
    todo = {"build": "to do: "}
    return [f"{todo.get(change.kind, '')}{change.words}" for change in changes] or [
        "nothing changed"
    ]


def _with_reasons(text: str, changes: tuple[NextChange, ...]) -> str:
    lines, places = text.split("\n"), key_lines(text)
    notes: dict[int, list[str]] = {}
    for change in changes:
        if not change.values:
            continue  # to do on the bench: it stands in the head of the file
        rows = sorted({line_of(split(key), places) for key in change.values})
        words = [f"{change.words}.", f"Why: {change.reason}.", f"Expected: {change.effect}."]
        comment = [line for part in words for line in _wrapped(part.replace("..", "."))]
        notes.setdefault(rows[0], []).extend(comment)
    made: list[str] = []
    for row, line in enumerate(lines, 1):
        made += [*notes.get(row, []), line]
    return "\n".join(made)


def _wrapped(words: str) -> list[str]:
    import textwrap

    plain = " ".join(words.split())
    return textwrap.wrap(plain, WIDTH, initial_indent="# ", subsequent_indent="#   ")


def write_version(version: NextVersion) -> Path:
    """Write the new file, whole or not at all; nothing that is there is replaced.

    Args:
        version: From propose_version. [-]

    Returns:
        The file.

    Raises:
        OutputError: It is there already, or cannot be written.

    Source:
        Definition.

    Example:
        >>> write_version(version)  # doctest: +SKIP
        PosixPath('cob-2.toml')
    """
    write_atomically(version.file, version.text, overwrite=False)
    return version.file
