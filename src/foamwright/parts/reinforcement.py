"""Sticks, dowels, rods, strips and tapes along the span of the wing."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from foamwright.core.bands import Band
from foamwright.core.errors import DesignError
from foamwright.core.units import format_value
from foamwright.design.model import Reinforcement
from foamwright.parts.joints import STAGGER, split_places
from foamwright.parts.laps import Stretch, lap_length, lapped
from foamwright.parts.material import entry, rod_areal_mass, rod_of_kind, tape_of_kind
from foamwright.parts.model import Source
from foamwright.parts.piece import Piece, pair, rectangle
from foamwright.parts.spars import (
    TAPE_WIDTH,
    bottom_height,
    end_stations,
    spar_joints,
    straight_runs,
    top_height,
)
from foamwright.parts.wing_frame import Station, bar
from foamwright.parts.wing_run import WingRun
from foamwright.shape.section import spar_size
from foamwright.stock.model import Stock

MOST_BESIDE = 2  # sticks side by side that leave room for laps beside them
APART_SHARE = 0.3  # of a stick: short sticks cannot keep the whole stagger; assumed
PLACES = {  # name -> (chord fraction or None for the spar's, side of the skin)
    "spar top": (None, "top"),
    "spar bottom": (None, "bottom"),
    "leading edge": (0.02, "bottom"),
    "trailing edge": (0.96, "bottom"),
    "skin top": (None, "outside top"),
    "skin bottom": (None, "outside bottom"),
}

type Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class _Stuff:
    """What a reinforcement is cut from."""

    width: float
    height: float
    areal: Band
    name: str
    longest: float
    source: Source

    @property
    def flat(self) -> bool:
        return self.width > 1.5 * self.height


def reinforcements(run: WingRun, stock: Stock) -> list[Piece]:
    """Sticks, dowels, rods, strips and tapes along the span.

    Sticks shorter than their run lap, beside each other when round, one on the other when flat;
    strips of board butt. Joints keep away from those of skin, spar and the stick beside.

    Args:
        run: The wing. [-]
        stock: The stock tables. [-]

    Returns:
        Pieces of both sides.

    Raises:
        DesignError: Stock has no such thing, or its extent is not on the wing.

    Source:
        Definition of the design file; laps are common practice.

    Example:
        >>> reinforcements(run, stock)  # doctest: +SKIP
        []
    """
    pieces: list[Piece] = []
    for number, item in enumerate(run.design.wing.reinforcement):
        field = f"wing.reinforcement.{number}"
        stuff, end = _stuff(run, stock, item, field), _end(run, item, field)
        joints = [*run.skin_joints, *spar_joints(run)]
        for stretch, (start, stop) in enumerate(_within(run, item.start, end)):
            for beside in range(item.count):
                avoid = [place - start for place in joints if start < place < stop]
                lengths = _lengths(stuff, stop - start, avoid, field=field)
                joints += [start + 0.5 * (b + c) for (_, b), (c, _) in pairwise(lengths)]
                for index, (a, b) in enumerate(lengths):
                    tag = f"{number + 1}-{stretch + 1}-{index + 1}-{beside + 1}"
                    ends = (start + a, start + b)
                    piece = _piece(run, item, stuff, ends, shift=_shift(stuff, item, beside, index))
                    note = _note(run, lengths, index)
                    pieces += pair(replace(piece, id=f"reinforcement-{tag}-right", notes=note))
    return pieces


def _end(run: WingRun, item: Reinforcement, field: str) -> float:
    spar_end = run.design.wing.spar.extent * run.half_span
    end = (spar_end or run.half_span) if item.end is None else item.end
    if not 0.0 <= item.start < end <= run.half_span + 1e-6:
        raise DesignError(
            f"{field}.end",
            f"{1000 * end:.0f}\u00a0mm (start {1000 * item.start:.0f}\u00a0mm)",
            f"it must run outwards within the half span of {1000 * run.half_span:.0f}\u00a0mm",
            "Change start or end.",
        )
    return end


def _lengths(
    stuff: _Stuff, length: float, avoid: Sequence[float], *, field: str
) -> tuple[Stretch, ...]:
    if stuff.source is not Source.LENGTH:
        cuts = split_places(length, stuff.longest, avoid=tuple(avoid), field=f"{field}.end")
        return tuple(pairwise([0.0, *cuts, length]))
    apart = min(STAGGER, APART_SHARE * stuff.longest)
    lap = lap_length(min(stuff.width, stuff.height), stuff.longest)
    return lapped(length, stuff.longest, lap=lap, avoid=avoid, apart=apart, field=f"{field}.end")


def _shift(stuff: _Stuff, item: Reinforcement, beside: int, index: int) -> tuple[float, float]:
    """How far a piece lies aft of the middle, and off the skin: every other one gives way."""
    aft = (beside + 0.5 - 0.5 * item.count) * stuff.width
    if index % 2 == 0 or stuff.source is not Source.LENGTH:
        return aft, 0.0
    if stuff.flat or item.count > MOST_BESIDE:
        return aft, stuff.height
    return aft + (stuff.width if beside + 1 == item.count else -stuff.width), 0.0


def _note(run: WingRun, lengths: tuple[Stretch, ...], index: int) -> str:
    if index + 1 == len(lengths):
        return ""
    lap = lengths[index][1] - lengths[index + 1][0]
    if lap < 1e-6:
        return "Outer end butts on the next."
    words = format_value(lap, "length", run.design.units)
    return f"Outer end laps the next by {words}; glue and bind them."


def _piece(
    run: WingRun,
    item: Reinforcement,
    stuff: _Stuff,
    ends: tuple[float, float],
    *,
    shift: tuple[float, float],
) -> Piece:
    start, end, station = _along(run, item, ends, (shift, stuff.height))
    ring = rectangle(math.dist(start.tolist(), end.tolist()), stuff.width)
    place = bar(start, end, ring, width_to=-station.aft, thickness=stuff.height)
    return Piece(
        id="",
        name=f"{item.kind}, {item.place}",
        kind=f"{item.kind}, {item.place}",
        stock=stuff.name,
        source=stuff.source,
        ring=ring,
        areal_mass=stuff.areal,
        thickness=stuff.height,
        flats=(place,),
        fold_along=(1.0, 0.0),
    )


def _within(run: WingRun, start: float, end: float) -> list[tuple[float, float]]:
    spans = [(max(a, start), b) for a, b in straight_runs(run, end)]
    return [(a, b) for a, b in spans if b - a > 1e-6]


def _stuff(run: WingRun, stock: Stock, item: Reinforcement, field: str) -> _Stuff:
    if item.kind == "foam strip":
        board = run.board
        width = 0.0254 if item.stock is None else run.design.wing.spar.strip_width
        return _Stuff(
            width, board.thickness, board.areal_mass, board.name, board.longest, Source.BOARD
        )
    if item.kind in ("mesh tape", "packing tape"):
        tape = (
            tape_of_kind(stock, item.kind, f"{field}.kind")
            if item.stock is None
            else entry(stock.tapes, item.stock, f"{field}.stock")
        )
        width = tape.width or TAPE_WIDTH
        return _Stuff(width, 0.0001, tape.areal_mass, tape.name, math.inf, Source.TAPE)
    rod = (
        rod_of_kind(stock, item.kind, f"{field}.kind")
        if item.stock is None
        else entry(stock.rods, item.stock, f"{field}.stock")
    )
    areal = rod_areal_mass(rod)
    return _Stuff(rod.width, rod.height, areal, rod.name, rod.length, Source.LENGTH)


def _along(
    run: WingRun,
    item: Reinforcement,
    ends: tuple[float, float],
    size: tuple[tuple[float, float], float],
) -> tuple[Array, Array, Station]:
    """Middle line of a piece, start and end, and the station at its start."""
    given, side = PLACES[item.place]
    fraction = run.design.wing.spar.position if given is None else given
    (aft, off), height = size
    board, tall = run.board.thickness, spar_size(run.design.wing, run.board.thickness)[0]
    points: list[Array] = []
    stations = end_stations(run, ends)
    for station, place in zip(stations, ends, strict=True):
        under = bottom_height(station, run, place, fraction)
        over = top_height(station, run, place, fraction)
        level = {
            "bottom": under + board + 0.5 * height + off,
            "top": under + board + tall - 0.5 * height - off,
            "outside bottom": under - 0.5 * height - off,
            "outside top": over + 0.5 * height + off,
        }[side]
        points.append(station.at(fraction * station.chord + aft, level))
    return points[0], points[1], stations[0]
