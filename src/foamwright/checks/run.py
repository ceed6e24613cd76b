"""All checks of a plane."""

from __future__ import annotations

from typing import TYPE_CHECKING

from foamwright.checks.build import BUILD_RULES
from foamwright.checks.changes import with_changes
from foamwright.checks.control import CONTROL_RULES
from foamwright.checks.cutting import CUTTING_RULES
from foamwright.checks.judge import Rule, check_of, finding_of
from foamwright.checks.mass import MASS_RULES
from foamwright.checks.power import POWER_RULES
from foamwright.checks.rules import REGULATION_RULES
from foamwright.checks.side_loads import SIDE_RULES
from foamwright.checks.stability import STABILITY_RULES
from foamwright.checks.stall import STALL_RULES
from foamwright.checks.strength import STRENGTH_RULES
from foamwright.checks.trim import TRIM_RULES

if TYPE_CHECKING:
    from foamwright.core.verdicts import Check
    from foamwright.plane import Plane

RULES: tuple[Rule, ...] = (
    *MASS_RULES,
    *STALL_RULES,
    *STABILITY_RULES,
    *CONTROL_RULES,
    *TRIM_RULES,
    *POWER_RULES,
    *STRENGTH_RULES,
    *SIDE_RULES,
    *BUILD_RULES,
    *CUTTING_RULES,
    *REGULATION_RULES,
)


def verdicts(plane: Plane) -> tuple[Check, ...]:
    """Every check without changes: the quick re-check after a value was changed.

    Args:
        plane: The plane. [-]

    Returns:
        Checks in the order of RULES.

    Raises:
        DesignError: A part of the plane cannot be made as designed.

    Source:
        The rule of margins stands in foamwright.checks.judge.

    Example:
        >>> len(verdicts(plane)) >= 32
        True
    """
    return tuple(check_of(rule, finding_of(rule, plane)) for rule in RULES)


def run_checks(plane: Plane) -> tuple[Check, ...]:
    """Every check, failing and close ones with solved changes.

    Args:
        plane: The plane. [-]

    Returns:
        Checks in the order of RULES.

    Raises:
        DesignError: A part of the plane cannot be made as designed.

    Source:
        Definition.

    Example:
        >>> run_checks(plane)[0].title
        'All-up mass'
    """
    return with_changes(RULES, plane, verdicts(plane), verdicts=verdicts)
