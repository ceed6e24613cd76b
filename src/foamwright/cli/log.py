"""`foamwright log`: the logbook beside a design."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING

import click

from foamwright.cli.reading import FILE, open_plane

if TYPE_CHECKING:
    from foamwright.logbook.model import Entry, Log
    from foamwright.plane import Plane

FAILS = 1
ASKED = ("weigh-in", "flight", "repair", "note", "nothing")


def log_text(log: Log) -> str:
    """All entries, for people.

    Args:
        log: The log. [-]

    Returns:
        Lines. [-]

    Source:
        Definition.

    Example:
        >>> from foamwright.logbook.model import Log
        >>> log_text(Log())
        'The logbook is empty.'
    """
    from foamwright.cli.table import table

    if not log.entries:
        return "The logbook is empty."
    rows = [[str(e.number), e.when, e.kind, entry_words(e)] for e in log.entries]
    return table(rows, head=["no", "day", "what", "said"], right="rlll", folded=True)


def entry_words(entry: Entry) -> str:
    """One entry on one line, corrections beside their values.

    Args:
        entry: The entry. [-]

    Returns:
        Words. [-]

    Source:
        Definition.

    Example:
        >>> from foamwright.logbook.model import Entry
        >>> entry_words(Entry(1, "weighed", "", {"what": "wing", "mass": "212 g"}, {}))
        'wing 212 g'
    """
    old = {made.key: made.old for made in entry.corrections}
    pieces: list[str] = []
    for key, words in entry.said.items():
        was = f" (before: {old[key]})" if old.get(key) else ""
        named = "" if key in ("what", "mass", "value", "note") else f"{key} "
        pieces.append(f"{named}{words}{was}")
    joined = " " if entry.kind in ("weighed", "measured") else "; "
    return joined.join(pieces)


def pairs_of(words: str, option: str) -> dict[str, str]:
    """Read 'key=value, key=value'.

    Args:
        words: As typed. [-]
        option: Its name, for the error. [-]

    Returns:
        Key -> value. [-]

    Source:
        Definition.

    Example:
        >>> pairs_of("wing=212 g, all-up=640 g", "--weigh")
        {'wing': '212 g', 'all-up': '640 g'}
        >>> pairs_of("note=cold, damp", "--flight")
        {'note': 'cold, damp'}
    """
    found: dict[str, str] = {}
    for piece in words.split(","):
        key, mark, value = piece.partition("=")
        if not mark and list(found)[-1:] == ["note"] and piece.strip():
            found["note"] += f", {piece.strip()}"  # a note is a sentence, commas and all
            continue
        if not mark or not key.strip() or not value.strip():
            message = f"'{piece.strip()}' must be written as name=value."
            raise click.BadParameter(message, param_hint=option)
        found[key.strip()] = value.strip()
    return found


@click.command(short_help="Take in weighings, measurements, flights and repairs.")
@click.argument("file", type=FILE)
@click.option("--weigh", multiple=True, metavar="WHAT=MASS", help="Such as 'all-up=642 g'.")
@click.option("--measure", multiple=True, metavar="WHAT=VALUE", help="Such as 'cg=221 mm'.")
@click.option("--flight", metavar="KEY=VALUE,...", help="Such as 'minutes=7, launch=flew'.")
@click.option("--repair", metavar="WHAT=MASS", help="What was mended and the mass it added.")
@click.option("--note", help="Anything worth remembering.")
@click.option("--correct", metavar="NO.KEY=VALUE", help="Such as '3.mass=455 g'; the old stays.")
@click.option("--why", default="", help="Why it is corrected.")
@click.option("--show", "show_only", is_flag=True, help="Print the logbook; ask nothing.")
def log(  # noqa: PLR0913 - a command has as many arguments as options
    file: Path,
    weigh: tuple[str, ...],
    measure: tuple[str, ...],
    flight: str | None,
    repair: str | None,
    note: str | None,
    correct: str | None,
    why: str,
    show_only: bool,
) -> int:
    """Take in what came out: weighings, measurements, flights, repairs.

    Kept in NAME.log.toml beside the design, only ever added to. Without options it asks on a
    terminal, and only what is not known yet; elsewhere it prints the logbook.
    """
    plane = open_plane(file)
    said: list[tuple[str, dict[str, str]]] = []
    for words in weigh:
        said += [("weighed", {"what": k, "mass": v}) for k, v in pairs_of(words, "--weigh").items()]
    for words in measure:
        said += [
            ("measured", {"what": k, "value": v}) for k, v in pairs_of(words, "--measure").items()
        ]
    if flight is not None:
        said.append(("flight", pairs_of(flight, "--flight")))
    if repair is not None:
        what, mark, mass = repair.partition("=")
        said.append(("repair", {"what": what.strip(), **({"mass": mass.strip()} if mark else {})}))
    if note is not None:
        said.append(("note", {"note": note}))
    if correct is not None:
        _correct(file, correct, why)
    elif not said and not show_only and sys.stdin.isatty():
        said = _asked(plane, file)
    _keep(plane, file, said)
    return _told(plane, file, brief=bool(said or correct))


def _correct(file: Path, words: str, why: str) -> None:
    from foamwright.logbook.store import correct_entry

    where, mark, value = words.partition("=")
    number, dot, key = where.partition(".")
    if not mark or not dot or not number.strip().isdigit():
        message = f"'{words}' must be written as 3.mass=455 g."
        raise click.BadParameter(message, param_hint="--correct")
    entry = correct_entry(file, int(number), key=key.strip(), value=value.strip(), why=why)
    click.echo(f"corrected entry {entry.number}: {entry_words(entry)}")


def _keep(plane: Plane, file: Path, said: list[tuple[str, dict[str, str]]]) -> None:
    from foamwright.logbook.keep import keep_entries

    for entry in keep_entries(plane, file, said=said):
        click.echo(f"kept as entry {entry.number}: {entry.kind}, {entry_words(entry)}")


def _told(plane: Plane, file: Path, *, brief: bool) -> int:
    from foamwright.cli.table import paragraph
    from foamwright.logbook.ask import open_questions
    from foamwright.logbook.doubts import contradictions
    from foamwright.logbook.store import read_log
    from foamwright.readings import load_readings

    book = read_log(file)
    if not brief:
        click.echo(log_text(book))
        count = len(load_readings(file))
        if count:
            click.echo(f"Bench readings kept: {count}; 'foamwright bench' shows what they teach.")
    for words in book.notes:
        click.echo(paragraph(words, first="! ", indent="  "))
    doubts = contradictions(book, plane)
    for doubt in doubts:
        click.echo(paragraph(doubt.words, first="! ", indent="  "))
    asked = open_questions(plane, book)
    if asked:
        names = ", ".join(question.what for question in asked[:5])
        click.echo(paragraph(f"Not known yet: {names}.", indent="  ", first=""))
    return FAILS if doubts else 0


def _asked(plane: Plane, file: Path) -> list[tuple[str, dict[str, str]]]:
    """Ask on the terminal; Enter leaves a thing out."""
    from foamwright.logbook.ask import flight_questions, open_questions
    from foamwright.logbook.store import read_log

    book = read_log(file)
    first = "weigh-in" if open_questions(plane, book) else "flight"
    chosen: str = click.prompt("What is it", type=click.Choice(ASKED), default=first, err=True)
    if chosen == "weigh-in":
        answers = [(q, _answer(q.words)) for q in open_questions(plane, book)]
        return [(q.kind, {"what": q.what, q.key: a}) for q, a in answers if a]
    if chosen == "flight":
        said = {q.key: a for q in flight_questions(book) if (a := _answer(q.words))}
        return [("flight", said)] if said else []
    if chosen == "repair":
        what, mass = _answer("What was mended"), _answer("Mass it added, such as '8 g'")
        return [("repair", {"what": what, **({"mass": mass} if mass else {})})] if what else []
    words = _answer("Note") if chosen == "note" else ""
    return [("note", {"note": words})] if words else []


def _answer(words: str) -> str:
    answer: str = click.prompt(f"{words} (Enter: none)", default="", show_default=False, err=True)
    return answer.strip()
