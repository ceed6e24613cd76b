"""The side view of the fuselage with the wing saddle cut into it."""

import math
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from foamwright.core.errors import DesignError
from foamwright.design.model import Design
from foamwright.parts.wing_frame import panel_frames
from foamwright.shape.body import side_outline
from foamwright.shape.model import Airframe

LEAST_DEPTH = 0.008  # m of fuselage left at the saddle; assumed
SLOT_BELOW = 0.35  # of the depth: a stab that lies deeper goes through a slot, not on a seat

type Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class SideView:
    """Top and bottom lines, nose to tail, saddle cut out.

    Attributes:
        top: Rows (x, z). [m]
        bottom: Rows (x, z). [m]
        wing_front: x of the wing's leading edge at the centre. [m]
        wing_back: x of its trailing edge. [m]
        seat: Rows (x, z) of the wing's surface that sits on the fuselage. [m]
        body: Top and bottom lines before anything was cut. [m]
        stab: Rows (x, z) of the stab's seat; None without. [m]
        rise: How much the wing rises outwards, per metre from the middle. [-]
        high: Whether the wing lies on top.
        stab_rise: How much a V-tail rises outwards, per metre from the middle. [-]
    """

    top: Array
    bottom: Array
    wing_front: float
    wing_back: float
    seat: Array
    body: tuple[Array, Array]
    stab: Array | None
    rise: float
    high: bool
    stab_rise: float = 0.0


def _wing_surface(airframe: Airframe, *, top: bool) -> Array:
    frame = panel_frames(airframe.wing)[0]
    station, section = frame.station(0.0), frame.panel.section
    side = np.array(section.upper if top else section.lower) * station.chord
    if top:
        side = np.vstack([side[:-1:4], side[-1]])
    else:
        # The flat bottom, drawn out straight to below the leading edge: its round nose needs room.
        step = side[-2] - side[-1]
        side = np.vstack([side[-1] - step * (side[-1, 0] / step[0]), side[-1]])
    points = station.edge + side[:, :1] * station.aft + side[:, 1:] * station.up
    return points[:, (0, 2)]


def _cut(line: Array, seat: Array, *, keep_below: bool) -> Array:
    """Replace a line by the seat wherever the seat bites into it."""
    first, last = float(seat[0, 0]), float(seat[-1, 0])
    places = np.concatenate([seat[:, 0], line[(line[:, 0] > first) & (line[:, 0] < last), 0]])
    # A set and not numpy's unique: that one loads a library of its own, 5 ms when cold.
    inside = places[(places >= line[0, 0]) & (places <= line[-1, 0])]
    places = np.array(sorted(set(inside.tolist())))
    if len(places) == 0:
        return line
    own = np.interp(places, line[:, 0], line[:, 1])
    cut = np.interp(places, seat[:, 0], seat[:, 1])
    level = np.minimum(own, cut) if keep_below else np.maximum(own, cut)
    middle = np.column_stack([places, level])
    before = line[line[:, 0] < places[0] - 1e-9]
    after = line[line[:, 0] > places[-1] + 1e-9]
    edge = [[places[0], own[0]]] if abs(own[0] - level[0]) > 1e-9 else []
    back = [[places[-1], own[-1]]] if abs(own[-1] - level[-1]) > 1e-9 else []
    rows = [r for r in (before, edge, middle, back, after) if len(r)]
    return np.vstack(rows)


def side_view(design: Design, airframe: Airframe) -> SideView:
    """Side view in the plane of symmetry, with the seats of wing and stab.

    A high wing's underside is cut into the top line, a low wing's upper side into the bottom line.
    The stab's underside is cut into the top.

    Args:
        design: The design. [-]
        airframe: Its shape. [-]

    Returns:
        The lines.

    Raises:
        DesignError: The wing cuts the fuselage in two.

    Source:
        Geometry.

    Example:
        >>> round(side_view(design, airframe).wing_front, 3)
        0.152
    """
    rows = np.array(side_outline(design))
    high, panel = design.wing.place == "high", airframe.wing.panels[0]
    view = SideView(
        top=rows[:, (0, 2)],
        bottom=rows[:, (0, 1)],
        wing_front=panel.root[0],
        wing_back=panel.root[0] + panel.root_chord,
        seat=_wing_surface(airframe, top=not high),
        body=(rows[:, (0, 2)], rows[:, (0, 1)]),
        stab=None,
        rise=(panel.tip[2] - panel.root[2]) / max(panel.tip[1] - panel.root[1], 1e-9),
        high=high,
    )
    seated = _seated(view, (0.0, 0.0))
    top, bottom = seated.top, seated.bottom
    places = np.array(sorted({*top[:, 0].tolist(), *bottom[:, 0].tolist()}))
    depth = np.interp(places, top[:, 0], top[:, 1]) - np.interp(places, bottom[:, 0], bottom[:, 1])
    if depth.min() < LEAST_DEPTH - 1e-9 and depth.min() < _least(rows) - 1e-9:
        raise DesignError(
            "wing.height",
            f"{1000 * float(panel.root[2]):.0f}\u00a0mm at the leading edge",
            f"the saddle would leave {1000 * float(depth.min()):.0f}\u00a0mm of fuselage",
            "Raise a high wing (lower a low one), or make the fuselage taller there.",
        )
    vee = math.tan(design.stab.dihedral) if _is_vee(design) else 0.0
    return _seated(replace(view, stab=stab_seat(design, airframe), stab_rise=vee), (0.0, 0.0))


def view_at(view: SideView, out: float, *, tail_out: float | None = None) -> SideView:
    """Side view as a layer some way out from the middle needs it: the wing rises with its dihedral.

    Args:
        view: In the plane of symmetry. [-]
        out: Of the layer's middle, to either side. [m]
        tail_out: The same at the tail, where the fuselage is narrower; None: the same. [m]

    Returns:
        The lines there.

    Source:
        Geometry.

    Example:
        >>> view_at(view, 0.0) is view
        True
    """
    outs = (out, out if tail_out is None else tail_out)
    lifted = abs(outs[0] * view.rise) + abs(outs[1] * view.stab_rise)
    return view if lifted < 1e-6 else _seated(view, outs)


def _seated(view: SideView, outs: tuple[float, float]) -> SideView:
    top, bottom = view.body
    seat = view.seat + np.array([0.0, outs[0] * view.rise])
    if view.high:
        top = _cut(top, seat, keep_below=True)
    else:
        bottom = _cut(bottom, seat, keep_below=False)
    if view.stab is not None:
        stab = view.stab + np.array([0.0, outs[1] * view.stab_rise])
        top = _cut(top, stab, keep_below=True)
    return replace(view, top=top, bottom=bottom)


def stab_seat(design: Design, airframe: Airframe) -> Array | None:
    """The line of the stab's underside that is cut into the top of the fuselage.

    Args:
        design: The design. [-]
        airframe: Its shape. [-]

    Returns:
        Rows (x, z) to the end of the fuselage; None for a T-tail, a stab that stands clear of the
        fuselage or one that goes through a slot. [m]

    Source:
        Geometry.

    Example:
        >>> stab_seat(design, airframe)  # doctest: +SKIP
        array([[0.75, 0.02], [0.914, 0.02]])
    """
    panel, length = airframe.stab.panels[0], design.fuselage.length
    start = panel.root[0]
    if design.tail.kind == "T" or start >= length - 0.01:
        return None
    fall = math.tan(panel.root_twist)
    half = 0.5 * panel.section.thickness_ratio * panel.section.chord
    # Straight below the middle, a slanted half of a V reaches lower than its own thickness.
    level = panel.root[2] - (half / math.cos(design.stab.dihedral) if _is_vee(design) else half)
    end = max(length, start + 0.01)
    line = np.array([[start, level], [end, level - (end - start) * fall]])
    rows = np.array(side_outline(design))
    x = np.linspace(start, min(start + panel.root_chord, length), 5)
    top, bottom = (np.interp(x, rows[:, 0], rows[:, k]) for k in (2, 1))
    bite = top - np.interp(x, line[:, 0], line[:, 1])
    if float(bite.max()) <= 1e-6 or float((bite / (top - bottom)).min()) > SLOT_BELOW:
        return None
    return line


def _is_vee(design: Design) -> bool:
    return design.tail.kind == "V"


def _least(rows: Array) -> float:
    return float((rows[:, 2] - rows[:, 1]).min())


def between(view: SideView, start: float, end: float) -> Array:
    """Outline of the side view between two places, counter-clockwise.

    Args:
        view: The side view. [-]
        start: [m]
        end: [m]

    Returns:
        Ring, rows (x, z). [m]

    Source:
        Geometry.

    Example:
        >>> between(view, 0.0, 0.1).shape
        (4, 2)
    """
    low, high = _part(view.bottom, start, end), _part(view.top, start, end)
    return np.vstack([low, high[::-1]])


def _part(line: Array, start: float, end: float) -> Array:
    inside = line[(line[:, 0] > start + 1e-9) & (line[:, 0] < end - 1e-9)]
    # At a step the point on the inner side of the cut is the right one.
    first = _value(line, start, ahead=True)
    last = _value(line, end, ahead=False)
    return np.vstack([[start, first], inside, [end, last]])


def _value(line: Array, place: float, *, ahead: bool) -> float:
    same = np.flatnonzero(np.abs(line[:, 0] - place) < 1e-9)
    if len(same):
        return float(line[same[-1] if ahead else same[0], 1])
    return float(np.interp(place, line[:, 0], line[:, 1]))
