"""What the logbook holds."""

from collections.abc import Mapping
from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True)
class Correction:
    """A value that was put right; the old one is kept.

    Attributes:
        key: Of the entry.
        old: As said before; "" when it was not said.
        new: As said now.
        when: Day.
        why: In words.
    """

    key: str
    old: str
    new: str
    when: str
    why: str


@dataclass(frozen=True, slots=True)
class Entry:
    """One entry, corrections taken in.

    Attributes:
        number: From 1, in the order of the file.
        kind: "weighed", "measured", "flight", "heard", "repair" or "note".
        when: Day, as written.
        said: Key -> what was said, as a string.
        values: Key -> SI value of those that have one. [any]
        corrections: In order.
        line: Of the file that it begins on, from 1; 0 where it is in no file.
    """

    number: int
    kind: str
    when: str
    said: Mapping[str, str]
    values: Mapping[str, float]
    corrections: tuple[Correction, ...] = ()
    line: int = 0


@dataclass(frozen=True, slots=True)
class Log:
    """All entries.

    Attributes:
        entries: In the order of the file.
        notes: On the file itself, such as a line that was cut off.
    """

    entries: tuple[Entry, ...] = ()
    notes: tuple[str, ...] = field(default=())

    def of(self, kind: str, what: str = "") -> tuple[Entry, ...]:
        """Entries of a kind, and of one thing if named."""
        return tuple(
            entry
            for entry in self.entries
            if entry.kind == kind and (not what or entry.said.get("what") == what)
        )


@dataclass(frozen=True, slots=True)
class Contradiction:
    """Two entries that cannot both be right, or one that cannot be.

    Attributes:
        numbers: Of the entries.
        words: What does not go together, and what to do.
        keys: Of the entries that are in doubt; none doubts all of them.
    """

    numbers: tuple[int, ...]
    words: str
    keys: tuple[str, ...] = ()
