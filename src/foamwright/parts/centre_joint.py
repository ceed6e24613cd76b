"""Where the wing is joined: braces at the centre and at breaks, tape over the seams."""

import math
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from foamwright.core.bands import Band
from foamwright.core.errors import DesignError
from foamwright.parts.joints import STAGGER
from foamwright.parts.material import entry, ply_areal_mass, rod_areal_mass, scaled
from foamwright.parts.model import Line, LineKind, Source
from foamwright.parts.piece import Flat, Piece, pair, rectangle
from foamwright.parts.spars import TAPE_WIDTH, bottom_height, strip_ends, top_height
from foamwright.parts.wing_frame import frame_at, unit
from foamwright.parts.wing_run import WingRun
from foamwright.shape.section import spar_size
from foamwright.stock.model import Stock, TapeStock

LEAST_BREAK = 0.01  # rad; a smaller change of dihedral needs no brace; assumed

type Array = NDArray[np.float64]

UP = np.array([0.0, 0.0, 1.0])


def centre_joint(run: WingRun, stock: Stock) -> list[Piece]:
    """Brace and seam tape where the two halves meet; braces and tape at every other joint.

    Args:
        run: The wing. [-]
        stock: The stock tables. [-]

    Returns:
        The pieces.

    Raises:
        DesignError: Stock has no such brace or tape.

    Source:
        Common practice: a V of ply against the spar, tape over the seams.

    Example:
        >>> [p.name for p in centre_joint(run, stock)]
        ['dihedral brace', 'joint tape']
    """
    return [*_brace(run, stock), *_break_braces(run, stock), *_seam_tapes(run, stock)]


@dataclass(frozen=True, slots=True)
class _BraceStuff:
    """What braces are cut from."""

    name: str
    height: float
    areal: Band
    thickness: float
    source: Source


def _stuff(run: WingRun, stock: Stock) -> _BraceStuff | None:
    joint = run.design.wing.joint
    if joint.brace is None or joint.brace_length <= 0.0:
        return None
    tall = spar_size(run.design.wing, run.board.thickness)[0] or run.board.thickness
    height = tall if joint.brace_height is None else joint.brace_height
    if joint.brace in stock.plies:
        ply = stock.plies[joint.brace]
        thick = ply.thickness.typical
        return _BraceStuff(joint.brace, height, ply_areal_mass(ply), thick, Source.PLY)
    rod = entry(stock.rods, joint.brace, "wing.joint.brace")
    height = rod.height if joint.brace_height is None else min(height, rod.height)
    areal = scaled(rod_areal_mass(rod), rod.width / height)
    return _BraceStuff(joint.brace, height, areal, rod.width, Source.LENGTH)


def _foot(run: WingRun, place: float, thickness: float, *, inner: bool) -> Array:
    """Where a brace stands: against the front of the spar, on the inside of the bottom skin."""
    wing = run.design.wing
    station = frame_at(run.frames, place - (1e-6 if inner else 0.0)).station(place)
    inside = run.board.thickness if wing.build == "folded" else 0.0
    front = wing.spar.position * station.chord - 0.5 * wing.spar.strip_width - 0.5 * thickness
    return station.at(front, bottom_height(station, run, place, wing.spar.position) + inside)


def _brace(run: WingRun, stock: Stock) -> list[Piece]:
    joint, stuff = run.design.wing.joint, _stuff(run, stock)
    if stuff is None:
        return []
    height, thickness = stuff.height, stuff.thickness
    root = run.frames[0].station(0.0)
    half = 0.5 * joint.brace_length
    if half > run.half_span:
        raise DesignError(
            "wing.joint.brace_length",
            f"{1000 * joint.brace_length:.0f}\u00a0mm",
            f"it must be shorter than the span, {2000 * run.half_span:.0f}\u00a0mm",
            'Use "150 mm".',
        )
    # A flat V that stands on edge: its arms rise with the panels, seen from the front.
    climb = float(root.out[2]) / max(float(root.out[1]), 1e-9)
    ring = np.array(
        [
            [-half, half * climb],
            [0.0, 0.0],
            [half, half * climb],
            [half, half * climb + height],
            [0.0, height],
            [-half, half * climb + height],
        ]
    )
    origin = _foot(run, 0.0, thickness, inner=False)
    flat = Flat(ring, origin, np.array([0.0, 1.0, 0.0]), UP, thickness)
    return [
        Piece(
            id="wing-brace",
            name="dihedral brace",
            kind="dihedral brace",
            stock=stuff.name,
            source=stuff.source,
            ring=ring,
            areal_mass=stuff.areal,
            thickness=thickness,
            flats=(flat,),
            lines=(Line(LineKind.MARK, ((0.0, 0.0), (0.0, height)), "centre line"),),
            notes="Stands against the front of the spar.",
        )
    ]


def _break_braces(run: WingRun, stock: Stock) -> list[Piece]:
    """A brace across every break of dihedral: it carries the spar through."""
    stuff = _stuff(run, stock)
    if stuff is None:
        return []
    half_wanted = 0.5 * run.design.wing.joint.brace_length
    pieces: list[Piece] = []
    for number, (before, after) in enumerate(pairwise(run.frames)):
        inner = before.station(after.start)
        outer = after.station(after.start)
        lift = float(outer.out @ np.array([0.0, -inner.out[2], inner.out[1]]))
        if abs(lift) < LEAST_BREAK:
            continue
        turn = math.asin(lift)
        # A stretch on each side, and never past the next break or the tip.
        half = min(half_wanted, 0.9 * before.length, 0.9 * after.length)
        cos, sin, high = math.cos(turn), lift, stuff.height
        ring = np.array(
            [
                [-half, 0.0],
                [0.0, 0.0],
                [half * cos, half * sin],
                [half * cos - high * sin, half * sin + high * cos],
                [-high * math.tan(0.5 * turn), high],
                [-half, high],
            ]
        )
        foot = _foot(run, after.start, stuff.thickness, inner=True)
        up = np.array([0.0, -inner.out[2], inner.out[1]])
        pieces += pair(
            Piece(
                id=f"wing-break-brace-{number + 1}-right",
                name="polyhedral brace",
                kind="polyhedral brace",
                stock=stuff.name,
                source=stuff.source,
                ring=ring,
                areal_mass=stuff.areal,
                thickness=stuff.thickness,
                flats=(Flat(ring, foot, inner.out, up, stuff.thickness),),
                lines=(Line(LineKind.MARK, ((0.0, 0.0), (ring[4][0], high)), "break"),),
                notes="Stands against the front of the spar, half on each side of the break; the "
                "strips behind it are bevelled to meet.",
            )
        )
    return pieces


def _seam_tapes(run: WingRun, stock: Stock) -> list[Piece]:
    name = run.design.wing.joint.tape
    if name is None:
        return []
    tape = entry(stock.tapes, name, "wing.joint.tape")
    pieces: list[Piece] = []
    for number, place in enumerate(run.skin_joints):
        if place == 0.0:
            pieces.append(_tape(run, tape, place, "joint-tape-1", top=False))
            continue
        for top in (False, True):
            tag = f"joint-tape-{number + 1}{'-top' if top else ''}-right"
            pieces += pair(_tape(run, tape, place, tag, top=top))
    return [*pieces, *_spar_tapes(run, tape)]


def _spar_tapes(run: WingRun, tape: TapeStock) -> list[Piece]:
    """Tape over the joints of a spar of one strip: no other layer carries them."""
    spar, width = run.design.wing.spar, tape.width or TAPE_WIDTH
    if spar.strips != 1:
        return []
    length = 2.0 * STAGGER
    pieces: list[Piece] = []
    for number, layer, start, ends in strip_ends(run):
        for index, place in enumerate(ends[1:-1]):
            station = frame_at(run.frames, start + place).station(start + place)
            inside = run.board.thickness if run.design.wing.build == "folded" else 0.0
            tall = spar_size(run.design.wing, run.board.thickness)[0]
            under = bottom_height(station, run, start + place, spar.position)
            at = station.at(spar.position * station.chord, under + inside + tall)
            ring = rectangle(length, min(width, spar.strip_width))
            middle = 0.5 * length * station.out + 0.5 * ring[2, 1] * -station.aft
            pieces += pair(
                Piece(
                    id=f"joint-tape-spar-{number + 1}-{layer + 1}-{index + 1}-right",
                    name="spar joint tape",
                    kind="spar joint tape",
                    stock=tape.name,
                    source=Source.TAPE,
                    ring=ring,
                    areal_mass=tape.areal_mass,
                    thickness=0.0001,
                    flats=(Flat(ring, at - middle, station.out, -station.aft, 0.0001),),
                    notes="Lengthwise over the joint of the strip, pressed into glue.",
                )
            )
    return pieces


def _tape(run: WingRun, tape: TapeStock, place: float, id: str, *, top: bool) -> Piece:
    width = tape.width or TAPE_WIDTH
    station = frame_at(run.frames, place).station(place)
    ring = rectangle(station.chord, width)
    middle = 0.5 * station.chord
    height = top_height if top else bottom_height
    at = station.at(middle, height(station, run, place, 0.5))
    aft, across = station.aft, station.out
    if place == 0.0:
        # On the centre line the tape lies across both halves, square to the plane of symmetry.
        aft, across = unit(aft * np.array([1.0, 0.0, 1.0])), np.array([0.0, 1.0, 0.0])
    flat = Flat(ring, at - middle * aft - 0.5 * width * across, aft, across, 0.0001)
    return Piece(
        id=id,
        name="joint tape",
        kind="joint tape",
        stock=tape.name,
        source=Source.TAPE,
        ring=ring,
        areal_mass=tape.areal_mass,
        thickness=0.0001,
        flats=(flat,),
        notes=f"Over the {'top' if top else 'bottom'} seam, pressed into glue.",
    )
