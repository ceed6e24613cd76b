"""The tables of what goes into and onto the airframe: power, radio, pack, wheels, covering.

The text below each key is its description in docs/use/design-file.md and in the JSON schema.
"""

from typing import Literal

from pydantic import Field

from foamwright.core.unit_table import TURN_PER_MINUTE
from foamwright.design.fields import (
    Angle,
    Capacity,
    Current,
    Kv,
    Length,
    Mass,
    Resistance,
    Section,
    degrees,
)


class Firewall(Section):
    """[motor.firewall] the plate the motor is screwed to."""

    stock: str = "birch ply 1/8 in"
    "Stock name of its plywood."
    width: Length = Field(default=0.044, ge=0.01, le=0.2)
    "Across the fuselage."
    height: Length = Field(default=0.05, ge=0.01, le=0.2)
    "Up and down."
    screws: int = Field(default=4, ge=2, le=8)
    "Screws that hold the motor."
    pins: int = Field(default=2, ge=0, le=8)
    "Toothpick or skewer pins into the fuselage behind it."
    glue: str = "hot glue"
    "Stock name of the glue that holds it."


class Motor(Section):
    """[motor] what turns the propeller; values left out come from stock."""

    stock: str = "outrunner 22 mm 1000 Kv"
    "Stock name of its size class."
    kv: Kv | None = Field(default=None, ge=100 * TURN_PER_MINUTE, le=10000 * TURN_PER_MINUTE)
    "Speed constant on its label, or measured."
    mass: Mass | None = Field(default=None, ge=0.002, le=1.0)
    "Weighed, with leads and connectors."
    resistance: Resistance | None = Field(default=None, ge=0.001, le=5.0)
    "Warm, with leads and connectors."
    no_load_current: Current | None = Field(default=None, ge=0.01, le=20.0)
    "Without a propeller, at the pack's voltage."
    max_current: Current | None = Field(default=None, ge=0.5, le=200.0)
    "That it stands for a climb."
    down_thrust: Angle = Field(default=0.0349, ge=degrees(-15), le=degrees(15))
    "Shaft tilted down at the front."
    right_thrust: Angle = Field(default=0.0349, ge=degrees(-15), le=degrees(15))
    "Shaft turned to the right, seen from behind."
    height: Length = Field(default=0.0, ge=-0.3, le=0.5)
    "Of the shaft at the firewall, above the fuselage line."
    firewall: Firewall = Firewall.model_construct()
    "See [motor.firewall]."


class Propeller(Section):
    """[propeller] what is printed on it."""

    kind: Literal["slow flight", "electric", "sport", "folding", "direct drive"] = "slow flight"
    "Its blade family."
    diameter: Length = Field(default=0.2286, ge=0.05, le=0.6)
    "Of the swept disc."
    pitch: Length = Field(default=0.1194, ge=0.02, le=0.5)
    "Advance in one turn, as printed."
    blades: int = Field(default=2, ge=2, le=4)
    "Number of blades."
    line: Literal["A", "B", "C", "F"] | None = None
    "Blade line within its family."
    mass: Mass | None = Field(default=None, ge=0.0005, le=0.3)
    "Weighed."


class Controller(Section):
    """[controller] the electronic speed controller."""

    stock: str = "controller 20 A"
    "Stock name of its size class."
    current: Current | None = Field(default=None, ge=1.0, le=200.0)
    "Rated, steady."
    mass: Mass | None = Field(default=None, ge=0.001, le=0.5)
    "Weighed, with leads and connectors."
    position: Length | None = Field(default=None, ge=-0.2, le=4.0)
    "Its middle, aft of the nose."
    height: Length = Field(default=0.0, ge=-0.5, le=0.5)
    "Its middle, above the fuselage line."


class Pack(Section):
    """[pack] the LiPo and the range its tray allows."""

    cells: int = Field(default=3, ge=1, le=6)
    "Cells in series."
    capacity: Capacity = Field(default=4680.0, ge=180.0, le=72000.0)
    "On the label."
    mass: Mass | None = Field(default=None, ge=0.003, le=2.0)
    "Weighed, with leads and connectors."
    discharge_rating: float | None = Field(default=None, gt=0, le=200)
    'The plain number before the "C" on the label.'
    resistance: Resistance | None = Field(default=None, ge=0.0005, le=2.0)
    "Of the whole pack, warm."
    lead: Length = Field(default=0.0, ge=0.0, le=2.0)
    "Wire and plug put between the pack's own leads and the controller, one way."
    lead_diameter: Length = Field(default=0.0013, ge=0.0003, le=0.005)
    "Of the copper in that wire."
    length: Length | None = Field(default=None, ge=0.01, le=0.4)
    "Along the fuselage."
    position: Length
    "Its middle, aft of the nose."
    tray_front: Length | None = None
    "Foremost place of its middle."
    tray_back: Length | None = None
    "Rearmost place of its middle."
    height: Length = Field(default=0.0, ge=-0.5, le=0.5)
    "Its middle, above the fuselage line."


class Receiver(Section):
    """[receiver] the radio receiver."""

    stock: str = "receiver 6 channel"
    "Stock name of its size class."
    mass: Mass | None = Field(default=None, ge=0.0005, le=0.2)
    "Weighed."
    position: Length | None = Field(default=None, ge=-0.2, le=4.0)
    "Its middle, aft of the nose."
    height: Length = Field(default=0.0, ge=-0.5, le=0.5)
    "Its middle, above the fuselage line."


class Servo(Section):
    """[[servo]] one servo and the linkage it drives."""

    role: Literal[
        "aileron", "aileron left", "aileron right", "elevator", "rudder", "vee left", "vee right"
    ]
    "What it moves."
    stock: str = "servo 9 g"
    "Stock name of its mass class."
    mass: Mass | None = Field(default=None, ge=0.001, le=0.2)
    "Weighed, with arm and screws."
    position: Length | None = Field(default=None, ge=-0.2, le=5.0)
    "Its middle, aft of the nose."
    side: Length = Field(default=0.0, ge=-2.5, le=2.5)
    "Its middle, to the right of the centre line; negative is left."
    height: Length | None = Field(default=None, ge=-0.5, le=1.0)
    "Its middle, above the fuselage line."
    arm: Length = Field(default=0.010, ge=0.003, le=0.05)
    "From the servo's shaft to the hole used on its arm."
    horn: Length = Field(default=0.014, ge=0.003, le=0.08)
    "From the hinge line to the hole used on the horn."
    rod: str = "music wire 1.2 mm"
    "Stock name of the pushrod."
    rod_support: Length = Field(default=0.15, ge=0.01, le=2.0)
    "Longest free length of the pushrod between guides."


class Extra(Section):
    """[[extra]] any other mass: ballast, camera, paint."""

    name: str = Field(min_length=1, max_length=80)
    "What it is."
    mass: Mass = Field(ge=0.0, le=5.0)
    "Weighed or guessed."
    position: Length = Field(ge=-1.0, le=5.0)
    "Its middle, aft of the nose."
    side: Length = Field(default=0.0, ge=-2.5, le=2.5)
    "Its middle, to the right of the centre line; negative is left."
    height: Length = Field(default=0.0, ge=-0.5, le=1.0)
    "Its middle, above the fuselage line."


class Gear(Section):
    """[gear] an undercarriage of bent wire; left out for a belly lander."""

    wire: str = "music wire 2.0 mm"
    "Stock name of the wire."
    position: Length = Field(ge=0.0, le=4.0)
    "Of the axle, aft of the nose."
    track: Length = Field(default=0.2, ge=0.02, le=1.0)
    "Between the wheels."
    height: Length = Field(default=0.12, ge=0.01, le=0.5)
    "From the fuselage line down to the axle."
    wheel_diameter: Length = Field(default=0.05, ge=0.01, le=0.2)
    "Of each wheel."
    wheel_mass: Mass = Field(default=0.008, ge=0.0, le=0.2)
    "Of each wheel."


class Covering(Section):
    """[covering] tape or film over the paper."""

    stock: str | None = None
    "Stock name of the tape."
    wing: Literal["none", "edges", "bottom", "all"] = "edges"
    "What of the wing is covered."
    fuselage: Literal["none", "belly", "all"] = "none"
    "What of the fuselage is covered."
    tail: Literal["none", "edges", "all"] = "none"
    "What of the tail is covered."


class Glue(Section):
    """[glue] what joins the board."""

    stock: str = "hot glue"
    "Stock name."
    mass: Mass | None = Field(default=None, ge=0.0, le=1.0)
    "Weighed: the finished airframe less its parts."
    stick_before: Mass | None = Field(default=None, ge=0.001, le=2.0)
    "Glue sticks on the scale before gluing."
    stick_after: Mass | None = Field(default=None, ge=0.0, le=2.0)
    "The same after gluing."
    glued_mass: Mass | None = Field(default=None, ge=0.005, le=5.0)
    "Board parts that were glued with them."
