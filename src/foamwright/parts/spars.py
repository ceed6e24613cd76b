"""The spar's strips of board, and heights inside the wing."""

import math
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from foamwright.parts.joints import LETTERS, split_places
from foamwright.parts.model import Source
from foamwright.parts.piece import Piece, pair, rectangle
from foamwright.parts.wing_frame import Station, bar, frame_at
from foamwright.parts.wing_run import WingRun

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
        >>> len(end_stations(run, (0.0, 0.5)))
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
        >>> straight_runs(run, 0.5)
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
        >>> len(spar_strips(run))
        4
    """
    pieces: list[Piece] = []
    for number, layer, start, ends in strip_ends(run):
        for index, (a, b) in enumerate(pairwise(ends)):
            tag = f"{number + 1}-{layer + 1}" + (LETTERS[index] if len(ends) > 2 else "")
            pieces += pair(_strip(run, (start + a, start + b), layer, tag))
    return pieces


type StripEnds = tuple[int, int, float, list[float]]  # stretch, layer, its start, ends along it


def strip_ends(run: WingRun) -> list[StripEnds]:
    """Where the strips of each straight stretch and layer end, joints staggered.

    Args:
        run: The wing. [-]

    Returns:
        Stretch, layer, start of the stretch along the half span, and ends of its strips along it;
        empty for a stepped wing or without strips. [-], [-], [m], [m]

    Raises:
        DesignError: A strip cannot be split clear of the other joints.

    Source:
        Common practice: stagger joints by at least 80 mm.

    Example:
        >>> strip_ends(run)
        [(0, 0, 0.0, [0.0, 0.5842]), (0, 1, 0.0, [0.0, 0.5842])]
    """
    spar, found = run.design.wing.spar, list[StripEnds]()
    if spar.strips == 0 or spar.extent <= 0.0 or run.design.wing.build == "stepped":
        return found
    for number, (start, stop) in enumerate(straight_runs(run, spar.extent * run.half_span)):
        avoid = tuple(j - start for j in run.skin_joints if start < j < stop)
        for layer in range(spar.strips):
            cuts = split_places(
                stop - start, run.board.longest, avoid=avoid, field="wing.spar.extent"
            )
            avoid = (*avoid, *cuts)
            found.append((number, layer, start, [0.0, *cuts, stop - start]))
    return found


def spar_joints(run: WingRun) -> tuple[float, ...]:
    """Where strips of the spar are joined or end at a break, along the half span.

    Args:
        run: The wing. [-]

    Returns:
        Places; none for a wing without strips. [m]

    Source:
        Definition of the build.

    Example:
        >>> spar_joints(run)
        ()
    """
    ends = {start + end for _, _, start, places in strip_ends(run) for end in places[:-1]}
    return tuple(sorted(ends - {0.0}))


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
