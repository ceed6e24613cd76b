"""Solve the coupled layer for many folded sections and keep straight-line fits of its answers.

python tools/fit_folded_sections.py     write src/foamwright/aero/folded_sections.json

Takes some four minutes on one core. Boards 3 to 6 mm, 1.8 to 3.6 % of the chord; none to three
creases, mostly where the tool itself spreads them; spars of one to three boards.
"""

import json
import os
import sys

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

import numpy as np
from numpy.typing import NDArray

from foamwright.aero import folded_polar
from foamwright.aero.outline import fair_steps, panel_points
from foamwright.aero.refine import COUPLED_REYNOLDS, coupled_branch, coupled_grid
from foamwright.core.errors import DesignError
from foamwright.shape.folded import DEFAULT_CREASES, folded_section
from foamwright.shape.model import WingSection
from foamwright.shape.recipe import FoldedRecipe

type Array = NDArray[np.float64]

COUNT, SEED, RIDGE = 150, 7, 1e-3
THINNEST, THICKEST = 0.05, 0.15


def drawn(chance: np.random.Generator) -> WingSection | None:
    """One folded section by chance; None where it cannot be folded."""
    board = float(chance.choice([0.003, 0.0045, 0.005, 0.006]))
    chord = board / float(chance.uniform(0.018, 0.036))
    count = int(chance.choice([0, 1, 2, 3], p=[0.05, 0.1, 0.5, 0.35]))
    strips = int(chance.choice([1, 2, 3], p=[0.15, 0.6, 0.25]))
    own = chance.random() < 0.85
    places = DEFAULT_CREASES[count] if own else tuple(sorted(chance.uniform(0.06, 0.45, count)))
    bevel = None if chance.random() < 0.75 else float(chance.uniform(0.12, 0.35)) * chord
    width = float(chance.choice([0.02, 0.0254, 0.03])) * min(1.0, chord / 0.15)
    where = float(chance.uniform(0.22, 0.33))
    recipe = FoldedRecipe(places, True, bevel, strips * board, width, where, "clark-y")
    try:
        section = folded_section(recipe, chord, board)
    except DesignError:
        return None
    return section if THINNEST < section.thickness_ratio < THICKEST else None


def solved(section: WingSection) -> tuple[Array, Array] | None:
    """Features and figures at every Reynolds number; None where the layer finds no branch."""
    upper, _ = fair_steps(section.upper)
    points = panel_points(tuple(map(tuple, upper.tolist())), section.lower, smooth=True)
    polar = coupled_grid(points)
    rows = [coupled_branch(polar, row) for row in range(len(COUPLED_REYNOLDS))]
    if any(row is None for row in rows):
        return None
    figures = [folded_polar.folded_figures(row) for row in rows if row is not None]
    return folded_polar.folded_features(points), np.array(figures)


def fitted(features: Array, figures: Array) -> tuple[Array, Array, Array]:
    """Mean and spread of the features, and factors (Re, figure, 1 + feature)."""
    mean, spread = features.mean(0), features.std(0)
    given = np.column_stack([np.ones(len(features)), (features - mean) / spread])
    damped = RIDGE * len(given) * np.eye(given.shape[1])
    damped[0, 0] = 0.0
    flat = figures.reshape(len(given), -1)
    factors = np.linalg.solve(given.T @ given + damped, given.T @ flat).T
    return mean, spread, factors.reshape(*figures.shape[1:], -1)


def scatter(features: Array, figures: Array) -> Array:
    """Root-mean-square misses (Re, figure) of sections that were left out, a tenth at a time."""
    misses = np.zeros_like(figures)
    part = np.arange(len(features)) % 10
    for k in range(10):
        left = part == k
        mean, spread, factors = fitted(features[~left], figures[~left])
        for index in np.flatnonzero(left):
            given = np.append(1.0, (features[index] - mean) / spread)
            misses[index] = factors @ given - figures[index]
    return np.sqrt((misses**2).mean(0))


def main() -> None:
    """Draw, solve, fit, write; print the scatter."""
    chance = np.random.default_rng(SEED)
    found: list[tuple[Array, Array]] = []
    while len(found) < COUNT:
        section = drawn(chance)
        pair = None if section is None else solved(section)
        if pair is not None:
            found.append(pair)
    features, figures = (np.array([pair[k] for pair in found]) for k in range(2))
    mean, spread, factors = fitted(features, figures)
    stored = {
        "mean": [float(f"{v:.5g}") for v in mean],
        "spread": [float(f"{v:.5g}") for v in spread],
        "factors": [[[float(f"{v:.4g}") for v in row] for row in rows] for rows in factors],
    }
    text = json.dumps(stored, separators=(",", ":")).replace("]],[[", "]],\n[[")
    folded_polar.DATA.write_text(text.replace("],[", "],\n[") + "\n", encoding="utf-8")
    count = len(folded_polar.OFFSETS)
    for number, off in zip(COUPLED_REYNOLDS, scatter(features, figures), strict=True):
        lift, drag = off[2 : 2 + count], off[2 + count : 2 + 2 * count]
        sys.stdout.write(
            f"Re {number:.0f}: zero lift {np.degrees(off[0]):.2f} deg, largest {off[1]:.3f}; lift "
            + ", ".join(f"{v:.3f}" for v in lift)
            + "; drag "
            + ", ".join(f"{100.0 * v:.0f}" for v in drag)
            + " %\n"
        )


if __name__ == "__main__":
    main()
