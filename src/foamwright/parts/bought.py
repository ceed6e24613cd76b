"""Things bought or poured: motor, pack, servos, rods, bands, glue."""

import math
from collections.abc import Iterable

from foamwright.core.bands import Band
from foamwright.core.errors import DesignError
from foamwright.design.model import Design, Pack, Propeller, Servo
from foamwright.parts.material import entry, rod_areal_mass, scaled
from foamwright.parts.model import Item, Part
from foamwright.shape.body import height_at, root_chord, side_outline
from foamwright.shape.model import Airframe, Vector
from foamwright.stock.model import Stock

PACK_FIXED_MASS = 0.012  # kg, leads and wrap; regression on small packs, from memory
PACK_ENERGY_MASS = 0.0069  # kg/(W h), same regression
PACK_SPREAD = 0.12  # same
CELL_VOLTAGE = 3.7  # V, nominal
PACK_DENSITY = 1950.0  # kg/m³ of the box around it; common practice
PACK_SHAPE = (2.1, 1.0, 0.66)  # length, width, height over width; common practice
PROPELLER_9_IN = {  # kg, two blades, 9 in; common practice, no source
    "slow flight": 0.010,
    "electric": 0.012,
    "sport": 0.018,
    "folding": 0.020,
    "direct drive": 0.014,
}
PROPELLER_EXPONENT = 2.5  # mass ~ diameter^2.5; common practice
PROPELLER_SPREAD = 0.3
SMALL = Band(0.0005, 0.001, 0.0015, "common practice")  # kg, a horn with its screws
SCREW = Band(0.0003, 0.0005, 0.0008, "common practice")  # kg, one motor screw
HOOK_AND_LOOP = Band(0.003, 0.0035, 0.004, "common practice")  # kg, 25 x 100 mm
CONTROLLER_BACK = 0.05  # m aft of the firewall, when the design does not say; common practice


def pack_mass(pack: Pack) -> Band:
    """Weighed mass of the pack, or one from its energy.

    m = 12 g + 6.9 g/(W h) * 3.7 V * cells * capacity.

    Args:
        pack: The design's pack.

    Returns:
        Mass. [kg]

    Source:
        Regression on small packs, from memory; spread 12 %.

    Example:
        >>> round(pack_mass(Pack.model_construct(cells=3, capacity=4680.0)).typical, 3)
        0.112
    """
    if pack.mass is not None:
        return Band.exact(pack.mass, "weighed")
    energy = CELL_VOLTAGE * pack.cells * pack.capacity / 3600.0
    mass = PACK_FIXED_MASS + PACK_ENERGY_MASS * energy
    return Band(mass * (1 - PACK_SPREAD), mass, mass * (1 + PACK_SPREAD), "from memory")


def pack_size(pack: Pack) -> Vector:
    """Length, width and height of the pack, from its mass when not given.

    Args:
        pack: The design's pack.

    Returns:
        Box. [m]

    Source:
        Common practice: 1950 kg/m³, sides as 2.1 : 1 : 0.66.

    Example:
        >>> round(pack_size(Pack.model_construct(cells=3, capacity=4680.0))[0], 3)
        0.073
    """
    long, wide, tall = PACK_SHAPE
    width = (pack_mass(pack).typical / PACK_DENSITY / (long * wide * tall)) ** (1.0 / 3.0)
    length = long * width if pack.length is None else pack.length
    return (length, wide * width, tall * width)


def propeller_mass(propeller: Propeller) -> Band:
    """Weighed mass of the propeller, or one from its kind and diameter.

    Args:
        propeller: The design's propeller.

    Returns:
        Mass. [kg]

    Source:
        Common practice: mass grows with diameter^2.5.

    Example:
        >>> round(propeller_mass(Propeller.model_construct()).typical, 4)
        0.01
    """
    if propeller.mass is not None:
        return Band.exact(propeller.mass, "weighed")
    mass = (
        PROPELLER_9_IN[propeller.kind]
        * (propeller.diameter / 0.2286) ** PROPELLER_EXPONENT
        * propeller.blades
        / 2.0
    )
    return Band(
        mass * (1 - PROPELLER_SPREAD), mass, mass * (1 + PROPELLER_SPREAD), "common practice"
    )


def bought_items(design: Design, airframe: Airframe, stock: Stock) -> list[Item]:
    """Everything bought, in its place.

    Args:
        design: The design.
        airframe: Its shape.
        stock: The stock tables.

    Returns:
        Items, glue left out.

    Raises:
        DesignError: Stock has no such thing, or the pack lies outside the fuselage.

    Source:
        Definition of the design file; places left out by common practice.

    Example:
        >>> bought_items(design, airframe, stock)[0].id  # doctest: +SKIP
        'motor'
    """
    return [
        *_drive(design, airframe, stock),
        *_radio(design, airframe, stock),
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
            f"{1000 * pack.position:.0f} mm aft of the nose",
            f"the fuselage reaches from 0 to {1000 * design.fuselage.length:.0f} mm",
            "Put the middle of the pack inside the fuselage.",
        )
    diameter = design.propeller.diameter
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
            (back, 0.0, controller.height),
            (0.045, 0.023, 0.008),
        ),
        Item(
            "pack",
            "pack",
            "",
            pack_mass(pack),
            (pack.position, 0.0, pack.height),
            pack_size(pack),
        ),
        Item(
            "hook-and-loop",
            "hook and loop",
            "hook and loop" if "hook and loop" in stock.others else "",
            _other(stock, "hook and loop", HOOK_AND_LOOP),
            (pack.position, 0.0, pack.height),
            (0.1, 0.025, 0.004),
        ),
    ]


def _other(stock: Stock, name: str, usual: Band) -> Band:
    found = stock.others.get(name)
    return usual if found is None else found.mass


def servo_place(servo: Servo, design: Design, airframe: Airframe) -> Vector:
    """Where a servo sits: as the design says, else by its role.

    Aileron: in the wing, one in the middle or one on each side at the aileron's middle. Tail servos:
    in or on the fuselage under the wing's rear third.

    Args:
        servo: The design's servo.
        design: The design.
        airframe: Its shape.

    Returns:
        Its middle. [m]

    Source:
        Common practice.

    Example:
        >>> servo_place(design.servo[0], design, airframe)  # doctest: +SKIP
        (0.31, 0.0, 0.045)
    """
    chord, wing = root_chord(design), airframe.wing
    front, _, level = wing.panels[0].root
    side = servo.side
    if servo.role.startswith("aileron"):
        x, z = front + 0.5 * chord, level
        if servo.role != "aileron" and side == 0.0 and wing.controls:
            control = wing.controls[0]
            side = 0.25 * wing.span * (control.start + control.end)
            side = side if servo.role.endswith("right") else -side
    else:
        x = front + 0.8 * chord
        bottom, top = height_at(side_outline(design), x)
        z = 0.5 * (bottom + top)
    return (
        x if servo.position is None else servo.position,
        side,
        z if servo.height is None else servo.height,
    )


def _radio(design: Design, airframe: Airframe, stock: Stock) -> list[Item]:
    receiver = design.receiver
    where = design.wing.position + 0.4 * root_chord(design)
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
            (
                where if receiver.position is None else receiver.position,
                0.0,
                receiver.height,
            ),
            (0.042, 0.025, 0.013),
        )
    ]
    for number, servo in enumerate(design.servo):
        items += _servo(servo, number, design, airframe, stock=stock)
    return items


def _servo(
    servo: Servo, number: int, design: Design, airframe: Airframe, *, stock: Stock
) -> list[Item]:
    field = f"servo.{number}"
    size: Vector = (0.023, 0.012, 0.025)
    if servo.mass is not None and servo.stock not in stock.servos:
        mass = Band.exact(servo.mass, "weighed")
    else:
        sold = entry(stock.servos, servo.stock, f"{field}.stock")
        size = sold.size
        mass = sold.mass if servo.mass is None else Band.exact(servo.mass, "weighed")
    at = servo_place(servo, design, airframe)
    word = servo.role.replace("vee", "V-tail")
    items = [Item(f"servo-{number + 1}", f"{word} servo", servo.stock, mass, at, size)]
    rod = entry(stock.rods, servo.rod, f"{field}.rod")
    horn = horn_place(servo, design, airframe, at)
    length = math.dist(at, horn) + 0.02
    items.append(
        Item(
            f"pushrod-{number + 1}",
            f"{word} pushrod",
            servo.rod,
            scaled(rod_areal_mass(rod), rod.width * length),
            tuple(0.5 * (a + b) for a, b in zip(at, horn, strict=True)),
            (max(abs(horn[0] - at[0]), 0.002), max(abs(horn[1] - at[1]), 0.002), 0.002),
        )
    )
    items.append(
        Item(
            f"horn-{number + 1}",
            f"{word} horn",
            "control horn" if "control horn" in stock.others else "",
            _other(stock, "control horn", SMALL),
            horn,
            (0.01, 0.005, 0.02),
        )
    )
    return items


def horn_place(servo: Servo, design: Design, airframe: Airframe, at: Vector) -> Vector:
    """Where a servo's rod ends on the control surface.

    Args:
        servo: The design's servo.
        design: The design.
        airframe: Its shape.
        at: The servo's middle. [m]

    Returns:
        The horn. [m]

    Source:
        Common practice: just behind the hinge line, near the fuselage.

    Example:
        >>> horn_place(design.servo[0], design, airframe, (0.3, 0.0, 0.0))  # doctest: +SKIP
        (0.37, 0.0, 0.05)
    """
    if servo.role.startswith("aileron"):
        panel = airframe.wing.panels[0]
        chord = airframe.wing.controls[0].chord if airframe.wing.controls else 0.2 * panel.root_chord
        return (panel.root[0] + panel.root_chord - chord + 0.005, at[1], panel.root[2])
    if servo.role == "rudder" and design.fin is not None and airframe.fin is not None:
        fin = design.fin
        root = airframe.fin.panels[0].root
        return (fin.position + fin.hinge * fin.chord + 0.005, at[1], root[2] + 0.02)
    stab, root = design.stab, airframe.stab.panels[0].root
    side = {"vee left": -0.03, "vee right": 0.03}.get(servo.role, at[1])
    return (stab.position + stab.hinge * stab.chord + 0.005, side, root[2])


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


def glue_item(design: Design, parts: Iterable[Part], stock: Stock) -> Item:
    """Glue, weighed or a share of the cut parts' mass, at the parts' common centre.

    Args:
        design: The design.
        parts: Cut parts.
        stock: The stock tables.

    Returns:
        The item.

    Raises:
        DesignError: Stock has no such glue.

    Source:
        Common practice: 8 to 15 % of the airframe.

    Example:
        >>> glue_item(design, parts, stock).id  # doctest: +SKIP
        'glue'
    """
    glue = entry(stock.glues, design.glue.stock, "glue.stock")
    total, moment = 0.0, [0.0, 0.0, 0.0]
    for part in parts:
        mass = part.mass
        total += mass
        for k, value in enumerate(part_centre(part)):
            moment[k] += mass * value
    at = (moment[0] / total, moment[1] / total, moment[2] / total) if total else (0.0, 0.0, 0.0)
    mass = (
        Band.exact(design.glue.mass, "weighed")
        if design.glue.mass is not None
        else scaled(glue.share, total)
    )
    span = 2.0 * sum(panel.span for panel in design.wing.panel)
    # Seams lie all over the airframe: a box of its size, thinned as its mass is.
    size = (0.6 * design.fuselage.length, 0.6 * span, 0.5 * design.fuselage.height)
    return Item("glue", "glue", design.glue.stock, mass, at, size)


def part_centre(part: Part) -> Vector:
    """Centre of mass of a part on the plane, from its facets.

    Args:
        part: The part.

    Returns:
        Centre. [m]

    Source:
        Area-weighted mean of the facets' centroids.

    Example:
        >>> part_centre(part)  # doctest: +SKIP
        (0.3, 0.0, 0.05)
    """
    total, moment = 0.0, [0.0, 0.0, 0.0]
    for facet in part.facets:
        area = float(facet.polygon.area)
        centre = facet.polygon.centroid
        u, v = float(centre.x), float(centre.y)
        total += area
        for k in range(3):
            moment[k] += area * (facet.origin[k] + u * facet.along[k] + v * facet.across[k])
    return (moment[0] / total, moment[1] / total, moment[2] / total)
