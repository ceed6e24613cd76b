"""What a V-tail stands on: plates across the fuselage that hold both halves at their angle."""

import math

import numpy as np
from numpy.typing import NDArray

from foamwright.design.model import Design
from foamwright.parts.material import BoardWork
from foamwright.parts.model import Source
from foamwright.parts.piece import Flat, Piece, pair
from foamwright.shape.body import height_at, side_outline, width_at
from foamwright.shape.model import Airframe
from foamwright.shape.planform import panel_length

PLACES = (0.2, 0.8)  # of the fixed chord at the root; common practice
REACH = 0.025  # m out from the fuselage's flank under each half; common practice
DEEP = 0.8  # of the fuselage's depth that the plate may stand against, at most; assumed
LEAST_LAP = 0.001  # m on top of the fuselage; a narrower foot is left off; assumed

type Array = NDArray[np.float64]


def vee_seats(design: Design, airframe: Airframe, board: BoardWork) -> list[Piece]:
    """Plates of board that stand across the fuselage under a V-tail, glued to top, flank and half.

    Args:
        design: The design. [-]
        airframe: Its shape. [-]
        board: Its board. [-]

    Returns:
        Two plates a side, at 20 and 80 % of the fixed root chord; none for other tails.

    Source:
        Geometry; brackets under a V-tail are common practice.

    Example:
        >>> vee_seats(design, airframe, board)
        []
    """
    if design.tail.kind != "V" or design.stab.dihedral < 0.05:
        return []
    pieces: list[Piece] = []
    for number, share in enumerate(PLACES):
        x = design.stab.position + share * design.stab.hinge * design.stab.chord
        if x > design.fuselage.length - 0.5 * board.thickness:
            continue
        ring = _ring(design, airframe, x)
        place = np.array([x, 0.0, 0.0])
        flat = Flat(
            ring, place, np.array([0.0, 1.0, 0.0]), np.array([0.0, 0.0, 1.0]), board.thickness
        )
        pieces += pair(
            Piece(
                id=f"v-tail-seat-{number + 1}-right",
                name="V-tail seat",
                kind=f"V-tail seat {number + 1}",
                stock=board.name,
                source=Source.BOARD,
                ring=ring,
                areal_mass=board.areal_mass,
                thickness=board.thickness,
                flats=(flat,),
                notes="Stands across the fuselage against its side; the slanted edge carries the "
                f"half at {math.degrees(design.stab.dihedral):.0f}°. Drawn from ahead of it.",
                either_face=board.papers != 1,
            )
        )
    return pieces


def _ring(design: Design, airframe: Airframe, x: float) -> Array:
    """Outline in (y, z): foot on the top, down the flank, out under the half."""
    panel, slope = airframe.stab.panels[0], math.tan(design.stab.dihedral)
    half = 0.5 * panel.section.thickness_ratio * panel.section.chord
    fall = (x - panel.root[0]) * math.tan(panel.root_twist)
    apex = panel.root[2] - fall - half / math.cos(design.stab.dihedral)
    low, top = height_at(side_outline(design), x)
    flank = 0.5 * width_at(airframe.body, x)
    out = flank + min(REACH, 0.25 * panel_length(panel) * math.cos(design.stab.dihedral))
    foot = max((top - apex) / slope, 0.0)
    level = top if foot < flank - LEAST_LAP else apex + slope * flank
    deep = min(out - flank, DEEP * (level - low))
    rows = [[flank, level - deep], [out, apex + slope * out]]
    if foot < flank - LEAST_LAP:
        return np.array([[foot, apex + slope * foot], [flank, level], *rows])
    return np.array([[flank, level], *rows])
