"""The design as data: frozen, in SI, every value with a documented default.

Key names are the names in the design file. Lengths along x are metres aft of the fuselage nose, heights are
above the fuselage line (a straight line through the middle of the nose), y is right.
"""

from typing import Literal

from pydantic import BaseModel, ConfigDict, Field

from foamwright.design.fields import (
    Angle,
    Capacity,
    Current,
    Fraction,
    Kv,
    Length,
    Mass,
    Resistance,
    Speed,
    Temperature,
    Voltage,
)


class Section(BaseModel):
    """Base of every table in the design file: frozen, no unknown keys."""

    model_config = ConfigDict(frozen=True, extra="forbid")


class FieldSite(Section):
    """[field] where it flies."""

    name: str = "home field"
    altitude: Length = 0.0
    temperature: Temperature = 288.15
    wind: Speed = 3.0


class Pilot(Section):
    """[pilot] who throws and flies it."""

    level: Literal["beginner", "returning", "experienced"] = "beginner"
    throw_speed: Speed | None = None  # None: from all-up mass, common practice
    throw_height: Length = 1.8


class Board(Section):
    """[board] the foam board on the bench."""

    stock: str = "light display board"
    length: Length = 0.762
    width: Length = 0.508
    mass: Mass | None = None  # weighed mass of one whole sheet; replaces the stock band
    thickness: Length | None = None  # measured; None: from stock
    papers: Literal["both", "one peeled", "both peeled"] = "both"
    count: int = Field(default=4, ge=1, le=60)


class WingPanel(Section):
    """[[wing.panel]] one straight panel of a wing half, listed from the centre outwards."""

    span: Length  # root to tip of this panel, measured along it
    chord: Length | None = None  # at its root; None: tip chord of the panel before
    tip_chord: Length | None = None  # None: same as chord
    sweep: Angle = 0.0  # of the leading edge, positive aft
    dihedral: Angle = 0.0  # of this panel against the horizontal
    washout: Angle = 0.0  # tip against root of this panel, positive trailing edge up


class Spar(Section):
    """[wing.spar] board strips inside a folded wing, or under/over a plate wing."""

    strips: int = Field(default=2, ge=0, le=6)  # layers of board
    strip_width: Length = 0.0254
    laid: Literal["flat", "on edge"] = "flat"
    position: Fraction = 0.27  # middle of the spar, fraction of chord
    extent: Fraction = 1.0  # from the centre, fraction of the half span


class Reinforcement(Section):
    """[[wing.reinforcement]] a stick, dowel, rod or tape along the span."""

    kind: Literal[
        "foam strip", "craft stick", "dowel", "bamboo", "carbon", "mesh tape", "packing tape"
    ]
    stock: str | None = None  # None: the usual one of its kind
    place: Literal[
        "spar top", "spar bottom", "leading edge", "trailing edge", "skin top", "skin bottom"
    ] = "spar bottom"
    start: Length = 0.0  # from the centre line, along the half span
    end: Length | None = None  # None: to the end of the spar
    count: int = Field(default=1, ge=1, le=8)  # side by side, each half


class Joint(Section):
    """[wing.joint] where the two halves meet."""

    brace: str | None = "birch ply 1/8 in"  # stock name; None: no brace
    brace_length: Length = 0.15  # tip to tip across the centre
    brace_height: Length | None = None  # None: the height of the spar
    tape: str | None = "fibre mesh tape"  # over the bottom seam; None: no tape
    glue: str = "hot glue"


class Aileron(Section):
    """[wing.aileron] hinged strips at the trailing edge."""

    kind: Literal["strip", "outboard"] = "strip"
    chord: Length | None = None  # None: 18 % of the mean chord
    start: Length = 0.04  # inner end, from the centre line
    end: Length | None = None  # outer end; None: at the tip less 20 mm
    up: Angle = 0.2618
    down: Angle = 0.2094
    gap_sealed: bool = True


class Attachment(Section):
    """[wing.attachment] how the wing is held on the fuselage."""

    kind: Literal["bands", "bolts", "glued"] = "bands"
    bands: int = Field(default=4, ge=0, le=30)
    band: str = "rubber band 64"
    dowel: str = "hardwood dowel 1/4 in"
    bolts: int = Field(default=2, ge=1, le=8)
    bolt: str = "nylon bolt M4"


class Wing(Section):
    """[wing] the main surface."""

    build: Literal["folded", "stepped", "plate"] = "folded"
    place: Literal["high", "low"] = "high"
    position: Length  # leading edge at the centre line, aft of the nose
    height: Length | None = None  # underside at the centre line; None: on (or under) the fuselage
    incidence: Angle = 0.0262  # of the flat bottom against the fuselage line
    panel: tuple[WingPanel, ...] = Field(min_length=1, max_length=8)
    creases: int = Field(default=2, ge=0, le=3)
    crease_positions: tuple[Fraction, ...] | None = (
        None  # on the top skin, fraction of chord; None: spread
    )
    bevel: Length | None = None  # width of the bevel at the trailing edge; None: from thickness
    target: str = "clark-y"  # section to compare with
    steps: tuple[Fraction, ...] = (0.5,)  # stepped: where each upper layer ends, fraction of chord
    spar: Spar = Spar()
    reinforcement: tuple[Reinforcement, ...] = ()
    joint: Joint = Joint()
    aileron: Aileron | None = None
    attachment: Attachment = Attachment()


class TailSurface(Section):
    """[stab] or [fin] a flat plate with a hinged part.

    For a fin, span is its height.
    """

    position: Length  # leading edge at its root, aft of the nose
    span: Length
    chord: Length  # at the root, with the hinged part
    tip_chord: Length | None = None
    sweep: Angle = 0.0
    height: Length | None = None  # of its root; None: from the fuselage and the tail kind
    incidence: Angle = 0.0
    hinge: Fraction = 0.65  # hinge line at the root, fraction of chord
    up: Angle = 0.1920  # elevator up / rudder left
    down: Angle = 0.1920  # elevator down / rudder right
    gap_sealed: bool = True
    layers: int = Field(default=1, ge=1, le=3)
    stiffener: str | None = (
        None  # stock name of a stick, rod or tape along the span; None: bare board
    )
    stiffener_extent: Fraction = 0.8  # of the span
    dihedral: Angle = 0.0  # of each half; the V angle of a V-tail


class Tail(Section):
    """[tail] how stab and fin sit together."""

    kind: Literal["plain", "T", "V"] = "plain"


class FuselageStation(Section):
    """[[fuselage.station]] outline of the side view."""

    x: Length
    bottom: Length  # height above the fuselage line; negative is below
    top: Length


class Fuselage(Section):
    """[fuselage] a laminated profile or a folded box."""

    build: Literal["profile", "box"] = "profile"
    length: Length
    nose_height: Length = 0.06
    height: Length = 0.09  # largest, at the wing
    tail_height: Length = 0.035
    station: tuple[FuselageStation, ...] = ()  # replaces the three heights
    layers: int = Field(default=3, ge=1, le=9)  # profile
    saddle_layers: int = Field(default=7, ge=1, le=15)  # profile: layers under the wing
    nose_layers: int = Field(default=7, ge=1, le=15)  # profile: layers behind the firewall
    nose_length: Length | None = None  # of the built-up nose; None: 12 % of the length
    width: Length = 0.06  # box


class Firewall(Section):
    """[motor.firewall] the plate the motor is screwed to."""

    stock: str = "birch ply 1/8 in"
    width: Length = 0.044
    height: Length = 0.05
    screws: int = Field(default=4, ge=2, le=8)
    pins: int = Field(default=2, ge=0, le=8)  # toothpick or skewer pins into the fuselage behind it
    glue: str = "hot glue"


class Motor(Section):
    """[motor] what turns the propeller; values left out come from stock."""

    stock: str = "outrunner 22 mm 1400 Kv"
    kv: Kv | None = None
    mass: Mass | None = None
    resistance: Resistance | None = None
    no_load_current: Current | None = None
    max_current: Current | None = None
    down_thrust: Angle = 0.0349
    right_thrust: Angle = 0.0349
    height: Length = 0.0  # thrust line at the firewall, above the fuselage line
    firewall: Firewall = Firewall()


class Propeller(Section):
    """[propeller] what is printed on it."""

    kind: Literal["slow flight", "electric", "sport", "folding", "direct drive"] = "slow flight"
    diameter: Length = 0.2286
    pitch: Length = 0.1194
    blades: int = Field(default=2, ge=2, le=4)
    line: Literal["A", "B", "C", "F"] | None = None  # blade line within its kind; None: unknown
    mass: Mass | None = None


class Controller(Section):
    """[controller] the electronic speed controller."""

    stock: str = "controller 20 A"
    current: Current | None = None
    mass: Mass | None = None
    position: Length | None = None  # None: behind the firewall
    height: Length = 0.0


class Pack(Section):
    """[pack] the LiPo and the range its tray allows."""

    cells: int = Field(default=3, ge=1, le=6)
    capacity: Capacity = 4680.0  # A s; 1300 mAh
    mass: Mass | None = None  # None: from stock by energy
    discharge_rating: float | None = Field(default=None, gt=0, le=200)  # the "C" on the label
    resistance: Resistance | None = None  # whole pack
    length: Length | None = None
    position: Length  # middle of the pack, aft of the nose
    tray_front: Length | None = None  # foremost middle; None: as far forward as the fuselage allows
    tray_back: Length | None = None  # rearmost middle; None: the wing's trailing edge
    height: Length = 0.0


class Receiver(Section):
    """[receiver]."""

    stock: str = "receiver 6 channel"
    mass: Mass | None = None
    position: Length | None = None  # None: under the wing
    height: Length = 0.0


class Servo(Section):
    """[[servo]] one servo and the linkage it drives."""

    role: Literal[
        "aileron", "aileron left", "aileron right", "elevator", "rudder", "vee left", "vee right"
    ]
    stock: str = "servo 9 g"
    mass: Mass | None = None
    position: Length | None = None  # None: from its role
    side: Length = 0.0  # y
    height: Length | None = None
    arm: Length = 0.010  # hole used on the servo arm
    horn: Length = 0.014  # hole used on the horn
    rod: str = "music wire 1.2 mm"
    rod_support: Length = 0.15  # longest free length of the pushrod


class Extra(Section):
    """[[extra]] any other mass: ballast, camera, wheels, paint."""

    name: str
    mass: Mass
    position: Length
    side: Length = 0.0
    height: Length = 0.0


class Gear(Section):
    """[gear] an undercarriage of bent wire; left out for a belly lander."""

    wire: str = "music wire 2.0 mm"
    position: Length
    track: Length = 0.2
    height: Length = 0.12
    wheel_diameter: Length = 0.05
    wheel_mass: Mass = 0.008


class Covering(Section):
    """[covering] tape or film over the paper."""

    stock: str | None = None  # None: bare paper
    wing: Literal["none", "edges", "bottom", "all"] = "edges"
    fuselage: Literal["none", "belly", "all"] = "none"
    tail: Literal["none", "edges", "all"] = "none"


class Glue(Section):
    """[glue] what joins the board."""

    stock: str = "hot glue"
    mass: Mass | None = None  # weighed; None: a share of the airframe


class Design(Section):
    """One plane, as the builder wrote it, in SI."""

    name: str = Field(min_length=1, max_length=80)
    notes: str = ""
    builder: str = ""
    units: Literal["metric", "inch"] = "metric"  # how reports and drawings speak
    field: FieldSite = FieldSite()
    pilot: Pilot = Pilot()
    board: Board = Board()
    wing: Wing
    tail: Tail = Tail()
    stab: TailSurface
    fin: TailSurface | None = None  # None only for a V-tail
    fuselage: Fuselage
    motor: Motor = Motor()
    propeller: Propeller = Propeller()
    controller: Controller = Controller()
    pack: Pack
    supply_cutoff: Voltage = 3.3  # low-voltage cutoff of a cell under load
    receiver: Receiver = Receiver()
    servo: tuple[Servo, ...] = ()
    gear: Gear | None = None
    extra: tuple[Extra, ...] = ()
    covering: Covering = Covering()
    glue: Glue = Glue()
