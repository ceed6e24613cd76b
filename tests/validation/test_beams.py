"""Beams, rods and plywood.

Roark's Formulas for Stress and Strain, table 8.1; USDA Wood Handbook ch. 9 and 12 (formulas from
memory, worked figures); minimum properties of pultruded carbon from a data sheet.
"""

import math

from foamwright.strength.beams import (
    cantilever_spread_deflection,
    cantilever_stress,
    centre_load_deflection,
    ply_modulus,
    rod_moment,
    rod_second_moment,
)

ROARK = "Roark table 8.1 (from memory)"
STICK = 12e9 * 0.010 * 0.002**3 / 12.0
TUBE = {"height": 0.006, "bore": 0.004, "round_rod": True}


def test_rods(reproduce):
    for words, computed, printed in (
        (
            "root stress of a 6.35 mm dowel with 10 N at 100 mm, Pa",
            cantilever_stress(10.0, 0.1, diameter=6.35e-3),
            39.7813e6,
        ),
        (
            "sag of a 10 x 2 mm stick over 90 mm under 5 N, m",
            centre_load_deflection(5.0, 0.09, stiffness=STICK),
            0.949219e-3,
        ),
        (
            "the same with both ends clamped, m",
            centre_load_deflection(5.0, 0.09, stiffness=STICK, clamped=True),
            0.237305e-3,
        ),
        (
            "tip of a cantilever of 0.5 m under 4.905 N/m, EI 11.2 N m², m",
            cantilever_spread_deflection(4.905, 0.5, 11.2),
            3.42146e-3,
        ),
    ):
        reproduce(words, computed=computed, printed=printed, rel=1e-3, source=ROARK)


def test_carbon_tube(reproduce):
    inertia = rod_second_moment(0.006, **TUBE)
    reproduce(
        "EI of a 6 x 4 mm carbon tube, N m²",
        computed=127e9 * inertia,
        printed=6.48346,
        rel=1e-3,
        source="data sheet, 127 GPa minimum flexural modulus",
    )
    reproduce(
        "bending moment at which it fails, N m",
        computed=rod_moment(1.37e9, inertia, height=0.006),
        printed=23.3132,
        rel=1e-3,
        source="data sheet, 1.37 GPa minimum flexural strength",
    )
    assert math.isclose(inertia, math.pi * (0.006**4 - 0.004**4) / 64)


def test_plywood(reproduce):
    # True EL is MOE plus a tenth (span-depth shear), ET/EL = 0.05: Wood Handbook table 5-1.
    along = 1.1 * 12.76e9
    reproduce(
        "five equal plies over EL, (99 + 26 x 0.05) / 125",
        computed=ply_modulus(along, 0.05 * along, plies=5) / along,
        printed=(99 + 26 * 0.05) / 125,
        rel=1e-3,
        source="laminated beam, USDA Wood Handbook ch. 12 (from memory)",
    )
    reproduce(
        "three equal plies over EL, (26 + 0.05) / 27",
        computed=ply_modulus(along, 0.05 * along, plies=3) / along,
        printed=(26 + 0.05) / 27,
        rel=1e-3,
        source="laminated beam, USDA Wood Handbook ch. 12 (from memory)",
    )
