"""`foamwright book`: the build book and the field card."""

from __future__ import annotations

from pathlib import Path

import click

from foamwright.cli.reading import FILE, open_plane


@click.command(short_help="Write the build book and the field card.")
@click.argument("file", type=FILE)
@click.option("--out", "folder", type=FILE, help="Folder to write into.  [default: NAME-book]")
@click.option(
    "--hours",
    metavar="TEXT",
    help="Your free hours, such as 'Fri 2 h, Sat 5 h, Sun 3 h'.  [default: evenings of 2 h]",
)
@click.option(
    "--paper",
    type=click.Choice(["a4", "letter"]),
    help="Paper.  [default: letter for a plane in inches, else a4]",
)
@click.option("--overwrite", is_flag=True, help="Replace a book that is there already.")
def book(
    file: Path, folder: Path | None, hours: str | None, paper: str | None, overwrite: bool
) -> int:
    """Write the build book (PDF and HTML) and the field card (one sheet, both sides).

    Shopping list, tools, cut list, time plan, every step with a drawing of just its parts, set-up.
    Your own pack sizes and prices go into shop.toml beside the design.
    """
    plane = open_plane(file)
    from foamwright.book.hours import free_hours
    from foamwright.book.write import write_book
    from foamwright.cli.cautions import CUT
    from foamwright.cli.table import paragraph
    from foamwright.sheets.paper import usual_paper

    written = write_book(
        plane,
        folder or Path(f"{file.stem}-book"),
        hours=free_hours(hours) if hours else None,
        paper=paper or usual_paper(plane.design.units),
        overwrite=overwrite,
    )
    for path in written:
        click.echo(f"wrote {path}")
    click.echo(paragraph(CUT, first="\nCautions: ", indent="  "))
    return 0
