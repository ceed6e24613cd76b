"""Wings of flat layers, and what all wings have: ailerons."""

import math

import numpy as np
from numpy.typing import NDArray

from foamwright.parts.horns import aileron_horn_mark
from foamwright.parts.model import Line, LineKind, Source
from foamwright.parts.piece import Flat, Piece, pair, rectangle
from foamwright.parts.wing_frame import Station, bar, frame_at, unit
from foamwright.parts.wing_openings import opened_pair
from foamwright.parts.wing_run import Span, WingRun, edge_depths
from foamwright.shape.folded import TRAILING_REST
from foamwright.shape.model import Point

TAIL_BEVEL = 4.0  # board thicknesses over which an aileron's tail is thinned; common practice
LEAST_GAP = 0.001  # m between the skins; a smaller one is filled with glue; assumed

type Array = NDArray[np.float64]


def _layer_ring(run: WingRun, span: Span, fraction: float) -> Array:
    """Outline of one layer: u outwards, v forwards, the inner leading edge at the origin."""
    frame = span.frame
    tail: list[tuple[float, float]] = []
    rows = edge_depths(run, span) if fraction >= 1.0 else [(span.start, 0.0), (span.end, 0.0)]
    slope = math.tan(frame.sweep)
    for place, depth in rows:
        chord = frame.station(place).chord
        lead = -(place - span.start) * slope
        tail.append((place - span.start, lead - fraction * chord + depth))
    nose = [(span.length, -span.length * slope), (0.0, 0.0)]
    return np.array([*tail, *nose])


def _layer_flat(station: Station, span: Span, ring: Array, height: float, thickness: float) -> Flat:
    """Place a layer whose middle plane lies `height` above the underside."""
    bottom = station.bottom_angle
    aft = math.cos(bottom) * station.aft + math.sin(bottom) * station.up
    up = math.cos(bottom) * station.up - math.sin(bottom) * station.aft
    section = span.frame.panel.section
    x, z = section.lower[-1]
    under = (x * math.sin(bottom) - z * math.cos(bottom)) * section.chord
    origin = station.edge + (height - under) * up
    return Flat(ring, origin, unit(station.out), -aft, thickness)


def layered_skins(run: WingRun) -> list[Piece]:
    """Bottom plates and upper layers of a stepped wing, or the plates of a plate wing.

    Args:
        run: The wing. [-]

    Returns:
        Pieces of both sides.

    Source:
        Definition of the build.

    Example:
        >>> len(layered_skins(run))
        2
    """
    wing, board = run.design.wing, run.board
    steps = sorted(wing.steps, reverse=True) if wing.build == "stepped" else []
    pieces: list[Piece] = []
    for span in run.spans:
        for level, fraction in enumerate([1.0, *steps]):
            name = "wing plate" if level == 0 else f"wing upper layer {level}"
            ring = _layer_ring(run, span, fraction)
            height = (level + 0.5) * board.thickness
            # The layer is a plane through its inner end; washout is bent in after cutting.
            middle = span.frame.station(0.5 * (span.start + span.end))
            flat = _layer_flat(middle, span, ring, height, board.thickness)
            half = 0.5 * span.length
            lead = half * math.tan(span.frame.sweep)
            origin = flat.origin - half * flat.along + lead * flat.across
            lines = ()
            bevel = wing.bevel or 0.0
            if level == 0 and bevel > 0.0:
                inner, outer = ring[0] + (0.0, bevel), (ring[-3] + (0.0, bevel))
                depth = -(1.0 - TRAILING_REST) * board.thickness
                ends = (_point(inner), _point(outer))
                lines = (Line(LineKind.BEVEL, ends, "bevel", depth=depth),)
            piece = Piece(
                id=f"wing-layer-{level}-{span.tag}-right",
                name=f"{name} {span.tag}",
                kind=f"{name} {span.tag}",
                stock=board.name,
                source=Source.BOARD,
                ring=ring,
                areal_mass=board.areal_mass,
                thickness=board.thickness,
                flats=(Flat(ring, origin, flat.along, flat.across, board.thickness),),
                lines=lines,
                fold_along=(1.0, 0.0),
                notes="Drawn from above. Round the leading edge.",
            )

            def below(place: float, behind: float, span: Span = span) -> tuple[float, float]:
                u = place - span.start
                return u, -u * math.tan(span.frame.sweep) - behind

            pieces += opened_pair(run, span, piece, at=below)
    return pieces


def _point(array: Array) -> tuple[float, float]:
    return (float(array[0]), float(array[1]))


def ailerons(run: WingRun) -> list[Piece]:
    """Ailerons of one board, hinged at the cut-out's front.

    Args:
        run: The wing. [-]

    Returns:
        One a side and stretch of straight hinge; none without ailerons.

    Source:
        Common practice: a strip with a bevelled hinge edge, a millimetre short at each end.

    Example:
        >>> ailerons(run)[0].kind
        'aileron'
    """
    cut = run.aileron
    if cut is None:
        return []
    pieces: list[Piece] = []
    for number, frame in enumerate(run.frames):
        start = max(cut.start, frame.start) + 0.001
        end = min(cut.end, frame.start + frame.length) - 0.001
        if end - start < 0.02:
            continue
        inner, outer = frame.station(start), frame.station(end)
        middle = [s.at(s.chord - 0.5 * cut.chord) for s in (inner, outer)]
        length = math.sqrt(float((middle[1] - middle[0]) @ (middle[1] - middle[0])))
        ring = rectangle(length, cut.chord)
        flat = bar(middle[0], middle[1], ring, width_to=-inner.aft, thickness=run.board.thickness)
        lines = _aileron_bevels(length, cut.chord, run.board.thickness)
        mark = aileron_horn_mark(run.design, run.airframe, (start, end))
        lines += [mark] if mark is not None else []
        pieces += _closing_strip(run, number, (inner, outer))
        pieces += pair(
            Piece(
                id=f"aileron-{number + 1}-right",
                name="aileron",
                kind=f"aileron {number + 1}" if len(run.frames) > 1 else "aileron",
                stock=run.board.name,
                source=Source.BOARD,
                ring=ring,
                areal_mass=run.board.areal_mass,
                thickness=run.board.thickness,
                flats=(flat,),
                lines=tuple(lines),
                fold_along=(1.0, 0.0),
                notes="Drawn from above, both bevels on the underside. Upper face flush with the "
                "top skin; upper paper or tape is the hinge.",
            )
        )
    return pieces


def _aileron_bevels(length: float, chord: float, thickness: float) -> list[Line]:
    """The slanted hinge edge, and the tail thinned to the wing's own trailing edge."""
    edge, tail = chord - thickness, min(TAIL_BEVEL * thickness, 0.5 * (chord - thickness))
    thin = (1.0 - TRAILING_REST) * thickness
    return [
        Line(LineKind.BEVEL, ((0.0, edge), (length, edge)), "hinge bevel 45°", depth=thickness),
        Line(LineKind.BEVEL, ((0.0, tail), (length, tail)), "tail bevel", depth=thin),
    ]


def _closing_strip(run: WingRun, number: int, ends: tuple[Station, Station]) -> list[Piece]:
    """A strip on edge between the skins where the hinge lies ahead of their glued bevels."""
    cut, frame, thickness = run.aileron, run.frames[number], run.board.thickness
    section = frame.panel.section
    if cut is None or run.design.wing.build != "folded":
        return []
    bevel = next(line.at for line in section.lines if line.kind == "bevel")
    if bevel - cut.chord >= thickness:
        return []
    at = [1.0 - cut.chord / station.chord for station in ends]
    places = list(zip(ends, at, strict=True))
    high, low = (
        [_height(side, f) * station.chord for station, f in places]
        for side in (section.upper, section.lower)
    )
    gap = min(h - b for h, b in zip(high, low, strict=True)) - 2.0 * thickness
    if gap < LEAST_GAP:
        return []
    middle = [
        s.at(s.chord - cut.chord - 0.5 * thickness, 0.5 * (h + b))
        for s, h, b in zip(ends, high, low, strict=True)
    ]
    length = math.sqrt(float((middle[1] - middle[0]) @ (middle[1] - middle[0])))
    ring = rectangle(length, gap)
    return pair(
        Piece(
            id=f"aileron-closing-{number + 1}-right",
            name="aileron closing strip",
            kind="aileron closing strip",
            stock=run.board.name,
            source=Source.BOARD,
            ring=ring,
            areal_mass=run.board.areal_mass,
            thickness=thickness,
            flats=(bar(middle[0], middle[1], ring, width_to=ends[0].up, thickness=thickness),),
            fold_along=(1.0, 0.0),
            notes="On edge between the skins, flush with their rear edges.",
        )
    )


def _height(side: tuple[Point, ...], fraction: float) -> float:
    x, z = np.array(side).T
    return float(np.interp(fraction, x, z))


def tip_plates(run: WingRun) -> list[Piece]:
    """Plates that close the tips of a folded wing.

    Args:
        run: The wing. [-]

    Returns:
        One a side: the section's outline; none for flat wings.

    Source:
        Common practice.

    Example:
        >>> tip_plates(run)[0].name
        'wing tip plate'
    """
    if run.design.wing.build != "folded":
        return []
    frame = frame_at(run.frames, run.half_span)
    station = frame.station(run.half_span)
    section = frame.panel.section
    depth = run.aileron.chord if run.aileron and run.aileron.end >= run.half_span - 1e-6 else 0.0
    end = 1.0 - depth / station.chord
    upper = _until(np.array(section.upper), end) * station.chord
    lower = _until(np.array(section.lower), end) * station.chord
    ring = np.vstack([lower, upper[::-1][:-1]])
    flat = Flat(
        ring,
        station.edge + 0.5 * run.board.thickness * station.out,
        station.aft,
        station.up,
        run.board.thickness,
    )
    return pair(
        Piece(
            id="wing-tip-plate-right",
            name="wing tip plate",
            kind="wing tip plate",
            stock=run.board.name,
            source=Source.BOARD,
            ring=ring,
            areal_mass=run.board.areal_mass,
            thickness=run.board.thickness,
            flats=(flat,),
            notes="Glue over the open end, outside face outwards.",
        )
    )


def _until(side: Array, end: float) -> Array:
    """A side of the outline up to a chord fraction, with every third point kept."""
    thin = np.vstack([side[:-1:3], side[-1]])
    if end >= 1.0:
        return thin
    keep = thin[thin[:, 0] < end]
    return np.vstack([keep, [end, float(np.interp(end, side[:, 0], side[:, 1]))]])
