"""Evolution of rows of numbers between 0 and 1 under several aims, one generation at a time.

Every aim keeps a small pool of its best. Children are made by differential evolution within a pool,
with a few genes shaken; each child is offered to every pool. A generation depends on the seed and
its number alone, so it is the same on any number of workers and after a stop.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

type Array = NDArray[np.float64]

POOL = 12  # members of a pool
BEST = 0.35  # share of a pool that children are drawn towards
WEIGHTS = (0.4, 0.9)  # of differences, [STORN]
CROSSED = (0.25, 0.6, 0.95)  # share of genes that change, one of these a child
SHAKEN = (0.004, 0.25)  # width of a shaken gene, between these on a logarithmic scale
NEAR = 1e-4  # members nearer than this in every gene are the same


@dataclass(frozen=True, slots=True)
class Member:
    """One row of genes and what it is worth.

    Attributes:
        shares: Genes, each from 0 to 1. [-]
        shortfalls: One an aim; 0 when every constraint of it holds. [-]
        costs: One an aim, less is better. [-]
    """

    shares: tuple[float, ...]
    shortfalls: tuple[float, ...]
    costs: tuple[float, ...]


type Pools = tuple[tuple[Member, ...], ...]


def rank(member: Member, aim: int) -> tuple[float, float]:
    """What members are sorted by: first what they miss, then what they cost.

    Args:
        member: The member. [-]
        aim: Index of the aim. [-]

    Returns:
        Shortfall and cost; less is better. [-]

    Source:
        Feasibility rules, [DEB].

    Example:
        >>> rank(Member((0.5,), (0.0,), (3.0,)), 0) < rank(Member((0.5,), (0.1,), (1.0,)), 0)
        True
    """
    missed = member.shortfalls[aim]
    return (missed, member.costs[aim] if missed <= 0.0 else 0.0)


def kept(pools: Pools, newcomers: Sequence[Member], *, size: int = POOL) -> Pools:
    """The best of each pool and of the newcomers, none of them twice.

    Args:
        pools: One an aim. [-]
        newcomers: Each is offered to every pool. [-]
        size: Members of a pool. [-]

    Returns:
        The new pools, best first. [-]

    Source:
        Definition.

    Example:
        >>> two = [Member((0.5,), (0.0,), (3.0,)), Member((0.1,), (0.0,), (1.0,))]
        >>> kept(((),), two)[0][0].costs
        (1.0,)
    """
    return tuple(_best([*pool, *newcomers], aim, size) for aim, pool in enumerate(pools))


def _best(members: list[Member], aim: int, size: int) -> tuple[Member, ...]:
    chosen: list[Member] = []
    rows = np.empty((0, 0))
    for member in sorted(members, key=lambda each: (*rank(each, aim), each.shares)):
        row = np.array(member.shares)
        if chosen and float(np.min(np.max(np.abs(rows - row), axis=1))) < NEAR:
            continue
        chosen.append(member)
        rows = np.array([each.shares for each in chosen])
        if len(chosen) == size:
            break
    return tuple(chosen)


def first_rows(count: int, genes: int, *, seed: int) -> Array:
    """Rows spread evenly over all genes.

    Args:
        count: How many. [-]
        genes: Genes of a row. [-]
        seed: Same seed, same rows. [-]

    Returns:
        Rows. [-]

    Source:
        Latin hypercube, [MCKAY].

    Example:
        >>> first_rows(4, 2, seed=1).shape
        (4, 2)
    """
    rng = np.random.default_rng([seed, 0])
    columns = [(rng.permutation(count) + rng.random(count)) / count for _ in range(genes)]
    return np.array(columns).T.reshape(count, genes)


def children(pools: Pools, count: int, *, seed: int, generation: int) -> Array:
    """Rows to try next, the same number for each aim.

    v = x + F (x_best - x) + F (x_1 - x_2), crossed with x; then a few genes are shaken.

    Args:
        pools: One an aim, none empty. [-]
        count: How many for each aim. [-]
        seed: Same seed, same children. [-]
        generation: Its number, from 1. [-]

    Returns:
        Rows. [-]

    Source:
        Differential evolution, current to best, [STORN].

    Example:
        >>> pool = tuple(Member((x,), (0.0,), (x,)) for x in (0.1, 0.5, 0.9))
        >>> children((pool,), 5, seed=1, generation=1).shape
        (5, 1)
    """
    rng = np.random.default_rng([seed, generation])
    everyone = np.array([member.shares for pool in pools for member in pool])
    rows = [
        _child(np.array([member.shares for member in pool]), everyone, rng)
        for pool in pools
        for _ in range(count)
    ]
    return np.array(rows)


def _child(pool: Array, everyone: Array, rng: np.random.Generator) -> Array:
    size, genes = pool.shape
    parent = pool[rng.integers(size)]
    best = pool[rng.integers(max(1, round(BEST * size)))]
    weight = rng.uniform(*WEIGHTS)
    difference = pool[rng.integers(size)] - everyone[rng.integers(len(everyone))]
    mutant = parent + weight * (best - parent) + weight * difference
    crossed = rng.random(genes) < rng.choice(CROSSED)
    crossed[rng.integers(genes)] = True
    row = np.where(crossed, mutant, parent)
    shaken = rng.random(genes) < 1.2 / genes
    width = np.exp(rng.uniform(np.log(SHAKEN[0]), np.log(SHAKEN[1])))
    row = row + np.where(shaken, width * rng.standard_normal(genes), 0.0)
    # Half of the rows that left stop at the edge, where the best often lies; half turn back.
    return np.clip(row, 0.0, 1.0) if rng.random() < 0.5 else _reflected(row)


def _reflected(row: Array) -> Array:
    """Rows that left 0 to 1 come back in from the edge."""
    row = np.abs(row)
    row = np.where(row > 1.0, 2.0 - row, row)
    return np.clip(row, 0.0, 1.0)
