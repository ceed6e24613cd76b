"""Findings as plain data for the page, and the job that works out their changes."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, Any

from foamwright.checks.changes import changes_for
from foamwright.checks.judge import check_of, finding_of
from foamwright.checks.run import RULES, verdicts
from foamwright.core.errors import FoamwrightError
from foamwright.core.units import format_value
from foamwright.core.verdicts import GRAVEST_FIRST, Verdict
from foamwright.web.figure import anchor_of

if TYPE_CHECKING:
    from foamwright.core.verdicts import Change, Check
    from foamwright.plane import Plane

DIMENSIONS = {
    "m": "length",
    "kg": "mass",
    "rad": "angle",
    "m/s": "speed",
    "A": "current",
    "N": "force",
    "s": "time",
    "kg/m²": "areal mass",
}

LAID_OUT = ("parts_fit", "boards")  # checks that rest on the layout of the parts

type Found = Callable[[str, tuple[Change, ...]], None]


def quantity(value: float | None, unit: str, units: str) -> str:
    """A value of a check in the builder's units.

    Args:
        value: SI; None when it cannot be said. [any]
        unit: SI unit of the check. [-]
        units: "metric" or "inch". [-]

    Returns:
        Text such as "14 1/4 in"; "" for none. [-]

    Source:
        Definition.

    Example:
        >>> quantity(0.36195, "m", "inch"), quantity(0.178, "-", "inch")
        ('14 1/4 in', '0.178')
    """
    if value is None:
        return ""
    dimension = DIMENSIONS.get(unit)
    if dimension == "time":
        return f"{value:.0f} s"
    if dimension is not None:
        return format_value(value, dimension, units)
    return f"{value:.3g}" if unit == "-" else f"{value:.3g} {unit}"


def gravity(row: dict[str, Any]) -> tuple[int, float]:
    """Sorts findings gravest first.

    Args:
        row: A finding as plain data. [-]

    Returns:
        What to sort by. [-]

    Source:
        Definition.

    Example:
        >>> gravity({"verdict": "fails", "margin": -0.2})
        (0, -0.2)
    """
    margin = row["margin"]
    return GRAVEST_FIRST.index(Verdict(row["verdict"])), 0.0 if margin is None else margin


def findings_of(checks: Sequence[Check], units: str) -> list[dict[str, Any]]:
    """Checks as plain data, gravest first.

    Args:
        checks: As the plane gives them. [-]
        units: "metric" or "inch". [-]

    Returns:
        One table a finding. [-]

    Source:
        Definition.

    Example:
        >>> findings_of([], "inch")
        []
    """
    rows = [
        {
            "id": check.id,
            "title": check.title,
            "verdict": str(check.verdict),
            "margin": check.margin,
            "value": quantity(check.value, check.unit, units),
            "low": quantity(check.low, check.unit, units),
            "high": quantity(check.high, check.unit, units),
            "why": check.why,
            "source": check.source,
            "place": check.place,
            "anchor": anchor_of(check),
        }
        for check in checks
    ]
    return sorted(rows, key=gravity)


def quick_findings(plane: Plane, settled: Sequence[dict[str, Any]]) -> list[dict[str, Any]]:
    """Findings while a dimension is being dragged, as plain data, gravest first.

    What rests on the layout of the parts on the boards costs as much as all else together: it is
    left as it was, and asked when the hand rests.

    Args:
        plane: The plane that is dragged to. [-]
        settled: Findings before the drag. [-]

    Returns:
        One table a finding. [-]

    Source:
        Definition.

    Example:
        >>> len(quick_findings(plane, findings_of(verdicts(plane), "inch"))) == len(verdicts(plane))
        True
    """
    checks = [check_of(rule, finding_of(rule, plane)) for rule in RULES if rule.id not in LAID_OUT]
    kept = [row for row in settled if row["id"] in LAID_OUT]
    return sorted([*findings_of(checks, plane.design.units), *kept], key=gravity)


def brief(rows: Sequence[dict[str, Any]], opened: set[str]) -> list[Any]:
    """Findings during a drag: whole only where the page shows more than the margin.

    Args:
        rows: Findings of the plane that is dragged to. [-]
        opened: Ids of those that stand open on the page. [-]

    Returns:
        In order: a finding as it is, or its id, verdict and margin, the rest being as settled. [-]

    Source:
        Definition.

    Example:
        >>> brief([{"id": "mass", "verdict": "holds", "margin": 0.2}], set())
        [['mass', 'holds', 0.2]]
    """
    return [
        row if row["id"] in opened else [row["id"], row["verdict"], row["margin"]] for row in rows
    ]


def change_data(changes: Sequence[Change], titles: dict[str, str]) -> list[dict[str, Any]]:
    """Computed changes as plain data.

    Args:
        changes: Of one check. [-]
        titles: Check id -> title. [-]

    Returns:
        One table a change: words, margin after it, and what gets worse. [-]

    Source:
        Definition.

    Example:
        >>> change_data((), {})
        []
    """
    return [
        {
            "words": change.words.split(":")[0],
            "all": change.words,
            "margin": change.margin,
            "values": change.values,
            "worse": [titles.get(name, name) for name in change.worsened],
        }
        for change in changes
    ]


class Stale(Exception):
    """The plane has changed meanwhile; nobody waits for the answer any more."""


def work_out_changes(
    plane: Plane, checks: Sequence[Check], *, found: Found, stale: Callable[[], bool]
) -> None:
    """Work out what would mend each finding, gravest first; slow, so run it beside the page.

    Args:
        plane: The plane. [-]
        checks: Its checks. [-]
        found: Told the changes of each finding as they come. [-]
        stale: Asked now and then; True ends the work. [-]

    Source:
        foamwright.checks.changes.

    Example:
        >>> work_out_changes(plane, checks, found=print, stale=lambda: False)  # doctest: +SKIP
    """

    def asked(changed: Plane) -> tuple[Check, ...]:
        if stale():
            raise Stale
        return verdicts(changed)

    pairs = [
        (rule, check)
        for rule, check in zip(RULES, checks, strict=True)
        if check.verdict in (Verdict.FAILS, Verdict.CLOSE)
    ]
    pairs.sort(key=lambda pair: GRAVEST_FIRST.index(pair[1].verdict))
    for rule, check in pairs:
        if stale():
            return
        try:
            found(check.id, changes_for(rule, plane, checks, verdicts=asked))
        except Stale:
            return
        except FoamwrightError:
            found(check.id, ())
