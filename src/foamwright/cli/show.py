"""`foamwright show`: the three-view drawing."""

from __future__ import annotations

from pathlib import Path

import click

from foamwright.cli.reading import FILE, open_plane, refuse_to_overwrite

DRAWN = (".svg", ".png", ".pdf")


@click.command(short_help="Draw the plane in three views, to scale.")
@click.argument("file", type=FILE)
@click.option("--out", type=FILE, help="Drawing to write: .svg, .png or .pdf.  [default: NAME.svg]")
@click.option("--overwrite", is_flag=True, help="Replace a drawing that is there already.")
def show(file: Path, out: Path | None, overwrite: bool) -> int:
    """Draw the plane in three views, to scale."""
    target = out or Path(f"{file.stem}.svg")
    if target.suffix.lower() not in DRAWN:
        message = f"'{target}' ends in '{target.suffix}'; a drawing ends in {', '.join(DRAWN)}."
        raise click.BadParameter(message, param_hint="--out")
    plane = open_plane(file)
    refuse_to_overwrite(target, overwrite)
    click.echo(f"wrote {plane.show(target)}")
    return 0
