"""`foamwright show`: the three-view drawing, and plots of strength and balance."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from foamwright.cli.reading import FILE, open_plane, refuse_to_overwrite

if TYPE_CHECKING:
    from foamwright.plane import Plane

DRAWN = (".svg", ".png", ".pdf")
SOLID = (".glb", ".stl")
PLOTS = ("strength", "balance", "sensitivity")


@click.command(short_help="Draw the plane in three views, to scale.")
@click.argument("file", type=FILE)
@click.option(
    "--out",
    type=FILE,
    help="Drawing to write: .svg, .png or .pdf; .glb or .stl for a solid.  [default: NAME.svg]",
)
@click.option(
    "--plot",
    type=click.Choice(PLOTS),
    help="Plot instead: loads against strength, masses and balance, or what moves which check.",
)
@click.option("--overwrite", is_flag=True, help="Replace a drawing that is there already.")
def show(file: Path, out: Path | None, plot: str | None, overwrite: bool) -> int:
    """Draw the plane in three views, to scale."""
    target = out or Path(f"{file.stem}{f'-{plot}' if plot else ''}.svg")
    endings = DRAWN if plot else DRAWN + SOLID
    if target.suffix.lower() not in endings:
        message = f"'{target}' ends in '{target.suffix}'; a drawing ends in {', '.join(endings)}."
        raise click.BadParameter(message, param_hint="--out")
    plane = open_plane(file)
    refuse_to_overwrite(target, overwrite)
    click.echo(f"wrote {plane.show(target) if plot is None else _plotted(plane, plot, target)}")
    return 0


def _plotted(plane: Plane, plot: str, target: Path) -> Path:
    from foamwright.sheets.plots import balance_figure, draw_plot, strength_figure

    if plot == "sensitivity":
        figure = _sensitive(plane)
    else:
        figure = strength_figure(plane) if plot == "strength" else balance_figure(plane)
    return draw_plot(figure, target, overwrite=True)


def _sensitive(plane: Plane) -> object:
    from foamwright.idea.picture import sensitivity_figure
    from foamwright.idea.sensitivity import sensitivity

    click.echo("computing the plane some 300 times: half a minute", err=True)
    title = f"{plane.design.name}: which dimension moves which check"
    return sensitivity_figure(sensitivity(plane), title=title, units=plane.design.units)
