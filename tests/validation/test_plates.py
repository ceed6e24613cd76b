"""Plates on four edges, evenly loaded and pushed in the middle.

Roark's Formulas for Stress and Strain, table 11.4 cases 1a and 1b (coefficients read).
"""

import pytest

from foamwright.strength.plates import (
    push_deflection,
    push_stress,
    uniform_deflection,
    uniform_stress,
)

SOURCE = "Roark table 11.4 case 1"


def test_even_load(reproduce):
    reproduce(
        "sag of 1/16 in ply, 40 x 48 mm, under 5 kPa, m",
        computed=uniform_deflection(5e3, long=0.048, short=0.040, thickness=1.59e-3, modulus=9.5e9),
        printed=0.0206479e-3,
        rel=5e-3,
        source=SOURCE,
    )
    reproduce(
        "stress of 1/16 in ply, 40 x 80 mm, under 5 kPa, Pa",
        computed=uniform_stress(5e3, long=0.080, short=0.040, thickness=1.59e-3),
        printed=1.93094e6,
        rel=5e-3,
        source=SOURCE,
    )


@pytest.mark.parametrize(
    ("ply", "thickness", "sag", "stress"),
    [("1/16 in", 1.59e-3, 0.232199e-3, 16.829e6), ("1/8 in", 3.18e-3, 0.0290249e-3, 4.20724e6)],
)
def test_firewall(reproduce, ply, thickness, sag, stress):
    size = {"long": 0.036, "short": 0.036, "thickness": thickness}
    reproduce(
        f"sag of a 36 mm firewall of {ply} ply pushed with 54 N, m",
        computed=push_deflection(54.0, **size, modulus=9.5e9),
        printed=sag,
        rel=5e-3,
        source=SOURCE,
    )
    reproduce(
        f"stress of the same {ply} firewall on an 18 mm motor, Pa",
        computed=push_stress(54.0, **size, pad=0.009),
        printed=stress,
        rel=5e-3,
        source=SOURCE,
    )
