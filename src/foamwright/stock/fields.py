"""What each stock table holds: the class of its entries and the dimension of every field."""

from foamwright.core.bands import Band
from foamwright.core.nearest import nearest_names
from foamwright.stock.model import (
    BandStock,
    BoardStock,
    ControllerStock,
    GlueStock,
    MotorStock,
    PlyStock,
    RodStock,
    ServoStock,
    SimpleStock,
    TapeStock,
)

NAN = float("nan")
MISSING = Band(NAN, NAN, NAN, "missing")  # a figure that nobody has given: ask `known` first
NO_PRICE = Band(0.0, 0.0, 0.0, "missing")

type Entry = (
    BoardStock
    | RodStock
    | PlyStock
    | TapeStock
    | GlueStock
    | BandStock
    | MotorStock
    | ControllerStock
    | ServoStock
    | SimpleStock
)

CLASSES: dict[str, type] = {
    "boards": BoardStock,
    "rods": RodStock,
    "plies": PlyStock,
    "tapes": TapeStock,
    "glues": GlueStock,
    "bands": BandStock,
    "motors": MotorStock,
    "controllers": ControllerStock,
    "servos": ServoStock,
    "others": SimpleStock,
}

# Dimension of every field by name; fields of one name have one dimension in all tables, but for
# those under BY_TABLE.
DIMENSIONS: dict[str, str] = {
    "length": "length",
    "width": "length",
    "height": "length",
    "bore": "length",
    "thickness": "length",
    "diameter": "length",
    "bolt_circle": "length",
    "paper_thickness": "length",
    "size": "length",
    "mass": "mass",
    "areal_mass": "areal mass",
    "paper_areal_mass": "areal mass",
    "core_density": "density",
    "density": "density",
    "core_modulus": "pressure",
    "core_shear_modulus": "pressure",
    "core_shear_strength": "pressure",
    "core_compressive_strength": "pressure",
    "core_tensile_strength": "pressure",
    "paper_modulus": "pressure",
    "paper_shear_modulus": "pressure",
    "paper_tensile_strength": "pressure",
    "paper_compressive_strength": "pressure",
    "modulus": "pressure",
    "strength": "pressure",
    "shear_strength": "pressure",
    "board_shear_strength": "pressure",
    "tension_strength": "pressure",
    "stiffness": "line force",
    "hot_temperature": "temperature",
    "set_time": "time",
    "kv": "kv",
    "resistance": "resistance",
    "no_load_current": "current",
    "max_current": "current",
    "current": "current",
    "stall_current": "current",
    "torque": "torque",
    "speed": "angular speed",
    "share": "number",
    "price": "number",
    "kind": "text",
    "round": "yes or no",
}
BY_TABLE: dict[str, dict[str, str]] = {"tapes": {"strength": "line force"}}

# Fields that are one number, not a band; "size" is three.
SCALARS: dict[str, frozenset[str]] = {
    "boards": frozenset({"length", "width"}),
    "rods": frozenset({"width", "height", "bore", "length"}),
    "tapes": frozenset({"width"}),
    "bands": frozenset({"length", "width", "thickness"}),
    "motors": frozenset({"diameter", "length", "bolt_circle"}),
    "controllers": frozenset({"current", "resistance"}),
    "servos": frozenset({"speed", "stall_current"}),
}

# What a builder's own entry may leave out: then the rooms above say "cannot say".
OPTIONAL: dict[str, object] = {
    **{
        name: MISSING
        for name in DIMENSIONS
        if name.startswith(("core_", "paper_")) and name != "paper_areal_mass"
    },
    "modulus": MISSING,
    "strength": MISSING,
    "stiffness": MISSING,
    "shear_strength": MISSING,
    "board_shear_strength": MISSING,
    "tension_strength": MISSING,
    "hot_temperature": MISSING,
    "set_time": MISSING,
    "bore": 0.0,
    "round": False,
    "price": NO_PRICE,
}

# Unit -> (dimension, size in SI). Fractions of an inch, ounces and the rest go through core.units.
UNITS: dict[str, tuple[str, float]] = {
    "mm": ("length", 1e-3),
    "cm": ("length", 1e-2),
    "m": ("length", 1.0),
    "um": ("length", 1e-6),
    "in": ("length", 0.0254),
    "g": ("mass", 1e-3),
    "kg": ("mass", 1.0),
    "g/m2": ("areal mass", 1e-3),
    "g/m²": ("areal mass", 1e-3),
    "kg/m2": ("areal mass", 1.0),
    "oz/ft2": ("areal mass", 0.028349523125 / 0.09290304),
    "kg/m3": ("density", 1.0),
    "kg/m³": ("density", 1.0),
    "g/cm3": ("density", 1000.0),
    "lb/ft3": ("density", 0.45359237 / 0.028316846592),
    "Pa": ("pressure", 1.0),
    "kPa": ("pressure", 1e3),
    "MPa": ("pressure", 1e6),
    "GPa": ("pressure", 1e9),
    "psi": ("pressure", 6894.757293168),
    "N/m": ("line force", 1.0),
    "N/mm": ("line force", 1e3),
    "N/cm": ("line force", 1e2),
    "lb/in": ("line force", 175.126835),
    "degC": ("temperature", 1.0),
    "K": ("temperature", 1.0),
    "s": ("time", 1.0),
    "min": ("time", 60.0),
    "Kv": ("kv", 0.10471975511965977),
    "ohm": ("resistance", 1.0),
    "mohm": ("resistance", 1e-3),
    "A": ("current", 1.0),
    "mA": ("current", 1e-3),
    "N m": ("torque", 1.0),
    "N cm": ("torque", 1e-2),
    "kg cm": ("torque", 0.0980665),
    "kgf cm": ("torque", 0.0980665),
    "oz in": ("torque", 0.00706155181),
    "rad/s": ("angular speed", 1.0),
    "deg/s": ("angular speed", 0.017453292519943295),
}
FREEZING = 273.15  # K, ITS-90 definition of the degree Celsius
SHARED_DIMENSIONS = frozenset(
    {"length", "mass", "temperature", "kv", "resistance", "current", "angle", "speed"}
)  # those that core.units knows too


def dimension_of(table: str, field: str) -> str | None:
    """Dimension of a field of a stock table.

    Args:
        table: Such as "boards". [-]
        field: Such as "areal_mass". [-]

    Returns:
        Its dimension; None when the table has no such field.

    Source:
        Definition.

    Example:
        >>> dimension_of("tapes", "strength")
        'line force'
    """
    if field not in CLASSES[table].__dataclass_fields__:
        return None
    return BY_TABLE.get(table, {}).get(field) or DIMENSIONS.get(field)


def to_si(value: object, dimension: str) -> float:
    """A written value in SI.

    Args:
        value: Such as "297 g/m2"; a bare number only where the dimension is "number". [any]
        dimension: What is wanted. [-]

    Returns:
        The value. [SI]

    Raises:
        ValueError: It cannot be read as that; the text says what is accepted.

    Source:
        Definition of the units.

    Example:
        >>> to_si("27 kg/m3", "density")
        27.0
        >>> round(to_si("50 degC", "temperature"), 2)
        323.15
    """
    if dimension == "number":
        if isinstance(value, int | float) and not isinstance(value, bool):
            return float(value)
        raise ValueError("a plain number")
    if isinstance(value, str):
        number, _, unit = value.strip().partition(" ")
        found = UNITS.get(unit)
        if found is not None and found[0] == dimension:
            try:
                read = float(number) * found[1]
            except ValueError:
                pass
            else:
                return read + FREEZING if unit == "degC" else read
        if dimension in SHARED_DIMENSIONS:
            return _by_core(value, dimension)
    units = ", ".join(unit for unit, (kind, _) in UNITS.items() if kind == dimension)
    raise ValueError(f"a text with a number and one of the units {units}")


def nearest(word: str, names: list[str]) -> str:
    """A question that names the nearest right word.

    Args:
        word: As written. [-]
        names: What there is. [-]

    Returns:
        The question; empty when nothing is near.

    Source:
        Definition.

    Example:
        >>> nearest("lenght", ["length", "width"])
        'Did you mean "length"?'
    """
    near = nearest_names(word, names, most=1)
    return f'Did you mean "{near[0]}"?' if near else ""


def _by_core(value: str, dimension: str) -> float:
    from foamwright.core.errors import FoamwrightError
    from foamwright.core.units import parse  # only inches, ounces and the like need it

    try:
        return parse(value, dimension)
    except FoamwrightError as error:
        raise ValueError(f"a {dimension} with its unit") from error


def known(*bands: Band) -> bool:
    """Whether somebody has given all these figures from stock.

    Returns:
        False when one of them is missing.

    Source:
        Definition.

    Example:
        >>> known(MISSING)
        False
    """
    return all(band.typical == band.typical for band in bands)
