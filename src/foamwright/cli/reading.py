"""What the verbs share: arguments that name files, and opening a plane."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from foamwright.core.errors import OutputError

if TYPE_CHECKING:
    from foamwright.plane import Plane

FILE = click.Path(path_type=Path)


def open_plane(file: Path) -> Plane:
    """Open a design file; the rooms are imported only now.

    Args:
        file: The design file. [-]

    Returns:
        The plane. [-]

    Raises:
        DesignErrors: Something in the design or stock file is wrong.

    Source:
        Definition.

    Example:
        >>> open_plane(Path("examples/brindle-cob.toml")).design.name
        'Brindle Cob'
    """
    from foamwright.opening import load

    return load(file)


def refuse_to_overwrite(file: Path, overwrite: bool) -> None:
    """Stop before anything is computed when the output is there already.

    Args:
        file: The output. [-]
        overwrite: Whether the builder allowed it. [-]

    Raises:
        OutputError: It exists and may not be overwritten, or its folder is not there.

    Source:
        Definition.

    Example:
        >>> refuse_to_overwrite(Path("a-file-that-is-not-there.svg"), False)
    """
    if file.is_dir():
        message = f"{file} is a folder; give the name of a file in it."
        raise OutputError(message)
    if not file.parent.is_dir():
        message = f"{file.parent} is no folder that is there; make it first, or choose another."
        raise OutputError(message)
    if file.exists() and not overwrite:
        message = f"{file} exists already; add --overwrite, or choose another name."
        raise OutputError(message)
