"""Computed changes: a lever solved until the check holds, then every check asked again."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from foamwright.checks.judge import CLOSE, Finding, Rule, finding_margin, finding_of
from foamwright.checks.levers import Lever, Step
from foamwright.checks.say import say
from foamwright.checks.solve import Solved, first_enough
from foamwright.core.errors import FoamwrightError
from foamwright.core.verdicts import Change, Check, Verdict

if TYPE_CHECKING:
    from collections.abc import Callable

    from foamwright.plane import Plane

WANTED = CLOSE + 0.02  # margin a change is solved for, so that it holds with a little to spare
MOST_CHANGES = 2  # shown per failing check; a close one gets one
MOST_LEVERS = 6  # tried per check
RANK = {Verdict.HOLDS: 0, Verdict.CANNOT_SAY: 1, Verdict.CLOSE: 2, Verdict.FAILS: 3}


def changes_for(
    rule: Rule,
    plane: Plane,
    checks: Sequence[Check],
    *,
    verdicts: Callable[[Plane], tuple[Check, ...]],
) -> tuple[Change, ...]:
    """Solved changes that mend one check, those that harm no other check first.

    Each lever is solved for the smallest builder's measure at which the check holds with a margin
    of 7 %; then every check of the changed plane is asked. A change that makes another check worse
    is shown only when no lever does without.

    Args:
        rule: The check to mend. [-]
        plane: The plane as it is. [-]
        checks: Its checks as they are. [-]
        verdicts: Plane -> all its checks, without changes. [-]

    Returns:
        At most two changes, for a close check at most one.

    Source:
        Definition.

    Example:
        >>> changes_for(rule, plane, checks, verdicts=verdicts)[0].words  # doctest: +SKIP
        'stab span 14 1/4 in instead of 12 in: margin becomes +9 %, mass +6 g, ...'
    """
    finding = finding_of(rule, plane)
    margin = finding_margin(finding)
    wanted = 1 if margin is not None and margin >= 0.0 else MOST_CHANGES
    clean: list[Change] = []
    harmful: list[tuple[int, Change]] = []
    partial: list[tuple[Solved, Step]] = []
    for lever in rule.levers(plane, finding)[:MOST_LEVERS]:
        solved = solve_lever(rule, plane, lever)
        if solved is None:
            continue
        step = lever.steps[solved.index]
        if not solved.enough:
            partial.append((solved, step))
            continue
        harm, change = judged(rule, plane, step, checks=checks, verdicts=verdicts)
        if change is None:
            continue
        if harm == 0:
            clean.append(change)
        else:
            harmful.append((harm, change))
        if len(clean) >= wanted:
            break
    if clean:
        return tuple(clean)
    harmful.sort(key=lambda entry: entry[0])
    if harmful:
        return (harmful[0][1],)
    return _two_steps(rule, plane, partial, checks=checks, verdicts=verdicts)


def solve_lever(rule: Rule, plane: Plane, lever: Lever) -> Solved | None:
    """First setting of a lever at which a check holds with a little to spare.

    Args:
        rule: The check. [-]
        plane: The plane as it is. [-]
        lever: Settings, nearest first. [-]

    Returns:
        The setting, or the best one seen; None when the lever does not help.

    Source:
        foamwright.checks.solve.

    Example:
        >>> 0.3 < solve_lever(rule, plane, lever).margin < 0.46
        True
    """
    present = finding_margin(finding_of(rule, plane))

    def margin_at(index: int) -> float | None:
        try:
            changed = plane.with_values(lever.steps[index].values)
            return finding_margin(finding_of(rule, changed))
        except FoamwrightError:
            return None  # not a possible plane

    return first_enough(
        margin_at,
        len(lever.steps),
        present=present if present is not None else -1.0,
        wanted=WANTED,
    )


def judged(
    rule: Rule,
    plane: Plane,
    step: Step,
    *,
    checks: Sequence[Check],
    verdicts: Callable[[Plane], tuple[Check, ...]],
) -> tuple[int, Change | None]:
    """A change with its effect on every check.

    Args:
        rule: The check it mends. [-]
        plane: The plane as it is. [-]
        step: The new values. [-]
        checks: The plane's checks as they are. [-]
        verdicts: Plane -> all its checks, without changes. [-]

    Returns:
        How much worse other checks become (0 is none) and the change; None where the changed plane
        is not possible. [-]

    Source:
        Definition.

    Example:
        >>> judged(rule, plane, step, checks=checks, verdicts=verdicts)[1]  # doctest: +SKIP
    """
    try:
        changed = plane.with_values(step.values)
        after = {check.id: check for check in verdicts(changed)}
        mass_change = changed.balance.all_up_mass - plane.balance.all_up_mass
    except FoamwrightError:
        return 0, None
    mended = after[rule.id]
    if mended.margin is None or mended.verdict is not Verdict.HOLDS:
        return 0, None
    worse = [
        (RANK[after[check.id].verdict] - RANK[check.verdict], check)
        for check in checks
        if check.id != rule.id and RANK[after[check.id].verdict] > RANK[check.verdict]
    ]
    others = (
        "all other checks still hold"
        if all(check.verdict is Verdict.HOLDS for check in after.values())
        else "no other check gets worse"
    )
    if worse:
        others = "worse: " + ", ".join(
            f"{check.title} ({after[check.id].verdict})" for _, check in worse
        )
    words = (
        f"{step.words}: margin becomes {mended.margin * 100:+.0f} %, "
        f"{_mass_words(plane, mass_change)}, {others}"
    )
    change = Change(
        values=step.values,
        words=words[0].upper() + words[1:],
        margin=mended.margin,
        mass_change=mass_change,
        worsened=tuple(check.id for _, check in worse),
    )
    return sum(amount for amount, _ in worse), change


def _mass_words(plane: Plane, change: float) -> str:
    if abs(change) < 0.00005:
        return "mass as it was"
    sign = "+" if change > 0.0 else "-"
    return f"mass {sign}{say(plane, abs(change), 'mass')}"


def _two_steps(
    rule: Rule,
    plane: Plane,
    partial: list[tuple[Solved, Step]],
    *,
    checks: Sequence[Check],
    verdicts: Callable[[Plane], tuple[Check, ...]],
) -> tuple[Change, ...]:
    """No lever is enough alone: take the best one to its end and solve another on top of it."""
    for _, first in sorted(partial, key=lambda entry: -entry[0].margin)[:2]:
        half_way = plane.with_values(first.values)
        finding: Finding = finding_of(rule, half_way)
        for lever in rule.levers(half_way, finding)[:MOST_LEVERS]:
            if set(lever.steps[0].values) & set(first.values):
                continue
            solved = solve_lever(rule, half_way, lever)
            if solved is None or not solved.enough:
                continue
            second = lever.steps[solved.index]
            both = Step({**first.values, **second.values}, f"{first.words} and {second.words}")
            _, change = judged(rule, plane, both, checks=checks, verdicts=verdicts)
            if change is not None:
                return (change,)
    return ()


def with_changes(
    rules: Sequence[Rule],
    plane: Plane,
    checks: Sequence[Check],
    *,
    verdicts: Callable[[Plane], tuple[Check, ...]],
) -> tuple[Check, ...]:
    """The checks, failing and close ones with their changes.

    Args:
        rules: In the order of checks. [-]
        plane: The plane. [-]
        checks: Without changes. [-]
        verdicts: Plane -> all its checks, without changes. [-]

    Returns:
        The checks in the same order.

    Source:
        Definition.

    Example:
        >>> with_changes(RULES, plane, checks, verdicts=verdicts)  # doctest: +SKIP
    """
    done: list[Check] = []
    for rule, check in zip(rules, checks, strict=True):
        if check.verdict not in (Verdict.FAILS, Verdict.CLOSE):
            done.append(check)
            continue
        found = changes_for(rule, plane, checks, verdicts=verdicts)
        done.append(replace(check, changes=found) if found else check)
    return tuple(done)
