"""The log file: read, appended to, corrected without losing the old value."""

import tomllib
from collections.abc import Mapping
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import Any

from foamwright.core.errors import DesignError
from foamwright.core.journal import append_journal, read_journal
from foamwright.logbook.kinds import KEYS, NEEDED, value_of
from foamwright.logbook.model import Correction, Entry, Log

HEAD = (
    "# Logbook, added to by `foamwright log`; entries stand in the order they were made.\n"
    "# An entry that was wrong is put right with `foamwright log --correct`, which keeps the "
    "old value."
)
ENTRY = "[[entry]]"
CORRECTION = "correction"
WHAT = "logbook"
LAST = "written"  # key that ends each entry; without it the entry may have been cut short


def log_file(design_file: Path) -> Path:
    """Where the logbook of a design stands.

    Args:
        design_file: Its design file. [-]

    Returns:
        The path.

    Source:
        Definition.

    Example:
        >>> log_file(Path("cob.toml")).name
        'cob.log.toml'
    """
    return design_file.with_name(f"{design_file.stem}.log.toml")


def read_log(design_file: Path) -> Log:
    """All entries beside a design, corrections taken in.

    A line that was cut off is left out and told; everything before it counts.

    Args:
        design_file: Its design file. [-]

    Returns:
        The log; empty when there is none. [-]

    Raises:
        DesignErrors: The file cannot be read.
        DesignError: It is not TOML, or an entry cannot be read.

    Source:
        Definition.

    Example:
        >>> read_log(Path("no-such-plane.toml")).entries
        ()
    """
    file = log_file(design_file)
    journal = read_journal(file, what=WHAT)
    try:
        data = tomllib.loads(journal.text)
    except tomllib.TOMLDecodeError as error:
        raise DesignError(
            "", f"it is not TOML ({error})", "mend that line", "", str(file)
        ) from None
    rows = data.get("entry", [])
    if set(data) - {"entry"} or not isinstance(rows, list):
        raise DesignError(
            "",
            "it holds something besides [[entry]] tables",
            "only these belong here",
            "",
            str(file),
        )
    notes = []
    if journal.cut:
        notes.append(
            f'The last line was cut off and is left out: "{journal.cut[:60]}". Everything before '
            "it counts; the next entry mends the file."
        )
    lines = [row for row, words in enumerate(journal.text.split("\n"), 1) if words.strip() == ENTRY]
    return _log(rows, notes, file, lines)


def _log(rows: list[dict[str, Any]], notes: list[str], file: Path, lines: list[int]) -> Log:
    entries: list[Entry] = []
    for number, row in enumerate(rows, 1):
        try:
            _take_in(entries, number, row)
        except DesignError as error:
            named = replace(error, field=f"entry {number}, {error.field}", file=str(file))
            if LAST in row:
                raise named from None
            notes.append(f"Entry {number} was cut short and is left out ({error.field}).")
        else:
            if LAST not in row:
                notes.append(
                    f"Entry {number} does not end with '{LAST} = true': it may have been cut "
                    "short. Add that line if all of it is there."
                )
    if len(lines) == len(rows):
        entries = [replace(one, line=lines[one.number - 1]) for one in entries]
    return Log(tuple(entries), tuple(notes))


def _take_in(entries: list[Entry], number: int, row: dict[str, Any]) -> None:
    said = {key: _word(value) for key, value in row.items() if key != LAST}
    kind, when = said.pop("kind", ""), said.pop("when", "")
    if kind == CORRECTION:
        _correct(entries, said, when)
        return
    entries.append(_entry(number, kind, when, said))


def _word(value: object) -> str:
    if isinstance(value, bool):
        return "true" if value else "false"
    return f"{value:.15g}" if isinstance(value, int | float) else str(value)


def entry_of(kind: str, said: Mapping[str, str], *, number: int = 0, when: str = "") -> Entry:
    """An entry from words, without keeping it.

    Args:
        kind: Of the entry. [-]
        said: Key -> words. [-]
        number: Of the entry. [-]
        when: Day. [-]

    Returns:
        The entry. [-]

    Raises:
        DesignError: The words cannot be read.

    Source:
        Definition.

    Example:
        >>> entry_of("weighed", {"what": "wing", "mass": "212 g"}).values["mass"]
        0.212
    """
    return _entry(number, kind, when, said)


def _entry(number: int, kind: str, when: str, said: Mapping[str, str]) -> Entry:
    if kind not in KEYS:
        raise DesignError("kind", f'"{kind}"', f"the kinds are {', '.join(KEYS)}, {CORRECTION}")
    missing = [key for key in NEEDED[kind] if key not in said]
    if missing:
        raise DesignError(f"{kind}.{missing[0]}", "missing", f"'{kind}' needs it")
    values = {key: value_of(kind, said, key) for key in said}
    return Entry(number, kind, when, dict(said), {k: v for k, v in values.items() if v is not None})


def _correct(entries: list[Entry], said: Mapping[str, str], when: str) -> None:
    for key in ("of", "key", "value"):
        if key not in said:
            raise DesignError(f"correction.{key}", "missing", "a correction needs it")
    place = next((i for i, e in enumerate(entries) if str(e.number) == said["of"]), None)
    if place is None:
        raise DesignError("correction.of", said["of"], "there is no such entry before it")
    entry, key = entries[place], said["key"]
    corrected = {**entry.said, key: said["value"]}
    fresh = _entry(entry.number, entry.kind, entry.when, corrected)
    made = Correction(key, entry.said.get(key, ""), said["value"], when, said.get("why", ""))
    entries[place] = replace(fresh, corrections=(*entry.corrections, made))


def add_entry(design_file: Path, kind: str, said: Mapping[str, str], *, when: str = "") -> Entry:
    """Append an entry; nothing before it is touched.

    Args:
        design_file: Its design file. [-]
        kind: Of the entry. [-]
        said: Key -> words, such as {"what": "wing", "mass": "212 g"}. [-]
        when: Day; "" takes today. [-]

    Returns:
        The entry. [-]

    Raises:
        DesignError: The words cannot be read; nothing is written.
        OutputError: The file cannot be written; it is as it was.

    Source:
        Definition.

    Example:
        >>> add_entry(Path("cob.toml"), "note", {"note": "dew on the wing"})  # doctest: +SKIP
    """
    day = when or date.today().isoformat()  # noqa: DTZ011 - the builder's day
    rows = _rows(design_file)
    entry = _entry(rows + 1, kind, day, said)
    _append(design_file, kind, day, {key: said[key] for key in KEYS[kind] if key in said})
    return entry


def correct_entry(design_file: Path, number: int, *, key: str, value: str, why: str = "") -> Entry:
    """Put one value of an entry right by appending a correction; the old value stays in the file.

    Args:
        design_file: Its design file. [-]
        number: Of the entry. [-]
        key: Which value. [-]
        value: As it should be. [-]
        why: In words. [-]

    Returns:
        The entry as it is now. [-]

    Raises:
        DesignError: No such entry or key, or the value cannot be read; nothing is written.
        OutputError: The file cannot be written; it is as it was.

    Source:
        Definition.

    Example:
        >>> correct_entry(Path("cob.toml"), 3, key="mass", value="455 g")  # doctest: +SKIP
    """
    entries = list(read_log(design_file).entries)
    day = date.today().isoformat()  # noqa: DTZ011 - the builder's day
    said = {"of": str(number), "key": key, "value": value, **({"why": why} if why else {})}
    _correct(entries, said, day)
    _append(design_file, CORRECTION, day, said)
    return next(entry for entry in entries if entry.number == number)


def _rows(design_file: Path) -> int:
    """Entries and corrections in the file; refuses to append to one that cannot be read."""
    read_log(design_file)
    text = read_journal(log_file(design_file), what=WHAT).text
    return len(tomllib.loads(text).get("entry", []))


def _append(design_file: Path, kind: str, day: str, said: Mapping[str, str]) -> None:
    lines = [ENTRY, f'kind = "{kind}"', f'when = "{day}"']
    lines += [f"{key} = {_quoted(words)}" for key, words in said.items()]
    lines.append(f"{LAST} = true")
    append_journal(log_file(design_file), "\n".join(lines), head=HEAD, what=WHAT)


def _quoted(words: str) -> str:
    """A TOML basic string on one line."""
    plain = " ".join(words.split()).replace("\\", "\\\\").replace('"', '\\"')
    return '"' + "".join(c if c.isprintable() else "?" for c in plain) + '"'
