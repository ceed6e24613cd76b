"""Section tables kept on disk between runs, found by what they were computed from.

A table's name is the digest of the outline and of the very source text that computes it: a changed
outline or a changed program asks for another name, so nothing kept can be out of date. Whatever is
missing, damaged or unreadable is computed again; a disk that cannot be written is no error.
"""

import contextlib
import hashlib
import os
import sys
import tempfile
from collections.abc import Callable
from functools import lru_cache
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

type Array = NDArray[np.float64]

FOLDER_KEY = "FOAMWRIGHT_CACHE"  # environment: a folder, or "off"
MAKERS = (
    "closures",
    "coupled",
    "coupled_closures",
    "coupled_known",
    "coupled_lanes",
    "coupled_lines",
    "coupled_newton",
    "coupled_panels",
    "coupled_shear",
    "folded_polar",
    "layer",
    "outline",
    "refine",
    "sections",
    "store",
    "tuning",
    "viscous",
    "vortex_panels",
)
DATA = ("folded_sections.json",)
DIGEST = hashlib.sha256().digest_size
MOST = 512  # tables kept, about 8 kB each; the oldest go first


def store_folder() -> Path | None:
    """Where tables are kept: FOAMWRIGHT_CACHE, or the user's usual place for such files.

    Returns:
        Folder; None when FOAMWRIGHT_CACHE is "off" or there is no home.

    Source:
        Usual places of Windows, macOS and the freedesktop base directories.

    Example:
        >>> store_folder() is None or store_folder().name == "sections"
        True
    """
    chosen = os.environ.get(FOLDER_KEY, "")
    if chosen.lower() == "off":
        return None
    if chosen:
        return Path(chosen) / "sections"
    try:
        home = Path.home()
    except RuntimeError:
        return None
    if sys.platform == "win32":
        base = Path(os.environ.get("LOCALAPPDATA", home / "AppData" / "Local"))
    elif sys.platform == "darwin":
        base = home / "Library" / "Caches"
    else:
        base = Path(os.environ.get("XDG_CACHE_HOME") or home / ".cache")
    return base / "foamwright" / "sections"


@lru_cache(maxsize=1)
def program_digest() -> bytes:
    """Digest of the source text that makes a table, and of the numpy in use.

    Returns:
        Digest. [-]

    Source:
        SHA-256 of the modules named in MAKERS and of DATA.

    Example:
        >>> len(program_digest())
        32
    """
    total = hashlib.sha256(np.__version__.encode())
    for name in (*(f"{maker}.py" for maker in MAKERS), *DATA):
        total.update((Path(__file__).parent / name).read_bytes())
    return total.digest()


def kept(content: bytes, shape: tuple[int, ...], compute: Callable[[], Array]) -> Array:
    """A table from the disk, or computed and put there.

    Args:
        content: Everything that the table depends on besides the program. [-]
        shape: Of the table. [-]
        compute: Makes it. [-]

    Returns:
        The table. [any]

    Source:
        Definition.

    Example:
        >>> kept(b"doctest", (2,), lambda: np.array([1.0, 2.0]))
        array([1., 2.])
    """
    try:
        key = hashlib.sha256(program_digest() + repr(shape).encode() + content).hexdigest()
        folder = store_folder()
    except OSError:  # source text not there, as in a frozen program: no keeping
        return compute()
    if folder is None:
        return compute()
    path = folder / f"{key}.f8"
    found = _read(path, shape)
    if found is not None:
        return found
    made = np.asarray(compute(), dtype="<f8")
    with contextlib.suppress(OSError):
        _write(path, made.tobytes())
    return made


def _read(path: Path, shape: tuple[int, ...]) -> Array | None:
    try:
        data = path.read_bytes()
    except OSError:
        return None
    head, body = data[:DIGEST], data[DIGEST:]
    if len(body) != 8 * int(np.prod(shape)) or hashlib.sha256(body).digest() != head:
        return None
    return np.frombuffer(body, dtype="<f8").reshape(shape).astype(np.float64)


def _write(path: Path, body: bytes) -> None:
    """Beside the place first, then moved there, so that a reader never meets half a table."""
    path.parent.mkdir(parents=True, exist_ok=True)
    handle, name = tempfile.mkstemp(dir=path.parent, suffix=".part")
    try:
        with os.fdopen(handle, "wb") as stream:
            stream.write(hashlib.sha256(body).digest() + body)
        Path(name).replace(path)
    except OSError:
        Path(name).unlink(missing_ok=True)
        raise
    _prune(path.parent)


@lru_cache(maxsize=1)
def _prune(folder: Path) -> None:
    """Once a run: drop the oldest tables beyond MOST."""
    files = sorted(folder.glob("*.f8"), key=lambda file: file.stat().st_mtime)
    for file in files[: max(len(files) - MOST, 0)]:
        file.unlink(missing_ok=True)
