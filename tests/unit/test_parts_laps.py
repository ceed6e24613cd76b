"""Laps of sticks, hatch, openings and the V-tail's seat: hand-worked numbers."""

import math
from itertools import pairwise

import pytest

import foam_samples as samples
from foamwright.core.errors import DesignError
from foamwright.design.model import Fuselage, Pack, Reinforcement, Spar, Tail
from foamwright.parts.build import build_parts
from foamwright.parts.glue import part_centre
from foamwright.parts.laps import lap_length, lapped
from foamwright.shape.airframe import build_airframe

STOCK = samples.sample_stock()


def build(**values):
    design = samples.design(**values)
    return build_parts(design, build_airframe(design, 0.005), STOCK)


def test_lap_length_by_hand():
    assert lap_length(0.003, 0.3) == pytest.approx(0.036)
    assert lap_length(0.0017, 0.15) == pytest.approx(0.0204)
    assert lap_length(0.00635, 0.15) == pytest.approx(0.0495)


def test_laps_cover_the_run():
    # 0.5 m of 0.3 m sticks lapping 40 mm: two would reach 0.56 m.
    assert lapped(0.5, 0.3, lap=0.04) == ((0.0, 0.3), (pytest.approx(0.26), 0.5))
    # A lap's middle at 0.28 m is 10 mm from a joint at 0.29 m: the first stick gets shorter until
    # 60 mm lie between them; in steps of 0.6 x 0.3 / 12 = 15 mm: four of them, 0.24 m.
    (_, first), (second, _) = lapped(0.5, 0.3, lap=0.04, avoid=(0.29,), apart=0.06)
    assert first == pytest.approx(0.24)
    assert second == pytest.approx(0.20)
    assert lapped(0.2, 0.3, lap=0.04) == ((0.0, 0.2),)
    with pytest.raises(DesignError, match="more than 20 sticks"):
        lapped(5.0, 0.1, lap=0.02)


def test_short_sticks_lap_on_each_other():
    stick = Reinforcement.model_construct(
        kind="craft stick", place="spar bottom", start=0.0, end=0.4, count=1
    )
    parts = build(wing=samples.wing((samples.panel(0.5, 0.19),), reinforcement=(stick,)))
    mine = [p for p in parts.parts if p.id.startswith("reinforcement") and p.side == "right"]
    # 150 mm sticks lapping 20.4 mm: 1 + (0.4 - 0.15) / 0.1296 = 2.9, so 4 pieces.
    reach = sorted((p.facets[0].origin[1], p.outline.bounds[2]) for p in mine)
    assert len(mine) == math.ceil((0.4 - 0.0204) / (0.15 - 0.0204)) == 3
    for (start, length), (following, _) in pairwise(reach):
        assert start + length - following == pytest.approx(0.0204, abs=1e-6)
    levels = [part_centre(p)[2] for p in sorted(mine, key=lambda p: p.facets[0].origin[1])]
    assert levels[1] - levels[0] == pytest.approx(0.0017, abs=2e-5)
    assert levels[2] == pytest.approx(levels[0], abs=2e-5)
    assert "laps the next by 20 mm" in mine[0].notes


def test_sticks_beside_each_other_are_staggered():
    stick = Reinforcement.model_construct(
        kind="bamboo", place="spar bottom", start=0.0, end=0.5, count=2
    )
    parts = build(wing=samples.wing((samples.panel(0.52, 0.19),), reinforcement=(stick,)))
    mine = [p for p in parts.parts if p.id.startswith("reinforcement") and p.side == "right"]
    first = {p.id.split("-")[4]: p.outline.bounds[2] for p in mine if p.id.split("-")[3] == "1"}
    # 300 mm skewers lap 36 mm; the laps' middles keep 0.08 m from each other.
    assert abs(first["1"] - first["2"]) >= 0.08 - 1e-9


def box(**values):
    return Fuselage.model_construct(length=0.9, build="box", **values)


def test_a_box_has_a_hatch_over_its_pack():
    pack = Pack.model_construct(position=0.13, length=0.07)
    parts = build(fuselage=box(nose_length=0.05), pack=pack)
    by_id = {part.id: part for part in parts.parts}
    hatch = by_id["fuselage-hatch"]
    facet = hatch.facets[0]
    # From the nose former at 50 mm to 10 mm behind the pack (165 + 10 mm), less 0.5 mm of play;
    # the 25 mm of top from there to the wing at 0.2 m stay.
    assert facet.origin[0] == pytest.approx(0.0505)
    long = hatch.outline.bounds[2]
    assert long == pytest.approx(0.175 - 0.0505 - 0.0005, rel=0.02)
    assert "do not glue" in hatch.notes
    assert "fuselage-top-middle" in by_id


def test_no_hatch_over_a_pack_under_the_wing():
    pack = Pack.model_construct(position=0.26, length=0.07)
    ids = {part.id for part in build(fuselage=box(), pack=pack).parts}
    assert "fuselage-hatch" not in ids
    assert "fuselage-top-front" in ids


def test_formers_are_open_for_leads():
    parts = build(fuselage=box(width=0.06, nose_height=0.06, height=0.09))
    former = next(p for p in parts.parts if p.id == "fuselage-former-front-wing")
    (left, bottom, right, top) = former.outline.bounds
    hole = former.outline.interiors[0].bounds
    assert right - left == pytest.approx(0.05)
    assert hole == pytest.approx((left + 0.01, bottom + 0.01, right - 0.01, top - 0.01))


def test_formers_stand_clear_of_the_dowels():
    # The dowel of a wing at 0.2 m runs at 0.188 m; a nose that long would put its former there.
    parts = build(fuselage=box(nose_length=0.187))
    former = next(p for p in parts.parts if p.id == "fuselage-former-nose")
    # Ahead of the 6.35 mm dowel's hole by half a board and 1 mm.
    assert former.facets[0].origin[0] < 0.188 - 0.003175 - 0.0025


@pytest.mark.parametrize("build_kind", ["profile", "box"])
def test_vee_tail_stands_on_plates(build_kind):
    stab = samples.tail(position=0.75, span=0.5, chord=0.12, dihedral=0.6)
    parts = build(
        tail=Tail(kind="V"), stab=stab, fin=None,
        fuselage=Fuselage.model_construct(length=0.9, build=build_kind),
    )  # fmt: skip
    seats = [part for part in parts.parts if part.name == "V-tail seat"]
    assert [part.side for part in seats] == ["right", "left"] * 2
    facet, ring = seats[0].facets[0], seats[0].outline.exterior.coords
    # Fixed chord: 60 % of 120 mm; a fifth of it behind 0.75 m.
    hinge = facet.origin[0] - 0.75
    assert hinge == pytest.approx(0.2 * stab.hinge * 0.12)
    # The slanted edge rises with the half: the outermost corner and the inner end of that edge.
    far = max(ring)
    near = min(ring, key=lambda p: abs(p[1] - (far[1] - (far[0] - p[0]) * math.tan(0.6))
                                       ) if p != far else 1.0)  # fmt: skip
    assert (far[1] - near[1]) / (far[0] - near[0]) == pytest.approx(math.tan(0.6), rel=1e-6)


def test_vee_tail_seat_is_cut_into_each_layer():
    stab = samples.tail(position=0.62, span=0.4, chord=0.12, dihedral=0.6, height=0.014)
    body = Fuselage.model_construct(length=0.70, layers=3, tail_height=0.05)
    parts = build(tail=Tail(kind="V"), stab=stab, fin=None, fuselage=body)
    tops = {}
    for number in (1, 2):
        layer = next(part for part in parts.parts if part.id == f"fuselage-{number}")
        line = [z for x, z in layer.outline.exterior.coords if abs(abs(x) - 0.70) < 1e-6]
        tops[number] = max(line)
    # The half's underside at the middle: 14 mm less half the board over cos 0.6. Outer layers lie
    # 5 mm out, so their seat is 5 mm x tan 0.6 higher.
    assert tops[2] == pytest.approx(0.014 - 0.0025 / math.cos(0.6))
    assert tops[1] - tops[2] == pytest.approx(0.005 * math.tan(0.6))


def test_a_lone_strips_joint_is_taped():
    spar = Spar.model_construct(strips=1)
    parts = build(wing=samples.wing((samples.panel(0.9, 0.19),), spar=spar))
    tapes = [part for part in parts.parts if part.name == "spar joint tape"]
    strips = [p for p in parts.parts if p.name == "spar strip" and p.side == "right"]
    assert len(strips) == 2
    assert [part.side for part in tapes] == ["right", "left"]
    joint = min(p.outline.bounds[2] for p in strips if p.id.endswith("a-right"))
    # 160 mm of it, half to each side of the joint.
    assert part_centre(tapes[0])[1] == pytest.approx(joint, abs=1e-3)
    assert tapes[0].outline.bounds[2] == pytest.approx(0.16)
    doubled = build(wing=samples.wing((samples.panel(0.9, 0.19),)))
    assert not any(part.name == "spar joint tape" for part in doubled.parts)


def test_walls_of_a_box_are_not_joined_at_one_place():
    parts = build(fuselage=box(), pack=Pack.model_construct(position=0.13, length=0.07)).parts
    joints = {}
    for part in parts:
        for wall in ("side", "bottom", "top-rear"):
            if part.id.startswith(f"fuselage-{wall}-a") and part.side != "left":
                origin, outline = part.facets[0].origin, part.outline.bounds
                joints[wall] = outline[2] if wall == "side" else origin[0] + outline[2]
    # Sides and bottom of 0.9 m are joined once; the rear of the top is shorter than a board.
    assert set(joints) == {"side", "bottom"}
    assert abs(joints["side"] - joints["bottom"]) >= 0.079


def test_a_dowel_lies_in_a_channel_of_the_spar():
    dowel = Reinforcement.model_construct(
        kind="dowel", stock="hardwood dowel 1/4 in", place="spar bottom",
        start=0.0, end=0.25, count=1,
    )  # fmt: skip
    parts = build(wing=samples.wing((samples.panel(0.5, 0.19),), reinforcement=(dowel,))).parts
    lower, upper = (
        next(p for p in parts if p.id == f"spar-strip-1-{layer}-right") for layer in (1, 2)
    )
    # 6.35 mm in 5 mm board: through the lower strip, 1.35 mm into the upper; 0.2 mm of play.
    assert lower.outline.area == pytest.approx(0.5 * 0.0254 - 0.25 * (0.00635 + 0.0004), rel=1e-6)
    assert not lower.outline.interiors
    assert upper.outline.area == pytest.approx(0.5 * 0.0254)
    marks = [line for line in upper.lines if line.label.startswith("groove")]
    assert marks[0].label == "groove 1.3 mm deep"  # 1.35, as a ruler shows it
    assert marks[0].points[1] == pytest.approx((0.25, 0.0127 - 0.003175 - 0.0002), abs=1e-6)
    left = next(p for p in parts if p.id == "spar-strip-1-1-left")
    assert left.outline.area == pytest.approx(lower.outline.area)


def test_a_stick_as_long_as_the_spar_leaves_it_in_one_piece():
    dowel = Reinforcement.model_construct(
        kind="dowel", stock="hardwood dowel 1/4 in", place="spar bottom",
        start=0.0, end=0.5, count=1,
    )  # fmt: skip
    parts = build(wing=samples.wing((samples.panel(0.5, 0.19),), reinforcement=(dowel,))).parts
    lower = next(p for p in parts if p.id == "spar-strip-1-1-right")
    assert lower.outline.area == pytest.approx(0.5 * 0.0254)
    assert next(line.label for line in lower.lines) == "groove 5 mm deep"
    assert "left off" not in lower.notes
