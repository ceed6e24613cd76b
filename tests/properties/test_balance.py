"""Mass adds up, and the pack moves the CG its own way."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from foamwright.balance.mass import balance_of, pack_position_for
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
