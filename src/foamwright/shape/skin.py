"""The top skin as a bent sheet: an elastic strip with creases, over the spar, held at both ends."""

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

# A dented crease bends like board with one paper gone, over one thickness: about a twentieth of
# the whole board's bending stiffness (paper on one side only, by the parallel-axis rule); assumed.
CREASE_STIFFNESS = 0.05
ELEMENTS = 2  # cubics on one stretch of skin between ends, supports and creases
SAMPLES = 9  # points on one cubic, both ends included
MOST_STEPS = 20
LARGEST_LEAP = 0.5  # of a slope in one step
CLOSE = 1e-6  # a last step of slope, or of height in m; what is left is its square
_ROOT = math.sqrt(0.6)
GAUSS_PLACES = 0.5 + 0.5 * np.array([-_ROOT, 0.0, _ROOT])  # three-point Gauss-Legendre on 0 to 1
GAUSS_SHARES = np.array([5.0, 8.0, 5.0]) / 18.0

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
        least_radius: Tightest bend between the creases. [m]
    """

    x: Array
    z: Array
    slope: Array
    arc: Array
    kinks: tuple[float, ...]
    kink_arcs: tuple[float, ...]
    pushes: tuple[bool, ...]
    least_radius: float


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


@dataclass(frozen=True, slots=True)
class _Beam:
    """Cubic elements over the stretches of skin: per node w, left slope[, right slope].

    `at` lists each element's four unknowns; `first` and `second` hold the first and second
    derivatives of its shape functions at the Gauss points, `share` the lengths they stand for.
    """

    size: int
    nodes: Array
    at: NDArray[np.intp]
    first: Array
    second: Array
    share: Array
    creases: NDArray[np.intp]
    spring: float


def _beam(nodes: Array, creased: list[bool], spring: float) -> tuple[_Beam, list[int]]:
    width = np.where(creased, 3, 2)
    start = np.concatenate([[0], np.cumsum(width)])
    out = start[:-1] + np.where(creased, 2, 1)
    at = np.column_stack([start[:-2], out[:-1], start[1:-1], start[1:-1] + 1])
    h = np.diff(nodes)[:, None]
    s = GAUSS_PLACES[None, :]
    one = np.ones_like(h * s)
    first = np.stack(
        [6 * s * (s - 1) / h, (1 - s) * (1 - 3 * s) * one, -6 * s * (s - 1) / h,
         s * (3 * s - 2) * one], axis=2,
    )  # fmt: skip
    second = np.stack(
        [(12 * s - 6) / h**2, (6 * s - 4) / h, -(12 * s - 6) / h**2, (6 * s - 2) / h], axis=2
    )
    share = h * GAUSS_SHARES[None, :]
    turns = start[:-1][np.array(creased)]
    beam = _Beam(int(start[-1]), nodes, at, first, second, share, turns, spring)
    return beam, start[:-1].tolist()


def _derivatives(beam: _Beam, values: Array) -> tuple[Array, Array]:
    """Gradient and matrix of second derivatives of the bending energy.

    Energy = 1/2 integral of curvature² along the skin = 1/2 integral w''² (1 + w'²)^(-5/2) dx,
    plus 1/2 k turn² at each crease.
    """
    own = values[beam.at]
    p = np.einsum("egi,ei->eg", beam.first, own)
    q = np.einsum("egi,ei->eg", beam.second, own)
    m = 1.0 + p * p
    soft = m**-2.5
    by_p, by_q = -2.5 * p * q * q * soft / m, q * soft
    by_pp = q * q * soft / m * (-2.5 + 17.5 * p * p / m)
    by_pq, by_qq = -5.0 * p * q * soft / m, soft
    f, g, w = beam.first, beam.second, beam.share
    force = np.einsum("eg,egi->ei", w * by_p, f) + np.einsum("eg,egi->ei", w * by_q, g)
    # Three products of stacked matrices: element by element, unknown by unknown.
    weighted_f = (w * by_pp)[..., None] * f + (w * by_pq)[..., None] * g
    weighted_g = (w * by_pq)[..., None] * f + (w * by_qq)[..., None] * g
    stiff = np.swapaxes(f, 1, 2) @ weighted_f + np.swapaxes(g, 1, 2) @ weighted_g
    gradient = np.zeros(beam.size)
    matrix = np.zeros((beam.size, beam.size))
    np.add.at(gradient, beam.at, force)
    np.add.at(matrix, (beam.at[:, :, None], beam.at[:, None, :]), stiff)
    for index in beam.creases.tolist():
        left, right = index + 1, index + 2
        a, b = values[left], values[right]
        turn = math.atan(a) - math.atan(b)
        da, db = 1.0 / (1.0 + a * a), 1.0 / (1.0 + b * b)
        gradient[left] += beam.spring * turn * da
        gradient[right] -= beam.spring * turn * db
        matrix[left, left] += beam.spring * (da * da - 2.0 * a * turn * da * da)
        matrix[right, right] += beam.spring * (db * db + 2.0 * b * turn * db * db)
        matrix[left, right] -= beam.spring * da * db
        matrix[right, left] -= beam.spring * da * db
    return gradient, matrix


def _solve(beam: _Beam, fixed: dict[int, float]) -> tuple[Array, Array]:
    """Displacements and the forces that hold the fixed ones, by Newton's method."""
    known = np.array(sorted(fixed))
    free = np.delete(np.arange(beam.size), known)
    values = np.zeros(beam.size)
    # From a flat sheet the first step is the answer of the small-slope beam.
    _, matrix = _derivatives(beam, values)
    values[known] = [fixed[int(k)] for k in known]
    if len(free):
        load = -matrix[np.ix_(free, known)] @ values[known]
        values[free] = np.linalg.solve(matrix[np.ix_(free, free)], load)
    gradient, matrix = _derivatives(beam, values)
    for _ in range(MOST_STEPS):
        if not len(free):
            break
        step = np.linalg.solve(matrix[np.ix_(free, free)], -gradient[free])
        # Slopes may not leap: far from the answer the energy is not bowl-shaped.
        step *= min(1.0, LARGEST_LEAP / max(float(np.abs(step).max()), 1e-12))
        values[free] += step
        gradient, matrix = _derivatives(beam, values)
        if float(np.abs(step).max()) < CLOSE:
            break
    return values, gradient


def bend_skin(problem: SkinProblem) -> BentSkin:
    """Shape of least bending energy of a creased strip glued down on its supports.

    An elastica: the integral of curvature² along the strip is least, whatever its slope. A crease
    is a rotary spring of CREASE_STIFFNESS * D / thickness, D being the board's bending stiffness
    (it cancels).

    Args:
        problem: Ends, supports and creases. [-]

    Returns:
        The middle line, with the turn at each crease.

    Valid:
        Slopes up to about 1; the strip may not turn back on itself.

    Source:
        Euler's elastica in Hermite cubics; agrees with a chain of short links in
        tests/agreement/test_bent_skin.py. Crease stiffness assumed.

    Example:
        >>> flat = bend_skin(SkinProblem((0, 0, 0), (1, 0, 0), (), (0.5,), 0.005))
        >>> round(float(abs(flat.z).max()), 9)
        0.0
    """
    places = {problem.start[0], problem.end[0], *problem.creases, *(x for x, _ in problem.supports)}
    marks = np.array(sorted(places))
    fine = np.linspace(0.0, 1.0, ELEMENTS + 1)[:-1]
    nodes = np.append((marks[:-1, None] + fine * np.diff(marks)[:, None]).ravel(), marks[-1])
    creased = [float(x) in problem.creases for x in nodes]
    beam, first = _beam(nodes, creased, CREASE_STIFFNESS / problem.thickness)
    order = {float(x): first[i] for i, x in enumerate(nodes)}
    ends = {
        first[0]: problem.start[1],
        first[0] + 1: problem.start[2],
        first[-1]: problem.end[1],
        first[-1] + 1: problem.end[2],
    }
    ends.update({order[x]: z for x, z in problem.supports})
    values, forces = _solve(beam, ends)
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
    # Within one cubic only: at a crease the slope leaps.
    bend = np.abs(np.diff(np.arctan(slope), axis=1)) / np.diff(arcs, axis=1)
    return BentSkin(
        x=(nodes[:-1, None] + s * h).ravel(),
        z=z.ravel(),
        slope=slope.ravel(),
        arc=(offsets[:-1, None] + arcs).ravel(),
        kinks=tuple(k for k, _ in kinks),
        kink_arcs=tuple(a for _, a in kinks),
        pushes=pushes,
        least_radius=1.0 / max(float(bend.max()), 1e-6),
    )
