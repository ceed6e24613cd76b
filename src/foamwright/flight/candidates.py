"""Propellers, packs and motors to try on a plane: from stock, or from labels typed."""

import math
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from foamwright.balance.model import Balance
from foamwright.core.errors import DesignError
from foamwright.core.nearest import nearest_names
from foamwright.core.unit_table import INCH
from foamwright.core.units import format_value
from foamwright.flight.choice import Option, place_of_pack
from foamwright.power.label import kind_and_line, measured_line
from foamwright.power.model import MotorConstants, PowerTrain, PropellerConstants
from foamwright.power.pack import pack_of
from foamwright.power.propeller import propeller_of
from foamwright.stock.estimates import PACK_CAPACITIES_MAH, PACK_CELLS
from foamwright.stock.model import MotorStock
from foamwright.stock.propellers import PropellerStock, propellers_in_stock

USUAL_RATING = 25.0  # 1/h on the label, where the design names none; common practice
LABEL = re.compile(
    r"\s*(?P<kind>[a-z ]+?)\s+(?P<diameter>\d+(\.\d+)?)\s*x\s*(?P<pitch>\d+(\.\d+)?)"
    r"(\s*x\s*(?P<blades>\d))?\s*",
    re.IGNORECASE,
)
SWINGS = 1.35  # a motor may swing up to this times the diameter it has now; keeps the trial short
SAME_SIZE = 0.004  # relative, within which two diameters or pitches are one printed size; assumed


@dataclass(frozen=True, slots=True)
class Seat:
    """Where motor and pack sit.

    Attributes:
        cg: Centre of gravity, aft of the nose. [m]
        pack: Middle of the pack, aft of the nose. [m]
        motor: Centre of gravity of the motor, aft of the nose. [m]
        tray: Foremost and rearmost place of the pack's middle. [m]
    """

    cg: float
    pack: float
    motor: float
    tray: tuple[float, float]


def seat_of(balance: Balance, pack: float) -> Seat:
    """Where motor and pack of a plane sit.

    Args:
        balance: Of the plane, pack in. [-]
        pack: Middle of the pack, aft of the nose. [m]

    Returns:
        Seat. [m]

    Source:
        Definition.

    Example:
        >>> seat_of(plane.balance, plane.design.pack.position).motor < 0.0
        True
    """
    motor = next(line.at[0] for line in balance.lines if line.id == "motor")
    return Seat(balance.cg[0], pack, motor, (balance.pack_front, balance.pack_back))


def propeller_options(
    train: PowerTrain, mass: float, *, names: Sequence[str] = ()
) -> tuple[Option, ...]:
    """The plane with each propeller in turn.

    The propeller that the train has goes in as it is, weighed and learnt from the bench, where its
    size comes up.

    Args:
        train: The power train as it is. [-]
        mass: All-up mass as it is. [kg]
        names: Stock names or labels such as "electric 9x6" or "slow flight 8x4.5x3"; none takes
            all of stock, and the present one if stock has no such size. [-]

    Returns:
        Options in the order given.

    Raises:
        DesignError: A name that is neither in stock nor a label.

    Source:
        Stock; common practice.

    Example:
        >>> propeller_options(train, 0.6, names=["electric 9x6"])[0].name
        'electric 9x6'
    """
    entries = [_named(name) for name in names] if names else propellers_in_stock()
    present = train.propeller
    options: list[Option] = []
    for entry in entries:
        made = propeller_of(
            entry.kind,
            entry.diameter,
            pitch=entry.pitch,
            blades=entry.blades,
            line=entry.line if isinstance(entry, _Typed) else "",
        )
        if entry.mass is not None:
            made = replace(made, mass=entry.mass)
        if _same_size(made, present):
            made = present
        heavier = made.mass.typical - present.mass.typical
        options.append(Option(entry.name, replace(train, propeller=made), mass + heavier))
    if not names and all(option.train.propeller is not present for option in options):
        options.append(Option(propeller_label(present), train, mass))
    return tuple(options)


def propeller_label(propeller: PropellerConstants) -> str:
    """A propeller as its label reads, the way stock names it.

    Args:
        propeller: Constants. [-]

    Returns:
        Kind, diameter x pitch in inches, and blades where there are more than two. [-]

    Source:
        Definition.

    Example:
        >>> propeller_label(propeller_of("electric", 0.2286, pitch=0.1524, blades=3))
        'electric 9x6x3'
    """
    blades = f"x{propeller.blades}" if propeller.blades > 2 else ""
    size = f"{propeller.diameter / INCH:.3g}x{propeller.pitch / INCH:.3g}"
    return f"{propeller.kind} {size}{blades}"


def _same_size(one: PropellerConstants, other: PropellerConstants) -> bool:
    return (one.kind, one.blades) == (other.kind, other.blades) and all(
        math.isclose(getattr(one, name), getattr(other, name), rel_tol=SAME_SIZE)
        for name in ("diameter", "pitch")
    )


@dataclass(frozen=True, slots=True)
class _Typed:
    """A propeller that stock does not hold; its mass is the usual one."""

    name: str
    kind: str
    diameter: float
    pitch: float
    blades: int
    line: str
    mass: None = None


def _named(name: str) -> PropellerStock | _Typed:
    stock = {entry.name: entry for entry in propellers_in_stock()}
    plain = " ".join(name.lower().split())
    if plain in stock:
        return stock[plain]
    found = LABEL.fullmatch(name)
    if found is None:
        near = nearest_names(plain, stock, cutoff=0.3)
        listed = ", ".join(f'"{entry}"' for entry in near)
        raise DesignError(
            "propeller",
            f'"{name}"',
            "it must be in stock, or read as kind, diameter x pitch in inches, such as "
            '"electric 9x6"',
            f"Nearest in stock: {listed}." if listed else "",
        )
    kind, line = kind_and_line(found["kind"])
    size = plain[plain.index(found["diameter"]) :].replace(" ", "")
    if not line and f"{kind} {size}" in stock:
        return stock[f"{kind} {size}"]
    return _Typed(
        " ".join(part for part in (kind, line, size) if part),
        kind,
        float(found["diameter"]) * INCH,
        float(found["pitch"]) * INCH,
        int(found["blades"] or 2),
        measured_line(kind, line),
    )


def pack_options(
    train: PowerTrain,
    mass: float,
    *,
    seat: Seat,
    rating: float | None = None,
    units: str = "metric",
) -> tuple[Option, ...]:
    """The plane with each common pack in turn, put where it keeps the CG.

    Args:
        train: The power train as it is. [-]
        mass: All-up mass as it is. [kg]
        seat: Where the present pack sits. [-]
        rating: The C on the labels; None takes the usual one. [1/h]
        units: "metric" or "inch", how their mass is told. [-]

    Returns:
        Options by cells, then capacity.

    Source:
        Sizes commonly sold; common practice, no source.

    Example:
        >>> pack_options(train, 0.6, seat=seat)[0].name  # doctest: +SKIP
        '2 cells 450 mAh, 35 g'
    """
    options: list[Option] = []
    old = train.pack.mass.typical
    for cells in PACK_CELLS:
        for capacity in PACK_CAPACITIES_MAH:
            made = pack_of(
                cells,
                capacity * 3.6,
                rating=rating or USUAL_RATING,
                cutoff=train.pack.cutoff,
            )
            new = made.mass.typical
            options.append(
                Option(
                    f"{cells} cells {capacity} mAh, {format_value(new, 'mass', units)}",
                    replace(train, pack=made),
                    mass + new - old,
                    place=place_of_pack(seat.cg, pack_mass=old, pack_place=seat.pack, new_mass=new),
                    tray=seat.tray,
                )
            )
    return tuple(options)


def motor_options(
    train: PowerTrain,
    mass: float,
    *,
    motors: Mapping[str, MotorStock],
    seat: Seat | None = None,
) -> tuple[Option, ...]:
    """The plane with each motor and propeller of stock in turn.

    Args:
        train: The power train as it is; its controller and pack stay. [-]
        mass: All-up mass as it is. [kg]
        motors: Of stock. [-]
        seat: Where motor and pack sit; the pack is then moved so that the CG stays. [-]

    Returns:
        Options, each motor with each propeller that is not much larger than the present one.

    Source:
        Stock; moments about the CG.

    Example:
        >>> motor_options(train, 0.6, motors=stock.motors)[0].name
        'outrunner 13 mm 3100 Kv + slow flight 7x3.5'
    """
    largest = SWINGS * train.propeller.diameter
    swung = [
        option
        for option in propeller_options(train, mass)
        if option.train.propeller.diameter <= largest
    ]
    options: list[Option] = []
    for name, entry in motors.items():
        constants = MotorConstants(
            entry.kv, entry.resistance, entry.no_load_current, entry.max_current, entry.mass
        )
        heavier = entry.mass.typical - train.motor.mass.typical
        for option in swung:
            place = None
            if seat is not None:
                more = option.mass + heavier - mass
                arm = seat.motor - seat.cg
                place = seat.pack - more * arm / train.pack.mass.typical
            options.append(
                Option(
                    f"{name} + {option.name}",
                    replace(option.train, motor=constants),
                    option.mass + heavier,
                    place=place,
                    tray=None if seat is None else seat.tray,
                )
            )
    return tuple(options)
