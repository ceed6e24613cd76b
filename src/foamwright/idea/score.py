"""What one candidate is worth: the real plane, asked cheap questions first."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from foamwright.checks.judge import Rule, finding_margin, finding_of
from foamwright.checks.results import results_of
from foamwright.checks.run import RULES, verdicts
from foamwright.checks.side_loads import SIDE_RULES
from foamwright.checks.strength import STRENGTH_RULES
from foamwright.core.errors import DesignError, DesignErrors, ModelError
from foamwright.idea.balance import balanced
from foamwright.idea.layout import design_of
from foamwright.idea.problem import Problem
from foamwright.idea.wanted import wish_faults
from foamwright.plane import Above, Plane
from foamwright.shape.planform import flat_span
from foamwright.sheets.draft import bench_of, layout_of
from foamwright.sheets.place import board_parts

if TYPE_CHECKING:
    from pathlib import Path

    from foamwright.design.model import Design
    from foamwright.power.model import PowerResult, PowerTrain

type Array = NDArray[np.float64]

EARLY = ("wing_loading", "stall_speed", "all_up_mass", "cube_loading", "static_margin",
         "tail_volume_horizontal", "tail_volume_vertical", "dihedral", "section_target",
         "wing_thickness", "aspect_ratio", "stall_place", "cg_range")  # fmt: skip
LAST = ("parts_fit", "boards", "joints_staggered")  # want the layout
MAY_BE_SILENT = ("section_target",)  # a stepped wing copies no section
HOPELESS = 0.6  # summed shortfall of a stage after which the dearer rooms are not asked
STAGE = 4.0  # added for each stage that was not reached, more than a stage can miss by
WORST = 1.0  # most that one check can miss by in the sum
UNBUILDABLE = 20.0
UNSAID = 0.2
MOST_GEAR = 400  # power sets remembered


def _drawing(plane: Plane, path: Path | None) -> object:
    from foamwright.sheets.views import draw_three_view  # draws with a heavy library

    return draw_three_view(plane, path)


QUICK = Above(checks=verdicts, layout=layout_of, drawing=_drawing, results=results_of)


def _stages() -> tuple[tuple[Rule, ...], ...]:
    strong = {rule.id for rule in (*STRENGTH_RULES, *SIDE_RULES)}
    middle = {rule.id for rule in RULES} - strong - {*EARLY, *LAST}
    return tuple(
        tuple(rule for rule in RULES if rule.id in names)
        for names in (set(EARLY), middle, strong, set(LAST))
    )


STAGES = _stages()


@dataclass(frozen=True, slots=True)
class Score:
    """What one candidate is worth.

    Attributes:
        shares: The row of genes, what was solved put back in. [-]
        shortfall: Summed shortfall of checks and wishes; 0 when all hold. [-]
        checks_shortfall: The part of it that no wish can mend by giving way. [-]
        wishes: Wish -> by how much of its limit it is missed, those missed only. [-]
        margins: Check id -> margin, those asked. [-]
        figures: Stall speed, endurance, mass, span, area, boards and so on, SI; empty when the
            plane was not computed to the end.
        pack: Place of the pack that balances it. [m]
    """

    shares: tuple[float, ...]
    shortfall: float
    checks_shortfall: float
    wishes: dict[str, float] = field(default_factory=dict[str, float])
    margins: dict[str, float] = field(default_factory=dict[str, float])
    figures: dict[str, float] = field(default_factory=dict[str, float])
    pack: float = 0.0

    @property
    def passes(self) -> bool:
        """Whether every check and every wish but the share of builds is met."""
        return self.shortfall <= 0.0


def plane_of(problem: Problem, design: Design) -> Plane:
    """A plane on the problem's stock, whose checks bring no changes.

    Args:
        problem: The bench and wishes. [-]
        design: The design. [-]

    Returns:
        The plane. [-]

    Source:
        Definition.

    Example:
        >>> plane_of(problem, plane.design).balance.all_up_mass > 0.3
        True
    """
    return Plane(design, problem.stock, QUICK)


def candidate(problem: Problem, shares: Array) -> Plane:
    """The balanced plane that a row of genes means.

    Args:
        problem: The bench and wishes. [-]
        shares: A row of genes. [-]

    Returns:
        The plane, its pack and nose where they balance it. [-]

    Raises:
        DesignErrors: It cannot be built.
        ModelError: It cannot be computed.

    Source:
        Definition.

    Example:
        >>> candidate(problem, problem.shares({})).design.pack.cells
        3
    """
    values = problem.values(shares)
    plane = plane_of(problem, design_of(problem, values))
    train, power = _turning(problem, plane, values["gear"])
    plane.__dict__["train"] = train
    found = balanced(plane, problem.step)
    found.__dict__.update(train=train, power=power)
    return found


_POWER: dict[object, tuple[PowerTrain, PowerResult]] = {}


def _turning(problem: Problem, plane: Plane, gear: object) -> tuple[PowerTrain, PowerResult]:
    """Train and power of a power set: the same for every plane that carries it in the same air."""
    field = problem.wishes.field
    key = (gear, field.altitude, field.temperature, problem.stock_file)
    if key not in _POWER:
        if len(_POWER) > MOST_GEAR:
            _POWER.clear()
        _POWER[key] = (plane.train, plane.power)
    return _POWER[key]


def score(problem: Problem, shares: Array) -> Score:
    """Compute one candidate, the dear rooms only when the cheap ones give hope.

    Args:
        problem: The bench and wishes. [-]
        shares: A row of genes, each from 0 to 1. [-]

    Returns:
        What it is worth; a plane that cannot be built has a large shortfall. [-]

    Source:
        Constraint violation summed over checks, as in [DEB].

    Example:
        >>> score(problem, problem.shares({})).shortfall >= 0.0
        True
    """
    row = tuple(shares.tolist())
    try:
        plane = candidate(problem, shares)
        row = _put_back(problem, shares, plane)
        return _asked(problem, plane, row)
    except DesignErrors as error:
        lost = UNBUILDABLE + len(error.errors)
    except (DesignError, ModelError):
        lost = UNBUILDABLE
    return Score(row, lost, lost)


def _put_back(problem: Problem, shares: Array, plane: Plane) -> tuple[float, ...]:
    """What was solved, as genes, so that those that follow inherit it."""
    span = float(problem.values(shares)["span"])  # type: ignore[arg-type]
    solved = {
        "nose_share": plane.design.wing.position / span,
        "pack_share": plane.design.pack.position / span,
    }
    row = shares.tolist()
    for index, gene in enumerate(problem.genes):
        if gene.name in solved:
            row[index] = gene.share(solved[gene.name])
    return tuple(row)


def _asked(problem: Problem, plane: Plane, row: tuple[float, ...]) -> Score:
    margins: dict[str, float] = {}
    missed = 0.0
    boards = problem.wishes.wish.boards_most or problem.wishes.board.count
    for number, rules in enumerate(STAGES):
        silent = _margins_into(margins, rules, plane)
        crowd = _crowding(plane, boards) if number == 0 else 0.0
        missed = sum(min(max(-m, 0.0), WORST) for m in margins.values()) + UNSAID * silent + crowd
        last = number == len(STAGES) - 1
        hopeless = missed > (HOPELESS if number < 2 else 0.0)
        if hopeless and not last and not problem.stretched:
            lost = missed + STAGE * (len(STAGES) - 1 - number)
            return Score(row, lost, lost, margins=margins, pack=plane.design.pack.position)
    figures = figures_of(plane)
    faults = wish_faults(problem.wishes, plane, figures)
    return Score(
        shares=row,
        shortfall=missed + sum(faults.values()),
        checks_shortfall=missed,
        wishes=faults,
        margins=margins,
        figures=figures,
        pack=plane.design.pack.position,
    )


def _margins_into(margins: dict[str, float], rules: tuple[Rule, ...], plane: Plane) -> int:
    """Ask some checks; how many could not be said."""
    silent = 0
    for rule in rules:
        margin = finding_margin(finding_of(rule, plane))
        if margin is not None:
            margins[rule.id] = margin
        elif rule.id not in MAY_BE_SILENT:
            silent += 1
    return silent


def _crowding(plane: Plane, boards: int) -> float:
    """How far the parts' area alone exceeds the boards."""
    bench = bench_of(plane)
    area = sum(part.outline.area for part in board_parts(plane.parts.parts))
    free = sum(long * wide for long, wide in bench.offcuts)
    whole = (bench.length - 2 * bench.margin) * (bench.width - 2 * bench.margin)
    return max(area / (boards * whole + free) - 1.0, 0.0)


def figures_of(plane: Plane) -> dict[str, float]:
    """The figures that proposals are compared by.

    Args:
        plane: The plane. [-]

    Returns:
        Name -> value: mass, span, area, chord, length, stall_speed, endurance, boards, board_area,
        climb_rate, top_speed, level_speed, launch_drop, static_margin, glide_ratio. [any]

    Source:
        Definition.

    Example:
        >>> figures_of(plane)["boards"]
        4.0
    """
    aero, flown = plane.aero, plane.flight.performance
    area = sum(part.outline.area for part in board_parts(plane.parts.parts))
    return {
        "mass": plane.balance.all_up_mass,
        "span": flat_span(plane.design),
        "area": aero.wing_area,
        "chord": aero.mean_chord,
        "length": plane.design.fuselage.length,
        "stall_speed": aero.stall_speed,
        "endurance": flown.endurance,
        "boards": float(plane.layout.boards_used),
        "board_area": area,
        "climb_rate": flown.climb_rate,
        "top_speed": flown.top_speed,
        "level_speed": flown.level_speed,
        "launch_drop": plane.flight.launch.height_lost,
        "static_margin": aero.static_margin,
        "glide_ratio": flown.glide_ratio,
    }


Scorer = Callable[[Problem, Array], Score]
