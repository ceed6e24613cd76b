"""`foamwright next`: the next version of a design, from what its logbook taught."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING

import click

from foamwright.cli.reading import FILE, open_plane, refuse_to_overwrite
from foamwright.cli.table import paragraph, table
from foamwright.core.errors import OutputError

if TYPE_CHECKING:
    from foamwright.logbook.family import Member, Versions
    from foamwright.logbook.version import NextVersion

FAILS = 1
SHOWN = 12  # findings shown
KINDS = {"learned": "data", "flown": "flights", "build": "to do", "check": "check"}


def version_text(version: NextVersion, compared: Versions) -> str:
    """A next version and what it does, for people.

    Args:
        version: The version. [-]
        compared: With the one before. [-]

    Returns:
        Lines. [-]

    Source:
        Definition.

    Example:
        >>> version_text(version, compared)  # doctest: +SKIP
    """
    lines = [paragraph(version.lesson.verdict), ""]
    if not version.changes and not version.remarks:
        lines.append("Nothing to change on what is known: fly it more, or change the design.")
    for place, change in enumerate(version.changes, 1):
        lines.append(paragraph(f"{KINDS[change.kind]}: {change.words}", first=f"{place:2d}. ",
                               indent="    "))  # fmt: skip
        lines.append(paragraph(f"why: {change.reason}", first="    ", indent="    "))
        lines.append(paragraph(f"expected: {change.effect}", first="    ", indent="    "))
    lines += [paragraph(remark, first="To do: ", indent="  ") for remark in version.remarks]
    return "\n".join([*lines, "", compared_text(version, compared)])


def compared_text(version: NextVersion, compared: Versions) -> str:
    """Numbers, findings and parts of two versions, for people.

    Args:
        version: The new version. [-]
        compared: With the one before. [-]

    Returns:
        Lines. [-]

    Source:
        Definition.

    Example:
        >>> compared_text(version, compared)  # doctest: +SKIP
    """
    from foamwright.core.units import format_value
    from foamwright.sheets.words import area_words

    units = version.after.design.units

    def said(value: float | None, unit: str) -> str:
        if value is None:
            return "cannot say"
        if unit in DIMENSIONS:
            return format_value(value, DIMENSIONS[unit], units)
        if unit == "m²":
            return area_words(value, units)
        if unit == "kg/m²":
            return format_value(value, "areal mass", units)
        if unit == "min":
            return f"{value:.0f} min"
        return f"{100 * value:.1f} %" if unit == "%" else f"{value:.3g}"

    plain = (*DIMENSIONS, "m²", "kg/m²", "min", "boards", "%", "-")
    rows = [
        [f"{row.name}{'' if row.unit in plain else f' [{row.unit}]'}",
         said(row.before, row.unit), said(row.after, row.unit)]
        for row in compared.figures
    ]  # fmt: skip
    lines = [table(rows, head=["", "before", "after"], right="lrr")]
    found = [(a, b) for a, b in compared.findings if a.verdict != b.verdict]
    if found:
        rows = [[new.title, str(old.verdict), str(new.verdict)] for old, new in found[:SHOWN]]
        lines += ["", table(rows, head=["finding", "before", "after"])]
    same, new = compared.parts.same, compared.parts.new
    lines.append("")
    total = len(same) + len(new)
    if new:
        names = ", ".join(dict.fromkeys(name.split(",")[0] for name in new))
        lines.append(
            paragraph(f"{len(same)} of {total} parts are as before: keep them, or cut them from "
                      f"the sheets you have. New or changed: {names}.")
        )  # fmt: skip
    else:
        lines.append(f"All {total} parts are as before: no new sheets are needed.")
    return "\n".join(lines)


DIMENSIONS = {"kg": "mass", "m": "length", "m/s": "speed"}


def family_text(members: tuple[Member, ...], units: str) -> str:
    """A family of planes, for people.

    Args:
        members: The first one first. [-]
        units: "metric" or "inch". [-]

    Returns:
        Lines. [-]

    Source:
        Definition.

    Example:
        >>> family_text((), "metric")
        ''
    """
    from foamwright.core.units import format_value

    rows = [
        [one.file.name, one.name, str(one.flights), f"{one.minutes / 60:.0f} min",
         f"{format_value(one.mass, 'mass', units)}{'' if one.weighed else ' computed'}",
         str(len(one.changed)) if place else ""]
        for place, one in enumerate(members)
    ]  # fmt: skip
    if not rows:
        return ""
    head = ["file", "plane", "flights", "flown", "all-up", "keys changed"]
    return table(rows, head=head, right="llrrrr")


@click.command("next", short_help="Write the next version of a design, changes with their reasons.")
@click.argument("file", type=FILE)
@click.option("--out", type=FILE, help="File of the new version; else numbered on, cob-2.toml.")
@click.option("--leave", multiple=True, type=int, metavar="NO", help="A change not wanted.")
@click.option("--no-mend", is_flag=True, help="Leave what the checks find as it is.")
@click.option("--drawing", type=FILE, help="Draw both versions over one another (.svg .pdf .png).")
@click.option("--dry-run", is_flag=True, help="Only show what would be written.")
@click.option("--history", is_flag=True, help="Show the family of this plane; write nothing.")
def next_version(
    file: Path,
    out: Path | None,
    leave: tuple[int, ...],
    no_mend: bool,
    drawing: Path | None,
    dry_run: bool,
    history: bool,
) -> int:
    """Write the next version: learned values as data, changes with reason and expected effect.

    The old file is not touched and no file is replaced. Every check is run again; exit code 1 when
    one of the new version still fails.
    """
    from foamwright.logbook.family import compare_versions, family_of
    from foamwright.logbook.store import read_log
    from foamwright.logbook.version import next_file, propose_version, write_version
    from foamwright.readings import take_readings_along

    plane = open_plane(file)
    if history:
        click.echo(family_text(family_of(plane, open_plane), plane.design.units))
        return 0
    if not dry_run:
        _refuse(out or next_file(file)[0])
    if drawing is not None:
        refuse_to_overwrite(drawing, overwrite=False)
    quiet = not sys.stderr.isatty()
    version = propose_version(
        plane, read_log(file), out=out, leave_out=leave, mend=not no_mend,
        progress=None if quiet else _progress,
    )  # fmt: skip
    compared = compare_versions(version.before, version.after)
    click.echo(version_text(version, compared))
    for doubt in version.lesson.contradictions:
        click.echo(paragraph(doubt.words, first="! ", indent="  "))
    if not dry_run:
        written = write_version(version)
        click.echo(f"\nwritten: {written}; {file} is as it was")
        readings = take_readings_along(file, written)
        if readings is not None:
            click.echo(f"bench readings taken along: {readings}")
    if drawing is not None:
        from foamwright.logbook.overlay import draw_overlay

        click.echo(f"drawn: {draw_overlay(version.before, version.after, drawing)}")
    return _verdict(version)


def _refuse(file: Path) -> None:
    """A version that is there is somebody's plane: it is never replaced."""
    if file.exists():
        message = f"{file} is there already and is not replaced; name another file with --out."
        raise OutputError(message)


def _verdict(version: NextVersion) -> int:
    from foamwright.checks.run import verdicts
    from foamwright.core.verdicts import Verdict

    failing = [check.title for check in verdicts(version.after) if check.verdict is Verdict.FAILS]
    if failing:
        click.echo(paragraph(f"Still failing: {', '.join(failing)}."))
    return FAILS if failing else 0


def _progress(step: str, done: float) -> None:
    click.echo(f"\r{100 * done:3.0f} % {step:<44}", err=True, nl=False)
    if done >= 1.0:
        click.echo("\r" + " " * 52 + "\r", err=True, nl=False)
