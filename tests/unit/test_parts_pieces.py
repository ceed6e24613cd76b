"""Pieces, joints, materials, listing: hand-worked numbers."""

import math

import numpy as np
import pytest

import foam_samples as samples
from foamwright.core.bands import Band
from foamwright.core.errors import DesignError
from foamwright.design.model import Board, Pack, Propeller
from foamwright.parts.estimates import pack_mass, pack_size, propeller_mass
from foamwright.parts.joints import split_places
from foamwright.parts.listing import cut_list
from foamwright.parts.material import board_work, entry, ply_areal_mass, rod_areal_mass
from foamwright.parts.model import Line, LineKind, Source
from foamwright.parts.piece import Flat, Piece, finish, pair, rectangle

STOCK = samples.sample_stock()


def strip():
    ring = rectangle(0.5, 0.02)
    flat = Flat(
        ring,
        np.array([0.1, 0.2, 0.0]),
        np.array([0.0, 1.0, 0.0]),
        np.array([-1.0, 0.0, 0.0]),
        0.005,
    )
    return Piece(
        "strip-right", "strip", "strip", "board", Source.BOARD, ring, Band(0.2, 0.3, 0.4), 0.005,
        (flat,), lines=(Line(LineKind.MARK, ((0.1, 0.0), (0.1, 0.02))),),
    )  # fmt: skip


def test_finished_strip():
    (part,) = finish([strip()])
    assert part.mass == pytest.approx(0.5 * 0.02 * 0.3)
    assert part.outline.exterior.is_ccw
    assert part.facets[0].polygon.area == pytest.approx(0.01)


def test_clockwise_rings_are_turned():
    piece = strip()
    turned = Piece(**{f: getattr(piece, f) for f in piece.__slots__} | {"ring": piece.ring[::-1]})
    assert finish([turned])[0].outline.exterior.is_ccw


def test_mirror_image():
    right, left = finish(pair(strip()))
    assert (left.id, left.side, left.mirrored_of) == ("strip-left", "left", "strip-right")
    assert left.outline.bounds == pytest.approx((-0.5, 0.0, 0.0, 0.02))
    facet = left.facets[0]
    # The flat point (-0.5, 0.01) is the mirror image of (0.5, 0.01): x 0.09, y -(0.2 + 0.5).
    place = [facet.origin[k] - 0.5 * facet.along[k] + 0.01 * facet.across[k] for k in range(3)]
    assert place == pytest.approx([0.09, -0.7, 0.0])
    assert left.lines[0].points == ((-0.1, 0.0), (-0.1, 0.02))
    assert right.side == "right"


def test_no_joint_where_the_piece_fits():
    assert split_places(0.7, 0.752) == ()


def test_joints_keep_away_from_others():
    assert split_places(1.2, 0.752) == (0.6,)
    (cut,) = split_places(1.2, 0.752, avoid=(0.6,))
    assert abs(cut - 0.6) == pytest.approx(0.08)
    cuts = split_places(2.0, 0.752, avoid=(0.66,))
    parts = np.diff([0.0, *cuts, 2.0])
    assert parts.max() <= 0.752
    assert min(abs(c - 0.66) for c in cuts) >= 0.08 - 1e-9


def test_impossible_joints_say_why():
    with pytest.raises(DesignError, match="Check the unit"):
        split_places(40.0, 0.752, field="wing.panel.0.span")
    with pytest.raises(DesignError, match="no joint keeps"):
        split_places(0.2, 0.15, avoid=(0.1,))


def test_rod_mass_by_hand():
    # 1.2 mm steel wire: pi/4 d2 7850 = 8.88 g/m; areal mass times its diameter.
    wire = STOCK.rods["music wire 1.2 mm"]
    assert rod_areal_mass(wire).typical * 0.0012 == pytest.approx(0.00888, rel=1e-3)
    # 18 x 1.7 mm stick of 700 kg/m3: 3.2 g in 150 mm.
    stick = STOCK.rods["jumbo craft stick"]
    assert rod_areal_mass(stick).typical * 0.018 * 0.150 == pytest.approx(0.003213)


def test_ply_mass_by_hand():
    # A square foot of 1/8 in at 680 kg/m3: 0.0929 * 0.003175 * 680 = 200.6 g.
    ply = ply_areal_mass(STOCK.plies["birch ply 1/8 in"])
    assert ply.typical * 0.3048**2 == pytest.approx(0.20058, rel=1e-4)


def test_board_weighed_and_peeled():
    weighed = board_work(Board.model_construct(mass=0.120), STOCK, 0.005)
    assert weighed.areal_mass.typical == pytest.approx(0.120 / (0.762 * 0.508))
    assert weighed.areal_mass.low == weighed.areal_mass.high
    peeled = board_work(Board.model_construct(papers="one peeled"), STOCK, 0.005)
    assert peeled.areal_mass.typical == pytest.approx(0.297 - 0.09)
    assert peeled.papers == 1


def test_missing_stock_names_the_nearest():
    with pytest.raises(DesignError, match='Did you mean "birch ply 1/8 in"'):
        entry(STOCK.plies, "birch ply 1/8", "motor.firewall.stock")


def test_pack_and_propeller():
    # 3 cells, 1300 mAh: 14.43 Wh * 6.9 + 12 = 111.6 g.
    pack = Pack.model_construct(cells=3, capacity=4680.0)
    assert pack_mass(pack).typical == pytest.approx(0.1116, abs=1e-4)
    assert math.prod(pack_size(pack)) * 1950 == pytest.approx(0.1116, abs=1e-4)
    assert pack_mass(Pack.model_construct(mass=0.1)).low == 0.1
    # 2^2.5 = 5.66 times at twice the diameter.
    big = Propeller.model_construct(kind="electric", diameter=2 * 0.2286)
    assert propeller_mass(big).typical == pytest.approx(0.013 * 2**2.5)


def test_cut_list_groups_by_kind():
    lines = cut_list(finish(pair(strip())))
    assert len(lines) == 1
    assert (lines[0].count, lines[0].name) == (2, "strip")
    assert lines[0].mass.typical == pytest.approx(2 * 0.01 * 0.3)
    assert (lines[0].length, lines[0].width) == pytest.approx((0.5, 0.02))
