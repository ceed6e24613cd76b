"""Stock entries, typed. Generic names; every figure has low / typical / high and a source."""

from dataclasses import dataclass

from foamwright.core.bands import Band


@dataclass(frozen=True, slots=True)
class BoardStock:
    """A paper-faced foam board."""

    name: str
    length: float  # m
    width: float  # m
    thickness: Band  # m
    areal_mass: Band  # kg/m², both papers
    paper_areal_mass: Band  # kg/m², one paper with its adhesive
    core_density: Band  # kg/m³
    core_modulus: Band  # Pa
    core_shear_modulus: Band  # Pa
    core_shear_strength: Band  # Pa
    core_compressive_strength: Band  # Pa
    core_tensile_strength: Band  # Pa
    paper_thickness: Band  # m
    paper_modulus: Band  # Pa, mean of both directions along the fold
    paper_shear_modulus: Band  # Pa
    paper_tensile_strength: Band  # Pa
    paper_compressive_strength: Band  # Pa
    price: Band  # per sheet, no currency


@dataclass(frozen=True, slots=True)
class RodStock:
    """A stick, dowel, skewer, rod, tube or wire sold by length."""

    name: str
    kind: str  # "craft stick", "dowel", "bamboo", "carbon", "wire"
    width: float  # m (diameter for round)
    height: float  # m (diameter for round)
    bore: float  # m, inside diameter of a tube, else 0
    round: bool
    length: float  # m, as sold
    density: Band  # kg/m³
    modulus: Band  # Pa
    strength: Band  # Pa, bending
    price: Band


@dataclass(frozen=True, slots=True)
class PlyStock:
    """Plywood sheet."""

    name: str
    thickness: Band  # m
    density: Band  # kg/m³
    modulus: Band  # Pa, mean of both directions in bending
    strength: Band  # Pa, bending
    price: Band


@dataclass(frozen=True, slots=True)
class TapeStock:
    """Tape or film."""

    name: str
    width: float  # m
    areal_mass: Band  # kg/m²
    stiffness: Band  # N/m per metre of width (modulus times thickness)
    strength: Band  # N/m of width
    price: Band  # per metre


@dataclass(frozen=True, slots=True)
class GlueStock:
    """Adhesive."""

    name: str
    share: Band  # mass of glue over mass of airframe
    shear_strength: Band  # Pa on wood
    board_shear_strength: Band  # Pa on board paper (paper or foam tears first)
    tension_strength: Band  # Pa on foam edge
    hot_temperature: Band  # K up to which it keeps useful strength
    set_time: Band  # s
    price: Band


@dataclass(frozen=True, slots=True)
class BandStock:
    """Rubber band."""

    name: str
    length: float  # m, flat
    width: float  # m
    thickness: float  # m
    mass: Band  # kg
    modulus: Band  # Pa
    price: Band


@dataclass(frozen=True, slots=True)
class MotorStock:
    """Brushless outrunner by size class."""

    name: str
    kv: Band  # rad/(s V)
    resistance: Band  # ohm, warm with leads
    no_load_current: Band  # A
    max_current: Band  # A
    mass: Band  # kg
    diameter: float  # m
    length: float  # m
    bolt_circle: float  # m
    price: Band


@dataclass(frozen=True, slots=True)
class ControllerStock:
    """Speed controller."""

    name: str
    current: float  # A
    resistance: float  # ohm
    mass: Band  # kg
    price: Band


@dataclass(frozen=True, slots=True)
class ServoStock:
    """Servo by mass class."""

    name: str
    mass: Band  # kg
    torque: Band  # N m at 4.8 V
    speed: float  # rad/s
    size: tuple[float, float, float]  # m
    stall_current: float  # A
    price: Band


@dataclass(frozen=True, slots=True)
class SimpleStock:
    """Receivers, bolts and other things that only have a mass."""

    name: str
    mass: Band  # kg
    size: tuple[float, float, float]  # m
    price: Band


@dataclass(frozen=True, slots=True)
class Stock:
    """All tables: name -> entry."""

    boards: dict[str, BoardStock]
    rods: dict[str, RodStock]
    plies: dict[str, PlyStock]
    tapes: dict[str, TapeStock]
    glues: dict[str, GlueStock]
    bands: dict[str, BandStock]
    motors: dict[str, MotorStock]
    controllers: dict[str, ControllerStock]
    servos: dict[str, ServoStock]
    others: dict[str, SimpleStock]
