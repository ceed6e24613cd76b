"""`foamwright stock`: what the tables know, and looking things up in them."""

from __future__ import annotations

from pathlib import Path

import click

from foamwright.cli.reading import FILE


@click.command(short_help="List the stock, or look things up in it.")
@click.argument("words", nargs=-1)
@click.option("--file", "own", type=FILE, help="A stock file of your own to look in too.")
def stock(words: tuple[str, ...], own: Path | None) -> int:
    """List the stock, or the entries that hold all of WORDS."""
    from foamwright.cli.table import paragraph, text_width
    from foamwright.stock.load import find, load_stock

    for line in find(load_stock(own), words).splitlines():
        wide = len(line) > text_width()
        click.echo(paragraph(line.strip(), first="  ", indent="    ") if wide else line)
    return 0
