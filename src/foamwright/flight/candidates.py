"""Propellers, packs and motors to try on a plane: from stock, or from labels typed."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import replace

from foamwright.core.errors import DesignError
from foamwright.core.nearest import nearest_names
from foamwright.core.unit_table import INCH
from foamwright.flight.choice import Option, place_of_pack
from foamwright.power.model import MotorConstants, PowerTrain
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


def propeller_options(
    train: PowerTrain, mass: float, *, names: Sequence[str] = ()
) -> tuple[Option, ...]:
    """The plane with each propeller in turn.

    Args:
        train: The power train as it is. [-]
        mass: All-up mass as it is. [kg]
        names: Stock names or labels such as "electric 9x6" or "slow flight 8x4.5x3"; none takes
            all of stock. [-]

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
    options: list[Option] = []
    for entry in entries:
        if isinstance(entry, PropellerStock):
            made = propeller_of(entry.kind, entry.diameter, pitch=entry.pitch, blades=entry.blades)
            made = replace(made, mass=entry.mass)
            name = entry.name
        else:
            name, kind, diameter, pitch, blades = entry
            made = propeller_of(kind, diameter, pitch=pitch, blades=blades)
        heavier = made.mass.typical - train.propeller.mass.typical
        options.append(Option(name, replace(train, propeller=made), mass + heavier))
    return tuple(options)


def _named(name: str) -> PropellerStock | tuple[str, str, float, float, int]:
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
    return (
        plain,
        found["kind"].lower().strip(),
        float(found["diameter"]) * INCH,
        float(found["pitch"]) * INCH,
        int(found["blades"] or 2),
    )


def pack_options(
    train: PowerTrain,
    mass: float,
    *,
    cg: float,
    place: float,
    tray: tuple[float, float],
    rating: float | None = None,
) -> tuple[Option, ...]:
    """The plane with each common pack in turn, put where it keeps the CG.

    Args:
        train: The power train as it is. [-]
        mass: All-up mass as it is. [kg]
        cg: Aft of the nose. [m]
        place: Middle of the present pack, aft of the nose. [m]
        tray: Foremost and rearmost such place. [m]
        rating: The C on the labels; None takes the usual one. [1/h]

    Returns:
        Options by cells, then capacity.

    Source:
        Sizes commonly sold; common practice, no source.

    Example:
        >>> pack_options(train, 0.6, cg=0.25, place=0.1, tray=(0.05, 0.3))  # doctest: +SKIP
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
                    f"{cells} cells {capacity} mAh",
                    replace(train, pack=made),
                    mass + new - old,
                    place=place_of_pack(cg, pack_mass=old, pack_place=place, new_mass=new),
                    tray=tray,
                )
            )
    return tuple(options)


def motor_options(
    train: PowerTrain, mass: float, *, motors: Mapping[str, MotorStock]
) -> tuple[Option, ...]:
    """The plane with each motor and propeller of stock in turn.

    Args:
        train: The power train as it is; its controller and pack stay. [-]
        mass: All-up mass as it is. [kg]
        motors: Of stock. [-]

    Returns:
        Options, each motor with each propeller that is not much larger than the present one.

    Source:
        Stock.

    Example:
        >>> motor_options(train, 0.6, motors=stock.motors)[0].name  # doctest: +SKIP
        'outrunner 18 mm 1700 Kv + slow flight 7x3.5'
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
        options += [
            Option(
                f"{name} + {option.name}",
                replace(option.train, motor=constants),
                option.mass + heavier,
            )
            for option in swung
        ]
    return tuple(options)
