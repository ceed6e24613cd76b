"""Levers on the shape and the balance of the plane that several checks share."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import TYPE_CHECKING

from foamwright.checks.levers import (
    Lever,
    Step,
    angle_lever,
    grid,
    length_lever,
    measure_step,
    together,
)
from foamwright.checks.say import say
from foamwright.core.unit_table import OUNCE
from foamwright.shape.planform import flat_span

if TYPE_CHECKING:
    from foamwright.plane import Plane

STANDARD_CAPACITIES = (300, 350, 450, 500, 650, 800, 850, 1000, 1300, 1500, 1800, 2200, 2700, 3300)
AMPERE_SECONDS = 3.6  # in 1 mAh
LIGHTEST_BOARD = 0.297  # kg/m², lightest paper-faced board seen on sale; common practice


def pack_lever(plane: Plane, *, forward: bool) -> Lever | None:
    """Move the pack in its tray.

    Args:
        plane: The plane. [-]
        forward: Towards the nose, else towards the tail. [-]

    Returns:
        The lever, up to the end of the tray.

    Source:
        Definition.

    Example:
        >>> pack_lever(plane, forward=True).name
        'pack position'
    """
    end = plane.balance.pack_front if forward else plane.balance.pack_back
    present = plane.design.pack.position
    if (end >= present) == forward:
        return None
    step = 0.001 if plane.design.units == "metric" else 0.0254 / 16.0
    way = "forward" if forward else "back"
    return together(
        "pack position",
        [
            Step(
                {"pack.position": value},
                f"pack {say(plane, abs(value - present), 'length')} further {way}",
            )
            for value in grid(present, end, step)
        ],
    )


def wing_position_lever(plane: Plane, *, aft: bool) -> Lever | None:
    """Move the whole wing along the fuselage.

    Args:
        plane: The plane. [-]
        aft: Towards the tail, else towards the nose. [-]

    Returns:
        The lever, over at most half a chord.

    Source:
        Definition.

    Example:
        >>> wing_position_lever(plane, aft=True).name
        'wing leading edge at'
    """
    present = plane.design.wing.position
    reach = 0.5 * plane.airframe.wing.mean_chord
    end = present + reach if aft else max(present - reach, 0.02)
    return length_lever(plane, "wing.position", "wing leading edge at", to=end)


def tail_levers(plane: Plane, table: str, *, bigger: bool) -> tuple[Lever | None, ...]:
    """Span and chord of the stab or the height and chord of the fin.

    Args:
        plane: The plane. [-]
        table: "stab" or "fin". [-]
        bigger: Else smaller. [-]

    Returns:
        Levers.

    Source:
        Definition.

    Example:
        >>> [lever.name for lever in tail_levers(plane, "stab", bigger=True)][0]
        'stab span'
    """
    surface = getattr(plane.design, table)
    if surface is None:
        return ()
    scale = 2.5 if bigger else 0.5
    span_name = "fin height" if table == "fin" else f"{table} span"
    return (
        length_lever(plane, f"{table}.span", span_name, to=scale * surface.span),
        _chord_lever(plane, table, to=scale),
    )


def _chord_lever(plane: Plane, table: str, *, to: float) -> Lever | None:
    surface = getattr(plane.design, table)
    if surface.tip_chord is None:
        return length_lever(plane, f"{table}.chord", f"{table} chord", to=to * surface.chord)
    steps = [
        Step(
            {
                f"{table}.chord": value,
                f"{table}.tip_chord": value - surface.chord + surface.tip_chord,
            },
            f"{table} root chord {say(plane, value, 'length')} instead of "
            f"{say(plane, surface.chord, 'length')}, tip by as much",
        )
        for value in grid(surface.chord, to * surface.chord, measure_step(plane))
        if value - surface.chord + surface.tip_chord > 0.02
    ]
    return together(f"{table} chord", steps)


def wing_span_lever(plane: Plane, *, longer: bool = True) -> Lever | None:
    """Lengthen or shorten the outermost panels.

    Args:
        plane: The plane. [-]
        longer: Else shorter. [-]

    Returns:
        The lever.

    Source:
        Definition.

    Example:
        >>> wing_span_lever(plane).name
        'wing span'
    """
    last = len(plane.design.wing.panel) - 1
    present = plane.design.wing.panel[last].span
    half = 0.5 * plane.airframe.wing.span
    reach = present + 0.35 * half if longer else max(present - 0.3 * half, 0.4 * present)
    span = flat_span(plane.design)
    return together(
        "wing span",
        [
            Step(
                {f"wing.panel.{last}.span": value},
                f"wing span {say(plane, span + 2.0 * (value - present), 'length')} "
                f"instead of {say(plane, span, 'length')}",
            )
            for value in grid(present, reach, measure_step(plane))
        ],
    )


def wing_chord_lever(plane: Plane, *, wider: bool = True) -> Lever | None:
    """Add the same to every chord of the wing.

    Args:
        plane: The plane. [-]
        wider: Else narrower. [-]

    Returns:
        The lever.

    Source:
        Definition.

    Example:
        >>> wing_chord_lever(plane).name
        'wing chord'
    """
    panels = plane.design.wing.panel
    root = panels[0].chord
    if root is None:
        return None
    reach = (1.4 if wider else 0.75) * root
    steps: list[Step] = []
    for value in grid(root, reach, measure_step(plane)):
        extra = value - root
        values: dict[str, float | str] = {}
        for index, panel in enumerate(panels):
            for name in ("chord", "tip_chord"):
                chord = getattr(panel, name)
                if chord is not None:
                    values[f"wing.panel.{index}.{name}"] = chord + extra
        words = f"wing chord {say(plane, value, 'length')} instead of {say(plane, root, 'length')}"
        steps.append(Step(values, words))
    return together("wing chord", steps)


def dihedral_lever(plane: Plane, *, more: bool) -> Lever | None:
    """More or less dihedral of the outermost panel.

    Args:
        plane: The plane. [-]
        more: Else less. [-]

    Returns:
        The lever.

    Source:
        Definition.

    Example:
        >>> dihedral_lever(plane, more=True).name
        'dihedral'
    """
    last = len(plane.design.wing.panel) - 1
    name = "dihedral" if last == 0 else "dihedral of the outer panels"
    end = math.radians(20.0) if more else 0.0
    return angle_lever(plane, f"wing.panel.{last}.dihedral", name, to=end)


def capacity_lever(plane: Plane, *, bigger: bool) -> Lever | None:
    """The next pack sizes.

    Args:
        plane: The plane. [-]
        bigger: Else smaller. [-]

    Returns:
        The lever; the pack's mass, resistance and length follow from its size again.

    Source:
        Sizes sold; common practice, no source.

    Example:
        >>> capacity_lever(plane, bigger=False).name
        'pack size'
    """
    pack = plane.design.pack
    present = pack.capacity / AMPERE_SECONDS
    sizes = [size for size in STANDARD_CAPACITIES if (size > present * 1.01) == bigger]
    sizes = [size for size in sizes if abs(size - present) > 0.01 * present]
    steps: list[Step] = []
    for size in sizes if bigger else reversed(sizes):
        values: dict[str, float | str] = {"pack.capacity": size * AMPERE_SECONDS}
        ratio = size / present
        if pack.mass is not None:
            values["pack.mass"] = pack.mass * ratio
        if pack.resistance is not None:
            values["pack.resistance"] = pack.resistance / ratio
        steps.append(Step(values, f"pack of {size:.0f} mAh instead of {present:.0f} mAh"))
    return together("pack size", steps)


def board_mass_lever(plane: Plane) -> Lever | None:
    """Lighter board: the mass of one whole sheet.

    Args:
        plane: The plane. [-]

    Returns:
        The lever, down to the lightest board seen on sale.

    Source:
        Sheets of 297 g/m² seen on sale; common practice, no source.

    Example:
        >>> board_mass_lever(plane).name
        'board mass'
    """
    from foamwright.stock.load import board_of

    board = plane.design.board
    entry = board_of(board, plane.stock)
    sheet = board.length * board.width
    present = board.mass if board.mass is not None else entry.areal_mass.typical * sheet
    lightest = LIGHTEST_BOARD * sheet
    step = 0.005 if plane.design.units == "metric" else 0.25 * OUNCE
    return together(
        "board mass",
        [
            Step(
                {"board.mass": value},
                f"board of {say(plane, value, 'mass')} a sheet instead of "
                f"{say(plane, present, 'mass')}",
            )
            for value in (grid(present, lightest, step) if present > lightest else ())
        ],
    )


def ballast_lever(plane: Plane, *, nose: bool) -> Lever | None:
    """Ballast in the nose or at the tail, the last resort.

    Args:
        plane: The plane. [-]
        nose: Else at the tail. [-]

    Returns:
        The lever, up to 15 % of the all-up mass.

    Source:
        Definition.

    Example:
        >>> ballast_lever(plane, nose=True).name
        'nose ballast'
    """
    return added_mass_lever(
        plane,
        "nose ballast" if nose else "tail ballast",
        {"position": 0.02 if nose else plane.design.stab.position},
        share=0.15,
        step=0.005 if plane.design.units == "metric" else 0.25 * OUNCE,
        where=" added",
    )


def added_mass_lever(
    plane: Plane, name: str, place: Mapping[str, float], *, share: float, step: float, where: str
) -> Lever | None:
    """One more thing aboard, heavier step by step.

    Args:
        plane: The plane. [-]
        name: What it is. [-]
        place: Keys of an extra beside its name and mass, such as {"position": 0.02}. [m]
        share: Most of it, of the all-up mass. [-]
        step: [kg]
        where: Words that follow its name. [-]

    Returns:
        The lever.

    Source:
        Definition.

    Example:
        >>> clay = {"position": 0.3}
        >>> added_mass_lever(plane, "clay", clay, share=0.1, step=0.01, where=" aft").steps[0].words
        '0.35 oz of clay aft'
    """
    extra = f"extra.{len(plane.design.extra)}"
    there = {f"{extra}.{key}": value for key, value in place.items()}
    return together(
        name,
        [
            Step(
                {f"{extra}.name": name, f"{extra}.mass": value} | there,
                f"{say(plane, value, 'mass')} of {name}{where}",
            )
            for value in grid(0.0, share * plane.balance.all_up_mass, step)
        ],
    )
