"""Firewall with its pins, wing dowels, pack stop."""

import math

import numpy as np
from numpy.typing import NDArray

from foamwright.design.model import Design, Firewall
from foamwright.parts.estimates import pack_size
from foamwright.parts.material import BoardWork, entry, ply_areal_mass
from foamwright.parts.model import Line, LineKind, Source
from foamwright.parts.openings import dowel_places
from foamwright.parts.outside import pack_side
from foamwright.parts.pegs import PIN_LENGTH, PIN_ROD, peg
from foamwright.parts.piece import Flat, Piece, rectangle
from foamwright.parts.rounds import circle
from foamwright.parts.side_view import SideView
from foamwright.shape.model import Airframe
from foamwright.stock.model import RodStock, Stock

SCREW_HOLE = 0.003  # m across, for M3 or wood screws; common practice
PIN_HOLE = 0.0025  # m across, for a toothpick; common practice
USUAL_CIRCLE = 0.019  # m across the motor's screws where stock does not say; common practice
DOWEL_OVERHANG = 0.018  # m outside each flank, room for the bands; common practice
STOP_SIZE = (0.030, 0.025)  # m, block that keeps the pack from sliding back; assumed

X = np.array([1.0, 0.0, 0.0])
Y = np.array([0.0, 1.0, 0.0])
Z = np.array([0.0, 0.0, 1.0])

type Array = NDArray[np.float64]


def firewall(design: Design, airframe: Airframe, stock: Stock) -> list[Piece]:
    """The plate that carries the motor, with its holes, and the pins behind it.

    Args:
        design: The design. [-]
        airframe: Its shape. [-]
        stock: The stock tables. [-]

    Returns:
        The plate, then its pins where stock holds skewers.

    Raises:
        DesignError: Stock has no such ply.

    Source:
        Common practice: 1/8 in ply, screws on the motor's circle, pins into the fuselage.

    Example:
        >>> firewall(design, airframe, stock)[0].kind
        'firewall'
    """
    plate, motor = design.motor.firewall, design.motor
    ply = entry(stock.plies, plate.stock, "motor.firewall.stock")
    sold = stock.motors.get(motor.stock)
    across = sold.bolt_circle if sold is not None else USUAL_CIRCLE
    ring = rectangle(plate.width, plate.height)
    mid_u, mid_v = 0.5 * plate.width, 0.5 * plate.height
    lines = [
        Line(LineKind.MARK, ((mid_u, 0.0), (mid_u, plate.height)), "centre"),
        Line(LineKind.MARK, ((0.0, mid_v), (plate.width, mid_v)), "thrust line"),
    ]
    for k in range(plate.screws):
        angle = 2.0 * math.pi * (k + 0.5) / plate.screws
        u = mid_u + 0.5 * across * math.cos(angle)
        v = mid_v + 0.5 * across * math.sin(angle)
        lines.append(Line(LineKind.CUT, circle(u, v, SCREW_HOLE), "screw"))
    spots = _pin_spots(plate)
    lines += [Line(LineKind.CUT, circle(u, v, PIN_HOLE), "pin") for u, v in spots]
    thickness = ply.thickness.typical
    axis = np.array(airframe.thrust_axis)
    # The plate stands square to the thrust line: both thrust angles are built in.
    side = Y - (Y @ axis) * axis
    side /= math.sqrt(float(side @ side))
    up = np.cross(side, axis)
    up = up if up[2] > 0.0 else -up
    centre = np.array([0.0, 0.0, motor.height]) + 0.5 * thickness * axis
    flat = Flat(ring, centre - mid_u * side - mid_v * up, side, up, thickness)
    down, right = math.degrees(motor.down_thrust), math.degrees(motor.right_thrust)
    main = Piece(
        id="firewall",
        name="firewall",
        kind="firewall",
        stock=plate.stock,
        source=Source.PLY,
        ring=ring,
        areal_mass=ply_areal_mass(ply),
        thickness=thickness,
        flats=(flat,),
        lines=tuple(lines),
        notes=f"Tilted {down:.1f}° down and {right:.1f}° right, seen from the cockpit.",
    )
    rod = stock.rods.get(PIN_ROD)
    if rod is None:
        return [main]
    return [main, *(_pin(rod, number, flat, spot) for number, spot in enumerate(spots))]


def _pin_spots(plate: Firewall) -> list[tuple[float, float]]:
    inset, spots = 0.005, []
    for k in range(plate.pins):
        u = inset + (plate.width - 2.0 * inset) * ((k // 2) / max((plate.pins - 1) // 2, 1))
        u = 0.5 * plate.width if plate.pins <= 2 else u
        spots.append((u, inset if k % 2 == 0 else plate.height - inset))
    return spots


def _pin(rod: RodStock, number: int, plate: Flat, spot: tuple[float, float]) -> Piece:
    """A pin through the firewall into the nose, running straight aft."""
    start = plate.origin + spot[0] * plate.along + spot[1] * plate.across
    return peg(
        rod,
        f"firewall-pin-{number + 1}",
        (start, start + PIN_LENGTH * X),
        name="firewall pin",
        notes="Pushed through the firewall into the nose with glue.",
    )


def wing_dowels(
    design: Design, board: BoardWork, stock: Stock, *, view: SideView, width: float
) -> list[Piece]:
    """Dowels across the fuselage that the bands hook on.

    Args:
        design: The design. [-]
        board: Its board. [-]
        stock: The stock tables. [-]
        view: Side view with the saddle. [-]
        width: Of the fuselage at the wing. [m]

    Returns:
        Two dowels; none unless the wing is on bands.

    Raises:
        DesignError: Stock has no such dowel.

    Source:
        Common practice.

    Example:
        >>> len(wing_dowels(design, board, stock, view=view, width=0.035))
        2
    """
    hold = design.wing.attachment
    if hold.kind != "bands":
        return []
    rod = entry(stock.rods, hold.dowel, "wing.attachment.dowel")
    reach = (0.5 * width + DOWEL_OVERHANG) * Y
    places = dowel_places(design, view, board.thickness)
    middles = [np.array([x, 0.0, z]) for x, z in places]
    return [
        peg(
            rod,
            f"wing-dowel-{label}",
            (middle - reach, middle + reach),
            name="wing dowel",
            notes="Round the ends; glue it in its holes through all layers.",
        )
        for middle, label in zip(middles, ("front", "rear"), strict=True)
    ]


def pack_stop(design: Design, airframe: Airframe, board: BoardWork) -> Piece:
    """Block behind the pack, where the pack is strapped.

    Args:
        design: The design. [-]
        airframe: Its shape. [-]
        board: Its board. [-]

    Returns:
        The piece.

    Source:
        Common practice: strap and stop block.

    Example:
        >>> pack_stop(design, airframe, board).name
        'pack stop'
    """
    wide, tall = STOP_SIZE
    ring = rectangle(wide, tall)
    behind = design.pack.position + 0.5 * pack_size(design.pack)[0] + 0.005
    x = min(behind, design.fuselage.length - 0.005)
    y = pack_side(design, airframe)
    flat = Flat(
        ring, np.array([x, y - 0.5 * wide, design.pack.height - 0.5 * tall]), Y, Z, board.thickness
    )
    return Piece(
        id="pack-stop",
        name="pack stop",
        kind="pack stop",
        stock=board.name,
        source=Source.BOARD,
        ring=ring,
        areal_mass=board.areal_mass,
        thickness=board.thickness,
        flats=(flat,),
        notes="Glued behind the pack once the plane balances.",
        either_face=board.papers != 1,
    )
