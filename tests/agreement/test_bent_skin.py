"""The bent skin against a chain of short stiff links: the same energy, found another way."""

from itertools import pairwise

import numpy as np
import pytest
from scipy.optimize import least_squares

from foamwright.shape.skin import CREASE_STIFFNESS, SkinProblem, bend_skin

# What folding asks of chords of 150 to 235 mm: nose slope, bevel slope, spar, creases. [m]
PROBLEMS = {
    "190 mm, two creases": SkinProblem(
        (0.004, 0.0083, 0.46), (0.149, 0.0076, -0.225), ((0.0386, 0.0175), (0.064, 0.0175)),
        (0.019, 0.038), 0.005,
    ),
    "150 mm, three creases": SkinProblem(
        (0.0036, 0.0081, 0.67), (0.109, 0.0076, -0.225), ((0.0278, 0.0175), (0.0532, 0.0175)),
        (0.015, 0.0278, 0.054), 0.005,
    ),
    "235 mm, one crease": SkinProblem(
        (0.0043, 0.0074, 0.30), (0.194, 0.0076, -0.225), ((0.0578, 0.0175), (0.0832, 0.0175)),
        (0.0235,), 0.005,
    ),
    "no crease, low spar": SkinProblem(
        (0.0044, 0.0074, 0.23), (0.13, 0.0076, -0.225), ((0.0383, 0.0125), (0.0637, 0.0125)), (),
        0.005,
    ),
}  # fmt: skip
ALLOWED = 0.0002  # m, to which a folded-back blank shall give its section


def chain(problem, links=60):
    """Heights of a chain whose joints resist turning as the sheet between their middles does."""
    fixed = {problem.start[0]: problem.start[1], problem.end[0]: problem.end[1]}
    fixed.update(dict(problem.supports))
    marks = sorted({*fixed, *problem.creases})
    x = np.concatenate(
        [
            np.linspace(a, b, max(6, round(links * (b - a) / (marks[-1] - marks[0]))), False)
            for a, b in pairwise(marks)
        ]
        + [[marks[-1]]]
    )
    held = np.array([int(np.argmin(abs(x - place))) for place in sorted(fixed)])
    creased = [int(np.argmin(abs(x - place))) for place in problem.creases]
    free = np.setdiff1d(np.arange(len(x)), held)
    z = np.interp(x, x[held], [fixed[place] for place in sorted(fixed)])

    def strain(heights):
        z[free] = heights
        long = np.hypot(np.diff(x), np.diff(z))
        angle = np.arctan2(np.diff(z), np.diff(x))
        ends = np.arctan([problem.start[2], problem.end[2]])
        turn = np.diff(np.concatenate([ends[:1], angle, ends[1:]]))
        give = 0.5 * (np.append(0.0, long) + np.append(long, 0.0))
        give[creased] += problem.thickness / CREASE_STIFFNESS
        return turn / np.sqrt(give)

    z[free] = least_squares(strain, z[free].copy(), xtol=1e-12, ftol=1e-12, gtol=1e-12).x
    return x, z


@pytest.mark.parametrize("name", PROBLEMS)
def test_chain_and_skin_agree(name):
    problem = PROBLEMS[name]
    x, z = chain(problem)
    skin = bend_skin(problem)
    assert np.abs(np.interp(x, skin.x, skin.z) - z).max() < 0.2 * ALLOWED


@pytest.mark.parametrize("name", PROBLEMS)
def test_arc_length_agrees_with_the_chain(name):
    problem = PROBLEMS[name]
    x, z = chain(problem, links=120)
    length = np.hypot(np.diff(x), np.diff(z)).sum()
    # The blank keeps the arc length to 0.05 mm.
    assert bend_skin(problem).arc[-1] == pytest.approx(length, abs=5e-5)
