"""`foamwright prop`: which propeller, pack or motor suits this plane, and what each gives."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from foamwright.cli.reading import FILE, open_plane, refuse_to_overwrite

if TYPE_CHECKING:
    from foamwright.flight.choice import Option, Ranked
    from foamwright.plane import Plane
    from foamwright.power.model import PowerTrain

AIMS = ("balance", "launch", "climb", "endurance", "amps")
SHOWN = 12  # rows without --all
HEAD = ("", "thrust/weight", "amps (band)", "max", "climb", "top", "level", "flies", "mass")
TOP = 5  # column of the top speed
RIGHT = "lrrrrrrrrr"  # columns of the table that stand flush right
SAME_GLIDE = 0.02  # of glide ratio, below which a free propeller stands like a braked one
DRAWN = (".svg", ".png", ".pdf")
LABELS = (
    "Whether the controller and the motor are made for so many cells stands on their labels, which "
    "this list does not know."
)
UNSURE = (
    "Level flight is told to about a fifth, rather with too many amps and too few minutes than the "
    "other way: controllers differ at part throttle. A reading at half stick tells yours "
    "(`foamwright bench`)."
)  # two bench sets, docs/physics/power.md
CAUTION = (
    "Propeller last, and off for all other work with a pack connected. For a run on the bench hold "
    "the plane fast, stand behind the disc with others out of its plane, start from closed "
    "throttle. Charge LiPo packs attended, on something that cannot burn. The makers' instructions "
    "and your club's rules come first."
)


def _as_used(train: PowerTrain, pack_at: str | None, cycles: float) -> PowerTrain:
    """The train with its pack as cold and as old as was said."""
    from dataclasses import replace

    from foamwright.cli.new import measured
    from foamwright.power.pack import ROOM, used_pack

    temperature = measured(pack_at, "--pack-at", "temperature")
    if temperature is None and cycles == 0.0:
        return train
    pack = used_pack(
        train.pack, temperature=ROOM if temperature is None else temperature, cycles=cycles
    )
    return replace(train, pack=pack)


def _options(
    plane: Plane, train: PowerTrain, what: str, have: tuple[str, ...]
) -> tuple[Option, ...]:
    from foamwright.flight.candidates import (
        motor_options,
        pack_options,
        propeller_options,
        seat_of,
    )

    design, mass = plane.design, plane.balance.all_up_mass
    seat = seat_of(plane.balance, design.pack.position)
    if what == "packs":
        rating = design.pack.discharge_rating
        return pack_options(train, mass, seat=seat, rating=rating, units=design.units)
    if what == "motors":
        return motor_options(train, mass, motors=plane.stock.motors, seat=seat)
    return propeller_options(train, mass, names=have)


def _rank(plane: Plane, options: tuple[Option, ...], aim: str) -> tuple[Ranked, ...]:
    from foamwright.flight.choice import rank_options

    return rank_options(
        options,
        plane.aero,
        mass=plane.balance.all_up_mass,
        density=plane.air.density,
        wheels=plane.design.gear is not None,
        aim=aim,  # pyright: ignore[reportArgumentType]
        units=plane.design.units,
    )


def _best_of_motor(rows: tuple[Ranked, ...]) -> tuple[Ranked, ...]:
    """The best propeller of each motor, in the order of rank."""
    seen: set[str] = set()
    best: list[Ranked] = []
    for row in rows:
        motor = row.name.split(" + ")[0]
        if motor not in seen:
            seen.add(motor)
            best.append(row)
    return tuple(best)


def ranked_table(plane: Plane, rows: tuple[Ranked, ...], *, show_all: bool) -> str:
    """The ranking as a table, and below it why the others fall out.

    Args:
        plane: The plane. [-]
        rows: Best first. [-]
        show_all: Whether every row is shown. [-]

    Returns:
        Lines. [-]

    Source:
        Definition.

    Example:
        >>> ranked_table(plane, rows, show_all=False)  # doctest: +SKIP
    """
    from foamwright.cli.table import paragraph, table

    own = _in_file(plane)
    good = [row for row in rows if not row.faults]
    bad = sorted((row for row in rows if row.faults), key=lambda row: row.name != own)
    shown = good if show_all else [*good[:SHOWN], *(r for r in good[SHOWN:] if r.name == own)]
    head = list(HEAD)
    cells = [_cells(plane, row) for row in shown]
    if any(row.place is not None for row in rows):
        # Within 100 columns: the place takes that of the top speed, which `check` tells.
        head = [*head[:TOP], *head[TOP + 1 :], "pack at"]
        cells = [[*row[:TOP], *row[TOP + 1 :]] for row in cells]
    rows_text = table(cells, head=head, right=RIGHT)
    text = [_under_motors(rows_text, shown)]
    if not good:
        text = ["None of them suits this plane as it is."]
    if len(good) > len(shown):
        text.append(f"and {len(good) - len(shown)} more that would do (--all shows them)")
    if any(row.name == own for row in rows):
        text.append("> the one in the file")
    if any(row.extrapolated for row in shown):
        text.append("* outside the measured propellers: extrapolated, the band is wider")
    if bad:
        text.append("\nFall out:")
        text += [
            paragraph(
                f"{row.name}: {'; '.join(row.faults)}",
                first="> " if row.name == own else "  ",
                indent="    ",
            )
            for row in (bad if show_all else bad[:SHOWN])
        ]
    if len(bad) > SHOWN and not show_all:
        text.append(f"  and {len(bad) - SHOWN} more")
    return "\n".join(text)


def _under_motors(text: str, rows: list[Ranked]) -> str:
    """Each motor on a line of its own above its propeller, so that the table stays narrow."""
    lines = text.splitlines()
    for i, row in reversed(list(enumerate(rows, start=len(lines) - len(rows)))):
        motor, plus, _ = row.name.partition(" + ")
        if plus:
            lines.insert(i, motor)
    return "\n".join(lines)


def _in_file(plane: Plane) -> str:
    """The propeller of the design as stock would name it."""
    from foamwright.flight.candidates import propeller_label

    return propeller_label(plane.train.propeller)


def _cells(plane: Plane, row: Ranked) -> list[str]:
    from foamwright.core.units import format_value

    units = plane.design.units

    def speed(value: float) -> str:
        return format_value(value, "speed", units)

    stick = "cannot" if row.level_stick is None else f"{100 * row.level_stick:.0f} %"
    _, plus, propeller = row.name.partition(" + ")
    cells = [
        ("> " if row.name == _in_file(plane) else "")
        + (f"  + {propeller}" if plus else row.name)
        + ("*" if row.extrapolated else ""),
        f"{row.thrust_weight:.2f}",
        f"{row.current:.1f} ({row.current_band.low:.0f}-{row.current_band.high:.0f})",
        f"{row.current_limit:.0f} A",
        speed(row.climb_rate),
        speed(row.top_speed),
        stick,
        f"{row.endurance / 60.0:.0f} min",
        format_value(row.mass, "mass", units),
    ]
    if row.place is not None:
        cells.append(format_value(row.place, "length", units))
    return cells


def mission_lines(plane: Plane, train: PowerTrain) -> str:
    """A flight by legs, what goes back in, the first-flight timer, and how warm parts get.

    Args:
        plane: The plane. [-]
        train: Its power train. [-]

    Returns:
        Lines. [-]

    Source:
        foamwright.flight.mission, foamwright.power.heat.

    Example:
        >>> mission_lines(plane, train)  # doctest: +SKIP
    """
    from foamwright.core.errors import ModelError
    from foamwright.flight.glide import glides
    from foamwright.flight.mission import fly_mission
    from foamwright.power.heat import heat_at, heat_words
    from foamwright.power.many import static_of_many
    from foamwright.power.model import CONTROLLER_LOSS

    density = plane.air.density
    lines: list[str] = []
    try:
        flight = fly_mission(plane.aero, train, plane.balance.all_up_mass, density=density)
        legs = ", ".join(
            f"{leg.name} {leg.duration / 60.0:.1f} min at {leg.current:.1f} A"
            for leg in flight.legs
        )
        lines = [
            f"A flight with what is in the file: {legs}; {flight.duration / 60.0:.0f} min in all. "
            f"The charger puts back about {flight.charge_back / 3.6:.0f} mAh; a rested cell shows "
            f"{flight.rest_cell_voltage:.2f} V.",
            f"First flight: timer {flight.first_timer / 60.0:.1f} min, level flight near "
            f"{100 * flight.first_stick:.0f} % of the stick.",
            *flight.notes,
        ]
        if train.controller_loss == CONTROLLER_LOSS:
            lines.append(UNSURE)
    except ModelError as error:
        lines.append(f"A flight with what is in the file is not possible: {error}")
    amps = float(static_of_many([train], density).current[0, 0])
    air = max(plane.design.field.temperature, 298.15)
    ways = {"free": "freewheeling", "braked": "braked", "folded": "folded"}
    found = glides(plane.aero, train, plane.balance.all_up_mass, density=density)
    glide = ", ".join(f"{g.ratio:.1f} {ways[g.state]}" for g in found)
    if len(found) > 1 and abs(found[0].ratio - found[1].ratio) < SAME_GLIDE:
        glide += " (the air does not turn the motor at this speed)"
    lines.append(f"Best glide with the throttle closed, distance over height: {glide}.")
    units = plane.design.units
    warm = "; ".join(
        heat_words(part, units=units) for part in heat_at(train, amps, air_temperature=air)
    )
    lines.append(f"Full throttle held: {warm}. A closed nose without an outlet is worse.")
    return "\n".join(_wrapped(line) for line in lines)


def _wrapped(line: str) -> str:
    from foamwright.cli.table import paragraph

    return paragraph(line)


@click.command(short_help="Rank propellers, packs or motors for the plane.")
@click.argument("file", type=FILE)
@click.option("--have", multiple=True, metavar="NAME",
              help="A propeller on your bench, such as 'electric 9x6'; may be repeated.  "
              "[default: all in stock]")  # fmt: skip
@click.option("--packs", "what", flag_value="packs", help="Rank packs instead of propellers.")
@click.option("--motors", "what", flag_value="motors", help="Rank motors instead of propellers.")
@click.option("--by", "aim", type=click.Choice(AIMS), default="balance",
              help="What to rank by.  [default: balance of all]")  # fmt: skip
@click.option("--all", "show_all", is_flag=True, help="Show every row.")
@click.option("--pack-at", metavar="TEMPERATURE", help="How warm the pack is, such as '0 degC'.  "
              "[default: 20 degC]")  # fmt: skip
@click.option("--cycles", type=click.FloatRange(0.0, 2000.0), default=0.0,
              help="Full charges that the pack has seen.  [default: 0]")  # fmt: skip
@click.option("--plot", type=FILE, help="Picture of thrust, drag, current and endurance to write: "
              ".svg, .png or .pdf.")  # fmt: skip
@click.option("--overwrite", is_flag=True, help="Replace a picture that is there already.")
def prop(  # noqa: PLR0913 - a command has as many arguments as options
    file: Path,
    have: tuple[str, ...],
    what: str | None,
    aim: str,
    show_all: bool,
    pack_at: str | None,
    cycles: float,
    plot: Path | None,
    overwrite: bool,
) -> int:
    """Rank the propellers for this plane by launch thrust, climb, endurance and amps.

    Says why each falls out. The same for packs and motors. Bench readings kept beside the design
    are used.
    """
    from foamwright.cli.table import paragraph

    if plot is not None:
        if plot.suffix.lower() not in DRAWN:
            message = f"'{plot}' ends in '{plot.suffix}'; a picture ends in {', '.join(DRAWN)}."
            raise click.BadParameter(message, param_hint="--plot")
        refuse_to_overwrite(plot, overwrite)
    plane = open_plane(file)
    train = _as_used(plane.train, pack_at, cycles)
    if plane.learnt is not None:
        click.echo("Bench readings kept beside the design are used.\n")
    rows = _rank(plane, _options(plane, train, what or "propellers", have), aim)
    if what == "motors":
        rows = _best_of_motor(rows)
    click.echo(ranked_table(plane, rows, show_all=show_all))
    if what is not None:
        click.echo(paragraph(LABELS))
    click.echo("\n" + mission_lines(plane, train))
    if plot is not None:
        from foamwright.sheets.performance_picture import draw_performance

        click.echo(f"wrote {draw_performance(plane, train, plot)}")
    click.echo(paragraph(CAUTION, first="Cautions: ", indent="  "))
    return 0
