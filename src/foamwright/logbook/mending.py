"""Solved changes for what checks find on the next version, every check run again after each."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from foamwright.checks.changes import changes_for
from foamwright.checks.run import RULES, verdicts
from foamwright.core.errors import FoamwrightError
from foamwright.core.verdicts import GRAVEST_FIRST, Verdict
from foamwright.logbook.change import NextChange, from_to

if TYPE_CHECKING:
    from foamwright.core.verdicts import Change, Check
    from foamwright.plane import Plane

ROUNDS = 14  # findings mended at most


def mending_changes(
    plane: Plane, *, progress: Callable[[str, float], None] | None = None
) -> tuple[tuple[NextChange, ...], Plane]:
    """Solved changes for what checks find on a plane, one after another, every check re-run.

    The gravest finding's first change that lowers the number of failing checks, or keeps it with
    fewer close ones, is taken; then the rest are asked again.

    Args:
        plane: The plane as it would be. [-]
        progress: Told a step and how much is done. [-]

    Returns:
        Changes of kind "check", and the plane with them.

    Source:
        foamwright.checks.

    Example:
        >>> mending_changes(plane)[0]
        ()
    """
    found: list[NextChange] = []
    hopeless: set[str] = set()
    for turn in range(ROUNDS):
        checks = verdicts(plane)
        failing = [c for c in checks if c.verdict is Verdict.FAILS and c.id not in hopeless]
        if not failing:
            break
        if progress:
            progress(f"mending {failing[0].title}", turn / ROUNDS)
        taken = _first_that_helps(plane, failing[0], checks)
        if not taken:
            hopeless.add(failing[0].id)
            continue
        for check, change in taken:
            found.append(_mended(plane, check, change))
            plane = plane.with_values(change.values)
    return tuple(found), plane


def _score(checks: tuple[Check, ...]) -> tuple[int, ...]:
    return tuple(sum(c.verdict is v for c in checks) for v in GRAVEST_FIRST[:2])


type Step = tuple[Check, Change]


def _first_that_helps(
    plane: Plane, check: Check, checks: tuple[Check, ...], *, deeper: bool = True
) -> tuple[Step, ...]:
    """The first change that lowers the score; else two, the second for what the first spoils."""
    rule = next(rule for rule in RULES if rule.id == check.id)
    now = _score(checks)
    before = {one.id for one in checks if one.verdict is Verdict.FAILS}
    spoiling: list[tuple[Change, Plane, tuple[Check, ...]]] = []
    for change in changes_for(rule, plane, checks, verdicts=verdicts):
        try:
            after = plane.with_values(change.values)
            found = verdicts(after)
        except FoamwrightError:
            continue
        if _score(found) < now:
            return ((check, change),)
        spoiling.append((change, after, found))
    for change, after, found in spoiling if deeper else ():
        failing = [one for one in found if one.verdict is Verdict.FAILS]
        new = [one for one in failing if one.id not in before]
        if len(new) != 1 or check.id in {one.id for one in failing}:
            continue
        second = _first_that_helps(after, new[0], found, deeper=False)
        if second and _score(verdicts(after.with_values(second[0][1].values))) < now:
            return ((check, change), *second)
    return ()


def _mended(plane: Plane, check: Check, change: Change) -> NextChange:
    return NextChange(
        "check", change.values, from_to(plane, change.values),
        f"check: {check.title} fails: {check.why}", change.words,
    )  # fmt: skip
