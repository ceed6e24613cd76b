"""Keeping several entries at once: all of them, or none."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from foamwright.logbook.doubts import refuse_impossible
from foamwright.logbook.model import Entry
from foamwright.logbook.store import add_entry, entry_of

if TYPE_CHECKING:
    from foamwright.plane import Plane


def keep_entries(
    plane: Plane, file: Path, *, said: Sequence[tuple[str, Mapping[str, str]]]
) -> tuple[Entry, ...]:
    """Append entries to the logbook of a plane; every one is tried before the first is written.

    Args:
        plane: The plane. [-]
        file: Its design file. [-]
        said: Kind and words of each entry. [-]

    Returns:
        The entries, numbered.

    Raises:
        DesignError: One of them cannot be read, or cannot be; nothing is written.
        OutputError: The logbook cannot be written.

    Source:
        Definition.

    Example:
        >>> keep_entries(plane, Path("cob.toml"), said=[])
        ()
    """
    for kind, words in said:
        refuse_impossible(plane, entry_of(kind, words))
    return tuple(add_entry(file, kind, words) for kind, words in said)
