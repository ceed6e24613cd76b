"""`foamwright check`: what holds, what does not, and what would mend it."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from foamwright.cli.reading import FILE, open_plane

if TYPE_CHECKING:
    from typing import Any

    from foamwright.checks.builds import Builds
    from foamwright.plane import Plane

FAILS = 1


def answer_of(plane: Plane, builds: Builds | None = None) -> dict[str, Any]:
    """Everything that `check --json` prints about one plane.

    Args:
        plane: The plane. [-]
        builds: Many builds of it; adds a share to each check. [-]

    Returns:
        Plain data: file, plane, defaults_used, checks, results, and builds when asked for; all
        numbers in SI. [-]

    Source:
        docs/use/command-line.md.

    Example:
        >>> sorted(answer_of(plane))
        ['checks', 'defaults_used', 'file', 'plane', 'results']
    """
    from dataclasses import asdict

    from foamwright.design.defaults import defaults_used

    answer: dict[str, Any] = {
        "file": str(plane.path),
        "plane": plane.design.name,
        "defaults_used": defaults_used(plane.design),
        "checks": [asdict(check) | {"verdict": str(check.verdict)} for check in plane.checks],
        "results": plane.results(),
    }
    if builds is not None:
        from foamwright.cli.builds import builds_data

        ways = {each.id: each for each in builds.shares}
        for check in answer["checks"]:
            found = ways.get(check["id"])
            check["share"] = None if found is None else found.share
            check["share_by"] = "cannot say" if found is None else found.how
        answer["builds"] = builds_data(builds)
    return answer


def _finite(value: Any) -> Any:  # noqa: ANN401 - any plain data
    """The same data with None in place of numbers that JSON cannot hold."""
    if isinstance(value, float):
        return value if value - value == 0 else None
    if isinstance(value, dict):
        return {key: _finite(item) for key, item in value.items()}
    return [_finite(item) for item in value] if isinstance(value, list | tuple) else value


type Drawing = tuple[int, int] | None  # number of builds and seed


def _drawn(plane: Plane, drawing: Drawing) -> Builds | None:
    if drawing is None:
        return None
    from foamwright.cli.builds import drawn_builds

    return drawn_builds(plane, *drawing)


def _print_json(planes: list[Plane], *, several: bool, drawing: Drawing) -> None:
    import json

    answers = [_finite(answer_of(plane, _drawn(plane, drawing))) for plane in planes]
    if several or answers:
        click.echo(json.dumps(answers if several else answers[0], indent=2, allow_nan=False))


def _print_reports(planes: list[Plane], *, show_all: bool, drawing: Drawing) -> None:
    from foamwright.cli.builds import builds_report
    from foamwright.cli.cautions import CHECKED
    from foamwright.cli.findings import report
    from foamwright.cli.table import paragraph

    for plane in planes:
        click.echo(report(plane, show_all=show_all))
        builds = _drawn(plane, drawing)
        if builds is not None:
            click.echo(builds_report(plane, builds))
    if planes:
        click.echo(paragraph(CHECKED, first="Cautions: ", indent="  "))


def _failing(plane: Plane) -> bool:
    from foamwright.core.verdicts import Verdict

    return any(check.verdict is Verdict.FAILS for check in plane.checks)


def _open_all(files: tuple[Path, ...]) -> tuple[list[Plane], bool]:
    """Open what can be opened, report what cannot; whether anything was wrong comes second."""
    from foamwright.cli.shell import report_errors
    from foamwright.core.errors import FoamwrightError

    planes: list[Plane] = []
    wrong = False
    for file in files:
        try:
            plane = open_plane(file)
            _ = plane.checks
            planes.append(plane)
        except FoamwrightError as error:
            report_errors(error)
            wrong = True
    return planes, wrong


@click.command(short_help="Say what holds, what fails, and what would mend it.")
@click.argument("files", metavar="FILE...", nargs=-1, required=True, type=FILE)
@click.option("--json", "as_json", is_flag=True, help="Print data for programs, all in SI.")
@click.option(
    "--all", "show_all", is_flag=True, help="Show every check in full, not only findings."
)
@click.option(
    "--builds",
    type=click.IntRange(100, 200_000),
    help="Draw this many builds from the bands of stock; 2000 settles a share to two points.",
)
@click.option("--seed", type=click.IntRange(0), default=0, help="Same seed, same builds.")
def check(
    files: tuple[Path, ...], as_json: bool, show_all: bool, builds: int | None, seed: int
) -> int:
    """Check design files: verdicts, margins, reasons and computed changes.

    Exit code: 0 when all checks hold (close ones hold), 1 when one fails, 2 when a file is wrong.
    """
    planes, wrong = _open_all(files)
    drawing = None if builds is None else (builds, seed)
    if as_json:
        _print_json(planes, several=len(files) > 1, drawing=drawing)
    else:
        _print_reports(planes, show_all=show_all, drawing=drawing)
    if wrong:
        return 2
    return FAILS if any(_failing(plane) for plane in planes) else 0
