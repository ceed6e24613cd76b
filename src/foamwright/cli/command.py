"""The `foamwright` command and its verbs. Modules of a verb import their rooms when it runs."""

import sys

import click

from foamwright import __version__
from foamwright.cli.bench import bench
from foamwright.cli.book import book
from foamwright.cli.check import check
from foamwright.cli.fly import fly
from foamwright.cli.fold import fold
from foamwright.cli.idea import idea
from foamwright.cli.learn import learn
from foamwright.cli.listen import listen
from foamwright.cli.log import log
from foamwright.cli.new import new
from foamwright.cli.next import next_version
from foamwright.cli.parts import parts
from foamwright.cli.prop import prop
from foamwright.cli.sheets import sheets
from foamwright.cli.show import show
from foamwright.cli.stock import stock
from foamwright.cli.throw import throw
from foamwright.cli.workshop import workshop


class Verbs(click.Group):
    """A group that lists its verbs in the order of the work, not of the alphabet."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        """Names of the verbs."""
        return list(self.commands)


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
    return int(context.invoke(workshop))


for _verb in (
    idea,
    new,
    check,
    prop,
    throw,
    fly,
    bench,
    listen,
    sheets,
    book,
    log,
    learn,
    next_version,
    parts,
    fold,
    show,
    stock,
    workshop,
):
    foamwright.add_command(_verb)
