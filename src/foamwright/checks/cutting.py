"""Checks off the page: what blade, ruler, slots and paper make of the parts as drawn."""

from __future__ import annotations

from typing import TYPE_CHECKING

from foamwright.checks.judge import Finding, Rule
from foamwright.checks.levers import Lever, count_lever, length_lever, listed, share_lever
from foamwright.checks.say import say
from foamwright.checks.shape_levers import wing_chord_lever
from foamwright.parts.cutting import SHORT_RULER
from foamwright.parts.material import PAPERS_LEFT, usual_bend
from foamwright.parts.piece import UNCUT
from foamwright.shape.folded import BEVEL_WIDTH
from foamwright.stock.load import board_of

if TYPE_CHECKING:
    from foamwright.plane import Plane

BLADE = 0.020  # m that a 9 mm snap-off blade stands out of its holder; common practice
RULER = 1.0  # m, the longest ruler of a usual bench; common practice
PLAY = 0.0005  # m by which a slot may differ from the board; common practice: tight, no force
STRAIGHT = 10.0  # times what the paper stands: such a bend, and none at all, count as straight
NARROW = 1.0  # board thicknesses: a thinner strip of board tears in the hand; assumed


def _name(plane: Plane, id_: str) -> str:
    return next((part.name for part in plane.parts.parts if part.id == id_), id_)


def _blade(plane: Plane) -> Finding:
    needs = plane.cutting
    if needs.blade_reach <= 0.0:
        return Finding(None, "No part is cut from board, so no blade is asked for.")
    return Finding(
        needs.blade_reach,
        f"The blade must stand out {say(plane, needs.blade_reach, 'length')} for the "
        f"{_name(plane, needs.blade_part)} (a slanted cut is longer than the board is thick); a "
        f"9 mm snap-off blade stands out {say(plane, BLADE, 'length')} and more flexes.",
        high=BLADE,
    )


def _ruler(plane: Plane) -> Finding:
    needs = plane.cutting
    if needs.longest_cut <= 0.0:
        return Finding(None, "No part is cut from board, so no ruler is asked for.")
    longer = len(needs.long_parts)
    words = "part wants" if longer == 1 else "parts want"
    which = f" ({_name(plane, needs.long_parts[0])} first)" if longer else ""
    return Finding(
        needs.longest_cut,
        f"The longest straight cut is {say(plane, needs.longest_cut, 'length')} "
        f"({_name(plane, needs.longest_part)}); {longer} {words} a ruler longer than "
        f"{say(plane, SHORT_RULER, 'length')}{which}, none should want more than "
        f"{say(plane, RULER, 'length')}.",
        high=RULER,
    )


def _ruler_levers(plane: Plane, finding: Finding) -> tuple[Lever, ...]:
    del finding
    return listed(length_lever(plane, "board.length", "board length", to=0.75))


def _narrow(plane: Plane) -> Finding:
    needs, thickness = plane.cutting, plane.airframe.board_thickness
    low = NARROW * thickness
    if not needs.narrow_part:
        return Finding(
            needs.least_width or None,
            "No part cut from board is narrower anywhere than "
            f"{say(plane, needs.least_width, 'length')}.",
            low=low,
        )
    return Finding(
        needs.least_width,
        f"The narrowest neck of board is {say(plane, needs.least_width, 'length')} wide "
        f"({_name(plane, needs.narrow_part)}); a strip narrower than the board is thick "
        f"({say(plane, low, 'length')}) tears when it is cut.",
        low=low,
    )


def _narrow_levers(plane: Plane, finding: Finding) -> tuple[Lever, ...]:
    del finding
    body = plane.design.fuselage
    return listed(
        length_lever(plane, "fuselage.tail_height", "tail height", to=2.0 * body.tail_height),
        length_lever(plane, "fuselage.height", "fuselage height", to=1.5 * body.height),
        length_lever(plane, "fuselage.length", "fuselage length", to=1.2 * body.length),
    )


def _slots(plane: Plane) -> Finding:
    needs = plane.cutting
    if not needs.slots:
        return Finding(0.0, "No board goes through a slot: 0 slots to fit.", high=PLAY)
    width = needs.slots[0].width
    measured = plane.design.board.thickness
    if measured is not None:
        tight = max(abs(slot.width - measured) for slot in needs.slots)
        return Finding(
            tight,
            f"Slots are drawn {say(plane, width, 'length')} wide for board measured at "
            f"{say(plane, measured, 'length')}; {say(plane, PLAY, 'length')} off is "
            "forced or loose.",
            high=PLAY,
        )
    band = board_of(plane.design.board, plane.stock).thickness
    worst = max(max(slot.width - band.low, band.high - slot.width) for slot in needs.slots)
    return Finding(
        worst,
        f"Slots are drawn {say(plane, width, 'length')} wide, and such board is sold "
        f"{say(plane, band.low, 'length')} to {say(plane, band.high, 'length')} thick: up to "
        f"{say(plane, worst, 'length')} loose or tight. Measure yours and write it as thickness "
        "under [board].",
        high=PLAY,
    )


def _bends(plane: Plane) -> Finding:
    board = plane.design.board
    radii = [panel.section.bend_radius for panel in plane.airframe.wing.panels]
    found = min((radius for radius in radii if radius is not None), default=None)
    if found is None:
        return Finding(
            STRAIGHT,
            f"A {plane.design.wing.build} wing bends its skin nowhere, so 0 papers wrinkle.",
            low=1.0,
        )
    if PAPERS_LEFT[board.papers] < 2:
        return Finding(
            STRAIGHT,
            f"The skin bends to {say(plane, found, 'length')}; its inner paper is peeled, so none "
            "wrinkles.",
            low=1.0,
        )
    stands = usual_bend(board_of(board, plane.stock), plane.airframe.board_thickness)
    ratio = min(found / stands, STRAIGHT)
    return Finding(
        ratio,
        f"Between its creases the top skin bends to a radius of {say(plane, found, 'length')}; its "
        f"inner paper stands {say(plane, stands, 'length')} before it wrinkles.",
        low=1.0,
    )


def _bend_levers(plane: Plane, finding: Finding) -> tuple[Lever, ...]:
    del finding
    wing, usual = plane.design.wing, BEVEL_WIDTH * plane.airframe.board_thickness
    present = usual if wing.bevel is None else wing.bevel
    return listed(
        count_lever(plane, "wing.creases", "creases", to=3) if wing.creases < 3 else None,
        length_lever(plane, "wing.bevel", "trailing bevel", to=1.6 * present, start=present),
        share_lever(plane, "wing.spar.position", "spar at, of the chord,", to=0.35),
        wing_chord_lever(plane),
        count_lever(plane, "wing.spar.strips", "spar strips", to=wing.spar.strips - 1)
        if wing.spar.strips > 1
        else None,
    )


def _asked(plane: Plane) -> Finding:
    parts, sections = plane.parts.parts, [p.section for p in plane.airframe.wing.panels]
    torn = [part.name for part in parts if UNCUT in part.notes]
    outside = [part for part in parts if "glue it on the outside" in part.notes]
    words = list(dict.fromkeys(note for section in sections for note in section.notes))
    if outside:
        words.append("A servo finds no room to be let in and is glued on the outside.")
    if torn:
        words.insert(0, f"Cut-outs would cut the {torn[0]} in two and were left off.")
    what = " ".join(words) or "Every hole, slot and crease asked for is drawn."
    return Finding(
        float(len(torn)), f"{what} {len(torn)} parts lost their cut-outs, none should.", high=0.5
    )


def _asked_levers(plane: Plane, finding: Finding) -> tuple[Lever, ...]:
    return _narrow_levers(plane, finding)


def _none(plane: Plane, finding: Finding) -> tuple[Lever, ...]:
    del plane, finding
    return ()


CUTTING_RULES = (
    Rule(
        "blade_reach",
        "Reach of the blade",
        "m",
        f"at most {1000 * BLADE:.0f} mm out of its holder",
        "geometry; blade common practice, no source",
        "sheets",
        _blade,
        _none,
    ),
    Rule(
        "ruler",
        "Ruler for the longest cut",
        "m",
        f"longest straight cut at most {RULER:.0f} m",
        "geometry; ruler common practice, no source",
        "sheets",
        _ruler,
        _ruler_levers,
    ),
    Rule(
        "narrow_parts",
        "Narrowest part",
        "m",
        "no neck narrower than the board is thick",
        "geometry; limit assumed",
        "sheets",
        _narrow,
        _narrow_levers,
    ),
    Rule(
        "slots",
        "Slots against the board's thickness",
        "m",
        f"at most {1000 * PLAY:.1f} mm loose or tight",
        "thickness of the stock or as measured; limit common practice, no source",
        "sheets",
        _slots,
        _none,
    ),
    Rule(
        "skin_bend",
        "Bend of the skin against its paper",
        "-",
        "radius at least what the inner paper stands",
        "bending of the paper, docs/physics/folding.md; factor assumed",
        "wing section",
        _bends,
        _bend_levers,
    ),
    Rule(
        "drawn_as_asked",
        "Holes, slots and creases as asked",
        "-",
        "no part loses its cut-outs",
        "geometry",
        "sheets",
        _asked,
        _asked_levers,
    ),
)
