"""The command line: a face only. It asks the rooms, prints what they answer, computes nothing."""

from collections.abc import Callable, Sequence


def main(
    arguments: Sequence[str] | None = None, *, workshop: Callable[..., int] | None = None
) -> int:
    """Run the command line.

    Args:
        arguments: Words after `foamwright`; None takes those of the process. [-]
        workshop: Opens the workshop, which stands beside this room; None when there is none. [-]

    Returns:
        0 all checks hold, 1 a check fails, 2 the file or the call is wrong. [-]

    Source:
        docs/use/command-line.md.

    Example:
        >>> main(["--version"])
        foamwright 0.1.0
        0
    """
    from foamwright.cli.shell import run

    return run(arguments, workshop=workshop)
