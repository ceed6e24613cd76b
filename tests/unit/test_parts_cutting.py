"""What the bench must offer: hand-worked pieces."""

import math

import pytest
from shapely import Polygon, box

import foam_samples as samples
from foamwright.core.bands import Band
from foamwright.design.model import Fuselage
from foamwright.parts.build import build_parts
from foamwright.parts.cutting import cutting_needs
from foamwright.parts.model import Facet, Line, LineKind, Part, Source
from foamwright.shape.airframe import build_airframe


def piece(id, outline, lines=(), source=Source.BOARD):
    facet = Facet(outline, (0, 0, 0), (1, 0, 0), (0, 1, 0), 0.005)
    return Part(id, id, id, "", "board", source, outline, lines, (facet,), Band(1, 1, 1), 0.005)


def test_blade_of_a_square_and_of_a_slanted_cut():
    plain = piece("plain", box(0, 0, 0.1, 0.05))
    assert cutting_needs([plain]).blade_reach == pytest.approx(0.005 + 0.002)
    bevel = Line(LineKind.BEVEL, ((0, 0.045), (0.1, 0.045)), "hinge bevel 45°")
    slanted = piece("slanted", box(0, 0, 0.1, 0.05), (bevel,))
    needs = cutting_needs([plain, slanted])
    assert needs.blade_part == "slanted"
    assert needs.blade_reach == pytest.approx(0.005 * math.sqrt(2) + 0.002)


def test_ruler():
    long = piece("long", Polygon([(0, 0), (0.4, 0), (0.7, 0), (0.7, 0.05), (0, 0.05)]))
    needs = cutting_needs([piece("short", box(0, 0, 0.3, 0.1)), long])
    # The point at 0.4 lies on the same straight cut.
    assert needs.longest_cut == pytest.approx(0.7)
    assert needs.long_parts == ("long",)
    assert cutting_needs([long], ruler=1.0).long_parts == ()


def test_neck():
    # Two squares of 50 mm joined by a bar 6 mm wide.
    bar = box(0, 0, 0.05, 0.05).union(box(0.04, 0.02, 0.11, 0.026)).union(box(0.1, 0, 0.15, 0.05))
    needs = cutting_needs([piece("dumbbell", bar), piece("block", box(0, 0, 0.1, 0.1))])
    assert needs.narrow_part == "dumbbell"
    assert needs.least_width == pytest.approx(0.006, abs=0.0002)


def test_only_board_counts():
    ply = piece("ply", box(0, 0, 2.0, 0.001), source=Source.PLY)
    assert cutting_needs([ply]).longest_cut == 0.0


def test_slots_fit_the_board():
    design = samples.design(fuselage=Fuselage.model_construct(length=0.914, layers=3))
    made = build_parts(design, build_airframe(design, 0.0047), samples.sample_stock())
    slots = cutting_needs(made.parts).slots
    assert [slot.part for slot in slots] == ["stab"]
    # Slots are true to 0.1 mm of the board as measured.
    assert abs(slots[0].play) < 1e-4
