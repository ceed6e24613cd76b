"""Lifting surfaces cut into strips and horseshoes: right half and what stands in the middle."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from foamwright.shape.model import ControlSurface, LiftingPanel, LiftingSurface

type Array = NDArray[np.float64]

# Slope of the quarter-chord line, 20 degrees, from which strips crowd at the root as at the tip; by
# trial against lattices twice as fine.
KINK = 0.36
SLIVER = 0.02  # of the half span, narrowest strip worth cutting; assumed


@dataclass(frozen=True, slots=True)
class Strips:
    """One chordwise row of panels each, root outwards, surface after surface.

    Attributes:
        surface: Index of the surface each belongs to. [-]
        chord: Local chord. [m]
        width: Along the panel, square to the stream. [m]
        quarter: Quarter-chord points. [m]
        inner: Inner edge in the plane across the stream (y, z). [m]
        outer: Outer edge there. [m]
        across: Unit vector root to tip across the stream (0, y, z). [-]
        normal: Unit normal: up on a wing, left on a fin. [-]
        twist: Angle of the chord line against the fuselage line. [rad]
        place: Middle along the half span, fraction. [-]
        panel: Index of the lifting panel within its surface. [-]
        middle: Control place in the plane across the stream (y, z). [m]
    """

    surface: NDArray[np.int_]
    chord: Array
    width: Array
    quarter: Array
    inner: Array
    outer: Array
    across: Array
    normal: Array
    twist: Array
    place: Array
    panel: NDArray[np.int_]
    middle: Array


@dataclass(frozen=True, slots=True)
class Mesh:
    """Horseshoe vortices with their control points.

    Attributes:
        strips: The strips.
        strip: Strip of each horseshoe. [-]
        start: Inner end of the bound vortex. [m]
        end: Outer end of the bound vortex. [m]
        control: Point where the flow must not pass through. [m]
        trailing_start: x of the trailing edge behind `start`. [m]
        trailing_end: x of the trailing edge behind `end`. [m]
        centred: Whether a horseshoe lies in the plane of symmetry. [-]
    """

    strips: Strips
    strip: NDArray[np.int_]
    start: Array
    end: Array
    control: Array
    trailing_start: Array
    trailing_end: Array
    centred: NDArray[np.bool_]


@dataclass(frozen=True, slots=True)
class Fineness:
    """How finely a surface is cut.

    Attributes:
        strips: Strips on the half span (whole height of a fin). [-]
        rows: Panels along the chord. [-]
        even: Equal widths; else narrow towards the tip, where the load falls off.
    """

    strips: int
    rows: int
    even: bool = False


def panel_lengths(panels: Sequence[LiftingPanel]) -> Array:
    """Length of each panel across the stream.

    Args:
        panels: Root outwards.

    Returns:
        Lengths along the panels. [m]

    Source:
        Definition.

    Example:
        >>> len(panel_lengths([]))
        0
    """
    return np.array(
        [math.hypot(p.tip[1] - p.root[1], p.tip[2] - p.root[2]) for p in panels], dtype=float
    )


def _edges(surface: LiftingSurface, fineness: Fineness) -> list[tuple[int, Array, Array]]:
    """Strip edges and control places of every panel as fractions of it."""
    lengths = panel_lengths(surface.panels)
    bounds = np.concatenate([[0.0], np.cumsum(lengths)]) / lengths.sum()
    cuts = {round(float(b), 6) for b in bounds}
    for control in surface.controls:
        cuts |= {round(min(max(end, 0.0), 1.0), 6) for end in (control.start, control.end)}
    ordered = sorted(cuts)
    fixed = {round(float(b), 6) for b in bounds}
    # A control's end within a sliver of a panel's end gets no strip of its own.
    kept = [c for c in ordered if c in fixed or min(abs(c - f) for f in fixed) > SLIVER]
    foot = row_foot(surface)
    places: list[float] = [0.0]
    for low, high in pairwise(kept):
        places += list(_spread(low, high, fineness, foot)[1:])
    edges = np.array(places)
    result: list[tuple[int, Array, Array]] = []
    for index in range(len(lengths)):
        low, high = bounds[index], bounds[index + 1]
        inside = edges[(edges > low - 1e-5) & (edges < high + 1e-5)]
        fractions = (inside - low) / (high - low)
        fractions[0], fractions[-1] = 0.0, 1.0
        middle = 0.5 * (inside[1:] + inside[:-1])
        if not fineness.even:
            # Half-way in the angle, where a sine-spaced row of vortices gives the exact wash.
            angle = _angle(inside, foot)
            middle = _place(0.5 * (angle[1:] + angle[:-1]), foot)
        result.append((index, fractions, (middle - low) / (high - low)))
    return result


def row_foot(surface: LiftingSurface) -> float:
    """Sine of the angle at which strips begin: 0 in mid-row, -1 where a row ends as at a tip.

    The load of a straight wing runs smoothly through the middle; that of a swept one has a kink
    there, and a fin ends there.

    Args:
        surface: Its right half, or a fin.

    Returns:
        -1 to 0. [-]

    Source:
        Assumed; with it 14 strips do for a swept wing what they do for a straight one.

    Example:
        >>> row_foot(wing)  # doctest: +SKIP
        0.0
    """
    if not surface.mirrored:
        return -1.0
    panel = surface.panels[0]
    back = panel.tip[0] - panel.root[0] + 0.25 * (panel.tip_chord - panel.root_chord)
    out = math.hypot(panel.tip[1] - panel.root[1], panel.tip[2] - panel.root[2])
    return -min(abs(back) / (KINK * out), 1.0)


def _angle(place: Array, foot: float) -> Array:
    """Place along the half span as an angle: crowded at the tip, and at a kinked root."""
    return np.arcsin(foot + np.clip(place, 0.0, 1.0) * (1.0 - foot))


def _place(angle: Array, foot: float) -> Array:
    """Inverse of `_angle`."""
    return (np.sin(angle) - foot) / (1.0 - foot)


def _spread(low: float, high: float, fineness: Fineness, foot: float) -> Array:
    if fineness.even:
        count = max(1, round(fineness.strips * (high - low)))
        return np.linspace(low, high, count + 1)
    first, last = _angle(np.array([low, high]), foot).tolist()
    count = max(1, round(fineness.strips * (last - first) / (0.5 * math.pi - math.asin(foot))))
    spread = _place(np.linspace(first, last, count + 1), foot)
    spread[0], spread[-1] = low, high
    return spread


def mesh_of(surfaces: Sequence[LiftingSurface], fineness: Sequence[Fineness]) -> Mesh:
    """Cut surfaces into horseshoes: bound vortex at the quarter, control point at three quarters.

    Trailing legs and panels lie along the fuselage line; twist and camber enter by the normals
    only,
    as in linear theory.

    Args:
        surfaces: The right half of each mirrored one, the whole of a fin.
        fineness: Strips and rows of each.

    Returns:
        The lattice.

    Source:
        [KP] ch. 12; the quarter and three-quarter rule after Pistolesi.

    Example:
        >>> mesh_of([], []).strip.shape
        (0,)
    """
    pieces = [
        _cut(number, surface.panels[index], index, cut[1:], offset=float(offset), rows=fine.rows)
        for number, (surface, fine) in enumerate(zip(surfaces, fineness, strict=True))
        for index, cut, offset in zip(
            range(len(surface.panels)), _edges(surface, fine), _offsets(surface), strict=True
        )
    ]
    if not pieces:
        return _join([])
    return _join(pieces)


def _offsets(surface: LiftingSurface) -> Array:
    """Distance of each panel's root from the surface's root."""
    lengths = panel_lengths(surface.panels)
    return np.cumsum(lengths) - lengths


type Piece = dict[str, Array]


def _cut(
    number: int,
    panel: LiftingPanel,
    index: int,
    cut: tuple[Array, Array],
    *,
    offset: float,
    rows: int,
) -> Piece:
    edges, middle = cut
    root, tip = np.array(panel.root), np.array(panel.tip)
    run = tip - root
    length = math.hypot(run[1], run[2])
    leading = root + edges[:, None] * run
    chord = panel.root_chord + edges * (panel.tip_chord - panel.root_chord)
    mid_leading = root + middle[:, None] * run
    mid_chord = panel.root_chord + middle * (panel.tip_chord - panel.root_chord)
    across = np.array([0.0, run[1] / length, run[2] / length])
    normal = np.array([0.0, -across[2], across[1]])
    count = len(middle)
    quarter = mid_leading + np.column_stack([0.25 * mid_chord, *np.zeros((2, count))])
    row = np.arange(rows)
    bound, control = (row + 0.25) / rows, (row + 0.75) / rows

    def points(base: Array, local: Array, fraction: Array) -> Array:
        grid = np.repeat(base[:, None, :], rows, axis=1)
        grid[:, :, 0] += local[:, None] * fraction
        return grid.reshape(-1, 3)

    return {
        "surface": np.full(count, number),
        "chord": mid_chord,
        "width": np.diff(edges) * length,
        "quarter": quarter,
        "inner": leading[:-1, 1:],
        "outer": leading[1:, 1:],
        "across": np.tile(across, (count, 1)),
        "normal": np.tile(normal, (count, 1)),
        "twist": panel.root_twist + middle * (panel.tip_twist - panel.root_twist),
        "along": offset + 0.5 * (edges[1:] + edges[:-1]) * length,
        "middle": root[1:] + middle[:, None] * run[1:],
        "panel": np.full(count, index),
        "rows": np.full(count, rows),
        "start": points(leading[:-1], chord[:-1], bound),
        "end": points(leading[1:], chord[1:], bound),
        "control": points(mid_leading, mid_chord, control),
        "trailing_start": np.repeat(leading[:-1, 0] + chord[:-1], rows),
        "trailing_end": np.repeat(leading[1:, 0] + chord[1:], rows),
    }


def _join(pieces: list[Piece]) -> Mesh:
    def whole(key: str, width: int = 0) -> Array:
        empty = np.zeros((0, width) if width else 0)
        return np.concatenate([p[key] for p in pieces]) if pieces else empty

    surface = whole("surface").astype(int)
    along, width = whole("along"), whole("width")
    place = np.zeros_like(along)
    for number in set(surface.tolist()):
        mine = surface == number
        place[mine] = along[mine] / width[mine].sum()
    rows = whole("rows").astype(int)
    strips = Strips(
        surface=surface,
        chord=whole("chord"),
        width=width,
        quarter=whole("quarter", 3),
        inner=whole("inner", 2),
        outer=whole("outer", 2),
        across=whole("across", 3),
        normal=whole("normal", 3),
        twist=whole("twist"),
        place=place,
        panel=whole("panel").astype(int),
        middle=whole("middle", 2),
    )
    start, end = whole("start", 3), whole("end", 3)
    return Mesh(
        strips=strips,
        strip=np.repeat(np.arange(len(rows)), rows),
        start=start,
        end=end,
        control=whole("control", 3),
        trailing_start=whole("trailing_start"),
        trailing_end=whole("trailing_end"),
        centred=(np.abs(start[:, 1]) < 1e-9) & (np.abs(end[:, 1]) < 1e-9),
    )


def covered(strips: Strips, number: int, control: ControlSurface) -> Array:
    """Share of each strip that a control surface covers along the span.

    Args:
        strips: The strips.
        number: Index of the surface that carries it. [-]
        control: The hinged part.

    Returns:
        0 to 1 for each strip. [-]

    Source:
        Definition.

    Example:
        >>> covered(strips, 0, aileron)  # doctest: +SKIP
        array([0., 1., 1.])
    """
    mine = strips.surface == number
    half = strips.width[mine].sum()
    low = strips.place - 0.5 * strips.width / half
    high = strips.place + 0.5 * strips.width / half
    shared = np.minimum(high, control.end) - np.maximum(low, control.start)
    return np.where(mine, np.clip(shared / (high - low), 0.0, 1.0), 0.0)
