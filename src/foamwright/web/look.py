"""One look at a plane: everything that a page shows of it, as plain data."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

from foamwright.checks.run import verdicts
from foamwright.core.errors import FoamwrightError
from foamwright.core.units import format_value
from foamwright.web.dimensions import board_data
from foamwright.web.figure import anchors, figure_of, marks_of, sections_of
from foamwright.web.findings import findings_of

if TYPE_CHECKING:
    from foamwright.core.verdicts import Check
    from foamwright.plane import Plane
    from foamwright.web.desk import Desk


@dataclass(frozen=True, slots=True)
class Look:
    """What a page shows of one state of a plane.

    Attributes:
        board: Data of the drawing board.
        checks: Verdicts, without changes.
        findings: The same as plain data.
        figures: Name, value in words, term of the glossary, for the title block.
        trouble: What could not be computed, in words; "" for none.
    """

    board: dict[str, Any]
    checks: tuple[Check, ...] = ()
    findings: list[dict[str, Any]] = field(default_factory=list)
    figures: list[tuple[str, str, str]] = field(default_factory=list)
    trouble: str = ""

    @property
    def pins(self) -> list[dict[str, str]]:
        """Findings that are pinned on the drawing."""
        return [
            {key: row[key] for key in ("id", "title", "verdict", "anchor")}
            for row in self.findings
            if row["verdict"] in ("fails", "close") and row["anchor"]
        ]

    @property
    def margins(self) -> dict[str, float | None]:
        """Check id -> margin."""
        return {check.id: check.margin for check in self.checks}


def look_of(desk: Desk) -> Look:
    """What pages show of the plane on a desk; worked out once for all pages that show it.

    Args:
        desk: The desk; its plane can be read. [-]

    Returns:
        Plain data. [-]

    Raises:
        FoamwrightError: The file cannot be read.

    Source:
        Definition.

    Example:
        >>> look_of(desk).trouble  # doctest: +SKIP
        ''
    """
    with desk.lock:
        generation, plane = desk.generation, desk.plane
        if plane is None:
            raise FoamwrightError("The file cannot be read.")
        if desk.seen is None or desk.seen.board["generation"] != generation:
            desk.seen = look_at(plane, generation)
        return desk.seen


def look_at(plane: Plane, generation: int) -> Look:
    """Ask a plane for everything that a page shows.

    Args:
        plane: The plane. [-]
        generation: Number of this state, so that late answers are known as late. [-]

    Returns:
        Plain data; with `trouble` when the model cannot say it all. [-]

    Source:
        Definition.

    Example:
        >>> look_at(plane, 0).trouble
        ''
    """
    units = plane.design.units
    board = board_of(plane, generation)
    try:
        checks = verdicts(plane)
        board["marks"] = marks_of(plane)
        return Look(board, checks, findings_of(checks, units), figures_of(plane))
    except FoamwrightError as error:
        return Look(board, trouble=str(error))


def board_of(plane: Plane, generation: int) -> dict[str, Any]:
    """Data of the drawing board, marks of the balance point left open.

    Args:
        plane: The plane. [-]
        generation: Number of this state. [-]

    Returns:
        Outlines, dimensions, places of findings, sections. [-]

    Source:
        Definition.

    Example:
        >>> board_of(plane, 0)["marks"] is None
        True
    """
    return {
        "generation": generation,
        "name": plane.design.name,
        "units": plane.design.units,
        "figure": figure_of(plane),
        "dims": board_data(plane),
        "anchors": anchors(plane),
        "sections": sections_of(plane),
        "marks": None,
        "edge": plane.airframe.wing.panels[0].root[0],
    }


def figures_of(plane: Plane) -> list[tuple[str, str, str]]:
    """The figures of the title block.

    Args:
        plane: The plane. [-]

    Returns:
        Label, value in the design's units, and term of the glossary. [-]

    Source:
        Definition.

    Example:
        >>> figures_of(plane)[0]  # doctest: +SKIP
        ('all-up', '23.2 oz', 'all-up')
    """
    units, balance, aero = plane.design.units, plane.balance, plane.aero
    edge = plane.airframe.wing.panels[0].root[0]

    def say(value: float, dimension: str) -> str:
        return format_value(value, dimension, units)

    loading = balance.all_up_mass / aero.wing_area
    return [
        ("all-up", say(balance.all_up_mass, "mass"), "all-up"),
        ("balance, behind wing edge", say(balance.cg[0] - edge, "length"), "balance point"),
        ("static margin", f"{100 * aero.static_margin:.0f} %", "static margin"),
        ("wing loading", say(loading, "areal mass"), "wing loading"),
        ("stall", say(aero.stall_speed, "speed"), "stall"),
    ]
