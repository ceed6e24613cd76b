"""The folder that the workshop was started in: it opens and writes nothing outside."""

import os
from pathlib import Path

from foamwright.core.errors import OutputError

DEEPEST = 2  # folders below the start that are looked into for designs
MOST = 200  # designs listed
_NOT_DESIGNS = ("stock.toml", "pyproject.toml")


def inside(folder: Path, name: str) -> Path:
    """The file that a page asks for, if it lies in the folder.

    Args:
        folder: Where the workshop was started. [-]
        name: As the page says it, such as "examples/brindle-cob.toml". [-]

    Returns:
        The file, links followed. [-]

    Raises:
        OutputError: It lies elsewhere, or is no design file.

    Source:
        Definition.

    Example:
        >>> inside(Path("planes"), "../secret.toml")
        Traceback (most recent call last):
        foamwright.core.errors.OutputError: ...
    """
    root = folder.resolve()
    try:
        file = (root / name).resolve()
    except (OSError, ValueError):
        raise OutputError("There is no such file in this folder.") from None
    if not name or not file.is_relative_to(root) or file == root:
        raise OutputError(f"'{name[:80]}' lies outside the folder that the workshop was opened in.")
    if file.suffix != ".toml" or file.name.startswith(".") or file.name in _NOT_DESIGNS:
        raise OutputError(f"'{name[:80]}' is not the name of a design file, which ends in .toml.")
    return file


def name_in(folder: Path, file: Path) -> str:
    """How pages name a file.

    Args:
        folder: Where the workshop was started. [-]
        file: A file in it. [-]

    Returns:
        Its way from the folder, with forward slashes. [-]

    Source:
        Definition.

    Example:
        >>> name_in(Path("planes"), Path("planes/old/cob.toml"))
        'old/cob.toml'
    """
    return file.resolve().relative_to(folder.resolve()).as_posix()


def designs(folder: Path) -> list[Path]:
    """Design files in the folder and a little below, those in the folder itself first.

    Args:
        folder: Where the workshop was started. [-]

    Returns:
        Files that hold a [wing] table, newest first. [-]

    Source:
        Definition.

    Example:
        >>> designs(Path("no-such-folder"))
        []
    """
    found: list[tuple[int, float, Path]] = []
    for root, folders, files in os.walk(folder):
        depth = len(Path(root).relative_to(folder).parts)
        folders[:] = [] if depth >= DEEPEST else sorted(f for f in folders if f[0] not in "._")
        for name in files:
            path = Path(root) / name
            if name.endswith(".toml") and name not in _NOT_DESIGNS and _is_design(path):
                found.append((depth, -path.stat().st_mtime, path))
        if len(found) >= MOST:
            break
    return [path for _, _, path in sorted(found)[:MOST]]


def _is_design(path: Path) -> bool:
    if path.name.startswith(".") or path.name.endswith(".bench.toml"):
        return False
    try:
        with path.open("rb") as stream:
            text = stream.read(200_000)
    except OSError:
        return False
    return b"[wing]" in text or b"[[wing.panel]]" in text
