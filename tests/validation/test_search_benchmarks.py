"""The search against constrained test functions with known optima, Koziel and Michalewicz 1999.

Koziel S., Michalewicz Z.: Evolutionary algorithms, homomorphous mappings, and constrained parameter
optimization. Evolutionary Computation 7(1), 1999, pp. 19-44, functions G4, G6, G8, G9 and G12, and
the optima printed there (from memory).
"""

import math

import numpy as np
import pytest

from foamwright.idea.evolve import Member, children, first_rows, kept

SOURCE = "Koziel and Michalewicz 1999, from memory"


def missed(constraints):
    """Summed shortfall of constraints g <= 0."""
    return sum(max(g, 0.0) for g in constraints)


def g4(x):
    a, b, c, d, e = x
    u = 85.334407 + 0.0056858 * b * e + 0.0006262 * a * d - 0.0022053 * c * e
    v = 80.51249 + 0.0071317 * b * e + 0.0029955 * a * b + 0.0021813 * c * c
    w = 9.300961 + 0.0047026 * c * e + 0.0012547 * a * c + 0.0019085 * c * d
    cost = 5.3578547 * c * c + 0.8356891 * a * e + 37.293239 * a - 40792.141
    return cost, [u - 92, -u, v - 110, 90 - v, w - 25, 20 - w]


def g6(x):
    a, b = x
    circles = [100 - (a - 5) ** 2 - (b - 5) ** 2, (a - 6) ** 2 + (b - 5) ** 2 - 82.81]
    return (a - 10) ** 3 + (b - 20) ** 3, circles


def g8(x):
    a, b = x
    wave = math.sin(2 * math.pi * a) ** 3 * math.sin(2 * math.pi * b)
    return -wave / (a**3 * (a + b)), [a * a - b + 1, 1 - a + (b - 4) ** 2]


def g9(x):
    a, b, c, d, e, f, g = x
    cost = (a - 10) ** 2 + 5 * (b - 12) ** 2 + c**4 + 3 * (d - 11) ** 2 + 10 * e**6
    cost += 7 * f * f + g**4 - 4 * f * g - 10 * f - 8 * g
    return cost, [
        -127 + 2 * a * a + 3 * b**4 + c + 4 * d * d + 5 * e,
        -282 + 7 * a + 3 * b + 10 * c * c + d - e,
        -196 + 23 * a + b * b + 6 * f * f - 8 * g,
        4 * a * a + b * b - 3 * a * b + 2 * c * c + 5 * f - 11 * g,
    ]


def g12(x):
    cost = -(100 - sum((each - 5) ** 2 for each in x)) / 100
    spheres = np.arange(1, 10)
    least = sum(float(np.min((each - spheres) ** 2)) for each in x)
    return cost, [least - 0.0625]


CASES = [
    ("G4, five numbers", g4, [(78, 102), (33, 45), (27, 45), (27, 45), (27, 45)], -30665.539),
    ("G6, two circles", g6, [(13, 100), (0, 100)], -6961.814),
    ("G8, many hills", g8, [(0.1, 10), (0.1, 10)], -0.095825),
    ("G9, seven numbers", g9, [(-10, 10)] * 7, 680.630),
    ("G12, 729 spheres", g12, [(0, 10)] * 3, -1.0),
]


def evolved(function, bounds, *, seed, generations=400, brood=16):
    low, high = np.array(bounds, dtype=float).T

    def member(row):
        cost, constraints = function((low + row * (high - low)).tolist())
        return Member(tuple(row.tolist()), (missed(constraints),), (cost,))

    pools = kept(((),), [member(row) for row in first_rows(60, len(bounds), seed=seed)])
    for generation in range(1, generations + 1):
        rows = children(pools, brood, seed=seed, generation=generation)
        pools = kept(pools, [member(row) for row in rows])
    return pools[0][0]


@pytest.mark.parametrize(("name", "function", "bounds", "optimum"), CASES)
def test_known_optimum(reproduce, name, function, bounds, optimum):
    """Within 1 %, as a search for planes must be; most come far nearer."""
    best = evolved(function, bounds, seed=3)
    assert best.shortfalls == (0.0,)
    reproduce(
        f"optimum of {name}", computed=best.costs[0], printed=optimum, rel=0.01, source=SOURCE
    )
