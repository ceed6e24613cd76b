"""Which dimensions matter for which check: local slopes, and how far each may go."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from foamwright.checks.judge import finding_margin, finding_of
from foamwright.checks.run import RULES
from foamwright.core.errors import DesignError, DesignErrors, ModelError
from foamwright.design.change import read_value
from foamwright.design.keys import dimension_at, split

if TYPE_CHECKING:
    from foamwright.plane import Plane

type Array = NDArray[np.float64]

STEP = 0.02  # of a length, either way, for slopes
ANGLE_STEP = 0.0087  # rad, half a degree
WIDEST = 0.3  # of a length that ranges are looked for in
WIDEST_ANGLE = 0.105  # rad, six degrees
PLACES = 4  # looked at on either side before the end of a range is narrowed
HALVINGS = 4  # the end of a range is then known to a 64th of what is looked at
KEYS = (
    "wing.panel.{n}.span", "wing.panel.0.chord", "wing.panel.{n}.dihedral",
    "wing.panel.{n}.washout", "wing.incidence", "wing.position", "wing.spar.strip_width",
    "stab.span", "stab.chord", "stab.position", "fin.span", "fin.chord", "fuselage.length",
    "fuselage.height", "motor.down_thrust", "motor.right_thrust", "propeller.diameter",
    "propeller.pitch", "pack.position", "pack.capacity",
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Reach:
    """How far one dimension may go, all others kept.

    Attributes:
        key: Design key.
        value: As designed, SI.
        low: Least value at which all checks that pass now still pass. [any]
        high: Largest such value. [any]
        low_check: The first check that fails below it; None when the look ended there.
        high_check: The first above it.
    """

    key: str
    value: float
    low: float
    high: float
    low_check: str | None
    high_check: str | None


@dataclass(frozen=True, slots=True)
class Sensitivity:
    """Slopes and ranges of one design.

    Attributes:
        keys: Design keys.
        steps: By how much each was moved, either way, SI. [any]
        checks: Ids of the checks.
        margins: As designed. [-]
        slopes: Change of margin for one step up, a row a key, a column a check. [-]
        ranges: One a key; empty when not asked for.
    """

    keys: tuple[str, ...]
    steps: tuple[float, ...]
    checks: tuple[str, ...]
    margins: tuple[float, ...]
    slopes: Array
    ranges: tuple[Reach, ...]

    def matter_most(self, check: str, *, most: int = 3) -> tuple[str, ...]:
        """Keys that move a check most, strongest first."""
        column = np.abs(self.slopes[:, self.checks.index(check)])
        order = np.argsort(-column, kind="stable")[:most]
        return tuple(self.keys[i] for i in order if column[i] > 0.0)


def keys_of(plane: Plane) -> tuple[str, ...]:
    """Dimensions of a design that a builder would turn.

    Args:
        plane: The plane. [-]

    Returns:
        Design keys, those that the design lacks left out. [-]

    Source:
        Definition.

    Example:
        >>> keys_of(plane)[0]
        'wing.panel.0.span'
    """
    last = len(plane.design.wing.panel) - 1
    names = dict.fromkeys(key.format(n=last) for key in KEYS)
    return tuple(key for key in names if _number(plane, key) is not None)


def sensitivity(
    plane: Plane, *, keys: Sequence[str] | None = None, ranges: bool = True
) -> Sensitivity:
    """Slopes of every margin against every dimension, and how far each dimension may go.

    Central differences of 2 % of a length or half a degree; ranges by looking outwards and halving.

    Args:
        plane: The plane. [-]
        keys: Design keys; None takes the usual ones. [-]
        ranges: Whether to look for ranges too; they take most of the time. [-]

    Returns:
        Slopes and ranges. [-]

    Valid:
        One dimension at a time, all others as designed; the pack stays where it is.

    Source:
        Central differences.

    Example:
        >>> found = sensitivity(plane, keys=("stab.span",), ranges=False)
        >>> bool(found.slopes[0, found.checks.index("static_margin")] != 0.0)
        True
    """
    chosen = tuple(keys_of(plane) if keys is None else keys)
    base = margins_of(plane) or {}
    checks = tuple(base)
    steps = tuple(_step(plane, key) for key in chosen)
    slopes = np.array(
        [_slope(plane, key, step, base) for key, step in zip(chosen, steps, strict=True)]
    ).reshape(len(chosen), len(checks))
    reach = tuple(reach_of(plane, key) for key in chosen) if ranges else ()
    return Sensitivity(chosen, steps, checks, tuple(base.values()), slopes, reach)


def margins_of(plane: Plane) -> dict[str, float] | None:
    """Margin of every check that can be said.

    Args:
        plane: The plane. [-]

    Returns:
        Check id -> margin; None when the plane cannot be built or computed. [-]

    Source:
        Definition.

    Example:
        >>> margins_of(plane)["static_margin"] > 0.0
        True
    """
    try:
        found = {rule.id: finding_margin(finding_of(rule, plane)) for rule in RULES}
    except (DesignError, DesignErrors, ModelError):
        return None
    return {check: margin for check, margin in found.items() if margin is not None}


def _moved(plane: Plane, key: str, value: float) -> dict[str, float] | None:
    try:
        return margins_of(plane.with_values({key: value}))
    except (DesignError, DesignErrors, ModelError):
        return None


def _number(plane: Plane, key: str) -> float | None:
    try:
        value = read_value(plane.design, key)
    except DesignErrors:
        return None
    return float(value) if isinstance(value, (int, float)) else None


def _is_angle(key: str) -> bool:
    return dimension_at(split(key)) == "angle"


def _step(plane: Plane, key: str) -> float:
    return ANGLE_STEP if _is_angle(key) else STEP * (_number(plane, key) or 0.0)


def _slope(plane: Plane, key: str, step: float, base: dict[str, float]) -> list[float]:
    value = _number(plane, key) or 0.0
    up, down = _moved(plane, key, value + step), _moved(plane, key, value - step)
    if up is None and down is None:
        return [0.0] * len(base)
    scale = 0.5 if up is not None and down is not None else 1.0
    high, low = up if up is not None else base, down if down is not None else base
    return [scale * (high.get(c, m) - low.get(c, m)) for c, m in base.items()]


def reach_of(plane: Plane, key: str) -> Reach:
    """How far one dimension may go until the first check that passes now fails.

    Args:
        plane: The plane. [-]
        key: Design key. [-]

    Returns:
        Both ends and what fails there. [-]

    Source:
        Looking outwards in even steps, then halving; a check that fails and passes again between
        two looks is not seen.

    Example:
        >>> reach_of(plane, "pack.position").low_check  # doctest: +SKIP
        'static_margin'
    """
    value = _number(plane, key) or 0.0
    passing = {check for check, margin in (margins_of(plane) or {}).items() if margin >= 0.0}
    width = WIDEST_ANGLE if _is_angle(key) else WIDEST * value
    ends: list[tuple[float, str | None]] = []
    for sign in (-1.0, 1.0):
        inside, failed = value, None
        for outside in _outwards(value, sign * width):
            failed = _failing(plane, key, outside, passing)
            if failed is not None:
                inside, failed = _narrowed(plane, key, (inside, outside), passing, failed)
                break
            inside = outside
        ends.append((inside, failed))
    (low, low_check), (high, high_check) = ends
    return Reach(key, value, low, high, low_check, high_check)


def _outwards(value: float, width: float) -> Iterator[float]:
    return (value + width * (i + 1) / PLACES for i in range(PLACES))


def _failing(plane: Plane, key: str, value: float, passing: set[str]) -> str | None:
    margins = _moved(plane, key, value)
    if margins is None:
        return "cannot be built"
    return next((c for c in sorted(passing) if margins.get(c, -1.0) < 0.0), None)


def _narrowed(
    plane: Plane, key: str, ends: tuple[float, float], passing: set[str], failed: str
) -> tuple[float, str]:
    inside, outside = ends
    for _ in range(HALVINGS):
        middle = 0.5 * (inside + outside)
        found = _failing(plane, key, middle, passing)
        inside, outside, failed = (
            (middle, outside, failed) if found is None else (inside, middle, found)
        )
    return inside, failed
