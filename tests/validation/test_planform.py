"""Area and mean chord of a straight-tapered wing, and sheet mass."""

import math
from dataclasses import replace

import foam_samples as samples
from foamwright.core.bands import Band
from foamwright.design.model import Board
from foamwright.parts.material import board_work, ply_areal_mass
from foamwright.shape.airframe import build_airframe
from foamwright.stock.load import load_stock

FORMULA = "Raymer, Aircraft Design: A Conceptual Approach, mean-chord formula (from memory)"


def tapered():
    # Root 250 mm, tip 100 mm, half span 600 mm, leading edge swept 5 deg, no dihedral.
    panel = samples.panel(0.6, 0.25, tip_chord=0.10, sweep=math.radians(5.0))
    return build_airframe(
        samples.design(wing=samples.wing((panel,), position=0.15, build="plate")), 0.005
    ).wing


def test_area(reproduce):
    reproduce(
        "wing area, m2", computed=tapered().area, printed=1.2 * 0.175, rel=1e-9, source=FORMULA
    )


def test_mean_chord(reproduce):
    taper = 0.4
    printed = 2.0 / 3.0 * 0.25 * (1 + taper + taper**2) / (1 + taper)
    reproduce(
        "mean aerodynamic chord, m", computed=tapered().mean_chord, printed=printed, rel=1e-9,
        source=FORMULA,
    )  # fmt: skip


def test_mean_chord_place(reproduce):
    # y = (b/6) (1 + 2 taper) / (1 + taper); leading edge there.
    y = 1.2 / 6.0 * 1.8 / 1.4
    reproduce(
        "its leading edge aft of the nose, m",
        computed=tapered().mean_chord_x,
        printed=0.15 + y * math.tan(math.radians(5.0)),
        rel=1e-9,
        source=FORMULA,
    )


def test_sheet_mass(reproduce):
    work = board_work(Board.model_construct(), samples.sample_stock(), 0.005)
    reproduce(
        "20 x 30 in sheet at 297 g/m2, g",
        computed=1000 * work.areal_mass.typical * 0.508 * 0.762,
        printed=115.0,
        rel=0.005,
        source="kitchen-scale reading of one sheet, 115 g (hobbyist article, 2013)",
    )


def test_ply_mass(reproduce):
    ply = load_stock().plies["birch ply 1/8 in"]
    areal = ply_areal_mass(replace(ply, thickness=Band.exact(3.175e-3), density=Band.exact(680.0)))
    reproduce(
        "a square foot of 1/8 in birch ply at 680 kg/m3, g",
        computed=1000 * areal.typical * 0.3048**2,
        printed=200.578,
        rel=0.005,
        source="thickness times density, worked by hand",
    )


def test_tape_mass(reproduce):
    tape = load_stock().tapes["packing tape"]
    reproduce(
        "a metre of 48 mm packing tape, g",
        computed=1000 * tape.areal_mass.typical * 0.048,
        printed=2.232,
        rel=0.05,
        source="50 um at 0.93 g/cm3 by hand; the trade weighs 2.4 g (from memory)",
    )
