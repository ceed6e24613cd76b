"""`foamwright fold`: which spar and creases fold a board nearest to a wanted section."""

from __future__ import annotations

import re
from pathlib import Path
from typing import TYPE_CHECKING

import click

if TYPE_CHECKING:
    from foamwright.shape.inverse import FoldFit

NUMBER = re.compile(r"[-+]?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d+)?")
FEWEST = 5  # points that make a section
NEAR = 0.010  # of the chord, rms: what the checks call a good copy


def length_of(
    context: click.Context, parameter: click.Parameter, words: str | None
) -> float | None:
    """Read a length with its unit.

    Args:
        context: Of the call. [-]
        parameter: The option. [-]
        words: As typed; None when it was not. [-]

    Returns:
        The length; None when it was not given. [m]

    Source:
        Definition.

    Example:
        >>> length_of(None, None, "190 mm")
        0.19
    """
    from foamwright.core.units import parse

    if words is None:
        return None
    try:
        return parse(words, "length")
    except ValueError as error:
        raise click.BadParameter(str(error), context, parameter) from None


def read_section(text: str) -> list[list[float]]:
    r"""Coordinates of a section out of a text file: two numbers a line, other lines passed over.

    Args:
        text: Of the file: points from the trailing edge round the nose and back, commas or spaces
            between the numbers. [-]

    Returns:
        Rows of (x, z). [any]

    Source:
        Definition.

    Example:
        >>> read_section("My section\n1.0 0.0\n0.5, 0.1\n")
        [[1.0, 0.0], [0.5, 0.1]]
    """
    rows: list[list[float]] = []
    for line in text.splitlines():
        words = line.replace(",", " ").replace(";", " ").split()
        if len(words) == 2 and all(NUMBER.fullmatch(word) for word in words):
            rows.append([float(word) for word in words])
    return rows


def fold_words(fit: FoldFit, chord: float, units: str) -> str:
    """What was found, and the lines to write into a design file.

    Args:
        fit: The fold found. [-]
        chord: [m]
        units: "metric" or "inch". [-]

    Returns:
        Several lines. [-]

    Source:
        Definition.

    Example:
        >>> fold_words(fit, 0.19, "metric").splitlines()[0]  # doctest: +SKIP
        'Nearest fold on a chord of 190 mm: 0.8 mm from it (rms), 1.3 mm at worst.'
    """
    from foamwright.cli.table import paragraph
    from foamwright.core.units import format_value

    def say(value: float) -> str:
        return format_value(value, "length", units)

    def close(value: float) -> str:
        return f"{value / 0.0254:.3f} in" if units == "inch" else f"{1000 * value:.2f} mm"

    recipe, section = fit.recipe, fit.section
    good = "a good copy" if fit.rms <= NEAR else "a poor copy: over 1 % of the chord"
    told = [
        f"Nearest fold on a chord of {say(chord)}: {close(fit.rms * chord)} from it (rms, "
        f"{100 * fit.rms:.2f} % of the chord, {good}), {close(fit.largest * chord)} at worst.",
        f"Thickness {100 * section.thickness_ratio:.1f} %, camber "
        f"{100 * section.camber_ratio:.1f} %, blank {say(section.blank_length)} across"
        + (
            f", tightest bend {say(section.bend_radius)} between creases."
            if section.bend_radius
            else "."
        ),
    ]
    lines = [
        *(paragraph(words) for words in told),
        "",
        "[wing]",
        'build = "folded"',
        f"creases = {len(recipe.creases)}",
    ]
    if recipe.creases:
        places = ", ".join(f"{place:.3f}" for place in recipe.creases)
        lines.append(f"crease_positions = [{places}]     # of the chord")
    lines += ["", "[wing.spar]", f"position = {recipe.spar_position:.2f}"]
    if fit.strips is None:
        height = say(recipe.spar_height)
        lines.append(f"# a spar {height} high: no whole number of strips, pack it to that height")
    else:
        lines.append(f"strips = {fit.strips}")
    width = format_value(recipe.spar_width, "length", units, precise=True)
    lines.append(f'strip_width = "{width}"')
    return "\n".join([*lines, *(f"# {note}" for note in section.notes)])


@click.command(short_help="Find the spar and creases that fold nearest to a section.")
@click.argument("target", default="clark-y")
@click.option(
    "--chord", required=True, callback=length_of, metavar="LENGTH", help="Such as '190 mm'."
)
@click.option(
    "--thickness",
    default="5 mm",
    show_default=True,
    callback=length_of,
    metavar="LENGTH",
    help="Of the board.",
)
@click.option(
    "--creases", type=click.IntRange(0, 3), default=2, show_default=True, help="Along the top."
)
@click.option(
    "--strip-width",
    default="1 in",
    show_default=True,
    callback=length_of,
    metavar="LENGTH",
    help="Of the spar's strips.",
)
@click.option("--any-height", is_flag=True, help="Let the spar be of any height, not whole strips.")
def fold(
    target: str, chord: float, thickness: float, creases: int, strip_width: float, any_height: bool
) -> int:
    """Find spar height, spar position and creases that fold nearest to TARGET.

    TARGET is "clark-y", or a text file with the section's coordinates: two numbers a line, from the
    trailing edge round the nose and back.
    """
    from foamwright.core.errors import OutputError
    from foamwright.core.files import read_text
    from foamwright.shape.inverse import closest_fold

    named = target.strip().lower() == "clark-y"
    wanted = target if named else read_section(read_text(Path(target), what="section"))
    if not named and len(wanted) < FEWEST:
        message = (
            f"{target}: it holds {len(wanted)} points of a section; at least five points are "
            "expected, two numbers a line, from the trailing edge round the nose and back."
        )
        raise OutputError(message)
    fit = closest_fold(
        wanted,
        chord,
        thickness=thickness,
        creases=creases,
        spar_width=strip_width,
        whole_strips=not any_height,
    )
    # Inches were typed when the length is a round number of sixteenths and not of millimetres.
    sixteenths = chord / 0.0254 * 16.0
    inch = abs(sixteenths - round(sixteenths)) < 1e-6
    click.echo(fold_words(fit, chord, "inch" if inch else "metric"))
    return 0
