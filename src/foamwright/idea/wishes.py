"""What is at hand and what it should become: the tables of a file of wishes.

The text below each key is its description in docs/use/idea.md and in the JSON schema. The tables
[board], [field] and [pilot] are those of a design file.
"""

from typing import Literal

from pydantic import Field

from foamwright.design.fields import Capacity, Duration, Fraction, Length, Mass, Section, Speed
from foamwright.design.fields import Resistance as Ohms
from foamwright.design.model import Board, FieldSite, Pilot


class BenchPack(Section):
    """[[bench.pack]] a pack on the bench, as its label has it."""

    cells: int = Field(ge=1, le=6)
    "Cells in series."
    capacity: Capacity = Field(ge=180.0, le=72000.0)
    "On the label."
    mass: Mass | None = Field(default=None, ge=0.003, le=2.0)
    "Weighed, with leads and connectors."
    discharge_rating: float | None = Field(default=None, gt=0, le=200)
    'The plain number before the "C" on the label.'
    resistance: Ohms | None = Field(default=None, ge=0.0005, le=2.0)
    "Of the whole pack, warm."


class Bench(Section):
    """[bench] what is at hand, by stock names; boards stand under [board]."""

    motors: tuple[str, ...] = Field(default=(), max_length=30)
    "Stock names of the motors."
    controllers: tuple[str, ...] = Field(default=(), max_length=30)
    "Stock names of the speed controllers; left out, the smallest one that serves is bought."
    propellers: tuple[str, ...] = Field(default=(), max_length=30)
    'As in stock, or kind and size such as "electric 9x6"; left out, all of stock.'
    pack: tuple[BenchPack, ...] = Field(default=(), max_length=12)
    "Any number of [[bench.pack]]."
    servos: str = "servo 9 g"
    "Stock name of the servos."
    servo_count: int = Field(default=4, ge=0, le=12)
    "How many of them; ailerons take four, rudder and elevator two."
    receiver: str = "receiver 6 channel"
    "Stock name of the receiver."
    sticks: tuple[str, ...] = Field(
        default=("bamboo skewer 4 mm", "hardwood dowel 1/4 in"), max_length=30
    )
    "Stock names of sticks, dowels, rods and tubes for the wing."
    tapes: tuple[str, ...] = Field(default=("fibre mesh tape",), max_length=30)
    "Stock names of tapes."
    plies: tuple[str, ...] = Field(default=("birch ply 1/8 in", "birch ply 5/32 in"), max_length=30)
    "Stock names of plywood for the firewall; the brace is made of the first."


class Wish(Section):
    """[wish] what the plane should be; what is left out is left to the search."""

    kind: Literal["trainer", "slow flyer", "small flyer", "glider", "sport"] = "trainer"
    "What kind of plane."
    controls: Literal["ailerons", "rudder", "either"] = "either"
    "What banks it."
    build: Literal["folded", "stepped", "either"] = "folded"
    "How the wing is built."
    span_least: Length | None = Field(default=None, ge=0.4, le=2.4)
    "Shortest span worth building."
    span_most: Length | None = Field(default=None, ge=0.4, le=2.4)
    "Longest span that fits the car."
    mass_most: Mass | None = Field(default=None, ge=0.05, le=5.0)
    "Ready to fly it weighs at most this."
    stall_most: Speed | None = Field(default=None, ge=2.0, le=15.0)
    "It stalls at this speed at most."
    endurance_least: Duration | None = Field(default=None, ge=60.0, le=36000.0)
    "It flies this long at least, at an easy cruise."
    boards_most: int | None = Field(default=None, ge=1, le=60)
    "Boards that may be used; left out, those under [board]."
    share_least: Fraction = 0.5
    "Share of builds, by the scatter of board, glue and gear, in which every check passes."
    build_time: Duration | None = Field(default=None, ge=1800.0, le=1e6)
    "Hands-on time for building, at most."


class Wishes(Section):
    """A bench and the plane wished for."""

    name: str = Field(default="Proposal", min_length=1, max_length=60)
    "Name of the plane to be; each proposal adds a letter."
    units: Literal["metric", "inch"] = "metric"
    "How reports and the design files speak."
    board: Board = Board()
    "See [board] of the design file."
    field: FieldSite = FieldSite()
    "See [field] of the design file."
    pilot: Pilot = Pilot()
    "See [pilot] of the design file."
    bench: Bench = Bench()
    "See [bench]."
    wish: Wish = Wish()
    "See [wish]."
