"""Mass adds up, and the pack moves the CG its own way."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from foamwright.balance.envelope import cg_over_pack
from foamwright.balance.mass import balance_of, pack_position_for
from foamwright.balance.sample import TENTH, weighing_of
from foamwright.core.bands import Band
from foamwright.parts.model import Item, PartsList

PLACES = st.floats(-0.2, 1.2)
MASSES = st.floats(0.001, 0.3)
RESTS = st.lists(st.tuples(MASSES, PLACES, PLACES), min_size=1, max_size=8)


def plane_of(rest, pack_mass, pack_x, tray=(0.05, 0.4)):
    items = [
        Item(f"thing-{i}", "thing", "", Band(0.9 * m, m, 1.2 * m), (x, 0.0, z), (0.02, 0.01, 0.01))
        for i, (m, x, z) in enumerate(rest)
    ]
    mass = Band(0.95 * pack_mass, pack_mass, 1.05 * pack_mass)
    pack = Item("pack", "pack", "", mass, (pack_x, 0.0, 0.0), (0.07, 0.03, 0.02))
    parts = PartsList((), (*items, pack))
    return parts, balance_of(parts, tray=tray)


@settings(deadline=None, max_examples=40)
@given(rest=RESTS, mass=MASSES, at=PLACES, further=st.floats(0.001, 0.3))
def test_pack_further_aft_moves_the_cg_aft(rest, mass, at, further):
    _, one = plane_of(rest, mass, at)
    _, other = plane_of(rest, mass, at + further)
    assert other.cg[0] > one.cg[0]
    assert other.all_up_mass == pytest.approx(one.all_up_mass)


@settings(deadline=None, max_examples=40)
@given(rest=RESTS, mass=MASSES, at=PLACES)
def test_mass_adds_up_and_bands_enclose(rest, mass, at):
    _, plane = plane_of(rest, mass, at)
    assert sum(line.mass.typical for line in plane.lines) == pytest.approx(plane.all_up_mass)
    assert plane.mass_band.low <= plane.all_up_mass <= plane.mass_band.high
    assert plane.cg_x_band.low <= plane.cg[0] <= plane.cg_x_band.high
    roll, pitch, yaw = plane.inertia
    assert min(roll, pitch, yaw) > 0
    assert roll + pitch >= yaw - 1e-12


@settings(deadline=None, max_examples=40)
@given(rest=RESTS, mass=MASSES, at=PLACES, wanted=PLACES)
def test_pack_put_where_told_gives_the_cg(rest, mass, at, wanted):
    parts, plane = plane_of(rest, mass, at)
    _, moved = plane_of(rest, mass, pack_position_for(plane, parts, cg_x=wanted))
    assert moved.cg[0] == pytest.approx(wanted, abs=1e-9)


@settings(deadline=None, max_examples=30)
@given(rest=RESTS, mass=MASSES, at=PLACES, seed=st.integers(0, 1000))
def test_drawn_builds_keep_every_gram(rest, mass, at, seed):
    """What the stocks gain or lose the plane gains or loses; the typical draw is typical."""
    parts, plane = plane_of(rest, mass, at)
    weighing = weighing_of(parts)
    draws = np.random.default_rng(seed).standard_normal((len(weighing.names), 50))
    draws[:, 0] = 0.0
    all_up, moment, _, pack = weighing.draw(draws)
    assert all_up[0] == pytest.approx(plane.all_up_mass)
    assert moment[0] / all_up[0] == pytest.approx(plane.cg[0], abs=1e-9)
    low, high = weighing.lighter[:, 0, None], weighing.heavier[:, 0, None]
    change = np.clip(-draws, 0, None) / TENTH * low + np.clip(draws, 0, None) / TENTH * high
    assert all_up - all_up[0] == pytest.approx(change.sum(axis=0), abs=1e-9)
    assert pack[0] == pytest.approx(mass)


@settings(deadline=None, max_examples=30)
@given(rest=RESTS, mass=MASSES, at=st.floats(0.05, 0.4))
def test_the_pack_curve_meets_the_design(rest, mass, at):
    _, plane = plane_of(rest, mass, at)
    curve = cg_over_pack(plane)
    assert np.interp(at, curve.places, curve.cg) == pytest.approx(plane.cg[0], abs=1e-9)
    assert (np.array(curve.low) <= np.array(curve.cg) + 1e-12).all()
    assert (np.array(curve.high) >= np.array(curve.cg) - 1e-12).all()
