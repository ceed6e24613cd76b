"""Mass, centre of gravity and inertia from the parts list, with their bands."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from foamwright.balance.model import Balance, MassLine
from foamwright.balance.moments import Lumps, lumps_of
from foamwright.core.bands import Band
from foamwright.core.errors import ModelError
from foamwright.parts.model import Item, Part, PartsList

type Array = NDArray[np.float64]

PACK = "pack"  # id of the item that slides on the tray
# What belongs to the wing though its id does not begin so, and what begins so but stays behind.
WING_TOO = ("aileron-", "spar-", "reinforcement-", "joint-tape")
NOT_WING = ("wing-dowel", "wing-bolt")


@dataclass(frozen=True, slots=True)
class Doubt:
    """How mass and CG may be off: one row a source of doubt, whose masses go up and down together.

    Attributes:
        names: Stock name, or id of a thing of its own.
        lighter: Change of all-up mass when it is at its low end. [kg]
        heavier: The same at its high end. [kg]
        shift_lighter: Change of the CG's x when it is at its low end. [m]
        shift_heavier: The same at its high end. [m]
    """

    names: tuple[str, ...]
    lighter: Array
    heavier: Array
    shift_lighter: Array
    shift_heavier: Array


def balance_of(parts: PartsList, *, tray: tuple[float, float]) -> Balance:
    """Mass, CG, inertia, where the pack may sit and what every line does to the CG.

    CG = sum(m r) / sum(m); moments of inertia about it by the parallel-axis theorem. Bands: what is
    cut from one stock goes up and down together, different things are independent and are added as
    root-sum-square.

    Args:
        parts: Everything the plane is made of. [-]
        tray: Foremost and rearmost place of the pack's middle. [m]

    Returns:
        Mass properties with the pack where the design puts it.

    Raises:
        ModelError: A part has no place, or nothing has a mass.

    Source:
        Mechanics of rigid bodies, any text; reproduced in tests/validation/test_rigid_bodies.py.

    Example:
        >>> item = Item("pack", "pack", "", Band.exact(0.1), (0.2, 0, 0), (0.07, 0.03, 0.02))
        >>> round(balance_of(PartsList((), (item,)), tray=(0.1, 0.3)).cg[0], 6)
        0.2
    """
    lumps = lumps_of(parts.parts, parts.items)
    total = float(lumps.mass.sum())
    if total <= 0.0:
        raise ModelError("Nothing in the parts list has a mass.")
    cg = (lumps.mass @ lumps.middle) / total
    moments, product = _inertia(lumps, cg)
    things: tuple[Part | Item, ...] = (*parts.parts, *parts.items)
    doubt = doubts_of(parts, lumps, cg_x=float(cg[0]))
    mass_band = Band(
        total - _root_sum(doubt.lighter), total, total + _root_sum(doubt.heavier), "parts list"
    )
    pack = next((item for item in parts.items if item.id == PACK), None)
    reach = 0.0 if pack is None else pack.mass.typical / total
    at = tray[0] if pack is None else pack.at[0]
    glue = sum(item.mass.typical for item in parts.items if item.id.startswith("glue"))
    x, y, z = cg.tolist()
    return Balance(
        all_up_mass=total,
        mass_band=mass_band,
        airframe_mass=float(lumps.mass[: len(parts.parts)].sum()) + glue,
        cg=(x, y, z),
        cg_x_band=_cg_band(x, doubt),
        inertia=moments,
        inertia_xz=product,
        lines=_lines(things, lumps, x),
        pack_front=tray[0],
        pack_back=tray[1],
        cg_front=x + reach * (tray[0] - at),
        cg_back=x + reach * (tray[1] - at),
    )


def _root_sum(values: Array) -> float:
    return float(np.sqrt(np.sum(values**2)))


def _inertia(lumps: Lumps, cg: Array) -> tuple[tuple[float, float, float], float]:
    away = lumps.middle - cg
    second = np.einsum("i,ijk->jk", lumps.mass, lumps.spread)
    second += np.einsum("i,ij,ik->jk", lumps.mass, away, away)
    xx, yy, zz = np.diagonal(second).tolist()
    return (yy + zz, xx + zz, xx + yy), float(second[0, 2])


def _lines(things: tuple[Part | Item, ...], lumps: Lumps, cg_x: float) -> tuple[MassLine, ...]:
    total = float(lumps.mass.sum())
    rest = np.maximum(total - lumps.mass, 1e-9)  # of a plane that is one thing there is no rest
    shifts = (lumps.mass * (lumps.middle[:, 0] - cg_x) / rest).tolist()
    lines = [
        MassLine(
            id=thing.id,
            name=_named(thing),
            mass=band_of(thing, mass),
            at=(place[0], place[1], place[2]),
            cg_shift=shift,
        )
        for thing, mass, place, shift in zip(
            things, lumps.mass.tolist(), lumps.middle.tolist(), shifts, strict=True
        )
    ]
    return tuple(sorted(lines, key=lambda line: -line.mass.typical))


def _named(thing: Part | Item) -> str:
    side = thing.side if isinstance(thing, Part) else ""
    return f"{thing.name}, {side}" if side else thing.name


def band_of(thing: Part | Item, mass: float) -> Band:
    """Low, typical and high mass of a part or item.

    Args:
        thing: The part or item. [-]
        mass: Its typical mass. [kg]

    Returns:
        Band of the same. [kg]

    Source:
        Bands of the stock.

    Example:
        >>> band_of(Item("pack", "pack", "", Band(0.09, 0.1, 0.12), (0, 0, 0), (0, 0, 0)), 0.1).high
        0.12
    """
    if isinstance(thing, Item):
        return thing.mass
    areal = thing.areal_mass
    area = mass / areal.typical if areal.typical else 0.0
    return Band(area * areal.low, mass, area * areal.high, areal.source)


def doubts_of(parts: PartsList, lumps: Lumps, *, cg_x: float) -> Doubt:
    """What mass and CG would be with each stock at its low and at its high end.

    Change of the CG = sum(dm (x - x_cg)) / (m + sum(dm)), all pieces of one stock together.

    Args:
        parts: Everything the plane is made of. [-]
        lumps: The same as masses in places. [-]
        cg_x: Of the typical plane. [m]

    Returns:
        One row for each stock or thing.

    Source:
        Definition of the centre of gravity.

    Example:
        >>> doubts_of(PartsList((), ()), lumps_of((), ()), cg_x=0.0).names
        ()
    """
    groups: dict[str, int] = {}
    things: tuple[Part | Item, ...] = (*parts.parts, *parts.items)
    group = np.array(
        [groups.setdefault(thing.stock or thing.id, len(groups)) for thing in things], dtype=np.intp
    )
    masses = lumps.mass.tolist()
    bands = [band_of(thing, mass) for thing, mass in zip(things, masses, strict=True)]
    arm = lumps.middle[:, 0] - cg_x
    total = float(lumps.mass.sum())
    changes: list[Array] = []
    for ends in ([band.low for band in bands], [band.high for band in bands]):
        delta = np.array(ends) - lumps.mass
        change = np.bincount(group, delta, minlength=len(groups)).astype(float)
        moment = np.bincount(group, delta * arm, minlength=len(groups)).astype(float)
        changes += [change, moment / (total + change)]
    return Doubt(tuple(groups), changes[0], changes[2], changes[1], changes[3])


def _cg_band(cg_x: float, doubt: Doubt) -> Band:
    ends = np.array([doubt.shift_lighter, doubt.shift_heavier, np.zeros(len(doubt.names))])
    forward, aft = _root_sum(ends.min(axis=0)), _root_sum(ends.max(axis=0))
    return Band(cg_x - forward, cg_x, cg_x + aft, "parts list")


def mass_of(parts: PartsList, prefix: str) -> float:
    """Mass of all parts and items whose id begins with a word; "wing" takes all that flies with it.

    Args:
        parts: Everything the plane is made of. [-]
        prefix: Such as "wing" or "fuselage". [-]

    Returns:
        Typical mass. [kg]

    Source:
        Definition.

    Example:
        >>> mass_of(PartsList((), ()), "wing")
        0.0
    """
    cut = [(part.id, part.mass) for part in parts.parts]
    bought = [(item.id, item.mass.typical) for item in parts.items]
    return float(sum(mass for name, mass in cut + bought if flies_with(name, prefix)))


def flies_with(name: str, prefix: str) -> bool:
    """Whether a part or item of an id belongs to what a word names.

    Args:
        name: Id of the part or item. [-]
        prefix: Such as "wing" or "fuselage". [-]

    Returns:
        True when it does.

    Source:
        Definition.

    Example:
        >>> flies_with("spar-strip-1", "wing"), flies_with("wing-dowel-front", "wing")
        (True, False)
    """
    if prefix != "wing":
        return name.startswith(prefix)
    return name.startswith((prefix, *WING_TOO)) and not name.startswith(NOT_WING)


def pack_position_for(balance: Balance, parts: PartsList, *, cg_x: float) -> float:
    """Where the pack's middle must sit for a wanted CG.

    x = x_pack + (x_wanted - x_cg) * m / m_pack.

    Args:
        balance: With the pack where the design puts it. [-]
        parts: Everything the plane is made of. [-]
        cg_x: Wanted. [m]

    Returns:
        Place of the pack's middle, on the tray or off it. [m]

    Raises:
        ModelError: The parts list has no pack.

    Source:
        Definition of the centre of gravity.

    Example:
        >>> item = Item("pack", "pack", "", Band.exact(0.1), (0.2, 0, 0), (0.07, 0.03, 0.02))
        >>> parts = PartsList((), (item,))
        >>> round(pack_position_for(balance_of(parts, tray=(0.1, 0.3)), parts, cg_x=0.15), 6)
        0.15
    """
    pack = next((item for item in parts.items if item.id == PACK), None)
    if pack is None:
        raise ModelError("There is no pack whose place could change the CG.")
    return pack.at[0] + (cg_x - balance.cg[0]) * balance.all_up_mass / pack.mass.typical


def ballast_for(balance: Balance, *, cg_x: float, at: float) -> float:
    """Mass to add at one place for a wanted CG.

    m_b = m (x_cg - x_wanted) / (x_wanted - x_b).

    Args:
        balance: Without the ballast. [-]
        cg_x: Wanted. [m]
        at: Where the ballast goes. [m]

    Returns:
        Ballast; negative when that place would have to lose mass. [kg]

    Raises:
        ModelError: Ballast at the wanted CG itself moves nothing.

    Source:
        Definition of the centre of gravity.

    Example:
        >>> item = Item("pack", "pack", "", Band.exact(0.1), (0.2, 0, 0), (0.07, 0.03, 0.02))
        >>> plane = balance_of(PartsList((), (item,)), tray=(0.1, 0.3))
        >>> round(ballast_for(plane, cg_x=0.15, at=0.05), 9)
        0.05
    """
    if cg_x == at:
        raise ModelError("Ballast at the wanted CG itself moves nothing.")
    return balance.all_up_mass * (balance.cg[0] - cg_x) / (cg_x - at)


def tip_ballast(balance: Balance, *, half_span: float) -> float:
    """Mass at a wing tip that balances the plane sideways.

    m_tip = m y_cg / (b/2), on the light side.

    Args:
        balance: Of the plane. [-]
        half_span: From the centre line to the tip. [m]

    Returns:
        Mass; positive goes on the left tip, negative on the right. [kg]

    Source:
        Moments about the centre line.

    Example:
        >>> item = Item("pack", "pack", "", Band.exact(0.1), (0.2, 0.01, 0), (0.07, 0.03, 0.02))
        >>> plane = balance_of(PartsList((), (item,)), tray=(0.1, 0.3))
        >>> round(tip_ballast(plane, half_span=0.5), 6)
        0.002
    """
    return balance.all_up_mass * balance.cg[1] / half_span
