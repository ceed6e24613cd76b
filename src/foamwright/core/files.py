"""Files in and out: text read with clear words, output written whole or not at all."""

import contextlib
import errno
import os
import secrets
from pathlib import Path

from foamwright.core.errors import DesignError, DesignErrors, OutputError

LARGEST_TEXT = 1_000_000  # bytes; the longest design seen in the trade is a few thousand
_WORDS = {
    errno.ENOENT: "the folder {folder} is not there; make it first, or choose another",
    errno.ENOTDIR: "{folder} is not a folder; choose another",
    errno.EACCES: "there is no permission to write there; choose another folder",
    errno.EPERM: "there is no permission to write there; choose another folder",
    errno.EROFS: "the disk can only be read; choose another folder",
    errno.ENOSPC: "the disk is full; make room, or choose another disk",
    errno.EDQUOT: "the disk quota is used up; make room, or choose another disk",
    errno.ENAMETOOLONG: "the name is too long; choose a shorter one",
    errno.EISDIR: "it is a folder; give the name of a file in it",
}


def read_text(path: str | Path, *, what: str = "design file") -> str:
    """Read a small UTF-8 text that a person wrote.

    Args:
        path: The file. [-]
        what: Its kind in the error messages. [-]

    Returns:
        The text, without a byte order mark, line ends as they are. [-]

    Raises:
        DesignErrors: Missing, a folder, empty, binary, not UTF-8, too large or not readable.

    Source:
        Definition.

    Example:
        >>> read_text("no-such-plane.toml")
        Traceback (most recent call last):
        foamwright.core.errors.DesignErrors: no-such-plane.toml: there is no such file; ...
    """
    data = _bytes_of(Path(path), what)
    text = _decoded(data, path, what)
    if not text.strip():
        raise _refusal(path, "the file is empty", f"a {what} is TOML text")
    return text


def _refusal(
    path: str | Path, got: str, allowed: str, fix: str = "", line: int = 0
) -> DesignErrors:
    return DesignErrors([DesignError("", got, allowed, fix, str(path), line)])


def _bytes_of(file: Path, what: str) -> bytes:
    expected = f"a {what} is expected here"
    try:
        if file.is_dir():
            raise _refusal(file, "this is a folder", expected, "Give the name of a file in it.")
        if not file.exists():
            raise _refusal(
                file, "there is no such file", expected, "Check the name and the folder."
            )
        if not file.is_file():
            raise _refusal(file, "this is not an ordinary file", expected)
        if file.stat().st_size > LARGEST_TEXT:
            size = f"the file has {file.stat().st_size / 1e6:.1f} MB"
            raise _refusal(file, size, f"a {what} has at most {LARGEST_TEXT / 1e6:.0f} MB")
        return file.read_bytes()
    except PermissionError:
        raise _refusal(
            file, "the file may not be read", expected, "Check its permissions."
        ) from None
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or "its name is not possible"
        raise _refusal(file, f"the file cannot be read ({reason.lower()})", expected) from None


def _decoded(data: bytes, path: str | Path, what: str) -> str:
    if data.startswith((b"\xff\xfe", b"\xfe\xff")):
        raise _refusal(path, "this is UTF-16 text", f"a {what} is UTF-8 text", "Save it as UTF-8.")
    if b"\0" in data:
        where = data.index(b"\0")
        raise _refusal(
            path, f"this is a binary file (zero byte at offset {where})", f"a {what} is text"
        )
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        skipped = 3 if data.startswith(b"\xef\xbb\xbf") else 0
        offset = error.start + skipped
        got = f"byte 0x{data[offset]:02X} at offset {offset} is not UTF-8"
        line = data.count(b"\n", 0, offset) + 1
        raise _refusal(path, got, f"a {what} is UTF-8 text", "Save it as UTF-8.", line) from None


def write_atomically(path: str | Path, data: str | bytes, *, overwrite: bool = False) -> None:
    """Write a file whole or not at all: written beside, flushed to the disk, then renamed.

    Args:
        path: The file to write. [-]
        data: Its contents; text is written as UTF-8, line ends as they are. [-]
        overwrite: Whether an existing file may be replaced. [-]

    Raises:
        OutputError: It exists and may not be replaced, or it cannot be written; nothing is left.

    Source:
        Definition.

    Example:
        >>> import tempfile
        >>> file = Path(tempfile.mkdtemp()) / "note.txt"
        >>> write_atomically(file, "3 boards")
        >>> file.read_text()
        '3 boards'
    """
    asked = Path(path)
    contents = data.encode("utf-8") if isinstance(data, str) else data
    try:
        if asked.is_dir():
            raise OutputError(f"{asked} cannot be written: {_WORDS[errno.EISDIR]}.")
        if asked.exists() and not overwrite:
            raise OutputError(_taken(asked))
        file = asked.resolve()  # the file that a link points to, not the link
        if file.exists() and not os.access(file, os.W_OK):
            raise OutputError(f"{asked} cannot be written: it is write-protected.")
        _write_beside(file, contents, overwrite=overwrite, asked=asked)
    except (OSError, ValueError) as error:
        raise OutputError(reason_words(asked, error)) from None


def _taken(file: Path) -> str:
    return f"{file} exists already; allow it to be overwritten, or choose another name."


def reason_words(file: Path, error: Exception) -> str:
    """Say why a file could not be written, and what to do.

    Args:
        file: The file. [-]
        error: What the system said. [-]

    Returns:
        One sentence. [-]

    Source:
        Definition.

    Example:
        >>> reason_words(Path("a.toml"), OSError(errno.ENOSPC, "No space left on device"))
        'a.toml cannot be written: the disk is full; make room, or choose another disk.'
    """
    words = _WORDS.get(getattr(error, "errno", None) or 0)
    if words is None:
        reason = getattr(error, "strerror", None) or "its name is not possible"
        return f"{file} cannot be written: {reason.lower()}."
    return f"{file} cannot be written: {words.format(folder=file.parent)}."


def _write_beside(file: Path, contents: bytes, *, overwrite: bool, asked: Path) -> None:
    beside = file.with_name(f".{file.name[:80]}.{secrets.token_hex(4)}.part")
    try:
        handle = os.open(
            beside, os.O_WRONLY | os.O_CREAT | os.O_EXCL | getattr(os, "O_BINARY", 0), 0o666
        )
        with os.fdopen(handle, "wb") as stream:
            stream.write(contents)
            stream.flush()
            os.fsync(stream.fileno())
        if not overwrite:
            _claim_and_rename(beside, file, asked)
            return
        if file.exists():
            with contextlib.suppress(OSError):
                beside.chmod(file.stat().st_mode & 0o7777)
        beside.replace(file)
    finally:
        with contextlib.suppress(OSError):
            beside.unlink(missing_ok=True)


def _claim_and_rename(beside: Path, file: Path, asked: Path) -> None:
    """Take the name first, so that two writers cannot both believe that it was free."""
    try:
        os.close(os.open(file, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o666))
    except FileExistsError:
        raise OutputError(_taken(asked)) from None
    try:
        beside.replace(file)
    except OSError:
        file.unlink(missing_ok=True)
        raise


def make_folder(folder: Path) -> list[Path]:
    """Make a folder for outputs, with those above it that are missing.

    Args:
        folder: The folder. [-]

    Returns:
        Those that were not there, innermost first. [-]

    Raises:
        OutputError: It cannot be made.

    Source:
        Definition.

    Example:
        >>> import tempfile
        >>> make_folder(Path(tempfile.mkdtemp()))
        []
    """
    missing = [path for path in (folder, *folder.parents) if not path.exists()]
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        if folder.is_file():
            message = f"{folder} is a file; name a folder to write into."
        else:
            reason = reason_words(folder, error).partition(": ")[2]
            message = f"The folder {folder} cannot be made: {reason}"
        raise OutputError(message) from error
    return missing
