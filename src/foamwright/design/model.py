"""The design as data: frozen, in SI, every value with a documented default.

Key names are the names in the design file. Lengths along x are metres aft of the fuselage nose,
heights are above the fuselage line (a straight line through the middle of the nose), y is right.
The text below each key is its description in docs/use/design-file.md and in the JSON schema.
"""

from typing import Literal

from pydantic import Field

from foamwright.design.fields import Length, Mass, Section, Speed, Temperature, Voltage
from foamwright.design.learned import Learned
from foamwright.design.outfit import (
    Controller,
    Covering,
    Extra,
    Firewall,
    Gear,
    Glue,
    Motor,
    Pack,
    Propeller,
    Receiver,
    Servo,
)
from foamwright.design.surfaces import (
    Aileron,
    Attachment,
    Joint,
    Reinforcement,
    Spar,
    Tail,
    TailSurface,
    Wing,
    WingPanel,
)

__all__ = [
    "Aileron",
    "Attachment",
    "Board",
    "BoardTest",
    "Controller",
    "Covering",
    "Design",
    "Extra",
    "FieldSite",
    "Firewall",
    "Fuselage",
    "FuselageStation",
    "Gear",
    "Glue",
    "Joint",
    "Learned",
    "Motor",
    "OffCut",
    "Pack",
    "Pilot",
    "Propeller",
    "Receiver",
    "Reinforcement",
    "Section",
    "Servo",
    "Spar",
    "Tail",
    "TailSurface",
    "Wing",
    "WingPanel",
]


class FieldSite(Section):
    """[field] where it flies."""

    name: str = "home field"
    "What the builder calls it."
    altitude: Length = Field(default=0.0, ge=-500.0, le=5000.0)
    "Above sea level."
    temperature: Temperature = Field(default=288.15, ge=233.15, le=328.15)
    "Of the air on a usual flying day."
    wind: Speed = Field(default=3.0, ge=0.0, le=25.0)
    "Usual wind at head height."


class Pilot(Section):
    """[pilot] who throws and flies it."""

    level: Literal["beginner", "returning", "experienced"] = "beginner"
    "How much has been flown before."
    throw_speed: Speed | None = Field(default=None, ge=1.0, le=25.0)
    "Speed of the plane leaving the hand."
    throw_height: Length = Field(default=1.8, ge=0.3, le=5.0)
    "Of the hand at the release, above the ground."


class OffCut(Section):
    """[[board.offcut]] a part-used piece on the bench, or a whole board of another size."""

    length: Length = Field(ge=0.03, le=3.1)
    "Along the paper's grain, the long side of the sheet it came from."
    width: Length = Field(ge=0.03, le=3.1)
    "Across the grain."
    count: int = Field(default=1, ge=1, le=60)
    "Pieces of this size."


class BoardTest(Section):
    """[board.test] readings of home tests; each replaces a band of stock."""

    crease_load: Mass | None = Field(default=None, ge=0.005, le=20.0)
    "Bag and water that creased the strip in its middle."
    sag_load: Mass | None = Field(default=None, ge=0.001, le=5.0)
    "Mass hung from the middle of the strip for its sag."
    sag: Length | None = Field(default=None, ge=0.0001, le=0.2)
    "How far the middle came down under it."
    span: Length = Field(default=0.3, ge=0.05, le=1.0)
    "Between the two edges that the strip lies on."
    width: Length = Field(default=0.05, ge=0.005, le=0.3)
    "Of the strip."
    peeled_mass: Mass | None = Field(default=None, ge=0.001, le=3.0)
    "The weighed sheet once more, both papers off."


class Board(Section):
    """[board] the foam board on the bench."""

    stock: str = "light display board"
    "Stock name of its kind."
    length: Length = Field(default=0.762, ge=0.1, le=3.1)
    "Long side of a sheet."
    width: Length = Field(default=0.508, ge=0.1, le=3.1)
    "Short side of a sheet."
    mass: Mass | None = Field(default=None, ge=0.005, le=3.0)
    "One whole sheet, weighed: the most useful number in this file."
    thickness: Length | None = Field(default=None, ge=0.001, le=0.02)
    "Measured."
    papers: Literal["both", "one peeled", "both peeled"] = "both"
    "Whether the papers are kept."
    count: int = Field(default=4, ge=1, le=60)
    "Sheets on the bench."
    gap: Length = Field(default=0.003, ge=0.0, le=0.05)
    "Least distance between parts on a sheet, room for the knife."
    margin: Length = Field(default=0.006, ge=0.0, le=0.1)
    "Strip along the edges of a sheet that is left free, as it is often dented."
    offcut: tuple[OffCut, ...] = Field(default=(), max_length=30)
    "Any number of [[board.offcut]]; used up before whole sheets."
    test: BoardTest = BoardTest.model_construct()
    "See [board.test]."


class FuselageStation(Section):
    """[[fuselage.station]] a point of the side view's outline, from nose to tail."""

    x: Length = Field(ge=0.0, le=4.0)
    "Aft of the nose."
    bottom: Length = Field(ge=-0.5, le=0.5)
    "Above the fuselage line; negative is below."
    top: Length = Field(ge=-0.5, le=0.5)
    "Above the fuselage line."


class Fuselage(Section):
    """[fuselage] a laminated profile or a folded box."""

    build: Literal["profile", "box"] = "profile"
    "Layers glued side by side, or a folded box."
    length: Length = Field(ge=0.15, le=4.0)
    "From the firewall to the tail end."
    nose_height: Length = Field(default=0.06, ge=0.01, le=0.5)
    "Side view: at the nose."
    height: Length = Field(default=0.09, ge=0.01, le=0.5)
    "Side view: the largest, at the wing."
    tail_height: Length = Field(default=0.035, ge=0.004, le=0.5)
    "Side view: at the tail end."
    station: tuple[FuselageStation, ...] = ()
    "Side view point by point; replaces the three heights."
    layers: int = Field(default=3, ge=1, le=9)
    "Profile: layers of board."
    saddle_layers: int = Field(default=7, ge=1, le=15)
    "Profile: layers under the wing."
    nose_layers: int = Field(default=7, ge=1, le=15)
    "Profile: layers behind the firewall."
    nose_length: Length | None = Field(default=None, ge=0.01, le=2.0)
    "Profile: of the built-up nose."
    width: Length = Field(default=0.06, ge=0.01, le=0.4)
    "Box: across."


class Design(Section):
    """One plane, as the builder wrote it, in SI."""

    name: str = Field(min_length=1, max_length=80)
    "Name of the plane."
    notes: str = ""
    "Anything worth remembering."
    builder: str = ""
    "Who builds it."
    units: Literal["metric", "inch"] = "metric"
    "How reports and drawings speak; the file itself may mix units."
    field: FieldSite = FieldSite.model_construct()
    "See [field]."
    pilot: Pilot = Pilot.model_construct()
    "See [pilot]."
    board: Board = Board.model_construct()
    "See [board]."
    wing: Wing
    "See [wing]."
    tail: Tail = Tail.model_construct()
    "See [tail]."
    stab: TailSurface
    "See [stab]."
    fin: TailSurface | None = None
    "See [fin]; only a V-tail goes without."
    fuselage: Fuselage
    "See [fuselage]."
    motor: Motor = Motor.model_construct()
    "See [motor]."
    propeller: Propeller = Propeller.model_construct()
    "See [propeller]."
    controller: Controller = Controller.model_construct()
    "See [controller]."
    pack: Pack
    "See [pack]."
    supply_cutoff: Voltage = Field(default=3.3, ge=2.5, le=4.0)
    "Voltage of a loaded cell at which the controller cuts the motor."
    receiver: Receiver = Receiver.model_construct()
    "See [receiver]."
    servo: tuple[Servo, ...] = Field(default=(), max_length=12)
    "Any number of [[servo]]."
    gear: Gear | None = None
    "See [gear]."
    extra: tuple[Extra, ...] = Field(default=(), max_length=60)
    "Any number of [[extra]]."
    covering: Covering = Covering.model_construct()
    "See [covering]."
    glue: Glue = Glue.model_construct()
    "See [glue]."
    learned: Learned = Learned.model_construct()
    "See [learned]."
