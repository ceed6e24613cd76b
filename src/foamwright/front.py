"""The door of the house: the command line, and the workshop that it opens when no word is said."""

from collections.abc import Sequence
from pathlib import Path

from foamwright import cli


def _open_workshop(folder: Path, file: Path | None, *, port: int, host: str, browser: bool) -> int:
    # The page library is imported only when the workshop starts.
    from foamwright.web.serve import open_workshop

    return open_workshop(folder, file, port=port, host=host, browser=browser)


def main(arguments: Sequence[str] | None = None) -> int:
    """Run the command line; with no words the workshop opens.

    Args:
        arguments: Words after `foamwright`; None takes those of the process. [-]

    Returns:
        0 all checks hold, 1 a check fails, 2 the file or the call is wrong. [-]

    Source:
        docs/use/command-line.md.

    Example:
        >>> main(["--version"])
        foamwright 0.1.0
        0
    """
    return cli.main(arguments, workshop=_open_workshop)
