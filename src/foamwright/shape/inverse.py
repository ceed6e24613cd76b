"""Which spar and creases fold a board nearest to a wanted section."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from foamwright.core.errors import DesignError
from foamwright.shape.folded import DEFAULT_CREASES, FoldedRecipe, folded_section
from foamwright.shape.model import WingSection
from foamwright.shape.outline import outline_distance, outline_of
from foamwright.shape.reference import clark_y

MOST_STRIPS = 4
STARTS = (0.24, 0.32)  # places of the spar from which the search sets out
REFUSED = 1.0  # of chord: what a section that cannot be folded counts as
TURNS = 160  # evaluations from one start
ROUND_PLACE, ROUND_CREASE = 0.01, 0.005  # of chord: finer nobody marks out
ROUND_HEIGHT = 0.0005  # m, same
LEAST_HEIGHT = 0.002  # m of spar

type Array = NDArray[np.float64]
type Target = str | Sequence[Sequence[float]] | Array


@dataclass(frozen=True, slots=True)
class FoldFit:
    """The fold that comes nearest to a wanted section.

    Attributes:
        recipe: Spar and creases, rounded to what can be marked out.
        section: The section that it gives.
        strips: Layers of board laid flat that make the spar's height; None for a height between.
        rms: Root mean square distance to the target, fraction of chord. [-]
        largest: Largest such distance. [-]
    """

    recipe: FoldedRecipe
    section: WingSection
    strips: int | None
    rms: float
    largest: float


@dataclass(frozen=True, slots=True)
class _Search:
    """What does not change while spar and creases are varied."""

    upper: Array
    lower: Array
    chord: float
    thickness: float
    recipe: FoldedRecipe

    def section(self, recipe: FoldedRecipe) -> WingSection | None:
        try:
            return folded_section(recipe, self.chord, self.thickness)
        except DesignError:
            return None

    def distance(self, section: WingSection | None) -> tuple[float, float]:
        if section is None:
            return REFUSED, REFUSED
        upper, lower = np.array(section.upper), np.array(section.lower)
        return outline_distance(self.upper, self.lower, upper=upper, lower=lower)


def closest_fold(
    target: Target,
    chord: float,
    *,
    thickness: float,
    creases: int = 2,
    spar_width: float = 0.0254,
    bevel: float | None = None,
    whole_strips: bool = True,
    least_strips: int = 1,
) -> FoldFit:
    """Find the spar height, spar position and creases whose fold comes nearest to a section.

    The root mean square distance over the target's own stations is made small, both sections on
    their chord lines, by a downhill simplex from two starts for every height of spar.

    Args:
        target: "clark-y", or the section's coordinates from the trailing edge round the nose and
            back. [any]
        chord: [m]
        thickness: Of the board. [m]
        creases: Number of crease lines, 0 to 3. [-]
        spar_width: Along the chord. [m]
        bevel: At the trailing edge; None takes eight thicknesses. [m]
        whole_strips: Only heights that strips laid flat make, up to four; else any height. [-]
        least_strips: Fewest of them; 0 allows a wing without a spar. [-]

    Returns:
        The nearest fold found, with its section and what is left between.

    Valid:
        As folded_section. The search may end in the second-best dip of several; the distance it
        reports is that of the fold it returns.

    Raises:
        DesignError: The target is not known or no section, or nothing can be folded at this chord.

    Source:
        Search over folded_section.

    Example:
        >>> fit = closest_fold("clark-y", 0.19, thickness=0.005)
        >>> fit.strips, fit.rms < 0.0045
        (2, True)
    """
    if not 0 <= creases <= len(DEFAULT_CREASES) - 1:
        raise DesignError(
            "wing.creases", str(creases), "a folded wing has 0 to 3 creases", "Use 2."
        )
    upper, lower = _target(target)
    base = FoldedRecipe(DEFAULT_CREASES[creases], True, bevel, 0.0, spar_width, 0.27, "none")
    search = _Search(upper, lower, chord, thickness, base)
    best: tuple[float, FoldedRecipe, int | None] | None = None
    heights = range(least_strips, MOST_STRIPS + 1) if whole_strips else (None,)
    for strips in heights:
        recipe, rms = _best(search, strips)
        if best is None or rms < best[0]:
            best = (rms, recipe, strips)
    if best is None or best[0] >= REFUSED:
        # Nothing folds: say why for the usual spar.
        folded_section(replace(base, spar_height=2 * thickness), chord, thickness)
        folded_section(base, chord, thickness)
        raise DesignError("wing.spar", "none that fits", "no spar and creases fold this section")
    recipe = best[1]
    section = folded_section(recipe, chord, thickness)
    rms, largest = search.distance(section)
    return FoldFit(recipe, section, best[2], rms, largest)


def _target(target: Target) -> tuple[Array, Array]:
    if not isinstance(target, str):
        return outline_of(np.asarray(target, dtype=float))
    if target.strip().lower() != "clark-y":
        raise DesignError(
            "wing.target",
            target,
            'it must be "clark-y" or the coordinates of a section',
            "Hand over its points from the trailing edge round the nose and back.",
        )
    upper, lower, _ = clark_y()
    return upper, lower


def _best(search: _Search, strips: int | None) -> tuple[FoldedRecipe, float]:
    """Nearest fold with a given number of strips, or with any height."""
    from scipy.optimize import minimize

    count = len(search.recipe.creases)

    def recipe_of(values: Array) -> FoldedRecipe:
        height = values[-1] * search.chord if strips is None else strips * search.thickness
        return replace(
            search.recipe,
            spar_position=float(values[0]),
            creases=tuple(sorted(float(x) for x in values[1 : 1 + count])),
            spread=False,
            spar_height=max(float(height), LEAST_HEIGHT) if strips is None else float(height),
        )

    def miss(values: Array) -> float:
        return search.distance(search.section(recipe_of(values)))[0]

    found: list[tuple[float, FoldedRecipe]] = []
    for place in STARTS if strips != 0 else STARTS[:1]:
        start = [place, *search.recipe.creases]
        start += [0.055] if strips is None else []
        if miss(np.array(start)) >= REFUSED:
            start[0] = 0.40  # a thick spar on a short chord only fits farther aft
        size = np.vstack([start, start + 0.03 * np.eye(len(start))])
        done = minimize(
            miss,
            np.array(start),
            method="Nelder-Mead",
            options={"initial_simplex": size, "maxfev": TURNS, "xatol": 1e-3, "fatol": 1e-5},
        )
        recipe = _rounded(recipe_of(done.x), strips)
        found.append((search.distance(search.section(recipe))[0], recipe))
    rms, recipe = min(found, key=lambda one: one[0])
    return recipe, rms


def _rounded(recipe: FoldedRecipe, strips: int | None) -> FoldedRecipe:
    def to(value: float, step: float) -> float:
        return round(round(value / step) * step, 6)

    return replace(
        recipe,
        spar_position=to(recipe.spar_position, ROUND_PLACE),
        creases=tuple(to(x, ROUND_CREASE) for x in recipe.creases),
        spar_height=to(recipe.spar_height, ROUND_HEIGHT) if strips is None else recipe.spar_height,
    )
