"""Run a command so that every error comes out as words on stderr, never as a traceback."""

import contextlib
import os
import sys
from collections.abc import Callable, Sequence
from pathlib import Path

import click

from foamwright.cli.command import foamwright
from foamwright.core.errors import DesignErrors, FoamwrightError

WRONG = 2  # the file or the call is wrong
PIPE_CLOSED = 141  # the reader of our output went away; what a shell reports for it
STOPPED = 130  # Ctrl-C; what a shell reports for it


def say_error(text: str) -> None:
    """Print one error on stderr.

    Args:
        text: What is wrong, where, and how to mend it. [-]

    Source:
        Definition.

    Example:
        >>> say_error("cob.toml: the file is empty")
    """
    # On a terminal in lines that can be read; in a pipe one error a line, for programs.
    line = f"error: {text}"
    if sys.stderr.isatty():
        from foamwright.cli.table import paragraph  # only a fault needs it

        line = paragraph(line, first="", indent="  ")
    click.echo(line, err=True)


def report_errors(error: FoamwrightError) -> None:
    """Print an explained error on stderr, each of its parts on its own line.

    Args:
        error: One error, or every error of a file. [-]

    Source:
        Definition.

    Example:
        >>> report_errors(FoamwrightError("cob.toml: the file is empty"))
    """
    for part in error.errors if isinstance(error, DesignErrors) else (error,):
        say_error(str(part))


def _write_report(error: BaseException) -> str:
    """Write the details of an unexpected error into a file and say where."""
    import tempfile  # only a fault needs them
    import traceback

    text = "".join(traceback.format_exception(error))
    try:
        handle, name = tempfile.mkstemp(prefix="foamwright-report-", suffix=".txt", text=True)
        with os.fdopen(handle, "w", encoding="utf-8") as file:
            file.write(f"foamwright {' '.join(sys.argv[1:])}\n\n{text}")
    except OSError:
        return "no report could be written"
    return f"the details are in {Path(name)}"


def _speak_plainly() -> None:
    """Let terminals that lack a character show a question mark in its place instead of failing."""
    for stream in (sys.stdout, sys.stderr):
        with contextlib.suppress(AttributeError, OSError, ValueError):
            stream.reconfigure(errors="replace")  # pyright: ignore[reportAttributeAccessIssue]


def _run(arguments: Sequence[str] | None, workshop: Callable[..., int] | None) -> int:
    try:
        code = foamwright.main(
            args=list(arguments) if arguments is not None else None,
            prog_name="foamwright",
            standalone_mode=False,
            obj=workshop,
        )
        sys.stdout.flush()
        return code if isinstance(code, int) else 0
    except click.exceptions.NoArgsIsHelpError as error:
        click.echo(error.format_message(), err=True)
    except click.UsageError as error:
        hint = f" Try '{error.ctx.command_path} --help'." if error.ctx else ""
        say_error(f"{error.format_message()}{hint}")
    except click.ClickException as error:
        say_error(error.format_message())
    except FoamwrightError as error:
        report_errors(error)
    return WRONG


def run(
    arguments: Sequence[str] | None = None, *, workshop: Callable[..., int] | None = None
) -> int:
    """Run the command line and turn whatever happens into words and an exit code.

    Args:
        arguments: Words after `foamwright`; None takes those of the process. [-]
        workshop: Opens the workshop; None when there is none. [-]

    Returns:
        Exit code. [-]

    Source:
        docs/use/command-line.md.

    Example:
        >>> run(["--version"])
        foamwright 0.1.0
        0
    """
    _speak_plainly()
    # No plug-ins are used; looking for them would cost a tenth of a cold check.
    os.environ.setdefault("PYDANTIC_DISABLE_PLUGINS", "__all__")
    # Matrices are small: one thread solves them as quickly, and no digit hangs on the cores.
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
    try:
        return _run(arguments, workshop)
    except (click.Abort, KeyboardInterrupt):
        click.echo("stopped", err=True)
        return STOPPED
    except BrokenPipeError:
        # Python flushes stdout once more on its way out; give it somewhere harmless to go.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return PIPE_CLOSED
    except Exception as error:
        say_error(
            f"this should not have happened ({type(error).__name__}); "
            f"the fault is in Foamwright, not in your file: {_write_report(error)}"
        )
        return WRONG
