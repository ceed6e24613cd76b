"""What a dimension on the drawing board changes in the design when it is moved."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from foamwright.core.errors import DesignError
from foamwright.core.units import format_value, parse
from foamwright.shape.planform import flat_span

if TYPE_CHECKING:
    from foamwright.design.change import Value
    from foamwright.design.model import Design
    from foamwright.plane import Plane


def values_for(plane: Plane, name: str, value: float) -> dict[str, Value]:
    """What to write into the design so that a dimension reads a value.

    Args:
        plane: The plane as it is. [-]
        name: Id of the dimension. [-]
        value: Wanted. [m or rad]

    Returns:
        Dotted key -> new value. [any]

    Raises:
        DesignError: There is no such dimension.

    Source:
        Definition.

    Example:
        >>> values_for(plane, "stab_span", 0.36)  # doctest: +SKIP
        {'stab.span': 0.36}
    """
    design = plane.design
    kind, _, index = name.partition(".")
    if kind == "dihedral" and index.isdecimal():
        return {f"wing.panel.{index}.dihedral": value}
    if kind not in _CHANGES:
        raise DesignError(name, "moved", "the drawing has no such dimension")
    return _CHANGES[kind](design, value)


def as_written(values: dict[str, Value], kind: str, units: str) -> dict[str, Value]:
    """Values to the last digit as they will be read back from the file.

    A plane made with them is the one that the changed file gives, so its results can be kept.

    Args:
        values: Dotted key -> value. [m or rad]
        kind: "length" or "angle". [-]
        units: Of the design. [-]

    Returns:
        The same, rounded as they are written. [m or rad]

    Source:
        foamwright.design.write.

    Example:
        >>> as_written({"stab.span": 0.3}, "length", "metric")
        {'stab.span': 0.3}
    """
    return {
        key: parse(format_value(value, kind, units, precise=True), kind)
        if isinstance(value, float)
        else value
        for key, value in values.items()
    }


def _span_values(design: Design, value: float) -> dict[str, Value]:
    """The outermost panel takes the change, so that the inner ones keep their clean figures.

    An aileron keeps its distance from the tip, and no reinforcement reaches beyond it.
    """
    last = len(design.wing.panel) - 1
    inner = sum(panel.span for panel in design.wing.panel[:-1])
    half = value / 2.0
    changed: dict[str, Value] = {f"wing.panel.{last}.span": half - inner}
    aileron = design.wing.aileron
    if aileron is not None and aileron.end is not None:
        changed["wing.aileron.end"] = aileron.end + half - flat_span(design) / 2.0
    for index, stick in enumerate(design.wing.reinforcement):
        if stick.end is not None and stick.end > half:
            changed[f"wing.reinforcement.{index}.end"] = half
    return changed


def _tip_chord_values(design: Design, value: float) -> dict[str, Value]:
    return {f"wing.panel.{len(design.wing.panel) - 1}.tip_chord": value}


def _aft(design: Design, move: float, *, after: float) -> dict[str, Value]:
    """Everything that is fastened aft of a place, moved along."""
    changed: dict[str, Value] = {
        "stab.position": design.stab.position + move,
        "fuselage.length": design.fuselage.length + move,
    }
    if design.fin is not None:
        changed["fin.position"] = design.fin.position + move
    for index, point in enumerate(design.fuselage.station):
        if point.x > after:
            changed[f"fuselage.station.{index}.x"] = point.x + move
    return changed


def _nose_values(design: Design, value: float) -> dict[str, Value]:
    move = value - design.wing.position
    return {"wing.position": value, **_aft(design, move, after=design.wing.position / 2)}


def _arm_values(design: Design, value: float) -> dict[str, Value]:
    move = value - (design.stab.position - design.wing.position)
    behind = design.wing.position + (design.wing.panel[0].chord or 0.0)
    return _aft(design, move, after=behind)


_CHANGES: dict[str, Callable[[Design, float], dict[str, Value]]] = {
    "span": _span_values,
    "chord": lambda _, value: {"wing.panel.0.chord": value},
    "tip_chord": _tip_chord_values,
    "stab_span": lambda _, value: {"stab.span": value},
    "stab_chord": lambda _, value: {"stab.chord": value},
    "fin_height": lambda _, value: {"fin.span": value},
    "wing_position": lambda _, value: {"wing.position": value},
    "pack": lambda _, value: {"pack.position": value},
    "motor": lambda _, value: {"motor.height": value},
    "nose": _nose_values,
    "arm": _arm_values,
}
