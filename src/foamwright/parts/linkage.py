"""Servos, pushrods, guides and horns in their places."""

import math

import numpy as np

from foamwright.core.bands import Band
from foamwright.design.model import Design, Servo
from foamwright.parts.material import entry, rod_areal_mass, scaled
from foamwright.parts.model import Item
from foamwright.parts.side_view import SideView
from foamwright.parts.wing_frame import frame_at, panel_frames
from foamwright.shape.body import root_chord, width_at
from foamwright.shape.model import Airframe, Vector
from foamwright.shape.surfaces import hinge_chords
from foamwright.stock.model import Stock

SMALL = Band(0.0005, 0.001, 0.0015, "common practice")  # kg, a horn with its screws
GUIDE = Band(0.0001, 0.0002, 0.0004, "common practice")  # kg, a piece of drinking straw and glue
USUAL_SERVO: Vector = (0.023, 0.012, 0.025)  # m, of a 9 g servo; common practice
SERVO_STEP = 0.012  # m between two servos one behind the other; common practice
HORN_BACK = 0.005  # m of a horn's foot behind the hinge line; common practice
HORN_OUT = 0.015  # m of the elevator's horn outside the fuselage; common practice
RUDDER_UP = 0.02  # m of the rudder's horn above the fin's foot; common practice


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
        >>> usual_mass(stock, "control horn", Band.exact(0.001)).typical
        0.0006
    """
    found = stock.others.get(name)
    return usual if found is None else found.mass


def is_tail_servo(servo: Servo) -> bool:
    """Whether a servo sits in the fuselage and drives the tail.

    Args:
        servo: The design's servo. [-]

    Returns:
        True for all but aileron servos. [-]

    Source:
        Definition.

    Example:
        >>> is_tail_servo(Servo.model_construct(role="rudder"))
        True
    """
    return not servo.role.startswith("aileron")


def servo_size(servo: Servo, stock: Stock) -> Vector:
    """Length, thickness and height of a servo's body.

    Args:
        servo: The design's servo. [-]
        stock: The stock tables. [-]

    Returns:
        Box, from stock or that of a 9 g servo. [m]

    Source:
        Stock tables.

    Example:
        >>> [round(x, 4) for x in servo_size(design.servo[0], stock)]
        [0.0222, 0.0118, 0.031]
    """
    sold = stock.servos.get(servo.stock)
    return USUAL_SERVO if sold is None else sold.size


def servo_place(number: int, design: Design, airframe: Airframe, *, view: SideView) -> Vector:
    """Where a servo sits: as the design says, else by its role.

    Aileron: let into the wing's underside at half the chord, one in the middle or one on each side
    at the aileron's middle. Tail servos: in the fuselage at 80 % of the root chord, half-way
    between bottom and top there, one behind the other in a profile, side by side in a box.

    Args:
        number: Its place in the design, from 0. [-]
        design: The design. [-]
        airframe: Its shape. [-]
        view: Side view with the seats cut out. [-]

    Returns:
        Its middle. [m]

    Source:
        Common practice.

    Example:
        >>> [round(x, 4) for x in servo_place(0, design, airframe, view=view)]
        [0.2509, -0.1523, 0.0536]
    """
    servo = design.servo[number]
    if not is_tail_servo(servo):
        x, side, z = _in_wing(servo, airframe)
    else:
        before = sum(is_tail_servo(other) for other in design.servo[:number])
        x = airframe.wing.panels[0].root[0] + 0.8 * root_chord(design)
        side = servo.side
        if design.fuselage.build == "profile":
            x += before * (USUAL_SERVO[0] + SERVO_STEP)
        elif side == 0.0 and sum(is_tail_servo(other) for other in design.servo) > 1:
            side = (0.75 * USUAL_SERVO[1]) * (1.0 if before % 2 else -1.0)
        x = x if servo.position is None else servo.position
        low = float(np.interp(x, view.bottom[:, 0], view.bottom[:, 1]))
        z = 0.5 * (low + float(np.interp(x, view.top[:, 0], view.top[:, 1])))
    return (
        x if servo.position is None else servo.position,
        side,
        z if servo.height is None else servo.height,
    )


def _in_wing(servo: Servo, airframe: Airframe) -> Vector:
    wing, side = airframe.wing, servo.side
    frames = panel_frames(wing)
    if servo.role != "aileron" and side == 0.0 and wing.controls:
        control = wing.controls[0]
        half = frames[-1].start + frames[-1].length
        side = 0.5 * half * (control.start + control.end)
        side = side if servo.role.endswith("right") else -side
    frame = frame_at(frames, abs(side))
    station = frame.station(abs(side))
    lower = np.array(frame.panel.section.lower)
    under = float(np.interp(0.5, lower[:, 0], lower[:, 1])) * station.chord
    x, y, z = station.at(0.5 * station.chord, under + 0.5 * USUAL_SERVO[1]).tolist()
    return x, math.copysign(y, side) if side else 0.0, z


def horn_place(servo: Servo, design: Design, airframe: Airframe, at: Vector) -> Vector:
    """Where a servo's rod ends on the control surface: the foot of its horn.

    Args:
        servo: The design's servo. [-]
        design: The design. [-]
        airframe: Its shape. [-]
        at: The servo's middle. [m]

    Returns:
        The horn. [m]

    Source:
        Common practice: just behind the hinge line, the elevator's on the left of the fuselage, the
        rudder's on the right.

    Example:
        >>> [round(x, 4) for x in horn_place(design.servo[0], design, airframe, (0.3, 0.0, 0.0))]
        [0.3223, 0.0, 0.0411]
    """
    if servo.role.startswith("aileron"):
        frames = panel_frames(airframe.wing)
        half = frames[-1].start + frames[-1].length
        place = min(abs(at[1]), half)
        station = frame_at(frames, place).station(place)
        controls = airframe.wing.controls
        chord = controls[0].chord if controls else 0.2 * station.chord
        x, _, z = station.at(station.chord - chord + HORN_BACK).tolist()
        return x, at[1], z
    if servo.role == "rudder" and design.fin is not None and airframe.fin is not None:
        x, _, z = rudder_horn(design, airframe)
        return x, at[1], z
    stab, root = design.stab, airframe.stab.panels[0].root
    x = stab.position + stab.hinge * stab.chord + HORN_BACK
    out = 0.5 * width_at(airframe.body, x) + HORN_OUT
    side = {"vee left": -0.03, "vee right": 0.03}.get(servo.role, -out)
    return x, side, root[2]


def rudder_horn(design: Design, airframe: Airframe) -> Vector:
    """Foot of the rudder's horn.

    Args:
        design: With a fin. [-]
        airframe: With a fin. [-]

    Returns:
        On the plane of symmetry. [m]

    Source:
        Common practice.

    Example:
        >>> [round(x, 4) for x in rudder_horn(design, airframe)]
        [0.8711, 0.0, 0.0438]
    """
    if design.fin is None or airframe.fin is None:
        return airframe.stab.panels[0].root
    panel, length = airframe.fin.panels[0], airframe.fin.span
    inner, outer = hinge_chords(design.fin, length, "fin")
    up = min(RUDDER_UP, 0.3 * length)
    share = up / length
    hinge = panel.root[0] + panel.root_chord - inner
    tip = panel.tip[0] + panel.tip_chord - outer
    return hinge + share * (tip - hinge) + HORN_BACK, 0.0, panel.root[2] + up


def linkage(
    number: int,
    design: Design,
    airframe: Airframe,
    *,
    stock: Stock,
    view: SideView,
    buy_horn: bool = True,
) -> list[Item]:
    """One servo with its pushrod, the rod's guides, and its horn.

    Args:
        number: Its place in the design, from 0. [-]
        design: The design. [-]
        airframe: Its shape. [-]
        stock: The stock tables. [-]
        view: Side view with the seats cut out. [-]
        buy_horn: Whether the horn is bought, not cut from ply. [-]

    Returns:
        Servo, rod, guides where the rod is longer than its free length, and horn.

    Raises:
        DesignError: Stock has no such servo or rod.

    Source:
        Definition of the design file.

    Example:
        >>> [i.name for i in linkage(0, design, airframe, stock=stock, view=view)]
        ['aileron left servo', 'aileron left pushrod', 'aileron left horn']
    """
    servo = design.servo[number]
    field = f"servo.{number}"
    size = servo_size(servo, stock)
    if servo.mass is not None and servo.stock not in stock.servos:
        mass = Band.exact(servo.mass, "weighed")
    else:
        sold = entry(stock.servos, servo.stock, f"{field}.stock")
        mass = sold.mass if servo.mass is None else Band.exact(servo.mass, "weighed")
    at = servo_place(number, design, airframe, view=view)
    word = servo.role.replace("vee", "V-tail")
    items = [Item(f"servo-{number + 1}", f"{word} servo", servo.stock, mass, at, size)]
    rod = entry(stock.rods, servo.rod, f"{field}.rod")
    horn = horn_place(servo, design, airframe, at)
    length = math.dist(at, horn) + 0.02
    middle: Vector = (0.5 * (at[0] + horn[0]), 0.5 * (at[1] + horn[1]), 0.5 * (at[2] + horn[2]))
    reach: Vector = (max(abs(horn[0] - at[0]), 0.002), max(abs(horn[1] - at[1]), 0.002), 0.002)
    items.append(
        Item(
            f"pushrod-{number + 1}",
            f"{word} pushrod",
            servo.rod,
            scaled(rod_areal_mass(rod), rod.width * length),
            middle,
            reach,
        )
    )
    guides = math.ceil(length / servo.rod_support - 1e-9) - 1
    if guides > 0:
        name = f"{word} pushrod guides, {guides}"
        items.append(Item(f"guides-{number + 1}", name, "", scaled(GUIDE, guides), middle, reach))
    if not buy_horn:
        return items
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
