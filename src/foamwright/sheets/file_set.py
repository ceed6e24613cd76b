"""Writing several files so that either all of them are new or all of them are old."""

from collections.abc import Mapping
from contextlib import suppress
from pathlib import Path

from foamwright.core.errors import OutputError
from foamwright.core.files import make_folder, write_atomically

BESIDE = ".new"  # ending of a file that is written but not yet in its place


def write_set(folder: Path, files: Mapping[str, bytes | str]) -> list[Path]:
    """Write all files beside their places first, and move them in only when all are whole.

    A disk that fills up half way leaves the old files as they were and nothing new.

    Args:
        folder: Where the files go; made when missing. [-]
        files: Name -> content; files of these names are replaced. [-]

    Returns:
        The files, in their order. [-]

    Raises:
        OutputError: The folder cannot be made, or a file cannot be written.

    Source:
        Definition.

    Example:
        >>> import tempfile
        >>> folder = Path(tempfile.mkdtemp())
        >>> [path.name for path in write_set(folder, {"a.txt": "1", "b.txt": "2"})]
        ['a.txt', 'b.txt']
    """
    made = make_folder(folder)
    beside = {name: folder / f".{name}{BESIDE}" for name in files}
    try:
        for name, data in files.items():
            _write(beside[name], data, folder / name)
        for name, path in beside.items():
            _move(path, folder / name)
    except BaseException:
        for path in beside.values():
            with suppress(OSError):
                path.unlink(missing_ok=True)
        for path in made:
            with suppress(OSError):
                path.rmdir()
        raise
    return [folder / name for name in files]


def _write(beside: Path, data: bytes | str, place: Path) -> None:
    try:
        write_atomically(beside, data, overwrite=True)
    except OutputError as error:
        words = str(error).replace(str(beside), str(place))
        raise OutputError(f"{words} No sheet was changed.") from error


def _move(beside: Path, place: Path) -> None:
    try:
        beside.replace(place)
    except OSError as error:
        reason = (error.strerror or "unknown reason").lower()
        raise OutputError(
            f"{place} cannot be replaced: {reason}. Close it where it is open, and write again: "
            "some sheets may be new and some old."
        ) from error
