"""The set-up page: throws, horn holes, expo, CG, pack, thrust angles with washers, bands."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from foamwright.book.model import Block, Grid, Heading, Words
from foamwright.core.errors import FoamwrightError
from foamwright.core.unit_table import INCH
from foamwright.sheets.words import angle_words, length_words

if TYPE_CHECKING:
    from foamwright.design.model import Servo
    from foamwright.plane import Plane
    from foamwright.shape.model import ControlSurface

EXPO = {"beginner": 35, "returning": 30, "experienced": 25}  # %, common practice, no source
FIRST = {"beginner": 0.7, "returning": 0.8, "experienced": 1.0}  # of full throw at first; same
MOTOR_BOLTS = 0.019  # m between bolts when stock does not say; common practice


def edge_travel(chord: float, angle: float) -> float:
    """How far the trailing edge of a hinged surface moves, as a ruler held at it shows.

    s = 2 c sin(angle / 2).

    Args:
        chord: From the hinge to the trailing edge. [m]
        angle: Of deflection. [rad]

    Returns:
        Straight distance from neutral. [m]

    Source:
        Geometry: chord of an arc.

    Example:
        >>> round(edge_travel(0.04, 0.2618), 4)
        0.0104
    """
    return 2.0 * chord * math.sin(0.5 * abs(angle))


def travel_words(chord: float, angle: float, units: str) -> str:
    """Travel at the trailing edge as a ruler shows it: half a millimetre, or 1/32 in.

    Args:
        chord: From the hinge to the trailing edge. [m]
        angle: Of deflection. [rad]
        units: "metric" or "inch". [-]

    Returns:
        Words. [-]

    Source:
        Geometry: chord of an arc.

    Example:
        >>> travel_words(0.04, 0.2618, "metric"), travel_words(0.04, 0.2618, "inch")
        ('10.5 mm', '13/32 in')
    """
    travel = edge_travel(chord, angle)
    if units == "metric":
        return f"{round(2000.0 * travel) / 2:g} mm"
    return length_words(travel, units)


def washer_thickness(spacing: float, angle: float) -> float:
    """Washer under the bolts of one side that turns a motor by an angle.

    t = d tan(angle).

    Args:
        spacing: Between the bolts of both sides. [m]
        angle: [rad]

    Returns:
        Thickness. [m]

    Source:
        Geometry.

    Example:
        >>> round(washer_thickness(0.019, 0.0349), 5)
        0.00066
    """
    return spacing * math.tan(abs(angle))


def set_up_blocks(plane: Plane) -> list[Block]:
    """The page.

    Args:
        plane: The plane. [-]

    Returns:
        Blocks. [-]

    Source:
        The design and its results.

    Example:
        >>> set_up_blocks(plane)[0].words
        'Set-up'
    """
    return [
        Heading("Set-up", 1),
        Heading("Throws"),
        _throws(plane),
        Words(
            f"Measured with a ruler at the trailing edge where the hinged part is as wide as said. "
            f"Expo {EXPO[plane.design.pilot.level]} % to start with (common practice). First "
            f"flights with "
            f"the second set of throws on a switch.",
            "small",
        ),
        Heading("Linkage"),
        _linkage(plane),
        Heading("Balance and pack"),
        _balance(plane),
        Heading("Thrust and wing"),
        _thrust(plane),
    ]


def _throws(plane: Plane) -> Grid:
    units = plane.design.units
    share = FIRST[plane.design.pilot.level]
    rows: list[tuple[str, ...]] = []
    for surface in (plane.airframe.wing, plane.airframe.stab, plane.airframe.fin):
        for control in () if surface is None else surface.controls:
            up, down = ("left", "right") if control.name == "rudder" else ("up", "down")
            for way, angle in ((up, control.up), (down, control.down)):
                rows.append(
                    (
                        f"{control.name}, {way}",
                        angle_words(angle),
                        travel_words(control.chord, angle, units),
                        f"{angle_words(share * angle)}, "
                        f"{travel_words(control.chord, share * angle, units)}",
                        length_words(control.chord, units),
                        "",
                    )
                )
    head = ("surface", "full", "at the edge", f"first flights ({100 * share:.0f} %)", "width there",
            "measured")  # fmt: skip
    return Grid(head, tuple(rows), (2.0, 1.0, 1.3, 2.2, 1.4, 1.4))


def _linkage(plane: Plane) -> Grid:
    units = plane.design.units
    controls: dict[str, ControlSurface] = {
        control.name: control
        for surface in (plane.airframe.wing, plane.airframe.stab, plane.airframe.fin)
        if surface is not None
        for control in surface.controls
    }
    rows = [
        (
            servo.role,
            length_words(servo.arm, units),
            length_words(servo.horn, units),
            _travel(servo, controls),
            servo.rod,
        )
        for servo in plane.design.servo
    ]
    head = ("servo", "hole on the arm", "hole on the horn", "servo turns for full throw", "rod")
    return Grid(head, tuple(rows), (1.6, 1.4, 1.4, 2.2, 2.0))


def _travel(servo: Servo, controls: dict[str, ControlSurface]) -> str:
    """Servo angle that the widest throw takes: arm sin(servo) = horn sin(surface)."""
    name = servo.role.split()[0]
    control = controls.get(name) or controls.get("elevator" if name == "vee" else name)
    if control is None:
        return "cannot say"
    needed = servo.horn / servo.arm * math.sin(max(control.up, control.down))
    return angle_words(math.asin(needed)) if needed <= 1.0 else "more than it can: longer arm"


def _balance(plane: Plane) -> Grid:
    units, balance = plane.design.units, plane.balance
    edge = plane.airframe.wing.panels[0].root[0]

    def place(x: float) -> str:
        side = "behind" if x >= edge else "ahead of"
        return (
            f"{length_words(abs(x - edge), units)} {side} the wing's leading edge, "
            f"{length_words(x, units)} from the nose"
        )

    rows = [("CG, as designed", place(balance.cg[0]), "")]
    try:
        aero = plane.aero
        rows += [
            ("CG, foremost", place(aero.cg_forward), ""),
            ("CG, rearmost", place(aero.cg_aft), ""),
        ]
    except FoamwrightError as error:
        rows.append(("CG limits", f"cannot say: {error}", ""))
    low, high = balance.cg_x_band.low, balance.cg_x_band.high
    rows.append(("CG, builds lie between", f"{place(low)} and {length_words(high, units)}", ""))
    pack = plane.design.pack
    rows.append(("pack's middle", place(pack.position), ""))
    step = INCH if units == "inch" else 0.01  # m of pack, to say what it does
    slide = (
        step
        * (balance.cg_back - balance.cg_front)
        / max(balance.pack_back - balance.pack_front, 1e-6)
    )
    rows.append(
        (
            "pack can slide",
            f"{length_words(balance.pack_front, units)} to "
            f"{length_words(balance.pack_back, units)} "
            f"from the nose; {length_words(step, units)} move the CG {length_words(slide, units)}",
            "",
        )
    )
    return Grid(("what", "where", "measured"), tuple(rows), (1.6, 5.0, 1.6))


def _thrust(plane: Plane) -> Grid:
    units, motor, design = plane.design.units, plane.design.motor, plane.design
    sold = plane.stock.motors.get(motor.stock)
    # Four bolts on a circle stand at the corners of a square: sides are circle / sqrt 2.
    spacing = (sold.bolt_circle / math.sqrt(2.0)) if sold and sold.bolt_circle > 0 else MOTOR_BOLTS
    one = washer_thickness(spacing, math.radians(1.0))

    def thick(value: float) -> str:  # washers and paper: measured with a calliper, in decimals
        return f"{value / INCH:.3f} in" if units == "inch" else f"{1000 * value:.1f} mm"

    rows = [
        (
            "down thrust",
            f"{angle_words(motor.down_thrust)}, built into the firewall",
            f"a flat one would take {thick(washer_thickness(spacing, motor.down_thrust))} "
            "under the upper bolts",
        ),
        (
            "right thrust",
            f"{angle_words(motor.right_thrust)}, built into the firewall",
            f"a flat one would take {thick(washer_thickness(spacing, motor.right_thrust))} "
            "under the left bolts, seen from the cockpit",
        ),
        (
            "one degree more",
            f"{thick(one)} of washer",
            f"bolts {length_words(spacing, units)} apart",
        ),
    ]
    held = design.wing.attachment
    bands = held.bands if held.kind == "bands" else 0
    if held.kind == "bolts":
        rows.append(
            (
                "wing bolts",
                f"{held.bolts}, {held.bolt}",
                "nylon, so that they shear before the wing breaks; finger tight and a quarter turn",
            )
        )
    if bands:
        rows.append(
            ("rubber bands", f"{bands}, {design.wing.attachment.band}", "the last two "
                                                                        "crossed; new ones "
             "each season, and none with cracks")
        )  # fmt: skip
    rows.append(("wing incidence", angle_words(design.wing.incidence), "of the flat underside"))
    trim = getattr(plane, "flight", None) if _can(plane) else None
    if trim is not None and trim.power_trim is not None:
        rows.append(("with power", trim.power_trim.words, ""))
    return Grid(("what", "how much", "how"), tuple(rows), (1.4, 2.6, 4.0))


def _can(plane: Plane) -> bool:
    try:
        _ = plane.flight
    except FoamwrightError:
        return False
    return True
