"""Every piece to cut or buy for one design."""

from foamwright.core.errors import DesignError
from foamwright.design.model import Design
from foamwright.parts.bought import bought_items
from foamwright.parts.box import box_fuselage
from foamwright.parts.centre_joint import centre_joint
from foamwright.parts.channels import channelled
from foamwright.parts.covering import covering_pieces
from foamwright.parts.estimates import pack_size
from foamwright.parts.fittings import firewall, pack_stop, wing_dowels
from foamwright.parts.flat_wing import ailerons, layered_skins, tip_plates
from foamwright.parts.folded_skin import folded_skins
from foamwright.parts.fuselage import SideWork, profile_fuselage
from foamwright.parts.glue import glue_item
from foamwright.parts.horns import horn_plates
from foamwright.parts.material import BoardWork, board_work, entry
from foamwright.parts.model import PartsList
from foamwright.parts.openings import side_cuts
from foamwright.parts.piece import Piece, finish
from foamwright.parts.reinforcement import reinforcements
from foamwright.parts.seat_fittings import bolt_plates, incidence_blocks
from foamwright.parts.side_view import SideView, side_view
from foamwright.parts.spars import spar_strips
from foamwright.parts.tailplane import tail_pieces
from foamwright.parts.vee_seat import vee_seats
from foamwright.parts.wing_run import WingRun, wing_run
from foamwright.shape.body import saddle_range, width_at
from foamwright.shape.model import Airframe
from foamwright.stock.model import Stock

PACK_CLEARANCE = 0.01  # m between firewall and pack; common practice


def build_parts(design: Design, airframe: Airframe, stock: Stock) -> PartsList:
    """Every piece to cut or buy.

    Args:
        design: The design. [-]
        airframe: Its shape. [-]
        stock: The stock tables. [-]

    Returns:
        Parts with outline, lines, place and mass; items with place and mass.

    Raises:
        DesignError: Something stock does not hold, or a piece that cannot be made.

    Source:
        Definition of the design file and of the builds; see docs/use/parts.md.

    Example:
        >>> build_parts(design, airframe, stock).parts[0].id
        'wing-skin-1-right'
    """
    board = board_work(design.board, stock, airframe.board_thickness)
    run = wing_run(design, airframe, board, stock)
    view = side_view(design, airframe)
    pieces = [*_wing(run, stock), *_fuselage(design, airframe, board, stock=stock, view=view)]
    pieces += tail_pieces(design, airframe, board, stock)
    pieces += horn_plates(design, airframe, stock, thickness=board.thickness)
    pieces += covering_pieces(design, run, stock, view)
    parts = finish(pieces)
    items = bought_items(design, airframe, stock, view)
    return PartsList(parts, (*items, glue_item(design, parts, stock)))


def _wing(run: WingRun, stock: Stock) -> list[Piece]:
    folded = run.design.wing.build == "folded"
    sticks = reinforcements(run, stock)
    return [
        *(folded_skins(run) if folded else layered_skins(run)),
        *tip_plates(run),
        *ailerons(run),
        *channelled(spar_strips(run), sticks, run.design.units),
        *sticks,
        *centre_joint(run, stock),
    ]


def _fuselage(
    design: Design, airframe: Airframe, board: BoardWork, *, stock: Stock, view: SideView
) -> list[Piece]:
    cuts, words = side_cuts(design, airframe, stock, view=view, thickness=board.thickness)
    name = design.wing.joint.tape
    tape = None if name is None else entry(stock.tapes, name, "wing.joint.tape")
    work = SideWork(design, airframe, board, cuts, words, tape)
    make = profile_fuselage if design.fuselage.build == "profile" else box_fuselage
    middle = 0.5 * sum(saddle_range(design))
    width = width_at(airframe.body, middle)
    return [
        *make(work, view),
        *firewall(design, airframe, stock),
        *wing_dowels(design, board, stock, view=view, width=width),
        *bolt_plates(design, airframe, stock, view),
        *incidence_blocks(design, airframe, board, view),
        pack_stop(design, airframe, board),
        *vee_seats(design, airframe, board),
    ]


def tray_range(design: Design, airframe: Airframe) -> tuple[float, float]:
    """How far the middle of the pack can slide.

    Args:
        design: The design. [-]
        airframe: Its shape. [-]

    Returns:
        Foremost and rearmost place of its middle. [m], [m]

    Raises:
        DesignError: The range is upside down.

    Source:
        Common practice where the design does not say: up to the firewall, back to the wing's
        trailing edge.

    Example:
        >>> [round(x, 4) for x in tray_range(design, airframe)]
        [0.0635, 0.2286]
    """
    pack = design.pack
    front = 0.5 * pack_size(pack)[0] + PACK_CLEARANCE
    root = airframe.wing.panels[0]
    back = min(root.root[0] + root.root_chord, design.fuselage.length)
    front = front if pack.tray_front is None else pack.tray_front
    back = back if pack.tray_back is None else pack.tray_back
    if front > back:
        raise DesignError(
            "pack.tray_front",
            f"{1000 * front:.0f}\u00a0mm",
            f"it must lie ahead of the tray's back at {1000 * back:.0f}\u00a0mm",
            "Swap tray_front and tray_back, or take a shorter pack.",
        )
    return front, back
