"""The folded wing section against the Clark-Y."""

import math

import numpy as np
import pytest

from foamwright.shape.folded import FoldedRecipe, folded_section
from foamwright.shape.outline import measure
from foamwright.shape.reference import CLARK_Y_ORDINATES, clark_y

# Ordinates of the published table (per cent of chord above the flat bottom), upper side.
UPPER = {2.5: 6.50, 5: 7.90, 10: 9.60, 15: 10.69, 20: 11.36, 30: 11.70, 40: 11.40, 50: 10.52,
         60: 9.15, 70: 7.35, 80: 5.22, 90: 2.80}  # fmt: skip
TABLE = "NACA Technical Report 431 (1932), Clark-Y ordinates"
TRADE = (
    "common practice, no source: folded over two 1 in strips it comes very close to a Clark-Y; "
    "allowed is one board thickness over four (0.66 % of this chord)"
)


def section():
    recipe = FoldedRecipe((0.1, 0.2), True, None, 0.010, 0.0254, 0.27, "clark-y")
    return folded_section(recipe, 0.190, 0.005)


def above_chord_line(x):
    """The table's upper ordinate at x, turned to its chord line by hand. [per cent]"""
    rise = 3.5 - 0.06
    return UPPER[x] - 3.5 + rise * x / 100.0


def test_table_thickness(reproduce):
    upper, lower, _ = clark_y()
    thick = measure(upper, lower).thickness
    reproduce(
        "Clark-Y largest thickness over chord",
        computed=thick,
        printed=0.117,
        near=0.0005,
        source=TABLE + ": 11.70 % at 30 %",
    )


def test_table_bottom_angle(reproduce):
    reproduce(
        "Clark-Y flat bottom against the chord line, deg",
        computed=math.degrees(clark_y()[2]),
        printed=2.10,
        near=0.15,
        source="coordinates in Summary of Low-Speed Airfoil Data vol. 1 (1995); the table's nose "
        "point lies 0.2 % of chord lower than theirs, which is 0.13 deg",
    )


@pytest.mark.parametrize("x", sorted(UPPER))
def test_folded_upper_side(reproduce, x):
    made = np.array(section().upper)
    computed = 100.0 * np.interp(x / 100.0, made[:, 0], made[:, 1])
    reproduce(
        f"folded section, upper side at {x:g} % (per cent of chord above the chord line)",
        computed=computed,
        printed=above_chord_line(x),
        near=1.0,
        source=TABLE + "; " + TRADE.split(";")[0] + "; allowed 1 % of chord",
    )


def test_folded_rms(reproduce):
    reproduce(
        "folded section, rms distance to the Clark-Y over chord (hoped for: none)",
        computed=section().target_rms,
        printed=0.0,
        near=0.0066,
        source=TABLE + "; " + TRADE,
    )


def test_the_typed_table_is_the_printed_one():
    typed = {x: upper for x, upper, _ in CLARK_Y_ORDINATES}
    assert {x: typed[float(x)] for x in UPPER} == UPPER


def test_blank_length_by_hand(reproduce):
    # No spar bulge and no crease: a straight-sided section worked by hand. Spar 10 mm high, its
    # front edge 38.6 and rear edge 64.0 mm behind the nose circle's start at x = 0; middle lines:
    # bottom 190 - 5 = 185 mm; nose paper 5 mm * (pi - 24.8 deg) = 13.54 mm; up to the spar
    # hypot(38.6 - 3.95, 17.5 - 7.27) = 36.13; over it 25.4; down to the bevel at 150 mm
    # hypot(85.67, 9.94) = 86.24 (from 17.5 to 7.56 mm); bevel hypot(40, 9) = 41.00. Sum 387.3 mm.
    # The real skin is curved between those points: a little longer.
    by_hand = 0.185 + 0.01354 + 0.03613 + 0.0254 + 0.08624 + 0.0410
    reproduce(
        "blank of the 190 mm folded section, m",
        computed=section().blank_length,
        printed=by_hand,
        rel=0.005,
        source="hand computation with straight stretches; the bulge between them adds 0.2 %",
    )
