"""Checks of section, sheets and joints."""

from __future__ import annotations

import re
from collections import defaultdict
from itertools import combinations, pairwise
from typing import TYPE_CHECKING

import numpy as np

from foamwright.checks.judge import Finding, Rule
from foamwright.checks.levers import (
    INCH,
    Lever,
    Step,
    count_lever,
    length_lever,
    listed,
    share_lever,
    together,
)
from foamwright.checks.say import percent, say
from foamwright.checks.shape_levers import wing_chord_lever, wing_span_lever
from foamwright.parts.joints import STAGGER
from foamwright.parts.model import Source
from foamwright.stock.load import board_of

if TYPE_CHECKING:
    from foamwright.parts.model import Part
    from foamwright.plane import Plane
    from foamwright.shape.model import WingSection

TARGET_RMS = 0.010  # of the chord; assumed: twice the cutting accuracy of 1 mm on 200 mm
THICKNESS = {"folded": (0.08, 0.15), "stepped": (0.05, 0.13), "plate": (0.015, 0.09)}  # practice
ASPECT_RATIO = (4.0, 10.0)  # common practice, no source: 5 to 7, gliders 10 and more
SPLIT_ID = re.compile(r"^(?P<stem>.*?(?:\d|-))(?P<letter>[a-h])(?:-(?P<side>right|left))?$")
NEAREST_JOINTS = STAGGER - 0.005  # m; 80 mm as marked less 5 mm for cutting; common practice
BIGGER_BOARDS = ((0.841, 0.594), (1.0, 0.7))  # m, A1 (ISO 216) and 700 x 1000 sheets on sale


def _section(plane: Plane) -> WingSection:
    return plane.airframe.wing.panels[0].section


def _target(plane: Plane) -> Finding:
    section, target = _section(plane), plane.design.wing.target
    if section.target_rms is None or section.target_max is None:
        return Finding(
            None, f"A {section.build} wing copies no section, so there is nothing to compare."
        )
    chord = section.chord
    return Finding(
        section.target_rms,
        f"The {section.build} section lies within "
        f"{say(plane, section.target_rms * chord, 'length')} "
        f"of the {target} (rms; at worst {say(plane, section.target_max * chord, 'length')}) on a "
        f"chord of {say(plane, chord, 'length')}; {percent(TARGET_RMS)} of the chord is a good "
        "copy.",
        high=TARGET_RMS,
    )


def _target_levers(plane: Plane, finding: Finding) -> tuple[Lever, ...]:
    del finding
    wing = plane.design.wing
    thinner = wing.spar.strips - 1
    return listed(
        count_lever(plane, "wing.creases", "creases", to=3) if wing.creases < 3 else None,
        share_lever(plane, "wing.spar.position", "spar at, of the chord,", to=0.35),
        share_lever(plane, "wing.spar.position", "spar at, of the chord,", to=0.2),
        count_lever(plane, "wing.spar.strips", "spar strips", to=wing.spar.strips + 1),
        count_lever(plane, "wing.spar.strips", "spar strips", to=thinner) if thinner else None,
        wing_chord_lever(plane),
        wing_chord_lever(plane, wider=False),
    )


def _thickness(plane: Plane) -> Finding:
    section = _section(plane)
    low, high = THICKNESS[section.build]
    return Finding(
        section.thickness_ratio,
        f"The {section.build} wing is {percent(section.thickness_ratio)} of its chord thick "
        f"({say(plane, section.thickness_ratio * section.chord, 'length')} on "
        f"{say(plane, section.chord, 'length')}); {percent(low)} to {percent(high)} is usual.",
        low=low,
        high=high,
    )


def _thickness_levers(plane: Plane, finding: Finding) -> tuple[Lever, ...]:
    wing = plane.design.wing
    thin = finding.value is None or finding.value < 0.5 * sum(THICKNESS[wing.build])
    strips = wing.spar.strips + (1 if thin else -1)
    return listed(
        wing_chord_lever(plane, wider=not thin),
        count_lever(plane, "wing.spar.strips", "spar strips", to=strips) if strips >= 0 else None,
    )


def _aspect_ratio(plane: Plane) -> Finding:
    low, high = ASPECT_RATIO
    value = plane.airframe.wing.aspect_ratio
    return Finding(
        value,
        f"Span over mean chord is {value:.1f}; {low:.0f} to {high:.0f} suits a foam-board wing (a "
        "longer one bends, a shorter one drags).",
        low=low,
        high=high,
    )


def _aspect_levers(plane: Plane, finding: Finding) -> tuple[Lever, ...]:
    stubby = finding.value is None or finding.value < 0.5 * sum(ASPECT_RATIO)
    return listed(
        wing_span_lever(plane, longer=stubby),
        wing_chord_lever(plane, wider=not stubby),
    )


def _fit(plane: Plane) -> Finding:
    board, layout = board_of(plane.design.board, plane.stock), plane.layout
    room = (board.length - 2.0 * layout.margin, board.width - 2.0 * layout.margin)
    parts = [part for part in plane.parts.parts if part.source is Source.BOARD]
    if not parts:
        return Finding(None, "No part is cut from board.")
    sizes = [_size(part) for part in parts]
    ratios = [_ratio(size, room) for size in sizes]
    worst = int(np.argmax(ratios))
    value = max(ratios[worst], 1.01) if layout.unplaced else ratios[worst]
    known = {part.id: part.name for part in parts}
    names = list(dict.fromkeys(known.get(id_) or id_ for id_ in layout.unplaced))
    trouble = f"; {', '.join(names[:3])}: no way to lay it along its folds" if names else ""
    return Finding(
        value,
        f"The largest part ({parts[worst].name}, {say(plane, sizes[worst][0], 'length')} x "
        f"{say(plane, sizes[worst][1], 'length')}) takes {percent(ratios[worst])} of the usable "
        f"{say(plane, room[0], 'length')} x {say(plane, room[1], 'length')} of a board{trouble}.",
        high=1.0,
    )


def _size(part: Part) -> tuple[float, float]:
    left, bottom, right, top = part.outline.bounds
    return right - left, top - bottom


def _ratio(size: tuple[float, float], room: tuple[float, float]) -> float:
    along = max(size[0] / room[0], size[1] / room[1])
    across = max(size[1] / room[0], size[0] / room[1])
    return min(along, across)


def _fit_levers(plane: Plane, finding: Finding) -> tuple[Lever, ...]:
    del finding
    board = plane.design.board
    bigger = [
        Step(
            {"board.length": length, "board.width": width, **_same_board(plane, length, width)},
            f"boards of {say(plane, length, 'length')} x {say(plane, width, 'length')} instead of "
            f"{say(plane, board.length, 'length')} x {say(plane, board.width, 'length')}",
        )
        for length, width in BIGGER_BOARDS
        if length > board.length and width > board.width
    ]
    return listed(
        wing_chord_lever(plane, wider=False),
        wing_span_lever(plane, longer=False),
        together("board size", bigger),
    )


def _same_board(plane: Plane, length: float, width: float) -> dict[str, float | str]:
    """A weighed sheet keeps its mass per area."""
    board = plane.design.board
    if board.mass is None:
        return {}
    return {"board.mass": board.mass * length * width / (board.length * board.width)}


def _boards(plane: Plane) -> Finding:
    layout, count = plane.layout, plane.design.board.count
    pieces = f" and {len(layout.offcuts)} of the off-cuts" if layout.offcuts else ""
    return Finding(
        float(layout.boards_used),
        f"The parts take {layout.boards_used} boards{pieces} in a quick draft "
        f"({percent(layout.fill)} of them used), which the search that writes the sheets may "
        f"better; {count} are on the bench.",
        high=count + 0.5,
    )


def _board_levers(plane: Plane, finding: Finding) -> tuple[Lever, ...]:
    del finding
    return listed(count_lever(plane, "board.count", "boards", to=min(plane.layout.boards_used, 60)))


def splices(parts: tuple[Part, ...]) -> dict[str, dict[str, list[float]]]:
    """Where pieces too long for a board are joined.

    Args:
        parts: All parts. [-]

    Returns:
        "wing" (distance out from the middle) and "fuselage" (distance behind the nose), each layer
        name -> places. [m]

    Source:
        Definition.

    Example:
        >>> splices(())
        {'wing': {}, 'fuselage': {}}
    """
    pieces: dict[tuple[str, str], list[tuple[str, float, float]]] = defaultdict(list)
    for part in parts:
        match = SPLIT_ID.match(part.id)
        if match is None or match["side"] == "left" or not part.facets:
            continue
        room = "fuselage" if part.id.startswith(("fuselage", "nose", "shoulder")) else "wing"
        low, high = _reach(part, 0 if room == "fuselage" else 1)
        pieces[(room, match["stem"].rstrip("-"))].append((match["letter"], low, high))
    found: dict[str, dict[str, list[float]]] = {"wing": {}, "fuselage": {}}
    for (room, stem), members in pieces.items():
        joints = [0.5 * (a[2] + b[1]) for a, b in pairwise(sorted(members))]
        if joints:
            found[room][stem] = joints
    return found


def _reach(part: Part, axis: int) -> tuple[float, float]:
    """Least and greatest coordinate of a part in its place on the plane."""
    values = [
        facet.origin[axis]
        + np.asarray(facet.polygon.exterior.coords)
        @ np.array((facet.along[axis], facet.across[axis]))
        for facet in part.facets
    ]
    together_ = np.concatenate(values)
    return float(together_.min()), float(together_.max())


def _staggered(plane: Plane) -> Finding:
    found = splices(plane.parts.parts)
    breaks = [panel.root[1] for panel in plane.airframe.wing.panels]
    found["wing"]["dihedral break"] = breaks
    nearest: tuple[float, str] | None = None
    for places in found.values():
        for (one, first), (two, second) in combinations(places.items(), 2):
            for gap in (abs(a - b) for a in first for b in second):
                if nearest is None or gap < nearest[0]:
                    nearest = (gap, f"{one} and {two}")
    if nearest is None:
        return Finding(
            0.5 * plane.airframe.wing.span,
            "No part is longer than a board, so no splice lies near another joint "
            f"({say(plane, NEAREST_JOINTS, 'length')} apart is wanted).",
            low=NEAREST_JOINTS,
        )
    return Finding(
        nearest[0],
        f"The nearest joints ({nearest[1]}) lie {say(plane, nearest[0], 'length')} apart; less "
        "than "
        f"{say(plane, NEAREST_JOINTS, 'length')} makes a weak place.",
        low=NEAREST_JOINTS,
    )


def _stagger_levers(plane: Plane, finding: Finding) -> tuple[Lever, ...]:
    del finding
    return listed(
        wing_span_lever(plane, longer=False),
        wing_span_lever(plane),
        length_lever(plane, "board.length", "board length", to=40.0 * INCH),
    )


BUILD_RULES = (
    Rule(
        "section_target",
        "Section against the one it copies",
        "-",
        "rms distance at most 1 % of the chord",
        "ordinates of the target section; limit assumed",
        "wing section",
        _target,
        _target_levers,
    ),
    Rule(
        "wing_thickness",
        "Thickness of the wing",
        "-",
        "folded 8 to 15 %, stepped 5 to 13 %, plate 1.5 to 9 % of the chord",
        "common practice, no source",
        "wing section",
        _thickness,
        _thickness_levers,
    ),
    Rule(
        "aspect_ratio",
        "Aspect ratio",
        "-",
        "4 to 10",
        "common practice, no source",
        "wing",
        _aspect_ratio,
        _aspect_levers,
    ),
    Rule(
        "parts_fit",
        "Parts fit a board",
        "-",
        "largest part at most 100 % of the usable board",
        "geometry",
        "sheets",
        _fit,
        _fit_levers,
    ),
    Rule(
        "boards",
        "Boards needed",
        "-",
        "at most the boards on the bench",
        "geometry; a longer search may save a board",
        "sheets",
        _boards,
        _board_levers,
    ),
    Rule(
        "joints_staggered",
        "Joints staggered",
        "m",
        "at least 75 mm apart: 80 mm is marked, 5 mm is lost in cutting and gluing",
        "common practice, no source",
        "wing and fuselage splices",
        _staggered,
        _stagger_levers,
    ),
)
