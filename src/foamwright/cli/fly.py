"""`foamwright fly`: the test flight on paper, as drawn or with faults put in on purpose."""

from __future__ import annotations

import json
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from foamwright.cli.reading import FILE, open_plane

if TYPE_CHECKING:
    from foamwright.flight.trial.flown import Flown
    from foamwright.flight.trial.model import Figure, TestFlight
    from foamwright.plane import Plane


def flown_card(plane: Plane, faults: tuple[str, ...], *, table: bool = False) -> Flown:
    """Fly the card with a plane, with faults, or with all faults of the table side by side.

    Args:
        plane: The plane. [-]
        faults: As typed. [-]
        table: Whether all known faults are flown beside it. [-]

    Returns:
        All that was flown.

    Source:
        foamwright.flight.trial.

    Example:
        >>> flown.setting.count
        1
    """
    from foamwright.flight.simulation.hands import hands_of
    from foamwright.flight.simulation.thrower import thrower_for
    from foamwright.flight.trial.faults import faults_of
    from foamwright.flight.trial.flown import fly_card
    from foamwright.flight.trial.symptoms import side_by_side

    mass, pilot = plane.balance.all_up_mass, plane.design.pilot
    flaws = side_by_side(plane.aero.mean_chord, mass) if table else faults_of(faults)
    thrower = thrower_for(mass, speed=pilot.throw_speed, height=pilot.throw_height)
    return fly_card(plane.craft, plane.flawed(flaws), thrower, hands=hands_of(pilot.level))


def card_text(card: TestFlight, units: str, *, figures: bool) -> str:
    """The card as lines for a person.

    Args:
        card: The test flight. [-]
        units: "metric" or "inch". [-]
        figures: Whether the numbers follow each sentence. [-]

    Returns:
        Lines. [-]

    Source:
        Definition.

    Example:
        >>> card_text(card, "metric", figures=False).splitlines()[0]
        'Glide toss, motor off'
    """
    from foamwright.cli.table import paragraph, table
    from foamwright.flight.observations import OBSERVATIONS

    lines: list[str] = []
    for row in card.manoeuvres:
        lines += [row.title, paragraph(row.seen, indent="  ")]
        if figures:
            cells = [["  " + f.title, _figure(f, units)] for f in row.figures]
            lines.append(table(cells, right="lr"))
        lines.append("")
    ticked = [
        [item.question, card.ticks.get(item.key, "cannot say"),
         "" if card.ticks.get(item.key, item.good) == item.good else "<"]
        for item in OBSERVATIONS
    ]  # fmt: skip
    lines.append("What you would tick on the test card (< is not what a good plane shows):")
    lines.append(table(ticked))
    return "\n".join(lines)


def _figure(figure: Figure, units: str) -> str:
    import math

    from foamwright.core.units import format_value
    from foamwright.flight.distance import distance_words

    value = figure.value
    if value is None:
        return "cannot say"
    if figure.dimension == "distance":
        return distance_words(value, units)
    if figure.dimension == "share":
        return f"{100 * value:.0f} %"
    if figure.dimension == "ratio":
        return f"{value:.1f}"
    if figure.dimension == "rate":
        return f"{math.degrees(value):.0f} deg/s"
    return format_value(value, figure.dimension, units)


def table_text(flown: Flown, units: str) -> str:
    """What each known fault changes on this plane.

    Args:
        flown: The plane and all faults side by side. [-]
        units: "metric" or "inch". [-]

    Returns:
        Lines. [-]

    Source:
        Definition.

    Example:
        >>> table_text(flown, "metric")  # doctest: +SKIP
    """
    from foamwright.cli.table import paragraph
    from foamwright.flight.trial.symptoms import shown_by

    lines: list[str] = [
        "Faults put into this plane one at a time, and what the test card shows:",
        "",
    ]
    for row in shown_by(flown):
        changed = "; ".join(f"{key.replace('_', ' ')}: {said}" for key, said in row.changed.items())
        text = f"{row.symptom.flaw}: {changed or 'nothing that a pilot would tick'}"
        lines.append(paragraph(text, first="  ", indent="    "))
    return "\n".join(lines)


def _as_json(card: TestFlight) -> dict[str, Any]:
    return {
        "manoeuvres": {
            row.name: {
                "title": row.title,
                "seen": row.seen,
                "figures": {f.title: {"value": f.value, "kind": f.dimension} for f in row.figures},
            }
            for row in card.manoeuvres
        },
        "ticks": dict(card.ticks),
        "notes": list(card.notes),
    }


@click.command(short_help="Fly the test card on paper, as drawn or with a fault.")
@click.argument("file", type=FILE)
@click.option(
    "--fault",
    "faults",
    multiple=True,
    metavar="NAME=VALUE",
    help="Put a fault in, such as left-twist=2deg, cg=10mm, drag=20%. Repeat for more.",
)
@click.option("--faults", "table", is_flag=True, help="Show what each known fault would look like.")
@click.option("--figures", is_flag=True, help="All numbers below each sentence.")
@click.option("--json", "as_json", is_flag=True, help="For programs, SI.")
def fly(file: Path, faults: tuple[str, ...], table: bool, figures: bool, as_json: bool) -> int:
    """Fly a whole test card in numbers: toss, throw, trims, stalls, dive, rolls, landing.

    Each manoeuvre ends in the sentence that you would say at the field and in the ticks that the
    logbook takes. A fault that you suspect can be put in and its symptom looked at.
    """
    plane = open_plane(file)
    from foamwright.flight.trial.card import told

    flown = flown_card(plane, faults, table=table)
    units = plane.design.units
    if table:
        click.echo(table_text(flown, units))
        _caution()
        return 0
    card = told(flown, units=units)
    if as_json:
        click.echo(json.dumps(_as_json(card), indent=2))
        return 0
    head = f"{plane.design.name}: test flight on paper"
    click.echo(f"{head}, with {', '.join(faults)}\n" if faults else f"{head}\n")
    click.echo(card_text(card, units, figures=figures))
    _caution(*card.notes[:-1])
    return 0


def _caution(*notes: str) -> None:
    from foamwright.cli.table import paragraph

    for note in notes:
        click.echo(paragraph(note, first="\n" if note is notes[0] else ""))
    click.echo(
        paragraph(
            "A simulation is no clearance to fly near people. First flights away from others, "
            "over soft ground, with someone beside you; local rules and your club come first.",
            first="\nCautions: ",
            indent="  ",
        )
    )
