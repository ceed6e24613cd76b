"""Tape and film over the paper."""

import math

import numpy as np
from numpy.typing import NDArray

from foamwright.design.model import Design
from foamwright.parts.material import entry
from foamwright.parts.model import Source
from foamwright.parts.piece import Flat, Piece, mirrored, pair, rectangle
from foamwright.parts.side_view import SideView, between
from foamwright.parts.wing_frame import bar
from foamwright.parts.wing_run import WingRun
from foamwright.shape.model import LiftingSurface
from foamwright.stock.model import Stock, TapeStock

FILM = 0.0001  # m, thickness given to tapes; it only places them
USUAL_WIDTH = 0.048  # m; common practice

type Array = NDArray[np.float64]


def covering_pieces(design: Design, run: WingRun, stock: Stock, view: SideView) -> list[Piece]:
    """Tape or film, by what it covers.

    Args:
        design: The design. [-]
        run: The wing. [-]
        stock: The stock tables. [-]
        view: Side view. [-]

    Returns:
        Pieces; their outlines are the tape laid end to end, their facets the place covered.

    Raises:
        DesignError: Stock has no such tape.

    Source:
        Common practice: edges and belly at least.

    Example:
        >>> covering_pieces(design, run, stock, view)
        []
    """
    cover = design.covering
    if cover.stock is None:
        return []
    tape = entry(stock.tapes, cover.stock, "covering.stock")
    pieces: list[Piece] = []
    if cover.wing == "edges":
        pieces += _wing_edges(run, tape)
    elif cover.wing in ("bottom", "all"):
        pieces += _wing_faces(run, tape, top=cover.wing == "all")
    if cover.fuselage != "none":
        pieces += _fuselage(design, tape, view, sides=cover.fuselage == "all")
    if cover.tail != "none":
        pieces += _tail(run, tape, faces=cover.tail == "all")
    return pieces


def _tape(id: str, name: str, tape: TapeStock, flat: Flat, *, twice: bool = False) -> Piece:
    """Tape laid end to end whose area equals the facet's."""
    width = tape.width or USUAL_WIDTH
    u, v = flat.ring[:, 0], flat.ring[:, 1]
    area = abs(0.5 * float(u @ np.roll(v, -1) - v @ np.roll(u, -1)))
    faces = 2.0 if twice else 1.0
    return Piece(
        id=id,
        name=name,
        kind=name,
        stock=tape.name,
        source=Source.TAPE,
        ring=rectangle(faces * area / width, width),
        areal_mass=tape.areal_mass,
        thickness=FILM,
        flats=(flat, flat) if twice else (flat,),
        notes="Both faces." if twice else "",
    )


def _wing_edges(run: WingRun, tape: TapeStock) -> list[Piece]:
    width = tape.width or USUAL_WIDTH
    pieces: list[Piece] = []
    for number, frame in enumerate(run.frames):
        ends = [frame.station(place) for place in (frame.start, frame.start + frame.length)]
        for label, share in (("leading", 0.0), ("trailing", 1.0)):
            middles = [s.at(share * s.chord) for s in ends]
            length = math.dist(middles[0].tolist(), middles[1].tolist())
            ring = rectangle(length, width)
            flat = bar(middles[0], middles[1], ring, width_to=-ends[0].aft, thickness=FILM)
            name = f"{label} edge tape"
            pieces += pair(_tape(f"{label}-edge-tape-{number + 1}-right", name, tape, flat))
    return pieces


def _wing_faces(run: WingRun, tape: TapeStock, *, top: bool) -> list[Piece]:
    pieces: list[Piece] = []
    for number, frame in enumerate(run.frames):
        station = frame.station(frame.start)
        panel, length = frame.panel, frame.length
        lead = panel.tip[0] - panel.root[0]
        ring = np.array(
            [
                [0.0, -panel.root_chord],
                [length, -lead - panel.tip_chord],
                [length, -lead],
                [0.0, 0.0],
            ]
        )
        section = panel.section
        levels = [("bottom", section.lower)] + ([("top", section.upper)] if top else [])
        for label, side in levels:
            x, z = np.array(side).T
            height = float(np.trapezoid(z, x)) * station.chord
            flat = Flat(ring, station.at(0.0, height), station.out, -station.aft, FILM)
            pieces += pair(
                _tape(f"wing-{label}-film-{number + 1}-right", f"wing {label} covering", tape, flat)
            )
    return pieces


def _fuselage(design: Design, tape: TapeStock, view: SideView, *, sides: bool) -> list[Piece]:
    length = design.fuselage.length
    wide = tape.width or USUAL_WIDTH
    z = float(np.trapezoid(view.bottom[:, 1], view.bottom[:, 0])) / length
    flat = Flat(
        rectangle(length, wide),
        np.array([0.0, -0.5 * wide, z]),
        np.array([1.0, 0.0, 0.0]),
        np.array([0.0, 1.0, 0.0]),
        FILM,
    )
    pieces = [_tape("belly-tape", "belly tape", tape, flat)]
    if sides:
        ring = between(view, 0.0, length)
        y = np.array([0.0, 0.5 * design.fuselage.width, 0.0])
        side = Flat(ring, y, np.array([1.0, 0.0, 0.0]), np.array([0.0, 0.0, 1.0]), FILM)
        right = _tape("fuselage-side-film-right", "fuselage side covering", tape, side)
        pieces += pair(right)
    return pieces


def _tail(run: WingRun, tape: TapeStock, *, faces: bool) -> list[Piece]:
    plane = run.airframe
    pieces: list[Piece] = []
    for surface in (plane.stab, plane.fin):
        if surface is None:
            continue
        flat = _planform(surface) if faces else _leading_edge(surface, tape)
        label = "covering" if faces else "leading edge tape"
        right = _tape(
            f"{surface.name}-tape-right", f"{surface.name} {label}", tape, flat, twice=faces
        )
        if surface.mirrored:
            pieces += [right, mirrored(right, id=f"{surface.name}-tape-left", side="left")]
        else:
            pieces.append(right)
    return pieces


def _planform(surface: LiftingSurface) -> Flat:
    panel = surface.panels[0]
    root, tip = np.array(panel.root), np.array(panel.tip)
    out = tip - root
    lead = float(out[0])
    out[0] = 0.0
    length = math.sqrt(float(out @ out))
    ring = np.array(
        [
            [0.0, -panel.root_chord],
            [length, -lead - panel.tip_chord],
            [length, -lead],
            [0.0, 0.0],
        ]
    )
    return Flat(ring, root, out / length, np.array([-1.0, 0.0, 0.0]), FILM)


def _leading_edge(surface: LiftingSurface, tape: TapeStock) -> Flat:
    panel = surface.panels[0]
    root, tip = np.array(panel.root), np.array(panel.tip)
    length = math.dist(panel.root, panel.tip)
    ring = rectangle(length, tape.width or USUAL_WIDTH)
    return bar(root, tip, ring, width_to=np.array([-1.0, 0.0, 0.0]), thickness=FILM)
