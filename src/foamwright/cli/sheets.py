"""`foamwright sheets`: full-size patterns, nested on the boards."""

from __future__ import annotations

import sys
from pathlib import Path

import click

from foamwright.cli.reading import FILE, open_plane

FORMATS = ("pdf", "svg", "dxf")
KERF = "foamwright.kerf"  # where a call keeps it
DRAFT_TIME = 0.0  # s, lay the parts out once, do not search


def show_progress(text: str) -> None:
    """Show where the work is: a line rewritten in place on a terminal, nothing elsewhere.

    Args:
        text: What is being done. [-]

    Source:
        Definition.

    Example:
        >>> show_progress("nesting: 3 boards")
    """
    from foamwright.cli.table import text_width

    if sys.stderr.isatty():
        width = text_width() - 1
        click.echo("\r" + text[:width].ljust(width), err=True, nl=False)


def formats_of(
    context: click.Context, parameter: click.Parameter, words: tuple[str, ...]
) -> tuple[str, ...]:
    """Read the formats wanted, given with commas or by repeating the option.

    Args:
        context: Of the call. [-]
        parameter: The option. [-]
        words: As typed. [-]

    Returns:
        Some of "pdf", "svg", "dxf", each once; all when none was named. [-]

    Source:
        Definition.

    Example:
        >>> formats_of(None, None, ("svg,pdf", "svg"))
        ('svg', 'pdf')
    """
    named = [word for text in words for word in text.lower().replace(",", " ").split()]
    unknown = [word for word in named if word not in FORMATS]
    if unknown:
        message = f"'{unknown[0]}' is not one of {', '.join(FORMATS)}."
        raise click.BadParameter(message, context, parameter)
    return tuple(dict.fromkeys(named)) or FORMATS


def kerf_of(context: click.Context, parameter: click.Parameter, words: str | None) -> float:
    """Read the width of a machine's cut and keep it with the call.

    Args:
        context: Of the call. [-]
        parameter: The option. [-]
        words: As typed, with its unit; None when it was not. [-]

    Returns:
        The width. [m]

    Source:
        Definition.

    Example:
        >>> kerf_of(click.Context(click.Command("sheets")), None, "0.2 mm")
        0.0002
    """
    from foamwright.core.units import parse

    try:
        kerf = parse(words, "length") if words is not None else 0.0
    except ValueError as error:
        raise click.BadParameter(str(error), context, parameter) from None
    context.meta[KERF] = kerf
    return kerf


@click.command(short_help="Write every part full size, nested on the boards.")
@click.argument("file", type=FILE)
@click.option("--out", "folder", type=FILE, help="Folder to write into.  [default: NAME-sheets]")
@click.option(
    "--paper",
    type=click.Choice(["a4", "letter", "a3", "tabloid"]),
    help="Paper of the tiles.  [default: letter for a plane in inches, else a4]",
)
@click.option(
    "--format",
    "formats",
    multiple=True,
    callback=formats_of,
    metavar="pdf,svg,dxf",
    help="What to write, one or more with commas between.  [default: all three]",
)
@click.option("--draft", is_flag=True, help="Lay the parts out at once, without searching.")
@click.option(
    "--time",
    "time_limit",
    type=click.FloatRange(0, 3600),
    default=14.0,
    show_default=True,
    metavar="SECONDS",
    help="How long to search for a layout on fewer boards; Ctrl-C keeps the best so far.",
)
@click.option("--overwrite", is_flag=True, help="Replace sheets that are there already.")
@click.option(
    "--printer-scale",
    type=click.FloatRange(0.9, 1.1),
    default=1.0,
    show_default=True,
    metavar="RATIO",
    help="What your printer makes of 100 mm, over 100 mm; the tiles are drawn to make up for it.",
)
@click.option(
    "--kerf",
    callback=kerf_of,
    expose_value=False,
    metavar="LENGTH",
    help="Width of your cutting machine's slot, such as '0.2 mm': SVG and DXF are drawn to make up "
    "for it.  [default: none, for a knife]",
)
def sheets(
    file: Path,
    folder: Path | None,
    paper: str | None,
    formats: tuple[str, ...],
    draft: bool,
    time_limit: float,
    overwrite: bool,
    printer_scale: float,
) -> int:
    """Write every part full size: one page a board, tiles for a home printer, SVG and DXF."""
    plane = open_plane(file)
    from foamwright.cli.cautions import CUT
    from foamwright.cli.table import paragraph
    from foamwright.sheets.model import Machine
    from foamwright.sheets.paper import usual_paper
    from foamwright.sheets.write import write_all

    written = write_all(
        plane,
        folder or Path(f"{file.stem}-sheets"),
        paper=paper or usual_paper(plane.design.units),
        time_limit=DRAFT_TIME if draft else time_limit,
        formats=formats,
        overwrite=overwrite,
        progress=show_progress,
        machine=Machine(printer_scale, click.get_current_context().meta[KERF]),
    )
    show_progress("")
    for path in written:
        click.echo(f"wrote {path}")
    click.echo(paragraph(CUT, first="\nCautions: ", indent="  "))
    return 0
