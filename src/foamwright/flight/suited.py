"""Propeller, controller and pack that suit a motor on a plane that is only just being drawn."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from foamwright.aero.model import AeroResult
from foamwright.flight.candidates import USUAL_RATING, propeller_options
from foamwright.flight.choice import CONTROLLER_SHARE, Option, Ranked, rank_options
from foamwright.power.model import PowerTrain
from foamwright.power.pack import pack_of
from foamwright.stock.estimates import PACK_CAPACITIES_MAH, PACK_CELLS
from foamwright.stock.model import ControllerStock
from foamwright.stock.propellers import PropellerStock, propellers_in_stock

MAH = 3.6  # A s
ROOM = 1.25  # current that the controller is chosen for, over that of the propeller; assumed
LARGER_PACKS = 3  # common sizes above the first that are tried


@dataclass(frozen=True, slots=True)
class SuitedSet:
    """What goes with a motor.

    Attributes:
        propeller: Of stock.
        controller: Stock name.
        cells: Of the pack. [-]
        capacity: Of the pack. [A s]
        faults: Why even this does not suit, in words; empty when it does.
    """

    propeller: PropellerStock
    controller: str
    cells: int
    capacity: float
    faults: tuple[str, ...]


def suited_set(
    train: PowerTrain,
    aero: AeroResult,
    *,
    mass: float,
    density: float,
    kind: str,
    controllers: Mapping[str, ControllerStock],
    pack: tuple[int | None, float | None] = (None, None),
    units: str = "metric",
) -> SuitedSet:
    """Propeller, controller and pack for the motor of a train, tried on a plane.

    The pack that the train has is tried first, then larger ones, then other cell counts; the first
    with which a two-bladed propeller has no fault is taken, one of the kind wanted before others.
    The controller is the lightest of stock of which four fifths carry the current and a quarter
    more.

    Args:
        train: The motor that is given, with propeller and pack to start from. [-]
        aero: Of the plane, at the mass given. [-]
        mass: All-up with that train. [kg]
        density: Air. [kg/m³]
        kind: Of propeller wanted, such as "electric". [-]
        controllers: Of stock. [-]
        pack: Cells [-] and capacity [A s] that are given; None leaves one open. [any]
        units: "metric" or "inch", how faults speak. [-]

    Returns:
        The set; where nothing is without a fault, the one that comes nearest.

    Source:
        foamwright.flight.choice; order common practice, no source.

    Example:
        >>> suited_set(train, aero, mass=0.6, density=1.2, kind="electric",
        ...     controllers=stock.controllers).propeller.name
        'electric 9x4.5'
    """
    strongest = max(entry.current for entry in controllers.values())
    open_train = replace(train, controller_current=strongest)
    stock = {entry.name: entry for entry in propellers_in_stock() if entry.blades == 2}
    tried: list[tuple[Ranked, int, float]] = []
    for count, size in _packs(train, *pack):
        options = _with_pack(open_train, mass, tuple(stock), cells=count, capacity=size)
        rows = rank_options(options, aero, mass=mass, density=density, units=units)
        # Stable: the rank stays within those that have as many faults, and within each kind.
        best = min(rows, key=lambda row: (*_short_of(row), stock[row.name].kind != kind))
        tried.append((best, count, size))
        if not best.faults:
            break
    row, count, size = min(tried, key=lambda each: _short_of(each[0]))
    return SuitedSet(
        stock[row.name], _controller(row.current, controllers), count, size, row.faults
    )


def _short_of(row: Ranked) -> tuple[float, int]:
    """What burns out is worse than what does not fly."""
    return max(row.current / row.current_limit - 1.0, 0.0), len(row.faults)


def _packs(
    train: PowerTrain, cells: int | None, capacity: float | None
) -> tuple[tuple[int, float], ...]:
    """Packs in the order that they are tried."""
    first = train.pack.cells
    near = sorted(PACK_CELLS, key=lambda count: (abs(count - first), -count))
    counts = [cells] if cells is not None else [first, *(c for c in near if c != first)]
    least = train.pack.capacity
    larger = [each * MAH for each in PACK_CAPACITIES_MAH if each * MAH > 1.01 * least]
    sizes = [capacity] if capacity is not None else [least, *larger[:LARGER_PACKS]]
    return tuple((count, size) for count in counts for size in sizes)


def _with_pack(
    train: PowerTrain, mass: float, names: Sequence[str], *, cells: int, capacity: float
) -> tuple[Option, ...]:
    pack = pack_of(cells, capacity, rating=USUAL_RATING, cutoff=train.pack.cutoff)
    heavier = pack.mass.typical - train.pack.mass.typical
    return propeller_options(replace(train, pack=pack), mass + heavier, names=names)


def _controller(current: float, controllers: Mapping[str, ControllerStock]) -> str:
    """The lightest that serves, else the strongest."""
    need = ROOM * current / CONTROLLER_SHARE  # another propeller may draw more
    enough = [entry for entry in controllers.values() if entry.current >= need]
    if enough:
        return min(enough, key=lambda entry: entry.mass.typical).name
    return max(controllers.values(), key=lambda entry: entry.current).name
