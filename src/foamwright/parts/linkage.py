"""Servos, pushrods and horns in their places."""

import math

from foamwright.core.bands import Band
from foamwright.design.model import Design, Servo
from foamwright.parts.material import entry, rod_areal_mass, scaled
from foamwright.parts.model import Item
from foamwright.shape.body import height_at, root_chord, side_outline
from foamwright.shape.model import Airframe, Vector
from foamwright.stock.model import Stock

SMALL = Band(0.0005, 0.001, 0.0015, "common practice")  # kg, a horn with its screws


def usual_mass(stock: Stock, name: str, usual: Band) -> Band:
    """Mass of a small thing from stock, or the usual one.

    Args:
        stock: The stock tables. [-]
        name: In the table of other things. [-]
        usual: Mass when stock has none. [kg]

    Returns:
        Mass. [kg]

    Source:
        Stock tables.

    Example:
        >>> usual_mass(stock, "control horn", Band.exact(0.001)).typical  # doctest: +SKIP
        0.0008
    """
    found = stock.others.get(name)
    return usual if found is None else found.mass


def servo_place(servo: Servo, design: Design, airframe: Airframe) -> Vector:
    """Where a servo sits: as the design says, else by its role.

    Aileron: in the wing, one in the middle or one on each side at the aileron's middle. Tail
    servos: in or on the fuselage under the wing's rear third.

    Args:
        servo: The design's servo. [-]
        design: The design. [-]
        airframe: Its shape. [-]

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


def horn_place(servo: Servo, design: Design, airframe: Airframe, at: Vector) -> Vector:
    """Where a servo's rod ends on the control surface.

    Args:
        servo: The design's servo. [-]
        design: The design. [-]
        airframe: Its shape. [-]
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
        controls = airframe.wing.controls
        chord = controls[0].chord if controls else 0.2 * panel.root_chord
        return (panel.root[0] + panel.root_chord - chord + 0.005, at[1], panel.root[2])
    if servo.role == "rudder" and design.fin is not None and airframe.fin is not None:
        fin = design.fin
        root = airframe.fin.panels[0].root
        return (fin.position + fin.hinge * fin.chord + 0.005, at[1], root[2] + 0.02)
    stab, root = design.stab, airframe.stab.panels[0].root
    side = {"vee left": -0.03, "vee right": 0.03}.get(servo.role, at[1])
    return (stab.position + stab.hinge * stab.chord + 0.005, side, root[2])


def linkage(
    servo: Servo, number: int, design: Design, airframe: Airframe, *, stock: Stock
) -> list[Item]:
    """One servo with its pushrod and horn.

    Args:
        servo: The design's servo. [-]
        number: Its place in the design, from 0. [-]
        design: The design. [-]
        airframe: Its shape. [-]
        stock: The stock tables. [-]

    Returns:
        Servo, rod and horn.

    Raises:
        DesignError: Stock has no such servo or rod.

    Source:
        Definition of the design file.

    Example:
        >>> [i.name for i in linkage(servo, 0, design, airframe, stock=stock)]  # doctest: +SKIP
        ['elevator servo', 'elevator pushrod', 'elevator horn']
    """
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
            (0.5 * (at[0] + horn[0]), 0.5 * (at[1] + horn[1]), 0.5 * (at[2] + horn[2])),
            (max(abs(horn[0] - at[0]), 0.002), max(abs(horn[1] - at[1]), 0.002), 0.002),
        )
    )
    items.append(
        Item(
            f"horn-{number + 1}",
            f"{word} horn",
            "control horn" if "control horn" in stock.others else "",
            usual_mass(stock, "control horn", SMALL),
            horn,
            (0.01, 0.005, 0.02),
        )
    )
    return items
