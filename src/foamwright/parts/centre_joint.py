"""Where the wing halves meet: brace, and tape over the seams."""

import numpy as np

from foamwright.core.errors import DesignError
from foamwright.parts.material import entry, ply_areal_mass, rod_areal_mass, scaled
from foamwright.parts.model import Line, LineKind, Source
from foamwright.parts.piece import Flat, Piece, pair, rectangle
from foamwright.parts.spars import TAPE_WIDTH, bottom_height
from foamwright.parts.wing_frame import frame_at, unit
from foamwright.parts.wing_run import WingRun
from foamwright.shape.section import spar_size
from foamwright.stock.model import Stock

UP = np.array([0.0, 0.0, 1.0])


def centre_joint(run: WingRun, stock: Stock) -> list[Piece]:
    """Brace and seam tape where the two halves meet, and tape over every other skin joint.

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
        >>> [p.name for p in centre_joint(run, stock)]  # doctest: +SKIP
        ['dihedral brace', 'joint tape']
    """
    return [*_brace(run, stock), *_seam_tapes(run, stock)]


def _brace(run: WingRun, stock: Stock) -> list[Piece]:
    joint, wing = run.design.wing.joint, run.design.wing
    if joint.brace is None or joint.brace_length <= 0.0:
        return []
    first = run.frames[0]
    root = first.station(0.0)
    tall = spar_size(wing, run.board.thickness)[0] or run.board.thickness
    height = tall if joint.brace_height is None else joint.brace_height
    half = 0.5 * joint.brace_length
    if half > run.half_span:
        raise DesignError(
            "wing.joint.brace_length",
            f"{1000 * joint.brace_length:.0f} mm",
            f"it must be shorter than the span, {2000 * run.half_span:.0f} mm",
            'Use "150 mm".',
        )
    if joint.brace in stock.plies:
        ply = stock.plies[joint.brace]
        areal, thickness, source = ply_areal_mass(ply), ply.thickness.typical, Source.PLY
    else:
        rod = entry(stock.rods, joint.brace, "wing.joint.brace")
        areal, thickness, source = rod_areal_mass(rod), rod.width, Source.LENGTH
        height = rod.height if joint.brace_height is None else min(height, rod.height)
        areal = scaled(areal, thickness / height)
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
    inside = run.board.thickness if wing.build == "folded" else 0.0
    front = wing.spar.position * root.chord - 0.5 * wing.spar.strip_width - 0.5 * thickness
    origin = root.at(front, bottom_height(root, run, 0.0, wing.spar.position) + inside)
    flat = Flat(ring, origin, np.array([0.0, 1.0, 0.0]), UP, thickness)
    return [
        Piece(
            id="wing-brace",
            name="dihedral brace",
            kind="dihedral brace",
            stock=joint.brace,
            source=source,
            ring=ring,
            areal_mass=areal,
            thickness=thickness,
            flats=(flat,),
            lines=(Line(LineKind.MARK, ((0.0, 0.0), (0.0, height)), "centre line"),),
            notes="Stands against the front of the spar.",
        )
    ]


def _seam_tapes(run: WingRun, stock: Stock) -> list[Piece]:
    name = run.design.wing.joint.tape
    if name is None:
        return []
    tape = entry(stock.tapes, name, "wing.joint.tape")
    width = tape.width or TAPE_WIDTH
    pieces: list[Piece] = []
    for number, place in enumerate(run.skin_joints):
        station = frame_at(run.frames, place).station(place)
        ring = rectangle(station.chord, width)
        middle = 0.5 * station.chord
        low = station.at(middle, bottom_height(station, run, place, 0.5))
        aft, across = station.aft, station.out
        if place == 0.0:
            # On the centre line the tape lies across both halves, square to the plane of symmetry.
            aft, across = unit(aft * np.array([1.0, 0.0, 1.0])), np.array([0.0, 1.0, 0.0])
        flat = Flat(ring, low - middle * aft - 0.5 * width * across, aft, across, 0.0001)
        piece = Piece(
            id="joint-tape-1" if place == 0.0 else f"joint-tape-{number + 1}-right",
            name="joint tape",
            kind="joint tape",
            stock=tape.name,
            source=Source.TAPE,
            ring=ring,
            areal_mass=tape.areal_mass,
            thickness=0.0001,
            flats=(flat,),
            notes="Over the bottom seam, pressed into glue.",
        )
        pieces += [piece] if place == 0.0 else pair(piece)
    return pieces
