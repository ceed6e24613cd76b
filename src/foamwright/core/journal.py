"""Text files that only grow: entries appended in one write, a cut line mended by the next."""

import os
from dataclasses import dataclass
from pathlib import Path

from foamwright.core.errors import OutputError
from foamwright.core.files import read_text, reason_words, write_atomically

CUT = "# cut off while it was written: "


@dataclass(frozen=True, slots=True)
class Journal:
    """What a growing file holds.

    Attributes:
        text: All whole lines.
        cut: The line that was cut off while it was written; "" for none.
    """

    text: str
    cut: str = ""


def read_journal(path: Path, *, what: str = "log") -> Journal:
    """All whole lines of a growing file, and the line that was cut off, if any.

    A line without its end counts as cut off, even if it reads well: a mass of 125 g cut after the
    second digit reads as 12.

    Args:
        path: The file; a missing or empty one holds nothing. [-]
        what: Its kind in error messages. [-]

    Returns:
        Its text. [-]

    Raises:
        DesignErrors: It cannot be read or is no text.

    Source:
        Definition.

    Example:
        >>> read_journal(Path("no-such.log.toml")).text
        ''
    """
    if not path.exists() or (path.is_file() and path.stat().st_size == 0):
        return Journal("")
    data = path.read_bytes() if path.is_file() else b"\n"
    whole = data[: data.rfind(b"\n") + 1]
    cut = data[len(whole) :].decode("utf-8", errors="replace")
    if not cut:
        text = read_text(path, what=what) if data.strip() else ""
        return Journal(text)
    try:
        return Journal(whole.decode("utf-8-sig"), cut)
    except UnicodeDecodeError:
        return Journal(read_text(path, what=what))  # tells where the fault is


def append_journal(path: Path, entry: str, *, head: str = "", what: str = "log") -> None:
    r"""Append an entry: one write at the end, flushed to the disk; nothing before it is touched.

    A line that was cut off in an earlier write is first turned into a comment, by writing the file
    anew whole or not at all. If the disk is full, what was written of the entry is taken back.

    Args:
        path: The file; made when missing. [-]
        entry: Text of the entry, whole lines. [-]
        head: Comment that a new file begins with. [-]
        what: Its kind in error messages. [-]

    Raises:
        OutputError: It cannot be written; the file is as it was.
        DesignErrors: What is there is no text.

    Source:
        Definition; POSIX O_APPEND.

    Example:
        >>> import tempfile
        >>> file = Path(tempfile.mkdtemp()) / "a.log.toml"
        >>> append_journal(file, 'note = "dew"')
        >>> file.read_text()
        'note = "dew"\n'
    """
    before = read_journal(path, what=what)
    if before.cut:
        printable = "".join(c for c in before.cut if c.isprintable() or c == " ")
        write_atomically(path, f"{before.text}{CUT}{printable}\n", overwrite=True)
    lead = "\n" if before.text else head and f"{head.rstrip()}\n\n"
    data = f"{lead}{entry.rstrip()}\n".encode()
    try:
        _append(path, data)
    except (OSError, ValueError) as error:
        raise OutputError(reason_words(path, error)) from None


def _append(path: Path, data: bytes) -> None:
    flags = os.O_WRONLY | os.O_CREAT | os.O_APPEND | getattr(os, "O_BINARY", 0)
    handle = os.open(path, flags, 0o666)
    try:
        size = os.fstat(handle).st_size
        try:
            written = os.write(handle, data)
            while written < len(data):
                written += os.write(handle, data[written:])
            os.fsync(handle)
        except OSError:
            os.ftruncate(handle, size)
            raise
    finally:
        os.close(handle)
