"""`foamwright new`: a commented starting file from a few questions or flags."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING

import click

from foamwright.core.errors import DesignError, OutputError

if TYPE_CHECKING:
    from foamwright.design.new import Answers

INCH_SIGNS = ("in", '"', "ft", "'")
KINDS = ("trainer", "slow flyer", "small flyer", "glider", "sport")


def measured(text: str | None, flag: str, dimension: str) -> float | None:
    """Read a value with its unit from the command line.

    Args:
        text: As typed; empty or None when left open. [-]
        flag: Option it was given to, for the message. [-]
        dimension: Such as "length". [-]

    Returns:
        The value in SI, or None. [any]

    Raises:
        DesignError: It cannot be read.

    Source:
        Definition.

    Example:
        >>> measured("1.2 m", "--span", "length")
        1.2
    """
    from foamwright.core.units import UnitError, parse

    if not text or not text.strip():
        return None
    try:
        return parse(text.strip(), dimension)
    except UnitError as error:
        raise DesignError(flag, error.got, error.allowed, error.fix) from None


def units_of(units: str | None, span: str | None) -> str:
    """Units of the new file: as asked, else those that the span was said in.

    Args:
        units: "metric" or "inch"; None when not asked. [-]
        span: As typed; None when not said. [-]

    Returns:
        "metric" or "inch". [-]

    Source:
        Definition.

    Example:
        >>> units_of(None, "48 in"), units_of(None, "1.2 m"), units_of("metric", "48 in")
        ('inch', 'metric', 'metric')
    """
    said = (span or "").strip()
    return units or ("inch" if said.endswith(INCH_SIGNS) else "metric")


def _ask(given: dict[str, str | None]) -> dict[str, str | None]:
    """Ask on the terminal for what no flag said; Enter takes what is usual."""

    def ask(question: str) -> str | None:
        answer: str = click.prompt(question, default="", show_default=False, err=True)
        return answer.strip() or None

    kinds = click.Choice(KINDS)
    return {
        "kind": given["kind"]
        or click.prompt("What kind of plane", default="trainer", type=kinds, err=True),
        "span": given["span"] or ask("Span, such as 48 in or 1.2 m (Enter: usual for the kind)"),
        "board": given["board"]
        or ask("One whole sheet of your board weighs, such as 126 g (Enter: not weighed)"),
        "motor": given["motor"]
        or ask("Motor you have, a name of 'foamwright stock motors' (Enter: usual for the size)"),
        "cells": given["cells"] or ask("Cells of your pack, such as 3 (Enter: usual for the size)"),
        "capacity": given["capacity"] or ask("Its capacity, such as 1300 mAh (Enter: usual)"),
    }


def _answers(
    name: str, said: dict[str, str | None], units: str | None, controls: str | None
) -> Answers:
    from foamwright.design.new import Answers

    cells = (said["cells"] or "").strip()
    if cells and not cells.isdigit():
        raise DesignError("--cells", f'"{cells}"', "it must be a whole number", "Write 2 or 3.")
    return Answers(
        name,
        kind=said["kind"] or "trainer",
        span=measured(said["span"], "--span", "length"),
        units=units_of(units, said["span"]),
        controls=controls,
        motor=said.get("motor"),
        cells=int(cells) if cells else None,
        capacity=measured(said["capacity"], "--capacity", "charge"),
        board_mass=measured(said["board"], "--board-mass", "mass"),
    )


@click.command(short_help="Write a commented starting file.")
@click.argument("name")
@click.option("--kind", type=click.Choice(KINDS), help="What kind of plane.  [default: trainer]")
@click.option("--span", metavar="LENGTH", help="Tip to tip, with its unit, such as '48 in'.")
@click.option("--units", type=click.Choice(["metric", "inch"]), help="How reports speak.")
@click.option("--controls", type=click.Choice(["ailerons", "rudder"]), help="What banks it.")
@click.option("--motor", metavar="STOCK", help="Name in stock; see 'foamwright stock motor'.")
@click.option("--cells", metavar="N", help="Cells of the pack.")
@click.option("--capacity", metavar="CHARGE", help="Of the pack, such as '1300 mAh'.")
@click.option("--board-mass", metavar="MASS", help="One whole sheet, weighed, such as '126 g'.")
def new(
    name: str,
    units: str | None,
    controls: str | None,
    board_mass: str | None,
    **said: str | None,
) -> int:
    """Write NAME.toml, a commented starting file for a plane of your own.

    On a terminal a few questions are asked when no option is given; elsewhere what is left open
    takes what is usual for the kind of plane. With a motor or pack of your own, propeller,
    controller and pack are chosen to suit it. A file that is there already is never overwritten.
    """
    from foamwright.cli.table import paragraph
    from foamwright.core.files import write_atomically
    from foamwright.starting import start_design

    if not name.removesuffix(".toml").strip():
        message = "A plane needs a name, such as 'foamwright new my-plane'."
        raise click.BadParameter(message, param_hint="NAME")
    file = Path(name if name.endswith(".toml") else f"{name}.toml")
    if file.exists():
        message = f"{file} is there already and is never overwritten; choose another name."
        raise OutputError(message)
    given = said | {"board": board_mass}
    flags = (*given.values(), units, controls)
    if not any(flags) and sys.stdin.isatty() and sys.stderr.isatty():
        given = given | _ask(given)
    started = start_design(_answers(file.stem, given, units, controls), file)
    write_atomically(file, started.text, overwrite=False)
    words = f'"{file}"' if " " in str(file) else str(file)
    for note in started.notes:
        click.echo(paragraph(note, first="! ", indent="  "))
    click.echo(f"wrote {file}\nnext: foamwright check {words}")
    return 0
