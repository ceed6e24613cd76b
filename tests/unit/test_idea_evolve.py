"""The evolution: closed forms, feasibility rules, the same answer every time."""

import numpy as np
import pytest

from foamwright.idea.evolve import Member, children, first_rows, kept, rank


def test_lightest_beam_is_found():
    """Least b h so that b h² / 6 is enough and h is at most 4 b: b³ = 6 Z / 16 at the corner."""
    modulus = 0.05 / 6.0
    best = 4.0 * (6.0 * modulus / 16.0) ** (2.0 / 3.0)  # b h with h = 4 b

    def member(row):
        b, h = (0.05 + 0.95 * row).tolist()
        short = max(0.0, 1.0 - b * h * h / 6.0 / modulus) + max(0.0, h / (4.0 * b) - 1.0)
        return Member((float(row[0]), float(row[1])), (short,), (b * h,))

    pools = kept(((),), [member(row) for row in first_rows(30, 2, seed=1)])
    for generation in range(1, 60):
        rows = children(pools, 10, seed=1, generation=generation)
        pools = kept(pools, [member(row) for row in rows])
    assert pools[0][0].shortfalls == (0.0,)
    assert pools[0][0].costs[0] == pytest.approx(best, rel=0.01)


def test_what_holds_goes_before_what_does_not():
    dear = Member((0.1,), (0.0,), (9.0,))
    cheap = Member((0.2,), (0.1,), (1.0,))
    cheaper = Member((0.3,), (0.2,), (0.5,))
    assert sorted([cheaper, cheap, dear], key=lambda m: rank(m, 0)) == [dear, cheap, cheaper]


def test_every_aim_keeps_its_own():
    light = Member((0.1,), (0.0, 0.0), (1.0, 5.0))
    quick = Member((0.9,), (0.0, 0.0), (5.0, 1.0))
    pools = kept(((), ()), [light, quick], size=1)
    assert pools == ((light,), (quick,))


def test_no_member_stands_twice():
    one = Member((0.5,), (0.0,), (1.0,))
    same = Member((0.5 + 1e-6,), (0.0,), (1.0,))
    assert len(kept(((one,),), [same])[0]) == 1


def test_rows_stay_between_0_and_1_and_depend_on_seed_and_generation_alone():
    pool = tuple(Member((x, 1.0 - x), (0.0,), (x,)) for x in (0.0, 0.02, 0.98, 1.0))
    rows = children((pool,), 200, seed=4, generation=7)
    assert rows.min() >= 0.0
    assert rows.max() <= 1.0
    assert np.array_equal(rows, children((pool,), 200, seed=4, generation=7))
    assert not np.array_equal(rows, children((pool,), 200, seed=4, generation=8))


def test_first_rows_fill_every_band_of_every_gene():
    """A Latin hypercube: each tenth of each gene is met once by ten rows."""
    rows = first_rows(10, 3, seed=2)
    for column in rows.T:
        assert sorted((column * 10).astype(int).tolist()) == list(range(10))
