"""`foamwright workshop`: the plane on a drawing board in the browser."""

from __future__ import annotations

from pathlib import Path

import click

from foamwright.cli.reading import FILE
from foamwright.core.errors import DesignError

PORT = 8137


@click.command(short_help="Open the drawing board in the browser.")
@click.argument("file", type=FILE, required=False)
@click.option("--port", default=PORT, show_default=True, help="Port; the next free one if taken.")
@click.option(
    "--bind",
    "host",
    metavar="ADDRESS",
    default="127.0.0.1",
    help="Let machines of your network in: this one's address, or 0.0.0.0. Asks for a token.",
)
@click.option("--no-browser", is_flag=True, help="Only say the address; open no browser.")
@click.pass_context
def workshop(
    context: click.Context,
    file: Path | None = None,
    port: int = PORT,
    host: str = "127.0.0.1",
    no_browser: bool = False,
) -> int:
    """Open the workshop on this machine: the plane on a drawing board in the browser.

    It can open the design files of the present folder, or of the folder of FILE, and no others.
    Nothing leaves the machine, and no other machine reaches it unless --bind asks for that.
    Ctrl-C closes it.
    """
    if context.obj is None:
        click.echo(context.find_root().get_help())
        return 0
    if not 1 <= port <= 65000:
        message = f"{port} is not a port; it must be 1 to 65000."
        raise click.BadParameter(message, param_hint="--port")
    here = Path.cwd().resolve()
    if file is not None and file.is_dir():
        here, file = file.resolve(), None
    if file is not None and not file.exists():
        words = ("there is no such file", "a design file is expected here")
        raise DesignError("", *words, "Check the name and the folder.", str(file))
    if file is not None and not file.resolve().is_relative_to(here):
        here = file.resolve().parent
    return context.obj(here, file, port=port, host=host, browser=not no_browser)
