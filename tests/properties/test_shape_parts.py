"""Shape and parts of random designs: mirror images, lengths, areas and masses kept."""

import math
from itertools import pairwise

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from shapely import LineString, Polygon, affinity

import foam_samples as samples
from foamwright.core.errors import DesignError, DesignErrors
from foamwright.design.model import Aileron, Covering, Fuselage, Pack, Reinforcement, Spar, Tail
from foamwright.parts.build import build_parts
from foamwright.parts.glue import part_centre
from foamwright.parts.laps import lap_length, lapped
from foamwright.parts.listing import cut_list
from foamwright.shape.airframe import build_airframe
from foamwright.shape.folded import NEUTRAL, FoldedRecipe, folded_section
from foamwright.shape.section import wing_section

STOCK = samples.sample_stock()
length = st.floats(0.15, 1.0)


@st.composite
def sticks(draw):
    kind = draw(st.sampled_from(["craft stick", "bamboo", "dowel", "foam strip", "mesh tape"]))
    return Reinforcement.model_construct(
        kind=kind,
        stock="hardwood dowel 1/4 in" if kind == "dowel" else None,
        place=draw(st.sampled_from(["spar top", "spar bottom", "skin bottom", "leading edge"])),
        start=draw(st.floats(0.0, 0.1)),
        end=draw(st.none() | st.floats(0.12, 1.2)),
        count=draw(st.integers(1, 3)),
    )


@st.composite
def wings(draw):
    panels = []
    chord = draw(st.floats(0.14, 0.25))
    for index in range(draw(st.integers(1, 3))):
        tip = draw(st.none() | st.floats(0.13, 0.22))
        panels.append(
            samples.panel(
                draw(length),
                chord if index == 0 else None,
                tip_chord=tip,
                sweep=draw(st.sampled_from([0.0, 0.1, -0.05])),
                dihedral=draw(st.floats(0.0, 0.25)),
                washout=draw(st.floats(0.0, 0.05)),
            )
        )
        chord = tip or chord
    return samples.wing(
        panels,
        position=draw(st.floats(0.12, 0.3)),
        build=draw(st.sampled_from(["folded", "folded", "stepped", "plate"])),
        place=draw(st.sampled_from(["high", "low"])),
        creases=draw(st.integers(0, 3)),
        incidence=draw(st.floats(0.0, 0.06)),
        aileron=draw(st.sampled_from([None, Aileron()])),
        spar=Spar.model_construct(strips=draw(st.integers(0, 2))),
        reinforcement=draw(st.lists(sticks(), max_size=2)),
    )


@st.composite
def designs(draw):
    kind = draw(st.sampled_from(["plain", "T", "V"]))
    stab = samples.tail(
        position=0.75,
        span=draw(st.floats(0.25, 0.9)),
        chord=draw(st.floats(0.09, 0.16)),
        layers=draw(st.integers(1, 2)),
        dihedral=0.6 if kind == "V" else 0.0,
    )
    fin = samples.tail(position=0.76, span=0.16, chord=0.15, tip_chord=0.1, sweep=0.3)
    return samples.design(
        wing=draw(wings()),
        tail=Tail(kind=kind),
        stab=stab,
        fin=None if kind == "V" else fin,
        fuselage=Fuselage.model_construct(
            length=draw(st.floats(0.92, 1.5)), build=draw(st.sampled_from(["profile", "box"]))
        ),
        pack=Pack.model_construct(position=draw(st.floats(0.08, 0.3))),
        covering=Covering.model_construct(
            stock=draw(st.sampled_from([None, "packing tape"])),
            wing=draw(st.sampled_from(["edges", "all"])),
        ),
    )


def built(design):
    try:
        plane = build_airframe(design, 0.005)
        return plane, build_parts(design, plane, STOCK)
    except (DesignError, DesignErrors):
        assume(False)
        raise


@settings(deadline=None, max_examples=60)
@given(designs())
def test_parts_of_any_design(design):
    plane, made = built(design)
    by_id = {part.id: part for part in made.parts}
    assert len(by_id) == len(made.parts)
    for part in made.parts:
        assert part.outline.is_valid
        assert part.outline.exterior.is_ccw
        assert part.mass > 0.0
        faces = sum(facet.polygon.area for facet in part.facets)
        assert faces == pytest.approx(part.outline.area, rel=1e-6)
        for facet in part.facets:
            assert math.hypot(*facet.along) == pytest.approx(1.0)
            dot = sum(a * b for a, b in zip(facet.along, facet.across, strict=True))
            assert dot == pytest.approx(0.0, abs=1e-9)
        for line in part.lines:
            whole = Polygon(part.outline.exterior).buffer(2e-5)
            assert line.kind == "mark" or whole.covers(LineString(line.points)), line.label
        if part.mirrored_of:
            other = by_id[part.mirrored_of]
            assert part.mass == pytest.approx(other.mass)
            x, y, z = part_centre(other)
            assert part_centre(part) == pytest.approx((x, -y, z), abs=1e-9)
            flipped = affinity.scale(other.outline, -1.0, 1.0, origin=(0.0, 0.0))
            assert flipped.symmetric_difference(part.outline).area < 1e-9
    listed = sum(line.mass.typical for line in cut_list(made.parts))
    assert listed == pytest.approx(sum(part.mass for part in made.parts))
    assert sum(line.count for line in cut_list(made.parts)) == len(made.parts)
    formula = 0.0
    for panel, laid in zip(design.wing.panel, plane.wing.panels, strict=True):
        formula += (laid.root_chord + laid.tip_chord) * panel.span
    assert plane.wing.area == pytest.approx(formula)


@settings(deadline=None, max_examples=200)
@given(
    length=st.floats(0.01, 2.0),
    longest=st.floats(0.12, 0.95),
    thin=st.floats(0.001, 0.008),
    avoid=st.lists(st.floats(0.0, 2.0), max_size=3),
)
def test_laps_cover_a_run_without_gap(length, longest, thin, avoid):
    lap = lap_length(thin, longest)
    try:
        pieces = lapped(length, longest, lap=lap, avoid=avoid, apart=0.08)
    except DesignError:
        assert length > 10 * longest
        return
    assert pieces[0][0] == 0.0
    assert pieces[-1][1] == pytest.approx(length)
    assert all(0.0 < b - a <= longest + 1e-9 for a, b in pieces)
    for (_, end), (start, _) in pairwise(pieces):
        assert end - start >= lap - 1e-9


@settings(deadline=None, max_examples=80)
@given(
    chord=st.floats(0.13, 0.30),
    thickness=st.floats(0.0043, 0.0051),
    strips=st.integers(0, 2),
    position=st.floats(0.22, 0.35),
    creases=st.lists(st.floats(0.09, 0.5), max_size=3),
)
def test_blank_folds_back(chord, thickness, strips, position, creases):
    recipe = FoldedRecipe(
        tuple(creases), True, None, strips * thickness, 0.0254, position, "clark-y"
    )
    try:
        section = folded_section(recipe, chord, thickness)
    except DesignError:
        assume(False)
        raise
    path = section.skin_path
    run = sum(math.dist(a, b) for a, b in pairwise(path))
    run += sum(NEUTRAL[line.kind] * thickness * line.angle for line in section.lines)
    assert run == pytest.approx(section.blank_length, abs=5e-5)
    assert Polygon([*section.lower, *section.upper[::-1]]).is_valid
    xs = [x for x, _ in section.upper]
    assert xs == sorted(xs)


@settings(deadline=None, max_examples=30)
@given(st.floats(0.6, 1.6))
def test_scaled_planform(scale):
    base = build_airframe(samples.design(wing=samples.wing()), 0.005).wing
    panels = (samples.panel(0.5842 * scale, 0.197 * scale, dihedral=0.0436),)
    grown = samples.design(wing=samples.wing(panels, position=0.2))
    try:
        wing = build_airframe(grown, 0.005).wing
    except DesignErrors:
        assume(False)
        raise
    assert wing.area == pytest.approx(base.area * scale**2)
    assert wing.aspect_ratio == pytest.approx(base.aspect_ratio)


@settings(deadline=None, max_examples=40)
@given(
    root=st.floats(0.15, 0.25),
    ratio=st.floats(0.7, 0.999),
    creases=st.integers(0, 3),
    strips=st.integers(0, 2),
)
def test_tapered_blank_is_straight_from_end_to_end(root, ratio, creases, strips):
    """Lines drawn straight from root to tip lie, half-way, where the section there wants them."""
    tip, thickness = ratio * root, 0.005
    wing = samples.wing(creases=creases, spar=Spar.model_construct(strips=strips))
    try:
        ends = [wing_section(wing, c, thickness, taper=(root, tip)) for c in (root, tip)]
        middle = wing_section(wing, 0.5 * (root + tip), thickness, taper=(root, tip))
    except DesignError:
        assume(False)
        raise
    rows = [[line.at for line in section.lines] for section in (*ends, middle)]
    kinds = [[line.kind for line in section.lines] for section in (*ends, middle)]
    assert kinds[0] == kinds[1] == kinds[2]
    for inner, outer, half in zip(*rows, strict=True):
        assert half == pytest.approx(0.5 * (inner + outer), abs=4e-4)
    blank = 0.5 * (ends[0].blank_length + ends[1].blank_length)
    assert middle.blank_length == pytest.approx(blank, abs=4e-4)
