"""The whole parts list: what is there, where it is, what it weighs."""

import pytest

import foam_samples as samples
from foamwright.core.errors import DesignError
from foamwright.design.model import (
    Attachment,
    Board,
    Covering,
    Extra,
    Fuselage,
    Gear,
    Glue,
    Joint,
    Pack,
    Reinforcement,
    Servo,
    Spar,
)
from foamwright.parts.build import build_parts, tray_range
from foamwright.parts.glue import part_centre
from foamwright.parts.model import LineKind, Source
from foamwright.shape.airframe import build_airframe

STOCK = samples.sample_stock()


def build(**values):
    design = samples.design(**values)
    return build_parts(design, build_airframe(design, 0.005), STOCK)


def named(parts, kind):
    return [part for part in parts.parts if part.name.startswith(kind)]


def test_the_trainer_has_its_pieces():
    parts = build()
    names = {part.name for part in parts.parts}
    assert {"aileron", "spar strip", "dihedral brace", "joint tape"} <= names
    assert {f"fuselage profile layer {n} of 3, front half" for n in (1, 2, 3)} <= names
    assert {"fuselage nose layer", "fuselage shoulder layer", "firewall", "wing dowel"} <= names
    assert {"stab", "elevator", "fin", "rudder", "wing tip plate", "pack stop"} <= names
    items = {item.id for item in parts.items}
    assert {"motor", "propeller", "controller", "pack", "receiver", "glue", "bands"} <= items
    assert {"servo-1", "pushrod-2", "horn-3"} <= items


def test_skin_area_and_mass_by_hand():
    # No ailerons: span 0.5842 by the blank's length, less nothing.
    parts = build(wing=samples.wing((samples.panel(0.5842, 0.19),)))
    (right, left) = named(parts, "wing skin")
    section = (
        build_airframe(samples.design(wing=samples.wing((samples.panel(0.5842, 0.19),))), 0.005)
        .wing.panels[0]
        .section
    )
    assert right.outline.area == pytest.approx(0.5842 * section.blank_length)
    assert left.outline.area == pytest.approx(right.outline.area)
    # Cut away: foam and inner paper (0.297 - 0.09) at the nose strip; over both 40 mm bevels half
    # the foam (0.297 - 0.18) and the inner paper.
    fold = next(line for line in section.lines if line.kind == "fold")
    gone = 0.5842 * (fold.width * 0.207 + 2 * 0.04 * (0.5 * 0.117 + 0.09))
    assert right.mass == pytest.approx(right.outline.area * 0.297 - gone, rel=1e-6)


def test_skin_lines():
    (right, _) = named(build(), "wing skin")
    kinds = [line.kind for line in right.lines]
    assert kinds.count(LineKind.FOLD) == 3
    assert kinds.count(LineKind.BEVEL) == 2
    assert LineKind.SCORE in kinds
    assert right.fold_along == (1.0, 0.0)


def test_skin_lies_where_the_wing_is():
    # A straight wing, no dihedral: the skin's middle is at half the half span, near mid chord.
    parts = build(wing=samples.wing((samples.panel(0.5, 0.19),)))
    (right, left) = named(parts, "wing skin")
    x, y, z = part_centre(right)
    assert y == pytest.approx(0.25, abs=1e-6)
    # Two skins of nearly equal length and the nose: between 45 and 52 % of the chord.
    assert 0.2 + 0.45 * 0.19 < x < 0.2 + 0.52 * 0.19
    assert 0.045 < z < 0.065
    assert part_centre(left) == pytest.approx((x, -y, z))


def test_dihedral_lifts_the_skin():
    flat = part_centre(named(build(wing=samples.wing((samples.panel(0.5, 0.19),))), "wing skin")[0])
    bent = part_centre(
        named(build(wing=samples.wing((samples.panel(0.5, 0.19, dihedral=0.1),))), "wing skin")[0]
    )
    assert bent[2] - flat[2] == pytest.approx(0.25 * 0.0998, rel=0.02)


def test_aileron_is_cut_out_of_the_skin():
    plain = named(build(wing=samples.wing()), "wing skin")[0]
    parts = build()
    cut, aileron = named(parts, "wing skin")[0], named(parts, "aileron")[0]
    # Both skins lose the aileron's area; the strip is one millimetre short at each end.
    gone = plain.outline.area - cut.outline.area
    chord, length = 0.18 * 0.197, 0.5842 - 0.06
    # Half the hole of the one servo in the middle: 23 + 1 mm along the chord, (25 + 1) / 2 out.
    hole = 0.024 * 0.013
    assert gone == pytest.approx(2 * chord * length + hole, rel=1e-6)
    assert aileron.outline.area == pytest.approx(chord * (length - 0.002), rel=1e-6)
    assert part_centre(aileron)[0] == pytest.approx(0.2 + 0.197 - 0.5 * chord, abs=5e-4)


def test_long_panel_is_split_and_staggered():
    parts = build(wing=samples.wing((samples.panel(0.9, 0.19),)))
    skins = [p for p in named(parts, "wing skin") if p.side == "right"]
    assert len(skins) == 2
    skin_joint = skins[0].outline.bounds[2]
    strips = [p for p in named(parts, "spar strip") if p.side == "right"]
    assert len(strips) == 4
    joints = {round(min(p.outline.bounds[2], 9), 4) for p in strips if p.id.endswith("a-right")}
    assert all(abs(joint - skin_joint) >= 0.08 - 1e-4 for joint in joints)
    assert len(joints) == 2
    assert "tape" in skins[0].notes


def test_polyhedral_breaks_the_spar():
    wing = samples.wing((samples.panel(0.35, 0.2), samples.panel(0.3, None, dihedral=0.2)))
    strips = [p for p in named(build(wing=wing), "spar strip") if p.side == "right"]
    assert sorted(round(p.outline.bounds[2], 3) for p in strips) == [0.3, 0.3, 0.35, 0.35]


def test_spar_strips_stack_inside():
    strips = [p for p in named(build(), "spar strip") if p.side == "right"]
    low, high = (part_centre(p) for p in strips)
    assert high[2] - low[2] == pytest.approx(0.005, rel=0.02)
    # Middle of the lower strip: underside 45 mm, skin 5 mm, half a strip, plus half the dihedral's
    # rise of 25.5 mm, less the drop of incidence at 27 % chord.
    expected = 0.045 + 0.0075 + 0.5 * 0.02546 - 0.27 * 0.197 * 0.0262
    assert low[2] == pytest.approx(expected, abs=3e-4)


def test_stepped_wing_layers():
    parts = build(wing=samples.wing((samples.panel(0.39, 0.17),), build="stepped", steps=(0.5,)))
    plate, layer = (p for p in parts.parts if p.side == "right" and p.id.startswith("wing-layer"))
    assert plate.outline.area == pytest.approx(0.39 * 0.17)
    assert layer.outline.area == pytest.approx(0.39 * 0.085)
    assert part_centre(layer)[2] - part_centre(plate)[2] > 0.0049
    assert not named(parts, "spar strip")


def test_saddle_is_cut_at_the_incidence():
    parts = build()
    shoulder = named(parts, "fuselage shoulder layer")[0]
    # Flat top at 45 mm: at the trailing edge the saddle lies chord * sin(incidence) lower; the
    # layer's middle is 10 mm out, where 2.5 deg of dihedral lift the wing by 0.436 mm.
    tops = [z for x, z in shoulder.outline.exterior.coords if abs(x - 0.397) < 2e-3]
    expected = 0.045 - 0.197 * 0.0262 + 0.010 * 0.0436
    assert min(z for z in tops if z > 0) == pytest.approx(expected, abs=3e-4)


def test_profile_layer_counts():
    parts = build(fuselage=Fuselage.model_construct(length=0.7, layers=3))
    assert len(named(parts, "fuselage profile")) == 3
    assert len(named(parts, "fuselage shoulder layer")) == 4
    assert len(named(parts, "fuselage nose layer")) == 4


def test_box_fuselage():
    parts = build(fuselage=Fuselage.model_construct(length=0.7, build="box", width=0.06))
    sides = named(parts, "fuselage side")
    assert [p.side for p in sides] == ["right", "left"]
    assert part_centre(sides[0])[1] == pytest.approx(-part_centre(sides[1])[1])
    assert 0.02 < part_centre(sides[0])[1] < 0.0275
    bottom = named(parts, "fuselage bottom")[0]
    # As wide as the box less both sides.
    assert bottom.outline.bounds[3] - bottom.outline.bounds[1] == pytest.approx(0.05)
    assert {p.name for p in parts.parts if "former" in p.name} == {
        "nose former",
        "front wing former",
        "rear wing former",
    }


def test_firewall_is_square_to_the_thrust_line():
    parts = build()
    plate = next(p for p in parts.parts if p.kind == "firewall")
    assert plate.source is Source.PLY
    facet = plate.facets[0]
    axis = build_airframe(samples.design(), 0.005).thrust_axis
    for edge in (facet.along, facet.across):
        assert sum(a * b for a, b in zip(edge, axis, strict=True)) == pytest.approx(0, abs=1e-12)
    assert sum(line.kind is LineKind.CUT for line in plate.lines) == 4 + 2
    # Four screws of 3 mm and two pins of 2.5 mm, drawn with twelve corners: 3 r^2 each.
    gone = 3 * (4 * 0.0015**2 + 2 * 0.00125**2)
    assert plate.mass == pytest.approx((0.044 * 0.05 - gone) * 0.003175 * 680)


def test_reinforcement_and_covering():
    stick = Reinforcement.model_construct(kind="bamboo", place="spar bottom", start=0.0, end=0.25)
    parts = build(
        wing=samples.wing(reinforcement=(stick,)),
        covering=Covering.model_construct(stock="packing tape", wing="all", tail="all"),
    )
    rods = named(parts, "bamboo")
    assert len(rods) == 2
    assert rods[0].mass == pytest.approx(0.25 * 0.25 * 3.14159 * 0.003**2 * 700, rel=1e-4)
    film = named(parts, "wing bottom covering") + named(parts, "wing top covering")
    # Both faces of 2 x 0.5842 x 0.197 at 45 g/m2.
    assert sum(p.mass for p in film) == pytest.approx(4 * 0.5842 * 0.197 * 0.045, rel=1e-6)
    stab = named(parts, "stab covering")
    assert sum(p.mass for p in stab) == pytest.approx(2 * 0.4 * 0.115 * 0.045, rel=1e-6)


def test_elevator_and_stab_fill_the_planform():
    parts = build()
    stab, elevator = named(parts, "stab")[0], named(parts, "elevator")[0]
    gap = 0.4 * 0.001
    # The slot of the fin's tab: 8 mm behind the fin's front at 760 to 8 mm ahead of the elevator's
    # hinge at 750 + 0.65 * 130 = 834.5 mm, as wide as the board.
    slot = 0.0585 * 0.005
    assert stab.outline.area + elevator.outline.area == pytest.approx(0.4 * 0.115 - gap - slot)
    assert part_centre(stab)[1] == pytest.approx(0.0, abs=1e-9)


def test_glue_shares_the_airframe():
    parts = build()
    airframe = sum(part.mass for part in parts.parts)
    glue = next(item for item in parts.items if item.id == "glue")
    assert glue.mass.typical == pytest.approx(0.11 * airframe)
    weighed = build(glue=Glue.model_construct(mass=0.03))
    assert next(i for i in weighed.items if i.id == "glue").mass.typical == 0.03


def test_items_follow_the_design():
    parts = build(
        gear=Gear.model_construct(position=0.15),
        extra=(Extra.model_construct(name="camera", mass=0.02, position=0.1),),
        servo=(Servo.model_construct(role="aileron left"), Servo.model_construct(role="rudder")),
        wing=samples.wing(
            aileron=samples.Aileron(), attachment=Attachment.model_construct(kind="bolts")
        ),
    )
    items = {item.id: item for item in parts.items}
    assert items["extra-1"].mass.typical == 0.02
    assert items["wheel-left"].at[1] == -0.1
    assert items["bolts"].mass.typical == pytest.approx(0.0014)
    # The aileron runs from 40 to 564 mm: its servo sits at the middle, on the left.
    assert items["servo-1"].at[1] == pytest.approx(-0.302, abs=2e-3)
    wire = items["pushrod-2"]
    length = sum((a - b) ** 2 for a, b in zip(items["servo-2"].at, items["horn-2"].at, strict=True))
    assert wire.mass.typical == pytest.approx((length**0.5 + 0.02) * 0.00888, rel=1e-3)


def test_left_out_things_are_left_out():
    parts = build(
        wing=samples.wing(
            spar=Spar.model_construct(strips=0),
            joint=Joint.model_construct(brace=None, tape=None),
            attachment=Attachment.model_construct(kind="glued"),
        ),
        servo=(),
    )
    names = {part.name for part in parts.parts}
    assert not names & {"spar strip", "dihedral brace", "joint tape", "wing dowel", "aileron"}
    assert not any(item.id.startswith(("servo", "bands", "bolts")) for item in parts.items)


def test_tray_range():
    design = samples.design(pack=Pack.model_construct(position=0.1, length=0.08))
    plane = build_airframe(design, 0.005)
    assert tray_range(design, plane) == pytest.approx((0.05, 0.397))
    given = samples.design(pack=Pack.model_construct(position=0.1, tray_front=0.08, tray_back=0.15))
    assert tray_range(given, plane) == (0.08, 0.15)
    bad = samples.design(pack=Pack.model_construct(position=0.1, tray_front=0.2, tray_back=0.15))
    with pytest.raises(DesignError, match="ahead of the tray's back"):
        tray_range(bad, plane)


def test_impossible_parts_say_why():
    with pytest.raises(DesignError, match="Put the middle of the pack inside"):
        build(pack=Pack.model_construct(position=-0.05))
    with pytest.raises(DesignError, match="no such entry in stock"):
        build(wing=samples.wing(joint=Joint.model_construct(tape="sticky stuff")))
    with pytest.raises(DesignError, match="the saddle would leave"):
        build(wing=samples.wing(height=-0.05))
    with pytest.raises(DesignError, match="no such board"):
        build(board=Board.model_construct(stock="granite"))
