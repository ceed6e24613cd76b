"""The `foamwright` command and its verbs. Modules of a verb import their rooms when it runs."""

import click

from foamwright import __version__
from foamwright.cli.bench import bench
from foamwright.cli.book import book
from foamwright.cli.check import check
from foamwright.cli.listen import listen
from foamwright.cli.new import new
from foamwright.cli.parts import parts
from foamwright.cli.prop import prop
from foamwright.cli.sheets import sheets
from foamwright.cli.show import show
from foamwright.cli.stock import stock


class Verbs(click.Group):
    """A group that lists its verbs in the order of the work, not of the alphabet."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        """Names of the verbs."""
        return list(self.commands)


@click.group(
    cls=Verbs,
    context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100},
    epilog="Exit code: 0 all checks hold, 1 a check fails, 2 the file or the call is wrong.",
)
@click.version_option(__version__, message="foamwright %(version)s")
def foamwright() -> None:
    """From one design file to a checked foam-board plane and its full-size cut sheets."""


for _verb in (new, check, prop, bench, listen, sheets, book, parts, show, stock):
    foamwright.add_command(_verb)
