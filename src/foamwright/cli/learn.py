"""`foamwright learn`: what the logbook of a plane teaches."""

from __future__ import annotations

import dataclasses
import json
import sys
from pathlib import Path
from typing import TYPE_CHECKING

import click

from foamwright.cli.reading import FILE, open_plane
from foamwright.cli.table import paragraph, table

if TYPE_CHECKING:
    from foamwright.logbook.lesson import Lesson

FAILS = 1
SHOWN_CAUSES = 4
NAMED = 0.02  # chance below which a cause is not shown


def lesson_text(lesson: Lesson) -> str:
    """A lesson, for people.

    Args:
        lesson: What was learned. [-]

    Returns:
        Lines. [-]

    Source:
        Definition.

    Example:
        >>> from foamwright.logbook.learn import learn
        >>> from foamwright.logbook.model import Log
        >>> lesson_text(learn(plane, Log())).splitlines()[0]
        'The logbook holds nothing yet that tells about the plane.'
    """
    lines = [paragraph(lesson.verdict)]
    lines += _listed("What was seen comes from", [x.words for x in lesson.explanations])
    lines += _listed("What the logbook tells", [x.words for x in lesson.learned])
    if lesson.cannot_say:
        names = "; ".join(
            f"{learned.title} (to tell: {learned.ask})" if learned.ask else learned.title
            for learned in lesson.cannot_say
        )
        lines += ["", paragraph(f"It cannot say: {names}.", indent="  ", first="")]
    shown = [cause for cause in lesson.causes if cause.chance >= NAMED][:SHOWN_CAUSES]
    rows = [[cause.title, f"{100 * cause.chance:.0f} %", f"{100 * cause.before:.0f} %"]
            for cause in shown]  # fmt: skip
    lines += ["", table(rows, head=["it comes from", "now", "before"], right="lrr")]
    lines += _listed(
        "To settle it, best first",
        [f"{test.title} (the cause named first is then right in {100 * test.right:.0f} %)"
         for test in lesson.tests],
    )  # fmt: skip
    lines += ["", *_adjusted(lesson)]
    for doubt in lesson.contradictions:
        lines.append(paragraph(doubt.words, first="! ", indent="  "))
    for misfit in lesson.misfits:
        lines.append(paragraph(misfit.words, first="? ", indent="  "))
    lines += ["", *(paragraph(note) for note in lesson.notes)]
    return "\n".join(lines)


def _listed(heading: str, lines: list[str]) -> list[str]:
    if not lines:
        return []
    return ["", f"{heading}:", *(paragraph(line, first="- ", indent="  ") for line in lines)]


def _adjusted(lesson: Lesson) -> list[str]:
    if not lesson.adjustments:
        return ["Nothing to adjust now is worth the work on this evidence."]
    lines = ["Adjust now, one at a time, and fly between:"]
    for place, change in enumerate(lesson.adjustments, 1):
        better = [effect for effect in change.effects if effect.after > effect.before]
        effects = "; ".join(
            f"{e.question}: good in {100 * e.after:.0f} % (now {100 * e.before:.0f} %)"
            for e in better
        )
        lines.append(paragraph(f"{change.words}. {effects}.", first=f"{place}. ", indent="   "))
    return lines


@click.command(short_help="What the logbook teaches: causes, next test, what to adjust.")
@click.argument("file", type=FILE)
@click.option("--json", "as_json", is_flag=True, help="Print everything as JSON, SI.")
def learn(file: Path, as_json: bool) -> int:
    """Learn from weighings, measurements and flights what nobody knew.

    Which faults may stand behind what was seen, which test would settle it, and what to change now.
    Exit code 1 when entries of the logbook contradict one another.
    """
    from foamwright.logbook.learn import learn as learn_from
    from foamwright.logbook.store import read_log

    plane = open_plane(file)
    log = read_log(file)
    quiet = as_json or not sys.stderr.isatty()
    lesson = learn_from(plane, log, progress=None if quiet else _progress)
    if as_json:
        click.echo(json.dumps(dataclasses.asdict(lesson), indent=2))
    else:
        for words in log.notes:
            click.echo(paragraph(words, first="! ", indent="  "))
        click.echo(lesson_text(lesson))
    return FAILS if lesson.contradictions else 0


def _progress(step: str, done: float) -> None:
    end = "\n" if done >= 1.0 else ""
    click.echo(f"\r{100 * done:3.0f} % {step:<24}", err=True, nl=False)
    if end:
        click.echo("\r" + " " * 32 + "\r", err=True, nl=False)
