"""From the design file and the stock to the constants of one power train."""

from collections.abc import Iterable
from dataclasses import replace

from foamwright.core.bands import Band
from foamwright.core.errors import DesignError
from foamwright.core.nearest import nearest_names
from foamwright.design.model import Design
from foamwright.design.model import Motor as MotorDesign
from foamwright.power.model import MotorConstants, PowerTrain
from foamwright.power.motor import RPM_PER_RADIAN, motor_from_label
from foamwright.power.pack import lengthened, pack_of
from foamwright.power.propeller import propeller_of
from foamwright.stock.model import ControllerStock, MotorStock, Stock

LABEL_CLOSE = (
    0.10  # a typed Kv or mass this near the stock entry leaves its constants valid; assumed
)
LABEL_KV = (0.96, 1.005)  # [BENCH-5IN] Kv measured over label, 12 motors
KV_LIMITS = (100.0, 10000.0)  # rpm/V, smallest and largest sold; common practice
CONTROLLER_EXPONENT = -0.5  # resistance against current rating; assumed
CONTROLLER_AT_20 = 0.008  # ohm at 20 A; from memory


def build_train(design: Design, stock: Stock) -> PowerTrain:
    """Motor, propeller, controller and pack of a design as constants.

    Args:
        design: The design.
        stock: The stock tables.

    Returns:
        Constants with bands; what the design states replaces the band of the stock.

    Raises:
        DesignError: An entry that stock does not hold, or a value that no part has.

    Source:
        Stock tables; see docs/physics/power.md.

    Example:
        >>> build_train(design, stock).pack.cells
        3
    """
    label, pack = design.propeller, design.pack
    propeller = propeller_of(
        label.kind,
        label.diameter,
        pitch=label.pitch,
        blades=label.blades,
        line=label.line or "",
    )
    if label.mass is not None:
        propeller = replace(propeller, mass=Band.exact(label.mass))
    current, resistance = _controller(design, stock)
    supply = pack_of(
        pack.cells,
        pack.capacity,
        rating=pack.discharge_rating,
        resistance=pack.resistance,
        mass=pack.mass,
        cutoff=design.supply_cutoff,
    )
    return PowerTrain(
        motor=motor_of(design.motor, stock),
        propeller=propeller,
        pack=lengthened(supply, pack.lead, pack.lead_diameter),
        controller_resistance=resistance,
        controller_current=current,
    )


def motor_of(motor: MotorDesign, stock: Stock) -> MotorConstants:
    """Constants of the design's motor: measured, else stock, else from label and mass.

    Where the typed Kv or mass is more than 10 % off the stock entry, that entry is another motor
    and the rest comes from the regression on Kv and mass.

    Args:
        motor: The design's motor table.
        stock: The stock tables.

    Returns:
        Constants with bands.

    Raises:
        DesignError: Unknown stock entry, or a value that no motor has.

    Source:
        Stock tables; [MOTOR-51].

    Example:
        >>> motor_of(design.motor, stock).mass.typical  # doctest: +SKIP
        0.052
    """
    entry = _look_up("motor.stock", motor.stock, stock.motors)
    _refuse(motor)
    base = _like(entry) if _same(motor, entry) else _from_label(motor, entry)
    return MotorConstants(
        kv=_typed_kv(motor, base.kv),
        resistance=_measured(motor.resistance, base.resistance),
        no_load_current=_measured(motor.no_load_current, base.no_load_current),
        max_current=_measured(motor.max_current, base.max_current),
        mass=_measured(motor.mass, entry.mass),
    )


def _typed_kv(motor: MotorDesign, band: Band) -> Band:
    if motor.kv is None:
        return band
    if motor.resistance is not None:  # both typed: measured
        return Band.exact(motor.kv)
    low, high = LABEL_KV
    return Band(motor.kv * low, motor.kv, motor.kv * high, "label; [BENCH-5IN] measured over label")


def _refuse(motor: MotorDesign) -> None:
    if motor.kv is not None and not KV_LIMITS[0] <= motor.kv * RPM_PER_RADIAN <= KV_LIMITS[1]:
        raise DesignError(
            "motor.kv",
            f"{motor.kv * RPM_PER_RADIAN:.0f} Kv",
            f"motors have {KV_LIMITS[0]:.0f} to {KV_LIMITS[1]:.0f} Kv (rpm per volt)",
            "It is the figure printed on the motor.",
        )
    for name in ("mass", "resistance", "max_current"):
        value = getattr(motor, name)
        if value is not None and value <= 0.0:
            raise DesignError(f"motor.{name}", f"{value:g}", "it must be above zero")
    if motor.no_load_current is not None and motor.no_load_current < 0.0:
        raise DesignError(
            "motor.no_load_current", f"{motor.no_load_current:g} A", "it must be 0 or more"
        )


def _same(motor: MotorDesign, entry: MotorStock) -> bool:
    kv = motor.kv if motor.kv is not None else entry.kv.typical
    mass = motor.mass if motor.mass is not None else entry.mass.typical
    return _within(kv, entry.kv) and _within(mass, entry.mass)


def _within(value: float, band: Band) -> bool:
    return band.low * (1.0 - LABEL_CLOSE) <= value <= band.high * (1.0 + LABEL_CLOSE)


def _like(entry: MotorStock) -> MotorConstants:
    return MotorConstants(
        kv=entry.kv,
        resistance=entry.resistance,
        no_load_current=entry.no_load_current,
        max_current=entry.max_current,
        mass=entry.mass,
    )


def _from_label(motor: MotorDesign, entry: MotorStock) -> MotorConstants:
    kv = motor.kv if motor.kv is not None else entry.kv.typical
    mass = motor.mass if motor.mass is not None else entry.mass.typical
    return motor_from_label(kv, mass)


def _measured(value: float | None, band: Band) -> Band:
    return band if value is None else Band.exact(value)


def _controller(design: Design, stock: Stock) -> tuple[float, float]:
    entry: ControllerStock = _look_up(
        "controller.stock", design.controller.stock, stock.controllers
    )
    current = design.controller.current
    if current is None:
        return entry.current, entry.resistance
    if not 1.0 <= current <= 300.0:
        raise DesignError(
            "controller.current", f"{current:g} A", "controllers are sold for 1 to 300 A"
        )
    return current, CONTROLLER_AT_20 * (current / 20.0) ** CONTROLLER_EXPONENT


def _look_up[T](field: str, name: str, table: dict[str, T]) -> T:
    if name in table:
        return table[name]
    raise DesignError(field, f'"{name}"', "stock does not hold it", _nearest(name, table))


def _nearest(name: str, names: Iterable[str]) -> str:
    close = nearest_names(name, names)
    listed = ", ".join(f'"{entry}"' for entry in close)
    return f"Nearest in stock: {listed}." if close else "`foamwright stock` lists what there is."
