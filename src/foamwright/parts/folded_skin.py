"""Folded wing skins: the blank in the flat, its lines, and its facets on the plane."""

import math
from collections.abc import Callable
from dataclasses import dataclass, replace
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from foamwright.core.units import format_value
from foamwright.parts.material import scaled
from foamwright.parts.model import Line, LineKind, Source
from foamwright.parts.piece import Flat, Piece, on_part
from foamwright.parts.wing_frame import Station, unit
from foamwright.parts.wing_openings import opened_pair
from foamwright.parts.wing_run import Span, WingRun, edge_depths, end_bevels
from foamwright.shape.folded import NEUTRAL
from foamwright.shape.model import FoldLine, WingSection
from foamwright.shape.section import wing_section

KINDS = {
    "fold": LineKind.FOLD,
    "crease": LineKind.CREASE,
    "score": LineKind.SCORE,
    "bevel": LineKind.BEVEL,
}
CURVE_POINTS = 7

type Array = NDArray[np.float64]
type Reader = Callable[[WingSection], float]


@dataclass(frozen=True, slots=True)
class Blank:
    """The unfolded skin of one stretch.

    v runs along the blank from the middle of the nose fold, the bottom skin below, the top above;
    u runs along the fold.

    Attributes:
        span: The stretch.
        inner: Section at its inner end.
        outer: Section at its outer end.
        sweep: Of the leading edge. [rad]
    """

    span: Span
    inner: WingSection
    outer: WingSection
    sweep: float

    def point(self, place: float, reach: float) -> tuple[float, float]:
        """Flat point [m] a streamwise distance from the fold, negative on the bottom skin."""
        along = (place - self.span.start) / math.cos(self.sweep)
        return (
            along + abs(reach) * math.sin(self.sweep),
            reach * math.cos(self.sweep),
        )

    def reach(self, places: Array | float, inner: float, outer: float) -> Array:
        """Distance [m] from the fold, running straight from the inner to the outer end."""
        share = (np.asarray(places) - self.span.start) / self.span.length
        return inner + share * (outer - inner)


def _fold(section: WingSection) -> FoldLine:
    return next(line for line in section.lines if line.kind == "fold")


def _marks(section: WingSection) -> list[tuple[str, float]]:
    """Lines of a section as (kind, distance from the fold's middle)."""
    middle = _fold(section).at
    return [(line.kind, line.at - middle) for line in section.lines if line.kind != "fold"]


def make_blank(run: WingRun, span: Span) -> Blank:
    """Unfold one stretch of skin.

    Args:
        run: The wing. [-]
        span: The stretch. [-]

    Returns:
        Its blank.

    Raises:
        DesignError: The section at one of its ends cannot be folded.

    Source:
        Straight lines between the end sections: development of a cone.

    Example:
        >>> round(make_blank(run, run.spans[0]).inner.chord, 3)
        0.197
    """
    thickness = run.board.thickness
    panel = span.frame.panel
    ends = [
        wing_section(
            run.design.wing,
            span.frame.station(place).chord,
            thickness,
            taper=(panel.root_chord, panel.tip_chord),
        )
        for place in (span.start, span.end)
    ]
    return Blank(span, ends[0], ends[1], span.frame.sweep)


def _edge(run: WingRun, blank: Blank, *, top: bool) -> Array:
    """Trailing edge of one skin in the flat, inner to outer end."""
    rows = edge_depths(run, blank.span)
    if top:
        inner = blank.inner.blank_length - _fold(blank.inner).at
        outer = blank.outer.blank_length - _fold(blank.outer).at
    else:
        inner, outer = -_fold(blank.inner).at, -_fold(blank.outer).at
    sign = 1.0 if top else -1.0
    points = []
    for place, depth in rows:
        whole = float(blank.reach(place, inner, outer))
        points.append(blank.point(place, whole - sign * depth))
    return np.array(points)


def _across(blank: Blank, inner: float, outer: float) -> Array:
    """A straight line across the stretch at given distances from the fold at its ends."""
    span = blank.span
    return np.array([blank.point(span.start, inner), blank.point(span.end, outer)])


def _lines(run: WingRun, blank: Blank) -> tuple[Line, ...]:
    half = (0.5 * _fold(blank.inner).width, 0.5 * _fold(blank.outer).width)
    lines = [
        Line(LineKind.FOLD, _points(_across(blank, 0.0, 0.0)), "nose fold"),
        Line(LineKind.FOLD, _points(_across(blank, -half[0], -half[1])), "foam out"),
        Line(LineKind.FOLD, _points(_across(blank, half[0], half[1])), "foam out"),
    ]
    for (kind, inner), (_, outer) in zip(_marks(blank.inner), _marks(blank.outer), strict=True):
        lines.append(Line(KINDS[kind], _points(_across(blank, inner, outer)), kind))
    box = run.design.wing.spar
    if blank.inner.spar_box is not None:
        place = [
            _fold(section).at - _bottom_at(section, box.position)
            for section in (blank.inner, blank.outer)
        ]
        lines.append(
            Line(LineKind.MARK, _points(_across(blank, -place[0], -place[1])), "middle of spar")
        )
    return tuple(lines)


def _kept(run: WingRun, ring: Array, lines: tuple[Line, ...]) -> tuple[Line, ...]:
    """The lines without what an aileron deeper than the bevel cuts off with it."""
    if run.aileron is None:
        return lines
    return tuple(
        kept
        for line in lines
        for kept in (on_part(ring, line) if line.kind is LineKind.BEVEL else (line,))
    )


def _bottom_at(section: WingSection, fraction: float) -> float:
    """Distance from the bottom's trailing edge, along the blank, of a chord fraction."""
    return (1.0 - fraction) * section.chord


def _points(array: Array) -> tuple[tuple[float, float], ...]:
    return tuple((u, v) for u, v in array.tolist())


def _path_at(section: WingSection, places: Array, thickness: float) -> Array:
    """Points of the skin's middle line at distances from the fold's middle along the blank."""
    path = np.array(section.skin_path)
    arcs = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(path, axis=0).T))])
    knots, lengths = [0.0], [0.0]
    for line in section.lines:
        if line.kind == "bevel":
            continue
        allowance = NEUTRAL[line.kind] * thickness * line.angle
        for end, share in ((line.at - 0.5 * line.width, 0.0), (line.at + 0.5 * line.width, 1.0)):
            knots.append(end)
            step = end - knots[-2]
            lengths.append(lengths[-1] + step - share * allowance)
    knots.append(section.blank_length)
    lengths.append(float(arcs[-1]))
    along = np.interp(places + _fold(section).at, knots, lengths)
    return np.column_stack([np.interp(along, arcs, path[:, i]) for i in (0, 1)])


def _stretches(run: WingRun, blank: Blank) -> list[tuple[float, float, float, float]]:
    """Facet borders as (inner low, outer low, inner high, outer high), bottom to top."""
    ends = (blank.inner, blank.outer)
    half = [0.5 * _fold(section).width for section in ends]
    creases = [[v for kind, v in _marks(s) if kind != "bevel" and v > 0.0] for s in ends]
    rear = [max(v for _, v in _marks(s)) for s in ends]
    cut = run.aileron.chord if run.aileron is not None else 0.0
    for i, section in enumerate(ends):
        length = section.blank_length - _fold(section).at
        last = max([half[i], *creases[i]])
        rear[i] = max(min(rear[i], length - cut - 0.004), 0.5 * (last + length - cut))
    rows = [(-1.0, -1.0, -half[0], -half[1]), (-half[0], -half[1], half[0], half[1])]
    low = (half[0], half[1])
    for inner, outer in zip(*creases, strict=True):
        rows.append((low[0], low[1], inner, outer))
        low = (inner, outer)
    rows += [(low[0], low[1], rear[0], rear[1]), (rear[0], rear[1], 1.0, 1.0)]
    return rows


def _flats(run: WingRun, blank: Blank) -> tuple[Flat, ...]:
    station = blank.span.frame.station(0.5 * (blank.span.start + blank.span.end))
    panel = blank.span.frame.panel
    taper = (panel.root_chord, panel.tip_chord)
    section = wing_section(run.design.wing, station.chord, run.board.thickness, taper=taper)
    rows = _stretches(run, blank)
    flats: list[Flat] = []
    for index, (a0, a1, b0, b1) in enumerate(rows):
        low = _edge(run, blank, top=False) if index == 0 else _across(blank, a0, a1)
        last = index == len(rows) - 1
        high = _edge(run, blank, top=True) if last else _across(blank, b0, b1)
        # With a swept edge the sides of the blank bend at the middle of the fold.
        bend = _across(blank, 0.0, 0.0) if index == 1 else high[:0]
        ring = np.vstack([low, bend[1:], high[::-1], bend[:1]])
        if index == 0:
            bounds = (-_fold(section).at, 0.5 * (b0 + b1))
        elif last:
            bounds = (0.5 * (a0 + a1), section.blank_length - _fold(section).at)
        else:
            bounds = (0.5 * (a0 + a1), 0.5 * (b0 + b1))
        flats.append(_place(blank, station, section, ring, bounds, run.board.thickness))
    return tuple(flats)


def _place(
    blank: Blank,
    station: Station,
    section: WingSection,
    ring: Array,
    bounds: tuple[float, float],
    thickness: float,
) -> Flat:
    """Lay a flat stretch on the chord of its piece of curved skin, at the middle of the span."""
    places = np.linspace(bounds[0], bounds[1], CURVE_POINTS)
    curve = _path_at(section, places, thickness)
    run_x, run_z = curve[-1] - curve[0]
    fold = unit(math.cos(blank.sweep) * station.out + math.sin(blank.sweep) * station.aft)
    stretch = run_x * station.aft + run_z * station.up
    across = unit(stretch - (stretch @ fold) * fold)
    centre = station.at(*curve.mean(axis=0).tolist())
    middle = 0.5 * (blank.span.start + blank.span.end)
    u, v = blank.point(middle, float(places.mean()))
    return Flat(ring, centre - u * fold - v * across, fold, across, thickness)


def _areal_mass(run: WingRun, blank: Blank, ring: Array) -> float:
    """Share of the board's mass that is left after the nose strip and the bevels are cut away."""
    board = run.board
    whole = board.areal_mass.typical
    core = max(whole - board.papers * board.paper, 0.0)
    inner_paper = board.paper if board.papers == 2 else 0.0
    gone = _mean(blank, lambda s: _fold(s).width) * (core + inner_paper) * blank.span.length
    bevel = _mean(blank, lambda s: s.lines[0].at)
    # A bevel to a feather edge takes half the foam and the inner paper, on both skins; where an
    # aileron was cut out only the front of it is left.
    for (a, depth), (b, _) in pairwise(edge_depths(run, blank.span)):
        left = max(bevel - depth, 0.0)
        gone += 2.0 * (b - a) * left * (0.5 * left / bevel * core + inner_paper)
    return 1.0 - gone / (whole * abs(_shoelace(ring)))


def _mean(blank: Blank, read: Reader) -> float:
    return 0.5 * (read(blank.inner) + read(blank.outer))


def _shoelace(ring: Array) -> float:
    u, v = ring[:, 0], ring[:, 1]
    return 0.5 * float(u @ np.roll(v, -1) - v @ np.roll(u, -1))


def _notes(run: WingRun, blank: Blank) -> str:
    span = blank.span
    words = ["Drawn on the inside face: cut every line from this side; the other face is outside."]
    first, last = span.start == span.frame.start, span.end == span.frame.start + span.frame.length
    inner, outer = end_bevels(run, span)
    words += [f"Inner end bevelled {inner:.1f}°."] if first and abs(inner) > 0.05 else []
    words += [f"Outer end bevelled {outer:.1f}°."] if last and abs(outer) > 0.05 else []
    if span.spliced:
        words.append("Outer end butts on the next skin: tape both faces.")
    words += dict.fromkeys((*blank.inner.notes, *blank.outer.notes))
    radius = min(s.bend_radius or math.inf for s in (blank.inner, blank.outer))
    if radius < run.board.bend:
        units = run.design.units
        words.append(
            f"The top bends to a radius of {format_value(radius, 'length', units)}, tighter than "
            f"the inner paper stands (about {format_value(run.board.bend, 'length', units)}): "
            "roll it over a table edge first, or add a crease."
        )
    return " ".join(words)


def _mean_chord_marks(run: WingRun, blank: Blank) -> list[Line]:
    """Short marks at the root of the bottom skin; geometry, not a balance."""
    wing, span = run.airframe.wing, blank.span
    if span.start > 0.0:
        return []
    lines: list[Line] = []
    for share in (0.25, 0.33):
        behind = wing.mean_chord_x + share * wing.mean_chord - wing.panels[0].root[0]
        reach = -_fold(blank.inner).at + blank.inner.chord - behind
        if 0.0 < behind < blank.inner.chord and reach < -0.5 * _fold(blank.inner).width:
            ends = [blank.point(place, reach) for place in (0.0, min(0.05, span.end))]
            lines.append(Line(LineKind.MARK, tuple(ends), f"{100 * share:.0f} % mean chord"))
    return lines


def folded_skins(run: WingRun) -> list[Piece]:
    """Folded skins of both wing halves.

    Args:
        run: The wing. [-]

    Returns:
        One blank a stretch and side.

    Source:
        Definition of the build; lines from the section at both ends.

    Example:
        >>> [piece.id for piece in folded_skins(run)]
        ['wing-skin-1-right', 'wing-skin-1-left']
    """
    pieces: list[Piece] = []
    for span in run.spans:
        blank = make_blank(run, span)
        bottom, top = _edge(run, blank, top=False), _edge(run, blank, top=True)
        nose = _across(blank, 0.0, 0.0)
        ring = np.vstack([bottom, nose[1], top[::-1], nose[0]])
        share = _areal_mass(run, blank, ring)
        piece = Piece(
            id=f"wing-skin-{span.tag}-right",
            name=f"wing skin {span.tag}",
            kind=f"wing skin {span.tag}",
            stock=run.board.name,
            source=Source.BOARD,
            ring=ring,
            areal_mass=replace(
                scaled(run.board.areal_mass, share), source=run.board.areal_mass.source
            ),
            thickness=run.board.thickness,
            flats=_flats(run, blank),
            lines=(*_kept(run, ring, _lines(run, blank)), *_mean_chord_marks(run, blank)),
            fold_along=(1.0, 0.0),
            notes=_notes(run, blank),
        )

        def below(place: float, behind: float, blank: Blank = blank) -> tuple[float, float]:
            end = float(blank.reach(place, -_fold(blank.inner).at, -_fold(blank.outer).at))
            chord = float(blank.reach(place, blank.inner.chord, blank.outer.chord))
            return blank.point(place, end + (chord - behind))

        pieces += opened_pair(run, span, piece, at=below)
    return pieces
