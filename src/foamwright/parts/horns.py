"""Control horns: where they stand, and as plates of ply with their holes."""

import math

import numpy as np
from numpy.typing import NDArray

from foamwright.core.units import format_value
from foamwright.design.model import Design, Servo
from foamwright.parts.linkage import HORN_BACK, horn_place, rudder_horn
from foamwright.parts.material import ply_areal_mass
from foamwright.parts.model import Line, LineKind, Source
from foamwright.parts.piece import Flat, Piece
from foamwright.parts.rounds import circle
from foamwright.shape.model import Airframe, Vector
from foamwright.shape.planform import panel_length
from foamwright.shape.surfaces import hinge_chords
from foamwright.stock.model import PlyStock, Stock

THICKEST = 0.0025  # m of ply that is still cut with a knife for a horn; common practice
FOOT = 0.008  # m, width of the tab through the surface; common practice
SHOULDER = 0.014  # m, width of the plate where it rests on the surface; common practice
TOP = 0.007  # m, width at the top; common practice
ABOVE = 0.0045  # m of plate above the last hole; common practice
HOLE = 0.0015  # m across, for 1.2 mm wire; common practice
HOLE_STEP = 0.004  # m between the holes; common practice
MARK_LENGTH = 0.012  # m
MARK_AHEAD = 0.5 * FOOT  # m of the mark ahead of the foot's middle: as far as the foot reaches

type Array = NDArray[np.float64]


def thin_ply(stock: Stock) -> PlyStock | None:
    """The thickest ply in stock that a horn can be cut from with a knife.

    Args:
        stock: The stock tables. [-]

    Returns:
        The entry; None when stock holds none up to 2.5 mm.

    Source:
        Common practice.

    Example:
        >>> thin_ply(stock).name
        'birch ply 1/16 in'
    """
    thin = [ply for ply in stock.plies.values() if ply.thickness.typical <= THICKEST]
    return min(thin, key=lambda ply: ply.thickness.typical) if thin else None


def _surface_of(servo: Servo) -> str:
    if servo.role.startswith("aileron"):
        return "wing"
    return "fin" if servo.role == "rudder" else "stab"


def horn_marks(design: Design, airframe: Airframe, field: str) -> tuple[Line, ...]:
    """Pencil marks of the horns on the hinged part of the tail.

    Args:
        design: The design. [-]
        airframe: Its shape. [-]
        field: "stab" or "fin". [-]

    Returns:
        One mark a horn, from just behind the hinge line aft, on the right half's flat frame.

    Source:
        Common practice.

    Example:
        >>> horn_marks(design, airframe, "fin")[0].label
        'rudder horn, hole 9/16 in from the hinge'
    """
    lines: list[Line] = []
    for servo in design.servo:
        surface = design.stab if field == "stab" else design.fin
        laid = airframe.stab if field == "stab" else airframe.fin
        if _surface_of(servo) != field or surface is None or laid is None or lines:
            continue
        panel = laid.panels[0]
        length = panel_length(panel)
        inner, outer = hinge_chords(surface, length, field)
        if field == "fin":
            u = rudder_horn(design, airframe)[2] - panel.root[2]
        else:
            u = min(abs(horn_place(servo, design, airframe, (0.0, 0.0, 0.0))[1]), 0.9 * length)
        share = u / length
        lead = share * (panel.tip[0] - panel.root[0])
        chord = panel.root_chord + share * (panel.tip_chord - panel.root_chord)
        v = inner + share * (outer - inner) - chord - lead - HORN_BACK
        points = ((u, v + MARK_AHEAD), (u, v + MARK_AHEAD - MARK_LENGTH))
        lines.append(Line(LineKind.MARK, points, _label(servo, design.units)))
    return tuple(lines)


def _label(servo: Servo, units: str) -> str:
    word = "ruddervator" if servo.role.startswith("vee") else servo.role.split()[0]
    return f"{word} horn, hole {format_value(servo.horn, 'length', units)} from the hinge"


def aileron_horn_mark(
    design: Design, airframe: Airframe, places: tuple[float, float]
) -> Line | None:
    """Pencil mark of the horn on an aileron.

    Args:
        design: The design. [-]
        airframe: Its shape. [-]
        places: Inner and outer end of the aileron along the half span. [m]

    Returns:
        The mark in the aileron's flat frame (u out from its inner end, v forward from its trailing
        edge); None when no servo drives it from beside it.

    Source:
        Common practice.

    Example:
        >>> aileron_horn_mark(design, airframe, (0.04, 0.56))  # doctest: +SKIP
    """
    chord = airframe.wing.controls[0].chord
    half = sum(panel_length(panel) for panel in airframe.wing.panels)
    for servo in design.servo:
        if _surface_of(servo) != "wing":
            continue
        control = airframe.wing.controls[0]
        place = abs(servo.side) or 0.5 * half * (control.start + control.end)
        if servo.role == "aileron":
            place = places[0] + 0.5 * SHOULDER
        if places[0] <= place <= places[1]:
            u, v = place - places[0], chord - HORN_BACK
            points = ((u, v + MARK_AHEAD), (u, v + MARK_AHEAD - MARK_LENGTH))
            return Line(LineKind.MARK, points, _label(servo, design.units))
    return None


def horn_plates(
    design: Design, airframe: Airframe, stock: Stock, *, thickness: float
) -> list[Piece]:
    """Control horns cut from thin ply, one a servo.

    The plate leans forward so that its holes stand over the hinge line; the middle hole is at the
    distance that the design gives.

    Args:
        design: The design. [-]
        airframe: Its shape. [-]
        stock: The stock tables. [-]
        thickness: Of the board that the foot goes through. [m]

    Returns:
        The plates; none when stock holds no thin ply, for then horns are bought.

    Source:
        Common practice.

    Example:
        >>> horn_plates(design, airframe, stock, thickness=0.005)[0].id
        'horn-1'
    """
    ply = thin_ply(stock)
    if ply is None:
        return []
    pieces: list[Piece] = []
    for number, servo in enumerate(design.servo):
        ring, lines = _plate(servo, thickness)
        word = servo.role.replace("vee", "V-tail")
        at = _stand(servo, design, airframe)
        pieces.append(
            Piece(
                id=f"horn-{number + 1}",
                name=f"{word} horn",
                kind="control horn",
                stock=ply.name,
                source=Source.PLY,
                ring=ring,
                areal_mass=ply_areal_mass(ply),
                thickness=ply.thickness.typical,
                flats=(Flat(ring, at[0], at[1], at[2], ply.thickness.typical),),
                lines=lines,
                notes="Foot through the surface with glue; holes over the hinge line.",
            )
        )
    return pieces


def _plate(servo: Servo, thickness: float) -> tuple[Array, tuple[Line, ...]]:
    """Outline and holes; u forward from the middle of the foot, v away from the surface."""
    lean, hole = HORN_BACK, servo.horn
    high = hole + HOLE_STEP + ABOVE
    half, foot, top = 0.5 * SHOULDER, 0.5 * FOOT, 0.5 * TOP
    ring = np.array(
        [
            [-half, 0.0],
            [-foot, 0.0],
            [-foot, -thickness],
            [foot, -thickness],
            [foot, 0.0],
            [half, 0.0],
            [lean + top, high],
            [lean - top, high],
        ]
    )
    heights = [hole - HOLE_STEP, hole, hole + HOLE_STEP]
    lines = [
        Line(LineKind.CUT, circle(lean, v, HOLE), "use this hole" if v == hole else "hole")
        for v in heights
        if v > 0.5 * HOLE_STEP
    ]
    lines.append(Line(LineKind.MARK, ((-half, 0.0), (half, 0.0)), "surface"))
    return ring, tuple(lines)


def _stand(servo: Servo, design: Design, airframe: Airframe) -> tuple[Array, Array, Array]:
    """Origin, forward and away-from-surface of a horn's plate."""
    side = 0.0
    if servo.role.startswith("aileron"):
        side = _aileron_side(servo, airframe)
    at: Vector = horn_place(servo, design, airframe, (0.0, side, 0.0))
    surface = _surface_of(servo)
    away = {"wing": (0.0, 0.0, -1.0), "stab": (0.0, 0.0, 1.0), "fin": (0.0, 1.0, 0.0)}[surface]
    half = 0.5 * airframe.board_thickness
    place = np.array(at) + half * np.array(away)
    return place, np.array([-1.0, 0.0, 0.0]), np.array(away)


def _aileron_side(servo: Servo, airframe: Airframe) -> float:
    if servo.role == "aileron" or servo.side != 0.0 or not airframe.wing.controls:
        return servo.side
    control = airframe.wing.controls[0]
    half = sum(panel_length(panel) for panel in airframe.wing.panels)
    return math.copysign(
        0.5 * half * (control.start + control.end), 1.0 if servo.role.endswith("right") else -1.0
    )
