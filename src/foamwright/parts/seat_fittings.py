"""What a wing stands on and is bolted to: bolt plates, pads, incidence blocks."""

import math

import numpy as np
from numpy.typing import NDArray

from foamwright.design.model import Design
from foamwright.parts.material import BoardWork, entry, ply_areal_mass
from foamwright.parts.model import Line, LineKind, Source
from foamwright.parts.piece import Flat, Piece
from foamwright.parts.rounds import circle
from foamwright.parts.side_view import SideView
from foamwright.shape.body import width_at
from foamwright.shape.model import Airframe
from foamwright.stock.model import SimpleStock, Stock

PLATE_LENGTH = 0.03  # m along the fuselage; common practice
PLATE_WIDEST = 0.04  # m; common practice
PAD_SIZE = 0.02  # m, square pad under a bolt's head on the wing; common practice
FRONT, REAR = 0.15, 0.85  # of the root chord, where the bolts go; common practice
BOLT_HOLE = 0.0042  # m, M4 with play, where stock gives no size; common practice
LEAST_GAP = 0.002  # m; glue fills less than that between fuselage and wing; assumed
GAP_POINTS = 9

X = np.array([1.0, 0.0, 0.0])
Y = np.array([0.0, 1.0, 0.0])
Z = np.array([0.0, 0.0, 1.0])

type Array = NDArray[np.float64]


def bolt_plates(design: Design, airframe: Airframe, stock: Stock, view: SideView) -> list[Piece]:
    """Ply plates in the saddle that the bolts screw into, and pads under their heads.

    Half of the bolts go through at 15 % of the root chord, the others at 85 %; one alone at 85 %.

    Args:
        design: The design. [-]
        airframe: Its shape. [-]
        stock: The stock tables. [-]
        view: Side view with the saddle. [-]

    Returns:
        Plates and pads of the firewall's ply; none unless the wing is bolted on.

    Raises:
        DesignError: Stock has no such ply.

    Source:
        Common practice.

    Example:
        >>> bolt_plates(design, airframe, stock, view)
        []
    """
    hold = design.wing.attachment
    if hold.kind != "bolts":
        return []
    ply = entry(stock.plies, design.motor.firewall.stock, "motor.firewall.stock")
    hole = _hole(stock.others.get(hold.bolt))
    root = airframe.wing.panels[0]
    shares = {"rear": (hold.bolts + 1) // 2, "front": hold.bolts // 2}
    pieces: list[Piece] = []
    for (label, count), share in zip(shares.items(), (REAR, FRONT), strict=True):
        if count == 0:
            continue
        x = root.root[0] + share * root.root_chord
        wide = min(width_at(airframe.body, x), PLATE_WIDEST)
        z = float(np.interp(x, view.seat[:, 0], view.seat[:, 1]))
        spots = [(0.0, wide * ((k + 0.5) / count - 0.5)) for k in range(count)]
        thick = ply.thickness.typical
        down = -0.5 * thick if design.wing.place == "high" else 0.5 * thick
        plate = _plate(PLATE_LENGTH, wide, spots, hole)
        place = np.array([x, 0.0, z + down])
        pieces.append(
            Piece(
                id=f"wing-bolt-plate-{label}",
                name="wing bolt plate",
                kind="wing bolt plate",
                stock=ply.name,
                source=Source.PLY,
                ring=plate[0],
                areal_mass=ply_areal_mass(ply),
                thickness=thick,
                flats=(Flat(plate[0], place, X, Y, thick),),
                lines=plate[1],
                notes="Let into the saddle, flush with the seat; tap the holes or glue nuts under.",
            )
        )
        deep = root.section.thickness_ratio * root.root_chord
        for k, (_, v) in enumerate(spots):
            pad = _plate(PAD_SIZE, PAD_SIZE, [(0.0, 0.0)], hole)
            over = place + np.array([0.0, v, -2.0 * down + math.copysign(deep, -down)])
            pieces.append(
                Piece(
                    id=f"wing-pad-{label}-{k + 1}",
                    name="bolt pad",
                    kind="bolt pad",
                    stock=ply.name,
                    source=Source.PLY,
                    ring=pad[0],
                    areal_mass=ply_areal_mass(ply),
                    thickness=thick,
                    flats=(Flat(pad[0], over, X, Y, thick),),
                    lines=pad[1],
                    notes="Under the bolt's head, glued to the wing; fill the wing below it.",
                )
            )
    return pieces


def _hole(bolt: SimpleStock | None) -> float:
    return BOLT_HOLE if bolt is None else 0.5 * bolt.size[0] + 0.0002


def _plate(
    length: float, width: float, spots: list[tuple[float, float]], hole: float
) -> tuple[Array, tuple[Line, ...]]:
    a, b = 0.5 * length, 0.5 * width
    ring = np.array([[-a, -b], [a, -b], [a, b], [-a, b]])
    lines = [Line(LineKind.CUT, circle(u, v, hole), "bolt") for u, v in spots]
    return ring, (*lines, Line(LineKind.MARK, ((-a, 0.0), (a, 0.0)), "centre"))


def incidence_blocks(
    design: Design, airframe: Airframe, board: BoardWork, view: SideView
) -> list[Piece]:
    """Blocks between the fuselage and a wing that is set proud of it.

    Args:
        design: The design. [-]
        airframe: Its shape. [-]
        board: Its board. [-]
        view: Side view with the saddle. [-]

    Returns:
        As many layers as the fuselage is wide there (two in a box); none where the wing sits on the
        fuselage along its whole chord.

    Source:
        Geometry: the fuselage's edge on one side, the wing's surface at its incidence on the other.

    Example:
        >>> incidence_blocks(design, airframe, board, view)
        []
    """
    high = design.wing.place == "high"
    line = view.top if high else view.bottom
    start = max(float(view.seat[0, 0]), 0.0) + 1e-4
    end = min(float(view.seat[-1, 0]), design.fuselage.length) - 1e-4
    x = np.linspace(start, end, GAP_POINTS)
    edge = np.interp(x, line[:, 0], line[:, 1])
    seat = np.interp(x, view.seat[:, 0], view.seat[:, 1])
    gap = (seat - edge) if high else (edge - seat)
    wide = gap > LEAST_GAP
    if not wide.any():
        return []
    # One unbroken stretch: a gap ends where the wing dips into the fuselage.
    first, last = int(np.argmax(wide)), len(x) - 1 - int(np.argmax(wide[::-1]))
    keep = slice(first, last + 1)
    if last == first or not wide[keep].all():
        return []
    low, top = (edge, seat) if high else (seat, edge)
    ring = np.vstack(
        [np.column_stack([x[keep], low[keep]]), np.column_stack([x[keep], top[keep]])[::-1]]
    )
    middle = 0.5 * (x[first] + x[last])
    width = width_at(airframe.body, middle)
    box = design.fuselage.build == "box"
    layers = 2 if box else max(round(width / board.thickness), 1)
    apart = width - board.thickness if box else board.thickness
    degrees = math.degrees(design.wing.incidence)
    return [
        Piece(
            id=f"incidence-block-{k + 1}",
            name="incidence block",
            kind="incidence block",
            stock=board.name,
            source=Source.BOARD,
            ring=ring,
            areal_mass=board.areal_mass,
            thickness=board.thickness,
            flats=(
                Flat(
                    ring,
                    np.array([0.0, (k - 0.5 * (layers - 1)) * apart, 0.0]),
                    X,
                    Z,
                    board.thickness,
                ),
            ),
            notes=f"Between fuselage and wing; sets the wing at {degrees:.1f}°.",
        )
        for k in range(layers)
    ]
