"""The fuselage: stations, widths, areas."""

from itertools import pairwise

import numpy as np

from foamwright.core.errors import DesignError
from foamwright.design.model import Design
from foamwright.shape.model import Body, BodyStation

NOSE_SHARE = 0.12  # built-up nose over fuselage length when the design gives none
STEP = 0.001  # m over which a change of width is drawn, so that stations always move aft
SADDLE_REACH = 0.022  # m that the shoulder layers reach beyond the wing: round the dowels; assumed
TAIL_WIDTH = 0.5  # of a box, tail width over width at the wing; common practice

type Outline = tuple[tuple[float, float, float], ...]


def nose_length(design: Design) -> float:
    """Length of the built-up nose.

    Args:
        design: The design. [-]

    Returns:
        Length aft of the nose. [m]

    Source:
        Common practice where the design does not say.

    Example:
        >>> round(nose_length(design), 3)
        0.11
    """
    given = design.fuselage.nose_length
    return NOSE_SHARE * design.fuselage.length if given is None else given


def root_chord(design: Design) -> float:
    """Chord at the wing's centre line.

    Args:
        design: The design. [-]

    Returns:
        Chord. [m]

    Raises:
        DesignError: The first panel gives none.

    Source:
        Definition.

    Example:
        >>> round(root_chord(design), 3)
        0.197
    """
    chord = design.wing.panel[0].chord
    if chord is None:
        raise DesignError(
            "wing.panel.0.chord",
            "missing",
            "the first panel needs a chord at the centre line",
            'Write chord = "190 mm".',
        )
    return chord


def saddle_range(design: Design) -> tuple[float, float]:
    """Where the shoulder layers under the wing begin and end.

    Args:
        design: The design. [-]

    Returns:
        Front and back. [m], [m]

    Source:
        Common practice.

    Example:
        >>> [round(x, 3) for x in saddle_range(design)]
        [0.13, 0.371]
    """
    front = max(design.wing.position - SADDLE_REACH, 0.0)
    back = design.wing.position + root_chord(design) + SADDLE_REACH
    return front, min(back, design.fuselage.length)


def side_outline(design: Design) -> Outline:
    """Side view as (x, bottom, top), from the stations or from the three heights.

    From the three heights: symmetrical about the fuselage line, full height along the wing.

    Args:
        design: The design. [-]

    Returns:
        Points, nose to tail. [m]

    Raises:
        DesignError: Stations are out of order or upside down.

    Source:
        Definition.

    Example:
        >>> [round(x, 4) for x in side_outline(design)[0]]
        [0.0, -0.0318, 0.0318]
    """
    body = design.fuselage
    if body.station:
        rows = [(s.x, s.bottom, s.top) for s in body.station]
        for index, (before, after) in enumerate(pairwise(rows)):
            if after[0] <= before[0]:
                raise DesignError(
                    f"fuselage.station.{index + 1}.x",
                    f"{1000 * after[0]:.0f}\u00a0mm",
                    f"stations run nose to tail; the one before is at "
                    f"{1000 * before[0]:.0f}\u00a0mm",
                    "Put the stations in order.",
                )
        for index, (_, bottom, top) in enumerate(rows):
            if top - bottom <= 0.002:
                raise DesignError(
                    f"fuselage.station.{index}.top",
                    f"{1000 * top:.0f}\u00a0mm",
                    f"it must lie above the bottom at {1000 * bottom:.0f}\u00a0mm",
                    "Swap them, or make the fuselage taller there.",
                )
        return tuple(_reach_ends(rows, body.length))
    full, front = 0.5 * body.height, design.wing.position
    back = front + root_chord(design)
    rows = [(0.0, 0.5 * body.nose_height)]
    rows += [(x, full) for x in (front, back) if STEP < x < body.length - STEP]
    rows.append((body.length, 0.5 * body.tail_height))
    return tuple((x, -half, half) for x, half in rows)


def _reach_ends(
    rows: list[tuple[float, float, float]], length: float
) -> list[tuple[float, float, float]]:
    if len(rows) < 2 or rows[0][0] > 0.5 * length or abs(rows[-1][0] - length) > 0.005:
        raise DesignError(
            "fuselage.station",
            f"{len(rows)} stations ending at {1000 * rows[-1][0]:.0f}\u00a0mm",
            f"at least two are needed, the last at the fuselage length {1000 * length:.0f}\u00a0mm",
            "Add a station at the tail, or change fuselage.length.",
        )
    if rows[0][0] > 0.0:
        rows = [(0.0, rows[0][1], rows[0][2]), *rows]
    return rows


def layers_at(design: Design, x: float) -> int:
    """Layers of a profile fuselage at a place.

    Args:
        design: The design. [-]
        x: Aft of the nose. [m]

    Returns:
        Layers. [-]

    Source:
        Definition.

    Example:
        >>> layers_at(design, 0.02)
        7
    """
    body = design.fuselage
    layers = body.layers
    if x <= nose_length(design):
        layers = max(layers, body.nose_layers)
    front, back = saddle_range(design)
    if front <= x <= back:
        layers = max(layers, body.saddle_layers)
    return layers


def _widths(design: Design, board_thickness: float) -> list[tuple[float, float]]:
    """(x, width) with steps drawn over STEP."""
    body = design.fuselage
    length = body.length
    if body.build == "box":
        back = min(saddle_range(design)[1], length - STEP)
        narrow = max(TAIL_WIDTH * body.width, 3.0 * board_thickness)
        return [(0.0, body.width), (back, body.width), (length, min(narrow, body.width))]
    edges = [nose_length(design), *saddle_range(design)]
    marks = sorted({min(max(x, 0.0), length) for x in edges} - {0.0, length})
    places = [0.0]
    for mark in marks:
        before, after = mark - 0.5 * STEP, mark + 0.5 * STEP
        if before > places[-1] and after < length:
            places += [before, after]
    places.append(length)
    nudge = 0.1 * STEP
    out: list[tuple[float, float]] = []
    for index, x in enumerate(places):
        inside = x + nudge if index % 2 == 0 else x - nudge
        out.append((x, layers_at(design, inside) * board_thickness))
    return out


def height_at(outline: Outline, x: float) -> tuple[float, float]:
    """Bottom and top of the side view at a place.

    Args:
        outline: As side_outline gives it. [-]
        x: Aft of the nose; beyond the ends the end's values hold. [m]

    Returns:
        Bottom and top. [m], [m]

    Source:
        Straight lines between points.

    Example:
        >>> height_at(((0.0, -0.03, 0.03), (1.0, -0.01, 0.01)), 0.5)
        (-0.02, 0.02)
    """
    last = outline[-1]
    for (x0, b0, t0), (x1, b1, t1) in pairwise(outline):
        if x <= x1:
            s = max(x - x0, 0.0) / (x1 - x0)
            return b0 + s * (b1 - b0), t0 + s * (t1 - t0)
    return last[1], last[2]


def width_at(body: Body, x: float) -> float:
    """Width of the fuselage at a place.

    Args:
        body: The fuselage. [-]
        x: Aft of the nose; beyond the ends the end's value holds. [m]

    Returns:
        Width. [m]

    Source:
        Straight lines between stations.

    Example:
        >>> width_at(body, 0.1)  # doctest: +SKIP
        0.035
    """
    places = [station.x for station in body.stations]
    return float(np.interp(x, places, [station.width for station in body.stations]))


def build_body(design: Design, board_thickness: float) -> Body:
    """The fuselage as a row of rectangles.

    Args:
        design: The design. [-]
        board_thickness: [m]

    Returns:
        The body.

    Raises:
        DesignError: Its stations are not possible.

    Source:
        Areas by straight lines between stations: exact.

    Example:
        >>> round(build_body(design, 0.005).length, 3)
        0.914
    """
    outline = side_outline(design)
    widths = _widths(design, board_thickness)
    rows = np.array(outline)
    places = np.array(sorted({x for x, _, _ in outline} | {x for x, _ in widths}))
    bottom = np.interp(places, rows[:, 0], rows[:, 1])
    top = np.interp(places, rows[:, 0], rows[:, 2])
    wide = np.interp(places, [x for x, _ in widths], [w for _, w in widths])
    height, run = top - bottom, np.diff(places)
    side = float(run @ (height[1:] + height[:-1])) / 2.0
    plan = float(run @ (wide[1:] + wide[:-1])) / 2.0
    ends = float(height[0] * wide[0] + height[-1] * wide[-1])
    stations = tuple(
        BodyStation(*row) for row in np.column_stack([places, bottom, top, wide]).tolist()
    )
    return Body(
        build=design.fuselage.build,
        stations=stations,
        length=design.fuselage.length,
        frontal_area=float((height * wide).max()),
        wetted_area=2.0 * (side + plan) + ends,
        side_area=side,
    )
