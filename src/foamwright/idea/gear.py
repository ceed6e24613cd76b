"""What the bench can drive a plane with: motor, controller, propeller and pack that go together."""

from collections.abc import Sequence
from dataclasses import dataclass

from foamwright.core.air import air_at
from foamwright.core.errors import DesignError
from foamwright.flight.choice import CONTROLLER_SHARE
from foamwright.idea.propellers import BenchPropeller, propeller_named
from foamwright.idea.wishes import BenchPack, Wishes
from foamwright.power.many import static_of_many
from foamwright.power.model import MotorConstants, PowerTrain
from foamwright.power.pack import pack_of
from foamwright.power.propeller import propeller_of
from foamwright.stock.model import ControllerStock, Stock
from foamwright.stock.propellers import propellers_in_stock

CUTOFF = 3.3  # V a cell, as a design file takes it


@dataclass(frozen=True, slots=True)
class Gear:
    """One power set that keeps every current within its limits at rest.

    Attributes:
        motor: Stock name.
        controller: Stock name.
        propeller: Kind and size.
        pack: Of the bench.
        thrust: At rest, full throttle. [N]
        current: At rest, full throttle. [A]
        mass: Motor, controller, propeller and pack. [kg]
    """

    motor: str
    controller: str
    propeller: BenchPropeller
    pack: BenchPack
    thrust: float
    current: float
    mass: float

    @property
    def words(self) -> str:
        """The set in the builder's words."""
        pack = f"{self.pack.cells} cells {self.pack.capacity / 3.6:.0f} mAh"
        return f"{self.motor}, {self.propeller.name}, {pack}"


@dataclass(frozen=True, slots=True)
class Refused:
    """One power set that falls out.

    Attributes:
        words: The set.
        reason: Why.
        over: Current over what is allowed, less one. [-]
    """

    words: str
    reason: str
    over: float


def gear_sets(wishes: Wishes, stock: Stock) -> tuple[Gear, ...]:
    """Every power set of the bench that keeps its currents within limits.

    Of the controllers that serve, the lightest is taken.

    Args:
        wishes: The bench. [-]
        stock: The stock tables. [-]

    Returns:
        Sets by motor, pack and thrust. [-]

    Raises:
        DesignError: None does; says which comes nearest and by how much it misses.

    Source:
        Limits as the checks have them: motor, four fifths of the controller, two thirds of the
        pack's rating; common practice, no source.

    Example:
        >>> gear_sets(wishes, stock)[0].motor
        'outrunner 22 mm long 950 Kv'
    """
    bench = wishes.bench
    names = bench.propellers or tuple(entry.name for entry in propellers_in_stock())
    propellers = [propeller_named(name) for name in names]
    cases = [
        (motor, propeller, pack)
        for motor in bench.motors
        for pack in bench.pack
        for propeller in propellers
    ]
    trains = [_train(*case, stock=stock) for case in cases]
    air = air_at(wishes.field.altitude, wishes.field.temperature)
    static = static_of_many(trains, air.density)
    controllers = sorted(
        (stock.controllers[name] for name in bench.controllers or tuple(stock.controllers)),
        key=lambda entry: entry.mass.typical,
    )
    found: list[Gear] = []
    refused: list[Refused] = []
    for case, train, thrusts, currents in zip(
        cases, trains, static.thrust, static.current, strict=True
    ):
        thrust, current = float(thrusts[0]), float(currents[0])
        fit = _fitting(case, train, controllers, current=current)
        if isinstance(fit, Refused):
            refused.append(fit)
            continue
        mass = (
            train.motor.mass.typical
            + train.propeller.mass.typical
            + train.pack.mass.typical
            + fit.mass.typical
        )
        motor, propeller, pack = case
        found.append(Gear(motor, fit.name, propeller, pack, thrust, current, mass))
    if not found:
        raise _none(refused)
    return tuple(sorted(found, key=lambda g: (g.motor, g.pack.cells, g.pack.capacity, g.thrust)))


def _train(motor: str, propeller: BenchPropeller, pack: BenchPack, *, stock: Stock) -> PowerTrain:
    entry = stock.motors[motor]
    return PowerTrain(
        motor=MotorConstants(
            entry.kv, entry.resistance, entry.no_load_current, entry.max_current, entry.mass
        ),
        propeller=propeller_of(
            propeller.kind, propeller.diameter, pitch=propeller.pitch, blades=propeller.blades
        ),
        pack=pack_of(
            pack.cells,
            pack.capacity,
            rating=pack.discharge_rating,
            resistance=pack.resistance,
            mass=pack.mass,
            cutoff=CUTOFF,
        ),
        controller_resistance=0.006,
        controller_current=30.0,
    )


def _fitting(
    case: tuple[str, BenchPropeller, BenchPack],
    train: PowerTrain,
    controllers: Sequence[ControllerStock],
    *,
    current: float,
) -> ControllerStock | Refused:
    """The lightest controller that serves, or why none does."""
    motor, propeller, pack = case
    words = f"{motor} with {propeller.name} on {pack.cells} cells {pack.capacity / 3.6:.0f} mAh"
    for limit, what in (
        (train.motor.max_current.typical, "the motor stands"),
        (train.pack.max_current.typical, "the pack gives"),
    ):
        if current > limit:
            reason = f"draws {current:.0f} A; {what} {limit:.0f} A"
            return Refused(words, reason, current / limit - 1.0)
    for entry in controllers:
        if current <= CONTROLLER_SHARE * entry.current:
            return entry
    largest = max(entry.current for entry in controllers)
    limit = CONTROLLER_SHARE * largest
    reason = f"draws {current:.0f} A; four fifths of the largest controller are {limit:.0f} A"
    return Refused(words, reason, current / limit - 1.0)


def _none(refused: Sequence[Refused]) -> DesignError:
    nearest = min(refused, key=lambda each: each.over)
    return DesignError(
        "bench",
        f"without a power set that fits ({len(refused)} tried)",
        f"the nearest, {nearest.words}, {nearest.reason}",
        "Add a smaller propeller, a pack with fewer cells or a larger controller.",
    )
