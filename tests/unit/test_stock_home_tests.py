"""Readings of home tests in place of the bands of stock, and readings that cannot be."""

import pytest
from design_text import TEXT

from foamwright.core.errors import DesignErrors
from foamwright.opening import load_text
from foamwright.stock.home_tests import crease_strength, sag_modulus
from foamwright.stock.home_tests import tested_stock as stock_of
from foamwright.strength.named import figures_of
from sample_wing import STOCK, design


def measured_stock(**changes):
    plan = design(**changes)
    return stock_of(plan.board, plan.glue, STOCK)


def test_no_reading_changes_nothing():
    assert measured_stock() is STOCK


def test_a_crease_by_hand():
    # 400 g: 3.92 N over 300 mm, 50 mm of board 4.76 mm thick with papers of 0.13 mm.
    # sigma = 3.9227 * 0.3 / (2 * 0.13e-3 * (4.76e-3 + 4.5e-3) * 0.05) = 9.776 MPa.
    stress = crease_strength(0.4, 0.3, width=0.05, thickness=4.76e-3, paper=0.13e-3)
    assert stress == pytest.approx(9.776e6, rel=1e-3)
    board = measured_stock(board__test={"crease_load": "400 g"}).boards["light display board"]
    band = board.paper_compressive_strength
    assert band.low == band.typical == band.high == pytest.approx(stress)
    assert band.source == "measured at home"


def test_a_sag_by_hand():
    # E = 0.98066 N * 0.027 m³ / (24 * 2.3e-3 * 0.13e-3 * 4.63e-3² * 0.05) = 3.44 GPa.
    modulus = sag_modulus(0.1, 2.3e-3, span=0.3, width=0.05, thickness=4.76e-3, paper=0.13e-3)
    assert modulus == pytest.approx(3.442e9, rel=1e-3)
    board = measured_stock(board__test={"sag_load": "100 g", "sag": "2.3 mm"}).boards[
        "light display board"
    ]
    assert board.paper_modulus.high == pytest.approx(modulus)


def test_a_measured_figure_is_no_longer_doubted():
    plan = design(board__test={"crease_load": "400 g"})
    before = figures_of(plan, STOCK)["board.paper_compressive_strength"]
    after = figures_of(plan, stock_of(plan.board, plan.glue, STOCK))
    assert before.high > before.low
    band = after["board.paper_compressive_strength"]
    assert band.high == band.low


def test_peeled_sheet_and_glue_stick():
    # 115 g whole, 46 g peeled on 762 x 508 mm: 69 g / 2 / 0.3871 m2 = 89.1 g/m2 a paper.
    stock = measured_stock(board__mass="115 g", board__test={"peeled_mass": "46 g"})
    assert stock.boards["light display board"].paper_areal_mass.typical == pytest.approx(
        0.0891, rel=1e-3
    )
    # 24 g of stick on 220 g of board: 10.9 %.
    glue = {"stick_before": "60 g", "stick_after": "36 g", "glued_mass": "220 g"}
    assert measured_stock(glue=glue).glues["hot glue"].share.high == pytest.approx(24 / 220)


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"board__test": {"crease_load": "15 kg"}}, r"board\.test\.crease_load is a reading that"),
        ({"board__test": {"crease_load": "10 g"}}, "board and glue give 2.0 MPa to 60.0 MPa"),
        ({"board__test": {"sag": "3 mm"}}, r"board\.test\.sag_load is missing"),
        ({"board__test": {"sag_load": "100 g", "sag": "0.1 mm"}}, r"board\.test\.sag is a reading"),
        ({"board__test": {"peeled_mass": "46 g"}}, "Give board.mass"),
        (
            {"board__mass": "115 g", "board__test": {"peeled_mass": "120 g"}},
            r"peeled_mass is 120 g; a peeled sheet is lighter than the whole one of 115 g",
        ),
        (
            {"board__mass": "115 g", "board__test": {"peeled_mass": "112 g"}},
            r"board\.test\.peeled_mass is a reading that means 4 g/m2 a paper",
        ),
        ({"glue__stick_before": "60 g"}, r"glue\.stick_after is missing"),
        (
            {"glue": {"stick_before": "36 g", "stick_after": "60 g", "glued_mass": "220 g"}},
            r"glue\.stick_after is 60 g; the sticks weighed 36 g before",
        ),
        (
            {"glue": {"stick_before": "60 g", "stick_after": "10 g", "glued_mass": "20 g"}},
            r"glue\.glued_mass is a reading that means 250\.0 % of the board",
        ),
    ],
)
def test_impossible_readings_are_refused_by_name(changes, words):
    with pytest.raises(DesignErrors, match=words):
        measured_stock(**changes)


def test_an_impossible_reading_is_told_with_its_line():
    text = TEXT + '\n[board.test]\ncrease_load = "15 kg"\n'
    line = text.splitlines().index('crease_load = "15 kg"') + 1
    with pytest.raises(DesignErrors, match=f"odd.toml:{line}: board.test.crease_load"):
        load_text(text, "odd.toml")
