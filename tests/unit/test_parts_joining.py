"""What joins the parts: mirror pairs, holes, doublers, braces, plates, tabs, horns."""

from dataclasses import replace

import pytest
from shapely import Polygon

import foam_samples as samples
from foamwright.design.model import Attachment, Fuselage, Spar
from foamwright.parts.build import build_parts
from foamwright.parts.glue import part_centre
from foamwright.parts.model import LineKind
from foamwright.shape.airframe import build_airframe

STOCK = samples.sample_stock()


def build(**values):
    design = samples.design(**values)
    return build_parts(design, build_airframe(design, 0.005), STOCK)


def named(parts, kind):
    return [part for part in parts.parts if part.name.startswith(kind)]


def test_fuselage_layers_are_mirror_pairs():
    parts = build(fuselage=Fuselage.model_construct(length=0.7, layers=3))
    left, middle, right = named(parts, "fuselage profile")
    assert (left.side, middle.side, right.side) == ("left", "", "right")
    assert right.mirrored_of == left.id
    # Layers of 5 mm side by side: middles 5 mm out.
    assert part_centre(left)[1] == pytest.approx(-0.005)
    assert part_centre(right)[1] == pytest.approx(0.005)
    shoulders = named(parts, "fuselage shoulder layer")
    assert [p.mirrored_of for p in shoulders if p.side == "right"] == [
        p.id for p in shoulders if p.side == "left"
    ]


def test_servo_and_dowel_holes_by_hand():
    parts = build(fuselage=Fuselage.model_construct(length=0.7, layers=3))
    outer = named(parts, "fuselage profile")[0]
    sizes = sorted(
        (round(h.bounds[2] - h.bounds[0], 4), round(h.bounds[3] - h.bounds[1], 4))
        for h in map(Polygon, outer.outline.interiors)
    )
    # Two 23 x 12 mm servos with half a millimetre of play around, two 1/4 in dowels.
    assert sizes[2:] == [(0.024, 0.013)] * 2
    assert sizes[0] == pytest.approx((0.00635, 0.00635), rel=0.03)
    round_hole = min(Polygon(h).area for h in outer.outline.interiors)
    assert round_hole == pytest.approx(3.14159265 / 4 * 0.00635**2)


def test_servos_do_not_share_a_place():
    items = {item.id: item for item in build().items}
    assert abs(items["servo-3"].at[0] - items["servo-2"].at[0]) == pytest.approx(0.035)


def test_pack_is_strapped_to_the_side_of_a_profile():
    profile = {item.id: item for item in build().items}
    # Nose of seven 5 mm layers: 17.5 mm and half the pack's thickness.
    assert profile["pack"].at[1] == pytest.approx(0.0175 + 0.5 * profile["pack"].size[1])
    assert profile["controller"].at[1] < 0.0
    box = build(fuselage=Fuselage.model_construct(length=0.7, build="box"))
    assert next(i for i in box.items if i.id == "pack").at[1] == 0.0


def test_spliced_fuselage_gets_doublers_and_tape():
    parts = build()
    doublers = named(parts, "fuselage splice doubler")
    shoulder = next(p for p in parts.parts if p.id == "fuselage-shoulder-1-left").outline.bounds
    for layer, side in ((1, "left"), (3, "right")):
        front = next(p for p in parts.parts if p.id == f"fuselage-{layer}a").outline.bounds
        joint = max(abs(front[0]), front[2])
        covered = shoulder[0] - 0.01 < joint < shoulder[2] + 0.01
        assert covered or side in {p.side for p in doublers}
    assert doublers
    assert all(p.outline.bounds[2] - p.outline.bounds[0] <= 0.1 + 1e-9 for p in doublers)
    joints = len({p.id for p in named(parts, "fuselage profile")}) - 3
    assert len(named(parts, "fuselage joint tape")) == 2 * joints


def test_polyhedral_break_is_braced_and_taped_on_both_faces():
    wing = samples.wing((samples.panel(0.35, 0.2), samples.panel(0.3, None, dihedral=0.2)))
    parts = build(wing=wing)
    right, left = named(parts, "polyhedral brace")
    assert left.mirrored_of == right.id
    # A V of two arms of 75 mm, 10 mm high, less and plus the mitre's triangles: 2 x 75 x 10.
    assert right.outline.area == pytest.approx(2 * 0.075 * 0.010, rel=0.02)
    tapes = [p for p in named(parts, "joint tape") if p.side == "right"]
    assert len(tapes) == 2
    assert part_centre(tapes[1])[2] - part_centre(tapes[0])[2] > 0.015
    inner, outer = (p for p in named(parts, "wing skin") if p.side == "right")
    # Half of 0.2 rad = 5.7 deg on each side of the break.
    assert "Outer end bevelled 5.7°" in inner.notes
    assert "Inner end bevelled 5.7°" in outer.notes


def test_bolted_wing_has_plates_and_pads():
    parts = build(wing=samples.wing(attachment=Attachment.model_construct(kind="bolts", bolts=3)))
    plates, pads = named(parts, "wing bolt plate"), named(parts, "bolt pad")
    assert (len(plates), len(pads)) == (2, 3)
    holes = [sum(line.kind is LineKind.CUT for line in p.lines) for p in plates]
    assert holes == [2, 1]
    assert part_centre(plates[0])[0] == pytest.approx(0.2 + 0.85 * 0.197)


def test_wing_set_proud_stands_on_blocks():
    assert not named(build(), "incidence block")
    parts = build(wing=samples.wing(height=0.053))
    blocks = named(parts, "incidence block")
    assert len(blocks) == 7
    # 8 mm at the leading edge, 8 - 197 * 0.0262 = 2.84 mm at the trailing edge.
    tall = [z for x, z in blocks[0].outline.exterior.coords if x < 0.21]
    assert max(tall) - min(tall) == pytest.approx(0.008, abs=3e-4)


def test_fin_has_a_tab_and_its_slots():
    parts = build(fuselage=Fuselage.model_construct(length=0.914, layers=3))
    fin, stab = named(parts, "fin")[0], named(parts, "stab")[0]
    assert fin.outline.bounds[0] < -0.005  # below its foot, through the stab
    (slot,) = stab.outline.interiors
    west, south, east, north = Polygon(slot).bounds
    assert east - west == pytest.approx(0.005, abs=1e-9)  # as wide as the board
    tab = [(u, v) for u, v in fin.outline.exterior.coords if u < -1e-6]
    assert max(v for _, v in tab) - min(v for _, v in tab) == pytest.approx(north - south)


def test_fin_without_a_middle_layer_is_pinned():
    parts = build(fuselage=Fuselage.model_construct(length=0.914, layers=2))
    assert len(named(parts, "fin pin")) == 2
    assert not named(parts, "stab")[0].outline.interiors


def test_rudder_clears_the_elevator():
    design = samples.design()
    plane = build_airframe(design, 0.005)
    parts = build_parts(design, plane, STOCK)
    rudder = next(p for p in parts.parts if p.id == "rudder")
    # Elevator hinge at 834.5 mm, its trailing edge 45.5 mm behind; swung up by 0.192 rad it rises
    # 45.5 * sin(0.192) = 8.7 mm at 880 mm; 2 mm are left free.
    stab_v = 0.76 - 0.880
    edge = rudder.outline.exterior.coords
    low = [u for u, v in edge if v <= stab_v]
    assert min(low) > 0.0087


def test_horns_are_cut_from_thin_ply():
    stock = replace(
        STOCK, plies=STOCK.plies | {"thin": replace(
            STOCK.plies["birch ply 1/8 in"], name="thin", thickness=samples.exact(0.0016)
        )}
    )  # fmt: skip
    design = samples.design()
    made = build_parts(design, build_airframe(design, 0.005), stock)
    horns = [p for p in made.parts if p.id.startswith("horn-")]
    assert len(horns) == 3
    assert not any(item.id.startswith("horn-") for item in made.items)
    hole = next(line for line in horns[0].lines if line.label == "use this hole")
    heights = [v for _, v in hole.points]
    assert 0.5 * (min(heights) + max(heights)) == pytest.approx(0.014)


def test_hollow_hinge_gets_a_closing_strip():
    aileron = samples.Aileron(chord=0.055)
    parts = build(wing=samples.wing(aileron=aileron))
    right, left = named(parts, "aileron closing strip")
    assert left.mirrored_of == right.id
    assert not named(build(), "aileron closing strip")


def test_creases_left_out_are_named():
    # The first usual crease, at 10 % of 72 mm, would lie on the nose circle (7.5 mm).
    spar = Spar.model_construct(strips=0)
    wing = samples.wing((samples.panel(0.5, 0.072),), creases=1, bevel=0.02, spar=spar)
    skin = named(build(wing=wing), "wing skin")[0]
    assert "left out: no room between nose, bevel" in skin.notes
