"""The lightest stick, rod, tape or board strip that lets the wing hold what is asked of it."""

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

import numpy as np

from foamwright.core.errors import FoamwrightError
from foamwright.design.change import change_design
from foamwright.design.model import Design
from foamwright.shape.airframe import build_airframe
from foamwright.shape.model import Airframe
from foamwright.stock.fields import known
from foamwright.stock.load import board_of
from foamwright.stock.model import RodStock, Stock, TapeStock
from foamwright.strength.beams import rod_area
from foamwright.strength.cases import one_at_a_time
from foamwright.strength.failures import wing_of
from foamwright.strength.model import LoadCase
from foamwright.strength.named import figures_of
from foamwright.strength.wing import NEVER

PLACES = {"rod": ("spar bottom", "spar top"), "tape": ("skin bottom",)}
EXTENTS = (0.35, 0.5, 0.7, 1.0)  # of the half span
MOST_RUNS = 2  # side by side
THICKEST = 0.0065  # m that fits under a folded skin; common practice
KIND_OF_TAPE = (("mesh", "mesh tape"), ("packing", "packing tape"))


@dataclass(frozen=True, slots=True)
class Cure:
    """A reinforcement that lets the wing hold.

    Attributes:
        values: Design keys to set, in SI.
        words: In trade words.
        mass: That it adds. [kg]
        load_factor: At which the wing then fails first, typical. [-]
    """

    values: Mapping[str, str | float]
    words: str
    mass: float
    load_factor: float


def lightest_cures(
    design: Design,
    airframe: Airframe,
    stock: Stock,
    *,
    loads: LoadCase,
    needed: float,
    most: int = 2,
) -> tuple[Cure, ...]:
    """The lightest reinforcements with which the wing holds a load factor, lightest first.

    Every stick, rod and tape of stock is tried on both sides of the spar, over four stretches, one
    or two side by side, and one more spar strip; in the order of their mass, until enough hold.

    Args:
        design: The design. [-]
        airframe: Its shape. [-]
        stock: The stock tables. [-]
        loads: Numbers of the plane. [-]
        needed: Load factor to hold, typical. [-]
        most: Cures wanted. [-]

    Returns:
        Cures; none when nothing in stock is enough on its own.

    Valid:
        Its own mass is taken as small beside the plane's; the change is asked of the whole plane
        before it is shown.

    Source:
        Exhaustive search in the order of mass.

    Example:
        >>> lightest_cures(design, airframe, stock, loads=l, needed=6.0)[0].words  # doctest: +SKIP
        'a run of bamboo skewer 3 mm along the spar bottom, 175 mm each side'
    """
    found: list[Cure] = []
    for mass, values, words in sorted(_candidates(design, stock), key=lambda row: row[0]):
        try:
            changed = change_design(design, dict(values))
            frame = airframe
            if "wing.spar.strips" in values:
                frame = build_airframe(changed, airframe.board_thickness)
            holds = wing_holds(changed, frame, stock, loads=loads)
        except FoamwrightError:
            continue
        if holds >= needed:
            found.append(Cure(values, words, mass, holds))
            if len(found) >= most:
                break
    return tuple(found)


def wing_holds(design: Design, airframe: Airframe, stock: Stock, *, loads: LoadCase) -> float:
    """Load factor of the wing's first failure, joints apart, typical figures only.

    Args:
        design: The design. [-]
        airframe: Its shape. [-]
        stock: The stock tables. [-]
        loads: Numbers of the plane. [-]

    Returns:
        Load factor. [-]

    Source:
        docs/physics/strength.md.

    Example:
        >>> 5.2 < wing_holds(design, airframe, stock, loads=loads) < 8.1
        True
    """
    bands = figures_of(design, stock)
    figures = one_at_a_time(bands)
    typical = type(figures)(
        {name: column[:1] for name, column in figures.values.items()}, 1, figures.missing
    )
    limits = wing_of(design, airframe, stock, figures=typical, loads=loads).limits
    worst = [float(np.nanmin(limit)) for limit in limits.values()]
    return min(worst, default=NEVER)


def _candidates(
    design: Design, stock: Stock
) -> Iterator[tuple[float, dict[str, str | float], str]]:
    half = sum(panel.span for panel in design.wing.panel)
    index = len(design.wing.reinforcement)
    key = f"wing.reinforcement.{index}"
    for entry, kind, per_length in _things(stock):
        for place in PLACES["tape" if isinstance(entry, TapeStock) else "rod"]:
            for share in EXTENTS:
                end = math.ceil(share * half / 0.005 - 1e-9) * 0.005
                for count in range(1, MOST_RUNS + 1):
                    values: dict[str, str | float] = {
                        f"{key}.kind": kind,
                        f"{key}.stock": entry.name,
                        f"{key}.place": place,
                        f"{key}.count": count,
                    }
                    if share < 1.0:
                        values[f"{key}.end"] = end
                    number = "a run" if count == 1 else f"{count} runs"
                    reach = "tip to tip" if share == 1.0 else f"{1000 * end:.0f}\u00a0mm each side"
                    words = f"{number} of {entry.name} along the {place}, {reach}"
                    yield 2.0 * min(end, half) * count * per_length, values, words
    spar = design.wing.spar
    if design.wing.build != "stepped" and spar.strips < MOST_RUNS + 2:
        board = board_of(design.board, stock)
        mass = 2.0 * half * spar.extent * spar.strip_width * board.areal_mass.typical
        strips = spar.strips + 1
        yield mass, {"wing.spar.strips": strips}, f"{strips} spar strips instead of {spar.strips}"


def _things(stock: Stock) -> Iterator[tuple[RodStock | TapeStock, str, float]]:
    """What may run along a wing, its kind in the design, and its mass per length."""
    for rod in stock.rods.values():
        fits = max(rod.width, rod.height) <= THICKEST or not rod.round
        if rod.kind == "wire" or not fits or not known(rod.modulus, rod.strength):
            continue
        area = rod_area(rod.width, height=rod.height, bore=rod.bore, round_rod=rod.round)
        yield rod, rod.kind, area * rod.density.typical
    for tape in stock.tapes.values():
        kind = next((word for part, word in KIND_OF_TAPE if part in tape.name), None)
        if kind is not None and known(tape.stiffness, tape.strength):
            yield tape, kind, tape.width * tape.areal_mass.typical
