"""Masses, places and moments by hand."""

import pytest
import shapely

from foamwright.balance.mass import balance_of, ballast_for, mass_of, pack_position_for, tip_ballast
from foamwright.balance.moments import flat_moments
from foamwright.balance.sample import sample_balance
from foamwright.core.bands import Band
from foamwright.core.errors import ModelError
from foamwright.parts.model import Facet, Item, Part, PartsList, Source

X, Y, Z = (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0)


def item(name, grams, at, *, stock="", size=(0.0, 0.0, 0.0), spread=0.0):
    mass = grams / 1000
    return Item(name, name, stock, Band(mass * (1 - spread), mass, mass * (1 + spread)), at, size)


def plate(name, polygon, *, areal=0.3, facets=None, thickness=0.005):
    facets = facets or (Facet(polygon, (0.0, 0.0, 0.0), X, Y, thickness),)
    band = Band(0.9 * areal, areal, 1.1 * areal)
    return Part(name, name, name, "", "board", Source.BOARD, polygon, (), facets, band, thickness)


def test_two_things():
    # 100 g at 0.1 m and 300 g at 0.3 m: CG (0.1 * 0.1 + 0.3 * 0.3) / 0.4 = 0.25 m.
    plane = balance_of(
        PartsList((), (item("pack", 100, (0.1, 0, 0)), item("rest", 300, (0.3, 0, 0)))),
        tray=(0.06, 0.18),
    )
    assert plane.cg[0] == pytest.approx(0.25)
    # The pack moved by 40 mm forward moves the CG by 0.04 * 0.1 / 0.4 = 10 mm.
    assert plane.cg_front == pytest.approx(0.24)
    assert plane.cg_back == pytest.approx(0.27)
    # Pitch: 0.1 * 0.15² + 0.3 * 0.05² = 0.003 kg m².
    assert plane.inertia == pytest.approx((0.0, 0.003, 0.003))
    # Without the pack the CG is at 0.3: the pack moves it by -50 mm.
    assert {line.id: line.cg_shift for line in plane.lines}["pack"] == pytest.approx(-0.05)
    assert plane.lines[0].id == "rest"


def test_hole_takes_mass_away():
    sheet = shapely.box(0, 0, 1, 1).difference(shapely.box(0.5, 0, 1, 1).buffer(-0.1, join_style=2))
    flats = flat_moments([sheet])
    # Hole 0.3 x 0.8 = 0.24 at u = 0.75: area 0.76, u = (0.5 - 0.24 * 0.75) / 0.76.
    assert flats.area[0] == pytest.approx(0.76)
    assert flats.middle[0, 0] == pytest.approx((0.5 - 0.18) / 0.76)


def test_polygon_either_way_round():
    ring = [(0, 0), (0.6, 0), (0.6, 0.2), (0, 0.2)]
    one, other = flat_moments([shapely.Polygon(ring), shapely.Polygon(ring[::-1])]).spread
    assert one == pytest.approx(other)


def test_part_with_two_facets():
    # Two squares of 0.01 m2 standing at x = 0.1 and 0.5: mass 0.02 * 0.3 = 6 g at 0.3.
    square = shapely.box(0, 0, 0.1, 0.1)
    facets = (Facet(square, (0.05, 0, 0), X, Y, 0.0), Facet(square, (0.45, 0, 0), X, Z, 0.0))
    part = plate("skin", shapely.box(0, 0, 0.2, 0.1), facets=facets)
    plane = balance_of(PartsList((part,), ()), tray=(0, 1))
    assert plane.all_up_mass == pytest.approx(0.006)
    assert plane.cg == pytest.approx((0.3, 0.025, 0.025))


def test_pieces_of_one_stock_move_together():
    # Two plates of 30 g with 10 % doubt, one stock: 6 g, not 4.2 g.
    square = shapely.box(0, 0, 1.0, 0.1)
    plane = balance_of(PartsList((plate("a", square), plate("b", square)), ()), tray=(0, 1))
    assert plane.mass_band.high == pytest.approx(0.066)
    # Two things of 30 g of their own: 30 g * 0.1 * sqrt(2).
    own = (item("a", 30, (0, 0, 0), spread=0.1), item("b", 30, (1, 0, 0), spread=0.1))
    plane = balance_of(PartsList((), own), tray=(0, 1))
    assert plane.mass_band.high == pytest.approx(0.06 + 0.003 * 2**0.5)
    # Aft: b 3 g heavier, 1.5 g m of 63 g, 23.8 mm; a 3 g lighter, 1.5 g m of 57 g, 26.3 mm.
    assert plane.cg_x_band.high == pytest.approx(0.5 + (0.0238095**2 + 0.0263158**2) ** 0.5)
    assert plane.cg_x_band.low == pytest.approx(1.0 - plane.cg_x_band.high)


def test_pack_and_ballast():
    things = PartsList((), (item("pack", 100, (0.1, 0.01, 0)), item("rest", 300, (0.3, 0, 0))))
    plane = balance_of(things, tray=(0.06, 0.18))
    # 10 mm of CG want 40 mm of pack.
    assert pack_position_for(plane, things, cg_x=0.26) == pytest.approx(0.14)
    # 400 g at 0.25 and b at 0.05 balance at 0.225: b = 400 * 0.025 / 0.175.
    assert ballast_for(plane, cg_x=0.225, at=0.05) == pytest.approx(0.4 * 0.025 / 0.175)
    # 100 g * 10 mm = tip mass * 0.5 m.
    assert tip_ballast(plane, half_span=0.5) == pytest.approx(0.002)


def test_wing_mass_takes_what_flies_with_it():
    names = ("wing-skin-1-right", "spar-strip-1-1-right", "aileron-1-left", "wing-dowel-front")
    things = PartsList((), tuple(item(name, 10, (0, 0, 0)) for name in names))
    assert mass_of(things, "wing") == pytest.approx(0.03)
    assert mass_of(things, "spar") == pytest.approx(0.01)


def test_what_cannot_be_said():
    square = shapely.box(0, 0, 1, 1)
    part = plate("lost", square)
    lost = Part(*[getattr(part, f) if f != "facets" else () for f in part.__dataclass_fields__])
    with pytest.raises(ModelError, match="The place of lost"):
        balance_of(PartsList((lost,), ()), tray=(0, 1))
    with pytest.raises(ModelError, match="Nothing in the parts list has a mass"):
        balance_of(PartsList((), ()), tray=(0, 1))
    rest = PartsList((), (item("rest", 300, (0.3, 0, 0)),))
    plane = balance_of(rest, tray=(0, 1))
    with pytest.raises(ModelError, match="no pack"):
        pack_position_for(plane, rest, cg_x=0.2)
    with pytest.raises(ModelError, match="moves nothing"):
        ballast_for(plane, cg_x=0.2, at=0.2)


def test_sampled_builds():
    own = (item("a", 30, (0, 0, 0), spread=0.1), item("b", 60, (1, 0, 0), spread=0.05))
    builds = sample_balance(PartsList((), own), seed=4)
    # 3 g each, one in ten outside: 90 g +- 3 g * sqrt(2) / 1.2816.
    assert builds.mass.mean() == pytest.approx(0.09, rel=1e-3)
    assert builds.mass.std() == pytest.approx(0.003 * 2**0.5 / 1.28155, rel=0.03)
    # CG at 0.667 m; a's 3 g are 2 g m away, b's 1 g m: variance shares 4 : 1.
    assert dict(builds.narrowed)["a"] == pytest.approx(1 - (1 / 5) ** 0.5)
    assert builds.narrowed[0][0] == "a"
    assert builds.share(0.0, 1.0) == 1.0
    assert (builds.cg_x == sample_balance(PartsList((), own), seed=4).cg_x).all()
