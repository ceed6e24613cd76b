"""The `foamwright` command and its verbs. Modules of a verb import their rooms when it runs."""

import sys
from importlib import import_module

import click

from foamwright import __version__
from foamwright.core.nearest import nearest_names

# Verb -> its command in the module of that name, in the order of the work. A module is imported
# when its verb is said: all of them would cost a tenth of a cold check.
VERBS = {
    "idea": "idea",
    "new": "new",
    "check": "check",
    "prop": "prop",
    "throw": "throw",
    "fly": "fly",
    "bench": "bench",
    "listen": "listen",
    "sheets": "sheets",
    "book": "book",
    "log": "log",
    "learn": "learn",
    "next": "next_version",
    "parts": "parts",
    "fold": "fold",
    "show": "show",
    "stock": "stock",
    "workshop": "workshop",
}


def verb(name: str) -> click.Command:
    """The command of a verb.

    Args:
        name: One of VERBS. [-]

    Returns:
        The command.

    Source:
        Definition.

    Example:
        >>> verb("check").name
        'check'
    """
    command: click.Command = getattr(import_module(f"foamwright.cli.{name}"), VERBS[name])
    return command


class Verbs(click.Group):
    """A group that lists its verbs in the order of the work, not of the alphabet."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        """Names of the verbs."""
        return list(VERBS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """The command of a verb; None when there is no such verb."""
        if cmd_name in VERBS:
            return verb(cmd_name)
        if cmd_name.endswith(".toml"):
            ctx.fail(f"A file wants a command before it, such as 'foamwright check {cmd_name}'.")
        near = nearest_names(cmd_name, VERBS, cutoff=0.6)
        if near:
            ctx.fail(f"No such command '{cmd_name}'; did you mean '{near[0]}'?")
        return None


@click.group(
    cls=Verbs,
    invoke_without_command=True,
    context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100},
    epilog="Exit code: 0 all checks hold, 1 a check fails, 2 the file or the call is wrong.",
)
@click.version_option(__version__, message="foamwright %(version)s")
@click.pass_context
def foamwright(context: click.Context) -> int:
    """From one design file to a checked foam-board plane and its full-size cut sheets.

    With no words the workshop opens: the plane on a drawing board in the browser.
    """
    if context.invoked_subcommand is not None:
        return 0
    # A script or a pipe that forgot its words would wait for ever for a server to end.
    if not (sys.stdin.isatty() and sys.stdout.isatty()):
        raise click.exceptions.NoArgsIsHelpError(context)
    return int(context.invoke(verb("workshop")))
