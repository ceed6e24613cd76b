"""Area and mean chord of a straight-tapered wing, and sheet mass."""

import math

import foam_samples as samples
from foamwright.design.model import Board
from foamwright.parts.material import board_work
from foamwright.shape.airframe import build_airframe

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
