"""The plane as triangles for the flight view: strips of wing, hinged parts that move, the rest.

Places are in metres about the centre of gravity: ahead, left, up.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING, Any

import numpy as np
from numpy.typing import NDArray

from foamwright.sheets.silhouettes import station

if TYPE_CHECKING:
    from foamwright.parts.model import Item
    from foamwright.plane import Plane
    from foamwright.shape.model import Airframe, ControlSurface, LiftingSurface, Vector

type Rows = NDArray[np.float64]

STRIPS = 6  # painted strips of each half wing, to show where it stalls
AROUND = 9  # points along each side of a section
TIP = 0.86  # of the half span: coloured tips, to tell left from right
TOP, UNDER, TAIL, BODY, BOUGHT = "#f7efdb", "#7f93a6", "#e9e4d6", "#dcc79b", "#8a97a3"
LEFT_TIP, RIGHT_TIP, HINGED = "#b4372b", "#2f6f3c", "#cfdbe6"
SHOWN = ("motor", "pack")
SAME = 1e-6  # of the half span; cuts closer than this are one


@dataclass(frozen=True, slots=True)
class _Side:
    """One half of a surface: how far it is mirrored, and what its parts are called."""

    surface: LiftingSurface
    thick: float  # m of board; 0 for a folded section
    sign: float  # 1 right, -1 left
    name: str


def shapes_of(plane: Plane) -> dict[str, Any]:
    """Everything of a plane that the flight view draws.

    Args:
        plane: The plane. [-]

    Returns:
        Solids with points [m], faces above and below, colour, strip or hinge; propeller; span.

    Source:
        Definition.

    Example:
        >>> shapes_of(plane)["strips"]
        6
    """
    airframe, cg = plane.airframe, np.asarray(plane.balance.cg)
    solids: list[dict[str, Any]] = []
    surfaces = [(airframe.wing, 0.0), (airframe.stab, airframe.board_thickness)]
    if airframe.fin is not None:
        surfaces.append((airframe.fin, airframe.board_thickness))
    for surface, thick in surfaces:
        for sign in (1.0, -1.0) if surface.mirrored else (1.0,):
            side = "right" if sign > 0 else "left"
            solids += _half(_Side(surface, thick, sign, side), airframe)
    solids.append(_body(airframe))
    solids += [_box(item) for item in plane.parts.items if item.id.startswith(SHOWN)]
    for solid in solids:
        solid["points"] = _about(np.asarray(solid["points"]), cg)
        if "hinge" in solid:
            solid["hinge"] = _about(np.asarray(solid["hinge"]), cg)
    axis = np.asarray(airframe.thrust_axis) * (-1.0, -1.0, 1.0)
    return {
        "solids": solids,
        "propeller": {
            "at": _about(np.asarray([airframe.thrust_point]), cg)[0],
            "axis": axis.tolist(),
            "radius": airframe.propeller_diameter / 2,
        },
        "span": airframe.wing.span,
        "length": airframe.body.length,
        "strips": STRIPS,
    }


def _about(points: Rows, cg: Rows) -> list[list[float]]:
    moved = (points - cg) * (-1.0, -1.0, 1.0)
    return np.round(moved, 5).tolist()


# ---------------------------------------------------------------- surfaces


def _half(side: _Side, airframe: Airframe) -> list[dict[str, Any]]:
    """One half of a surface, cut along the span where its look changes."""
    surface = side.surface
    wing = surface.name == "wing"
    lengths = [math.dist(panel.root, panel.tip) for panel in surface.panels]
    cuts = {0.0, 1.0, *np.cumsum(lengths)[:-1] / sum(lengths)}
    cuts |= {end for control in surface.controls for end in (control.start, control.end)}
    if wing:
        cuts |= {TIP, *(n / STRIPS for n in range(1, STRIPS))}
    places = sorted(cuts)
    places = [p for p, q in zip(places, [*places[1:], 2.0], strict=True) if q - p > SAME]
    found: list[dict[str, Any]] = []
    for inner, outer in pairwise(places):
        middle = (inner + outer) / 2
        control = next((c for c in surface.controls if c.start < middle < c.end), None)
        hinge = 1.0 - control.chord_fraction if control is not None else 1.0
        rings = [_fixed_ring(side, end, hinge) for end in (inner, outer)]
        solid = _loft(rings, _colour(side, middle), UNDER if wing else _colour(side, middle))
        if wing:
            solid["strip"] = [side.name, min(int(middle * STRIPS), STRIPS - 1)]
        found.append(solid | {"name": surface.name, "bare": wing})
    seen: set[tuple[float, float]] = set()
    for control in surface.controls:
        if (control.start, control.end) not in seen:
            seen.add((control.start, control.end))
            found.append(_hinged(side, control, v_tail=airframe.fin is None))
    return found


def _colour(side: _Side, place: float) -> str:
    if side.surface.name != "wing":
        return TAIL
    if place < TIP:
        return TOP
    return RIGHT_TIP if side.sign > 0 else LEFT_TIP


def _hinged(side: _Side, control: ControlSurface, *, v_tail: bool) -> dict[str, Any]:
    hinge = 1.0 - control.chord_fraction
    places = (control.start, control.end)
    rings = [_moving_ring(side, place, hinge) for place in places]
    line = [np.mean(ring[[0, -1]], axis=0) for ring in rings]
    # The axis points right, or down on a fin: turning about it takes the edge down, or left.
    if side.sign < 0 or not side.surface.mirrored:
        line.reverse()
    moves = {control.name: 1.0}
    if control.name == "aileron":
        moves = {f"aileron {side.name}": 1.0}
    elif v_tail and side.surface.name == "stab":
        moves = {"elevator": 1.0, "rudder": -side.sign}
    solid = _loft(rings, HINGED, HINGED)
    return solid | {"name": control.name, "hinge": [p.tolist() for p in line], "moves": moves}


def _sides(side: _Side, place: float) -> tuple[Rows, Rows, Rows]:
    """Places along the chord, heights of the upper and of the lower side, in chords."""
    along = 0.5 - 0.5 * np.cos(np.linspace(0.0, math.pi, AROUND))
    if side.thick:
        _, chord, _ = station(side.surface, place)
        half = np.full(AROUND, side.thick / (2 * chord))
        return along, half, -half
    section = side.surface.panels[0].section
    upper, lower = np.asarray(section.upper), np.asarray(section.lower)
    return (
        along,
        np.interp(along, upper[:, 0], upper[:, 1]),
        np.interp(along, lower[:, 0], lower[:, 1]),
    )


def _fixed_ring(side: _Side, place: float, hinge: float) -> Rows:
    """What is ahead of the hinge line: nose, over the top, back along the bottom."""
    along, upper, lower = _sides(side, place)
    short = np.minimum(along, hinge)
    over = np.column_stack([short, np.interp(short, along, upper)])
    under = np.column_stack([short, np.interp(short, along, lower)])
    return _placed(side, place, np.concatenate([over, under[::-1]]))


def _moving_ring(side: _Side, place: float, hinge: float) -> Rows:
    along, upper, lower = _sides(side, place)
    ends = np.array([hinge, 1.0])
    over = np.column_stack([ends, np.interp(ends, along, upper)])
    under = np.column_stack([ends, np.interp(ends, along, lower)])
    return _placed(side, place, np.concatenate([over, under[::-1]]))


def _placed(side: _Side, place: float, ring: Rows) -> Rows:
    edge, chord, twist = station(side.surface, place)
    u, v = chord * ring[:, 0], chord * ring[:, 1]
    if not side.surface.mirrored:
        return np.column_stack([edge[0] + u, edge[1] + v, np.full(len(u), edge[2])])
    return np.column_stack(
        [
            edge[0] + u * math.cos(twist) + v * math.sin(twist),
            np.full(len(u), side.sign * edge[1]),
            edge[2] + v * math.cos(twist) - u * math.sin(twist),
        ]
    )


# ---------------------------------------------------------------- the rest


def _loft(rings: list[Rows], top: str, under: str) -> dict[str, Any]:
    """Skin between rings that start at the nose, run over the top and come back below."""
    count = len(rings[0])
    half = count // 2
    above: list[list[int]] = []
    below: list[list[int]] = []
    for row in range(len(rings) - 1):
        for i in range(count):
            a, b = row * count + i, row * count + (i + 1) % count
            (above if i < half - 1 else below).extend(
                [[a, b, a + count], [b, b + count, a + count]]
            )
    for first in (0, (len(rings) - 1) * count):
        for i in range(half - 1):
            a, b = first + i, first + count - 1 - i
            below += [[a, a + 1, b], [a + 1, b - 1, b]]
    return {
        "points": np.concatenate(rings).tolist(),
        "above": above,
        "below": below,
        "colour": top,
        "under": under,
    }


def _body(airframe: Airframe) -> dict[str, Any]:
    rings = [_box_ring(s.x, (-s.width / 2, s.width / 2), (s.bottom, s.top))
             for s in airframe.body.stations]  # fmt: skip
    return _loft(rings, BODY, BODY) | {"name": "body"}


def _box(item: Item) -> dict[str, Any]:
    (x, y, z), (length, width, height) = item.at, item.size
    rings = [
        _box_ring(end, (y - width / 2, y + width / 2), (z - height / 2, z + height / 2))
        for end in (x - length / 2, x + length / 2)
    ]
    return _loft(rings, BOUGHT, BOUGHT) | {"name": item.name}


def _box_ring(x: float, across: tuple[float, float], up: tuple[float, float]) -> Rows:
    corners: list[Vector] = [
        (x, across[0], up[1]),
        (x, across[1], up[1]),
        (x, across[1], up[0]),
        (x, across[0], up[0]),
    ]
    return np.asarray(corners)
