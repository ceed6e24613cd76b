"""What fails first on a plain trainer, against what the trade knows and against hand figures."""

from dataclasses import replace

import pytest

from foamwright.core.bands import Band
from foamwright.core.errors import ModelError
from foamwright.stock.fields import MISSING
from foamwright.strength.cases import band_of, one_at_a_time, sampled
from foamwright.strength.joint import heat_factor, tape_line_strength, torsion_patch_moment
from foamwright.strength.plates import couple_stress
from foamwright.strength.sample import sample_strength
from sample_wing import DATA, STOCK, design, limits, loads, strength
from sample_wing import airframe_of as airframe


def test_a_one_metre_wing_of_half_a_kilogram():
    # Builders' folded wings of this size bear some 4 to 10 g; common practice, no source.
    for papers in ("both", "one peeled"):
        result = strength(design(board__papers=papers))
        assert 4.0 <= result.limit_load_factor <= 10.0
        band = next(f for f in result.failures if f.name == result.first_failure).load_factor_band
        assert 1.4 <= band.typical / band.low <= 2.2
        assert 1.4 <= band.high / band.typical <= 2.2


def test_a_peeled_skin_without_spar_buckles_first():
    result = strength(design(board__papers="one peeled", wing__spar__strips=0))
    assert result.first_failure == "top skin buckles between its supports"
    assert limits(result)["wing_top_buckling"] < limits(strength())["wing_top_buckling"]


def test_an_untaped_glued_joint_fails_before_the_section():
    bare = limits(strength(design(wing__joint={"tape": None, "brace": None})))
    assert bare["centre_joint"] < bare["wing_top_crushing"]
    taped = limits(strength(design(wing__joint={"brace": None})))
    braced = limits(strength(design(wing__joint={"tape": None})))
    assert taped["centre_joint"] > bare["centre_joint"]
    assert braced["centre_joint"] > bare["centre_joint"]


def test_sixteenth_ply_fails_and_eighth_holds():
    # For a small outrunner 1/16 in ply is not enough and 1/8 in is the usual; common practice.
    thin, usual = (
        strength(design(motor__firewall__stock=f"birch ply {size} in")) for size in ("1/16", "1/8")
    )
    assert thin.firewall_margin < 0.0
    assert usual.firewall_margin > 0.3
    assert limits(thin)["firewall_bending"] == pytest.approx(1.0 + thin.firewall_margin)


def test_loads():
    result = strength()
    # (15.5 / 6.2)² = 6.25, flown to 6 by a trainer.
    assert result.manoeuvre_load_factor == 6.0
    sport = strength(design(pilot__level="experienced", wing__aileron={}))
    assert sport.manoeuvre_load_factor == pytest.approx(6.25)
    slow = strength(top_speed=9.3)
    assert slow.manoeuvre_load_factor == pytest.approx(2.25)
    assert slow.needed_load_factor == max(slow.manoeuvre_load_factor, slow.gust_load_factor)


def test_pushrods_and_servos():
    result = strength()
    # 0.02 N m * 10 mm / 14 mm over the 9 g servo's 0.15 N m.
    assert result.servo_loads["elevator"] == pytest.approx(0.02 * 10 / 14 / 0.15)
    # pi² * 200 GPa * pi 1.2⁴ / 64 mm⁴ / (150 mm)² = 8.93 N over 0.02 / 0.014 = 1.43 N.
    assert limits(result)["pushrod_elevator"] == pytest.approx(8.93 / 1.4286, rel=1e-3)
    assert "no hinge moment" in strength(hinge_moments={}).notes[0]


def test_no_bands_hold_nothing():
    result = strength(design(wing__attachment={"bands": 0}))
    assert result.limit_load_factor == 0.0
    assert result.first_failure == "rubber bands"


def test_bands_too_short_or_too_long():
    short = strength(design(wing__attachment={"band": "rubber band 16", "bands": 4}))
    assert limits(short)["bands"] < limits(strength())["bands"]
    loose = strength(design(wing__attachment={"band": "rubber band 107", "bands": 4}))
    assert "loose" in next(f for f in loose.failures if f.id == "bands").why or (
        limits(loose)["bands"] > 0
    )
    wide = DATA["wing"]["panel"][0] | {"chord": "330 mm"}
    torn = strength(design(wing__panel=[wide], wing__attachment={"band": "rubber band 16"}))
    assert any("law of rubber" in note for note in torn.notes)


@pytest.mark.parametrize(("kind", "name"), [("bolts", "bolts"), ("glued", "attachment")])
def test_other_ways_to_hold_the_wing(kind, name):
    assert limits(strength(design(wing__attachment={"kind": kind})))[name] > 1.0


@pytest.mark.parametrize("build", ["stepped", "plate"])
def test_other_builds(build):
    result = strength(design(wing__build=build))
    assert result.limit_load_factor > 0.5
    assert "wing_top_buckling" not in limits(result)
    assert result.divergence_speed < strength().divergence_speed


def test_polyhedral_joints_are_looked_at():
    panels = [
        {"span": "300 mm", "chord": "190 mm", "dihedral": "2 deg"},
        {"span": "200 mm", "tip_chord": "150 mm", "dihedral": "10 deg"},
    ]
    found = limits(strength(design(wing__panel=panels)))
    assert "panel_joint_2" in found


def test_short_sticks_end_to_end_are_not_counted():
    stick = {"kind": "craft stick", "end": "400 mm"}
    one, two = (strength(design(wing__reinforcement=[stick | {"count": n}])) for n in (1, 2))
    assert one.tip_deflection == pytest.approx(strength().tip_deflection, rel=1e-2)
    assert two.tip_deflection < one.tip_deflection
    assert any("cut at every joint" in note for note in one.notes)


def test_missing_figures_are_named():
    board = STOCK.boards["light display board"]
    bare = replace(board, name="odd board", core_modulus=MISSING, paper_modulus=MISSING)
    stock = replace(STOCK, boards={**STOCK.boards, "odd board": bare})
    with pytest.raises(ModelError, match="the board's core modulus"):
        strength(design(board__stock="odd board"), stock)
    weak = replace(board, name="odd board", paper_tensile_strength=MISSING)
    stock = replace(STOCK, boards={**STOCK.boards, "odd board": weak})
    result = strength(design(board__stock="odd board"), stock)
    assert "wing_bottom_tension" not in limits(result)
    assert any("paper tensile strength" in note for note in result.notes)


def test_a_brace_longer_than_the_wing_is_refused():
    with pytest.raises(ModelError, match="The brace is 1200 mm long, the wing only 1000 mm"):
        strength(design(wing__joint={"brace_length": "1200 mm"}))


def test_small_formulas_by_hand():
    assert heat_factor(296.15, 323.0) == 1.0
    assert tape_line_strength(3000.0, bond=0.15e6, reach=0.024) == 3000.0
    # 0.1 MPa, 60 x 80 mm: Ip = 60 * 80 * 10000 / 12 mm⁴ = 4e6, corner 50 mm: 8 N m.
    assert torsion_patch_moment(0.1e6, length=0.08, height=0.06) == pytest.approx(8.0)
    # Twice as thick, a quarter of the stress.
    thin, thick = (couple_stress(1.0, radius=0.02, pad=0.008, thickness=t) for t in (0.0015, 0.003))
    assert thin / thick == pytest.approx(4.0)


def test_bands_of_a_product():
    # Two figures that may be half or double each: ln 2 * sqrt(2).
    figures = one_at_a_time({"a": Band(1.0, 2.0, 4.0), "b": Band(3.0, 6.0, 12.0)})
    band = band_of(figures["a"] * figures["b"], source="", doubt=0.0)
    assert band.high / band.typical == pytest.approx(2.0**2**0.5)
    draws = sampled({"a": Band(1.0, 2.0, 4.0)}, 20001, seed=3)["a"].ravel()
    assert (draws < 1.0).mean() == pytest.approx(0.1, abs=0.01)
    assert (draws > 4.0).mean() == pytest.approx(0.1, abs=0.01)


def test_sampled_builds():
    plan = design()
    one, again, other = (
        sample_strength(plan, airframe(plan), STOCK, loads=loads(), seed=seed) for seed in (1, 1, 2)
    )
    assert (one.limits == again.limits).all()
    first = next(f for f in strength().failures if f.name == strength().first_failure)
    share = one.share(first.load_factor)
    assert share == pytest.approx(other.share(first.load_factor), abs=0.02)
    assert 0.2 < share < 0.7
    assert sum(one.first.values()) == pytest.approx(1.0)
    assert sum(part for _, part in one.doubts) == pytest.approx(1.0)
    assert one.doubts[0][0].startswith("board.")
