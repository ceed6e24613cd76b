"""The top skin as a bent sheet: an elastic strip with creases, over the spar, held at both ends."""

from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

# A dented crease bends like board with one paper gone, over one thickness: about a twentieth of
# the whole board's bending stiffness (paper on one side only, by the parallel-axis rule); assumed.
CREASE_STIFFNESS = 0.05
SAMPLES = 17  # points on one stretch of skin between nodes, both ends included

type Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class BentSkin:
    """Middle line of a bent skin.

    Attributes:
        x: Points along it. [m]
        z: Their heights. [m]
        slope: dz/dx at them. [-]
        arc: Length along the skin from its start. [m]
        kinks: Turn at each crease, positive when the skin bulges upwards. [rad]
        kink_arcs: Where the creases are along the skin. [m]
        pushes: Which supports push the skin up; the others hold it down by their glue.
    """

    x: Array
    z: Array
    slope: Array
    arc: Array
    kinks: tuple[float, ...]
    kink_arcs: tuple[float, ...]
    pushes: tuple[bool, ...]


@dataclass(frozen=True, slots=True)
class SkinProblem:
    """What holds the skin.

    Attributes:
        start: x, z and slope where it leaves the nose. [m, m, -]
        end: x, z and slope where the bevel begins. [m, m, -]
        supports: (x, z) of the points it is glued to, front to back. [m]
        creases: x of the creases, front to back. [m]
        thickness: Of the board. [m]
    """

    start: tuple[float, float, float]
    end: tuple[float, float, float]
    supports: tuple[tuple[float, float], ...]
    creases: tuple[float, ...]
    thickness: float


def _assemble(nodes: Array, creased: list[bool], stiffness: float) -> tuple[Array, list[int]]:
    """Stiffness matrix of a beam with rotary springs; per node w, left slope[, right slope]."""
    first: list[int] = []
    size = 0
    for crease in creased:
        first.append(size)
        size += 3 if crease else 2
    matrix = np.zeros((size, size))
    for index, (a, b) in enumerate(pairwise(nodes)):
        h = float(b - a)
        out = first[index] + (2 if creased[index] else 1)
        at = [first[index], out, first[index + 1], first[index + 1] + 1]
        element = np.array(
            [
                [12.0, 6 * h, -12.0, 6 * h],
                [6 * h, 4 * h * h, -6 * h, 2 * h * h],
                [-12.0, -6 * h, 12.0, -6 * h],
                [6 * h, 2 * h * h, -6 * h, 4 * h * h],
            ]
        )
        matrix[np.ix_(at, at)] += element / h**3
    for index, crease in enumerate(creased):
        if crease:
            left, right = first[index] + 1, first[index] + 2
            matrix[[left, right], [left, right]] += stiffness
            matrix[[left, right], [right, left]] -= stiffness
    return matrix, first


def _solve(matrix: Array, fixed: dict[int, float]) -> tuple[Array, Array]:
    """Displacements and the forces that hold the fixed ones."""
    values = np.zeros(len(matrix))
    known = np.array(sorted(fixed))
    values[known] = [fixed[int(k)] for k in known]
    free = np.setdiff1d(np.arange(len(matrix)), known)
    if len(free):
        load = -matrix[np.ix_(free, known)] @ values[known]
        values[free] = np.linalg.solve(matrix[np.ix_(free, free)], load)
    return values, matrix @ values


def bend_skin(problem: SkinProblem) -> BentSkin:
    """Shape of least bending energy of a creased strip glued down on its supports.

    A beam of cubic stretches, w'''' = 0 between nodes; a crease is a rotary spring of
    CREASE_STIFFNESS * D / thickness, D being the board's bending stiffness (it cancels).

    Args:
        problem: Ends, supports and creases. [-]

    Returns:
        The middle line, with the turn at each crease.

    Valid:
        Slopes up to about 0.8; steeper ones are stretched by the small-slope beam equation.

    Source:
        Bernoulli-Euler beam with Hermite cubics, any text on finite elements; crease stiffness
        assumed.

    Example:
        >>> flat = bend_skin(SkinProblem((0, 0, 0), (1, 0, 0), (), (0.5,), 0.005))
        >>> round(float(abs(flat.z).max()), 9)
        0.0
    """
    places = {problem.start[0], problem.end[0], *problem.creases, *(x for x, _ in problem.supports)}
    nodes = np.array(sorted(places))
    creased = [float(x) in problem.creases for x in nodes]
    matrix, first = _assemble(nodes, creased, CREASE_STIFFNESS / problem.thickness)
    order = {float(x): first[i] for i, x in enumerate(nodes)}
    ends = {
        first[0]: problem.start[1],
        first[0] + 1: problem.start[2],
        first[-1]: problem.end[1],
        first[-1] + 1: problem.end[2],
    }
    ends.update({order[x]: z for x, z in problem.supports})
    values, forces = _solve(matrix, ends)
    pushes = tuple(bool(forces[order[x]] >= 0.0) for x, _ in problem.supports)
    return _sample(nodes, creased, first, values, pushes)


def _sample(
    nodes: Array, creased: list[bool], first: list[int], values: Array, pushes: tuple[bool, ...]
) -> BentSkin:
    starts = np.array(first)
    right = starts[:-1] + np.where(np.array(creased[:-1]), 2, 1)
    h = np.diff(nodes)[:, None]
    w0, m0 = values[starts[:-1]][:, None], values[right][:, None]
    w1, m1 = values[starts[1:]][:, None], values[starts[1:] + 1][:, None]
    # Twice as many places as are kept: Simpson's rule on every step wants its middle.
    fine = np.linspace(0.0, 1.0, 2 * SAMPLES - 1)[None, :]
    slopes = (
        6 * fine * (fine - 1) * (w0 - w1) / h
        + (1 - fine) * (1 - 3 * fine) * m0
        + fine * (3 * fine - 2) * m1
    )
    speed = np.sqrt(1.0 + slopes * slopes)
    step = h / (SAMPLES - 1)
    pieces = step / 6.0 * (speed[:, :-2:2] + 4.0 * speed[:, 1::2] + speed[:, 2::2])
    arcs = np.concatenate([np.zeros((len(h), 1)), np.cumsum(pieces, axis=1)], axis=1)
    s, slope = fine[:, ::2], slopes[:, ::2]
    z = (
        (1 + 2 * s) * (1 - s) ** 2 * w0
        + s * (1 - s) ** 2 * h * m0
        + s * s * (3 - 2 * s) * w1
        + s * s * (s - 1) * h * m1
    )
    offsets = np.concatenate([[0.0], np.cumsum(arcs[:, -1])])
    kinks = [
        (float(np.arctan(values[i + 1]) - np.arctan(values[i + 2])), float(offsets[n]))
        for n, i in enumerate(first)
        if creased[n]
    ]
    return BentSkin(
        x=(nodes[:-1, None] + s * h).ravel(),
        z=z.ravel(),
        slope=slope.ravel(),
        arc=(offsets[:-1, None] + arcs).ravel(),
        kinks=tuple(k for k, _ in kinks),
        kink_arcs=tuple(a for _, a in kinks),
        pushes=pushes,
    )
