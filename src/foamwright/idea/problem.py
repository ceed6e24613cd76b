"""The problem that a file of wishes poses: what may be chosen, and between which bounds."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from foamwright.core.unit_table import INCH
from foamwright.idea.gear import Gear, gear_sets
from foamwright.idea.wishes import Wishes
from foamwright.stock.load import load_stock
from foamwright.stock.model import Stock

type Array = NDArray[np.float64]

STRETCH = 1.6  # by which bounds of span give way when no wish can be met; assumed

# Aspect ratio and span that each kind is searched between [-, m]; common practice, no source.
KIND_RANGES: dict[str, tuple[tuple[float, float], tuple[float, float]]] = {
    "trainer": ((4.6, 7.5), (0.9, 1.5)),
    "slow flyer": ((5.0, 8.0), (0.9, 1.5)),
    "small flyer": ((4.1, 6.5), (0.6, 0.9)),
    "glider": ((6.5, 9.9), (1.2, 1.8)),
    "sport": ((4.2, 7.0), (0.8, 1.3)),
}


@dataclass(frozen=True, slots=True)
class Gene:
    """One thing that may be chosen.

    Attributes:
        name: What it is.
        low: Least value, SI; of a choice 0.
        high: Largest value, SI; of a choice the number of options less one.
        choices: Options of a choice; empty for a figure.
    """

    name: str
    low: float
    high: float
    choices: tuple[object, ...] = ()

    def value(self, share: float) -> float:
        """The figure [any] at a share of the way from low to high."""
        return self.low + min(max(share, 0.0), 1.0) * (self.high - self.low)

    def chosen(self, share: float) -> object:
        """The option at a share of the way."""
        index = int(min(max(share, 0.0), 1.0 - 1e-12) * len(self.choices))
        return self.choices[index]

    def share(self, value: object) -> float:
        """Where between low and high a figure [any] or an option lies [-], kept inside."""
        if self.choices:
            return (self.choices.index(value) + 0.5) / len(self.choices)
        width = self.high - self.low
        if width <= 0.0:
            return 0.5
        return min(max((float(value) - self.low) / width, 0.0), 1.0)  # type: ignore[arg-type]


@dataclass(frozen=True, slots=True)
class Problem:
    """A bench and wishes made ready for the search.

    Attributes:
        wishes: As the builder wrote them.
        stock: The stock tables.
        gear: Power sets that the bench allows.
        genes: What may be chosen.
        step: Length that the builder measures in. [m]
        stretched: Whether the span may leave its bounds, and every plane is computed to the end.
        stock_file: The builder's own stock; None takes what ships.
    """

    wishes: Wishes
    stock: Stock
    gear: tuple[Gear, ...]
    genes: tuple[Gene, ...]
    step: float
    stretched: bool = False
    stock_file: str | None = None

    def values(self, shares: Array) -> dict[str, object]:
        """Gene name -> chosen value, from a row of shares [-]."""
        return {
            gene.name: gene.chosen(share) if gene.choices else gene.value(share)
            for gene, share in zip(self.genes, shares.tolist(), strict=True)
        }

    def shares(self, values: dict[str, object]) -> Array:
        """The row of shares [-] of chosen values; what is missing takes the middle."""
        return np.array(
            [
                gene.share(values[gene.name])
                if gene.name in values and (not gene.choices or values[gene.name] in gene.choices)
                else 0.5
                for gene in self.genes
            ]
        )


@dataclass(frozen=True, slots=True)
class Case:
    """What a search is about; small, so that it can be sent to workers.

    Attributes:
        wishes: The bench and wishes.
        stock_file: The builder's own stock; None takes what ships.
        stretched: Let the span leave its bounds, to see what the wishes cost.
    """

    wishes: Wishes
    stock_file: str | None = None
    stretched: bool = False


@lru_cache(maxsize=4)
def problem_of(case: Case) -> Problem:
    """Make a file of wishes ready for the search.

    Args:
        case: The bench and wishes. [-]

    Returns:
        The problem. [-]

    Raises:
        DesignError: The bench can drive nothing.

    Source:
        Bounds: common practice, no source.

    Example:
        >>> len(problem_of(case).genes) > 15
        True
    """
    wishes = case.wishes
    stock = load_stock(Path(case.stock_file) if case.stock_file else None)
    gear = gear_sets(wishes, stock)
    step = INCH / 4 if wishes.units == "inch" else 0.005
    genes = (
        *_shape_genes(wishes, stretched=case.stretched),
        *_wing_genes(wishes),
        *_body_genes(),
        *_fixing_genes(wishes, stock),
        Gene("gear", 0.0, 0.0, gear),
    )
    return Problem(wishes, stock, gear, genes, step, case.stretched, case.stock_file)


def span_bounds(wishes: Wishes) -> tuple[float, float]:
    """Shortest and longest span that is searched.

    Args:
        wishes: What is wished; its kind says what it leaves open. [-]

    Returns:
        Shortest and longest. [m], [m]

    Source:
        Common practice, no source.

    Example:
        >>> span_bounds(Wishes())
        (0.9, 1.5)
    """
    low, high = KIND_RANGES[wishes.wish.kind][1]
    least, most = wishes.wish.span_least, wishes.wish.span_most
    if most is not None:
        low, high = min(low, 0.75 * most), most
    if least is not None:
        low, high = least, max(high, least)
    return low, high


def _shape_genes(wishes: Wishes, *, stretched: bool) -> tuple[Gene, ...]:
    low, high = span_bounds(wishes)
    if stretched:
        low, high = low / STRETCH, min(high * STRETCH, 2.4)
    aspect = KIND_RANGES[wishes.wish.kind][0]
    return (
        Gene("span", low, high),
        Gene("aspect", *aspect),
        Gene("taper", 0.7, 1.0),
        Gene("washout", 0.0, 0.0524),
        Gene("incidence", 0.0, 0.0524),
        Gene("stab_share", 0.12, 0.26),
        Gene("stab_aspect", 2.3, 3.8),
        Gene("fin_share", 0.055, 0.13),
        Gene("length_share", 0.6, 0.86),
        Gene("nose_share", 0.08, 0.2),
        Gene("pack_share", 0.02, 0.42),
    )


def _wing_genes(wishes: Wishes) -> tuple[Gene, ...]:
    wish, bench = wishes.wish, wishes.bench
    controls = ("rudder", "ailerons") if wish.controls == "either" else (wish.controls,)
    if bench.servo_count < 4 and len(controls) > 1:
        controls = ("rudder",)
    builds = ("folded", "stepped") if wish.build == "either" else (wish.build,)
    genes = [Gene("roll", 0.0, 1.0), Gene("aileron_chord", 0.13, 0.22)]
    if "rudder" in controls:
        genes.append(Gene("panels", 0.0, 1.0, (1, 2)))
    genes.append(Gene("controls", 0.0, 1.0, controls))
    genes.append(Gene("build", 0.0, 1.0, builds))
    return tuple(genes)


def _body_genes() -> tuple[Gene, ...]:
    return (
        Gene("height", 0.06, 0.11),
        Gene("layers", 0.0, 2.0, (1, 2, 3)),
        Gene("saddle", 0.0, 2.0, (3, 5, 7)),
        Gene("hinge", 0.55, 0.75),
        Gene("down_thrust", 0.0, 0.07),
        Gene("right_thrust", 0.0, 0.0524),
    )


def _fixing_genes(wishes: Wishes, stock: Stock) -> tuple[Gene, ...]:
    kinds = ("craft stick", "dowel", "bamboo", "carbon")
    sticks = tuple(n for n in wishes.bench.sticks if stock.rods[n].kind in kinds)
    tapes = tuple(n for n in wishes.bench.tapes if n in ("fibre mesh tape", "packing tape"))
    return (
        Gene("strip_share", 0.09, 0.2),
        Gene("stick", 0.0, len(sticks), (None, *sticks)),
        Gene("stick_share", 0.3, 0.95),
        Gene("top_stick", 0.0, len(sticks), (None, *sticks)),
        Gene("brace_share", 0.12, 0.24),
        Gene("firewall", 0.0, 1.0, wishes.bench.plies),
        Gene("tape", 0.0, len(tapes), (None, *tapes)),
        Gene("creases", 0.0, 1.0, (2, 3)),
        Gene("bands", 0.0, 2.0, (4, 6, 8)),
    )
