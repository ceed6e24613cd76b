"""The one task that workers do, here or on a cluster: score rows, or draw builds of them."""

from __future__ import annotations

import os
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np

from foamwright.checks.builds import margins_of_builds
from foamwright.core.errors import DesignError, DesignErrors, ModelError
from foamwright.idea.problem import Case, problem_of
from foamwright.idea.score import Score, candidate, score

BUILDS = 300  # a share is then known to about three points
SEED = 1  # of the builds: every candidate meets the same ones


@dataclass(frozen=True, slots=True)
class Drawn:
    """Many builds of one candidate.

    Attributes:
        share: Of them, those in which every check passes. [-]
        spreads: Check id -> standard deviation of its margin. [-]
        shares: Check id -> share of builds that pass it. [-]
    """

    share: float
    spreads: dict[str, float]
    shares: dict[str, float]


type Row = tuple[float, ...]
type Answer = Score | Drawn


def answer(
    case: Case, kind: Literal["score", "draw"], rows: Sequence[Row], *, builds: int = BUILDS
) -> list[Answer]:
    """Score rows of genes, or draw many builds of each.

    Args:
        case: What they belong to. [-]
        kind: What is asked. [-]
        rows: Genes, each from 0 to 1. [-]
        builds: How many builds. [-]

    Returns:
        One answer a row. [-]

    Source:
        Definition.

    Example:
        >>> answer(case, "score", [problem.shares({})])[0].shortfall >= 0.0
        True
    """
    # Thousands of sections are met once each: they are not kept on the disk.
    os.environ.setdefault("FOAMWRIGHT_CACHE", "off")
    problem = problem_of(case)
    if kind == "score":
        return [score(problem, np.array(row)) for row in rows]
    return [_drawn(case, row, builds) for row in rows]


def _drawn(case: Case, row: Row, builds: int) -> Drawn:
    problem = problem_of(case)
    try:
        plane = candidate(problem, np.array(row))
        margins = margins_of_builds(plane, count=builds, seed=SEED)
    except (DesignError, DesignErrors, ModelError):
        return Drawn(0.0, {}, {})
    passes = np.all([margin >= 0.0 for margin in margins.values()], axis=0)
    spreads = {check: float(np.std(margin)) for check, margin in margins.items()}
    shares = {check: float(np.mean(margin >= 0.0)) for check, margin in margins.items()}
    return Drawn(float(np.mean(passes)), spreads, shares)
