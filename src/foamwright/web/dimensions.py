"""Dimensions on the drawing board: where each is drawn, what it reads, what it changes."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from foamwright.core.errors import DesignError, FoamwrightError
from foamwright.core.units import UnitError, format_value, parse
from foamwright.shape.planform import flat_span
from foamwright.web.figure import figure_of, flat
from foamwright.web.moves import values_for

if TYPE_CHECKING:
    from foamwright.plane import Plane
    from foamwright.shape.model import LiftingSurface, Point, Vector

BARE = {"length": {"metric": "mm", "inch": "in"}, "angle": {"metric": "deg", "inch": "deg"}}
SMALL_STEP = {"length": 0.002, "angle": 0.004}  # m, rad: change over which outlines are compared
HELP = {
    "span": "Tip to tip, as the halves lie flat on the bench.",
    "chord": "Width of the wing from leading to trailing edge, at the middle.",
    "tip_chord": "Width of the wing at its tip; less than at the middle makes it taper.",
    "wing_position": "Slides the wing along the fuselage; nothing else moves.",
    "nose": "From the nose to the wing. A longer nose takes more of the balance without lead; "
    "wing and tail move with it.",
    "arm": "From the wing's leading edge to the stab's. A longer arm makes a small tail strong; "
    "the fuselage grows with it.",
    "stab_span": "Tip to tip of the flat tail.",
    "stab_chord": "Width of the stab, elevator included.",
    "fin_height": "Height of the fin.",
    "fin_chord": "Width of the fin at its foot, rudder included.",
    "pack": "The middle of the pack. It is the heaviest thing you can move: drag it to balance.",
    "motor": "Height of the shaft above the fuselage line.",
    "dihedral": "How far the wing tips rise: the plane rights itself from a bank.",
}


@dataclass(frozen=True, slots=True)
class Dimension:
    """One dimension of the drawing.

    Attributes:
        id: Short name, such as "stab_span".
        label: In trade words.
        view: "top", "side" or "front".
        start: One end, in the view. [m]
        end: Other end, which moves. [m]
        side: Unit vector towards which the dimension line stands off. [-]
        level: How far it stands off, in rows. [-]
        value: Length or angle now. [m or rad]
        kind: "length" or "angle".
        block: Id of the item that is dragged itself; "" for a dimension line.
    """

    id: str
    label: str
    view: str
    start: Point
    end: Point
    side: Point
    level: int
    value: float
    kind: str = "length"
    block: str = ""


def dimensions_of(plane: Plane, *, items: bool = True) -> list[Dimension]:
    """Every dimension that can be dragged or typed on the board.

    Args:
        plane: The plane. [-]
        items: Whether the things that are dragged themselves, pack and motor, are among them. [-]

    Returns:
        Dimensions, wing first. [-]

    Source:
        Definition.

    Example:
        >>> [d.id for d in dimensions_of(plane)][:2]  # doctest: +SKIP
        ['span', 'chord']
    """
    fixed = [*_wing(plane), *_tail(plane), *_lengthwise(plane)]
    return [*fixed, *_loose(plane)] if items else fixed


def _wing(plane: Plane) -> list[Dimension]:
    design, wing = plane.design, plane.airframe.wing
    root, tip = wing.panels[0], wing.panels[-1]
    left = flat("top", (tip.tip[0], -tip.tip[1], tip.tip[2]))
    right = flat("top", tip.tip)
    x = root.root[0]
    found = [
        Dimension("span", "span", "top", left, right, (0.0, 1.0), 1, flat_span(design)),
        Dimension(
            "chord",
            "chord",
            "top",
            flat("top", (x, 0.0, 0.0)),
            flat("top", (x + root.root_chord, 0.0, 0.0)),
            (-1.0, 0.0),
            0,
            root.root_chord,
        ),
    ]
    if design.wing.panel[-1].tip_chord is not None:
        end = (tip.tip[0] + tip.tip_chord, tip.tip[1], tip.tip[2])
        ends = flat("top", tip.tip), flat("top", end)
        found.append(
            Dimension("tip_chord", "tip chord", "top", *ends, (1.0, 0.0), 1, tip.tip_chord)
        )
    for index, (panel, shape) in enumerate(zip(design.wing.panel, wing.panels, strict=True)):
        label = "dihedral" if len(wing.panels) == 1 else f"dihedral, panel {index + 1}"
        ends = flat("front", shape.root), flat("front", shape.tip)
        found.append(
            Dimension(
                f"dihedral.{index}",
                label,
                "front",
                *ends,
                (0.0, 1.0),
                0,
                panel.dihedral,
                kind="angle",
            )
        )
    return found


def _tail(plane: Plane) -> list[Dimension]:
    design, stab = plane.design, plane.airframe.stab
    tip, root = stab.panels[-1], stab.panels[0]
    behind = tip.tip[0] + tip.tip_chord
    ends = flat("top", (behind, -tip.tip[1], 0.0)), flat("top", (behind, tip.tip[1], 0.0))
    back = (root.root[0] + root.root_chord, 0.0, 0.0)
    chord_ends = flat("top", root.root), flat("top", back)
    out = _beyond(chord_ends, stab)
    found = [
        Dimension("stab_span", "stab span", "top", *ends, (0.0, -1.0), 0, design.stab.span),
        Dimension("stab_chord", "stab chord", "top", *out, (1.0, 0.0), 1, design.stab.chord),
    ]
    fin = plane.airframe.fin
    if fin is not None and design.fin is not None:
        foot, top = fin.panels[0], fin.panels[-1]
        low = flat("side", (top.tip[0] + top.tip_chord, 0.0, foot.root[2]))
        high = flat("side", (top.tip[0] + top.tip_chord, 0.0, top.tip[2]))
        found.append(
            Dimension("fin_height", "fin height", "side", low, high, (1.0, 0.0), 1, design.fin.span)
        )
    return found


def _beyond(ends: tuple[Point, Point], stab: LiftingSurface) -> tuple[Point, Point]:
    """The chord at the tip's place, so that the line stands clear of the stab."""
    reach = stab.panels[-1].tip[1]
    return (reach, ends[0][1]), (reach, ends[1][1])


def _lengthwise(plane: Plane) -> list[Dimension]:
    airframe = plane.airframe
    wing, stab = airframe.wing.panels[0].root, airframe.stab.panels[0].root
    bottom = min(station.bottom for station in airframe.body.stations)
    nose: Vector = (0.0, 0.0, bottom)
    under = [flat("side", (place[0], 0.0, bottom)) for place in (wing, stab)]
    design = plane.design
    down = (0.0, -1.0)
    arm = design.stab.position - design.wing.position
    return [
        Dimension("nose", "nose", "side", under[0], flat("side", nose), down, 1, wing[0]),
        Dimension("arm", "tail arm", "side", under[0], under[1], down, 1, arm),
        Dimension(
            "wing_position",
            "wing from nose",
            "side",
            flat("side", nose),
            under[0],
            down,
            2,
            design.wing.position,
        ),
    ]


def _loose(plane: Plane) -> list[Dimension]:
    design = plane.design
    found: list[Dimension] = []
    for item in plane.parts.items:
        at = flat("side", item.at)
        if item.id == "pack":
            nose = (0.0, at[1])
            place = design.pack.position
            up = (0.0, 1.0)
            pack = Dimension("pack", "pack", "side", nose, at, up, 1, place, block="pack")
            found.append(pack)
        elif item.id == "motor":
            line, height, ahead = (at[0], 0.0), design.motor.height, (-1.0, 0.0)
            motor = Dimension(
                "motor", "shaft height", "side", line, at, ahead, 1, height, block="motor"
            )
            found.append(motor)
    return found


def typed(text: str, kind: str, units: str) -> float:
    """A value typed beside a dimension; a bare number takes the unit that is shown.

    Args:
        text: As typed, in any unit. [-]
        kind: "length" or "angle". [-]
        units: "metric" or "inch", for a bare number. [-]

    Returns:
        The value. [m or rad]

    Raises:
        DesignError: It cannot be read.

    Source:
        Definition.

    Example:
        >>> typed("14 1/2", "length", "inch"), typed("30 cm", "length", "inch")
        (0.3683, 0.3)
    """
    said = text.strip()
    if said and said[-1].isdigit():
        said = f"{said} {BARE[kind][units]}"
    try:
        return parse(said, kind)
    except UnitError as error:
        raise DesignError("", error.got, error.allowed, error.fix) from None


def board_data(plane: Plane) -> list[dict[str, Any]]:
    """The dimensions as plain data, with what they read in words.

    Args:
        plane: The plane. [-]

    Returns:
        One table a dimension. [-]

    Source:
        Definition.

    Example:
        >>> board_data(plane)[0]["words"]  # doctest: +SKIP
        '46 in'
    """
    return [
        {
            "id": d.id,
            "label": d.label,
            "view": d.view,
            "a": list(d.start),
            "b": list(d.end),
            "side": list(d.side),
            "level": d.level,
            "value": d.value,
            "words": format_value(d.value, d.kind, plane.design.units),
            "kind": d.kind,
            "block": d.block,
            "help": HELP[d.id.partition(".")[0]],
        }
        for d in dimensions_of(plane)
    ]


def morphs_of(plane: Plane) -> dict[str, dict[str, Any]]:
    """How outlines and dimension ends move for each dimension, per unit of it.

    The browser draws with these while a dimension is dragged, until the true outlines arrive.

    Args:
        plane: The plane. [-]

    Returns:
        Dimension -> view -> for each shape a list of (dx, dy) per metre or radian, and the same for
        the ends of the dimensions. [-]

    Source:
        Forward difference of the outlines.

    Example:
        >>> "span" in morphs_of(plane)  # doctest: +SKIP
        True
    """
    found: dict[str, dict[str, Any]] = {}
    figures = {flag: figure_of(plane, items=flag) for flag in (False, True)}
    ends = dimensions_of(plane)
    for dimension in ends:
        items = bool(dimension.block)  # only these move what was bought; the rest follows later
        step = SMALL_STEP[dimension.kind]
        try:
            moved = plane.with_values(values_for(plane, dimension.id, dimension.value + step))
            after, moved_ends = figure_of(moved, items=items), dimensions_of(moved, items=items)
        except FoamwrightError:
            continue
        before = figures[items]
        found[dimension.id] = {
            "views": {view: _shape_steps(before[view], after[view], step) for view in after},
            "ends": _end_steps(ends, moved_ends, step),
        }
    return found


def _shape_steps(
    before: list[dict[str, Any]], after: list[dict[str, Any]], step: float
) -> list[Any]:
    steps: list[Any] = []
    for old, new in zip(before, after, strict=False):
        points, moved = old.get("points"), new.get("points")
        if not points or not moved or len(points) != len(moved) or points == moved:
            steps.append(None)
            continue
        steps.append(
            [
                [round((b[0] - a[0]) / step, 4), round((b[1] - a[1]) / step, 4)]
                for a, b in zip(points, moved, strict=True)
            ]
        )
    return steps


def _end_steps(
    before: list[Dimension], after: list[Dimension], step: float
) -> dict[str, list[list[float]]]:
    moved = {dimension.id: dimension for dimension in after}
    steps: dict[str, list[list[float]]] = {}
    for old in before:
        new = moved.get(old.id)
        if new is not None:
            pairs = ((old.start, new.start), (old.end, new.end))
            steps[old.id] = [[(b[0] - a[0]) / step, (b[1] - a[1]) / step] for a, b in pairs]
    return steps
