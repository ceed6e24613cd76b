"""What runs along the wing inside or under it: spar strips, sticks, tapes, and the joint."""

import math
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from foamwright.core.bands import Band
from foamwright.core.errors import DesignError
from foamwright.design.model import Reinforcement
from foamwright.parts.joints import LETTERS, STAGGER, split_places
from foamwright.parts.material import (
    entry,
    rod_areal_mass,
    rod_of_kind,
    tape_of_kind,
)
from foamwright.parts.model import Source
from foamwright.parts.piece import Piece, pair, rectangle
from foamwright.parts.wing_frame import Station, bar, frame_at
from foamwright.parts.wing_run import WingRun
from foamwright.shape.section import spar_size
from foamwright.stock.model import Stock

TAPE_WIDTH = 0.048  # m, when a tape in stock has no width; common practice

NUDGE = 1e-6  # m inside a panel

type Array = NDArray[np.float64]


def bottom_height(station: Station, run: WingRun, place: float, fraction: float) -> float:
    """Height of the wing's underside in the chord frame.

    Args:
        station: Place along the span. [-]
        run: The wing. [-]
        place: The same place along the half span. [m]
        fraction: Of the chord. [-]

    Returns:
        Height above the chord line. [m]

    Source:
        The section's outline.

    Example:
        >>> bottom_height(station, run, 0.1, 0.3)  # doctest: +SKIP
        -0.004
    """
    lower = np.array(frame_at(run.frames, place).panel.section.lower)
    return float(np.interp(fraction, lower[:, 0], lower[:, 1])) * station.chord


def top_height(station: Station, run: WingRun, place: float, fraction: float) -> float:
    """Height of the wing's upper side in the chord frame.

    Args:
        station: Place along the span. [-]
        run: The wing. [-]
        place: The same place along the half span. [m]
        fraction: Of the chord. [-]

    Returns:
        Height above the chord line. [m]

    Source:
        The section's outline.

    Example:
        >>> top_height(station, run, 0.1, 0.3)  # doctest: +SKIP
        0.016
    """
    upper = np.array(frame_at(run.frames, place).panel.section.upper)
    return float(np.interp(fraction, upper[:, 0], upper[:, 1])) * station.chord


def end_stations(run: WingRun, ends: tuple[float, float]) -> list[Station]:
    """Stations at both ends of a straight stretch, each taken on the stretch's own panel.

    Args:
        run: The wing. [-]
        ends: Along the half span. [m]

    Returns:
        Two stations.

    Source:
        Definition: at a break in dihedral the two panels' stations differ.

    Example:
        >>> len(end_stations(run, (0.0, 0.5)))  # doctest: +SKIP
        2
    """
    start, end = ends
    return [
        frame_at(run.frames, start + NUDGE).station(start),
        frame_at(run.frames, end - NUDGE).station(end),
    ]


def straight_runs(run: WingRun, end: float) -> list[tuple[float, float]]:
    """Stretches of the half span over which a straight strip can run.

    Panels of the same sweep and dihedral share one.

    Args:
        run: The wing. [-]
        end: Outer end. [m]

    Returns:
        (start, end) of each. [m]

    Source:
        Definition.

    Example:
        >>> straight_runs(run, 0.5)  # doctest: +SKIP
        [(0.0, 0.5)]
    """
    breaks = [0.0]
    for before, after in pairwise(run.frames):
        bend = after.station(after.start).out @ before.station(before.start).out
        if bend < 1.0 - 1e-9 or abs(after.sweep - before.sweep) > 1e-6:
            breaks.append(after.start)
    breaks = [place for place in breaks if place < end - 1e-6]
    return list(pairwise([*breaks, end]))


def spar_strips(run: WingRun) -> list[Piece]:
    """Board strips of the spar, layers with staggered joints.

    Args:
        run: The wing. [-]

    Returns:
        Strips of both sides; none for a stepped wing or without strips.

    Raises:
        DesignError: A strip cannot be split clear of the other joints.

    Source:
        Definition of the build.

    Example:
        >>> len(spar_strips(run))  # doctest: +SKIP
        4
    """
    spar, wing = run.design.wing.spar, run.design.wing
    if spar.strips == 0 or spar.extent <= 0.0 or wing.build == "stepped":
        return []
    end = spar.extent * run.half_span
    pieces: list[Piece] = []
    for number, (start, stop) in enumerate(straight_runs(run, end)):
        avoid = tuple(j - start for j in run.skin_joints if start < j < stop)
        for layer in range(spar.strips):
            cuts = split_places(
                stop - start, run.board.longest, avoid=avoid, field="wing.spar.extent"
            )
            avoid = (*avoid, *cuts)
            for index, (a, b) in enumerate(pairwise([0.0, *cuts, stop - start])):
                tag = f"{number + 1}-{layer + 1}" + (LETTERS[index] if cuts else "")
                pieces += pair(_strip(run, (start + a, start + b), layer, tag))
    return pieces


def _strip(run: WingRun, ends: tuple[float, float], layer: int, tag: str) -> Piece:
    spar, thickness = run.design.wing.spar, run.board.thickness
    middles: list[Array] = []
    stations = end_stations(run, ends)
    inside = run.design.wing.build == "folded"
    for station, place in zip(stations, ends, strict=True):
        under = bottom_height(station, run, place, spar.position)
        behind = spar.position * station.chord
        if spar.laid == "flat":
            rise = (layer + 0.5) * thickness
        else:
            rise = 0.5 * spar.strip_width
            behind += (layer + 0.5 - 0.5 * spar.strips) * thickness
        height = under + thickness + rise if inside else under - rise
        middles.append(station.at(behind, height))
    length = math.dist(middles[0].tolist(), middles[1].tolist())
    ring = rectangle(length, spar.strip_width)
    to = -stations[0].aft if spar.laid == "flat" else stations[0].up
    return Piece(
        id=f"spar-strip-{tag}-right",
        name="spar strip",
        kind="spar strip",
        stock=run.board.name,
        source=Source.BOARD,
        ring=ring,
        areal_mass=run.board.areal_mass,
        thickness=thickness,
        flats=(bar(middles[0], middles[1], ring, width_to=to, thickness=thickness),),
        fold_along=(1.0, 0.0),
        notes=f"Layer {layer + 1} of {spar.strips}, laid {spar.laid}.",
    )


_PLACES = {  # name -> (chord fraction or None for the spar's, side, inside the skin)
    "spar top": (None, "top"),
    "spar bottom": (None, "bottom"),
    "leading edge": (0.02, "bottom"),
    "trailing edge": (0.96, "bottom"),
    "skin top": (None, "outside top"),
    "skin bottom": (None, "outside bottom"),
}


def reinforcements(run: WingRun, stock: Stock) -> list[Piece]:
    """Sticks, dowels, rods, strips and tapes along the span.

    Args:
        run: The wing. [-]
        stock: The stock tables. [-]

    Returns:
        Pieces of both sides.

    Raises:
        DesignError: Stock has no such thing, or its extent is not on the wing.

    Source:
        Definition of the design file.

    Example:
        >>> reinforcements(run, stock)  # doctest: +SKIP
        []
    """
    pieces: list[Piece] = []
    for number, item in enumerate(run.design.wing.reinforcement):
        field = f"wing.reinforcement.{number}"
        spar_end = run.design.wing.spar.extent * run.half_span
        end = (spar_end or run.half_span) if item.end is None else item.end
        if not 0.0 <= item.start < end <= run.half_span + 1e-6:
            raise DesignError(
                f"{field}.end",
                f"{1000 * end:.0f} mm (start {1000 * item.start:.0f} mm)",
                f"it must run outwards within the half span of {1000 * run.half_span:.0f} mm",
                "Change start or end.",
            )
        width, height, areal, name, longest, source = _stuff(run, stock, item, field)
        for stretch, (a, b) in enumerate(_within(run, item.start, end)):
            # Sticks overlap side by side: a short stick needs less distance between its ends.
            apart = min(STAGGER, 0.3 * longest)
            cuts = split_places(b - a, longest, field=f"{field}.end", stagger=apart)
            for index, (c, d) in enumerate(pairwise([0.0, *cuts, b - a])):
                for beside in range(item.count):
                    shift = (beside + 0.5 - 0.5 * item.count) * width
                    flat = _along(run, item, (a + c, a + d), (shift, height))
                    length = float(flat[1])
                    ring = rectangle(length, width)
                    place = bar(flat[0], flat[2], ring, width_to=-flat[3].aft, thickness=height)
                    pieces += pair(
                        Piece(
                            id=f"reinforcement-{number + 1}-{stretch + 1}-{index + 1}"
                            f"-{beside + 1}-right",
                            name=f"{item.kind}, {item.place}",
                            kind=f"{item.kind}, {item.place}",
                            stock=name,
                            source=source,
                            ring=ring,
                            areal_mass=areal,
                            thickness=height,
                            flats=(place,),
                            fold_along=(1.0, 0.0),
                        )
                    )
    return pieces


def _within(run: WingRun, start: float, end: float) -> list[tuple[float, float]]:
    spans = [(max(a, start), b) for a, b in straight_runs(run, end)]
    return [(a, b) for a, b in spans if b - a > 1e-6]


type Stuff = tuple[float, float, Band, str, float, Source]


def _stuff(run: WingRun, stock: Stock, item: Reinforcement, field: str) -> Stuff:
    """Width, height, areal mass, stock name, longest piece and source of a reinforcement."""
    if item.kind == "foam strip":
        board = run.board
        width = 0.0254 if item.stock is None else run.design.wing.spar.strip_width
        return width, board.thickness, board.areal_mass, board.name, board.longest, Source.BOARD
    if item.kind in ("mesh tape", "packing tape"):
        tape = (
            tape_of_kind(stock, item.kind, f"{field}.kind")
            if item.stock is None
            else entry(stock.tapes, item.stock, f"{field}.stock")
        )
        width = tape.width or TAPE_WIDTH
        return width, 0.0001, tape.areal_mass, tape.name, math.inf, Source.TAPE
    rod = (
        rod_of_kind(stock, item.kind, f"{field}.kind")
        if item.stock is None
        else entry(stock.rods, item.stock, f"{field}.stock")
    )
    return rod.width, rod.height, rod_areal_mass(rod), rod.name, rod.length, Source.LENGTH


def _along(
    run: WingRun, item: Reinforcement, ends: tuple[float, float], size: tuple[float, float]
) -> tuple[Array, float, Array, Station]:
    """Middle line of a reinforcement: start, length, end and the station at its start."""
    spar = run.design.wing.spar
    given, side = _PLACES[item.place]
    fraction = spar.position if given is None else given
    shift, height = size
    tall = spar_size(run.design.wing, run.board.thickness)[0]
    points: list[Array] = []
    stations = end_stations(run, ends)
    for station, place in zip(stations, ends, strict=True):
        under = bottom_height(station, run, place, fraction)
        over = top_height(station, run, place, fraction)
        level = {
            "bottom": under + run.board.thickness + 0.5 * height,
            "top": under + run.board.thickness + tall - 0.5 * height,
            "outside bottom": under - 0.5 * height,
            "outside top": over + 0.5 * height,
        }[side]
        points.append(station.at(fraction * station.chord + shift, level))
    length = math.dist(points[0].tolist(), points[1].tolist())
    return points[0], length, points[1], stations[0]
