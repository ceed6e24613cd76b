"""The ply plate that the motor is screwed to, in a nose-in landing."""

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from foamwright.core.air import GRAVITY
from foamwright.design.model import Design
from foamwright.shape.model import Airframe
from foamwright.stock.model import Stock
from foamwright.strength.cases import Figures
from foamwright.strength.loads import (
    gyroscopic_moment,
    manoeuvre_load_factor,
    propeller_inertia,
    stopping_load_factor,
)
from foamwright.strength.model import LoadCase
from foamwright.strength.plates import couple_stress, push_stress
from foamwright.strength.wing_joint import glue_shear, glue_tension

type Array = NDArray[np.float64]

CRASH_DISTANCE = 0.05  # m over which the nose stops; common practice, no source
CRASH_SPEED = 10.0  # m/s, a failed launch or a hard arrival; common practice, no source
CRASH_ANGLE = math.radians(45.0)  # between flight path and thrust line; assumed
MOTOR_SIZE = (0.028, 0.030, 0.019)  # m: diameter, length, bolt circle when stock has no such motor
SCREW = 0.0022  # m, thread of the usual No. 2 wood screw
PIN = (0.002, 0.030)  # m, toothpick: diameter and length in the foam; common practice
WITHDRAWAL = 108.25e6  # N/m², 15 700 psi, [WOODHANDBOOK] ch. 8, p = 15700 G² D L (from memory)
PLY_GRAVITY = 0.62  # specific gravity of birch, oven dry, [WOODHANDBOOK]


@dataclass(frozen=True, slots=True)
class FirewallLimit:
    """Strength over load of one way to break.

    Attributes:
        id: "firewall_bending", "firewall_glue" or "firewall_screws".
        name: In trade words.
        ratios: Strength over load, one a build. [-]
        why: One sentence.
        source: Publication or "assumed".
    """

    id: str
    name: str
    ratios: Array
    why: str
    source: str


def firewall_limits(
    design: Design, airframe: Airframe, stock: Stock, *, figures: Figures, loads: LoadCase
) -> tuple[FirewallLimit, ...]:
    """Plate, glue and screws when the motor's mass is stopped aslant by the ground.

    The nose stops from 10 m/s over 50 mm at 45 degrees to the thrust line: the motor pushes the
    plate in and tilts it by its overhang. The plate bends as a round one held at its rim, the glue
    and pins behind it are pried, the screws pulled.

    Args:
        design: The design. [-]
        airframe: Its shape. [-]
        stock: The stock tables. [-]
        figures: Doubted figures. [-]
        loads: Numbers of the plane. [-]

    Returns:
        Three ways to break, and the glue in flight.

    Source:
        [ROARK] plates; [WOODHANDBOOK] screws; see docs/physics/strength.md.

    Example:
        >>> firewall_limits(design, airframe, stock, figures=f, loads=l)[0].id
        'firewall_bending'
    """
    plate, name = design.motor.firewall, design.motor.firewall.stock
    sold = stock.motors.get(design.motor.stock)
    _, length, circle = (
        MOTOR_SIZE if sold is None else (sold.diameter, sold.length, sold.bolt_circle)
    )
    shock = stopping_load_factor(CRASH_SPEED, CRASH_DISTANCE)
    force = shock * GRAVITY * loads.motor_mass
    push, side = force * math.cos(CRASH_ANGLE), force * math.sin(CRASH_ANGLE)
    # Motor and propeller together have their middle about a motor's length ahead of the plate.
    couple = side * length
    small, large = sorted((plate.width, plate.height))
    rim = 0.5 * small
    pad = min(0.5 * circle, 0.8 * rim)
    thickness = figures[f"ply.{name}.thickness"]
    stress = np.asarray(
        push_stress(push, long=large, short=small, thickness=thickness, pad=pad)
        + couple_stress(couple, radius=rim, pad=pad, thickness=thickness)
    )
    bending = (figures[f"ply.{name}.strength"] / stress).ravel()
    words = (
        f"{1000 * loads.motor_mass:.0f}\u00a0g of motor and propeller stopped with "
        f"{shock:.0f} g aslant "
    )
    screw_pull = 2.0 * couple / (plate.screws * 0.5 * circle)
    screw = WITHDRAWAL * PLY_GRAVITY**2 * SCREW * thickness
    plate_words = (
        words + f"bend the plate to {float(stress[0, 0]) / 1e6:.0f} MPa; it holds "
        f"{float(figures[f'ply.{name}.strength'][0, 0]) / 1e6:.0f} MPa."
    )
    return (
        FirewallLimit(
            "firewall_bending", "firewall cracks in bending", bending, plate_words, "[ROARK]"
        ),
        _glue(design, airframe, figures, loads, couple),
        FirewallLimit(
            "firewall_screws",
            "motor screws pull out of the firewall",
            (screw / screw_pull).ravel(),
            words + f"pull {screw_pull:.0f}\u00a0N on one screw; it holds "
            f"{float(screw[0, 0]):.0f}\u00a0N.",
            "[WOODHANDBOOK]",
        ),
        *_in_flight(design, airframe, figures, loads, length),
    )


def _in_flight(
    design: Design, airframe: Airframe, figures: Figures, loads: LoadCase, overhang: float
) -> tuple[FirewallLimit, ...]:
    """Thrust, weight in a pull-up, gyroscopic moment and torque on the glue, all at once."""
    if loads.shaft_speed <= 0.0:
        return ()
    load_factor = min(manoeuvre_load_factor(loads.top_speed, loads.stall_speed), 10.0)
    turn = (load_factor - 1.0) * GRAVITY / loads.top_speed
    inertia = propeller_inertia(loads.propeller_mass, loads.propeller_diameter)
    gyro = gyroscopic_moment(inertia, loads.shaft_speed, turn)
    weight = load_factor * GRAVITY * loads.motor_mass * overhang
    # In a pull-up the gyroscopic moment turns the nose sideways, the weight tilts it down.
    couple = math.hypot(weight, gyro)
    height, wide = _glued_area(design, airframe)
    glue = design.motor.firewall.glue
    tension = glue_tension(figures, glue, loads.temperature)
    shear = glue_shear(figures, glue, loads.temperature)
    section = wide * height * min(wide, height) / 6.0
    pull = loads.static_thrust / (wide * height) + couple / section
    twist = loads.shaft_torque / (0.5 * wide * height * min(wide, height) / 3.0)
    ratios = (1.0 / np.hypot(pull / tension, twist / shear)).ravel()
    why = (
        f"Thrust of {loads.static_thrust:.1f}\u00a0N, {weight:.2f}\u00a0N m of motor weight at "
        f"{load_factor:.0f} g, a gyroscopic moment of {gyro:.2f}\u00a0N m and a torque of "
        f"{loads.shaft_torque:.2f}\u00a0N m pull at the glue, which holds "
        f"{float(ratios[0]):.0f} times that at {loads.temperature - 273.15:.0f}\u00a0°C."
    )
    return (
        FirewallLimit(
            "firewall_flight", "firewall peels off in flight", ratios, why, "assumed glue area"
        ),
    )


def _glued_area(design: Design, airframe: Airframe) -> tuple[float, float]:
    """Height and width of the foam that the plate is glued to."""
    plate, nose = design.motor.firewall, airframe.body.stations[0]
    height = min(plate.height, nose.top - nose.bottom)
    wide = min(plate.width, nose.width)
    if design.fuselage.build == "box":
        # Only the edges of the box are glued: two sides, one board thick each.
        wide = min(wide, 2.0 * airframe.board_thickness)
    return height, wide


def _glue(
    design: Design, airframe: Airframe, figures: Figures, loads: LoadCase, couple: float
) -> FirewallLimit:
    plate = design.motor.firewall
    height, wide = _glued_area(design, airframe)
    tension = glue_tension(figures, plate.glue, loads.temperature)
    shear = glue_shear(figures, plate.glue, loads.temperature)
    glued = tension * wide * height**2 / 6.0
    pins = plate.pins * shear * math.pi * PIN[0] * PIN[1] * 0.5 * max(height - 0.01, 0.0)
    ratios = ((glued + pins) / couple).ravel()
    why = (
        f"The couple of {couple:.2f}\u00a0N m pries at the glue, which holds "
        f"{float((glued + pins)[0, 0]):.2f}\u00a0N m with {plate.pins} pins at "
        f"{loads.temperature - 273.15:.0f}\u00a0°C."
    )
    return FirewallLimit("firewall_glue", "firewall tears off its glue", ratios, why, "assumed")
