"""Things bought: motor, pack, receiver, servos, bands, wheels."""

import math

from foamwright.core.bands import Band
from foamwright.core.errors import DesignError
from foamwright.design.model import Design
from foamwright.parts.estimates import pack_mass, propeller_mass
from foamwright.parts.horns import thin_ply
from foamwright.parts.linkage import linkage, usual_mass
from foamwright.parts.material import entry, rod_areal_mass, scaled
from foamwright.parts.model import Item
from foamwright.parts.outside import beside, pack_box, pack_side
from foamwright.parts.side_view import SideView
from foamwright.shape.body import height_at, root_chord, side_outline
from foamwright.shape.model import Airframe
from foamwright.stock.model import Stock

SCREW = Band(0.0003, 0.0005, 0.0008, "common practice")  # kg, one motor screw
HOOK_AND_LOOP = Band(0.003, 0.0035, 0.004, "common practice")  # kg, 25 x 100 mm
CONTROLLER = (0.045, 0.008, 0.023)  # m, lying flat against the side; common practice
RECEIVER = (0.042, 0.013, 0.025)  # m, same
CONTROLLER_BACK = 0.05  # m aft of the firewall, when the design does not say; common practice


def bought_items(design: Design, airframe: Airframe, stock: Stock, view: SideView) -> list[Item]:
    """Everything bought, in its place.

    On a profile fuselage the pack is strapped to the right side, controller and receiver sit on the
    left; in a box they lie in the middle.

    Args:
        design: The design. [-]
        airframe: Its shape. [-]
        stock: The stock tables. [-]
        view: Side view with the seats cut out. [-]

    Returns:
        Items, glue left out.

    Raises:
        DesignError: Stock has no such thing, or the pack lies outside the fuselage.

    Source:
        Definition of the design file; places left out by common practice.

    Example:
        >>> bought_items(design, airframe, stock, view)[0].id
        'motor'
    """
    return [
        *_drive(design, airframe, stock),
        *_radio(design, airframe, stock, view),
        *_holders(design, airframe, stock),
        *_extras(design, stock),
    ]


def _drive(design: Design, airframe: Airframe, stock: Stock) -> list[Item]:
    motor, pack, controller = design.motor, design.pack, design.controller
    size, mass = (0.028, 0.028, 0.028), None
    if motor.mass is None or motor.stock in stock.motors:
        sold = entry(stock.motors, motor.stock, "motor.stock")
        size, mass = (sold.length, sold.diameter, sold.diameter), sold.mass
    axis = airframe.thrust_axis
    middle = tuple(0.5 * size[0] * a for a in axis)
    if motor.mass is not None:
        mass = Band.exact(motor.mass, "weighed")
    speed = None
    if controller.mass is None:
        speed = entry(stock.controllers, controller.stock, "controller.stock").mass
    else:
        speed = Band.exact(controller.mass, "weighed")
    back = CONTROLLER_BACK if controller.position is None else controller.position
    if not 0.0 <= pack.position <= design.fuselage.length:
        raise DesignError(
            "pack.position",
            f"{1000 * pack.position:.0f}\u00a0mm aft of the nose",
            f"the fuselage reaches from 0 to {1000 * design.fuselage.length:.0f}\u00a0mm",
            "Put the middle of the pack inside the fuselage.",
        )
    diameter, box = design.propeller.diameter, pack_box(design)
    strap = pack_side(design, airframe)
    return [
        Item(
            "motor",
            "motor",
            motor.stock,
            mass or Band.exact(0.0),
            (middle[0], middle[1], motor.height + middle[2]),
            size,
        ),
        Item(
            "propeller",
            "propeller",
            "",
            propeller_mass(design.propeller),
            airframe.thrust_point,
            (0.01, diameter, diameter),
        ),
        Item(
            "motor-screws",
            "motor screws",
            "",
            scaled(SCREW, design.motor.firewall.screws),
            (0.0, 0.0, motor.height),
            (0.01, 0.02, 0.02),
        ),
        Item(
            "controller",
            "speed controller",
            controller.stock,
            speed,
            (back, -beside(design, airframe, back, CONTROLLER[1]), controller.height),
            CONTROLLER,
        ),
        Item(
            "pack",
            "pack",
            "",
            pack_mass(pack),
            (pack.position, strap, pack.height),
            box,
        ),
        Item(
            "hook-and-loop",
            "hook and loop",
            "hook and loop" if "hook and loop" in stock.others else "",
            usual_mass(stock, "hook and loop", HOOK_AND_LOOP),
            (pack.position, strap - 0.5 * box[1] if strap else 0.0, pack.height),
            (0.1, 0.004, 0.025) if strap else (0.1, 0.025, 0.004),
        ),
    ]


def _radio(design: Design, airframe: Airframe, stock: Stock, view: SideView) -> list[Item]:
    receiver = design.receiver
    x = design.wing.position + 0.4 * root_chord(design)
    x = x if receiver.position is None else receiver.position
    if receiver.mass is not None:
        mass = Band.exact(receiver.mass, "weighed")
    else:
        mass = entry(stock.others, receiver.stock, "receiver.stock").mass
    items = [
        Item(
            "receiver",
            "receiver",
            receiver.stock,
            mass,
            (x, -beside(design, airframe, x, RECEIVER[1]), receiver.height),
            RECEIVER,
        )
    ]
    for number in range(len(design.servo)):
        items += linkage(
            number, design, airframe, stock=stock, view=view, buy_horn=thin_ply(stock) is None
        )
    return items


def _holders(design: Design, airframe: Airframe, stock: Stock) -> list[Item]:
    hold, chord = design.wing.attachment, root_chord(design)
    root = airframe.wing.panels[0].root
    middle = (root[0] + 0.5 * chord, 0.0, root[2])
    if hold.kind == "bands" and hold.bands > 0:
        band = entry(stock.bands, hold.band, "wing.attachment.band")
        return [
            Item(
                "bands",
                f"rubber bands, {hold.bands}",
                hold.band,
                scaled(band.mass, hold.bands),
                middle,
                (chord, 0.05, 0.03),
            )
        ]
    if hold.kind == "bolts":
        bolt = entry(stock.others, hold.bolt, "wing.attachment.bolt")
        return [
            Item(
                "bolts",
                f"wing bolts, {hold.bolts}",
                hold.bolt,
                scaled(bolt.mass, hold.bolts),
                middle,
                (0.7 * chord, 0.02, 0.03),
            )
        ]
    return []


def _extras(design: Design, stock: Stock) -> list[Item]:
    items = [
        Item(
            f"extra-{number + 1}",
            extra.name,
            "",
            Band.exact(extra.mass, "weighed"),
            (extra.position, extra.side, extra.height),
            (0.02, 0.02, 0.02),
        )
        for number, extra in enumerate(design.extra)
    ]
    gear = design.gear
    if gear is None:
        return items
    wire = entry(stock.rods, gear.wire, "gear.wire")
    bottom = height_at(side_outline(design), gear.position)[0]
    leg = math.hypot(0.5 * gear.track, gear.height)
    items.append(
        Item(
            "gear-wire",
            "undercarriage wire",
            gear.wire,
            scaled(rod_areal_mass(wire), wire.width * 2.0 * leg),
            (gear.position, 0.0, bottom - 0.5 * gear.height),
            (0.002, gear.track, gear.height),
        )
    )
    wheel = gear.wheel_diameter
    items += [
        Item(
            f"wheel-{side}",
            f"{side} wheel",
            "",
            Band.exact(gear.wheel_mass, "weighed"),
            (gear.position, sign * 0.5 * gear.track, bottom - gear.height),
            (wheel, 0.012, wheel),
        )
        for side, sign in (("left", -1.0), ("right", 1.0))
    ]
    return items
