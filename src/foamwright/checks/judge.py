"""From a value and its limits to a verdict. The rule of margins stands here and nowhere else.

Margin: with one limit, the distance to it as a share of the limit; with two limits, the distance to
the nearer one as a share of the width between them. Positive is inside. A check holds from a margin
of 5 % on, is close from 0 to 5 %, and fails below 0.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from foamwright.core.errors import ModelError
from foamwright.core.verdicts import Check, Verdict
from foamwright.core.words import in_units

if TYPE_CHECKING:
    from foamwright.checks.levers import Lever
    from foamwright.plane import Plane

CLOSE = 0.05  # margin below which a check that holds is called close; common practice, no source


@dataclass(frozen=True, slots=True)
class Finding:
    """What one check function says about a plane.

    Attributes:
        value: SI; None when it cannot be said.
        why: One sentence with numbers in the design's units.
        low: Lower limit, SI; None when there is none.
        high: Upper limit, SI; None when there is none.
        impossible: Whether a missing value means that the plane cannot do it (fails) and not that
            the model cannot say.
    """

    value: float | None
    why: str
    low: float | None = None
    high: float | None = None
    impossible: bool = False


@dataclass(frozen=True, slots=True)
class Rule:
    """One check: what it is called, how it is found, what may mend it.

    Attributes:
        id: Short stable name.
        title: In trade words.
        unit: SI unit of value and limits.
        limits: The limits in words, for the docs.
        source: Publication, or "common practice, no source".
        place: Where on the plane it speaks of.
        find: Plane -> finding.
        levers: (plane, finding) -> design values worth changing, best first.
    """

    id: str
    title: str
    unit: str
    limits: str
    source: str
    place: str
    find: Callable[[Plane], Finding]
    levers: Callable[[Plane, Finding], tuple[Lever, ...]]


def margin_of(value: float, low: float | None, high: float | None) -> float | None:
    """Distance to the nearest limit as a fraction, positive inside.

    One limit: (value - low)/|low| or (high - value)/|high|. Two limits: the smaller distance over
    high - low.

    Args:
        value: [any]
        low: Lower limit; None when there is none. [any]
        high: Upper limit; None when there is none. [any]

    Returns:
        Margin; None without limits. [-]

    Source:
        Definition.

    Example:
        >>> round(margin_of(1.09, 1.0, None), 2), round(margin_of(8.0, 0.0, 10.0), 2)
        (0.09, 0.2)
    """
    if low is not None and high is not None:
        width = high - low
        if width <= 0.0:
            return -1.0 - max(low - value, value - high, 0.0) / max(abs(low), abs(high), 1e-12)
        return min(value - low, high - value) / width
    if low is not None:
        return (value - low) / max(abs(low), 1e-12)
    if high is not None:
        return (high - value) / max(abs(high), 1e-12)
    return None


def verdict_of(margin: float | None) -> Verdict:
    """Verdict of a margin.

    Args:
        margin: [-]

    Returns:
        Holds from 5 %, close from 0 to 5 %, fails below 0.

    Source:
        Common practice, no source.

    Example:
        >>> [str(verdict_of(m)) for m in (0.09, 0.02, -0.3, None)]
        ['holds', 'close', 'fails', 'cannot say']
    """
    if margin is None:
        return Verdict.CANNOT_SAY
    if margin < 0.0:
        return Verdict.FAILS
    return Verdict.CLOSE if margin < CLOSE else Verdict.HOLDS


def finding_of(rule: Rule, plane: Plane) -> Finding:
    """Ask one check; what the physics cannot answer becomes "cannot say" with the reason.

    Args:
        rule: The check. [-]
        plane: The plane. [-]

    Returns:
        Its finding.

    Source:
        Definition.

    Example:
        >>> round(finding_of(rule, plane).value, 2)
        0.67
    """
    try:
        finding = rule.find(plane)
    except ModelError as error:
        finding = Finding(None, f"It cannot be said: {' '.join(error.args)}")
    why = in_units(finding.why, plane.design.units)
    if finding.value is not None and not math.isfinite(finding.value):
        return Finding(None, f"It cannot be said: the model gave no finite number. {why}")
    return finding if why == finding.why else replace(finding, why=why)


def finding_margin(finding: Finding) -> float | None:
    """Margin of a finding.

    Args:
        finding: What a check found. [-]

    Returns:
        Margin; -1 when the plane cannot do it at all; None when it cannot be said. [-]

    Source:
        Definition.

    Example:
        >>> finding_margin(Finding(None, "no throttle holds it", impossible=True))
        -1.0
    """
    if finding.value is None:
        return -1.0 if finding.impossible else None
    return margin_of(finding.value, finding.low, finding.high)


def check_of(rule: Rule, finding: Finding) -> Check:
    """A check without changes.

    Args:
        rule: The check. [-]
        finding: What it found. [-]

    Returns:
        The check.

    Source:
        Definition.

    Example:
        >>> check_of(rule, finding).verdict
        <Verdict.HOLDS: 'holds'>
    """
    margin = finding_margin(finding)
    return Check(
        id=rule.id,
        title=rule.title,
        verdict=verdict_of(margin),
        value=finding.value,
        unit=rule.unit,
        low=finding.low,
        high=finding.high,
        margin=margin,
        why=finding.why,
        source=rule.source,
        place=rule.place,
    )
